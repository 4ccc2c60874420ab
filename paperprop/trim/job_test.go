package trim_test

import (
	"context"
	"errors"
	"fmt"
	"math"
	"math/big"
	"reflect"
	"slices"
	"strconv"
	"strings"
	"sync"
	"testing"
	"time"

	"millmaths.example/paperprop"
	"millmaths.example/paperprop/trim"
)

// deckle is a parent of so many mm, without end.
func deckle(width paperprop.Length) []trim.Parent { return []trim.Parent{{Deckle: width}} }

// ordered are exact orders of reels: pairs of a width in mm and a number.
func ordered(pairs ...int) []trim.Order {
	var orders []trim.Order
	for pair := range slices.Chunk(pairs, 2) {
		orders = append(orders, trim.Order{Width: paperprop.Length(pair[0]), Reels: pair[1]})
	}
	return orders
}

// told is a plan in short: times, deckle and group of each pattern, its reels and its
// trim, "2 on 0 long: 3×1000 + 1×400/2, 100 trim", and what is left out.
func told(p *trim.Plan) string {
	var lines []string
	for _, x := range p.Patterns {
		head := fmt.Sprintf("%d on %d", x.Times, x.Parent)
		if x.Group != "" {
			head += " " + x.Group
		}
		var reels []string
		for _, r := range x.Reels {
			text := fmt.Sprintf("%d×%v", r.Count, float64(r.Width))
			if r.Sheets > 1 {
				text += fmt.Sprintf("/%d", r.Sheets)
			}
			if r.Filler {
				text += " filler"
			}
			reels = append(reels, text)
		}
		lines = append(lines, fmt.Sprintf("%s: %s, %v trim", head, strings.Join(reels, " + "), float64(x.Trim)))
	}
	for _, l := range p.Left {
		lines = append(lines, fmt.Sprintf("left %d of %d: %s", l.Reels, l.Order, l.Reason))
	}
	return strings.Join(lines, "\n")
}

// planned checks a plan in full, and that it is proven and comes out as told.
func planned(t *testing.T, j *trim.Job, want ...string) *trim.Plan {
	t.Helper()
	inTime, cancel := context.WithTimeout(t.Context(), time.Minute)
	defer cancel()
	p, err := j.Plan(inTime)
	if err != nil {
		t.Errorf("%+v: %v", j, err)
		return &trim.Plan{Orders: make([]trim.Made, len(j.Orders)), Fillers: make([]int, len(j.Fillers))}
	}
	if err := check(j, p); err != nil {
		t.Errorf("%+v: %v", j, err)
	}
	if got := told(p); got != strings.Join(want, "\n") || !p.Certificate.Proven {
		t.Errorf("%+v\nis planned as\n%s\nproven: %v, want\n%s", j, got, p.Certificate.Proven, strings.Join(want, "\n"))
	}
	return p
}

// reels are the reels made of each order.
func reels(p *trim.Plan) []int {
	var n []int
	for _, m := range p.Orders {
		n = append(n, m.Reels)
	}
	return n
}

