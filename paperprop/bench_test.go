package paperprop_test

import (
	"strconv"
	"testing"

	"millmaths.example/paperprop"
)

func BenchmarkParseGrammage(b *testing.B) {
	b.ReportAllocs()
	for b.Loop() {
		if _, err := paperprop.ParseGrammage("42 lb/1000ft2"); err != nil {
			b.Fatal(err)
		}
	}
}

// BenchmarkParseFloatForComparison is what ParseGrammage is measured against.
func BenchmarkParseFloatForComparison(b *testing.B) {
	for b.Loop() {
		if _, err := strconv.ParseFloat("42.5", 64); err != nil {
			b.Fatal(err)
		}
	}
}

func BenchmarkIn(b *testing.B) {
	g := 42 * paperprop.PoundPer1000SquareFoot
	var sum float64
	for b.Loop() {
		sum += g.In(paperprop.GramPerSquareMetre)
		g++
	}
	if sum == 0 {
		b.Fatal("sum is 0")
	}
}

func BenchmarkReadCell(b *testing.B) {
	unit := (42 * paperprop.PoundPer1000SquareFoot).Kind().Units()[1]
	for _, cell := range []string{"42", "127.35", "205.06162345", "0.30000000000000004"} {
		b.Run("digits="+strconv.Itoa(len(cell)), func(b *testing.B) {
			b.ReportAllocs()
			text := []byte(cell)
			for b.Loop() {
				if _, err := unit.Read(text, '.'); err != nil {
					b.Fatal(err)
				}
			}
		})
	}
}

func BenchmarkPeople(b *testing.B) {
	for _, x := range []float64{205.06196, 1.23456789e-5, 1234567} {
		b.Run("x="+paperprop.People(x), func(b *testing.B) {
			var buffer [32]byte
			for b.Loop() {
				paperprop.AppendPeople(buffer[:0], x)
			}
		})
	}
}

func BenchmarkString(b *testing.B) {
	g := 42 * paperprop.PoundPer1000SquareFoot
	c := paperprop.Consistency(0.0437)
	b.Run("unit=canonical", func(b *testing.B) {
		for b.Loop() {
			_ = g.String()
		}
	})
	b.Run("unit=%", func(b *testing.B) {
		for b.Loop() {
			_ = c.String()
		}
	})
}

func BenchmarkComposedUnit(b *testing.B) {
	for b.Loop() {
		if _, err := paperprop.ParseSpecificHeat("3 Btu_IT/(lb·°F)"); err != nil {
			b.Fatal(err)
		}
		if _, err := paperprop.ParseMassFlux("3 lb/(min yd2)"); err != nil {
			b.Fatal(err)
		}
	}
}

// A unit that is none, with what may have been meant.
func BenchmarkRefusedUnit(b *testing.B) {
	for b.Loop() {
		paperprop.Convert("300 tph", "kg/h")
	}
}
