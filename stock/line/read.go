package line

import (
	"errors"
	"fmt"
	"io"
	"math"
	"os"
	"slices"
	"strings"

	"github.com/pelletier/go-toml/v2/unstable"

	"millmaths.example/paperprop"
	"millmaths.example/paperprop/calc"
)

// ReadFile reads the file of a line.
func ReadFile(name string) (*Line, error) {
	f, err := os.Open(name)
	if err != nil {
		return nil, err
	}
	defer f.Close()
	return Read(name, f)
}

// maxFile is the largest file read, in bytes: a line takes a few kilobytes.
const maxFile = 1 << 20

// Read reads a line from r; name is for messages only. All faults of the file are
// reported together, each as an [Error].
func Read(name string, r io.Reader) (*Line, error) {
	data, err := io.ReadAll(io.LimitReader(r, maxFile+1))
	if err != nil {
		return nil, err
	}
	if len(data) > maxFile {
		return nil, &Error{File: name, Err: errors.New("longer than 1 MiB, want the file of a line")}
	}
	root, err := parseTree(data)
	if err != nil {
		var e *Error
		if errors.As(err, &e) {
			e.File = name
		}
		return nil, err
	}
	for _, key := range []string{"grade", "jumbo"} {
		if n := root.get(key); n != nil && root.get("stage") == nil {
			return nil, &Error{File: name, Line: n.line, Err: fmt.Errorf("%s belongs to an order book, want the file of a line; millmaths making takes order books", key)}
		}
	}
	l := &Line{File: name, temperature: constant, conventions: make([]int, len(conventions))}
	l.read(root)
	if len(l.errors) == 0 {
		l.check()
	}
	if len(l.errors) > 0 {
		return nil, errors.Join(l.errors...)
	}
	return l, nil
}

func (l *Line) fail(n *node, stage, format string, args ...any) {
	line := 0
	if n != nil {
		line = n.line
	}
	l.errors = append(l.errors, &Error{File: l.File, Line: line, Stage: stage, Err: fmt.Errorf(format, args...)})
}

// only refuses unknown keys, and suggests the nearest.
func (l *Line) only(n *node, stage, what string, keys ...string) {
	for _, m := range n.table {
		if slices.Contains(keys, m.key) {
			continue
		}
		if near := calc.Nearest(m.key, keys); len(near) > 0 {
			l.fail(m.node, stage, "%s has no %q, near: %s", what, m.key, strings.Join(near, ", "))
		} else {
			l.fail(m.node, stage, "%s has no %q, want one of %s", what, m.key, strings.Join(keys, ", "))
		}
	}
}

// text reads a text, and refuses any other value.
func (l *Line) text(n *node, stage, key string) string {
	if n == nil {
		return ""
	}
	if !n.quoted {
		l.fail(n, stage, "%s is %s, want text in quotes", key, n.written())
	}
	return strings.TrimSpace(n.text)
}

// tables returns the tables of a list, such as [[stage]].
func (l *Line) tables(root *node, key string) []*node {
	n := root.get(key)
	if n == nil {
		return nil
	}
	if n.sort != unstable.Array || n.quoted || slices.ContainsFunc(n.list, func(t *node) bool { return t.sort != unstable.Table }) {
		l.fail(n, "", "%s is no list of tables, want [[%s]] before each", key, key)
		return nil
	}
	return n.list
}

func (l *Line) table(root *node, key string) *node {
	n := root.get(key)
	if n == nil {
		return &node{sort: unstable.Table}
	}
	if n.sort != unstable.Table {
		l.fail(n, "", "%s is no table, want [%[1]s]", key)
		return &node{sort: unstable.Table}
	}
	return n
}

func (l *Line) names(root *node, key string) []string {
	n := root.get(key)
	if n == nil {
		return nil
	}
	if n.sort != unstable.Array || slices.ContainsFunc(n.list, func(m *node) bool { return len(m.table) > 0 }) {
		l.fail(n, "", "%s is no list of names, want [\"NAME\", ...]", key)
		return nil
	}
	var names []string
	for _, m := range n.list {
		m.line = n.line
		names = append(names, l.text(m, "", key))
	}
	return names
}

