package main

import (
	"os"
	"path/filepath"
	"strings"
	"testing"

	"millmaths.example/paperprop/calc/plain"
)

// A student reads a worked solution aloud: every number has its unit, every symbol its
// value, and nothing is said twice.
func TestStepsRead(t *testing.T) {
	for _, test := range []struct {
		command string
		want    []string // lines that stand in it
		not     []string
	}{
		{`grubbs --value "[34.5 33.9 34.8 28.6 34.1] N" --side either`, []string{
			"      = 33.18 N\n", "    = 2.583989164 N\n", " - 33.18 N)/2.58399 N\n",
		}, nil},
		{`grubbs --value "[20 21 24 20.5] degC" --side either`, []string{"      = 21.375 degC\n", "    = 1.796988221 K\n"}, nil},
		{`grubbs --value "[20 21 24 20.5]" --side either`, []string{"      = 21.375\n", "    = 1.796988221\n"}, nil},
		{`line-fit --x "[2.1 2.9 3.8 4.6 5.2] %" --y "[2.0 2.85 3.75 4.7 5.15] N"`, []string{
			"      = 3.72 %\n", "      = 3.69 N\n", "       = 6.268 %2\n", "    = 1.033982131 N/%\n",
			"    = 3.69 N + (1.03398 N/%)*(0 % - 3.72 %)\n",
		}, []string{"x_0 - 3.72", "(x_0)"}},
		{`line-fit --x "[2.1 2.9 3.8 4.6 5.2] %" --y "[2.0 2.85 3.75 4.7 5.15] N" --origin "4 %"`, []string{"    = 3.69 N + (1.03398 N/%)*(4 % - 3.72 %)\n"}, nil},
		{`line-prediction --x "[2 3 4] mm" --y "[20 31 40] degC" --at "3 mm"`, []string{"      = 30.33333333 degC\n", "    = 10 K/mm\n"}, nil},
		{`compare-samples --first-value "[2.31 2.24 2.42] kN/m" --second-value "[2.19 2.33] kN/m"`, []string{"      = 0.002744444444 (kN/m)2\n"}, nil},
		// A zero has its unit too.
		{`compare-samples --first-value "[1 1] N" --second-value "[2 4] N"`, []string{"      = 0 N2\n", "    = 12.7062*sqrt(0 N2 + 1 N2)\n"}, nil},
		{`fibre-fines --class-length "[0.1 0.3] mm" --class-count "[3 2]" --fines-limit "0.2 mm"`, []string{
			"    = [1 0]\n", "      = sum([1 0]*[3 2])/sum([3 2])\n",
		}, nil},
		// A temperature below a stroke counts from absolute zero, in a list too; a mean of
		// temperatures is one on their own scale.
		{`h-factor --time "[0 90 180] min" --temperature "[80 170 170] degC"`, []string{
			"    = exp(43.2 - 16115 K/[353.15 443.15 443.15] K)\n", "    = [0.08784620761 930.142613 930.142613]\n",
		}, []string{"before(k)\n", "[80 170 170] degC)"}},
		{`mean-steam-temperature --gauge-pressure "[0.4 1.8] bar(g)" --cylinders "[10 14]"`, []string{
			"      = sum([10 14]*[109.572 131.347] degC)/sum([10 14])\n",
		}, nil},
		// Of two forms that turn about each other one is left.
		{`equilibrium-moisture --temperature "23 degC" --relative-humidity "50 %" --model tryding`, []string{"  w = u/(1 + u)\n"}, []string{"  u = w/(1 - w)\n"}},
		{`equilibrium-moisture --temperature "23 degC" --moisture "8 %" --model tryding`, []string{"  u = w/(1 - w)\n"}, []string{"  w = u/(1 + u)\n"}},
		// A symbol of a formula that is no input, output or step has its value and meaning, a
		// function that schoolbooks lack is told in words.
		{`steam-heating --mass-flow "200 t/h" --consistency-in "4 %" --temperature-in "45 degC" --temperature-out "60 degC" --gauge-pressure "3.2 bar(g)" --fibre-heat-capacity "1.4 kJ/(kg K)"`,
			[]string{"\nValues on the way\n  h_g  2740.41 kJ/kg  enthalpy of the steam\n  h_f  251.154 kJ/kg  enthalpy of the water that it becomes\n\nSolution\n"}, nil},
		{`pulping-batch --bale-mass "1240 kg" --bale-moisture "11.5 %" --reject-rate "4 %" --reject-dryness "58 %" --consistency "4.6 %"`, []string{"  m_r = m_db*r/d_r\n"}, []string{"Values on the way"}},
		{`sheet-evaporation --mass-transfer "0.015 m/s" --temperature "75 degC" --air-vapour-pressure "14 kPa(a)" --sheet-vapour-pressure "36 kPa(a)"`,
			[]string{"    = 9.884675571 kg/(h m2)\n  log(x) is the natural logarithm.\n"}, nil},
		{`fibre-fines --class-length "[0.1 0.3] mm" --class-count "[3 2]" --fines-limit "0.2 mm"`, []string{"  reaches(a, b) is 1 where a is at least b, and 0 where it is less.\n"}, []string{"sum(x)"}},
		{`contact-drying-rate --evaporation "14300 ± 143 kg/h" --cylinders 32 --diameter "1.8 m" --sheet-width "3.36 m" --wrap "230 deg"`,
			[]string{"Uncertainty of contact-drying-rate, u = 0.37 kg/(h m2), first order (JCGM\n  100:2008)\n"}, nil},
		// An input that may be left out is no value on the way where it was given.
		{`freeness --volume "412 mL" --consistency "0.31 %" --temperature "21.5 degC" --volume-correction "-8 mL"`, nil, []string{"Values on the way"}},
		// A value that is converted brings its uncertainty along; a list has one for each member.
		{`screen-efficiency --mass-reject-rate "14 %" --feed-contaminant "950 ± 10 ppm" --accept-contaminant "240 ppm"`, []string{"  s_f  950 ± 10 ppm = 0.095 ± 0.0010 %  feed-contaminant"}, nil},
		{`press-impulse --line-load "[80 110] ± 8 kN/m" --speed "600 m/min"`, []string{
			"\nUncertainty of nip-impulse[1], u = 0.80 kPa s, first order (JCGM 100:2008)\n  line-load[1]  0.80 kPa s  100.0 % of the variance\n\nUncertainty of nip-impulse[2], u = 0.80 kPa s,",
		}, []string{"Uncertainty of nip-impulse,"}},
		// What any value of a stretch gives is solved for as the stretch.
		{`desorption-heat --dryness-in ? --moisture-out "7.5 %" --temperature "90 degC" --model heikkila --sorption-heat-per-dry "12.216815124747848 kJ/kg"`,
			[]string{"  d_in  0 to 59.4989 %     dryness-in             solved for\n"}, []string{"e-3"}},
		{`white-point --condition C/2`, []string{"  X_n = 98.07\n  Z_n = 118.22\n  Y_n = 100\n"}, nil},
		{`bending-resistance --force "38 mN" --grammage "121.4 g/m2"`, []string{"  F_b = F\n      = 38 mN\n  F_i", "      = 38 mN/pow(121.4 g/m2, 3)\n"}, nil},
		{`stock-density --consistency "4.2 %" --temperature "48 degC"`, nil, []string{"0 %/(0 "}}, // no share of a filler whose density is 0
		{`tensile-stiffness --slope "112 N/mm" --span "100 mm" --thickness "168 um" --grammage "121.4 g/m²"`, []string{"  k  112 N/mm = 112 kN/m  "}, []string{"g/m² = "}},
		{`recycled-property --new-value "52 N.m/g" --plateau-value "34 N.m/g" --decay 0.55 --recovered-share "80 %"`, []string{"  y_0  52 N.m/g = 52 kN.m/kg  "}, nil},
		// A list has an uncertainty for each of its members, a count none that slopes tell.
		{`corrugator-use --area "24000 m2 ± 1 %" --sheet-width "2.24 m" --grammage "[140 105] g/m2" --take-up "[1 1.43]"`, []string{
			"Uncertainty of web-length[1], u = 110 m, first order (JCGM 100:2008)\n  area  110 m  100.0 % of the variance\n",
			"Uncertainty of web-length[2], u = 150 m, first order (JCGM 100:2008)\n  area  150 m  100.0 % of the variance\n",
			"Uncertainty of web-mass[2], u = 36 kg,",
		}, []string{"Uncertainty of web-length,", "Uncertainty of web-mass,"}},
		{`plan-trim-loss --deckle "3300 mm ± 1 %" --used-width "[3060 2900] mm" --runs "[3 2]"`, []string{"  N    5              sets               moves in steps: Monte Carlo gives its\n"}, []string{"Uncertainty of sets"}},
		// What was written is put in as it was written, and of two values that nearly cancel
		// enough digits are put in to find the difference.
		{`saleable-claim --invoiced-mass "25123.45 kg" --mass "25117.35 kg" --dryness "89.7234567 %"`, []string{
			"      = 25117.35 kg*89.7234567 %/90 %\n      = 25040.17183 kg\n", "      = 25123.45 kg - 25040.17183 kg\n      = 83.27816507 kg\n",
			"      = 83.2782 kg/25123.45 kg\n",
		}, nil},
		{`fresh-stock --sheet-dry-flow "13.4451 t/h" --overall-retention "98.98 %"`, []string{"      = (13.58365326 t/h) - (13.4451 t/h)\n"}, nil},
		// A symbol that has no value is an input that was left out.
		{`stock-density --consistency "4.2 %" --temperature "48 degC"`, []string{"  rho_a  left out    filler-density  of the filler, needed with a filler-share\n"}, []string{"water-density"}},
		{`trim-loss --deckle "3300 mm" --reel-width "[1080 820] mm"`, []string{"  n  left out       count       of each width; left out: one each\n"}, nil},
		// What comes of one source alone is as uncertain as its source makes it.
		{`trim-loss --deckle "3300 mm ± 1 %" --reel-width "[1080 820] mm" --count "[2 1]"`, []string{"Uncertainty of edge-width, u = 16 mm, first order (JCGM 100:2008)\n  deckle  16 mm  100.0 % of the variance\n"}, nil},
		{`critical-difference --repeatability-limit "0.06 kN/m" --reproducibility-limit "0.15 kN/m"`, []string{"Source: ISO 5725-6:1994 clause 4.2 (memory)\n"}, []string{"(memory) (memory)"}},
	} {
		r := called("", append(words(test.command), "--steps")...)
		if r.Status != done {
			t.Errorf("%s --steps: exit %d, %s", test.command, r.Status, r.Err)
		}
		for _, want := range test.want {
			if !strings.Contains(r.Out, want) {
				t.Errorf("%s --steps lacks %q:\n%s", test.command, want, r.Out)
			}
		}
		for _, not := range test.not {
			if strings.Contains(r.Out, not) {
				t.Errorf("%s --steps has %q:\n%s", test.command, not, r.Out)
			}
		}
	}
}

