package result_test

import (
	"testing"

	"millmaths.example/paperprop/result"
)

func TestNotation(t *testing.T) {
	const gtc, uncertainties = "GTC 1.5.1 documentation output", "Python uncertainties 3.1.6, default format"
	for _, test := range []struct {
		by                   result.Notation
		value, standard      float64
		brackets, plusMinus  string
		kind, source, reason string
	}{
		{result.TwoFigures, -0.17120379, 0.0028773, "-0.1712(29)", "-0.1712+/-0.0029", "published", gtc, ""},
		{result.TwoFigures, 50000838, 31.71, "50000838(32)", "50000838+/-32", "published", gtc, ""},
		{result.TwoFigures, 0.0021827, 0.00066794, "0.00218(67)", "0.00218+/-0.00067", "published", gtc, ""},
		{result.PDG, 0.827, 0.119, "0.83(12)", "0.83+/-0.12", "library", uncertainties, ""},
		{result.PDG, 123.456, 9.51, "123(10)", "123+/-10", "library", uncertainties, "next decade"},
		{result.PDG, 3.14159, 0.00354, "3.1416(35)", "3.1416+/-0.0035", "library", uncertainties, ""},
		{result.PDG, 3.14159, 0.00355, "3.142(4)", "3.142+/-0.004", "common-practice", "the rule", "one figure"},
		{result.PDG, 3.14159, 0.003549, "3.1416(35)", "3.1416+/-0.0035", "common-practice", "the rule", "three figures, cut"},
		{result.PDG, 3.14159, 0.00949, "3.142(9)", "3.142+/-0.009", "common-practice", "the rule", ""},
		{result.PDG, 3.14159, 0.0095, "3.142(10)", "3.142+/-0.010", "common-practice", "the rule", "two figures of the next decade"},
		{result.TwoFigures, 12.345, 1.2, "12.3(12)", "12.3+/-1.2", "common-practice", "the rule", "no point in brackets"},
		{result.TwoFigures, 1.2345, 0.0996, "1.23(10)", "1.23+/-0.10", "common-practice", "the rule", "a carry"},
		{result.TwoFigures, 1.25, 0.25, "1.25(25)", "1.25+/-0.25", "common-practice", "the rule", ""},
		{result.TwoFigures, 12.25, 2.5, "12.2(25)", "12.2+/-2.5", "common-practice", "the rule", "a tie to even"},
		{result.TwoFigures, 50000838, 3171, "50000800(3200)", "50000800+/-3200", "common-practice", "the rule", "places left of the point"},
		{result.TwoFigures, -0.001, 0.1, "0.00(10)", "0.00+/-0.10", "common-practice", "the rule", "never -0"},
		{result.TwoFigures, 0, 3, "0.0(30)", "0.0+/-3.0", "common-practice", "the rule", "one figure given, two written"},
		{result.TwoFigures, 1e20, 1e5, "100000000000000000000(100000)", "100000000000000000000+/-100000", "common-practice", "the rule", ""},
	} {
		if got := test.by.Brackets(test.value, test.standard); got != test.brackets {
			t.Errorf("%v ± %v is written %s, want %s (%s: %s %s)", test.value, test.standard, got, test.brackets, test.kind, test.source, test.reason)
		}
		if got := test.by.PlusMinus(test.value, test.standard); got != test.plusMinus {
			t.Errorf("%v ± %v is written %s, want %s (%s: %s %s)", test.value, test.standard, got, test.plusMinus, test.kind, test.source, test.reason)
		}
	}
}
