package calc_test

import (
	"errors"
	"math"
	"strings"
	"testing"

	"millmaths.example/paperprop"
	"millmaths.example/paperprop/calc"
	"millmaths.example/paperprop/catalogue"
)

func sheet(tb testing.TB, name string) *calc.Sheet {
	tb.Helper()
	c, ok := catalogue.Find(name)
	if !ok {
		tb.Fatalf("no calculation %s", name)
	}
	return c.NewSheet()
}

// given is a sheet with inputs such as "mass-flow=300 t/h; consistency-in=4 %".
func given(tb testing.TB, name, inputs string) *calc.Sheet {
	tb.Helper()
	s := sheet(tb, name)
	if err := s.SetText(inputs); err != nil {
		tb.Fatal(err)
	}
	return s
}

// Several are set up to the first that is refused, and none where the text is no list.
func TestSetText(t *testing.T) {
	for _, test := range []struct{ text, set, want string }{
		{"mass-flow=300 t/h; consistency-in=4 %;", "mass-flow consistency-in", ""},
		{" ; ", "", ""},
		{"mass-flow=300 t/h; consistency-in=4; water-flow=9 t/h", "mass-flow", `consistency-in "4": unit missing, want % or g/g`},
		{"mass-flow=300 t/h; flow=4 t/h", "mass-flow", `dilution has no input or output "flow", near: mass-flow, water-flow, dry-flow-out`},
		{"mass-flow=300 t/h; 4 %", "", `"4 %", want NAME=VALUE UNIT`},
		{"mass-flow=300 t/h; mass-flow=301 t/h", "", "mass-flow is given twice"},
	} {
		s, said := sheet(t, "dilution"), ""
		if err := s.SetText(test.text); err != nil {
			said = err.Error()
		}
		var set []string
		for _, c := range s.In {
			if c.Given() {
				set = append(set, c.Name)
			}
		}
		if got := strings.Join(set, " "); got != test.set || said != test.want {
			t.Errorf("%s: set %s, %s; want %s, %s", test.text, got, said, test.set, test.want)
		}
	}
}

