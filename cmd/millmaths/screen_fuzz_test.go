package main

import (
	"bytes"
	"strings"
	"testing"
	"unicode/utf8"
)

// What comes to a screen prints; in how many pieces it was written does not
// matter, and what prints anyway is as it was.
func FuzzScreen(f *testing.F) {
	for _, text := range []string{"300 t/h", "\x1b[31mred", "\u202e", "a\x00b\r\n", "\xe2\x82", "é𝛼", "\xff\xfe", `\x1b`} {
		f.Add(text, 1)
	}
	f.Fuzz(func(t *testing.T, text string, at int) {
		got := string(printable([]byte(text)))
		if strings.ContainsFunc(got, func(r rune) bool { return !prints(r) }) || !utf8.ValidString(got) {
			t.Fatalf("%q is shown as %q", text, got)
		}
		if string(printable([]byte(got))) != got {
			t.Errorf("%q is shown as %q, and that as something else", text, got)
		}
		if utf8.ValidString(text) && !strings.ContainsFunc(text, func(r rune) bool { return !prints(r) }) && got != text {
			t.Errorf("%q is shown as %q", text, got)
		}
		if !utf8.ValidString(text) {
			return // a character cut at the end is kept for the next piece
		}
		var out bytes.Buffer
		s := &screen{to: &out}
		at = min(max(at, 0), len(text))
		for _, piece := range []string{text[:at], text[at:]} {
			if n, err := s.Write([]byte(piece)); err != nil || n != len(piece) {
				t.Fatalf("Write(%q) = %d, %v", piece, n, err)
			}
		}
		if out.String() != got {
			t.Errorf("%q in two pieces, the first of %d bytes, is shown as %q, in one as %q", text, at, out.String(), got)
		}
	})
}
