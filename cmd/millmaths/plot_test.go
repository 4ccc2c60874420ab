package main

import (
	"strings"
	"testing"
)

// A number in a table has all its digits: what is cut off it is its unit, and a pure
// number has none. 840.48 N bear 10.2 boxes of 8.4 kg above the one that carries them.
func TestNumbersOfARange(t *testing.T) {
	const stack = `stacking --box-compression "2.06 kN" --layers 8 --multiplier "[0.6 0.8 0.85]" --mass "7.6..8.4 kg by 0.8 kg"`
	for _, test := range []struct{ command, want string }{
		{stack, "8.4        576.631   0.408             840.48            3.57248        11\n"},
		{stack + " --csv", "\n8.4,576.631,0.408,840.48,3.57248,11\n"},
		{`stack-layers --stack-height "300..600 mm by 300 mm" --box-height "300 mm" --csv`, "stack-height [mm],layers\n300,1\n600,2\n"},
	} {
		if r := called("", words(test.command)...); r.Status != done || !strings.Contains(r.Out, test.want) {
			t.Errorf("%s: exit %d, got %s, want in it %q", test.command, r.Status, r.Out, test.want)
		}
	}
}

// A range of counts is told without a unit, and what it refuses beside the table, be
// it of one column.
func TestRangeOfCounts(t *testing.T) {
	r := called("", "range-factor", "--count", "0..25")
	if strings.Contains(r.Out, "refused") || !strings.Contains(r.Err, "count = 0: refused: count is 0, want") || !strings.Contains(r.Err, "the range ends at 24: its step does not lead to the end") {
		t.Error(r.Err)
	}
}
