package trim_test

import (
	"errors"
	"fmt"
	"math"
	"strings"
	"testing"

	"millmaths.example/paperprop"
	"millmaths.example/paperprop/calc"
	"millmaths.example/paperprop/trim"
)

func unit(t *testing.T, kind *paperprop.Kind, name string) paperprop.Unit {
	t.Helper()
	u, err := kind.Unit(name)
	if err != nil {
		t.Fatal(err)
	}
	return u
}

// A plan of two orders, written by hand: three sets of 3000 mm, of which 300 mm are
// trim in all, or 3.3 % of 9000 mm. A reel of 1000 mm weighs 500 kg: seven are 3.5 t.
func TestJSON(t *testing.T) {
	job := &trim.Job{
		Parents: []trim.Parent{{Deckle: 3000 * mm}},
		Orders: []trim.Order{
			{Name: "A", Line: 2, Width: 1000 * mm, Reels: 8, Group: "long", ReelMass: 500 * kg},
			{Width: 700 * mm, Reels: 2, Group: "long"},
			{Name: "C", Line: 4, Width: 3001 * mm, Reels: 1},
		},
		Fillers: []trim.Filler{{Width: 200 * mm}},
		Bad:     []error{errors.New(`orders.csv:5:3: reels "x": no number`)},
	}
	plan := &trim.Plan{
		Sets: 3, Deckle: 9000 * mm, Trim: 300 * mm,
		Patterns: []trim.Pattern{
			{Times: 2, Group: "long", Reels: []trim.Reels{{Width: 1000 * mm, Count: 3, Sheets: 1}}},
			{Times: 1, Group: "long", Trim: 300 * mm, Edge: 150 * mm, Reels: []trim.Reels{
				{Width: 1400 * mm, Count: 1, Sheets: 2}, {Width: 1000 * mm, Count: 1, Sheets: 1}, {Width: 200 * mm, Count: 1, Sheets: 1, Filler: true}}},
		},
		Orders:  []trim.Made{{Reels: 7, Over: -1}, {Reels: 2}, {}},
		Fillers: []int{1},
		Left:    []trim.Left{{Order: 2, Reels: 1, Reason: "wider than the deckle"}},
		Certificate: trim.Certificate{Bound: 3, Value: 3, Proven: true, Proof: trim.BySearch, Weights: []trim.Weights{
			{Orders: []int{0, 1}, Order: []int64{3, 2}, Spare: []int64{1}, Full: 9, Bound: 2, Proof: trim.BySearch}}},
	}
	got, err := plan.JSON(job, unit(t, job.Parents[0].Deckle.Kind(), "mm"))
	want := `{
  "command": "trim",
  "version": "` + calc.Version + `",
  "sets": 3,
  "bound": 3,
  "proven": true,
  "proof": "search",
  "aim": "sets",
  "patterns": [
    {
      "times": 2,
      "deckle": {
        "value": 3000,
        "unit": "mm"
      },
      "group": "long",
      "widths": [
        {
          "value": 1000,
          "unit": "mm",
          "count": 3
        }
      ],
      "edge": {
        "value": 0,
        "unit": "mm"
      },
      "trim": {
        "value": 0,
        "unit": "mm"
      }
    },
    {
      "times": 1,
      "deckle": {
        "value": 3000,
        "unit": "mm"
      },
      "group": "long",
      "widths": [
        {
          "value": 1400,
          "unit": "mm",
          "count": 1,
          "sheets": 2
        },
        {
          "value": 1000,
          "unit": "mm",
          "count": 1
        },
        {
          "value": 200,
          "unit": "mm",
          "count": 1,
          "filler": true
        }
      ],
      "edge": {
        "value": 150,
        "unit": "mm"
      },
      "trim": {
        "value": 300,
        "unit": "mm"
      }
    }
  ],
  "orders": [
    {
      "order": "A",
      "line": 2,
      "width": {
        "value": 1000,
        "unit": "mm"
      },
      "group": "long",
      "ordered": 8,
      "made": 7,
      "over": -1,
      "mass": {
        "value": 3.5,
        "unit": "t"
      }
    },
    {
      "width": {
        "value": 700,
        "unit": "mm"
      },
      "group": "long",
      "ordered": 2,
      "made": 2,
      "over": 0
    },
    {
      "order": "C",
      "line": 4,
      "width": {
        "value": 3001,
        "unit": "mm"
      },
      "ordered": 1,
      "made": 0,
      "over": 0
    }
  ],
  "fillers": [
    {
      "width": {
        "value": 200,
        "unit": "mm"
      },
      "reels": 1
    }
  ],
  "left-out": [
    {
      "order": "C",
      "line": 4,
      "width": {
        "value": 3001,
        "unit": "mm"
      },
      "reels": 1,
      "reason": "wider than the deckle"
    }
  ],
  "refused": [
    "orders.csv:5:3: reels \"x\": no number"
  ],
  "trim": {
    "value": 300,
    "unit": "mm"
  },
  "loss-on-deckle": {
    "value": 3.3333333333333335,
    "unit": "%"
  },
  "certificate": [
    {
      "bound": 2,
      "proof": "search",
      "orders": [
        1,
        2
      ],
      "weight": [
        3,
        2
      ],
      "full": 9,
      "spare": [
        1
      ]
    }
  ],
  "cautions": [
    {
      "code": "` + calc.HeavyReel.Code + `",
      "text": "` + calc.HeavyReel.Text + `"
    }
  ]
}
`
	if string(got) != want || err != nil {
		t.Errorf("%s, %v,\nwant %s", got, err, want)
	}
}

