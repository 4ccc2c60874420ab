package catalogue_test

import (
	"cmp"
	"fmt"
	"math"
	"math/rand/v2"
	"slices"
	"strconv"
	"strings"
	"testing"

	"millmaths.example/paperprop/calc"
	"millmaths.example/paperprop/calc/formula"
)

// Whoever works a substitution with a calculator, from the numbers and units that are
// printed, gets the result below it.
func TestSubstitutionsWorkOut(t *testing.T) {
	worked := 0
	every(t, func(t *testing.T, c calc.Calculation) {
		example, err := exampleSheet(c)
		if err != nil {
			t.Fatal(err)
		}
		sheets := []*calc.Sheet{example}
		r := rand.New(rand.NewPCG(7, 8))
		for range 20 {
			sheets = append(sheets, accepted(t, c, r))
		}
		for _, s := range sheets {
			w, err := s.Solution()
			if err != nil {
				t.Fatal(err)
			}
			for _, step := range w.Steps {
				worked++
				if err := workOut(s, step); err != nil {
					t.Errorf("%s\n= %s\n= %s: %v", step.Formula, step.Substituted, step.Result, err)
				}
			}
		}
	})
	if worked < 10_000 {
		t.Errorf("%d substitutions were worked, want 10000 or more", worked)
	}
}

// workOut evaluates the text of a substitution and compares it with the text of the
// result: to four digits, or as far as ten digits of each number go. An input that was
// left out counts as 1, or as 0.
func workOut(s *calc.Sheet, step calc.Step) error {
	line, values, err := readSubstitution(s, step)
	if err != nil {
		return err
	}
	if !leaveOut(s, line, values, 1) {
		return compareStep(s, step, line, values)
	}
	for _, v := range values { // there six digits are printed in any case
		for i := range v.Size {
			v.Size[i] *= 1e4
		}
	}
	if compareStep(s, step, line, values) == nil {
		return nil
	}
	leaveOut(s, line, values, 0)
	return compareStep(s, step, line, values)
}

// leaveOut gives the inputs that a line names and that have no value a number, in lists
// as long as the others, and reports whether there are any.
func leaveOut(s *calc.Sheet, line *formula.Line, values formula.Values, x float64) bool {
	found := false
	for _, c := range s.In {
		if !slices.Contains(line.Names(), c.Symbol) || c.Given() || c.Need != calc.Optional {
			continue
		}
		v := formula.Value{Numbers: []float64{x}, Size: []float64{0}, List: c.Shape == calc.List}
		if c.Kind != nil {
			v.Dimension = c.Kind.Canonical().Dimension()
		}
		for _, other := range s.In {
			if v.List && other.Given() && other.Shape == calc.List {
				v.Numbers, v.Size = slices.Repeat([]float64{x}, len(other.Numbers())), make([]float64, len(other.Numbers()))
			}
		}
		values[c.Symbol], found = v, true
	}
	return found
}

func compareStep(s *calc.Sheet, step calc.Step, line *formula.Line, values formula.Values) error {
	got, err := line.Eval(values)
	if err != nil {
		return err
	}
	want, err := readPrinted(s, step.Line.Name, step.Result)
	if err != nil {
		return err
	}
	if len(got.Numbers) != len(want.Numbers) {
		return fmt.Errorf("%d numbers, want %d", len(got.Numbers), len(want.Numbers))
	}
	lost := lostDigits(line, values, got)
	for i, x := range want.Numbers {
		if off := math.Abs(got.Numbers[i] - x); !(off <= max(1e-4*math.Abs(x), lost[i]+want.Size[i])) {
			return fmt.Errorf("the numbers give %v, not %v", got.Numbers[i], x)
		}
	}
	return nil
}

// readSubstitution returns the text of a substitution as a line, and the values of the
// names that stand in it for numbers with their units.
func readSubstitution(s *calc.Sheet, step calc.Step) (*formula.Line, formula.Values, error) {
	var symbols []string
	for symbol := range step.Values {
		symbols = append(symbols, symbol)
	}
	slices.SortFunc(symbols, func(a, b string) int { // a text may be part of a longer one
		return cmp.Or(len(step.Values[b])-len(step.Values[a]), cmp.Compare(a, b))
	})
	text, values := step.Substituted, formula.Values{}
	for i, symbol := range symbols {
		v, err := readPrinted(s, symbol, step.Values[symbol])
		if err != nil {
			return nil, nil, err
		}
		name := fmt.Sprintf("number%d_", i)
		values[name], text = v, withName(text, step.Values[symbol], name)
	}
	line, err := formula.Parse("y = " + text)
	if err != nil {
		return nil, nil, err
	}
	return line, values, nil
}

