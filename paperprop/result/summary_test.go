package result_test

import (
	"bufio"
	"math"
	"math/rand/v2"
	"os"
	"path/filepath"
	"strconv"
	"strings"
	"testing"

	"github.com/google/go-cmp/cmp"
	"millmaths.example/paperprop/result"
)

// certified is a set of the Statistical Reference Datasets of NIST.
type certified struct {
	values                                   []float64
	mean, standardDeviation, autocorrelation float64
}

func readCertified(t *testing.T, name string) (set certified) {
	t.Helper()
	file, err := os.Open(filepath.Join("..", "..", "testdata", "checks", "strd", name+".dat"))
	if err != nil {
		t.Fatal(err)
	}
	defer file.Close()
	inData := false
	for lines := bufio.NewScanner(file); lines.Scan(); {
		line := lines.Text()
		fields := strings.Fields(line)
		if strings.HasPrefix(line, "---") {
			inData = true
			continue
		}
		if len(fields) == 0 {
			continue
		}
		number, err := strconv.ParseFloat(fields[len(fields)-1], 64)
		switch {
		case inData && err == nil:
			set.values = append(set.values, number)
		case inData:
			t.Fatalf("%s: %v", name, err)
		case strings.HasPrefix(line, "Sample Mean"):
			set.mean = number
		case strings.HasPrefix(line, "Sample Standard Deviation"):
			set.standardDeviation = number
		case strings.HasPrefix(line, "Sample Autocorrelation"):
			set.autocorrelation = number
		}
	}
	return set
}

// digits returns to how many digits got is want, the log relative error.
func digits(got, want float64) float64 {
	if got == want {
		return 17
	}
	return -math.Log10(math.Abs(got-want) / math.Abs(want))
}

// Kind: published. Source: NIST StRD, univariate summary statistics, certified
// values in the head of each file (for PiDigits as carried in a public test
// file).
func TestCertifiedSets(t *testing.T) {
	for _, test := range []struct {
		name                                     string
		count                                    int
		mean, standardDeviation, autocorrelation float64 // digits wanted
		running                                  float64 // digits wanted of the s of a Running
	}{
		{"Lew", 200, 14, 13, 13, 13},
		{"Mavro", 50, 14, 13, 13, 12.9},
		{"Michelso", 100, 14, 13, 13, 13},
		{"NumAcc1", 3, 14, 15, 15, 15},
		{"NumAcc2", 1001, 14, 13, 13, 13},
		{"NumAcc4", 1001, 14, 8, 10, 8},
		{"PiDigits", 5000, 14, 13, 13, 13},
	} {
		set := readCertified(t, test.name)
		before := append([]float64(nil), set.values...)
		s, err := result.Summarise(set.values, 0.95)
		if err != nil || s.Count != test.count {
			t.Errorf("Summarise(%s): %d readings, %v, want %d", test.name, s.Count, err, test.count)
			continue
		}
		if diff := cmp.Diff(before, set.values); diff != "" {
			t.Errorf("Summarise(%s) changes the readings: %s", test.name, diff)
		}
		var running result.Running
		for _, x := range set.values {
			running.Add(x)
		}
		r, err := running.Summary(0.95)
		if err != nil {
			t.Fatal(err)
		}
		for _, check := range []struct {
			of                string
			got, want, digits float64
		}{
			{"mean", s.Mean, set.mean, test.mean},
			{"standard deviation", *s.StandardDeviation, set.standardDeviation, test.standardDeviation},
			{"autocorrelation", *s.Autocorrelation, set.autocorrelation, test.autocorrelation},
			{"running mean", r.Mean, set.mean, test.mean},
			{"running standard deviation", *r.StandardDeviation, set.standardDeviation, test.running},
		} {
			if got := digits(check.got, check.want); !(got >= check.digits) {
				t.Errorf("%s: %s is %.17g, want %.17g: %.1f digits, not %g", test.name, check.of, check.got, check.want, got, check.digits)
			}
		}
	}
}

func near(got *float64, want float64) bool {
	return got != nil && math.Abs(*got-want) <= 2e-9*math.Abs(want)
}

