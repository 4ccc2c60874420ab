package line

import (
	"fmt"
	"math"
	"math/rand/v2"
	"os"
	"strings"
	"testing"

	"gonum.org/v1/gonum/mat"
)

func prepared(t testing.TB, name string) *Solver {
	t.Helper()
	l, err := ReadFile(name)
	if err != nil {
		t.Fatal(err)
	}
	s, err := l.NewSolver()
	if err != nil {
		t.Fatal(err)
	}
	return s
}

const quillbeckFile = "../../examples/quillbeck/harebell-120.toml"

// dense is the matrix of a pass as a dense solver wants it.
func dense(p *pass) (*mat.Dense, *mat.VecDense) {
	a := mat.NewDense(p.s.rows, p.s.unknowns, nil)
	for i, e := range p.entries {
		a.Set(e.row, e.col, p.values[i])
	}
	return a, mat.NewVecDense(p.s.rows, append([]float64(nil), p.rhs...))
}

// A prepared elimination gives what a dense one with pivoting gives (library:
// gonum/mat).
func TestAgainstDense(t *testing.T) {
	s := prepared(t, quillbeckFile)
	for _, p := range []*pass{s.first, s.newton} {
		from := append([]float64(nil), s.u...)
		got := make([]float64, len(from))
		ok := false
		if p == s.first {
			ok = p.solve(s.figures, from, got)
		} else if ok = p.begin(s.figures) && p.step(from, got); ok {
			p.f.rest(got)
		}
		if !ok {
			t.Fatal("no solution")
		}
		p.figures(s.figures)
		p.products(from, p.values, p.rhs)
		a, b := dense(p)
		var want mat.VecDense
		if err := want.SolveVec(a, b); err != nil {
			t.Fatal(err)
		}
		for i, x := range got {
			if w := want.AtVec(i); !(math.Abs(x-w) <= 1e-9*math.Max(math.Abs(w), 1)) {
				t.Errorf("unknown %d (%s) = %g, want %g", i, s.b.owner[i], x, w)
			}
		}
	}
}

// Random sparse systems, against the dense solver.
func TestElimination(t *testing.T) {
	r := rand.New(rand.NewPCG(4, 4))
	for range 50 {
		n := 2 + r.IntN(40)
		var entries []entry
		var values, rhs []float64
		a := mat.NewDense(n, n, nil)
		for i := range n {
			for j := range n {
				if i == j || r.IntN(n) < 3 {
					v := r.NormFloat64()
					entries, values = append(entries, entry{i, (j + 3) % n}), append(values, v)
					a.Set(i, (j+3)%n, v)
				}
			}
			rhs = append(rhs, r.NormFloat64())
		}
		var want mat.VecDense
		if err := want.SolveVec(a, mat.NewVecDense(n, append([]float64(nil), rhs...))); err != nil {
			continue // near singular
		}
		lateRows, lateCols := make([]bool, n), make([]bool, n)
		for i := range n {
			lateRows[i], lateCols[i] = r.IntN(3) == 0, r.IntN(3) == 0
		}
		f, _, _ := newLU(n, entries, values, want.RawVector().Data, lateRows, lateCols)
		if f == nil {
			t.Fatalf("n = %d: said to be singular", n)
		}
		got := make([]float64, n)
		if !f.begin(values, rhs) || !f.finish(f.rhs, got) {
			t.Fatalf("n = %d: no solution", n)
		}
		f.rest(got)
		for i, x := range got {
			if !(math.Abs(x-want.AtVec(i)) <= 1e-6*mat.Norm(&want, math.Inf(1))) {
				t.Errorf("n = %d: x[%d] = %g, want %g", n, i, x, want.AtVec(i))
			}
		}
	}
}

