package main

import (
	"bytes"
	"encoding/csv"
	"encoding/json"
	"fmt"
	"image/png"
	"math"
	"os"
	"path/filepath"
	"regexp"
	"slices"
	"strconv"
	"strings"
	"testing"
)

const quillbeckLine = "../../examples/quillbeck/harebell-120.toml"

// The printed table has every figure that the mill's balance was told with, to
// all its digits. They prove that the file is read as it is meant.
func TestLineTable(t *testing.T) {
	r := called("", "line", quillbeckLine)
	if r.Status != done || withoutCautions(r.Err) != "" {
		t.Fatalf("exit %d: %s", r.Status, r.Err)
	}
	rows := map[string][]string{}
	for _, row := range strings.Split(r.Out, "\n") {
		if row == "Volume flows" {
			break
		}
		// A name of two lines has its numbers on the second.
		if fields := strings.Fields(row); len(fields) > 6 && !strings.HasPrefix(row, "  ") {
			rows[strings.Join(fields[:len(fields)-6], " ")] = fields[len(fields)-6:]
		}
	}
	for _, test := range []string{
		"recovered paper      15.4937   11.9294 1.5083 0.2742 1.7818",
		"coarse rejects       0.9457    0.4772  0.0603 0.0110 0.3972",
		"screen rejects       17.4534   0.3425  0.0571 0.0194 17.0346",
		"headbox              2165.086  13.3682 2.9725 1.4130 2147.332",
		"sheet off the press  28.3056   11.7640 1.4268 0.2543 14.8604",
		"size solution        5.6932    0       0      0.5409 5.1524",
		"evaporated, dryers        14.3002 0 0 0 14.3002",
		"evaporated, after-dryers  4.5786  0 0 0 4.5786",
		"reel                 15.1200   11.7640 1.4268 0.7952 1.1340",
		"sewer                72.0284   0.0516  0.0497 0.0373 71.8898",
	} {
		want := strings.Fields(test)
		name := strings.Join(want[:len(want)-5], " ")
		got, ok := rows[name]
		if !ok {
			t.Errorf("no row %q", name)
			continue
		}
		for i, w := range want[len(want)-5:] {
			if !strings.HasPrefix(got[i], w) {
				t.Errorf("%s: column %d is %s, want %s", name, i+1, got[i], w)
			}
		}
	}
	for _, want := range []string{
		"102.332 t/h", "0.192423 %", "1.09012 kg/kg", "91.9343 %", "4.29252 g/m2", "23.6572 kg/(h m2)", "25.6752 t/h", "9.45674 d",
		"consistency counts everything but water", "closes to less than 1e-12 over the mill",
	} {
		if !strings.Contains(r.Out, want) {
			t.Errorf("the output lacks %q", want)
		}
	}
	for i, row := range strings.Split(r.Out, "\n") {
		if len([]rune(row)) > 80 {
			t.Errorf("line %d has %d columns: %s", i+1, len([]rune(row)), row)
		}
	}
}

