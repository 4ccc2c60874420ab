package main

import (
	"math"
	"os"
	"path/filepath"
	"slices"
	"strings"
	"testing"

	"millmaths.example/paperprop/calc"
)

// curveOf draws a range and returns the picture.
func curveOf(t *testing.T, command string) string {
	t.Helper()
	file := filepath.Join(t.TempDir(), "curve.svg")
	r := called("", append(words(command), "--plot", file)...)
	data, err := os.ReadFile(file) // a point that is refused is a gap, and exit status 1
	if err != nil || r.Status == misused {
		t.Fatalf("%s: exit %d: %s", command, r.Status, r.Err)
	}
	return string(data)
}

// What can be drawn of a range is: a count is dots, a piece of one point is one, and
// an output that is absent leaves a gap and is no zero.
func TestPicturesOfRanges(t *testing.T) {
	const curve, dot = `stroke-width="1.5"`, `stroke-width="3"`
	for _, test := range []struct {
		command      string
		curves, dots int
	}{
		{`range-factor --count 2..7`, 0, 6},
		{`stacking --box-compression "2.06 kN" --mass "8.4 kg" --layers 1..8 --multiplier "[0.6 0.8 0.85]"`, 0, 7},
		{`dilution --mass-flow "300 t/h" --consistency-in "4 %" --consistency-out "3..5 % by 1 %"`, 1, 0},
		{`mean-interval --mean "2.34 kN/m" --standard-deviation "0.09 kN/m" --count 5..20 --confidence "95 %"`, 0, 8},
	} {
		picture := curveOf(t, test.command)
		if curves, dots := strings.Count(picture, curve), strings.Count(picture, dot); curves != test.curves || dots != test.dots {
			t.Errorf("%s: %d curves, %d dots, want %d, %d", test.command, curves, dots, test.curves, test.dots)
		}
	}
	r := called("", "humid-air", "--temperature", "20 degC", "--relative-humidity", "0..20 %", "--of", "dew-point", "--plot", filepath.Join(t.TempDir(), "a.svg"))
	if want := "dew-point is absent all along the range, --of names another output: humidity-ratio, vapour-pressure,"; r.Status != misused || !strings.Contains(r.Err, want) {
		t.Errorf("exit %d: %s, want %s", r.Status, r.Err, want)
	}
}

// A file that no picture can be drawn to is refused before any work: before a file is
// opened, or a calculation finds its inputs missing.
func TestPlotIsRefusedFirst(t *testing.T) {
	for _, command := range []string{
		"trim none.csv", "trim none.toml", "line none.toml", "line none.toml --set size.speed=?", "making none.toml", "dilution", "propagate --model y=1/",
	} {
		r := called("", append(words(command), "--plot", "x.gif")...)
		if want := "millmaths: --plot x.gif, want a file that ends in .svg or .png\n"; r.Status != misused || r.Err != want || r.Out != "" {
			t.Errorf("%s --plot x.gif: exit %d: %s%s\nwant %s", command, r.Status, r.Out, r.Err, want)
		}
	}
}

// A title has its units in print, as the axes have; a word stands as it is typed.
func TestTitleInPrint(t *testing.T) {
	for _, test := range []struct{ command, want string }{
		{`humid-air --temperature "84 degC" --wet-bulb "40..84 degC"`, ">humidity-ratio at temperature 84 °C,<"},
		{`free-air --volume-flow "6000 m3/h" --vacuum "0..80 kPa" --temperature "-5 degC"`, ">temperature −5 °C, atmospheric-pressure 1.01325 bar(a)<"},
		{`basis-weight --grammage "100..130 g/m2" --ream ft2-1000`, ">basis-weight at ream ft2-1000<"},
	} {
		if picture := curveOf(t, test.command); !strings.Contains(picture, test.want) {
			t.Errorf("%s: want %s in %s", test.command, test.want, picture)
		}
	}
}

// A number in a table has all its digits: what is cut off it is its unit, and a pure
// number has none. 840.48 N bear 10.2 boxes of 8.4 kg above the one that carries them.
func TestNumbersOfARange(t *testing.T) {
	const stack = `stacking --box-compression "2.06 kN" --layers 8 --multiplier "[0.6 0.8 0.85]" --mass "7.6..8.4 kg by 0.8 kg"`
	for _, test := range []struct{ command, want string }{
		{stack, "8.4   576.631  0.408             840.48        3.57248        11\n"},
		{stack + " --csv", "\n8.4,576.631,0.408,840.48,3.57248,11\n"},
		{`stack-layers --stack-height "300..600 mm by 300 mm" --box-height "300 mm" --csv`, "stack-height [mm],layers\n300,1\n600,2\n"},
	} {
		if r := called("", words(test.command)...); r.Status != done || !strings.Contains(r.Out, test.want) {
			t.Errorf("%s: exit %d, got %s, want in it %q", test.command, r.Status, r.Out, test.want)
		}
	}
}