// What a person may get wrong, and the whole of what is said of it: the input,
// the text as written, what would be taken.
func TestSetRefuses(t *testing.T) {
	ones := strings.Repeat("1", 65)
	for _, test := range []struct{ calculation, input, text, want string }{
		{"dilution", "mass-flow", "", `mass-flow "": no number, want a mass flow such as 1 t/h`},
		{"dilution", "mass-flow", "t/h", `mass-flow "t/h": no number, want a mass flow such as 1 t/h`},
		{"dilution", "mass-flow", "NaN t/h", `mass-flow "NaN t/h": no number, want a mass flow such as 1 t/h`},
		{"dilution", "mass-flow", "-Inf t/h", `mass-flow "-Inf t/h": no number, want a mass flow such as 1 t/h`},
		{"dilution", "mass-flow", "300", `mass-flow "300": unit missing, want t/h or kg/h`},
		{"dilution", "mass-flow", "300 ± 3", `mass-flow "300 ± 3": "300": unit missing, want t/h or kg/h`},
		{"dilution", "mass-flow", "3,0 t/h", `mass-flow: number "3,0 t/h": decimal comma, write 3.0`},
		{"dilution", "mass-flow", "3,0t/h", `mass-flow: number "3,0t/h": decimal comma, write 3.0`},
		{"dilution", "water-flow", "?", `water-flow "?": an output is computed from what is given, leave it out; ? stands for an input that is sought`},
		{"dilution", "mass-flow", "0x12 t/h", `mass-flow "0x12 t/h": unknown unit "x12", want a unit of mass flow such as t/h or kg/h`},
		{"dilution", "mass-flow", "1e401 t/h", `mass-flow: number "1e401 t/h": exponent beyond ±400`},
		{"dilution", "mass-flow", "1e400 t/h", `mass-flow "1e400 t/h": number "1e400": too large`},
		{"dilution", "mass-flow", ones + " t/h", `mass-flow "` + ones[1:] + `…": number "` + ones[1:] + `…": longer than 64 characters`},
		{"dilution", "mass-flow", "300 ton/h", `mass-flow "300 ton/h": "ton" is ambiguous: t, short ton or long ton`},
		{"dilution", "mass-flow", "300 tph", `mass-flow "300 tph": unknown unit "tph", near: t/h`},
		{"dilution", "mass-flow", "300 t/h/h", `mass-flow "300 t/h/h": unit "t/h/h": two strokes, write t/(h h)`},
		{"freeness", "volume", "412 kg", `volume "412 kg": "kg" is no unit of volume, want mL or m3`},
		{"moisture", "dry-mass", "92 %", `dry-mass "92 %": "%" is no unit of oven-dry mass, want g or kg`},
		{"dilution", "mass-flow", "300 kg", `mass-flow "300 kg": "kg" is no unit of mass flow, want t/h or kg/h`},
		{"dilution", "mass-flow", "300 400 t/h", `mass-flow "300 400 t/h": want one number, not a list`},
		{"dilution", "mass-flow", "300 1 t/h", `mass-flow "300 1 t/h": want one number, not a list`},
		{"dilution", "consistency-in", "0.04 0.05 1", `consistency-in "0.04 0.05 1": want one number, not a list`},
		{"blend", "consistency", "0.05 0.06 1", `consistency "0.05 0.06 1": "0.05": unit missing, want % or g/g; of the unit 1 write [0.05 0.06] 1`},
		{"blend", "consistency", "1", `consistency "1": unit missing, want % or g/g`},
		{"blend", "consistency", "0.05 1; [0.06] 1", `consistency "0.05 1; [0.06] 1": member 2: want one number, not a list`},
		{"round", "value", "12 1 kg", `value "12 1 kg": want one number, not a list`},
		{"round", "value", "1 000 kg", `value "1 000 kg": want one number, not a list; without blanks between digits it is 1000`},
		{"round", "value", "2 kg ± 1 g", `value "2 kg ± 1 g": right of ±: unit g, want that of the value`},
		{"dilution", "mass-flow", "[300] t/h", `mass-flow "[300] t/h": want one number, not a list`},
		{"dilution", "mass-flow", "300 ± t/h", `mass-flow "300 ± t/h": right of ±: no number, want a number and a unit`},
		{"dilution", "mass-flow", "300 ± 3,0 t/h", `mass-flow "300 ± 3,0 t/h": right of ±: number "3,0": decimal comma, write 3.0`},
		{"dilution", "mass-flow", "300. t/h", `mass-flow: number "300. t/h": no digit after the decimal sign`},
		{"dilution", "mass-flow", "1,23,456.5 t/h", `mass-flow: number "1,23,456.5 t/h": commas between digits, write 123456.5`},
		{"dilution", "mass-flow", "300 ± -1 t/h", `mass-flow "300 ± -1 t/h": an uncertainty of -1 is below zero, want 0 or more`},
		{"dilution", "mass-flow", "300 t/h ± 1 kg", `mass-flow "300 t/h ± 1 kg": "kg" is no unit of mass flow, want t/h or kg/h`},
		{"dilution", "mass-flow", "300(1) ± 2 t/h", `mass-flow "300(1) ± 2 t/h": an uncertainty is given twice`},
		{"dilution", "mass-flow", "300 ± 1 ± 2 t/h", `mass-flow "300 ± 1 ± 2 t/h": an uncertainty is given twice`},
		{"dilution", "mass-flow", "300 ± balance", `mass-flow "300 ± balance": unknown source of uncertainty "balance", name it once: --source balance="0.5 g"`},
		{"dilution", "mass-flow", "300 ± gaussian(1) t/h", `mass-flow "300 ± gaussian(1) t/h": unknown distribution "gaussian", want rectangular, triangular, arcsine, normal, resolution or readings`},
		{"dilution", "consistency-in", "4", `consistency-in "4": unit missing, want % or g/g`},
		{"dilution", "consistency-in", "4 g/L", `consistency-in "4 g/L": "g/L" is no unit of consistency, want % or g/g (divide a concentration by the density of the stock, 10 g/L is about 1 %)`},
		{"dilution", "consistency-in", "4 % ± 1 %", `consistency-in "4 % ± 1 %": ± % after a share can be read two ways: write 4.0 ± 0.1 % with one unit at the end`},
		{"stock-density", "temperature", "20 degC ± 1 %", `temperature "20 degC ± 1 %": a temperature has no percentage: write 20 ± 0.5 °C`},
		{"flash-steam", "gauge-pressure-out", "0.4 bar(g) ± 0.02 bar(a)", `gauge-pressure-out "0.4 bar(g) ± 0.02 bar(a)": "bar(a)" is no unit of gauge pressure, want bar(g), kPa(g) or psig (an absolute pressure is higher by that of the air)`},
		{"flash-steam", "pressure-out", "1.4 bar(a) ± 1 K", `pressure-out "1.4 bar(a) ± 1 K": "K" is no unit of absolute pressure, want bar(a) or kPa(a)`},
		{"bale-lot", "mass", "[612 588 kg", `mass "[612 588 kg": bracket [ without ]`},
		{"bale-lot", "mass", "[612 kg, 588]", `mass "[612 kg, 588]": member 2: mass "588": unit missing, want kg or mg`},
		{"bale-lot", "mass", "[] kg", `mass "[] kg": a list without a number, want one at least in the brackets`},
		{"bale-lot", "mass", "[612 kg 1300 lb]",
			`mass "[612 kg 1300 lb]": units within brackets, want one for all after them, [50 60] g, or members with units separated by commas, [50 g, 2 oz]`},
		{"bale-lot", "mass", "[612kg 588kg] kg",
			`mass "[612kg 588kg] kg": units within brackets, want one for all after them, [50 60] g, or members with units separated by commas, [50 g, 2 oz]`},
		{"replicates", "value", "[612 588 kg]",
			`value "[612 588 kg]": units within brackets, want one for all after them, [50 60] g, or members with units separated by commas, [50 g, 2 oz]`},
		{"bale-lot", "mass", "612,588,600 kg", `mass: number "612,588,600 kg": commas between digits, write 612588600; members of a list have blanks between them: 612 588 600`},
		{"bale-lot", "mass", "[5,612,588 600] kg", `mass "[5,612,588 600] kg": number "5,612,588 kg": commas between digits, write 5612588; members of a list have blanks between them: 5 612 588`},
		{"bale-lot", "mass", "[612,5 588,5] kg", `mass "[612,5 588,5] kg": number "612,5 kg": decimal comma, write 612.5`},
		{"bale-lot", "mass", "1 234 kg", `mass "1 234 kg": number "1 234": blanks between digits can be read two ways, write 1234 kg or [1 234] kg`},
		{"bale-lot", "mass", "1 234.5 12 345.25 ± 1 kg", `mass "1 234.5 12 345.25 ± 1 kg": number "1 234.5 12 345.25": blanks between digits can be read two ways, write [1234.5 12345.25] or [1 234.5 12 345.25]`},
		{"bale-lot", "mass", "10 100 kg", `mass "10 100 kg": number "10 100": blanks between digits can be read two ways, write 10100 kg or [10 100] kg`}, // a tenth
		{"bale-lot", "mass", "100 034 kg", `mass "100 034 kg": number "100 034": blanks between digits, write 100034 kg`},
		{"bale-lot", "mass", "1 234 567 kg", `mass "1 234 567 kg": number "1 234 567": blanks between digits can be read two ways, write 1234567 kg or [1 234 567] kg`},
		{"bale-lot", "mass", "12 034 kg", `mass "12 034 kg": number "12 034": blanks between digits, write 12034 kg`},
		{"bale-lot", "mass", "[1 034 2 005] kg", `mass "[1 034 2 005] kg": number "1 034 2 005": blanks between digits, write [1034 2005] kg`},
		{"bale-lot", "mass", "[900, 1 234] kg", `mass "[900, 1 234] kg": number "1 234": blanks between digits, write 1234`},
		{"bale-lot", "mass", "[1 234; 2 345] kg", `mass "[1 234; 2 345] kg": number "1 234": blanks between digits, write 1234`},
		{"bale-lot", "mass", "900 kg, 1 234 kg", `mass "900 kg, 1 234 kg": member 2: want one number, not a list; without blanks between digits it is 1234`},
		{"bale-lot", "mass", "mean(1 234 2 345) kg", `mass "mean(1 234 2 345) kg": number "1 234 2 345": blanks between digits, write 1234 2345`},
		{"dilution", "consistency-in", "0.5-0.8 %", `consistency-in "0.5-0.8 %": a dash makes no range, want 0.5..0.8 %`},
		{"dilution", "consistency-in", "5-9 %", `consistency-in "5-9 %": a dash makes no range, want 5..9 %`},
		{"dilution", "mass-flow", "[1.4 ±] t/h", `mass-flow "[1.4 ±] t/h": want one number, not a list`},
		{"mean-interval", "standard-deviation", "1 degC", `standard-deviation "1 degC": "degC" is no unit of temperature difference, want K, degC_diff or degF_diff (a difference of 1 degC is 1 K, one of 1 degF is 1 degF_diff)`},
		{"mean-interval", "mean", "20 % ± 1 %", `mean "20 % ± 1 %": ± % after a share can be read two ways: write 4.0 ± 0.1 % with one unit at the end`},
		{"mean-interval", "mean", "0.2 kg/kg ± 1 %", `mean "0.2 kg/kg ± 1 %": ± % after a share can be read two ways: write 4.0 ± 0.1 % with one unit at the end`},
		{"mean-interval", "mean", "20 degC ± 1 %", `mean "20 degC ± 1 %": a temperature has no percentage: write 20 ± 0.5 °C`},
		{"replicates", "value", "[7.4 7.5] % ± [1 1] %", `value "[7.4 7.5] % ± [1 1] %": ± % after a share can be read two ways: write 4.0 ± 0.1 % with one unit at the end`},
		{"dilution", "mass-flow", "5.", `mass-flow: number "5.": no digit after the decimal sign`},
		{"dilution", "mass-flow", "3 ± 1 t/h (k=)", `mass-flow "3 ± 1 t/h (k=)": right of ±: a coverage factor, want one standard uncertainty (k = 1): U divided by k`},
		{"dilution", "consistency-in", "3.5 to 4 %", `consistency-in "3.5 to 4 %": "to" makes no range, want 3.5..4 %`},
		{"dilution", "consistency-in", "3.5…4 %", `consistency-in "3.5…4 %": "…" makes no range, want 3.5..4 %`},
		{"dilution", "consistency-in", "3.5 – 4 %", `consistency-in "3.5 – 4 %": a dash makes no range, want 3.5..4 %`},
		{"bale-lot", "mass", "[612 x] kg", `mass "[612 x] kg": number "x kg": no digits`},
		{"bale-lot", "mass", "[612 ± 1 588] kg",
			`mass "[612 ± 1 588] kg": an uncertainty within brackets, want it after them: [50 60] ± 1 g or [50 60] ± [1 2] g`},
		{"bale-lot", "mass", "[612 ± 1 588 ± 2] kg",
			`mass "[612 ± 1 588 ± 2] kg": an uncertainty within brackets, want it after them: [50 60] ± 1 g or [50 60] ± [1 2] g`},
		{"bale-lot", "mass", "[612 588 ± [1 2] kg", `mass "[612 588 ± [1 2] kg": bracket [ without ]`},
		{"dilution", "mass-flow", "[300 ± 3] t/h", `mass-flow "[300 ± 3] t/h": want one number, not a list`},
		{"bale-lot", "mass", "[612 588] ± [1 2 3] kg", `mass "[612 588] ± [1 2 3] kg": 3 uncertainties for 2 values, want one or as many`},
		{"furnish-cost", "price", "105 EUR/t; 100 USD/t",
			`price "105 EUR/t; 100 USD/t": member 2: USD/t and EUR/t are prices in two currencies: one cannot be converted into the other`},
		{"furnish-cost", "price", "95 1/t; 105 EUR/t; 100 USD/t",
			`price "95 1/t; 105 EUR/t; 100 USD/t": member 3: USD/t and EUR/t are prices in two currencies: one cannot be converted into the other`},
		{"ply-value", "ply-value", "10 EUR/t; 20 USD/t",
			`ply-value "10 EUR/t; 20 USD/t": member 2: USD/t and EUR/t are prices in two currencies: one cannot be converted into the other`},
		{"ply-value", "ply-value", "10 %; 20", `ply-value "10 %; 20": member 2: value "20": unit missing, want %`},
		{"ply-value", "ply-value", "9.5; 13.2 %", `ply-value "9.5; 13.2 %": member 1: value "9.5": unit missing, want %`},
		{"ply-value", "ply-value", "0.1 1; 20; 30 ± 1 %", `ply-value "0.1 1; 20; 30 ± 1 %": member 2: value "20": unit missing, want %`},
		{"ply-value", "ply-value", "10 kg; 20", `ply-value "10 kg; 20": member 2: value "20": unit missing, want kg`},
		{"tensile", "force", "8.5 kg", `force "8.5 kg": "kg" is no unit of force, want kgf, gf or N (mass is not force)`},
		{"tensile", "force", "8.5 lb", `force "8.5 lb": "lb" is no unit of force, want lbf`},
		{"moisture-claim", "rule", "Points", `rule is "Points", want basis or points`},
		{"moisture-claim", "rule", "", `rule is missing, want basis or points: no default`},
		{"blend", "dry-share", "3 %", `dry-share "3 %": only one number can be given for an output`},
		{"density", "thickness", "5/32 in", `thickness: number "5/32 in": a fraction, want a decimal number`},
		{"density", "thickness", "1_000 um ± 1 %", `thickness "1_000 um ± 1 %": number "1_000 um": _ between digits, leave it out`},
		{"md-cd", "md-value", "5/32 in", `md-value: number "5/32 in": a fraction, want a decimal number`},
		{"dilution", "water-flow", "3..5 t/h", `water-flow "3..5 t/h": a range is for an input, want one value of an output`},
		{"dilution", "mass-flow", "3..5 t/h", `mass-flow "3..5 t/h": a range is for a single calculation on the command line, want one value`},
	} {
		s := sheet(t, test.calculation)
		err := s.Set(test.input, test.text)
		if err == nil || err.Error() != test.want {
			t.Errorf("%s: %s=%q\n got %v\nwant %s", test.calculation, test.input, test.text, err, test.want)
			continue
		}
		var input *calc.InputError
		if !errors.As(err, &input) || input.Input != test.input || input.Text != test.text {
			t.Errorf("%s=%q: the error holds %+v", test.input, test.text, input)
		}
		if c, _ := s.Input(test.input); c != nil && c.Given() {
			t.Errorf("%s=%q is refused and given all the same", test.input, test.text)
		}
	}
}