func TestLineRefused(t *testing.T) {
	for _, test := range []struct {
		args   []string
		status int
		want   string
	}{
		{[]string{"../../examples/quillbeck/harebell-120-impossible.toml"}, failed, "press: dryness is 17.5 %: the press would wet the sheet, which comes in at 19 %"},
		{[]string{quillbeckLine, "--set", "headbox.consistensy=0.8 %"}, misused, "near: headbox.consistency"},
		{[]string{quillbeckLine, "--set", "headbox.consistency=0.8"}, failed, "unit missing"},
		{[]string{quillbeckLine, "--set", "headbox.consistency"}, misused, `--set "headbox.consistency", want FIGURE="VALUE"`},
		{[]string{quillbeckLine, "--set", "=0.7..0.9 %"}, misused, `--set "=0.7..0.9 %", want FIGURE="VALUE"`},
		{[]string{quillbeckLine, "--set", "headbox.consistency=0.8 %", "--set", " headbox.consistency = 0.9 %"}, misused,
			`--set headbox.consistency is given twice: "0.8 %" and "0.9 %", want one`},
		{[]string{quillbeckLine, "--set", "headbox.consistency=0.8 %", "--set", "headbox.consistency=0.7..0.9 %"}, misused, "is given twice"},
		{[]string{quillbeckLine, "--set", "size.reel=13..14 t/h", "--set", "size.speed=600 m/min"}, failed,
			"size is fixed by size.reel = 13..14 t/h and size.speed = 600 m/min at once: give one, and the others follow"},
		{[]string{quillbeckLine, "--set", "size.reel=13..14 m/min"}, failed, `size.reel "13..14 m/min"`},
		{[]string{quillbeckLine, "--set", "size.reel=13 t/h", "--set", "size.speed=600 m/min"}, failed,
			"size is fixed by size.reel = 13 t/h and size.speed = 600 m/min at once: give one, and the others follow"},
		{[]string{quillbeckLine, "--set", "headbox.consistency=?"}, failed, "headbox.consistency is ?"},
		{[]string{quillbeckLine, "--want", "steam=20 t/h"}, failed, "too many figures"},
		{[]string{quillbeckLine, "--set", "wire.dryness=?", "--want", "steam=20 t/h"}, failed, "no value gives steam 20 t/h"},
		{[]string{quillbeckLine, "--json", "--csv"}, misused, "want one of"},
		{[]string{}, misused, "takes one file"},
		{[]string{quillbeckLine, "--steps", "presss"}, misused, `has no stage or tank "presss", near: press`},
		{[]string{quillbeckLine, "--steps", "nosuch"}, misused, `has no stage or tank "nosuch", want one of pulper, screen 1,`},
		{[]string{quillbeckLine, "--steps"}, misused, "want a stage or tank, one of pulper, screen 1,"},
		{[]string{quillbeckLine, "--json", "--steps"}, misused, "want one of"},
		{[]string{quillbeckLine, "--of", "nonsense"}, misused, `no result "nonsense"`},
		{[]string{quillbeckLine, quillbeckLine, "--of", "yeild"}, misused, "near: yield"},
		{[]string{quillbeckLine, "--of", "steam"}, misused, `--of steam is for the table of a range: give a figure as one, --set FIGURE="0.7..0.9 %"`},
		{[]string{quillbeckLine, quillbeckLine, "--of", "steam"}, misused, "--of steam is for the table of a range"},
		{[]string{quillbeckLine, "--want", "steam=20 t/h", "--want", "yield=90 %"}, misused, `line: --want "yield=90 %": given twice: "steam=20 t/h" and "yield=90 %", want one`},
		{[]string{quillbeckLine, "--steps", "press", "--steps", "wire"}, misused, `given twice: "press" and "wire", want one`},
		{[]string{"../../examples/quillbeck/order-book.toml"}, failed, "order-book.toml:43: grade belongs to an order book, want the file of a line; millmaths making takes order books\n"},
		{[]string{"no.toml"}, failed, "no.toml"},
		{[]string{quillbeckLine, "--plot", "x.gif"}, misused, "want a file that ends in .svg or .png"},
	} {
		r := called("", append([]string{"line"}, test.args...)...)
		if r.Status != test.status || !strings.Contains(r.Err, test.want) {
			t.Errorf("line %q: exit %d, %s\nwant %d, %s", test.args, r.Status, r.Err, test.status, test.want)
		}
	}
}

// Doubts about the uncertainties of a line are told in each form.
func TestLineDoubtsAreTold(t *testing.T) {
	args := []string{"line", quillbeckLine, "--set", "wire.retention.filler=95 ± 4 %"}
	const text = "wire.retention.filler: the uncertainty reaches values"
	for _, form := range []string{"", "--csv", "--steps=wire"} {
		if r := called("", append(args, strings.Fields(form)...)...); r.Status != done || strings.Count(r.Err, "\nwarning: spread-refused: "+text) != 1 {
			t.Errorf("%s: exit %d: %s", form, r.Status, r.Err)
		}
	}
	if r := called("", append(args, "--json")...); r.Err != "" || !strings.Contains(r.Out, `"warnings":[{"code":"spread-refused","text":"`+text) {
		t.Errorf("--json: %s%s", r.Out, r.Err)
	}
}

