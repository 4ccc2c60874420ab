package paperprop_test

import (
	"testing"

	"millmaths.example/paperprop"
)

// Kind: common-practice, products of exact factors by hand.
func TestDerivedUnits(t *testing.T) {
	unit := func(text string) paperprop.Unit { return unit(t, text) }
	for _, test := range []struct {
		what   string
		got    paperprop.Unit
		text   string
		factor float64 // what 1 of it is in unit base
		base   string
	}{
		{"N per %", unit("N").Per(unit("%")), "N/%", 100, "N"},
		{"% per %", unit("%").Per(unit("%")), "1", 1, "1"},
		{"lbf per psi", unit("lbf").Per(unit("psi")), "lbf/psi", 6.4516, "cm2"},
		{"1 per (kN/m)", unit("").Per(unit("kN/m")), "1/(kN/m)", 1, "m/kN"},
		{"g/m2 per 1", unit("g/m2").Per(unit("")), "g/m2", 1, "g/m2"},
		{"kN/m per mm", unit("kN/m").Per(unit("mm")), "(kN/m)/mm", 1e6, "N/m2"},
		{"square of g/m2", unit("g/m2").Squared(), "(g/m2)2", 1e-6, "kg2/m4"},
		{"square of lb/1000ft2", unit("lb/1000ft2").Squared(), "(lb/1000ft2)2", 4.882427636383051 * 4.882427636383051, "(g/m2)2"},
		{"square of %", unit("%").Squared(), "%2", 1e-4, "1"},
		{"square of a number", unit("").Squared(), "1", 1, "1"},
		{"square of mm", unit("mm").Squared(), "mm2", 1, "mm2"},
		{"square of m9", unit("m9").Squared(), "(m9)2", 1, "m9 m9"},
	} {
		if test.got.String() != test.text {
			t.Errorf("%s is written %q, want %q", test.what, test.got, test.text)
		}
		back := unit(test.got.String())
		for _, u := range []paperprop.Unit{test.got, back} {
			x, err := u.Convert(1, unit(test.base))
			if err != nil || x < test.factor*(1-1e-15) || x > test.factor*(1+1e-15) {
				t.Errorf("1 %s is %v %s, %v, want %v", u, x, test.base, err, test.factor)
			}
		}
	}
}

// A power of a bracket is that of each unit in it, from 2 to 9, in letters of the
// keyboard or above the line.
func TestPowersOfBrackets(t *testing.T) {
	for _, test := range []struct{ text, dimension string }{
		{"(m)2", "m2"}, {"(m)9", "m9"}, {"(m/s)3", "m3/s3"}, {"m²/s³", "m2/s3"}, {"m⁴/s⁵", "m4/s5"}, {"m⁶/s⁷", "m6/s7"}, {"m⁸/s⁹", "m8/s9"},
		// Powers are held to 20 before a factor is taken, on both sides of the stroke.
		{"m9 m9 m2 m", "m21"}, {"(1/m9) (1/m9) (1/m2) m", "1/m19"},
	} {
		if u, err := paperprop.ParseUnit(test.text); err != nil || u.Dimension().String() != test.dimension {
			t.Errorf("%q is read as %v, %v, %v, want %s", test.text, u, u.Dimension(), err, test.dimension)
		}
	}
	for _, text := range []string{"(m9)9", "((kg)9)9", "(g/m2", "(g/m2)1", "(g/m2)10", "m9 m9 m3 m", "(1/m9) (1/m9) (1/m3) m"} {
		if u, err := paperprop.ParseUnit(text); err == nil {
			t.Errorf("%q is read as %v, want a refusal", text, u)
		}
	}
}

// The places of a Dimension are those in which String writes it.
func TestDimensionPlaces(t *testing.T) {
	d := paperprop.Dimension{paperprop.BaseMass: 1, paperprop.BaseLength: 2, paperprop.BaseTime: -3, paperprop.BaseTemperature: -1,
		paperprop.BaseAmount: -2, paperprop.BaseCurrent: -4, paperprop.BaseAngle: -5}
	if got, want := d.String(), "kg m2/(s3 K mol2 A4 deg5)"; got != want {
		t.Errorf("%s, want %s", got, want)
	}
}
