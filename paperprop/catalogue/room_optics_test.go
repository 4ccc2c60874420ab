package catalogue_test

var opticsRoom = room{}
