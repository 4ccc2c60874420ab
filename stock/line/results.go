package line

import (
	"math"

	"millmaths.example/paperprop"
	"millmaths.example/paperprop/water"
)

// A Result describes a number that a solved line has, by a name such as
// "headbox.fibre" or "fresh-water-per-tonne".
type Result struct {
	Name  string // "headbox.dryness": of a stream, whether it is a consistency or a dryness
	About string // empty for a stream, whose names say all
	Kind  *paperprop.Kind
	Unit  paperprop.Unit // to print in

	stream *stream // the stream it belongs to; nil for the line or a tank
	of     func(s *Solver) float64
}

// In converts a canonical value of the result to Unit.
func (r *Result) In(value float64) float64 { return r.Unit.To(value) }

// Text returns a canonical value with its unit, as people read it.
func (r *Result) Text(value float64) string {
	return paperprop.WithUnit(paperprop.People(r.In(value)), r.Unit)
}

// Results returns the results of the line, streams first, in the order of
// [Solver.Values]. The slice belongs to the solver and must not be changed.
func (s *Solver) Results() []Result {
	if s.results == nil && s.b != nil {
		s.results = s.b.results()
	}
	return s.results
}

// Values appends the canonical values of all results to dst. They are meaningful
// only if the last call of Solve returned nil.
func (s *Solver) Values(dst []float64) []float64 {
	for i := range s.Results() {
		dst = append(dst, s.results[i].of(s))
	}
	return dst
}

func (b *builder) result(name, about, quantity, unit string, of func(*Solver) float64) Result {
	kind, _ := paperprop.KindNamed(quantity)
	u, _ := kind.Unit(unit)
	return Result{Name: name, About: about, Kind: kind, Unit: u, of: of}
}

func (b *builder) results() []Result {
	var list []Result
	for _, st := range b.streams {
		if !st.hidden {
			list = append(list, b.streamResults(st)...)
		}
	}
	list = append(list, b.tankResults()...)
	list = append(list, b.waterResults()...)
	list = append(list, b.paperResults()...)
	return append(list, b.machineResults()...)
}

func (b *builder) streamResults(st *stream) []Result {
	list := []Result{b.result(st.name+".total", "", "MassFlow", "t/h", func(s *Solver) float64 { return s.total(st) })}
	for k, c := range b.l.Components {
		list = append(list, b.result(st.name+"."+c.Name, "", "MassFlow", "t/h", func(s *Solver) float64 { return s.flow(st, k) }))
	}
	list = append(list, b.result(st.name+".dryness", "", "DryContent", "%", func(s *Solver) float64 { return s.dryness(st) }))
	if b.pumped(st) {
		list = append(list, b.result(st.name+".volume", "", "VolumeFlow", "m3/h", func(s *Solver) float64 { return s.volume(st) }))
	}
	for i := range list {
		list[i].stream = st
	}
	return list
}

// ratio returns a/b, or 0 if b is 0.
func ratio(a, b float64) float64 {
	if b == 0 {
		return 0
	}
	return a / b
}

// dryness returns the consistency or dryness of a stream: the share of its total
// that the convention counts. Bales, rejects of a pulper and the sheet have a
// dryness, stock a consistency.
func (s *Solver) dryness(st *stream) float64 {
	convention := counts
	if st.stage != nil {
		switch st.stage.kind.name {
		case "pulper":
			if st.key == "bales" || st.key == "rejects" {
				convention = drynessCounts
			}
		case "wire", "press", "dryers", "size press", "reel", "winder":
			if st.key != "water" && st.key != "solution" {
				convention = drynessCounts
			}
		}
	}
	return ratio(s.counted(st, convention), s.total(st))
}

// pumped reports whether a stream is a liquid of known volume: all its suspended
// components must have a density.
func (b *builder) pumped(st *stream) bool {
	if b.temperature(st) == constant {
		return false
	}
	for k, c := range b.l.Components {
		if !c.Dissolved && c.Density == 0 && (st.draw != absent || st.flows[k] != absent) {
			return false
		}
	}
	if st.stage == nil {
		return true
	}
	switch st.stage.kind.name {
	case "pulper":
		return st.key != "bales" && st.key != "rejects"
	case "wire", "press":
		return st.key == "water"
	case "dryers", "size press", "reel", "winder":
		return false
	}
	return true
}

