package line

import "slices"

// A stream of a line. The flow of each component is an unknown of its own, or zero;
// in a draw it is the product of the draw and the composition of its tank.
type stream struct {
	name     string
	from, to string
	stage    *stage     // that it leaves; nil for a tank or the outside
	flows    []int      // unknowns, by component; absent: no flow
	draw     int        // unknown, or absent
	tank     *tank      // drawn from
	water    *sideWater // at a given rate, if it is fresh
	key      string     // its part in its stage: main, rejects, water ...
	hidden   bool       // only in the equations, not in the answer
}

const absent = -1

// A builder writes the equations of a line.
type builder struct {
	l       *Line
	s       system
	streams []*stream
	by      map[*stage]map[string]*stream
	content [][]int  // of each tank: the unknown share of each component
	through []int    // of each tank: the unknown flow through it
	of      []*stage // of each row: the stage it belongs to, or nil
	owner   []string // of each unknown: the place it belongs to
	tanks   map[string]*tank
	now     string // the place whose equations are written
	size    int    // index of the hidden figure that fixes the size, in t/h

	sizeFigure      int // the figure that gives it
	width, grammage int // figures of the reel, where the size is a speed; else constant

	flows  []int // unknowns that are flows of streams
	hidden int   // number of figures, hidden and not
	makeUp []int // of each tank: the hidden figure that is 1 where it is made up
}

func build(l *Line) *builder {
	b := &builder{l: l, by: map[*stage]map[string]*stream{}, tanks: map[string]*tank{}, size: len(l.Figures)}
	b.s, b.hidden = system{}, b.size+1+len(l.tanks)
	for i, t := range l.tanks {
		b.now = t.name
		b.tanks[t.name] = t
		b.makeUp = append(b.makeUp, b.size+1+i)
		b.through = append(b.through, b.unknown())
		var content []int
		for range l.Components {
			content = append(content, b.unknown())
		}
		b.content = append(b.content, content)
	}
	for _, s := range l.stages {
		b.now = s.name
		b.by[s] = map[string]*stream{}
		s.kind.streams(b, s)
	}
	for _, w := range l.waters {
		b.now = w.name
		b.waterStream(w)
	}
	for _, t := range l.tanks {
		b.now = t.name
		b.tankStreams(t)
	}
	for _, s := range l.stages {
		b.now = s.name
		s.kind.rows(b, s)
	}
	for _, t := range l.tanks {
		b.now = t.name
		b.tankRows(t)
	}
	b.now = "size"
	b.sizeRow()
	b.sizeFigure, _ = l.figure("size." + l.size)
	b.width, b.grammage = constant, constant
	if l.size == "speed" {
		reel := b.reel().stage
		b.width, b.grammage = reel.figures["width"], reel.figures["grammage"]
	}
	b.nameExits()
	for _, st := range b.streams {
		if st.draw != absent {
			b.flows = append(b.flows, st.draw)
		}
		for _, at := range st.flows {
			if at != absent {
				b.flows = append(b.flows, at)
			}
		}
	}
	return b
}

func (b *builder) unknown() int {
	b.s.unknowns++
	b.owner = append(b.owner, b.now)
	return b.s.unknowns - 1
}

func (b *builder) row(s *stage) int {
	b.s.rows++
	b.of = append(b.of, s)
	return b.s.rows - 1
}

func (b *builder) term(row, col int, c coefficient) {
	b.s.terms = append(b.s.terms, term{row, col, c})
}

func (b *builder) product(row, held, flow int, factor float64) {
	b.s.products = append(b.s.products, product{row, held, flow, factor})
}

// full makes a stream that holds all components.
func (b *builder) full(s *stage, key, name string) *stream {
	return b.stream(s, key, name, func(int) bool { return true })
}

// onlyWater makes a stream that holds water alone.
func (b *builder) onlyWater(s *stage, key, name string) *stream {
	return b.stream(s, key, name, func(k int) bool { return k == b.l.water() })
}

func (b *builder) stream(s *stage, key, name string, has func(k int) bool) *stream {
	st := &stream{name: name, stage: s, draw: absent, key: key}
	if s != nil {
		st.from = s.name
		b.by[s][key] = st
	}
	for k := range b.l.Components {
		at := absent
		if has(k) {
			at = b.unknown()
		}
		st.flows = append(st.flows, at)
	}
	b.streams = append(b.streams, st)
	return st
}

// drawn makes a stream drawn from a tank.
func (b *builder) drawn(name, from, to string) *stream {
	st := &stream{name: name, from: from, to: to, tank: b.tanks[from], draw: b.unknown(), key: "draw"}
	b.streams = append(b.streams, st)
	return st
}

