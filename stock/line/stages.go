package line

// follow writes that components leave in the same proportion: out = split·of. The
// split is an unknown. The first pass holds it at the guess, in place of a row.
func (b *builder) follow(s *stage, out, of *stream, guess float64, has func(k int) bool) {
	h := hold{row: absent, col: b.unknown(), guess: guess, valve: constant, idle: b.hidden}
	if i, ok := s.figures["reject-rate"]; ok {
		h.valve = i
	}
	b.hidden++
	for k := range b.l.Components {
		if !has(k) {
			continue
		}
		row := b.row(s)
		b.add(row, out, k, number(1))
		if of.flows[k] != absent {
			b.product(row, h.col, of.flows[k], -1)
			h.parts = append(h.parts, of.flows[k])
		}
		h.own = append(h.own, row)
		if h.row == absent || k == b.l.water() {
			h.row = row
		}
	}
	if h.row == absent {
		return
	}
	b.term(h.row, h.col, coefficient{0, h.idle, 1})
	b.s.holds = append(b.s.holds, h)
}

// dissolved reports whether a component follows the water, as water itself does.
func (b *builder) dissolved(k int) bool { return b.l.Components[k].Dissolved }

// A pulper turns bales, and whatever else comes to it, into stock.
func pulperStreams(b *builder, s *stage) {
	if s.has("bales.moisture") {
		name := "recovered paper"
		for _, other := range b.l.stages {
			if other != s && other.has("bales.moisture") {
				name = "recovered paper to the " + s.name
			}
		}
		b.full(s, "bales", name).from = fresh
	}
	if s.has("reject-rate") {
		b.full(s, "rejects", "coarse rejects of the "+s.name).to = s.places["rejects-to"]
	}
	main := b.full(s, "main", s.name)
	b.goOn(s, main)
	b.thin(s)
}

func pulperRows(b *builder, s *stage) {
	main, in := b.by[s]["main"], b.into(s.name)
	paper, rejects := b.by[s]["bales"], b.by[s]["rejects"]
	if paper != nil {
		b.baleRows(s, paper)
		in = append(in, paper)
	}
	for k := range b.l.Components {
		row := b.row(s)
		b.add(row, main, k, number(-1))
		for _, st := range in {
			b.add(row, st, k, number(1))
		}
		if rejects != nil {
			b.add(row, rejects, k, number(-1))
		}
	}
	if rejects != nil && b.l.says(pulperConsistency) {
		b.share(s, counts, "consistency", main, rejects)
	} else {
		b.share(s, counts, "consistency", main)
	}
	if rejects == nil {
		return
	}
	b.share(s, drynessCounts, "reject-dryness", rejects)
	if b.l.says(coarseMakeUp) {
		b.follow(s, rejects, main, 0.05, b.l.dry)
		row := b.row(s)
		b.addDry(row, rejects, number(1))
		b.addDry(row, paper, s.at("reject-rate", -1))
		return
	}
	for k := range b.l.water() {
		row := b.row(s)
		b.add(row, rejects, k, number(1))
		b.add(row, paper, k, s.at("reject-rate", -1))
	}
}

// baleRows writes the composition of bales. The component that is the rest needs no
// row: it follows from the others and the moisture.
func (b *builder) baleRows(s *stage, paper *stream) {
	row := b.row(s)
	b.add(row, paper, b.l.water(), coefficient{1, s.figures["bales.moisture"], -1})
	b.addDry(row, paper, s.at("bales.moisture", -1))
	for k, c := range b.l.Components[:b.l.water()] {
		if c.Name == s.rest {
			continue
		}
		row := b.row(s)
		b.add(row, paper, k, number(1))
		if s.has("bales." + c.Name) {
			b.addDry(row, paper, s.at("bales."+c.Name, -1))
		}
	}
	if s.has("share") {
		row := b.row(s)
		b.addDry(row, paper, number(1))
		for _, st := range b.fed() {
			b.addDry(row, st, s.at("share", -1))
		}
	}
}

// A screen or cleaner splits stock into accepts and rejects.
func screenStreams(b *builder, s *stage) {
	b.full(s, "rejects", "rejects of the "+s.name).to = s.places["rejects-to"]
	b.goOn(s, b.full(s, "main", s.name))
	b.thin(s)
}

func screenRows(b *builder, s *stage) {
	rejects, accepts := b.by[s]["rejects"], b.by[s]["main"]
	feed := b.joined(s)
	if s.has("consistency") {
		b.share(s, counts, "consistency", feed)
	}
	b.share(s, counts, "reject-consistency", rejects)
	b.balance(s, feed, rejects, accepts)
	total := b.addDry
	if b.l.says(rejectRate) {
		total = b.addAll
	}
	switch {
	case b.l.says(rejectMakeUp):
		b.follow(s, rejects, feed, 0.1, func(k int) bool { return !b.dissolved(k) })
		b.follow(s, rejects, feed, 0.1, b.dissolved)
	case b.l.says(rejectRate):
		b.follow(s, rejects, feed, 0.1, b.l.dry)
	default:
		for k := range b.l.water() {
			row := b.row(s)
			b.add(row, rejects, k, number(1))
			b.add(row, feed, k, s.at("reject-rate", -1))
		}
		return
	}
	row := b.row(s)
	total(row, rejects, number(1))
	total(row, feed, s.at("reject-rate", -1))
}

