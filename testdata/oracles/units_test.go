package oracles

import (
	"fmt"
	"math"
	"os/exec"
	"regexp"
	"strconv"
	"strings"
	"testing"

	"millmaths.example/paperprop"
)

// theirs are words of units that GNU units calls otherwise.
var theirs = map[string]string{
	"h": "hour", "d": "day", "min": "minute", "odt": "t", "adt": "t", "pt": "mil", "gr": "grain", "gf": "(gram force)", "ozf": "(ounce force)",
	"degF_diff": "degF", "g_n": "gravity", "Torr": "torr", "rad": "radian",
	"Btu_IT": "btu_IT", "Btu_th": "btu_th", "therm_US": "UStherm", "hp_mech": "horsepower", "hp_el": "electrichorsepower", "hp_metric": "metrichorsepower",
}

// together replaces what is more than a word. GNU units writes a product with a
// blank or a star, has no gauge pressure, and tells gallons and tons by one word.
var together = strings.NewReplacer("US gal", "gallon", "imp gal", "brgallon", "short ton", "shortton", "long ton", "longton",
	"(g)", "", "(a)", "", "psig", "psi", "psia", "psi")

// product is the point between two units: "kN.m/kg".
var product = regexp.MustCompile(`([A-Za-z0-9])\.([A-Za-z])`)

// ream is the area of a ream of sheets, in inches: "25x38-500".
var ream = regexp.MustCompile(`([0-9.]+)x([0-9.]+)-([0-9]+)`)

var word = regexp.MustCompile(`[A-Za-z_]+`)

// Each unit that GNU units knows has the factor that it gives, in SI.
func TestUnits(t *testing.T) {
	if _, err := exec.LookPath("units"); err != nil {
		t.Fatalf("%v (apt-get install units)", err)
	}
	compared, unknown := 0, []string{}
	for _, kind := range paperprop.Kinds() {
		for _, u := range kind.Units() {
			if kind.Name() == "Temperature" {
				continue // has an offset, which a factor can't tell
			}
			text := u.String()
			expression := word.ReplaceAllStringFunc(ream.ReplaceAllString(product.ReplaceAllString(together.Replace(text), "$1 $2"), `($1*$2*$3 in in)`), func(w string) string {
				if s, ok := theirs[w]; ok {
					return s
				}
				return w
			})
			said, err := exec.Command("units", "-t", "-o", "%.15g", expression, dimension(u)).CombinedOutput()
			got := strings.TrimSpace(string(said))
			theirFactor, failed := strconv.ParseFloat(got, 64)
			if err != nil || failed != nil {
				unknown = append(unknown, kind.Name()+" "+text)
				continue
			}
			compared++
			ours, _ := u.SI()
			if !(math.Abs(theirFactor/ours-1) <= 1e-14) {
				t.Errorf("%s %s is %v in SI, GNU units says %v of %s", kind.Name(), text, ours, theirFactor, expression)
			}
		}
	}
	t.Logf("%d units compared; GNU units knows none of the name: %s", compared, strings.Join(unknown, ", "))
	if compared < 200 {
		t.Errorf("%d units compared, want 200 or more", compared)
	}
}

// dimension writes what a unit measures in the base units of SI.
func dimension(u paperprop.Unit) string {
	var b strings.Builder
	b.WriteString("1")
	for i, n := range u.Dimension() {
		if n != 0 {
			fmt.Fprintf(&b, " %s^%d", bases[i], n)
		}
	}
	return b.String()
}

// bases are the base units in the order of a Dimension.
var bases = []string{"kg", "m", "s", "K", "mol", "A", "degree"}
