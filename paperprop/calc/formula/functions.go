package formula

import (
	"errors"
	"fmt"
	"math"
	"slices"

	"millmaths.example/paperprop"
)

// A function can be called in a formula line.
type function struct {
	arity int
	apply func(args []Value) (Value, error)
}

// names lists the names of all functions.
const names = "abs, after, before, cos, count, exp, final, least, log, max, mean, min, most, pow, product, reaches, sin, sqrt, sum, tan"

// find returns the function with the given name.
func find(name string) (function, bool) {
	switch name {
	case "sqrt":
		return function{1, root}, true
	case "exp":
		return function{1, pure(math.Exp)}, true
	case "log":
		return function{1, logarithm}, true
	case "sin":
		return function{1, angle(math.Sin)}, true
	case "cos":
		return function{1, angle(math.Cos)}, true
	case "tan":
		return function{1, angle(math.Tan)}, true
	case "abs":
		return function{1, func(a []Value) (Value, error) { return each(a[0], a[0].Dimension, math.Abs), nil }}, true
	case "pow":
		return function{2, power}, true
	case "min":
		return function{2, extreme(math.Min)}, true
	case "max":
		return function{2, extreme(math.Max)}, true
	case "reaches":
		return function{2, reaches}, true
	}
	return ofList(name)
}

// ofList returns the functions that take a whole list.
func ofList(name string) (function, bool) {
	var apply func(v Value) (Value, error)
	switch name {
	case "sum":
		apply = func(v Value) (Value, error) { return total(v, 1), nil }
	case "mean":
		apply = func(v Value) (Value, error) { return total(v, float64(len(v.Numbers))), nil }
	case "product":
		apply = product
	case "least":
		apply = func(v Value) (Value, error) { return one(v, slices.Min(v.Numbers)), nil }
	case "most":
		apply = func(v Value) (Value, error) { return one(v, slices.Max(v.Numbers)), nil }
	case "final":
		apply = func(v Value) (Value, error) { return one(v, v.Numbers[len(v.Numbers)-1]), nil }
	case "count":
		apply = func(v Value) (Value, error) { return Number(float64(len(v.Numbers)), dimensionless), nil }
	case "before":
		apply = func(v Value) (Value, error) { return part(v, 0, -1) }
	case "after":
		apply = func(v Value) (Value, error) { return part(v, 1, 0) }
	default:
		return function{}, false
	}
	return function{1, func(a []Value) (Value, error) {
		if len(a[0].Numbers) == 0 {
			return Value{}, fmt.Errorf("%s of an empty list", name)
		}
		return apply(a[0])
	}}, true
}

func each(v Value, d paperprop.Dimension, f func(float64) float64) Value {
	out := Value{Numbers: make([]float64, len(v.Numbers)), Size: make([]float64, len(v.Numbers)), List: v.List, Dimension: d}
	for i, x := range v.Numbers {
		out.Numbers[i] = f(x)
		if x == 0 { // no relative size is defined
			out.Size[i] = max(math.Abs(out.Numbers[i]), math.Abs(f(v.Size[i])))
		} else {
			out.Size[i] = math.Abs(out.Numbers[i]) * max(1, v.Size[i]/math.Abs(x))
		}
	}
	return out
}

// pure applies f to numbers without a unit.
func pure(f func(float64) float64) func([]Value) (Value, error) {
	return func(a []Value) (Value, error) {
		if a[0].Dimension != dimensionless {
			return Value{}, fmt.Errorf("want a pure number, not %v", a[0].Dimension)
		}
		return each(a[0], a[0].Dimension, f), nil
	}
}

// logarithm keeps the size right: a relative loss in the argument is an absolute one in
// the logarithm.
func logarithm(a []Value) (Value, error) {
	v, err := pure(math.Log)(a)
	for i := range v.Size {
		v.Size[i] = max(v.Size[i], a[0].Size[i]/math.Abs(a[0].Numbers[i]))
	}
	return v, err
}

// The dimensions of a pure number, and of an angle, which is in degrees.
var (
	dimensionless paperprop.Dimension
	degree        = paperprop.Dimension{paperprop.BaseAngle: 1}
)

// angle applies f to an angle, or to a pure number as an angle in radians.
func angle(f func(float64) float64) func([]Value) (Value, error) {
	return func(a []Value) (Value, error) {
		if a[0].Dimension == degree {
			return each(a[0], dimensionless, func(x float64) float64 { return f(x * math.Pi / 180) }), nil
		}
		return pure(f)(a)
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

// power raises to a pure number, which must be whole if the base has a unit.
func power(a []Value) (Value, error) {
	if len(a[1].Numbers) != 1 || a[1].Dimension != dimensionless {
		return Value{}, errors.New("want one pure number as exponent")
	}
	n, d := a[1].Numbers[0], dimensionless
	if a[0].Dimension != dimensionless {
		if n != math.Trunc(n) || math.Abs(n) > 9 {
			return Value{}, fmt.Errorf("%v to the power of %v", a[0].Dimension, n)
		}
		d = dimensionless.Times(a[0].Dimension, int(n))
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

// reaches is 1 if the first argument is at least the second, else 0. It counts values
// on one side of a limit.
func reaches(a []Value) (Value, error) {
	if a[0].Dimension != a[1].Dimension {
		return Value{}, fmt.Errorf("%v against a limit of %v: units do not fit", a[0].Dimension, a[1].Dimension)
	}
	return memberwise(a[0], a[1], dimensionless, func(p, q term) term {
		if p.x >= q.x {
			return term{1, 1}
		}
		return term{0, 1}
	})
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

// product multiplies the members of a list of numbers without a unit.
func product(v Value) (Value, error) {
	if v.Dimension != dimensionless {
		return Value{}, fmt.Errorf("want pure numbers, not %v", v.Dimension)
	}
	p := term{1, 1}
	for i := range v.Numbers {
		p = multiply(p, v.at(i))
	}
	out := Number(p.x, v.Dimension)
	out.Size[0] = p.size
	return out, nil
}

func one(v Value, x float64) Value {
	out := Number(x, v.Dimension)
	out.Size[0] = max(out.Size[0], slices.Max(v.Size))
	return out
}

// part removes members at the ends: before(d) is all but the last, after(d) all but the
// first, so that 1/before(d) - 1/after(d) is the share of each section.
func part(v Value, from, to int) (Value, error) {
	if !v.List || len(v.Numbers) < 2 {
		return Value{}, errors.New("want a list of at least two members")
	}
	to += len(v.Numbers)
	return Value{v.Numbers[from:to], v.Size[from:to], true, v.Dimension}, nil
}
