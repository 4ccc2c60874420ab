package catalogue_test

var dryingRoom = room{}
