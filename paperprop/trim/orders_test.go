package trim_test

import (
	"errors"
	"fmt"
	"math"
	"math/rand/v2"
	"reflect"
	"regexp"
	"slices"
	"strconv"
	"strings"
	"testing"

	"millmaths.example/paperprop"
	"millmaths.example/paperprop/table"
	"millmaths.example/paperprop/trim"
)

const (
	mm = paperprop.Millimetre
	kg = paperprop.Kilogram
)

// listing reads an order list of which the whole can be read.
func listing(t *testing.T, l trim.List, text string) *trim.Listing {
	t.Helper()
	l.Table.Name = "list.csv"
	out, err := l.Read(strings.NewReader(text))
	if err != nil {
		t.Fatalf("%q: %v", text, err)
	}
	return out
}

// What a list says, as orders. A 42 in reel is 1066.8 mm, of 30 reels less 10 % is
// 27 and 5 % more is 31 whole ones.
func TestListOrders(t *testing.T) {
	for _, test := range []struct {
		text string
		want []trim.Order
	}{
		{"width [mm],reels\n1450,6\n820.5,7\n", []trim.Order{
			{Line: 2, Width: 1450 * mm, Reels: 6, Least: 6, Most: 6}, {Line: 3, Width: 820.5 * mm, Reels: 7, Least: 7, Most: 7}}},
		// A cell's own unit goes before that of the head.
		{"Order,Width [mm],Reels\nA 1,42 in,6\nA 2,900,7\n", []trim.Order{
			{Name: "A 1", Line: 2, Width: 1066.8 * mm, Reels: 6, Least: 6, Most: 6}, {Name: "A 2", Line: 3, Width: 900 * mm, Reels: 7, Least: 7, Most: 7}}},
		{"reels,width\n6,1.45 m\n7,90 cm\n", []trim.Order{
			{Line: 2, Width: 1450 * mm, Reels: 6, Least: 6, Most: 6}, {Line: 3, Width: 900 * mm, Reels: 7, Least: 7, Most: 7}}},
		// A comma as the decimal sign, in numbers with and without a unit.
		{"width [mm];reels;under-run [%]\n820,5;30;12,5\n105,08 cm;8;0\n", []trim.Order{
			{Line: 2, Width: 820.5 * mm, Reels: 30, Least: 27, Most: 30}, {Line: 3, Width: 1050.8 * mm, Reels: 8, Least: 8, Most: 8}}},
		{"width [mm],reels,under_run [%],over run\n1000,30,10,5 %\n990,30,0,0 %\n980,30,-,n/a\n", []trim.Order{
			{Line: 2, Width: 1000 * mm, Reels: 30, Least: 27, Most: 31},
			{Line: 3, Width: 990 * mm, Reels: 30, Least: 30, Most: 30}, {Line: 4, Width: 980 * mm, Reels: 30, Least: 30, Most: 30}}},
		// Thousands parted by blanks.
		{"width [mm];reels\n1 450,5;1 200\n820;7\n", []trim.Order{
			{Line: 2, Width: 1450.5 * mm, Reels: 1200, Least: 1200, Most: 1200}, {Line: 3, Width: 820 * mm, Reels: 7, Least: 7, Most: 7}}},
		// None ordered and all that may be.
		{"width [mm],reels\n1000,0\n990,10000000\n", []trim.Order{
			{Line: 2, Width: 1000 * mm}, {Line: 3, Width: 990 * mm, Reels: 1e7, Least: 1e7, Most: 1e7}}},
		// None will do, where reels are ordered; of few reels less 90 % is one.
		{"width [mm],reels,under-run [%]\n1000,6,100\n990,0,100\n980,6,90\n", []trim.Order{
			{Line: 2, Width: 1000 * mm, Reels: 6, Most: 6, NoneWillDo: true}, {Line: 3, Width: 990 * mm},
			{Line: 4, Width: 980 * mm, Reels: 6, Least: 1, Most: 6}}},
		{"width [mm],sheets,reels,group\n700,3,12,long\n650,,4,-\n", []trim.Order{
			{Line: 2, Width: 700 * mm, Reels: 12, Least: 12, Most: 12, Sheets: 3, Group: "long"},
			{Line: 3, Width: 650 * mm, Reels: 4, Least: 4, Most: 4}}},
		// What a row says of its size must be alike in a set.
		{"width [mm],reels,grade,group,diameter [mm],core-diameter [mm]\n1000,2,Harebell 120,wide,1200,76\n990,2,Harebell 120,,,76\n980,2,,,1200,\n", []trim.Order{
			{Line: 2, Width: 1000 * mm, Reels: 2, Least: 2, Most: 2, Group: "Harebell 120, wide, 1200 mm, core 76 mm"},
			{Line: 3, Width: 990 * mm, Reels: 2, Least: 2, Most: 2, Group: "Harebell 120, core 76 mm"},
			{Line: 4, Width: 980 * mm, Reels: 2, Least: 2, Most: 2, Group: "1200 mm"}}},
	} {
		got := listing(t, trim.List{}, test.text)
		if !slices.Equal(got.Orders, test.want) || len(got.Bad) > 0 || got.Rows != len(test.want) || got.Footer != 0 || got.Also != nil {
			t.Errorf("%q gives %+v, bad %v, rows %d,\nwant %+v", test.text, got.Orders, got.Bad, got.Rows, test.want)
		}
	}
}

