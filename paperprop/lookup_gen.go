// Code generated from units.csv by internal/generate; DO NOT EDIT.

package paperprop

// lookupMass finds a unit of mass by its spelling, as an index from the kind's first unit.
func lookupMass(text string) int {
	switch text {
	case "kg", "kilogram", "kilograms":
		return 0
	case "mg", "milligram", "milligrams":
		return 1
	case "g", "gram", "grams":
		return 2
	case "t", "tonne", "tonnes", "metric ton", "metric tons":
		return 3
	case "lb", "lbs", "pound", "pounds", "lbm":
		return 4
	case "oz", "ounce", "ounces":
		return 5
	case "gr", "grain", "grains":
		return 6
	case "short ton", "short tons", "sh tn", "US ton", "US tons":
		return 7
	case "long ton", "long tons", "imp ton", "imp tons":
		return 8
	}
	return -1
}

// lookupOvenDryMass finds a unit of oven-dry mass by its spelling, as an index from the kind's first unit.
func lookupOvenDryMass(text string) int {
	switch text {
	case "kg", "kilogram", "kilograms":
		return 0
	case "odt", "bdt", "BDMT":
		return 1
	case "g", "gram", "grams":
		return 2
	case "mg", "milligram", "milligrams":
		return 3
	case "t", "tonne", "tonnes", "metric ton", "metric tons":
		return 4
	case "lb", "lbs", "pound", "pounds", "lbm":
		return 5
	case "oz", "ounce", "ounces":
		return 6
	case "gr", "grain", "grains":
		return 7
	case "short ton", "short tons", "sh tn", "US ton", "US tons":
		return 8
	case "long ton", "long tons", "imp ton", "imp tons":
		return 9
	}
	return -1
}

// lookupAirDryMass finds a unit of air-dry mass by its spelling, as an index from the kind's first unit.
func lookupAirDryMass(text string) int {
	switch text {
	case "kg", "kilogram", "kilograms":
		return 0
	case "adt", "ADMT":
		return 1
	case "mg", "milligram", "milligrams":
		return 2
	case "g", "gram", "grams":
		return 3
	case "t", "tonne", "tonnes", "metric ton", "metric tons":
		return 4
	case "lb", "lbs", "pound", "pounds", "lbm":
		return 5
	case "oz", "ounce", "ounces":
		return 6
	case "gr", "grain", "grains":
		return 7
	case "short ton", "short tons", "sh tn", "US ton", "US tons":
		return 8
	case "long ton", "long tons", "imp ton", "imp tons":
		return 9
	}
	return -1
}

// lookupBasisWeight finds a unit of basis weight by its spelling, as an index from the kind's first unit.
func lookupBasisWeight(text string) int {
	switch text {
	case "lb", "lbs", "pound", "pounds", "lbm":
		return 0
	case "kg", "kilogram", "kilograms":
		return 1
	case "mg", "milligram", "milligrams":
		return 2
	case "g", "gram", "grams":
		return 3
	case "t", "tonne", "tonnes", "metric ton", "metric tons":
		return 4
	case "oz", "ounce", "ounces":
		return 5
	case "gr", "grain", "grains":
		return 6
	case "short ton", "short tons", "sh tn", "US ton", "US tons":
		return 7
	case "long ton", "long tons", "imp ton", "imp tons":
		return 8
	}
	return -1
}

// lookupLength finds a unit of length by its spelling, as an index from the kind's first unit.
func lookupLength(text string) int {
	switch text {
	case "mm", "millimetre", "millimetres", "millimeter", "millimeters":
		return 0
	case "m", "metre", "metres", "meter", "meters":
		return 1
	case "nm", "nanometre", "nanometres":
		return 2
	case "um", "µm", "micrometre", "micrometres", "micron", "microns":
		return 3
	case "cm", "centimetre", "centimetres":
		return 4
	case "km", "kilometre", "kilometres":
		return 5
	case "in", "inch", "inches", "\"":
		return 6
	case "ft", "foot", "feet":
		return 7
	case "yd", "yard", "yards":
		return 8
	case "mi", "mile", "miles":
		return 9
	case "mil", "mils", "thou":
		return 10
	case "pt", "point", "points":
		return 11
	}
	return -1
}

// lookupDuration finds a unit of duration by its spelling, as an index from the kind's first unit.
func lookupDuration(text string) int {
	switch text {
	case "min", "minute", "minutes":
		return 0
	case "ms", "millisecond", "milliseconds":
		return 1
	case "s", "sec", "second", "seconds":
		return 2
	case "h", "hr", "hour", "hours":
		return 3
	case "d", "day", "days":
		return 4
	case "week", "weeks", "wk":
		return 5
	}
	return -1
}

// lookupTemperature finds a unit of temperature by its spelling, as an index from the kind's first unit.
func lookupTemperature(text string) int {
	switch text {
	case "degC", "°C", "C", "celsius":
		return 0
	case "K", "kelvin", "kelvins":
		return 1
	case "degF", "°F", "F", "fahrenheit":
		return 2
	}
	return -1
}

// lookupTemperatureDifference finds a unit of temperature difference by its spelling, as an index from the kind's first unit.
func lookupTemperatureDifference(text string) int {
	switch text {
	case "K", "kelvin", "kelvins", "degC_diff":
		return 0
	case "degF_diff":
		return 1
	}
	return -1
}

// lookupForce finds a unit of force by its spelling, as an index from the kind's first unit.
func lookupForce(text string) int {
	switch text {
	case "N", "newton", "newtons":
		return 0
	case "mN":
		return 1
	case "kN":
		return 2
	case "daN", "decanewton", "decanewtons":
		return 3
	case "lbf", "pound-force":
		return 4
	case "ozf", "ounce-force":
		return 5
	case "kgf", "kp", "kilogram-force", "kilopond":
		return 6
	case "gf", "gram-force", "pond":
		return 7
	}
	return -1
}

// lookupAmount finds a unit of amount by its spelling, as an index from the kind's first unit.
func lookupAmount(text string) int {
	switch text {
	case "mol", "mole", "moles":
		return 0
	case "mmol":
		return 1
	case "umol", "µmol":
		return 2
	case "eq":
		return 3
	case "meq":
		return 4
	case "ueq", "µeq":
		return 5
	}
	return -1
}

// lookupAngle finds a unit of angle by its spelling, as an index from the kind's first unit.
func lookupAngle(text string) int {
	switch text {
	case "deg", "°", "degree", "degrees":
		return 0
	case "rad", "radian", "radians":
		return 1
	}
	return -1
}

