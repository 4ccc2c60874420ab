package main

import (
	"strings"
	"testing"
)

// Reckoned by hand: 24.8·0.879/0.9 + 25.3·0.891/0.9 + 23.9·0.885/0.9 t, and
// 24.8·(1 − 0.021) + 25.3·(1 − 0.009) + 23.9·(1 − 0.015) t.
func TestWrite(t *testing.T) {
	var b strings.Builder
	if err := write(&b); err != nil {
		t.Fatal(err)
	}
	const want = `by basis:  pay 72770 kg, claim 1230 kg, delivered 74000 kg
by points: pay 72893 kg, claim 1107 kg, delivered 74000 kg
`
	if b.String() != want {
		t.Errorf("got\n%swant\n%s", b.String(), want)
	}
}

func TestArgumentsRefused(t *testing.T) {
	const want = `"foo" is too much: the lot stands in the program, want no argument`
	if err := check([]string{"foo"}); err == nil || err.Error() != want {
		t.Errorf("%v, want %s", err, want)
	}
	if err := check(nil); err != nil {
		t.Error(err)
	}
}
