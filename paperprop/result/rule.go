package result

import (
	"fmt"
	"strconv"

	"github.com/shopspring/decimal"
)

// A Tie says how to round a value halfway between two steps.
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

// A Rule says how a result is reported: to a multiple of a step, or to a number of
// significant figures. It belongs to the test method. The zero Rule does not round.
// Rules are comparable.
type Rule struct {
	mantissa int64 // the step is mantissa·10^exponent, without superfluous decimals
	exponent int32
	figures  uint8 // significant figures; 0 for a rule with a step
	tie      Tie
}

const (
	maxFigures  = 15                      // a float64 always holds these
	maxMantissa = 999_999_999_999_999_999 // 18 digits
	wantStep    = "a step above 0 with at most 18 digits, such as 0.5"
)

// Step returns the rule that rounds to multiples of step, a decimal text such as "0.1",
// "0.5" or "5", above 0 and with at most 18 significant digits. Results have as many
// decimals as the shortest text of the step. Its errors are [InputError]; a step that
// stands in the source of a program is better given to [StepOf], which has none.
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

// StepOf returns the rule with the step mantissa·10^exponent: StepOf(5, -1, Even)
// rounds to 0.5. It is for rules fixed in the source of a program; a mantissa outside 1
// to 10^18 − 1, an exponent beyond ±500 or an unknown tie gives the zero Rule.
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

// Figures returns the rule that rounds to n significant figures, 1 to 15. After a carry
// the number of figures still holds: 99.95 to three figures is 100. Any other n, or an
// unknown tie, gives the zero Rule.
func Figures(n int, tie Tie) Rule {
	if n < 1 || n > maxFigures || tie > Away {
		return Rule{}
	}
	return Rule{figures: uint8(n), tie: tie}
}

// IsZero reports whether r is the zero Rule, which does not round.
func (r Rule) IsZero() bool { return r == Rule{} }

// String returns a description of r: "step 0.1, ties away from zero (ISO 80000-1 rule
// B)".
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

// Round returns x as reported: in plain digits, with the decimals that the rule keeps,
// never "-0". Ties are decided on the shortest text of x. Round accepts any finite x
// and returns "" for NaN and the infinities, which cannot be reported.
func (r Rule) Round(x float64) string {
	var buffer [32]byte
	return string(r.Append(buffer[:0], x))
}

// Text returns d rounded, with the decimals that the rule keeps. A decimal from outside
// the program must come from [ParseDecimal].
func (r Rule) Text(d decimal.Decimal) string {
	return plain(r.RoundDecimal(d))
}

// BySignificantFigures reports whether r rounds to significant figures and so holds in
// any unit; a step holds in its own unit only.
func (r Rule) BySignificantFigures() bool { return r.figures > 0 }
