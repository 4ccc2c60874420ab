package result

import "math"

// ChiSquare returns the value below which a chi-square variable lies with the given
// probability, between 0 and 1, correct to 11 digits. The degrees of freedom are above
// 0 and at most 1e8, and need not be whole. For any other argument it is NaN.
func ChiSquare(probability, degreesOfFreedom float64) float64 {
	if !(probability > 0 && probability < 1 && degreesOfFreedom > 0 && degreesOfFreedom <= maxDegrees) {
		return math.NaN()
	}
	a := degreesOfFreedom / 2
	g := gamma{a, math.Log(a/(2*math.Pi))/2 - stirling(a)}
	return degreesOfFreedom * math.Exp(climb(math.Log(probability), math.Log1p(-probability), g.step))
}

// F returns the value below which the ratio of two variances lies with the given
// probability, between 0 and 1, correct to 10 digits. The degrees of freedom of the
// numerator (above) and the denominator (below) are above 0 and at most 1e6, or
// infinite, and need not be whole. For any other argument the result is NaN; where a
// float64 cannot hold it, it is infinite.
func F(probability, above, below float64) float64 {
	switch {
	case math.IsInf(above, 1) && math.IsInf(below, 1) && probability > 0 && probability < 1:
		return 1
	case math.IsInf(below, 1):
		return ChiSquare(probability, above) / above
	case math.IsInf(above, 1):
		return below / ChiSquare(1-probability, below)
	case !(probability > 0 && probability < 1 && above > 0 && below > 0 && above <= maxDegreesF && below <= maxDegreesF):
		return math.NaN()
	}
	lower, upper := math.Log(probability), math.Log1p(-probability)
	if above > below { // the inverse ratio loses no digits
		return math.Exp(-climb(upper, lower, ratioOf(below/2, above/2).step))
	}
	return math.Exp(climb(lower, upper, ratioOf(above/2, below/2).step))
}

// The number of terms of the series grows with the square root of the degrees of
// freedom; for F, a part near 1 loses digits as they grow.
const (
	maxDegrees  = 1e8
	maxDegreesF = 1e6
)

// climb finds the logarithm u at which the parts of a distribution below and above it
// have the logarithms lower and upper, by Newton's method on one of them: step returns
// the Newton step from u. Both are concave, so Newton's method overshoots once at most;
// far out a tail may bend so much that upward steps are kept short.
func climb(lower, upper float64, step func(u, lower, upper float64) float64) float64 {
	u := 0.0
	for range 1000 {
		d := min(step(u, lower, upper), 2)
		u += d
		if math.Abs(d) < 1e-10*max(1, math.Abs(u)*1e-4) {
			break
		}
	}
	return u
}

// gamma is a gamma variable of shape a: half of chi-square with 2a degrees of freedom.
// Its argument u is the logarithm of the variable over a.
type gamma struct{ a, logPeak float64 }

func (g gamma) step(u, lower, upper float64) float64 {
	x := g.a * math.Exp(u)
	density := g.logPeak - g.a*(math.Expm1(u)-u) // of the logarithm
	if x < g.a+1 {
		f := gammaSeries(g.a, x) / g.a
		return (lower - density - math.Log(f)) * f
	}
	f := gammaFraction(g.a, x)
	return (density + math.Log(f) - upper) * f
}

// gammaSeries returns 1 + x/(a+1) + x²/((a+1)(a+2)) + ... (Digital Library of
// Mathematical Functions, 8.7.1 and 8.2.4).
func gammaSeries(a, x float64) float64 {
	value, term := 1.0, 1.0
	for k := 1.0; term > 1e-17*value; k++ {
		term *= x / (a + k)
		value += term
	}
	return value
}

// gammaFraction returns 1/(x+1−a − 1(1−a)/(x+3−a − 2(2−a)/(...))) (Digital
// Library of Mathematical Functions, 8.9.2), by Lentz's method.
func gammaFraction(a, x float64) float64 {
	b := x + 1 - a
	c, d := math.Inf(1), 1/b
	value := d
	for k := 1.0; k < maxTerms; k++ {
		b += 2
		part := k * (a - k)
		c, d = b+part/c, 1/(b+part*d)
		value *= c * d
		if !(math.Abs(c*d-1) >= 1e-15) { // true for NaN too
			break
		}
	}
	return value
}

// variances is the ratio of two variances with 2a and 2b degrees of freedom; u is the
// logarithm of the ratio.
type variances struct{ a, b, logPeak float64 }

func ratioOf(a, b float64) variances {
	return variances{a, b, math.Log(a/(2*math.Pi)*(b/(a+b)))/2 + stirling(a+b) - stirling(a) - stirling(b)}
}

func (r variances) step(u, lower, upper float64) float64 {
	part := r.a / (r.a + r.b)
	grown := math.Log1p(part * math.Expm1(u)) // of part·f + 1 − part
	if u > 30 {
		grown = u + math.Log(part+(1-part)*math.Exp(-u))
	}
	density := r.logPeak + r.a*u - (r.a+r.b)*grown // of the logarithm
	x := part * math.Exp(u-grown)
	if x < (r.a+1)/(r.a+r.b+2) {
		f := fraction(r.a, r.b, x) / r.a
		return (lower - density - math.Log(f)) * f
	}
	f := fraction(r.b, r.a, (1-part)*math.Exp(-grown)) / r.b
	return (density + math.Log(f) - upper) * f
}

// stirling returns the remainder of Stirling's formula: ln Γ(z) − (z−½)·ln z + z − ½·ln
// 2π (Digital Library of Mathematical Functions, 5.11.1).
func stirling(z float64) float64 {
	if z < 15 {
		g, _ := math.Lgamma(z)
		return g - (z-0.5)*math.Log(z) + z - math.Log(2*math.Pi)/2
	}
	q := 1 / (z * z)
	return (1.0/12 - (1.0/360-(1.0/1260-(1.0/1680-q/1188)*q)*q)*q) / z
}