// What Run refuses names the input, the text as written and what would be
// taken, in the unit of the person.
func TestRunRefuses(t *testing.T) {
	for _, test := range []struct{ calculation, inputs, want string }{
		{"dilution", "mass-flow=300 t/h; consistency-in=450 %; consistency-out=1 %", "consistency-in is 450 %, want above 0 % and at most 100 %"},
		{"grammage", "mass=5 g; area=100 cm2; grammage=500 g/m2",
			"grammage is an output and no required input is left out: leave one out, or give the one asked for as ?, such as length or width; there is a default for count"},
		{"mean-interval", "count=4; mean=20 degC; standard-deviation=1 kg",
			`standard-deviation "1 kg": kg is a unit of mass and K a unit of temperature difference: one cannot be converted into the other; want the unit of mean`},
		{"dilution", "mass-flow=0 kg/h; consistency-in=4 %; consistency-out=1 %", "mass-flow is 0 kg/h, want above 0 kg/h"},
		{"dilution", "mass-flow=300 t/h; consistency-in=4 %", "consistency-out is missing, want a consistency such as 1 %"},
		{"dilution", "mass-flow=300 t/h; consistency-in=3 %; consistency-out=4 %",
			"consistency-out is 4 %, want above water-consistency 0 % and at most consistency-in 3 %"},
		{"dilution", "mass-flow=?; consistency-in=4 %; consistency-out=1 %", `mass-flow "?": to solve for an input give one output`},
		{"reel", "length=3000 m; diameter=1 m; core-diameter=?", `core-diameter "?": to solve for an input give one output`},
		{"grammage", "mass=1 g; area=?; length=1 m", `area "?": to solve for an input give one output`},
		{"reel", "length=3000 m; diameter=?; core-diameter=76 mm", `want exactly 2 of length, diameter, reel-thickness, given: length`},
		{"blend", "mass-flow=[1 2] t/h; consistency=[3] %", "consistency has 1 value, want 2, as many as mass-flow"},
		{"blend", "mass-flow=[1 -2] t/h; consistency=[3 4] %", "mass-flow[2] is -2 t/h, want at least 0 t/h"},
		{"round", "value=2.5 kg; figures=2.5", "figures is 2.5, want a whole number"},
		{"stock-density", "consistency=4 %", "want exactly 1 of water-density, temperature, none is given"},
		{"stock-density", "consistency=4 %; temperature=20 degC; water-density=998 kg/m3",
			"want exactly 1 of water-density, temperature, given: water-density, temperature"},
		{"proportioning", "dry-flow=18 t/h; dry-share=[65 25 15] %; consistency=[4 3 3] %", "dry-share is 105 % in all, want 100 % within 0.001 %"},
		{"proportioning", "dry-flow=18 t/h; dry-share=[33.333 33.333 33.333] %; consistency=[4 3 101] %",
			"consistency[3] is 101 %, want above 0 % and at most 100 %"},
		{"proportioning", "dry-flow=18 t/h; dry-share=[33.332 33.333 33.333] %; consistency=[4 3 3] %",
			"dry-share is 99.998 % in all, want 100 % within 0.001 %"},
		{"price-as-received", "dry-price=100 EUR/t; price=60 USD/t; moisture=?", `price "USD/t": dry-price is in EUR, want one currency`},
		{"weighted-mean", "value=[1 2] EUR/t; weight=[1 2] USD/t", `weight "USD/t": value is in EUR, want one currency`},
		{"round", "value=4.567 %; step=0.1; tie=even", `step "0.1": unit missing, want %`},
		{"conformity-absolute", "value=10; limit=20 %; side=at-most", `value "10": unit missing, want %`},
		{"conformity-absolute", "value=10 kg; limit=20; side=at-most", `limit "20": unit missing, want kg`},
		{"expanded-uncertainty", "standard-uncertainty=-1 K", "standard-uncertainty is -1 K, want at least 0 K"},
		{"critical-difference", "repeatability-limit=1 K; reproducibility-limit=2 kg",
			`reproducibility-limit "2 kg": kg is a unit of mass and K a unit of temperature difference: one cannot be converted into the other; want the unit of repeatability-limit`},
		{"md-cd", "cd-value=2.71 kN/m", "md-value is missing, want a number in any unit"},
		{"compare-samples", "second-value=[2.19 2.33] kN/m", "first-value is missing, want a number in any unit"},
		{"md-cd", "md-value=6.43 kN/m; cd-value=?; geometric-mean=4", `geometric-mean "4": unit missing, want kN/m`},
		{"grubbs", "value=[34.5 33.9] N; side=either", "value has 2 values, want at least 3 values"},
		{"sandwich-stiffness", "liner-stiffness=[950] kN/m; liner-distance=3.9 mm", "liner-stiffness has 1 value, want 2, one for each liner"},
		{"reel", "diameter=0 mm; core-diameter=100 mm; reel-thickness=186 um", "diameter is 0 mm, want above core-diameter 100 mm"},
		{"reel-mass", "length=5000 m; diameter=0 mm; core-diameter=100 mm; reel-width=1 m; grammage=120 g/m2", "diameter is 0 mm, want above core-diameter 100 mm"},
		{"sets", "jumbo-length=20 km; reel-length=6555 m; lost-length=21 km", "lost-length is 21 km, want at most jumbo-length 20 km"},
		{"ash", "residue-mass=0.2 g; mass=1.5 g; moisture=6 %; ignition-temperature=-300 degC", "ignition-temperature is -300 degC, want 500 degC to 925 degC"},
		{"ash", "residue-mass=0.2 g; mass=1.5 g; moisture=6 %; ignition-temperature=700 degC", "ignition-temperature is 700 degC, want 525 or 900 degC, within 25 K"},
		{"stock-density", "consistency=4 %; temperature=250 degF", "temperature is 250 degF, want 32 degF to 210.2 degF"},
	} {
		s := given(t, test.calculation, test.inputs)
		if err := s.Run(); err == nil || err.Error() != test.want {
			t.Errorf("%s: %s\n got %v\nwant %s", test.calculation, test.inputs, err, test.want)
		}
	}
}