// lookupCount finds a unit of count by its spelling, as an index from the kind's first unit.
func lookupCount(text string) int {
	switch text {
	case "1":
		return 0
	case "million", "millions":
		return 1
	case "sheets", "sheet", "reels", "fibres":
		return 2
	}
	return -1
}

// lookupRatio finds a unit of ratio by its spelling, as an index from the kind's first unit.
func lookupRatio(text string) int {
	switch text {
	case "1":
		return 0
	}
	return -1
}

// lookupFraction finds a unit of fraction by its spelling, as an index from the kind's first unit.
func lookupFraction(text string) int {
	switch text {
	case "1":
		return 0
	case "%", "percent", "pct":
		return 1
	case "ppm":
		return 2
	case "g/kg", "kg/t":
		return 3
	case "g/g", "kg/kg", "t/t", "lb/lb":
		return 4
	case "mm2/m2":
		return 5
	case "m/100m", "m/100 m", "ft/100ft", "ft/100 ft":
		return 6
	}
	return -1
}

// lookupMassRatio finds a unit of mass ratio by its spelling, as an index from the kind's first unit.
func lookupMassRatio(text string) int {
	switch text {
	case "kg/kg", "g/g", "t/t", "lb/lb":
		return 0
	case "kg/t", "g/kg":
		return 1
	case "lb/short ton", "lb/short tons":
		return 2
	case "%", "percent":
		return 3
	}
	return -1
}

// lookupHumidityRatio finds a unit of humidity ratio by its spelling, as an index from the kind's first unit.
func lookupHumidityRatio(text string) int {
	switch text {
	case "kg/kg", "kg/kg dry air", "lb/lb dry air", "g/g", "t/t", "lb/lb":
		return 0
	case "kg/t", "g/kg":
		return 1
	case "lb/short ton", "lb/short tons":
		return 2
	case "%", "percent":
		return 3
	}
	return -1
}

// lookupDosage finds a unit of dosage by its spelling, as an index from the kind's first unit.
func lookupDosage(text string) int {
	switch text {
	case "kg/t", "g/kg":
		return 0
	case "%", "percent":
		return 1
	case "g/t", "ppm":
		return 2
	case "kg/kg", "g/g":
		return 3
	case "lb/short ton", "lb/short tons":
		return 4
	}
	return -1
}

// lookupArea finds a unit of area by its spelling, as an index from the kind's first unit.
func lookupArea(text string) int {
	switch text {
	case "m2", "m²", "sq m":
		return 0
	case "mm2", "mm²":
		return 1
	case "cm2", "cm²", "sq cm":
		return 2
	case "dm2", "dm²":
		return 3
	case "in2", "in²", "sq in":
		return 4
	case "ft2", "ft²", "sq ft":
		return 5
	case "yd2", "yd²":
		return 6
	case "1000ft2", "1000 ft²", "1000 ft2", "MSF", "1000 sq ft":
		return 7
	}
	return -1
}

// lookupVolume finds a unit of volume by its spelling, as an index from the kind's first unit.
func lookupVolume(text string) int {
	switch text {
	case "m3", "m³", "cubic metre", "cubic metres":
		return 0
	case "L", "l", "litre", "litres", "liter", "liters", "dm3":
		return 1
	case "mL", "ml", "cm3", "cc":
		return 2
	case "US gal", "gal_US", "US gallon", "US gallons":
		return 3
	case "imp gal", "gal_UK", "imp gallon", "imp gallons":
		return 4
	case "ft3", "cu ft":
		return 5
	case "in3", "cu in":
		return 6
	}
	return -1
}

// lookupAreaFlow finds a unit of area flow by its spelling, as an index from the kind's first unit.
func lookupAreaFlow(text string) int {
	switch text {
	case "m2/h":
		return 0
	}
	return -1
}

// lookupSpeed finds a unit of speed by its spelling, as an index from the kind's first unit.
func lookupSpeed(text string) int {
	switch text {
	case "m/min", "mpm":
		return 0
	case "m/s":
		return 1
	case "ft/min", "fpm":
		return 2
	case "ft/s", "fps":
		return 3
	case "km/s":
		return 4
	}
	return -1
}

// lookupAcceleration finds a unit of acceleration by its spelling, as an index from the kind's first unit.
func lookupAcceleration(text string) int {
	switch text {
	case "m/s2", "m/s²":
		return 0
	case "ft/s2":
		return 1
	case "g_n":
		return 2
	}
	return -1
}

// lookupFrequency finds a unit of frequency by its spelling, as an index from the kind's first unit.
func lookupFrequency(text string) int {
	switch text {
	case "1/min", "rpm", "/min", "r/min":
		return 0
	case "Hz", "1/s":
		return 1
	}
	return -1
}

// lookupMassFlow finds a unit of mass flow by its spelling, as an index from the kind's first unit.
func lookupMassFlow(text string) int {
	switch text {
	case "t/h", "tonne/h":
		return 0
	case "kg/h":
		return 1
	case "kg/s":
		return 2
	case "t/d", "t/day":
		return 3
	case "lb/h":
		return 4
	case "short ton/h":
		return 5
	case "short ton/d", "short ton/day":
		return 6
	}
	return -1
}

// lookupOvenDryFlow finds a unit of oven-dry flow by its spelling, as an index from the kind's first unit.
func lookupOvenDryFlow(text string) int {
	switch text {
	case "t/h", "tonne/h", "odt/h", "bdt/h":
		return 0
	case "t/d", "t/day", "odt/d", "bdt/d":
		return 1
	case "kg/h":
		return 2
	case "kg/s":
		return 3
	case "lb/h":
		return 4
	case "short ton/h":
		return 5
	case "short ton/d", "short ton/day":
		return 6
	}
	return -1
}

// lookupVolumeFlow finds a unit of volume flow by its spelling, as an index from the kind's first unit.
func lookupVolumeFlow(text string) int {
	switch text {
	case "m3/h", "m³/h":
		return 0
	case "m3/d":
		return 1
	case "L/s":
		return 2
	case "L/min":
		return 3
	case "L/h":
		return 4
	case "mL/min":
		return 5
	case "US gal/min", "US gpm":
		return 6
	case "imp gal/min", "imp gpm":
		return 7
	case "ft3/min", "cfm":
		return 8
	}
	return -1
}

