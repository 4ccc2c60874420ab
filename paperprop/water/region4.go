package water

import "math"

// Region 4 of IAPWS-IF97 is the saturation line from 273.15 to 647.096 K: one
// equation, square in a function of the temperature and in the fourth root of
// the pressure, so that it is solved both ways (IAPWS R7-97(2012), Table 34).
const (
	n1, n2, n3 = 1.1670521452767e+03, -7.2421316703206e+05, -1.7073846940092e+01
	n4, n5, n6 = 1.2020824702470e+04, -3.2325550322333e+06, 1.4915108613530e+01
	n7, n8     = -4.8232657361591e+03, 4.0511340542057e+05
	n9, n10    = -2.3855557567849e-01, 6.5017534844798e+02
)

// saturation4 returns the pressure in MPa at which water boils at k kelvin.
func saturation4(k float64) float64 {
	theta := k + n9/(k-n10)
	a := (theta+n1)*theta + n2
	b := (n3*theta+n4)*theta + n5
	c := (n6*theta+n7)*theta + n8
	return square(square(2 * c / (-b + math.Sqrt(b*b-4*a*c))))
}

// boiling4 returns the temperature in K at which water boils at megapascal MPa.
func boiling4(megapascal float64) float64 {
	beta := math.Sqrt(math.Sqrt(megapascal))
	e := (beta+n3)*beta + n6
	f := (n1*beta+n4)*beta + n7
	g := (n2*beta+n5)*beta + n8
	d := 2 * g / (-f - math.Sqrt(f*f-4*e*g))
	return (n10 + d - math.Sqrt(square(n10+d)-4*(n9+n10*d))) / 2
}
