// Package fibre calculates the raw material: air-dry and saleable masses, lots
// of bales and claims on them, furnish, yield, the age of recycled fibre, and
// the tests of a pulp laboratory: length, drainage, swelling, spots, sheets,
// ash, kappa number, viscosity, cooking.
//
// Four masses are distinguished by type or by name: as weighed, oven-dry, air-dry
// (always 90 % dry), and at the commercial dryness of a contract. What is invoiced
// has a method beside Calculate that computes in decimals, so that parts add up to
// the last digit:
//
//	r, err := claim.Calculate()
//	payable, claimed, err := claim.Decimals()
//
// # What people get wrong
//
// The price is per tonne of what the contract says. Air-dry is 90 % by custom; a
// commercial dryness is an input, not a constant.
//
// A moisture claim goes by points or by the dry basis, and by load or by lot: at 16 %
// against 10 %, 25 t are paid as 23.5 t or as 23.333 t. [MoistureClaim] takes both
// choices by name and has no default.
//
// Mean lengths by number, by length and by mass are three results for one fibre
// population; compare like only with like.
//
// Sum an invoice in decimals: take Decimals of a claim, not the rounded floats of
// Calculate.
package fibre

import "millmaths.example/paperprop/calc"

// Calculations returns all calculations of the package.
func Calculations() []calc.Calculation {
	return []calc.Calculation{
		airDry, saleableMass, saleableClaim, priceAsReceived, baleLot, moistureClaim, unwantedClaim,
		yield, yardCover, furnish, furnishCost, age, ageStart, recycledProperty,
		length, fines, fractions, fractionLength, coarseness,
		freeness, freenessBlank, schopperRiegler, waterRetentionValue, hornification, centrifugeSpeed,
		spots, spotsPerMass, testCharge, disintegration, handsheet, handsheetAdjust, handsheetGrammage,
		ash, fillerContent, fillerTwoTemperatures,
		kappa, kappaLignin, capillaryViscosity, limitingViscosity, polymerisationDegree, cookingLiquor, hFactor,
	}
}