// A thickener keeps the suspended matter, or a share of it; dissolved matter splits
// as the water does.
func thickenerStreams(b *builder, s *stage) {
	b.full(s, "water", "filtrate of the "+s.name).to = s.places["water-to"]
	b.goOn(s, b.full(s, "main", s.name))
}

func thickenerRows(b *builder, s *stage) {
	main, water := b.by[s]["main"], b.by[s]["water"]
	feed := b.joined(s)
	for k, c := range b.l.Components {
		if c.Dissolved {
			continue
		}
		row := b.row(s)
		b.add(row, main, k, number(1))
		if name := "capture." + c.Name; s.has(name) {
			b.add(row, feed, k, s.at(name, -1))
		} else {
			b.add(row, feed, k, number(-1))
		}
	}
	b.follow(s, main, feed, 0.3, b.dissolved)
	b.share(s, counts, "consistency", main)
	b.balance(s, feed, main, water)
}

// A chest or headbox joins the streams that come to it, and dilutes them if it has
// a consistency.
func mixStreams(b *builder, s *stage) {
	b.goOn(s, b.full(s, "main", s.name))
	b.thin(s)
}

func mixRows(b *builder, s *stage) {
	main := b.by[s]["main"]
	for k := range b.l.Components {
		row := b.row(s)
		b.add(row, main, k, number(-1))
		for _, st := range b.into(s.name) {
			b.add(row, st, k, number(1))
		}
	}
	if s.has("consistency") {
		b.share(s, counts, "consistency", main)
	}
}

// A wire keeps a share of each component as a sheet.
func wireStreams(b *builder, s *stage) {
	b.full(s, "water", "water of the "+s.name).to = s.places["water-to"]
	b.goOn(s, b.full(s, "main", "sheet off the "+s.name))
}

func wireRows(b *builder, s *stage) {
	sheet, water := b.by[s]["main"], b.by[s]["water"]
	stock := b.joined(s)
	follows := false
	for k, c := range b.l.Components[:b.l.water()] {
		if !s.has("retention." + c.Name) {
			follows = true
			continue
		}
		row := b.row(s)
		b.add(row, sheet, k, number(1))
		b.add(row, stock, k, s.at("retention."+c.Name, -1))
	}
	if follows {
		b.follow(s, sheet, stock, 0.03, func(k int) bool {
			return k == b.l.water() || !s.has("retention."+b.l.Components[k].Name)
		})
	}
	b.share(s, drynessCounts, "dryness", sheet)
	b.balance(s, stock, sheet, water)
}

// A press takes water out of the sheet.
func pressStreams(b *builder, s *stage) {
	b.stream(s, "water", "water of the "+s.name, func(k int) bool {
		return k == b.l.water() || b.l.says(pressWater) && b.dissolved(k)
	}).to = s.places["water-to"]
	b.goOn(s, b.full(s, "main", "sheet off the "+s.name))
}

func pressRows(b *builder, s *stage) {
	sheet, water := b.by[s]["main"], b.by[s]["water"]
	in := b.joined(s)
	if b.l.says(pressWater) {
		b.follow(s, sheet, in, 0.3, b.dissolved)
	}
	b.share(s, drynessCounts, "dryness", sheet)
	b.balance(s, in, sheet, water)
}

// Dryers take water out of the sheet as vapour.
func dryersStreams(b *builder, s *stage) {
	b.onlyWater(s, "vapour", "evaporated, "+s.name).to = vapour
	b.goOn(s, b.full(s, "main", "sheet off the "+s.name))
}

func dryersRows(b *builder, s *stage) {
	sheet := b.by[s]["main"]
	b.share(s, drynessCounts, "dryness", sheet)
	b.balance(s, b.joined(s), sheet, b.by[s]["vapour"])
}

// A size press applies a solution of one component to the sheet.
func sizeStreams(b *builder, s *stage) {
	adds, name := s.places["adds"], "size solution"
	for _, other := range b.l.stages {
		if other != s && other.kind.name == s.kind.name {
			name = "size solution of the " + s.name
		}
	}
	b.stream(s, "solution", name, func(k int) bool {
		return k == b.l.water() || b.l.Components[k].Name == adds
	}).from = fresh
	b.goOn(s, b.full(s, "main", "sheet off the "+s.name))
}

func sizeRows(b *builder, s *stage) {
	sheet, solution := b.by[s]["main"], b.by[s]["solution"]
	in := b.joined(s)
	row := b.row(s)
	b.addDry(row, solution, coefficient{1, s.figures["solution"], -1})
	b.add(row, solution, b.l.water(), s.at("solution", -1))
	for k := range b.l.Components {
		row := b.row(s)
		b.add(row, in, k, number(1))
		b.add(row, solution, k, number(1))
		b.add(row, sheet, k, number(-1))
	}
	if s.has("dryness") {
		b.share(s, drynessCounts, "dryness", sheet)
		return
	}
	row = b.row(s)
	b.addDry(row, solution, number(1))
	b.addDry(row, in, s.at("pick-up", -1))
}

// Reel and winder pass the sheet on.
func sheetStreams(b *builder, s *stage) { b.goOn(s, b.full(s, "main", s.name)) }

func sheetRows(b *builder, s *stage) { b.balance(s, b.joined(s), b.by[s]["main"]) }