// Kind: library. Source: numpy 1.24.2; scipy 1.10.1 t.ppf, norm.ppf.
func TestSummarise(t *testing.T) {
	s, err := result.Summarise([]float64{17.4, 18.1, 17.7, 18.6, 17.9}, 0.99) // RS-214
	if err != nil || !near(&s.Mean, 17.94) || !near(s.StandardDeviation, 0.450555213) || !near(s.HalfWidth, 0.927699411) ||
		!near(s.Lower, 17.01230059) || !near(s.Upper, 18.86769941) || !near(s.CoefficientOfVariation, 0.450555213/17.94) {
		t.Errorf("RS-214: %+v, %v", s, err)
	}
	s, err = result.Summarise([]float64{2.31, 2.24, 2.42, 2.28, 2.36}, 0.95) // RS-217
	if err != nil || !near(s.CriticalDifference, 0.1944221047) || !near(s.Median, 2.31) || !near(s.Range, 0.18) {
		t.Errorf("RS-217: %+v, %v", s, err)
	}
}

func TestSummariseLeavesOut(t *testing.T) {
	zero, five, two := 0.0, 5.0, 2.0
	for _, test := range []struct {
		readings []float64
		want     result.Summary
	}{
		{[]float64{5}, result.Summary{Count: 1, Mean: 5, Minimum: 5, Maximum: 5, Median: &five}},
		{[]float64{5, 5, 5, 5, 5}, result.Summary{
			Count: 5, Mean: 5, Minimum: 5, Maximum: 5, Median: &five, Range: &zero, StandardDeviation: &zero,
			CoefficientOfVariation: &zero, HalfWidth: &zero, Lower: &five, Upper: &five, CriticalDifference: &zero,
		}},
	} {
		if got, err := result.Summarise(test.readings, 0.95); err != nil || !cmp.Equal(test.want, got) {
			t.Errorf("Summarise(%v): %v, -want +got\n%s", test.readings, err, cmp.Diff(test.want, got))
		}
	}
	s, err := result.Summarise([]float64{-1, 1, 4, -4}, 0.95)
	if err != nil || s.CoefficientOfVariation != nil || s.Mean != 0 || *s.Median != 0 {
		t.Errorf("a mean of 0: %+v, %v, want no coefficient of variation", s, err)
	}
	if s, err := result.Summarise([]float64{0, 0}, 0.95); err != nil || s.CoefficientOfVariation != nil {
		t.Errorf("readings of 0: %+v, %v, want no coefficient of variation", s, err)
	}
	if s, err := result.Summarise([]float64{1e140, -1e140}, 0.95); err != nil || s.Mean != 0 {
		t.Errorf("the largest readings: %+v, %v", s, err)
	}
	if s, err := result.Summarise([]float64{3, 1}, 0.95); err != nil || *s.Median != two {
		t.Errorf("median of 3 and 1: %+v, %v, want 2", s, err)
	}
}

// A tenth has no exact float64, and the mean of many is rounded; they are alike
// all the same.
func TestAlikeReadingsDoNotSpread(t *testing.T) {
	for n := 2; n < 300; n++ {
		readings := make([]float64, n)
		var running result.Running
		for i := range readings {
			readings[i] = 0.1
			running.Add(0.1)
		}
		s, err := result.Summarise(readings, 0.95)
		r, runningErr := running.Summary(0.95)
		if err != nil || runningErr != nil || *s.StandardDeviation != 0 || s.Autocorrelation != nil || *r.StandardDeviation != 0 {
			t.Fatalf("%d times 0.1: %+v, %v; running %+v, %v", n, s, err, r, runningErr)
		}
		if s, ok := result.StandardDeviation(readings); s != 0 || !ok {
			t.Fatalf("StandardDeviation of %d times 0.1 = %v, %v", n, s, ok)
		}
	}
}

// Readings whose mean is no float64. Kind: common-practice, by hand.
func TestStandardDeviation(t *testing.T) {
	for _, test := range []struct {
		x    []float64
		want float64
	}{
		{[]float64{1, 2, 3}, 1},
		{[]float64{1e16, 1e16 + 2}, math.Sqrt2},
		{[]float64{1e16, 1e16 + 2, 1e16 + 4, 1e16 + 6}, math.Sqrt(20.0 / 3)},
	} {
		if got, ok := result.StandardDeviation(test.x); !ok || !(math.Abs(got/test.want-1) <= 1e-15) {
			t.Errorf("StandardDeviation(%v) = %v, %v, want %v", test.x, got, ok, test.want)
		}
	}
}