// Jobs that are refused as they stand.
func TestJobRefuses(t *testing.T) {
	const ten = 0.1234567891 * mm // more decimals than a width may have
	six := ordered(1000, 6)
	for _, test := range []struct {
		job  trim.Job
		want string
	}{
		{trim.Job{Orders: six}, "deckle is missing: want at least one"},
		{trim.Job{Parents: deckle(0), Orders: six}, "deckle is 0 mm, want above 0 mm"},
		{trim.Job{Parents: deckle(-3300), Orders: six}, "deckle is -3300 mm, want above 0 mm"},
		{trim.Job{Parents: deckle(ten), Orders: six}, "deckle: width is 0.1234567891 mm, want at most 9 decimals of a mm"},
		{trim.Job{Parents: deckle(1.0001e8), Orders: six}, "deckle: width is 100010000 mm, want at most 100000000 mm"},
		{trim.Job{Parents: deckle(2e8), Orders: six}, "deckle: width is 200000000 mm, want at most 100000000 mm"},
		{trim.Job{Parents: deckle(2e11), Orders: six}, "deckle: width is 200000000000 mm, want at most 100000000 mm"},
		{trim.Job{Parents: []trim.Parent{{Deckle: 3300, Edge: ten}}, Orders: six}, "edge: width is 0.1234567891 mm, want at most 9 decimals of a mm"},
		{trim.Job{Parents: []trim.Parent{{Deckle: 3300, Edge: -1}}, Orders: six}, "edge is -1 mm, want from 0 mm to below half of the deckle, 3300 mm"},
		{trim.Job{Parents: []trim.Parent{{Deckle: 3300, Edge: 1650}}, Orders: six}, "edge is 1650 mm, want from 0 mm to below half of the deckle, 3300 mm"},
		{trim.Job{Parents: []trim.Parent{{Deckle: 3300, Sets: -1}}, Orders: six}, "sets of the deckle 3300 mm is -1, want from 0"},
		// Of several parents the one that is wrong is told.
		{trim.Job{Parents: []trim.Parent{{Deckle: 3300}, {Deckle: ten}}, Orders: six}, "deckle 2: deckle: width is 0.1234567891 mm, want at most 9 decimals of a mm"},
		{trim.Job{Parents: []trim.Parent{{Deckle: 3300}, {}}, Orders: six}, "deckle 2: deckle is 0 mm, want above 0 mm"},
		{trim.Job{Parents: []trim.Parent{{Deckle: 3300}, {Deckle: 2480}, {Deckle: 2480, Edge: ten}}, Orders: six},
			"deckle 3: edge: width is 0.1234567891 mm, want at most 9 decimals of a mm"},
		{trim.Job{Parents: []trim.Parent{{Deckle: 3300, Edge: -1}, {Deckle: 2480}}, Orders: six}, "deckle 1: edge is -1 mm, want from 0 mm to below half of the deckle, 3300 mm"},
		{trim.Job{Parents: []trim.Parent{{Deckle: 3300}, {Deckle: 3300, Sets: -2}}, Orders: six}, "deckle 2: sets of the deckle 3300 mm is -2, want from 0"},
		{trim.Job{Parents: deckle(3300), Orders: six, Aim: 2}, "aim is 2, want FewestSets or LeastWidth"},
		{trim.Job{Parents: deckle(3300), Orders: six, Aim: 9}, "aim is 9, want FewestSets or LeastWidth"},
		{trim.Job{Parents: deckle(3300), Orders: six, Slitter: trim.Slitter{MostReels: -1}}, "most reels is -1, want from 0, which is no limit"},
		{trim.Job{Parents: deckle(3300), Orders: six, Slitter: trim.Slitter{MostWidths: -2}}, "most widths is -2, want from 0, which is no limit"},
		{trim.Job{Parents: deckle(3300), Orders: six, Slitter: trim.Slitter{SetMultiple: -3}}, "set multiple is -3, want from 0, which is no limit"},
		{trim.Job{Parents: deckle(3300), Orders: six, Slitter: trim.Slitter{LeastSets: -4}}, "least sets is -4, want from 0, which is no limit"},
		{trim.Job{Parents: deckle(3300), Orders: six, Slitter: trim.Slitter{SetMultiple: math.MaxInt}}, "set multiple is 9223372036854775807, want at most 10000000"},
		{trim.Job{Parents: deckle(3300), Orders: six, Slitter: trim.Slitter{LeastSets: 10_000_001}}, "least sets is 10000001, want at most 10000000"},
		{trim.Job{Parents: deckle(3300), Orders: six, Slitter: trim.Slitter{Narrowest: ten}}, "slitter: width is 0.1234567891 mm, want at most 9 decimals of a mm"},
		{trim.Job{Parents: deckle(3300), Orders: six, Slitter: trim.Slitter{Widest: ten}}, "slitter: width is 0.1234567891 mm, want at most 9 decimals of a mm"},
		{trim.Job{Parents: deckle(3300), Orders: six, Slitter: trim.Slitter{LeastUsed: ten}}, "slitter: width is 0.1234567891 mm, want at most 9 decimals of a mm"},
		{trim.Job{Parents: deckle(3300), Orders: six, Fillers: []trim.Filler{{Width: 300}, {Width: ten}}}, "filler 2: width is 0.1234567891 mm, want at most 9 decimals of a mm"},
		{trim.Job{Parents: deckle(3300), Orders: six, Fillers: []trim.Filler{{Width: 300}, {}}}, "filler 2: width is 0 mm, at most 0 reels; want above 0 mm, and 0 for as many as fit"},
		{trim.Job{Parents: deckle(3300), Orders: six, Fillers: []trim.Filler{{Width: 300, Most: -1}}}, "filler 1: width is 300 mm, at most -1 reels; want above 0 mm, and 0 for as many as fit"},
		{trim.Job{Parents: deckle(3300), Orders: six, Fillers: []trim.Filler{{Width: 3300}, {Width: 3301}}},
			"filler 2: width 3301 mm: wider than the deckle, 3300 mm less its edges; want at most 3300 mm"},
		{trim.Job{Parents: deckle(3300), Orders: six, Fillers: []trim.Filler{{Width: 300}}, Slitter: trim.Slitter{Narrowest: 301}},
			"filler 1: width 300 mm: narrower than the slitter's narrowest reel, 301 mm"},
		{trim.Job{Parents: deckle(3300), Orders: ordered(1000, 6, 0, 3)}, "order 2: width 0 mm: want above 0 mm"},
		{trim.Job{Parents: deckle(3300), Orders: []trim.Order{{Width: ten, Reels: 6}}}, "order 1: width 0.1234567891 mm: width is 0.1234567891 mm, want at most 9 decimals of a mm"},
		{trim.Job{Parents: deckle(3300), Orders: ordered(1000, -1)}, "order 1: width 1000 mm: reels is -1, want from 0"},
		{trim.Job{Parents: deckle(3300), Orders: ordered(1000, 10_000_001)}, "order 1: width 1000 mm: reels is 10000001, want at most 10000000"},
		{trim.Job{Parents: deckle(3300), Orders: []trim.Order{{Width: 1000, Reels: 6, Least: 7, Most: 6}}}, "order 1: width 1000 mm: at least 7 and at most 6 reels, want the other way round"},
		{trim.Job{Parents: deckle(3300), Orders: []trim.Order{{Width: 1000, Reels: 6, Most: 5}}}, "order 1: width 1000 mm: at least 6 and at most 5 reels, want the other way round"},
		{trim.Job{Parents: deckle(3300), Orders: []trim.Order{{Width: 1000, Reels: 6, Least: 7}}}, "order 1: width 1000 mm: at least 7 and at most 6 reels, want the other way round"},
		{trim.Job{Parents: deckle(3300), Orders: []trim.Order{{Width: 1000, Reels: 6, Least: 5, NoneWillDo: true}}},
			"order 1: width 1000 mm: none will do, but at least 5 reels are asked for: want one of the two"},
		{trim.Job{Parents: []trim.Parent{{Deckle: 3300, Edge: 1150}, {Deckle: 900}}, Orders: []trim.Order{{Name: "A", Width: 1000.000000001, Reels: 1}}},
			"order 1, A: width 1000.000000001 mm: wider than the deckle, 3300 mm less its edges; want at most 1000 mm"},
		{trim.Job{Parents: deckle(3300), Orders: []trim.Order{{Name: "A", Line: 1, Width: 1000, Reels: 1}}, Slitter: trim.Slitter{Widest: 999}},
			"line 1, A: width 1000 mm: wider than the slitter's widest reel, 999 mm"},
		{trim.Job{Parents: deckle(3300), Orders: []trim.Order{{Line: 7, Width: 1000, Reels: 1}}, Slitter: trim.Slitter{Narrowest: 1001}},
			"line 7: width 1000 mm: narrower than the slitter's narrowest reel, 1001 mm"},
		// Three sheets of 400 mm would do, but only two fit.
		{trim.Job{Parents: deckle(1000), Orders: []trim.Order{{Width: 400, Reels: 6, Sheets: 3}}, Slitter: trim.Slitter{Narrowest: 900}},
			"order 1: width 400 mm: narrower than the slitter's narrowest reel, 900 mm"},
		{trim.Job{Parents: deckle(3300), Orders: []trim.Order{{Width: 400, Reels: 6, Sheets: 2}}, Slitter: trim.Slitter{Narrowest: 801}},
			"order 1: width 400 mm: narrower than the slitter's narrowest reel, 801 mm"},
		// Multiples of a jumbo's sets.
		{trim.Job{Parents: deckle(3300), Orders: ordered(1000, 7), Slitter: trim.Slitter{SetMultiple: 3}}, "order 1: width 1000 mm: 7 reels can't be cut in multiples of 3; the nearest are 6 and 9"},
		{trim.Job{Parents: deckle(3300), Orders: ordered(900, 6, 1000, 1), Slitter: trim.Slitter{SetMultiple: 2}},
			"order 2: width 1000 mm: 1 reel can't be cut in multiples of 2; the nearest are 0 and 2"},
		{trim.Job{Parents: deckle(3300), Orders: []trim.Order{{Width: 1000, Reels: 10, Least: 9, Most: 11}}, Slitter: trim.Slitter{SetMultiple: 4}},
			"order 1: width 1000 mm: 9 to 11 reels can't be cut in multiples of 4; the nearest are 8 and 12"},
		{trim.Job{Parents: deckle(3300), Orders: ordered(1000, 4), Slitter: trim.Slitter{SetMultiple: 2, LeastSets: 5}},
			"order 1: width 1000 mm: at most 4 reels, but a pattern is cut at least 6 times"},
		{trim.Job{Parents: deckle(3300), Orders: ordered(1000, 1), Slitter: trim.Slitter{LeastSets: 2}}, "order 1: width 1000 mm: at most 1 reel, but a pattern is cut at least 2 times"},
		// With the other order's reels of 300 mm there are plans, in which one pattern is
		// shared out in two ways: no proof speaks of them.
		{trim.Job{Parents: deckle(700), Orders: []trim.Order{{Width: 300, Reels: 3}, {Width: 150, Reels: 2, Sheets: 2}}, Slitter: trim.Slitter{SetMultiple: 2}},
			"order 1: width 300 mm: 3 reels can't be cut in multiples of 2; the nearest are 2 and 4; an order that can take reels of the same width in other sheets counts apart"},
		{trim.Job{Parents: []trim.Parent{{Deckle: 700, Sets: 3}}, Orders: []trim.Order{{Width: 300, Reels: 4}, {Width: 150, Reels: 4, Sheets: 2}}, Slitter: trim.Slitter{SetMultiple: 2}},
			"order 1: width 300 mm: no plan was found with at most 3 sets, and no over- or under-run; an order that can take reels of the same width in other sheets counts apart"},
		{trim.Job{Parents: deckle(700), Orders: []trim.Order{{Width: 300, Reels: 3}, {Width: 150, Reels: 2, Sheets: 2, Group: "B"}}, Slitter: trim.Slitter{SetMultiple: 2}},
			"order 1: width 300 mm: 3 reels can't be cut in multiples of 2; the nearest are 2 and 4"},
	} {
		p, err := test.job.Plan(context.Background())
		if p != nil || fmt.Sprint(err) != test.want {
			t.Errorf("%+v: %v, error\n%v, want\n%v", test.job, p, err, test.want)
		}
	}

	job := trim.Job{Parents: deckle(3300), Orders: []trim.Order{{Width: 1000, Reels: 6}, {Name: "A", Line: 9, Width: 0, Reels: 6}}}
	_, err := job.Plan(context.Background())
	var refused *trim.OrderError
	if !errors.As(err, &refused) || refused.Index != 1 || refused.Order != job.Orders[1] || refused.Reason != "want above 0 mm" {
		t.Errorf("error %#v", err)
	}
}