// lookupFlowPerWidth finds a unit of flow per width by its spelling, as an index from the kind's first unit.
func lookupFlowPerWidth(text string) int {
	switch text {
	case "L/(min m)":
		return 0
	case "m3/(min m)":
		return 1
	case "m3/(h cm)":
		return 2
	case "US gal/(min in)":
		return 3
	}
	return -1
}

// lookupMassFlux finds a unit of mass flux by its spelling, as an index from the kind's first unit.
func lookupMassFlux(text string) int {
	switch text {
	case "kg/(h m2)", "kg/(h·m²)", "kg/(h.m2)":
		return 0
	case "lb/(h ft2)":
		return 1
	}
	return -1
}

// lookupGrammage finds a unit of grammage by its spelling, as an index from the kind's first unit.
func lookupGrammage(text string) int {
	switch text {
	case "g/m2", "gsm", "g/m²":
		return 0
	case "lb/1000ft2", "lb/1000 ft²", "lb/1000 ft2", "lb/MSF", "lb/1000 sq ft":
		return 1
	case "lb/3000ft2", "lb/3000 ft²", "lb/3000 ft2", "lb/24x36-500", "lb/tag", "lb/3000 sq ft":
		return 2
	case "lb/3300ft2", "lb/3300 ft²", "lb/3300 ft2":
		return 3
	case "lb/25x38-500", "lb/book":
		return 4
	case "lb/17x22-500", "lb/bond":
		return 5
	case "lb/20x26-500", "lb/cover":
		return 6
	case "lb/22.5x28.5-500", "lb/bristol":
		return 7
	case "lb/25.5x30.5-500", "lb/index":
		return 8
	case "lb/19x24-500", "lb/blotting":
		return 9
	case "lb/22x28-500", "lb/blanks":
		return 10
	case "lb/24x36-480", "lb/tissue":
		return 11
	}
	return -1
}

// lookupDensity finds a unit of density by its spelling, as an index from the kind's first unit.
func lookupDensity(text string) int {
	switch text {
	case "kg/m3", "kg/m³", "g/L":
		return 0
	case "g/cm3", "kg/L", "t/m3":
		return 1
	case "lb/ft3":
		return 2
	case "lb/in3":
		return 3
	}
	return -1
}

// lookupConcentration finds a unit of concentration by its spelling, as an index from the kind's first unit.
func lookupConcentration(text string) int {
	switch text {
	case "g/L", "kg/m3":
		return 0
	case "mg/L", "g/m3":
		return 1
	case "g/mL", "g/cm3":
		return 2
	case "lb/ft3":
		return 3
	}
	return -1
}

// lookupSpecificVolume finds a unit of specific volume by its spelling, as an index from the kind's first unit.
func lookupSpecificVolume(text string) int {
	switch text {
	case "cm3/g", "cm³/g", "mL/g", "L/kg":
		return 0
	case "m3/kg":
		return 1
	case "m3/t":
		return 2
	case "dL/g":
		return 3
	case "ft3/lb":
		return 4
	}
	return -1
}

// lookupAreaPerMass finds a unit of area per mass by its spelling, as an index from the kind's first unit.
func lookupAreaPerMass(text string) int {
	switch text {
	case "m2/kg", "m²/kg":
		return 0
	case "m2/t":
		return 1
	case "mm2/kg":
		return 2
	}
	return -1
}

// lookupCoarseness finds a unit of coarseness by its spelling, as an index from the kind's first unit.
func lookupCoarseness(text string) int {
	switch text {
	case "mg/m":
		return 0
	case "ug/m":
		return 1
	case "mg/100m", "mg/100 m", "decigrex":
		return 2
	}
	return -1
}

// lookupCountPerMass finds a unit of count per mass by its spelling, as an index from the kind's first unit.
func lookupCountPerMass(text string) int {
	switch text {
	case "1/kg":
		return 0
	case "1/g":
		return 1
	case "1/t":
		return 2
	case "million/g":
		return 3
	}
	return -1
}

// lookupCountPerArea finds a unit of count per area by its spelling, as an index from the kind's first unit.
func lookupCountPerArea(text string) int {
	switch text {
	case "1/m2":
		return 0
	case "1/ft2":
		return 1
	}
	return -1
}

// lookupAmountConcentration finds a unit of amount concentration by its spelling, as an index from the kind's first unit.
func lookupAmountConcentration(text string) int {
	switch text {
	case "mol/L":
		return 0
	case "mmol/L":
		return 1
	case "umol/L":
		return 2
	case "eq/L", "N":
		return 3
	case "meq/L":
		return 4
	case "ueq/L":
		return 5
	}
	return -1
}

// lookupAmountPerMass finds a unit of amount per mass by its spelling, as an index from the kind's first unit.
func lookupAmountPerMass(text string) int {
	switch text {
	case "mmol/kg", "umol/g":
		return 0
	case "meq/kg", "ueq/g":
		return 1
	}
	return -1
}

// lookupPrice finds a unit of price by its spelling, as an index from the kind's first unit.
func lookupPrice(text string) int {
	switch text {
	case "1/t":
		return 0
	case "1/short ton", "1/short tons":
		return 1
	case "EUR/t":
		return 2
	case "USD/t":
		return 3
	case "GBP/t":
		return 4
	case "EUR/short ton", "EUR/short tons":
		return 5
	case "USD/short ton", "USD/short tons":
		return 6
	case "GBP/short ton", "GBP/short tons":
		return 7
	}
	return -1
}

// lookupForcePerLength finds a unit of force per length by its spelling, as an index from the kind's first unit.
func lookupForcePerLength(text string) int {
	switch text {
	case "kN/m", "N/mm":
		return 0
	case "N/m":
		return 1
	case "lbf/in", "pli":
		return 2
	case "lbf/6in", "lbf/6 in":
		return 3
	case "kgf/cm":
		return 4
	case "kgf/mm":
		return 5
	case "kgf/15mm", "kgf/15 mm":
		return 6
	case "N/15mm", "N/15 mm":
		return 7
	}
	return -1
}

// lookupStrengthIndex finds a unit of strength index by its spelling, as an index from the kind's first unit.
func lookupStrengthIndex(text string) int {
	switch text {
	case "kN.m/kg", "N.m/g", "kN·m/kg":
		return 0
	case "kN.m/g", "MN.m/kg":
		return 1
	}
	return -1
}

