package mathml_test

import (
	"encoding/xml"
	"io"
	"strings"
	"testing"

	"millmaths.example/paperprop/calc/formula"
	"millmaths.example/paperprop/calc/mathml"
)

// A line that is read comes out as an element with all its ends.
func FuzzLine(f *testing.F) {
	for _, line := range []string{"q_w = q*(c_in - c_out)/(c_out - c_w)", "basis: m_p = m*1e-3", "s = sqrt(sum(pow(x - x_m, 2)))", "a = b<c", "a = -(-b)"} {
		f.Add(line)
	}
	f.Fuzz(func(t *testing.T, text string) {
		line, err := formula.Parse(text)
		if err != nil {
			return
		}
		d := xml.NewDecoder(strings.NewReader(mathml.Line(line)))
		for {
			if _, err := d.Token(); err == io.EOF {
				return
			} else if err != nil {
				t.Fatalf("%q gives %q: %v", text, mathml.Line(line), err)
			}
		}
	})
}
