package catalogue_test

var dryingRoom = room{
	byMethod: map[string]string{
		"water-vapour":    "IAPWS-IF97 region 2, sums of powers by table",
		"atmosphere":      "empirical, in metres",
		"desorption-heat": "an integral",
	},
}