// What is neither is told as it is.
func TestUnknownWords(t *testing.T) {
	for got, want := range map[string]string{
		trim.FewestSets.String(): "sets", trim.LeastWidth.String(): "width", trim.Aim(9).String(): "aim 9",
		trim.ByWeights.String(): "weights", trim.BySearch.String(): "search", trim.Proof(9).String(): "proof 9",
	} {
		if got != want {
			t.Errorf("%q, want %q", got, want)
		}
	}
}

// Where deckles are added up, the bound is a length, and sets are as many of the
// widest as it takes at least. 33.328125 in are 846.534375 mm.
func TestJSONWidth(t *testing.T) {
	inch := unit(t, paperprop.Length(0).Kind(), "in")
	job := &trim.Job{Aim: trim.LeastWidth, Parents: []trim.Parent{{Deckle: 2032 * mm}, {Deckle: 2540 * mm}, {Deckle: 2286 * mm}}}
	for _, test := range []struct {
		steps       int // of 254 mm, 10 in
		width, sets string
	}{
		{20, "200", "2"},
		{21, "210", "3"}, // 2.1 deckles of 100 in
		{29, "290", "3"},
		{30, "300", "3"},
	} {
		plan := &trim.Plan{Deckle: 7874 * mm, Trim: 846.534375 * mm, Certificate: trim.Certificate{Bound: test.steps, Value: 31, Step: 254 * mm}}
		got, err := plan.JSON(job, inch)
		flat := strings.Join(strings.Fields(string(got)), " ")
		for _, want := range []string{
			`"sets": 0, "bound": ` + test.sets + `, "proven": false, "proof": "weights", "aim": "width", ` +
				`"width": { "value": 310, "unit": "in" }, "width-bound": { "value": ` + test.width + `, "unit": "in" }, "patterns": [], "orders": [], ` +
				`"trim": { "value": 33.328125, "unit": "in" }, "loss-on-deckle": { "value": 10.751008`,
			`"certificate": [], "cautions"`,
		} {
			if !strings.Contains(flat, want) || err != nil {
				t.Errorf("bound of %d steps: %s, %v,\nwithout %s", test.steps, flat, err, want)
			}
		}
	}
	if c := (trim.Certificate{Bound: 7, Step: 0.1 * mm}); c.Width() != 0.7*mm {
		t.Errorf("seven steps of 0.1 mm are %v", c.Width())
	}
}