// lookupTearIndex finds a unit of tear index by its spelling, as an index from the kind's first unit.
func lookupTearIndex(text string) int {
	switch text {
	case "mN.m2/g", "mN·m²/g":
		return 0
	}
	return -1
}

// lookupTearFactor finds a unit of tear factor by its spelling, as an index from the kind's first unit.
func lookupTearFactor(text string) int {
	switch text {
	case "dm2", "100 gf/(g/m2)", "dm²":
		return 0
	case "m2", "m²", "sq m":
		return 1
	case "mm2", "mm²":
		return 2
	case "cm2", "cm²", "sq cm":
		return 3
	case "in2", "in²", "sq in":
		return 4
	case "ft2", "ft²", "sq ft":
		return 5
	case "yd2", "yd²":
		return 6
	case "1000ft2", "1000 ft²", "1000 ft2", "MSF", "1000 sq ft":
		return 7
	}
	return -1
}

// lookupBurstIndex finds a unit of burst index by its spelling, as an index from the kind's first unit.
func lookupBurstIndex(text string) int {
	switch text {
	case "kPa.m2/g", "kPa·m²/g":
		return 0
	case "(gf/cm2)/(g/m2)":
		return 1
	}
	return -1
}

// lookupPressurePerMass finds a unit of pressure per mass by its spelling, as an index from the kind's first unit.
func lookupPressurePerMass(text string) int {
	switch text {
	case "psi/lb":
		return 0
	}
	return -1
}

// lookupBendingStiffness finds a unit of bending stiffness by its spelling, as an index from the kind's first unit.
func lookupBendingStiffness(text string) int {
	switch text {
	case "mN.m", "mN·m":
		return 0
	case "N.m":
		return 1
	case "lbf.in", "in.lbf":
		return 2
	}
	return -1
}

// lookupMoment finds a unit of moment by its spelling, as an index from the kind's first unit.
func lookupMoment(text string) int {
	switch text {
	case "mN.m":
		return 0
	case "N.m":
		return 1
	case "gf.cm", "Taber unit", "Taber units":
		return 2
	case "lbf.in":
		return 3
	}
	return -1
}

// lookupBendingIndex finds a unit of bending index by its spelling, as an index from the kind's first unit.
func lookupBendingIndex(text string) int {
	switch text {
	case "N.m7/kg3":
		return 0
	}
	return -1
}

// lookupBendingResistanceIndex finds a unit of bending resistance index by its spelling, as an index from the kind's first unit.
func lookupBendingResistanceIndex(text string) int {
	switch text {
	case "N.m6/kg3":
		return 0
	}
	return -1
}

// lookupEdgeLoad finds a unit of edge load by its spelling, as an index from the kind's first unit.
func lookupEdgeLoad(text string) int {
	switch text {
	case "J/m", "W s/m":
		return 0
	}
	return -1
}

// lookupPressure finds a unit of pressure by its spelling, as an index from the kind's first unit.
func lookupPressure(text string) int {
	switch text {
	case "kPa":
		return 0
	case "Pa":
		return 1
	case "MPa", "N/mm2":
		return 2
	case "GPa":
		return 3
	case "bar":
		return 4
	case "mbar", "hPa":
		return 5
	case "psi", "lbf/in2":
		return 6
	case "lbf/ft2", "psf":
		return 7
	case "kgf/cm2":
		return 8
	case "atm":
		return 9
	case "Torr":
		return 10
	case "mmHg":
		return 11
	case "inHg", "in Hg":
		return 12
	case "mmH2O", "mm WC":
		return 13
	case "inH2O", "in WC", "in H2O":
		return 14
	}
	return -1
}

// lookupGaugePressure finds a unit of gauge pressure by its spelling, as an index from the kind's first unit.
func lookupGaugePressure(text string) int {
	switch text {
	case "bar(g)", "barg", "bar gauge":
		return 0
	case "kPa(g)", "kPag":
		return 1
	case "psig", "psi(g)", "lbf/in2(g)":
		return 2
	case "Pa(g)":
		return 3
	case "MPa(g)", "N/mm2(g)":
		return 4
	case "GPa(g)":
		return 5
	case "mbar(g)", "hPa(g)":
		return 6
	case "lbf/ft2(g)", "psf(g)":
		return 7
	case "kgf/cm2(g)":
		return 8
	case "atm(g)":
		return 9
	case "Torr(g)":
		return 10
	case "mmHg(g)":
		return 11
	case "inHg(g)", "in Hg(g)":
		return 12
	case "mmH2O(g)", "mm WC(g)":
		return 13
	case "inH2O(g)", "in WC(g)", "in H2O(g)":
		return 14
	}
	return -1
}

// lookupAbsolutePressure finds a unit of absolute pressure by its spelling, as an index from the kind's first unit.
func lookupAbsolutePressure(text string) int {
	switch text {
	case "bar(a)", "bara", "bar abs":
		return 0
	case "kPa(a)", "kPa abs":
		return 1
	case "MPa(a)", "N/mm2(a)":
		return 2
	case "psia", "psi(a)", "lbf/in2(a)":
		return 3
	case "Pa(a)":
		return 4
	case "GPa(a)":
		return 5
	case "mbar(a)", "hPa(a)":
		return 6
	case "lbf/ft2(a)", "psf(a)":
		return 7
	case "kgf/cm2(a)":
		return 8
	case "atm(a)":
		return 9
	case "Torr(a)":
		return 10
	case "mmHg(a)":
		return 11
	case "inHg(a)", "in Hg(a)":
		return 12
	case "mmH2O(a)", "mm WC(a)":
		return 13
	case "inH2O(a)", "in WC(a)", "in H2O(a)":
		return 14
	}
	return -1
}

// lookupPressImpulse finds a unit of press impulse by its spelling, as an index from the kind's first unit.
func lookupPressImpulse(text string) int {
	switch text {
	case "kPa s", "kPa.s", "kN/m per m/s":
		return 0
	case "psi s", "psi.s":
		return 1
	}
	return -1
}

// lookupAirPermeance finds a unit of air permeance by its spelling, as an index from the kind's first unit.
func lookupAirPermeance(text string) int {
	switch text {
	case "um/(Pa s)", "um/(Pa.s)", "µm/(Pa·s)":
		return 0
	case "CU":
		return 1
	case "mL/(min cm2 kPa)":
		return 2
	}
	return -1
}

// lookupPermeanceTime finds a unit of permeance time by its spelling, as an index from the kind's first unit.
func lookupPermeanceTime(text string) int {
	switch text {
	case "um/Pa":
		return 0
	}
	return -1
}

