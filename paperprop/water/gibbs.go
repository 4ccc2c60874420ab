package water

import "millmaths.example/paperprop"

const gasConstant = 0.461526 // of water, kJ/(kg K)

// Regions 1 and 2 are each given by a Gibbs energy g(pi, tau), a sum of powers, and
// their properties are its derivatives. The derivative of a power is the power times
// its exponent over the variable, so a term is computed once and serves several. The
// enthalpy, needed far more often than the others, is written out separately, one
// summand per term of the table: that takes a third of the time.

// A term of a Gibbs energy is n·x^i·y^j.
type term struct {
	i, j int8
	n    float64
}

// powers holds the powers of a variable up to the 63rd: each is one of the first eight
// times one of every eighth.
type powers struct{ low, high [8]float64 }

func powersOf(x float64) powers {
	x2 := x * x
	x4 := x2 * x2
	x8 := x4 * x4
	x16 := x8 * x8
	x32 := x16 * x16
	return powers{
		low:  [8]float64{1, x, x2, x2 * x, x4, x4 * x, x4 * x2, x4 * x2 * x},
		high: [8]float64{1, x8, x16, x16 * x8, x32, x32 * x8, x32 * x16, x32 * x16 * x8},
	}
}

// at returns x^i. Each index is three bits of i, so the compiler omits the bounds
// checks.
func (p *powers) at(i int8) float64 { return p.high[i>>3&7] * p.low[i&7] }

// sums holds two sums over the terms n·x^i·y^j, times i and times j(j − 1): x·∂g/∂x and
// y²·∂²g/∂y².
type sums struct{ i, jj float64 }

// sum adds up terms whose powers of y are at least lowest. Powers are counted from
// lowest, and the scale is corrected at the end.
func sum(terms []term, x, y float64, lowest int8) sums {
	var s sums
	px, py := powersOf(x), powersOf(y)
	for k := range terms {
		t := &terms[k]
		value := t.n * px.at(t.i) * py.at(t.j-lowest)
		i, j := float64(t.i), float64(t.j)
		s.i += i * value
		s.jj += j * (j - 1) * value
	}
	scale := 1 / py.at(-lowest)
	return sums{s.i * scale, s.jj * scale}
}

func square(x float64) float64 { return x * x }

// Properties holds the properties of water or steam at one temperature and pressure.
type Properties struct {
	SpecificVolume paperprop.SpecificVolume
	Enthalpy       paperprop.SpecificEnergy // about zero for the liquid at the triple point
	HeatCapacity   paperprop.SpecificHeat   // at constant pressure
}

// Density returns the reciprocal of the specific volume.
func (p Properties) Density() paperprop.Density {
	return paperprop.Density(1/p.SpecificVolume.In(paperprop.CubicMetrePerKilogram)) * paperprop.KilogramPerCubicMetre
}

// properties makes Properties of a volume in m³/t, which is kJ/(kg MPa), an enthalpy in
// kJ/kg and a heat capacity in kJ/(kg K).
func properties(volume, enthalpy, capacity float64) Properties {
	return Properties{
		SpecificVolume: paperprop.SpecificVolume(volume) * paperprop.CubicMetrePerTonne,
		Enthalpy:       paperprop.SpecificEnergy(enthalpy) * paperprop.KilojoulePerKilogram,
		HeatCapacity:   paperprop.SpecificHeat(capacity) * paperprop.KilojoulePerKilogramKelvin,
	}
}
