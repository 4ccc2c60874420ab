package lab

import (
	"cmp"
	"errors"
	"fmt"
	"math"
	"slices"
	"strings"

	"millmaths.example/paperprop"
	"millmaths.example/paperprop/calc"
	"millmaths.example/paperprop/calc/formula"
	"millmaths.example/paperprop/calc/uncertainty"
	"millmaths.example/paperprop/result"
)

// propagate takes a model that the user writes. It is a tool, since its inputs have
// the names in the model.
var propagate = &calc.Tool{
	About: calc.Info{
		Name:  "propagate",
		Title: "Uncertainty of a formula of one's own",
		Answers: "What the results of formulas are and how uncertain, from inputs that are uncertain, were observed together " +
			"or are correlated.",
		Method: "first-order: the law of propagation with correlations, slopes by differences of fourth order; " +
			"second-order: with the terms of JCGM 100:2008, 5.1.2 for independent normal inputs; " +
			"monte-carlo: 1000000 draws with a fixed seed, values ± taken as normal (correlated ones too), 95 % interval " +
			"with equal tails. Readings observed together give mean, s/sqrt(n) and their correlations. " +
			"A result is in the unit of the first input of its dimension, else in a usual one",
		Source:  "JCGM 100:2008 (5.1.2, 5.2.2, G.4.1) and JCGM 101:2008, as quoted in public test suites",
		Status:  calc.Published,
		Example: "model=g = m/(l*b); method=first-order; m=5.871 +- 0.004 g; l=200.0 +- 0.3 mm; b=250.0 +- 0.2 mm",
		Mistakes: []string{
			"First order is blind where a slope is zero: the squares of two zeros have an uncertainty all the same.",
			"Means observed together are correlated; leaving that out gives 0.195 ohm for 0.071 ohm in JCGM 100:2008, H.2.",
		},
		Tool: true,
		Open: true,
	},
	Fields: propagateFields,
	Open:   openPropagate,
	Run:    runPropagate,
	Warn:   doubtsOfPropagate,
}

func propagateFields() (in, out []*calc.Field) {
	return []*calc.Field{
			calc.NewField("model", "f", calc.Text, "NAME = FORMULA, several separated by bars"),
			calc.NewWords("method", "how", "first-order", "second-order", "monte-carlo"),
			calc.NewWords("correlation", "observations count as independent", "ignored"),
			calc.NewField("NAME", "x", calc.One, "of each name: a value ±, mean(..) UNIT, rectangular(LOW, HIGH) UNIT, or readings taken together [..] UNIT"),
			numeric("df(NAME)", "nu", calc.One, "degrees of freedom of an input; infinite where left out"),
			numeric("corr(NAME,NAME)", "r", calc.One, "correlation of two inputs, -1 to 1"),
		}, []*calc.Field{
			calc.NewField("NAME", "y", calc.One, "each result at the estimates"),
			calc.NewField("u(NAME)", "u", calc.One, "its standard uncertainty"),
			calc.NewField("mean(NAME)", "y_m", calc.One, "by second order and of the draws"),
			numeric("df(NAME)", "nu", calc.One, "effective degrees of freedom (Welch-Satterthwaite), of independent inputs"),
			calc.NewField("part(NAME)", "c", calc.One, "of an input, where there is one formula"),
			numeric("corr(NAME,NAME)", "r", calc.One, "of two results, or of two inputs observed together"),
			calc.NewField("lower(NAME)", "y_lo", calc.One, "2.5 % point of the draws"),
			calc.NewField("upper(NAME)", "y_up", calc.One, "97.5 % point of the draws"),
		}
}

// own lists the inputs that do not belong to the model.
var own = [...]string{"model", "method", "correlation"}

// A model is a set of formulas, with what is known of their inputs.
type model struct {
	lines  []*formula.Line
	method string
	inputs []estimate
	given  map[[2]string]float64 // correlations given by name
	free   bool                  // observed correlations are ignored
}

// An estimate is an input of a model, in coherent base units.
type estimate struct {
	name     string
	unit     paperprop.Unit
	value, u float64
	shape    calc.Distribution
	freedom  float64   // degrees of freedom; 0 for infinitely many
	readings []float64 // taken together with those of other inputs
	scale    float64   // the unit, in base units
}