// add writes a coefficient times the flow of a component into a row.
func (b *builder) add(row int, st *stream, k int, c coefficient) {
	if st.draw != absent {
		// A draw only joins others: its coefficient is a number.
		b.product(row, b.content[st.tank.index][k], st.draw, c.base)
		return
	}
	if st.flows[k] != absent {
		b.term(row, st.flows[k], c)
	}
}

// addAll is add for all components.
func (b *builder) addAll(row int, st *stream, c coefficient) {
	for k := range b.l.Components {
		b.add(row, st, k, c)
	}
}

// addDry is add for the dry matter.
func (b *builder) addDry(row int, st *stream, c coefficient) {
	for k := range b.l.water() {
		b.add(row, st, k, c)
	}
}

// share writes the row of a consistency or dryness: the share of the streams that
// the convention counts.
func (b *builder) share(s *stage, convention int, name string, streams ...*stream) {
	row := b.row(s)
	for _, st := range streams {
		for k, c := range b.l.Components {
			if b.l.dry(k) && (!c.Dissolved || !b.l.says(convention)) {
				b.add(row, st, k, coefficient{1, s.figures[name], -1})
			} else {
				b.add(row, st, k, s.at(name, -1))
			}
		}
	}
}

// into returns the streams that come to a place.
func (b *builder) into(place string) []*stream {
	var in []*stream
	for _, st := range b.streams {
		if st.to == place {
			in = append(in, st)
		}
	}
	return in
}

// joined returns one stream of all that comes to a stage, its dilution water
// included.
func (b *builder) joined(s *stage) *stream {
	in := b.into(s.name)
	if len(in) == 1 && in[0].draw == absent {
		return in[0]
	}
	st := b.full(s, "joined", "to the "+s.name)
	st.from, st.hidden = "", true
	for k := range b.l.Components {
		row := b.row(s)
		b.term(row, st.flows[k], number(-1))
		for _, i := range in {
			b.add(row, i, k, number(1))
		}
	}
	return st
}

// goOn sends the main stream on: whole, in branches, or less its broke.
func (b *builder) goOn(s *stage, main *stream) {
	on := main
	if s.has("broke") {
		main.hidden = false
		back := b.full(s, "broke", "broke of the "+s.name)
		back.to = s.places["broke-to"]
		on = b.full(s, "on", main.name+", less broke")
		for k := range b.l.Components {
			row := b.row(s)
			b.add(row, back, k, number(1))
			b.add(row, main, k, s.at("broke", -1))
			row = b.row(s)
			b.add(row, on, k, number(1))
			b.add(row, back, k, number(1))
			b.add(row, main, k, number(-1))
		}
	}
	if len(s.to) == 1 {
		on.to = s.to[0].to
		if on.to == sold {
			on.name = b.soldBy(s)
		}
		return
	}
	var parts []*stream
	for _, branch := range s.to {
		part := b.full(s, "to "+branch.to, on.name+" to "+branch.to)
		part.to = branch.to
		parts = append(parts, part)
	}
	for i, branch := range s.to {
		for k := range b.l.Components {
			row := b.row(s)
			if branch.share != constant {
				b.add(row, parts[i], k, number(1))
				b.add(row, on, k, coefficient{0, branch.share, -1})
				continue
			}
			b.add(row, on, k, number(-1))
			for _, part := range parts {
				b.add(row, part, k, number(1))
			}
		}
	}
}

// soldBy names what a stage sells. The stage's name is part of it only if others
// sell too.
func (b *builder) soldBy(s *stage) string {
	for _, other := range b.l.stages {
		if other != s && len(other.to) == 1 && other.to[0].to == sold {
			return sold + " by the " + s.name
		}
	}
	return sold
}

// thin draws dilution water to a stage that names a tank for it.
func (b *builder) thin(s *stage) {
	if from := s.places["water"]; from != "" {
		st := b.drawn(from+" to the "+s.name, from, s.name)
		st.key = "thinning"
		b.by[s]["thinning"] = st
	}
}

// balance writes the rows in = sum of out, one a component.
func (b *builder) balance(s *stage, in *stream, out ...*stream) {
	for k := range b.l.Components {
		row := b.row(s)
		b.add(row, in, k, number(1))
		for _, st := range out {
			b.add(row, st, k, number(-1))
		}
	}
}

func (b *builder) waterStream(w *sideWater) {
	if w.from != fresh {
		b.drawn(w.name, w.from, w.to)
		return
	}
	st := b.onlyWater(nil, "fresh", w.name)
	st.from, st.to, st.water = fresh, w.to, w
}

