package line

import (
	"fmt"
	"slices"
	"strings"

	"millmaths.example/paperprop"
	"millmaths.example/paperprop/calc"
	"millmaths.example/paperprop/calc/formula"
)

// A Solution is the worked solution of one stage or tank: its figures, the streams
// in and out, and the balance that gives the rest.
type Solution struct {
	Balance
	Given []Figure
	Steps []Step
}

// A Step is one formula of a solution, with flows in t/h and shares as fractions.
type Step struct {
	Formula     string // "w = (d - c*q)/(c - c_w)"
	Substituted string
	Result      string
	Full        string // the result, unrounded
	About       string
	Value       float64 // of the formula
	Solved      float64 // the same in the solved line
}

// Steps returns the worked solution of the named stage or tank.
func (a *Answer) Steps(name string) (*Solution, error) {
	if a.Line == nil {
		return nil, errNoLine
	}
	var names []string
	for i := range a.Stages {
		b := &a.Stages[i]
		names = append(names, b.Name)
		if b.Name != name {
			continue
		}
		w := &working{a: a, b: b, values: formula.Values{}, texts: map[string]string{}}
		w.solution.Balance = *b
		for _, f := range a.Line.Figures {
			if f.Stage == name {
				w.solution.Given = append(w.solution.Given, f)
			}
		}
		if err := w.work(); err != nil {
			return nil, err
		}
		return &w.solution, nil
	}
	return nil, &nameError{calc.NameError{Calculation: a.Line.called(), Name: name, Near: calc.Nearest(name, names), All: names}, "stage or tank"}
}

// A nameError reports the name of a figure, result, stage or tank that the line
// does not have.
type nameError struct {
	calc.NameError
	what string
}

func (e *nameError) Error() string {
	if e.Name == "" && e.All != nil {
		return fmt.Sprintf("%s: want a %s, one of %s", e.Calculation, e.what, strings.Join(e.All, ", "))
	}
	return fmt.Sprintf("%s has no %s %q%s", e.Calculation, e.what, e.Name, e.Wanted())
}

// Unwrap makes errors.As find the [calc.NameError] within.
func (e *nameError) Unwrap() error { return &e.NameError }

// A working writes the steps of one place.
type working struct {
	a        *Answer
	b        *Balance
	solution Solution
	values   formula.Values
	texts    map[string]string
	err      error
}

// know defines a symbol, with its value and the text shown for it.
func (w *working) know(symbol string, x float64, text string) {
	w.values[symbol] = formula.Number(x, paperprop.Dimension{})
	w.texts[symbol] = text
}

func (w *working) flow(symbol string, x float64) { w.know(symbol, x, "("+flowText(x)+")") }

func (w *working) share(symbol string, x float64) { w.know(symbol, x, percentText(x)) }

// step works a formula for a flow, and keeps its value for later steps.
func (w *working) step(text, about string, solved float64) {
	w.work1(text, about, solved, 1, "t/h", w.flow)
}

// stepShare is step for a share.
func (w *working) stepShare(text, about string, solved float64) {
	w.work1(text, about, solved, 100, "%", w.share)
}

// work1 works a formula whose result is printed times a factor, in the given unit.
func (w *working) work1(text, about string, solved, factor float64, unit string, know func(string, float64)) {
	line, err := formula.Parse(text)
	if err != nil {
		w.err = err
		return
	}
	v, err := line.Eval(w.values)
	if err != nil {
		w.err = err
		return
	}
	x := v.Numbers[0]
	w.solution.Steps = append(w.solution.Steps, Step{
		Formula: text, About: about, Value: x, Solved: solved,
		Result: paperprop.People(factor*x) + " " + unit,
		Full:   string(paperprop.AppendShort(nil, factor*x)) + " " + unit,
		Substituted: line.Substitute(func(name string) (string, bool) {
			t, ok := w.texts[name]
			return t, ok
		}),
	})
	know(line.Name, x)
}

// figure returns a figure of the place by its key, and whether there is one.
func (w *working) figure(key string) (float64, bool) {
	i, ok := w.a.Line.figure(w.b.Name + "." + key)
	if !ok {
		return 0, false
	}
	return w.a.Line.Figures[i].Value, true
}

func (w *working) stream(name string) *Stream {
	i := slices.IndexFunc(w.a.Streams, func(s Stream) bool { return s.Name == name })
	return &w.a.Streams[i]
}

