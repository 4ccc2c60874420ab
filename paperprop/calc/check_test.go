package calc_test

import (
	"slices"
	"strings"
	"testing"

	"millmaths.example/paperprop/calc"
	"millmaths.example/paperprop/catalogue"
)

const checkHead = "id,calculation,inputs,expected,tolerance,kind,source,note\n"

const dilutionRow = `1,dilution,mass-flow=300 t/h; consistency-in=4.6 %; consistency-out=0.92 %,water-flow=1200 t/h,rel 1e-12,common-practice,balance,` + "\n"

// What a check table may get wrong, and what is said of it.
func TestReadChecksRefuses(t *testing.T) {
	for _, test := range []struct{ table, want string }{
		{"", "lab.csv: nothing in it"},
		{"id,calculation\n", "lab.csv:1: head is id,calculation, want id,calculation,inputs,expected,tolerance,kind,source,note"},
		{checkHead + "1,dilution\n", "lab.csv:2: 2 cells, want 8"},
		{checkHead + "1\n", "lab.csv:2: 1 cell, want 8"},
		{checkHead + "1,dilution,mass-flow,refused,exact,memory,s,\n", `lab.csv:2: 1: inputs: "mass-flow", want NAME=VALUE UNIT`},
		{checkHead + "1,dilution,mass-flow=1 t/h;mass-flow=2 t/h,water-flow=1 t/h,exact,memory,s,\n", "lab.csv:2: 1: inputs: mass-flow is given twice"},
		{checkHead + "1,dilution,mass-flow=1 t/h;mass-flow=1 t/h,warned,exact,memory,s,\n", "lab.csv:2: 1: inputs: mass-flow is given twice"},
		{checkHead + "1,dilution,,,exact,memory,s,\n", "nothing is expected, want NAME=VALUE UNIT, refused or warned"},
		{checkHead + "1,dilution,,refused,exact,remembered,s,\n", `kind is "remembered", want published, library, common-practice or memory`},
		{checkHead + "1,dilution,,refused,rel,memory,s,\n", `tolerance is "rel", want rel 1e-6, abs 0.002 or exact`},
		{checkHead + "1,dilution,,refused,rel -1,memory,s,\n", `tolerance is "rel -1"`},
		{checkHead + "1,dilution,,refused,abs NaN,memory,s,\n", `tolerance is "abs NaN"`},
		{checkHead + "1,dilution,,refused,rel Inf,memory,s,\n", `tolerance is "rel Inf"`},
		{checkHead + dilutionRow + "\"1,dilution\n", "lab.csv: "},
	} {
		_, err := calc.ReadChecks("lab.csv", strings.NewReader(test.table))
		if err == nil || !strings.Contains(err.Error(), test.want) {
			t.Errorf("%q: %v, want in it %s", test.table, err, test.want)
		}
	}
}

// A byte order mark before the head is none of its letters, and a bad row does
// not hide the good ones.
func TestReadChecksGoesOn(t *testing.T) {
	rows, err := calc.ReadChecks("lab.csv", strings.NewReader("\ufeff"+checkHead+"bad\n"+dilutionRow))
	if err == nil || len(rows) != 1 || rows[0].Line != 3 {
		t.Errorf("%d rows, error %v, want one row and an error of line 2", len(rows), err)
	}
}

