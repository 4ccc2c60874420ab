package catalogue_test

var reelRoom = room{}