// A figure that is solved for has its uncertainty in each form, from that of the result
// given and of the other figures.
func TestLineSolvedUncertain(t *testing.T) {
	args := []string{"line", quillbeckLine, "--set", "wire.retention.filler=?", "--want", "white water.consistency=0.2 ± 0.004 %"}
	r := called("", append(args, "--json")...)
	var told struct {
		Figures map[string]struct{ Value, U float64 }
		Results map[string]struct{ Value, U float64 }
	}
	if err := json.Unmarshal([]byte(r.Out), &told); err != nil || r.Status != done {
		t.Fatalf("exit %d: %v\n%s%s", r.Status, err, r.Out, r.Err)
	}
	f, given := told.Figures["wire.retention.filler"], told.Results["white water.consistency"]
	if math.Abs(given.Value-0.2) > 1e-12 || math.Abs(given.U-0.004) > 1e-12 {
		t.Errorf("the result given is %v ± %v", given.Value, given.U)
	}
	// By how much the figure moves where the result given is so much more.
	more := called("", "line", quillbeckLine, "--set", "wire.retention.filler=?", "--want", "white water.consistency=0.2001 %", "--csv")
	name, value, _ := strings.Cut(strings.Split(more.Out, "\n")[1], ",")
	value, _, _ = strings.Cut(value, ",")
	moved, err := strconv.ParseFloat(value, 64)
	if err != nil || name != "wire.retention.filler" {
		t.Fatalf("%s: %v", more.Out, err)
	}
	if u := math.Abs(moved-f.Value) / 0.0001 * 0.004; math.Abs(f.U/u-1) > 0.01 {
		t.Errorf("%v ± %v, want ± %v", f.Value, f.U, u)
	}
	for _, form := range []string{"--csv", "--full"} {
		if r := called("", append(args, form)...); r.Status != done || !strings.Contains(r.Out, strings.TrimRight(fmt.Sprintf("%.1f", f.U), "0")) {
			t.Errorf("%s: exit %d, u = %v is not told\n%s", form, r.Status, f.U, r.Err)
		}
	}
}

// The status of an error does not depend on the form in which it is told.
func TestStatusOfJSON(t *testing.T) {
	for _, test := range []struct {
		args   []string
		status int
	}{
		{[]string{"line", quillbeckLine, "--set", "headbox.consistency"}, misused},
		{[]string{"line", quillbeckLine, "--set", "headbox.consistensy=0.8 %"}, misused},
		{[]string{"line", quillbeckLine, "--want", "yield"}, misused},
		{[]string{"line", quillbeckLine, "--want", "yeild=90 %"}, misused},
		{[]string{"line", quillbeckLine, "--of", "nonsense"}, misused},
		{[]string{"line", quillbeckLine, "--set", "headbox.consistency=0.8"}, failed},
		{[]string{"line", "no.toml"}, failed},
		{[]string{"making", orderBook, "--set", "uptime"}, misused},
		{[]string{"making", orderBook, "--set", "uptime=0"}, failed},
		{[]string{"making", "no.toml"}, failed},
	} {
		for _, args := range [][]string{test.args, append(test.args, "--json")} {
			r := called("", args...)
			asked := slices.Contains(args, "--json")
			if told := strings.HasPrefix(r.Out, `{"calculation":"`+args[0]+`",`); r.Status != test.status || told != asked {
				t.Errorf("%q: exit %d, want %d\n%s%s", args, r.Status, test.status, r.Out, r.Err)
			}
		}
	}
}

