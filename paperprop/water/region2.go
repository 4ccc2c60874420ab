package water

// Region 2 of IAPWS-IF97: steam from 273.15 to 1073.15 K, below the saturation
// line and, above that, below the boundary to region 3, to 100 MPa.
const (
	kelvin2 = 540 // K; tau = kelvin2/T
	lowest2 = -5  // least power of tau in the ideal-gas part
)

// ideal2 holds the terms of the ideal gas, n·tau^j. The logarithm of the pressure is
// left out: no property below depends on it (IAPWS R7-97(2012), Table 10).
var ideal2 = [...]term{
	{0, 0, -9.6927686500217e+00},
	{0, 1, 1.0086655968018e+01},
	{0, -5, -5.6087911283020e-03},
	{0, -4, 7.1452738081455e-02},
	{0, -3, -4.0710498223928e-01},
	{0, -2, 1.4240819171444e+00},
	{0, -1, -4.3839511319450e+00},
	{0, 2, -2.8408632460772e-01},
	{0, 3, 2.1268463753307e-02},
}

// terms2 holds the terms of the residual part, n·pi^i·(tau − 0.5)^j, with the pressure
// pi in MPa (IAPWS R7-97(2012), Table 11).
var terms2 = [...]term{
	{1, 0, -1.7731742473213e-03},
	{1, 1, -1.7834862292358e-02},
	{1, 2, -4.5996013696365e-02},
	{1, 3, -5.7581259083432e-02},
	{1, 6, -5.0325278727930e-02},
	{2, 1, -3.3032641670203e-05},
	{2, 2, -1.8948987516315e-04},
	{2, 4, -3.9392777243355e-03},
	{2, 7, -4.3797295650573e-02},
	{2, 36, -2.6674547914087e-05},
	{3, 0, 2.0481737692309e-08},
	{3, 1, 4.3870667284435e-07},
	{3, 3, -3.2277677238570e-05},
	{3, 6, -1.5033924542148e-03},
	{3, 35, -4.0668253562649e-02},
	{4, 1, -7.8847309559367e-10},
	{4, 2, 1.2790717852285e-08},
	{4, 3, 4.8225372718507e-07},
	{5, 7, 2.2922076337661e-06},
	{6, 3, -1.6714766451061e-11},
	{6, 16, -2.1171472321355e-03},
	{6, 35, -2.3895741934104e+01},
	{7, 0, -5.9059564324270e-18},
	{7, 11, -1.2621808899101e-06},
	{7, 25, -3.8946842435739e-02},
	{8, 8, 1.1256211360459e-11},
	{8, 36, -8.2311340897998e+00},
	{9, 13, 1.9809712802088e-08},
	{10, 4, 1.0406965210174e-19},
	{10, 10, -1.0234747095929e-13},
	{10, 14, -1.0018179379511e-09},
	{16, 29, -8.0882908646985e-11},
	{16, 50, 1.0693031879409e-01},
	{18, 57, -3.3662250574171e-01},
	{20, 20, 8.9185845355421e-25},
	{20, 35, 3.0629316876232e-13},
	{20, 48, -4.2002467698208e-06},
	{21, 21, -5.9056029685639e-26},
	{22, 53, 3.7826947613457e-06},
	{23, 39, -1.2768608934681e-15},
	{24, 26, 7.3087610595061e-29},
	{24, 40, 5.5414715350778e-17},
	{24, 58, -9.4369707241210e-07},
}

// region2 returns the properties of steam at k kelvin and megapascal MPa.
func region2(k, megapascal float64) Properties {
	tau := kelvin2 / k
	y := tau - 0.5
	ideal, real := sum(ideal2[:], megapascal, tau, lowest2), sum(terms2[:], megapascal, y, 0)
	return properties(
		gasConstant*k/megapascal*(1+real.i),
		enthalpy2(k, megapascal),
		-gasConstant*(ideal.jj+square(tau/y)*real.jj),
	)
}

// enthalpy2 returns the enthalpy of steam in kJ/kg: R·T·tau·∂g/∂tau.
func enthalpy2(k, megapascal float64) float64 {
	tau, r := kelvin2/k, k/kelvin2
	r2 := r * r
	o := &ideal2
	slope := o[1].n - 5*o[2].n*r2*r2*r2 - 4*o[3].n*r2*r2*r - 3*o[4].n*r2*r2 - 2*o[5].n*r2*r - o[6].n*r2 +
		2*o[7].n*tau + 3*o[8].n*tau*tau

	x, y := megapascal, tau-0.5
	x2, y2 := x*x, y*y
	x3, y3 := x2*x, y2*y
	x4, x8 := x2*x2, x2*x2*x2*x2
	y5, y6 := y3*y2, y3*y3
	y7, y9, y10 := y5*y2, y6*y3, y5*y5
	y15, y19 := y10*y5, y10*y9
	y28 := y19 * y9
	y34, y35 := y28*y6, y28*y7
	n := &terms2
	slope += x*(n[1].n+2*n[2].n*y+3*n[3].n*y2+6*n[4].n*y5) +
		x2*(n[5].n+2*n[6].n*y+4*n[7].n*y3+7*n[8].n*y6+36*n[9].n*y35) +
		x3*(n[11].n+3*n[12].n*y2+6*n[13].n*y5+35*n[14].n*y34) +
		x4*(n[15].n+2*n[16].n*y+3*n[17].n*y2+7*n[18].n*x*y6) +
		x4*x2*(3*n[19].n*y2+16*n[20].n*y15+35*n[21].n*y34) +
		x4*x3*(11*n[23].n*y10+25*n[24].n*y15*y9) +
		x8*(8*n[25].n*y7+36*n[26].n*y35+13*n[27].n*x*y6*y6) +
		x8*x2*(4*n[28].n*y3+10*n[29].n*y9+14*n[30].n*y10*y3) +
		x8*x8*y19*(29*n[31].n*y9+50*n[32].n*y15*y15+57*n[33].n*x2*y28*y9+
			x4*(20*n[34].n+35*n[35].n*y15+48*n[36].n*y28)+
			x4*x*(21*n[37].n*y+53*n[38].n*x*y28*y5+39*n[39].n*x2*y19)+
			x8*(26*n[40].n*y6+40*n[41].n*y15*y5+58*n[42].n*y28*y10))
	return gasConstant * kelvin2 * slope
}

// boundary23 returns the pressure in MPa above which region 3 begins, for 623.15 to
// 863.15 K (memory, IAPWS R7-97 equation 5).
func boundary23(k float64) float64 {
	return 348.05185628969 - 1.1671859879975*k + 0.0010192970039326*square(k)
}