func (m *model) names() (inputs, results []string) {
	for _, line := range m.lines {
		for _, name := range line.Names() {
			if !slices.Contains(inputs, name) && !slices.Contains(results, name) {
				inputs = append(inputs, name)
			}
		}
		results = append(results, line.Name)
	}
	return inputs, results
}

// formulas is the number of lines of a model, for a refusal.
type formulas int

func (n formulas) String() string { return fmt.Sprintf("%d formulas", int(n)) }

// mostLines is the largest number of formulas in a model: all pairs of results are
// correlated.
const mostLines = 100

// parseModel reads formulas separated by a bar. A formula may use the results of
// earlier ones.
func parseModel(text string) (*model, error) {
	m := &model{given: map[[2]string]float64{}}
	if n := strings.Count(text, "|") + 1; n > mostLines {
		return nil, calc.Refuse("model", formulas(n), fmt.Sprintf("at most %d", mostLines))
	}
	for _, part := range strings.Split(text, "|") {
		line, err := formula.Parse(part)
		if err == nil && slices.ContainsFunc(m.lines, func(l *formula.Line) bool { return l.Name == line.Name }) {
			err = fmt.Errorf("two formulas for %s", line.Name)
		}
		if err != nil {
			return nil, &calc.InputError{Input: "model", Text: strings.TrimSpace(part), Err: err}
		}
		m.lines = append(m.lines, line)
	}
	inputs, results := m.names()
	for _, name := range results {
		if slices.Contains(inputs, name) {
			return nil, &calc.InputError{Input: "model", Text: text, Err: fmt.Errorf("%s is used before its own formula", name)}
		}
	}
	return m, nil
}

// openPropagate reports whether a name belongs to the model.
func openPropagate(given []calc.Pair, name string, output bool) bool {
	m, err := parseModel(textOf(given, "model"))
	if err != nil {
		return true // the run reports that
	}
	inputs, results := m.names()
	of, arguments := argumentsOf(name)
	all := func(names []string) bool {
		return !slices.ContainsFunc(arguments, func(a string) bool { return !slices.Contains(names, a) })
	}
	switch {
	case of == "" && output:
		return slices.Contains(results, name)
	case of == "":
		return slices.Contains(inputs, name)
	case of == "corr" && len(arguments) == 2:
		return all(inputs) || output && all(results)
	case len(arguments) != 1:
		return false
	case of == "df" && !output, of == "part" && output:
		return all(inputs)
	}
	return output && slices.Contains([]string{"u", "mean", "df", "lower", "upper"}, of) && all(results)
}

// argumentsOf splits "corr(a, b)" into the word and the names in brackets.
func argumentsOf(name string) (word string, arguments []string) {
	word, inner, ok := strings.Cut(strings.TrimSuffix(name, ")"), "(")
	if !ok {
		return "", nil
	}
	for _, a := range strings.Split(inner, ",") {
		arguments = append(arguments, strings.TrimSpace(a))
	}
	return word, arguments
}

func textOf(given []calc.Pair, name string) string {
	i := slices.IndexFunc(given, func(p calc.Pair) bool { return p.Name == name })
	if i < 0 {
		return ""
	}
	return given[i].Text
}

func runPropagate(given []calc.Pair) ([]calc.Answer, error) {
	m, err := readModel(given)
	if err != nil {
		return nil, err
	}
	switch m.method {
	case "first-order":
		return m.firstOrder()
	case "second-order":
		return m.secondOrder()
	}
	return m.monteCarlo()
}

// doubtsOfPropagate tells where first order falls short. The other methods see what bends.
func doubtsOfPropagate(given []calc.Pair) []calc.Warning {
	m, err := readModel(given)
	if err != nil || m.method != "first-order" {
		return nil
	}
	l, err := m.law()
	if err != nil {
		return nil
	}
	var inputs []uncertainty.Moved
	var names, results []string
	for i, e := range m.inputs {
		in := uncertainty.Moved{Kurtosis: e.shape.Kurtosis()}
		for k := range l.slopes {
			in.Slopes = append(in.Slopes, l.slopes[k][i])
		}
		inputs, names = append(inputs, in), append(names, e.name)
	}
	for _, line := range m.lines {
		results = append(results, line.Name)
	}
	return calc.StrainWarnings(uncertainty.Strains(m.numbers, l.values, inputs), results, names, true)
}

// fieldNamed returns the input of propagate with the name: one that no model changes.
func fieldNamed(name string) *calc.Field {
	in, _ := propagateFields()
	return in[slices.IndexFunc(in, func(f *calc.Field) bool { return f.Name == name })]
}

