package wording

import (
	"strings"
	"testing"
)

func TestOr(t *testing.T) {
	for want, words := range map[string][]string{
		"": nil, "t": {"t"}, "t or kg": {"t", "kg"}, "t, short ton or long ton": {"t", "short ton", "long ton"},
	} {
		if got := Or(words); got != want {
			t.Errorf("Or(%q) = %q, want %q", words, got, want)
		}
	}
}

func TestClip(t *testing.T) {
	x63 := strings.Repeat("x", 63)
	for text, want := range map[string]string{
		"": "", x63 + "y": x63 + "y", x63 + "yz": x63 + "y…", x63 + "é": x63 + "…",
	} {
		if got := Clip(text); got != want {
			t.Errorf("Clip(%q) = %q, want %q", text, got, want)
		}
	}
}

func TestCount(t *testing.T) {
	for n, want := range map[int]string{0: "0 rows", 1: "1 row", 2: "2 rows"} {
		if got := Count(n, "row"); got != want {
			t.Errorf("Count(%d) = %q, want %q", n, got, want)
		}
	}
}

// Kind: common-practice. Counted by hand.
func TestDistance(t *testing.T) {
	for _, test := range []struct {
		a, b string
		want int
	}{{"kitten", "sitting", 3}, {"abc", "", 3}, {"", "abc", 3}, {"abc", "bc", 1}, {"aabc", "bc", 2}, {"mass", "mass", 0}, {"abcd", "wxyz", 4}} {
		if got := Distance(test.a, test.b); got != test.want {
			t.Errorf("from %q to %q are %d steps, want %d", test.a, test.b, got, test.want)
		}
	}
}
