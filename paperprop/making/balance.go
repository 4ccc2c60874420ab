package making

import (
	"cmp"
	"errors"
	"fmt"
	"slices"
	"strconv"

	"millmaths.example/paperprop"
	"millmaths.example/paperprop/internal/strict"
	"millmaths.example/stock/line"
)

// needs holds what planning needs to know of the line of a grade: its production,
// and the figure for the broke of its winder.
type needs struct {
	perHour float64 // made at the reel, t/h
	broke   string  // name of the figure
	told    float64 // its value
	strips  float64 // share of the sheet outside the deckle; 0 if its width is not known
	uptime  float64
}

// ask reads the needs from the line of a grade.
func (b *Book) ask(g *Grade) (needs, error) {
	a, err := g.Line.Solve()
	if err != nil {
		return needs{}, err
	}
	n := needs{uptime: float64(g.Uptime)}
	var ok bool
	if n.perHour, ok = a.Value("production"); !ok {
		return n, errors.New("the line has no reel, so it has no production")
	}
	winders := g.Line.Stages("winder")
	if len(winders) == 0 {
		return n, errors.New("the line has no winder, where trim and rests of jumbos come back as broke")
	}
	n.broke = winders[len(winders)-1] + ".broke"
	broke, err := g.Line.FigureNamed(n.broke)
	if err != nil {
		return n, fmt.Errorf("the line's winder has no broke and broke-to, though trim and rests of jumbos come back there: %w", err)
	}
	n.told = g.Line.Figures[broke].Value
	if n.told >= 1 {
		return n, fmt.Errorf("%s is %v: nothing is sold", n.broke, g.Line.Figures[broke].Text)
	}
	reel := g.Line.Stages("reel")[0] // there is one, since there is a production
	if i, err := g.Line.FigureNamed(reel + ".width"); err == nil {
		width := paperprop.Length(g.Line.Figures[i].Value)
		if b.Machine.Deckle > width {
			return n, strict.Refuse("machine.deckle", "the deckle of %v is wider than the sheet on the reel, %v", b.Machine.Deckle, width)
		}
		n.strips = float64((width - b.Machine.Deckle) / width)
	}
	if i, err := g.Line.FigureNamed(reel + ".grammage"); err == nil {
		if told := paperprop.Grammage(g.Line.Figures[i].Value); told != g.Grammage {
			return n, fmt.Errorf("the grade has %v and its line %s = %v: want one grammage", g.Grammage, reel+".grammage", told)
		}
	}
	if n.uptime == 0 {
		i, err := g.Line.FigureNamed("mill.running")
		if err != nil {
			return n, errors.New("uptime missing, in the book, the grade, or as running under [mill] of the line; want one such as \"91 %\"")
		}
		n.uptime = g.Line.Figures[i].Value
	}
	if !(n.uptime > 0) {
		return n, errors.New("uptime is 0 %: the machine makes nothing")
	}
	return n, nil
}

// mass returns the mass of paper of a length and width, in t.
func (g *Grade) mass(length, width paperprop.Length) float64 {
	return length.In(paperprop.Metre) * width.In(paperprop.Metre) * g.Grammage.In(paperprop.GramPerSquareMetre) / 1e6
}

// weigh computes what the run makes at the reel, without its change of grade.
func (b *Book) weigh(r *Run, made []Made) error {
	var ordered, over, trim, rest float64
	for _, i := range r.orders {
		m := &made[i]
		one := m.Order.ReelMass.In(paperprop.Tonne)
		extra := max(0, m.Over)
		ordered += float64(m.Reels-extra) * one
		over += float64(extra) * one
	}
	for _, w := range r.Wound {
		for _, p := range w.patterns {
			trim += float64(r.Sets.Patterns[p].Times) * r.Grade.mass(w.Length, r.Sets.Patterns[p].Trim)
		}
		rest += float64(w.Rests)*r.Grade.mass(w.Rest, b.Machine.Deckle) + float64(w.Jumbos)*r.Grade.mass(w.lost, b.Machine.Deckle)
	}
	sold := ordered + over
	deckle := sold + trim + rest
	at := deckle / (1 - r.needs.told)
	if b.Broke == TrimIncluded {
		at = sold / (1 - r.needs.told)
		if at < deckle {
			return fmt.Errorf("%s is %s, trim and rests of jumbos included, but they alone are %s",
				r.needs.broke, percent(r.needs.told), percent((trim+rest)/deckle))
		}
	}
	if least := deckle / (1 - r.needs.strips); at < least*(1-1e-9) {
		return fmt.Errorf("%s is %s, but the strips beside the deckle of %v, with what comes on top of them, are %s alone",
			r.needs.broke, percent(r.needs.told), b.Machine.Deckle, percent((least-at+r.needs.told*at)/least))
	}
	tonnes := func(x float64) paperprop.Mass { return paperprop.Mass(x) * paperprop.Tonne }
	r.Tonnes = Tonnes{Ordered: tonnes(ordered), Over: tonnes(over), Trim: tonnes(trim), Rest: tonnes(rest), Broke: tonnes(max(0, at-deckle))}
	r.Tonnes.sum()
	return nil
}

