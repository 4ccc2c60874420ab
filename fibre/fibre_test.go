package fibre_test

import (
	"math"
	"math/rand/v2"
	"slices"
	"strconv"
	"testing"

	"github.com/shopspring/decimal"

	"millmaths.example/fibre"
	"millmaths.example/paperprop"
	"millmaths.example/paperprop/calc"
)

func codes(w calc.Warnings) string {
	text := ""
	for _, warning := range w {
		text += warning.Code + " "
	}
	return text
}

// The three means stand in one order, and are one where all fibres are equal.
func TestMeansOfLength(t *testing.T) {
	r := rand.New(rand.NewPCG(32, 1))
	for range 300 {
		var l fibre.Length
		for range 1 + r.IntN(6) {
			l.ClassLength = append(l.ClassLength, paperprop.Length(0.01+5*r.Float64()))
			l.ClassCount = append(l.ClassCount, paperprop.Ratio(1+r.IntN(1000)))
		}
		got, err := l.Calculate()
		if err != nil {
			t.Fatal(err)
		}
		const slack = 1 + 1e-14
		if got.NumberMeanLength > got.LengthWeightedLength*slack || got.LengthWeightedLength > got.MassWeightedLength*slack {
			t.Errorf("%+v: %+v, want them to rise", l, got)
		}
		if len(l.ClassLength) == 1 && !(math.Abs(float64(got.MassWeightedLength/got.NumberMeanLength)-1) <= 1e-14) {
			t.Errorf("%+v: %+v, want one length", l, got)
		}
	}
}

// What lies at a limit is fibre, in whatever unit it was written.
func TestAtTheLimit(t *testing.T) {
	for _, limit := range []paperprop.Length{0.2, 200 * paperprop.Micrometre, 0.02 * paperprop.Centimetre, 1e-3 * paperprop.Foot * 200 / 304.8} {
		got, err := fibre.Fines{
			ClassLength: []paperprop.Length{0.1, 0.2, 0.3}, ClassCount: []paperprop.Ratio{1, 2, 1}, FinesLimit: limit,
		}.Calculate()
		if err != nil || got.FinesNumberShare != 0.25 {
			t.Errorf("limit %v: %v of fines, %v, want 25 %%", limit, got.FinesNumberShare, err)
		}
	}
}

// The root of Martin's equation satisfies it, from thin to thick.
func TestMartinsEquation(t *testing.T) {
	r := rand.New(rand.NewPCG(32, 2))
	for range 2000 {
		ratio, k := 1+math.Pow(10, 40*r.Float64()-8), paperprop.Ratio(0.5*float64(r.IntN(3))*r.Float64())
		got, err := fibre.LimitingViscosity{ViscosityRatio: paperprop.Ratio(ratio), Concentration: 5, MartinConstant: &k}.Calculate()
		if err != nil {
			t.Fatal(err)
		}
		x := float64(got.ViscosityProduct)
		if off := math.Log(x/(ratio-1)) + math.Ln10*float64(k)*x; !(math.Abs(off) <= 1e-13) {
			t.Errorf("ratio %g, constant %v: product %v, off by %g in the logarithm", ratio, k, x, off)
		}
	}
}

// The step of a reported freeness grows; ties go to the even step.
func TestReportedFreeness(t *testing.T) {
	for _, test := range []struct{ volume, correction, want string }{
		{"84.5 mL", "0 mL", "84 mL"},
		{"99.4 mL", "0 mL", "99 mL"},
		{"0.1 L", "0 mL", "100 mL"},
		{"107.5 mL", "0 mL", "110 mL"},
		{"102.5 mL", "0 mL", "100 mL"},
		{"252 mL", "-2 mL", "250 mL"},
		{"255 mL", "0 mL", "260 mL"},
		{"412 mL", "-7 mL", "400 mL"},
		{"415 mL", "0 mL", "420 mL"},
		{"425 mL", "0 mL", "420 mL"},
	} {
		s := sheet(t, "freeness", map[string]string{
			"volume": test.volume, "volume-correction": test.correction, "consistency": "0.31 %", "temperature": "21 degC",
		})
		if got := s.Out[0].Reported(); got != test.want {
			t.Errorf("%s with %s is reported as %s, want %s (rule from memory)", test.volume, test.correction, got, test.want)
		}
	}
}

// sheet runs a calculation of the room on texts.
func sheet(t *testing.T, name string, inputs map[string]string) *calc.Sheet {
	t.Helper()
	for _, c := range fibre.Calculations() {
		if c.ID() != name {
			continue
		}
		s := c.NewSheet()
		for input, text := range inputs {
			if err := s.Set(input, text); err != nil {
				t.Fatal(err)
			}
		}
		if err := s.Run(); err != nil {
			t.Fatal(err)
		}
		return s
	}
	t.Fatalf("no calculation %s", name)
	return nil
}

