package trim_test

import (
	"context"
	"encoding/json"
	"fmt"
	"math"
	"slices"
	"strings"
	"testing"

	"millmaths.example/paperprop"
	"millmaths.example/paperprop/trim"
)

// With a set multiple a bound of width is that of all sets: twelve reels of 1 m take
// four sets of 3 m, which come in twos.
func TestWidthOfMultiples(t *testing.T) {
	j := &trim.Job{
		Parents: []trim.Parent{{Deckle: 3000}, {Deckle: 2000}},
		Orders:  []trim.Order{{Width: 1000, Reels: 12}},
		Slitter: trim.Slitter{SetMultiple: 2},
		Aim:     trim.LeastWidth,
	}
	p := plan(t, j)
	if c := p.Certificate; p.Deckle != 12000 || c.Width() != 12000 || !c.Proven {
		t.Errorf("deckle %v, bound %v, proven %v, want 12 m", p.Deckle, c.Width(), c.Proven)
	}
	text, err := p.JSON(j, unit(t, j.Parents[0].Deckle.Kind(), "mm"))
	if err != nil {
		t.Fatal(err)
	}
	var out struct{ Sets, Bound int }
	if err := json.Unmarshal(text, &out); err != nil || out.Sets != 4 || out.Bound != 4 {
		t.Errorf("%+v, %v in JSON, want 4 sets and a bound of 4", out, err)
	}
}

// Lengths of all sets may be more grains than an int64 holds.
func TestLongTotals(t *testing.T) {
	p := plan(t, &trim.Job{Parents: []trim.Parent{{Deckle: 3000}}, Orders: []trim.Order{{Width: 1000, Reels: 10_000_000, Least: 10_000_000, Most: 10_000_000}}})
	// 3,333,333 sets of three, and one of a single reel
	if p.Sets != 3_333_334 || p.Deckle != 10_000_002_000 || p.Trim != 2000 || p.Loss() < 0 {
		t.Errorf("%d sets, deckle %v, trim %v, loss %v", p.Sets, p.Deckle, p.Trim, p.Loss())
	}
	if p = plan(t, &trim.Job{Parents: []trim.Parent{{Deckle: 1e8}}, Orders: []trim.Order{{Width: 1e8, Reels: 2}}}); p.Sets != 2 { // 100 km, the widest
		t.Errorf("%d sets, want 2", p.Sets)
	}
	_, err := (&trim.Job{
		Parents: []trim.Parent{{Deckle: 3000.0000001}, {Deckle: 2999.9999999}},
		Orders:  []trim.Order{{Width: 1000, Reels: 10_000_000}},
		Aim:     trim.LeastWidth,
	}).Plan(context.Background())
	if want := "too fine for 10000000 reels; want deckles in whole mm"; err == nil || !strings.Contains(err.Error(), want) {
		t.Errorf("error %v, want %s", err, want)
	}
}

// Where over-run will do it is none if as few sets and patterns can do without.
func TestNoNeedlessOverRun(t *testing.T) {
	p := plan(t, &trim.Job{Parents: []trim.Parent{{Deckle: 4000}}, Orders: []trim.Order{{Width: 1000, Reels: 6, Least: 5, Most: 8}}})
	if p.Sets != 2 || len(p.Patterns) != 1 || p.Orders[0].Reels != 6 {
		t.Errorf("%d reels in %d sets of %d patterns, want 6 in 2 of 1", p.Orders[0].Reels, p.Sets, len(p.Patterns))
	}
}

