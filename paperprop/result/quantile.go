package result

import (
	"math"

	"gonum.org/v1/gonum/mathext"
)

// Normal returns the number of standard deviations below which a normally distributed
// value lies with the given probability, between 0 and 1: 1.96 at 0.975. For any other
// probability it is NaN.
func Normal(probability float64) float64 {
	if !(probability > 0 && probability < 1) {
		return math.NaN()
	}
	return mathext.NormalQuantile(probability)
}

// StudentT returns the value below which Student's t lies with the given probability,
// between 0 and 1, correct to 11 digits. The degrees of freedom are above 0 and need
// not be whole; if infinite, the result is that of [Normal]. For any other argument it
// is NaN. Where a float64 cannot hold the result, which happens only below one degree
// of freedom, it is infinite.
func StudentT(probability, degreesOfFreedom float64) float64 {
	z := Normal(probability)
	if !(degreesOfFreedom > 0) {
		return math.NaN()
	}
	if z == 0 || math.IsNaN(z) {
		return z
	}
	if degreesOfFreedom > 4000 {
		return expand(z, degreesOfFreedom)
	}
	s := student{degreesOfFreedom, logPeak(degreesOfFreedom)}
	return math.Copysign(s.quantile(probability, math.Abs(z)), z)
}

// expand returns the quantile of Student's t as a series in 1/nu about the
// normal one (Cornish and Fisher; Abramowitz and Stegun 26.7.5).
func expand(z, nu float64) float64 {
	z2 := z * z
	g1 := (z2 + 1) / 4
	g2 := ((5*z2+16)*z2 + 3) / 96
	g3 := (((3*z2+19)*z2+17)*z2 - 15) / 384
	g4 := ((((79*z2+776)*z2+1482)*z2-1920)*z2 - 945) / 92160
	return z + z*(((g4/nu+g3)/nu+g2)/nu+g1)/nu
}

// student is Student's t with nu degrees of freedom.
type student struct{ nu, logPeak float64 }

// quantile returns the positive t of a probability, by Newton's method on the
// logarithms of t and of the probability: with few degrees of freedom the tail is a
// power of t, whose logarithm is a straight line. It starts at z, or above zero.
func (s student) quantile(probability, z float64) float64 {
	center := math.Log(math.Abs(probability - 0.5))
	tail := math.Log(min(probability, 1-probability))
	t := z
	for range 100 {
		step := s.step(t, center, tail)
		t *= math.Exp(step)
		if math.Abs(step) < 1e-9 || math.IsInf(t, 0) {
			break
		}
	}
	return t
}

// step returns the Newton step from log t towards the t at which P(0 < T < t) has the
// logarithm center and P(T > t) the logarithm tail, using the one that suits t.
func (s student) step(t, center, tail float64) float64 {
	square := t * t
	density := s.logPeak - (s.nu+1)/2*math.Log1p(square/s.nu)
	if square < 3*s.nu/(s.nu+2) {
		f := fraction(0.5, s.nu/2, square/(s.nu+square))
		return (center - density - math.Log(t*f)) * f
	}
	f := fraction(s.nu/2, 0.5, s.nu/(s.nu+square)) / s.nu
	return (density + math.Log(t*f) - tail) * f
}

// maxTerms is more than any argument needs: the number of terms grows with the square
// root of the degrees of freedom.
const maxTerms = 1e6

// fraction returns 1/(1 + d1/(1 + d2/(1 + ...))), the continued fraction of
// the incomplete beta function (Digital Library of Mathematical Functions,
// 8.17.22), by Lentz's method.
func fraction(a, b, x float64) float64 {
	c, d := 1.0, 1/(1-(a+b)*x/(a+1))
	value := d
	for m := 1.0; m < maxTerms; m++ {
		even := m * (b - m) * x / ((a + 2*m - 1) * (a + 2*m))
		odd := -(a + m) * (a + b + m) * x / ((a + 2*m) * (a + 2*m + 1))
		c, d = 1+even/c, 1/(1+even*d)
		value *= c * d
		c, d = 1+odd/c, 1/(1+odd*d)
		value *= c * d
		if !(math.Abs(c*d-1) >= 1e-15) { // true for NaN too
			break
		}
	}
	return value
}

// logPeak returns the logarithm of the density of Student's t at 0, that is of
// Γ((nu+1)/2) / (Γ(nu/2)·√(π·nu)).
func logPeak(nu float64) float64 {
	a, ratio := nu/2, 1.0
	for ; a < 30; a++ { // until the series is accurate
		ratio *= a / (a + 0.5)
	}
	series := 1 + (-1.0/8+(1.0/128+(5.0/1024+(-21.0/32768-399.0/262144/a)/a)/a)/a)/a
	return math.Log(ratio*series) + math.Log(a/(math.Pi*nu))/2
}
