// Package stock calculates the suspension of fibre in water, from the pulper
// to the wire: consistency, dilution, blending, thickening, pulping, chests,
// screening, refining, retention, headbox, dewatering, dosage, the size press,
// the mill's water.
//
// Consistency is what the filter retains over the mass of stock; it includes
// filler and excludes what is dissolved. A calculation is a struct of inputs with
// a method:
//
//	r, err := stock.Dilution{
//		MassFlow:       300 * paperprop.TonnePerHour,
//		ConsistencyIn:  4.6 * paperprop.Percent,
//		ConsistencyOut: 0.92 * paperprop.Percent,
//	}.Calculate()
//
// # What people get wrong
//
// A number alone is a fraction: 4.6 where a Consistency is wanted is 460 %, and is
// refused as out of range. Write 4.6 * paperprop.Percent.
//
// The mean of consistencies is that of the mixture only where all flows are equal:
// use [Blend].
//
// First-pass retention is not that of the loop, in which what comes back from the
// tray passes again: see [Retention] and [LoopRetention].
//
// A dosage is per tonne of what its input says: dry stock is not paper.
//
// A result in a program shows no caution. When you show people results on confined
// spaces, chemicals or hot water, show the Cautions of the calculation's Info too.
package stock

import (
	"millmaths.example/paperprop/calc"
)

// Calculations returns all calculations of the package.
func Calculations() []calc.Calculation {
	return []calc.Calculation{
		consistency, fibreConsistency, airDryConsistency, totalSolids, dissolvedSolids, suspendedSolids, density,
		dilution, dilutionBatch, blend, blendBatch, proportioning, proportioningBatch, thickening, thickeningBatch,
		stockFlow, flowRule, thickStock, chest, chestTime, chestResponse, mixingTemperature, steamHeating,
		pulping, pulpingBatch, pulperCharge, broke,
		screening, screenEfficiency, screenQuotient, screenPassage, screenCascade, cascadeRemoval,
		refining, refinerEdgeLoad,
		retention, retentionTwoProduct, fillerRetention, loopRetention, loopAsh, freshStock,
		headboxFlow, jet, jetPressure, slice, waterRemoval, dewatering,
		dosage, dosageOnPaper, dosingPump, makeDown, pickUp, pickUpGrammage, pickUpEvaporation,
		millWater, buildUp, effluentLoad, chargeDemand, fibreCharge,
		pipeSpeed, pipeFriction, pipeFrictionWater, pipeFrictionLimit, pipeFrictionOnset,
	}
}

// balance is the source of whatever follows from the conservation of mass.
const balance = "balance of stock and of dry matter"
