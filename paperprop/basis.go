package paperprop

import "math"

// airDry is the dry content that defines an air-dry mass.
const airDry = 0.9

// DryContent returns the dry content, 1 − m.
func (x Moisture) DryContent() DryContent { return DryContent(1 - x) }

// Moisture returns the moisture on the wet basis, 1 − d.
func (x DryContent) Moisture() Moisture { return Moisture(1 - x) }

// MoistureRatio returns the water per dry mass, m/(1 − m). The error is a [RangeError]
// for a moisture of 100 % or more, which leaves nothing dry.
func (x Moisture) MoistureRatio() (MoistureRatio, error) {
	if !(x < 1 && x >= -math.MaxFloat64) {
		return 0, &RangeError{Kind: x.Kind(), Value: float64(x), Min: math.Inf(-1), Max: 1, BelowMax: true, Unit: x.Kind().Print()}
	}
	return MoistureRatio(x / (1 - x)), nil
}

// Moisture returns the moisture on the wet basis, r/(1 + r). The error is a
// [RangeError] for a ratio of -1 or below.
func (x MoistureRatio) Moisture() (Moisture, error) {
	if !(x > -1 && x <= math.MaxFloat64) {
		return 0, &RangeError{Kind: x.Kind(), Value: float64(x), Min: 0, Max: math.Inf(1), Unit: x.Kind().Print()}
	}
	return Moisture(x / (1 + x)), nil
}

// OvenDry returns the dry mass in a moist mass of dry content d. Like all products here
// it accepts any number: a DryContent of 92 is 9200 %.
func (x Mass) OvenDry(d DryContent) OvenDryMass { return OvenDryMass(float64(x) * float64(d)) }

// Moist returns the mass on the scale at dry content d. The error is a [RangeError] if
// d is not above 0 and at most 100 %, or if the result is not finite.
func (x OvenDryMass) Moist(d DryContent) (Mass, error) {
	y, err := moist(x.Kind(), float64(x), d)
	return Mass(y), err
}

// OvenDry returns the dry flow in a moist flow, as [Mass.OvenDry] does for a mass.
func (x MassFlow) OvenDry(d DryContent) OvenDryFlow { return OvenDryFlow(float64(x) * float64(d)) }

// Moist returns the moist flow at dry content d. The errors are those of
// [OvenDryMass.Moist].
func (x OvenDryFlow) Moist(d DryContent) (MassFlow, error) {
	y, err := moist(x.Kind(), float64(x), d)
	return MassFlow(y), err
}

func moist(kind *Kind, dry float64, d DryContent) (float64, error) {
	if !(d > 0 && d <= 1) {
		return 0, &RangeError{Kind: d.Kind(), Value: float64(d), Min: 0, Max: 1, AboveMin: true, Unit: d.Kind().Print()}
	}
	y := dry / float64(d)
	if !(math.Abs(y) <= math.MaxFloat64) {
		return 0, &RangeError{Kind: kind, Value: dry, Min: 0, Max: math.MaxFloat64 * float64(d), Unit: kind.Print()}
	}
	return y, nil
}

// AirDry returns the air-dry mass, at 90 % dry content.
func (x OvenDryMass) AirDry() AirDryMass { return AirDryMass(x / airDry) }

// OvenDry returns the dry mass in it, 90 %.
func (x AirDryMass) OvenDry() OvenDryMass { return OvenDryMass(x * airDry) }

// OvenDry returns the oven-dry grammage of a sheet of dry content d.
func (x Grammage) OvenDry(d DryContent) OvenDryGrammage {
	return OvenDryGrammage(float64(x) * float64(d))
}

// Moist returns the grammage of the sheet at dry content d. The errors are those of
// [OvenDryMass.Moist].
func (x OvenDryGrammage) Moist(d DryContent) (Grammage, error) {
	y, err := moist(x.Kind(), float64(x), d)
	return Grammage(y), err
}

// Absolute returns the pressure above vacuum, given the pressure of the surrounding
// air.
func (x GaugePressure) Absolute(atmosphere AbsolutePressure) AbsolutePressure {
	return AbsolutePressure(x) + atmosphere
}

// Gauge returns the pressure above that of the surrounding air.
func (x AbsolutePressure) Gauge(atmosphere AbsolutePressure) GaugePressure {
	return GaugePressure(x - atmosphere)
}

// Minus returns the difference x − y.
func (x AbsolutePressure) Minus(y AbsolutePressure) Pressure {
	return Pressure((x - y).In(KilopascalAbsolute))
}

// Plus returns the temperature d above x.
func (x Temperature) Plus(d TemperatureDifference) Temperature { return x + Temperature(d) }

// Minus returns the difference x − y.
func (x Temperature) Minus(y Temperature) TemperatureDifference {
	return TemperatureDifference(x - y)
}
