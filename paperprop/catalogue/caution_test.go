package catalogue_test

import (
	"slices"
	"testing"

	"millmaths.example/paperprop/calc"
)

// What is measured or set at one place of a machine bears its caution whichever way it
// is reckoned.
func TestOnePlaceOneCaution(t *testing.T) {
	for _, test := range []struct {
		caution      *calc.Caution
		calculations []string
	}{
		{&calc.MovingMachine, []string{"jet", "jet-pressure", "slice"}},
		{&calc.MovingMachine, []string{"free-air", "vacuum-air"}},
		{&calc.Steam, []string{"cylinder-heat", "cylinder-heat-transfer", "mean-steam-temperature"}},
		{&calc.Steam, []string{"water", "water-vapour", "steam"}},
		{&calc.Steam, []string{"steam-use", "steam-per-water", "dryer-steam", "heat-use"}},
		{&calc.HeavyReel, []string{"sets", "sets-by-diameter", "reel-count", "reel-count-by-diameter", "reel-length", "roll-density"}},
	} {
		for _, name := range test.calculations {
			if !slices.Contains(infoOf(name).Cautions, test.caution) {
				t.Errorf("%s does not bear the caution %s", name, test.caution.Code)
			}
		}
	}
}