// Rows that can't be read stand beside the others, each with its place.
func TestListRefuses(t *testing.T) {
	terms := trim.Terms{Diameter: 1 * paperprop.Metre, RollDensity: 800 * paperprop.KilogramPerCubicMetre}
	for _, test := range []struct {
		terms      trim.Terms
		text, want string
	}{
		{terms, "width [mm],reels\n1000,2.5\n", `list.csv:2:2: reels "2.5": no whole number of reels, want 0 to 10000000`},
		{terms, "width [mm],reels\n1000,-1\n", `list.csv:2:2: reels "-1": no whole number of reels, want 0 to 10000000`},
		{terms, "width [mm],reels\n1000,10000001\n", `list.csv:2:2: reels "10000001": no whole number of reels, want 0 to 10000000`},
		{terms, "width [mm],reels\n1000,six\n", `list.csv:2:2: reels "six": no whole number of reels, want 0 to 10000000`},
		{terms, "width [mm],reels,sheets\n1000,6,1.5\n", `list.csv:2:3: sheets "1.5": no whole number of sheets, want 0 to 10000000`},
		{terms, "width [mm],reels\n,6\n", `list.csv:2:1: width: no width, want above 0 mm`},
		{terms, "width [mm],reels\n1000,6\n0,6\n", `list.csv:3:1: width "0": no width, want above 0 mm`},
		{terms, "width [mm],reels\n-5,6\n", `list.csv:2:1: width "-5": below zero, want above 0 mm`},
		{terms, "width [mm],reels\nwide,6\n", `list.csv:2:1: width "wide": not a number, want a number in mm`},
		{terms, "width,reels\n1000,6\n", `list.csv:2:1: width "1000": unit missing, want a number in mm`},
		{terms, "width [mm],reels\n1O00,6\n", `list.csv:2:1: width "1O00": unknown unit "O00", want a number in mm`},
		{terms, "width [mm],reels\n12 kg,6\n", `list.csv:2:1: width "12 kg": "kg" is no unit of length, want a number in mm`},
		{terms, "width [in],reels\n33 21/64,6\n", `list.csv:2:1: width "33 21/64": unit "21/64": a number among units, want a number in mm`},
		{terms, "width [mm],reels,grammage\n1000,6,25 lb\n", `list.csv:2:3: grammage "25 lb": "lb" is no unit of grammage, want g/m2, lb/1000ft2, lb/3000ft2 or lb/17x22-500 (pounds of a ream have to name it)`},
		{terms, "width [mm],ordered-mass\n1000,5\n", `list.csv:2:2: ordered-mass "5": unit missing, want a number in t or kg`},
		{terms, "width [mm],reels,under-run [%]\n1000,30,110\n", `list.csv:2:3: under-run "110": more than is ordered, want 0 % to 100 %`},
		{terms, "width [mm],reels,over-run [%]\n1000,9000000,20\n", `list.csv:2:1: width "1000": at most 10800000 reels, want at most 10000000`},
		{terms, "width [mm],reels,ordered-mass [t]\n1000,6,5\n", `list.csv:2:3: ordered-mass "5": beside reels, want one of reels and ordered-mass`},
		{terms, "reels,width [mm],ordered-mass [t]\n,1000,\n", `list.csv:2:1: reels: nothing ordered, want reels or ordered-mass`},
		{terms, "reels,width [mm]\n,1000\n", `list.csv:2:1: reels: nothing ordered, want reels or ordered-mass`},
		{terms, "reels,width [mm],ordered-mass [t]\n,1000,0\n", `list.csv:2:3: ordered-mass "0": nothing ordered, want reels or ordered-mass`},
		{terms, "ordered-mass [t],width [mm]\n,1000\n", `list.csv:2:1: ordered-mass: nothing ordered, want reels or ordered-mass`},
		{trim.Terms{Diameter: 1000 * mm}, "width [mm],ordered-mass [t]\n1000,5\n",
			`list.csv:2:2: ordered-mass "5": a mass needs a roll density, or grammage and reel thickness`},
		{trim.Terms{Grammage: 100}, "width [mm],ordered-mass [t]\n1000,5\n",
			`list.csv:2:2: ordered-mass "5": a mass needs a roll density, or grammage and reel thickness`},
		{trim.Terms{RollDensity: 800}, "width [mm],ordered-mass [t]\n1000,5\n", `list.csv:2:2: ordered-mass "5": a mass needs a diameter`},
	} {
		got := listing(t, trim.List{Terms: test.terms}, test.text)
		if len(got.Bad) != 1 || got.Bad[0].Error() != test.want || got.Rows != strings.Count(test.text, "\n")-1 || len(got.Orders) != got.Rows-1 {
			t.Errorf("%q gives %+v, bad %v,\nwant %v", test.text, got.Orders, got.Bad, test.want)
		}
		if len(got.Bad) > 0 && !errors.As(got.Bad[0], new(*table.CellError)) {
			t.Errorf("%q: %T, want a *table.CellError", test.text, got.Bad[0])
		}
	}
}

