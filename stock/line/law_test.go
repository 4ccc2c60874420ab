package line_test

import (
	"fmt"
	"math"
	"math/rand/v2"
	"strings"
	"testing"

	"millmaths.example/stock/line"
)

// twoPly is a line with all that the format knows: two furnishes, a thickener,
// two plies, two tanks of which one makes up for the other, a save-all, showers
// and broke from four places.
const twoPly = `
name = "two plies"
waste = ["coarse rejects", "cleaner rejects"]
effluent = ["sewer"]
temperature = "50 °C"

[size]
sold = "20 t/h"

[[component]]
name = "fibre"
form = "suspended"
[[component]]
name = "fines"
form = "suspended"
density = "1500 kg/m3"
[[component]]
name = "salt"
form = "dissolved"
[[component]]
name = "starch"
form = "dissolved"

[[tank]]
name = "white water"
overflow = "save-all"
make-up = "clear water"
[[tank]]
name = "clear water"
overflow = "sewer"
make-up = "fresh"

[[water]]
name = "wire showers"
to = "bottom wire"
flow = "20 t/h"
[[water]]
name = "felt showers"
to = "press"
flow = "0.5 t/t"
[[water]]
name = "bleed"
from = "white water"
to = "sewer"
flow = "5 t/h"

[[stage]]
name = "white pulper"
kind = "pulper"
bales = { moisture = "9 %", fibre = "82 %", fines = "15 %", salt = "1 %", starch = "2 %" }
share = "30 %"
consistency = "4.5 %"
water = "clear water"
to = "top chest"
[[stage]]
name = "brown pulper"
kind = "pulper"
bales = { moisture = "12 %", fibre = "rest", fines = "20 %", starch = "2 %" }
consistency = "4.2 %"
water = "white water"
reject-rate = "3 %"
reject-dryness = "55 %"
rejects-to = "coarse rejects"
[[stage]]
name = "cleaner 1"
kind = "cleaner"
consistency = "1.2 %"
water = "white water"
reject-rate = "12 %"
reject-consistency = "2.0 %"
rejects-to = "cleaner 2"
to = "thickener"
[[stage]]
name = "cleaner 2"
kind = "cleaner"
consistency = "0.9 %"
water = "white water"
reject-rate = "20 %"
reject-consistency = "1.5 %"
rejects-to = "cleaner rejects"
to = "cleaner 1"
[[stage]]
name = "thickener"
kind = "thickener"
consistency = "5 %"
capture = { fibre = "99 %", fines = "92 %" }
water-to = "white water"
to = "bottom chest"
[[stage]]
name = "save-all"
kind = "save-all"
consistency = "3 %"
capture = "90 %"
water-to = "clear water"
to = "bottom chest"
[[stage]]
name = "top chest"
kind = "chest"
consistency = "3.5 %"
water = "white water"
to = { "top headbox" = "90 %", "bottom chest" = "rest" }
[[stage]]
name = "bottom chest"
kind = "chest"
to = "bottom headbox"
[[stage]]
name = "top headbox"
kind = "headbox"
consistency = "0.4 %"
water = "white water"
[[stage]]
name = "top wire"
kind = "wire"
retention = { fibre = "90 %", fines = "60 %" }
dryness = "17 %"
water-to = "white water"
broke = "1 %"
broke-to = "broke chest"
to = "press"
[[stage]]
name = "bottom headbox"
kind = "headbox"
consistency = "0.7 %"
water = "white water"
[[stage]]
name = "bottom wire"
kind = "wire"
retention = { fibre = "92 %", fines = "55 %", starch = "30 %" }
dryness = "18 %"
water-to = "white water"
to = "press"
[[stage]]
name = "press"
kind = "press"
dryness = "46 %"
water-to = "white water"
broke = "1 %"
broke-to = "broke chest"
[[stage]]
name = "dryers"
kind = "dryers"
dryness = "95 %"
[[stage]]
name = "size press"
kind = "size press"
adds = "starch"
solution = "10 %"
pick-up = "3 %"
[[stage]]
name = "after-dryers"
kind = "dryers"
dryness = "92 %"
[[stage]]
name = "reel"
kind = "reel"
broke = "2 %"
broke-to = "broke chest"
[[stage]]
name = "winder"
kind = "winder"
broke = "4 %"
broke-to = "broke chest"
to = "sold"
[[stage]]
name = "broke chest"
kind = "pulper"
consistency = "3.8 %"
water = "white water"
to = "bottom chest"
`