// What is just allowed. Three reels of 3.333333333 mm are 1 nm less than 10 mm.
func TestJobAllows(t *testing.T) {
	for _, test := range []struct {
		job  trim.Job
		want []string
	}{
		{trim.Job{Parents: deckle(10), Orders: []trim.Order{{Width: 3.333333333, Reels: 6}}}, []string{"2 on 0: 3×3.333333333, 1e-09 trim"}},
		{trim.Job{Parents: deckle(0.3), Orders: []trim.Order{{Width: 0.1, Reels: 3}}}, []string{"1 on 0: 3×0.1, 0 trim"}},
		{trim.Job{Parents: []trim.Parent{{Deckle: 3300, Edge: 1150}}, Orders: ordered(1000, 2)}, []string{"2 on 0: 1×1000, 2300 trim"}},
		{trim.Job{Parents: []trim.Parent{{Deckle: 900}, {Deckle: 1000}, {Deckle: 800}}, Orders: ordered(1000, 2)}, []string{"2 on 1: 1×1000, 0 trim"}},
		{trim.Job{Parents: deckle(3300), Orders: ordered(1000, 3), Slitter: trim.Slitter{Narrowest: 1000, Widest: 1000}}, []string{"1 on 0: 3×1000, 300 trim"}},
		// None is ordered of what no set could hold, and nothing at all.
		{trim.Job{Parents: deckle(3300), Orders: ordered(1000, 3, 4000, 0)}, []string{"1 on 0: 3×1000, 300 trim"}},
		{trim.Job{Parents: deckle(3300), Orders: ordered(1000, 0), Slitter: trim.Slitter{LeastSets: 2, SetMultiple: 2}}, nil},
		{trim.Job{Parents: deckle(3300)}, nil},
		// Exactly as often as a pattern is cut at least.
		{trim.Job{Parents: deckle(3300), Orders: ordered(3000, 6), Slitter: trim.Slitter{LeastSets: 5, SetMultiple: 2}}, []string{"6 on 0: 1×3000, 300 trim"}},
		{trim.Job{Parents: deckle(3300), Orders: []trim.Order{{Width: 3000, Reels: 2, NoneWillDo: true, Most: 3}}, Slitter: trim.Slitter{LeastSets: 4}}, nil},
		{trim.Job{Parents: deckle(3300), Orders: []trim.Order{{Width: 3000, Reels: 7, Least: 6, Most: 8}}, Slitter: trim.Slitter{SetMultiple: 3}}, []string{"6 on 0: 1×3000, 300 trim"}},
	} {
		planned(t, &test.job, test.want...)
	}
	p := planned(t, &trim.Job{Parents: deckle(1), Orders: []trim.Order{{Width: 1, Reels: 1e7}}}, "10000000 on 0: 1×1, 0 trim")
	if p.Sets != 1e7 || p.Deckle != 1e7 || p.Trim != 0 || p.Certificate.Bound != 1e7 {
		t.Errorf("%+v", p)
	}
}

// Widths in eighths of an inch have six decimals in mm, whatever a product of floats
// leaves of them: 69.875 in are 1774.825 mm. Two of them fill a deckle of twice as many
// eighths.
func TestJobInches(t *testing.T) {
	crooked := 0
	for i := range 400 {
		x := 20 + float64(i)/8
		width := paperprop.Length(x) * paperprop.Inch
		job := &trim.Job{Parents: []trim.Parent{{Deckle: 2*width + 2*paperprop.Inch, Edge: paperprop.Inch}}, Orders: []trim.Order{{Width: width, Reels: 2}}}
		want, _ := strconv.ParseFloat(big.NewRat(int64(160+i)*254, 80).FloatString(6), 64) // digits and a point
		if width != paperprop.Length(want) {
			crooked++
		}
		p, err := job.Plan(context.Background())
		if err != nil || p.Sets != 1 || p.Patterns[0].Reels[0].Width != paperprop.Length(want) || p.Trim != 2*paperprop.Inch {
			t.Errorf("%v in: %+v, %v, want one set of two of %v mm", x, p, err, want)
			continue
		}
		if got := trim.In(width, unit(t, width.Kind(), "in")); got != x {
			t.Errorf("%v in are printed as %v", x, got)
		}
		if o, err := (trim.Request{Width: width, Reels: 2}).Order(); o.Width != paperprop.Length(want) || err != nil {
			t.Errorf("%v in are ordered as %v, %v, want %v mm", x, o.Width, err, want)
		}
	}
	if crooked != 144 {
		t.Errorf("%d of 400 products differ from the width, want 144", crooked)
	}
}

// Four units in the last place are the last digits, five are not.
func TestJobLastDigits(t *testing.T) {
	width := paperprop.Length(1774.825)
	for n := 1; n <= 5; n++ {
		width = paperprop.Length(math.Nextafter(float64(width), 0))
		job := &trim.Job{Parents: deckle(2000), Orders: []trim.Order{{Width: width, Reels: 1}}}
		want := "<nil>"
		if n == 5 {
			want = "order 1: width 1774.824999999999 mm: width is 1774.824999999999 mm, want at most 9 decimals of a mm"
		}
		if _, err := job.Plan(context.Background()); fmt.Sprint(err) != want {
			t.Errorf("%d units below: %v, want %v", n, err, want)
		}
	}
}

// Plans that can be reckoned by hand: there is no other of so few sets and patterns.
func TestJobPlans(t *testing.T) {
	for _, test := range []struct {
		job  trim.Job
		want []string
	}{
		{trim.Job{Parents: []trim.Parent{{Deckle: 3300, Edge: 15}}, Orders: ordered(1090, 6)}, []string{"2 on 0: 3×1090, 30 trim"}},
		// Most often cut first, then the widest; so are the reels of a set.
		{trim.Job{Parents: deckle(1000), Orders: ordered(300, 2, 700, 2, 900, 3, 950, 3)},
			[]string{"3 on 0: 1×950, 50 trim", "3 on 0: 1×900, 100 trim", "2 on 0: 1×700 + 1×300, 0 trim"}},
		{trim.Job{Parents: deckle(1000), Orders: ordered(500, 4), Slitter: trim.Slitter{MostReels: 1}}, []string{"4 on 0: 1×500, 500 trim"}},
		{trim.Job{Parents: deckle(1000), Orders: ordered(600, 2, 400, 2), Slitter: trim.Slitter{MostWidths: 1}},
			[]string{"2 on 0: 1×600, 400 trim", "1 on 0: 2×400, 200 trim"}},
		// Of a jumbo come two sets.
		{trim.Job{Parents: deckle(3300), Orders: ordered(1100, 12), Slitter: trim.Slitter{SetMultiple: 2}}, []string{"4 on 0: 3×1100, 0 trim"}},
		{trim.Job{Parents: deckle(1000), Orders: ordered(600, 4, 400, 8), Slitter: trim.Slitter{SetMultiple: 4}},
			[]string{"4 on 0: 1×600 + 1×400, 0 trim", "4 on 0: 1×400, 600 trim"}},
		// Sets of 800 mm are too thin: 850 mm must be used, or just what two reels are.
		{trim.Job{Parents: deckle(1000), Orders: ordered(400, 4, 500, 4), Slitter: trim.Slitter{LeastUsed: 850}}, []string{"4 on 0: 1×500 + 1×400, 100 trim"}},
		{trim.Job{Parents: deckle(1000), Orders: ordered(400, 4), Slitter: trim.Slitter{LeastUsed: 800}}, []string{"2 on 0: 2×400, 200 trim"}},
		{trim.Job{Parents: deckle(40), Orders: []trim.Order{{Width: 22, Reels: 1, Least: 1, Most: 3}}, Slitter: trim.Slitter{LeastSets: 2}}, []string{"2 on 0: 1×22, 18 trim"}},
		// Each is cut twice: two across cut twice are one too many.
		{trim.Job{Parents: deckle(1000), Orders: ordered(400, 3), Slitter: trim.Slitter{LeastSets: 2}}, []string{"3 on 0: 1×400, 600 trim"}},
		// A pattern that is cut at all is cut five times, in twos: six times.
		{trim.Job{Parents: deckle(1000), Orders: ordered(300, 18), Slitter: trim.Slitter{LeastSets: 5, SetMultiple: 2}}, []string{"6 on 0: 3×300, 100 trim"}},
		{trim.Job{Parents: deckle(1000), Orders: ordered(300, 16), Slitter: trim.Slitter{LeastSets: 5, SetMultiple: 2}}, []string{"8 on 0: 2×300, 400 trim"}},
		// Orders of different groups never share a set.
		{trim.Job{Parents: deckle(1000), Orders: []trim.Order{{Width: 500, Reels: 3, Group: "b"}, {Width: 500, Reels: 1, Group: "a"}, {Width: 400, Reels: 1, Group: "a"}}},
			[]string{"1 on 0 b: 2×500, 0 trim", "1 on 0 b: 1×500, 500 trim", "1 on 0 a: 1×500 + 1×400, 100 trim"}},
	} {
		planned(t, &test.job, test.want...)
	}

	p := planned(t, &trim.Job{Parents: []trim.Parent{{Deckle: 3300, Edge: 15}}, Orders: ordered(1090, 7)}, "2 on 0: 3×1090, 30 trim", "1 on 0: 1×1090, 2210 trim")
	if p.Sets != 3 || p.Deckle != 9900 || p.Trim != 2270 || p.Patterns[0].Edge != 15 || p.Patterns[1].Edge != 1105 {
		t.Errorf("%+v", p)
	}
}

