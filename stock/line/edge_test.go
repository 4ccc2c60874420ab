package line_test

import (
	"cmp"
	"errors"
	"fmt"
	"math"
	"slices"
	"strconv"
	"strings"
	"testing"

	"millmaths.example/paperprop/calc"
	"millmaths.example/stock/line"
)

// What is wrong with a file is said with its place, and with what is near where
// something is.
func TestRefusedFile(t *testing.T) {
	text := read(t, quillbeck)
	for _, test := range []struct{ from, to, want string }{
		{`name    = "filler"`, "name = \"filler\"\ncolour = \"red\"", `filler: a component has no "colour", want one of name, form, density`},
		{`name    = "filler"`, "name = \"filler\"\nfrom = \"red\"", `a component has no "from", near: form`},
		{`rejects-to     = "coarse rejects"`, `rejects-to = "zzz"`, `pulper: rejects-to = "zzz" goes nowhere: there is no stage, tank, waste or effluent of that name; effluent = ["zzz"] or waste above the tables makes it one` + "\n"},
		{`effluent = ["sewer"]`, `effluent = "sewer"`, `effluent is no list of names, want ["NAME", ...]`},
		{`effluent = ["sewer"]`, `effluent = [{ name = "sewer" }]`, `effluent is no list of names, want ["NAME", ...]`},
		{`effluent = ["sewer"]`, `effluent = [1]`, `effluent is 1, want text in quotes`},
		{`rejects-to     = "coarse rejects"`, `rejects-to = "coarse reject"`, `of that name, near: coarse rejects`},
		{`"2700 kg/m3"`, `"0 kg/m3"`, `filler.density is 0 kg/m3, want above 0 kg/m3`},
		{`kind = "headbox"`, `kind = "zzz"`, `headbox: kind is "zzz", want pulper, screen, cleaner, thickener, save-all, chest, headbox, wire, press, dryers, size press, reel, winder`},
		{`kind = "headbox"`, `kind = "headbo"`, `headbox: kind is "headbo", want headbox` + "\n"},
		{"consistency = \"0.82 %\"\nwater       = \"white water\"", `consistency = "0.82 %"`, `headbox: water missing (the tank that thins the stock)`},
		{`fibre = "rest", filler = "11 %"`, `fibre = "86 %", filler = "11 %"`, `bales: the dry shares add up to 99 %, want 100 %, or one of them "rest"`},
		{`filler = "11 %", starch = "2 %"`, `filler = "98 %", starch = "2.01 %"`, `bales: the given dry shares add up to 100.01 %, and nothing is left for fibre`},
		{`adds     = "starch"`, `adds = "clay"`, `size press: adds = "clay" is no component, want fibre, filler, starch`},
		{"water       = \"white water\"\nto          = \"machine chest\"", `water = "white water"`, `broke pulper: to missing: it is the last stage`},
		{`to       = "sold"`, `to = "sewer"`, `nothing is sold, want to = "sold" at the last stage`},
		{`[size]`, "[size]\nreel = \"15 t/h\"\n[nothing]", `a line has no "nothing"`},
		{`"2700 kg/m3"`, `"2700"`, `test.toml:40: filler.density "2700": unit missing, want kg/m3 or g/cm3`},
		{`"2700 kg/m3"`, `"?"`, `test.toml:40: filler.density is ?, want a value such as "1500 kg/m3"`},
		{`form    = "suspended"`, ``, `test.toml:33: fibre: form missing, want "suspended" or "dissolved"`},
		{`kind = "headbox"`, `knd = "headbox"`, `test.toml:94: headbox: kind missing, want one of pulper, screen, cleaner, thickener, save-all, chest, headbox, wire, press, dryers, size press, reel, winder`},
		{`"0.82 %"`, `0.82`, "test.toml:97: headbox.consistency is 0.82, want it in quotes with its unit\n"},
		{`"0.82 %"`, `["0.82 %"]`, "test.toml:97: headbox.consistency is a list, want it in quotes with its unit\n"},
		{`cylinders = "32"`, `cylinders = 32`, "test.toml:118: dryers.cylinders is 32, want it in quotes\n"},
		{`cylinders = "32"`, `cylinders = "32.5"`, "test.toml:118: dryers.cylinders is 32.5, want a whole number\n"},
		{`name = "headbox"`, `name = { x = 1 }`, `test.toml:95: stage: name is a table, want text in quotes`},
		{`"7.2 t/t"`, `"7 m3/t"`, "test.toml:54: fresh water.flow \"7 m3/t\": \"m3/t\" is no unit of mass flow, want t/h or kg/h; or t/t, per tonne sold\n"},
		{`"7.2 t/t"`, `7.2`, "test.toml:54: fresh water.flow is 7.2, want it in quotes with its unit\n"},
		{`moisture = "11.5 %"`, `moisture = "100 %"`, `test.toml:61: pulper.bales.moisture is 100 %, want at least 0 % and below 100 %`},
		{`overflow = "sewer"`, `overflow = "white water"`, `test.toml:49: white water: overflow = "white water" is the tank itself, want another place: this holds no level`},
		{`to   = "white water"`, `to = "white"`, `test.toml:53: fresh water: to = "white" goes nowhere`},
		{`to       = "sold"`, `to = { sold = "rest", sewer = "60 %", "screen rejects" = "50 %" }`, `test.toml:147: winder: to: the given shares add up to 110 %, and nothing is left for sold`},
		{`reject-rate        = "14 %"`, `reject-rate = "100 %"`, `test.toml:19: size.speed is 625 m/min: nothing of what is fed comes there`},
		{`reject-rate    = "4 %"`, `reject-rate = "100 %"`, `test.toml:19: size.speed is 625 m/min: nothing of what is fed comes there`},
	} {
		_, err := answer(edited(t, text, strings.NewReplacer(`kind = "headbox"`, `kind        = "headbox"`, `name = "headbox"`, `name        = "headbox"`).Replace(test.from), test.to))
		if err == nil || !strings.Contains(err.Error()+"\n", test.want) {
			t.Errorf("%s:\n got %v\nwant %s", test.to, err, test.want)
		}
	}
}

// A place to which nothing comes but what comes from it.
func TestApart(t *testing.T) {
	text := read(t, quillbeck)
	for _, test := range []struct{ more, want string }{
		{"[[stage]]\nname = \"ring\"\nkind = \"chest\"\nto = \"round\"\n[[stage]]\nname = \"round\"\nkind = \"chest\"\nto = \"ring\"\n", "test.toml:155: ring: nothing comes to it from outside"},
		{"[[tank]]\nname = \"clear water\"\noverflow = \"sewer\"\n", "test.toml:155: clear water: nothing comes to it from outside"},
	} {
		if _, err := answer(text + test.more); err == nil || err.Error() != test.want {
			t.Errorf("%s:\n got %v\nwant %s", test.more, err, test.want)
		}
	}
}

// By a branch or a broke of nothing, nothing comes to a place
// and nothing leaves the mill. Where something comes and never leaves is named.
func TestBranchOfNothing(t *testing.T) {
	const ring = "[[stage]]\nname = \"ring\"\nkind = \"chest\"\nto = \"round\"\n[[stage]]\nname = \"round\"\nkind = \"chest\"\nto = \"ring\"\n"
	const free = "test.toml: ring: the figures of these places contradict each other, or leave a flow free"
	const stays = "test.toml:155: ring: fibre has no way out: what comes here stays in the mill"
	const nothing = "test.toml:19: size.sold is 14 t/h: nothing of what is fed comes there"
	to, broke, brokeTo := `to       = "sold"`, `broke    = "6 %"`, `broke-to = "broke pulper"`
	size := []string{`speed = "625 m/min"`, `sold = "14 t/h"`}
	for _, test := range []struct {
		edits []string
		more  string
		want  string
	}{
		{[]string{to, `to = { sold = "rest", ring = "0 %" }`}, ring, free},
		{[]string{to, `to = { sold = "rest", ring = "1 %" }`}, ring, stays},
		{[]string{to, `to = { sold = "99 %", ring = "rest" }`}, ring, stays},
		{[]string{to, `to = { sold = "60 %", sewer = "40 %", ring = "rest" }`}, ring, free},
		{[]string{broke, `broke = "0 %"`, brokeTo, `broke-to = "ring"`}, ring, free},
		{[]string{broke, `broke = "1 %"`, brokeTo, `broke-to = "ring"`}, ring, stays},
		{append(size, to, `to = { sold = "0 %", "broke pulper" = "rest" }`), "", nothing},
		{append(size, to, `to = { sold = "rest", "broke pulper" = "100 %" }`), "", nothing},
		{append(size, broke, `broke = "100 %"`), "", nothing},
		{append(size, broke, `broke = "100 %"`, to, `to = { sold = "rest", sewer = "10 %" }`), "", nothing},
	} {
		if _, err := answer(edited(t, read(t, quillbeck), test.edits...) + test.more); err == nil || err.Error() != test.want {
			t.Errorf("%q:\n got %v\nwant %s", test.edits, err, test.want)
		}
	}
}

// A loop that only its own water comes back to is named, also where it begins at a tank; of
// places whose flows are left free no more is known.
func TestLoopWithoutEnd(t *testing.T) {
	text := read(t, quillbeck)
	for _, test := range []struct{ text, want string }{
		{edited(t, text, "[[water]]", "[[tank]]\nname = \"felt water\"\noverflow = \"felt chest\"\n[[water]]",
			"dryness  = \"47.5 %\"\nwater-to = \"white water\"", "dryness = \"47.5 %\"\nbroke = \"5 %\"\nbroke-to = \"broke pulper\"\nwater-to = \"felt water\"") +
			"[[stage]]\nname = \"felt chest\"\nkind = \"chest\"\nto = \"felt water\"\n",
			"test.toml:51: felt water: water has no way out: what comes to the tank stays in the mill"},
		{edited(t, text, `overflow = "sewer"`, `overflow = "pulper"`), "test.toml: pulper: the figures of these places contradict each other, or leave a flow free"},
	} {
		if _, err := answer(test.text); err == nil || err.Error() != test.want {
			t.Errorf("got  %v\nwant %s", err, test.want)
		}
	}
}