// valueNamed returns a field for an input or a result of the user's model.
func valueNamed(name string) *calc.Field { return calc.NewField(name, name, calc.One, "") }

// readModel reads the model and everything given for it.
func readModel(given []calc.Pair) (*model, error) {
	text := textOf(given, "model")
	if text == "" {
		return nil, &calc.MissingError{Input: fieldNamed("model")}
	}
	m, err := parseModel(text)
	if err != nil {
		return nil, err
	}
	switch m.method = textOf(given, "method"); m.method {
	case "first-order", "second-order", "monte-carlo":
	case "":
		return nil, &calc.MissingError{Input: fieldNamed("method")}
	default:
		return nil, &calc.WordError{Input: fieldNamed("method"), Text: m.method}
	}
	switch word := textOf(given, "correlation"); word {
	case "":
	case "ignored":
		m.free = true
	default:
		return nil, &calc.WordError{Input: fieldNamed("correlation"), Text: word}
	}
	if err := m.readInputs(given); err != nil {
		return nil, err
	}
	return m, m.readBeside(given)
}

// readInputs reads a value for each input of the formulas.
func (m *model) readInputs(given []calc.Pair) error {
	inputs, _ := m.names()
	for _, name := range inputs {
		text := textOf(given, name)
		if text == "" {
			if name == "pi" {
				continue
			}
			return &calc.MissingError{Input: valueNamed(name)}
		}
		e, err := readEstimate(name, text)
		if err == nil {
			err = m.oneCurrency(e)
		}
		if err != nil {
			return &calc.InputError{Input: name, Text: text, Err: err}
		}
		m.inputs = append(m.inputs, e)
	}
	for _, p := range given {
		if word, _ := argumentsOf(p.Name); word == "" && !slices.Contains(own[:], p.Name) && !slices.Contains(inputs, p.Name) {
			return fmt.Errorf("%s is no name of the model", p.Name)
		}
	}
	return m.evenReadings()
}

// evenReadings refuses inputs that can't have been observed together, as their readings
// differ in number.
func (m *model) evenReadings() error {
	var first *estimate
	for i := range m.inputs {
		switch e := &m.inputs[i]; {
		case e.readings == nil:
		case first == nil:
			first = e
		case len(e.readings) != len(first.readings):
			return &calc.LengthError{
				Input: valueNamed(e.name), Got: len(e.readings), Other: valueNamed(first.name), Want: len(first.readings),
			}
		}
	}
	return nil
}

// oneCurrency refuses a price in a currency other than that of an earlier input.
func (m *model) oneCurrency(e estimate) error {
	currency := e.unit.Currency()
	for _, before := range m.inputs {
		if other := before.unit.Currency(); currency != "" && other != "" && other != currency {
			return fmt.Errorf("%s is in %s, want one currency", before.name, other)
		}
	}
	return nil
}

func readEstimate(name, text string) (estimate, error) {
	read, err := calc.ParseEstimate(text)
	if err != nil {
		return estimate{}, err
	}
	factor, offset := read.Unit.SI()
	e := estimate{name: name, unit: read.Unit, shape: read.Distribution, scale: factor, freedom: read.Freedom}
	if read.Readings == nil {
		e.value, e.u = read.Value*factor+offset, read.Standard*factor
		return e, nil
	}
	s, err := result.Summarise(read.Readings, 0.95)
	if err != nil {
		return estimate{}, err
	}
	n := float64(s.Count)
	e.value, e.u = s.Mean*factor+offset, *s.StandardDeviation/math.Sqrt(n)*factor
	e.freedom, e.readings = n-1, read.Readings
	return e, nil
}

// readBeside reads degrees of freedom and correlations.
func (m *model) readBeside(given []calc.Pair) error {
	for _, p := range given {
		word, names := argumentsOf(p.Name)
		if word == "" {
			continue
		}
		x, err := paperprop.ParseNumber(p.Text)
		if err != nil {
			return &calc.InputError{Input: p.Name, Text: p.Text, Err: err}
		}
		var at []int
		for _, name := range names {
			i := slices.IndexFunc(m.inputs, func(e estimate) bool { return e.name == name })
			if i < 0 {
				return fmt.Errorf("%s: %s is no input of the model", p.Name, name)
			}
			at = append(at, i)
		}
		switch {
		case word == "df" && len(at) == 1:
			if x <= 0 {
				return calc.Refuse(p.Name, text(p.Text), "above 0")
			}
			m.inputs[at[0]].freedom = x
		case word == "corr" && len(at) == 2 && at[0] != at[1]:
			if x < -1 || x > 1 {
				return calc.Refuse(p.Name, text(p.Text), "-1 to 1")
			}
			m.given[[2]string{names[0], names[1]}], m.given[[2]string{names[1], names[0]}] = x, x
		default:
			return &calc.InputError{Input: p.Name, Text: p.Text, Err: errors.New("no input of the model, want df(NAME) or corr(NAME,NAME)")}
		}
	}
	return nil
}

