package calc_test

import (
	"math"
	"strings"
	"testing"

	"millmaths.example/paperprop"
)

// A sheet that solved from a surplus input computes the next row from what that row
// gives. Kind: common-practice, area of the ring of paper: pi/4*(D² - core²) = length*t.
func TestSurplusInputOverRows(t *testing.T) {
	s := given(t, "reel", "length=3534.29173529 m; diameter=1250 mm; reel-thickness=345 um")
	length, _ := s.Input("length")
	layer, _ := s.Input("reel-thickness")
	core, _ := s.Input("core-diameter")
	other, _ := s.Output("length")
	want := func(what string, cell interface{ Number() float64 }, want float64) {
		t.Helper()
		if err := s.Run(); err != nil || !(math.Abs(cell.Number()/want-1) <= 1e-9) {
			t.Errorf("%s: %v, %v, want %v", what, cell.Number(), err, want)
		}
	}
	metre := float64(paperprop.Metre)
	want("three of three", core, 100*float64(paperprop.Millimetre))
	want("again", core, 100*float64(paperprop.Millimetre))
	layer.Put(0.5 * 345 * float64(paperprop.Micrometre))
	want("half as thick, put", core, math.Sqrt((1250*1250+100*100)/2)*float64(paperprop.Millimetre))
	length.Put(2 * 3534.29173529 * metre)
	want("twice as long, put", core, 100*float64(paperprop.Millimetre))
	if err := layer.Set("345 um"); err != nil {
		t.Fatal(err)
	}
	length.Put(3534.29173529 * metre)
	want("as at first", core, 100*float64(paperprop.Millimetre))
	layer.Forget()
	if err := core.Set("100 mm"); err != nil {
		t.Fatal(err)
	}
	if err := s.Run(); err != nil || len(s.Roots) > 0 {
		t.Errorf("two of three and the core: %v, %v", s.Roots, err)
	}
	if err := layer.Set("345 um"); err != nil {
		t.Fatal(err)
	}
	length.Forget()
	want("the length alone left out", other, 3534.29173529*metre)
	if s.Reset(); s.Run() == nil {
		t.Error("an empty sheet runs")
	}
}

// What has an uncertainty keeps it where it is solved from. Of core² = D² - 4*length*t/pi
// the slope by t is -2*length/(pi*core).
func TestUncertainSurplus(t *testing.T) {
	s := given(t, "reel", "length=3534.29173529 m; diameter=1250 mm; reel-thickness=345 ± 0.1 um")
	for range 2 {
		if err := s.Run(); err != nil {
			t.Fatal(err)
		}
		all, err := s.Uncertainties()
		if err != nil || len(all) == 0 {
			t.Fatal(all, err)
		}
		root := all[len(all)-1]
		got, want := paperprop.Length(root.Standard).In(paperprop.Millimetre), 2*3534291.73529*1e-4/(math.Pi*100)
		if root.Cell.Name != "core-diameter" || !(math.Abs(got/want-1) <= 1e-6) {
			t.Errorf("u(%s) = %v mm, want %v", root.Cell.Name, got, want)
		}
	}
}

// An input too many is refused where nothing is left to solve for, where two are, and
// where its result does not depend on what is.
func TestSurplusRefused(t *testing.T) {
	for _, test := range []struct{ calculation, inputs, want string }{
		{"reel", "length=3000 m; diameter=1250 mm; reel-thickness=345 um; core-diameter=100 mm", "want exactly 2 of length, diameter, reel-thickness, given: length, diameter, reel-thickness"},
		{"reel", "length=3000 m; diameter=1250 mm; reel-thickness=345 um; core-diameter=?; exact-layers=4", "reel-thickness"},
		{"reel", "length=3000 m; diameter=1250 mm; reel-thickness=-1 um", "reel-thickness is -1 um, want above 0 um"},
		{"reel", "length=3000 m; diameter=1250 mm; reel-thickness=3450 um", "no core-diameter between 0 mm and 1000000000 mm gives reel-thickness 3450 um"},
		{"reel-mass", "length=3000 m; diameter=1250 mm; reel-thickness=345 um; reel-width=1 m", "core-diameter is missing, want a length such as 1 mm; missing too: grammage"},
		{"humid-air", "dew-point=20 degC; humidity-ratio=0.02 kg/kg", "humidity-ratio does not depend on temperature"},
		{"humid-air", "dew-point=20 degC; relative-humidity=50 %; humidity-ratio=0.02 kg/kg", "temperature is missing, want a temperature such as 1 degC"},
		{"steam", "pressure=5 bar(a); gauge-pressure=4 bar(g)", "want exactly 1 of temperature, pressure, gauge-pressure, given: pressure, gauge-pressure"},
	} {
		s := given(t, test.calculation, test.inputs)
		if err := s.Run(); err == nil || !strings.Contains(err.Error(), test.want) {
			t.Errorf("%s of %s: %v, want %s", test.calculation, test.inputs, err, test.want)
		}
	}
}