// A size that the line has no place for.
func TestSizeWithoutReel(t *testing.T) {
	text := read(t, quillbeck)
	i := strings.Index(text, "[[stage]]\nname     = \"reel\"")
	j := strings.Index(text, "[[stage]]\nname     = \"winder\"")
	if i < 0 || j < i {
		t.Fatal("no reel before the winder")
	}
	without := text[:i] + text[j:]
	for size, want := range map[string]string{
		`reel = "15 t/h"`: "size: reel is given, but no stage is a reel", `speed = "625 m/min"`: "speed alone gives no tonnes", `sold = "14 t/h"`: "", `fed = "15 t/h"`: "",
	} {
		_, err := line.Read("test.toml", strings.NewReader(edited(t, without, `speed = "625 m/min"`, size)))
		if want == "" && err != nil || want != "" && (err == nil || !strings.Contains(err.Error(), want)) {
			t.Errorf("%s: %v, want %q", size, err, want)
		}
	}
	if _, err := line.Read("test.toml", strings.NewReader(edited(t, text, `speed = "625 m/min"`, `reel = "15 t/h"`))); err != nil {
		t.Error(err)
	}
}

// What lies on the edge of what a file may hold is taken.
func TestTakenFile(t *testing.T) {
	text := read(t, quillbeck)
	for _, pair := range [][2]string{
		{`fibre = "88 %"`, `fibre = "100 %"`}, {`fibre = "88 %"`, `fibre = "100.0 %"`},
		{`filler = "11 %", starch = "2 %"`, `filler = "98 %", starch = "2 %"`}, // nothing is left for fibre
		{`fibre = "rest"`, `fibre = "87 %"`},
		{`moisture = "11.5 %"`, `moisture = "0 %"`},
	} {
		if _, err := line.Read("test.toml", strings.NewReader(edited(t, text, pair[0], pair[1]))); err != nil {
			t.Errorf("%s: %v", pair[1], err)
		}
	}
	a := solve(t, edited(t, text, `fibre = "88 %"`, `fibre = "100 %"`))
	if got := value(t, a, "water of the wire.fibre"); math.Abs(got) > 1e-9 {
		t.Errorf("%v t/h of fibre in the water of a wire that keeps all", got)
	}
	// Up to a mebibyte is read.
	for over, want := range map[int]string{0: "", 1: "longer than 1 MiB", 1000: "longer than 1 MiB"} {
		long := text + "\n#" + strings.Repeat("x", 1<<20-len(text)-2+over)
		_, err := line.Read("test.toml", strings.NewReader(long))
		if want == "" && err != nil || want != "" && (err == nil || !strings.Contains(err.Error(), want)) {
			t.Errorf("%d bytes: %v, want %q", len(long), err, want)
		}
	}
}

// Why a line is impossible is said with the figure as written, and with flows that
// add up.
func TestRefusedFlows(t *testing.T) {
	text := read(t, quillbeck)
	for _, test := range []struct{ text, want string }{
		{edited(t, text, `"47.5 %"`, `"1750e-2 %"`), `press: dryness is 1750e-2 %: the press would wet the sheet, which comes in at 19 %`},
		{edited(t, text, `"71 %"`, `"96.5 %"`), `the size press would dry the sheet, which comes in at 96 %, with a solution of 9.5 %`},
		{edited(t, twoPly, "consistency = \"5 %\"\ncapture", "consistency = \"1 %\"\ncapture"), "thickener: consistency is 1 %: the thickener would thin the stock, which comes in at 1."},
		{edited(t, twoPly, "kind = \"thickener\"\nconsistency = \"5 %\"", "kind = \"save-all\"\nconsistency = \"1 %\""),
			"test.toml:85: thickener: consistency is 1 %: the save-all would thin the stock, which comes in at 1.13793 %"},
		{edited(t, text, `"3.6 %"`, `"0.2 %"`), `screen 1: reject-consistency is 0.2 %: the rejects would take 950.851 t/h of water, and 440.083 t/h are fed`},
		{edited(t, twoPly, `reject-consistency = "2.0 %"`, `reject-consistency = "0.1 %"`), `cleaner 1: reject-consistency is 0.1 %: the rejects would take 1567.43 t/h of water, and 1076.51 t/h are fed`},
		{edited(t, twoPly, `dryness = "17 %"`, `dryness = "0.2 %"`), `top wire: dryness is 0.2 %: the sheet would hold 2763.26 t/h of water, and 1618.72 t/h come from the headbox`},
		{edited(t, text, `"0.82 %"`, `"3.2 %"`), `headbox: consistency is 3.2 %: water can only thin the stock, which comes in at 2.96`},
		// A size press needs a solution below the sheet that leaves, and that below the one that comes.
		{edited(t, text, `"9.5 %"`, `"80 %"`), `test.toml:126: size press: dryness is 71 %: the sheet comes out drier than that, as its solution has 80 %`},
		{edited(t, text, `"9.5 %"`, `"71 %"`), `size press: dryness is 71 %: the sheet comes out drier than that, as its solution has 71 %`},
		{edited(t, text, `"9.5 %"`, `"99.5 %"`), `size press: dryness is 71 %: the sheet comes out drier than that, as its solution has 99.5 %`},
		{edited(t, text, `"71 %"`, `"9 %"`), `size press: dryness is 9 %: the sheet comes out drier than that, as its solution has 9.5 %`},
		{edited(t, text, `"9.5 %"`, `"70.9 %"`), `: 13.9107 t/h of dry matter are added to the sheet, and 13.6384 t/h leave the mill`},
		{edited(t, text, `"6 %"`, `"100 %"`), `test.toml:145: winder: broke is 100 %: nothing is sold, so the fresh water per tonne sold would be none`},
		// What comes may be bales, stock to a pulper that gets none, or clear water.
		{edited(t, text, `"4.6 %"`, `"92 %"`), "test.toml:62: pulper: consistency is 92 %: water can only thin the stock, which comes in at 88.5 %"},
		{edited(t, twoPly, `share = "30 %"`, `share = "0 %"`, "rejects-to = \"cleaner rejects\"", `rejects-to = "white pulper"`),
			"test.toml:52: white pulper: consistency is 4.5 %: water can only thin the stock, which comes in at 1.5 %"},
		{edited(t, text, "[[stage]]", "[[water]]\nname = \"seal water\"\nto = \"seal chest\"\nflow = \"5 t/h\"\n[[stage]]\nname = \"seal chest\"\nkind = \"chest\"\n"+
			"consistency = \"1 %\"\nwater = \"white water\"\nto = \"broke pulper\"\n[[stage]]"),
			"test.toml:65: seal chest: consistency is 1 %: water can only thin the stock, which comes in at 0 %"},
		// The first stage at fault is told, whatever comes after it.
		{edited(t, text, `"9.5 %"`, `"70.9 %"`, `"92.5 %"`, `"60 %"`),
			"test.toml:58: pulper: recovered paper would run backwards, with 0.145688 t/h: 9.02313 t/h of dry matter are added to the sheet, and 8.8942 t/h leave the mill"},
		// A tank needs as much as is drawn from it, and another way out than what is drawn.
		{edited(t, text, `overflow = "sewer"`, `make-up = "fresh"`), "test.toml:47: white water: the tank runs over by 71.9225 t/h: 2262.03 t/h come to it, and 2190.11 t/h are drawn; it needs an overflow"},
		{edited(t, text, "[[water]]", "[[tank]]\nname = \"felt water\"\nmake-up = \"fresh\"\n[[water]]", "dryness  = \"47.5 %\"\nwater-to = \"white water\"", "dryness = \"47.5 %\"\nwater-to = \"felt water\""),
			"test.toml:51: felt water: the tank runs over by 42.4583 t/h: 42.4583 t/h come to it, and 0 t/h are drawn; it needs an overflow"},
		{edited(t, text, "[[water]]", "[[tank]]\nname = \"clear water\"\noverflow = \"sewer\"\n[[water]]", `reject-rate    = "4 %"`, `reject-rate = "0 %"`, `rejects-to     = "coarse rejects"`, `rejects-to = "clear water"`,
			"consistency = \"0.82 %\"\nwater       = \"white water\"", "consistency = \"0.82 %\"\nwater = \"clear water\""),
			"test.toml:51: clear water: the tank runs dry by 1455.55 t/h: 0 t/h come to it, and 1455.55 t/h are drawn; it needs more fresh water, or a make-up"},
		{edited(t, twoPly, "kind = \"save-all\"\nconsistency = \"3 %\"", "kind = \"save-all\"\nconsistency = \"0.1 %\""),
			"test.toml:24: white water: it lacks 37.82 t/h, and with its overflow shut nothing comes to the save-all: it needs more water, or the save-all another feed"},
		{edited(t, twoPly, "overflow = \"sewer\"\nmake-up = \"fresh\"", "overflow = \"sewer\"\nmake-up = \"white water\""), "test.toml: overflow of the clear water: all would run backwards, with 24.0065 t/h"},
		{edited(t, text, `"71 %"`, `"9.6 %"`), "test.toml:58: pulper: recovered paper would run backwards, with 0.213059 t/h: 13.8243 t/h of dry matter are added to the sheet, and 13.6358 t/h leave the mill"},
		{edited(t, text, `"6 %"`, `"99.9 %"`), `white water: the tank runs dry by 13.15`},
	} {
		_, err := answer(test.text)
		if err == nil || !strings.Contains(err.Error(), test.want) {
			t.Errorf("got %v\nwant %s", err, test.want)
			continue
		}
	}
	_, err := answer(edited(t, text, `"7.2 t/t"`, `"1 t/t"`))
	var lacks, comes, drawn float64
	if err == nil {
		t.Fatal("no error")
	}
	if _, scanned := fmt.Sscanf(err.Error()[strings.Index(err.Error(), "runs dry"):], "runs dry by %g t/h: %g t/h come to it, and %g t/h are drawn", &lacks, &comes, &drawn); scanned != nil ||
		math.Abs(comes+lacks-drawn) > 1e-5*drawn || lacks <= 0 {
		t.Errorf("%v lacks, %v comes and %v is drawn: %v", lacks, comes, drawn, err)
	}
}

