package line

import (
	"cmp"
	"errors"
	"fmt"
	"iter"
	"math"
	"slices"
	"strings"

	"millmaths.example/paperprop"
)

// errorAt returns err with the place of the figure in front.
func (l *Line) errorAt(f *Figure, err error) error {
	return &Error{File: l.File, Line: f.Line, Err: err}
}

func (l *Line) stageError(s *stage, format string, args ...any) error {
	return &Error{File: l.File, Line: s.line, Stage: s.name, Err: fmt.Errorf(format, args...)}
}

// figureError returns an error about a figure of a stage, with its text and line as
// in the file.
func (s *Solver) figureError(st *stage, key, format string, args ...any) error {
	f := &s.l.Figures[st.figures[key]]
	text := f.Field.Kind.Format(s.figures[st.figures[key]], f.Field.Unit)
	if x := s.figures[st.figures[key]]; x == f.Value && f.Text != "" {
		text = f.Text
	}
	return &Error{File: s.l.File, Line: f.Line, Stage: st.name, Err: fmt.Errorf("%s is %s: "+format, append([]any{key, text}, args...)...)}
}

func (l *Line) tankError(t *tank, format string, args ...any) error {
	return &Error{File: l.File, Line: t.line, Stage: t.name, Err: fmt.Errorf(format, args...)}
}

// A loose error says that something is wrong, and not what an operator would have to
// change.
type loose struct{ error }

func (e loose) Unwrap() error { return e.error }

func isLoose(err error) bool {
	var l loose
	return errors.As(err, &l)
}

// flowText formats a flow for a message.
func flowText(x float64) string { return paperprop.People(x) + " t/h" }

func percentText(x float64) string { return paperprop.People(100*x) + " %" }

// singular returns an operator's explanation of why a line has no unique solution.
func (s *Solver) singular(rows, cols []int) error {
	for _, why := range []func() error{s.stuck, s.unfed} {
		if err := why(); err != nil {
			return err
		}
	}
	var names []string
	seen := map[string]bool{}
	for _, c := range cols {
		if name := s.b.owner[c]; !seen[name] {
			seen[name], names = true, append(names, name)
		}
	}
	for _, r := range rows {
		if st := s.b.of[r]; st != nil && !seen[st.name] {
			seen[st.name], names = true, append(names, st.name)
		}
	}
	if len(names) == 0 {
		names = []string{"the line"}
	}
	return &Error{File: s.l.File, Err: loose{fmt.Errorf(
		"%s: the figures of these places contradict each other, or leave a flow free", strings.Join(names, ", "))}}
}

// stuck looks for a component that comes to a place and never leaves the mill.
func (s *Solver) stuck() error {
	for k, c := range s.l.Components {
		out := s.leads(k)
		for _, place := range s.reached(k, fromOutside) {
			if out[place] {
				continue
			}
			for _, st := range s.l.stages {
				if st.name == place {
					return s.l.stageError(st, "%s has no way out: what comes here stays in the mill", c.Name)
				}
			}
			for _, t := range s.l.tanks {
				if t.name == place {
					return s.l.tankError(t, "%s has no way out: what comes to the tank stays in the mill", c.Name)
				}
			}
		}
	}
	return nil
}

// unfed refuses a size given for streams that nothing fed can reach.
func (s *Solver) unfed() error {
	for k := range s.l.water() {
		places := s.reached(k, s.keptBales)
		for _, st := range s.b.sized() {
			if st.key == "bales" || slices.Contains(places, st.from) && s.carries(st, k) {
				return nil
			}
		}
	}
	f := &s.l.Figures[s.b.sizeFigure]
	return s.l.errorAt(f, fmt.Errorf("%s is %s: nothing of what is fed comes there", f.Name, f.Text))
}

// keptBales reports whether a stream is of bales that are not all rejected.
func (s *Solver) keptBales(st *stream) bool {
	if st.key != "bales" {
		return false
	}
	i, ok := st.stage.figures["reject-rate"]
	return !ok || s.figures[i] < 1
}