// What programs read: streams at the top, each with total, components, dryness.
func TestLineJSON(t *testing.T) {
	r := called("", "line", quillbeckLine, "--json", "--set", "headbox.consistency=0.82 ± 0.01 %")
	var answer struct {
		Streams []map[string]json.RawMessage
		Results map[string]struct {
			Value, U float64
			Unit     string
		}
	}
	if err := json.Unmarshal([]byte(r.Out), &answer); err != nil {
		t.Fatal(err)
	}
	if len(answer.Streams) < 20 {
		t.Fatalf("%d streams", len(answer.Streams))
	}
	for _, s := range answer.Streams {
		for _, key := range []string{"total", "fibre", "filler", "starch", "water", "dryness"} {
			var v struct {
				Value *float64
				Unit  string
			}
			if err := json.Unmarshal(s[key], &v); err != nil || v.Value == nil || v.Unit == "" {
				t.Errorf("%s.%s is %s", s["name"], key, s[key])
			}
		}
	}
	if v := answer.Results["white water.consistency"]; v.Unit != "%" || v.U <= 0 {
		t.Errorf("white water.consistency is %+v, want a unit and u", v)
	}
	r = called("", "line", quillbeckLine, "--json", "--set", "wire.retention.filler=?", "--want", "white water.consistency=9 %")
	if want := `"error":{"code":"no-root","input":"wire.retention.filler","text":"`; r.Status != failed || !strings.Contains(r.Out, want) || r.Err != "" {
		t.Errorf("no value of a figure: exit %d: %s%s, want %s", r.Status, r.Out, r.Err, want)
	}
	r = called("", "line", "../../examples/quillbeck/harebell-120-impossible.toml", "--json")
	if r.Status != failed || !json.Valid([]byte(r.Out)) || !strings.Contains(r.Out, `"error"`) {
		t.Errorf("an impossible line gives exit %d and %s", r.Status, r.Out)
	}
}

func TestLineFaces(t *testing.T) {
	for _, test := range []struct {
		args []string
		want string
	}{
		{[]string{"--csv"}, "headbox.total,2165.08"},
		{[]string{"--steps", "headbox"}, "w = (d - c*q)/(c - c_w)"},
		{[]string{"--set", "wire.retention.filler=?", "--want", "white water.consistency=0.192423 %"}, ", solved for from white water.consistency"},
		{[]string{"--set", "headbox.consistency=0.7..0.9 % by 0.1 %", "--of", "white water.consistency"}, "0.8                      0.1"},
		{[]string{"--set", "size.reel=10..12 t/h by 1 t/h", "--of", "production"}, "\n11               11\n"},
		{[]string{quillbeckLine}, "All results are the same."},
		{[]string{quillbeckLine, "--set", "headbox.consistency=0.8 %", "--differences"}, "All figures are the same."},
		{[]string{"--help"}, "retention"},
	} {
		r := called("", append([]string{"line", quillbeckLine}, test.args...)...)
		if differing := test.want == "All results are the same."; differing {
			test.args = append(test.args, "--differences")
			r = called("", append([]string{"line", quillbeckLine}, test.args...)...)
		}
		if r.Status != done || !strings.Contains(r.Out, test.want) {
			t.Errorf("line %q: exit %d, lacks %q:\n%s%s", test.args, r.Status, test.want, r.Out, r.Err)
		}
	}
}