// A line without a balance is refused with a place and with two numbers that disagree,
// though Newton's method finds no flows to tell of, or none that make sense.
func TestRefusedLoops(t *testing.T) {
	byMass := []string{`[conventions]`, "[conventions]\nreject-rate = \"by mass of stock\""}
	follows := []string{`[conventions]`, "[conventions]\nrejects = \"dissolved matter follows the water\""}
	asStock := []string{`[conventions]`, "[conventions]\ncoarse-rejects = \"as the stock\""}
	carries := []string{`[conventions]`, "[conventions]\npress-water = \"carries dissolved matter\""}
	noStarch := []string{`, starch = "18 %" }`, ` }`}
	makeUp := []string{`overflow = "sewer"`, "overflow = \"sewer\"\nmake-up = \"fresh\""}
	dry := []string{`dryness     = "everything but water"`, `dryness = "suspended matter"`}
	thick := []string{"kind               = \"screen\"\nconsistency        = \"3.0 %\"\nwater              = \"white water\"", `kind = "screen"`}
	const filling = ", as the loops fill: they come to no balance"
	for _, test := range []struct {
		edits   [][]string
		figures []string
		want    string
	}{
		{[][]string{follows, carries}, []string{"screen 1.reject-rate=14.94 %", "screen 1.reject-consistency=4.362 %", "screen 2.consistency=0.6095 %", "pulper.bales.starch=12.06 %", "pulper.bales.filler=13.15 %"},
			"screen 1: consistency is 3.0 %: water can only thin the stock, which comes in at 2.35 %" + filling},
		{[][]string{makeUp, noStarch}, []string{"screen 2.consistency=2.714 %", "pulper.bales.starch=10.97 %", "fresh water.flow=1.39 t/t"},
			"headbox: consistency is 0.82 %: the water of the white water has 1.451 %, and cannot thin stock to that" + filling},
		{[][]string{byMass, carries, follows, asStock, noStarch}, []string{"screen 1.reject-rate=30.94 %", "screen 2.reject-rate=31.03 %", "wire.retention.filler=31.89 %"},
			"white water: the tank runs dry by 52.17 t/h: 2160 t/h come to it, and 2212 t/h are drawn; it needs more fresh water, or a make-up" + filling},
		// A make-up may come out below zero where all that is drawn does.
		{[][]string{byMass, carries, follows, {`overflow = "sewer"`, `make-up = "fresh"`}}, []string{"screen 2.consistency=1.8 %", "pulper.bales.starch=89 %", "screen 1.reject-rate=40 %"},
			"white water: the tank runs over by 414 t/h: 495 t/h come to it, and 495 t/h are drawn; it needs an overflow" + filling},
		{[][]string{byMass, carries, follows, asStock}, []string{"screen 1.reject-rate=39.6 %", "screen 2.reject-rate=16.67 %", "screen 1.consistency=1.247 %",
			"screen 2.consistency=1.124 %", "wire.retention.filler=56.82 %", "pulper.bales.filler=10.31 %", "headbox.consistency=0.9593 %"},
			"screen 1: reject-consistency is 3.6 %: the rejects would take 0.906 t/h of filler, and 0.788 t/h are fed" + filling},
		// Of the rejects thinned to 0.8 %, the accepts alone are more than the screen was fed.
		{[][]string{byMass, thick}, []string{"screen 1.reject-rate=30 %", "screen 2.consistency=0.8 %"},
			"screen 1: for each 1 t/h that it is fed, 1.42 t/h come back from the screen 2: more than arrives, without end"},
		{[][]string{byMass, thick, {"name = \"machine chest\"\nkind = \"chest\"", "name = \"machine chest\"\nkind = \"chest\"\nto = { headbox = \"rest\", \"screen 1\" = \"0 %\" }"}},
			[]string{"screen 1.reject-rate=30 %", "screen 2.consistency=0.8 %"},
			"screen 1: for each 1 t/h that it is fed, 1.42 t/h come back from the screen 2: more than arrives, without end"},
		// Dissolved matter takes room in the sheet that its dryness does not count.
		{[][]string{dry}, []string{"after-dryers.dryness=96 %"},
			"after-dryers: dryness is 96 %: it counts suspended matter alone, which is 94.86 % even without any water, as dissolved matter comes with it"},
		{[][]string{dry}, []string{"dryers.dryness=40 %"}, "dryers: dryness is 40 %: the dryers would wet the sheet, which comes in at 47.5 %"},
		{[][]string{dry}, []string{"pulper.reject-dryness=99 %"},
			"pulper: reject-dryness is 99 %: it counts suspended matter alone, which is 98 % even without any water, as dissolved matter comes with it"},
	} {
		l := readText(t, edited(t, read(t, quillbeck), slices.Concat(test.edits...)...))
		for _, figure := range test.figures {
			name, text, _ := strings.Cut(figure, "=")
			var err error
			if l, err = l.With(name, text); err != nil {
				t.Fatal(err)
			}
		}
		_, err := l.Solve()
		if err == nil {
			t.Errorf("no error, want %s", test.want)
			continue
		}
		// Numbers are compared to as many digits as are wanted.
		got := strings.Fields(err.Error()[strings.Index(err.Error(), ": ")+2:])
		want := strings.Fields(test.want)
		if !slices.EqualFunc(got, want, func(got, want string) bool {
			return got == want || strings.ContainsAny(want, "0123456789") && strings.HasPrefix(got, want)
		}) {
			t.Errorf("got %v\nwant %s", err, test.want)
		}
	}
}

// A thickener compares consistencies, also where a dryness counts other matter.
func TestThickenerCounts(t *testing.T) {
	text := edited(t, twoPly, "consistency = \"5 %\"\ncapture", "consistency = \"1 %\"\ncapture")
	one, other := "[conventions]\nconsistency = \"suspended matter\"\n", "[conventions]\nconsistency = \"suspended matter\"\ndryness = \"suspended matter\"\n"
	var said []string
	for _, conventions := range []string{one, other} {
		_, err := answer(edited(t, text, "[size]", conventions+"[size]"))
		if err == nil || !strings.Contains(err.Error(), "thickener: consistency is 1 %: the thickener would thin the stock, which comes in at 1.") {
			t.Fatalf("%s: %v", conventions, err)
		}
		said = append(said, err.Error()[strings.Index(err.Error(), "comes in"):])
	}
	if said[0] != said[1] {
		t.Errorf("the stock %s, and with another dryness %s", said[0], said[1])
	}
}

// Lines whose water is so dirty, or whose rejects so many, that the way from clear
// water leads elsewhere, or nowhere: they have a balance all the same.
func TestDirtyLoop(t *testing.T) {
	text := read(t, quillbeck)
	const source = "common-practice: an independent solution of the same balances"
	makeUp := []string{`overflow = "sewer"`, "overflow = \"sewer\"\nmake-up = \"fresh\""}
	noStarch := []string{`, starch = "18 %" }`, ` }`}
	broke := func(beside, share string) []string {
		return []string{beside, fmt.Sprintf("%s\nbroke = %q\nbroke-to = \"broke pulper\"", beside, share)}
	}
	for _, test := range []struct {
		name         string
		edits        [][]string
		figures      []string
		white, bales float64 // consistency of the white water, bales in t/h
	}{
		{"filler that hardly stays", nil, []string{"wire.retention.filler=1 %"}, 0.007058531496682934, 16.109689938197338},
		{"many rejects", [][]string{makeUp, noStarch, {`[conventions]`, "[conventions]\nreject-rate = \"by mass of stock\""}},
			[]string{"screen 1.consistency=1.595 %", "screen 1.reject-rate=24.64 %", "screen 2.reject-rate=25.36 %", "wire.retention.filler=39.18 %"},
			0.0018342396129413183, 22.44865476848458},
		{"little fresh water", [][]string{noStarch},
			[]string{"pulper.bales.filler=16.14 %", "screen 1.reject-consistency=2.8 %", "screen 1.reject-rate=6.499 %", "winder.broke=5.642 %",
				"wire.retention.filler=8.508 %", "fresh water.flow=4.443 t/t"},
			0.006175533722480803, 15.462958373940962},
		{"less fresh water", [][]string{makeUp, noStarch},
			[]string{"pulper.bales.filler=23.19 %", "pulper.bales.starch=4.416 %", "screen 1.reject-consistency=3.314 %",
				"screen 2.reject-consistency=2.658 %", "wire.retention.filler=17.12 %", "fresh water.flow=1.878 t/t"},
			0.007623388408763419, 15.570518901249821},
		{"much broke", [][]string{makeUp, broke(`dryness   = "19 %"`, "3.31 %"), broke(`dryness  = "47.5 %"`, "3.83 %"),
			{`consistency = "everything but water"`, `consistency = "suspended matter"`},
			{`[conventions]`, "[conventions]\npress-water = \"carries dissolved matter\"\nreject-rate = \"by mass of stock\"\n" +
				"pulper-consistency = \"before the rejects are taken out\""}},
			[]string{"headbox.consistency=1.299 %", "pulper.bales.filler=18 %", "pulper.bales.starch=3.312 %", "pulper.consistency=4.577 %",
				"screen 1.consistency=2.104 %", "screen 1.reject-consistency=3.95 %", "screen 1.reject-rate=21.51 %",
				"screen 2.consistency=1.492 %", "screen 2.reject-consistency=2.73 %", "screen 2.reject-rate=17.09 %", "winder.broke=20.79 %",
				"wire.retention.fibre=72.18 %", "wire.retention.filler=10.68 %", "wire.retention.starch=34.73 %", "fresh water.flow=2.33 t/t"},
			0.005903866951794315, 19.4448186864332},
		{"a reel that breaks", [][]string{makeUp, noStarch, broke(`width    = "3.36 m"`, "1.02 %"),
			{`[conventions]`, "[conventions]\npress-water = \"carries dissolved matter\"\ncoarse-rejects = \"as the stock\""}},
			[]string{"headbox.consistency=0.8485 %", "pulper.bales.filler=20.59 %", "pulper.bales.starch=4.818 %", "pulper.consistency=5.781 %",
				"screen 1.consistency=1.989 %", "screen 1.reject-consistency=3.674 %", "screen 1.reject-rate=9.36 %",
				"screen 2.consistency=1.535 %", "screen 2.reject-consistency=3.293 %", "screen 2.reject-rate=28.43 %", "winder.broke=7.797 %",
				"wire.retention.fibre=81.64 %", "wire.retention.filler=63.03 %", "fresh water.flow=2.647 t/t"},
			0.00736636884319187, 15.455987780607142},
		{"a save-all that stands still", [][]string{{`overflow = "sewer"`, "overflow = \"save-all\"\nmake-up = \"clear water\"\n\n[[tank]]\nname = \"clear water\"\noverflow = \"sewer\""},
			{"to   = \"white water\"\nflow", "to = \"clear water\"\nflow"}, noStarch, {`consistency = "everything but water"`, `consistency = "suspended matter"`},
			{`[conventions]`, "[conventions]\npress-water = \"carries dissolved matter\""},
			{"[[stage]]\nname = \"machine chest\"", "[[stage]]\nname = \"save-all\"\nkind = \"save-all\"\nconsistency = \"4.4 %\"\nwater-to = \"clear water\"\n" +
				"to = \"machine chest\"\n[[stage]]\nname = \"machine chest\""}},
			[]string{"pulper.bales.starch=20 %"}, 0.0017212756298345, 17.292490189228428},
	} {
		l := readText(t, edited(t, text, slices.Concat(test.edits...)...))
		for _, figure := range test.figures {
			name, text, _ := strings.Cut(figure, "=")
			var err error
			if l, err = l.With(name, text); err != nil {
				t.Fatal(err)
			}
		}
		a, err := l.Solve()
		if err != nil {
			t.Errorf("%s: %v, want white water of %v (%s)", test.name, err, test.white, source)
			continue
		}
		white, bales := value(t, a, "white water.consistency"), value(t, a, "recovered paper.total")
		if !nearly(white, test.white) || !nearly(bales, test.bales) {
			t.Errorf("%s: white water of %v, %v t/h of bales, want %v and %v (%s)", test.name, white, bales, test.white, test.bales, source)
		}
		for _, s := range a.Streams {
			for _, x := range s.Flows {
				if float64(x) < -1e-9*float64(s.Total) {
					t.Errorf("%s: %s has a flow of %v t/h", test.name, s.Name, x)
				}
			}
		}
	}
}

