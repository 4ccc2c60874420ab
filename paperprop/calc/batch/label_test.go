package batch_test

import (
	"strings"
	"testing"

	"millmaths.example/paperprop/calc/batch"
)

// A result is not to be read without its label: a summary says what the rows had, and
// warns where those of one group differ.
func TestLabels(t *testing.T) {
	const area = "default in every row: area 100 cm2"
	const heads = "piece,Contact [s],mass-in [g],mass-out [g]\n"
	const parts = `, and a result means nothing without it: column "Contact" separates them`
	for _, test := range []struct {
		name            string
		by              []string
		rows            string
		assumed, warned string
	}{
		{"alike in all, however written", []string{"piece"}, "A,60,1,2\nA,60.0,1,2\nB,1 min,1,2\n", area + "; time 60 s in every row", ""},
		{"alike in one summary", nil, "A,60,1,2\nB,60,1,2\n", area + "; time 60 s in every row", ""},
		{"rows that were not computed have no say", []string{"piece"}, "A,45,x,2\nA,60,1,2\nB,45,n/a,2\n", area + "; time 60 s in every row", ""},
		{"no row computed", []string{"piece"}, "A,45,x,2\n", area, ""},
		{"groups differ", []string{"piece"}, "A,60,1,2\nB,45,1,2\nA,60,1,2\n", area + `; time 60 s in group "A", 45 s in group "B"`, ""},
		{"many groups differ", []string{"piece"}, "A,1,1,2\nB,2,1,2\nC,3,1,2\nD,4,1,2\nE,5,1,2\nF,6,1,2\nG,7,1,2\nH,8,1,2\n",
			area + `; time 1 s in group "A", 2 s in group "B", 3 s in group "C", 4 s in group "D", 5 s in group "E", 6 s in group "F", and so on in 2 more`, ""},
		{"six groups differ", []string{"piece"}, "A,1,1,2\nB,2,1,2\nC,3,1,2\nD,4,1,2\nE,5,1,2\nF,6,1,2\n",
			area + `; time 1 s in group "A", 2 s in group "B", 3 s in group "C", 4 s in group "D", 5 s in group "E", 6 s in group "F"`, ""},
		{"rows of a group differ", []string{"piece"}, "A,60,1,2\nB,60,1,2\nB,45,1,2\nB,30,1,2\n", area,
			`3 rows: label-differs: time is 60 s (line 3) and 45 s (line 4) in group "B"` + parts},
		{"rows of two groups differ", []string{"piece"}, "A,60,1,2\nB,60,1,2\nB,45,1,2\nC,30,1,2\nC,31,1,2\n", area,
			`4 rows: label-differs: time is 60 s (line 3) and 45 s (line 4) in group "B" and likewise in 1 more` + parts},
		{"rows of one summary differ", nil, "A,60,1,2\nB,45,1,2\n", area, `2 rows: label-differs: time is 60 s (line 2) and 45 s (line 3)` + parts},
		{"parted", []string{"piece", "contact"}, "A,60,1,2\nA,45,1,2\n", area + `; time 60 s in group "A, 60", 45 s in group "A, 45"`, ""},
	} {
		job := batch.Job{By: test.by, Together: test.by == nil, Columns: map[string][]string{"time": {"Contact"}}}
		a := run(t, "cobb", job, heads+test.rows)
		if got := strings.Join(a.totals.Assumed, "; "); a.err != nil || got != test.assumed {
			t.Errorf("%s: %v, assumed\n%s\nwant\n%s", test.name, a.err, got, test.assumed)
		}
		if got := strings.Join(a.totals.Warnings(), "; "); got != test.warned {
			t.Errorf("%s: warned\n%s\nwant\n%s", test.name, got, test.warned)
		}
	}
	if a := run(t, "cobb", batch.Job{Columns: map[string][]string{"time": {"Contact"}}}, heads+"A,60,1,2\nA,45,1,2\n"); len(a.totals.Assumed) != 1 || a.totals.Warned != nil {
		t.Errorf("each row has its own cell, yet assumed %q, warned %v", a.totals.Assumed, a.totals.Warned)
	}
}

// A label whose cell says nothing is its default; each label is told by itself.
func TestLabelsLeftOut(t *testing.T) {
	for _, test := range []struct{ calculation, text, want string }{
		{"bending-resistance", "force [mN],grammage [g/m2],angle [deg],bending-length [mm]\n100,200,15,50\n100,200,,50\n",
			"angle 15 deg in every row; bending-length 50 mm in every row"},
		{"tear-energy", "energy [J],tear-length [mm],plies,path-ratio\n0.28,43,4,\n0.28,43,4,2\n", "path-ratio 2 in every row"},
		{"freeness", "volume [mL],consistency [%],temperature [degC]\n412,0.31,21.5\n412,0.30,21.5\n", "temperature 21.5 degC in every row"},
	} {
		a := run(t, test.calculation, batch.Job{Together: true}, test.text)
		if got := strings.Join(a.totals.Assumed, "; "); a.err != nil || got != test.want {
			t.Errorf("%s: %v, assumed %s", test.calculation, a.err, got)
		}
	}
}

// Whoever computes a block, the first two values are those that stand first.
func TestLabelsOfAnyWorkers(t *testing.T) {
	var b strings.Builder
	b.WriteString("piece,time [s],mass-in [g],mass-out [g]\n")
	for i := range 400_000 { // of 3.6 MB: several blocks
		switch {
		case i == 240_000:
			b.WriteString("A,45,1,2\n")
		case i > 240_000 && i%7 == 0:
			b.WriteString("A,30,1,2\n")
		default:
			b.WriteString("A,60,1,2\n")
		}
	}
	const want = `400000 rows: label-differs: time is 60 s (line 2) and 45 s (line 240002) in group "A", and a result means nothing without it: column "time" separates them`
	for _, workers := range []int{1, 2, 7} {
		a := run(t, "cobb", batch.Job{By: []string{"piece"}, Workers: workers}, b.String())
		if got := strings.Join(a.totals.Warnings(), "; "); a.err != nil || got != want {
			t.Errorf("%d workers: %v, warned\n%s\nwant\n%s", workers, a.err, got, want)
		}
	}
}
