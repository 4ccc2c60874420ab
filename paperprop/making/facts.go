package making

import (
	"strconv"

	"millmaths.example/paperprop"
)

// Taken is a quantity that a plan takes in or gives off, by name.
type Taken struct {
	Name  string  `json:"name"`
	Value float64 `json:"value"`
	Unit  string  `json:"unit"` // t, or odt for dry matter
}

// List returns all quantities by name, without those that the line does not have.
func (t Takes) List() []Taken {
	list := []Taken{
		{"recovered-paper", t.Paper.In(paperprop.Tonne), "t"},
		{"recovered-paper-dry", t.DryPaper.In(paperprop.OvenDryTonne), "odt"},
	}
	add := func(name string, m paperprop.Mass) {
		if m > 0 {
			list = append(list, Taken{name, m.In(paperprop.Tonne), "t"})
		}
	}
	add("fresh-water", t.FreshWater)
	add("steam", t.Steam)
	for _, a := range t.Added {
		list = append(list, Taken{a.Component, a.Mass.In(paperprop.OvenDryTonne), "odt"})
	}
	add("evaporation", t.Evaporation)
	add("effluent", t.Effluent)
	return list
}

// A Fact is one result of a plan, for tables: of a "grade", an "order" or the
// "book".
type Fact struct{ Of, Name, Result, Value, Unit string }

// Facts returns all results, unrounded: of each run, of the whole, then of each
// order. A plan without a Book has none.
func (p *Plan) Facts() []Fact {
	if p.Book == nil {
		return nil
	}
	var list []Fact
	of, name := "", ""
	say := func(result, value, unit string) { list = append(list, Fact{of, name, result, value, unit}) }
	number := func(result string, x float64, unit string) { say(result, string(paperprop.AppendShort(nil, x)), unit) }
	shared := func(h Hours, t Tonnes, x Takes) {
		for _, v := range []struct {
			result string
			of     jsonValue
		}{
			{"reeling", hours(h.Reeling)}, {"lost", hours(h.Lost)}, {"changes", hours(h.Changes)}, {"hours", hours(h.Sum())},
			{"ordered", tonnes(t.Ordered)}, {"over", tonnes(t.Over)}, {"trim", tonnes(t.Trim)}, {"jumbo-rest", tonnes(t.Rest)},
			{"other-broke", tonnes(t.Broke)}, {"change", tonnes(t.Change)}, {"made", tonnes(t.Made)},
		} {
			number(v.result, v.of.Value, v.of.Unit)
		}
		for _, v := range x.List() {
			number(v.Name, v.Value, v.Unit)
		}
	}
	for i := range p.Runs {
		r := &p.Runs[i]
		of, name = "grade", r.Grade.Name
		say("begin", clock(r.Begin), "")
		say("end", clock(r.End), "")
		say("sets", strconv.Itoa(r.Sets.Sets), "")
		say("sets-bound", strconv.Itoa(r.Sets.Certificate.Bound), "")
		say("jumbos", strconv.Itoa(r.Jumbos), "")
		number("trim-loss", 100*float64(r.Sets.Loss()), "%")
		number("production", r.needs.perHour, "t/h")
		number("broke", 100*float64(r.Broke), "%")
		shared(r.Hours, r.Tonnes, r.Takes)
	}
	of, name = "book", p.Book.Name
	say("begin", clock(p.Book.Start), "")
	say("end", clock(p.Ready), "")
	shared(p.Hours, p.Tonnes, p.Takes)
	if p.YardLeft != 0 {
		number("yard-left", p.YardLeft.In(paperprop.Tonne), "t")
	}
	for i, m := range p.Orders {
		o := &p.Book.Orders[i]
		of, name = "order", o.Name
		say("customer", o.Customer, "")
		say("grade", o.Grade, "")
		number("width", o.Width.In(paperprop.Millimetre), "mm")
		say("ordered", strconv.Itoa(m.Order.Reels), "")
		say("made", strconv.Itoa(m.Reels), "")
		number("mass", m.Mass.In(paperprop.Tonne), "t")
		say("due", clock(o.Due), "")
		say("ready", clock(m.Ready), "")
		number("late", m.Late.Hours(), "h")
		say("left-out", strconv.Itoa(m.Left), "")
		say("reason", m.Reason, "")
	}
	of, name = "list", p.Book.List
	for _, err := range p.Book.Bad {
		say("refused", err.Error(), "")
	}
	return list
}