// A line that is solved again, from one with clear water, is not refused either, and
// clear water comes back after it.
func TestDirtyBetween(t *testing.T) {
	l := readText(t, read(t, quillbeck))
	points, err := l.Range("wire.retention.filler", []float64{0.48, 0.01, 0.48, 0.02, 0.01})
	if err != nil {
		t.Fatal(err)
	}
	at, err := line.ResultNamed(l.Results(), "white water.consistency")
	if err != nil {
		t.Fatal(err)
	}
	for i, p := range points {
		if p.Err != nil {
			t.Fatalf("filler retained %v: %v", p.Figure, p.Err)
		}
		if p.Figure == 0.01 && !nearly(p.Values[at], 0.007058531496682934) {
			t.Errorf("white water of %v, want 0.70585 %% (common-practice: an independent solution of the same balances)", p.Values[at])
		}
		if i == 2 && !nearly(p.Values[at], points[0].Values[at]) {
			t.Errorf("white water of %v after the dirty one, %v before", p.Values[at], points[0].Values[at])
		}
	}
	unknown, err := l.With("wire.retention.filler", "?")
	if err != nil {
		t.Fatal(err)
	}
	lines, err := unknown.SolveFor(line.Wish{Result: "white water.consistency", Value: 0.007})
	if err != nil || len(lines) != 1 {
		t.Fatalf("%d lines with white water of 0.7 %%, %v, want one", len(lines), err)
	}
	i, _ := l.FigureNamed("wire.retention.filler")
	if x := lines[0].Figures[i].Value; !(math.Abs(x-0.0107037) < 5e-8) {
		t.Errorf("retention of %v, want 1.07037 %% (common-practice: an independent solution of the same balances)", x)
	}
}

// Where fresh water does not follow what is sold, all may be broke.
func TestNothingSold(t *testing.T) {
	a := solve(t, edited(t, read(t, quillbeck), `"6 %"`, `"100 %"`, `"7.2 t/t"`, `"100 t/h"`))
	if sold, broke, made := value(t, a, "sold"), value(t, a, "broke"), value(t, a, "production"); sold != 0 || broke != made {
		t.Errorf("of %v made %v is sold, %v is broke", made, sold, broke)
	}
}

// Shares of bales are told where they are set as where they are read.
func TestBalesSetTooFull(t *testing.T) {
	white := readText(t, twoPly) // it tells the largest share, which gives way
	for _, test := range []struct {
		line         *line.Line
		figure, text string
		want         string
	}{
		{readText(t, read(t, quillbeck)), "pulper.bales.starch", "100 %", "test.toml:61: pulper: bales: the given dry shares add up to 111 %, and nothing is left for fibre"},
		{white, "white pulper.bales.fines", "99 %", "test.toml:50: white pulper: bales: the given dry shares add up to 102 %, and nothing is left for fibre"},
		// Where the rest is nothing something else is impossible.
		{readText(t, edited(t, read(t, quillbeck), `"47.5 %"`, `"17.5 %"`)), "pulper.bales.filler", "98 %", "test.toml:110: press: dryness is 17.5 %: the press would wet the sheet, which comes in at 19 %"},
	} {
		l, err := test.line.With(test.figure, test.text)
		if err != nil {
			t.Fatal(err)
		}
		if _, err := l.Solve(); err == nil || err.Error() != test.want {
			t.Errorf("%s = %s:\n got %v\nwant %s", test.figure, test.text, err, test.want)
		}
	}
}

// A figure that is set out of its range is refused as it was set; one that makes the
// line impossible is told as it was set.
func TestNamesRefused(t *testing.T) {
	a, err := answer(read(t, quillbeck))
	if err != nil {
		t.Fatal(err)
	}
	_, figure := a.Line.FigureNamed("size.sped")
	_, result := line.ResultNamed(a.Results, "effluents")
	_, stream := line.ResultNamed(a.Results, "headbox.consistency") // a figure; the result is a dryness
	_, nothing := line.ResultNamed(a.Results, ".")
	_, steps := a.Steps("")
	for _, test := range []struct {
		err  error
		want string
	}{
		{figure, `Quillbeck, Harebell 120 has no figure "size.sped", near: size.speed, size.fed, size.sold`},
		{result, `the line has no result "effluents", near: effluent`},
		{stream, `the line has no result "headbox.consistency", want one of headbox.total, headbox.fibre, headbox.filler, headbox.starch, headbox.water, headbox.dryness, headbox.volume`},
		{nothing, `the line has no result "."`},
		{steps, "Quillbeck, Harebell 120: want a stage or tank, one of pulper, screen 1, screen 2, machine chest, headbox, wire, press, dryers, size press, after-dryers, reel, winder, broke pulper, white water"},
	} {
		var name *calc.NameError
		if test.err == nil || test.err.Error() != test.want || !errors.As(test.err, &name) {
			t.Errorf("got  %v\nwant %s", test.err, test.want)
		}
	}
}

func TestSetRefused(t *testing.T) {
	l := readText(t, read(t, quillbeck))
	s, err := l.NewSolver()
	if err != nil {
		t.Fatal(err)
	}
	for _, test := range []struct {
		name string
		x    float64
		want string
	}{
		{"dryers.dryness", 9.6, "dryers.dryness is 960 %, want above 0 % and below 100 %"},
		{"dryers.dryness", 1, "dryers.dryness is 100 %, want above 0 % and below 100 %"},
		{"dryers.dryness", 0, "dryers.dryness is 0 %, want above 0 % and below 100 %"},
		{"wire.retention.fibre", 1.001, "wire.retention.fibre is 100.1 %"},
		{"wire.retention.fibre", 1, ""},
		{"press.dryness", 0.176, "press: dryness is 17.6 %: the press would wet the sheet"},
		{"dryers.dryness", 0.96, ""},
	} {
		i, err := l.FigureNamed(test.name)
		if err != nil {
			t.Fatal(err)
		}
		s.Set(i, test.x)
		err = s.Solve()
		if test.want == "" && err != nil || test.want != "" && (err == nil || !strings.Contains(err.Error(), test.want)) {
			t.Errorf("%s = %v: %v, want %q", test.name, test.x, err, test.want)
		}
		s.Reset()
	}
}

// What a solver found before has no say in what it finds: tanks turn to their
// make-up, and back.
func TestSolvedBefore(t *testing.T) {
	text := edited(t, twoPly, `overflow = "save-all"`, `overflow = "sewer"`, `flow = "20 t/h"`, `flow = "100 t/h"`,
		"[[stage]]", "[[water]]\nname = \"to save-all\"\nfrom = \"white water\"\nto = \"save-all\"\nflow = \"150 t/h\"\n[[stage]]")
	l := readText(t, text)
	s, err := l.NewSolver()
	if err != nil {
		t.Fatal(err)
	}
	at, err := l.FigureNamed("bleed.flow")
	if err != nil {
		t.Fatal(err)
	}
	states := map[string]int{}
	for _, flow := range []float64{5, 400, 5, 50, 100, 50, 900, 60, 5, 200, 5} {
		s.Set(at, flow)
		if err := s.Solve(); err != nil {
			t.Fatalf("bleed of %v t/h: %v", flow, err)
		}
		a := solve(t, edited(t, text, `"5 t/h"`, fmt.Sprintf(`"%v t/h"`, flow)))
		for i, x := range s.Values(nil) {
			if !(math.Abs(x-a.Values[i]) <= 1e-9*math.Abs(x)+1e-9) {
				t.Errorf("bleed of %v t/h: %s is %v, of a solver that begins %v", flow, a.Results[i].Name, x, a.Values[i])
			}
		}
		state := ""
		for _, tank := range []string{"white water", "clear water"} {
			if value(t, a, "overflow of the "+tank+".total") > 1e-6 {
				state += tank + " runs over"
			}
		}
		states[state]++
	}
	if len(states) != 3 { // both, the clear water alone, none
		t.Errorf("the tanks stood at %v", states)
	}
}