// near tells whether a mass is that of so many kilograms, but for the last digits.
func near(m paperprop.Mass, want float64) bool {
	return math.Abs(m.In(kg)-want) <= 1e-12*want
}

// A ring of 800 kg/m³ between 0.6 m and 1 m, 1.25 m wide, weighs π/4·800·0.64·1.25 kg,
// which is 160π or 502.7 kg: 2 t are 3.98 of them, 30 % less 2.79 and 5 % more 4.18.
func TestListMass(t *testing.T) {
	one := 160 * math.Pi
	tolerant := trim.Terms{UnderRun: 30 * paperprop.Percent, OverRun: 5 * paperprop.Percent, Diameter: 1000 * mm, CoreDiameter: 600 * mm,
		RollDensity: 800 * paperprop.KilogramPerCubicMetre}
	for _, test := range []struct {
		terms              trim.Terms
		text               string
		reels, least, most int
		mass               float64 // of a reel, kg
	}{
		{tolerant, "width [mm],ordered-mass\n1250,2 t\n", 4, 3, 4, one},
		{tolerant, "width [mm],ordered-mass [kg],over-run [%]\n1250,2000,30\n", 4, 3, 5, one},
		{tolerant, "width [mm],ordered-mass [kg],reels\n1250,2000,\n", 4, 3, 4, one},
		{tolerant, "width [mm],ordered-mass [kg],reels\n1250,,5\n", 5, 4, 5, one},
		{tolerant, "width [mm],reels,core-diameter [mm]\n1250,5,0\n", 5, 4, 5, 250 * math.Pi},
		{tolerant, "width [mm],reels,diameter [m]\n1250,5,1.4\n", 5, 4, 5, 400 * math.Pi},
		{tolerant, "width [mm],reels,roll-density [kg/m3]\n1250,5,600\n", 5, 4, 5, 120 * math.Pi},
		// 100 g/m² in layers of 0.125 mm are 800 kg/m³; a roll density goes before them.
		{trim.Terms{Diameter: 1000 * mm, CoreDiameter: 600 * mm}, "width [mm],reels,grammage [g/m2],reel-thickness [um]\n1250,5,100,125\n", 5, 5, 5, one},
		{tolerant, "width [mm],reels,grammage [g/m2],reel-thickness [um]\n1250,5,50,125\n", 5, 4, 5, one},
		// What does not tell the mass is no error where reels are ordered.
		{trim.Terms{Diameter: 1000 * mm, Grammage: 100}, "width [mm],reels\n1250,5\n", 5, 5, 5, 0},
		{trim.Terms{Diameter: 1000 * mm, ReelThickness: 0.125 * mm}, "width [mm],reels\n1250,5\n", 5, 5, 5, 0},
		{trim.Terms{RollDensity: 800}, "width [mm],reels\n1250,5\n", 5, 5, 5, 0},
	} {
		l := listing(t, trim.List{Terms: test.terms}, test.text)
		if len(l.Orders) != 1 {
			t.Errorf("%q gives %+v, bad %v", test.text, l.Orders, l.Bad)
			continue
		}
		if o := l.Orders[0]; o.Reels != test.reels || o.Least != test.least || o.Most != test.most || !near(o.ReelMass, test.mass) {
			t.Errorf("%q gives %+v, want %d reels, %d to %d, of %v kg", test.text, o, test.reels, test.least, test.most, test.mass)
		}
	}
}

