package paperprop

import (
	"encoding/csv"
	"math/big"
	"os"
	"strings"
	"testing"
)

// TestComposedEqualsListed composes every listed spelling that composes, and
// wants the very factor and dimension that are listed.
func TestComposedEqualsListed(t *testing.T) {
	count := 0
	for _, k := range Kinds() {
		if strings.HasSuffix(k.name, "Pressure") && k.name != "Pressure" {
			continue // psig is no power of ps
		}
		for _, u := range k.Units() {
			for spelling := range strings.SplitSeq(u.u.name+","+u.u.also, ",") {
				if spelling == "N" && k.name == "AmountConcentration" || k.name == "Temperature" {
					continue // what these letters stand for in a compound
				}
				c, err := (&unitReader{text: normal(spelling)}).read()
				if err != nil {
					continue
				}
				count++
				want := new(big.Rat).Mul(u.u.exact.rat(), k.si.rat())
				if c.factor.Cmp(want) != 0 || c.dimension != k.dimension {
					t.Errorf("%s %q is composed as %v %v, listed as %v %v", k.name, spelling, c.factor, c.dimension, want, k.dimension)
				}
			}
		}
	}
	if count < 300 {
		t.Errorf("only %d spellings compose", count)
	}
}

// TestDimensions holds what units.csv says a kind is like against its
// dimension and the size of its canonical unit.
func TestDimensions(t *testing.T) {
	for _, row := range readCSV(t, "units.csv") {
		like := row["like"]
		if row["type"] == "refused" || row["canonical"] != "yes" || like == "" {
			continue
		}
		k, _ := KindNamed(row["type"])
		like, suffix, _ := strings.Cut(like, "(")
		if suffix != "g)" && suffix != "a)" {
			like = row["like"]
		}
		number, rest, numbered := strings.Cut(like, " ")
		if !numbered {
			number, rest = "1", like
		}
		factor, _ := new(big.Rat).SetString(number)
		got := likeExpression(t, rest)
		if got.dimension != k.dimension {
			t.Errorf("%s is like %s, of dimension %v, but has %v", k.name, like, got.dimension, k.dimension)
		}
		if numbered && got.factor.Mul(got.factor, factor).Cmp(k.si.rat()) != 0 {
			t.Errorf("%s is like %s, of size %v, but has %v", k.name, like, got.factor, k.si)
		}
	}
}

func likeExpression(t *testing.T, text string) composed {
	above, below, _ := strings.Cut(text, "/")
	c := composed{factor: big.NewRat(1, 1)}
	for i, side := range []string{above, strings.Trim(below, "()")} {
		for name := range strings.SplitSeq(side, "*") {
			if name == "" {
				continue
			}
			k, ok := KindNamed(name)
			if !ok {
				t.Fatalf("like %s: no kind %q", text, name)
			}
			c = c.times(composed{k.si.rat(), k.dimension}, 1-2*i)
		}
	}
	return c
}

func readCSV(t *testing.T, name string) []map[string]string {
	t.Helper()
	f, err := os.Open(name)
	if err != nil {
		t.Fatal(err)
	}
	defer f.Close()
	cells, err := csv.NewReader(f).ReadAll()
	if err != nil {
		t.Fatal(err)
	}
	var rows []map[string]string
	for _, line := range cells[1:] {
		row := map[string]string{}
		for i, head := range cells[0] {
			row[head] = line[i]
		}
		rows = append(rows, row)
	}
	return rows
}

// TestEverySpelling reads each unit by each of its spellings, for its kind and for
// any. Where kinds share a spelling, any takes one of them.
func TestEverySpelling(t *testing.T) {
	count := 0
	for _, row := range readCSV(t, "units.csv") {
		if row["type"] == "refused" || row["unit"] == "" {
			continue
		}
		k, _ := KindNamed(row["type"])
		for _, spelling := range append(strings.Split(row["aliases"], ","), row["unit"]) {
			if spelling == "" {
				continue
			}
			count++
			for _, text := range []string{spelling, " " + spelling + "\u00a0"} { // which normal takes off
				if u, err := k.Unit(text); err != nil || u.String() != row["unit"] || u != listed(k, u.String()) {
					t.Errorf("%s: %q is %v of %v, %v, want %s", k.Name(), text, u, u.Kind(), err, row["unit"])
				}
			}
			u, err := ParseUnit(spelling)
			if same, _ := u.Kind().Unit(spelling); err != nil || same != u || u.Kind() == k && u.String() != row["unit"] {
				t.Errorf("%q is %v of %v, %v, want %s", spelling, u, u.Kind(), err, row["unit"])
			}
		}
	}
	if count < 500 {
		t.Errorf("only %d spellings", count)
	}
}

// listed returns the unit of that name among those of k: not one composed to equal it.
func listed(k *Kind, name string) Unit {
	for _, u := range k.Units() {
		if u.String() == name {
			return u
		}
	}
	return Unit{}
}

// TestLongestUnit takes a unit of 64 characters, and refuses one of 65.
func TestLongestUnit(t *testing.T) {
	long := strings.Repeat("(", 31) + "kg" + strings.Repeat(")", 31)
	if u, err := ParseUnit(long); err != nil || u.Kind() == nil || u.Kind().name != "Mass" {
		t.Errorf("%q is %v, %v, want a unit of mass", long, u, err)
	}
	if u, err := ParseUnit(long + "2"); err == nil || !strings.Contains(err.Error(), "longer than 64 characters") {
		t.Errorf("%q is %v, %v, want it refused", long+"2", u, err)
	}
}
