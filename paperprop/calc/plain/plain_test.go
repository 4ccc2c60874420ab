package plain_test

import (
	"strings"
	"testing"

	"millmaths.example/paperprop/calc/plain"
)

func TestFolded(t *testing.T) {
	for _, test := range []struct{ text, want string }{
		{strings.Repeat("a", 90), strings.Repeat("a", 90)},
		{strings.Repeat("a", 75) + " + b", strings.Repeat("a", 75) + "\n  + b"},
		{strings.Repeat("a", 75) + "*bcd", strings.Repeat("a", 75) + "\n  *bcd"},
		{"pow(" + strings.Repeat("a", 70) + ", 0.5)", "pow(" + strings.Repeat("a", 70) + ",\n  0.5)"},
		{"a - " + strings.Repeat("b", 90) + " + c", "a\n  - " + strings.Repeat("b", 90) + "\n  + c"},
		{"[" + strings.Repeat("1234 ", 17) + "5] g", "[" + strings.Repeat("1234 ", 14) + "1234\n  1234 1234 5] g"},
	} {
		if got := plain.Folded(test.text, 2); got != test.want {
			t.Errorf("%q is folded as %q, want %q", test.text, got, test.want)
		}
	}
}

// A long list with nothing behind it is wrapped, and parts no other rows.
func TestRowsWithALongList(t *testing.T) {
	var out strings.Builder
	plain.Rows(&out, [][]string{{"mean", "50 N", ""}, {"outside", "[" + strings.Repeat("1234 ", 18) + "1]", ""}, {"confidence", "95 %", "default"}})
	want := "mean        50 N\n" +
		"outside     [" + strings.Repeat("1234 ", 12) + "1234\n            " + strings.Repeat("1234 ", 5) + "1]\n" +
		"confidence  95 %  default\n"
	if out.String() != want {
		t.Errorf("printed\n%s want\n%s", out.String(), want)
	}
}

// A text is not broken at a no-break space, which comes out as a space.
func TestWrapped(t *testing.T) {
	if got, want := plain.WrappedAt("aa "+strings.Repeat("b", 76)+" c\u00a0d\ne", 0), "aa "+strings.Repeat("b", 76)+"\nc d e"; got != want {
		t.Errorf("wrapped: %q, want %q", got, want)
	}
}
