package catalogue_test

var labRoom = room{
	byMethod: map[string]string{
		"round":               "decimal text, not a number",
		"shares":              "largest remainders",
		"conformity-rounding": "decimal text, not a number",
	},
	lost: map[string]string{
		"conformity-rounding step": "a saw over the step: more roots than any grid finds",
	},
}
