// Package catalogue lists every calculation of the library, by name.
package catalogue

import (
	"millmaths.example/fibre"
	"millmaths.example/paperprop/board"
	"millmaths.example/paperprop/calc"
	"millmaths.example/paperprop/drying"
	"millmaths.example/paperprop/lab"
	"millmaths.example/paperprop/reel"
	"millmaths.example/paperprop/sheet"
	"millmaths.example/stock"
)

// A Group is a room with its calculations.
type Group struct {
	Name, Title  string
	Calculations []calc.Calculation
}

// Groups lists the rooms in the order of the line.
func Groups() []Group {
	return []Group{
		{"stock", "the suspension", stock.Calculations()},
		{"fibre", "the raw material", fibre.Calculations()},
		{"sheet", "test methods on the sheet", sheet.Calculations()},
		{"board", "board and boxes", board.Calculations()},
		{"reel", "reels and production", reel.Calculations()},
		{"drying", "the dry end", drying.Calculations()},
		{"result", "from readings to statements", lab.Calculations()},
	}
}

// Find returns the calculation of a name.
func Find(name string) (calc.Calculation, bool) {
	for _, g := range Groups() {
		for _, c := range g.Calculations {
			if c.ID() == name {
				return c, true
			}
		}
	}
	return nil, false
}

// Names lists the names of all calculations.
func Names() []string {
	var names []string
	for _, g := range Groups() {
		for _, c := range g.Calculations {
			names = append(names, c.ID())
		}
	}
	return names
}