// apart looks for places that feed only each other.
func (s *Solver) apart() error {
	fed := map[string]bool{}
	for grown := true; grown; {
		grown = false
		for _, st := range s.b.streams {
			to := st.to
			if to == "" && st.from == fresh {
				to = st.stage.name
			}
			if (st.from == fresh || fed[st.from]) && !fed[to] {
				fed[to], grown = true, true
			}
		}
	}
	for _, st := range s.l.stages {
		if !fed[st.name] {
			return s.l.stageError(st, "nothing comes to it from outside")
		}
	}
	for _, t := range s.l.tanks {
		if !fed[t.name] {
			return s.l.tankError(t, "nothing comes to it from outside")
		}
	}
	return nil
}

// carries reports whether a stream can hold a component with the present figures,
// wherever it comes from.
func (s *Solver) carries(st *stream, k int) bool {
	if st.draw != absent {
		return true
	}
	if st.flows[k] == absent {
		return false
	}
	if st.stage == nil {
		return true
	}
	value := func(key string) (float64, bool) {
		i, ok := st.stage.figures[key]
		if !ok {
			return 0, false
		}
		return s.figures[i], true
	}
	to, branch := strings.CutPrefix(st.key, "to ")
	if branch && s.shareOf(st.stage, to) <= 0 {
		return false
	}
	name := s.l.Components[k].Name
	if key := st.stage.kind.name; s.l.dry(k) && key == "wire" {
		r, ok := value("retention." + name)
		return !ok || st.key == "water" && r < 1 || st.key != "water" && r > 0
	}
	if r, ok := value("capture." + name); s.l.dry(k) && (ok || st.key == "water" && !s.b.dissolved(k) && st.stage.kind.name != "press") {
		return ok && (st.key == "water" && r < 1 || st.key != "water" && r > 0)
	}
	if r, ok := value("reject-rate"); ok && st.key == "rejects" {
		return r > 0
	} else if ok && st.stage.kind.name != "pulper" && s.l.dry(k) {
		return r < 1 // a pulper's applies to the bales alone
	}
	if r, ok := value("broke"); ok && st.key == "broke" {
		return r > 0
	} else if ok && (st.key == "on" || branch) {
		return r < 1
	}
	if share, ok := value("bales." + name); ok && st.key == "bales" {
		return share > 0
	}
	return true
}

// shareOf returns the share of a stage's branch to a place. That of the rest is below zero
// if the others are more than all.
func (s *Solver) shareOf(from *stage, to string) float64 {
	rest := 1.0
	for _, b := range from.to {
		switch {
		case b.share == constant:
		case b.to == to:
			return s.figures[b.share]
		default:
			rest -= s.figures[b.share]
		}
	}
	return rest
}

// leads returns the places from which a component can leave the mill.
func (s *Solver) leads(k int) map[string]bool {
	out := map[string]bool{sold: true, vapour: true}
	for _, e := range s.l.exits {
		out[e.name] = true
	}
	for grown := true; grown; {
		grown = false
		for _, st := range s.b.streams {
			if st.to != "" && out[st.to] && !out[st.from] && st.from != fresh && s.carries(st, k) {
				out[st.from], grown = true, true
			}
		}
	}
	return out
}

// fromOutside reports whether a stream comes from outside the mill.
func fromOutside(st *stream) bool { return st.from == fresh }

// reached returns the places that a component gets to from the streams that start
// picks.
func (s *Solver) reached(k int, start func(*stream) bool) []string {
	var list []string
	seen := map[string]bool{}
	add := func(place string) {
		if !seen[place] {
			seen[place], list = true, append(list, place)
		}
	}
	for _, st := range s.b.streams {
		if start(st) && s.carries(st, k) {
			if st.to != "" {
				add(st.to)
			} else {
				add(st.stage.name)
			}
		}
	}
	for i := 0; i < len(list); i++ {
		for _, st := range s.b.streams {
			if st.from == list[i] && st.to != "" && s.carries(st, k) {
				add(st.to)
			}
		}
	}
	return list
}

// possible refuses a solution with a flow below zero. Its message says what an
// operator would have to change; it is loose where no cause fits.
func (s *Solver) possible() error {
	most, lowest := 0.0, 0.0
	for _, i := range s.b.flows {
		most, lowest = max(most, s.u[i]), min(lowest, s.u[i])
	}
	least := -1e-9 * most
	if lowest >= least {
		return nil // the usual case, made fast
	}
	// A contradiction comes first: it makes everything before it run backwards.
	if err := s.contradicts(least); err != nil {
		return err
	}
	var unsure error
	for why := range s.causes(least) {
		if !isLoose(why) {
			return why
		}
		unsure = cmp.Or(unsure, why)
	}
	return unsure
}