func TestReportedKappa(t *testing.T) {
	for _, test := range []struct {
		titrant paperprop.Volume
		want    string
	}{
		{38.0, "11.2"}, {22.35, "27.5"}, {2.0, "52"}, // 11.198, 27.461, 51.934 by hand
	} {
		s := sheet(t, "kappa", map[string]string{
			"dry-mass": "2.045 g", "blank-volume": "50.10 mL", "normality": "0.2 N", "temperature": "[25] degC",
			"titrant-volume": (test.titrant * paperprop.Millilitre).String(),
		})
		if got := s.Out[3].Reported(); got != test.want {
			t.Errorf("titrant %v mL: kappa %s (%v), want %s (rule from memory)", float64(test.titrant), got, s.Out[3].Number(), test.want)
		}
	}
}

// Every reading of half a millilitre is rounded once, in either unit; whole
// numbers decide what is nearest and what is a tie.
func TestReportedSchopperRiegler(t *testing.T) {
	for halves := range 2001 {
		number, rest := (2000-halves)/20, (2000-halves)%20
		if rest > 10 || rest == 10 && number%2 == 1 {
			number++
		}
		millilitres := decimal.New(int64(5*halves), -1)
		for _, volume := range []string{millilitres.String() + " mL", millilitres.Shift(-3).String() + " L"} {
			s := sheet(t, "schopper-riegler", map[string]string{"volume": volume})
			if got, want := s.Out[0].Reported(), strconv.Itoa(number); got != want {
				t.Errorf("%s is reported as %s (%v), want %s (whole numbers from memory)", volume, got, s.Out[0].Number(), want)
			}
		}
	}
}

// No temperature at all is no temperature of 0 degC, and a cook is more than a
// moment.
func TestReadingsMissing(t *testing.T) {
	kappa := fibre.Kappa{
		DryMass: 2 * paperprop.OvenDryGram, BlankVolume: 50 * paperprop.Millilitre, TitrantVolume: 25 * paperprop.Millilitre,
		Normality: 0.2 * paperprop.EquivalentPerLitre,
	}
	for n, taken := range []bool{false, true, true, false} {
		kappa.Temperature = []paperprop.Temperature{24, 26, 25}[:n]
		if _, err := kappa.Calculate(); (err == nil) != taken {
			t.Errorf("kappa number with %d temperatures: %v, want it taken: %v", n, err, taken)
		}
		cook := fibre.HFactor{
			Time:        []paperprop.Duration{0, paperprop.Hour, 2 * paperprop.Hour}[:n],
			Temperature: []paperprop.Temperature{80, 170, 170}[:n],
		}
		if _, err := cook.Calculate(); (err == nil) != (n >= 2) {
			t.Errorf("cook with %d readings: %v, want it taken: %v", n, err, n >= 2)
		}
	}
}

// What is warned of, and what is not.
func TestWarnings(t *testing.T) {
	standard := fibre.Freeness{Volume: 412 * paperprop.Millilitre, Consistency: 0.003, Temperature: 20}
	correction := -7 * paperprop.Millilitre
	for _, test := range []struct {
		change func(f *fibre.Freeness)
		want   string
	}{
		{func(*fibre.Freeness) {}, ""},
		{func(f *fibre.Freeness) { f.Consistency = 0.00304 }, ""},
		{func(f *fibre.Freeness) { f.Consistency = 0.00306 }, "uncorrected "},
		{func(f *fibre.Freeness) { f.Consistency = 0.00294 }, "uncorrected "},
		{func(f *fibre.Freeness) { f.Temperature = 20.04 }, ""},
		{func(f *fibre.Freeness) { f.Temperature = 19.94 }, "uncorrected "},
		{func(f *fibre.Freeness) { f.Temperature, f.VolumeCorrection = 21.5, &correction }, ""},
		{func(f *fibre.Freeness) { f.Volume = 100 * paperprop.Millilitre }, ""},
		{func(f *fibre.Freeness) { f.Volume = 99.9 * paperprop.Millilitre }, "false-freeness "},
		{func(f *fibre.Freeness) { f.Volume, f.VolumeCorrection = 105*paperprop.Millilitre, &correction }, "false-freeness "},
		{func(f *fibre.Freeness) { f.Volume, f.Temperature = 99*paperprop.Millilitre, 25 }, "uncorrected false-freeness "},
	} {
		f := standard
		test.change(&f)
		got, err := f.Calculate()
		if err != nil || codes(got.Warnings) != test.want {
			t.Errorf("%+v: warned of %q, %v, want %q", f, codes(got.Warnings), err, test.want)
		}
	}

	for millilitres, want := range map[float64]string{99: "out-of-range ", 100: "", 500: "", 900: "", 901: "out-of-range "} {
		got, err := fibre.SchopperRiegler{Volume: paperprop.Volume(millilitres) * paperprop.Millilitre}.Calculate()
		if err != nil || codes(got.Warnings) != want {
			t.Errorf("Schopper-Riegler of %v mL: warned of %q, %v, want %q", millilitres, codes(got.Warnings), err, want)
		}
	}

	for property, want := range map[fibre.FurnishProperty]string{
		"": "", fibre.PropertyOther: "", fibre.PropertyFibreLength: "",
		fibre.PropertyFreeness: "not-additive ", fibre.PropertyStrength: "not-additive ",
	} {
		got, err := fibre.Furnish{Share: []paperprop.Fraction{0.6, 0.4}, Value: []float64{520, 380}, Property: property}.Calculate()
		if err != nil || codes(got.Warnings) != want {
			t.Errorf("furnish of %q: warned of %q, %v, want %q", property, codes(got.Warnings), err, want)
		}
	}
}

