package making_test

import (
	"context"
	"fmt"
	"slices"
	"strings"
	"testing"
	"time"

	"millmaths.example/paperprop"
	"millmaths.example/paperprop/making"
	"millmaths.example/paperprop/table"
	"millmaths.example/paperprop/trim"
)

// A plan and a run that no book made are refused, or tell nothing.
func TestZeroPlan(t *testing.T) {
	var p making.Plan
	if data, err := p.JSON(); data != nil || fmt.Sprint(err) != "the plan has no book" {
		t.Errorf("JSON: %s, %v", data, err)
	}
	if facts := p.Facts(); facts != nil {
		t.Errorf("facts %v, want none", facts)
	}
	var r making.Run
	if ends := r.Ends(); ends != nil {
		t.Errorf("ends %v, want none", ends)
	}
	if cut := r.Cut(); cut != nil {
		t.Errorf("cut %v, want none", cut)
	}
}

// A figure is refused as the book has it, as a setting has it, or as a program has changed
// it since.
func TestRefusedAsWritten(t *testing.T) {
	list := map[string]string{"list.csv": "order;grade;width [mm];reels\nA;Harebell 120;1080;9\n"}
	good := fmt.Sprintf(mill, "orders = \"list.csv\"\nhandling = \"5300 week\"")
	changed := read(t, good, list)
	changed.Handling *= 2
	for what, test := range map[string]struct {
		book *making.Book
		want string
	}{
		"in the file":  {read(t, good, list), "book.toml:7: handling is 5300 week, want below a hundred years"},
		"by a setting": {read(t, good, list, making.Setting{Name: "handling", Text: "4e4 d"}), "book.toml: handling is 4e4 d, want below a hundred years"},
		"by a program": {changed, "book.toml:7: handling is 106848000 min, want below a hundred years"},
		"of a grade": {read(t, strings.Replace(good, "name = \"Harebell 120\"", "name = \"Harebell 120\"\njumbo-thickness = \"-0.2 mm\"", 1), list),
			`grade "Harebell 120": jumbo-thickness is -0.2 mm, want from 0`},
	} {
		if _, err := test.book.Plan(context.Background()); err == nil || !strings.Contains(err.Error(), test.want) {
			t.Errorf("%s: %v, want %s", what, err, test.want)
		}
	}
}

