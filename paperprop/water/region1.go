package water

// Region 1 of IAPWS-IF97: pure liquid water from 273.15 to 623.15 K, between
// the saturation line and 100 MPa.
const (
	gasConstant = 0.461526 // of water, kJ/(kg K)
	pressure1   = 16.53    // MPa; pi is the pressure over it
	kelvin1     = 1386     // K; tau is it over the temperature
)

// terms1 are those of the Gibbs energy that change with the pressure:
// n·(7.1 − pi)^i·(tau − 1.222)^j (IAPWS R7-97(2012), Table 2, lines 9 to 34).
var terms1 = [...]struct {
	i, j int
	n    float64
}{
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

// density1 returns the density in kg/m³ at k kelvin and megapascal MPa.
func density1(k, megapascal float64) float64 {
	// As far as terms1 goes: (7.1 − pi)^31, (tau − 1.222)^17 and ^−41.
	var pressure [32]float64
	var above [18]float64
	var below [42]float64
	x := kelvin1/k - 1.222
	powers(pressure[:], 7.1-megapascal/pressure1)
	powers(above[:], x)
	powers(below[:], 1/x)
	gradient := 0.0 // of the Gibbs energy, by pi
	for _, t := range terms1 {
		term := t.n * float64(t.i) * pressure[t.i-1]
		if t.j < 0 {
			gradient -= term * below[-t.j]
		} else {
			gradient -= term * above[t.j]
		}
	}
	return 1000 * pressure1 / (gasConstant * k * gradient)
}

// powers fills p with the powers of x from the 0th, each by one multiplication
// of two about half as high: so few roundings lie between it and x.
func powers(p []float64, x float64) {
	p[0], p[1] = 1, x
	for i := 2; i < len(p); i++ {
		p[i] = p[i/2] * p[i-i/2]
	}
}