// A figure left out of the file comes back from a result, as one that is "?" does.
func TestLeftOut(t *testing.T) {
	text := read(t, quillbeck)
	a := solve(t, text)
	for _, test := range []struct{ from, to, figure, result string }{
		{`dryness   = "19 %"`, "", "wire.dryness", "sheet off the wire.total"},
		{`consistency = "0.82 %"`, "", "headbox.consistency", "headbox.total"},
		{`filler = "48 %"`, `starch = "18 %"`, "wire.retention.filler", "white water.filler"},
	} {
		changed := edited(t, text, test.from, test.to)
		if test.figure == "wire.retention.filler" {
			changed = edited(t, changed, `starch = "18 %", starch = "18 %"`, `starch = "18 %"`)
		}
		l := readText(t, changed)
		if _, err := l.Solve(); err == nil || !strings.Contains(err.Error(), test.figure+" missing (") {
			t.Errorf("%s left out: %v", test.figure, err)
		}
		lines, err := l.SolveFor(line.Wish{Result: test.result, Value: value(t, a, test.result)})
		if err != nil {
			t.Errorf("%s left out: %v", test.figure, err)
			continue
		}
		i, _ := l.FigureNamed(test.figure)
		full := readText(t, text)
		j, _ := full.FigureNamed(test.figure)
		if got, want := lines[0].Figures[i].Value, full.Figures[j].Value; !nearly(got, want) || lines[0].Figures[i].Unknown {
			t.Errorf("%s from %s: %v, want %v", test.figure, test.result, got, want)
		}
	}
}

// One figure can be solved for, and one alone; names that are none have the nearest.
func TestUnknowns(t *testing.T) {
	l := readText(t, read(t, quillbeck))
	first := l.Figures[0].Name
	one, err := l.With(first, "?")
	if err != nil {
		t.Fatal(err)
	}
	two, err := one.With("headbox.consistency", "?")
	if err != nil {
		t.Fatal(err)
	}
	if _, err := two.SolveFor(line.Wish{Result: "steam", Value: 20}); err == nil || !strings.Contains(err.Error(), first+" and headbox.consistency are both unknown: one result gives one figure") {
		t.Errorf("two unknown: %v", err)
	}
	// The first figure is the temperature, on which volumes depend.
	a, err := l.Solve()
	if err != nil {
		t.Fatal(err)
	}
	lines, err := one.SolveFor(line.Wish{Result: "headbox.volume", Value: value(t, a, "headbox.volume")})
	if err != nil {
		t.Fatal(err)
	}
	if got := lines[len(lines)-1].Figures[0].Value; !(math.Abs(got-48) <= 1e-6) {
		t.Errorf("%s is %v, want 48", first, got)
	}
	nameless := readText(t, edited(t, read(t, quillbeck), `name        = "Quillbeck, Harebell 120"`, ""))
	for l, want := range map[*line.Line]string{l: "Quillbeck, Harebell 120", nameless: "line"} {
		_, err := l.FigureNamed("headbox.consistenc")
		if err == nil || !strings.HasPrefix(err.Error(), want) || !strings.Contains(err.Error(), "headbox.consistency") {
			t.Errorf("%v, want it to begin with %s", err, want)
		}
	}
}

// Where no value gives a result, what it comes to is told: the least and the most
// over the range of the figure.
func TestNoRoot(t *testing.T) {
	l := readText(t, read(t, quillbeck))
	unknown, err := l.With("press.dryness", "?")
	if err != nil {
		t.Fatal(err)
	}
	const result = "evaporation"
	_, err = unknown.SolveFor(line.Wish{Result: result, Value: 1e6})
	var none *line.NoRootError
	if !errors.As(err, &none) {
		t.Fatalf("got %v", err)
	}
	var values []float64
	for i := range 399 {
		values = append(values, float64(i+1)/400)
	}
	points, err := l.Range("press.dryness", values)
	if err != nil {
		t.Fatal(err)
	}
	i, err := line.ResultNamed(l.Results(), result)
	if err != nil {
		t.Fatal(err)
	}
	low, high, taken := math.Inf(1), math.Inf(-1), 0
	for _, p := range points {
		if p.Err == nil {
			low, high, taken = min(low, p.Values[i]), max(high, p.Values[i]), taken+1
		}
	}
	// The search goes to the edge of what is possible, a step beyond the points.
	if taken == 0 || taken == len(points) || none.Low > low*(1+1e-12) || none.High < high*(1-1e-12) || none.Low < low*0.9 || none.High > high*1.1 {
		t.Errorf("%d points give %v to %v, the search %v to %v", taken, low, high, none.Low, none.High)
	}
	if want := "press.dryness: no value gives evaporation 1e+06 t/h; it ranges from "; !strings.Contains(strings.ReplaceAll(err2(unknown, result), "1000000", "1e+06"), want) {
		t.Errorf("got %q, want %q", err2(unknown, result), want)
	}
}

func err2(l *line.Line, result string) string {
	_, err := l.SolveFor(line.Wish{Result: result, Value: 1e6})
	return fmt.Sprint(err)
}

// An order book is called one, and not fifteen faults of a line.
func TestOrderBookIsNoLine(t *testing.T) {
	const name = "../../examples/quillbeck/order-book.toml"
	const want = name + ":43: grade belongs to an order book, want the file of a line; millmaths making takes order books"
	if _, err := line.ReadFile(name); err == nil || err.Error() != want {
		t.Errorf("got %v\nwant %s", err, want)
	}
	if _, err := line.Read("b.toml", strings.NewReader("[jumbo]\nwidth = \"3 m\"\n")); err == nil || !strings.HasPrefix(err.Error(), "b.toml:1: jumbo belongs to an order book") {
		t.Errorf("got %v", err)
	}
}

// A range gives what the line gives with each value, and says where it is refused.
func TestRange(t *testing.T) {
	l := readText(t, read(t, quillbeck))
	for _, unknown := range []string{"", "press.dryness", "headbox.consistency"} {
		ranged := l
		if unknown != "" {
			var err error
			if ranged, err = l.With(unknown, "?"); err != nil {
				t.Fatal(err)
			}
		}
		points, err := ranged.Range("press.dryness", []float64{0.45, 0.1, 0.5})
		if unknown == "headbox.consistency" {
			if err == nil || !strings.Contains(err.Error(), "headbox.consistency is ?") {
				t.Errorf("another figure is not known: %v", err)
			}
			continue
		}
		if err != nil || len(points) != 3 {
			t.Fatalf("%d points, %v", len(points), err)
		}
		for i, text := range []string{"45 %", "10 %", "50 %"} {
			changed, err := l.With("press.dryness", text)
			if err != nil {
				t.Fatal(err)
			}
			a, err := changed.Solve()
			p := points[i]
			if (err != nil) != (p.Err != nil) || (p.Values != nil) != (p.Err == nil) {
				t.Errorf("%s: %v in the range, %v alone", text, p.Err, err)
				continue
			}
			for k := range p.Values {
				if !(math.Abs(p.Values[k]-a.Values[k]) <= 1e-9*math.Abs(a.Values[k])+1e-12) {
					t.Errorf("%s: %s is %v in the range, %v alone", text, a.Results[k].Name, p.Values[k], a.Values[k])
				}
			}
		}
	}
	points, err := l.Range("dryers.cylinders", []float64{32, 32.5})
	if err != nil || points[0].Err != nil || points[1].Err == nil || points[1].Err.Error() != "dryers.cylinders is 32.5, want a whole number" {
		t.Errorf("half a cylinder: %v, %v", points, err)
	}
	if points, err := l.Range("press.dryness", nil); len(points) != 0 || err != nil {
		t.Errorf("no values: %d points, %v", len(points), err)
	}
	if _, err := l.Range("press.drynes", []float64{0.4}); err == nil || !strings.Contains(err.Error(), "press.dryness") {
		t.Errorf("an unknown name: %v", err)
	}
}

// Beside what is impossible a slope is found on one side, and is that of the results.
func TestSlopeAtEdge(t *testing.T) {
	for _, text := range []string{"19.001 ± 0.1 %", "95.999 ± 0.1 %", "47.5 ± 0.1 %"} {
		l, err := readText(t, read(t, quillbeck)).With("press.dryness", text)
		if err != nil {
			t.Fatal(err)
		}
		spreads, err := l.Uncertainties(-1, line.Wish{})
		if err != nil {
			t.Errorf("%s: %v", text, err)
			continue
		}
		at, _ := l.FigureNamed("press.dryness")
		x := l.Figures[at].Value
		const h = 2e-6
		points, err := l.Range("press.dryness", []float64{x - h, x + h})
		if err != nil || points[0].Err != nil || points[1].Err != nil {
			t.Fatal(err, points)
		}
		some := 0
		for i, r := range l.Results() {
			want := math.Abs(points[1].Values[i]-points[0].Values[i]) / (2 * h) * 0.001
			if got := spreads[i].Standard; !(math.Abs(got-want) <= 1e-5*want+1e-8) {
				t.Errorf("%s: u(%s) is %v, want %v", text, r.Name, got, want)
			} else if want > 1e-6 {
				some++
			}
		}
		if some < 10 {
			t.Errorf("%s: %d results move", text, some)
		}
	}
}

// At the end of what is possible itself a slope is found on the one side there is.
func TestSlopeOnEdge(t *testing.T) {
	var evaporation []float64
	for _, text := range []string{"96 ± 0.1 %", "95.9 ± 0.1 %"} {
		l, err := readText(t, read(t, quillbeck)).With("press.dryness", text)
		if err != nil {
			t.Fatal(err)
		}
		spreads, err := l.Uncertainties(-1, line.Wish{})
		if err != nil {
			t.Fatalf("%s: %v", text, err)
		}
		i, err := line.ResultNamed(l.Results(), "evaporation")
		if err != nil {
			t.Fatal(err)
		}
		evaporation = append(evaporation, spreads[i].Standard)
	}
	if on, beside := evaporation[0], evaporation[1]; !(on > 0 && math.Abs(on/beside-1) < 0.01) {
		t.Errorf("u(evaporation) is %v on the edge, and %v beside it", on, beside)
	}
}