func (l *Line) read(root *node) {
	l.only(root, "", "a line", keyNames(lineKeys)...)
	l.Name = l.text(root.get("name"), "", "name")
	for _, name := range l.names(root, "waste") {
		l.exits = append(l.exits, &exit{name: name})
	}
	for _, name := range l.names(root, "effluent") {
		l.exits = append(l.exits, &exit{name: name, effluent: true})
	}
	if n := root.get("temperature"); n != nil {
		l.temperature = l.figureOf(n, lineKeys[3], "", "temperature")
	}
	l.readConventions(l.table(root, "conventions"))
	l.readComponents(l.tables(root, "component"))
	for _, n := range l.tables(root, "tank") {
		l.readTank(n)
	}
	for _, n := range l.tables(root, "water") {
		l.readWater(n)
	}
	for _, n := range l.tables(root, "stage") {
		l.readStage(n)
	}
	l.readSize(root, l.table(root, "size"))
	mill := l.table(root, "mill")
	l.only(mill, "mill", "the mill", keyNames(millKeys)...)
	for _, k := range millKeys {
		if n := mill.get(k.name); n != nil {
			l.figureOf(n, k, "mill", "mill."+k.name)
		}
	}
}

func keyNames(keys []key) []string {
	var names []string
	for _, k := range keys {
		names = append(names, k.name)
	}
	return names
}

func (l *Line) readConventions(n *node) {
	var keys []string
	for _, c := range conventions {
		keys = append(keys, c.key)
	}
	l.only(n, "conventions", "the table", keys...)
	for i, c := range conventions {
		v := n.get(c.key)
		if v == nil {
			continue
		}
		word := l.text(v, "conventions", c.key)
		if l.conventions[i] = slices.Index(c.words, word); l.conventions[i] < 0 {
			l.conventions[i] = 0
			l.fail(v, "conventions", "%s is %q, want %s", c.key, word, quoted(c.words))
		}
	}
}

func quoted(words []string) string {
	var list []string
	for _, w := range words {
		list = append(list, fmt.Sprintf("%q", w))
	}
	return strings.Join(list, " or ")
}

// densityOf returns the density of a common component, for a file that gives none,
// or zero. Those of cell wall and carbonate are from memory.
func densityOf(component string) paperprop.Density {
	switch component {
	case "fibre":
		return 1500
	case "filler":
		return 2700
	}
	return 0
}

// takenNames are what an answer has for every stream or tank beside the components.
const takenNames = "water total dryness volume consistency through name from to"

func (l *Line) readComponents(nodes []*node) {
	for _, n := range nodes {
		c := Component{Name: l.text(n.get("name"), "component", "name")}
		l.only(n, c.Name, "a component", keyNames(componentKeys)...)
		switch form := l.text(n.get("form"), c.Name, "form"); form {
		case "suspended":
		case "dissolved":
			c.Dissolved = true
		case "":
			l.fail(n, c.Name, "form missing, want \"suspended\" or \"dissolved\"")
		default:
			l.fail(n, c.Name, "form is %q, want \"suspended\" or \"dissolved\"", form)
		}
		c.Density = densityOf(c.Name)
		c.usual = !c.Dissolved && c.Density != 0
		if d := n.get("density"); d != nil {
			name := c.Name + ".density"
			f := Figure{Name: name, Field: componentKeys[2].field(name)}
			if l.tell(d, &f); f.Unknown {
				l.fail(d, "", "%s is ?, want a value such as \"1500 kg/m3\"", name)
			}
			c.Density, c.usual = paperprop.Density(f.Value), false
		}
		switch {
		case c.Name == "" || strings.ContainsAny(c.Name, ".="):
			l.fail(n, "component", "name %q, want one without . or =", c.Name)
		case slices.Contains(strings.Fields(takenNames), c.Name):
			l.fail(n, "component", "name %q is taken: every stream or tank has a result of that name", c.Name)
		case slices.ContainsFunc(l.Components, func(o Component) bool { return o.Name == c.Name }):
			l.fail(n, "component", "%s appears twice", c.Name)
		}
		l.Components = append(l.Components, c)
	}
	if len(l.Components) == 0 {
		l.fail(nil, "", "no component, want [[component]] with name and form (suspended or dissolved)")
	}
	l.Components = append(l.Components, Component{Name: "water", Dissolved: true})
}