// correlation returns the correlation of two inputs: the one given, or the one
// observed.
func (m *model) correlation(i, j int) float64 {
	a, b := &m.inputs[i], &m.inputs[j]
	if i == j {
		return 1
	}
	if r, ok := m.given[[2]string{a.name, b.name}]; ok {
		return r
	}
	if m.free || a.readings == nil || b.readings == nil {
		return 0
	}
	return result.Correlation(a.readings, b.readings)
}

func (m *model) correlated() bool {
	for i := range m.inputs {
		for j := range i {
			if m.correlation(i, j) != 0 {
				return true
			}
		}
	}
	return false
}

// evaluate returns the results with each input moved by t times its standard
// uncertainty.
func (m *model) evaluate(t []float64) ([]formula.Value, error) {
	values := formula.Values{}
	for i, e := range m.inputs {
		values[e.name] = formula.Number(e.value+t[i]*e.u, e.unit.Dimension())
	}
	return m.results(values)
}

func (m *model) results(values formula.Values) ([]formula.Value, error) {
	var out []formula.Value
	for _, line := range m.lines {
		v, err := line.Eval(values)
		if err != nil {
			return nil, err
		}
		values[line.Name] = v
		out = append(out, v)
	}
	return out, nil
}

func (m *model) numbers(t []float64) ([]float64, error) {
	values, err := m.evaluate(t)
	if err != nil {
		return nil, err
	}
	numbers := make([]float64, len(values))
	for i, v := range values {
		if len(v.Numbers) != 1 {
			return nil, fmt.Errorf("%s is a list, want one number", m.lines[i].Name)
		}
		if numbers[i] = v.Numbers[0]; numbers[i]-numbers[i] != 0 {
			return nil, &calc.FiniteError{Output: valueNamed(m.lines[i].Name)}
		}
	}
	return numbers, nil
}

// A law is a model with its estimates and slopes.
type law struct {
	*model
	values []float64
	units  []paperprop.Unit
	slopes [][]float64 // by result and input
	u      []float64
}

func (m *model) law() (*law, error) {
	rest := make([]float64, len(m.inputs))
	estimates, err := m.evaluate(rest)
	if err != nil {
		return nil, err
	}
	l := &law{model: m, slopes: make([][]float64, len(m.lines))}
	if l.values, err = m.numbers(rest); err != nil {
		return nil, err
	}
	for i := range m.inputs {
		slope := make([]float64, len(m.lines))
		if u := m.inputs[i].u; u > 0 {
			step := 1e-3 * max(math.Abs(m.inputs[i].value), u) / u
			slope, err = uncertainty.Slope(func(t float64) ([]float64, error) {
				moved := slices.Clone(rest)
				moved[i] = t
				return m.numbers(moved)
			}, step)
			if err != nil {
				return nil, fmt.Errorf("uncertainty of %s: %w", m.inputs[i].name, err)
			}
		}
		for k := range l.slopes {
			l.slopes[k] = append(l.slopes[k], uncertainty.Digits(slope[k]))
		}
	}
	for k := range m.lines {
		u, err := uncertainty.Combined(l.slopes[k], m.correlation)
		if err != nil {
			return nil, fmt.Errorf("%s: %w", m.lines[k].Name, err)
		}
		unit, err := m.unitOf(estimates[k].Dimension)
		if err != nil {
			return nil, err
		}
		l.u, l.units = append(l.u, uncertainty.Digits(u)), append(l.units, unit)
	}
	return l, nil
}

// unitOf returns the unit to answer in: that of the first input of the same dimension, or
// a usual one.
func (m *model) unitOf(d paperprop.Dimension) (paperprop.Unit, error) {
	for _, e := range m.inputs {
		if _, offset := e.unit.SI(); e.unit.Dimension() == d && offset == 0 {
			return e.unit, nil
		}
	}
	if d == (paperprop.Dimension{}) {
		return paperprop.Unit{}, nil
	}
	return paperprop.ParseUnit(usual(d))
}