func TestPieces(t *testing.T) {
	w := &swept{
		input: &calc.Cell{Field: &calc.Field{Name: "x"}},
		cells: []*calc.Cell{{Field: &calc.Field{Name: "y"}}},
		xs:    []float64{0, 1, 2, 3, 4, 5},
	}
	for _, y := range []float64{1, math.NaN(), 3, 4, math.NaN(), math.NaN()} {
		w.points = append(w.points, sweptPoint{numbers: []float64{y}})
	}
	w.points[5] = sweptPoint{refused: errReported}
	p := w.picture(0)
	if len(p.Marks) != 1 || p.Marks[0].X != 0 || len(p.Curves) != 1 || !slices.Equal(p.Curves[0].X, []float64{2, 3}) {
		t.Errorf("marks %v, curves %v, want the point at 0, and a curve from 2 to 3", p.Marks, p.Curves)
	}
	steps := curveThrough([]point{{0, 1}, {1, 1}, {2, 3}}, true)
	if !slices.Equal(steps.X, []float64{0, 1, 1.5, 1.5, 2}) || !slices.Equal(steps.Y, []float64{1, 1, 1, 3, 3}) {
		t.Errorf("a step is drawn through %v, %v", steps.X, steps.Y)
	}
}

// No label of a reel stands across one of its rings: the outside has room for its own,
// the core is told in the title.
func TestPictureOfAReel(t *testing.T) {
	svg := curveOf(t, `reel --diameter "1250 mm" --core-diameter "100 mm" --reel-thickness "186 um"`)
	for _, want := range []string{">reel of 6556 m on a core of 100 mm: each ring holds a fifth</text>", ">of it</text>", ">1250</text>"} {
		if !strings.Contains(svg, want) {
			t.Errorf("%s is not in\n%s", want, svg)
		}
	}
	if strings.Contains(svg, ">core 100</text>") {
		t.Error("the core has a label across a ring")
	}
}

// A range of counts is told without a unit, and what it refuses beside the table, be
// it of one column.
func TestRangeOfCounts(t *testing.T) {
	r := called("", "range-factor", "--count", "0..25")
	if strings.Contains(r.Out, "refused") || !strings.Contains(r.Err, "count = 0: refused: count is 0, want") || !strings.Contains(r.Err, "the range ends at 24: its step does not lead to the end") {
		t.Error(r.Err)
	}
}

// Numbers of an axis are told apart, and a level line at nought has an axis that
// can be read.
func TestNumbersOfAnAxis(t *testing.T) {
	for _, test := range []struct {
		values []float64
		want   string
	}{
		{[]float64{100000.1, 100000.5}, "100000.1 100000.2 100000.3 100000.4 100000.5"},
		{[]float64{0, 0.3}, "0 0.1 0.2 0.3"},
		{[]float64{5e6, 2e7}, "5000000 10000000 15000000 20000000"},
		{[]float64{0, 0}, "-1 -0.5 0 0.5 1"},
		{[]float64{2e-5, 4e-5}, "0.00002 0.000025 0.00003 0.000035 0.00004"},
	} {
		if got := strings.Join(newAxis(test.values, 5).numbers(), " "); got != test.want {
			t.Errorf("an axis for %v has %s, want %s", test.values, got, test.want)
		}
	}
}

func TestTitleLines(t *testing.T) {
	for _, test := range []struct {
		title string
		want  []string
	}{
		{"factor at count 3", []string{"factor at count 3"}},
		{"fewest-reels at reel-width 1080 mm, least-diameter 1150 mm, most-diameter 1250 mm",
			[]string{"fewest-reels at reel-width 1080 mm, least-diameter 1150 mm,", "most-diameter 1250 mm"}},
		{"fewest-reels at reel-width 1080 mm, least-diameter 1150 mm, most-diameter 1250 mm, core-diameter 100 mm, roll-density 645 kg/m3",
			[]string{"fewest-reels at reel-width 1080 mm, least-diameter 1150 mm,", "most-diameter 1250 mm, core-diameter 100 mm,", "roll-density 645 kg/m3"}},
		{"mean at mass [612 588 745 530 612 588 745 530 612 588] kg, moisture 9.4 %",
			[]string{"mean at mass [612 588 745 530 612 588 745 530 612 588] kg,", "moisture 9.4 %"}},
		{"y at [" + strings.Repeat("612 ", 140) + "588] kg, w 9 %", slices.Concat(
			[]string{"y at [" + strings.Repeat("612 ", 12) + "612"}, slices.Repeat([]string{strings.Repeat("612 ", 14) + "612"}, 6), []string{strings.Repeat("612 ", 14) + "612…"})},
		{"coverage-factor at standard-uncertainty 32\u00a0nm, confidence 99\u00a0%, rule truncate",
			[]string{"coverage-factor at standard-uncertainty 32 nm,", "confidence 99 %, rule truncate"}},
		{"y at [" + strings.Repeat("612 ", 13) + "588]\u00a0kg",
			[]string{"y at [" + strings.Repeat("612 ", 12) + "612", "588] kg"}},
		{strings.Repeat("x", 70), []string{strings.Repeat("x", 59) + "…"}},
	} {
		if got := titleLines(test.title); !slices.Equal(got, test.want) {
			t.Errorf("%q is broken into %q, want %q", test.title, got, test.want)
		}
	}
}