// The reels are 82.484 m wide in all, or 32.5 deckles of 2540 mm. However often a
// pattern must be cut, up to four times, 33 sets do.
func TestJobLeastSets(t *testing.T) {
	for _, least := range []int{0, 2, 4} {
		j := &trim.Job{
			Parents: deckle(2540), Orders: ordered(1062, 12, 890, 18, 710, 22, 630, 16, 550, 30, 480, 24),
			Slitter: trim.Slitter{LeastSets: least}, AnyPatterns: true,
		}
		if p := plan(t, j); p.Sets != 33 || !p.Certificate.Proven {
			t.Errorf("at least %d times: %d sets, proven %v, want 33", least, p.Sets, p.Certificate.Proven)
		}
	}
}

// What is not given of least and most is what is ordered. Sets of three across make
// threes, so that the fewest show what will do.
func TestJobLeastAndMost(t *testing.T) {
	for _, test := range []struct {
		order trim.Order
		used  paperprop.Length // of a set, at least
		want  trim.Made
	}{
		{trim.Order{Reels: 30, Most: 32}, 0, trim.Made{Reels: 30}},
		{trim.Order{Reels: 29, Most: 32}, 3000, trim.Made{Reels: 30, Over: 1}},
		{trim.Order{Reels: 30, Least: 28}, 0, trim.Made{Reels: 30}},
		{trim.Order{Reels: 29, Least: 25}, 3000, trim.Made{Reels: 27, Over: -2}},
		{trim.Order{Reels: 30, Least: 25, Most: 32}, 0, trim.Made{Reels: 27, Over: -3}},
		{trim.Order{Reels: 30, NoneWillDo: true}, 0, trim.Made{Over: -30}},
		{trim.Order{Reels: 30, NoneWillDo: true, Most: 32}, 0, trim.Made{Over: -30}},
		{trim.Order{Most: 32}, 0, trim.Made{}},
		{trim.Order{NoneWillDo: true}, 0, trim.Made{}},
	} {
		test.order.Width = 1000
		j := &trim.Job{Parents: deckle(3000), Orders: []trim.Order{test.order}, Slitter: trim.Slitter{LeastUsed: test.used}}
		if p := plan(t, j); p.Orders[0] != test.want || !p.Certificate.Proven {
			t.Errorf("%+v: %+v, proven %v, want %+v", test.order, p.Orders[0], p.Certificate.Proven, test.want)
		}
	}
}

// Sheets are cut from reels of one to so many widths.
func TestJobSheets(t *testing.T) {
	sheets := func(reels, least, most int) []trim.Order {
		return []trim.Order{{Width: 700, Reels: reels, Least: least, Most: most, Sheets: 3}}
	}
	for _, test := range []struct {
		job  trim.Job
		want []string
	}{
		{trim.Job{Parents: deckle(3300), Orders: sheets(12, 0, 0), Slitter: trim.Slitter{MostReels: 1}}, []string{"4 on 0: 1×2100/3, 1200 trim"}},
		{trim.Job{Parents: deckle(3300), Orders: sheets(2, 0, 0), Slitter: trim.Slitter{MostReels: 1}}, []string{"1 on 0: 1×1400/2, 1900 trim"}},
		{trim.Job{Parents: deckle(3300), Orders: sheets(4, 0, 0), Slitter: trim.Slitter{MostReels: 1, SetMultiple: 2}}, []string{"2 on 0: 1×1400/2, 1900 trim"}},
		{trim.Job{Parents: deckle(3300), Orders: sheets(12, 0, 0), Slitter: trim.Slitter{Narrowest: 1400, Widest: 1400}}, []string{"3 on 0: 2×1400/2, 500 trim"}},
		{trim.Job{Parents: deckle(3300), Orders: sheets(24, 0, 0), Slitter: trim.Slitter{Narrowest: 1400, Widest: 1400, SetMultiple: 3}}, []string{"6 on 0: 2×1400/2, 500 trim"}},
		// All cuts of a width together give a set no more than is wanted.
		{trim.Job{Parents: deckle(1520), Orders: []trim.Order{{Width: 160, Reels: 7, Sheets: 2}}, Slitter: trim.Slitter{LeastUsed: 937}},
			[]string{"1 on 0: 3×320/2 + 1×160, 400 trim"}},
		{trim.Job{Parents: deckle(2715), Orders: []trim.Order{{Width: 724, Reels: 7, Sheets: 2}}, Slitter: trim.Slitter{LeastSets: 3}},
			[]string{"7 on 0: 1×724, 1991 trim"}},
		{trim.Job{Parents: deckle(3937), Orders: []trim.Order{{Width: 889, Reels: 5, Most: 6, Sheets: 2}}, Slitter: trim.Slitter{LeastUsed: 2619}},
			[]string{"2 on 0: 1×1778/2 + 1×889, 1270 trim"}},
		{trim.Job{Parents: deckle(5170), Orders: []trim.Order{{Width: 600, Reels: 4, Sheets: 2}, {Width: 2000, Reels: 2, Most: 4}}, Slitter: trim.Slitter{LeastUsed: 3250}},
			[]string{"1 on 0: 2×2000, 1170 trim", "1 on 0: 1×2000 + 2×1200/2, 770 trim"}},
		{trim.Job{Parents: deckle(1232), Orders: []trim.Order{{Width: 285, Reels: 6, Sheets: 2}}, Slitter: trim.Slitter{MostReels: 5}},
			[]string{"2 on 0: 1×570/2 + 1×285, 377 trim"}},
		{trim.Job{Parents: deckle(3380), Slitter: trim.Slitter{LeastUsed: 1805}, Orders: []trim.Order{
			{Width: 1616, Reels: 5, Most: 10, Sheets: 3}, {Width: 1022, Reels: 2, Most: 4, Sheets: 3}, {Width: 806, Reels: 1, Most: 2, Sheets: 2}}},
			[]string{"3 on 0: 1×3232/2, 148 trim", "1 on 0: 1×2044/2 + 1×806, 530 trim"}},
		// Of reels of two widths alone no odd number can be made, but one more.
		{trim.Job{Parents: deckle(3300), Orders: sheets(3, 3, 4), Slitter: trim.Slitter{Narrowest: 800, Widest: 1500}}, []string{"1 on 0: 2×1400/2, 500 trim"}},
	} {
		planned(t, &test.job, test.want...)
	}
	odd := trim.Job{Parents: deckle(3300), Orders: sheets(3, 0, 0), Slitter: trim.Slitter{Narrowest: 800, Widest: 1500}}
	var refused *trim.OrderError
	if p, err := odd.Plan(context.Background()); !errors.As(err, &refused) || refused.Index != 0 || !strings.HasPrefix(refused.Reason, "no plan makes all of it") {
		t.Errorf("%+v, %v, want that no plan makes all of it", p, err)
	}
}

