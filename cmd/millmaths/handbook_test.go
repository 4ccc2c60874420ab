package main

import (
	"context"
	"encoding/xml"
	"errors"
	"fmt"
	"io"
	"math"
	"os"
	"path/filepath"
	"regexp"
	"slices"
	"strconv"
	"strings"
	"sync"
	"testing"

	"millmaths.example/paperprop/catalogue"
)

// handbookPages are the files of a handbook, made once for all tests.
var handbookPages = sync.OnceValues(func() (map[string]string, error) {
	b, err := newHandbook(context.Background(), nil, nil)
	if err != nil {
		return nil, err
	}
	files, err := b.files(context.Background())
	if err != nil {
		return nil, err
	}
	pages := map[string]string{}
	for _, f := range files {
		if _, ok := pages[f.name]; ok {
			return nil, fmt.Errorf("%s is made twice", f.name)
		}
		pages[f.name] = string(f.data)
	}
	return pages, nil
})

func handbookOf(t *testing.T) map[string]string {
	t.Helper()
	pages, err := handbookPages()
	if err != nil {
		t.Fatal(err)
	}
	return pages
}

// Every calculation has a page with all that its description says.
func TestHandbookTellsAll(t *testing.T) {
	pages := handbookOf(t)
	for _, g := range catalogue.Groups() {
		for _, c := range g.Calculations {
			info := c.Info()
			page := pages[info.Name+".html"]
			for _, must := range slices.Concat([]string{info.Title, info.Answers, info.Source, string(info.Status), info.Method}, info.Mistakes) {
				if !strings.Contains(page, string(text(must))) {
					t.Errorf("page of %s lacks %q", info.Name, must)
				}
			}
			for _, f := range slices.Concat(info.In, info.Out) {
				if !strings.Contains(page, "<code>"+f.Name+"</code>") || !strings.Contains(page, string(text(f.Help))) {
					t.Errorf("page of %s lacks %s, %s", info.Name, f.Name, f.Help)
				}
			}
			for _, caution := range info.Cautions {
				if i := strings.Index(page, string(text(caution.Text))); i < 0 || i > strings.Index(page, "<h2>") {
					t.Errorf("page of %s does not begin with the caution %s", info.Name, caution.Code)
				}
			}
			if i := strings.Index(page, "<h2>Worked example</h2>"); i < 0 {
				t.Errorf("page of %s has no example", info.Name)
			} else if n := strings.Count(page[:i], `<math display="block">`); n != len(info.Formula) {
				t.Errorf("page of %s sets %d formulas, the description has %d lines", info.Name, n, len(info.Formula))
			}
			if !strings.Contains(page, "of check tables, run when this page was written") {
				t.Errorf("page of %s shows no checks", info.Name)
			}
			for _, index := range []string{"index.html", "questions.html"} {
				if !strings.Contains(pages[index], `href="`+info.Name+`.html"`) {
					t.Errorf("%s does not lead to %s", index, info.Name)
				}
			}
		}
	}
	if len(pages) != len(catalogue.Names())+4 {
		t.Errorf("%d files, want one a calculation, three indexes and the style", len(pages))
	}
}

var (
	address = regexp.MustCompile(`(?:href|src)="([^"]*)"`)
	placeID = regexp.MustCompile(` id="([^"]*)"`)
	heading = regexp.MustCompile(`<h([1-6])[ >]`)
)

// Pages work without a network and without scripts: every address is a file of
// the handbook, and a place in it that is there.
func TestHandbookStandsAlone(t *testing.T) {
	pages := handbookOf(t)
	ids := map[string]bool{}
	for name, page := range pages {
		for _, m := range placeID.FindAllStringSubmatch(page, -1) {
			if ids[name+"#"+m[1]] {
				t.Errorf("%s has two places %s", name, m[1])
			}
			ids[name+"#"+m[1]] = true
		}
	}
	remote := regexp.MustCompile(`(?i)<script|javascript:| on[a-z]+="|//[a-z]|@import|url\(|<iframe|<img`)
	for name, page := range pages {
		if found := remote.FindString(page); found != "" {
			t.Errorf("%s has %q", name, found)
		}
		for _, m := range address.FindAllStringSubmatch(page, -1) {
			file, place, hasPlace := strings.Cut(m[1], "#")
			if file == "" {
				file = name
			}
			if _, ok := pages[file]; !ok || hasPlace && !ids[file+"#"+place] {
				t.Errorf("%s leads to %s, which is not there", name, m[1])
			}
		}
	}
}

