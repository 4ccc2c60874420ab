package calls

import (
	"reflect"
	"strings"

	"millmaths.example/paperprop"
	"millmaths.example/paperprop/calc"
	"millmaths.example/stock/line"
)

// A sort of exemption.
type sort uint8

const (
	none    sort = iota
	handsOn      // may give what is not finite; must not panic
	written      // is not called: its arguments stand in source, not in data
)

// An exemption says what a function may do that others may not, and why.
type exemption struct {
	name string // or a beginning, with a star behind it
	sort sort
	why  string
}

// exemptions lists all there are; the test fails on one that fits nothing.
var exemptions = []exemption{
	// What has no door hands on what it was given: no error to refuse with, and
	// zero in its place would be a lie. Texts, tables, inputs and arguments of a
	// calculation come in by doors, which refuse NaN.
	{"QUANTITY.In", handsOn, "one division by a unit"},
	{"QUANTITY.Number", handsOn, "a pointer to the number itself"},
	{"paperprop.Temperature.*", handsOn, "a change of unit, or a sum"},
	{"paperprop.Celsius", handsOn, "a change of unit"},
	{"paperprop.Kelvin", handsOn, "a change of unit"},
	{"paperprop.Fahrenheit", handsOn, "a change of unit"},
	{"paperprop.Unit.From", handsOn, "a change of unit"},
	{"paperprop.Unit.To", handsOn, "a change of unit"},
	{"paperprop.Unit.Convert", handsOn, "a change of unit"},
	{"trim.In", handsOn, "a change of unit"},
	{"line.Result.In", handsOn, "a change of unit"},
	{"calc.Cell.In", handsOn, "a change of unit"},
	{"calc.Cell.Difference", handsOn, "a change of unit"},
	{"calc.Cell.Number", handsOn, "the number as it was put in; Run refuses it"},
	{"calc.Cell.Numbers", handsOn, "the numbers as they were put in; Run refuses them"},
	{"calc.Cell.Printed", handsOn, "the number as it was put in; Run refuses it"},
	{"paperprop.AbsolutePressure.Minus", handsOn, "one difference"},
	{"paperprop.AbsolutePressure.Gauge", handsOn, "one difference"},
	{"paperprop.GaugePressure.Absolute", handsOn, "one sum"},
	{"paperprop.Grammage.OvenDry", handsOn, "one product"},
	{"paperprop.Mass.OvenDry", handsOn, "one product"},
	{"paperprop.MassFlow.OvenDry", handsOn, "one product"},
	{"paperprop.OvenDryMass.AirDry", handsOn, "one quotient"},
	{"paperprop.AirDryMass.OvenDry", handsOn, "one product"},
	{"paperprop.DryContent.Moisture", handsOn, "one difference"},
	{"paperprop.Moisture.DryContent", handsOn, "one difference"},
	{"water.MoistHeatCapacity", handsOn, "one sum of products; a state of air is made by functions with a door"},
	{"water.MoistVolume", handsOn, "one product; a state of air is made by functions with a door"},
	{"water.Air.*", handsOn, "quotients of a state: under 1e300 kPa air has no volume, and under 1e-300 kPa no end of it"},
	{"trim.TermsText.Over", handsOn, "the terms as they were given; a job refuses them"},
	{"trim.OrderText.*", handsOn, "the terms as they were given; a job refuses them"},
	{"trim.Request.Order", handsOn, "the width as it was given; a job refuses it"},
	{"making.Order.Order", handsOn, "that of trim.Request, which it holds"},
	{"making.Takes.List", handsOn, "what a plan takes, in units"},
	{"making.Tonnes.Sold", handsOn, "one sum"},
	{"making.Hours.Sum", handsOn, "one sum"},
	{"line.Solver.Values", handsOn, "the results as they stand; Solve refuses a figure that is no number"},
	{"water.SaturatedVapour", handsOn, "one equation over its whole argument; a state of air is made by functions with a door"},
	{"result.Mean", handsOn, "the sum of what it was given over its number, none for no readings; Summarise has a door"},
	{"result.StandardDeviation", handsOn, "of what it was given; Summarise has a door"},
	{"result.Rest", handsOn, "one difference"},
	{"result.NearWhole", handsOn, "the number that it was given, or the whole one beside it"},
	{"result.FitLine", handsOn, "of what it was given; the calculation line-fit has a door"},
	{"result.Line.*", handsOn, "a line that FitLine drew, at what it was given"},
	{"uncertainty.*", handsOn, "arithmetic over the slopes it was given; a sheet has a door"},
	{"calc.Answer.Numbers", handsOn, "the numbers of an answer as it was made; the tool that makes it has a door"},
	{"formula.Number", handsOn, "a value of what it was given"},
	{"formula.List", handsOn, "a value of what it was given"},
	{"calc.Sheet.Values", handsOn, "the numbers as they stand in the sheet, run or not"},

	// NaN is the answer that their comments name, as package math does.
	{"result.Normal", handsOn, "NaN for what is no probability, as documented"},
	{"result.StudentT", handsOn, "NaN for what is no probability, infinite past the largest float64, as documented"},
	{"result.ChiSquare", handsOn, "NaN for what is no probability, as documented"},
	{"result.F", handsOn, "NaN for what is no probability, as documented"},
	{"result.StudentizedRange", handsOn, "NaN for what is no probability, as documented"},
	{"result.GrubbsLimit", handsOn, "NaN for what is no probability, as documented"},
	{"result.GrubbsLargest", handsOn, "NaN for fewer than 3 readings"},
	{"result.DixonLimit", handsOn, "NaN outside its table, as documented"},
	{"result.Correlation", handsOn, "NaN for lists of two lengths, as documented"},
	{"lab.CleanScans", handsOn, "NaN is a missing reading, as documented; the calculation behind it has a door"},

	// An open end of a range is infinite.
	{"paperprop.Kind.Range", handsOn, "an open end is infinite"},
	{"calc.NewField", handsOn, "an open end is infinite"},
	{"calc.NewWords", handsOn, "an open end is infinite"},
	{"calc.Cell.Range", handsOn, "a range is read against its field"},

	// What describes a calculation is written in source and built by every test
	// of the catalogue: a wrong unit there panics, on nobody's data.
	{"calc.In", written, "describes a calculation"},
	{"calc.InList", written, "describes a calculation"},
	{"calc.InValue", written, "describes a calculation"},
	{"calc.InValues", written, "describes a calculation"},
	{"calc.InWord", written, "describes a calculation"},
	{"calc.Out", written, "describes a calculation"},
	{"calc.OutList", written, "describes a calculation"},
	{"calc.OutPointer", written, "describes a calculation"},
	{"calc.OutText", written, "describes a calculation"},
	{"calc.OutValue", written, "describes a calculation"},
	{"calc.OutValuePointer", written, "describes a calculation"},
	{"calc.OutWord", written, "describes a calculation"},
	{"calc.Pointer", written, "describes a calculation"},
	{"calc.Between", written, "describes a calculation"},
	{"calc.Form.*", written, "describes a calculation"},
	{"calc.Input.*", written, "describes a calculation"},
	{"calc.Output.*", written, "describes a calculation"},

	// A rational is made in source, from a text or a float64 that came by a door;
	// a nil pointer is none, as for package math/big.
	{"paperprop.Unit.ConvertExactly", written, "takes a rational"},
	{"result.ToStep", written, "takes rationals"},
	{"result.FromRat", written, "takes a rational"},
}

