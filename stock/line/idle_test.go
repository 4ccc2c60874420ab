package line_test

import (
	"strings"
	"testing"
)

// A save-all that lives on what runs over stands still when nothing does: the
// tank is named, with what it lacks, and not the save-all.
func TestNothingRunsOver(t *testing.T) {
	for _, test := range []struct{ old, new, want string }{
		{`flow = "20 t/h"`, `flow = "0.1 t/h"`, ""},
		{`flow = "5 t/h"`, `flow = "300 t/h"`, "white water: it lacks "},
	} {
		text := strings.Replace(twoPly, test.old, test.new, 1)
		if text == twoPly {
			t.Fatalf("%q is not in the line", test.old)
		}
		_, err := answer(text)
		switch {
		case test.want == "" && err != nil:
			t.Errorf("%s: %v", test.new, err)
		case test.want != "" && (err == nil || !strings.Contains(err.Error(), test.want) || !strings.Contains(err.Error(), "nothing comes to the save-all")):
			t.Errorf("%s: %v, want %q", test.new, err, test.want)
		}
	}
}