// Pages are well-formed, in a language, with landmarks, one first heading and no
// step of headings left out; heads of tables say what they head, pictures have
// words.
func TestHandbookIsAccessible(t *testing.T) {
	for name, page := range handbookOf(t) {
		if !strings.HasSuffix(name, ".html") {
			continue
		}
		if err := wellFormed(page); err != nil {
			t.Errorf("%s: %v", name, err)
		}
		last := 0
		for _, m := range heading.FindAllStringSubmatch(page, -1) {
			level, _ := strconv.Atoi(m[1])
			if level > last+1 || level == 1 && last > 0 {
				t.Errorf("%s: heading %d after %d", name, level, last)
			}
			last = level
		}
		for _, must := range []string{`<html lang="en-GB">`, "<header>", "<main ", "<footer>", "<nav ", "<h1>", `name="viewport"`} {
			if strings.Count(page, must) < 1 {
				t.Errorf("%s lacks %s", name, must)
			}
		}
		if heads, scoped := strings.Count(page, "<th>")+strings.Count(page, "<th "), strings.Count(page, `<th scope="`); heads != scoped {
			t.Errorf("%s: %d heads of tables, %d with a scope", name, heads, scoped)
		}
		if pictures, told := strings.Count(page, "<svg"), len(regexp.MustCompile(`<svg role="img"[^>]* aria-label="[^"]{20,}"`).FindAllString(page, -1)); pictures != told {
			t.Errorf("%s: %d pictures, %d with words", name, pictures, told)
		}
	}
}

func wellFormed(page string) error {
	d := xml.NewDecoder(strings.NewReader(page))
	for {
		if _, err := d.Token(); errors.Is(err, io.EOF) {
			return nil
		} else if err != nil {
			return err
		}
	}
}

var colour = regexp.MustCompile(`--([a-z]+): #([0-9a-f]{6})`)

// All inks of the style stand out from both grounds by 4.5 to 1, as WCAG 2.1 AA
// asks of text.
func TestHandbookContrast(t *testing.T) {
	luminance := map[string]float64{}
	for _, m := range colour.FindAllStringSubmatch(styleSheet, -1) {
		rgb, err := strconv.ParseUint(m[2], 16, 32)
		if err != nil {
			t.Fatal(err)
		}
		part := func(shift int) float64 {
			c := float64(rgb>>shift&0xff) / 255
			if c <= 0.04045 {
				return c / 12.92
			}
			return math.Pow((c+0.055)/1.055, 2.4)
		}
		luminance[m[1]] = 0.2126*part(16) + 0.7152*part(8) + 0.0722*part(0)
	}
	for _, ink := range []string{"ink", "quiet", "link", "mark", "alert"} {
		for _, ground := range []string{"paper", "shade"} {
			if ratio := (luminance[ground] + 0.05) / (luminance[ink] + 0.05); !(ratio >= 4.5) || luminance[ink] == 0 {
				t.Errorf("%s on %s: %.2f to 1, want 4.5", ink, ground, ratio)
			}
		}
	}
}

// One page as it is, to see what a change does to it: -update writes it.
func TestHandbookPage(t *testing.T) {
	const golden = "testdata/dilution.html"
	got := handbookOf(t)["dilution.html"]
	if *update {
		if err := os.WriteFile(golden, []byte(got), 0o644); err != nil {
			t.Fatal(err)
		}
	}
	want, err := os.ReadFile(golden)
	if err != nil {
		t.Fatal(err)
	}
	if got != string(want) {
		t.Errorf("%s is not what is written (go test ./cmd/millmaths -run HandbookPage -update):\n%s", golden, firstDifference(string(want), got))
	}
}

