package catalogue_test

import (
	"bytes"
	"sync"
	"testing"

	"millmaths.example/paperprop/calc"
	"millmaths.example/paperprop/catalogue"
)

// A thousand goroutines calculate at once over one catalogue, and each finds what
// one alone finds. It is worth most under the race detector.
func TestTogether(t *testing.T) {
	var all []calc.Calculation
	var want [][]byte
	for _, name := range catalogue.Names() {
		c, _ := catalogue.Find(name)
		if c.Info().Tool {
			continue
		}
		data, err := exampleOf(c)
		if err != nil {
			t.Fatalf("%s: %v", name, err)
		}
		all, want = append(all, c), append(want, data)
	}
	const goroutines, each = 1000, 4
	begin := make(chan struct{})
	var group sync.WaitGroup
	for g := range goroutines {
		group.Go(func() {
			<-begin
			for k := range each {
				i := (g*each + k) % len(all)
				if got, err := exampleOf(all[i]); err != nil || !bytes.Equal(got, want[i]) {
					t.Errorf("%s: %s, %v, alone %s", all[i].ID(), got, err, want[i])
				}
			}
		})
	}
	close(begin)
	group.Wait()
}

// exampleOf runs a calculation on its own example.
func exampleOf(c calc.Calculation) ([]byte, error) {
	s, err := exampleSheet(c)
	if err != nil {
		return nil, err
	}
	return s.MarshalJSON()
}

// exampleSheet returns a sheet that has run on the example of a calculation.
func exampleSheet(c calc.Calculation) (*calc.Sheet, error) {
	s := c.NewSheet()
	if err := s.SetText(c.Info().Example); err != nil {
		return nil, err
	}
	return s, s.Run()
}