// The answer does not depend on where the solution began.
func TestStart(t *testing.T) {
	s := prepared(t, quillbeckFile)
	want := append([]float64(nil), s.u...)
	r := rand.New(rand.NewPCG(5, 5))
	for range 100 {
		contents := make([]float64, len(s.b.s.holds))
		left := 1.0
		for i := range contents[:len(contents)-1] {
			contents[i] = 0.002 * r.Float64()
			left -= contents[i]
		}
		contents[len(contents)-1] = left
		if err := s.start(contents); err != nil {
			t.Fatal(err)
		}
		if !s.iterate() {
			t.Fatalf("from %v: no convergence", contents)
		}
		if d := s.newton.change(want, s.u); d > 1e-11 {
			t.Errorf("from %v: another answer, by %g", contents, d)
		}
	}
}

// The changes of two passes tell what one more would change, and whether it is needed.
func TestError(t *testing.T) {
	s := prepared(t, quillbeckFile)
	if err := s.start([]float64{0.001, 0.001, 0.001, 0.997}); err != nil {
		t.Fatal(err)
	}
	u, next := append([]float64(nil), s.u...), make([]float64, len(s.u))
	if !s.iterate() {
		t.Fatal("no convergence")
	}
	var changes []float64
	for range s.Passes {
		if !s.newton.step(u, next) {
			t.Fatal("no pass")
		}
		changes = append(changes, s.newton.change(u, next))
		u, next = next, u
	}
	if len(changes) < 3 {
		t.Fatalf("changes of %v, want some passes", changes)
	}
	// of tells what a pass after n of them would change.
	of := func(n int) float64 { return math.Pow(changes[n-1], 3) / math.Pow(changes[n-2], 2) }
	if n := len(changes); !(math.Abs(s.Error/of(n)-1) < 1e-9) || !(of(n) < digits) || of(n-1) < digits && changes[n-2] < 1e-5 {
		t.Errorf("after changes of %v one more is said to make %v, want %v below %v, and the first that is", changes, s.Error, of(n), digits)
	}
}

// What is almost nothing is compared with a millionth of the largest, or of a scale.
func TestChange(t *testing.T) {
	for _, test := range []struct {
		before, after []float64
		scale, want   float64
	}{
		{[]float64{0, 1024}, []float64{0x1p-14, 1024}, 0, 0x1p-24 / 1e-6},
		{[]float64{0, 1}, []float64{0x1p-24, 1}, 1024, 0x1p-34 / 1e-6},
		{[]float64{1024, 3}, []float64{1024, 4}, 0, 0.25},
		{[]float64{3, -2}, []float64{4, -4}, 1, 0.5},
	} {
		if got := change(test.before, test.after, []int{0, 1}, test.scale); !(math.Abs(got/test.want-1) < 1e-14) {
			t.Errorf("from %v to %v is a change of %v, want %v", test.before, test.after, got, test.want)
		}
	}
}

// What is far from a solution is not taken for one, though corrections are made.
func TestHold(t *testing.T) {
	for _, test := range []struct {
		off  float64 // relative
		want bool
	}{{0, true}, {0.5, false}} {
		s := prepared(t, quillbeckFile)
		for i := range s.u {
			s.u[i] *= 1 + test.off*float64(i%3)
		}
		if got := s.hold(); got != test.want {
			t.Errorf("a solution that is %v off is held: %v, want %v", test.off, got, test.want)
		}
	}
}

func TestNoAllocation(t *testing.T) {
	s := prepared(t, quillbeckFile)
	i, _ := s.l.figure("headbox.consistency")
	n := 0
	allocs := testing.AllocsPerRun(100, func() {
		n++
		s.Set(i, 0.0082+1e-5*float64(n%9))
		if err := s.Solve(); err != nil {
			t.Fatal(err)
		}
	})
	if allocs != 0 {
		t.Errorf("%g allocations a solution", allocs)
	}
}

// many is a line of 121 unknowns: Quillbeck with four chests more.
func many(t testing.TB) *Solver {
	t.Helper()
	data, err := os.ReadFile(quillbeckFile)
	if err != nil {
		t.Fatal(err)
	}
	const headbox = "[[stage]]\nname        = \"headbox\""
	var chests strings.Builder
	for i := range 4 {
		fmt.Fprintf(&chests, "[[stage]]\nname = \"chest %d\"\nkind = \"chest\"\n", i)
	}
	l, err := Read("many.toml", strings.NewReader(strings.Replace(string(data), headbox, chests.String()+headbox, 1)))
	if err != nil {
		t.Fatal(err)
	}
	s, err := l.NewSolver()
	if err != nil {
		t.Fatal(err)
	}
	if n := s.b.s.unknowns; n != 121 {
		t.Fatalf("%d unknowns, want 121", n)
	}
	return s
}