// A row passes, fails or is refused as it should be.
func TestCheckRun(t *testing.T) {
	const inputs = "mass-flow=300 t/h; consistency-in=4.6 %; consistency-out=0.92 %"
	for _, test := range []struct{ row, want string }{
		{"dilution," + inputs + ",water-flow=1200 t/h,rel 1e-12", ""},
		{"dilution," + inputs + ",water-flow=1200000 kg/h,rel 1e-12", ""},
		{"dilution," + inputs + ",water-flow=1200.1 t/h,abs 0.2", ""},
		{"dilution," + inputs + ",water-flow=1201 t/h,rel 1e-6", "water-flow is 1200 t/h, want 1201 t/h, difference -1"},
		{"dilution," + inputs + ",water-flow=1200,exact", `water-flow is not compared with "1200": mass flow "1200": unit missing, want t/h or kg/h`},
		{"dilution," + inputs + ",refused,exact", "computed, want a refusal"},
		{"dilution," + inputs + ",warned,exact", "no warning, want one"},
		{"dilution," + inputs + ",consistency-in=4.6 %,exact", "an input that was not solved for"},
		{"dilution,mass-flow=300 t/h; consistency-in=4.6 %; water-flow=1200 t/h,consistency-out=0.92 %,rel 1e-9", ""},
		{"dilution,mass-flow=300 t/h; consistency-in=3 %; consistency-out=4 %,refused,exact", ""},
		{"dilution,mass-flow=300 t/h; consistency-in=3 %; consistency-out=4 %,water-flow=1 t/h,exact", "refused: consistency-out is 4 %"},
		{"dilution,mass-flow=300 ton/h,refused,exact", ""},
		{"dilution,mass-flow=,refused,exact", ""},
		{"dilution,mass-flow=300 t/h,refused,exact", ""},
		{"dilution,,refused,exact", ""},
		{"dilution," + inputs + "; mass-flow=300 t/h,refused,exact", ""}, // as a command and JSON refuse it
		{"dilution," + inputs + "; water=1 %; water=1 %,refused,exact", `dilution has no input or output "water"`},
		{"convert,value=1 kg; to=lb; to=g,refused,exact", ""},
		{"convert,value=1 kg; too=lb; too=g,refused,exact", `convert has no input "too"`},
		{"dilution,mass=300 t/h,refused,exact", `dilution has no input or output "mass"`},
		{"thinning,mass=300 t/h,refused,exact", `unknown calculation "thinning"`},
		{"dilution,mass-flow=300 ± 3 t/h; consistency-in=4.6 %; consistency-out=0.92 %,u(water-flow)=12 t/h,rel 1e-9", ""},
		{"dilution,mass-flow=300 ± 3 t/h; consistency-in=4.6 %; consistency-out=0.92 %,u(water-flow)=13 t/h,rel 1e-9", "difference -1"},
		{"dilution," + inputs + ",u(water-flow)=12 t/h,rel 1e-9", "no uncertainty: no input has one"},
		{"moisture-claim,rule=half,refused,exact", ""},
		{"dilution,mass-flow=300 ± 3 t/h; consistency-in=4.6 %; consistency-out=0.92 %,u(water-flow)=12000 kg/h,rel 1e-9", ""},
		{"dilution,mass-flow=300 ± 3 t/h; consistency-in=4.6 %; consistency-out=0.92 %,u(water-flow)=12 kg,rel 1e-9",
			`u(water-flow) is not compared with "12 kg": "kg" is no unit of mass flow, want t/h or kg/h`},
		{"dilution,mass-flow=300 ± 3 t/h; consistency-in=4.6 %; consistency-out=0.92 %,u(mass-flow)=3 t/h,rel 1e-9",
			"u(mass-flow) is an input that was not solved for, want 3 t/h"},
		{"sheet-count,mass=100 ± 1 kg; grammage=80 g/m2; length=1 m; width=1 m,u(count)=12,rel 1e-9",
			"u(count) is no uncertainty: it stands still and jumps, want 12"},
		{"dixon,value=[1 2 3 4 5 6 8 9]; side=highest; ratio=r10,verdict=none; critical-value=0.5,exact",
			`verdict is absent, want "none"; critical-value is absent, want 0.5`},
		{"sets,rest-length=4489.7 m; jumbo-length=49700 m; lost-length=10.3 m,reel-length=5000 m,rel 1e-9",
			"reel-length is 5022.222222222222 m, the nearest of 10 values found, want 5000 m, difference 22.2222"},
		{"dilution,mass-flow=300 ± 3 t/h; consistency-in=4.6 %; consistency-out=0.92 %,u(water-flow)=[12 12] t/h,rel 1e-9",
			"u(water-flow) is 1 value, want [12 12] t/h"},
		{"dilution,mass-flow=300 t/h; consistency-in=4.6 %; consistency-out=0.92 ± 0.3 %,warned,exact", ""}, // bends
		{"dilution,mass-flow=300 t/h; consistency-in=4.6 %; consistency-out=0.92 ± 0.01 %,warned,exact", "no warning, want one"},
		{"propagate,model=y = x*x; method=first-order; x=0 ± 1,warned,exact", ""},
		{"propagate,model=y = x*x; method=first-order; x=9 ± 1,warned,exact", "no warning, want one"},
		{"dilution,mass-flow=?; consistency-in=4.6 %; consistency-out=0.92 %; water-flow=1200 ± 12 t/h,u(mass-flow)=3 t/h,rel 1e-9", ""},
		{"dilution," + inputs + "; water-flow=1200 t/h,water-consistency=0 %,abs 1e-12", ""},
		{"dilution," + inputs + "; water-flow=1250 t/h,water-consistency=0.0368 %,rel 1e-9", ""},
		{"dilution," + inputs + "; water-flow=1250 t/h,water-consistency=0.03 %,rel 1e-9", " %, want 0.03 %, difference 0.0068"},
		{"dilution," + inputs + "; water-consistency=0 %; water-flow=1200 t/h,water-consistency=0 %,exact", "no required input is left out"},
		{"dilution," + inputs + "; water-flow=1250 t/h,dry-flow-out=14.26 t/h,rel 1e-9", "no required input is left out"},
		{"dilution," + inputs + "; water-flow=1250 t/h,refused,exact", ""},
		{"dilution," + inputs + "; water-consistency=?; water-flow=1250 t/h,water-consistency=0.0368 %,rel 1e-9", ""},
		{"steam,latent-heat=2132.9704141 kJ/kg,temperature=143.6798 degC; gauge-pressure=3 bar(g),rel 1e-3", ""},
		{"steam,latent-heat=2132.9704141 kJ/kg,gauge-pressure=3 bar(g),rel 1e-6", ""},
		{"steam,steam-enthalpy=2780 kJ/kg,temperature=183.262616493 degC; latent-heat=2002.3791513 kJ/kg,rel 1e-9", ""}, // one of two
		{"steam,steam-enthalpy=2780 kJ/kg,temperature=279.84635629 degC; latent-heat=1544.1324875 kJ/kg,rel 1e-9", ""},
		{"steam,steam-enthalpy=2780 kJ/kg,latent-heat=1544.1324875 kJ/kg; temperature=279.84635629 degC,rel 1e-9", ""},
		{"steam,steam-enthalpy=2780 ± 1 kJ/kg,u(temperature)=0.877228 K; temperature=279.846356 degC,rel 1e-5", ""},
		{"steam,steam-enthalpy=2780 kJ/kg,temperature=200 degC,rel 1e-9", " degC, the nearest of 2 values found, want 200 degC, difference -16.7374"},
		{"proportioning,dry-share=[60 40] %; consistency=[4 2] %; mass-flow-out=700 ± 7 t/h,u(dry-flow)=0.2 t/h,rel 1e-9", ""}, // behind a list
		{"proportioning,dry-share=[60 40] %; consistency=[4 2] %; mass-flow-out=700 ± 7 t/h,u(mass-flow)=[3 4] t/h,rel 1e-9", ""},
		{"proportioning,dry-share=[60 40] %; consistency=[4 2] %; mass-flow-out=700 ± 7 t/h,u(mass-flow-out)=7 t/h,rel 1e-9", ""},
		{"blend,mass-flow=[1 2] t/h; consistency=[3 4] %,dry-share=[27.2727 72.7273] %,abs 0.0001", ""},
		{"blend,mass-flow=[1 2] t/h; consistency=[3 4] %,dry-share=[27.2727 72.7] %,abs 0.0001",
			"dry-share is 72.72727272727273 % as member 2, want [27.2727 72.7] %, difference 0.0272"},
		{"dilution-batch,mass=12 t; consistency-in=4.1 %; consistency-out=0.95 %,dry-mass-out=0.49201 t,exact", "dry-mass-out is 0.492 t, want 0.49201 t, difference -0.00001"},
		{"convert,value=1 kg; to=lb,value=1001 g,rel 1e-9", "value is 1000 g, want 1001 g, difference -1"},
		{"blend,mass-flow=[1 2] t/h; consistency=[3 4] %,dry-share=[27.2727] %,abs 0.0001", "2 values"},
		{"blend,mass-flow=[1 2] t/h; consistency=[3 4] %,dry-share=[],exact", "want an empty list"},
		{"price-as-received,dry-price=100 EUR/t; moisture=40 %,price=60 EUR/t,exact", ""},
		{"price-as-received,dry-price=100 EUR/t; moisture=40 %,price=60 1/t,exact", ""},
		{"price-as-received,dry-price=100 EUR/t; moisture=40 %,price=60 USD/t,exact", "EUR/t and USD/t are prices in two currencies"},
		{"convert,value=1 kg; to=lb,value=2.20462262185 lb,rel 1e-9", ""},
		{"convert,value=1 kg; to=lb,value=1000 g,rel 1e-9", ""},
		{"convert,value=1 kg; to=lb,value=2.3 lb,rel 1e-9", "difference -0.0953774"},
		{"convert,value=1 kg; to=lb,value=2 m,rel 1", "2.20462 lb"},
		{"convert,value=1 kg; to=lb,value=2 zogs,rel 1", `value is not compared with "2 zogs": unknown unit "zogs"`},
		{"convert,value=1 kg; to=lb,value=two lb,rel 1", `value is not compared with "two lb": number "two": no digits`},
		{"convert,value=1 kg; to=lb,valu=2 lb,rel 1", `convert has no output "valu"`},
		{"convert,value=1 kg; too=lb,value=2 lb,rel 1", `convert has no input "too"`},
		{"convert,value=18 degF_diff; to=degC_diff,value=10 degC_diff,exact", ""},
		{"convert,value=18 degF_diff; to=degC_diff,value=10 K,exact", ""},
		{"convert,value=18 degF_diff; to=degC_diff,value=18 degF_diff,exact", ""},
		{"convert,value=18 degF_diff; to=degC_diff,value=10 degC,exact", "value is 10 degC_diff, want 10 degC"},
		{"convert,value=10 t/h; to=odt/d,value=240 odt/d,exact", ""},
		{"convert,value=10 t/h; to=odt/d,value=240 t/d,exact", ""},
		{"convert,value=10 t/h; to=odt/d,value=10 kN,exact", "value is 240 odt/d, want 10 kN"},
		{"convert,value=1 kg; to=m,refused,exact", ""},
		{"convert,value=1 kg; to=lb,refused,exact", "computed, want a refusal"},
		{"convert,value=1 kg; to=m,value=2 m,exact", "refused: "},
	} {
		row := "r," + test.row + ",common-practice,balance,\n"
		rows, err := calc.ReadChecks("lab.csv", strings.NewReader(checkHead+row))
		if err != nil {
			t.Error(err)
			continue
		}
		var got []string
		for _, f := range rows[0].Run(catalogue.Find) {
			got = append(got, f.String())
		}
		if text := strings.Join(got, "; "); test.want == "" && text != "" || !strings.Contains(text, test.want) {
			t.Errorf("%s: %q, want in it %q", test.row, text, test.want)
		}
	}
}