// counted returns the flow that a consistency or dryness of the stream counts.
func (w *working) counted(s *Stream, convention int) float64 {
	sum := 0.0
	for k, c := range w.a.Line.Components {
		if w.a.Line.dry(k) && (!c.Dissolved || !w.a.Line.says(convention)) {
			sum += float64(s.Flows[k])
		}
	}
	return sum
}

// all adds up streams.
func (w *working) all(names []string, convention int) (total, dry float64) {
	for _, name := range names {
		s := w.stream(name)
		total, dry = total+float64(s.Total), dry+w.counted(s, convention)
	}
	return total, dry
}

// drawnBy returns the dilution water that a stage draws, and the rest of what comes
// to it.
func (w *working) drawnBy() (draw *Stream, rest []string) {
	for _, name := range w.b.In {
		if s := w.stream(name); strings.HasSuffix(name, " to the "+w.b.Name) && w.isTank(s.From) {
			draw = s
		} else {
			rest = append(rest, name)
		}
	}
	return draw, rest
}

func (w *working) isTank(name string) bool {
	return slices.ContainsFunc(w.a.Line.tanks, func(t *tank) bool { return t.name == name })
}

// out returns the stream that leaves and whose name has the prefix, or nil.
func (w *working) out(prefix string) *Stream {
	for _, name := range w.b.Out {
		if strings.HasPrefix(name, prefix) {
			return w.stream(name)
		}
	}
	return nil
}

// toPlace returns the stream that leaves to the place a key names, or nil.
func (w *working) toPlace(key string) *Stream {
	for _, st := range w.a.Line.stages {
		if st.name != w.b.Name {
			continue
		}
		for _, name := range w.b.Out {
			if s := w.stream(name); s.To == st.places[key] && st.places[key] != "" {
				return s
			}
		}
	}
	return nil
}

func (w *working) work() error {
	switch w.b.Kind {
	case "pulper", "screen", "cleaner", "chest", "headbox":
		w.stock()
	case "thickener", "save-all":
		w.thickener()
	case "wire", "press", "dryers":
		w.sheet()
	case "size press":
		w.size()
	case "tank":
		w.tank()
	default:
		w.pass()
	}
	return w.err
}

// stock works a stage that thins, and may reject.
func (w *working) stock() {
	draw, rest := w.drawnBy()
	q, d := w.all(rest, counts)
	rejects := w.toPlace("rejects-to")
	w.flow("q", q)
	w.flow("d", d)
	if w.b.Kind == "pulper" && rejects != nil {
		w.coarse(rejects)
		if !w.a.Line.says(pulperConsistency) {
			w.step("q_a = q - q_r", "less the rejects", q-float64(rejects.Total))
			taken := "d_r"
			if w.a.Line.says(counts) { // suspended matter, of the rejects too
				taken = "s_r"
				w.flow(taken, w.counted(rejects, counts))
			}
			w.step("d_a = d - "+taken, "dry of it", d-w.counted(rejects, counts))
			w.flow("q", q-float64(rejects.Total))
			w.flow("d", d-w.counted(rejects, counts))
		}
	}
	if draw != nil {
		c, _ := w.figure("consistency")
		w.share("c", c)
		w.share("c_w", ratio(w.counted(draw, counts), float64(draw.Total)))
		w.step("w = (d - c*q)/(c - c_w)", "water drawn, so that the stock has its consistency", float64(draw.Total))
		w.step("q_s = q + w", "thinned stock", w.values["q"].Numbers[0]+float64(draw.Total))
	}
	if w.b.Kind == "screen" || w.b.Kind == "cleaner" {
		w.rejects(rejects)
	}
	if draw == nil && rejects == nil {
		w.pass()
	}
}

// coarse works the coarse rejects of a pulper, a share of the dry bales.
func (w *working) coarse(rejects *Stream) {
	for _, name := range w.b.In {
		if s := w.stream(name); strings.HasPrefix(name, "recovered paper") {
			r, _ := w.figure("reject-rate")
			c, _ := w.figure("reject-dryness")
			w.flow("d_b", float64(s.Total)-float64(s.Flows[w.a.Line.water()]))
			w.share("r", r)
			w.share("c_r", c)
			w.step("d_r = r*d_b", "dry in the coarse rejects, of the dry bales", w.dryOf(rejects))
			if !w.a.Line.says(drynessCounts) {
				w.step("q_r = d_r/c_r", "coarse rejects", float64(rejects.Total))
			} else {
				w.flow("q_r", float64(rejects.Total))
			}
		}
	}
}