// A price is printed in the currency that was given, in the unit of its field, and
// where none was given in none. By hand (common-practice): 0.6 times 100.
func TestCurrencyIsKept(t *testing.T) {
	for _, test := range []struct{ inputs, printIn, name, want string }{
		{"dry-price=100 EUR/t; moisture=40 %", "", "price", "60 EUR/t"},
		{"dry-price=100 1/t; moisture=40 %", "", "price", "60 1/t"},
		{"dry-price=100 USD/short ton; moisture=40 %", "1/short ton", "price", "60 USD/short ton"},
		{"dry-price=100 1/t; moisture=40 %", "GBP/t", "price", "60 GBP/t"},
		{"price=60 GBP/t; moisture=40 %", "", "dry-price", "100 GBP/t"},
	} {
		s := given(t, "price-as-received", test.inputs)
		if test.printIn != "" {
			if err := s.PrintIn("price", test.printIn); err != nil {
				t.Fatal(err)
			}
		}
		if err := s.Run(); err != nil {
			t.Errorf("%s: %v", test.inputs, err)
			continue
		}
		c, ok := s.Output(test.name)
		if !ok {
			c, _ = s.Input(test.name)
		}
		if got := c.Reported(); got != test.want || !strings.HasSuffix(c.Full(), " "+c.PrintUnit().String()) {
			t.Errorf("%s: %s is %s, %s in full, want %s", test.inputs, test.name, got, c.Full(), test.want)
		}
	}
	s := given(t, "price-as-received", "dry-price=100 EUR/t; moisture=40 %")
	if err := s.PrintIn("price", "USD/t"); err != nil {
		t.Fatal(err)
	}
	if err := s.Run(); err == nil || err.Error() != `price "USD/t": dry-price is in EUR, want one currency` {
		t.Errorf("a price in EUR printed in USD: %v", err)
	}
}