// Reels of one width are one width across, whatever they are for, and what is cut alike
// is one pattern.
func TestOneWidth(t *testing.T) {
	for _, test := range []struct {
		name    string
		job     trim.Job
		sets    int
		pattern []trim.Reels // of the first
		times   int
	}{
		{"two numbers of sheets", trim.Job{Parents: []trim.Parent{{Deckle: 1700}}, Orders: []trim.Order{{Width: 750, Reels: 1}, {Width: 750, Reels: 1, Sheets: 3}}}, 1, []trim.Reels{{750, 2, 1, false}}, 1},
		// two sheets of 250 beside a reel of 500, twice, and two reels
		{"sheets as wide as a reel", trim.Job{Parents: []trim.Parent{{Deckle: 1850, Edge: 50}}, Orders: []trim.Order{{Width: 250, Reels: 4, Sheets: 3}, {Width: 500, Reels: 4}}, Slitter: trim.Slitter{Narrowest: 300}}, 2,
			[]trim.Reels{{500, 2, 1, false}, {500, 1, 2, false}}, 2},
		{"a filler", trim.Job{Parents: []trim.Parent{{Deckle: 1000}}, Orders: []trim.Order{{Width: 500, Reels: 3}}, Fillers: []trim.Filler{{Width: 500}}, Slitter: trim.Slitter{LeastUsed: 1000}}, 2, []trim.Reels{{500, 2, 1, false}}, 1},
		{"a pattern for each", trim.Job{Parents: []trim.Parent{{Deckle: 1000}}, Orders: []trim.Order{{Width: 500, Reels: 4}, {Width: 500, Reels: 4, Sheets: 2}}, Slitter: trim.Slitter{LeastSets: 2, Widest: 500}}, 4, []trim.Reels{{500, 2, 1, false}}, 4},
		{"two fillers", trim.Job{Parents: []trim.Parent{{Deckle: 1000}}, Orders: []trim.Order{{Width: 600, Reels: 1}}, Fillers: []trim.Filler{{Width: 200, Most: 1}, {Width: 200}}}, 1, []trim.Reels{{600, 1, 1, false}, {200, 2, 1, true}}, 1},
	} {
		if test.job.Slitter.MostWidths = 1; test.name == "two fillers" {
			test.job.Slitter.MostWidths = 2
		}
		p := plan(t, &test.job)
		if x := p.Patterns[0]; p.Sets != test.sets || p.Certificate.Proven == mixes(&test.job) || x.Times != test.times || !slices.Equal(x.Reels, test.pattern) {
			t.Errorf("%s: %d sets, proven %v, first %+v, want %d sets and %d of %+v", test.name, p.Sets, p.Certificate.Proven, x, test.sets, test.times, test.pattern)
		}
	}
}

// With no time left fillers are laid as they come, and no search asks for more of them.
func TestFillersWithoutTime(t *testing.T) {
	ended, cancel := context.WithCancel(context.Background())
	cancel()
	j := &trim.Job{
		Parents: []trim.Parent{{Deckle: 1000}},
		Orders:  []trim.Order{{Width: 600, Reels: 4_000_000}, {Width: 450, Reels: 3_000_000}},
		Fillers: []trim.Filler{{Width: 150}},
	}
	p, err := j.Plan(ended)
	if err != nil {
		t.Fatal(err)
	}
	// two beside each 600; pairs of 450 leave no room
	if err := check(j, p); err != nil || p.Sets != 5_500_000 || p.Fillers[0] != 8_000_000 {
		t.Errorf("%v: %d sets with %d fillers, want 5500000 with 8000000", err, p.Sets, p.Fillers[0])
	}
}

// What no plan can be is refused by what is wrong.
func TestRefusals(t *testing.T) {
	for _, test := range []struct {
		name    string
		orders  []trim.Order
		slitter trim.Slitter
		want    string
	}{
		{"more sheets than any knife", []trim.Order{{Width: 3000, Reels: 7_000_000, Sheets: 7_000_000}}, trim.Slitter{}, "sheets is 7000000, want from 0 to 100"},
		{"sheets below zero", []trim.Order{{Width: 300, Reels: 12, Sheets: -1}}, trim.Slitter{}, "sheets is -1, want from 0 to 100"},
		{"least below zero", []trim.Order{{Width: 300, Reels: 12, Least: -1, Most: 12}}, trim.Slitter{}, "at least -1 reels, want from 0"},
		{"the order that is short", []trim.Order{{Width: 1500, Reels: 4}, {Width: 400, Reels: 1}}, trim.Slitter{LeastUsed: 3000}, "order 2: width 400 mm: no plan makes all of it with at least 3000 mm used in every set"},
		{"an odd number of pairs", []trim.Order{{Width: 500, Reels: 3, Sheets: 2}}, trim.Slitter{Narrowest: 600}, "no plan makes all of it with no reel below 600 mm, and no over- or under-run"},
		{"neither one sheet nor two", []trim.Order{{Width: 500, Reels: 4, Sheets: 2}}, trim.Slitter{Narrowest: 600, Widest: 900}, "width 500 mm: narrower than the slitter's narrowest reel, 600 mm"},
		{"a narrowest below zero", []trim.Order{{Width: 500, Reels: 4}}, trim.Slitter{Narrowest: -1}, "narrowest reel is -1 mm, want from 0 mm, which is no limit"},
		{"a widest below zero", []trim.Order{{Width: 500, Reels: 4}}, trim.Slitter{Widest: -1}, "widest reel is -1 mm, want from 0 mm, which is no limit"},
		{"a mass below zero", []trim.Order{{Width: 500, Reels: 4, ReelMass: -5}}, trim.Slitter{}, "the mass of a reel is -5 kg, want above 0 kg, or 0 kg where it is not known"},
		{"a mass that is no number", []trim.Order{{Width: 500, Reels: 4, ReelMass: paperprop.Mass(math.NaN())}}, trim.Slitter{}, "the mass of a reel is NaN kg, want above 0 kg"},
		{"a mass ordered without end", []trim.Order{{Width: 500, Reels: 4, ReelMass: 5, OrderedMass: paperprop.Mass(math.Inf(1))}}, trim.Slitter{}, "the mass ordered is +Inf kg, want above 0 kg, or 0 kg of an order by reels"},
		{"a least used width below zero", []trim.Order{{Width: 500, Reels: 4}}, trim.Slitter{LeastUsed: -3000}, "least used width is -3000 mm, want from 0 mm, which is no limit"},
	} {
		p, err := (&trim.Job{Parents: []trim.Parent{{Deckle: 3000}}, Orders: test.orders, Slitter: test.slitter}).Plan(context.Background())
		if err == nil || !strings.Contains(err.Error(), test.want) {
			t.Errorf("%s: %v, %v, want %s", test.name, p, err, test.want)
		}
	}
	// As many as may be, of no width, lie across.
	p := plan(t, &trim.Job{Parents: []trim.Parent{{Deckle: 3000}}, Orders: []trim.Order{{Width: 150, Reels: 20, Sheets: 20}}})
	if p.Sets != 1 || math.Abs(float64(p.Trim)) > 0 {
		t.Errorf("%d sets, trim %v, want one without", p.Sets, p.Trim)
	}
}