// Ends that belong to one side.
func TestEnds(t *testing.T) {
	for grams, want := range map[float64]fibre.Verdict{
		879.9: fibre.VerdictFail, 880: fibre.VerdictPass, 890: fibre.VerdictPass, 890.1: fibre.VerdictFail,
	} {
		got, err := fibre.FreenessBlank{Mass: paperprop.Mass(grams) * paperprop.Gram}.Calculate()
		if err != nil || got.Verdict != want {
			t.Errorf("blank of %v g: %v, %v, want %v", grams, got.Verdict, err, want)
		}
	}
	for dryness, want := range map[paperprop.DryContent]paperprop.Count{
		0.2: 30_000, 0.1999: 10_000, 0.92: 30_000,
	} {
		got, err := fibre.Disintegration{DryMass: 30 * paperprop.OvenDryGram, Dryness: dryness}.Calculate()
		if err != nil || got.Revolutions != want {
			t.Errorf("pulp at %v: %v revolutions, %v, want %v", dryness, got.Revolutions, err, want)
		}
	}
	for celsius, taken := range map[float64]bool{499: false, 500: true, 550: true, 551: false, 874: false, 875: true, 925: true, 926: false} {
		_, err := fibre.Ash{ResidueMass: 0.2, Mass: 1.5, IgnitionTemperature: paperprop.Celsius(celsius)}.Calculate()
		if (err == nil) != taken {
			t.Errorf("ash at %v degC: %v, want it taken: %v", celsius, err, taken)
		}
	}
}

// A liquor expressed otherwise and back is the same liquor.
func TestLiquorThereAndBack(t *testing.T) {
	r := rand.New(rand.NewPCG(32, 3))
	for range 200 {
		liquor := fibre.CookingLiquor{
			Basis: fibre.BasisNa2O, ToBasis: fibre.BasisNaOH,
			SodiumHydroxide: paperprop.Concentration(200 * r.Float64()), SodiumCarbonate: paperprop.Concentration(50 * r.Float64()),
		}
		there, err := liquor.Calculate()
		if err != nil {
			t.Fatal(err)
		}
		back, err := fibre.CookingLiquor{
			Basis: fibre.BasisNaOH, ToBasis: fibre.BasisNa2O,
			SodiumHydroxide: there.ActiveAlkali, SodiumCarbonate: there.TotalAlkali - there.ActiveAlkali,
		}.Calculate()
		if err != nil {
			t.Fatal(err)
		}
		closes(t, "active alkali", float64(back.ActiveAlkali), -float64(liquor.SodiumHydroxide))
		closes(t, "total alkali", float64(back.TotalAlkali), -float64(liquor.SodiumHydroxide), -float64(liquor.SodiumCarbonate))
	}
}

// The step of a report grows with the result (memory).
func TestGrowingSteps(t *testing.T) {
	for _, test := range []struct {
		calculation, output string
		x                   float64
		want                string
	}{
		{"kappa", "kappa-number", 49.74, "49.7"}, {"kappa", "kappa-number", 49.97, "50.0"}, {"kappa", "kappa-number", 50, "50"},
		{"kappa", "kappa-number", 50 * (1 - 1e-15), "50"}, {"kappa", "kappa-number", 50.2, "50"}, {"kappa", "kappa-number", 50.5, "50"},
		{"freeness", "freeness", 99.4, "99"}, {"freeness", "freeness", 99.6, "100"}, {"freeness", "freeness", 100.7, "100"},
		{"freeness", "freeness", 102.5, "100"}, {"freeness", "freeness", 249, "250"}, {"freeness", "freeness", 248, "250"}, {"freeness", "freeness", 247, "245"},
		{"freeness", "freeness", 250, "250"}, {"freeness", "freeness", 250 * (1 + 1e-15), "250"}, {"freeness", "freeness", 251.4, "250"}, {"freeness", "freeness", 256, "260"},
	} {
		all := fibre.Calculations()
		c := all[slices.IndexFunc(all, func(c calc.Calculation) bool { return c.ID() == test.calculation })]
		out, _ := c.NewSheet().Output(test.output)
		if rule := out.Field.Report.For(test.x); string(rule.AppendComputed(nil, test.x)) != test.want {
			t.Errorf("%s of %v is %s, want %s", test.output, test.x, rule.AppendComputed(nil, test.x), test.want)
		}
	}
}
