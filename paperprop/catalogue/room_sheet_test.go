package catalogue_test

var sheetRoom = room{
	labels: []string{"cobb time", "short-span thickness", "ring-crush thickness"},
}
