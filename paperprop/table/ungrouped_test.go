package table_test

import (
	"testing"

	"millmaths.example/paperprop/table"
)

func TestUngrouped(t *testing.T) {
	for _, test := range []struct {
		cell    string
		decimal byte
		want    string
	}{
		{"1 234,5", ',', "1234,5"}, {"1'234.5", '.', "1234.5"}, {"12 345 678", '.', "12345678"},
		{"1\u00A0234", '.', "1234"}, {"1\u2009234,5", ',', "1234,5"}, {"-1 234", '.', "-1234"},
		{"121 125 3", '.', ""}, {"12 34", '.', ""}, {"1 234 N", '.', ""}, {"1234", '.', ""}, {" 123", '.', ""}, {"1 2345", '.', ""},
	} {
		if got := string(table.Ungrouped([]byte(test.cell), test.decimal)); got != test.want {
			t.Errorf("Ungrouped(%q) is %q, want %q", test.cell, got, test.want)
		}
	}
}

func TestUngroupedValue(t *testing.T) {
	for _, test := range []struct {
		cell    string
		decimal byte
		want    string
	}{
		{"1 355,3 mm", ',', "1355,3 mm"}, {"1'355.3 mm", '.', "1355.3 mm"}, {"1\u202F355,3\u00A0mm", ',', "1355,3\u00A0mm"}, {"1\u2019355mm", '.', "1355mm"}, {"1\u2009355,3 mm", ',', "1355,3 mm"},
		{"-12 355 °C", '.', "-12355 °C"}, {"1 355,3 ± 0,2 mm", ',', "1355,3 ± 0,2 mm"}, {"1 355,3", ',', "1355,3"}, {"1 234(5) N", '.', "1234(5) N"},
		{"1355,3 mm", ',', ""}, {"1 35,3 mm", ',', ""}, {"5 6 7 g", '.', ""}, {"[1 355] g", '.', ""}, {"N 1 355", '.', ""}, {"", '.', ""},
		{"1 355; 1 400 g", '.', ""}, {"1 355..1 400 g", '.', ""}, {"1 355.3 mm", ',', ""}, {"1 355/2 mm", '.', ""}, {"1 355e3 mm", '.', ""}, {"1 355'", '.', ""},
	} {
		if got := string(table.UngroupedValue([]byte(test.cell), test.decimal)); got != test.want {
			t.Errorf("UngroupedValue(%q) is %q, want %q", test.cell, got, test.want)
		}
	}
}
