// Package stock calculates the suspension of fibre in water, from the pulper
// to the wire: consistency, dilution, blending, pulping, retention, dewatering,
// dosage, the size press, the mill's water.
//
// Consistency is what the filter keeps over the mass of stock; it counts
// filler, and leaves out what is dissolved. A calculation is a struct of
// inputs with a method:
//
//	r, err := stock.Dilution{
//		MassFlow:       300 * paperprop.TonnePerHour,
//		ConsistencyIn:  4.6 * paperprop.Percent,
//		ConsistencyOut: 0.92 * paperprop.Percent,
//	}.Calculate()
package stock

import (
	"math"

	"millmaths.example/paperprop/calc"
)

// Calculations lists what the package calculates.
func Calculations() []calc.Calculation {
	return []calc.Calculation{
		consistency, density, dilution, dilutionBatch, blend, blendBatch, stockFlow,
		pulping, dewatering, waterRemoval, dosage, dosageOnPaper, dosingPump, makeDown,
		retention, retentionTwoProduct, fillerRetention, loopRetention, loopAsh, freshStock,
		headboxFlow, slice, jet, jetPressure,
		pickUp, pickUpGrammage, pickUpEvaporation,
		millWater, buildUp, effluentLoad, chargeDemand, fibreCharge,
		pipeSpeed, pipeFriction, pipeFrictionWater, pipeFrictionLimit, pipeFrictionOnset,
	}
}

// balance is the source of what follows from the conservation of mass.
const balance = "balance of stock and of dry matter"

// lastDigits is how far two ways of reckoning one number may lie apart,
// relative: less is no reason to refuse, nor a rest.
const lastDigits = 1e-14

// left is what a whole leaves beside its parts.
func left(whole, parts float64) float64 {
	if rest := whole - parts; math.Abs(rest) > lastDigits*whole {
		return rest
	}
	return 0
}
