package catalogue_test

import (
	"fmt"
	"strconv"
	"strings"
	"testing"

	"millmaths.example/paperprop/calc"
	"millmaths.example/paperprop/catalogue"
)

// A limit is where a calculation begins to warn or to refuse: half a per cent
// inside it says nothing, half a per cent outside it says what is wanted. Where
// either side is outside, and where no input goes further, one row is the limit.
type limit struct {
	calculation, inputs string // as in a check table
	inside, outside     string // inputs too, on either side
	says                string // outside: the code of a warning, or that of the error and the input it names
	kind                calc.Status
	source              string
}

// The limits of the formulas. A balance is no rule of anybody; what has no source
// but the calculation's own choice says so.
var limits = []limit{
	{"stock-density", "temperature=20 degC", "consistency=9.95 %", "consistency=10.05 %", "air-filled", calc.Memory, "8 to 10 %"},
	{"filler-retention", "headbox-consistency=1 %; tray-consistency=0.5 %; headbox-ash-share=20 %", "tray-ash-share=39.8 %", "tray-ash-share=40.2 %", "refused tray-ash-share", calc.CommonPractice, "balance: no more filler in the tray than in the headbox"},

	{"ash", "residue-mass=0.2 g; mass=1.5 g; moisture=6 %", "ignition-temperature=500.125 degC", "ignition-temperature=499.875 degC", "range ignition-temperature", calc.CommonPractice, "no source for 25 K"},
	{"ash", "residue-mass=0.2 g; mass=1.5 g; moisture=6 %", "ignition-temperature=549.875 degC", "ignition-temperature=550.125 degC", "refused ignition-temperature", calc.CommonPractice, "no source for 25 K"},
	{"ash", "residue-mass=0.2 g; mass=1.5 g; moisture=6 %", "ignition-temperature=875.125 degC", "ignition-temperature=874.875 degC", "refused ignition-temperature", calc.CommonPractice, "no source for 25 K"},
	{"ash", "residue-mass=0.2 g; mass=1.5 g; moisture=6 %", "ignition-temperature=924.875 degC", "ignition-temperature=925.125 degC", "range ignition-temperature", calc.CommonPractice, "no source for 25 K"},
	{"filler-content", "residue-factor=0.5", "ash-share=49.75 %", "ash-share=50.25 %", "refused filler-share", calc.CommonPractice, "balance: no more filler than sheet"},
	{"kappa-lignin", "lignin-factor=1 %", "kappa-number=99.5", "kappa-number=100.5", "refused lignin-share", calc.CommonPractice, "balance: no more lignin than pulp"},
	{"kappa", "dry-mass=2 g; blank-volume=50 mL; normality=0.2 eq/L; temperature=[25] degC", "titrant-volume=39.95 mL", "titrant-volume=40.05 mL", "consumption", calc.Published, "ISO 302: from 20 %"},
	{"kappa", "dry-mass=2 g; blank-volume=50 mL; normality=0.2 eq/L; temperature=[25] degC", "titrant-volume=20.15 mL", "titrant-volume=19.85 mL", "consumption", calc.Published, "ISO 302: to 60 %"},
	{"kappa", "dry-mass=2 g; titrant-volume=25 mL; normality=0.2 eq/L; temperature=[25] degC", "blank-volume=45.225 mL", "blank-volume=44.775 mL", "other-volume", calc.CommonPractice, "own choice about the 100 mL of T 236 (memory)"},
	{"kappa", "dry-mass=2 g; titrant-volume=25 mL; normality=0.2 eq/L; temperature=[25] degC", "blank-volume=54.725 mL", "blank-volume=55.275 mL", "other-volume", calc.CommonPractice, "own choice about the 100 mL of T 236 (memory)"},
	// With a constant of zero the product is the ratio less 1.
	{"limiting-viscosity", "concentration=0.0036 g/mL; martin-constant=0", "viscosity-ratio=3.613", "viscosity-ratio=3.587", "product", calc.Memory, "ISO 5351: from 2.6"},
	{"limiting-viscosity", "concentration=0.0036 g/mL; martin-constant=0", "viscosity-ratio=4.383", "viscosity-ratio=4.417", "product", calc.Memory, "ISO 5351: to 3.4"},
	{"freeness", "consistency=0.30 %; temperature=20.0 degC", "volume=100.5 mL", "volume=99.5 mL", "false-freeness", calc.Published, "a method seen: below 100 mL false freeness may occur"},
	{"schopper-riegler", "", "volume=899.5 mL", "volume=900.5 mL", "out-of-range", calc.Published, "ISO 5267-1, abstract: from 10"},
	{"schopper-riegler", "", "volume=104.5 mL", "volume=95.5 mL", "out-of-range", calc.Published, "ISO 5267-1, abstract: to 90"},
	{"fibre-length", "class-count=[10]; lower-limit=1 mm", "class-length=[1.005] mm", "class-length=[0.995] mm", "refused class-count", calc.CommonPractice, "definition: shorter ones are left out"},
	{"yield", "paper-moisture=8 %; bale-mass=100 t; bale-moisture=8 %", "paper-mass=99.5 t", "paper-mass=100.5 t", "refused yield", calc.CommonPractice, "balance: no more comes out than went in"},

	{"air-permeance", "volume=100 mL; area=10 cm2; pressure-difference=1 kPa", "time=995 s", "time=1005 s", "out-of-range", calc.Published, "ISO 5636-5, abstract: from 0.1 um/(Pa.s)"},
	{"air-permeance", "volume=100 mL; area=10 cm2; pressure-difference=1 kPa", "time=1.005 s", "time=0.995 s", "out-of-range", calc.Published, "ISO 5636-5, abstract: to 100 um/(Pa.s)"},
	{"air-permeance-flow", "pressure-difference=1 kPa", "volume-flow=21.105 mL/min", "volume-flow=20.895 mL/min", "out-of-range", calc.Published, "ISO 5636-3, abstract: from 0.35 um/(Pa.s), which is 21 mL/min here"},
	{"air-permeance-flow", "pressure-difference=1 kPa", "volume-flow=895.5 mL/min", "volume-flow=904.5 mL/min", "out-of-range", calc.Published, "ISO 5636-3, abstract: to 15 um/(Pa.s), which is 900 mL/min here"},
	{"gurley", "gurley-constant=127 um/Pa", "time=5.025 s", "time=4.975 s", "out-of-range", calc.Published, "T 460, draft of 2006: from 5 s"},
	{"gurley", "gurley-constant=127 um/Pa", "time=1791 s", "time=1809 s", "out-of-range", calc.Published, "T 460, draft of 2006: to 1800 s"},
	{"two-point-bending", "force=21 mN; bending-length=50 mm", "angle=7.4625 deg", "angle=7.5375 deg", "large-angle", calc.CommonPractice, "no source for 7.5 deg"},
	{"bending-resistance", "force=38 mN; grammage=121.4 g/m2", "angle=15.000995 deg", "angle=15.001005 deg", "refused angle", calc.CommonPractice, "own choice: a thousandth is lost in a conversion"},
	{"bending-resistance", "force=38 mN; grammage=121.4 g/m2", "angle=7.500995 deg", "angle=7.501005 deg", "refused angle", calc.CommonPractice, "own choice: a thousandth is lost in a conversion"},
	{"bending-resistance", "force=38 mN; grammage=121.4 g/m2", "bending-length=50 mm", "bending-length=49.75 mm", "not-comparable", calc.Published, "AS/NZS 1301.453:2016, excerpt"},
	{"bending-resistance", "force=38 mN; grammage=121.4 g/m2", "bending-length=50 mm", "bending-length=50.25 mm", "not-comparable", calc.Published, "AS/NZS 1301.453:2016, excerpt"},
	{"burst", "grammage=80 g/m2", "burst-strength=70.35 kPa", "burst-strength=69.65 kPa", "out-of-range", calc.Published, "ISO 2758, abstract: from 70 kPa"},
	{"burst", "grammage=80 g/m2", "burst-strength=5472.5 kPa", "burst-strength=5527.5 kPa", "out-of-range", calc.Published, "ISO 2759, abstract: to 5500 kPa"},
	{"grammage", "mass=0.8 g", "area=100.5 cm2", "area=99.5 cm2", "small-piece", calc.Published, "AS 1301.405:2021: from 100 cm2"},
	{"short-span", "force=33.1 N; grammage=127 g/m2", "thickness=140.7 um", "thickness=139.3 um", "thin-sheet", calc.Published, "T 826: span of 0.70 mm, at most 5 thicknesses"},
	{"ring-crush", "force=250 N; grammage=130 g/m2", "thickness=281.4 um", "thickness=278.6 um", "thin-sheet", calc.Published, "scopes of ISO 12192 and T 822: below 280 um"},
	{"ring-crush", "force=250 N; grammage=130 g/m2", "thickness=577.1 um", "thickness=582.9 um", "out-of-range", calc.Published, "scope of ISO 12192:2011: to 580 um"},
	{"tensile-curve", "force=[0 20 30] N; span=100 mm; grammage=80 g/m2", "elongation=[0.00199 0.5 2] mm", "elongation=[0.00201 0.5 2] mm", "refused elongation", calc.CommonPractice, "own choice: zero within a thousandth of the whole"},

	// W is Y - 29.41 and T -1.055; then W is Y and T 0; then T is 1000*(0.3127 - x).
	{"whiteness", "x-chromaticity=0.324; y-chromaticity=0.3435; white-x-chromaticity=0.3138; white-y-chromaticity=0.331; observer=ten-degree", "y-tristimulus=69.61", "y-tristimulus=69.21", "out-of-range", calc.Published, "CIE 15:2004 in a colour library's documentation: 40 < W"},
	{"whiteness", "x-chromaticity=0.3138; y-chromaticity=0.331; white-x-chromaticity=0.3138; white-y-chromaticity=0.331; observer=ten-degree", "y-tristimulus=70.35", "y-tristimulus=69.65", "out-of-range", calc.Published, "CIE 15:2004 in a colour library's documentation: W < 5Y - 280"},
	{"whiteness", "y-tristimulus=90; y-chromaticity=0.329; white-x-chromaticity=0.3127; white-y-chromaticity=0.329; observer=two-degree", "x-chromaticity=0.31071", "x-chromaticity=0.31069", "out-of-range", calc.Published, "CIE 15:2004 in a colour library's documentation: T < 2"},
	{"whiteness", "y-tristimulus=90; y-chromaticity=0.329; white-x-chromaticity=0.3127; white-y-chromaticity=0.329; observer=two-degree", "x-chromaticity=0.31668", "x-chromaticity=0.31672", "out-of-range", calc.Published, "CIE 15:2004 in a colour library's documentation: -4 < T"},
	{"whiteness", "y-tristimulus=90; x-chromaticity=0.5; white-x-chromaticity=0.5; white-y-chromaticity=0.5; observer=two-degree", "y-chromaticity=0.4995", "y-chromaticity=0.505", "refused y-chromaticity", calc.CommonPractice, "definition: x, y and z make 1"},
	{"light-coefficients", "pad-reflectance=80 %; grammage=80 g/m2", "black-reflectance=75.62 %", "black-reflectance=76.38 %", "opaque", calc.Published, "scope of ISO 9416:2017: opacity below about 95 %"},
	{"pad-reflectance", "black-reflectance=70 %; backed-reflectance=78 %", "backing-reflectance=89.4975 %", "backing-reflectance=89.5025 %", "other-backing", calc.CommonPractice, "own choice: half a per cent beside the 89 % of T 425"},
	{"pad-reflectance", "black-reflectance=70 %; backed-reflectance=78 %", "backing-reflectance=88.5025 %", "backing-reflectance=88.4975 %", "other-backing", calc.CommonPractice, "own choice: half a per cent beside the 89 % of T 425"},
	{"pad-reflectance", "black-reflectance=70 %", "backed-reflectance=89.59 %", "backed-reflectance=92.89 %", "refused backed-reflectance", calc.Library, "Kubelka and Munk: a = 1, without absorption, at 91.24 %"},

	{"box-compression", "edge-crush=4.9 kN/m; perimeter=1 m", "thickness=99.5 mm", "thickness=100.5 mm", "refused thickness", calc.CommonPractice, "own choice: a tenth of the perimeter"},
	{"box-compression", "edge-crush=4.9 kN/m; perimeter=1.4 m; thickness=3.9 mm", "height=201 mm", "height=199 mm", "low-box", calc.CommonPractice, "above a seventh of the perimeter"},
	{"box-compression-full", "edge-crush=4.9 kN/m; md-bending-stiffness=11.3 N.m; cd-bending-stiffness=5.2 N.m; perimeter=1.4 m", "height=201 mm", "height=199 mm", "low-box", calc.CommonPractice, "above a seventh of the perimeter"},
	{"take-up-measured", "board-length=1 m", "fluting-length=1.15575 m", "fluting-length=1.14425 m", "out-of-range", calc.CommonPractice, "from 1.15"},
	{"take-up-measured", "board-length=1 m", "fluting-length=1.64175 m", "fluting-length=1.65825 m", "out-of-range", calc.CommonPractice, "to 1.65"},
	{"stack-layers", "box-height=236 mm", "stack-height=237.18 mm", "stack-height=234.82 mm", "refused stack-height", calc.CommonPractice, "geometry: one box"},
	{"stacking", "box-compression=2.06 kN; mass=8.4 kg; layers=8", "multiplier=[0.6 0.8 0.995]", "multiplier=[0.6 0.8 1]", "few-multipliers", calc.Memory, "handbooks have three: time, humidity, pattern"},
	{"stacking", "mass=10 kg; layers=11; multiplier=[0.5 0.5 0.5]", "box-compression=7.884546 kN", "box-compression=7.806094 kN", "overload", calc.CommonPractice, "balance: 100 kg weigh 980.665 N, an eighth is allowed"},
	{"stack-offset", "", "offset-share=9.95 %", "offset-share=10.05 %", "out-of-range", calc.CommonPractice, "no source for 10 %"},
	{"stack-offset", "loss-ratio=20", "offset-share=4.975 %", "offset-share=5.025 %", "refused offset-share", calc.CommonPractice, "balance: no more is lost than there is"},

	{"humid-air", "temperature=95 degC", "dew-point=84.575 degC", "dew-point=85.425 degC", "ideal-gas", calc.Published, "table values of the handbook were compared to 85 degC"},
	{"humid-air", "temperature=60 degC", "humidity-ratio=0.1516554 kg/kg", "humidity-ratio=0.1531796 kg/kg", "range humidity-ratio", calc.Library, "equation 6 of the handbook at 101.325 kPa, evaluated in Python 3: 0.1524175 kg/kg"},
	{"humid-air", "temperature=60 degC", "vapour-pressure=19.84404 kPa(a)", "vapour-pressure=20.04348 kPa(a)", "range vapour-pressure", calc.Library, "equation 6 of the handbook, evaluated in Python 3: 19.94376 kPa"},
	{"steam-per-water", "gauge-pressure=0 bar(g)", "heat-per-water=2608.5 kJ/kg", "heat-per-water=2582.5 kJ/kg", "too-little-steam", calc.CommonPractice, "own choice: 1.15 kg/kg; 2256.5 kJ/kg of latent heat by IAPWS-IF97"},
	{"dryer-steam", "paper-flow=30 t/h; dryness-in=48 %; moisture-out=8 %; temperature-in=45 degC; evaporation-temperature=82 degC; fibre-heat-capacity=1.4 kJ/(kg K); other-heat-share=15 %; pressure=1 bar(a)", "temperature-out=99.605 degC", "temperature-out=99.607 degC", "steam-colder-than-web", calc.Published, "IAPWS R7-97(2012) Table 36, as carried in the tests of a public steam-table port: 372.755919 K"},
	// Saturated air holds 0.1524175 kg/kg at 60 degC.
	{"air-heating", "air-flow=96 t/h; temperature-in=35 degC; temperature-out=60 degC", "humidity-ratio=0.1516554 kg/kg", "humidity-ratio=0.1531796 kg/kg", "condensing", calc.Library, "equation 6 of the handbook at 101.325 kPa, evaluated in Python 3"},
	{"air-heating", "air-flow=96 t/h; temperature-in=35 degC; humidity-ratio=0.05 kg/kg", "temperature-out=199 degC", "temperature-out=201 degC", "hot-air", calc.CommonPractice, "own choice: 1 % for dry air from 20 degC"},
	{"air-heating", "air-flow=96 t/h; temperature-out=35 degC; humidity-ratio=0.01 kg/kg", "temperature-in=199 degC", "temperature-in=201 degC", "hot-air", calc.CommonPractice, "own choice: 1 % for dry air from 20 degC"},
	{"size-press-evaporation", "grammage=120 g/m2; moisture-out=7.5 %; pick-up-grammage=4.29 g/m2; solids=9.5 %; size-moisture-in=4 %", "dryness-in=95.52 %", "dryness-in=96.48 %", "refused dryness-in", calc.CommonPractice, "balance: dryers do not wet the web"},

	{"compression-factor", "reel-thickness=100 um", "thickness=80.4 um", "thickness=79.6 um", "unlikely-compression", calc.Memory, "from 0.8"},
	{"compression-factor", "reel-thickness=100 um", "thickness=149.25 um", "thickness=150.75 um", "unlikely-compression", calc.Memory, "to 1.5"},
	{"reel-mass", "diameter=1250 mm; core-diameter=100 mm; reel-width=1080 mm; reel-thickness=100 um", "grammage=30.15 g/m2", "grammage=29.85 g/m2", "unlikely-roll-density", calc.Memory, "from 300 kg/m3"},
	{"reel-mass", "diameter=1250 mm; core-diameter=100 mm; reel-width=1080 mm; reel-thickness=100 um", "grammage=139.3 g/m2", "grammage=140.7 g/m2", "unlikely-roll-density", calc.Memory, "to 1400 kg/m3"},

	{"grubbs", "side=either", "value=[1 2 3 5] N", "value=[1 2 4] N", "few-readings", calc.CommonPractice, "own choice: of three 1.1547 is the largest statistic, 1.1543 critical"},
	// z/h squared is the number by the normal quantile, z = 1.959963984540054.
	{"sample-size", "coefficient-of-variation=100 %", "relative-half-width=0.006213503548 %", "relative-half-width=0.006182513569 %", "refused relative-half-width", calc.CommonPractice, "own choice: 1e9 readings"},
	{"propagate", "model=f = a + b; method=first-order; a=1 +- 0.1; b=1 +- 0.1", "corr(a,b)=0.995", "corr(a,b)=1.005", "refused corr(a,b)", calc.CommonPractice, "definition of a correlation"},
	{"propagate", "model=f = a - b; method=first-order; a=1 +- 0.1; b=1 +- 0.1", "corr(a,b)=-0.995", "corr(a,b)=-1.005", "refused corr(a,b)", calc.CommonPractice, "definition of a correlation"},
}

