package catalogue_test

import (
	"errors"
	"fmt"
	"math"
	"regexp"
	"strconv"
	"strings"
	"testing"

	"millmaths.example/paperprop/calc"
	"millmaths.example/paperprop/catalogue"
)

// bound finds what a refusal wants: "at most the dry sample, 1.41 g".
var bound = regexp.MustCompile(`\b(at most|at least|above|below) (?:[a-z][a-z-]*,? )*(-?\d[\d.]*(?:e[-+]?\d+)?) ?([^ ,:;]*)`)

// fractionOf is of bounds that are a part of the value that is named.
var fractionOf = regexp.MustCompile(`\b(tenth|half) of\b`)

// The bound that a refusal names is where it begins: a thousandth on its side the
// input is not refused so, a thousandth beyond it is, and the bound itself is taken if
// it may be reached. A bound that holds for another refusal says nothing of this one.
func TestRefusalsNameTheirBound(t *testing.T) {
	tried := 0
	for _, r := range refusals(t) {
		n, wrong := r.wrong()
		if tried += n; wrong != "" {
			t.Errorf("%s %v: %s", r.calculation, r.inputs, wrong)
		}
	}
	if tried < 70 {
		t.Errorf("%d bounds were tried, want 70 or more", tried)
	}
}

// A refusal is inputs that must be refused, by a check row or a limit.
type refusal struct {
	calculation string
	inputs      []calc.Pair
}

func refusals(t *testing.T) []refusal {
	var all []refusal
	for _, row := range checks(t) {
		if row.Refused {
			all = append(all, refusal{row.Calculation, row.Inputs})
		}
	}
	for _, l := range limits {
		if inputs, err := calc.ParsePairs(l.inputs + ";" + l.outside); err == nil && strings.HasPrefix(l.says, "refused") {
			all = append(all, refusal{l.calculation, inputs})
		}
	}
	return all
}

// wrong tries the bounds that are named, and tells how many there are.
func (r refusal) wrong() (tried int, wrong string) {
	c, ok := catalogue.Find(r.calculation)
	if !ok || c.Info().Tool {
		return 0, ""
	}
	var refused *calc.Refusal
	if !errors.As(with(c, r.inputs, "", ""), &refused) || fractionOf.MatchString(refused.Want()) {
		return 0, ""
	}
	in, ok := c.NewSheet().Input(refused.Input)
	if !ok || in.Shape != calc.One || in.Kind == nil {
		return 0, ""
	}
	for _, m := range bound.FindAllStringSubmatch(refused.Want(), -1) {
		value, err := strconv.ParseFloat(m[2], 64)
		if _, _, failed := in.Kind.Parse(m[2] + " " + m[3]); err != nil || failed != nil || value == 0 {
			continue
		}
		up := m[1] == "above" || m[1] == "at least"
		beyond := 1 + 0.001*math.Copysign(1, value)
		if up {
			beyond = 2 - beyond
		}
		sides := []float64{2 - beyond, 1, beyond}
		if len(strings.Trim(strings.ReplaceAll(m[2], ".", ""), "-0")) >= 6 {
			sides = []float64{2 - beyond, beyond} // The bound was rounded.
		}
		for _, side := range sides {
			text := fmt.Sprintf("%.12g %s", value*side, m[3])
			var again *calc.Refusal
			got := errors.As(with(c, r.inputs, in.Name, text), &again) && again.Input == in.Name && again.Want() == refused.Want()
			want := side == beyond || side == 1 && (m[1] == "above" || m[1] == "below")
			if got != want {
				return tried, fmt.Sprintf("%v; that %s is refused so is %v", refused, text, got)
			}
		}
		tried++
	}
	return tried, ""
}

// with runs a calculation on the inputs of a row, one of them replaced or added.
func with(c calc.Calculation, inputs []calc.Pair, name, text string) error {
	s := c.NewSheet()
	for _, p := range inputs {
		if p.Name == name {
			continue
		}
		if err := s.Set(p.Name, p.Text); err != nil {
			return err
		}
	}
	if name != "" {
		if err := s.Set(name, text); err != nil {
			return err
		}
	}
	return s.Run()
}