// Nothing uncertain has no spread, and what does not hang on a figure has none of it.
func TestNoSpread(t *testing.T) {
	l := readText(t, read(t, quillbeck))
	if spreads, err := l.Uncertainties(-1, line.Wish{}); spreads != nil || err != nil {
		t.Errorf("nothing is uncertain: %d spreads, %v", len(spreads), err)
	}
	at, _ := l.FigureNamed("headbox.consistency")
	if spreads, err := l.Uncertainties(at, line.Wish{Result: "headbox.total"}); spreads != nil || err != nil {
		t.Errorf("nothing is uncertain, and one was solved for: %d spreads, %v", len(spreads), err)
	}
	l, err := l.With("headbox.consistency", "0.82 ± 0.01 %")
	if err != nil {
		t.Fatal(err)
	}
	spreads, err := l.Uncertainties(-1, line.Wish{})
	if err != nil {
		t.Fatal(err)
	}
	fixed := []string{"production", "sold", "reel.total", "speed", "size solution.total", "evaporation", "steam", "recovered paper.dryness"}
	for i, r := range l.Results() {
		switch {
		case slices.Contains(fixed, r.Name) && (spreads[i].Standard != 0 || spreads[i].Shares != nil):
			t.Errorf("u(%s) is %v", r.Name, spreads[i].Standard)
		case r.Name == "headbox.total" && !(spreads[i].Standard > 0):
			t.Errorf("u(%s) is %v", r.Name, spreads[i].Standard)
		}
	}
}

// A figure that moves a result by the last digits alone gives it no root; one that
// is zero may.
func TestSpreadOfRoot(t *testing.T) {
	l, err := readText(t, read(t, quillbeck)).With("pulper.bales.moisture", "0 %")
	if err != nil {
		t.Fatal(err)
	}
	for _, test := range []struct{ figure, result, want string }{
		{"pulper.consistency", "sewer.fibre", "uncertainty of pulper.consistency: sewer.fibre does not move with it"},
		{"size.speed", "effluent-per-tonne", "uncertainty of size.speed: effluent-per-tonne does not move with it"},
		{"headbox.consistency", "sewer.fibre", ""},
		{"pulper.bales.moisture", "recovered paper.total", ""},
	} {
		at, err := l.FigureNamed(test.figure)
		if err != nil {
			t.Fatal(err)
		}
		wish := line.Wish{Result: test.result}
		wish.Uncertain.Standard = 1e-3
		spreads, err := l.Uncertainties(at, wish)
		if fmt.Sprint(err) != cmp.Or(test.want, "<nil>") {
			t.Errorf("%s by %s: %v, want %s", test.figure, test.result, err, test.want)
		}
		if test.want == "" && !(spreads[len(spreads)-1].Standard > 0) {
			t.Errorf("%s by %s: u is %v", test.figure, test.result, spreads[len(spreads)-1].Standard)
		}
	}
}

// A solution that failed is not answered with the one before it.
func TestAnswerOfFailure(t *testing.T) {
	l := readText(t, read(t, quillbeck))
	s, err := l.NewSolver()
	if err != nil {
		t.Fatal(err)
	}
	at, _ := l.FigureNamed("press.dryness")
	s.Set(at, 0.1)
	failed := s.Solve()
	if a, err := s.Answer(); failed == nil || a != nil || err != failed {
		t.Errorf("after %v the answer is %v, %v", failed, a, err)
	}
	s.Reset()
	if err := s.Solve(); err != nil {
		t.Fatal(err)
	}
	if a, err := s.Answer(); a == nil || err != nil {
		t.Errorf("solved again: %v, %v", a, err)
	}
}

// A place through which nothing flows is closed, and its streams have no dryness, whatever
// the solver solved before.
func TestNothingFlows(t *testing.T) {
	l := readText(t, read(t, quillbeck))
	s, err := l.NewSolver()
	if err != nil {
		t.Fatal(err)
	}
	for figure, streams := range map[string][]string{
		"winder.broke":         {"broke of the winder", "broke pulper"},
		"pulper.reject-rate":   {"coarse rejects"},
		"screen 2.reject-rate": {"screen rejects"},
	} {
		at, err := l.FigureNamed(figure)
		if err != nil {
			t.Fatal(err)
		}
		s.Reset()
		s.Set(at, 0)
		if err := s.Solve(); err != nil {
			t.Fatal(err)
		}
		a, err := s.Answer()
		if err != nil || a.Closure > 1e-12 {
			t.Errorf("%s = 0 %%: %+v, %v", figure, a, err)
			continue
		}
		for _, name := range streams {
			if total, dryness := value(t, a, name+".total"), value(t, a, name+".dryness"); total != 0 || dryness != 0 {
				t.Errorf("%s = 0 %%: %s is %v t/h at a dryness of %v, want nothing", figure, name, total, dryness)
			}
		}
	}
}

// Answers of one solver are the caller's: what is done to the results of one is
// nothing to another, nor to the solver.
func TestAnswersApart(t *testing.T) {
	s, err := readText(t, read(t, quillbeck)).NewSolver()
	if err != nil {
		t.Fatal(err)
	}
	a, err := s.Answer()
	if err != nil {
		t.Fatal(err)
	}
	first := a.Results[0].Name
	slices.Reverse(a.Results)
	b, err := s.Answer()
	if err != nil {
		t.Fatal(err)
	}
	if got := b.Results[0].Name; got != first || s.Results()[0].Name != first {
		t.Errorf("the first result is %s, the solver's %s, want %s", got, s.Results()[0].Name, first)
	}
}

// A line and an answer that nobody made are refused, or tell nothing.
func TestZeroLine(t *testing.T) {
	var l line.Line
	if _, err := l.Solve(); err == nil {
		t.Error("a line without stages is solved")
	}
	if texts := l.Conventions(); texts != nil {
		t.Errorf("conventions %q, want none", texts)
	}
	if _, err := l.ReadWish("headbox.consistency", "1 %"); err == nil {
		t.Error("a line without stages has a headbox")
	}
	if results := l.Results(); len(results) == 0 {
		t.Error("a line without stages tells not even what is sold")
	}
	var a line.Answer
	const want = "the answer belongs to no line"
	if _, err := a.JSON(nil); fmt.Sprint(err) != want {
		t.Errorf("JSON: %v, want %s", err, want)
	}
	if _, err := a.Steps("headbox"); fmt.Sprint(err) != want {
		t.Errorf("Steps: %v, want %s", err, want)
	}
	const noSolver = "the solver belongs to no line, want one from Line.NewSolver"
	var s line.Solver
	s.Reset()
	if _, err := s.Answer(); fmt.Sprint(err) != noSolver {
		t.Errorf("Answer: %v, want %s", err, noSolver)
	}
	if err := s.Solve(); fmt.Sprint(err) != noSolver || len(s.Results()) > 0 || len(s.Values(nil)) > 0 {
		t.Errorf("Solve: %v, want %s; results %v, want none", err, noSolver, s.Results())
	}
}

// Where a figure was solved for, it moves with the others, so that the result given
// stays: each share is what solving again beside the figure gives.
func TestSharesOfRoot(t *testing.T) {
	text := edited(t, read(t, quillbeck), "temperature = \"48 °C\"", "")
	l := readText(t, text)
	if l.Figures[0].Name != "fresh water.flow" {
		t.Fatalf("the first figure is %s", l.Figures[0].Name)
	}
	for _, test := range []struct{ solved, result, text string }{
		{"fresh water.flow", "white water.filler", "1.2e-2 ± 0.0001 %"},
		{"wire.retention.filler", "white water.consistency", "0.192 ± 0.002 %"},
	} {
		unknown, err := l.With(test.solved, "?")
		if err != nil {
			t.Fatal(err)
		}
		if unknown, err = unknown.With("headbox.consistency", "0.82 ± 0.01 %"); err != nil {
			t.Fatal(err)
		}
		a, err := l.Solve()
		if err != nil {
			t.Fatal(err)
		}
		wish, err := unknown.ReadWish(test.result, test.text)
		if err != nil {
			t.Fatal(err)
		}
		wish.Value = value(t, a, test.result)
		at, _ := unknown.FigureNamed(test.solved)
		other, _ := unknown.FigureNamed("headbox.consistency")
		// again solves with the other figure and the wish moved, nearest to the line's own.
		again := func(consistency, want float64) (float64, []float64) {
			changed, err := unknown.With("headbox.consistency", fmt.Sprintf("%.17g %%", 100*consistency))
			if err != nil {
				t.Fatal(err)
			}
			lines, err := changed.SolveFor(line.Wish{Result: wish.Result, Value: want})
			if err != nil {
				t.Fatal(err)
			}
			nearest := slices.MinFunc(lines, func(a, b *line.Line) int {
				if math.Abs(a.Figures[at].Value-l.Figures[at].Value) < math.Abs(b.Figures[at].Value-l.Figures[at].Value) {
					return -1
				}
				return 1
			})
			a, err := nearest.Solve()
			if err != nil {
				t.Fatal(err)
			}
			return nearest.Figures[at].Value, a.Values
		}
		solved, err := unknown.SolveFor(wish)
		if err != nil {
			t.Fatal(err)
		}
		spreads, err := solved[0].Uncertainties(at, wish)
		if err != nil {
			t.Fatal(err)
		}
		const h = 1e-4 // relative
		c := unknown.Figures[other].Value
		x1, low := again(c*(1-h), wish.Value)
		x2, high := again(c*(1+h), wish.Value)
		y1, less := again(c, wish.Value*(1-h))
		y2, more := again(c, wish.Value*(1+h))
		u := unknown.Figures[other].Uncertain.Standard / (2 * h * c)
		own := wish.Uncertain.Standard / (2 * h * wish.Value)
		check := func(name string, spread line.Spread, byFigure, byWish float64) {
			t.Helper()
			want := math.Hypot(byFigure, byWish)
			if !(math.Abs(spread.Standard-want) <= 1e-5*want+1e-9) {
				t.Errorf("%s from %s: u(%s) is %v, want %v", test.solved, test.result, name, spread.Standard, want)
			}
			for _, s := range spread.Shares {
				share := math.Abs(byFigure)
				if s.Name == wish.Result {
					share = math.Abs(byWish)
				}
				if !(math.Abs(s.U-share) <= 1e-5*want+1e-9) {
					t.Errorf("%s from %s: the share of %s in %s is %v, want %v", test.solved, test.result, s.Name, name, s.U, share)
				}
			}
		}
		for i, r := range l.Results() {
			check(r.Name, spreads[i], (high[i]-low[i])*u, (more[i]-less[i])*own)
		}
		check(test.solved, spreads[len(spreads)-1], (x2-x1)*u, (y2-y1)*own)
	}
}