// A plan goes out with its own job, in a unit of length.
func TestJSONRefuses(t *testing.T) {
	length, mass := paperprop.Length(0).Kind(), paperprop.Mass(0).Kind()
	job := &trim.Job{Parents: deckle(3000), Orders: ordered(1000, 3)}
	plan := &trim.Plan{Orders: []trim.Made{{Reels: 3}}, Patterns: []trim.Pattern{{Times: 1, Reels: []trim.Reels{{Width: 1000, Count: 3, Sheets: 1}}}}}
	for _, test := range []struct {
		plan *trim.Plan
		job  *trim.Job
		unit paperprop.Unit
		want string
	}{
		{plan, job, unit(t, mass, "kg"), "kg is not a unit of length, want one such as mm or in"},
		{plan, &trim.Job{Parents: deckle(3000)}, unit(t, length, "mm"), "the plan is for 1 order and the job has 0, want the job that it was made from"},
		{plan, &trim.Job{Parents: deckle(3000), Orders: ordered(1000, 3, 900, 1)}, unit(t, length, "mm"),
			"the plan is for 1 order and the job has 2, want the job that it was made from"},
		{plan, &trim.Job{Parents: deckle(3000), Orders: ordered(1000, 3), Fillers: []trim.Filler{{Width: 200}}}, unit(t, length, "mm"),
			"the plan is for 0 fillers and the job has 1, want the job that it was made from"},
		{plan, &trim.Job{Orders: ordered(1000, 3)}, unit(t, length, "mm"), "the plan cuts a parent that the job lacks, want the job that it was made from"},
		{&trim.Plan{Orders: plan.Orders, Left: []trim.Left{{Order: 1}}}, job, unit(t, length, "mm"),
			"the plan leaves out an order that the job lacks, want the job that it was made from"},
	} {
		if got, err := test.plan.JSON(test.job, test.unit); got != nil || fmt.Sprint(err) != test.want {
			t.Errorf("JSON(%+v, %v) = %s, error %v, want %s", test.job, test.unit, got, err, test.want)
		}
	}
	got, err := plan.JSON(job, paperprop.Unit{})
	want, _ := plan.JSON(job, unit(t, length, "mm"))
	if err != nil || string(got) != string(want) {
		t.Errorf("no unit: %s, %v, want %s", got, err, want)
	}
}

// The mass of a plan is that of its orders, if it is known of all that are made.
func TestPlanMass(t *testing.T) {
	one := trim.Order{ReelMass: 400 * kg}
	for _, test := range []struct {
		orders []trim.Order
		made   []trim.Made
		want   paperprop.Mass
		known  bool
	}{
		{[]trim.Order{one, {ReelMass: 0.5 * paperprop.Tonne}}, []trim.Made{{Reels: 3}, {Reels: 2}}, 2200 * kg, true},
		{[]trim.Order{one, {}}, []trim.Made{{Reels: 3}, {}}, 1200 * kg, true},
		{[]trim.Order{one, {}}, []trim.Made{{Reels: 3}, {Reels: 1}}, 0, false},
		{[]trim.Order{{}, one}, []trim.Made{{Reels: 1}, {Reels: 3}}, 0, false},
		{[]trim.Order{one}, []trim.Made{{}}, 0, false},
		{[]trim.Order{one}, []trim.Made{{Reels: 1}, {Reels: 1}}, 0, false},
		{nil, nil, 0, false},
	} {
		p, j := &trim.Plan{Orders: test.made}, &trim.Job{Orders: test.orders}
		if m, known := p.Mass(j); m != test.want || known != test.known {
			t.Errorf("%+v of %+v: %v, %v, want %v, %v", test.made, test.orders, m, known, test.want, test.known)
		}
	}
}

