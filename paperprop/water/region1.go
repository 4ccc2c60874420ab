package water

// Region 1 of IAPWS-IF97: liquid water from 273.15 to 623.15 K, between the
// saturation line and 100 MPa.
const (
	pressure1 = 16.53 // MPa; pi = p/pressure1
	kelvin1   = 1386  // K; tau = kelvin1/T
	lowest1   = -41   // least power of tau − 1.222
)

// terms1 holds the terms of the Gibbs energy, n·(7.1 − pi)^i·(tau − 1.222)^j (IAPWS
// R7-97(2012), Table 2).
var terms1 = [...]term{
	{0, -2, 1.4632971213167e-01},
	{0, -1, -8.4548187169114e-01},
	{0, 0, -3.7563603672040e+00},
	{0, 1, 3.3855169168385e+00},
	{0, 2, -9.5791963387872e-01},
	{0, 3, 1.5772038513228e-01},
	{0, 4, -1.6616417199501e-02},
	{0, 5, 8.1214629983568e-04},
	{1, -9, 2.8319080123804e-04},
	{1, -7, -6.0706301565874e-04},
	{1, -1, -1.8990068218419e-02},
	{1, 0, -3.2529748770505e-02},
	{1, 1, -2.1841717175414e-02},
	{1, 3, -5.2838357969930e-05},
	{2, -3, -4.7184321073267e-04},
	{2, 0, -3.0001780793026e-04},
	{2, 1, 4.7661393906987e-05},
	{2, 3, -4.4141845330846e-06},
	{2, 17, -7.2694996297594e-16},
	{3, -4, -3.1679644845054e-05},
	{3, 0, -2.8270797985312e-06},
	{3, 6, -8.5205128120103e-10},
	{4, -5, -2.2425281908000e-06},
	{4, -2, -6.5171222895601e-07},
	{4, 10, -1.4341729937924e-13},
	{5, -8, -4.0516996860117e-07},
	{8, -11, -1.2734301741641e-09},
	{8, -6, -1.7424871230634e-10},
	{21, -29, -6.8762131295531e-19},
	{23, -31, 1.4478307828521e-20},
	{29, -38, 2.6335781662795e-23},
	{30, -39, -1.1947622640071e-23},
	{31, -40, 1.8228094581404e-24},
	{32, -41, -9.3537087292458e-26},
}

// region1 returns the properties of the liquid at k kelvin and megapascal MPa.
func region1(k, megapascal float64) Properties {
	x, y := 7.1-megapascal/pressure1, kelvin1/k-1.222
	g := sum(terms1[:], x, y, lowest1)
	return properties(
		-gasConstant*k/pressure1*g.i/x,
		enthalpy1(k, megapascal),
		-gasConstant*square(kelvin1/(k*y))*g.jj,
	)
}

// enthalpy1 returns the enthalpy of the liquid in kJ/kg: R·T·tau·∂g/∂tau.
func enthalpy1(k, megapascal float64) float64 {
	x, y := 7.1-megapascal/pressure1, kelvin1/k-1.222
	r := 1 / y
	y2, r2, x2 := y*y, r*r, x*x
	y4, r4, x4 := y2*y2, r2*r2, x2*x2
	y8, r8, x8 := y4*y4, r4*r4, x4*x4
	r3, r5, r32 := r2*r, r4*r, r8*r8*r8*r8
	x21 := x8 * x8 * x4 * x
	n := &terms1
	slope := -2*n[0].n*r3 - n[1].n*r2 + n[3].n + 2*n[4].n*y + 3*n[5].n*y2 + 4*n[6].n*y2*y + 5*n[7].n*y4 +
		x*(-9*n[8].n*r8*r2-7*n[9].n*r8-n[10].n*r2+n[12].n+3*n[13].n*y2) +
		x2*(-3*n[14].n*r4+n[16].n+3*n[17].n*y2+17*n[18].n*y8*y8) +
		x2*x*(-4*n[19].n*r5+6*n[21].n*y4*y) +
		x4*(-5*n[22].n*r4*r2-2*n[23].n*r3+10*n[24].n*y8*y) +
		x4*x*(-8*n[25].n*r8*r) +
		x8*(-11*n[26].n*r8*r4-6*n[27].n*r5*r2) +
		x21*(-29*n[28].n*r32*y2-31*n[29].n*r32*x2+
			x8*(-38*n[30].n*r5*r2-39*n[31].n*r8*x-40*n[32].n*r8*r*x2-41*n[33].n*r8*r2*x2*x)*r32)
	return gasConstant * kelvin1 * slope
}
