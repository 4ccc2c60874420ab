package paperprop_test

import (
	"errors"
	"math"
	"testing"

	"millmaths.example/paperprop"
)

// TestBasis checks balances of the trade: they have no source.
func TestBasis(t *testing.T) {
	const percent = paperprop.Percent
	ratio, err := paperprop.Moisture(60 * percent).MoistureRatio()
	back, backErr := ratio.Moisture()
	moist, moistErr := paperprop.OvenDryMass(90).Moist(90 * percent)
	flow, flowErr := paperprop.OvenDryFlow(18.4).Moist(92 * percent)
	sheet, sheetErr := paperprop.OvenDryGrammage(111).Moist(92.5 * percent)
	if err := errors.Join(err, backErr, moistErr, flowErr, sheetErr); err != nil {
		t.Fatal(err)
	}
	for name, pair := range map[string][2]float64{
		"60 % moisture in water per dry":     {float64(ratio), 1.5},
		"1.5 water per dry in moisture":      {float64(back), 0.6},
		"8 % moisture in dry content":        {float64(paperprop.Moisture(8 * percent).DryContent()), 0.92},
		"92 % dry content in moisture":       {float64(paperprop.DryContent(92 * percent).Moisture()), 0.08},
		"90 kg oven dry at 90 %":             {moist.In(paperprop.Kilogram), 100},
		"1 t at 92 % dry":                    {paperprop.Tonne.OvenDry(92 * percent).In(paperprop.OvenDryKilogram), 920},
		"9 odt in air-dry tonnes":            {(9 * paperprop.OvenDryTonne).AirDry().In(paperprop.AirDryTonne), 10},
		"10 adt in oven-dry tonnes":          {(10 * paperprop.AirDryTonne).OvenDry().In(paperprop.OvenDryTonne), 9},
		"120 g/m² at 92.5 % dry":             {paperprop.Grammage(120).OvenDry(92.5 * percent).In(paperprop.DryGramPerSquareMetre), 111},
		"111 g/m² dry at 92.5 % dry":         {sheet.In(paperprop.GramPerSquareMetre), 120},
		"18.4 t/h dry at 92 % dry":           {flow.In(paperprop.TonnePerHour), 20},
		"20 t/h at 92 % dry":                 {float64(paperprop.MassFlow(20).OvenDry(92 * percent)), 18.4},
		"3 bar gauge under 1.013 bar":        {paperprop.GaugePressure(3).Absolute(1.013).In(paperprop.BarAbsolute), 4.013},
		"4.013 bar absolute under 1.013 bar": {paperprop.AbsolutePressure(4.013).Gauge(1.013).In(paperprop.BarGauge), 3},
		"4 − 1.5 bar in kPa":                 {paperprop.AbsolutePressure(4).Minus(1.5).In(paperprop.Kilopascal), 250},
		"23 °C + 18 °F":                      {paperprop.Celsius(23).Plus(18 * paperprop.FahrenheitDifference).Celsius(), 33},
		"100 °C − 32 °F":                     {paperprop.Celsius(100).Minus(paperprop.Fahrenheit(32)).In(paperprop.KelvinDifference), 100},
		"100 °C − 23 °C":                     {paperprop.Celsius(100).Minus(23).In(paperprop.KelvinDifference), 77},
		"1 water per 4 dry in moisture":      {moistureOf(t, 0.25), 0.2},
	} {
		if !(math.Abs(pair[0]-pair[1]) <= 1e-13*pair[1]) {
			t.Errorf("%s is %v, want %v", name, pair[0], pair[1])
		}
	}
	for name, f := range map[string]func() error{
		"moisture is 100 %, want below 100 %":                    func() error { _, err := paperprop.Moisture(1).MoistureRatio(); return err },
		"dry content is 0 %, want above 0 % and at most 100 %":   func() error { _, err := paperprop.OvenDryMass(1).Moist(0); return err },
		"dry content is 150 %, want above 0 % and at most 100 %": func() error { _, err := paperprop.OvenDryMass(1).Moist(1.5); return err },
		"moisture ratio is +Inf kg/kg, want a finite number, at least 0 kg/kg": func() error {
			_, err := paperprop.MoistureRatio(math.Inf(1)).Moisture()
			return err
		},
		"moisture ratio is -1 kg/kg, want at least 0 kg/kg": func() error { _, err := paperprop.MoistureRatio(-1).Moisture(); return err },
	} {
		if err := f(); !errors.Is(err, paperprop.ErrRange) || err.Error() != name {
			t.Errorf("error is %v, want %s", err, name)
		}
	}
}

func moistureOf(t *testing.T, r paperprop.MoistureRatio) float64 {
	t.Helper()
	m, err := r.Moisture()
	if err != nil {
		t.Fatal(err)
	}
	return float64(m)
}

// TestBasisAtTheEnds has the laws that a change of basis takes every finite number
// on its side of the pole, and that nothing but a finite number comes out.
func TestBasisAtTheEnds(t *testing.T) {
	const largest = math.MaxFloat64
	below, above := math.Nextafter(1, 0), math.Nextafter(-1, 0)
	ratio := func(x float64) (float64, error) {
		r, err := paperprop.Moisture(x).MoistureRatio()
		return float64(r), err
	}
	moisture := func(x float64) (float64, error) {
		m, err := paperprop.MoistureRatio(x).Moisture()
		return float64(m), err
	}
	moist := func(dry float64) func(float64) (float64, error) {
		return func(x float64) (float64, error) {
			m, err := paperprop.OvenDryMass(x).Moist(paperprop.DryContent(dry))
			return float64(m), err
		}
	}
	for _, test := range []struct {
		name          string
		change        func(float64) (float64, error)
		taken, refuse []float64
	}{
		{"ratio of a moisture", ratio, []float64{-largest, -1, 0, below}, []float64{-math.Inf(1), 1, largest, math.Inf(1), math.NaN()}},
		{"moisture of a ratio", moisture, []float64{above, 0, 1, largest}, []float64{-largest, -1, math.Inf(1), math.NaN()}},
		{"mass at 100 % dry", moist(1), []float64{-largest, 0, largest}, []float64{-math.Inf(1), math.Inf(1), math.NaN()}},
		{"mass at 50 % dry", moist(0.5), []float64{-largest / 2, largest / 2}, []float64{-largest, largest}},
		{"mass at 0 % dry", moist(0), nil, []float64{0, 1}},
		{"mass at 100.1 % dry", moist(1.001), nil, []float64{0, 1}},
	} {
		for _, x := range test.taken {
			if y, err := test.change(x); err != nil || y-y != 0 {
				t.Errorf("%s %v is %v, %v, want a number", test.name, x, y, err)
			}
		}
		for _, x := range test.refuse {
			if y, err := test.change(x); !errors.Is(err, paperprop.ErrRange) {
				t.Errorf("%s %v is %v, %v, want ErrRange", test.name, x, y, err)
			}
		}
	}
	var beyond *paperprop.RangeError
	if _, err := moist(0.5)(largest); !errors.As(err, &beyond) || beyond.Max != largest/2 {
		t.Errorf("twice the largest mass: %v, want at most half of it", err)
	}
}
