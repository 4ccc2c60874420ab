package catalogue_test

var fibreRoom = room{}