func (l *Line) dryNames() []string {
	var names []string
	for _, c := range l.Components[:l.water()] {
		names = append(names, c.Name)
	}
	return names
}

// figureOf reads a figure, and returns its index.
func (l *Line) figureOf(n *node, k key, stage, name string) int {
	return l.keep(n, Figure{Name: name, Stage: stage, Field: k.field(name)})
}

func (l *Line) keep(n *node, f Figure) int {
	l.tell(n, &f)
	l.Figures = append(l.Figures, f)
	return len(l.Figures) - 1
}

// tell sets a figure from the file.
func (l *Line) tell(n *node, f *Figure) {
	f.Line = n.line
	if !n.quoted {
		f.Value = math.NaN()
		want := "in quotes with its unit"
		if f.Field.Whole { // a count has none
			want = "in quotes"
		}
		l.fail(n, "", "%s is %s, want it %s", f.Name, n.written(), want)
		return
	}
	if err := f.set(strings.TrimSpace(n.text)); err != nil {
		l.fail(n, "", "%w", err)
	}
}

// set parses the text of a figure and checks its range.
func (f *Figure) set(text string) error {
	f.Text, f.Unknown, f.Uncertain, f.solved = text, text == "?", calc.Uncertain{}, false
	if f.Unknown {
		f.Value = math.NaN()
		return nil
	}
	e, err := f.Field.Estimate(text)
	if err != nil && f.other != nil {
		o, otherErr := f.other.Estimate(text)
		if otherErr == nil {
			f.Field, f.other, e, err = f.other, f.Field, o, nil
		} else if f.Field.Kind.Name() != waterFlow.quantity {
			err = otherErr
		}
		if errors.Is(err, paperprop.ErrUnit) {
			err = fmt.Errorf("%w; or t/t, per tonne sold", err)
		}
	}
	if err != nil {
		return err
	}
	f.Value, f.Uncertain = e.Value, e.Uncertain
	if err := f.inRange(); err != nil {
		return err
	}
	return f.whole()
}

// whole refuses parts of what is counted. A figure that is solved for may have them: they
// say how far the next whole number is.
func (f *Figure) whole() error {
	if f.Field.Whole && f.Value != math.Trunc(f.Value) {
		return &calc.WholeError{Input: f.Name, Value: f.Value, Text: f.Text}
	}
	return nil
}

func (f *Figure) inRange() error {
	d := f.Field
	below := f.Value < d.Low || d.AboveLow && f.Value == d.Low
	over := f.Value > d.High || d.BelowHigh && f.Value == d.High
	if below || over || math.IsNaN(f.Value) {
		return &paperprop.RangeError{
			Input: f.Name, Kind: d.Kind, Value: f.Value, Min: d.Low, Max: d.High,
			AboveMin: d.AboveLow, BelowMax: d.BelowHigh, Unit: d.Unit, Text: f.Text,
		}
	}
	return nil
}

func (l *Line) readTank(n *node) {
	t := &tank{index: len(l.tanks), name: l.text(n.get("name"), "tank", "name"), line: n.line, told: n, figures: map[string]int{}}
	l.only(n, t.name, "a tank", keyNames(tankKeys)...)
	t.overflow = l.text(n.get("overflow"), t.name, "overflow")
	t.makeUp = l.text(n.get("make-up"), t.name, "make-up")
	if v := n.get("temperature"); v != nil {
		t.figures["temperature"] = l.figureOf(v, temperature, t.name, t.name+".temperature")
	}
	if t.overflow == "" && t.makeUp == "" {
		l.fail(n, t.name, "neither overflow nor make-up: nothing holds its level; want overflow = \"PLACE\", make-up = \"fresh\", or both")
	}
	l.tanks = append(l.tanks, t)
}