// Reels of one width go to its orders in turn: first what each needs at least, then
// what it ordered, then what it takes.
func TestJobShares(t *testing.T) {
	orders := []trim.Order{
		{Width: 1000, Reels: 5, Least: 4, Most: 6}, {Width: 1000, Reels: 5}, {Width: 1000, Reels: 4, Least: 3, Most: 6}}
	for _, test := range []struct {
		across int
		used   paperprop.Length
		want   []int
		over   []int
	}{
		{3, 0, []int{4, 5, 3}, []int{-1, 0, -1}},      // 12 of four sets
		{13, 0, []int{5, 5, 3}, []int{0, 0, -1}},      // 13 of one
		{7, 0, []int{5, 5, 4}, []int{0, 0, 0}},        // 14 of two
		{15, 15_000, []int{6, 5, 4}, []int{1, 0, 0}},  // 15, as the set must be full
		{17, 17_000, []int{6, 5, 6}, []int{1, 0, 2}},  // 17
		{100, 12_000, []int{5, 5, 4}, []int{0, 0, 0}}, // 14, as wanted
		{100, 15_001, []int{6, 5, 5}, []int{1, 0, 1}}, // 16
		{6, 6_000, []int{4, 5, 3}, []int{-1, 0, -1}},  // 12 of two
		{5, 5_000, []int{6, 5, 4}, []int{1, 0, 0}},    // 15 of three
		{8, 8_000, []int{6, 5, 5}, []int{1, 0, 1}},    // 16 of two
	} {
		j := &trim.Job{Parents: deckle(paperprop.Length(1000 * test.across)), Orders: orders, Slitter: trim.Slitter{LeastUsed: test.used}}
		p := plan(t, j)
		var over []int
		for _, m := range p.Orders {
			over = append(over, m.Over)
		}
		if !slices.Equal(reels(p), test.want) || !slices.Equal(over, test.over) {
			t.Errorf("%d across, %v used: %v, %v over, want %v, %v", test.across, test.used, reels(p), over, test.want, test.over)
		}
	}
}

// What is made is as near to what is ordered as the sets and the multiples let it be,
// where patterns may be as many as they like: two jumbos of four across hold from ten to
// sixteen reels, in twos.
func TestJobNearest(t *testing.T) {
	for _, test := range []struct{ ordered, least, want int }{{11, 10, 12}, {12, 10, 12}, {13, 9, 14}, {14, 12, 14}, {16, 9, 16}} {
		j := &trim.Job{
			Parents: deckle(4000), Slitter: trim.Slitter{SetMultiple: 2}, AnyPatterns: true,
			Orders: []trim.Order{{Width: 1000, Reels: test.ordered, Least: test.least, Most: 16}},
		}
		if p := plan(t, j); p.Sets != 4 || p.Orders[0] != (trim.Made{Reels: test.want, Over: test.want - test.ordered}) {
			t.Errorf("of %d, at least %d: %d sets make %+v, want 4 and %d", test.ordered, test.least, p.Sets, p.Orders[0], test.want)
		}
	}
}

// Fillers use up trim, in sets that are no more.
func TestJobFillers(t *testing.T) {
	group := func(width paperprop.Length, reels int, group string) trim.Order {
		return trim.Order{Width: width, Reels: reels, Group: group}
	}
	five := []trim.Parent{{Deckle: 1000, Sets: 5}}
	for _, test := range []struct {
		job     trim.Job
		fillers []int
		want    []string
	}{
		{trim.Job{Parents: deckle(1000), Orders: ordered(800, 5), Fillers: []trim.Filler{{Width: 100}}}, []int{10}, []string{"5 on 0: 1×800 + 2×100 filler, 0 trim"}},
		{trim.Job{Parents: deckle(1000), Orders: ordered(800, 5), Fillers: []trim.Filler{{Width: 100, Most: 11}}, AnyPatterns: true}, []int{10}, []string{"5 on 0: 1×800 + 2×100 filler, 0 trim"}},
		{trim.Job{Parents: deckle(1000), Orders: ordered(800, 5), Fillers: []trim.Filler{{Width: 100, Most: 7}}}, []int{7},
			[]string{"3 on 0: 1×800 + 1×100 filler, 100 trim", "2 on 0: 1×800 + 2×100 filler, 0 trim"}},
		{trim.Job{Parents: deckle(1000), Orders: ordered(800, 5), Fillers: []trim.Filler{{Width: 200, Most: 3}}}, []int{3},
			[]string{"3 on 0: 1×800 + 1×200 filler, 0 trim", "2 on 0: 1×800, 200 trim"}},
		{trim.Job{Parents: deckle(1000), Orders: ordered(800, 5), Fillers: []trim.Filler{{Width: 201}}}, []int{0}, []string{"5 on 0: 1×800, 200 trim"}},
		// One after another, in the order of the job.
		{trim.Job{Parents: deckle(1000), Orders: ordered(800, 5), Fillers: []trim.Filler{{Width: 150}, {Width: 50}}}, []int{5, 5},
			[]string{"5 on 0: 1×800 + 1×150 filler + 1×50 filler, 0 trim"}},
		{trim.Job{Parents: deckle(1000), Orders: ordered(800, 5), Fillers: []trim.Filler{{Width: 50}, {Width: 150}}}, []int{20, 0},
			[]string{"5 on 0: 1×800 + 4×50 filler, 0 trim"}},
		{trim.Job{Parents: deckle(1000), Orders: ordered(800, 5), Fillers: []trim.Filler{{Width: 150, Most: 2}, {Width: 200}}}, []int{2, 3},
			[]string{"3 on 0: 1×800 + 1×200 filler, 0 trim", "2 on 0: 1×800 + 1×150 filler, 50 trim"}},
		// Orders make room: 450 + 450 and 400 + 400 leave 100 and 200.
		{trim.Job{Parents: deckle(1000), Orders: ordered(450, 2, 400, 2), Fillers: []trim.Filler{{Width: 200}}}, []int{1},
			[]string{"1 on 0: 2×450, 100 trim", "1 on 0: 2×400 + 1×200 filler, 0 trim"}},
		{trim.Job{Parents: deckle(1000), Orders: ordered(450, 3, 400, 3), Fillers: []trim.Filler{{Width: 200}}}, []int{1},
			[]string{"1 on 0: 2×450, 100 trim", "1 on 0: 1×450 + 1×400, 150 trim", "1 on 0: 2×400 + 1×200 filler, 0 trim"}},
		{trim.Job{Parents: deckle(1000), Orders: ordered(450, 2, 400, 2), Fillers: []trim.Filler{{Width: 250}}}, []int{0}, []string{"2 on 0: 1×450 + 1×400, 150 trim"}},
		// Fillers are under the limits of the slitter.
		{trim.Job{Parents: deckle(1000), Orders: ordered(800, 5), Slitter: trim.Slitter{MostReels: 2}, Fillers: []trim.Filler{{Width: 100}}}, []int{5},
			[]string{"5 on 0: 1×800 + 1×100 filler, 100 trim"}},
		{trim.Job{Parents: deckle(1000), Orders: ordered(800, 4), Slitter: trim.Slitter{SetMultiple: 2}, Fillers: []trim.Filler{{Width: 200, Most: 3}}}, []int{2},
			[]string{"2 on 0: 1×800, 200 trim", "2 on 0: 1×800 + 1×200 filler, 0 trim"}},
		{trim.Job{Parents: deckle(1000), Orders: ordered(800, 4), Slitter: trim.Slitter{SetMultiple: 2}, Fillers: []trim.Filler{{Width: 200, Most: 1}}}, []int{0},
			[]string{"4 on 0: 1×800, 200 trim"}},
		{trim.Job{Parents: deckle(1000), Orders: ordered(800, 5), Slitter: trim.Slitter{LeastSets: 2}, Fillers: []trim.Filler{{Width: 100, Most: 3}}}, []int{3},
			[]string{"3 on 0: 1×800 + 1×100 filler, 100 trim", "2 on 0: 1×800, 200 trim"}},
		{trim.Job{Parents: deckle(1000), Orders: ordered(800, 5), Slitter: trim.Slitter{LeastSets: 2}, Fillers: []trim.Filler{{Width: 100, Most: 1}}}, []int{0},
			[]string{"5 on 0: 1×800, 200 trim"}},
		// They count in what must be used, from the start, but alone they are no set.
		{trim.Job{Parents: deckle(3380), Orders: ordered(1000, 1), Slitter: trim.Slitter{LeastUsed: 1805}, Fillers: []trim.Filler{{Width: 292}}}, []int{8},
			[]string{"1 on 0: 1×1000 + 8×292 filler, 44 trim"}},
		{trim.Job{Parents: []trim.Parent{{Deckle: 1242}, {Deckle: 1700}}, Aim: trim.LeastWidth, Slitter: trim.Slitter{LeastUsed: 1111}, Fillers: []trim.Filler{{Width: 306}},
			Orders: []trim.Order{{Width: 810, Reels: 3, Most: 6}, {Width: 500, Reels: 2, Most: 4}}}, []int{3},
			[]string{"2 on 1: 1×810 + 1×500 + 1×306 filler, 84 trim", "1 on 0: 1×810 + 1×306 filler, 126 trim"}},
		{trim.Job{Parents: deckle(1000), Orders: []trim.Order{group(700, 2, "a"), group(600, 1, "b")}, Slitter: trim.Slitter{LeastUsed: 850},
			Fillers: []trim.Filler{{Width: 150, Most: 4}}, AnyPatterns: true}, []int{4},
			[]string{"2 on 0 a: 1×700 + 1×150 filler, 150 trim", "1 on 0 b: 1×600 + 2×150 filler, 100 trim"}},
		// A filler of a group lies beside that one, and all groups share what there is of it.
		{trim.Job{Parents: deckle(1000), Orders: []trim.Order{group(800, 2, "a"), group(900, 3, "b")}, Fillers: []trim.Filler{{Width: 100, Group: "b"}}}, []int{3},
			[]string{"3 on 0 b: 1×900 + 1×100 filler, 0 trim", "2 on 0 a: 1×800, 200 trim"}},
		{trim.Job{Parents: deckle(1000), Orders: []trim.Order{group(800, 2, "a"), group(900, 3, "b")}, Fillers: []trim.Filler{{Width: 100, Group: "c"}}}, []int{0},
			[]string{"3 on 0 b: 1×900, 100 trim", "2 on 0 a: 1×800, 200 trim"}},
		{trim.Job{Parents: deckle(1000), Orders: []trim.Order{group(800, 2, "a"), group(900, 3, "b")}, Fillers: []trim.Filler{{Width: 100}}}, []int{7},
			[]string{"3 on 0 b: 1×900 + 1×100 filler, 0 trim", "2 on 0 a: 1×800 + 2×100 filler, 0 trim"}},
		{trim.Job{Parents: deckle(1000), Orders: []trim.Order{group(900, 2, "a"), group(900, 3, "b")}, Fillers: []trim.Filler{{Width: 100, Most: 5}}}, []int{5},
			[]string{"3 on 0 b: 1×900 + 1×100 filler, 0 trim", "2 on 0 a: 1×900 + 1×100 filler, 0 trim"}},
		{trim.Job{Parents: deckle(1000), Orders: []trim.Order{group(900, 2, "a"), group(900, 3, "b")}, Fillers: []trim.Filler{{Width: 100, Most: 2}}}, []int{2},
			[]string{"3 on 0 b: 1×900, 100 trim", "2 on 0 a: 1×900 + 1×100 filler, 0 trim"}},
		// Groups that draw on one stock are planned together.
		{trim.Job{Parents: five, Orders: []trim.Order{group(800, 2, "a"), group(900, 3, "b")}, Fillers: []trim.Filler{{Width: 100, Group: "b"}, {Width: 200}}}, []int{3, 2},
			[]string{"3 on 0 b: 1×900 + 1×100 filler, 0 trim", "2 on 0 a: 1×800 + 1×200 filler, 0 trim"}},
		{trim.Job{Parents: five, Orders: []trim.Order{group(800, 2, "a"), group(500, 2, "b"), group(400, 2, "b")},
			Fillers: []trim.Filler{{Width: 200, Group: "b"}, {Width: 100, Group: "a"}}}, []int{1, 4},
			[]string{"2 on 0 a: 1×800 + 2×100 filler, 0 trim", "1 on 0 b: 2×500, 0 trim", "1 on 0 b: 2×400 + 1×200 filler, 0 trim"}},
	} {
		if p := planned(t, &test.job, test.want...); !slices.Equal(p.Fillers, test.fillers) {
			t.Errorf("%+v: fillers %v, want %v", test.job, p.Fillers, test.fillers)
		}
	}
}