func (w *working) dryOf(s *Stream) float64 {
	return float64(s.Total) - float64(s.Flows[w.a.Line.water()])
}

// rejects works the rejects of a screen or cleaner.
func (w *working) rejects(rejects *Stream) {
	r, _ := w.figure("reject-rate")
	c, _ := w.figure("reject-consistency")
	total, _ := w.all(w.b.In, counts)
	allDry := 0.0
	for _, name := range w.b.In {
		allDry += w.dryOf(w.stream(name))
	}
	w.share("r", r)
	w.share("c_r", c)
	if w.a.Line.says(rejectRate) {
		w.flow("q_f", total)
		w.step("q_r = r*q_f", "rejects, by mass of stock", float64(rejects.Total))
	} else {
		w.flow("d_f", allDry)
		w.step("d_r = r*d_f", "dry in the rejects", w.dryOf(rejects))
		if !w.a.Line.says(counts) {
			w.step("q_r = d_r/c_r", "rejects", float64(rejects.Total))
		}
	}
	w.flow("q_f", total)
	w.flow("q_r", float64(rejects.Total))
	w.step("q_a = q_f - q_r", "accepts", total-float64(rejects.Total))
}

// came returns the flow of each component that comes to the place.
func (w *working) came() []float64 {
	came := make([]float64, len(w.a.Line.Components))
	for _, name := range w.b.In {
		for k, f := range w.stream(name).Flows {
			came[k] += float64(f)
		}
	}
	return came
}

// liquid works the water that stays in a stock or sheet with the suspended matter
// s, and whatever follows the water, at x of it, so that the consistency or dryness
// is c. The result is q_s.
func (w *working) liquid(parts []string, following, water, kept, total float64, about string, counted bool) {
	if len(parts) == 0 { // all is dissolved
		parts = []string{"0"}
	}
	w.step("s = "+strings.Join(parts, " + "), "kept, but for what follows the water", kept)
	if counted && following > 0 {
		w.flow("D", following)
		w.flow("W", water)
		w.stepShare("x = D/(D + W)", "dissolved in the water", ratio(following, following+water))
		w.step("l = s*(1 - c)/(c - x)", "water with it", total-kept)
	} else {
		w.step("l = s*(1 - c)/c", "water", total-kept)
	}
	w.step("q_s = s + l", about, total)
}

// thickener works a stage that splits suspended matter from the water and what
// follows it.
func (w *working) thickener() {
	l := w.a.Line
	filtrate := w.toPlace("water-to")
	q, _ := w.all(w.b.In, counts)
	came := w.came()
	var parts []string
	var following, kept float64
	for k, c := range l.Components[:l.water()] {
		symbol := fmt.Sprint(k + 1)
		if c.Dissolved {
			following += came[k]
			continue
		}
		stays := came[k] - float64(filtrate.Flows[k])
		if e, ok := w.figure("capture." + c.Name); ok {
			w.share("e"+symbol, e)
			w.flow("f"+symbol, came[k])
			w.step("s"+symbol+" = e"+symbol+"*f"+symbol, c.Name+" kept", stays)
		} else {
			w.flow("s"+symbol, stays)
		}
		parts = append(parts, "s"+symbol)
		kept += stays
	}
	c, _ := w.figure("consistency")
	w.share("c", c)
	w.flow("q", q)
	w.liquid(parts, following, came[l.water()], kept, q-float64(filtrate.Total), "thickened stock", !l.says(counts))
	w.step("q_f = q - q_s", "filtrate", float64(filtrate.Total))
}

