package uncertainty_test

import (
	"errors"
	"fmt"
	"math"
	"slices"
	"testing"

	"millmaths.example/paperprop/calc/uncertainty"
)

// strained returns what Strains says of the one result of a function, with the slopes that
// Slope finds.
func strained(t *testing.T, kurtosis float64, inputs int, f func(x []float64) (float64, error)) string {
	t.Helper()
	at := func(x []float64) ([]float64, error) {
		y, err := f(x)
		return []float64{y}, err
	}
	rest := make([]float64, inputs)
	y, err := at(rest)
	if err != nil {
		t.Fatal(err)
	}
	var moved []uncertainty.Moved
	for k := range inputs {
		slope, err := uncertainty.Slope(func(x float64) ([]float64, error) {
			one := make([]float64, inputs)
			one[k] = x
			return at(one)
		}, 1e-3)
		if err != nil {
			t.Fatal(err)
		}
		moved = append(moved, uncertainty.Moved{Kurtosis: kurtosis, Slopes: slope})
	}
	found := uncertainty.Strains(at, y, moved)
	said := ""
	if found.Bends[0] {
		said += "bends "
	}
	if found.Jumps[0] {
		said += "jumps "
	}
	for k, refused := range found.Refused {
		if refused {
			said += fmt.Sprintf("refused %d ", k)
		}
	}
	return said
}

// A normal x has the variance 2 in x², where first order has none (JCGM 101:2008, 9.4, from
// memory: the same with two). Between straight and jumping, the tenth is ours. Kind of the
// others: common-practice.
func TestStrains(t *testing.T) {
	errOutside := errors.New("outside")
	plain := func(f func(x float64) float64) func(x []float64) (float64, error) {
		return func(x []float64) (float64, error) { return f(x[0]), nil }
	}
	for _, test := range []struct {
		name     string
		kurtosis float64
		inputs   int
		f        func(x []float64) (float64, error)
		want     string
	}{
		{"straight", 3, 1, plain(func(x float64) float64 { return 7 + 3*x }), ""},
		{"still", 3, 1, plain(func(x float64) float64 { return 7 }), ""},
		{"square", 3, 1, plain(func(x float64) float64 { return x * x }), "bends "},
		{"exponential", 3, 1, plain(func(x float64) float64 { return math.Exp(x) }), "bends "},
		{"steep", 3, 1, plain(func(x float64) float64 { return math.Tanh(1e6 * (x - 0.5)) }), "bends "},
		{"a tenth of the curve", 3, 1, plain(func(x float64) float64 { return x + 0.3*x*x }), ""},     // u² = 1.18
		{"more than a tenth", 3, 1, plain(func(x float64) float64 { return x + 0.36*x*x }), "bends "}, // u² = 1.26, a tenth is 1.23
		{"a range", 3, 3, func(x []float64) (float64, error) { return max(x[0], x[1], x[2]) - min(x[0], x[1], x[2]), nil }, "bends "},
		{"a product", 3, 2, func(x []float64) (float64, error) { return x[0] * x[1], nil }, "bends "},
		{"on a jump", 3, 1, plain(math.Floor), "bends jumps "},
		{"beside it", 3, 1, plain(func(x float64) float64 { return math.Floor(x - 0.7) }), "bends jumps "},
		{"out of reach", 1.8, 1, plain(func(x float64) float64 { return math.Floor(x/3 + 0.5) }), ""}, // of a rectangular distribution
		{"on a slope", 3, 1, plain(func(x float64) float64 { return 2*x - 2*math.Floor(x-0.7) }), "bends jumps "},
		{"too small to matter", 3, 1, plain(func(x float64) float64 { return 2*x + 0.05*math.Floor(x-0.7) }), ""},
		{"of the second input", 3, 2, func(x []float64) (float64, error) { return x[0] + 4*math.Floor(x[1]), nil }, "bends jumps "},
		{"of the one that moves it less", 3, 2, func(x []float64) (float64, error) { return 10*x[0] + 6*math.Floor(x[1]), nil }, "bends jumps "},
		{"in small units", 3, 1, plain(func(x float64) float64 { return 1e-6 * math.Floor(x) }), "bends jumps "},
		{"together less than a tenth", 3, 2, func(x []float64) (float64, error) { return x[0] * (1 + 0.45*x[1]), nil }, ""}, // u² = 1 + 0.45²
		{"together more", 3, 2, func(x []float64) (float64, error) { return x[0] * (1 + 0.52*x[1]), nil }, "bends "},        // 1.27
		{"together with a shift", 3, 2, func(x []float64) (float64, error) { return x[0] * (1 + 0.52*x[1] + 0.1*x[0]), nil }, "bends "},
		{"a shift alone", 1.5, 1, plain(func(x float64) float64 { return x + 0.5*x*x }), ""},                                       // u² = 1 + 0.5²(1.5 - 1)
		{"against each other", 3, 3, func(x []float64) (float64, error) { return x[0]*x[1] - x[2], nil }, "bends "},                // u² = 2
		{"together alone", 3, 2, func(x []float64) (float64, error) { return x[0]*x[1] + 0.5*x[0]*x[0]*x[1]*x[1], nil }, "bends "}, // u² = 1, with a shift of a half
		{"at ends alone", 3, 5, func(x []float64) (float64, error) {
			for _, x := range x {
				if size := math.Abs(x); size != 0 && size != 1 && size != math.Sqrt(3) && size > 0.1 {
					return 0, errOutside
				}
			}
			return 1, nil
		}, ""},
		{"64 together", 3, 64, func(x []float64) (float64, error) { return x[0] * x[1], nil }, "bends "},
		{"65 are only moved alone", 3, 65, func(x []float64) (float64, error) { return x[0] * x[1], nil }, ""},
		{"refused", 3, 2, func(x []float64) (float64, error) {
			if x[1] > 1 {
				return 0, errOutside
			}
			return x[0], nil
		}, "refused 1 "},
		{"absent", 3, 1, func(x []float64) (float64, error) {
			if x[0] > 1 {
				return 0, uncertainty.ErrResults
			}
			return 1, nil
		}, ""},
	} {
		if got := strained(t, test.kurtosis, test.inputs, test.f); got != test.want {
			t.Errorf("%s: %q, want %q", test.name, got, test.want)
		}
	}
}

