package making_test

import (
	"context"
	"fmt"
	"io"
	"os"
	"strings"
	"testing"

	"millmaths.example/paperprop"
	"millmaths.example/paperprop/making"
	"millmaths.example/paperprop/table"
)

// smallLine is a line that solves fast.
const smallLine = `
effluent = ["sewer"]
[size]
reel = "10 t/h"
[[component]]
name = "fibre"
form = "suspended"
[[tank]]
name = "water"
overflow = "sewer"
make-up = "fresh"
[[stage]]
name = "pulper"
kind = "pulper"
bales = { moisture = "10 %", fibre = "rest" }
consistency = "4 %"
water = "water"
[[stage]]
name = "wire"
kind = "wire"
retention = { fibre = "90 %" }
dryness = "20 %"
water-to = "water"
[[stage]]
name = "dryers"
kind = "dryers"
dryness = "92 %"
[[stage]]
name = "reel"
kind = "reel"
[[stage]]
name = "winder"
kind = "winder"
broke = "5 %"
broke-to = "pulper"
to = "sold"
`

// Whatever a file says, there is no panic; and what is planned closes, takes as
// much as it makes at least, and can be written.
func FuzzRead(f *testing.F) {
	book := fmt.Sprintf(strings.NewReplacer("harebell-120.toml", "small.toml", `"headbox.consistency" = "0.72 %%"`, "", `"size.speed" = "700 m/min"`, "", `"reel.grammage" = "105 g/m2"`, "").Replace(mill),
		"uptime = \"90 %\"\norders = \"list.csv\"")
	list := head + "A;Harebell 120;1080;9;;2026-12-01;0 %;1250 mm\nB;Whin 105;1640;;12 t;30.11.2026 12:00;10 %;1000 mm\n"
	f.Add(book, list)
	f.Add(strings.Replace(book, "orders = \"list.csv\"", "sequence = [\"Whin 105\"]\nrunning = \"Harebell 120\"\nyard = \"1 t\"", 1)+
		"[change]\ntime = \"1 h\"\nloss = \"1 t\"\n[[order]]\ngrade = \"Whin 105\"\nwidth = \"1 m\"\nreels = 7\ndue = 2026-12-01\n", "")
	real, err := os.ReadFile(quillbeck + "order-book.toml")
	if err != nil {
		f.Fatal(err)
	}
	f.Add(string(real), list)
	ctx, cancel := context.WithCancel(context.Background())
	cancel() // the search is not what is tried here
	f.Fuzz(func(t *testing.T, book, list string) {
		b, err := making.Read("book.toml", strings.NewReader(book), func(name string) (io.ReadCloser, error) {
			if strings.HasSuffix(name, ".csv") {
				return io.NopCloser(strings.NewReader(list)), nil
			}
			return io.NopCloser(strings.NewReader(smallLine)), nil
		}, table.Options{})
		if err != nil || len(b.Orders) > 200 {
			return
		}
		p, err := b.Plan(ctx)
		if err != nil {
			return
		}
		x := p.Tonnes
		if sum := x.Ordered + x.Over + x.Trim + x.Rest + x.Broke + x.Change; !near(float64(sum), float64(x.Made)) {
			t.Errorf("made %v, and %v becomes of it", x.Made, sum)
		}
		if dry := p.Takes.DryPaper.In(paperprop.OvenDryTonne); dry < 0.91*x.Sold().In(paperprop.Tonne)-1e-6 {
			t.Errorf("%v odt of paper for %v sold", dry, x.Sold())
		}
		if _, err := p.JSON(); err != nil {
			t.Error(err)
		}
	})
}