// causes yields an explanation of each flow below least.
func (s *Solver) causes(least float64) iter.Seq[error] {
	return func(yield func(error) bool) {
		// In the order of the stages, and of each first the water it draws or a tank's
		// overflow to it: where one of these runs backwards, everything after it does
		// too.
		for _, at := range s.l.stages {
			for _, draws := range []bool{true, false} {
				for _, st := range s.b.streams {
					of := st.stage == at && !draws || draws && (st.key == "thinning" || st.key == "overflow") && st.to == at.name
					if of && s.total(st) < least && !yield(s.impossible(st)) {
						return
					}
				}
			}
		}
		for _, st := range s.b.streams {
			if s.total(st) < least && !yield(s.impossible(st)) {
				return
			}
		}
		for _, st := range s.b.streams {
			if st.draw != absent {
				continue
			}
			for k := range st.flows {
				if x := s.flow(st, k); x < least && !yield(s.negative(st, k, s.l.Components[k].Name, x)) {
					return
				}
			}
		}
	}
}

// contradicts refuses figures of a stage that no flows can meet, whatever comes to
// it: the sheet leaving a size press lies between the sheet entering it and the
// solution, the shares of bales are no more than all, and if all is broke, water per tonne
// sold is none.
func (s *Solver) contradicts(least float64) error {
	nothing := math.Abs(sum(s.b.into(sold), s.total)) <= -least
	perTonne := slices.IndexFunc(s.l.waters, s.l.perTonne)
	for _, st := range s.l.stages {
		if st.kind.name == "size press" && st.has("dryness") {
			solution := s.b.by[st]["solution"]
			adds := ratio(s.counted(solution, drynessCounts), s.total(solution))
			if d := s.figures[st.figures["dryness"]]; d <= adds && d < s.comes(st, drynessCounts) {
				return s.figureError(st, "dryness", "the sheet comes out drier than that, as its solution has %s", percentText(adds))
			}
		}
		if left := s.restOfBales(st); left < -1e-12 {
			return &Error{File: s.l.File, Line: st.told.at("bales").line, Stage: st.name,
				Err: fmt.Errorf("bales: the given dry shares add up to %s, and nothing is left for %s", percentText(1-left), st.rest)}
		}
		if nothing && perTonne >= 0 && st.has("broke") && s.figures[st.figures["broke"]] == 1 {
			return s.figureError(st, "broke", "nothing is sold, so the %s per tonne sold would be none", s.l.waters[perTonne].name)
		}
	}
	return nil
}

// restOfBales returns the share of the dry bales that those given leave for the rest.
func (s *Solver) restOfBales(st *stage) float64 {
	rest := 1.0
	for _, c := range s.l.Components {
		if i, ok := st.figures["bales."+c.Name]; ok && c.Name != st.rest {
			rest -= s.figures[i]
		}
	}
	return rest
}

// comes returns the consistency or dryness of all that comes to a stage from other
// places.
func (s *Solver) comes(st *stage, convention int) float64 {
	in, dry := 0.0, 0.0
	for _, other := range s.b.into(st.name) {
		in, dry = in+s.total(other), dry+s.counted(other, convention)
	}
	return ratio(dry, in)
}

// fed returns the flow of a component that comes to a stage.
func (s *Solver) fed(st *stage, k int) float64 {
	return sum(s.b.into(st.name), func(in *stream) float64 { return s.flow(in, k) })
}

// impossible explains a stream whose total is below zero.
func (s *Solver) impossible(st *stream) error {
	switch st.key {
	case "overflow":
		return s.runsDry(st)
	case "make-up":
		return s.runsOver(st)
	case "thinning":
		return s.thickens(st)
	case "bales":
		return s.overfed(st)
	}
	return s.negative(st, s.l.water(), "all", s.total(st))
}

// runsOver explains the make-up of a tank below zero.
func (s *Solver) runsOver(st *stream) error {
	t := s.b.tanks[st.to]
	drawn := s.u[s.b.through[t.index]]
	if drawn < 0 {
		return s.backwards(st, "all", s.total(st))
	}
	x := -s.total(st)
	return s.l.tankError(t, "the tank runs over by %s: %s come to it, and %s are drawn; it needs an overflow", flowText(x), flowText(drawn+x), flowText(drawn))
}