// Stocks of parent reels, and deckles that cost what they are wide.
func TestJobStocks(t *testing.T) {
	for _, test := range []struct {
		job   trim.Job
		want  []string
		value int // of the certificate
		spare int // deckles with a worth in it
	}{
		// Nine reels: two sets of three and two of two, or one and three of them.
		{trim.Job{Parents: []trim.Parent{{Deckle: 3000, Sets: 2}, {Deckle: 2500}}, Orders: ordered(1000, 9), Aim: trim.LeastWidth},
			[]string{"3 on 1: 2×1000, 500 trim", "1 on 0: 3×1000, 0 trim"}, 21, 2},
		{trim.Job{Parents: []trim.Parent{{Deckle: 3000}, {Deckle: 2500}}, Orders: ordered(1000, 9), Aim: trim.LeastWidth},
			[]string{"3 on 0: 3×1000, 0 trim"}, 18, 0},
		{trim.Job{Parents: []trim.Parent{{Deckle: 2500}, {Deckle: 3000}}, Orders: ordered(1000, 9)}, []string{"3 on 1: 3×1000, 0 trim"}, 3, 0},
		{trim.Job{Parents: []trim.Parent{{Deckle: 3000, Sets: 2}, {Deckle: 2000}}, Orders: ordered(1000, 10)},
			[]string{"2 on 0: 3×1000, 0 trim", "2 on 1: 2×1000, 0 trim"}, 4, 2},
		// Five sets are two jumbos of two.
		{trim.Job{Parents: []trim.Parent{{Deckle: 3000, Sets: 5}}, Orders: ordered(1000, 12), Slitter: trim.Slitter{SetMultiple: 2}}, []string{"4 on 0: 3×1000, 0 trim"}, 4, 1},
		// The stock is that of both groups.
		{trim.Job{Parents: []trim.Parent{{Deckle: 3000, Sets: 2}, {Deckle: 2000}},
			Orders: []trim.Order{{Width: 1000, Reels: 6, Group: "a"}, {Width: 500, Reels: 24, Group: "b"}}},
			[]string{"6 on 1 b: 4×500, 0 trim", "2 on 0 a: 3×1000, 0 trim"}, 8, 2},
	} {
		p := planned(t, &test.job, test.want...)
		if c := p.Certificate; c.Value != test.value || c.Bound != test.value || len(c.Weights) != 1 || len(c.Weights[0].Spare) != test.spare {
			t.Errorf("%+v: certificate %+v, want %d, with spare weights of %d deckles", test.job, c, test.value, test.spare)
		}
	}
}

