package result_test

import (
	"math"
	"testing"

	"millmaths.example/paperprop/result"
)

const (
	mpmath = "mpmath, root of the regularised incomplete beta function in 60 digits"
	scipy  = "scipy 1.10.1"
)

func TestStudentT(t *testing.T) {
	for _, test := range []struct {
		probability, degreesOfFreedom, want float64
		kind, source                        string
	}{
		{0.95, 5, 2.015048373333, "library", mpmath},             // REP-033
		{0.995, 9, 3.2498355415921, "library", mpmath},           // REP-035
		{0.995, 16, 2.9207816224251, "library", mpmath},          // REP-036
		{0.975, 19, 2.0930240544083, "library", mpmath},          // REP-037
		{0.975, 120, 1.9799304050824, "library", mpmath},         // REP-039
		{0.975, 16.66, 2.113100305, "library", scipy + " t.ppf"}, // RS-222
		{0.999, 0.5, 102849.11563017537, "library", mpmath},
		{0.4999999, 1, -3.1415926536802352e-7, "library", mpmath},
		{0.001, 1.5, -52.184430008992647, "library", mpmath},
		{0.5001, 2, 0.00028284271813144228, "library", mpmath},
		{1e-12, 3, -10331.108244292486, "library", mpmath},
		{0.25, 5, -0.72668684380042265, "library", mpmath},
		{0.9999, 7.5, 6.7222271750608113, "library", mpmath},
		{0.499, 16.66, -0.0025445064634105707, "library", mpmath},
		{0.51, 30, 0.025278783971765814, "library", mpmath},
		{0.975, 100, 1.9839715185235519, "library", mpmath},
		{0.4999999, 120, -2.5118557998906651e-7, "library", mpmath},
		{1e-12, 1000, -7.1242289253144091, "library", mpmath},
		{0.999999999, 1000, 6.0536902768005229, "library", mpmath},
		{0.5001, 3999, 0.00025067850092312647, "library", mpmath},
		{1e-06, 3999, -4.7604449307655484, "library", mpmath},
		{0.975, 4001, 1.960557080475639, "library", mpmath},
		{1e-12, 4001, -7.0567336152633026, "library", mpmath},
		{0.25, 100000.0, -0.67449220355329221, "library", mpmath},
		{0.999999999, 100000.0, 5.9983614662742779, "library", mpmath},
		{0.995, 10000000.0, 2.5758297952037487, "library", mpmath},
	} {
		got := result.StudentT(test.probability, test.degreesOfFreedom)
		tolerance := 1e-12 * math.Abs(test.want)
		if test.source != mpmath {
			tolerance = 5e-10 // of the ten digits printed
		}
		if !(math.Abs(got-test.want) <= tolerance) {
			t.Errorf("StudentT(%v, %v) = %.14g, want %.14g (%s: %s)", test.probability, test.degreesOfFreedom, got, test.want, test.kind, test.source)
		}
	}
}

// The critical value of Grubbs' test is a formula in Student's t, which other
// libraries have tabulated.
func TestStudentTByGrubbs(t *testing.T) {
	for _, test := range []struct {
		id                  string
		count, significance float64 // significance one-sided
		want                float64
		kind, source        string
	}{
		{"OUT-001", 8, 0.05, 2.031652001549944, "published", "NIST/SEMATECH e-Handbook of Statistical Methods 1.3.5.17.1, seen in public test suites that cite it"},
		{"RS-225", 5, 0.025, 1.715037312, "library", scipy},
		{"OUT-003", 3, 0.05, 1.153118061, "library", scipy},
		{"OUT-005", 5, 0.05, 1.671385669, "library", scipy},
		{"OUT-006", 6, 0.05, 1.822119642, "library", scipy},
		{"OUT-007", 7, 0.05, 1.938134716, "library", scipy},
		{"OUT-009", 8, 0.01, 2.220833452, "library", scipy},
		{"OUT-010", 10, 0.05, 2.176068394, "library", scipy},
		{"OUT-011", 10, 0.01, 2.409724587, "library", scipy},
		{"OUT-012", 12, 0.05, 2.284953042, "library", scipy},
		{"OUT-014", 20, 0.05, 2.556581334, "library", scipy},
		{"OUT-015", 25, 0.05, 2.662873129, "library", scipy},
		{"OUT-020", 20, 0.025, 2.708245645, "library", scipy},
	} {
		n := test.count
		q := result.StudentT(1-test.significance/n, n-2)
		got := (n - 1) / math.Sqrt(n) * math.Sqrt(q*q/(n-2+q*q))
		if !(math.Abs(got-test.want) <= 1e-8*test.want) { // scipy is off in the tenth digit
			t.Errorf("%s: critical value of Grubbs is %.10g, want %.10g (%s: %s)", test.id, got, test.want, test.kind, test.source)
		}
	}
}

// Both have closed forms for one and two degrees of freedom.
func TestStudentTClosedForms(t *testing.T) {
	for _, p := range []float64{1e-9, 0.003, 0.2, 0.4999, 0.5, 0.51, 0.8, 0.9999} {
		a := 2*p - 1
		for n, want := range map[float64]float64{1: -1 / math.Tan(math.Pi*p), 2: a / math.Sqrt(2*p*(1-p))} {
			if got := result.StudentT(p, n); !(math.Abs(got-want) <= 1e-12*math.Abs(want)+1e-15) {
				t.Errorf("StudentT(%v, %v) = %v, want %v (library: closed form, Go's math package)", p, n, got, want)
			}
		}
	}
}

func TestNormal(t *testing.T) {
	for _, test := range []struct {
		probability, want float64
		kind, source      string
	}{
		{0.975, 1.9599639845400545, "library", "scipy 1.10.1 norm.ppf; the z of r = 2.7718 s_r"},
		{0.5, 0, "common-practice", "symmetry"},
	} {
		if got := result.Normal(test.probability); !(math.Abs(got-test.want) <= 1e-14) {
			t.Errorf("Normal(%v) = %v, want %v (%s: %s)", test.probability, got, test.want, test.kind, test.source)
		}
		if got := result.StudentT(test.probability, math.Inf(1)); !(math.Abs(got-test.want) <= 1e-14) {
			t.Errorf("StudentT(%v, +Inf) = %v, want %v (%s: %s)", test.probability, got, test.want, test.kind, test.source)
		}
	}
}

func TestQuantilesWithoutAnswer(t *testing.T) {
	for _, p := range []float64{0, 1, -0.1, 1.1, math.NaN()} {
		if got := result.Normal(p); !math.IsNaN(got) {
			t.Errorf("Normal(%v) = %v, want NaN", p, got)
		}
		if got := result.StudentT(p, 5); !math.IsNaN(got) {
			t.Errorf("StudentT(%v, 5) = %v, want NaN", p, got)
		}
	}
	for _, n := range []float64{0, -1, math.NaN()} {
		for _, p := range []float64{0.5, 0.975} {
			if got := result.StudentT(p, n); !math.IsNaN(got) {
				t.Errorf("StudentT(%v, %v) = %v, want NaN", p, n, got)
			}
		}
	}
}

func BenchmarkStudentT(b *testing.B) {
	for b.Loop() {
		result.StudentT(0.975, 9)
	}
}