func (l *Line) readWater(n *node) {
	w := &sideWater{name: l.text(n.get("name"), "water", "name"), from: fresh, line: n.line, told: n, figures: map[string]int{}}
	l.only(n, w.name, "a water", keyNames(waterKeys)...)
	if v := n.get("from"); v != nil {
		w.from = l.text(v, w.name, "from")
	}
	w.to = l.text(n.get("to"), w.name, "to")
	if v := n.get("temperature"); v != nil {
		w.figures["temperature"] = l.figureOf(v, temperature, w.name, w.name+".temperature")
		if w.from != fresh {
			l.fail(v, w.name, "temperature is that of the tank, %s: want it there", w.from)
		}
	}
	v := n.get("flow")
	if v == nil {
		l.fail(n, w.name, "flow missing, want one such as \"40 t/h\", or \"7.2 t/t\" per tonne sold")
		return
	}
	name := w.name + ".flow"
	w.flow = l.keep(v, Figure{Name: name, Stage: w.name, Field: waterFlow.field(name), other: waterPerTonne.field(name)})
	l.waters = append(l.waters, w)
}

func (l *Line) readStage(n *node) {
	s := &stage{index: len(l.stages), name: l.text(n.get("name"), "stage", "name"), line: n.line, told: n, figures: map[string]int{}, places: map[string]string{}}
	if s.name == "" {
		l.fail(n, "stage", "name missing")
		return
	}
	word := l.text(n.get("kind"), s.name, "kind")
	var ok bool
	if s.kind, ok = kindNamed(word); !ok {
		var names []string
		for _, k := range kinds() {
			names = append(names, k.name)
		}
		near := calc.Nearest(word, names)
		if len(near) == 0 {
			near = names
		}
		if word == "" {
			l.fail(n, s.name, "kind missing, want one of %s", strings.Join(names, ", "))
			return
		}
		l.fail(n.at("kind"), s.name, "kind is %q, want %s", word, strings.Join(near, ", "))
		return
	}
	l.only(n, s.name, "a "+s.kind.name, s.kind.keyNames()...)
	for _, m := range n.table {
		if k, ok := s.kind.key(m.key); ok && m.key != "name" && m.key != "kind" {
			l.readKey(s, k, m.node)
		}
	}
	for _, k := range s.kind.keys {
		switch missing := n.get(k.name) == nil; {
		case missing && k.required && k.sort == figure:
			s.figures[k.name] = l.leaveOut(n, k, s.name, s.name+"."+k.name)
		case missing && k.required && k.sort != shares:
			l.fail(n, s.name, "%s missing (%s)", k.name, k.about)
		}
	}
	l.stages = append(l.stages, s)
}

// leaveOut adds a required figure that the file leaves out. It can be solved for,
// if a result is given instead.
func (l *Line) leaveOut(n *node, k key, stage, name string) int {
	l.Figures = append(l.Figures, Figure{
		Name: name, Stage: stage, Field: k.field(name), Unknown: true, Value: math.NaN(), Line: n.line,
	})
	return len(l.Figures) - 1
}

func (l *Line) readKey(s *stage, k key, n *node) {
	switch k.sort {
	case figure:
		s.figures[k.name] = l.figureOf(n, k, s.name, s.name+"."+k.name)
	case place, tankName, component:
		s.places[k.name] = l.text(n, s.name, k.name)
	case places:
		l.readBranches(s, n)
	case bales:
		l.readBales(s, n)
	case shares, components:
		if n.quoted && k.sort == components {
			for _, c := range l.Components {
				if !c.Dissolved {
					s.figures[k.name+"."+c.Name] = l.figureOf(n, k, s.name, s.name+"."+k.name+"."+c.Name)
				}
			}
			return
		}
		if n.sort != unstable.Table {
			l.fail(n, s.name, "%s is no table, want { %s = \"50 %%\", ... }", k.name, l.Components[0].Name)
			return
		}
		l.only(n, s.name, k.name, l.dryNames()...)
		for _, m := range n.table {
			if slices.Contains(l.dryNames(), m.key) {
				s.figures[k.name+"."+m.key] = l.figureOf(m.node, k, s.name, s.name+"."+k.name+"."+m.key)
			}
		}
	}
}

