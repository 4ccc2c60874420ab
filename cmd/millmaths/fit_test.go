package main

import (
	"strings"
	"testing"
	"unicode/utf8"

	"millmaths.example/paperprop/calc/plain"
)

// Text for people fits on a terminal of 80 columns, however many results or members a
// calculation has; nothing is left out for that, and no line is empty.
func TestResultsFit(t *testing.T) {
	tenths, flows := "["+strings.Repeat("10 ", 10)+"] %", "[3.4 4.0 3.3 3.4 3.7 3.9 4.1 4.2 4.3 4.4] %"
	for _, test := range []struct {
		command string
		want    string // stands in it
	}{
		{`dewatering --dryness "[0.712 1.34 19.2 33.8 41.6 45.3 47.1 62.7 81.3 93.4] %" --paper-flow "20 t/h"`, " 0.0843633\n                     0.528246 "},
		{`proportioning --dry-flow "14.4 t/h" --dry-share "` + tenths + `" --consistency "` + flows + `"`,
			"mass-flow        [42.3529 36 43.6364 42.3529 38.9189 36.9231 35.122 34.2857\n" +
				"                 33.4884 32.7273] t/h\n" +
				"mass-flow-out    375.808 t/h\n" +
				"consistency-out  3.83175 %\n"},
		{`proportioning --dry-flow "14.4 t/h ± 1 %" --dry-share "` + tenths + `" --consistency "` + flows + `"`,
			"                 33.4884 32.7273] t/h\n                 u = 0.42 t/h, u = 0.36 t/h,"},
		{`proportioning --dry-flow "14.4 t/h" --dry-share "` + tenths + `" --consistency "` + flows + `" --steps`,
			"         35.12195122 34.28571429 33.48837209 32.72727273] t/h\n         mass-flow\n  q_out  375.8075522 t/h  mass-flow-out\n"},
		{`dewatering --dryness "[0.7 19 47 93] %" --paper-flow "20 t/h" --full`, "water-share          ["},
		{`line ../../examples/quillbeck/harebell-120.toml --full`, "\nt/h                                 filler                starch\n"},
		{`line ../../examples/quillbeck/harebell-120.toml --steps "white water"`, "\n      = (283.472 t/h) + (132.124 t/h) + (54.6341 t/h) + (1675.77 t/h)\n        + (21.0862 t/h)"},
	} {
		r := called("", words(test.command)...)
		if r.Status != done || !strings.Contains("\n"+r.Out, test.want) {
			t.Errorf("%s: exit %d, want %q in\n%s%s", test.command, r.Status, test.want, r.Out, r.Err)
		}
		fits(t, test.command, r.Out)
		if !strings.HasPrefix(test.command, "line") && !strings.Contains(test.command, "--steps") && strings.Contains(r.Out, "\n\n") {
			t.Errorf("%s has an empty line:\n%s", test.command, r.Out)
		}
	}
}

func fits(t *testing.T, command, text string) {
	t.Helper()
	for line := range strings.Lines(text) {
		if line = strings.TrimSuffix(line, "\n"); utf8.RuneCountInString(line) > plain.Width {
			t.Errorf("%s has a line of %d: %q", command, utf8.RuneCountInString(line), line)
		}
	}
}

// The columns of a range that don't fit beside the others follow below, with the range
// again; a table that fits is one.
func TestRangeFits(t *testing.T) {
	steam := `dryer-steam --paper-flow "15.12 t/h" --dryness-in "45..47 % by 1 %" --moisture-out "7.5 %" --temperature-in "46 degC" --evaporation-temperature "82 degC" ` +
		`--temperature-out "97 degC" --fibre-heat-capacity "1.4 kJ/(kg K)" --other-heat-share "15 %" --gauge-pressure "3.2 bar(g)"`
	for _, test := range []struct{ command, want string }{
		{`dilution --mass-flow "300 t/h" --consistency-in "3..5 % by 1 %" --consistency-out "0.92 %"`,
			"consistency-in [%]  water-flow [t/h]  mass-flow-out [t/h]  dry-flow-out [t/h]\n" +
				"3                   678.261           978.261              9\n" +
				"4                   1004.35           1304.35              12\n" +
				"5                   1330.43           1630.43              15\n"},
		{`evaporation --dryness-in "42..44 % by 1 %" --moisture-out "8 %" --paper-flow "20 t/h"`,
			"dryness-in  evaporation  dry-flow  water-per-dry  water-per-paper\n" +
				"[%]         [t/h]        [t/h]     [kg/kg]        [kg/t]\n" +
				"42          23.8095      18.4      1.294          1190.48\n" +
				"43          22.7907      18.4      1.23862        1139.53\n" +
				"44          21.8182      18.4      1.18577        1090.91\n"},
		{`pulping-batch --bale-mass "1240 kg" --bale-moisture "10..12 % by 2 %" --consistency "4.6 %"`,
			"bale-moisture  water-mass  bale-dry-mass  stock-mass  stock-dry-mass\n" +
				"[%]            [kg]        [kg]           [kg]        [kg]\n" +
				"10             23020.9     1116           24260.9     1116\n" +
				"12             22481.7     1091.2         23721.7     1091.2\n"},
		{steam,
			"dryness-in  evaporation  heat-per-water  heat-flow  steam-per-water  steam-flow\n" +
				"[%]         [t/h]        [kJ/kg]         [kW]       [kg/kg]          [t/h]\n" +
				"45          15.96        2531.6          12906.9    1.36837          21.8393\n" +
				"46          15.2843      2535.04         12377.3    1.37023          20.9431\n" +
				"47          14.6374      2538.62         11870.2    1.37217          20.0851\n" +
				"\n" +
				"dryness-in  steam-per-paper\n" +
				"[%]         [kg/kg]\n" +
				"45          1.4444\n" +
				"46          1.38513\n" +
				"47          1.32838\n"},
		{steam + " --csv",
			"dryness-in [%],evaporation [t/h],heat-per-water [kJ/kg],heat-flow [kW],steam-per-water [kg/kg],steam-flow [t/h],steam-per-paper [kg/kg]\n" +
				"45,15.96,2531.6,12906.9,1.36837,21.8393,1.4444\n" +
				"46,15.2843,2535.04,12377.3,1.37023,20.9431,1.38513\n" +
				"47,14.6374,2538.62,11870.2,1.37217,20.0851,1.32838\n"},
	} {
		r := called("", words(test.command)...)
		if r.Status != done || r.Out != test.want {
			t.Errorf("%s: exit %d, %s%s, want\n%s", test.command, r.Status, r.Out, r.Err, test.want)
		}
	}
	full := steam + " --full"
	fits(t, full, called("", words(full)...).Out)
}

// A limit stands on one line with its unit.
func TestLimitsKeepTheirUnits(t *testing.T) {
	for _, test := range []struct{ command, want string }{
		{"explain dewatering", "  d  dryness     list, %  headbox, wire, presses ... reel, in order (above 0 %,\n                          to 100 %)\n"},
		{"steam-heating --help", "(above 0 kJ/(kg K), default\n                                     4.19 kJ/(kg K))\n"},
	} {
		if r := called("", words(test.command)...); !strings.Contains(r.Out, test.want) || strings.Contains(r.Out, plain.UnbrokenBlank) {
			t.Errorf("%s: want %q in\n%s", test.command, test.want, r.Out)
		}
	}
}