// Where no whole reels will do, what would is told, rounded up to what does. Of reels
// of 160π kg, 2 t are 3.9789: three are 24.602 % less and four 0.531 % more.
func TestListUnmet(t *testing.T) {
	terms := trim.Terms{Diameter: 1000 * mm, CoreDiameter: 600 * mm, RollDensity: 800 * paperprop.KilogramPerCubicMetre}
	for _, test := range []struct{ mass, want string }{
		{"2 t", `no whole number of reels lies within under-run and over-run: the nearest are 1.50796 t with 3 and 2.01062 t with 4, want an under-run from 24.61 % or an over-run from 0.54 %`},
		{"0.8 t", `no whole number of reels lies within under-run and over-run: the nearest are 0.502655 t with 1 and 1.00531 t with 2, want an under-run from 37.17 % or an over-run from 25.67 %`},
		{"0.4 t", `one reel is 0.502655 t, more than over-run allows, want an over-run from 25.67 %`},
	} {
		l := listing(t, trim.List{Terms: terms}, "width [mm],ordered-mass\n1250,"+test.mass+"\n")
		if want := fmt.Sprintf(`[list.csv:2:2: ordered-mass "%s": %s]`, test.mass, test.want); fmt.Sprint(l.Bad) != want {
			t.Errorf("%s: %v,\nwant %s", test.mass, l.Bad, want)
		}
	}
	// What else is wrong is told as it is.
	terms.CoreDiameter = terms.Diameter
	_, err := trim.Request{Width: 1250 * mm, Mass: 2000 * kg, Terms: terms}.Order()
	if want := "diameter is 1000 mm, want above core-diameter 1000 mm"; fmt.Sprint(err) != want {
		t.Errorf("%v, want %s", err, want)
	}

	// Each that is told does, and a hundredth of a percent less does not.
	r := rand.New(rand.NewPCG(12, 6))
	terms.CoreDiameter = 600 * mm
	for n := range 500 {
		request := trim.Request{Width: 1250 * mm, Mass: paperprop.Mass(160*math.Pi*(1+r.Float64()*9)) * kg, Terms: terms}
		if n%2 == 0 { // so many hundredths of a percent below seven reels
			request.Mass = paperprop.Mass(7*160*math.Pi/(1+float64(1+r.IntN(1000))/1e4)) * kg
		}
		_, err := request.Order()
		told := regexp.MustCompile(`under-run from (.*) % or an over-run from (.*) %`).FindStringSubmatch(fmt.Sprint(err))
		if told == nil {
			t.Fatalf("%v: %v", request.Mass, err)
		}
		for i, run := range []*paperprop.Fraction{&request.Terms.UnderRun, &request.Terms.OverRun} {
			percent, _ := strconv.ParseFloat(told[i+1], 64)
			for _, less := range []float64{0, 0.01} {
				*run = paperprop.Fraction((percent - less) / 100)
				if _, err := request.Order(); (err == nil) != (less == 0) {
					t.Errorf("%v is told %s; with %v it is %v", request.Mass, told[0], *run, err)
				}
			}
			*run = 0
		}
	}
}