// perTonne reports whether the flow of a water is given per tonne sold.
func (l *Line) perTonne(w *sideWater) bool {
	return l.Figures[w.flow].Field.Kind.Name() != waterFlow.quantity
}

func (b *builder) waterRow(w *sideWater) {
	i := slices.IndexFunc(b.streams, func(st *stream) bool { return st.name == w.name && st.to == w.to && st.from == w.from })
	st := b.streams[i]
	row := b.row(nil)
	if st.draw != absent {
		b.term(row, st.draw, number(1))
	} else {
		b.addAll(row, st, number(1))
	}
	if !b.l.perTonne(w) {
		b.s.loads = append(b.s.loads, load{row, coefficient{0, w.flow, 1}})
		return
	}
	for _, out := range b.into(sold) {
		b.addAll(row, out, coefficient{0, w.flow, -1})
	}
}

func (b *builder) tankStreams(t *tank) {
	if t.overflow != "" {
		st := b.drawn("overflow of the "+t.name, t.name, t.overflow)
		st.key = "overflow"
	}
	switch t.makeUp {
	case "":
	case fresh:
		st := b.onlyWater(nil, "make-up", "make-up of the "+t.name)
		st.from, st.to = fresh, t.name
	default:
		st := b.drawn("make-up of the "+t.name, t.makeUp, t.name)
		st.key = "make-up"
	}
}

// tankRows balances a tank: each component that comes in leaves with the draws, at
// its share of the tank's content.
func (b *builder) tankRows(t *tank) {
	through, content := b.through[t.index], b.content[t.index]
	in := b.into(t.name)
	total, out, one := b.row(nil), b.row(nil), b.row(nil)
	b.term(total, through, number(-1))
	b.term(out, through, number(-1))
	for _, st := range in {
		if st.draw != absent {
			b.term(total, st.draw, number(1))
		} else {
			b.addAll(total, st, number(1))
		}
	}
	for _, st := range b.streams {
		if st.tank == t {
			b.term(out, st.draw, number(1))
		}
	}
	for k := range b.l.Components {
		b.term(one, content[k], number(1))
	}
	b.s.loads = append(b.s.loads, load{one, number(1)})
	idle := b.hidden
	b.hidden++
	for k := range b.l.water() {
		row := b.row(nil)
		b.product(row, content[k], through, -1)
		b.term(row, content[k], coefficient{0, idle, 1})
		for _, st := range in {
			b.add(row, st, k, number(1))
		}
		b.s.holds = append(b.s.holds, hold{row: row, col: content[k], valve: constant, own: []int{row}, parts: []int{through}, idle: idle})
	}
	b.s.holds = append(b.s.holds, hold{row: one, col: content[b.l.water()], guess: 1, valve: constant, own: []int{one}, idle: constant})
	if t.overflow != "" && t.makeUp != "" {
		// Either the overflow or the make-up runs: a figure of 0 or 1 says which.
		row := b.row(nil)
		for _, st := range b.streams {
			at := st.draw
			if at == absent {
				at = st.flows[b.l.water()]
			}
			switch {
			case st.tank == t && st.key == "overflow":
				b.term(row, at, coefficient{0, b.makeUp[t.index], 1})
			case st.to == t.name && st.key == "make-up":
				b.term(row, at, coefficient{1, b.makeUp[t.index], -1})
			}
		}
	}
}

func (b *builder) sizeRow() {
	for _, w := range b.l.waters {
		b.waterRow(w)
	}
	row := b.row(nil)
	b.s.loads = append(b.s.loads, load{row, coefficient{0, b.size, 1}})
	for _, st := range b.sized() {
		b.addAll(row, st, number(1))
	}
}

// sized returns the streams whose sum the size fixes.
func (b *builder) sized() []*stream {
	var list []*stream
	switch b.l.size {
	case "fed":
		list = b.fed()
	case "sold":
		list = b.into(sold)
	default:
		list = []*stream{b.reel()}
	}
	return list
}

// fed returns the streams of recovered paper.
func (b *builder) fed() []*stream {
	var list []*stream
	for _, s := range b.l.stages {
		if st := b.by[s]["bales"]; st != nil {
			list = append(list, st)
		}
	}
	return list
}

// reel returns the stream made at the reel, or nil if there is no reel.
func (b *builder) reel() *stream {
	for _, s := range b.l.stages {
		if s.kind.name == "reel" {
			return b.by[s]["main"]
		}
	}
	return nil
}

// nameExits names a stream after its exit, if nothing else leaves there.
func (b *builder) nameExits() {
	for _, e := range b.l.exits {
		if in := b.into(e.name); len(in) == 1 {
			in[0].name = e.name
		}
	}
}