// withName puts a name in place of a printed value wherever that is not part of another.
func withName(text, printed, name string) string {
	var b strings.Builder
	for {
		i := strings.Index(text, printed)
		if i < 0 {
			return b.String() + text
		}
		end := i + len(printed)
		if i > 0 && inWord(text[i-1]) || end < len(text) && inWord(text[end]) {
			b.WriteString(text[:end])
		} else {
			b.WriteString(text[:i] + name)
		}
		text = text[end:]
	}
}

func inWord(c byte) bool {
	return c == '.' || c == '_' || c >= '0' && c <= '9' || c >= 'a' && c <= 'z' || c >= 'A' && c <= 'Z'
}

// readPrinted reads a value as it stands in a solution, in coherent units. Size holds
// half a unit of the tenth digit of each number.
func readPrinted(s *calc.Sheet, symbol, text string) (formula.Value, error) {
	numbers, unit, _ := strings.Cut(text, " ")
	list := strings.HasPrefix(text, "[")
	if list {
		numbers, unit, _ = strings.Cut(text[1:], "]")
	}
	unit = strings.TrimSpace(unit)
	v := formula.Value{List: list}
	from, factor := func(x float64) float64 { return x }, 1.0
	if f, printUnit := fieldOf(s, symbol); f != nil && f.Kind != nil {
		canonical := f.Kind.Canonical()
		v.Dimension = canonical.Dimension()
		scale, offset := canonical.SI()
		if !(unit == "K" && offset != 0) { // a temperature that counts from absolute zero
			if unit != strings.TrimSuffix(printUnit, "1") {
				return v, fmt.Errorf("%s is %q, want the unit %s", symbol, text, printUnit)
			}
			from = func(x float64) float64 { return f.Unit.From(x)*scale + offset }
			factor = scale * (f.Unit.From(1) - f.Unit.From(0))
		}
	}
	for _, n := range strings.Fields(numbers) {
		x, err := strconv.ParseFloat(n, 64)
		if err != nil {
			return v, err
		}
		half := 0.0
		if x != 0 {
			half = 0.5 * math.Pow(10, math.Floor(math.Log10(math.Abs(x)))-9)
		}
		v.Numbers, v.Size = append(v.Numbers, from(x)), append(v.Size, math.Abs(factor)*half)
	}
	return v, nil
}

// fieldOf returns the field of a symbol and the unit in which it is printed.
func fieldOf(s *calc.Sheet, symbol string) (*calc.Field, string) {
	for _, f := range s.Info().Between {
		if f.Symbol == symbol {
			return f, f.Unit.String()
		}
	}
	for _, c := range slices.Concat(s.In, s.Out) {
		if c.Symbol == symbol && c.Shape != calc.Word {
			return c.Field, c.PrintUnit().String()
		}
	}
	return nil, ""
}

// lostDigits returns by how much the result of a line moves if each number moves by its
// Size.
func lostDigits(line *formula.Line, values formula.Values, at formula.Value) []float64 {
	lost := make([]float64, len(at.Numbers))
	for name, v := range values {
		for i, x := range v.Numbers {
			moved := v
			moved.Numbers = slices.Clone(v.Numbers)
			moved.Numbers[i] = x + v.Size[i]
			values[name] = moved
			if off, err := line.Eval(values); err == nil {
				for k := range lost {
					lost[k] += 2 * math.Abs(off.Numbers[k]-at.Numbers[k])
				}
			}
		}
		values[name] = v
	}
	return lost
}

// Every step of a solution leads to a result: it gives one, or a later step or the
// method goes on from it.
func TestStepsLead(t *testing.T) {
	every(t, func(t *testing.T, c calc.Calculation) {
		r := rand.New(rand.NewPCG(9, 10))
		for range 30 {
			s := accepted(t, c, r)
			w, err := s.Solution()
			if err != nil {
				t.Fatal(err)
			}
			for i, step := range w.Steps {
				name := step.Line.Name
				gives := slices.ContainsFunc(s.Out, func(c *calc.Cell) bool { return c.Symbol == name })
				used := slices.ContainsFunc(w.Steps[i+1:], func(later calc.Step) bool { return slices.Contains(later.Line.Names(), name) })
				if !gives && !used && !slices.Contains(strings.FieldsFunc(w.Method, func(c rune) bool { return c > 0x7f || !inWord(byte(c)) }), name) {
					t.Errorf("%s leads nowhere", step.Formula)
				}
			}
		}
	})
}