// What is neither input nor output in a formula is told on the page of a calculation and
// in a report too.
func TestValuesOnTheWay(t *testing.T) {
	for _, test := range []struct {
		command, want, not string
	}{
		{"explain pipe-friction", "\nValues on the way\n  v_1  ft/s  unit of speed of the coefficients\n  D_1  in    unit of diameter of the coefficients\n\nWhat", ""},
		{"explain dewatering", "  before(x) is the list x without its last member, after(x) without its first:\n  pairs of neighbours.\n  final(x) is", "Values on the way"},
		{"explain dilution", "  q_d = q_out*c_out\n\nWhat people", "Values on the way"},
		{`pipe-friction-onset --consistency "3 %" --steps=markdown`, "## Values on the way\n\n| symbol | value | meaning |\n| --- | --- | --- |\n| v_1 | 1 ft/s | unit of speed of the coefficients |\n", ""},
		{`pipe-speed --volume-flow "250 m3/h" --diameter "250 mm" --steps=markdown`, "## Solution", "## Values on the way"},
	} {
		r := called("", words(test.command)...)
		if r.Status != done || !strings.Contains(r.Out, test.want) || test.not != "" && strings.Contains(r.Out, test.not) {
			t.Errorf("%s: exit %d, want %q and no %q:\n%s", test.command, r.Status, test.want, test.not, r.Out)
		}
	}
}

