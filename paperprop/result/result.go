// Package result goes from a number to a reported result: rounding rules,
// shares that add up, and the statistics of replicate readings.
//
// Floats carry the physics, decimals carry what is written down. A result is
// rounded once, at the end, from the unrounded value, by the [Rule] of its
// test method:
//
//	rule := result.Figures(3, result.Even)
//	fmt.Println(rule.Round(80.05)) // 80.0
//
// Whether a value is a tie is decided on its shortest decimal text, the text
// that a person sees: 2.675 is a tie at the second decimal, although the
// float64 behind it lies a little below.
//
// Functions that take readings refuse bad ones with an [InputError]. Functions
// that are plain mathematics, such as [Mean] and [StudentT], return no error and
// answer as package math does: NaN where there is no answer.
//
// # What people get wrong
//
// The mean of rounded results is not the rounded mean: keep the floats, round what is
// reported. A [Summary] takes readings as they were read.
//
// ISO 80000-1 has two rules for a tie, to even (A) and away from zero (B): a Rule
// always names its own.
//
// Rounded shares need not add up to the whole; [Shares] makes them do so.
//
// The standard deviation of one reading does not exist: it is absent, not 0.
package result

import "fmt"

// An InputError reports an input that cannot be used.
type InputError struct {
	Input string // name of the input: "step", "value 3"
	Text  string // as written
	Want  string // what would be accepted
}

func (e *InputError) Error() string { return fmt.Sprintf("%s is %s, want %s", e.Input, e.Text, e.Want) }
