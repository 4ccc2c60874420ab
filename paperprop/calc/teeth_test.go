package calc

import (
	"errors"
	"fmt"
	"math"
	"slices"
	"strings"
	"testing"

	"millmaths.example/paperprop"
)

type sawResult struct {
	N paperprop.Count
	Y paperprop.Ratio
}

// sawn makes a calculation of a count and of an output that may jump with it, of x in mm.
// NaN is refused.
func sawn(ranged func(*Input), of func(x float64) (count, y float64)) *Sheet {
	d := &Description[curve, sawResult]{
		Name: "saw",
		Compute: func(c curve) (sawResult, error) {
			n, y := of(float64(c.X))
			if math.IsNaN(y) {
				return sawResult{}, Refuse("x", c.X, "another")
			}
			return sawResult{paperprop.Count(n), paperprop.Ratio(y)}, nil
		},
		Fields: func(f *Form, in *curve, out *sawResult) {
			ranged(In(f, &in.X, "x", "x", "mm", "sought"))
			Out(f, &out.N, "n", "n", "1", "")
			Out(f, &out.Y, "y", "y", "1", "")
		},
	}
	return d.NewSheet()
}

// rest cuts 1000 into pieces of x: how many whole ones, and what is left.
func rest(x float64) (count, y float64) {
	n := math.Floor(1000 / x)
	return n, 1000 - n*x
}

// pieces cuts x into pieces of 7.
func pieces(x float64) (count, y float64) {
	n := math.Floor(x / 7)
	return n, x - 7*n
}

// Each tooth of a saw that meets the wanted output has a root, unless the saw is finer than
// the search: then that is said.
func TestTeeth(t *testing.T) {
	upTo := func(high float64) func(*Input) { return func(in *Input) { in.Above(0).UpTo(high) } }
	roots := func(of func(n float64) float64, from, to int) (xs []float64) {
		for n := from; n <= to; n++ {
			xs = append(xs, of(float64(n)))
		}
		slices.Sort(xs)
		return xs
	}
	for _, test := range []struct {
		name   string
		ranged func(*Input)
		of     func(x float64) (count, y float64)
		y      string
		want   []float64
		more   bool
	}{
		// 1000 - n*x is 90 for n up to 10: from 11 on x would be below 90.
		{"what is left of a length, by the length of the pieces", positive, rest, "90", roots(func(n float64) float64 { return 910 / n }, 1, 10), false},
		{"up to an end", upTo(200), rest, "90", roots(func(n float64) float64 { return 910 / n }, 5, 10), false},
		{"what is left, by what is cut", upTo(600), pieces, "3", roots(func(n float64) float64 { return 7*n + 3 }, 0, 85), false},
		{"at the feet of the teeth", upTo(70), pieces, "0", roots(func(n float64) float64 { return 7 * n }, 1, 10), false},
		{"beside what is refused", upTo(70), func(x float64) (float64, float64) {
			n, y := pieces(x)
			if n == 4 && y > 2 {
				return n, math.NaN()
			}
			return n, y
		}, "3", []float64{3, 10, 17, 24, 38, 45, 52, 59, 66}, false},
		{"past the points of the teeth", positive, rest, "990", []float64{}, false},
		{"at the points of the teeth, which are not met", upTo(70), pieces, "7", []float64{}, false},
		{"at the point of one tooth, and within others", positive, func(x float64) (float64, float64) { n := math.Floor(11000 / x); return n, 11000 - n*x }, "1000", roots(func(n float64) float64 { return 10000 / n }, 1, 9), false},
		{"of stairs finer than the points of the search", positive, func(x float64) (float64, float64) { return math.Floor(x), 1.1 * math.Floor(x) }, "124.3", []float64{113}, false},
		{"of stairs finer still", positive, func(x float64) (float64, float64) { return math.Floor(x), 1.1 * math.Floor(x) }, "1340.9", []float64{1219}, false},
		{"of a saw finer than the search", positive, rest, "1", roots(func(n float64) float64 { return 999 / n }, 1, 100), true},
		{"of a saw without end", positive, pieces, "3", roots(func(n float64) float64 { return 7*n + 3 }, 1, 100), true},
		{"of an output that does not jump with the count", positive, func(x float64) (float64, float64) { return math.Floor(x), x * x }, "12.25", []float64{3.5}, false},
		{"of a wave that no count tells", upTo(100), func(x float64) (float64, float64) { return 3, math.Sin(x) }, "0.5", roots(func(n float64) float64 { return math.Pi*n + math.Pi/6*math.Cos(math.Pi*n) }, 1, 31), true},
	} {
		s := sawn(test.ranged, test.of)
		var none *NoRootError
		if err := setAll(s, "y="+test.y); err != nil && !(errors.As(err, &none) && len(test.want) == 0) {
			t.Errorf("%s: %v", test.name, err)
			continue
		}
		for _, x := range test.want {
			if !slices.ContainsFunc(s.Roots, func(r Root) bool { return math.Abs(r.Low-x) <= 1e-8*x }) {
				t.Errorf("%s: no root %v", test.name, x)
			}
		}
		if s.MoreRoots != test.more || !test.more && len(s.Roots) != len(test.want) {
			t.Errorf("%s: %d roots, more: %v, want %d, more: %v", test.name, len(s.Roots), s.MoreRoots, len(test.want), test.more)
		}
	}
}

// A sheet that is used again forgets that there were more, and JSON warns of it.
func TestMoreRootsAreTold(t *testing.T) {
	s := sawn(positive, rest)
	for _, test := range []struct {
		y    string
		more bool
	}{{"1", true}, {"400", false}} {
		if err := setAll(s, "y="+test.y); err != nil {
			t.Fatal(err)
		}
		data, err := s.MarshalJSON()
		want := fmt.Sprintf(`"warnings":[{"code":"several-roots","text":%q}]`, moreRoots.Text)
		if err != nil || s.MoreRoots != test.more || strings.Contains(string(data), want) != test.more {
			t.Errorf("y = %s: more %v, %v, %s", test.y, s.MoreRoots, err, data)
		}
	}
	if err := setAll(s, "y=1"); err != nil || !s.MoreRoots {
		t.Fatal(err)
	}
	if s.Reset(); s.MoreRoots {
		t.Error("a sheet that was reset has more roots")
	}
}
