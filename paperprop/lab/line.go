package lab

import (
	"slices"
	"sort"

	"millmaths.example/paperprop"
	"millmaths.example/paperprop/calc"
	"millmaths.example/paperprop/result"
)

// LineFit is a straight line fitted to points, with all error in y.
type LineFit struct {
	X, Y   []float64 // 3 points or more, x not all equal
	Origin float64   // x where the intercept is taken; zero is zero
}

// LineFitResult is the line and its uncertainty.
type LineFitResult struct {
	Intercept, Slope     float64 // y at Origin; y per x
	InterceptUncertainty float64
	SlopeUncertainty     float64
	Correlation          paperprop.Ratio // of intercept and slope
	ResidualDeviation    float64         // with n − 2
}

// Calculate fits by least squares.
func (l LineFit) Calculate() (LineFitResult, error) { return lineFit.Calculate(l) }

// fit fits a line, and refuses points that determine none.
func fit(x, y []float64) (result.Line, error) {
	if err := atLeast(3, "x", x); err != nil {
		return result.Line{}, err
	}
	line, ok := result.FitLine(x, y)
	if !ok {
		return result.Line{}, calc.Refuse("x", calc.Members(len(x)), "not all of them equal")
	}
	return line, nil
}

func (l LineFit) compute() (LineFitResult, error) {
	line, err := fit(l.X, l.Y)
	if err != nil {
		return LineFitResult{}, err
	}
	return LineFitResult{
		Intercept: line.At(l.Origin), Slope: line.Slope,
		InterceptUncertainty: line.Uncertainty(l.Origin), SlopeUncertainty: line.SlopeUncertainty(),
		Correlation: paperprop.Ratio(line.Correlation(l.Origin)), ResidualDeviation: line.Deviation,
	}, nil
}

func inPoints(f *calc.Form, x, y *[]float64) {
	f.Even(
		calc.InValues(f, x, "x", "x", "any", "at least 3, not all equal"),
		calc.InValues(f, y, "y", "y", "any", "at each x"),
	)
}

const (
	formulaMeanX = "x_m = mean(x)"
	formulaMeanY = "y_m = mean(y)"
	formulaSxx   = "S_xx = sum((x - x_m)*(x - x_m))"
	formulaSlope = "b = sum((x - x_m)*(y - y_m))/S_xx"
	formulaRests = "s = sqrt(sum(pow(y - y_m - b*(x - x_m), 2))/(count(x) - 2))"
	sourceLine   = "JCGM 100:2008 Annex H.3, results quoted in the GTC 1.5.1 documentation"
	examplePulp  = "x=[2.1 2.9 3.8 4.6 5.2] %; y=[2.0 2.85 3.75 4.7 5.15] %"
)

var lineFit = &calc.Description[LineFit, LineFitResult]{
	Name:    "line-fit",
	Title:   "Straight line through points",
	Answers: "Which straight line fits points best (regression), as those of a calibration, and how sure its intercept and slope are.",
	Formula: []string{
		formulaMeanX, formulaMeanY, formulaSxx, formulaSlope, "a = y_m + b*(x_0 - x_m)", formulaRests,
		"u_b = s/sqrt(S_xx)", "u_a = s*sqrt(1/count(x) + pow(x_0 - x_m, 2)/S_xx)",
		"r = (x_0 - x_m)/sqrt(S_xx)/sqrt(1/count(x) + pow(x_0 - x_m, 2)/S_xx)",
	},
	Method:  "least squares of the distances in y, from the means; x_0 is zero where no origin is given",
	Source:  sourceLine,
	Status:  calc.Published,
	Example: examplePulp,
	Mistakes: []string{
		"x counts as exact: the laboratory goes on x and the meter on y only if the meter is the worse.",
		"Intercept and slope are correlated: their uncertainties may not be joined as if they were not. With the origin amid the points they may.",
		"A good correlation of x and y is not proof of a straight line: look at the residuals.",
	},
	Compute: LineFit.compute,
	Fields: func(f *calc.Form, in *LineFit, out *LineFitResult) {
		inPoints(f, &in.X, &in.Y)
		calc.InValue(f, &in.Origin, "origin", "x_0", "as x", "where the intercept is taken; left out: zero").Optional()
		calc.OutValue(f, &out.Intercept, "intercept", "a", "as y", "y at origin")
		calc.OutValue(f, &out.Slope, "slope", "b", "y per x", "of the line")
		calc.OutValue(f, &out.InterceptUncertainty, "intercept-uncertainty", "u_a", "difference of y", "standard uncertainty of the intercept")
		calc.OutValue(f, &out.SlopeUncertainty, "slope-uncertainty", "u_b", "y per x", "standard uncertainty of the slope")
		calc.Out(f, &out.Correlation, "correlation", "r", "1", "of intercept and slope")
		calc.OutValue(f, &out.ResidualDeviation, "residual-deviation", "s", "difference of y", "of the points from the line, with n - 2")
	},
}

// LinePrediction is a value read off a fitted line.
type LinePrediction struct {
	X, Y []float64 // 3 points or more, x not all equal
	At   float64   // x where y is wanted
}

// LinePredictionResult is the value on the line.
type LinePredictionResult struct {
	Predicted            float64
	PredictedUncertainty float64 // of the line at that x, not of a further reading
	Warnings             calc.Warnings
}

// Calculate fits by least squares and evaluates the line.
func (l LinePrediction) Calculate() (LinePredictionResult, error) { return linePrediction.Calculate(l) }

