package catalogue_test

import (
	"encoding/xml"
	"errors"
	"io"
	"strings"
	"testing"

	"millmaths.example/paperprop/calc"
	"millmaths.example/paperprop/calc/formula"
	"millmaths.example/paperprop/calc/mathml"
)

// Every formula line is set as one well-formed element math that shows each of
// its symbols, with all numbers, and as many fractions as it has strokes outside
// of exponents.
func TestFormulaLinesAsMathML(t *testing.T) {
	every(t, func(t *testing.T, c calc.Calculation) {
		for _, text := range c.Info().Formula {
			line, err := formula.Parse(text)
			if err != nil {
				t.Fatal(err)
			}
			got := mathml.Line(line)
			if !strings.HasPrefix(got, `<math display="block">`) || strings.Count(got, "<math") != 1 {
				t.Errorf("%s is no element math: %s", text, got)
			}
			d := xml.NewDecoder(strings.NewReader(got))
			for {
				if _, err := d.Token(); errors.Is(err, io.EOF) {
					break
				} else if err != nil {
					t.Fatalf("%s: %v in %s", text, err, got)
				}
			}
			for _, name := range append(line.Names(), line.Name) {
				// With a power the parts of a symbol stand in another element.
				inner := strings.TrimSuffix(strings.TrimPrefix(mathml.Symbol(name), "<msub>"), "</msub>")
				if !strings.Contains(got, inner) {
					t.Errorf("%s does not show %s: %s", text, name, got)
				}
			}
			if strokes, fractions := strings.Count(line.Text, "/"), strings.Count(got, "<mfrac>")+strings.Count(got, "<mo>/</mo>"); strokes != fractions {
				t.Errorf("%s has %d strokes, %d are set: %s", text, strokes, fractions, got)
			}
		}
	})
}
