package catalogue_test

import (
	"math"
	"math/rand/v2"
	"regexp"
	"slices"
	"strconv"
	"strings"
	"testing"

	"millmaths.example/paperprop/calc"
	"millmaths.example/paperprop/calc/formula"
)

// draws is how many random inputs each calculation is tried on.
const draws = 400

// The formula lines agree with the Go method to 1e-12 of the largest term, and
// their units come out right.
func TestFormulaLines(t *testing.T) {
	every(t, func(t *testing.T, c calc.Calculation) {
		info := c.Info()
		if len(info.Formula) == 0 {
			if byMethod(info.Name) == "" {
				t.Error("no formula line, and no reason for that")
			}
			return
		}
		r := rand.New(rand.NewPCG(1, 2))
		evaluated := map[string]int{}
		s := c.NewSheet()
		accepted := 0
		for range 40 * draws {
			if accepted == draws {
				break
			}
			s.Reset()
			randomInputs(r, s)
			if s.Run() != nil {
				continue
			}
			accepted++
			compareLines(t, s, evaluated)
			if t.Failed() {
				return
			}
		}
		if accepted < draws {
			t.Errorf("%d of %d random inputs were taken", accepted, draws)
		}
		for _, line := range info.Formula {
			if l, _ := formula.Parse(line); evaluated[l.Text] < 50 {
				t.Errorf("%q was compared %d times, want 50", line, evaluated[l.Text])
			}
		}
	})
}

// compareLines compares the lines with the method, and counts how often each was.
func compareLines(t *testing.T, s *calc.Sheet, evaluated map[string]int) {
	if err := s.CheckLines(); err != nil && !(hasLimit(s.Info().Name) && strings.Contains(err.Error(), " gives NaN")) {
		t.Error(err)
	}
	lines, err := s.Lines()
	if err != nil {
		t.Fatal(err)
	}
	there := s.Values()
	for _, line := range lines {
		if !slices.ContainsFunc(line.Names(), func(name string) bool { _, ok := there[name]; return !ok }) {
			there[line.Name] = formula.Value{}
			evaluated[line.Text]++
		}
	}
}

// number is one that stands in a formula line: not part of a name, not zero.
var number = regexp.MustCompile(`(^|[^A-Za-z0-9_.])([0-9]+(\.[0-9]+)?(e[-+]?[0-9]+)?)`)

// Each number in a formula line, changed by 1 %, makes it differ from the method.
func TestFormulaConstantsBite(t *testing.T) {
	changed := 0
	every(t, func(t *testing.T, c calc.Calculation) {
		r := rand.New(rand.NewPCG(3, 4))
		var sheets []*calc.Sheet
		for k, line := range c.Info().Formula {
			for _, at := range number.FindAllStringSubmatchIndex(line, -1) {
				x, err := strconv.ParseFloat(line[at[4]:at[5]], 64)
				if err != nil || x == 0 || at[4] < strings.Index(line, ":") { // of a word for which the line holds
					continue
				}
				changed++
				text := line[:at[4]] + strconv.FormatFloat(1.01*x, 'g', -1, 64) + line[at[5]:]
				caught := false
				for try := 0; try < 400 && !caught; try++ {
					if try == len(sheets) {
						sheets = append(sheets, accepted(t, c, r))
					}
					caught = caughtIn(t, sheets[try], c.Info().Formula, k, text)
				}
				if !caught {
					t.Errorf("%q passes as %q", line, text)
				}
			}
		}
	})
	if changed < 100 {
		t.Errorf("%d numbers in formula lines, want 100 or more", changed)
	}
}

// caughtIn says whether a line in place of the k-th differs from the method.
func caughtIn(t *testing.T, s *calc.Sheet, all []string, k int, text string) bool {
	t.Helper()
	var lines []*formula.Line
	for i, line := range all {
		if i == k {
			line = text
		}
		l, err := formula.Parse(line)
		if err != nil {
			return true
		}
		if len(l.Words) == 0 || slices.ContainsFunc(s.In, func(c *calc.Cell) bool { return c.Shape == calc.Word && slices.Contains(l.Words, c.Word()) }) {
			lines = append(lines, l)
		}
	}
	return s.CheckLines(lines...) != nil
}

// randomInputs gives a sheet inputs from their ranges: a choice at random where
// there is one, optional ones half of the time, lists of one to five members.
func randomInputs(r *rand.Rand, s *calc.Sheet) {
	chosen := map[string]bool{}
	constrained := map[string]bool{}
	for _, choice := range s.Info().Exactly {
		for _, k := range r.Perm(len(choice.Of))[:choice.N] {
			for _, name := range choice.Of[k] {
				chosen[name] = true
			}
		}
		for _, names := range choice.Of {
			for _, name := range names {
				constrained[name] = true
			}
		}
	}
	members := 1 + r.IntN(5)
	for _, c := range s.In {
		if constrained[c.Name] && !chosen[c.Name] {
			continue
		}
		if c.Need != calc.Required && !chosen[c.Name] && r.IntN(2) == 0 {
			continue
		}
		switch c.Shape {
		case calc.Word:
			c.PutWord(c.Choices[r.IntN(len(c.Choices))])
		case calc.List:
			list := make([]float64, members)
			for i := range list {
				list[i] = randomValue(r, c.Field)
			}
			c.PutList(list)
		default:
			c.Put(randomValue(r, c.Field))
		}
	}
	for _, room := range rooms {
		if shape := room.shape[s.Info().Name]; shape != nil {
			shape(r, s)
		}
	}
}

// randomValue lies in the range of a field; on an open side within a factor of
// a hundred of the unit to print in.
func randomValue(r *rand.Rand, f *calc.Field) float64 {
	unit := 1.0
	if f.Kind != nil {
		unit = f.Unit.From(1) - f.Unit.From(0)
	}
	low, high := f.Low, f.High
	var x float64
	switch {
	case !math.IsInf(low, 0) && !math.IsInf(high, 0):
		x = low + (high-low)*r.Float64()
	case !math.IsInf(low, 0):
		x = low + unit*math.Pow(10, 4*r.Float64()-2)
	default:
		x = unit * 100 * (2*r.Float64() - 1)
	}
	if f.Whole {
		x = max(math.Round(x), math.Ceil(low))
	}
	return x
}