// What a certificate holds: the weights of each order over those of a full set.
func TestJobCertificates(t *testing.T) {
	j := &trim.Job{Parents: deckle(3300), Orders: []trim.Order{{Width: 1100, Reels: 4, Group: "b"}, {Width: 1650, Reels: 3, Group: "a"}, {Width: 1100, Reels: 3, Group: "b"}}}
	c := planned(t, j, "2 on 0 b: 3×1100, 0 trim", "1 on 0 a: 2×1650, 0 trim", "1 on 0 a: 1×1650, 1650 trim", "1 on 0 b: 1×1100, 2200 trim").Certificate
	if c.Bound != 5 || c.Value != 5 || c.Step != 0 || c.Proof != trim.ByWeights || len(c.Weights) != 2 {
		t.Fatalf("%+v", c)
	}
	for i, want := range []struct {
		orders []int
		across int64
		bound  int
	}{{[]int{1}, 2, 2}, {[]int{0, 2}, 3, 3}} {
		w := c.Weights[i]
		if !slices.Equal(w.Orders, want.orders) || len(w.Order) != len(want.orders) || w.Bound != want.bound || w.Proof != trim.ByWeights || w.Spare != nil {
			t.Errorf("weights %d: %+v, want of %v, bound %d", i, w, want.orders, want.bound)
		}
		for _, v := range w.Order {
			if v <= 0 || v*want.across > w.Full {
				t.Errorf("weights %d: %d of a full %d, of which %d are a set", i, v, w.Full, want.across)
			}
		}
	}

	// Four reels are worth 4/3 of a deckle of 3000 mm, or 8 steps of 500 mm, but the
	// first sum of deckles above that is 10.
	j = &trim.Job{Parents: []trim.Parent{{Deckle: 3000}, {Deckle: 2500}}, Orders: ordered(1000, 4), Aim: trim.LeastWidth}
	c = planned(t, j, "2 on 1: 2×1000, 500 trim").Certificate
	if c.Bound != 10 || c.Value != 10 || c.Step != 500 || c.Width() != 5000 || c.Proof != trim.BySearch || len(c.Weights) != 1 || c.Weights[0].Bound != 8 || c.Weights[0].Proof != trim.BySearch {
		t.Errorf("%+v", c)
	}

	// Under a least width weights hold too, and are told from those of sets that are
	// as thin as they like.
	j = &trim.Job{
		Parents: []trim.Parent{{Deckle: 28, Edge: 1}}, Slitter: trim.Slitter{LeastUsed: 8},
		Orders: []trim.Order{{Width: 13, Reels: 1, Least: 1, Most: 2}, {Width: 6, Reels: 2}, {Width: 15, Reels: 3}},
	}
	n, _ := fewest(j)
	if c := plan(t, j).Certificate; c.Value != n || c.Bound != n {
		t.Errorf("%+v, want %d sets", c, n)
	}

	// Fillers have no weight.
	j = &trim.Job{Parents: deckle(1000), Orders: ordered(800, 5), Fillers: []trim.Filler{{Width: 100}}}
	if w := plan(t, j).Certificate.Weights; len(w) != 1 || !slices.Equal(w[0].Orders, []int{0}) || len(w[0].Order) != 1 {
		t.Errorf("%+v", w)
	}
}

// Of a job that is planned partly, what can't be made is left: of each order from the
// top of the list what has no room beside those above it.
func TestJobPartly(t *testing.T) {
	const above = "no room beside the orders above it"
	for _, test := range []struct {
		job  trim.Job
		want []string
	}{
		{trim.Job{Parents: deckle(3300), Orders: ordered(4000, 2, 1100, 3, 0, 7)},
			[]string{"1 on 0: 3×1100, 0 trim", "left 2 of 0: wider than the deckle, 3300 mm less its edges; want at most 3300 mm", "left 7 of 2: want above 0 mm"}},
		{trim.Job{Parents: deckle(1000), Orders: ordered(1000, 10_000_000), Slitter: trim.Slitter{SetMultiple: 10_000_000, LeastSets: 10_000_000}},
			[]string{"10000000 on 0: 1×1000, 0 trim"}},
		{trim.Job{Parents: deckle(3300), Orders: ordered(1100, 6, 1000, 5), Slitter: trim.Slitter{SetMultiple: 2}},
			[]string{"2 on 0: 3×1100, 0 trim", "left 5 of 1: 5 reels can't be cut in multiples of 2; the nearest are 4 and 6"}},
		// Two sets hold 4 of 1000 mm and 1 of 1500 mm, not 2; of what stands below, what fits.
		{trim.Job{Parents: []trim.Parent{{Deckle: 3000, Sets: 2}}, Orders: ordered(1000, 4, 1500, 2, 100, 3)},
			[]string{"1 on 0: 1×1500 + 1×1000 + 3×100, 200 trim", "1 on 0: 3×1000, 0 trim", "left 1 of 1: " + above}},
		{trim.Job{Parents: []trim.Parent{{Deckle: 3000, Sets: 2}}, Orders: ordered(1000, 4, 1500, 2, 200, 3, 100, 1)},
			[]string{"1 on 0: 1×1500 + 1×1000 + 2×200 + 1×100, 0 trim", "1 on 0: 3×1000, 0 trim", "left 1 of 1: " + above, "left 1 of 2: " + above}},
		{trim.Job{Parents: []trim.Parent{{Deckle: 3000, Sets: 2}}, Orders: ordered(1000, 4, 1500, 1, 1000, 9)},
			[]string{"1 on 0: 1×1500 + 1×1000, 500 trim", "1 on 0: 3×1000, 0 trim", "left 9 of 2: " + above}},
		// Two jumbos of two sets hold 12; a thirteenth and fourteenth are left.
		{trim.Job{Parents: []trim.Parent{{Deckle: 3000, Sets: 5}}, Orders: ordered(1000, 14), Slitter: trim.Slitter{SetMultiple: 2}},
			[]string{"4 on 0: 3×1000, 0 trim", "left 2 of 0: no plan makes more of it with at most 5 sets, and no over- or under-run"}},
		// Three or four are four in twos; of eight beside them four have room.
		{trim.Job{Parents: []trim.Parent{{Deckle: 3000, Sets: 4}}, Orders: []trim.Order{{Width: 1000, Reels: 3, Least: 3, Most: 4}, {Width: 1500, Reels: 8}}, Slitter: trim.Slitter{SetMultiple: 2}},
			[]string{"4 on 0: 1×1500 + 1×1000, 500 trim", "left 4 of 1: " + above}},
		{trim.Job{Parents: []trim.Parent{{Deckle: 3000, Sets: 2}}, Orders: ordered(1000, 14), Slitter: trim.Slitter{SetMultiple: 2}},
			[]string{"2 on 0: 3×1000, 0 trim", "left 8 of 0: no plan makes more of it with at most 2 sets, and no over- or under-run"}},
		// Ten reels are three across in a jumbo and two in another, and no more.
		{trim.Job{Parents: []trim.Parent{{Deckle: 3000, Sets: 4}}, Orders: ordered(1000, 10, 2500, 2), Slitter: trim.Slitter{SetMultiple: 2}},
			[]string{"2 on 0: 3×1000, 0 trim", "2 on 0: 2×1000, 1000 trim", "left 2 of 1: " + above}},
		// Four are ordered, though eight may be.
		{trim.Job{Parents: []trim.Parent{{Deckle: 4000, Sets: 2}}, Orders: []trim.Order{{Width: 1000, Reels: 4, Least: 3, Most: 8}, {Width: 4000, Reels: 4}},
			Slitter: trim.Slitter{SetMultiple: 2}, AnyPatterns: true},
			[]string{"2 on 0: 2×1000, 2000 trim", "left 4 of 1: " + above}},
		{trim.Job{Parents: []trim.Parent{{Deckle: 3000, Sets: 1}}, Orders: ordered(1000, 4)},
			[]string{"1 on 0: 3×1000, 0 trim", "left 1 of 0: no plan makes more of it with at most 1 set, and no over- or under-run"}},
		// Multiples of one are none.
		{trim.Job{Parents: []trim.Parent{{Deckle: 3000, Sets: 1}}, Orders: ordered(1000, 4, 1000, 1), Slitter: trim.Slitter{SetMultiple: 1}},
			[]string{"1 on 0: 3×1000, 0 trim", "left 1 of 0: no plan makes more of it with at most 1 set, and no over- or under-run", "left 1 of 1: " + above}},
		// Under-run goes before what is left.
		{trim.Job{Parents: []trim.Parent{{Deckle: 3000, Sets: 2}}, Orders: []trim.Order{{Width: 1000, Reels: 7, Least: 5, Most: 8}}}, []string{"2 on 0: 3×1000, 0 trim"}},
		{trim.Job{Parents: []trim.Parent{{Deckle: 3000, Sets: 1}}, Orders: []trim.Order{{Width: 1000, Reels: 7, Least: 5, Most: 8}}}, []string{"1 on 0: 3×1000, 0 trim", "left 4 of 0: no plan makes more of it with at most 1 set"}},
		{trim.Job{Parents: deckle(3000), Orders: ordered(1000, 2), Slitter: trim.Slitter{LeastUsed: 2500}},
			[]string{"left 2 of 0: no plan makes more of it with at least 2500 mm used in every set, and no over- or under-run"}},
		// One or three reels make no full sets, but four do, of fifteen.
		{trim.Job{Parents: []trim.Parent{{Deckle: 1800, Sets: 2}}, Orders: ordered(800, 15), Slitter: trim.Slitter{LeastUsed: 1550}},
			[]string{"2 on 0: 2×800, 200 trim", "left 11 of 0: no plan makes more of it with at most 2 sets and at least 1550 mm used in every set, and no over- or under-run"}},
		// An order makes a set full enough for the one above it.
		{trim.Job{Parents: []trim.Parent{{Deckle: 3000, Sets: 1}}, Orders: ordered(1000, 2, 900, 3), Slitter: trim.Slitter{LeastUsed: 2900}},
			[]string{"1 on 0: 2×1000 + 1×900, 100 trim", "left 2 of 1: " + above}},
	} {
		test.job.Partly = true
		planned(t, &test.job, test.want...)
	}
}

