package calc_test

import (
	"slices"
	"strings"
	"testing"

	"millmaths.example/paperprop"
	"millmaths.example/paperprop/calc"
)

// Solutions whose lines were worked by hand: values in other units than they were
// written in, with ±, with a default; as many digits as a difference needs; values from a
// steam table; units that the caller chose; an origin left out.
func TestSolutionsByHand(t *testing.T) {
	for _, test := range []struct {
		calculation, inputs string
		want                []string
	}{
		{"grammage", "mass=0.011 +- 0.001 lb; area=0.0625 m2", []string{ // 453.59237 g a pound
			"m: 0.011 +- 0.001 lb = 4.98952 ± 0.45 g", "n: 1 by default", "A: 0.0625 m2 = 625 cm2",
			"g = m/(n*A) | 4.98952 g/(1*625 cm2) | 79.83225712 g/m2", "grammage ± 7.3 g/m2: mass 100 %",
		}},
		{"consistency", "sample-mass=[2.5] g; filter-mass=[0.0402] oz; dry-filter-mass=[0.04021] oz", []string{ // 28.349523125 g an ounce
			"c_i = (m_df - m_f)/m_s | ([1.139934325] g - [1.13965083] g)/[2.5] g | [0.01133980925] %",
		}},
		{"consistency", "sample-mass=[0.886] lb; filter-mass=[0.0402] oz; dry-filter-mass=[0.6105] oz", []string{
			"m_s: [0.886] lb = [401.883] g",
			"c_i = (m_df - m_f)/m_s | ([17.3074] g - [1.13965] g)/[401.883] g | [4.022996614] %",
		}},
		{"steam-heating", "mass-flow=200 t/h; consistency-in=4 %; temperature-in=45 degC; temperature-out=60 degC; " +
			"gauge-pressure=3.2 bar(g); fibre-heat-capacity=1.4 kJ/(kg K)", []string{ // 200/3.6*(0.04*1.4 + 0.96*4.19)*15; enthalpies by package water, whose tests have their source
			"between h_g: 2740.41 kJ/kg", "between h_f: 251.154 kJ/kg", "c_h: 4.19 kJ/(kg K) by default",
			"P_h = q*(c_in*c_f + (1 - c_in)*c_h)*(T_out - T_in) | (200 t/h)*(4 %*(1.4 kJ/(kg K)) + (1 - 4 %)*(4.19 kJ/(kg K)))*(60 degC - 45 degC) | 3398.666667 kW",
			"q_s = P_h/(h_g - h_f) | 3398.67 kW/((2740.41 kJ/kg) - (251.154 kJ/kg)) | 4.915198783 t/h",
		}},
		{"blend", "mass-flow=[210 85 40] t/h ± [1 0 0] t/h; consistency=[3.9 3.5 0.6] %", []string{
			"q_d = sum(q*c) | sum(([210 85 40] t/h)*[3.9 3.5 0.6] %) | 11.405 t/h",
			"dry-share[3] ± 0.0072 %: mass-flow[1] 100 %", // x_3*c_1/q_d = 0.021043*0.039/11.405
		}},
		{"consistency", "sample-mass=[250 251] g ± 1 g; filter-mass=[1.1 1.1] g; dry-filter-mass=[11 12] g", []string{
			"sample-consistency[1] ± 0.016 %: sample-mass[1] 100 %", // 9.9/250/250
			"sample-consistency[2] ± 0.017 %: sample-mass[2] 100 %",
		}},
		{"reel", "diameter=47.2441 in; core-diameter=4 in; reel-thickness=200 um", []string{ // 1200.00014 mm
			"L = pi*(pow(D, 2) - pow(D_c, 2))/(4*t) | pi*(pow(1200 mm, 2) - pow(101.6 mm, 2))/(4*200 um) | 5614.331498 m",
		}},
		{"line-fit", "x=[20 40 60] degC; y=[10 20 60] N", []string{
			"x_m = mean(x) | mean([20 40 60] degC) | 40 degC", "S_xx = sum((x - x_m)*(x - x_m)) | sum(([20 40 60] degC - 40 degC)*([20 40 60] degC - 40 degC)) | 800 K2",
			"b = sum((x - x_m)*(y - y_m))/S_xx | sum(([20 40 60] degC - 40 degC)*([10 20 60] N - 30 N))/800 K2 | 1.25 N/K",
			"a = y_m + b*(x_0 - x_m) | 30 N + (1.25 N/K)*(0 degC - 40 degC) | -20 N",
			"s = sqrt(sum(pow(y - y_m - b*(x - x_m), 2))/(count(x) - 2)) | sqrt(sum(pow([10 20 60] N - 30 N - (1.25 N/K)*([20 40 60] degC - 40 degC), 2))/(count([20 40 60] degC) - 2)) | 12.24744871 N",
		}},
		{"line-fit", "x=[20 40 60] degC; y=[10 20 60] N; origin=40 degC", []string{
			"a = y_m + b*(x_0 - x_m) | 30 N + (1.25 N/K)*(40 degC - 40 degC) | 30 N",
		}},
		{"line-fit", "x=[1 2 3]; y=[10 20 60] N", []string{
			"a = y_m + b*(x_0 - x_m) | 30 N + 25 N*(0 - 2) | -20 N",
		}},
		{"equilibrium-moisture", "temperature=23 degC; moisture=8 %; model=tryding", []string{
			"u = w/(1 - w) | 8 %/(1 - 8 %) | 0.08695652174 kg/kg", // 2/23
		}},
	} {
		s := given(t, test.calculation, test.inputs)
		if err := s.Run(); err != nil {
			t.Fatal(err)
		}
		solution, err := s.Solution()
		if err != nil {
			t.Fatal(err)
		}
		lines := linesOf(solution)
		for _, want := range test.want {
			if !slices.Contains(lines, want) {
				t.Errorf("%s %s: want %q among\n%s", test.calculation, test.inputs, want, strings.Join(lines, "\n"))
			}
		}
	}
}

// Of two forms that turn about each other, w from u and u from w, the one is worked that
// continues from what the method finds.
func TestSolutionDoesNotTurnAbout(t *testing.T) {
	s := given(t, "equilibrium-moisture", "temperature=23 degC; relative-humidity=50 %; model=tryding")
	if err := s.Run(); err != nil {
		t.Fatal(err)
	}
	solution, err := s.Solution()
	if err != nil {
		t.Fatal(err)
	}
	if n := len(solution.Steps); n != 1 || solution.Steps[0].Formula != "w = u/(1 + u)" {
		t.Errorf("%d steps are worked, want w from u alone: %v", n, linesOf(solution))
	}
}

// linesOf returns what a solution says, a line each.
func linesOf(w *calc.Solution) (lines []string) {
	for _, g := range w.Given {
		line := g.Symbol + ": " + g.Written
		switch {
		case g.Default:
			line += g.Value + " by default"
		case g.Value != "":
			line += " = " + g.Value
		}
		lines = append(lines, line)
	}
	for _, b := range w.Between {
		lines = append(lines, "between "+b.Symbol+": "+b.Value)
	}
	for _, step := range w.Steps {
		lines = append(lines, step.Formula+" | "+step.Substituted+" | "+step.Result)
	}
	for _, r := range w.Results {
		for _, of := range append(r.Members, r) {
			if of.U == "" {
				continue
			}
			line := of.Name + " ± " + of.U + ":"
			for _, b := range of.Budget {
				line += " " + b.Name + " " + paperprop.People(b.Percent) + " %"
			}
			lines = append(lines, line)
		}
	}
	return lines
}