// randomLine writes a line within the limits of what mills do.
func randomLine(r *rand.Rand) string {
	between := func(low, high float64) string { return fmt.Sprintf("\"%.4g %%\"", low+(high-low)*r.Float64()) }
	var b strings.Builder
	words := func(list ...string) string { return list[r.IntN(len(list))] }
	fmt.Fprintf(&b, "waste = [\"rejects\"]\neffluent = [\"sewer\"]\n[size]\n%s = \"%.3g t/h\"\n", words("fed", "reel", "sold"), 5+40*r.Float64())
	fmt.Fprintf(&b, "[conventions]\nconsistency = %q\nrejects = %q\ncoarse-rejects = %q\nreject-rate = %q\npress-water = %q\npulper-consistency = %q\n",
		words("everything but water", "suspended matter"), words("as the stream they are taken from", "dissolved matter follows the water"),
		words("as the bales", "as the stock"), words("by dry mass", "by mass of stock"), words("carries no solids", "carries dissolved matter"),
		words("of the accepted stock", "before the rejects are taken out"))
	fmt.Fprintf(&b, "[[component]]\nname = \"fibre\"\nform = \"suspended\"\n[[component]]\nname = \"filler\"\nform = \"suspended\"\n[[component]]\nname = \"starch\"\nform = \"dissolved\"\n")
	fmt.Fprintf(&b, "[[tank]]\nname = \"loop\"\noverflow = \"sewer\"\n")
	fmt.Fprintf(&b, "[[water]]\nname = \"fresh water\"\nto = \"loop\"\nflow = \"%.3g t/t\"\n", 15+15*r.Float64())
	fmt.Fprintf(&b, "[[stage]]\nname = \"pulper\"\nkind = \"pulper\"\nbales = { moisture = %s, fibre = \"rest\", filler = %s, starch = %s }\nconsistency = %s\nwater = \"loop\"\n",
		between(6, 16), between(2, 18), between(0, 4), between(3.8, 5))
	fmt.Fprintf(&b, "reject-rate = %s\nreject-dryness = %s\nrejects-to = \"rejects\"\n", between(0, 6), between(40, 65))
	stages := 2 + r.IntN(3)
	for i := 1; i <= stages; i++ {
		to, rejects := fmt.Sprint("screen ", i-1), fmt.Sprint("screen ", i+1)
		if i == 1 {
			to = "chest"
		}
		if i == stages {
			rejects = "rejects"
		}
		fmt.Fprintf(&b, "[[stage]]\nname = \"screen %d\"\nkind = %q\nconsistency = %s\nwater = \"loop\"\nreject-rate = %s\nreject-consistency = %s\nrejects-to = %q\nto = %q\n",
			i, words("screen", "cleaner"), between(1.2, 1.9), between(6, 16), between(2, 3.3), rejects, to)
	}
	fmt.Fprintf(&b, "[[stage]]\nname = \"chest\"\nkind = \"chest\"\n[[stage]]\nname = \"headbox\"\nkind = \"headbox\"\nconsistency = %s\nwater = \"loop\"\n", between(0.6, 1))
	starch := ""
	if r.IntN(2) == 0 {
		starch = ", starch = " + between(5, 40)
	}
	fmt.Fprintf(&b, "[[stage]]\nname = \"wire\"\nkind = \"wire\"\nretention = { fibre = %s, filler = %s%s }\ndryness = %s\nwater-to = \"loop\"\n", between(80, 97), between(40, 70), starch, between(16, 22))
	fmt.Fprintf(&b, "[[stage]]\nname = \"press\"\nkind = \"press\"\ndryness = %s\nwater-to = \"loop\"\n", between(40, 52))
	fmt.Fprintf(&b, "[[stage]]\nname = \"dryers\"\nkind = \"dryers\"\ndryness = %s\n", between(90, 97))
	fmt.Fprintf(&b, "[[stage]]\nname = \"size press\"\nkind = \"size press\"\nadds = \"starch\"\nsolution = %s\npick-up = %s\n", between(6, 14), between(1, 6))
	fmt.Fprintf(&b, "[[stage]]\nname = \"after-dryers\"\nkind = \"dryers\"\ndryness = %s\n[[stage]]\nname = \"reel\"\nkind = \"reel\"\n", between(90, 96))
	fmt.Fprintf(&b, "[[stage]]\nname = \"winder\"\nkind = \"winder\"\nbroke = %s\nbroke-to = \"broke\"\nto = \"sold\"\n", between(0, 12))
	fmt.Fprintf(&b, "[[stage]]\nname = \"broke\"\nkind = \"pulper\"\nconsistency = %s\nwater = \"loop\"\nto = \"chest\"\n", between(3, 4.5))
	return b.String()
}

const lines = 400

// Of random lines within limits, mass closes: in every place, of every
// component, and over the mill.
func TestMassCloses(t *testing.T) {
	r := rand.New(rand.NewPCG(7, 7))
	refused := 0
	for i := range lines {
		text := randomLine(r)
		a, err := answer(text)
		if err != nil {
			refused++
			if refused > lines/20 {
				t.Fatalf("line %d: %v\n%s", i, err, text)
			}
			continue
		}
		if a.Closure > 1e-10 {
			t.Errorf("line %d closes to %g\n%s", i, a.Closure, text)
		}
		if a.Passes > 12 {
			t.Errorf("line %d took %d passes", i, a.Passes)
		}
	}
	if a := solve(t, twoPly); a.Closure > 1e-10 {
		t.Errorf("two plies close to %g", a.Closure)
	}
}