// Texts of values and the standard uncertainty in them, by hand.
func TestUncertainForms(t *testing.T) {
	for _, test := range []struct {
		calculation, input, text string
		values, standards        []float64 // canonical
	}{
		{"dilution", "consistency-in", "4.0 ± 0.1 %", []float64{0.04}, []float64{0.001}},
		{"dilution", "consistency-in", "4.0(1) %", []float64{0.04}, []float64{0.001}},
		{"dilution", "consistency-in", "4.0(12) %", []float64{0.04}, []float64{0.012}},
		{"dilution", "consistency-in", "4.0 ± rectangular(0.1) %", []float64{0.04}, []float64{0.001 / math.Sqrt(3)}},
		{"dilution", "consistency-in", "4.0 % ± triangular(0.1)", []float64{0.04}, []float64{0.001 / math.Sqrt(6)}},
		{"dilution", "mass-flow", "500 t/h ± 1 %", []float64{500}, []float64{5}},
		{"dilution", "mass-flow", "5.00e2(3) t/h", []float64{500}, []float64{3}},
		{"dilution", "mass-flow", "-500 t/h ± 1 %", []float64{-500}, []float64{5}},
		{"dilution", "mass-flow", "500 t/h ± 2000 kg/h", []float64{500}, []float64{2}},
		{"stock-density", "temperature", "68 ± 1.8 degF", []float64{20}, []float64{1}},
		{"stock-density", "temperature", "20 degC ± 1 K", []float64{20}, []float64{1}},
		{"flash-steam", "gauge-pressure-out", "0.4 bar(g) ± 0.02 bar", []float64{0.4}, []float64{0.02}},
		{"flash-steam", "gauge-pressure-out", "40 kPa(g) ± 0.02 bar", []float64{0.4}, []float64{0.02}},
		{"flash-steam", "gauge-pressure-out", "0.4 ± 0.02 bar(g)", []float64{0.4}, []float64{0.02}},
		{"flash-steam", "pressure-out", "140 kPa(a) ± 2 kPa", []float64{1.4}, []float64{0.02}},
		{"bale-lot", "mass", "[612 588] ± 1 kg", []float64{612, 588}, []float64{1, 1}},
		{"bale-lot", "mass", "[612 588] ± [1 2] kg", []float64{612, 588}, []float64{1, 2}},
		{"bale-lot", "mass", "[612(1) 588] kg", []float64{612, 588}, []float64{1, 0}},
		{"bale-lot", "mass", "612 kg; 588 ± 2 kg", []float64{612, 588}, []float64{0, 2}},
		{"bale-lot", "mass", "612 kg, 1000 lb", []float64{612, 453.59237}, nil},
		{"dilution", "consistency-in", "0.859 ± 0.000859 1", []float64{0.859}, []float64{0.000859}},
		{"dilution", "consistency-in", "0.859(3) 1", []float64{0.859}, []float64{0.003}},
		{"dilution", "consistency-in", "0.859 1 ± 0.003", []float64{0.859}, []float64{0.003}},
		{"dilution", "consistency-in", "0.859 ± rectangular(0.003) 1", []float64{0.859}, []float64{0.003 / math.Sqrt(3)}},
		{"blend", "consistency", "0.05 1; 0.06 1", []float64{0.05, 0.06}, nil},
		{"blend", "consistency", "0.05 ± 0.001 1, 6 %", []float64{0.05, 0.06}, []float64{0.001, 0}},
		{"blend", "consistency", "[0.05 0.06] 1", []float64{0.05, 0.06}, nil},
		{"blend", "consistency", "[0.05 0.06] ± 0.001 1", []float64{0.05, 0.06}, []float64{0.001, 0.001}},
		{"blend", "consistency", "[0.05 0.06] ± rectangular(0.003) 1", []float64{0.05, 0.06}, []float64{0.003 / math.Sqrt(3), 0.003 / math.Sqrt(3)}},
		{"blend", "consistency", "[5 6] ± 2 1 %", []float64{0.05, 0.06}, []float64{0.02, 0.01}},
		{"blend", "consistency", "[0.05 0.06] ± [0.001] 1", []float64{0.05, 0.06}, []float64{0.001, 0.001}},
		{"round", "value", "0.04567 1", []float64{0.04567}, nil},
		{"round", "value", "0.001 ± 0.0001 1000 ft2", []float64{0.001}, []float64{0.0001}},
		{"round", "value", "20 ± 1 °C", []float64{20}, []float64{1}},
		{"ply-value", "ply-value", "12 1000 ft2; 13 1000 ft2", []float64{12, 13}, nil},
		{"ply-value", "ply-value", "10 %; 0.2 1", []float64{10, 20}, nil},
		{"ply-value", "ply-value", "10; 0.2 1", []float64{10, 0.2}, nil},
		{"ply-value", "ply-value", "[10 20] %", []float64{10, 20}, nil},
		{"pooled-deviation", "standard-deviation", "1 K; 1 degC; 1.8 degF_diff", []float64{1, 1, 1}, nil},
		{"pooled-deviation", "standard-deviation", "1.8 degF; 1 K", []float64{1.8, 1.8}, nil},
		{"type-b", "half-width", "0.2 °C", []float64{0.2}, nil},
		{"replicates", "value", "0 degC; 274.15 K", []float64{0, 1}, nil},
		// In brackets, as this package prints lists, and between like numbers blanks part members.
		{"replicates", "value", "[1 234 2 345] N", []float64{1, 234, 2, 345}, nil},
		{"replicates", "value", "[1 234] N", []float64{1, 234}, nil},
		{"replicates", "value", "11 109 N", []float64{11, 109}, nil}, // more than a tenth
		{"replicates", "value", "[1, 234, 2, 345] N", []float64{1, 234, 2, 345}, nil},
		{"replicates", "value", "98 101 103 N", []float64{98, 101, 103}, nil},
		{"replicates", "value", "1 234 2 34 N", []float64{1, 234, 2, 34}, nil},
		{"replicates", "value", "0 234 N", []float64{0, 234}, nil},
		{"replicates", "value", "1.5 234 N", []float64{1.5, 234}, nil},
		{"replicates", "value", "1 234e0 N", []float64{1, 234}, nil},
		{"ply-value", "ply-value", "12 13 1", []float64{12, 13, 1}, nil},
	} {
		s := sheet(t, test.calculation)
		if err := s.Set(test.input, test.text); err != nil {
			t.Error(err)
			continue
		}
		c, _ := s.Input(test.input)
		near(t, test.text+": values", c.Numbers(), test.values)
		near(t, test.text+": standard uncertainties", calc.Standards(c), test.standards)
	}
}

