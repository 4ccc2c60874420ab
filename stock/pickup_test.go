package stock_test

import (
	"slices"
	"testing"

	"millmaths.example/paperprop/calc"
	"millmaths.example/stock"
)

// A size press draws in, and its starch is hot.
func TestPickUpCautions(t *testing.T) {
	for _, c := range stock.Calculations() {
		info := c.Info()
		if want := []*calc.Caution{&calc.MovingMachine, &calc.Steam}; info.Name == "pick-up" && !slices.Equal(info.Cautions, want) {
			t.Errorf("pick-up bears %v, want %v", info.Cautions, want)
		}
	}
}