// A handbook is written to a folder that is new, empty or one, with the same
// bytes each time; what is not its own stays.
func TestHandbookFolder(t *testing.T) {
	dir := filepath.Join(t.TempDir(), "deep", "handbook")
	r := called("", "handbook", dir)
	if r.Status != done || r.Err != "" || !strings.HasPrefix(r.Out, filepath.Join(dir, "index.html")+": ") || !strings.HasSuffix(r.Out, ", 0 failed\n") {
		t.Fatalf("handbook: exit %d, %s%s", r.Status, r.Out, r.Err)
	}
	first := contents(t, dir)
	for name, page := range handbookOf(t) {
		if first[name] != page {
			t.Errorf("%s differs from run to run", name)
		}
	}
	stale := strings.Replace(first["dilution.html"], "Dilution", "Delusion", 1)
	for name, data := range map[string]string{"notes.html": "mine", "gone.html": stale, "dilution.html": stale, ".gitignore": "x"} {
		if err := os.WriteFile(filepath.Join(dir, name), []byte(data), 0o644); err != nil {
			t.Fatal(err)
		}
	}
	if r := called("", "handbook", dir); r.Status != done {
		t.Fatalf("a second time: exit %d, %s", r.Status, r.Err)
	}
	second := contents(t, dir)
	if _, ok := second["gone.html"]; ok {
		t.Error("the page of a calculation that is gone is left")
	}
	if second["notes.html"] != "mine" || second[".gitignore"] != "x" || second["dilution.html"] != first["dilution.html"] {
		t.Error("a second run wrote over what is not its own, or left its own old")
	}
	// A name of ours, held by somebody else's file.
	if err := os.WriteFile(filepath.Join(dir, "dilution.html"), []byte("mine"), 0o644); err != nil {
		t.Fatal(err)
	}
	if r := called("", "handbook", dir); r.Status != failed || !strings.Contains(r.Err, filepath.Join(dir, "dilution.html")+" is there and is not of a handbook") {
		t.Errorf("over a file of somebody else: exit %d, %s", r.Status, r.Err)
	}
	if contents(t, dir)["dilution.html"] != "mine" {
		t.Error("a file of somebody else was written over")
	}
}

func contents(t *testing.T, dir string) map[string]string {
	t.Helper()
	entries, err := os.ReadDir(dir)
	if err != nil {
		t.Fatal(err)
	}
	files := map[string]string{}
	for _, e := range entries {
		data, err := os.ReadFile(filepath.Join(dir, e.Name()))
		if err != nil {
			t.Fatal(err)
		}
		files[e.Name()] = string(data)
	}
	return files
}

func TestHandbookRefusals(t *testing.T) {
	dir := t.TempDir()
	foreign := filepath.Join(dir, "foreign")
	if err := os.Mkdir(foreign, 0o755); err != nil {
		t.Fatal(err)
	}
	for name, data := range map[string]string{
		"foreign/thesis.txt": "years of work",
		"bad.csv":            "id,calculation,inputs,expected,tolerance,kind,source,note\nx-1,dilutoin,a=1,refused,exact,memory,none,\n",
		"fails.csv":          "id,calculation,inputs,expected,tolerance,kind,source,note\nx-1,area-per-mass,grammage=100 g/m2,area-per-mass=11 m2/kg,rel 1e-6,memory,none,\n",
		"file":               "",
	} {
		if err := os.WriteFile(filepath.Join(dir, name), []byte(data), 0o644); err != nil {
			t.Fatal(err)
		}
	}
	for _, test := range []struct {
		args   []string
		status int
		err    string
	}{
		{nil, misused, "handbook takes one folder to write to: millmaths handbook DIR"},
		{[]string{"a", "b"}, misused, "handbook takes one folder to write to: millmaths handbook DIR"},
		{[]string{"--check", "x", "a"}, misused, "handbook has no flag --check, near: --checks"},
		{[]string{foreign}, failed, foreign + " holds no handbook, but thesis.txt: want a folder that is new or empty, or an earlier handbook"},
		{[]string{filepath.Join(dir, "file")}, failed, "not a directory"},
		{[]string{filepath.Join(dir, "new"), "--checks", filepath.Join(dir, "none.csv")}, failed, "no such file or directory"},
		{[]string{filepath.Join(dir, "new"), "--checks", filepath.Join(dir, "bad.csv")}, failed, `bad.csv:2: unknown calculation "dilutoin", near: dilution`},
	} {
		r := called("", append([]string{"handbook"}, test.args...)...)
		if r.Status != test.status || !strings.Contains(r.Err, test.err) || r.Out != "" {
			t.Errorf("handbook %q: exit %d, %q, want %d, %q", test.args, r.Status, r.Err, test.status, test.err)
		}
	}
	if _, err := os.Stat(filepath.Join(dir, "new")); err == nil {
		t.Error("a refused call left a folder")
	}
	// A row of a laboratory that fails is on the page, and in the status.
	book := filepath.Join(dir, "book")
	r := called("", "handbook", book, "--checks", filepath.Join(dir, "fails.csv"))
	if page := contents(t, book)["area-per-mass.html"]; r.Status != failed || !strings.Contains(r.Out, ", 1 failed\n") || !strings.Contains(page, "fails: area-per-mass is 10 m2/kg, want 11 m2/kg") {
		t.Errorf("a row that fails: exit %d, %s", r.Status, r.Out)
	}
}

