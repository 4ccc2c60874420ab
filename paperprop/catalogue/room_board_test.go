package catalogue_test

var boardRoom = room{}
