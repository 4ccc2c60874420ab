package oracles

import (
	"bytes"
	"fmt"
	"math"
	"os/exec"
	"strconv"
	"strings"
	"testing"

	"gonum.org/v1/gonum/stat/distuv"

	"millmaths.example/paperprop"
	"millmaths.example/paperprop/result"
	"millmaths.example/paperprop/water"
)

// A question is asked of the reference, and answered by ours.
type question struct {
	text  string
	ours  []float64
	close float64 // relative
}

func ask(close float64, name string, ours []float64, numbers ...float64) question {
	text := name
	for _, x := range numbers {
		text += " " + strconv.FormatFloat(x, 'g', -1, 64)
	}
	return question{text, ours, close}
}

// answer puts all questions to reference.py, and compares.
func answer(t *testing.T, questions []question) {
	t.Helper()
	var asked, told bytes.Buffer
	for _, q := range questions {
		fmt.Fprintln(&asked, q.text)
	}
	python := exec.Command("/usr/bin/python3", "reference.py")
	python.Stdin, python.Stderr = &asked, &told
	out, err := python.Output()
	if err != nil {
		t.Fatalf("%v (apt-get install python3-iapws python3-mpmath): %s", err, told.Bytes())
	}
	lines := strings.Split(strings.TrimSpace(string(out)), "\n")
	if len(lines) != len(questions) {
		t.Fatalf("%d answers to %d questions", len(lines), len(questions))
	}
	worst := 0.0
	for i, q := range questions {
		for k, word := range strings.Fields(lines[i]) {
			want, err := strconv.ParseFloat(word, 64)
			if err != nil {
				t.Fatal(err)
			}
			off := math.Abs(q.ours[k]-want) / math.Abs(want)
			if q.ours[k] == want {
				off = 0
			}
			worst = max(worst, off)
			if !(off <= q.close) {
				t.Errorf("%s: %v, the reference says %v, %.1g apart", q.text, q.ours[k], want, off)
			}
		}
	}
	t.Logf("%d questions, at most %.1g apart", len(questions), worst)
}

// Water and steam on a grid over the regions that the library has.
func TestWater(t *testing.T) {
	var questions []question
	three := func(p water.Properties) []float64 {
		return []float64{p.SpecificVolume.In(paperprop.CubicMetrePerKilogram), p.Enthalpy.In(paperprop.KilojoulePerKilogram), p.HeatCapacity.In(paperprop.KilojoulePerKilogramKelvin)}
	}
	for c := 0.5; c <= 350; c += 8.73 {
		celsius := paperprop.Celsius(c)
		kelvin := celsius.Kelvin()
		boiling, err := water.SaturationPressure(celsius)
		if err != nil {
			t.Fatal(err)
		}
		back, err := water.SaturationTemperature(boiling)
		if err != nil {
			t.Fatal(err)
		}
		mpa := boiling.In(paperprop.MegapascalAbsolute)
		questions = append(questions, ask(1e-9, "boiling-pressure", []float64{mpa}, kelvin), ask(1e-9, "boiling-temperature", []float64{back.Kelvin()}, mpa))
		for part := 0.001; part <= 1; part += 0.111 {
			p := boiling + paperprop.AbsolutePressure(part)*(water.HighestPressure-boiling)
			w, err := water.Liquid(celsius, p)
			if err != nil {
				t.Fatal(err)
			}
			questions = append(questions, ask(1e-9, "region1", three(w), kelvin, p.In(paperprop.MegapascalAbsolute)))
		}
	}
	for c := 0.5; c <= 800; c += 19.9 {
		most, err := water.DensestVapour(paperprop.Celsius(c))
		if err != nil {
			t.Fatal(err)
		}
		for _, part := range []float64{1e-6, 0.001, 0.1, 0.35, 0.7, 0.999} {
			p := paperprop.AbsolutePressure(part) * most
			w, err := water.Vapour(paperprop.Celsius(c), p)
			if err != nil {
				t.Fatal(err)
			}
			questions = append(questions, ask(1e-9, "region2", three(w), paperprop.Celsius(c).Kelvin(), p.In(paperprop.MegapascalAbsolute)))
		}
	}
	answer(t, questions)
}

// Quantiles over probabilities and degrees of freedom.
func TestQuantiles(t *testing.T) {
	var questions []question
	probabilities := []float64{1e-6, 0.001, 0.005, 0.01, 0.025, 0.05, 0.1, 0.3, 0.7, 0.9, 0.95, 0.975, 0.99, 0.995, 0.999}
	degrees := []float64{1, 2, 4.5, 9, 30, 120}
	for _, p := range probabilities {
		questions = append(questions, ask(1e-12, "normal", []float64{result.Normal(p)}, p))
		for _, n := range degrees {
			questions = append(questions,
				ask(1e-12, "student-t", []float64{result.StudentT(p, n)}, p, n),
				ask(1e-12, "chi-square", []float64{result.ChiSquare(p, n)}, p, n))
			for _, b := range degrees {
				questions = append(questions, ask(1e-12, "f", []float64{result.F(p, n, b)}, p, n, b))
			}
		}
	}
	answer(t, questions)
}

// What gonum says lies below a quantile is the probability it was asked for.
func TestQuantilesBack(t *testing.T) {
	for _, p := range []float64{0.01, 0.05, 0.3, 0.5, 0.7, 0.95, 0.99} {
		for _, n := range []float64{1, 2, 4.5, 9, 30, 120} {
			x := result.StudentT(p, n)
			if back := (distuv.StudentsT{Sigma: 1, Nu: n}).CDF(x); !(math.Abs(back/p-1) <= 1e-12) {
				t.Errorf("below StudentT(%v, %v) lies %v", p, n, back)
			}
			x = result.ChiSquare(p, n)
			if back := (distuv.ChiSquared{K: n}).CDF(x); !(math.Abs(back/p-1) <= 1e-12) {
				t.Errorf("below ChiSquare(%v, %v) lies %v", p, n, back)
			}
			x = result.F(p, n, 7)
			if back := (distuv.F{D1: n, D2: 7}).CDF(x); !(math.Abs(back/p-1) <= 1e-12) {
				t.Errorf("below F(%v, %v, 7) lies %v", p, n, back)
			}
		}
	}
}
