// Package catalogue lists every calculation of the library, by name:
//
//	c, ok := catalogue.Find("retention")
//	answer, err := calc.RunJSON(c, []byte(`{"headbox-consistency":"0.8 %","tray-consistency":"0.2 %"}`))
//
// It is for programs that learn the name when they run: a command, a service, a
// laboratory's worksheet. A program that knows what it computes imports only that
// package, such as millmaths.example/stock, and has types.
//
// # What people get wrong
//
// Importing this package links every calculation. Where size matters, make a list
// from the packages you want: the Calculations of each are a slice, and your own
// calculations can join them.
//
// Some entries are a [calc.Tool] and have no sheet: [calc.Info].Tool says so, and
// [calc.RunJSON] runs either.
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

// A Group is a room, which is one package of the library, with its calculations.
type Group struct {
	Name, Title  string
	Calculations []calc.Calculation
}

// Groups returns the rooms in the order of the production line.
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

// All returns the calculations of all rooms. The caller owns the slice and may append
// calculations to it.
func All() []calc.Calculation {
	var all []calc.Calculation
	for _, g := range Groups() {
		all = append(all, g.Calculations...)
	}
	return all
}

// Find returns the calculation with the given name.
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

// Names returns the names of all calculations.
func Names() []string {
	var names []string
	for _, c := range All() {
		names = append(names, c.ID())
	}
	return names
}