// What is over and under by mass: 5 reels of 500 kg for 2.4 t are 0.1 t over, 3 for
// 1.75 t are 0.25 t under, and of 4 reels one more is 0.4 t. A reel of 160π kg makes four
// the mass that is ordered, but for the last digits.
func TestOverMass(t *testing.T) {
	mass := func(x float64) paperprop.Mass { return paperprop.Mass(x) * paperprop.Tonne }
	ring := paperprop.Mass(160*math.Pi) * kg
	job := &trim.Job{Parents: deckle(1000), Orders: []trim.Order{
		{Name: "A", Width: 1000, Reels: 5, OrderedMass: mass(2.4), ReelMass: 500 * kg},
		{Name: "B", Width: 900, Reels: 3, OrderedMass: mass(1.75), ReelMass: 500 * kg},
		{Name: "C", Width: 800, Reels: 4, Least: 5, Most: 5, ReelMass: 400 * kg},
		{Name: "D", Width: 700, Reels: 4, OrderedMass: paperprop.Mass(math.Nextafter(float64(4*ring), 0)), ReelMass: ring},
	}}
	p := plan(t, job)
	for i, want := range []paperprop.Mass{100 * kg, -250 * kg, 400 * kg, 0} {
		if got := p.Orders[i].OverMass; math.Abs(float64(got-want)) > 1e-9 {
			t.Errorf("order %d: %v over, want %v", i, got, want)
		}
	}
	if over, under := p.OverMass(); math.Abs(over.In(kg)-500) > 1e-9 || math.Abs(under.In(kg)-250) > 1e-9 || !job.ByMass() {
		t.Errorf("%v over and %v under, by mass: %v, want 500 kg, 250 kg", over, under, job.ByMass())
	}
	data, err := p.JSON(job, paperprop.Unit{})
	flat := strings.Join(strings.Fields(string(data)), " ")
	for _, want := range []string{
		`"mass": { "value": 2.5, "unit": "t" }, "ordered-mass": { "value": 2.4, "unit": "t" }, "over-mass": { "value": 0.1, "unit": "t" } }, { "order": "B",`,
		`"ordered-mass": { "value": 1.75, "unit": "t" }, "over-mass": { "value": -0.25, "unit": "t" } }, { "order": "C",`,
		`"over": 1, "mass": { "value": 2, "unit": "t" }, "over-mass": { "value": 0.4, "unit": "t" } }, { "order": "D",`,
		`"over-mass": { "value": 0.5, "unit": "t" }, "under-mass": { "value": 0.25, "unit": "t" }, "certificate"`,
	} {
		if !strings.Contains(flat, want) || err != nil {
			t.Errorf("%s, %v,\nwithout %s", flat, err, want)
		}
	}
	// By reels alone nothing is told of it, and without their mass it is not known.
	job = &trim.Job{Parents: deckle(1000), Orders: []trim.Order{{Width: 1000, Reels: 1, Least: 2, Most: 2, ReelMass: 500 * kg}}}
	p = plan(t, job)
	if data, _ := p.JSON(job, paperprop.Unit{}); p.Orders[0].OverMass != 500*kg || job.ByMass() || strings.Contains(string(data), "over-mass") {
		t.Errorf("%+v: %s", p.Orders[0], data)
	}
	job.Orders[0].ReelMass, job.Orders[0].OrderedMass = 0, 500*kg
	p = plan(t, job)
	if data, _ := p.JSON(job, paperprop.Unit{}); p.Orders[0].OverMass != 0 || strings.Contains(string(data), "over-mass") {
		t.Errorf("%+v: %s", p.Orders[0], data)
	}
}

// Lengths are divided exactly, and by a unit of something else as its numbers are.
func TestIn(t *testing.T) {
	length, mass := paperprop.Length(0).Kind(), paperprop.Mass(0).Kind()
	for _, test := range []struct {
		l    paperprop.Length
		unit paperprop.Unit
		want float64
	}{
		{846.534375 * mm, unit(t, length, "in"), 33.328125},
		{2.54 * mm, unit(t, length, "in"), 0.1},
		{1250 * mm, unit(t, length, "m"), 1.25},
		{1250 * mm, unit(t, mass, "t"), 1.25}, // 1 t is 1000 kg
	} {
		if got := trim.In(test.l, test.unit); got != test.want {
			t.Errorf("In(%v, %v) = %v, want %v", test.l, test.unit, got, test.want)
		}
	}
	if loss := (&trim.Plan{}).Loss(); loss != 0 || math.Signbit(float64(loss)) {
		t.Errorf("of no sets %v are lost", loss)
	}
	if loss := (&trim.Plan{Deckle: 8000 * mm, Trim: 300 * mm}).Loss(); loss != 0.0375 {
		t.Errorf("of 8000 mm 300 mm are %v", loss)
	}
}