// Two hundred bent results of two hundred inputs are not all searched for a jump.
func TestStrainsEndSoon(t *testing.T) {
	const n = 200
	calls := 0
	f := func(x []float64) ([]float64, error) {
		calls++
		y := make([]float64, n)
		for i := range y {
			y[i] = x[i] * x[i]
		}
		return y, nil
	}
	moved := make([]uncertainty.Moved, n)
	for k := range moved {
		moved[k] = uncertainty.Moved{Kurtosis: 3, Slopes: make([]float64, n)}
	}
	found := uncertainty.Strains(f, make([]float64, n), moved)
	for i := range n {
		if !found.Bends[i] || found.Jumps[i] {
			t.Errorf("result %d bends %t, jumps %t", i, found.Bends[i], found.Jumps[i])
		}
	}
	if calls > 4000 {
		t.Errorf("%d calls, want at most 4000", calls)
	}
}

// Of many results that jump, 64 are told as such.
func TestJumpsSearched(t *testing.T) {
	f := func(x []float64) ([]float64, error) {
		y := make([]float64, 66)
		for i := range y {
			y[i] = math.Floor(x[0])
		}
		return y, nil
	}
	found := uncertainty.Strains(f, make([]float64, 66), []uncertainty.Moved{{Kurtosis: 3}}) // no slopes are slopes of zero
	jumps := 0
	for i := range found.Jumps {
		if found.Jumps[i] {
			jumps++
		}
		if !found.Bends[i] {
			t.Errorf("result %d does not bend", i)
		}
	}
	if jumps != 64 {
		t.Errorf("%d results jump, want 64", jumps)
	}
}

// Where first order is exact, the unknown is there at once; elsewhere in few steps, in any
// unit of the result and of the unknown. A result that is not there gives none.
func TestImplicitIsQuick(t *testing.T) {
	calls := 0
	implicit := uncertainty.Implicit{
		At:   func(t []float64, x float64) ([]float64, error) { calls++; return []float64{t[0] + 2*x}, nil },
		Root: 3, Value: 6, Slope: 2, Moves: []float64{-0.5},
	}
	if y, err := implicit.Function()([]float64{4}); err != nil || y[1] != 1 || calls != 1 {
		t.Errorf("straight: %v, %v after %d calls, want 1 after one", y, err, calls)
	}
	for _, target := range []int{-1, 1} {
		other := implicit
		other.Target = target
		if y, err := other.Function()([]float64{4}); !errors.Is(err, uncertainty.ErrResults) {
			t.Errorf("target %d: %v, %v", target, y, err)
		}
	}
	for _, unit := range []float64{1, 1e-9, 1e9} {
		for _, of := range []float64{1, 1e-6, 1e6} {
			for _, offset := range []float64{0, 5 * unit} { // of the result; without, it is zero
				calls = 0
				f := uncertainty.Implicit{
					At: func(t []float64, x float64) ([]float64, error) {
						calls++
						x /= of
						return []float64{unit*(x*x*x-8-t[0]) + offset}, nil
					},
					Root: 2 * of, Value: offset, Slope: 12 * unit / of, Moves: []float64{of / 12},
				}.Function()
				y, err := f([]float64{1})
				if want := math.Cbrt(9) * of; err != nil || !(math.Abs(y[1]-want) <= 2e-9*want) || calls > 5 {
					t.Errorf("in units of %v and %v, offset %v: %v, %v after %d calls, want %v", unit, of, offset, y, err, calls, want)
				}
			}
		}
	}
}