func TestStandardsIn(t *testing.T) {
	for _, test := range []struct {
		text string
		want []string
	}{
		{"ISO 801-1, -2, -3:1994 and T 425 om-06", []string{"ISO 801-1", "T 425"}},
		{"TAPPI TIP 0404-07, TIS 408-4, TAPPI TIS 408-4", []string{"TAPPI TIP 0404-07", "TAPPI TIS 408-4"}},
		{"CIE 015:2018, CIE 15, at T 20", []string{"CIE 15"}},
		{"AS/NZS 1301.453:2016, AS 1301.405:2021", []string{"AS/NZS 1301.453", "AS 1301.405"}},
		{"NIST Handbook 44, NIST HB 44 C, NIST SP 811", []string{"NIST Handbook 44", "NIST SP 811"}},
		{"ASTM D646; JCGM 100:2008; GB/T 5399-1985; IAPWS R7-97(2012)", []string{"ASTM D646", "JCGM 100", "GB/T 5399-1985", "IAPWS R7-97"}},
		{"a point 120 of the list", nil},
	} {
		if got := standardsIn(test.text); !slices.Equal(got, test.want) {
			t.Errorf("standardsIn(%q) = %q, want %q", test.text, got, test.want)
		}
	}
	names := []string{"T 425", "ISO 1924-3", "ISO 535", "ISO 1924-2", "TAPPI TIP 0404-07", "EN 643"}
	slices.SortFunc(names, byNumber)
	if want := []string{"EN 643", "ISO 535", "ISO 1924-2", "ISO 1924-3", "T 425", "TAPPI TIP 0404-07"}; !slices.Equal(names, want) {
		t.Errorf("sorted: %q, want %q", names, want)
	}
}

// What is a word or a text of one's own stands as it must be typed.
func TestHandbookWordsAsTyped(t *testing.T) {
	book := handbookOf(t)
	for page, want := range map[string]string{
		"basis-weight.html": `<td>ft2-1000</td>`,
		"convert.html":      `to = degF_diff`,
	} {
		if !strings.Contains(book[page], want) {
			t.Errorf("%s lacks %q", page, want)
		}
	}
	for name, page := range book {
		if i := strings.Index(page, "ft²-"); i >= 0 {
			t.Errorf("%s: a word that nobody can type: %s", name, page[i-40:i+10])
		}
	}
}

func TestTypeset(t *testing.T) {
	for _, test := range []struct{ value, want string }{
		{"125 g/m2", "125 g/m²"}, {"[1 2] N.m7/kg3", "[1 2] N.m⁷/kg³"}, {"-20 degC", "−20 °C"}, {"1.5e3 t", "1.5e3 t"},
		{"4 um/(Pa s)", "4 µm/(Pa s)"}, {"3 umol/L", "3 µmol/L"}, {"3 ueq/L", "3 µeq/L"}, {"4.0 +- 0.1 %", "4.0 ± 0.1 %"}, {"2 inH2O", "2 inH2O"}, {"42 lb/1000ft2", "42 lb/1000ft²"}, {"number", "number"}, {"1e-9 m2", "1e-9 m²"},
	} {
		if got := typeset(test.value); got != test.want {
			t.Errorf("typeset(%q) = %q, want %q", test.value, got, test.want)
		}
	}
}