// wrong is what a limit says that it should not say, or nothing.
func (l *limit) wrong() string {
	for _, side := range []struct{ given, want string }{{l.inside, ""}, {l.outside, l.says}} {
		if got := said(l.calculation, l.inputs+";"+side.given); got != side.want {
			return fmt.Sprintf("%s says %q, want %q", side.given, got, side.want)
		}
	}
	return ""
}

// said is what a calculation says of its inputs: the codes of its warnings, or
// that of its error and the input that this names.
func said(name, inputs string) string {
	pairs, err := calc.ParsePairs(inputs)
	if err != nil {
		return err.Error()
	}
	c, ok := catalogue.Find(name)
	if !ok {
		return "no calculation"
	}
	if tool, ok := c.(*calc.Tool); ok {
		_, err = tool.Run(pairs)
		return codes(nil, err)
	}
	s := c.NewSheet()
	if err := s.SetPairs(pairs); err != nil {
		return err.Error()
	}
	err = s.Run()
	return codes(s.Warnings(), err)
}

func codes(warnings calc.Warnings, err error) string {
	if err != nil {
		code, input := calc.Code(err)
		return strings.TrimSpace(code + " " + input)
	}
	var all []string
	for _, w := range warnings {
		all = append(all, w.Code)
	}
	return strings.Join(all, " ")
}