// CSV has all digits, of one line and of two compared; --full gives them to the
// tables and results of a worked solution.
func TestLineAllDigits(t *testing.T) {
	const other = "headbox.consistency=0.8 %"
	values := map[string]string{} // of one line
	for _, row := range strings.Split(called("", "line", quillbeckLine, "--csv", "--set", other).Out, "\n") {
		if fields := strings.Split(row, ","); len(fields) == 4 {
			values[fields[0]] = fields[1]
		}
	}
	for _, args := range [][]string{{"--csv"}, {"--csv", "--differences"}, {"--csv", "--full"}} {
		r := called("", append([]string{"line", quillbeckLine, quillbeckLine, "--set", other}, args...)...)
		compared := 0
		for _, row := range strings.Split(r.Out, "\n")[1:] {
			fields := strings.Split(row, ",")
			name, _, _ := strings.Cut(fields[0], " [")
			if len(fields) == 4 {
				compared++
				if fields[1] != values[name] || fields[2] != values[name] {
					t.Errorf("line %q: %s is %s and %s, alone %s", args, name, fields[1], fields[2], values[name])
				}
			}
		}
		if want := len(values) - 1; compared != want && args[len(args)-1] != "--differences" {
			t.Errorf("line %q: %d results, want %d", args, compared, want)
		}
	}
	different := filepath.Join(t.TempDir(), "other.toml")
	text, err := os.ReadFile(quillbeckLine)
	if err != nil {
		t.Fatal(err)
	}
	if err := os.WriteFile(different, bytes.Replace(text, []byte(`"0.82 %"`), []byte(`"0.8 %"`), 1), 0o644); err != nil {
		t.Fatal(err)
	}
	r := called("", "line", quillbeckLine, different, "--csv", "--differences")
	want := `headbox\.total \[t/h\],2165\.0860842871[0-9]*,` + regexp.QuoteMeta(values["headbox.total"]) + `,`
	if !regexp.MustCompile(want).MatchString(r.Out) {
		t.Errorf("the comparison lacks %q", want)
	}
	for _, test := range []struct{ args, want string }{
		{"--steps headbox", `= 1675\.77 t/h  water drawn, so that the stock has its consistency`},
		{"--steps headbox --full", `= 1675\.767893290[0-9]+ t/h  water drawn, so that the stock has its consistency`},
		{"--steps headbox --full", `headbox +2165\.086084287`},
		{"--steps press", `sheet off the press +28\.3056 `},
		{"--steps press --full", `sheet off the press +28\.305[0-9]{8,} `},
	} {
		r := called("", append([]string{"line", quillbeckLine}, strings.Fields(test.args)...)...)
		if !regexp.MustCompile(test.want).MatchString(r.Out) {
			t.Errorf("line %s lacks %q:\n%s", test.args, test.want, r.Out)
		}
	}
}

// withoutCautions returns what was said on standard error but for cautions, each as one
// line.
func withoutCautions(text string) string {
	var rest string
	for line := range strings.Lines(strings.ReplaceAll(text, "\n  ", " ")) {
		if !strings.HasPrefix(line, "caution: ") {
			rest += line
		}
	}
	return rest
}

// A line is told with the cautions of its stages, before its balance and once for two
// files; as JSON they are a part of the answer.
func TestLineCautions(t *testing.T) {
	for _, test := range []struct {
		args string
		want int
	}{
		{"", 4}, {"--csv", 4}, {quillbeckLine, 4}, {"--set headbox.consistency=0.7..0.8%", 4}, {"--steps press", 4}, {"--json", 0},
	} {
		r := called("", append([]string{"line", quillbeckLine}, strings.Fields(test.args)...)...)
		if r.Status != done || strings.Count("\n"+r.Err, "\ncaution: ") != test.want {
			t.Errorf("line %s: exit %d, says %q, want %d cautions", test.args, r.Status, r.Err, test.want)
		}
	}
	var answer struct{ Cautions []struct{ Code string } }
	r := called("", "line", quillbeckLine, "--json")
	if err := json.Unmarshal([]byte(r.Out), &answer); err != nil || len(answer.Cautions) != 4 || answer.Cautions[3].Code != "heavy-reel" {
		t.Errorf("%v: cautions %v, want four, the last heavy-reel", err, answer.Cautions)
	}
}

// A name that is like no figure is answered with those there are.
func TestLineNoFigure(t *testing.T) {
	r := called("", "line", quillbeckLine, "--set", "nosuch=3")
	if want := `has no figure "nosuch", want one of temperature, fresh water.flow, `; r.Status != misused || !strings.Contains(r.Err, want) {
		t.Errorf("exit %d, says %q, want %q", r.Status, r.Err, want)
	}
}

// Tables that have no room for an uncertainty say so, once a figure.
func TestLineUncertaintyLeftOut(t *testing.T) {
	const filler = "wire.retention.filler=48 ± 2 %"
	for _, test := range []struct {
		args []string
		want string
	}{
		{[]string{"--set", filler}, ""},
		{[]string{"--set", filler, quillbeckLine}, "warning: uncertainty-left-out: that of wire.retention.filler is not carried into a comparison\n"},
		{[]string{"--set", filler, quillbeckLine, "--csv"}, "warning: uncertainty-left-out: that of wire.retention.filler is not carried into a comparison\n"},
		{[]string{"--set", filler, "--set", "headbox.consistency=0.7..0.9 % by 0.1 %"},
			"warning: uncertainty-left-out: that of wire.retention.filler is not carried along a range\n"},
		{[]string{quillbeckLine}, ""},
	} {
		r := called("", append([]string{"line", quillbeckLine}, test.args...)...)
		if err := withoutCautions(r.Err); r.Status != done || err != test.want {
			t.Errorf("line %q: exit %d, says %q, want %q", test.args, r.Status, r.Err, test.want)
		}
	}
}

