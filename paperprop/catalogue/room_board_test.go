package catalogue_test

var boardRoom = room{
	byMethod: map[string]string{
		"stack-layers": "whole layers",
	},
	labels: []string{"box-compression height", "box-compression-full height"},
}