// A reel of two sheets may be shared between orders of one width. Where they differ in
// sheets the search makes none such, and must not call its plan the fewest, nor a job
// impossible, unless no reel can have the sheets in which they differ.
func TestSharedReel(t *testing.T) {
	for _, test := range []struct {
		name     string
		deckle   paperprop.Length
		sheets   int // of the second order
		slitter  trim.Slitter
		sets     int
		proven   bool
		refusing string
	}{
		{"one knife", 1500, 3, trim.Slitter{MostReels: 1}, 2, false, ""},
		{"one knife, and alike", 1500, 2, trim.Slitter{MostReels: 1}, 1, true, ""},
		{"one knife, and no room for three", 1400, 3, trim.Slitter{MostReels: 1}, 1, true, ""},
		{"one knife, and too wide for three", 1500, 3, trim.Slitter{MostReels: 1, Widest: 1400}, 1, true, ""},
		{"one knife, and single reels", 1500, 1, trim.Slitter{MostReels: 1}, 2, true, ""},
		{"two reels do as well", 1500, 3, trim.Slitter{}, 1, true, ""},
		{"narrow enough", 1500, 3, trim.Slitter{Narrowest: 500}, 1, true, ""},
		{"too narrow", 1500, 3, trim.Slitter{Narrowest: 700}, 0, false,
			"order 2: width 500 mm: no plan was found with no reel below 700 mm, and no over- or under-run; an order that can take reels of the same width in other sheets counts apart"},
		{"too narrow, and alike", 1500, 2, trim.Slitter{Narrowest: 700}, 1, true, ""},
	} {
		job := trim.Job{Parents: []trim.Parent{{Deckle: test.deckle}}, Slitter: test.slitter, Orders: []trim.Order{{Width: 500, Reels: 1, Sheets: 2}, {Width: 500, Reels: 1, Sheets: test.sheets}}}
		p, err := job.Plan(t.Context())
		if err != nil || test.refusing != "" {
			if fmt.Sprint(err) != test.refusing {
				t.Errorf("%s: %v, want %q", test.name, err, test.refusing)
			}
			continue
		}
		if err := check(&job, p); err != nil || p.Sets != test.sets || p.Certificate.Proven != test.proven || !test.proven && p.Certificate.Bound != 0 {
			t.Errorf("%s: %v: %d sets, %+v, want %d sets, proven %v", test.name, err, p.Sets, p.Certificate, test.sets, test.proven)
		}
	}
}

// Two sets of 3 × 800, 1 × 800 of them cut in two, make what this job wants, but the
// search counts reels of 800 mm for two orders apart: it must not call its plan the fewest.
func TestNoBoundWhereReelsMix(t *testing.T) {
	job := trim.Job{
		Parents: []trim.Parent{{Deckle: 2400}},
		Orders:  []trim.Order{{Width: 800, Reels: 3}, {Width: 400, Reels: 2, Sheets: 2}},
	}
	for _, test := range []struct {
		least  int
		proven bool
	}{{1, true}, {2, false}} {
		job.Slitter.LeastSets = test.least
		plan, err := job.Plan(t.Context())
		if err != nil {
			t.Fatal(err)
		}
		if c := plan.Certificate; c.Proven != test.proven || !test.proven && c.Bound != 0 {
			t.Errorf("every pattern %d times: %d sets, bound %d, proven %t; want proven %t", test.least, plan.Sets, c.Bound, c.Proven, test.proven)
		}
	}
}