// sheet works a wire, a press or dryers: the dry matter of the sheet and its
// dryness give the sheet, and the rest is water.
func (w *working) sheet() {
	l := w.a.Line
	var away *Stream
	if w.b.Kind == "dryers" {
		away = w.out("evaporated")
	} else {
		away = w.toPlace("water-to")
	}
	q, _ := w.all(w.b.In, drynessCounts)
	sheetTotal := q - float64(away.Total)
	came := w.came()
	var parts []string
	var following, stays float64
	for k, c := range l.Components[:l.water()] {
		symbol := "d" + fmt.Sprint(k+1)
		r, ok := w.figure("retention." + c.Name)
		kept := came[k] - float64(away.Flows[k])
		if w.b.Kind == "wire" && !ok && !l.says(drynessCounts) {
			following += came[k]
			continue
		}
		stays += kept
		if w.b.Kind == "wire" && ok {
			w.flow("h"+fmt.Sprint(k+1), came[k])
			w.share("r"+fmt.Sprint(k+1), r)
			w.step(fmt.Sprintf("%s = r%d*h%[2]d", symbol, k+1), c.Name+" in the sheet", kept)
		} else {
			w.flow(symbol, kept)
		}
		if !c.Dissolved || !l.says(drynessCounts) {
			parts = append(parts, symbol)
		}
	}
	s, _ := w.figure("dryness")
	w.flow("q", q)
	if following > 0 {
		w.share("c", s)
		w.liquid(parts, following, came[l.water()], stays, sheetTotal, "sheet", true)
	} else {
		w.share("s", s)
		w.step("q_s = ("+strings.Join(parts, " + ")+")/s", "sheet", sheetTotal)
	}
	w.step("w = q - q_s", map[string]string{"wire": "water of the wire", "press": "water pressed out", "dryers": "evaporated"}[w.b.Kind], float64(away.Total))
	if m, ok := w.figure("steam"); ok {
		w.know("m", m, "("+paperprop.People(m)+" t/t)")
		w.step("q_m = m*w", "steam", m*float64(away.Total))
	}
}

// size works the solution that a size press applies.
func (w *working) size() {
	var solution *Stream
	var rest []string
	for _, name := range w.b.In {
		if s := w.stream(name); s.From == fresh && strings.HasPrefix(name, "size solution") {
			solution = s
		} else {
			rest = append(rest, name)
		}
	}
	q, d := w.all(rest, drynessCounts)
	c, _ := w.figure("solution")
	w.flow("q", q)
	w.flow("d", d)
	w.share("c", c)
	if s, ok := w.figure("dryness"); ok && !w.a.Line.says(drynessCounts) {
		w.share("s", s)
		w.step("v = (d - s*q)/(s - c)", "size solution, so that the sheet has its dryness", float64(solution.Total))
	} else if p, ok := w.figure("pick-up"); ok {
		dry := 0.0
		for _, name := range rest {
			dry += w.dryOf(w.stream(name))
		}
		w.share("p", p)
		w.flow("d", dry)
		w.step("v = p*d/c", "size solution", float64(solution.Total))
	} else {
		w.flow("v", float64(solution.Total))
	}
	w.step("q_a = c*v", "dry matter in it", w.dryOf(solution))
	w.step("q_s = q + v", "sheet", q+float64(solution.Total))
}

// tank works the mixture in a tank, and its overflow.
func (w *working) tank() {
	q, _ := w.all(w.b.In, counts)
	w.flow("q", q)
	for k, c := range w.a.Line.Components[:w.a.Line.water()] {
		if q == 0 {
			break // it stands still: there is nothing to share
		}
		symbol := fmt.Sprint(k + 1)
		in := 0.0
		for _, name := range w.b.In {
			in += float64(w.stream(name).Flows[k])
		}
		w.flow("d"+symbol, in)
		x, _ := w.a.Value(w.b.Name + "." + c.Name)
		w.stepShare("x"+symbol+" = d"+symbol+"/q", "of "+c.Name+" in the tank, and in all that leaves it", x)
	}
	var draws []string
	left := 0.0
	for i, name := range w.b.Out {
		symbol := "w" + fmt.Sprint(i+1)
		w.flow(symbol, float64(w.stream(name).Total))
		draws = append(draws, symbol)
		left += float64(w.stream(name).Total)
	}
	w.step("q_o = "+strings.Join(draws, " + "), "all that leaves the tank is what comes", left)
}

// pass works a stage that only joins its streams.
func (w *working) pass() {
	var symbols []string
	total := 0.0
	for i, name := range w.b.In {
		symbol := "q" + fmt.Sprint(i+1)
		w.flow(symbol, float64(w.stream(name).Total))
		symbols = append(symbols, symbol)
		total += float64(w.stream(name).Total)
	}
	w.step("q_s = "+strings.Join(symbols, " + "), "all that comes", total)
	if r, ok := w.figure("broke"); ok {
		w.share("r", r)
		w.step("q_b = r*q_s", "broke", r*total)
	}
}