// An order is under the terms of its grade alone, where the mill has a book of grades.
func TestListGrades(t *testing.T) {
	book := map[string]trim.Terms{"Harebell 120": {OverRun: 10 * paperprop.Percent}, "Harebell 90": {UnderRun: 20 * paperprop.Percent}}
	l := listing(t, trim.List{Terms: trim.Terms{UnderRun: 50 * paperprop.Percent, OverRun: 50 * paperprop.Percent}, Grades: book},
		"grade,width [mm],reels,over-run\nHarebell 120,1000,10,\nHarebell 90,900,10,\nHarebell 90,800,10,30 %\nHarebell,700,10,\n,600,10,\n")
	if want := []trim.Order{
		{Line: 2, Width: 1000 * mm, Reels: 10, Least: 10, Most: 11, Group: "Harebell 120"},
		{Line: 3, Width: 900 * mm, Reels: 10, Least: 8, Most: 10, Group: "Harebell 90"},
		{Line: 4, Width: 800 * mm, Reels: 10, Least: 8, Most: 13, Group: "Harebell 90"},
	}; !slices.Equal(l.Orders, want) {
		t.Errorf("%+v,\nwant %+v", l.Orders, want)
	}
	if want := `[list.csv:5:1: grade "Harebell": unknown, want one of Harebell 120, Harebell 90 list.csv:6:1: grade: unknown, want one of Harebell 120, Harebell 90]`; fmt.Sprint(l.Bad) != want {
		t.Errorf("bad %v,\nwant %v", l.Bad, want)
	}
	if r := l.Requests[2]; r.Grade != "Harebell 90" || r.Reels != 10 || r.Terms != (trim.Terms{UnderRun: 20 * paperprop.Percent, OverRun: 30 * paperprop.Percent}) {
		t.Errorf("request %+v", r)
	}

	// A long book is not told whole, but for a name that is like none of it.
	book = map[string]trim.Terms{}
	for i := range 12 {
		book[fmt.Sprintf("Harebell %d", 110+10*i)] = trim.Terms{}
	}
	const twelve = "one of Harebell 110, Harebell 120, Harebell 130, Harebell 140, Harebell 150, Harebell 160, Harebell 170, Harebell 180, Harebell 190, Harebell 200, Harebell 210, Harebell 220"
	unknown := func(grade, want string) {
		t.Helper()
		l := listing(t, trim.List{Grades: book}, "grade,width [mm],reels\n"+grade+",1000,10\n")
		if want = fmt.Sprintf("[list.csv:2:1: grade %q: unknown, want %s]", grade, want); fmt.Sprint(l.Bad) != want {
			t.Errorf("bad %v,\nwant %v", l.Bad, want)
		}
	}
	unknown("Harebell 115", twelve)
	book["Foxglove 80"] = trim.Terms{}
	unknown("Foxglove 90", "a grade of the book such as Foxglove 80")
	unknown("liner", "one of Foxglove 80, "+strings.TrimPrefix(twelve, "one of "))
}

// What stands beside the orders: totals and rows that are none are counted, further
// columns are handed through.
func TestListRows(t *testing.T) {
	l := listing(t, trim.List{Also: []string{"due", "ship to"}},
		"due,width [mm],reels,Ship-to\nMonday, 1000,6,Quillbeck\n,990,6,n/a\nlate,980,6,,x\nFriday,970,six,x\n-,960,5, y \ntotal,,29,\n\n")
	if len(l.Orders) != 3 || l.Rows != 6 || l.Footer != 1 || len(l.Requests) != 3 {
		t.Errorf("%d orders, %d rows, %d footers, want 3, 6 and 1", len(l.Orders), l.Rows, l.Footer)
	}
	if want := []string{
		`list.csv:4:5: "x": 5 cells, want 4 as in the heads of line 1`,
		`list.csv:5:3: reels "six": no whole number of reels, want 0 to 10000000`,
	}; fmt.Sprint(l.Bad) != fmt.Sprint(want) {
		t.Errorf("bad %v, want %v", l.Bad, want)
	}
	if want := [][]trim.Cell{{{"Monday", 1}, {"Quillbeck", 4}}, {{"", 1}, {"", 4}}, {{"", 1}, {"y", 4}}}; !reflect.DeepEqual(l.Also, want) {
		t.Errorf("also %v, want %v", l.Also, want)
	}
	if note := `column 2: "width" in mm`; !slices.Contains(l.Notes, note) {
		t.Errorf("notes %q without %q", l.Notes, note)
	}

	// Of a column that the list lacks the cells are empty, and in no column.
	l = listing(t, trim.List{Also: []string{"due"}}, "width [mm],reels\n1000,6\n")
	if want := [][]trim.Cell{{{"", 0}}}; !reflect.DeepEqual(l.Also, want) {
		t.Errorf("also %v, want %v", l.Also, want)
	}
}