// A flow that is wanted to be nothing is nothing, not what rounding leaves of the flows
// beside it; one that is little is told as it is.
func TestFlowOfNothing(t *testing.T) {
	for _, test := range []struct{ unknown, want string }{
		{"fresh water.flow", "sewer.total"},
		{"headbox.consistency", "white water to the headbox.total"},
		{"screen 1.consistency", "white water to the screen 1.total"},
		{"screen 2.consistency", "white water to the screen 2.total"},
		{"pulper.consistency", "white water to the pulper.total"},
		{"after-dryers.dryness", "evaporated, after-dryers.total"},
		{"press.dryness", "water of the press.total"},
	} {
		l, err := readText(t, read(t, quillbeck)).WithAll([]calc.Pair{{Name: test.unknown, Text: "?"}})
		if err != nil {
			t.Fatal(err)
		}
		for _, want := range []float64{0, 1e-6} {
			roots, err := l.SolveFor(line.Wish{Result: test.want, Value: want})
			if err != nil {
				t.Errorf("%s=? for %s=%v: %v", test.unknown, test.want, want, err)
				continue
			}
			a, err := roots[0].Solve()
			if err != nil {
				t.Fatal(err)
			}
			if x := value(t, a, test.want); x != want && !(want > 0 && math.Abs(x-want) < 1e-9) {
				t.Errorf("%s=? for %s=%v gives %v", test.unknown, test.want, want, x)
			}
			if want == 0 && test.want == "sewer.total" {
				for _, name := range []string{"effluent", "effluent-per-tonne", "effluent-load.fibre"} {
					if x := value(t, a, name); x != 0 {
						t.Errorf("%s of a mill without effluent is %v, want 0", name, x)
					}
				}
			}
		}
	}
}

// Nothing is also found at the end of what is possible, where no point of the search lies.
func TestNothingAtEdge(t *testing.T) {
	for _, test := range []struct {
		set  []calc.Pair
		want string
		root float64
	}{
		{[]calc.Pair{{Name: "wire.dryness", Text: "19.1 %"}, {Name: "press.dryness", Text: "?"}}, "water of the press.total", 0.191},
		{[]calc.Pair{{Name: "after-dryers.dryness", Text: "92.6 %"}, {Name: "size press.dryness", Text: "?"}}, "evaporated, after-dryers.total", 0.926},
	} {
		l, err := readText(t, read(t, quillbeck)).WithAll(test.set)
		if err != nil {
			t.Fatal(err)
		}
		roots, err := l.SolveFor(line.Wish{Result: test.want})
		if err != nil || len(roots) != 1 {
			t.Errorf("%s = 0: %d roots, %v, want one", test.want, len(roots), err)
			continue
		}
		i, _ := l.FigureNamed(test.set[1].Name)
		if x := roots[0].Figures[i].Value; !(math.Abs(x-test.root) < 1e-9) {
			t.Errorf("%s = 0 at %s of %v, want %v", test.want, test.set[1].Name, x, test.root)
		}
	}
}

// A tank may have nothing come to it but its make-up: all that is drawn from it is clear.
func TestOnlyMakeUp(t *testing.T) {
	text := edited(t, read(t, quillbeck), `overflow = "sewer"`, "overflow = \"sewer\"\nmake-up = \"fresh\"",
		"to   = \"white water\"\nflow = \"7.2 t/t\"", "to = \"wire\"\nflow = \"10 t/h\"", "dryness   = \"19 %\"\nwater-to  = \"white water\"", "dryness = \"19 %\"\nwater-to = \"sewer\"",
		"dryness  = \"47.5 %\"\nwater-to = \"white water\"", "dryness = \"47.5 %\"\nwater-to = \"sewer\"")
	a := solve(t, text)
	draws := 0.0
	for _, to := range []string{"pulper", "screen 1", "screen 2", "headbox", "broke pulper"} {
		draws += value(t, a, "white water to the "+to+".water")
	}
	if made := value(t, a, "make-up of the white water.total"); !nearly(made, draws) || value(t, a, "white water.consistency") != 0 || value(t, a, "overflow of the white water.total") != 0 {
		t.Errorf("%v t/h are made up, and %v drawn", made, draws)
	}
	// Clear water thins the paper that is not rejected, with its 11.5 % of moisture.
	fed, rejected, thin := value(t, a, "recovered paper.total"), value(t, a, "coarse rejects.total"), value(t, a, "white water to the pulper.total")
	if want := 0.96*0.885*fed/0.046 + rejected - fed; !nearly(thin, want) {
		t.Errorf("%v t/h thin the paper, want %v", thin, want)
	}
	// Without it nothing comes at all.
	_, err := answer(edited(t, text, "\nmake-up = \"fresh\"", ""))
	if want := "white water: nothing comes to it from outside"; err == nil || !strings.Contains(err.Error(), want) {
		t.Errorf("%v, want %s", err, want)
	}
}

// Each of two tanks in a row has an overflow and a make-up: the first takes fresh water
// and the second runs over, whatever comes to each.
func TestTanksInARow(t *testing.T) {
	text := edited(t, read(t, quillbeck), `overflow = "sewer"`, "overflow = \"clear water\"\nmake-up = \"fresh\"\n[[tank]]\nname = \"clear water\"\noverflow = \"sewer\"\nmake-up = \"fresh\"",
		"to   = \"white water\"\nflow = \"7.2 t/t\"", "to = \"clear water\"\nflow = \"7.2 t/t\"", "dryness  = \"47.5 %\"\nwater-to = \"white water\"", "dryness = \"47.5 %\"\nwater-to = \"sewer\"")
	for _, to := range []string{"white water", "clear water", "sewer"} {
		a := solve(t, edited(t, text, "dryness   = \"19 %\"\nwater-to  = \"white water\"", "dryness = \"19 %\"\nwater-to = \""+to+"\""))
		draws := 0.0
		for _, to := range []string{"pulper", "screen 1", "screen 2", "headbox", "broke pulper"} {
			draws += value(t, a, "white water to the "+to+".total")
		}
		made, comes := draws, 7.2*value(t, a, "sold.total")
		switch wire := value(t, a, "water of the wire.total"); to {
		case "white water":
			made -= wire
		case "clear water":
			comes += wire
		}
		for name, want := range map[string]float64{
			"make-up of the white water": made, "overflow of the white water": 0, "make-up of the clear water": 0, "overflow of the clear water": comes,
		} {
			if got := value(t, a, name+".total"); !nearly(got, want) {
				t.Errorf("wire to %s: %s is %v, want %v", to, name, got, want)
			}
		}
	}
}

// Valves that stand nearly shut, one behind the other, have a balance: the first lets
// through a tenth of what it does at ten times as much, and the last next to nothing.
func TestNearlyShutValves(t *testing.T) {
	third := "rejects-to = \"screen 3\"\nto = \"screen 1\"\n[[stage]]\nname = \"screen 3\"\nkind = \"screen\"\nreject-rate = \"20 %\"\nreject-consistency = \"3 %\"\n" +
		"rejects-to = \"screen rejects\"\nto = \"screen 2\""
	text := edited(t, read(t, quillbeck), "rejects-to         = \"screen rejects\"\nto                 = \"screen 1\"", third)
	for _, convention := range []string{`rejects = "dissolved matter follows the water"`, `reject-rate = "by mass of stock"`, `rejects = "as the stream they are taken from"`} {
		l := readText(t, edited(t, text, "[conventions]\n", "[conventions]\n"+convention+"\n"))
		before := math.NaN()
		for _, rate := range []string{"1e-4 %", "1e-5 %", "1e-6 %", "1e-7 %", "1e-8 %"} {
			changed, err := l.WithAll([]calc.Pair{{Name: "screen 1.reject-rate", Text: rate}, {Name: "screen 2.reject-rate", Text: rate}, {Name: "screen 3.reject-rate", Text: rate}})
			if err != nil {
				t.Fatal(err)
			}
			a, err := changed.Solve()
			if err != nil {
				t.Errorf("%s: %s: %v", convention, rate, err)
				continue
			}
			got, last := value(t, a, "rejects of the screen 1.total"), value(t, a, "screen rejects.total")
			if rate != "1e-4 %" && !(math.Abs(got/before-0.1) <= 1e-5) || !(last >= 0 && last <= 1e-12) {
				t.Errorf("%s: %s: rejects of %v t/h, and %v at ten times as much; %v t/h of the last", convention, rate, got, before, last)
			}
			before = got
		}
	}
}