// What lies on the edge of a range is taken, or refused with the figure as written.
func TestEdges(t *testing.T) {
	list := map[string]string{"list.csv": "order;grade;width [mm];reels\nA;Harebell 120;1080;9\n"}
	good := fmt.Sprintf(mill, "orders = \"list.csv\"")
	for _, test := range []struct{ old, new, want string }{
		{"3300 mm", "3360 mm", ""}, // all of the sheet on the reel
		{"2.30 m", "0.60 m", "jumbo.diameter is 0.60 m, want above its spool, 0.60 m"},
		{`diameter = "2.30 m"`, "", "jumbo.diameter missing"},
		{"name = \"Whin 105\"\n", "", "book.toml:13: grade 1: name missing"},
		{`orders = "list.csv"`, "orders = \"list.csv\"\nuptime = \"100 %\"", ""},
		{`orders = "list.csv"`, "orders = \"list.csv\"\nuptime = \"100.1 %\"", "uptime is 100.1 %"},
		{`orders = "list.csv"`, "orders = \"list.csv\"\nlimit = \"0s\"", `limit is "0s", want a time such as 20s`},
		{`orders = "list.csv"`, "orders = \"list.csv\"\nlimit = \"1ns\"", ""},
		{`reel-thickness = "186 um"`, "reel-thickness = \"186 um\"\nfigures = { mill.running = \"0 %\" }", "Harebell 120: uptime is 0 %: the machine makes nothing"},
		{`orders = "list.csv"`, "orders = \"list.csv\"\nhandling = \"876599 h\"", ""},
		{`orders = "list.csv"`, "orders = \"list.csv\"\nhandling = \"876601 h\"", "handling is 876601 h, want below a hundred years"},
		{`[jumbo]`, "[jumbo]\nlost = \"-1 m\"", "jumbo.lost is -1 m, want from 0"},
		{`grammage = "120 g/m2"`, `grammage = "-120 g/m2"`, `grade "Harebell 120": grammage is -120 g/m2, want above 0 g/m2`},
	} {
		text := strings.Replace(good, test.old, test.new, 1)
		if text == good {
			t.Fatalf("nothing to replace: %q", test.old)
		}
		b, err := making.Read("book.toml", strings.NewReader(text), files(list), table.Options{})
		if err == nil {
			_, err = b.Plan(context.Background())
		}
		switch {
		case test.want == "" && err != nil:
			t.Errorf("%q for %q: %v", test.new, test.old, err)
		case test.want != "" && (err == nil || !strings.Contains(err.Error(), test.want)):
			t.Errorf("%q for %q: %v, want %q", test.new, test.old, err, test.want)
		case err != nil && !strings.Contains(test.want, "spool") && strings.Contains(err.Error(), "spool"):
			t.Errorf("%q for %q: %v, where a spool has no say", test.new, test.old, err)
		}
	}
	for _, test := range []struct{ name, text, want string }{
		{"zone", "1", `unknown name "zone"`},
		{"a.zone", "1", `unknown name "a`},
		{"{one", "1", "no figure of the book"},
		{"one`", "1", "no figure of the book"},
		{"one..two", "1", "no figure of the book"},
		{"sequence", "Whin 105", `"Whin 105" is a string, want a list of texts, ["A", "B"]`},
		{"sequence", "[\"Harebell 120\"]\nuptime = [\"80 %\"]", "is a string, want a list of texts"},
	} {
		_, err := making.Read("book.toml", strings.NewReader(good), files(list), table.Options{}, making.Setting{Name: test.name, Text: test.text})
		if err == nil || !strings.Contains(err.Error(), test.want) {
			t.Errorf("set %s=%s: %v, want %q", test.name, test.text, err, test.want)
		}
	}
}

// A list of names is set as a book has it.
func TestSetList(t *testing.T) {
	b, err := making.ReadFile("../../examples/quillbeck/order-book.toml", table.Options{},
		making.Setting{Name: "sequence", Text: `["Harebell 140", "Whin 105", "Harebell 120"]`})
	if want := []string{"Harebell 140", "Whin 105", "Harebell 120"}; err != nil || !slices.Equal(b.Sequence, want) {
		t.Errorf("sequence %q, %v, want %q", b.Sequence, err, want)
	}
}

// A whole number is set as a book has it, without the quotes of other figures.
func TestSetWhole(t *testing.T) {
	b := listed(t, "", "order;grade;width [mm];reels\nA;Harebell 120;640;9\n", making.Setting{Name: "machine.most-reels", Text: "3"})
	if p := plan(t, b); b.Machine.MostReels != 3 || p.Runs[0].Sets.Sets != 3 {
		t.Errorf("%d reels across in %d sets, want 3 in 3", b.Machine.MostReels, p.Runs[0].Sets.Sets)
	}
}

// The limit ends the search for fewer sets; without one it goes on until they are proven.
func TestLimit(t *testing.T) {
	const list = "order;grade;width [mm];reels\nA;Harebell 120;1383;1\nB;Harebell 120;751;8\nC;Harebell 120;709;4\nD;Harebell 120;962;4\n" +
		"E;Harebell 120;539;3\nF;Harebell 120;946;9\nG;Harebell 120;1452;1\n"
	for limit, proven := range map[time.Duration]bool{0: true, time.Nanosecond: false} {
		b := listed(t, "", list)
		b.Limit = limit
		if c := plan(t, b).Runs[0].Sets.Certificate; c.Proven != proven || c.Value != 9 {
			t.Errorf("in %v: %+v, want 9 sets, proven: %v", limit, c, proven)
		}
	}
}

