package mutant

import (
	"math"
	"testing"
)

// What the compiler makes of each operator is the check.
func TestOperators(t *testing.T) {
	was := Active
	defer func() { Active = was }()
	const n = 7
	y := 2.0
	for _, x := range []float64{1, 2, 3, math.NaN()} {
		i, j := int(y)+3, int(y)
		for _, test := range []struct {
			operator string
			got      func() any
			want     []any // no mutant, n, n+1
		}{
			{"==", func() any { return (x == y) != On(n) }, []any{x == y, x != y}},
			{"<", func() any { return Less(n, x, y) }, []any{x < y, x <= y, x >= y}},
			{"<=", func() any { return AtMost(n, x, y) }, []any{x <= y, x < y, x > y}},
			{">", func() any { return Greater(n, x, y) }, []any{x > y, x >= y, x <= y}},
			{">=", func() any { return AtLeast(n, x, y) }, []any{x >= y, x > y, x < y}},
			{"%", func() any { return Rest(n, i, j) }, []any{i % j, i * j}},
			{"++", func() any { return i + One[int](n) }, []any{i + 1, i - 1}},
			{"+", func() any { return Plus(n, i, j) }, []any{i + j, i - j}},
			{"-", func() any { return Minus(n, i, j) }, []any{i - j, i + j}},
			{"*", func() any { return Times(n, i, j) }, []any{i * j, i / j}},
			{"/", func() any { return Over(n, i, j) }, []any{i / j, i * j}},
			{"-x", func() any { return Negative(n, i) }, []any{-i, i}},
			{"+x", func() any { return Positive(n, i) }, []any{i, -i}},
			{"8*2", func() any { return Pick(n, 8*2, 8/2, -8*2) }, []any{16, 4, -16}},
		} {
			for _, active := range []int{0, n - 1, n, n + 1, n + 2} {
				want := test.want[0]
				if k := active - n + 1; k > 0 && k < len(test.want) {
					want = test.want[k]
				}
				if Active = active; test.got() != want {
					t.Errorf("%v %s with %v: %v with mutant %d, want %v", x, test.operator, y, test.got(), active, want)
				}
			}
		}
	}
}