// Columns under other heads, and heads that must be looked for.
func TestListHeads(t *testing.T) {
	want := []trim.Order{{Name: "A", Line: 2, Width: 1000 * mm, Reels: 6, Least: 6, Most: 6}}
	l := listing(t, trim.List{Columns: map[string]string{"width": "slit to", "reels": "pieces", "due": "by"}, Also: []string{"due"}},
		"by,Slit_to [mm],width [mm],order,pieces,reels\nMay,1000,5,A,6,7\n")
	if !slices.Equal(l.Orders, want) || !reflect.DeepEqual(l.Also, [][]trim.Cell{{{"May", 1}}}) {
		t.Errorf("%+v, also %v, want %+v", l.Orders, l.Also, want)
	}

	// Two lines that may be heads: those that are hoped for are.
	const text = "machine,planner,week\none,hand,twelve\norder,width [mm],reels\nA,1000,6\n"
	want[0].Line = 4
	if l := listing(t, trim.List{}, text); !slices.Equal(l.Orders, want) {
		t.Errorf("%+v, want %+v", l.Orders, want)
	}
	_, err := trim.List{Table: table.Options{Name: "list.csv", Heads: []string{"machine", "planner", "week"}}}.Read(strings.NewReader(text))
	if want := `list.csv:1: no column width, want one such as "width [mm]"; the heads are machine, planner, week`; fmt.Sprint(err) != want {
		t.Errorf("error %v,\nwant %v", err, want)
	}

	if got, want := strings.Join(trim.Inputs(), " "), "order width reels ordered-mass under-run over-run sheets grade group diameter core-diameter roll-density grammage reel-thickness"; got != want {
		t.Errorf("inputs %s, want %s", got, want)
	}
}

// Lists that are refused as a whole.
func TestListFails(t *testing.T) {
	grades := map[string]trim.Terms{"Harebell 120": {}}
	for _, test := range []struct {
		list       trim.List
		text, want string
	}{
		{trim.List{}, "", "list.csv: nothing in it, want a line of heads and rows under it"},
		{trim.List{}, "breadth [mm],reels\n1000,6\n", `list.csv:1: no column width, want one such as "width [mm]"; the heads are breadth, reels`},
		{trim.List{}, "width [mm],pieces\n1000,6\n", `list.csv:1: no column reels and none ordered-mass, want one of them; the heads are width, pieces`},
		{trim.List{}, "width [mm],width [in],reels\n1000,40,6\n", `list.csv:1: 2 columns are named "width", want one`},
		{trim.List{Naming: "--column INPUT=HEAD"}, "breadth [mm],reels\n1000,6\n",
			`list.csv:1: no column width, want one such as "width [mm]"; the heads are breadth, reels; name its column with --column width=HEAD`},
		{trim.List{Naming: "--column INPUT=HEAD"}, "width [mm],Quantity\n1000,6\n",
			`list.csv:1: no column reels and none ordered-mass, want one of them; the heads are width, Quantity; name its column with --column reels=HEAD`},
		{trim.List{Grades: grades, Naming: `[columns] INPUT = "HEAD"`}, "width [mm],reels\n1000,6\n",
			`list.csv:1: no column grade; the heads are width, reels; name its column with [columns] grade = "HEAD"`},
		{trim.List{Columns: map[string]string{"width": "slit to"}}, "width [mm],reels\n1000,6\n", `list.csv:1: no column "slit to" for width, want one of width, reels`},
		{trim.List{Columns: map[string]string{"due": "by"}, Also: []string{"due"}}, "width [mm],reels\n1000,6\n", `list.csv:1: no column "by" for due, want one of width, reels`},
		{trim.List{Grades: grades}, "width [mm],reels\n1000,6\n", `list.csv:1: no column grade; the heads are width, reels`},
		{trim.List{Also: []string{"due"}}, "\nwidth [mm],reels,due,Due\n1000,6,1 Dec,2 Dec\n", `list.csv:2: 2 columns are named "due", want one`},
		{trim.List{Columns: map[string]string{"width": "size"}}, "size [mm],size [in],reels\n1000,40,6\n", `list.csv:1: 2 columns are named "size", want one`},
		{trim.List{}, "width [mm],reels\n1000,6\n\"990,6\n", `list.csv:3: a quote in the record that begins here is never closed, want a closing quote`},
		{trim.List{}, "width [mm],reels\n1000,6\nwidth [in],reels\n40,6\n",
			"list.csv:3: other heads, or the same in another order or with other units, want the heads of line 1 again, or a file of its own for what follows"},
	} {
		test.list.Table.Name = "list.csv"
		if out, err := test.list.Read(strings.NewReader(test.text)); err == nil || err.Error() != test.want || out != nil {
			t.Errorf("%q: %+v, error %v,\nwant %v", test.text, out, err, test.want)
		}
	}
}

