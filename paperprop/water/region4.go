package water

import "math"

// saturation4 returns the pressure in MPa at which water boils at k kelvin, by
// the equation of region 4 of IAPWS-IF97, from 273.15 to 647.096 K
// (IAPWS R7-97(2012), Table 34).
func saturation4(k float64) float64 {
	const (
		n1, n2, n3 = 1.1670521452767e+03, -7.2421316703206e+05, -1.7073846940092e+01
		n4, n5, n6 = 1.2020824702470e+04, -3.2325550322333e+06, 1.4915108613530e+01
		n7, n8     = -4.8232657361591e+03, 4.0511340542057e+05
		n9, n10    = -2.3855557567849e-01, 6.5017534844798e+02
	)
	theta := k + n9/(k-n10)
	a := (theta+n1)*theta + n2
	b := (n3*theta+n4)*theta + n5
	c := (n6*theta+n7)*theta + n8
	root := 2 * c / (-b + math.Sqrt(b*b-4*a*c))
	return root * root * root * root
}