// temperature returns the index of the figure for the temperature of a stream. Fresh water
// is not as warm as the mill: it has a temperature of its own, or none.
func (b *builder) temperature(st *stream) int {
	var own map[string]int
	usual := b.l.temperature
	switch {
	case st.tank != nil:
		own = st.tank.figures
	case st.stage != nil:
		own = st.stage.figures
	case st.from == fresh:
		usual = constant
		if st.water != nil {
			own = st.water.figures
		}
	}
	if i, ok := own["temperature"]; ok {
		return i
	}
	return usual
}

// volume returns the volume flow of a stream in m³/h. Volumes add up, and dissolved
// matter takes the volume of its mass of water.
func (s *Solver) volume(st *stream) float64 {
	i := s.b.temperature(st)
	density, err := water.Density(paperprop.Temperature(s.figures[i]), 1.01325*paperprop.BarAbsolute)
	if err != nil {
		return math.NaN()
	}
	sum := 0.0
	for k, c := range s.l.Components {
		d := density
		if !c.Dissolved {
			d = c.Density
		}
		if x := s.flow(st, k); x != 0 { // a component that is not there needs no density
			sum += 1000 * x / d.In(paperprop.KilogramPerCubicMetre)
		}
	}
	return sum
}

func (b *builder) tankResults() []Result {
	var list []Result
	for _, t := range b.l.tanks {
		list = append(list, b.result(t.name+".through", "what flows through the tank", "MassFlow", "t/h",
			func(s *Solver) float64 { return s.u[b.through[t.index]] }))
		list = append(list, b.result(t.name+".consistency", "of what is drawn from the tank", "Consistency", "%", func(s *Solver) float64 {
			sum := 0.0
			for k, c := range b.l.Components[:b.l.water()] {
				if !c.Dissolved || !b.l.says(counts) {
					sum += s.u[b.content[t.index][k]]
				}
			}
			return sum
		}))
		for k, c := range b.l.Components[:b.l.water()] {
			list = append(list, b.result(t.name+"."+c.Name, "share in the tank", "Fraction", "%",
				func(s *Solver) float64 { return s.u[b.content[t.index][k]] }))
		}
	}
	return list
}

// sum adds up a function of each stream.
func sum(streams []*stream, of func(*stream) float64) float64 {
	total := 0.0
	for _, st := range streams {
		total += of(st)
	}
	return total
}

// which returns the streams that pick selects.
func (b *builder) which(pick func(*stream) bool) []*stream {
	var list []*stream
	for _, st := range b.streams {
		if pick(st) {
			list = append(list, st)
		}
	}
	return list
}

func (b *builder) waterResults() []Result {
	product := b.into(sold)
	freshWater := b.which(func(st *stream) bool { return st.key == "fresh" || st.key == "make-up" && st.from == fresh })
	effluent := b.which(func(st *stream) bool {
		for _, e := range b.l.exits {
			if e.effluent && e.name == st.to {
				return true
			}
		}
		return false
	})
	total := func(list []*stream) func(*Solver) float64 {
		return func(s *Solver) float64 { return sum(list, s.total) }
	}
	perTonne := func(list []*stream) func(*Solver) float64 {
		return func(s *Solver) float64 { return ratio(sum(list, s.total), sum(product, s.total)) }
	}
	list := []Result{
		b.result("fresh-water", "fresh water", "MassFlow", "t/h", total(freshWater)),
		b.result("fresh-water-per-tonne", "fresh water per tonne sold", "MassRatio", "kg/kg", perTonne(freshWater)),
		b.result("effluent", "effluent", "MassFlow", "t/h", total(effluent)),
		b.result("effluent-per-tonne", "effluent per tonne sold", "MassRatio", "kg/kg", perTonne(effluent)),
	}
	for k, c := range b.l.Components[:b.l.water()] {
		list = append(list, b.result("effluent-load."+c.Name, c.Name+" in the effluent, per tonne sold", "MassRatio", "kg/t", func(s *Solver) float64 {
			return ratio(sum(effluent, func(st *stream) float64 { return s.flow(st, k) }), sum(product, s.total))
		}))
	}
	return list
}

