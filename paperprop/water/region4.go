package water

import "math"

// saturation is the saturation pressure in MPa at t in K: IAPWS-IF97, region
// 4, equation 30.
func saturation(t float64) float64 {
	const (
		n1  = 1.1670521452767e+03
		n2  = -7.2421316703206e+05
		n3  = -1.7073846940092e+01
		n4  = 1.2020824702470e+04
		n5  = -3.2325550322333e+06
		n6  = 1.4915108613530e+01
		n7  = -4.8232657361591e+03
		n8  = 4.0511340542057e+05
		n9  = -2.3855557567849e-01
		n10 = 6.5017534844798e+02
	)
	x := t + n9/(t-n10)
	a := (x+n1)*x + n2
	b := (n3*x+n4)*x + n5
	c := (n6*x+n7)*x + n8
	return power(2*c/(-b+math.Sqrt(b*b-4*a*c)), 4)
}
