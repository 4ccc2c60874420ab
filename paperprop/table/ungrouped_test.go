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
		{"1\u00A0234", '.', "1234"}, {"-1 234", '.', "-1234"},
		{"121 125 3", '.', ""}, {"12 34", '.', ""}, {"1 234 N", '.', ""}, {"1234", '.', ""}, {" 123", '.', ""}, {"1 2345", '.', ""},
	} {
		if got := string(table.Ungrouped([]byte(test.cell), test.decimal)); got != test.want {
			t.Errorf("Ungrouped(%q) is %q, want %q", test.cell, got, test.want)
		}
	}
}
