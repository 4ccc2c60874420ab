package line_test

import (
	"math"
	"strings"
	"testing"

	"millmaths.example/paperprop/calc"
	"millmaths.example/stock/line"
)

// Whatever fixes the size, the line is the same one.
func TestSizeByAnother(t *testing.T) {
	l, err := line.ReadFile(quillbeck)
	if err != nil {
		t.Fatal(err)
	}
	want, err := l.Solve()
	if err != nil {
		t.Fatal(err)
	}
	for _, size := range []string{"size.fed=15.493719948913 t/h", "size.reel=15.12 t/h", "size.sold=14.2128 t/h", "size.speed=625 m/min"} {
		name, text, _ := strings.Cut(size, "=")
		changed, err := l.With(name, text)
		if err != nil {
			t.Errorf("With(%q): %v", size, err)
			continue
		}
		got, err := changed.Solve()
		if err != nil {
			t.Errorf("%s: %v", size, err)
			continue
		}
		for i, x := range got.Values {
			if !(math.Abs(x-want.Values[i]) <= 1e-6*math.Abs(want.Values[i])) {
				t.Errorf("%s: %s is %v, want %v", size, got.Results[i].Name, x, want.Values[i])
			}
		}
	}
	if again, err := l.Solve(); err != nil || again.Values[0] != want.Values[0] {
		t.Errorf("the line itself was changed: %v", err)
	}
	for _, test := range []struct{ name, text, want string }{
		{"size.real", "15 t/h", "size.reel"},
		{"size.reel", "15 m/min", "size.reel"},
		{"size.reel", "-1 t/h", "above 0 t/h"},
	} {
		if _, err := l.With(test.name, test.text); err == nil || !strings.Contains(err.Error(), test.want) {
			t.Errorf("With(%q, %q): %v, want %q", test.name, test.text, err, test.want)
		}
	}
}

// A speed makes tonnes only where the reel says width and grammage.
func TestSizeBySpeed(t *testing.T) {
	l, err := line.Read("two.toml", strings.NewReader(twoPly))
	if err != nil {
		t.Fatal(err)
	}
	if _, err := l.With("size.speed", "600 m/min"); err == nil || !strings.Contains(err.Error(), "the reel must give width and grammage") {
		t.Errorf("With(size.speed) = %v", err)
	}
}

// Figures that are told at once hold together: one of them fixes the size, and each
// has one text.
func TestWithAll(t *testing.T) {
	l, err := line.ReadFile(quillbeck)
	if err != nil {
		t.Fatal(err)
	}
	set := func(texts ...string) (list []calc.Pair) {
		for _, text := range texts {
			name, value, _ := strings.Cut(text, "=")
			list = append(list, calc.Pair{Name: name, Text: value})
		}
		return list
	}
	changed, err := l.WithAll(set("size.reel=13 t/h", "winder.broke=5 %"))
	if err != nil {
		t.Fatal(err)
	}
	a, err := changed.Solve()
	if err != nil {
		t.Fatal(err)
	}
	for name, want := range map[string]float64{"production": 13, "sold": 0.95 * 13} {
		if got, ok := a.Value(name); !ok || !(math.Abs(got-want) <= 1e-12*want) {
			t.Errorf("%s is %v, want %v", name, got, want)
		}
	}
	if same, err := l.WithAll(nil); err != nil || same != l {
		t.Errorf("WithAll() = %v, %v, want the line as it is", same, err)
	}
	for _, test := range []struct {
		set  []calc.Pair
		want string
	}{
		{set("size.reel=13 t/h", "press.dryness=46 %", "size.speed=600 m/min"),
			"size is fixed by size.reel = 13 t/h and size.speed = 600 m/min at once: give one, and the others follow"},
		{set("press.dryness=46 %", "press.dryness=47 %"), `press.dryness is given twice: "46 %" and "47 %", want one`},
		{set("press.dryness=46 %", "pres.dryness=47 %"), "near: press.dryness"},
	} {
		if _, err := l.WithAll(test.set); err == nil || !strings.Contains(err.Error(), test.want) {
			t.Errorf("WithAll(%q): %v, want %q", test.set, err, test.want)
		}
	}
}
