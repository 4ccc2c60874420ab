package result

import (
	"fmt"
	"strconv"

	"github.com/shopspring/decimal"
)

// A Tie says where a value goes that lies halfway between two steps.
type Tie uint8

// The two rules for ties of ISO 80000-1.
const (
	Even Tie = iota // rule A: to the even multiple of the step
	Away            // rule B: away from zero
)

// String returns "even" or "away".
func (t Tie) String() string {
	switch t {
	case Even:
		return "even"
	case Away:
		return "away"
	}
	return "Tie(" + strconv.Itoa(int(t)) + ")"
}

// A Rule is how a result is written down: to a step, or to a number of
// significant figures. It belongs to the test method. The zero Rule is none
// and changes nothing. Rules are comparable.
type Rule struct {
	mantissa int64 // the step is mantissa·10^exponent, with no decimal too many
	exponent int32
	figures  uint8 // significant figures; 0 where there is a step
	tie      Tie
}

const (
	maxFigures  = 15                      // what a float64 always holds
	maxMantissa = 999_999_999_999_999_999 // 18 digits
	wantStep    = "a step above 0 with at most 18 digits, such as 0.5"
)

// Step returns the rule that reports to multiples of step, a decimal text such
// as "0.1", "0.5" or "5", above zero and of at most 18 significant digits. A
// result then has as many decimals as the shortest text of the step. Its
// errors are [InputError].
func Step(step string, tie Tie) (Rule, error) {
	d, err := ParseDecimal(step)
	if err != nil {
		return Rule{}, &InputError{"step", quote(step), wantStep}
	}
	if tie > Away {
		return Rule{}, &InputError{"tie", tie.String(), "even or away"}
	}
	if digits := d.Coefficient(); digits.IsInt64() {
		if r := StepOf(digits.Int64(), d.Exponent(), tie); !r.IsZero() {
			return r, nil
		}
	}
	return Rule{}, &InputError{"step", quote(step), wantStep}
}

// StepOf returns the rule of the step mantissa·10^exponent: StepOf(5, -1, Even)
// reports to 0.5. It is for rules that are fixed in the source of a program;
// a mantissa outside 1 to 10^18 − 1, an exponent beyond ±500 or an unknown tie
// gives the zero Rule.
func StepOf(mantissa int64, exponent int32, tie Tie) Rule {
	if mantissa < 1 || mantissa > maxMantissa || exponent < -500 || exponent > 500 || tie > Away {
		return Rule{}
	}
	for exponent < 0 && mantissa%10 == 0 {
		mantissa, exponent = mantissa/10, exponent+1
	}
	for exponent > 0 && mantissa <= maxMantissa/10 {
		mantissa, exponent = mantissa*10, exponent-1
	}
	return Rule{mantissa: mantissa, exponent: exponent, tie: tie}
}

// Figures returns the rule that reports to n significant figures, 1 to 15. The
// step is found anew after a carry: 99.95 to three figures is 100. Any other
// n, or an unknown tie, gives the zero Rule.
func Figures(n int, tie Tie) Rule {
	if n < 1 || n > maxFigures || tie > Away {
		return Rule{}
	}
	return Rule{figures: uint8(n), tie: tie}
}

// IsZero reports whether r is no rule.
func (r Rule) IsZero() bool { return r == Rule{} }

// String describes r: "step 0.1, ties away from zero (ISO 80000-1 rule B)".
func (r Rule) String() string {
	ties := "ties to even (ISO 80000-1 rule A)"
	if r.tie == Away {
		ties = "ties away from zero (ISO 80000-1 rule B)"
	}
	switch {
	case r.IsZero():
		return "not rounded"
	case r.figures == 1:
		return "1 significant figure, " + ties
	case r.figures > 1:
		return fmt.Sprintf("%d significant figures, %s", r.figures, ties)
	}
	return fmt.Sprintf("step %s, %s", plain(decimal.New(r.mantissa, r.exponent)), ties)
}

// Round returns x as it is reported, in plain digits: decided on the shortest
// text of x, with the decimals that the rule keeps, never "-0". It takes any
// finite x and returns "" for NaN and the infinities, which can't be reported.
func (r Rule) Round(x float64) string {
	var buffer [32]byte
	return string(r.Append(buffer[:0], x))
}

// Text returns d rounded, with the decimals that the rule keeps. Decimals from
// outside come through [ParseDecimal].
func (r Rule) Text(d decimal.Decimal) string {
	return plain(r.RoundDecimal(d))
}

// BySignificantFigures reports whether r counts significant figures, so that it
// holds in any unit; a step is one of its own unit.
func (r Rule) BySignificantFigures() bool { return r.figures > 0 }