func percent(x float64) string { return paperprop.People(100*x) + " %" }

func inTonnes(m paperprop.Mass) string { return paperprop.People(m.In(paperprop.Tonne)) + " t" }

// sum sets Made to the sum of all others.
func (t *Tonnes) sum() { t.Made = t.Ordered + t.Over + t.Trim + t.Rest + t.Broke + t.Change }

// Sold returns what can be sold: reels, including those above what is ordered.
func (t *Tonnes) Sold() paperprop.Mass { return t.Ordered + t.Over }

func (t *Tonnes) add(o Tonnes) {
	t.Ordered, t.Over, t.Trim, t.Rest = t.Ordered+o.Ordered, t.Over+o.Over, t.Trim+o.Trim, t.Rest+o.Rest
	t.Broke, t.Change = t.Broke+o.Broke, t.Change+o.Change
	t.sum()
}

// take balances the line of a run with all the broke that comes back, and
// multiplies the hourly figures by its hours.
func (r *Run) take() error {
	l := r.Grade.Line
	r.Broke = paperprop.Fraction(1 - float64(r.Tonnes.Sold()/r.Tonnes.Made))
	for _, f := range []struct {
		name, unit string
		value      float64
	}{{"size.reel", " t/h", r.needs.perHour}, {r.needs.broke, " %", 100 * float64(r.Broke)}} {
		var err error
		if l, err = l.With(f.name, strconv.FormatFloat(f.value, 'g', -1, 64)+f.unit); err != nil {
			return err
		}
	}
	a, err := l.Solve()
	if err != nil {
		return fmt.Errorf("with %s of broke, as of %s made %s can be sold: %w", percent(float64(r.Broke)), inTonnes(r.Tonnes.Made), inTonnes(r.Tonnes.Sold()), err)
	}
	r.Line = a
	r.Takes = perHour(a).times(r.Tonnes.Made.In(paperprop.Tonne) / r.needs.perHour)
	return nil
}

// perHour returns what a line takes in an hour.
func perHour(a *line.Answer) Takes {
	var t Takes
	components := a.Line.Components
	water := len(components) - 1
	tonnes := func(x paperprop.MassFlow) paperprop.Mass {
		return paperprop.Mass(x.In(paperprop.TonnePerHour)) * paperprop.Tonne
	}
	dry := func(x paperprop.MassFlow) paperprop.OvenDryMass {
		return paperprop.OvenDryMass(x.In(paperprop.TonnePerHour)) * paperprop.OvenDryTonne
	}
	for i := range a.Streams {
		s := &a.Streams[i]
		switch s.Part {
		case "bales":
			t.Paper += tonnes(s.Total)
			t.DryPaper += dry(s.Total - s.Flows[water])
		case "solution":
			for k, f := range s.Flows[:water] {
				if f > 0 {
					t.add(Added{components[k].Name, dry(f)})
				}
			}
		}
	}
	for name, to := range map[string]*paperprop.Mass{
		"fresh-water": &t.FreshWater, "effluent": &t.Effluent, "evaporation": &t.Evaporation, "steam": &t.Steam,
	} {
		x, _ := a.Value(name) // 0 if the line has no such result
		*to = tonnes(paperprop.MassFlow(x))
	}
	return t
}

// add adds a component that size presses add.
func (t *Takes) add(a Added) {
	i, ok := slices.BinarySearchFunc(t.Added, a.Component, func(x Added, name string) int { return cmp.Compare(x.Component, name) })
	if !ok {
		t.Added = slices.Insert(t.Added, i, Added{Component: a.Component})
	}
	t.Added[i].Mass += a.Mass
}

// times returns the amounts for so many hours.
func (t Takes) times(hours float64) Takes {
	for _, m := range []*paperprop.Mass{&t.Paper, &t.FreshWater, &t.Steam, &t.Evaporation, &t.Effluent} {
		*m = paperprop.Mass(m.In(paperprop.Kilogram)*hours) * paperprop.Kilogram
	}
	t.DryPaper = paperprop.OvenDryMass(float64(t.DryPaper) * hours)
	added := t.Added
	t.Added = nil
	for _, a := range added {
		t.Added = append(t.Added, Added{a.Component, paperprop.OvenDryMass(float64(a.Mass) * hours)})
	}
	return t
}

// plus adds the amounts of another run.
func (t *Takes) plus(o Takes) {
	t.Paper, t.DryPaper, t.FreshWater = t.Paper+o.Paper, t.DryPaper+o.DryPaper, t.FreshWater+o.FreshWater
	t.Steam, t.Evaporation, t.Effluent = t.Steam+o.Steam, t.Evaporation+o.Evaporation, t.Effluent+o.Effluent
	for _, a := range o.Added {
		t.add(a)
	}
}