func TestLimits(t *testing.T) {
	for _, l := range limits {
		if wrong := l.wrong(); wrong != "" {
			t.Errorf("%s %s: %s (%s: %s)", l.calculation, l.inputs, wrong, l.kind, l.source)
		}
	}
}

// At a limit itself, and a part in a thousand million inside it, nothing is said yet; as
// much outside it is. The limit lies midway between the two sides of its row.
func TestWarningsBeginAtTheirLimit(t *testing.T) {
	tried := 0
	for _, l := range limits {
		if !l.exact() {
			continue
		}
		if wrong := l.wrongNear(); wrong != "" {
			t.Errorf("%s %s: %s (%s: %s)", l.calculation, l.inputs, wrong, l.kind, l.source)
		}
		tried++
	}
	if tried < 25 {
		t.Errorf("%d limits were tried, want 25 or more", tried)
	}
}

// exact says whether the limit is a number that somebody wrote, between two sides of
// its row. Those of refusals are named in their texts.
func (l *limit) exact() bool {
	name, _, _ := oneNumber(l.inside)
	other, _, _ := oneNumber(l.outside)
	code, _, refused := strings.Cut(l.says, " ")
	return name != "" && name == other && !refused && l.kind != calc.Library && l.calculation != "propagate" &&
		code != "too-little-steam" && code != "steam-colder-than-web" && code != "not-comparable" // computed; not midway
}

