package mutant

import (
	"cmp"
	"fmt"
	"os"
	"strings"
	"sync/atomic"
)

// Most is the highest number that an operator may have.
const Most = 1 << 14

// asked records which operators were evaluated. It is atomic because tests run
// goroutines.
var asked [Most + 1]atomic.Bool

// at returns which of the mutants that begin with n is active: 0 for n, 1 for n+1. It
// is below zero if none is and the program only records what it evaluates.
func at(n int) int {
	if Active == 0 && !asked[n].Load() {
		asked[n].Store(true)
	}
	return Active - n
}

// Asked returns the operators evaluated since the last call.
func Asked() []int {
	var all []int
	for n := range asked {
		if asked[n].Load() {
			all = append(all, n)
			asked[n].Store(false)
		}
	}
	return all
}

// Tell writes the operators that were evaluated to the file that the environment names,
// if it names one.
func Tell() {
	path := os.Getenv("MUTANT_ASKED")
	if path == "" {
		return
	}
	var b strings.Builder
	for _, n := range Asked() {
		fmt.Fprintln(&b, n)
	}
	if err := os.WriteFile(path, []byte(b.String()), 0o644); err != nil {
		panic(err)
	}
}

type integer interface {
	~int | ~int8 | ~int16 | ~int32 | ~int64 | ~uint | ~uint8 | ~uint16 | ~uint32 | ~uint64 | ~uintptr
}

type number interface{ integer | ~float32 | ~float64 }

// On inverts x == y, as (x == y) != On(n).
func On(n int) bool { return at(n) == 0 }

// Less is x < y, then x <= y, then x >= y.
func Less[T cmp.Ordered](n int, x, y T) bool {
	switch at(n) {
	case 0:
		return x <= y
	case 1:
		return x >= y
	}
	return x < y
}

// AtMost is x <= y, then x < y, then x > y.
func AtMost[T cmp.Ordered](n int, x, y T) bool {
	switch at(n) {
	case 0:
		return x < y
	case 1:
		return x > y
	}
	return x <= y
}

// Greater is x > y, then x >= y, then x <= y.
func Greater[T cmp.Ordered](n int, x, y T) bool {
	switch at(n) {
	case 0:
		return x >= y
	case 1:
		return x <= y
	}
	return x > y
}

// AtLeast is x >= y, then x > y, then x < y.
func AtLeast[T cmp.Ordered](n int, x, y T) bool {
	switch at(n) {
	case 0:
		return x > y
	case 1:
		return x < y
	}
	return x >= y
}

// Plus is x + y, then x - y.
func Plus[T number](n int, x, y T) T {
	if at(n) == 0 {
		return x - y
	}
	return x + y
}

// Minus is x - y, then x + y.
func Minus[T number](n int, x, y T) T {
	if at(n) == 0 {
		return x + y
	}
	return x - y
}

// Times is x * y, then x / y.
func Times[T number](n int, x, y T) T {
	if at(n) == 0 {
		return x / y
	}
	return x * y
}

// Over is x / y, then x * y.
func Over[T number](n int, x, y T) T {
	if at(n) == 0 {
		return x * y
	}
	return x / y
}

// Rest is x % y, then x * y.
func Rest[T integer](n int, x, y T) T {
	if at(n) == 0 {
		return x * y
	}
	return x % y
}

// Negative is -x, then x.
func Negative[T number](n int, x T) T {
	if at(n) == 0 {
		return x
	}
	return -x
}

// Positive is x, then -x.
func Positive[T number](n int, x T) T {
	if at(n) == 0 {
		return -x
	}
	return x
}

// One is 1, then -1: x++ is x += One, which evaluates x once.
func One[T number](n int) T {
	var zero T
	if at(n) == 0 {
		return zero - 1
	}
	return 1
}

// Pick returns x, or one of the others: the values of a constant expression with one
// operator changed, as the compiler computes them.
func Pick[T any](n int, x T, others ...T) T {
	if i := at(n); 0 <= i && i < len(others) {
		return others[i]
	}
	return x
}