// readBranches reads where a stage goes on to: one place, or several with their
// shares, one of which may be the rest.
func (l *Line) readBranches(s *stage, n *node) {
	if n.sort != unstable.Table {
		s.to = []branch{{l.text(n, s.name, "to"), constant}}
		return
	}
	rest := 0
	for _, m := range n.table {
		b := branch{m.key, constant}
		if strings.TrimSpace(m.text) == "rest" {
			rest++
		} else {
			b.share = l.figureOf(m.node, share("to", "of what goes on"), s.name, s.name+".to."+m.key)
		}
		s.to = append(s.to, b)
	}
	if rest != 1 {
		l.fail(n, s.name, "to has %d places that take the \"rest\", want one", rest)
	}
}

func (l *Line) readBales(s *stage, n *node) {
	if n.sort != unstable.Table {
		l.fail(n, s.name, "bales is no table, want { moisture = \"11 %%\", fibre = \"rest\", ... }")
		return
	}
	l.only(n, s.name, "bales", append([]string{"moisture"}, l.dryNames()...)...)
	v := n.get("moisture")
	if v == nil {
		l.fail(n, s.name, "bales.moisture missing, want one such as \"11 %%\"")
		return
	}
	k := percent("moisture", "Moisture", "water over moist mass")
	k.openLow = false
	s.figures["bales.moisture"] = l.figureOf(v, k, s.name, s.name+".bales.moisture")
	total, told := 0.0, 0
	for _, m := range n.table {
		switch {
		case m.key == "moisture" || !slices.Contains(l.dryNames(), m.key):
		case strings.TrimSpace(m.text) == "rest":
			if s.rest != "" {
				l.fail(m.node, s.name, "bales: %s and %s cannot both be the rest", s.rest, m.key)
			}
			s.rest = m.key
		default:
			i := l.figureOf(m.node, share(m.key, "share of the dry bales"), s.name, s.name+".bales."+m.key)
			s.figures["bales."+m.key] = i
			total, told = total+l.Figures[i].Value, told+1
		}
	}
	switch {
	case s.rest != "" && total > 1+1e-12:
		l.fail(n, s.name, "bales: the given dry shares add up to %s %%, and nothing is left for %s", paperprop.People(100*total), s.rest)
	case s.rest == "" && math.Abs(total-1) > 1e-9:
		l.fail(n, s.name, "bales: the dry shares add up to %s %%, want 100 %%, or one of them \"rest\"", paperprop.People(100*total))
	case s.rest == "" && told > 0:
		// The shares add up to 1, so one of them follows from the others.
		largest := ""
		for _, name := range l.dryNames() {
			if i, ok := s.figures["bales."+name]; ok && (largest == "" || l.Figures[i].Value > l.Figures[s.figures["bales."+largest]].Value) {
				largest = name
			}
		}
		s.rest = largest
	}
}

func (l *Line) readSize(root, n *node) {
	l.only(n, "size", "the size", keyNames(sizes)...)
	var given []string
	for _, k := range sizes {
		if v := n.get(k.name); v != nil {
			l.figureOf(v, k, "size", "size."+k.name)
			given = append(given, k.name)
		}
	}
	switch len(given) {
	case 0:
		l.fail(root.get("size"), "", "nothing fixes the size, want one of %s under [size]", strings.Join(keyNames(sizes), ", "))
	case 1:
		l.size = given[0]
	default:
		l.fail(n, "size", "fixed by %s at once: give one, and the others follow", strings.Join(given, " and "))
	}
}

