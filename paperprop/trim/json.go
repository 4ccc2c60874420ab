package trim

import (
	"bytes"
	"encoding/json"
	"errors"
	"fmt"
	"slices"

	"millmaths.example/paperprop"
	"millmaths.example/paperprop/calc"
)

type jsonPlan struct {
	Command   string        `json:"command"`
	Version   string        `json:"version"`
	Sets      int           `json:"sets"`
	Bound     int           `json:"bound"`
	Proven    bool          `json:"proven"`
	Proof     string        `json:"proof"`
	Aim       string        `json:"aim"`
	Value     *jsonValue    `json:"width,omitempty"` // of all sets, if that is the aim
	Least     *jsonValue    `json:"width-bound,omitempty"`
	Patterns  []jsonPattern `json:"patterns"`
	Orders    []jsonOrder   `json:"orders"`
	Fillers   []jsonFiller  `json:"fillers,omitempty"`
	Left      []jsonLeft    `json:"left-out,omitempty"`
	Refused   []string      `json:"refused,omitempty"`
	Trim      jsonValue     `json:"trim"`
	Loss      jsonValue     `json:"loss-on-deckle"`
	Mass      *jsonValue    `json:"mass,omitempty"`
	OverMass  *jsonValue    `json:"over-mass,omitempty"`  // if an order is by mass
	UnderMass *jsonValue    `json:"under-mass,omitempty"` // likewise
	Weights   []jsonWeights `json:"certificate"`
	Warnings  []jsonCaution `json:"warnings,omitempty"`
	Cautions  []jsonCaution `json:"cautions"`
}

type jsonValue struct {
	Value float64 `json:"value"`
	Unit  string  `json:"unit"`
}

type jsonPattern struct {
	Times  int         `json:"times"`
	Deckle jsonValue   `json:"deckle"`
	Group  string      `json:"group,omitempty"`
	Widths []jsonWidth `json:"widths"`
	Edge   jsonValue   `json:"edge"`
	Trim   jsonValue   `json:"trim"`
}

type jsonWidth struct {
	Value  float64 `json:"value"`
	Unit   string  `json:"unit"`
	Count  int     `json:"count"`
	Sheets int     `json:"sheets,omitempty"`
	Filler bool    `json:"filler,omitempty"`
}

type jsonOrder struct {
	Name     string     `json:"order,omitempty"`
	Line     int        `json:"line,omitempty"`
	Width    jsonValue  `json:"width"`
	Group    string     `json:"group,omitempty"`
	Ordered  int        `json:"ordered"`
	Made     int        `json:"made"`
	Over     int        `json:"over"`
	Mass     *jsonValue `json:"mass,omitempty"`
	Asked    *jsonValue `json:"ordered-mass,omitempty"` // if it is by mass
	OverMass *jsonValue `json:"over-mass,omitempty"`    // if any order is
}

type jsonFiller struct {
	Width jsonValue `json:"width"`
	Reels int       `json:"reels"`
}

type jsonLeft struct {
	Name   string    `json:"order,omitempty"`
	Line   int       `json:"line,omitempty"`
	Width  jsonValue `json:"width"`
	Reels  int       `json:"reels"`
	Reason string    `json:"reason"`
}

type jsonWeights struct {
	Bound  int     `json:"bound"`
	Proof  string  `json:"proof"`
	Orders []int   `json:"orders"` // from 1, as in the list
	Weight []int64 `json:"weight"`
	Full   int64   `json:"full"`
	Spare  []int64 `json:"spare,omitempty"`
}

type jsonCaution struct {
	Code string `json:"code"`
	Text string `json:"text"`
}