// wrongNear is what the limit says at a distance of 1e-9, or on it, that it should not
// say, or nothing.
func (l *limit) wrongNear() string {
	name, inside, unit := oneNumber(l.inside)
	_, outside, _ := oneNumber(l.outside)
	edge, err := strconv.ParseFloat(strconv.FormatFloat((inside+outside)/2, 'g', 10, 64), 64)
	if err != nil {
		return err.Error()
	}
	at := ""
	if endsBefore[l.calculation] {
		at = l.says
	}
	for _, side := range []struct {
		number float64
		want   string
	}{{edge + 1e-7*(inside-edge), ""}, {edge, at}, {edge + 1e-7*(outside-edge), l.says}} {
		given := fmt.Sprintf("%s=%s %s", name, strconv.FormatFloat(side.number, 'g', -1, 64), unit)
		if got := said(l.calculation, l.inputs+";"+given); got != side.want {
			return fmt.Sprintf("%s says %q, want %q", given, got, side.want)
		}
	}
	return ""
}

// endsBefore are the calculations whose limit is itself outside: "above a seventh of
// the perimeter", and T < 2.
var endsBefore = map[string]bool{"whiteness": true, "box-compression": true, "box-compression-full": true}

// oneNumber reads "volume=100.5 mL"; of a list there is no number.
func oneNumber(given string) (name string, value float64, unit string) {
	name, text, _ := strings.Cut(given, "=")
	number, unit, _ := strings.Cut(text, " ")
	value, err := strconv.ParseFloat(number, 64)
	if err != nil {
		return "", 0, ""
	}
	return name, value, unit
}