// Pairs that are taken are named, each once, and are read back from their own
// text.
func FuzzParsePairs(f *testing.F) {
	for _, text := range []string{"mass-flow=300 t/h; consistency-in=4.6 %", "a=b=c", "=", ";;", "x=[1 2 | 3 4] g", "a=1;a=2"} {
		f.Add(text)
	}
	f.Fuzz(func(t *testing.T, text string) {
		pairs, err := calc.ParsePairs(text)
		if err != nil {
			return
		}
		var parts []string
		seen := map[string]bool{}
		for _, p := range pairs {
			if p.Name == "" || seen[p.Name] {
				t.Errorf("%q gives the name %q again, or none", text, p.Name)
			}
			seen[p.Name] = true
			parts = append(parts, p.Name+"="+p.Text)
		}
		if again, err := calc.ParsePairs(strings.Join(parts, ";")); err != nil || !slices.Equal(again, pairs) {
			t.Errorf("%q gives %q, which reads as %q, %v", text, pairs, again, err)
		}
	})
}

// A row that is taken has a known kind and runs: it passes or says why not.
func FuzzReadChecks(f *testing.F) {
	f.Add(checkHead + dilutionRow)
	f.Add("\ufeff" + checkHead + "1,cobb,time=?,u(cobb)=1(1) g/m2,abs 1,memory,s,n\n")
	f.Add(checkHead + "1,round,value=2.5 kg; step=1 kg,reported=2 kg,exact,memory,s,n\n")
	f.Add(checkHead + "1,blend,mass-flow=[1 2] t/h; consistency=[3 4] %,dry-share=[1 2] %; warned,rel 1e-3,library,s,n\n")
	f.Add(checkHead + "1,convert,value=1 kg; to=lb,value=2 lb,rel 1,published,s,n\n")
	f.Fuzz(func(t *testing.T, table string) {
		rows, _ := calc.ReadChecks("lab.csv", strings.NewReader(table))
		for i := range rows {
			c := &rows[i]
			if !slices.Contains([]calc.Status{calc.Published, calc.Library, calc.CommonPractice, calc.Memory}, c.Kind) {
				t.Errorf("kind %q is taken", c.Kind)
			}
			if strings.Contains(table, "@") {
				continue // it would read a file
			}
			for _, failure := range c.Run(catalogue.Find) {
				if failure.String() == "" {
					t.Errorf("%q fails without a word", table)
				}
			}
		}
	})
}