// Markdown takes what stands between two asterisks for stressed, and drops them: they
// are products in a method, and L* is a name. Formulas stand in blocks of code.
func TestMarkdownKeepsProducts(t *testing.T) {
	for _, test := range []struct{ command, want string }{
		{`humid-air --temperature "84 degC" --wet-bulb "62 degC"`, "\nMethod: T in degC: X = ((2501 - 2.326\\*T_wb)\\*X_s - 1.006\\*(T - T_wb))/(2501 + "},
		{`humid-air --temperature "84 degC" --wet-bulb "62 degC"`, "```\nX = 0.621945*p_w/(p_a - p_w)\n"},
		{`colour-difference --lightness "[72 75]" --red-green "[4 5]" --yellow-blue "[14 12]"`, "| L | [72 75] | lightness | L\\*, two values: reference, sample |\n"},
		{`winder-time --length "6555 m" --speed "2400 m/min" --acceleration "0.5 m/s2" --change-time "3 min" --sets 3`, " takes 2\\*sqrt(L/a) (common-practice)\n"},
		{`profile --scan "[121.0 120.4 | 120.7 120.2] g/m2"`, "sums of squares SS_cd = n\\*sum((m_j - m)^2), SS_md = m\\*sum("},
	} {
		if r := called("", append(words(test.command), "--steps=markdown")...); r.Status != done || !strings.Contains(r.Out, test.want) {
			t.Errorf("%s: exit %d, want %q in\n%s%s", test.command, r.Status, test.want, r.Out, r.Err)
		}
	}
}