// TestUnnamedList reads a list that has no file, as a program has it from a form: a fault
// of its heads names the line alone, and what is at fault can be had as a CellError.
func TestUnnamedList(t *testing.T) {
	for text, want := range map[string]string{
		"width [mm],rels\n1000,6\n":             "1: no column reels and none ordered-mass, want one of them; the heads are width, rels",
		"width [mm],width [in],reels\n9,40,6\n": `1: 2 columns are named "width", want one`,
	} {
		_, err := trim.List{}.Read(strings.NewReader(text))
		var cell *table.CellError
		if fmt.Sprint(err) != want || !errors.As(err, &cell) || cell.Line != 1 {
			t.Errorf("error %v, want %s", err, want)
		}
	}
}

// Ten thousand rows are read, and no more.
func TestListLong(t *testing.T) {
	text := "width [mm],reels\n" + strings.Repeat("1000,6\n", 9_999) + "total,60000\n"
	if l := listing(t, trim.List{}, text); len(l.Orders) != 9_999 || l.Orders[9_998].Line != 10_000 || l.Rows != 10_000 {
		t.Errorf("%d orders of %d rows, want 9999 of 10000", len(l.Orders), l.Rows)
	}
	_, err := trim.List{Table: table.Options{Name: "list.csv"}}.Read(strings.NewReader(text + "990,6\n"))
	if want := "list.csv:10002: more than 10000 rows, want the orders of one plan"; fmt.Sprint(err) != want {
		t.Errorf("error %v, want %v", err, want)
	}
}

// A request is counted by its mass, where it has one.
func TestRequestOrder(t *testing.T) {
	terms := trim.Terms{Diameter: 1000 * mm, CoreDiameter: 600 * mm, RollDensity: 800, UnderRun: 30 * paperprop.Percent, OverRun: 5 * paperprop.Percent}
	want := trim.Order{Name: "A", Line: 7, Width: 1250 * mm, Reels: 4, Least: 3, Most: 4, Sheets: 2, Group: "Harebell 120, long"}
	o, err := trim.Request{Name: "A", Line: 7, Grade: "Harebell 120", Group: "long", Width: 1250 * mm, Mass: 2000 * kg, Sheets: 2, Terms: terms}.Order()
	mass := o.ReelMass
	want.OrderedMass = 2000 * kg
	if o.ReelMass = 0; err != nil || o != want || !near(mass, 160*math.Pi) {
		t.Errorf("%+v, %v of a reel, %v, want %+v and 160π kg", o, mass, err, want)
	}
	terms.UnderRun = 100 * paperprop.Percent
	want.Least, want.NoneWillDo = 0, true
	o, err = trim.Request{Name: "A", Line: 7, Grade: "Harebell 120", Group: "long", Width: 1250 * mm, Mass: 2000 * kg, Sheets: 2, Terms: terms}.Order()
	if o.ReelMass = 0; err != nil || o != want {
		t.Errorf("%+v, %v, want %+v", o, err, want)
	}
	terms.UnderRun = 101 * paperprop.Percent
	_, err = trim.Request{Width: 1250 * mm, Mass: 2000 * kg, Terms: terms}.Order()
	if want := "under-run is 101 %, want 0 % to 100 %"; fmt.Sprint(err) != want {
		t.Errorf("error %v, want %v", err, want)
	}
	want.NoneWillDo = false
	want.Reels, want.Least, want.Most, want.Group, want.OrderedMass = 9, 9, 9, "long", 0
	if o, err := (trim.Request{Name: "A", Line: 7, Group: "long", Width: 1250 * mm, Reels: 9, Sheets: 2}).Order(); err != nil || o != want {
		t.Errorf("%+v, %v, want %+v", o, err, want)
	}
}