// Strips beside the deckle are broke: the line tells as much of it, or more.
func TestStrips(t *testing.T) {
	list := "order;grade;width [mm];reels\nA;Harebell 120;1640;9\n"
	strips := 60.0 / 3360 // of the sheet on the reel
	for _, test := range []struct {
		broke, want string
	}{
		{fmt.Sprintf("%.17g %%", 100*strips), ""},
		{"1.79 %", ""},
		{"1.78 %", "winder.broke is 1.78 %, but the strips beside the deckle of 3300 mm, with what comes on top of them, are " + paperprop.People(100*strips) + " % alone"},
	} {
		_, err := listed(t, "", list, making.Setting{Name: "line.winder.broke", Text: test.broke}).Plan(context.Background())
		if test.want == "" && err != nil || test.want != "" && (err == nil || !strings.Contains(err.Error(), test.want)) {
			t.Errorf("broke of %s: %v, want %q", test.broke, err, test.want)
		}
	}
}

// Where the line's broke holds trim and rests, what they are alone is told, as they
// come out where they are beside it.
func TestTrimAlone(t *testing.T) {
	list := "order;grade;width [mm];reels\nA;Harebell 120;1640;8\n"
	x := plan(t, listed(t, "", list)).Tonnes
	alone := float64((x.Trim + x.Rest) / (x.Made - x.Broke))
	told := making.Setting{Name: "line.winder.broke", Text: "3 %"}
	_, err := listed(t, "broke = \"trim included\"\n", list, told).Plan(context.Background())
	want := "winder.broke is 3 %, trim and rests of jumbos included, but they alone are " + paperprop.People(100*alone) + " %"
	if err == nil || !strings.Contains(err.Error(), want) {
		t.Errorf("got %v, want %q", err, want)
	}
	// With the strips too, all is broke that is not sold.
	strips := 1 - (1-alone)*3300/3360
	for broke, want := range map[float64]string{
		strips + 1e-4: "", strips - 1e-4: "with what comes on top of them, are " + paperprop.People(100*strips) + " % alone",
	} {
		_, err := listed(t, "broke = \"trim included\"\n", list, making.Setting{Name: "line.winder.broke", Text: fmt.Sprintf("%.17g %%", 100*broke)}).Plan(context.Background())
		if want == "" && err != nil || want != "" && (err == nil || !strings.Contains(err.Error(), want)) {
			t.Errorf("broke of %v: %v, want %q", broke, err, want)
		}
	}
}

// The thickness in the reel follows from the density of the reel, where that is told.
func TestRollDensity(t *testing.T) {
	list := map[string]string{"list.csv": "order;grade;width [mm];reels\nA;Harebell 120;1080;9\n"}
	text := fmt.Sprintf(mill, "orders = \"list.csv\"")
	b := read(t, strings.Replace(text, `reel-thickness = "186 um"`, `roll-density = "600 kg/m3"`, 1), list)
	if got := b.Grades[1].ReelThickness.In(paperprop.Micrometre); !near(got, 200) { // 120 g/m² of it
		t.Errorf("a layer is %v µm, want 200", got)
	}
	if p := plan(t, b); p.Orders[0].Reels != 9 {
		t.Errorf("%+v", p.Orders[0])
	}
	b = read(t, strings.Replace(text, `reel-thickness = "186 um"`, "reel-thickness = \"186 um\"\nroll-density = \"600 kg/m3\"", 1), list)
	if got := b.Grades[1].ReelThickness.In(paperprop.Micrometre); !near(got, 186) {
		t.Errorf("a layer is %v µm, want what is told, 186", got)
	}
}

