package wording

import "testing"

func TestOr(t *testing.T) {
	for want, words := range map[string][]string{
		"": nil, "t": {"t"}, "t or kg": {"t", "kg"}, "t, short ton or long ton": {"t", "short ton", "long ton"},
	} {
		if got := Or(words); got != want {
			t.Errorf("Or(%q) = %q, want %q", words, got, want)
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
