package catalogue_test

var stockRoom = room{}
