// Package fibre calculates the raw material: air-dry masses, lots of bales,
// claims on moisture, yield.
//
// Four masses are told apart by type or by name: as it lies on the scale,
// oven-dry, air-dry (always 90 % dry), and at the commercial dryness of a
// contract.
package fibre

import "millmaths.example/paperprop/calc"

// Calculations lists what the package calculates.
func Calculations() []calc.Calculation {
	return []calc.Calculation{
		airDry, saleableMass, saleableClaim, priceAsReceived, baleLot, moistureClaim, unwantedClaim,
		yield, yardCover, furnish, furnishCost, age, ageStart, recycledProperty,
		length, fines, fractions, fractionLength, coarseness,
		freeness, freenessBlank, schopperRiegler, waterRetentionValue, hornification, centrifugeSpeed,
		spots, spotsPerMass, testCharge, disintegration, handsheet, handsheetAdjust, handsheetGrammage,
	}
}