// runsDry explains the overflow of a tank below zero.
func (s *Solver) runsDry(st *stream) error {
	t, x, in := st.tank, -s.total(st), s.u[s.b.through[st.tank.index]]
	switch {
	case t.makeUp == "" && in >= 0:
		return s.l.tankError(t, "the tank runs dry by %s: %s come to it, and %s are drawn; it needs more fresh water, or a make-up",
			flowText(x), flowText(in), flowText(in+x))
	case t.makeUp != "" && slices.ContainsFunc(s.l.stages, func(to *stage) bool { return to.name == st.to }):
		return s.l.tankError(t, "it lacks %s, and with its overflow shut nothing comes to the %s: it needs more water, or the %s another feed",
			flowText(x), st.to, st.to)
	}
	return s.backwards(st, "all", -x)
}

// thickens explains dilution water below zero.
func (s *Solver) thickens(st *stream) error {
	var at *stage
	for _, stage := range s.l.stages {
		if stage.name == st.to {
			at = stage
		}
	}
	in, dry := 0.0, 0.0
	for _, other := range s.b.streams {
		if (other.to == at.name || other.stage == at && other.key == "bales") && other != st {
			in, dry = in+s.total(other), dry+s.counted(other, counts)
		}
	}
	thin := 0.0
	for k, c := range s.l.Components {
		if s.l.dry(k) && (!c.Dissolved || !s.l.says(counts)) {
			thin += s.u[s.b.content[st.tank.index][k]]
		}
	}
	want := s.figures[at.figures["consistency"]]
	if thin >= want && thin <= 1 {
		return s.figureError(at, "consistency", "the water of the %s has %s, and cannot thin stock to that", st.tank.name, percentText(thin))
	}
	if paper := s.b.by[at]["bales"]; paper != nil && s.total(paper) < 0 {
		return s.overfed(paper)
	}
	if comes := ratio(dry, in); in > 0 && comes >= 0 && comes < want {
		return s.figureError(at, "consistency", "water can only thin the stock, which comes in at %s", percentText(comes))
	}
	return s.backwards(st, "all", s.total(st)) // as what comes to the stage does
}

// overfed explains a feed of recovered paper below zero. If a tank runs dry by even
// more, that is the cause.
func (s *Solver) overfed(paper *stream) error {
	for _, st := range s.b.streams {
		if st.key == "overflow" && s.total(st) < s.total(paper) {
			return s.impossible(st)
		}
	}
	added := sum(s.b.which(func(st *stream) bool { return st.key == "solution" }), s.solids)
	if left := added + sum(s.b.fed(), s.solids); left >= 0 && left < added {
		return s.l.stageError(paper.stage, "%s would run backwards, with %s: %s of dry matter are added to the sheet, and %s leave the mill",
			paper.name, flowText(-s.total(paper)), flowText(added), flowText(left))
	}
	return s.backwards(paper, "all", s.total(paper))
}

// backwards says of a stream below zero, or of what is in it, no more than that.
func (s *Solver) backwards(st *stream, what string, x float64) error {
	e := &Error{File: s.l.File, Stage: st.name}
	if st.stage != nil {
		e.Stage, e.Line, what = st.stage.name, st.stage.line, what+" of "+st.name
	}
	e.Err = loose{fmt.Errorf("%s would run backwards, with %s", what, flowText(-x))}
	return e
}

// negative explains a stream with a flow below zero: of component k, or of all, which is
// explained as its water is.
func (s *Solver) negative(st *stream, k int, what string, x float64) error {
	if st.stage != nil {
		if err := s.unmet(st, k); err != nil {
			return err
		}
	}
	return s.backwards(st, what, x)
}