// Of twice the size every flow is twice as large, and no ratio changes.
func TestScale(t *testing.T) {
	r := rand.New(rand.NewPCG(8, 7))
	texts := []string{strings.NewReplacer(`"20 t/h"`, `"1 t/t"`, `"5 t/h"`, `"0.3 t/t"`).Replace(twoPly)}
	texts[0] = strings.Replace(texts[0], "sold = \"1 t/t\"", "sold = \"20 t/h\"", 1)
	for range 20 {
		texts = append(texts, randomLine(r))
	}
	for _, text := range texts {
		l, err := line.Read("", strings.NewReader(text))
		if err != nil {
			t.Fatal(err)
		}
		s, err := l.NewSolver()
		if err != nil {
			continue
		}
		before := s.Values(nil)
		for i, f := range l.Figures {
			if strings.HasPrefix(f.Name, "size.") {
				s.Set(i, 2*f.Value)
			}
		}
		if err := s.Solve(); err != nil {
			t.Fatal(err)
		}
		for i, y := range s.Values(nil) {
			result := &s.Results()[i]
			factor := 1.0
			if k := result.Kind.Name(); k == "MassFlow" || k == "VolumeFlow" {
				factor = 2
			}
			if !(math.Abs(y-factor*before[i]) <= 1e-9*math.Abs(y)+1e-12) {
				t.Errorf("%s: %g, of twice the size %g, want %g times as much", result.Name, before[i], y, factor)
			}
		}
	}
}

// same compares the results that two lines share.
func same(t *testing.T, what string, a, b *line.Answer) {
	t.Helper()
	shared := 0
	for i := range a.Results {
		v, ok := b.Value(a.Results[i].Name)
		if !ok {
			continue
		}
		shared++
		if !(math.Abs(v-a.Values[i]) <= 1e-10*math.Abs(v)+1e-13) {
			t.Errorf("%s: %s = %g, want %g", what, a.Results[i].Name, v, a.Values[i])
		}
	}
	if shared < len(a.Results)-2 {
		t.Errorf("%s: %d of %d results are there", what, shared, len(a.Results))
	}
}

// A stage that does nothing changes nothing.
func TestPassing(t *testing.T) {
	r := rand.New(rand.NewPCG(9, 7))
	for range 20 {
		text := randomLine(r)
		a, err := answer(text)
		if err != nil {
			continue
		}
		passing := strings.Replace(text, "[[stage]]\nname = \"headbox\"", "[[stage]]\nname = \"blend chest\"\nkind = \"chest\"\n[[stage]]\nname = \"headbox\"", 1)
		same(t, "with a chest more", a, solve(t, passing))
	}
}

// The order of tanks and waters in the file does not matter.
func TestOrder(t *testing.T) {
	const first = "[[tank]]\nname = \"white water\"\noverflow = \"save-all\"\nmake-up = \"clear water\"\n"
	text := strings.Replace(twoPly, first, "", 1)
	if text == twoPly {
		t.Fatal("the tank is not in the file")
	}
	text = strings.Replace(text, "[[water]]\nname = \"bleed\"", first+"[[water]]\nname = \"bleed\"", 1)
	same(t, "tanks in the other order", solve(t, twoPly), solve(t, text))
}

// A tank with overflow and make-up has one of the two, whatever is drawn.
func TestSwitch(t *testing.T) {
	// The save-all is fed by what it takes, not by what runs over.
	text := strings.Replace(twoPly, "overflow = \"save-all\"", "overflow = \"sewer\"", 1)
	text = strings.Replace(text, "[[stage]]", "[[water]]\nname = \"to save-all\"\nfrom = \"white water\"\nto = \"save-all\"\nflow = \"150 t/h\"\n[[stage]]", 1)
	for _, flow := range []string{"5 t/h", "100 t/h", "400 t/h", "900 t/h"} {
		a := solve(t, strings.Replace(text, `"5 t/h"`, `"`+flow+`"`, 1))
		for _, tank := range []string{"white water", "clear water"} {
			over, made := 0.0, 0.0
			for _, s := range a.Streams {
				switch {
				case strings.HasPrefix(s.Name, "make-up of the "+tank):
					made = float64(s.Total)
				case strings.HasPrefix(s.Name, "overflow of the "+tank):
					over = float64(s.Total)
				}
			}
			if over < -1e-9 || made < -1e-9 || over > 1e-9 && made > 1e-9 {
				t.Errorf("bleed %s: %s overflows by %g and is made up by %g", flow, tank, over, made)
			}
		}
	}
}

// Whatever a file holds, reading ends with a line or with what is wrong, and a
// line that is solved closes.
func FuzzRead(f *testing.F) {
	// A short one: what the fuzzer finds it also makes as small as it can.
	f.Add(`effluent=["out"]
[size]
fed="1 t/h"
[[component]]
name="f"
form="suspended"
[[tank]]
name="w"
overflow="out"
[[water]]
name="a"
to="w"
flow="99 t/h"
[[stage]]
name="p"
kind="pulper"
bales={moisture="9 %",f="rest"}
consistency="4 %"
water="w"
to="sold"`)
	f.Fuzz(func(t *testing.T, text string) {
		a, err := answer(text)
		if err == nil && !(a.Closure <= 1e-9) {
			t.Errorf("closes to %g", a.Closure)
		}
	})
}