// What is asked for in code is refused as it would be in a list.
func TestRequestRefuses(t *testing.T) {
	nan := math.NaN()
	for _, test := range []struct {
		r    trim.Request
		want string
	}{
		{trim.Request{}, "width is 0 mm, want above 0 mm"},
		{trim.Request{Width: -1000, Reels: -1}, "width is -1000 mm, want above 0 mm"},
		{trim.Request{Width: paperprop.Length(nan), Reels: 6}, "width is NaN mm, want above 0 mm"},
		{trim.Request{Width: 1000, Reels: -1}, "reels is -1, want from 0"},
		{trim.Request{Width: 1000, Mass: -5}, "ordered-mass is -5 kg, want above 0 kg"},
		{trim.Request{Width: 1000, Reels: 6, Mass: paperprop.Mass(nan)}, "ordered-mass is NaN kg, want above 0 kg"},
		{trim.Request{Width: 1000, Reels: 6, Terms: trim.Terms{UnderRun: -1}}, "under-run is -100 %, want 0 % to 100 %"},
		{trim.Request{Width: 1000, Reels: 6, Terms: trim.Terms{UnderRun: 1.01}}, "under-run is 101 %, want 0 % to 100 %"},
		{trim.Request{Width: 1000, Reels: 6, Terms: trim.Terms{OverRun: paperprop.Fraction(math.Inf(1))}}, "over-run is +Inf %, want from 0 %"},
		{trim.Request{Width: 1000, Reels: 6, Terms: trim.Terms{Diameter: -1200}}, "diameter is -1200 mm, want above 0 mm"},
		{trim.Request{Width: 1000, Mass: 6, Terms: trim.Terms{CoreDiameter: -100}}, "core-diameter is -100 mm, want from 0 mm"},
		{trim.Request{Width: 1000, Mass: 6, Terms: trim.Terms{RollDensity: -650}}, "roll-density is -650 kg/m3, want above 0 kg/m3"},
		{trim.Request{Width: 1000, Reels: 6, Terms: trim.Terms{Grammage: paperprop.Grammage(nan)}}, "grammage is NaN g/m2, want above 0 g/m2"},
		{trim.Request{Width: 1000, Reels: 6, Terms: trim.Terms{ReelThickness: -0.2}}, "reel-thickness is -0.2 mm, want above 0 um"},
	} {
		if o, err := test.r.Order(); fmt.Sprint(err) != test.want {
			t.Errorf("%+v: %+v, %v, want %s", test.r, o, err, test.want)
		}
	}
}

// Shares are counted as they are written: 25 reels and 16 % are 29, but
// 25·(1 + 0.16) is less in floating point.
func TestWithinBounds(t *testing.T) {
	for _, test := range []struct {
		reels       int
		under, over paperprop.Fraction
		least, most int
	}{
		{30, 0.1, 0.1, 27, 33},
		{25, 0.16, 0.16, 21, 29},
		{200, 0.15, 0.15, 170, 230},
		{40, 0.125, 0.125, 35, 45},
		{7, 0.1, 0.1, 7, 7}, // 6.3 to 7.7
		{7, 1, 1, 0, 14},
		{0, 1, math.MaxFloat64, 0, 0},
		{3, 0, 0, 3, 3},
		{100, 0.07, 0.07, 93, 107},
		{10_000_000, 0, 0, 10_000_000, 10_000_000},
		{8_000_000, 0.5, 0.25, 4_000_000, 10_000_000},
	} {
		if least, most, err := trim.Within(test.reels, test.under, test.over); least != test.least || most != test.most || err != nil {
			t.Errorf("Within(%d, %v, %v) = %d, %d, %v, want %d, %d", test.reels, test.under, test.over, least, most, err, test.least, test.most)
		}
	}
	for _, test := range []struct {
		reels       int
		under, over paperprop.Fraction
		want        string
	}{
		{-3, 0, 0, "reels is -3, want from 0"},
		{30, -0.01, 0, "under-run is -1 % and over-run 0 %, want 0 % to 100 % and from 0 %"},
		{30, 1.01, 0, "under-run is 101 % and over-run 0 %, want 0 % to 100 % and from 0 %"},
		{30, 0, -0.01, "under-run is 0 % and over-run -1 %, want 0 % to 100 % and from 0 %"},
		{30, 0, paperprop.Fraction(math.NaN()), "under-run is 0 % and over-run NaN %, want 0 % to 100 % and from 0 %"},
		{30, 0, paperprop.Fraction(math.Inf(1)), "under-run is 0 % and over-run +Inf %, want 0 % to 100 % and from 0 %"},
		{10_000_001, 0, 0, "at most 10000001 reels, want at most 10000000"},
		{8_000_000, 0, 0.250001, "at most 10000008 reels, want at most 10000000"},
		{10_000_000, 0, 1e13, "at most 100000000000010000000 reels, want at most 10000000"}, // 1e7·(1 + 1e13), beyond an int64
	} {
		if least, most, err := trim.Within(test.reels, test.under, test.over); least != 0 || most != 0 || fmt.Sprint(err) != test.want {
			t.Errorf("Within(%d, %v, %v) = %d, %d, %v, want %s", test.reels, test.under, test.over, least, most, err, test.want)
		}
	}
}