// met are inputs that make a limit exactly, where floats leave something behind the
// last digits: what is said there, of an output, or as the text of the error.
var met = []struct{ calculation, inputs, output, want string }{
	{"evaporation", "dryness-in=94.1 %; moisture-out=5.9 %; paper-flow=10 t/h", "", "dryness-in is 94.1 %, want below that of the paper, 94.1 %"},
	{"evaporation-per-tonne", "dryness-in=94.1 %; moisture-out=5.9 %", "", "dryness-in is 94.1 %, want below that of the paper, 94.1 %"},
	{"sheet-heat", "dryness-in=94.1 %; moisture-out=5.9 %; temperature-in=40 degC; evaporation-temperature=80 degC; temperature-out=90 degC; " +
		"fibre-heat-capacity=1.3 kJ/(kg K)", "", "dryness-in is 94.1 %, want below that of the paper, 94.1 %"},
	{"dryer-steam", "paper-flow=10 t/h; dryness-in=94.1 %; moisture-out=5.9 %; temperature-in=40 degC; evaporation-temperature=80 degC; " +
		"temperature-out=90 degC; fibre-heat-capacity=1.3 kJ/(kg K); other-heat-share=10 %; gauge-pressure=3 bar(g)", "", "dryness-in is 94.1 %, want below that of the paper, 94.1 %"},
	{"desorption-heat", "dryness-in=94.1 %; moisture-out=5.9 %; temperature=90 degC; model=heikkila", "", "dryness-in is 94.1 %, want below that of the paper, 94.1 %"},
	{"dryer-groups", "dryness-in=94.1 %; moisture-out=5.9 %; pressure=[2] bar(a); cylinders=[7]; web-temperature=80 degC", "", "dryness-in is 94.1 %, want below that of the paper, 94.1 %"},
	{"press-gain", "dryness=45 %; new-dryness=94.1 %; moisture-out=5.9 %", "", "new-dryness is 94.1 %, want below that of the paper, 94.1 %"},
	{"hood", "evaporation=10 t/h; exhaust-humidity-ratio=0.006878 kg/kg; supply-humidity-ratio=0.0072 kg/kg; leak-humidity-ratio=0.0065 kg/kg; supply-share=54 %",
		"", "exhaust-humidity-ratio is 0.006878 kg/kg, want above 0.006878 kg/kg, that of supply and leak air together"},
	{"hood", "evaporation=10 t/h; exhaust-dew-point=0 degC; supply-humidity-ratio=0.01 kg/kg; leak-humidity-ratio=0.014 kg/kg; supply-share=72 %",
		"", "exhaust-dew-point is 0 degC, want that of a humidity ratio above 0.01112 kg/kg, that of supply and leak air together"},
	{"flash-steam", "condensate-flow=100 kg/h; gauge-pressure-in=4.4 bar(g); pressure-out=5.41325 bar(a)", "", "pressure-out is 5.41325 bar(a), want below 5.41325 bar(a), the pressure before"},
	{"flash-steam", "condensate-flow=100 kg/h; gauge-pressure-in=-1.007 bar(g); pressure-out=0.00625 bar(a)", "", "pressure-out is 0.00625 bar(a), want below 0.00625 bar(a), the pressure before"},
	{"free-air", "volume-flow=100 m3/h; vacuum=130.98 kPa; temperature=40 degC; atmospheric-pressure=1.3098 bar(a)", "", "vacuum is 130.98 kPa, want below the atmosphere, 130.98 kPa"},
	{"size-press-evaporation", "grammage=35.7 g/m2; moisture-out=12.9 %; pick-up-grammage=31.0947 g/m2; solids=10 %; dryness-in=45 %; size-moisture-in=4 %",
		"", "pick-up-grammage is 31.0947 g/m2, want below the dry grammage of the paper, 31.0947 g/m2"},
	{"size-press-evaporation", "grammage=80 g/m2; moisture-out=7.5 %; pick-up-grammage=2 g/m2; solids=10 %; dryness-in=94.1 %; size-moisture-in=5.9 %",
		"", "dryness-in is 94.1 %, want below that before the size press, 94.1 %"},
	{"size-press-evaporation", "grammage=80 g/m2; moisture-out=7.5 %; pick-up-grammage=0 g/m2; solids=10 %; dryness-in=45 %; size-moisture-in=7.5 %", "after-dryer-water", "0 g/m2"},
	{"humid-air", "temperature=5 degC; wet-bulb=0 degC; atmospheric-pressure=0.95 bar(a)", "wet-bulb", "0 degC"},
	{"humid-air", "temperature=0 degC; dew-point=0 degC; atmospheric-pressure=0.627252 bar(a)", "wet-bulb", "0 degC"},
	{"humid-air", "temperature=0 degC; wet-bulb=0 degC; atmospheric-pressure=0.63 bar(a)", "dew-point", "0 degC"},
	{"humid-air", "temperature=5 degC; wet-bulb=-0.001 degC", "", "wet-bulb is -0.001 degC, want 0 degC to 200 degC"},
	{"air-heating", "air-flow=10 t/h; temperature-in=84 degC; temperature-out=-1 degC; humidity-ratio=0.15 kg/kg", "heat-flow", "-303.403 kW, warns condensing"},
	{"air-heating", "air-flow=10 t/h; temperature-in=20 degC; temperature-out=-1 degC; humidity-ratio=0.0037 kg/kg", "heat-flow", "-59.0848 kW"},
	{"reel-count", "ordered-mass=0.3 t; reel-width=1080 mm; diameter=1250 mm; core-diameter=100 mm; roll-density=645 kg/m3; under-run=5 %; over-run=5 %", "",
		"ordered-mass is 0.3 t, want what whole reels make within under-run and over-run; the nearest are 1 with 0.849386 t and 2 with 1.69877 t"},
	{"reel-count-by-diameter", "ordered-mass=0.3 t; reel-width=1080 mm; least-diameter=1000 mm; most-diameter=1250 mm; core-diameter=100 mm; roll-density=645 kg/m3", "",
		"ordered-mass is 0.3 t, want at least 0.541637 t, one reel of least-diameter"},
	{"blend", "mass-flow=[0 0] t/h; consistency=[1 2] %", "", "mass-flow is 0 t/h, want a sum above zero"},
	{"blend", "mass-flow=[10 20] t/h; consistency=[0 0] %", "consistency-out", "0 %"},
	{"blend", "mass-flow=[10 20] t/h; consistency=[0 0] %", "dry-share", "none"},
	{"broke", "paper-flow=10 t/h; moisture=97 %; broke-rate=100 %; consistency=3 %", "water-flow", "0 t/h"},
	{"consistency", "sample-mass=[250] g; filter-mass=[1.1] g; dry-filter-mass=[1.1] g", "consistency", "0 %"},
	{"dewatering", "paper-flow=10 t/h; dryness=[20 20] %", "", "dryness is 20 %, want the last above the first, 20 %"},
	{"dewatering", "paper-flow=10 t/h; dryness=[20 20 50] %", "total-water-per-dry", "3 kg/kg"},
	{"dilution", "mass-flow=10 t/h; consistency-in=4 %; consistency-out=1 %; water-consistency=1 %", "", "consistency-out is 1 %, want above water-consistency 1 % and at most consistency-in 4 %"},
	{"make-down", "product-mass=1000 kg; active-share=88 %; steam-mass=1100 kg; solids=60 %", "", "solids is 60 %, want at most 41.9048 %: product and steam give no more"},
	{"pulping-batch", "bale-mass=1240 kg; bale-moisture=95.4 %; consistency=4.6 %; water-consistency=0.19 %", "water-mass", "0 kg"},
	{"pulping-batch", "bale-mass=1240 kg; bale-moisture=11.5 %; consistency=0.19 %; water-consistency=0.19 %", "", "consistency is 0.19 %, want above water-consistency 0.19 %"},
	{"pulper-charge", "volume=28 m3; consistency=0.19 %; density=1004.68 kg/m3; bale-moisture=11.5 %; water-consistency=0.19 %", "", "consistency is 0.19 %, want above water-consistency 0.19 %"},
	{"pulper-charge", "volume=28 m3; consistency=3 %; density=1000 kg/m3; bale-moisture=97 %; water-consistency=0.19 %", "", "bale-moisture is 97 %, want bales drier than the consistency of 3 %"},
	{"filler-retention", "headbox-consistency=1 %; headbox-ash-share=60 %; tray-consistency=0.8 %; tray-ash-share=10 %", "", "tray-ash-share is 10 %, want at least 50 %: more fibre in the tray than in the headbox"},
	{"screening", "feed-volume-flow=100 m3/h; reject-volume-flow=7 m3/h; feed-consistency=0.7 %; reject-consistency=10 %", "accept-consistency", "0 %"},
	{"screening", "feed-volume-flow=100 m3/h; reject-volume-flow=10 m3/h; feed-consistency=95 %; reject-consistency=1 %", "", "reject-consistency is 1 %, want at least 50 %: the accepts would hold more than 100 % of dry matter"},
	{"screening", "feed-volume-flow=100 m3/h; reject-volume-flow=10 m3/h; feed-consistency=95 %; reject-consistency=50 %", "accept-consistency", "100 %"},
	{"total-solids", "dish-mass=38 g; wet-dish-mass=38 g; dry-dish-mass=38 g", "", "wet-dish-mass is 38 g, want above dish-mass 38 g"},
	{"total-solids", "dish-mass=38 g; wet-dish-mass=48 g; dry-dish-mass=38 g", "total-solids", "0 %"},
	{"total-solids", "dish-mass=38 g; wet-dish-mass=48 g; dry-dish-mass=48 g", "total-solids", "100 %"},
	{"thickening", "mass-flow=10 t/h; consistency-in=1 %; consistency-out=4 %; filtrate-consistency=1 %", "", "consistency-in is 1 %, want above filtrate-consistency 1 %"},
	{"ash", "mass=2 g; moisture=5 %; residue-mass=1.9 g; ignition-temperature=525 degC", "ash-share", "100 %"},
	{"ash", "mass=2 g; moisture=5 %; residue-mass=1.95 g; ignition-temperature=525 degC", "", "residue-mass is 1.95 g, want at most the dry sample, 1.9 g"},
	{"filler-content", "ash-share=20 %; residue-factor=0.2", "filler-share", "100 %"},
	{"h-factor", "time=[0 0] min; temperature=[100 110] degC", "", "time is 0 min, want above 0 min, the reading before it"},
	{"freeness", "volume=100 mL; consistency=0.30 %; temperature=20.0 degC; volume-correction=-100 mL", "freeness", "0 mL, warns false-freeness"},
	{"freeness", "volume=100 mL; consistency=0.30 %; temperature=20.0 degC; volume-correction=-101 mL", "", "volume-correction is -101 mL, want at least -100 mL: freeness is not below 0"},
	{"kappa-lignin", "kappa-number=500; lignin-factor=0.2 %", "lignin-share", "100 %"},
	{"water-retention-value", "moist-mass=1.7020 g; dry-mass=0.7211 g", "water-retention-value", "1.36 kg/kg"},
	{"steam-heating", "mass-flow=200 t/h; consistency-in=4 %; temperature-in=45 degC; temperature-out=110 degC; gauge-pressure=0.4 bar(g); fibre-heat-capacity=1.4 kJ/(kg K)", "", // 1.4338 bar at 110 degC by steam tables, from memory
		"gauge-pressure is 0.4 bar(g), want above 0.42051 bar(g): there steam condenses at temperature-out 110 degC"},
	// More digits tell a value from what it must not pass.
	{"trim-loss", "deckle=0.3 m; reel-width=[0.1 0.2000001] m", "", "reel-width is 0.3000001 m, want a sum of at most the deckle, 0.3 m"},
	{"plan-trim-loss", "deckle=3300 mm; used-width=[3060 3300.0000001] mm; runs=[1 2]", "", "used-width is 3300.0000001 mm, want at most the deckle, 3300 mm"},
	{"sets", "jumbo-length=1000.00005 m; reel-length=1000.0001 m", "", "jumbo-length is 1000.00005 m, want at least reel-length and lost-length, 1000.0001 m: not one whole set"},
	{"reel", "diameter=100.0000001 mm; core-diameter=100.0000002 mm; reel-thickness=1 um", "", "diameter is 100.0000001 mm, want above core-diameter 100.0000002 mm"},
	{"reel", "diameter=100 mm; core-diameter=100 mm; reel-thickness=1 um", "", "diameter is 100 mm, want above core-diameter 100 mm"},
	{"density", "grammage=64.26 g/m2; thickness=42 um; fibre-density=1530 kg/m3", "void-share", "0 %"},
	{"coat-weight", "coated-grammage=30 g/m2; base-grammage=28.8 g/m2; coated-moisture=4 %; base-moisture=0 %", "coat-dry-grammage", "0 g/m2"},
	{"light-coefficients", "black-reflectance=66.5 %; pad-reflectance=70 %; grammage=80 g/m2", "opacity", "95 %"},
	{"pad-reflectance", "black-reflectance=66.5 %; backed-reflectance=70 %; backing-reflectance=88.5 %", "contrast-ratio", "95 %"},
	{"optical-mix", "share=[50 50.0000001] %; scattering=[40 50] m2/kg; absorption=[1 2] m2/kg", "mix-scattering", "45 m2/kg"},
	{"optical-mix", "share=[50 50.0000002] %; scattering=[40 50] m2/kg; absorption=[1 2] m2/kg", "", "share is 100.0000002 % in all, want 100 % within 1e-07 %"},
	{"pad-reflectance", "black-reflectance=80 %; backed-reflectance=87.5 %; backing-reflectance=75 %", "pad-reflectance", "100 %, warns other-backing"},
	{"whiteness", "y-tristimulus=90; x-chromaticity=0.6; y-chromaticity=0.4; white-x-chromaticity=0.6; white-y-chromaticity=0.4; observer=two-degree", "whiteness", "90"},
	{"whiteness", "y-tristimulus=90; x-chromaticity=0.6; y-chromaticity=0.41; white-x-chromaticity=0.6; white-y-chromaticity=0.4; observer=two-degree",
		"", "y-chromaticity is 0.41, want at most 0.4 beside x-chromaticity 0.6: x, y and z add up to 1"},
	// The hue is below 360 degrees by less than a float can tell.
	{"cielab", "x-tristimulus=1000; y-tristimulus=0; z-tristimulus=1e-15; white-x=1; white-y=1; white-z=1", "hue", "0 deg"},
	{"moisture", "moist-mass=40 g; dry-mass=37.1 g", "moisture", "7.2 %"}, // 7.25 %, to the even tenth
	{"moisture-in-dish", "dish-mass=35 g; moist-dish-mass=35 g; dry-dish-mass=35 g", "", "moist-dish-mass is 35 g, want above dish-mass 35 g"},
	{"moisture-in-dish", "dish-mass=35 g; moist-dish-mass=48 g; dry-dish-mass=35 g", "", "dry-dish-mass is 35 g, want above dish-mass 35 g and at most moist-dish-mass 48 g"},
	{"moisture-in-dish", "dish-mass=35 g; moist-dish-mass=48 g; dry-dish-mass=48 g", "moisture", "0.0 %"},
	{"tensile-curve", "elongation=[0.002 0.5 2] mm; force=[0 20 30] N; span=100 mm; grammage=80 g/m2", "stretch", "2.0 %"},
	{"box-compression", "edge-crush=5 kN/m; perimeter=1 m; thickness=100 mm", "box-compression", "9281.28 N"}, // 5.87*5*100*sqrt(10)
	{"edge-crush", "force=525 N; length=100 mm; method=iso-3037", "edge-crush", "5.2 kN/m"},                   // 5.25, to the even tenth
	{"stacking", "box-compression=2 kN; mass=8 kg; layers=1; multiplier=[1]", "", "layers is 1, want 2 or more, or an added-mass: nothing stands on the bottom box"},
	{"dryer-groups", "dryness-in=45 %; moisture-out=5 %; pressure=[2 0.3] bar(a); cylinders=[7 7]; web-temperature=80 degC", "",
		"web-temperature is 80 degC, want below the steam of group 2, 69.0954 degC"},
	{"dryer-groups", "dryness-in=45 %; moisture-out=5 %; gauge-pressure=[2 -1.1] bar(g); cylinders=[7 7]; web-temperature=80 degC", "",
		"group 2: gauge-pressure is -1.1 bar(g), want -1.00714 bar(g) to 164.278 bar(g) against this atmosphere"},
	{"sheet-heat", "dryness-in=45 %; moisture-out=5 %; temperature-in=80 degC; evaporation-temperature=80 degC; temperature-out=80 degC; " +
		"fibre-heat-capacity=1.3 kJ/(kg K)", "sensible-heat-per-dry", "0 kJ/kg"},
	{"sheet-evaporation", "mass-transfer=0.015 m/s; temperature=75 degC; air-vapour-pressure=101.325 kPa(a); sheet-vapour-pressure=36 kPa(a)", "",
		"air-vapour-pressure is 101.325 kPa(a), want below that of the atmosphere, 101.325 kPa(a)"},
	{"sheet-evaporation", "mass-transfer=0.015 m/s; temperature=75 degC; air-vapour-pressure=14 kPa(a); sheet-vapour-pressure=101.325 kPa(a)", "",
		"sheet-vapour-pressure is 101.325 kPa(a), want below that of the atmosphere, 101.325 kPa(a): above it the web boils, which follows another law"},
	{"water", "temperature=120 degC", "", "pressure is 1.01325 bar(a), want 1.98665 bar(a), at which water of this temperature boils, or above"},
	{"water-vapour", "temperature=100 degC; pressure=2 bar(a)", "", "pressure is 2 bar(a), want at most 1.01418 bar(a) at this temperature: beyond lies water, or region 3"},
	{"equilibrium-moisture", "temperature=23 degC; moisture-ratio=0.818 kg/kg; model=tryding", "", "moisture-ratio is 0.818 kg/kg, want below 0.818 kg/kg, where the fibre is full"},
	{"reel-count-by-diameter", "ordered-mass=0.8 t; reel-width=1080 mm; least-diameter=1000 mm; most-diameter=1250 mm; core-diameter=100 mm; roll-density=645 kg/m3",
		"most-reels", "1"},
	{"reel-count-by-diameter", "ordered-mass=2 t; reel-width=1080 mm; least-diameter=1200 mm; most-diameter=1250 mm; core-diameter=100 mm; roll-density=645 kg/m3", "",
		"ordered-mass is 2 t, want what whole reels make from least-diameter to most-diameter; the most for 2 is 1.69877 t, the least for 3 is 2.34709 t"},
	{"draw-shrinkage", "speed-in=612 m/min; speed-out=625 m/min; sheet-width-in=3.36 m; sheet-width-out=3.36 m; dry-grammage-in=110 g/m2", "shrinkage", "0 %"},
	{"reel", "diameter=100 mm; core-diameter=80 mm; reel-thickness=11 mm", "", "reel-thickness is 11 mm, want at most half of diameter - core-diameter, 10 mm: less than one layer"},
	{"edge-trim", "sheet-width=60 mm; least-edge=30 mm; reel-width=[10] mm", "", "least-edge is 30 mm, want below half of sheet-width, 30 mm"},
	{"shares", "part=[1 2] kg; step=0.7 %", "", "step is 0.7 %, want a step that divides 100 % without remainder, such as 0.1 %"},
	{"shares", "part=[0 0] kg", "", "the sum of the parts is 0, want above 0"},
}

func TestLimitsThatAreMet(t *testing.T) {
	for _, test := range met {
		if got := answered(test.calculation, test.inputs, test.output); got != test.want {
			t.Errorf("%s %s: %s says %q, want %q (common-practice: by hand)", test.calculation, test.inputs, test.output, got, test.want)
		}
	}
}

// answered is an output as it is reported with the codes of the warnings, or the text
// of the error.
func answered(name, inputs, output string) string {
	c, ok := catalogue.Find(name)
	if !ok {
		return "no calculation"
	}
	s := c.NewSheet()
	err := s.SetText(inputs)
	if err == nil {
		err = s.Run()
	}
	if err != nil {
		return err.Error()
	}
	text := ""
	for _, c := range s.Out {
		switch {
		case c.Name != output:
		case c.Present():
			text = c.Reported()
		case c.Empty():
			text = calc.NoneText
		}
	}
	if warned := codes(s.Warnings(), nil); warned != "" {
		text += ", warns " + warned
	}
	return text
}