func TestSummariseRefuses(t *testing.T) {
	for _, test := range []struct {
		readings   []float64
		confidence float64
		want       string
	}{
		{nil, 0.95, "the number of readings is 0, want at least 1"},
		{[]float64{1, 2}, 1, "confidence is 1, want above 0.5 and below 1"},
		{[]float64{1, 2}, 0.5, "confidence is 0.5, want above 0.5 and below 1"},
		{[]float64{1, 2}, 0.125, "confidence is 0.125, want above 0.5 and below 1"},
		{[]float64{1, 2}, math.NaN(), "confidence is NaN, want above 0.5 and below 1"},
		{[]float64{1, math.NaN()}, 0.95, "reading 2 is NaN, want a number up to 1e140 in size"},
		{[]float64{1, 2, math.Inf(-1)}, 0.95, "reading 3 is -Inf, want a number up to 1e140 in size"},
		{[]float64{1e141}, 0.95, "reading 1 is 1e+141, want a number up to 1e140 in size"},
		{[]float64{0, 1e-141}, 0.95, "the range of the readings is 1e-141, want 0, or at least 1e-140"},
	} {
		if _, err := result.Summarise(test.readings, test.confidence); err == nil || err.Error() != test.want {
			t.Errorf("Summarise(%v, %v): %v, want %s", test.readings, test.confidence, err, test.want)
		}
		var head, tail result.Running
		for i, x := range test.readings {
			if i == 0 {
				head.Add(x)
			} else {
				tail.Add(x)
			}
		}
		head.Merge(tail)
		if _, err := head.Summary(test.confidence); err == nil || err.Error() != test.want {
			t.Errorf("Running of %v: Summary(%v): %v, want %s", test.readings, test.confidence, err, test.want)
		}
	}
}

// However a series is cut into parts, they merge to the same.
func TestRunningMerges(t *testing.T) {
	random := rand.New(rand.NewPCG(2026, 13))
	for range 500 {
		readings := make([]float64, 2+random.IntN(200))
		parts := make([]result.Running, 1+random.IntN(5))
		cuts := make([]int, len(readings))
		for i := range readings {
			readings[i] = 1e6 + random.NormFloat64()
			cuts[i] = random.IntN(len(parts))
			parts[cuts[i]].Add(readings[i])
		}
		var whole result.Running
		for _, part := range parts {
			whole.Merge(part)
		}
		want, err := result.Summarise(readings, 0.95)
		if err != nil {
			t.Fatal(err)
		}
		got, err := whole.Summary(0.95)
		if err != nil || got.Count != want.Count || digits(got.Mean, want.Mean) < 15.5 || got.Minimum != want.Minimum || got.Maximum != want.Maximum ||
			digits(*got.StandardDeviation, *want.StandardDeviation) < 9 {
			t.Fatalf("%d parts of %v: %+v, %v, want %+v", len(parts), readings, got, err, want)
		}
	}
}

func TestMean(t *testing.T) {
	if got := result.Mean([]float64{1e16, 1, -1e16}); got != 1.0/3 {
		t.Errorf("Mean of 1e16, 1 and -1e16 = %v, want 1/3", got)
	}
	if got := result.Mean(nil); !math.IsNaN(got) {
		t.Errorf("Mean of nothing = %v, want NaN", got)
	}
	if s, ok := result.StandardDeviation([]float64{1}); ok {
		t.Errorf("StandardDeviation of one value = %v, want none", s)
	}
}

func BenchmarkSummarise(b *testing.B) {
	random := rand.New(rand.NewPCG(1, 2))
	for _, size := range []int{10, 1000} {
		readings := make([]float64, size)
		for i := range readings {
			readings[i] = 120 + random.NormFloat64()
		}
		b.Run("size="+strconv.Itoa(size), func(b *testing.B) {
			for b.Loop() {
				if _, err := result.Summarise(readings, 0.95); err != nil {
					b.Fatal(err)
				}
			}
		})
	}
}

func BenchmarkRunning(b *testing.B) {
	var r result.Running
	for i := 0; b.Loop(); i++ {
		r.Add(float64(i & 1023))
	}
}