// usual names the unit in which the trade writes what has a dimension: kN/m, where base
// units make kg/s2 of it. They stay where they are read as well, as for a length, and where
// several sorts of quantity have the dimension.
func usual(d paperprop.Dimension) string {
	base := d.String()
	switch base {
	case "kg m/s2":
		return "N"
	case "kg/s2":
		return "kN/m"
	case "m2/s2":
		return "kN.m/kg"
	case "kg/(m s2)":
		return "kPa"
	case "kg m2/s2":
		return "J"
	}
	if !strings.ContainsAny(base, " /") {
		return base
	}
	name := ""
	for _, k := range paperprop.Kinds() {
		if k.Canonical().Dimension() != d {
			continue
		}
		if name != "" && name != k.Print().String() {
			return base
		}
		name = k.Print().String()
	}
	return cmp.Or(name, base)
}

// answer converts a number in base units to an answer in the unit of result k.
func (l *law) answer(name string, k int, x float64) calc.Answer {
	factor, _ := l.units[k].SI()
	return calc.Answer{Name: name, Value: x / factor, Unit: l.units[k]}
}

// beside is answer for a value that is read beside its standard uncertainty.
func (l *law) beside(name string, k int, x, u float64) calc.Answer {
	a := l.answer(name, k, x)
	a.U = l.answer(name, k, u).Value
	return a
}

func (l *law) estimates() []calc.Answer {
	var out []calc.Answer
	for k, line := range l.lines {
		out = append(out, l.beside(line.Name, k, l.values[k], l.u[k]))
	}
	return out
}

func pure(name string, x float64) calc.Answer { return calc.Answer{Name: name, Value: x} }

func (m *model) firstOrder() ([]calc.Answer, error) {
	l, err := m.law()
	if err != nil {
		return nil, err
	}
	out := l.estimates()
	freedom := make([]float64, len(m.inputs))
	for i, e := range m.inputs {
		freedom[i] = e.freedom
	}
	for k, line := range m.lines {
		out = append(out, l.answer("u("+line.Name+")", k, l.u[k]))
		if nu := uncertainty.Freedom(l.u[k], l.slopes[k], freedom); nu > 0 && !m.correlated() {
			out = append(out, pure("df("+line.Name+")", nu))
		}
	}
	if len(m.lines) == 1 {
		for i, e := range m.inputs {
			out = append(out, l.answer("part("+e.name+")", 0, math.Abs(l.slopes[0][i])))
		}
	}
	return append(out, l.correlations()...), nil
}

// correlations returns those of the results, and of inputs observed together.
func (l *law) correlations() []calc.Answer {
	var out []calc.Answer
	both := func(a, b string, r float64) {
		out = append(out, pure("corr("+a+","+b+")", r), pure("corr("+b+","+a+")", r))
	}
	for k := range l.lines {
		for j := range k {
			if l.u[j] > 0 && l.u[k] > 0 {
				both(l.lines[j].Name, l.lines[k].Name,
					uncertainty.Covariance(l.slopes[j], l.slopes[k], l.correlation)/(l.u[j]*l.u[k]))
			}
		}
	}
	for i, b := range l.inputs {
		for _, a := range l.inputs[:i] {
			if a.readings != nil && b.readings != nil {
				both(a.name, b.name, result.Correlation(a.readings, b.readings))
			}
		}
	}
	return out
}

func (m *model) secondOrder() ([]calc.Answer, error) {
	if m.correlated() {
		return nil, calc.Refuse("method", text(m.method), "first-order or monte-carlo: inputs are correlated")
	}
	l, err := m.law()
	if err != nil {
		return nil, err
	}
	bends, err := uncertainty.Bends(m.numbers, len(m.inputs))
	if err != nil {
		return nil, err
	}
	out := l.estimates()
	for k, line := range m.lines {
		standard, ok := bends[k].Standard(l.values[k], l.u[k])
		if !ok {
			return nil, calc.Refuse("method", text(m.method), "monte-carlo: the terms of u(%v) come out below zero", text(line.Name))
		}
		out = append(out,
			l.answer("u("+line.Name+")", k, standard),
			l.beside("mean("+line.Name+")", k, l.values[k]+bends[k].Shift, standard))
	}
	return out, nil
}
