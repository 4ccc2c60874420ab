package line_test

import (
	"fmt"
	"strings"

	"millmaths.example/paperprop"
	"millmaths.example/stock/line"
)

// small is a line of an invented mill in as few words as a line takes.
const small = `
name     = "Quillbeck, in short"
effluent = ["sewer"]

[size]
reel = "20 t/h"

[[component]]
name = "fibre"
form = "suspended"

[[tank]]
name     = "white water"
overflow = "sewer"

[[water]]
name = "river"
to   = "white water"
flow = "200 ± 5 t/h"

[[stage]]
name        = "pulper"
kind        = "pulper"
bales       = { moisture = "10 %", fibre = "rest" }
consistency = "4 %"
water       = "white water"

[[stage]]
name        = "headbox"
kind        = "headbox"
consistency = "0.8 %"
water       = "white water"

[[stage]]
name      = "wire"
kind      = "wire"
retention = { fibre = "80 ± 1 %" }
dryness   = "20 %"
water-to  = "white water"

[[stage]]
name     = "press"
kind     = "press"
dryness  = "45 %"
water-to = "white water"

[[stage]]
name    = "dryers"
kind    = "dryers"
dryness = "92 %"

[[stage]]
name = "reel"
kind = "reel"
to   = "sold"
`

// A line that a program brings as text: 20 t/h at 92 % are 18.4 t/h of fibre, of which
// 80 % stay on the wire, so the headbox holds 23 t/h in 2875 t/h of stock at 0.8 %.
func ExampleRead() {
	l, err := line.Read("small.toml", strings.NewReader(small))
	if err != nil {
		fmt.Println(err)
		return
	}
	a, err := l.Solve()
	if err != nil {
		fmt.Println(err)
		return
	}
	for _, s := range a.Streams {
		if s.From == "headbox" || s.To == "sewer" {
			fmt.Printf("%s: %.1f t/h, of it fibre %.3f t/h\n", s.Name,
				s.Total.In(paperprop.TonnePerHour), s.Flows[0].In(paperprop.TonnePerHour))
		}
	}
	retention, _ := a.Value("overall-retention")
	fmt.Printf("%.2f %%, closed: %v\n", 100*retention, a.Closure < 1e-9)
	// Output:
	// headbox: 2875.0 t/h, of it fibre 23.000 t/h
	// sewer: 179.9 t/h, of it fibre 0.273 t/h
	// 94.96 %, closed: true
}

// A figure of the line is left open, and a result is given in its place: 4.6 t/h of fibre
// through the wire are 0.155 % of the 2834.1 t/h that wire and press give and what the
// river adds. Then what is uncertain moves the other results.
func ExampleLine_SolveFor() {
	l, err := line.Read("small.toml", strings.NewReader(small))
	if err != nil {
		fmt.Println(err)
		return
	}
	open, err := l.With("river.flow", "?")
	if err != nil {
		fmt.Println(err)
		return
	}
	wish, err := open.ReadWish("white water.consistency", "0.155 %")
	if err != nil {
		fmt.Println(err)
		return
	}
	lines, err := open.SolveFor(wish)
	if err != nil {
		fmt.Println(err)
		return
	}
	solved, err := open.FigureNamed("river.flow")
	if err != nil {
		fmt.Println(err)
		return
	}
	for _, found := range lines {
		fmt.Println(found.Figures[solved])
		spreads, err := found.Uncertainties(solved, wish)
		if err != nil {
			fmt.Println(err)
			return
		}
		results := found.Results()
		i, err := line.ResultNamed(results, "overall-retention")
		if err != nil {
			fmt.Println(err)
			return
		}
		a, err := found.Solve()
		if err != nil {
			fmt.Println(err)
			return
		}
		fmt.Printf("%s %s, u = %.3g %%\n", results[i].Name, results[i].Text(a.Values[i]), 100*spreads[i].Standard)
	}
	// Output:
	// river.flow = 133.631 t/h
	// overall-retention 95.3798 %, u = 1.19 %
}

// A figure runs through a range; a line that is refused has its reason.
func ExampleLine_Range() {
	l, err := line.Read("small.toml", strings.NewReader(small))
	if err != nil {
		fmt.Println(err)
		return
	}
	results := l.Results()
	effluent, err := line.ResultNamed(results, "effluent")
	if err != nil {
		fmt.Println(err)
		return
	}
	points, err := l.Range("press.dryness", []float64{0.15, 0.45, 0.48})
	if err != nil {
		fmt.Println(err)
		return
	}
	for _, p := range points {
		if p.Err != nil {
			fmt.Printf("%.0f %%: %v\n", 100*p.Figure, p.Err)
			continue
		}
		fmt.Printf("%.0f %%: effluent %s\n", 100*p.Figure, results[effluent].Text(p.Values[effluent]))
	}
	// Output:
	// 15 %: small.toml:44: press: dryness is 15 %: the press would wet the sheet, which comes in at 20 %
	// 45 %: effluent 179.859 t/h
	// 48 %: effluent 182.418 t/h
}