// Where the unknown is large beside its result, one step more takes what is left of the
// miss, unless it leads no nearer.
func TestImplicitLeavesNothing(t *testing.T) {
	const value, off = 1e-6, 5e-10
	for _, test := range []struct {
		name    string
		again   func(y float64) ([]float64, error) // what a second call gives in place of y
		x, miss float64
	}{
		{"nearer", func(y float64) ([]float64, error) { return []float64{y}, nil }, 1 + value + off, 0},
		{"no nearer", func(y float64) ([]float64, error) { return []float64{y - 3*off}, nil }, 1 + value, off},
		{"refused", func(y float64) ([]float64, error) { return []float64{y}, errors.New("outside") }, 1 + value, off},
		{"more results", func(y float64) ([]float64, error) { return []float64{y, y}, nil }, 1 + value, off},
	} {
		calls := 0
		f := uncertainty.Implicit{
			At: func(t []float64, x float64) ([]float64, error) {
				y := x - 1 - off*t[0]
				if calls++; calls > 1 {
					return test.again(y)
				}
				return []float64{y}, nil
			},
			Root: 1 + value, Value: value, Slope: 1, Moves: []float64{0},
		}.Function()
		y, err := f([]float64{1})
		if err != nil || len(y) != 2 || math.Abs(value-y[0]-test.miss) > 1e-15 || math.Abs(y[1]-test.x) > 1e-15 {
			t.Errorf("%s: %v, %v, want the unknown at %v and a miss of %v", test.name, y, err, test.x, test.miss)
		}
	}
}

// All inputs together are moved by one standard uncertainty, each up as often as down.
func TestMovedTogether(t *testing.T) {
	for inputs := 2; inputs <= 5; inputs++ {
		sum, together := make([]float64, inputs), 0
		f := func(x []float64) ([]float64, error) {
			y := 0.0
			moved := 0
			for _, by := range x {
				y += by * by
				if by != 0 {
					moved++
				}
			}
			if moved == inputs {
				together++
				for i, by := range x {
					sum[i] += by
					if math.Abs(by) != 1 {
						t.Errorf("of %d inputs, %v are moved", inputs, x)
					}
				}
			}
			return []float64{y}, nil
		}
		uncertainty.Strains(f, []float64{0}, slices.Repeat([]uncertainty.Moved{{Kurtosis: 3}}, inputs))
		if together == 0 || slices.ContainsFunc(sum, func(x float64) bool { return x != 0 }) {
			t.Errorf("of %d inputs, %d moves of all with the sums %v, want sums of nought", inputs, together, sum)
		}
	}
}

// An unknown follows the inputs so that a result keeps its value. Kind: common-practice:
// solved by hand.
func TestImplicit(t *testing.T) {
	for _, test := range []struct {
		name        string
		y           func(a, x float64) (float64, error) // the result of an input and the unknown
		root, value float64
		slope, move float64
		own         float64
		t, want     float64 // NaN: refused
	}{
		{"straight", func(a, x float64) (float64, error) { return a + 2*x, nil }, 3, 6, 2, -0.5, 0, 1, 2.5},
		{"bent", func(a, x float64) (float64, error) { return (2 + a) * x * x, nil }, 1, 2, 4, -0.25, 0, -1.9, math.Sqrt(20)},
		{"with its own", func(a, x float64) (float64, error) { return x * x, nil }, 2, 4, 4, 1.25, 5, 1, 3},
		{"the first guess refused", func(a, x float64) (float64, error) {
			if x < 0.5 {
				return 0, errors.New("outside")
			}
			return (2 + a) * x, nil
		}, 1, 2, 2, -0.5, 0, 1.5, 2 / 3.5},
		{"none", func(a, x float64) (float64, error) { return x*x - a, nil }, 1, 1, 2, 0.5, 0, -3, math.NaN()},
		{"refused", func(a, x float64) (float64, error) {
			if a > 0 {
				return 0, errors.New("outside")
			}
			return x, nil
		}, 1, 1, 1, 0, 0, 1, math.NaN()},
	} {
		f := uncertainty.Implicit{
			At: func(t []float64, x float64) ([]float64, error) {
				y, err := test.y(t[0], x)
				return []float64{-1, y}, err
			},
			Root: test.root, Target: 1, Value: test.value, Slope: test.slope,
			Moves: []float64{test.move}, Targets: []float64{test.own},
		}.Function()
		got, err := f([]float64{test.t})
		if math.IsNaN(test.want) {
			if err == nil {
				t.Errorf("%s: %v, want a refusal", test.name, got)
			}
			continue
		}
		if err != nil || len(got) != 3 || !(math.Abs(got[2]-test.want) <= 1e-8*test.want) || !(math.Abs(got[1]-test.value-test.t*test.own) <= 1e-8) {
			t.Errorf("%s: %v, %v, want the unknown at %v", test.name, got, err, test.want)
		}
	}
}