// An answer tells the figures that it was solved with, in its steps and in JSON too.
func TestAnswerOfWhatWasSet(t *testing.T) {
	s := prepared(t, quillbeckFile)
	l := s.l
	changed, err := l.With("headbox.consistency", "1 %")
	if err != nil {
		t.Fatal(err)
	}
	want, err := changed.Solve()
	if err != nil {
		t.Fatal(err)
	}
	i, err := l.FigureNamed("headbox.consistency")
	if err != nil {
		t.Fatal(err)
	}
	s.Set(i, 0.01)
	if err := s.Solve(); err != nil {
		t.Fatal(err)
	}
	a, err := s.Answer()
	if err != nil {
		t.Fatal(err)
	}
	s.Set(i, 0.009) // which is not solved with yet
	if f := a.Line.Figures[i]; f.Value != 0.01 || f.Text != "1 %" || l.Figures[i].Value != 0.0082 {
		t.Errorf("the answer is of %v, the line of %v", f, l.Figures[i])
	}
	got, err := a.Steps("headbox")
	if err != nil {
		t.Fatal(err)
	}
	should, err := want.Steps("headbox")
	if err != nil {
		t.Fatal(err)
	}
	for k, step := range got.Steps {
		if w := should.Steps[k]; step.Substituted != w.Substituted || !(math.Abs(step.Value-step.Solved) <= 1e-9*math.Abs(step.Solved)) {
			t.Errorf("%+v, want %+v", step, w)
		}
	}
}

// BenchmarkSolve solves a whole line again with other figures: a draw, a point
// of a range.
func BenchmarkSolve(b *testing.B) {
	s := many(b)
	i, _ := s.l.figure("headbox.consistency")
	b.ReportAllocs()
	n := 0
	for b.Loop() {
		n++
		s.Set(i, 0.0082*(1+0.01*float64(n%7)))
		if err := s.Solve(); err != nil {
			b.Fatal(err)
		}
	}
}

// BenchmarkSolveParallel does so on all processors, a solver on each.
func BenchmarkSolveParallel(b *testing.B) {
	b.ReportAllocs()
	b.RunParallel(func(pb *testing.PB) {
		s := many(b)
		i, _ := s.l.figure("headbox.consistency")
		for n := 0; pb.Next(); n++ {
			s.Set(i, 0.0082*(1+0.01*float64(n%7)))
			if err := s.Solve(); err != nil {
				b.Error(err)
				return
			}
		}
	})
}

// BenchmarkPass is one linear solution of the whole: matrix, elimination, all
// unknowns.
func BenchmarkPass(b *testing.B) {
	s := many(b)
	b.ReportAllocs()
	for b.Loop() {
		if !s.newton.begin(s.figures) || !s.newton.step(s.u, s.next) {
			b.Fatal("no solution")
		}
		s.newton.f.rest(s.next)
	}
}

// BenchmarkDense solves the system of a pass as a dense one (gonum/mat).
func BenchmarkDense(b *testing.B) {
	s := many(b)
	s.newton.figures(s.figures)
	s.newton.products(s.u, s.newton.values, s.newton.rhs)
	a, rhs := dense(s.newton)
	var f mat.LU
	x := mat.NewVecDense(s.b.s.unknowns, nil)
	for b.Loop() {
		f.Factorize(a)
		if err := f.SolveVecTo(x, false, rhs); err != nil {
			b.Fatal(err)
		}
	}
}

// BenchmarkFirst reads a file, prepares the line and answers.
func BenchmarkFirst(b *testing.B) {
	for b.Loop() {
		l, err := ReadFile(quillbeckFile)
		if err != nil {
			b.Fatal(err)
		}
		if _, err := l.Solve(); err != nil {
			b.Fatal(err)
		}
	}
}