// JSON returns the plan of job j, with lengths in unit; the zero unit is mm.
func (p *Plan) JSON(j *Job, unit paperprop.Unit) ([]byte, error) {
	if err := p.madeOf(j); err != nil {
		return nil, err
	}
	mm := paperprop.Length(0).Kind().Canonical()
	if unit.IsZero() {
		unit = mm
	}
	if _, err := mm.Convert(1, unit); err != nil {
		return nil, fmt.Errorf("%s is not a unit of length, want one such as mm or in", unit)
	}
	in := func(l paperprop.Length) jsonValue { return jsonValue{In(l, unit), unit.String()} }
	c, byMass := &p.Certificate, j.ByMass()
	out := jsonPlan{
		Command: "trim", Version: calc.Version, Sets: p.Sets, Bound: c.Bound, Proven: c.Proven, Proof: c.Proof.String(), Aim: j.Aim.String(),
		Patterns: []jsonPattern{}, Orders: []jsonOrder{}, Weights: []jsonWeights{},
		Trim: in(p.Trim), Loss: jsonValue{100 * float64(p.Loss()), "%"},
	}
	if j.Aim == LeastWidth {
		value, bound := in(p.Deckle), in(c.Width())
		out.Value, out.Least = &value, &bound
		widest, _ := exact(j.widestDeckle()) // read when the plan was made
		step, _ := exact(c.Step)
		var least wide
		least.add(int64(c.Bound), step)
		least.add(widest-1, 1)
		out.Bound = int(least.over(uint64(widest)))
	}
	for _, x := range p.Patterns {
		out.Patterns = append(out.Patterns, x.json(j, unit))
	}
	for i, o := range j.Orders {
		q := jsonOrder{Name: o.Name, Line: o.Line, Width: in(o.Width), Group: o.Group, Ordered: o.Reels, Made: p.Orders[i].Reels, Over: p.Orders[i].Over}
		if o.ReelMass > 0 {
			q.Mass = tonnes(p.massOf(j, i))
			if o.OrderedMass > 0 {
				q.Asked = tonnes(o.OrderedMass)
			}
			if byMass {
				q.OverMass = tonnes(p.Orders[i].OverMass)
			}
		}
		out.Orders = append(out.Orders, q)
	}
	for i, f := range j.Fillers {
		out.Fillers = append(out.Fillers, jsonFiller{in(f.Width), p.Fillers[i]})
	}
	for _, l := range p.Left {
		o := j.Orders[l.Order]
		out.Left = append(out.Left, jsonLeft{o.Name, o.Line, in(o.Width), l.Reels, l.Reason})
	}
	for _, err := range j.Bad {
		out.Refused = append(out.Refused, err.Error())
	}
	if m, ok := p.Mass(j); ok {
		out.Mass = tonnes(m)
		if over, under := p.OverMass(); byMass {
			out.OverMass, out.UnderMass = tonnes(over), tonnes(under)
		}
	}
	for _, w := range c.Weights {
		q := jsonWeights{Bound: w.Bound, Proof: w.Proof.String(), Weight: w.Order, Full: w.Full, Spare: w.Spare}
		for _, i := range w.Orders {
			q.Orders = append(q.Orders, i+1)
		}
		out.Weights = append(out.Weights, q)
	}
	for _, w := range j.Warnings() {
		out.Warnings = append(out.Warnings, jsonCaution(w))
	}
	out.Cautions = append(out.Cautions, jsonCaution{calc.HeavyReel.Code, calc.HeavyReel.Text})
	var b bytes.Buffer
	e := json.NewEncoder(&b)
	e.SetEscapeHTML(false)
	e.SetIndent("", "  ")
	err := e.Encode(out)
	return b.Bytes(), err
}

// json returns the pattern of a plan of job j.
func (x *Pattern) json(j *Job, unit paperprop.Unit) jsonPattern {
	in := func(l paperprop.Length) jsonValue { return jsonValue{In(l, unit), unit.String()} }
	q := jsonPattern{Times: x.Times, Deckle: in(j.Parents[x.Parent].Deckle), Group: x.Group, Edge: in(x.Edge), Trim: in(x.Trim)}
	for _, r := range x.Reels {
		w := jsonWidth{Value: In(r.Width, unit), Unit: unit.String(), Count: r.Count, Filler: r.Filler}
		if r.Sheets > 1 {
			w.Sheets = r.Sheets
		}
		q.Widths = append(q.Widths, w)
	}
	return q
}