func (b *builder) paperResults() []Result {
	product, paper := b.into(sold), b.fed()
	added := b.which(func(st *stream) bool { return st.key == "solution" })
	back := b.which(func(st *stream) bool { return st.key == "broke" })
	list := []Result{
		b.result("recovered-paper-per-tonne", "recovered paper per tonne sold", "MassRatio", "kg/kg",
			func(s *Solver) float64 { return ratio(sum(paper, s.total), sum(product, s.total)) }),
		b.result("yield", "dry matter sold, less what was added, over dry matter fed", "Fraction", "%",
			func(s *Solver) float64 {
				return ratio(sum(product, s.solids)-sum(added, s.solids), sum(paper, s.solids))
			}),
	}
	for k, c := range b.l.Components[:b.l.water()] {
		list = append(list, b.result("yield."+c.Name, "of "+c.Name+" alone", "Fraction", "%", func(s *Solver) float64 {
			flow := func(st *stream) float64 { return s.flow(st, k) }
			return ratio(sum(product, flow)-sum(added, flow), sum(paper, flow))
		}))
	}
	list = append(list, b.retentionResults()...)
	list = append(list, b.result("broke", "broke that comes back", "MassFlow", "t/h", func(s *Solver) float64 { return sum(back, s.total) }))
	if i, ok := b.l.figure("mill.yard"); ok {
		list = append(list, b.result("yard-lasts", "days that the yard lasts", "Duration", "d", func(s *Solver) float64 {
			return ratio(60*s.figures[i]/1000, sum(paper, s.total)*b.running(s)) // kg over t/h, in min
		}))
	}
	return list
}

// running returns the share of the time in which the line runs.
func (b *builder) running(s *Solver) float64 {
	if i, ok := b.l.figure("mill.running"); ok {
		return s.figures[i]
	}
	return 1
}

// retentionResults returns the retentions: first-pass, over what the headbox
// brings, and overall, over what comes to the headbox without its dilution water.
func (b *builder) retentionResults() []Result {
	var sheets, stocks, thick []*stream
	for _, s := range b.l.stages {
		switch s.kind.name {
		case "wire":
			sheets = append(sheets, b.by[s]["main"])
			if st := b.by[s]["joined"]; st != nil {
				stocks = append(stocks, st)
			} else {
				stocks = append(stocks, b.into(s.name)...)
			}
		case "headbox":
			thick = append(thick, b.which(func(st *stream) bool { return st.to == s.name && st.key != "thinning" })...)
		}
	}
	if len(sheets) == 0 {
		return nil
	}
	all := func(part, whole []*stream) func(*Solver) float64 {
		return func(s *Solver) float64 { return ratio(sum(part, s.solids), sum(whole, s.solids)) }
	}
	one := func(part, whole []*stream, k int) func(*Solver) float64 {
		return func(s *Solver) float64 {
			flow := func(st *stream) float64 { return s.flow(st, k) }
			return ratio(sum(part, flow), sum(whole, flow))
		}
	}
	list := []Result{b.result("first-pass-retention", "of all dry matter on the wire", "Fraction", "%", all(sheets, stocks))}
	for k, c := range b.l.Components[:b.l.water()] {
		list = append(list, b.result("first-pass-retention."+c.Name, "of "+c.Name, "Fraction", "%", one(sheets, stocks, k)))
	}
	if len(thick) == 0 {
		return list
	}
	list = append(list, b.result("overall-retention", "of the dry matter that comes to the headbox with the thick stock", "Fraction", "%", all(sheets, thick)))
	for k, c := range b.l.Components[:b.l.water()] {
		list = append(list, b.result("overall-retention."+c.Name, "of "+c.Name, "Fraction", "%", one(sheets, thick, k)))
	}
	return list
}

