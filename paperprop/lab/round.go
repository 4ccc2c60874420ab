package lab

import (
	"errors"
	"math/big"
	"strings"

	"github.com/shopspring/decimal"

	"millmaths.example/paperprop"
	"millmaths.example/paperprop/calc"
	"millmaths.example/paperprop/result"
)

// A Tie is the rule for a value exactly halfway between two steps.
type Tie string

// The tie rules of ISO 80000-1.
const (
	TieEven Tie = "even" // rule A: to the even multiple
	TieAway Tie = "away" // rule B: away from zero
)

func (t Tie) rule() result.Tie {
	if t == TieAway {
		return result.Away
	}
	return result.Even
}

func inTie(f *calc.Form, p *Tie) {
	calc.InWord(f, p, "tie", "ISO 80000-1 rule A, to the even multiple, or B, away from zero", TieEven, TieAway)
}

// Round is the rounding of a value. Exactly one of Step and Figures is given.
type Round struct {
	Value   float64         // unrounded
	Step    float64         // in the unit of Value, above zero
	Figures paperprop.Count // significant, 1 to 15
	Tie     Tie

	written written
}

// RoundResult is the reported text.
type RoundResult struct {
	Reported string // the digits to report; never -0
	Warnings calc.Warnings
}

// Calculate rounds once. A tie is decided on the shortest decimal text.
func (r Round) Calculate() (RoundResult, error) { return round.Calculate(r) }

func (r Round) compute() (RoundResult, error) {
	if r.Figures == 0 {
		_, text, warnings, err := r.written.toStep(r.Value, r.Step, r.Tie)
		return RoundResult{text, warnings}, err
	}
	exact, _ := result.FromRat(r.written.value.Exactly(r.Value)) // finite, as written
	return RoundResult{Reported: result.Figures(int(r.Figures), r.Tie.rule()).Text(exact)}, nil
}

// toStep rounds a value, and warns if the step is in a unit that makes the text long:
// 205 g/m2 are 41.98730944261695 lb/1000ft2.
func (w *written) toStep(value, step float64, tie Tie) (*big.Rat, string, calc.Warnings, error) {
	exact := w.step.Exactly(step)
	rounded, text, err := result.ToStep(w.value.Exactly(value), exact, tie.rule())
	places, ends := exact.FloatPrec()
	if long(text) && (!ends || long(exact.FloatString(places))) {
		return rounded, text, stepElsewhere, err
	}
	return rounded, text, nil, err
}

// long reports whether a number has more digits than people write.
func long(number string) bool {
	return len(strings.ReplaceAll(strings.TrimLeft(number, "-0."), ".", "")) > 6
}

var stepElsewhere = calc.Warnings{{Code: "step-in-another-unit",
	Text: "the step is no short decimal in the unit of the value, so neither is what is reported: convert the value to the unit of the step first, with all its digits"}}

var round = &calc.Description[Round, RoundResult]{
	Name:    "round",
	Title:   "A value rounded as a rule asks",
	Answers: "How a value is to be written down, to a step or to significant figures.",
	Method:  "step times the nearest whole number of steps, on the shortest decimal text of the value; after a carry the figures are counted again",
	Source:  "ISO 80000-1:2009 Annex B (memory), ASTM E29 rules on a public page (seen)",
	Status:  calc.Memory,
	Example: "value=12.251; step=0.1; tie=even",
	Mistakes: []string{
		"Rounding in two stages moves 12.2451 to 12.3 by way of 12.25.",
		"2.675 is a tie, though the float64 nearest to it is not.",
	},
	Compute: Round.compute,
	Fields: func(f *calc.Form, in *Round, out *RoundResult) {
		calc.InValue(f, &in.Value, "value", "x", "any", "unrounded").Written(&in.written.value)
		f.Exactly(1,
			calc.InValue(f, &in.Step, "step", "d", "difference of value", "to multiples of this").Above(0).Written(&in.written.step),
			calc.In(f, &in.Figures, "figures", "n", "1", "significant figures").From(1).UpTo(15),
		)
		inTie(f, &in.Tie)
		calc.OutText(f, &out.Reported, "reported", "y", "as value", "decimal text")
		f.Warnings(&out.Warnings)
	},
}

// Shares rounds parts of a whole so that they still add up.
type Shares struct {
	Part []float64          // zero or more, not all zero
	Step paperprop.Fraction // divides 100 %; zero stands for 0.1 %
}

// SharesResult is the rounded shares.
type SharesResult struct {
	Share []paperprop.Fraction // add up to 100 % exactly
}

// Calculate rounds down, and gives the remaining steps to the largest remainders.
func (s Shares) Calculate() (SharesResult, error) { return shares.Calculate(s) }

func (s Shares) compute() (SharesResult, error) {
	parts := make([]decimal.Decimal, len(s.Part))
	for i, p := range s.Part {
		parts[i] = result.Exact(p)
	}
	exact, err := result.Shares(parts, result.Exact(float64(s.Step)))
	if refused := (*result.InputError)(nil); errors.As(err, &refused) && refused.Input == "step" {
		return SharesResult{}, calc.Refuse("step", s.Step, "a step that divides 100 %% without remainder, such as %v", paperprop.Fraction(0.1*paperprop.Percent))
	}
	if err != nil {
		return SharesResult{}, aboutError{err, "part"}
	}
	var r SharesResult
	for _, d := range exact {
		r.Share = append(r.Share, paperprop.Fraction(d.InexactFloat64()))
	}
	return r, nil
}

var shares = &calc.Description[Shares, SharesResult]{
	Name:     "shares",
	Title:    "Shares that add up to 100 %",
	Answers:  "What parts of a whole are in per cent, rounded so that they add up.",
	Method:   "each part over the sum, cut to whole steps; the steps that are left go to the largest remainders, the earlier part first at a tie",
	Source:   "method of largest remainders",
	Status:   calc.CommonPractice,
	Example:  "part=[12.5 30.2 8.8 48.9] t; step=1 %",
	Mistakes: []string{"Shares rounded one by one need not add up to 100 %."},
	Compute:  Shares.compute,
	Fields: func(f *calc.Form, in *Shares, out *SharesResult) {
		calc.InValues(f, &in.Part, "part", "x", "any", "of the whole").From(0)
		calc.In(f, &in.Step, "step", "d", "%", "must divide 100 %").Above(0).UpTo(100).Default(0.1)
		calc.OutList(f, &out.Share, "share", "y", "%", "add up to 100 % exactly").Steps()
	},
}