// Shares must add up as they are given; their uncertainty moves each by itself.
// Kind: common-practice. By hand: q_out = 18 t/h*(x_1/0.04 + x_2/0.03).
func TestTotalsAreOfWhatWasGiven(t *testing.T) {
	s := given(t, "proportioning", "dry-flow=18 t/h; dry-share=[60 40] ± 2 %; consistency=[4 3] %")
	if err := s.Run(); err != nil {
		t.Fatal(err)
	}
	us, err := s.Uncertainties()
	if err != nil {
		t.Fatal(err)
	}
	samples, err := calc.MonteCarlo{Draws: 1000, Seed: 1}.Run(t.Context(), s)
	if err != nil {
		t.Fatal(err)
	}
	for i, u := range us {
		if u.Cell.Name == "mass-flow-out" {
			near(t, "u(mass-flow-out)", []float64{u.Standard}, []float64{18 * 0.02 * math.Hypot(1/0.04, 1/0.03)})
			if samples[i].Refused != 0 {
				t.Errorf("%d draws were refused, want none", samples[i].Refused)
			}
			return
		}
	}
	t.Error("no uncertainty of mass-flow-out")
}

func near(t *testing.T, what string, got, want []float64) {
	t.Helper()
	if len(got) != len(want) {
		t.Errorf("%s are %v, want %v", what, got, want)
		return
	}
	for i := range got {
		if !(math.Abs(got[i]-want[i]) <= 1e-14*max(1, math.Abs(want[i]))) {
			t.Errorf("%s are %v, want %v", what, got, want)
		}
	}
}