func (b *builder) machineResults() []Result {
	product := b.into(sold)
	var list []Result
	reel := b.reel()
	if reel != nil {
		list = append(list, b.result("production", "made at the reel", "MassFlow", "t/h", func(s *Solver) float64 { return s.total(reel) }))
	}
	list = append(list,
		b.result("sold", "sold", "MassFlow", "t/h", func(s *Solver) float64 { return sum(product, s.total) }),
		b.result("sold-per-day", "sold in a day, at the share of the time that the line runs", "MassFlow", "t/d",
			func(s *Solver) float64 { return sum(product, s.total) * b.running(s) }))
	width, grammage := constant, constant
	if reel != nil {
		if i, ok := reel.stage.figures["width"]; ok {
			width = i
		}
		if i, ok := reel.stage.figures["grammage"]; ok {
			grammage = i
		}
	}
	area := func(s *Solver) float64 { return 1e6 * s.total(reel) / s.figures[grammage] } // m²/h
	if width != constant && grammage != constant {
		list = append(list, b.result("speed", "of the machine", "Speed", "m/min", func(s *Solver) float64 {
			return area(s) / (s.figures[width] / 1000) / 60
		}))
	}
	if grammage != constant {
		list = append(list, b.addedResults(area)...)
	}
	return append(list, b.dryingResults(width)...)
}

// addedResults returns the grammage that the size presses add of each component:
// the sum if several add it, and then the share of each.
func (b *builder) addedResults(area func(*Solver) float64) []Result {
	var list []Result
	add := func(name, by string, of []*stream) {
		adds := of[0].stage.places["adds"]
		list = append(list, b.result(name, adds+" that the "+by+", dry", "OvenDryGrammage", "g/m2",
			func(s *Solver) float64 { return 1e6 * sum(of, s.solids) / area(s) }))
	}
	told := map[string]bool{}
	for _, st := range b.which(func(st *stream) bool { return st.key == "solution" }) {
		adds := st.stage.places["adds"]
		name := adds + "-on-sheet"
		if told[adds] {
			continue
		}
		told[adds] = true
		same := b.which(func(o *stream) bool { return o.key == "solution" && o.stage.places["adds"] == adds })
		if len(same) == 1 {
			add(name, st.stage.name+" adds", same)
			continue
		}
		add(name, "size presses add", same)
		for _, one := range same {
			add(name+"."+one.stage.name, one.stage.name+" adds", []*stream{one})
		}
	}
	return list
}

// dryingResults returns the results of the dryers. Those per area need the width of
// the reel.
func (b *builder) dryingResults(width int) []Result {
	vapours := b.which(func(st *stream) bool { return st.key == "vapour" })
	if len(vapours) == 0 {
		return nil
	}
	list := []Result{b.result("evaporation", "water evaporated", "MassFlow", "t/h", func(s *Solver) float64 { return sum(vapours, s.total) })}
	steam, sized := true, width != constant
	for _, st := range vapours {
		steam = steam && st.stage.has("steam")
		sized = sized && st.stage.has("cylinders") && st.stage.has("diameter")
	}
	if steam {
		list = append(list, b.result("steam", "steam to the dryers", "MassFlow", "t/h", func(s *Solver) float64 {
			return sum(vapours, func(st *stream) float64 { return s.total(st) * s.figures[st.stage.figures["steam"]] })
		}))
	}
	if sized {
		list = append(list, b.result("drying-rate", "water evaporated per area of cylinder", "MassFlux", "kg/(h m2)", func(s *Solver) float64 {
			area := sum(vapours, func(st *stream) float64 {
				f := st.stage.figures
				return s.figures[f["cylinders"]] * math.Pi * s.figures[f["diameter"]] / 1000 * s.figures[width] / 1000
			})
			return 1000 * sum(vapours, s.total) / area
		}))
	}
	return list
}

// Results returns the results that a line has once it is solved, whatever its
// figures.
func (l *Line) Results() []Result { return build(l).results() }