// madeOf returns the reason that the plan does not belong to job j, or nil.
func (p *Plan) madeOf(j *Job) error {
	lacks := func(n, index int) bool { return index < 0 || index >= n }
	switch {
	case len(p.Orders) != len(j.Orders):
		return fmt.Errorf("the plan is for %s and the job has %d, want the job that it was made from", plural(len(p.Orders), "order"), len(j.Orders))
	case len(p.Fillers) != len(j.Fillers):
		return fmt.Errorf("the plan is for %s and the job has %d, want the job that it was made from", plural(len(p.Fillers), "filler"), len(j.Fillers))
	case slices.ContainsFunc(p.Patterns, func(x Pattern) bool { return lacks(len(j.Parents), x.Parent) }):
		return errors.New("the plan cuts a parent that the job lacks, want the job that it was made from")
	case slices.ContainsFunc(p.Left, func(l Left) bool { return lacks(len(j.Orders), l.Order) }):
		return errors.New("the plan leaves out an order that the job lacks, want the job that it was made from")
	}
	return nil
}

func tonnes(m paperprop.Mass) *jsonValue { return &jsonValue{m.In(paperprop.Tonne), "t"} }

// In returns a length in a unit by the exact factor: 846.534375 mm is 33.328125 in.
// A length that differs from such a one only in the last digits of a float64 gives
// the same, as in plans.
func In(l paperprop.Length, unit paperprop.Unit) float64 {
	l = clean(l)
	x, err := l.Kind().Canonical().Convert(float64(l), unit)
	if err != nil {
		return float64(l / paperprop.Length(unit.From(1))) // not a unit of length: the caller's mistake
	}
	return x
}

// Loss returns the trim over the deckle, of all sets.
func (p *Plan) Loss() paperprop.Fraction {
	if p.Deckle == 0 {
		return 0
	}
	return paperprop.Fraction(p.Trim / p.Deckle)
}

func (p *Plan) massOf(j *Job, i int) paperprop.Mass {
	one := j.Orders[i].ReelMass.In(paperprop.Kilogram)
	return paperprop.Mass(float64(p.Orders[i].Reels)*one) * paperprop.Kilogram
}

// Width returns the bound as a length, if the aim is [LeastWidth].
func (c *Certificate) Width() paperprop.Length {
	step, _ := exact(c.Step) // made from grains
	return lengths(step, int64(c.Bound))
}

// Mass returns the mass of all reels of orders. It is false unless the mass is
// known for each and the plan belongs to job j.
func (p *Plan) Mass(j *Job) (paperprop.Mass, bool) {
	if len(p.Orders) != len(j.Orders) {
		return 0, false
	}
	var sum paperprop.Mass
	for i, o := range j.Orders {
		if p.Orders[i].Reels > 0 && o.ReelMass == 0 {
			return 0, false
		}
		sum += p.massOf(j, i)
	}
	return sum, sum > 0
}

// OverMass returns the sums of what is over and what is under in the orders, both
// at least zero.
func (p *Plan) OverMass() (over, under paperprop.Mass) {
	for _, m := range p.Orders {
		over += max(0, m.OverMass)
		under += max(0, -m.OverMass)
	}
	return over, under
}

// Warnings returns what to know about the figures of a plan.
func (j *Job) Warnings() []calc.Warning {
	if !slices.ContainsFunc(j.Orders, func(o Order) bool { return o.Coreless }) {
		return nil
	}
	return []calc.Warning{{Code: "no-core", Text: "core-diameter is 0 mm, as where none is told: the mass of those reels is that of paper down to the middle"}}
}

// ByMass reports whether any order is by mass.
func (j *Job) ByMass() bool {
	return slices.ContainsFunc(j.Orders, func(o Order) bool { return o.OrderedMass > 0 })
}

// String returns "weights" or "search".
func (p Proof) String() string {
	switch p {
	case ByWeights:
		return "weights"
	case BySearch:
		return "search"
	}
	return fmt.Sprintf("proof %d", uint8(p))
}

// String returns "sets" or "width".
func (a Aim) String() string {
	switch a {
	case FewestSets:
		return "sets"
	case LeastWidth:
		return "width"
	}
	return fmt.Sprintf("aim %d", uint8(a))
}
