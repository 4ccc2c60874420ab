package main

import (
	"os"
	"strings"
	"testing"

	"millmaths.example/paperprop"
)

// The night of the invented Quillbeck: two hours of poor retention, an hour
// without a headbox reading, one with a gauge being calibrated.
func TestWatch(t *testing.T) {
	f, err := os.Open("../quillbeck/white-water.csv")
	if err != nil {
		t.Fatal(err)
	}
	defer f.Close()
	var said strings.Builder
	if err := watch(f, &said, 74*paperprop.Percent); err != nil {
		t.Fatal(err)
	}
	const want = `24.10.2026 22:00  not known: headbox: number "-- %": no digits
25.10.2026 01:00  not known: tray: number "<0.05 %": no digits
25.10.2026 04:00  low: 66.9 %
25.10.2026 05:00  low: 65.9 %
`
	if said.String() != want {
		t.Errorf("said\n%swant\n%s", said.String(), want)
	}
	if err := watch(strings.NewReader("time,a\n1,2\n"), &said, 0); err == nil {
		t.Error("a row of two cells was taken")
	}
}
