package calc_test

import (
	"context"
	"strings"
	"testing"

	"millmaths.example/paperprop/calc"
	"millmaths.example/paperprop/catalogue"
)

// Draws of a calculation whose results are all words have nothing to tell of.
func TestDrawsOfAWord(t *testing.T) {
	c, _ := catalogue.Find("freeness-blank")
	s := c.NewSheet()
	if err := s.Set("mass", "1000 ± 1 g"); err != nil {
		t.Fatal(err)
	}
	if err := s.Run(); err != nil {
		t.Fatal(err)
	}
	_, err := calc.MonteCarlo{Draws: 100, Seed: 1, Workers: 1}.Run(context.Background(), s)
	if err == nil || !strings.Contains(err.Error(), "no result is a number") {
		t.Errorf("draws of a verdict: %v", err)
	}
}