// check finds faults that show only in the line as a whole: places that are not
// there, figures that are missing.
func (l *Line) check() {
	seen := map[string]bool{sold: true, fresh: true}
	name := func(name string, line int) {
		switch {
		case strings.ContainsAny(name, ".=") || name == "":
			l.fail(&node{line: line}, name, "a name is %q, want one without . or =", name)
		case seen[name]:
			l.fail(&node{line: line}, name, "two places or waters have this name")
		}
		seen[name] = true
	}
	for _, e := range l.exits {
		name(e.name, 0)
	}
	for _, t := range l.tanks {
		name(t.name, t.line)
	}
	for _, s := range l.stages {
		name(s.name, s.line)
	}
	for _, w := range l.waters {
		name(w.name, w.line)
	}
	for _, t := range l.tanks {
		if t.overflow != "" {
			l.mustReach(t.name, t.told, "overflow", t.overflow)
		}
		if t.makeUp != "" && t.makeUp != fresh {
			l.mustBeTank(t.name, t.told, "make-up", t.makeUp)
		}
		for _, key := range []string{"overflow", "make-up"} {
			if v := t.told.get(key); v != nil && strings.TrimSpace(v.text) == t.name {
				l.fail(v, t.name, "%s = %q is the tank itself, want another place: this holds no level", key, t.name)
			}
		}
	}
	for _, w := range l.waters {
		l.mustReach(w.name, w.told, "to", w.to)
		if w.from != fresh {
			l.mustBeTank(w.name, w.told, "from", w.from)
		}
	}
	for i, s := range l.stages {
		l.checkStage(s, i)
	}
	l.checkSize()
	if len(l.errors) == 0 {
		l.checkResults()
	}
}

// checkResults refuses a place whose name would give two results the same name.
func (l *Line) checkResults() {
	seen := map[string]bool{}
	for _, r := range l.Results() {
		if !seen[r.Name] {
			seen[r.Name] = true
			continue
		}
		place, _, _ := strings.Cut(r.Name, ".")
		l.fail(&node{line: l.lineOf(place)}, place, "two results would be named %s, want another name for the place", r.Name)
		return
	}
}

// lineOf returns the line of the file that a stage, tank or water stands in; 0 if
// there is none of that name.
func (l *Line) lineOf(place string) int {
	for _, s := range l.stages {
		if s.name == place {
			return s.line
		}
	}
	for _, t := range l.tanks {
		if t.name == place {
			return t.line
		}
	}
	for _, w := range l.waters {
		if w.name == place {
			return w.line
		}
	}
	return 0
}

// goals returns the names of the places a stream can go to.
func (l *Line) goals() []string {
	names := []string{sold}
	for _, s := range l.stages {
		names = append(names, s.name)
	}
	for _, t := range l.tanks {
		names = append(names, t.name)
	}
	for _, e := range l.exits {
		names = append(names, e.name)
	}
	return names
}

func (l *Line) mustReach(stage string, told *node, key, to string) {
	names := l.goals()
	if slices.Contains(names, to) {
		return
	}
	hint := fmt.Sprintf("; effluent = [%q] or waste above the tables makes it one", to)
	if near := calc.Nearest(to, names); len(near) > 0 {
		hint = ", near: " + strings.Join(near, ", ")
	}
	if to == "" {
		l.fail(told, stage, "%s missing: the stream goes nowhere", key)
		return
	}
	l.fail(told.at(key), stage, "%s = %q goes nowhere: there is no stage, tank, waste or effluent of that name%s", key, to, hint)
}

func (l *Line) mustBeTank(stage string, told *node, key, name string) {
	var names []string
	for _, t := range l.tanks {
		names = append(names, t.name)
	}
	if !slices.Contains(names, name) {
		l.fail(told.at(key), stage, "%s = %q is no tank, want %s", key, name, strings.Join(names, ", "))
	}
}