// lookupEnergy finds a unit of energy by its spelling, as an index from the kind's first unit.
func lookupEnergy(text string) int {
	switch text {
	case "J", "joule", "joules", "N.m":
		return 0
	case "mJ":
		return 1
	case "kJ":
		return 2
	case "MJ":
		return 3
	case "GJ":
		return 4
	case "Wh":
		return 5
	case "kWh", "kW h":
		return 6
	case "MWh":
		return 7
	case "Btu_IT":
		return 8
	case "Btu_th":
		return 9
	case "cal_IT":
		return 10
	case "cal_th":
		return 11
	case "kcal_IT":
		return 12
	case "therm_US":
		return 13
	case "ft.lbf", "ft lbf":
		return 14
	case "in.lbf", "in lbf":
		return 15
	}
	return -1
}

// lookupPower finds a unit of power by its spelling, as an index from the kind's first unit.
func lookupPower(text string) int {
	switch text {
	case "kW", "kilowatt", "kilowatts":
		return 0
	case "W", "watt", "watts":
		return 1
	case "MW":
		return 2
	case "hp_mech", "hp(mech)":
		return 3
	case "hp_el", "hp(el)":
		return 4
	case "hp_metric", "PS":
		return 5
	}
	return -1
}

// lookupSpecificEnergy finds a unit of specific energy by its spelling, as an index from the kind's first unit.
func lookupSpecificEnergy(text string) int {
	switch text {
	case "kJ/kg", "J/g", "MJ/t":
		return 0
	case "J/kg":
		return 1
	case "kWh/t":
		return 2
	case "MWh/t":
		return 3
	case "GJ/t":
		return 4
	case "kWh/short ton", "kWh/short tons":
		return 5
	case "hp_mech d/short ton", "hp_mech d/short tons", "hp_mech.d/short ton", "hp_mech.d/short tons":
		return 6
	case "Btu_IT/lb":
		return 7
	}
	return -1
}

// lookupEnergyPerArea finds a unit of energy per area by its spelling, as an index from the kind's first unit.
func lookupEnergyPerArea(text string) int {
	switch text {
	case "J/m2", "J/m²":
		return 0
	case "ft.lbf/ft2", "ft lbf/ft²", "ft lbf/ft2":
		return 1
	case "in.lbf/in2":
		return 2
	}
	return -1
}

// lookupSpecificHeat finds a unit of specific heat by its spelling, as an index from the kind's first unit.
func lookupSpecificHeat(text string) int {
	switch text {
	case "kJ/(kg K)", "kJ/(kg·K)", "kJ/(kg.K)", "J/(g K)":
		return 0
	case "J/(kg K)":
		return 1
	case "Btu_IT/(lb degF)", "Btu_IT/(lb·°F)", "Btu_IT/(lb.degF)":
		return 2
	}
	return -1
}

// lookupHeatTransfer finds a unit of heat transfer by its spelling, as an index from the kind's first unit.
func lookupHeatTransfer(text string) int {
	switch text {
	case "W/(m2 K)", "W/(m²·K)", "W/(m2.K)":
		return 0
	case "Btu_IT/(h ft2 degF)":
		return 1
	}
	return -1
}

// lookupThermalConductivity finds a unit of thermal conductivity by its spelling, as an index from the kind's first unit.
func lookupThermalConductivity(text string) int {
	switch text {
	case "W/(m K)", "W/(m·K)", "W/(m.K)":
		return 0
	case "Btu_IT/(h ft degF)":
		return 1
	}
	return -1
}

// lookupViscosity finds a unit of viscosity by its spelling, as an index from the kind's first unit.
func lookupViscosity(text string) int {
	switch text {
	case "mPa.s", "cP", "mPa s":
		return 0
	}
	return -1
}

// lookupViscometerConstant finds a unit of viscometer constant by its spelling, as an index from the kind's first unit.
func lookupViscometerConstant(text string) int {
	switch text {
	case "mm2/s2", "cSt/s":
		return 0
	}
	return -1
}

// lookupVoltage finds a unit of voltage by its spelling, as an index from the kind's first unit.
func lookupVoltage(text string) int {
	switch text {
	case "V", "volt", "volts":
		return 0
	}
	return -1
}

// lookupCurrent finds a unit of current by its spelling, as an index from the kind's first unit.
func lookupCurrent(text string) int {
	switch text {
	case "A", "ampere", "amperes":
		return 0
	case "mA":
		return 1
	}
	return -1
}

// lookupResistance finds a unit of resistance by its spelling, as an index from the kind's first unit.
func lookupResistance(text string) int {
	switch text {
	case "ohm", "Ω":
		return 0
	}
	return -1
}