// A picture is as much higher as its title has lines above two, and no line is lost:
// defaults stand in it too.
func TestLongTitleMakesRoom(t *testing.T) {
	for _, test := range []struct{ command, size, last string }{
		{`dilution --mass-flow "300 t/h" --consistency-in "4 %" --consistency-out "3..3.5 %" --water-consistency "0 %"`, `viewBox="0 0 480 320"`, `y="24.00" text-anchor="start">water-consistency 0 %<`},
		{`dryer-steam --paper-flow "15.12 t/h" --dryness-in "45..50 %" --moisture-out "7.5 %" --temperature-in "46 degC" --evaporation-temperature "82 degC" --temperature-out "97 degC" --fibre-heat-capacity "1.4 kJ/(kg K)" --other-heat-share "15 %" --gauge-pressure "3.2 bar(g)"`,
			`viewBox="0 0 480 386"`, `y="90.00" text-anchor="start">atmospheric-pressure 1.01325 bar(a)<`},
	} {
		if got := curveOf(t, test.command); !strings.Contains(got, test.size) || !strings.Contains(got, test.last) {
			t.Errorf("%s: want %s and %s in\n%s", test.command, test.size, test.last, got)
		}
	}
}

// A label that a curve would run through moves to a corner where none does; where all
// are run through it stays at the first with room. Labels keep a gap.
func TestLabelsKeepClear(t *testing.T) {
	for _, test := range []struct {
		picture *calc.Picture
		want    []string // where a label stands
	}{
		// The mark lies on a curve that falls from the left: above it on the right is room.
		{&calc.Picture{X: calc.Axis{To: 10}, Y: calc.Axis{To: 10}, Curves: []calc.Curve{{X: []float64{0, 5}, Y: []float64{8, 5}}}, Marks: []calc.Mark{{Label: "mark", X: 5, Y: 5}}},
			[]string{`<text x="272.00" y="147.00" text-anchor="start">mark<`}},
		// Nothing is drawn beside it: above it on the left.
		{&calc.Picture{X: calc.Axis{To: 10}, Y: calc.Axis{To: 10}, Marks: []calc.Mark{{Label: "mark", X: 5, Y: 5}}},
			[]string{`<text x="262.00" y="147.00" text-anchor="end">mark<`}},
	} {
		c := newSVG(pictureWidth, pictureHeight)
		drawOn(c, test.picture)
		for _, want := range test.want {
			if !strings.Contains(c.b.String(), want) {
				t.Errorf("want %s in\n%s", want, c.b.String())
			}
		}
	}
	b := box{10, 10, 20, 20}
	for _, test := range []struct {
		line []point
		want bool
	}{
		{[]point{{0, 0}, {30, 30}}, true}, {[]point{{0, 15}, {30, 15}}, true}, {[]point{{15, 0}, {15, 12}}, true},
		{[]point{{0, 0}, {30, 5}}, false}, {[]point{{0, 25}, {30, 25}}, false}, {[]point{{0, 18}, {8, 30}, {40, 40}}, false},
		{[]point{{12, 12}, {12, 12}}, true}, {[]point{{15, 15}}, false}, {nil, false},
	} {
		if got := b.crossed(test.line); got != test.want {
			t.Errorf("%v runs through %v: %v, want %v", test.line, b, got, test.want)
		}
	}
}

// An axis has its unit as people print it, and its name as it is.
func TestTypesetUnit(t *testing.T) {
	for label, want := range map[string]string{
		"grammage [g/m2]": "grammage [g/m²]", "temperature [degC]": "temperature [°C]", "tank2 [um]": "tank2 [µm]", "h2": "h2", "": "",
	} {
		if got := typesetUnit(label); got != want {
			t.Errorf("%q becomes %q, want %q", label, got, want)
		}
	}
}

// Below a slitting plan stands what is white in it: fillers only where there are some.
func TestTrimLegend(t *testing.T) {
	for _, test := range []struct {
		filler []string
		legend string
	}{
		{nil, ">widths in mm; left: times; right: trim, the empty ends<"},
		{[]string{"--filler", "200 mm"}, ">widths in mm; left: times; right: trim; white reels: filler<"},
	} {
		file := filepath.Join(t.TempDir(), "plan.svg")
		args := append([]string{"trim", "-", "--deckle", "3300 mm", "--plot", file}, test.filler...)
		r := called("width [mm],reels\n1450,4\n", args...)
		data, err := os.ReadFile(file)
		if err != nil {
			t.Fatalf("exit %d: %s", r.Status, r.Err)
		}
		if !strings.Contains(string(data), test.legend) {
			t.Errorf("%v: the picture lacks %q: %s", test.filler, test.legend, data)
		}
	}
}
