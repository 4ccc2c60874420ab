package water

import "millmaths.example/paperprop"

const gasConstant = 0.461526 // of water, kJ/(kg K)

// Both regions are a Gibbs energy g(pi, tau) written as a sum of powers, and
// their properties are its derivatives. A derivative of a power is that power
// again, times its exponent, over the variable: so each term is worked out once,
// from two tables of whole powers, and serves them all.

// A term of a Gibbs energy is n·x^i·y^j.
type term struct {
	i, j int8
	n    float64
}

// A table holds powers of a variable from the 0th. No exponent of the release
// goes beyond 63, so six bits of it are the index, and no bound need be checked.
type table [64]float64

// fill works out the powers of x to the highest that is needed, from the 8th by
// one multiplication with x^8: few roundings lie between it and x, and eight
// chains of them run side by side.
func (p *table) fill(x float64, highest int) {
	x2 := x * x
	x4 := x2 * x2
	x8 := x4 * x4
	p[0], p[1], p[2], p[3] = 1, x, x2, x2*x
	p[4], p[5], p[6], p[7] = x4, x4*x, x4*x2, x4*x2*x
	for i := 8; i <= highest; i++ {
		p[i&63] = p[(i-8)&63] * x8
	}
}

// sums are those over the terms n·x^i·y^j times i, times j and times j(j − 1):
// x·∂g/∂x, y·∂g/∂y and y²·∂²g/∂y².
type sums struct{ i, j, jj float64 }

// sum adds up terms of which no power of y is below lowest: the table of y is
// read from there on, and its scale mended at the end.
func sum(terms []term, x, y *table, lowest int8) sums {
	var s sums
	for k := range terms {
		t := &terms[k]
		value := t.n * x[t.i&63] * y[(t.j-lowest)&63]
		i, j := float64(t.i), float64(t.j)
		s.i += i * value
		s.j += j * value
		s.jj += j * (j - 1) * value
	}
	scale := 1 / y[-lowest&63]
	return sums{s.i * scale, s.j * scale, s.jj * scale}
}

func square(x float64) float64 { return x * x }

// Properties are those of water or steam at one temperature and pressure.
type Properties struct {
	SpecificVolume paperprop.SpecificVolume
	Enthalpy       paperprop.SpecificEnergy // zero is about that of the liquid at the triple point
	HeatCapacity   paperprop.SpecificHeat   // at constant pressure
}

// Density is one over the specific volume.
func (p Properties) Density() paperprop.Density {
	return paperprop.Density(1/p.SpecificVolume.In(paperprop.CubicMetrePerKilogram)) * paperprop.KilogramPerCubicMetre
}

// properties takes a volume in m³/t, which is kJ/(kg MPa), an enthalpy in kJ/kg
// and a heat capacity in kJ/(kg K).
func properties(volume, enthalpy, capacity float64) Properties {
	return Properties{
		SpecificVolume: paperprop.SpecificVolume(volume) * paperprop.CubicMetrePerTonne,
		Enthalpy:       paperprop.SpecificEnergy(enthalpy) * paperprop.KilojoulePerKilogram,
		HeatCapacity:   paperprop.SpecificHeat(capacity) * paperprop.KilojoulePerKilogramKelvin,
	}
}