// Next to nothing that comes through two valves is still split, and is no rounding of
// the flows that it is measured by.
func TestTraceIsSplit(t *testing.T) {
	l := readText(t, `
waste = ["rejects"]
effluent = ["sewer"]
[conventions]
rejects = "dissolved matter follows the water"
[[component]]
name = "fibre"
form = "suspended"
[[component]]
name = "ash"
form = "suspended"
[[component]]
name = "fines"
form = "suspended"
[size]
sold = "100 t/h"
[[tank]]
name = "white water"
overflow = "sewer"
[[water]]
name = "fresh water"
to = "white water"
flow = "500 t/h"
[[stage]]
name = "pulper"
kind = "pulper"
bales = { moisture = "12 %", ash = "13 %", fines = "13 %", fibre = "rest" }
consistency = "4 %"
water = "white water"
[[stage]]
name = "screen 1"
kind = "screen"
reject-rate = "1e-10 %"
reject-consistency = "4.2 %"
rejects-to = "screen 2"
to = "chest"
[[stage]]
name = "screen 2"
kind = "screen"
reject-rate = "1e-10 %"
reject-consistency = "5 %"
rejects-to = "rejects"
[[stage]]
name = "chest"
kind = "chest"
to = "sold"
`)
	for _, rate := range []string{"1 %", "1e-3 %", "1e-6 %", "1e-9 %", "1e-10 %", "1e-11 %"} {
		changed, err := l.WithAll([]calc.Pair{{Name: "screen 1.reject-rate", Text: rate}, {Name: "screen 2.reject-rate", Text: rate}})
		if err != nil {
			t.Fatal(err)
		}
		a, err := changed.Solve()
		if err != nil {
			t.Errorf("%s: %v", rate, err)
			continue
		}
		percent, err := strconv.ParseFloat(strings.TrimSuffix(rate, " %"), 64)
		if err != nil {
			t.Fatal(err)
		}
		r := percent / 100
		fed := 100 / (1/0.04 - r*r/0.05) // dry: what is sold is the stock without the last rejects
		want := r * fed / 0.042
		if got := value(t, a, "rejects of the screen 1.total"); !(math.Abs(got/want-1) <= 1e-9) {
			t.Errorf("%s: rejects of %v t/h, want %v", rate, got, want)
		}
	}
}

// A tank of which a shut valve holds back all water stands still, and is clear.
func TestTankStandsStill(t *testing.T) {
	text := edited(t, read(t, quillbeck), "[[water]]", "[[tank]]\nname = \"clear water\"\noverflow = \"sewer\"\nmake-up = \"fresh\"\n[[water]]",
		"consistency        = \"2.0 %\"\nwater              = \"white water\"", "consistency = \"2.0 %\"\nwater = \"clear water\"")
	l := readText(t, text)
	points, err := l.Range("screen 1.reject-rate", []float64{0.14, 0, 1e-12, 0.14})
	if err != nil {
		t.Fatal(err)
	}
	i, err := line.ResultNamed(l.Results(), "clear water.through")
	if err != nil {
		t.Fatal(err)
	}
	shut, err := l.With("screen 1.reject-rate", "0 %")
	if err != nil {
		t.Fatal(err)
	}
	a, err := shut.Solve()
	if err != nil {
		t.Fatal(err)
	}
	w, err := a.Steps("clear water")
	if err != nil || slices.ContainsFunc(w.Steps, func(s line.Step) bool { return s.Value != 0 }) {
		t.Errorf("worked solution: %v, %v", w.Steps, err)
	}
	for _, p := range points {
		switch {
		case p.Err != nil:
			t.Fatalf("%v: %v", p.Figure, p.Err)
		case (p.Values[i] != 0) != (p.Figure > 0):
			t.Errorf("%v: %v t/h flow through the tank", p.Figure, p.Values[i])
		}
	}
}

// Three tanks make up for each other. As their loops fill, which of them run over changes
// until one pass is far from any balance; Newton's method finds it from the second.
func TestTanksMakeUpForEachOther(t *testing.T) {
	a := solve(t, `waste = ["rejects"]
effluent = ["sewer"]
[[component]]
name = "fibre"
form = "suspended"
[[component]]
name = "salt"
form = "dissolved"
[[component]]
name = "fines"
form = "suspended"
[size]
sold = "840.32 t/d"
[[tank]]
name = "white water"
make-up = "cloudy"
[[tank]]
name = "cloudy"
overflow = "sewer"
make-up = "clear"
[[tank]]
name = "clear"
overflow = "sewer"
[[water]]
name = "to save-all"
to = "save-all"
flow = "1228.4 t/d"
[[water]]
name = "fresh in"
to = "clear"
flow = "7606 kg/t"
[[stage]]
name = "pulper 1"
kind = "pulper"
bales = { moisture = "0.063304 g/g", salt = "12.779 %", fines = "6.985 %", fibre = "rest" }
consistency = "0.036738 g/g"
water = "white water"
share = "25.783 %"
[[stage]]
name = "screen 1-1"
kind = "screen"
reject-rate = "0.21051 g/g"
reject-consistency = "6.6455 %"
rejects-to = "screen 1-2"
to = "chest 1"
[[stage]]
name = "screen 1-2"
kind = "screen"
reject-rate = "18.381 %"
reject-consistency = "3.1514 %"
rejects-to = "rejects"
[[stage]]
name = "pulper 2"
kind = "pulper"
bales = { moisture = "0.081725 g/g", salt = "3.5094 %", fines = "12.974 %", fibre = "rest" }
consistency = "5.4016 %"
water = "clear"
[[stage]]
name = "thickener 2"
kind = "thickener"
consistency = "9.6461 %"
water-to = "cloudy"
capture = { fibre = "0.51983 g/g" }
to = "chest 2"
[[stage]]
name = "save-all"
kind = "save-all"
consistency = "2.8333 %"
water-to = "clear"
[[stage]]
name = "chest 1"
kind = "chest"
[[stage]]
name = "headbox 1"
kind = "headbox"
consistency = "0.0042453 g/g"
water = "white water"
[[stage]]
name = "wire 1"
kind = "wire"
retention = { fibre = "59.716 %", fines = "72.241 %" }
dryness = "0.20043 g/g"
water-to = "clear"
[[stage]]
name = "chest 2"
kind = "chest"
[[stage]]
name = "winder"
kind = "winder"
to = "sold"
`)
	if !(a.Closure <= 1e-12) {
		t.Errorf("the balance closes to %v", a.Closure)
	}
	for _, st := range a.Streams {
		if st.Total < 0 || slices.Min(st.Flows) < 0 {
			t.Errorf("%s: %v, %v", st.Name, st.Total, st.Flows)
		}
	}
	for name, want := range map[string]float64{"overflow of the cloudy": 0, "make-up of the white water": value(t, a, "white water to the pulper 1.total") + value(t, a, "white water to the headbox 1.total")} {
		if got := value(t, a, name+".total"); !nearly(got, want) {
			t.Errorf("%s is %v, want %v", name, got, want)
		}
	}
}

// A valve may be shut: what follows it stands still, whatever rejects are made up of,
// and all else is as with a valve that lets next to nothing through.
func TestShutValve(t *testing.T) {
	text := read(t, quillbeck)
	press := "[[stage]]\nname = \"sludge press\"\nkind = \"thickener\"\nconsistency = \"30 %\"\nwater-to = \"white water\"\nto = \"screen rejects\"\n\n[[stage]]\nname = \"machine chest\"\n"
	text = strings.Replace(edited(t, text, `rejects-to         = "screen rejects"`, `rejects-to = "sludge press"`), "[[stage]]\nname = \"machine chest\"\n", press, 1)
	for _, convention := range []string{`rejects = "dissolved matter follows the water"`, `reject-rate = "by mass of stock"`, `rejects = "as the stream they are taken from"`} {
		text := edited(t, text, "[conventions]\n", "[conventions]\n"+convention+"\n")
		l, err := line.Read("test.toml", strings.NewReader(text))
		if err != nil {
			t.Fatal(err)
		}
		points, err := l.Range("screen 1.reject-rate", []float64{0, 1e-12, 0.1, 0, 0.1})
		if err != nil {
			t.Fatal(err)
		}
		results := l.Results()
		for i, p := range points {
			if p.Err != nil {
				t.Fatalf("%s: point %d: %v", convention, i+1, p.Err)
			}
		}
		for i := range results {
			name := results[i].Name
			shut, barely, open := points[0].Values[i], points[1].Values[i], points[2].Values[i]
			still := strings.HasPrefix(name, "rejects of the screen") || strings.Contains(name, "screen 2.") || strings.Contains(name, "sludge press") || strings.HasPrefix(name, "screen rejects")
			if still && shut != 0 {
				t.Errorf("%s: %s is %v behind a shut valve", convention, name, shut)
			}
			if !still && !(math.Abs(shut-barely) <= 1e-9*max(math.Abs(shut), 1)) {
				t.Errorf("%s: %s is %v, and %v with the valve next to shut", convention, name, shut, barely)
			}
			if points[3].Values[i] != shut || !(math.Abs(points[4].Values[i]-open) <= 1e-12*max(math.Abs(open), 1)) {
				t.Errorf("%s: %s is %v and %v, and after other points %v and %v", convention, name, shut, open, points[3].Values[i], points[4].Values[i])
			}
		}
	}
}

// A water may be given as a flow or per tonne sold, whichever it has now.
func TestUnitsOfWater(t *testing.T) {
	const want = `fresh water.flow "100 m3/h": "m3/h" is no unit of mass flow, want t/h or kg/h (multiply a volume flow by the density, that of water is about 1 t/m3); or t/t, per tonne sold`
	for _, now := range []string{"7.2 t/t", "100 t/h"} {
		l := readText(t, edited(t, read(t, quillbeck), "7.2 t/t", now))
		if _, err := l.With("fresh water.flow", "100 m3/h"); err == nil || err.Error() != want {
			t.Errorf("%s: %v\nwant %s", now, err, want)
		}
	}
}

// What the file does not tell is told with the result where it is taken for something:
// that the line never stops (common practice, no source: every line does), and densities.
func TestDefaultsAreSaid(t *testing.T) {
	const always = "the line never stops, as no running is given under [mill]"
	fibre, filler := "volume flows take fibre as 1500 kg/m3, as no density is given", "volume flows take filler as 2700 kg/m3, as no density is given"
	text := read(t, quillbeck)
	for _, test := range []struct {
		from, to string
		want     []string
	}{
		{"", "", []string{fibre}},
		{`running = "91 %"`, "", []string{fibre, always}},
		{`density = "2700 kg/m3"`, "", []string{fibre, filler}},
		{"name    = \"fibre\"\n", "name    = \"fibre\"\ndensity = \"1500 kg/m3\"\n", nil},
		{`temperature = "48 °C"`, "", nil},
	} {
		changed := text
		if test.from != "" {
			changed = edited(t, text, test.from, test.to)
		}
		said := readText(t, changed).Conventions()[11:] // behind those that a file may change
		if !slices.Equal(said, test.want) {
			t.Errorf("%q for %q: %q, want %q", test.to, test.from, said, test.want)
		}
	}
}
