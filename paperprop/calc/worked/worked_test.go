package worked_test

import (
	"errors"
	"fmt"
	"os"
	"strings"
	"testing"

	"millmaths.example/paperprop/calc"
	"millmaths.example/paperprop/calc/worked"
	"millmaths.example/paperprop/catalogue"
)

// solved returns the worked solution of a calculation.
func solved(name, inputs string) (*calc.Solution, error) {
	c, ok := catalogue.Find(name)
	if !ok {
		return nil, errors.New("no calculation " + name)
	}
	s := c.NewSheet()
	if err := s.SetText(inputs); err != nil {
		return nil, err
	}
	if err := s.Run(); err != nil {
		return nil, err
	}
	return s.Solution()
}

// The dilution of an invented mill, Quillbeck, from the first stage of its line.
func ExampleText() {
	w, err := solved("dilution", "mass-flow=300 t/h; consistency-in=4.6 %; consistency-out=0.92 %")
	if err != nil {
		fmt.Println(err)
		return
	}
	if err := worked.Text(os.Stdout, w, calc.Findings{}); err != nil {
		fmt.Println(err)
	}
	// Output:
	// Dilution of stock to a lower consistency
	//
	// Given
	//   q      300 t/h  mass-flow          stock before
	//   c_in   4.6 %    consistency-in     before
	//   c_out  0.92 %   consistency-out    wanted
	//   c_w    0 %      water-consistency  of the water added (default)
	//
	// Solution
	//   q_w = q*(c_in - c_out)/(c_out - c_w)
	//       = (300 t/h)*(4.6 % - 0.92 %)/(0.92 % - 0 %)
	//       = 1200 t/h
	//   q_out = q + q_w
	//         = (300 t/h) + (1200 t/h)
	//         = 1500 t/h
	//   q_d = q_out*c_out
	//       = (1500 t/h)*0.92 %
	//       = 13.8 t/h
	//
	// Result
	//   q_w    1200 t/h  water-flow
	//   q_out  1500 t/h  mass-flow-out
	//   q_d    13.8 t/h  dry-flow-out
	//
	// Source: balance of stock and of dry matter over the mixing point
	//   (common-practice)
}

// What a solution warns of, and cautions, stand in both forms.
func TestWarningsAndCautions(t *testing.T) {
	w, err := solved("replicates", "value=[612] N")
	if err != nil {
		t.Fatal(err)
	}
	w.Cautions = []*calc.Caution{&calc.HeavyReel}
	var text, markdown strings.Builder
	if err := errors.Join(worked.Text(&text, w, calc.Findings{}), worked.Markdown(&markdown, w, calc.Findings{})); err != nil {
		t.Fatal(err)
	}
	for _, test := range []struct{ got, warning, caution string }{
		{text.String(), "\nWarning: single-reading: one reading", "\nCaution: A reel can weigh tonnes"},
		{markdown.String(), "\n**Warning** (single-reading): one reading", "\n**Caution**: A reel can weigh tonnes"},
	} {
		if !strings.Contains(test.got, test.warning) || !strings.Contains(test.got, test.caution) {
			t.Errorf("no %q or %q in\n%s", test.warning, test.caution, test.got)
		}
	}
}

// A writer that fails is told of.
func TestWriterFails(t *testing.T) {
	w, err := solved("dilution", "mass-flow=300 t/h; consistency-in=4.6 %; consistency-out=0.92 %")
	if err != nil {
		t.Fatal(err)
	}
	full := errors.New("disk full")
	if got := worked.Text(fails{full}, w, calc.Findings{}); got != full {
		t.Errorf("Text: %v", got)
	}
	if got := worked.Markdown(fails{full}, w, calc.Findings{}); got != full {
		t.Errorf("Markdown: %v", got)
	}
}

type fails struct{ err error }

func (f fails) Write([]byte) (int, error) { return 0, f.err }