// unmet returns which figure of a stage the flows cannot meet, so that a component of a
// stream of it comes out below zero; nil if none.
func (s *Solver) unmet(st *stream, k int) error {
	if k == s.l.water() {
		if err := s.crowded(st); err != nil {
			return err
		}
	}
	at := st.stage
	kind, said := at.kind.name, s.figures[at.figures["dryness"]]
	name, fed := s.l.Components[k].Name, s.fed(at, k)
	sheet := s.comes(at, drynessCounts)
	switch {
	case strings.HasPrefix(st.key, "to "):
		return s.overshared(st)
	case kind == "press" && st.key == "water" && said < sheet && sheet <= 1:
		return s.figureError(at, "dryness", "the press would wet the sheet, which comes in at %s", percentText(sheet))
	case kind == "dryers" && st.key == "vapour" && said < sheet && sheet <= 1:
		return s.figureError(at, "dryness", "the dryers would wet the sheet, which comes in at %s", percentText(sheet))
	case kind == "size press" && at.has("dryness") && said > sheet && sheet >= 0:
		return s.figureError(at, "dryness", "the size press would dry the sheet, which comes in at %s, with a solution of %s",
			percentText(sheet), percentText(s.figures[at.figures["solution"]]))
	case kind == "wire" && st.key == "water":
		if takes := s.flow(s.b.by[at]["main"], k); fed >= 0 && takes > fed {
			return s.figureError(at, "dryness", "the sheet would hold %s of %s, and %s come from the headbox", flowText(takes), name, flowText(fed))
		}
	case (kind == "screen" || kind == "cleaner") && st.key == "main":
		if takes := s.flow(s.b.by[at]["rejects"], k); fed >= 0 && takes > fed {
			return s.figureError(at, "reject-consistency", "the rejects would take %s of %s, and %s are fed", flowText(takes), name, flowText(fed))
		}
	case (kind == "thickener" || kind == "save-all") && st.key == "water":
		if comes := s.comes(at, counts); s.figures[at.figures["consistency"]] < comes && comes <= 1 {
			return s.figureError(at, "consistency", "the %s would thin the stock, which comes in at %s", kind, percentText(comes))
		}
	}
	return s.grows(at)
}

// grows explains a screen to which more comes back than it is fed, as rejects may that are
// thinned and screened again: what is fed and what comes back then are below zero, and
// what else comes is not. It returns nil where that is not so. The explanation is loose,
// as the same signs may have another cause.
func (s *Solver) grows(at *stage) error {
	screens := func(st *stage) bool { return st != nil && st.has("reject-consistency") }
	var back *stream
	in := 0.0
	for _, st := range s.b.into(at.name) {
		x := s.total(st)
		in += x
		if x < 0 && back != nil {
			return nil
		}
		if x < 0 {
			back = st
		}
	}
	if back == nil || !screens(at) || !screens(back.stage) || in >= 0 || s.total(back) >= in {
		return nil
	}
	return &Error{File: s.l.File, Line: at.line, Stage: at.name, Err: loose{fmt.Errorf(
		"for each 1 t/h that it is fed, %s come back from the %s: more than arrives, without end", flowText(s.total(back)/in), back.stage.name)}}
}

// crowded explains a stream without room for water: where a consistency or dryness counts
// suspended matter alone, dissolved matter may take all the rest.
func (s *Solver) crowded(st *stream) error {
	key, convention := "consistency", counts
	switch {
	case st.key == "rejects" && st.stage.has("reject-dryness"):
		key, convention = "reject-dryness", drynessCounts
	case st.key == "rejects":
		key = "reject-consistency"
	case st.key != "main" && st.key != "on" || st.stage.has("reject-consistency"): // a screen's consistency is that of its feed
		return nil
	case st.stage.has("dryness"):
		key, convention = "dryness", drynessCounts
	}
	if !s.l.says(convention) || !st.stage.has(key) {
		return nil
	}
	most := ratio(s.counted(st, convention), s.solids(st))
	if !(0 <= most && most < s.figures[st.stage.figures[key]]) {
		return nil
	}
	return s.figureError(st.stage, key, "it counts suspended matter alone, which is %s even without any water, as dissolved matter comes with it", percentText(most))
}

// overshared explains branches whose shares leave nothing for the one that takes
// the rest; nil if they do leave something.
func (s *Solver) overshared(rest *stream) error {
	left := s.shareOf(rest.stage, rest.to)
	if left >= 0 {
		return nil
	}
	return &Error{File: s.l.File, Line: rest.stage.told.at("to").line, Stage: rest.stage.name,
		Err: fmt.Errorf("to: the given shares add up to %s, and nothing is left for %s", percentText(1-left), rest.to)}
}