// An order without a name goes by its place in the book; a grade that is none is
// told with what there is.
func TestUnnamed(t *testing.T) {
	order := "[[order]]\ngrade = %q\nwidth = \"1 m\"\nreels = 2\n"
	text := fmt.Sprintf(mill, "") + "[[order]]\norder = \"first\"\ngrade = \"Whin 105\"\nwidth = \"1 m\"\nreels = 2\n" + fmt.Sprintf(order, "Whin 105")
	b := read(t, text, nil)
	if b.Orders[0].Name != "first" || b.Orders[1].Name != "order 2" {
		t.Errorf("orders %q and %q", b.Orders[0].Name, b.Orders[1].Name)
	}
	for grade, want := range map[string]string{
		"Whin 106": `order 3: grade "Whin 106" is not one of the book, near: Whin 105`,
		"?":        `order 3: grade "?" is not one of the book, want one of Harebell 120, Whin 105`,
	} {
		_, err := making.Read("book.toml", strings.NewReader(text+fmt.Sprintf(order, grade)), files(nil), table.Options{})
		if err == nil || !strings.Contains(err.Error(), want) {
			t.Errorf("grade %q: %v, want %q", grade, err, want)
		}
	}
}

// What an order in code says beside its grade is refused with its reason.
func TestOrderInCode(t *testing.T) {
	for _, test := range []struct {
		change func(*trim.Request)
		want   string
	}{
		{func(r *trim.Request) { r.Sheets = 1 }, ""},
		{func(r *trim.Request) { r.Sheets = 2 }, "reels of several sheets are planned by trim alone"},
		{func(r *trim.Request) { r.Terms.Diameter = r.Terms.CoreDiameter }, "diameter is 100 mm, want above the core's, 100 mm"},
		{func(r *trim.Request) { r.Terms.Grammage = 119 }, "grammage is 119 g/m2, want that of the grade, 120 g/m2"},
		{func(r *trim.Request) { r.Terms.ReelThickness = 185 * paperprop.Micrometre }, "reel-thickness is 0.185 mm, want that of the grade, 0.186 mm"},
	} {
		b := listed(t, "", "order;grade;width [mm];reels\nA;Harebell 120;1080;9\n")
		test.change(&b.Orders[0].Request)
		m := plan(t, b).Orders[0]
		if m.Reason != test.want || (m.Left > 0) != (test.want != "") {
			t.Errorf("%d left: %q, want %q", m.Left, m.Reason, test.want)
		}
	}
}

// A width that arithmetic left beside its decimals is ready when that is: its sets are
// found, and go before those without a date.
func TestCrookedWidth(t *testing.T) {
	book := func() *making.Book {
		return listed(t, "", "order;grade;width [mm];reels;due\nA;Harebell 120;1774.825;9;30.11.2026 13:00\nB;Harebell 120;2240;9;\n")
	}
	b := book()
	b.Orders[0].Width = paperprop.Length(69.875) * paperprop.Inch
	if b.Orders[0].Width == 1774.825 {
		t.Fatal("the width is not crooked")
	}
	got, want := plan(t, b), plan(t, book())
	if got.Orders[0].Ready != want.Orders[0].Ready || got.Orders[1].Ready != want.Orders[1].Ready || !want.Orders[0].Ready.Before(want.Orders[1].Ready) {
		t.Errorf("ready %v and %v, want %v and %v", got.Orders[0].Ready, got.Orders[1].Ready, want.Orders[0].Ready, want.Orders[1].Ready)
	}
}

// Lines of one order bear its name, and each has figures of its own.
func TestLinesOfAnOrder(t *testing.T) {
	p := plan(t, listed(t, "", "order;grade;width [mm];reels\nA;Harebell 120;1080;9\nA;Harebell 120;820;7\nA;Harebell 120;820;2\n"))
	made := map[string][]string{}
	for _, f := range p.Facts() {
		if f.Of == "order" && f.Name == "A" {
			made[f.Result] = append(made[f.Result], f.Value)
		}
	}
	if got, want := fmt.Sprint(made["width"], made["made"]), "[1080 820 820] [9 7 2]"; got != want {
		t.Errorf("widths and reels are %s, want %s", got, want)
	}
}