// lookupAtom finds a unit that others may be composed of.
func lookupAtom(text string) int {
	switch text {
	case "kg", "kilogram", "kilograms":
		return 0
	case "mg", "milligram", "milligrams":
		return 1
	case "g", "gram", "grams":
		return 2
	case "metric ton", "metric tons", "t", "tonne", "tonnes":
		return 3
	case "lb", "lbm", "lbs", "pound", "pounds":
		return 4
	case "ounce", "ounces", "oz":
		return 5
	case "gr", "grain", "grains":
		return 6
	case "US ton", "US tons", "sh tn", "short ton", "short tons":
		return 7
	case "imp ton", "imp tons", "long ton", "long tons":
		return 8
	case "millimeter", "millimeters", "millimetre", "millimetres", "mm":
		return 38
	case "m", "meter", "meters", "metre", "metres":
		return 39
	case "nanometre", "nanometres", "nm":
		return 40
	case "micrometre", "micrometres", "micron", "microns", "um", "µm":
		return 41
	case "centimetre", "centimetres", "cm":
		return 42
	case "kilometre", "kilometres", "km":
		return 43
	case "\"", "in", "inch", "inches":
		return 44
	case "feet", "foot", "ft":
		return 45
	case "yard", "yards", "yd":
		return 46
	case "mi", "mile", "miles":
		return 47
	case "mil", "mils", "thou":
		return 48
	case "point", "points", "pt":
		return 49
	case "min", "minute", "minutes":
		return 50
	case "millisecond", "milliseconds", "ms":
		return 51
	case "s", "sec", "second", "seconds":
		return 52
	case "h", "hour", "hours", "hr":
		return 53
	case "d", "day", "days":
		return 54
	case "week", "weeks", "wk":
		return 55
	case "K", "celsius", "degC", "degC_diff", "kelvin", "kelvins":
		return 59
	case "degF", "degF_diff", "fahrenheit":
		return 60
	case "N", "newton", "newtons":
		return 61
	case "mN":
		return 62
	case "kN":
		return 63
	case "daN", "decanewton", "decanewtons":
		return 64
	case "lbf", "pound-force":
		return 65
	case "ounce-force", "ozf":
		return 66
	case "kgf", "kilogram-force", "kilopond", "kp":
		return 67
	case "gf", "gram-force", "pond":
		return 68
	case "mol", "mole", "moles":
		return 69
	case "mmol":
		return 70
	case "umol", "µmol":
		return 71
	case "eq":
		return 72
	case "meq":
		return 73
	case "ueq", "µeq":
		return 74
	case "deg", "degree", "degrees", "°":
		return 75
	case "rad", "radian", "radians":
		return 76
	case "million", "millions":
		return 78
	case "fibres", "reels", "sheet", "sheets":
		return 79
	case "m2", "m²", "sq m":
		return 126
	case "mm2", "mm²":
		return 127
	case "cm2", "cm²", "sq cm":
		return 128
	case "dm2", "dm²":
		return 129
	case "in2", "in²", "sq in":
		return 130
	case "ft2", "ft²", "sq ft":
		return 131
	case "yd2", "yd²":
		return 132
	case "1000 ft2", "1000 ft²", "1000 sq ft", "1000ft2", "MSF":
		return 133
	case "cubic metre", "cubic metres", "m3", "m³":
		return 134
	case "L", "dm3", "l", "liter", "liters", "litre", "litres":
		return 135
	case "cc", "cm3", "mL", "ml":
		return 136
	case "US gal", "US gallon", "US gallons", "gal_US":
		return 137
	case "gal_UK", "imp gal", "imp gallon", "imp gallons":
		return 138
	case "cu ft", "ft3":
		return 139
	case "cu in", "in3":
		return 140
	case "mpm":
		return 142
	case "fpm":
		return 144
	case "fps":
		return 145
	case "g_n":
		return 149
	case "rpm":
		return 150
	case "Hz":
		return 151
	case "US gpm":
		return 179
	case "imp gpm":
		return 180
	case "cfm":
		return 181
	case "gsm":
		return 188
	case "decigrex":
		return 233
	case "pli":
		return 258
	case "Taber unit", "Taber units":
		return 283
	case "kPa":
		return 288
	case "Pa":
		return 289
	case "MPa":
		return 290
	case "GPa":
		return 291
	case "bar":
		return 292
	case "hPa", "mbar":
		return 293
	case "psi":
		return 294
	case "psf":
		return 295
	case "atm":
		return 297
	case "Torr":
		return 298
	case "mmHg":
		return 299
	case "in Hg", "inHg":
		return 300
	case "mm WC", "mmH2O":
		return 301
	case "in H2O", "in WC", "inH2O":
		return 302
	case "kPa s":
		return 333
	case "psi s":
		return 334
	case "CU":
		return 336
	case "J", "joule", "joules":
		return 339
	case "mJ":
		return 340
	case "kJ":
		return 341
	case "MJ":
		return 342
	case "GJ":
		return 343
	case "Wh":
		return 344
	case "kW h", "kWh":
		return 345
	case "MWh":
		return 346
	case "Btu_IT":
		return 347
	case "Btu_th":
		return 348
	case "cal_IT":
		return 349
	case "cal_th":
		return 350
	case "kcal_IT":
		return 351
	case "therm_US":
		return 352
	case "ft lbf":
		return 353
	case "in lbf":
		return 354
	case "kW", "kilowatt", "kilowatts":
		return 355
	case "W", "watt", "watts":
		return 356
	case "MW":
		return 357
	case "hp_mech":
		return 358
	case "hp_el":
		return 359
	case "PS", "hp_metric":
		return 360
	case "cP", "mPa s":
		return 379
	case "V", "volt", "volts":
		return 381
	case "A", "ampere", "amperes":
		return 382
	case "mA":
		return 383
	case "ohm", "Ω":
		return 384
	}
	return -1
}