// A formula goes on below where it is wider than the terminal, and a list of what was
// given stands there whole.
func TestStepsFit(t *testing.T) {
	long := "[" + strings.TrimSpace(strings.Repeat("38.5 39.25 ", 20)) + "] g"
	for _, command := range []string{
		`mixing-temperature --mass-flow "[120 480] t/h" --consistency "[4.0 0.19] %" --temperature "[55 42] degC" --fibre-heat-capacity "1.4 kJ/(kg K)"`,
		`compare-samples --first-value "[2.31 2.24 2.42 2.28 2.36] kN/m" --second-value "[2.19 2.33 2.07 2.20] kN/m"`,
		`replicates --value "` + long + `"`,
		`tensile-stiffness --slope "112 N/mm ± 1 %" --span "100 mm" --thickness "168 um" --grammage "121.4 g/m2"`,
		`bending-resistance --force "38 mN ± 1 %" --grammage "121.4 g/m2"`,
	} {
		r := called("", append(words(command), "--steps")...)
		if r.Status != done {
			t.Errorf("%s --steps: exit %d, %s", command, r.Status, r.Err)
		}
		for line := range strings.Lines(r.Out) {
			if line = strings.TrimSuffix(line, "\n"); len([]rune(line)) > plain.Width {
				t.Errorf("%s --steps has a line of %d: %q", command, len([]rune(line)), line)
			}
		}
		if strings.Contains(command, long) && !strings.Contains(strings.Join(strings.Fields(r.Out), " "), "x = "+long) {
			t.Errorf("%s --steps does not tell what was given:\n%s", command, r.Out)
		}
	}
}

// What is wrong with a list that stands in a file is told with the file.
func TestListInFile(t *testing.T) {
	name := filepath.Join(t.TempDir(), "flows.txt")
	if err := os.WriteFile(name, []byte("1\n2\nx\n"), 0o600); err != nil {
		t.Fatal(err)
	}
	r := called("", "blend", "--mass-flow", "@"+name, "--consistency", "[1 2] %")
	if want := "millmaths: " + name + `: mass-flow "[1 2] x": unknown unit "x"`; r.Status != failed || !strings.HasPrefix(r.Err, want) {
		t.Errorf("exit %d, %s, want %s", r.Status, r.Err, want)
	}
}