// An error of a range is one for errors.Is, whatever its sort.
func TestErrorsAreRanges(t *testing.T) {
	s := sheet(t, "dilution")
	for name, text := range map[string]string{"mass-flow": "1 t/h", "consistency-in": "101 %", "consistency-out": "1 %"} {
		if err := s.Set(name, text); err != nil {
			t.Fatal(err)
		}
	}
	var ranged *paperprop.RangeError
	if err := s.Run(); !errors.Is(err, paperprop.ErrRange) || !errors.As(err, &ranged) || ranged.Input != "consistency-in" {
		t.Errorf("%v is no range error of consistency-in", err)
	}
}

// What is no number is one fault for errors.Is, whether letters stand in its place or
// its digits can't be read.
func TestErrorsAreNumbers(t *testing.T) {
	s := sheet(t, "dilution")
	for text, want := range map[string]string{
		"three t/h": `mass-flow "three t/h": no number, want a mass flow such as 1 t/h`,
		"t/h":       `mass-flow "t/h": no number, want a mass flow such as 1 t/h`,
		"1e999 t/h": `mass-flow: number "1e999 t/h": exponent beyond ±400`,
	} {
		if err := s.Set("mass-flow", text); !errors.Is(err, paperprop.ErrNumber) || err.Error() != want {
			t.Errorf("Set(%q) = %v, want %s, of the sort paperprop.ErrNumber", text, err, want)
		}
	}
	flow, _ := s.Input("mass-flow")
	for what, read := range map[string]func() error{
		"an estimate of a field": func() error { _, err := flow.Estimate("three t/h"); return err },
		"one of any unit":        func() error { _, err := calc.ParseEstimate("three t/h"); return err },
	} {
		if err := read(); !errors.Is(err, paperprop.ErrNumber) {
			t.Errorf("%s: %v, which is no paperprop.ErrNumber", what, err)
		}
	}
}

// A schema tells which inputs go together and what comes back; one of a tool
// with names of its own lets these in.
func TestSchema(t *testing.T) {
	c, _ := catalogue.Find("reel")
	data, err := calc.Schema(c.Info())
	if err != nil {
		t.Fatal(err)
	}
	for _, want := range []string{
		`"oneOf":[{"required":["length","diameter"]},{"required":["length","reel-thickness"]},{"required":["diameter","reel-thickness"]}]`,
		`"anyOf":[{"required":["core-diameter"]},{"required":["exact-layers"]},{"required":["length","diameter","reel-thickness"]}]`, // three give the core
		`"answers":{"length":{"description":`, `"unit":"um"`,
	} {
		if !strings.Contains(string(data), want) {
			t.Errorf("no %s in\n%s", want, data)
		}
	}
	c, _ = catalogue.Find("propagate")
	if data, err = calc.Schema(c.Info()); err != nil || !strings.Contains(string(data), `"additionalProperties":{"type":["string","number","array","object"]}`) || !strings.Contains(string(data), `"model":`) {
		t.Errorf("%v\n%s", err, data)
	}
	c, _ = catalogue.Find("profile") // which solves for nothing
	if data, err = calc.Schema(c.Info()); err != nil || !strings.Contains(string(data), `"required":["scan"]}`) || strings.Contains(string(data), "in place of an input") {
		t.Errorf("%v\n%s", err, data)
	}
}