// lookupAny finds a unit of any kind; a name takes precedence over an alias.
func lookupAny(text string) int {
	switch text {
	case "kg", "kilogram", "kilograms":
		return 0
	case "mg", "milligram", "milligrams":
		return 1
	case "g", "gram", "grams":
		return 2
	case "t", "tonne", "tonnes", "metric ton", "metric tons":
		return 3
	case "lb", "lbs", "pound", "pounds", "lbm":
		return 4
	case "oz", "ounce", "ounces":
		return 5
	case "gr", "grain", "grains":
		return 6
	case "short ton", "short tons", "sh tn", "US ton", "US tons":
		return 7
	case "long ton", "long tons", "imp ton", "imp tons":
		return 8
	case "odt", "bdt", "BDMT":
		return 10
	case "adt", "ADMT":
		return 20
	case "mm", "millimetre", "millimetres", "millimeter", "millimeters":
		return 38
	case "m", "metre", "metres", "meter", "meters":
		return 39
	case "nm", "nanometre", "nanometres":
		return 40
	case "um", "µm", "micrometre", "micrometres", "micron", "microns":
		return 41
	case "cm", "centimetre", "centimetres":
		return 42
	case "km", "kilometre", "kilometres":
		return 43
	case "in", "inch", "inches", "\"":
		return 44
	case "ft", "foot", "feet":
		return 45
	case "yd", "yard", "yards":
		return 46
	case "mi", "mile", "miles":
		return 47
	case "mil", "mils", "thou":
		return 48
	case "pt", "point", "points":
		return 49
	case "min", "minute", "minutes":
		return 50
	case "ms", "millisecond", "milliseconds":
		return 51
	case "s", "sec", "second", "seconds":
		return 52
	case "h", "hr", "hour", "hours":
		return 53
	case "d", "day", "days":
		return 54
	case "week", "weeks", "wk":
		return 55
	case "degC", "°C", "C", "celsius":
		return 56
	case "K", "kelvin", "kelvins":
		return 57
	case "degF", "°F", "F", "fahrenheit":
		return 58
	case "degC_diff":
		return 59
	case "degF_diff":
		return 60
	case "N", "newton", "newtons":
		return 61
	case "mN":
		return 62
	case "kN":
		return 63
	case "daN", "decanewton", "decanewtons":
		return 64
	case "lbf", "pound-force":
		return 65
	case "ozf", "ounce-force":
		return 66
	case "kgf", "kp", "kilogram-force", "kilopond":
		return 67
	case "gf", "gram-force", "pond":
		return 68
	case "mol", "mole", "moles":
		return 69
	case "mmol":
		return 70
	case "umol", "µmol":
		return 71
	case "eq":
		return 72
	case "meq":
		return 73
	case "ueq", "µeq":
		return 74
	case "deg", "°", "degree", "degrees":
		return 75
	case "rad", "radian", "radians":
		return 76
	case "million", "millions":
		return 78
	case "sheets", "sheet", "reels", "fibres":
		return 79
	case "%", "percent", "pct":
		return 82
	case "ppm":
		return 83
	case "g/kg":
		return 84
	case "g/g", "t/t", "lb/lb":
		return 85
	case "mm2/m2":
		return 86
	case "m/100m", "m/100 m", "ft/100ft", "ft/100 ft":
		return 87
	case "kg/kg":
		return 109
	case "kg/t":
		return 110
	case "lb/short ton", "lb/short tons":
		return 111
	case "kg/kg dry air", "lb/lb dry air":
		return 117
	case "g/t":
		return 123
	case "m2", "m²", "sq m":
		return 126
	case "mm2", "mm²":
		return 127
	case "cm2", "cm²", "sq cm":
		return 128
	case "dm2", "dm²":
		return 129
	case "in2", "in²", "sq in":
		return 130
	case "ft2", "ft²", "sq ft":
		return 131
	case "yd2", "yd²":
		return 132
	case "1000ft2", "1000 ft²", "1000 ft2", "MSF", "1000 sq ft":
		return 133
	case "m3", "m³", "cubic metre", "cubic metres":
		return 134
	case "L", "l", "litre", "litres", "liter", "liters", "dm3":
		return 135
	case "mL", "ml", "cm3", "cc":
		return 136
	case "US gal", "gal_US", "US gallon", "US gallons":
		return 137
	case "imp gal", "gal_UK", "imp gallon", "imp gallons":
		return 138
	case "ft3", "cu ft":
		return 139
	case "in3", "cu in":
		return 140
	case "m2/h":
		return 141
	case "m/min", "mpm":
		return 142
	case "m/s":
		return 143
	case "ft/min", "fpm":
		return 144
	case "ft/s", "fps":
		return 145
	case "km/s":
		return 146
	case "m/s2", "m/s²":
		return 147
	case "ft/s2":
		return 148
	case "g_n":
		return 149
	case "1/min", "rpm", "/min", "r/min":
		return 150
	case "Hz", "1/s":
		return 151
	case "t/h", "tonne/h":
		return 152
	case "kg/h":
		return 153
	case "kg/s":
		return 154
	case "t/d", "t/day":
		return 155
	case "lb/h":
		return 156
	case "short ton/h":
		return 157
	case "short ton/d", "short ton/day":
		return 158
	case "odt/h", "bdt/h":
		return 159
	case "odt/d", "bdt/d":
		return 160
	case "m3/h", "m³/h":
		return 173
	case "m3/d":
		return 174
	case "L/s":
		return 175
	case "L/min":
		return 176
	case "L/h":
		return 177
	case "mL/min":
		return 178
	case "US gal/min", "US gpm":
		return 179
	case "imp gal/min", "imp gpm":
		return 180
	case "ft3/min", "cfm":
		return 181
	case "L/(min m)":
		return 182
	case "m3/(min m)":
		return 183
	case "m3/(h cm)":
		return 184
	case "US gal/(min in)":
		return 185
	case "kg/(h m2)", "kg/(h·m²)", "kg/(h.m2)":
		return 186
	case "lb/(h ft2)":
		return 187
	case "g/m2", "gsm", "g/m²":
		return 188
	case "lb/1000ft2", "lb/1000 ft²", "lb/1000 ft2", "lb/MSF", "lb/1000 sq ft":
		return 189
	case "lb/3000ft2", "lb/3000 ft²", "lb/3000 ft2", "lb/24x36-500", "lb/tag", "lb/3000 sq ft":
		return 190
	case "lb/3300ft2", "lb/3300 ft²", "lb/3300 ft2":
		return 191
	case "lb/25x38-500", "lb/book":
		return 192
	case "lb/17x22-500", "lb/bond":
		return 193
	case "lb/20x26-500", "lb/cover":
		return 194
	case "lb/22.5x28.5-500", "lb/bristol":
		return 195
	case "lb/25.5x30.5-500", "lb/index":
		return 196
	case "lb/19x24-500", "lb/blotting":
		return 197
	case "lb/22x28-500", "lb/blanks":
		return 198
	case "lb/24x36-480", "lb/tissue":
		return 199
	case "kg/m3", "kg/m³":
		return 212
	case "g/cm3", "kg/L", "t/m3":
		return 213
	case "lb/ft3":
		return 214
	case "lb/in3":
		return 215
	case "g/L":
		return 216
	case "mg/L", "g/m3":
		return 217
	case "g/mL":
		return 218
	case "cm3/g", "cm³/g", "mL/g", "L/kg":
		return 220
	case "m3/kg":
		return 221
	case "m3/t":
		return 222
	case "dL/g":
		return 223
	case "ft3/lb":
		return 224
	case "m2/kg", "m²/kg":
		return 225
	case "m2/t":
		return 226
	case "mm2/kg":
		return 227
	case "mg/m":
		return 231
	case "ug/m":
		return 232
	case "mg/100m", "mg/100 m", "decigrex":
		return 233
	case "1/kg":
		return 234
	case "1/g":
		return 235
	case "1/t":
		return 236
	case "million/g":
		return 237
	case "1/m2":
		return 238
	case "1/ft2":
		return 239
	case "mol/L":
		return 240
	case "mmol/L":
		return 241
	case "umol/L":
		return 242
	case "eq/L":
		return 243
	case "meq/L":
		return 244
	case "ueq/L":
		return 245
	case "mmol/kg", "umol/g":
		return 246
	case "meq/kg", "ueq/g":
		return 247
	case "1/short ton", "1/short tons":
		return 249
	case "EUR/t":
		return 250
	case "USD/t":
		return 251
	case "GBP/t":
		return 252
	case "EUR/short ton", "EUR/short tons":
		return 253
	case "USD/short ton", "USD/short tons":
		return 254
	case "GBP/short ton", "GBP/short tons":
		return 255
	case "kN/m", "N/mm":
		return 256
	case "N/m":
		return 257
	case "lbf/in", "pli":
		return 258
	case "lbf/6in", "lbf/6 in":
		return 259
	case "kgf/cm":
		return 260
	case "kgf/mm":
		return 261
	case "kgf/15mm", "kgf/15 mm":
		return 262
	case "N/15mm", "N/15 mm":
		return 263
	case "kN.m/kg", "N.m/g", "kN·m/kg":
		return 264
	case "kN.m/g", "MN.m/kg":
		return 265
	case "mN.m2/g", "mN·m²/g":
		return 266
	case "100 gf/(g/m2)":
		return 267
	case "kPa.m2/g", "kPa·m²/g":
		return 275
	case "(gf/cm2)/(g/m2)":
		return 276
	case "psi/lb":
		return 277
	case "mN.m", "mN·m":
		return 278
	case "N.m":
		return 279
	case "lbf.in":
		return 280
	case "gf.cm", "Taber unit", "Taber units":
		return 283
	case "N.m7/kg3":
		return 285
	case "N.m6/kg3":
		return 286
	case "J/m", "W s/m":
		return 287
	case "kPa":
		return 288
	case "Pa":
		return 289
	case "MPa", "N/mm2":
		return 290
	case "GPa":
		return 291
	case "bar":
		return 292
	case "mbar", "hPa":
		return 293
	case "psi", "lbf/in2":
		return 294
	case "lbf/ft2", "psf":
		return 295
	case "kgf/cm2":
		return 296
	case "atm":
		return 297
	case "Torr":
		return 298
	case "mmHg":
		return 299
	case "inHg", "in Hg":
		return 300
	case "mmH2O", "mm WC":
		return 301
	case "inH2O", "in WC", "in H2O":
		return 302
	case "bar(g)", "barg", "bar gauge":
		return 303
	case "kPa(g)", "kPag":
		return 304
	case "psig", "psi(g)", "lbf/in2(g)":
		return 305
	case "Pa(g)":
		return 306
	case "MPa(g)", "N/mm2(g)":
		return 307
	case "GPa(g)":
		return 308
	case "mbar(g)", "hPa(g)":
		return 309
	case "lbf/ft2(g)", "psf(g)":
		return 310
	case "kgf/cm2(g)":
		return 311
	case "atm(g)":
		return 312
	case "Torr(g)":
		return 313
	case "mmHg(g)":
		return 314
	case "inHg(g)", "in Hg(g)":
		return 315
	case "mmH2O(g)", "mm WC(g)":
		return 316
	case "inH2O(g)", "in WC(g)", "in H2O(g)":
		return 317
	case "bar(a)", "bara", "bar abs":
		return 318
	case "kPa(a)", "kPa abs":
		return 319
	case "MPa(a)", "N/mm2(a)":
		return 320
	case "psia", "psi(a)", "lbf/in2(a)":
		return 321
	case "Pa(a)":
		return 322
	case "GPa(a)":
		return 323
	case "mbar(a)", "hPa(a)":
		return 324
	case "lbf/ft2(a)", "psf(a)":
		return 325
	case "kgf/cm2(a)":
		return 326
	case "atm(a)":
		return 327
	case "Torr(a)":
		return 328
	case "mmHg(a)":
		return 329
	case "inHg(a)", "in Hg(a)":
		return 330
	case "mmH2O(a)", "mm WC(a)":
		return 331
	case "inH2O(a)", "in WC(a)", "in H2O(a)":
		return 332
	case "kPa s", "kPa.s", "kN/m per m/s":
		return 333
	case "psi s", "psi.s":
		return 334
	case "um/(Pa s)", "um/(Pa.s)", "µm/(Pa·s)":
		return 335
	case "CU":
		return 336
	case "mL/(min cm2 kPa)":
		return 337
	case "um/Pa":
		return 338
	case "J", "joule", "joules":
		return 339
	case "mJ":
		return 340
	case "kJ":
		return 341
	case "MJ":
		return 342
	case "GJ":
		return 343
	case "Wh":
		return 344
	case "kWh", "kW h":
		return 345
	case "MWh":
		return 346
	case "Btu_IT":
		return 347
	case "Btu_th":
		return 348
	case "cal_IT":
		return 349
	case "cal_th":
		return 350
	case "kcal_IT":
		return 351
	case "therm_US":
		return 352
	case "ft.lbf", "ft lbf":
		return 353
	case "in.lbf", "in lbf":
		return 354
	case "kW", "kilowatt", "kilowatts":
		return 355
	case "W", "watt", "watts":
		return 356
	case "MW":
		return 357
	case "hp_mech", "hp(mech)":
		return 358
	case "hp_el", "hp(el)":
		return 359
	case "hp_metric", "PS":
		return 360
	case "kJ/kg", "J/g", "MJ/t":
		return 361
	case "J/kg":
		return 362
	case "kWh/t":
		return 363
	case "MWh/t":
		return 364
	case "GJ/t":
		return 365
	case "kWh/short ton", "kWh/short tons":
		return 366
	case "hp_mech d/short ton", "hp_mech d/short tons", "hp_mech.d/short ton", "hp_mech.d/short tons":
		return 367
	case "Btu_IT/lb":
		return 368
	case "J/m2", "J/m²":
		return 369
	case "ft.lbf/ft2", "ft lbf/ft²", "ft lbf/ft2":
		return 370
	case "in.lbf/in2":
		return 371
	case "kJ/(kg K)", "kJ/(kg·K)", "kJ/(kg.K)", "J/(g K)":
		return 372
	case "J/(kg K)":
		return 373
	case "Btu_IT/(lb degF)", "Btu_IT/(lb·°F)", "Btu_IT/(lb.degF)":
		return 374
	case "W/(m2 K)", "W/(m²·K)", "W/(m2.K)":
		return 375
	case "Btu_IT/(h ft2 degF)":
		return 376
	case "W/(m K)", "W/(m·K)", "W/(m.K)":
		return 377
	case "Btu_IT/(h ft degF)":
		return 378
	case "mPa.s", "cP", "mPa s":
		return 379
	case "mm2/s2", "cSt/s":
		return 380
	case "V", "volt", "volts":
		return 381
	case "A", "ampere", "amperes":
		return 382
	case "mA":
		return 383
	case "ohm", "Ω":
		return 384
	}
	return -1
}
