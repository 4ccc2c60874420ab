package lab

import (
	"math"

	"millmaths.example/paperprop"
	"millmaths.example/paperprop/calc"
	"millmaths.example/paperprop/result"
)

// ControlChart is a control chart of single readings.
type ControlChart struct {
	Value []float64 // in order of time, 3 or more, not all equal
}

// ControlChartResult is the centre line, the limits and the readings outside them.
type ControlChartResult struct {
	Mean             float64
	MovingRange      float64 // mean absolute step between successive readings
	Sigma            float64 // standard deviation estimated from the steps
	UpperLimit       float64
	LowerLimit       float64
	MovingRangeLimit float64
	Outside          []paperprop.Count // positions of readings beyond the limits, from 1
}

// Calculate estimates sigma from the moving range of two readings.
func (c ControlChart) Calculate() (ControlChartResult, error) { return controlChart.Calculate(c) }

func (c ControlChart) compute() (ControlChartResult, error) {
	if err := atLeast(3, "value", c.Value); err != nil {
		return ControlChartResult{}, err
	}
	steps := make([]float64, len(c.Value)-1)
	for i := range steps {
		steps[i] = math.Abs(c.Value[i+1] - c.Value[i])
	}
	r := ControlChartResult{Mean: result.Mean(c.Value), MovingRange: result.Mean(steps)}
	if r.MovingRange == 0 {
		return ControlChartResult{}, calc.Refuse("value", calc.Members(len(c.Value)), "not all of them alike: without spread there are no limits")
	}
	// The mean distance of two normal readings is 2/√π standard deviations; the
	// standard deviation of that distance is √(π/2 − 1) times its mean.
	r.Sigma = r.MovingRange * math.Sqrt(math.Pi) / 2
	r.UpperLimit, r.LowerLimit = r.Mean+3*r.Sigma, r.Mean-3*r.Sigma
	r.MovingRangeLimit = (1 + 3*math.Sqrt(math.Pi/2-1)) * r.MovingRange
	for i, x := range c.Value {
		if x > r.UpperLimit || x < r.LowerLimit {
			r.Outside = append(r.Outside, paperprop.Count(i+1))
		}
	}
	return r, nil
}

const exampleChart = "value=[8.0 8.1 8.0 8.1 8.0 8.1 9.5 8.0 8.1 8.0 8.1 8.0] %"

var controlChart = &calc.Description[ControlChart, ControlChartResult]{
	Name:    "control-chart",
	Title:   "Control chart of single readings",
	Answers: "Between which limits single readings of a steady process lie, and which do not (Shewhart chart, SPC).",
	Formula: []string{
		"x_m = mean(x)", "R_m = mean(abs(after(x) - before(x)))", "s = R_m*sqrt(pi)/2",
		"x_up = x_m + 3*s", "x_lo = x_m - 3*s", "R_up = (1 + 3*sqrt(pi/2 - 1))*R_m",
	},
	Source:  "moving range of two, d2 = 2/sqrt(pi); tables print 2.660 R_m and 3.267 R_m",
	Status:  calc.CommonPractice,
	Example: exampleChart,
	Mistakes: []string{
		"Limits of the chart are not tolerances: they say what the process does, not what the customer wants.",
		"The standard deviation of all readings has the disturbance in it that the chart is to find.",
		"Readings that follow one another closely are alike: the moving range is too small then, and good readings fall outside.",
		"Positions count the readings that are there: a shift without one moves all behind it, and a step over the gap counts as one.",
	},
	Compare: []calc.Comparison{{Name: "replicates", Inputs: exampleChart,
		Why: "the standard deviation of all readings is not the sigma of a chart: the one bad reading makes it 38 % larger"}},
	Compute: ControlChart.compute,
	Fields: func(f *calc.Form, in *ControlChart, out *ControlChartResult) {
		value := calc.InValues(f, &in.Value, "value", "x", "any", "in order of time, at least 3")
		calc.OutValue(f, &out.Mean, "mean", "x_m", "as value", "centre line")
		calc.OutValue(f, &out.MovingRange, "moving-range", "R_m", "difference of value", "mean of the steps")
		calc.OutValue(f, &out.Sigma, "sigma", "s", "difference of value", "from the steps")
		calc.OutValue(f, &out.UpperLimit, "upper-limit", "x_up", "as value", "mean + 3*sigma")
		calc.OutValue(f, &out.LowerLimit, "lower-limit", "x_lo", "as value", "mean - 3*sigma")
		calc.OutValue(f, &out.MovingRangeLimit, "moving-range-limit", "R_up", "difference of value", "that a step hardly exceeds")
		calc.OutList(f, &out.Outside, "outside", "i", "1", "positions outside the limits, from 1; empty when none")
		f.Picture(func() *calc.Picture { return drawChart(in, out, value.Head()) })
	},
}
