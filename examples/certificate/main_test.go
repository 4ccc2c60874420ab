package main

import (
	"strings"
	"testing"
)

func TestCertify(t *testing.T) {
	for _, test := range []struct {
		limit float64
		want  string
	}{
		{6.2, "H120-7 MD, 10 pieces: 6.47 kN/m, pass at least 6.2 kN/m\n"},
		{6.4, "H120-7 MD, 10 pieces: 6.47 kN/m, undecided at least 6.4 kN/m\n"},
		{6.7, "H120-7 MD, 10 pieces: 6.47 kN/m, fail at least 6.7 kN/m\n"},
	} {
		var b strings.Builder
		if err := certify("../quillbeck/tensile.txt", "H120-7", "MD", test.limit, &b); err != nil || b.String() != test.want {
			t.Errorf("at least %v: %q, %v, want %q", test.limit, b.String(), err, test.want)
		}
	}
	if err := certify("../quillbeck/tensile.txt", "H120-9", "MD", 6, &strings.Builder{}); err == nil {
		t.Error("a specimen that was not tested got a certificate")
	}
}