func (l *Line) checkStage(s *stage, i int) {
	at := s.told
	if s.to == nil {
		if i+1 == len(l.stages) {
			l.fail(at, s.name, "to missing: it is the last stage, and the stream goes nowhere; want to = \"sold\" or another place")
			return
		}
		s.to = []branch{{l.stages[i+1].name, constant}}
	}
	for _, b := range s.to {
		l.mustReach(s.name, at, "to", b.to)
	}
	for _, k := range s.kind.keys {
		name, given := s.places[k.name]
		switch {
		case given && k.sort == place:
			l.mustReach(s.name, at, k.name, name)
		case given && k.sort == tankName:
			l.mustBeTank(s.name, at, k.name, name)
		case given && k.sort == component && !slices.Contains(l.dryNames(), name):
			l.fail(at.at(k.name), s.name, "%s = %q is no component, want %s", k.name, name, strings.Join(l.dryNames(), ", "))
		}
	}
	l.together(s, "consistency", "water")
	l.together(s, "reject-rate", "reject-dryness", "rejects-to")
	l.together(s, "broke", "broke-to")
	switch s.kind.name {
	case "pulper":
		_, hasBales := s.figures["bales.moisture"]
		if hasBales && s.rest == "" {
			l.fail(at, s.name, "bales: no dry share given, want %s = \"rest\"", l.Components[0].Name)
		}
		if !hasBales && (s.has("reject-rate") || s.has("share")) {
			l.fail(at, s.name, "reject-rate and share refer to bales, and it has none")
		}
	case "wire":
		for _, c := range l.Components[:l.water()] {
			if name := "retention." + c.Name; !c.Dissolved && !s.has(name) {
				k, _ := s.kind.key("retention")
				s.figures[name] = l.leaveOut(at, k, s.name, s.name+"."+name)
			}
		}
	case "size press":
		if s.has("dryness") == s.has("pick-up") {
			l.fail(at, s.name, "want exactly one of dryness (of the sheet that leaves) and pick-up")
		}
	}
}

// together refuses a stage that has some of the named keys and not the others, if
// its kind takes them all.
func (l *Line) together(s *stage, names ...string) {
	var said, missing []string
	for _, name := range names {
		if _, ok := s.kind.key(name); !ok {
			continue
		}
		if s.has(name) || s.places[name] != "" {
			said = append(said, name)
		} else {
			missing = append(missing, name)
		}
	}
	if len(said) > 0 && len(missing) > 0 {
		l.fail(s.told, s.name, "%s missing: it goes with %s", strings.Join(missing, " and "), strings.Join(said, " and "))
	}
}

func (l *Line) checkSize() {
	var pulpers, free, reels []*stage
	for _, s := range l.stages {
		if s.has("bales.moisture") {
			pulpers = append(pulpers, s)
			if !s.has("share") {
				free = append(free, s)
			}
		}
		if s.kind.name == "reel" {
			reels = append(reels, s)
		}
	}
	switch {
	case len(pulpers) == 0:
		l.fail(nil, "", "no pulper has bales: nothing is fed")
	case len(free) == 0:
		l.fail(nil, "", "all pulpers give their share of the recovered paper: leave one out, which takes the rest")
	case len(free) > 1:
		l.fail(nil, free[1].name, "share missing: of several pulpers, all but one must give their share of the dry recovered paper")
	}
	if len(reels) > 1 {
		l.fail(nil, reels[1].name, "a second reel, want one machine in a file")
	}
	switch {
	case l.size == "reel" && len(reels) == 0:
		l.fail(nil, "size", "reel is given, but no stage is a reel")
	case l.size == "speed" && (len(reels) == 0 || !reels[0].has("width") || !reels[0].has("grammage")):
		l.fail(nil, "size", "speed alone gives no tonnes: the reel must give width and grammage")
	}
	if !slices.ContainsFunc(l.stages, func(s *stage) bool {
		return slices.ContainsFunc(s.to, func(b branch) bool { return b.to == sold })
	}) {
		l.fail(nil, "", "nothing is sold, want to = \"sold\" at the last stage")
	}
}
