package formula

import (
	"fmt"
	"maps"
	"math"
	"slices"
	"strings"

	"millmaths.example/paperprop"
)

// A function of the formula lines.
type function struct {
	arity int
	apply func(args []Value) (Value, error)
}

var functions = map[string]function{
	"sqrt":  {1, root},
	"exp":   {1, pure(math.Exp)},
	"log":   {1, pure(math.Log)},
	"sin":   {1, pure(math.Sin)},
	"cos":   {1, pure(math.Cos)},
	"abs":   {1, func(a []Value) (Value, error) { return each(a[0], a[0].Dimension, math.Abs), nil }},
	"pow":   {2, power},
	"min":   {2, extreme(math.Min)},
	"max":   {2, extreme(math.Max)},
	"sum":   {1, func(a []Value) (Value, error) { return total(a[0], 1), nil }},
	"mean":  {1, func(a []Value) (Value, error) { return total(a[0], float64(len(a[0].Numbers))), nil }},
	"least": {1, func(a []Value) (Value, error) { return one(a[0], slices.Min(a[0].Numbers)), nil }},
	"most":  {1, func(a []Value) (Value, error) { return one(a[0], slices.Max(a[0].Numbers)), nil }},
	"count": {1, func(a []Value) (Value, error) {
		return Number(float64(len(a[0].Numbers)), paperprop.Dimension{}), nil
	}},
	"before": {1, func(a []Value) (Value, error) { return part(a[0], 0, -1) }},
	"after":  {1, func(a []Value) (Value, error) { return part(a[0], 1, 0) }},
	"final":  {1, func(a []Value) (Value, error) { return one(a[0], a[0].Numbers[len(a[0].Numbers)-1]), nil }},
}

func functionNames() string {
	return strings.Join(slices.Sorted(maps.Keys(functions)), ", ")
}

func each(v Value, d paperprop.Dimension, f func(float64) float64) Value {
	out := Value{Numbers: make([]float64, len(v.Numbers)), Size: make([]float64, len(v.Numbers)), List: v.List, Dimension: d}
	for i, x := range v.Numbers {
		out.Numbers[i] = f(x)
		out.Size[i] = math.Abs(out.Numbers[i]) * max(1, v.Size[i]/math.Abs(x))
	}
	return out
}

// pure applies f to numbers without a unit.
func pure(f func(float64) float64) func([]Value) (Value, error) {
	return func(a []Value) (Value, error) {
		if a[0].Dimension != (paperprop.Dimension{}) {
			return Value{}, fmt.Errorf("want a pure number, not %v", a[0].Dimension)
		}
		return each(a[0], a[0].Dimension, f), nil
	}
}

func root(a []Value) (Value, error) {
	d := a[0].Dimension
	for i := range d {
		if d[i]%2 != 0 {
			return Value{}, fmt.Errorf("square root of %v", a[0].Dimension)
		}
		d[i] /= 2
	}
	return each(a[0], d, math.Sqrt), nil
}

// power takes a whole number as exponent where the base has a unit.
func power(a []Value) (Value, error) {
	if len(a[1].Numbers) != 1 || a[1].Dimension != (paperprop.Dimension{}) {
		return Value{}, fmt.Errorf("want one pure number as exponent")
	}
	n := a[1].Numbers[0]
	none := paperprop.Dimension{}
	d := none
	if a[0].Dimension != none {
		if n != math.Trunc(n) || math.Abs(n) > 9 {
			return Value{}, fmt.Errorf("%v to the power of %v", a[0].Dimension, n)
		}
		d = none.Times(a[0].Dimension, int(n))
	}
	return each(a[0], d, func(x float64) float64 { return math.Pow(x, n) }), nil
}

func extreme(f func(x, y float64) float64) func([]Value) (Value, error) {
	return func(a []Value) (Value, error) {
		if a[0].Dimension != a[1].Dimension {
			return Value{}, fmt.Errorf("%v beside %v: units do not fit", a[0].Dimension, a[1].Dimension)
		}
		return memberwise(a[0], a[1], a[0].Dimension, func(p, q term) term {
			return term{f(p.x, q.x), max(p.size, q.size)}
		})
	}
}

func total(v Value, n float64) Value {
	var t term
	for i := range v.Numbers {
		t = add(t, v.at(i))
	}
	out := Number(t.x/n, v.Dimension)
	out.Size[0] = t.size / n
	return out
}

func one(v Value, x float64) Value {
	out := Number(x, v.Dimension)
	out.Size[0] = max(out.Size[0], slices.Max(v.Size))
	return out
}

// part cuts members off: before(d) is all but the last, after(d) all but the
// first, so that 1/before(d) - 1/after(d) is what each section takes.
func part(v Value, from, to int) (Value, error) {
	if !v.List || len(v.Numbers) < 2 {
		return Value{}, fmt.Errorf("want a list of at least two members")
	}
	to += len(v.Numbers)
	return Value{v.Numbers[from:to], v.Size[from:to], true, v.Dimension}, nil
}