// Reels that are left out are none of those that are made: of two orders of one width
// the first will do with none, and the second has them.
func TestJobPartlyShares(t *testing.T) {
	p := plan(t, &trim.Job{
		Parents: []trim.Parent{{Deckle: 38, Sets: 2}}, Slitter: trim.Slitter{MostReels: 2}, Partly: true,
		Orders: []trim.Order{{Width: 13, Reels: 3, NoneWillDo: true}, {Width: 20, Reels: 3}, {Width: 13, Reels: 2}},
	})
	var made []int
	for _, o := range p.Orders {
		made = append(made, o.Reels)
	}
	const above = "no room beside the orders above it"
	left := []trim.Left{{1, 1, above}}
	if want := []int{0, 2, 2}; !slices.Equal(made, want) || !slices.Equal(p.Left, left) {
		t.Errorf("made %v, left %+v, want %v, %+v", made, p.Left, want, left)
	}
}

// An order that is no number is refused, though the job is planned partly: no plan could
// tell of it. A mass too large for a plan is left out, and adds up to nothing.
func TestJobPartlyNumbers(t *testing.T) {
	for _, test := range []struct {
		order trim.Order
		want  string
	}{
		{trim.Order{Width: paperprop.Length(math.Inf(1)), Reels: 1}, "order 1: width +Inf mm: width is +Inf mm, want at most 100000000 mm"},
		{trim.Order{Width: 1000, Reels: 1, ReelMass: paperprop.Mass(math.NaN())}, "order 1: width 1000 mm: the mass of a reel is NaN kg, want above 0 kg, or 0 kg where it is not known"},
		{trim.Order{Width: 1000, Reels: 1, OrderedMass: paperprop.Mass(math.Inf(-1))}, "order 1: width 1000 mm: the mass ordered is -Inf kg, want above 0 kg, or 0 kg of an order by reels"},
		{trim.Order{Width: 1000, Reels: 12, ReelMass: math.MaxFloat64}, "<nil>"},
	} {
		j := &trim.Job{Parents: deckle(3300), Orders: []trim.Order{test.order, {Width: 1100, Reels: 3}}, Partly: true}
		p, err := j.Plan(context.Background())
		if fmt.Sprint(err) != test.want {
			t.Errorf("%+v: error\n%v, want\n%v", test.order, err, test.want)
		}
		if err == nil && (p.Orders[0].OverMass != 0 || len(p.Left) != 1) {
			t.Errorf("%+v: %+v", test.order, p)
		}
	}
}

// A job without a plan is told which limits leave it without one.
func TestJobImpossible(t *testing.T) {
	over := []trim.Order{{Width: 1000, Reels: 4}, {Width: 900, Reels: 1, Least: 1, Most: 2}}
	for _, test := range []struct {
		job  trim.Job
		want string
	}{
		{trim.Job{Parents: []trim.Parent{{Deckle: 3000, Sets: 1}}, Orders: ordered(1000, 4)}, "order 1: width 1000 mm: no plan makes all of it with at most 1 set, and no over- or under-run"},
		{trim.Job{Parents: []trim.Parent{{Deckle: 3000, Sets: 1}, {Deckle: 1000, Sets: 2}}, Orders: ordered(900, 0, 1000, 6)},
			"order 2: width 1000 mm: no plan makes all of it with at most 3 sets, and no over- or under-run"},
		{trim.Job{Parents: []trim.Parent{{Deckle: 3000, Sets: 1}}, Orders: over}, "order 1: width 1000 mm: no plan makes all of it with at most 1 set"},
		{trim.Job{Parents: []trim.Parent{{Deckle: 3000, Sets: 5}}, Orders: ordered(1000, 18), Slitter: trim.Slitter{SetMultiple: 2}},
			"order 1: width 1000 mm: no plan makes all of it with at most 5 sets, and no over- or under-run"},
		// One of these deckles is without end.
		{trim.Job{Parents: []trim.Parent{{Deckle: 3000, Sets: 1}, {Deckle: 3000}}, Orders: ordered(1000, 4), Slitter: trim.Slitter{LeastUsed: 2500, LeastSets: 1}},
			"order 1: width 1000 mm: no plan makes all of it with at least 2500 mm used in every set, and no over- or under-run"},
		{trim.Job{Parents: deckle(1000), Orders: ordered(450, 3), Slitter: trim.Slitter{LeastUsed: 900}},
			"order 1: width 450 mm: no plan makes all of it with at least 900 mm used in every set, and no over- or under-run"},
		{trim.Job{Parents: deckle(3000), Orders: ordered(1000, 4), Slitter: trim.Slitter{LeastUsed: 2000, LeastSets: 3}},
			"order 1: width 1000 mm: no plan makes all of it with at least 2000 mm used in every set and every pattern cut at least 3 times, and no over- or under-run"},
		{trim.Job{Parents: []trim.Parent{{Deckle: 1000, Sets: 4}}, Orders: ordered(600, 5), Slitter: trim.Slitter{LeastSets: 2}},
			"order 1: width 600 mm: no plan makes all of it with at most 4 sets and every pattern cut at least 2 times, and no over- or under-run"},
	} {
		if p, err := test.job.Plan(context.Background()); p != nil || fmt.Sprint(err) != test.want {
			t.Errorf("%+v: %+v, error\n%v, want\n%v", test.job, p, err, test.want)
		}
	}

	ended, cancel := context.WithCancel(context.Background())
	cancel()
	j := trim.Job{Parents: []trim.Parent{{Deckle: 3000, Sets: 1}}, Orders: ordered(1000, 4)}
	want := "order 1: width 1000 mm: no plan was found with at most 1 set, and no over- or under-run in the time that was left"
	if _, err := j.Plan(ended); fmt.Sprint(err) != want {
		t.Errorf("error\n%v, want\n%v", err, want)
	}
}

// TestPlanAtOnce plans one job from several goroutines, partly too, as a service does:
// it is not changed, and the race detector finds nothing.
func TestPlanAtOnce(t *testing.T) {
	made := func() *trim.Job {
		return &trim.Job{
			Partly:  true,
			Parents: []trim.Parent{{Deckle: 3300, Edge: 10, Sets: 12}},
			Slitter: trim.Slitter{MostReels: 5},
			Fillers: []trim.Filler{{Width: 200, Most: 2}},
			Orders:  []trim.Order{{Width: 1450, Reels: 6}, {Width: 3450, Reels: 1}, {Width: 1080, Reels: 9, Most: 10}, {Width: 820, Reels: 7}},
		}
	}
	job, plans := made(), make([]*trim.Plan, 4)
	var group sync.WaitGroup
	for i := range plans {
		group.Go(func() { plans[i], _ = job.Plan(t.Context()) })
	}
	group.Wait()
	for i, p := range plans {
		if p == nil || !reflect.DeepEqual(p, plans[0]) {
			t.Errorf("plan %d is %+v, the first %+v", i, p, plans[0])
		}
	}
	if want := made(); !reflect.DeepEqual(job, want) {
		t.Errorf("planning made the job %+v of %+v", job, want)
	}
}