// A price goes through in the currency in which it was given, from row to row too.
func TestCurrencyGoesThrough(t *testing.T) {
	s := given(t, "furnish-cost", "share=[60 40] %; price=[105 140] EUR/t; bale-per-paper=1.1 t/t")
	mean, _ := s.Output("mean-price")
	price, _ := s.Input("price")
	euro, err := paperprop.ParseUnit("EUR/t")
	if err != nil {
		t.Fatal(err)
	}
	for range 3 {
		if err := s.Run(); err != nil || mean.Reported() != "119 EUR/t" {
			t.Errorf("0.6*105 + 0.4*140 EUR/t is %s, %v", mean.Reported(), err)
		}
		price.PutUnit(euro)
		price.PutList([]float64{105, 140})
	}
}

// A difference is told in the unit of differences; in kelvin a temperature has the same
// unit as its differences.
func TestDifferencesOfTemperature(t *testing.T) {
	for _, test := range []struct{ mean, deviation, half, lower string }{
		{"20 degC", "2 K", "3.18245 K", "16.8176 degC"}, // t = 3.182446 for three degrees of freedom (tables, from memory)
		{"20 degC", "3.6 degF_diff", "3.18245 K", "16.8176 degC"},
		{"68 degF", "3.6 degF_diff", "5.7284 degF_diff", "62.2716 degF"},
		{"20 K", "2 K", "3.18245 K", "16.8176 K"},
		{"20 mm", "0.2 cm", "3.18245 mm", "16.8176 mm"},
	} {
		s := given(t, "mean-interval", "count=4; mean="+test.mean+"; standard-deviation="+test.deviation)
		if err := s.Run(); err != nil {
			t.Fatal(err)
		}
		half, _ := s.Output("half-width")
		lower, _ := s.Output("lower")
		if half.Reported() != test.half || lower.Reported() != test.lower {
			t.Errorf("%s ± %s: %s, %s, want %s, %s", test.mean, test.deviation, half.Reported(), lower.Reported(), test.half, test.lower)
		}
	}
}

// A root is told with all its digits, or as the interval that it is.
func TestRootInFull(t *testing.T) {
	for _, test := range []struct{ calculation, inputs, full, people string }{
		{"dilution", "mass-flow=300 t/h; consistency-in=3 %; water-flow=1800 t/h; water-consistency=0 %", "0.4285714285714286 %", "0.428571 %"},
		{"sets", "jumbo-length=20000 m; sets=3; lost-length=0 m", "5000 to 6666.67 m", "5000 to 6666.67 m"},
	} {
		s := given(t, test.calculation, test.inputs)
		if err := s.Run(); err != nil {
			t.Fatal(err)
		}
		if root := s.Roots[0]; root.Full() != test.full || root.People() != test.people {
			t.Errorf("%s %s: %s, %s, want %s, %s", test.calculation, test.inputs, root.Full(), root.People(), test.full, test.people)
		}
	}
}

// A word says what it stands for once it is given.
func TestMeaning(t *testing.T) {
	s := sheet(t, "basis-weight")
	ream, _ := s.Input("ream")
	if got := ream.Meaning(); got != "" {
		t.Errorf("a ream that is not given is %q", got)
	}
	if err := s.Set("ream", "ft2-1000"); err != nil {
		t.Fatal(err)
	}
	if got := ream.Meaning(); got != "1000 ft2" {
		t.Errorf("a ream of ft2-1000 is %q", got)
	}
	side, _ := sheet(t, "conformity-absolute").Input("side")
	if got := side.Meaning(); got != "" {
		t.Errorf("a side has no more to say than its word, not %q", got)
	}
}

// What was given of a reel may be one too many, is solved from, and may be taken back.
func TestSurplusTakenBack(t *testing.T) {
	s := given(t, "reel", "length=5000 m; diameter=1200 mm; reel-thickness=200 um")
	if err := s.Run(); err != nil || len(s.Roots) != 1 {
		t.Fatalf("%v, %v", s.Roots, err)
	}
	if w, err := s.Solution(); err != nil || !strings.Contains(w.Solved, "reel-thickness was given as 200 um") {
		t.Errorf("%q, %v", w.Solved, err)
	}
	thickness, _ := s.Input("reel-thickness")
	thickness.Forget()
	if err := s.Set("core-diameter", "100 mm"); err != nil {
		t.Fatal(err)
	}
	if err := s.Run(); err != nil {
		t.Fatal(err)
	}
	// pi/4*(1.2² - 0.1²)/5000 m
	if got, _ := s.Output("reel-thickness"); got.Reported() != "224.624 um" {
		t.Errorf("the thickness is %s, want 224.624 um", got.Reported())
	}
	s = sheet(t, "reel")
	for name, x := range map[string]float64{"length": 5000, "diameter": 1200, "reel-thickness": 200} {
		c, _ := s.Input(name)
		c.Put(c.Unit.From(x))
	}
	if err := s.Run(); err != nil {
		t.Fatal(err)
	}
	if w, err := s.Solution(); err != nil || !strings.Contains(w.Solved, "reel-thickness was given as 200 um") {
		t.Errorf("of numbers: %q, %v", w.Solved, err)
	}
}