// exemptionOf is the exemption of a function, and notes that it was used.
func exemptionOf(name string, used map[string]bool) exemption {
	general := name
	if i := strings.LastIndexByte(name, '.'); quantities[name[:i]] {
		general = "QUANTITY" + name[i:]
	}
	for _, e := range exemptions {
		beginning, star := strings.CutSuffix(e.name, "*")
		if e.name == name || e.name == general || star && strings.HasPrefix(name, beginning) {
			used[e.name] = true
			return e
		}
	}
	return exemption{}
}

// quantities are the types of paperprop, "paperprop.Mass".
var quantities = func() map[string]bool {
	all := map[string]bool{}
	for _, k := range kinds {
		if reflect.PointerTo(k).Implements(reflect.TypeFor[paperprop.Property]()) {
			all[k.String()] = true
		}
	}
	return all
}()

// described says of a type that it belongs to a description: the open ends of its
// ranges are infinite.
func described(t reflect.Type) bool {
	switch t {
	case reflect.TypeFor[calc.Field](), reflect.TypeFor[calc.Info](), reflect.TypeFor[calc.Sheet](), reflect.TypeFor[calc.Cell](),
		reflect.TypeFor[paperprop.Kind](), reflect.TypeFor[line.Line](), reflect.TypeFor[line.Solver]():
		return true
	}
	return false
}