var extrapolated = calc.Warnings{{Code: "extrapolated", Text: "outside the x given: nothing says that the line goes on"}}

func (l LinePrediction) compute() (LinePredictionResult, error) {
	line, err := fit(l.X, l.Y)
	if err != nil {
		return LinePredictionResult{}, err
	}
	r := LinePredictionResult{Predicted: line.At(l.At), PredictedUncertainty: line.Uncertainty(l.At)}
	if l.At < slices.Min(l.X) || l.At > slices.Max(l.X) {
		r.Warnings = extrapolated
	}
	return r, nil
}

var linePrediction = &calc.Description[LinePrediction, LinePredictionResult]{
	Name:    "line-prediction",
	Title:   "Value on a fitted line",
	Answers: "What a straight line through points (regression), as those of a calibration, says at a place, and how sure the line is there.",
	Formula: []string{
		formulaMeanX, formulaMeanY, formulaSxx, formulaSlope, formulaRests,
		"y_p = y_m + b*(x_p - x_m)", "u_p = s*sqrt(1/count(x) + pow(x_p - x_m, 2)/S_xx)",
	},
	Method:  "least squares of the distances in y; the correlation of intercept and slope is in u_p",
	Source:  sourceLine,
	Status:  calc.Published,
	Example: examplePulp + "; at=4.0 %",
	Mistakes: []string{
		"The uncertainty is that of the line; one more reading scatters by the residual deviation about it.",
		"Beyond the points it grows fast, and that the line goes on straight is not in it.",
	},
	Compare: []calc.Comparison{{Name: "interpolate", Inputs: examplePulp + "; at=4.0 %",
		Why: "the straight line between the two neighbours takes their errors as they are"}},
	Compute: LinePrediction.compute,
	Fields: func(f *calc.Form, in *LinePrediction, out *LinePredictionResult) {
		inPoints(f, &in.X, &in.Y)
		calc.InValue(f, &in.At, "at", "x_p", "as x", "where y is wanted")
		calc.OutValue(f, &out.Predicted, "predicted", "y_p", "as y", "on the line")
		calc.OutValue(f, &out.PredictedUncertainty, "predicted-uncertainty", "u_p", "difference of y", "of the line there, correlation included")
		f.Warnings(&out.Warnings)
	},
}

// Interpolate is a value between the points of a table.
type Interpolate struct {
	X  []float64 // rising, 2 or more
	Y  []float64 // at each X
	At float64   // within the ends
}

// InterpolateResult is the interpolated value.
type InterpolateResult struct {
	Interpolated float64
}

// Calculate interpolates linearly between neighbouring points.
func (i Interpolate) Calculate() (InterpolateResult, error) { return interpolate.Calculate(i) }

func (i Interpolate) compute() (InterpolateResult, error) {
	if err := atLeast(2, "x", i.X); err != nil {
		return InterpolateResult{}, err
	}
	for k, x := range i.X[1:] {
		if x <= i.X[k] {
			return InterpolateResult{}, calc.Refuse("x", paperprop.Ratio(x), "above the %v before it: the table must rise", paperprop.Ratio(i.X[k]))
		}
	}
	last := len(i.X) - 1
	if i.At < i.X[0] || i.At > i.X[last] {
		return InterpolateResult{}, calc.Refuse("at", paperprop.Ratio(i.At), "%v to %v: beyond the ends nothing is known",
			paperprop.Ratio(i.X[0]), paperprop.Ratio(i.X[last]))
	}
	k := sort.SearchFloat64s(i.X, i.At)
	if i.X[k] == i.At {
		return InterpolateResult{i.Y[k]}, nil
	}
	part := (i.At - i.X[k-1]) / (i.X[k] - i.X[k-1])
	return InterpolateResult{(1-part)*i.Y[k-1] + part*i.Y[k]}, nil
}

var interpolate = &calc.Description[Interpolate, InterpolateResult]{
	Name:    "interpolate",
	Title:   "Value between the points of a table",
	Answers: "What a table says between two of its lines.",
	Method:  "y_1 + (y_2 - y_1)*(x_p - x_1)/(x_2 - x_1) between the neighbours x_1 and x_2 of x_p; a line of the table comes out as it stands",
	Source:  "straight line between two points",
	Status:  calc.CommonPractice,
	Example: "x=[50 60 70 80 90] %; y=[1.0 0.90 0.80 0.68 0.48]; at=75 %",
	Mistakes: []string{
		"Beyond the ends of the table there is nothing to interpolate: it is refused.",
		"A curve bends away from the chord: with few lines the middle between two of them is the worst place.",
	},
	Compare: []calc.Comparison{{Name: "line-prediction", Inputs: "x=[50 60 70 80 90] %; y=[1.0 0.90 0.80 0.68 0.48]; at=75 %",
		Why: "one straight line through all points smooths their errors, and the bend too"}},
	Compute: Interpolate.compute,
	Fields: func(f *calc.Form, in *Interpolate, out *InterpolateResult) {
		f.Even(
			calc.InValues(f, &in.X, "x", "x", "any", "rising, at least 2"),
			calc.InValues(f, &in.Y, "y", "y", "any", "at each x"),
		)
		calc.InValue(f, &in.At, "at", "x_p", "as x", "within the ends")
		calc.OutValue(f, &out.Interpolated, "interpolated", "y_p", "as y", "between the neighbours")
	},
}