// drawn calls a command for its picture, as PNG and as SVG, holds the SVG to the
// one that is kept in the examples, and returns it.
func drawn(t *testing.T, kept string, args ...string) string {
	t.Helper()
	draw := func(name string) []byte {
		file := filepath.Join(t.TempDir(), name)
		if r := called("", append(args, "--plot", file)...); r.Status != done {
			t.Fatalf("exit %d: %s", r.Status, r.Err)
		}
		data, err := os.ReadFile(file)
		if err != nil {
			t.Fatal(err)
		}
		return data
	}
	dots, err := png.DecodeConfig(bytes.NewReader(draw("picture.png")))
	if err != nil {
		t.Fatal(err)
	}
	data := draw("picture.svg")
	if size := fmt.Sprintf(`viewBox="0 0 %d %d"`, dots.Width/2, dots.Height/2); !bytes.Contains(data, []byte(size)) {
		t.Errorf("the PNG has %d by %d dots, want two for each of the SVG", dots.Width, dots.Height)
	}
	kept = "../../examples/quillbeck/" + kept
	if *update {
		if err := os.WriteFile(kept, data, 0o644); err != nil {
			t.Fatal(err)
		}
	}
	if shown, err := os.ReadFile(kept); err != nil || string(shown) != string(data) {
		t.Errorf("%s is not what is drawn (go test ./cmd/millmaths -run Plot -update): %v", kept, err)
	}
	return string(data)
}

// The picture names every stage, and its bands are as wide as their masses.
func TestLinePlot(t *testing.T) {
	picture := drawn(t, "harebell-120.svg", "line", quillbeckLine)
	for _, name := range []string{"pulper", "screen 1", "headbox", "press", "broke pulper", "white water", "sewer 71.9", "recovered paper 13.7"} {
		if !strings.Contains(picture, ">"+name+"</text>") {
			t.Errorf("the picture lacks %q", name)
		}
	}
	widths := map[string]bool{}
	for _, m := range regexp.MustCompile(`stroke-width="([0-9.]+)"`).FindAllStringSubmatch(picture, -1) {
		x, err := strconv.ParseFloat(m[1], 64)
		if err != nil {
			t.Fatal(err)
		}
		widths[strconv.FormatFloat(x, 'f', 2, 64)] = true
	}
	// Water of the headbox, the widest, is 34 points; that drawn to the
	// headbox 1672.54/2147.33 of it; dry matter of the press 13.4451/17.7537 of 22.
	for _, want := range []string{"34.00", "26.48", "16.66"} {
		if !widths[want] {
			t.Errorf("no band is %s wide: %v", want, widths)
		}
	}
}

// BenchmarkLine is a first answer, from the file to the table.
func BenchmarkLine(b *testing.B) {
	for b.Loop() {
		if r := called("", "line", quillbeckLine); r.Status != done {
			b.Fatal(r.Err)
		}
	}
}

// Unrounded, a line's text has every number of its table, digit for digit.
func TestLineFullIsTable(t *testing.T) {
	text, table := called("", "line", quillbeckLine, "--full"), called("", "line", quillbeckLine, "--csv")
	rows, err := csv.NewReader(strings.NewReader(table.Out)).ReadAll()
	if text.Status != done || table.Status != done || err != nil {
		t.Fatalf("exit %d and %d, %v: %s%s", text.Status, table.Status, err, text.Err, table.Err)
	}
	words := map[string]bool{}
	for _, word := range strings.Fields(text.Out) {
		words[word] = true
	}
	for _, row := range rows[1:] {
		if !words[row[1]] {
			t.Errorf("%s is %s in the table alone", row[0], row[1])
		}
	}
	if len(rows) != 238 {
		t.Errorf("%d rows, want 238", len(rows))
	}
}
