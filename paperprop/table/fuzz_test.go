package table

import (
	"bytes"
	"reflect"
	"slices"
	"strings"
	"testing"
	"unicode/utf16"
	"unicode/utf8"
)

// A text reads the same in UTF-8, and in UTF-16 of both orders.
func FuzzEncodings(f *testing.F) {
	for _, text := range []string{"id;force\n;N\nA;1,5\n", "a,b\n\"x\"\"y\",1\n\"\n", "Prüfling;Kraft [N]\r\n1;−2\r\n", "sep=;\na;b\n1;𝛼\n", "\u202ea;b\n1;2\n"} {
		f.Add(text, 64)
	}
	f.Fuzz(func(t *testing.T, text string, block int) {
		if !utf8.ValidString(text) || strings.HasPrefix(text, "\ufeff") || strings.ContainsRune(text, 0) {
			return
		}
		block = 1 + block&0xff
		want := parse(strings.NewReader("\ufeff"+text), Options{}, block)
		units := utf16.Encode([]rune("\ufeff" + text))
		little, big := make([]byte, 0, 2*len(units)), make([]byte, 0, 2*len(units))
		for _, u := range units {
			little = append(little, byte(u), byte(u>>8))
			big = append(big, byte(u>>8), byte(u))
		}
		for name, encoded := range map[string][]byte{"little": little, "big": big} {
			got := parse(bytes.NewReader(encoded), Options{}, block)
			if !reflect.DeepEqual(got.lines, want.lines) || (got.err == "") != (want.err == "") {
				t.Errorf("%q in UTF-16 (%s end first) is %q %s, in UTF-8 %q %s", text, name, got.lines, got.err, want.lines, want.err)
			}
		}
	})
}

// In whatever encoding bytes are said to be, a column is read or refused; as
// numbers as many as there are.
func FuzzReadColumn(f *testing.F) {
	f.Add([]byte("id;force\n;N\nA;1,5\nB;2,5\n"), uint8(0))
	f.Add([]byte("a,force [N]\n1,<5\n"), uint8(1))
	f.Add([]byte("force\xb5\n1\n"), uint8(2))
	names := []string{"", "utf-8", "utf-16le", "utf-16be", "windows-1252"}
	f.Fuzz(func(t *testing.T, text []byte, which uint8) {
		numbers, _, err := ReadColumn(bytes.NewReader(text), Options{Encoding: names[int(which)%len(names)]}, "force")
		if err == nil && slices.Contains(numbers, "") {
			t.Errorf("%q has a reading of nothing: %q", text, numbers)
		}
	})
}
