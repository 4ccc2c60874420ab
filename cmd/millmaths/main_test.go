package main

import (
	"bytes"
	"context"
	"encoding/json"
	"errors"
	"image/png"
	"io"
	"os"
	"path/filepath"
	"slices"
	"strings"
	"testing"
	"unicode/utf8"

	"github.com/google/go-cmp/cmp"

	"millmaths.example/paperprop/calc"
	"millmaths.example/paperprop/calc/plain"
	"millmaths.example/paperprop/catalogue"
)

// result of a command.
type result struct {
	Status   int
	Out, Err string
}

// run is the program but for the process.
func run(ctx context.Context, args []string, in io.Reader, out, err io.Writer) int {
	return newTerminal(in, out, err, new(process)).run(ctx, args)
}

func called(input string, args ...string) result {
	var out, err bytes.Buffer
	status := run(context.Background(), args, strings.NewReader(input), &out, &err)
	return result{status, out.String(), err.String()}
}

// What people see when they go wrong: what, where, the value as they wrote it,
// what would be taken.
func TestRefusals(t *testing.T) {
	for _, test := range []struct {
		command string
		status  int
		err     string
	}{
		{`dilutoin`, misused, `unknown command "dilutoin", near: dilution`},
		{`dilution --mass-flo "300 t/h"`, misused, `dilution has no flag --mass-flo, near: --mass-flow, --mass-flow-out`},
		{`dilution 300`, misused, `dilution: "300" is no flag, want --INPUT "VALUE UNIT"; a value with a space needs quotes`},
		{`dilution --mass-flow "1 t/h" --mass-flow "2 t/h"`, misused, `dilution: --mass-flow "2 t/h": given twice: "1 t/h" and "2 t/h", want one`},
		{`trim-loss --deckle "3300 mm" --reel-width "1450 mm" --reel-width "900 mm"`, misused, `trim-loss: --reel-width "900 mm": given twice: "1450 mm" and "900 mm", want one list: "1450 mm, 900 mm"`},
		{`trim-loss --deckle "3300 mm" --reel-width "[1450 900] mm" --reel-width "820 mm"`, misused, `trim-loss: --reel-width "820 mm": given twice: "[1450 900] mm" and "820 mm", want all values in one list`},
		{`dilution --monte-carlo many`, misused, `dilution: --monte-carlo "many": must be an integer`},
		{`dilution --mass-flow --consistency-in "4 %"`, misused, `dilution: --mass-flow "--consistency-in": that is a flag, want a value between the two`},
		{`batch dilution --mass-flow --full`, misused, `batch dilution: --mass-flow "--full": that is a flag, want a value between the two`},
		{`dilution --mass-flow 300`, failed, `mass-flow "300": unit missing, want t/h or kg/h`},
		{`dilution --mass-flow "300 t" --consistency-in "4 %" --consistency-out "1 %"`, failed, `mass-flow "300 t": "t" is no unit of mass flow, want t/h or kg/h`},
		{`dilution --mass-flow "300 t/h" --consistency-in "4,6 %" --consistency-out "1 %"`, failed, `consistency-in: number "4,6 %": decimal comma, write 4.6`},
		{`dilution --mass-flow "300 t/h" --consistency-in "450 %" --consistency-out "1 %"`, failed, `consistency-in is 450 %, want above 0 % and at most 100 %`},
		{`dilution --mass-flow "300 t/h" --consistency-in "46 g/kg" --consistency-out "60 g/kg"`, failed, `consistency-out is 60 g/kg, want above water-consistency 0 g/kg and at most consistency-in 46 g/kg`},
		{`dilution --mass-flow "300 t/h" --consistency-in "4.6 %"`, misused, `consistency-out is missing, want a consistency such as 1 %`},
		{`dilution --mass-flow "300 t/h"`, misused, `consistency-in is missing, want a consistency such as 1 %; missing too: consistency-out`},
		{`dilution`, misused, `mass-flow is missing, want a mass flow such as 1 t/h; missing too: consistency-in, consistency-out`},
		{`dilution --mass-flow "300 t/h" --consistency-in "3.5-4 %" --consistency-out "1 %"`, failed, `consistency-in "3.5-4 %": a dash makes no range, want 3.5..4 %`},
		{`dilution --mass-flow "300 t/h" --consistency-in "3..4 %" --consistency-out "1 %" --steps`, misused, `consistency-in is a range, which makes a table without --steps: give one value for that`},
		{`dilution --mass-flow "300 t/h" --consistency-in "3..4 %" --consistency-out "1 %" --monte-carlo 1000`, misused, `consistency-in is a range, which makes a table without --monte-carlo: give one value for that`},
		{`dilution --mass-flow "300 t/h" --consistency-in "3..4 %" --consistency-out "1 %" --second-order`, misused, `consistency-in is a range, which makes a table without --second-order: give one value for that`},
		{`dilution --mass-flow "300 t/h" --consistency-in "3..4 %" --consistency-out "1 %" --expanded 95%`, misused, `consistency-in is a range, which makes a table without --expanded: give one value for that`},
		{`dilution --mass-flow "300 t/h" --consistency-in "3..4 %" --consistency-out "1 %" --of water-flow`, misused, `--of water-flow names the output of a range that --plot draws: give an input as 3..5 and its unit, and --plot FILE`},
		{`dilution --mass-flow "300 t/h" --consistency-in "4 %" --consistency-out "1 %" --of water-flow`, misused, `--of water-flow names the output of a range that --plot draws: give an input as 3..5 and its unit, and --plot FILE`},
		{`dilution --mass-flow "300 t/h" --consistency-in "4 %" --consistency-out "1 %" --steps markdown`, misused, `dilution: for a report want --steps=markdown, with an equals sign`},
		{`reel-mass --diameter "1200 mm" --core-diameter "100 mm" --mass "2000 kg" --reel-width "2.4 m" --grammage "120 g/m2"`, failed, `mass is an output and no required input is left out: leave one out, or give the one asked for as ?, such as length or reel-thickness`},
		{`tensile --force "-5 N" --grammage "80 g/m2"`, failed, `force is -5 N, want above 0 N`},
		{`tensile --force "85 lb" --grammage "80 g/m2"`, failed, `force "85 lb": "lb" is no unit of force, want lbf`},
		{`moisture --moist-mass "50 g" --dry-mass "60 g"`, failed, `dry-mass is 60 g, want at most moist-mass 50 g`},
		{`stock-density --consistency "4 %" --temperature "20 degC" --water-density "998 kg/m3"`, misused, `want exactly 1 of water-density, temperature, given: water-density, temperature`},
		{`stock-density --consistency "4 %" --temperature "20 degC" --fibre-density "0 kg/m3"`, failed, `fibre-density is 0 kg/m3, want above 0 kg/m3`},
		{`grammage --mass "12 g" --length "250 mm"`, misused, `want exactly 1 of area, (length,width), given: length`},
		{`tear --reading "24 gf" --pendulum-factor 16 --plies 4.5 --grammage "115 g/m2"`, failed, `plies is 4.5, want a whole number`},
		{`round --value 5 --step 0.1 --tie up`, failed, `tie is "up", want even or away`},
		{`cobb --mass-in "1 g" --mass-out "2 g" --cobb "50 g/m2" --time ?`, failed, `cobb does not depend on time`},
		{`pulping --bale-flow "990.5 t/h" --bale-moisture "8 %" --reject-rate "97 %" --consistency "18.3 %" --reject-dryness ? --stock-dry-flow "27.3378 t/h"`, failed, `stock-dry-flow does not depend on reject-dryness`},
		{`pulping-batch --bale-mass "1240 kg" --bale-moisture "11.5 %" --reject-rate "99 %" --consistency "4.2 %" --reject-dryness ? --stock-mass "261.2857143 kg"`, failed, `stock-mass does not depend on reject-dryness`},
		{`retention --headbox-consistency "0.8 %" --first-pass-retention "120 %"`, failed, `no tray-consistency between 0 % and 100 % gives first-pass-retention 120 %`},
		{`convert "3 ton" kg`, failed, `"ton" is ambiguous: t, short ton or long ton`},
		{`convert "-500 degC" K`, failed, `value is -500 degC, want at least -273.15 degC`},
		{`cobb --mass-in "1 g" --mass-out "2 g" --time "60 s" --source balance=1mg`, misused, `source balance is used by no input: write ± balance after a value`},
		{`convert "25 lb/in" kN/m`, failed, `"kN/m" is no unit of coarseness (lb is a mass, a force is lbf: 25 lbf/in)`},
		{`convert "5 kg" g --steps`, misused, `convert has no --steps: it has --full, --json and --help`},
		{`convert "5 kg" ""`, misused, `convert takes a value and units: millmaths convert "42 lb/1000ft2" g/m2`},
		{`tensile --force "38 1" --grammage "80 g/m2"`, failed, `force "38 1": "1" is no unit of force, want N or mN`},
		{`tensile --force "38 39 N" --grammage "80 g/m2"`, failed, `force "38 39 N": want one number, not a list`},
		{`shares --part "[1 -2 3] t"`, failed, `part[2] is -2 t, want at least 0 t`},
		{`shares --part "[1 2] t" --step "3 %"`, failed, `step is 3 %, want a step that divides 100 % without remainder, such as 0.1 %`},
		{`interpolate --x "[1 2 3] mm" --y "[1 2 3] N" --at "5 mm"`, failed, `at is 5 mm, want 1 mm to 3 mm: beyond the ends nothing is known`},
		{`interpolate --x "[50 60] %" --y "[1 0.9]" --at "75 %"`, failed, `at is 75 %, want 50 % to 60 %: beyond the ends nothing is known`},
		{`interpolate --x "[1 3 2] mm" --y "[1 2 3] N" --at "2 mm"`, failed, `x is 2 mm, want above the 3 mm before it: the table must rise`},
		{`precision-limits --mean "5 N" --repeatability-deviation "3 N" --reproducibility-deviation "2 N" --factor 2.8`, failed, `reproducibility-deviation is 2 N, want at least repeatability-deviation 3 N, which it includes`},
		{`grubbs --value "5..7 N" --side either`, failed, `value "5..7 N": a list can't run through a range, want its values, such as [5 6 7] and their unit`},
		{`md-cd --md-value "5..7 N" --cd-value "3 N"`, failed, `md-value "5..7 N": an input of any unit can't run through a range, want one value with its unit`},
		{`dilution --mass-flow "1 t/h" --consistency-in "4 %" --consistency-out "1..2 %" --plot x.svg --of zzz`, misused, `unknown output "zzz", want one of water-flow, mass-flow-out, dry-flow-out`},
		{`convert 300 t/h kg/s`, failed, `value "300": unit missing; a value with a space needs quotes: "300 t/h"`},
		{`convert 300 m kg/s`, failed, `value "300": unit missing; a value with a space needs quotes: "300 m"`},
		{`convert 300 zz`, failed, `value "300": unit missing`},
		{`explain`, misused, `explain takes the name of one calculation, and millmaths list shows them: millmaths explain cobb`},
		{`explain batch`, misused, `batch is a command and no calculation; see millmaths batch --help`},
		{`cobb --output x`, misused, `cobb has no flag --output; see millmaths cobb --help`},
		{`batch cobb --output x`, misused, `batch cobb has no flag --output, near: --out`},
		{`batch cobb --out -`, misused, `--out -: want the name of a file; without --out the rows go to standard output`},
		{`batch cobb -o x`, misused, `batch cobb has no flag -o; see millmaths batch cobb --help`},
		{`tensile --grammage-top "80 g/m2"`, misused, `tensile has no flag --grammage-top, near: --grammage`},
		{`cobb60`, misused, `unknown command "cobb60", near: cobb; millmaths list cobb60 shows what has to do with it`},
		{`convert "5 kg"`, misused, `convert takes a value and units: millmaths convert "42 lb/1000ft2" g/m2`},
		{`explain dilutoin`, misused, `unknown calculation "dilutoin", near: dilution`},
		{`explain starch`, misused, `unknown calculation "starch"; millmaths list starch shows what has to do with it`},
		{`Starch`, misused, `unknown command "Starch"; millmaths list Starch shows what has to do with it`},
		{`explain qqqqqqqq`, misused, `unknown calculation "qqqqqqqq"; millmaths list shows all calculations`},
		{`batch dilution no-such-file.csv`, failed, `open no-such-file.csv: no such file or directory`},
		{`batch convert ../../examples/quillbeck/tensile.txt --quiet`, failed, `convert is a tool and takes no table: see millmaths convert --help; batch convert --jsonl takes one JSON object per line`},
		{`verify no-such-file.csv`, failed, `open no-such-file.csv: no such file or directory`},
		{`production --grammage "120 g/m2" --sheet-width "3 m" --speed "4..7 m/min by 0 m/min"`, failed, `speed "4..7 m/min by 0 m/min": step 0 m/min, want above zero`},
		{`production --grammage "120 g/m2" --sheet-width "3 m" --speed "400..700 m/min" --plot curve.gif`, misused, `--plot curve.gif, want a file that ends in .svg or .png`},
		{`dryer-groups --dryness-in "40..50 %" --moisture-out "4 %" --gauge-pressure "[0.4 1.8 3.2] bar(g)" --cylinders "[8 11 13]" --web-temperature "85 degC" --plot curve.svg`, misused, `dryer-groups gives only lists, which have no column and no curve: --json shows them along a range`},
		{`dryer-groups --dryness-in "40..50 %" --moisture-out "4 %" --gauge-pressure "[0.4 1.8 3.2] bar(g)" --cylinders "[8 11 13]" --web-temperature "85 degC"`, misused, `dryer-groups gives only lists, which have no column and no curve: --json shows them along a range`},
		{`precision --result "[1 2 | 3 4] kN/m" --factor 2.8 --unit mean=g`, failed, `mean "g": kN/m is a unit of force per length and g a unit of mass: one cannot be converted into the other`},
		{`precision --result "[1 2 | 3 4] g" --factor 2.8 --unit middle=kg`, misused, `--unit middle=kg: no output has that name`},
		{`precision --result "[1 2 | 3 4] g"`, misused, `factor is missing, want a number: 2.8 (ISO 5725, ASTM), 2.77 (TAPPI, memory), 2.771808 exact: no default`},
		{`precision --result "[1 2 | 3 4] g" --factor 2.8 --csv`, misused, `precision has no --csv: a tool has --json and --steps=markdown`},
		{`profile --steps --scan "[1 2 | 3 4] g"`, misused, `profile has no --steps: a tool has --json and --steps=markdown`},
		{`propagate --model c=a+b --method first-order --a "100 ± 1 EUR/t" --b "90 ± 1 USD/t"`, failed, `b "90 ± 1 USD/t": a is in EUR, want one currency`},
		{`propagate --csv --model y=2*a --method first-order --a "1 g"`, misused, `propagate has no --csv: a tool has --json and --steps=markdown`},
		{`propagate --model y=2*a --method first-order --a "1 g" --steps=pdf`, misused, `propagate has no --steps: a tool has --json and --steps=markdown`},
		{`dilution --seed 7 --mass-flow "300 ± 3 t/h" --consistency-in "4 %" --consistency-out "1 %"`, misused, `--seed is for draws: give --monte-carlo N, or leave it out`},
		{`dilution --workers 2 --mass-flow "300..400 t/h" --consistency-in "4 %" --consistency-out "1 %"`, misused, `--workers is for draws: give --monte-carlo N, or leave it out`},
		{`dilution --steps=pdf`, misused, `--steps=pdf, want --steps or --steps=markdown`},
		{`dilution --json --csv`, misused, `want one of --json, --csv and --steps`},
		{`dilution --steps --json`, misused, `want one of --json, --csv and --steps`},
		{`dilution --csv --steps=markdown`, misused, `want one of --json, --csv and --steps`},
	} {
		r := called("", words(test.command)...)
		if r.Status != test.status || r.Err != "millmaths: "+test.err+"\n" || r.Out != "" {
			t.Errorf("millmaths %s\n exit %d, want %d\n said %q\n want %q\n out  %q", test.command, r.Status, test.status, r.Err, "millmaths: "+test.err+"\n", r.Out)
		}
	}
}

// An error of a tool names its input to a program, as one of a calculation does, and
// ends with the same status as in plain words.
func TestToolErrorsInJSON(t *testing.T) {
	const model = `propagate --model "g = m/l" --m "5 g ± 1 g" `
	for _, test := range []struct {
		command string
		status  int
		err     string
	}{
		{`propagate --method first-order --m "5 g"`, misused, `"code":"missing","input":"model","text":"model is missing, want a text: NAME = FORMULA, several separated by bars"`},
		{`propagate --model "g = (m" --method first-order --m "5 g"`, failed, `"code":"text","input":"model","text":"model: formula \"g = (m\": want ) after \"(m\""`},
		{model + `--l "3 mm"`, misused, `"code":"missing","input":"method","text":"method is missing, want first-order, second-order or monte-carlo: no default"`},
		{model + `--l "3 mm" --method guess`, failed, `"code":"word","input":"method","text":"method is \"guess\", want first-order, second-order or monte-carlo"`},
		{model + `--l "3 mm" --method first-order --correlation none`, failed, `"code":"word","input":"correlation","text":"correlation is \"none\", want ignored"`},
		{model + `--method first-order`, misused, `"code":"missing","input":"l","text":"l is missing, want a number in any unit"`},
		{model + `--l "3 q" --method first-order`, failed, `"code":"text","input":"l","text":"l \"3 q\": unknown unit \"q\""`},
		{model + `--l "0 mm" --method first-order`, failed, `"code":"range","input":"g","text":"g is not finite for these inputs: out of range"`},
		{model + `--l "3 mm" --method first-order --df(m) -1`, failed, `"code":"refused","input":"df(m)","text":"df(m) is -1, want above 0"`},
		{model + `--l "3 mm" --method first-order --corr(m,l) 2`, failed, `"code":"refused","input":"corr(m,l)","text":"corr(m,l) is 2, want -1 to 1"`},
		{model + `--l "3 mm" --method first-order --corr(m,l) much`, failed, `"code":"text","input":"corr(m,l)","text":"corr(m,l): number \"much\": no digits"`},
		{model + `--l "3 mm" --method first-order --corr(m,m) 1`, failed, `"code":"text","input":"corr(m,m)","text":"corr(m,m) \"1\": no input of the model, want df(NAME) or corr(NAME,NAME)"`},
		{model + `--l "3 mm" --method first-order --unit g=kg`, failed, `"code":"text","input":"g","text":"g \"kg\": mg/m is a unit of coarseness and kg a unit of mass: one cannot be converted into the other"`},
		{`propagate --model "g = m/l" --method first-order --m "[1 2 3] g" --l "[3 4] mm"`, failed, `"code":"length","input":"l","text":"l has 2 values, want 3, as many as m"`},
		{`propagate --model "g = m/l" --method second-order --m "[1 2 4] g" --l "[3 4 5] mm"`, failed, `"code":"refused","input":"method","text":"method is second-order, want first-order or monte-carlo: inputs are correlated"`},
		{`precision --result "[1 2 | 3 four] g" --factor 2.8`, failed, `"code":"text","input":"result","text":"result: row 2, reading 2: number \"four\": no digits"`},
		{`precision --result "[1 2 | 3 -] g" --factor 2.8`, failed, `"code":"input","input":"result","text":"result: laboratory 2, result 2: missing, leave it out: rows may differ in length"`},
		{`precision`, misused, `"code":"missing","input":"result","text":"result is missing, want rows in brackets, such as [1 2 3 | 4 5 6] g"`},
		{`profile --scan @no-such-file.csv`, failed, `"code":"input","text":"scan: open no-such-file.csv: no such file or directory"`},
	} {
		r := called("", append(words(test.command), "--json")...)
		if r.Status != test.status || !strings.HasSuffix(r.Out, `"error":{`+test.err+"}}\n") || (r.Err == "") != (test.status == failed) {
			t.Errorf("millmaths %s\n exit %d, want %d\n out  %s want %s\n said %q", test.command, r.Status, test.status, r.Out, test.err, r.Err)
		}
	}
	const lines = `{"value":"42 lb"}` + "\n" + `{"value":"42 lb","to":"mm"}` + "\n" + `{"value":"42 lb","to":"zork"}` + "\n"
	const want = `{"code":"missing","line":1,"input":"to","text":"to is missing, want a text: the unit wanted"}
{"code":"text","line":2,"input":"value","text":"value \"42 lb\": \"mm\" is no unit of mass, want kg or mg"}
{"code":"text","line":3,"input":"to","text":"to: unknown unit \"zork\", near: Torr"}
`
	r := called(lines, "batch", "convert", "--jsonl")
	got := strings.NewReplacer(`{"calculation":"convert","version":"`+calc.Version+`","error":`, "", "}}", "}").Replace(r.Out)
	if r.Status != failed || got != want {
		t.Errorf("exit %d, %s want %s", r.Status, got, want)
	}
}

// What a result is not to be read without stands below it, in CSV too; a default says
// that it is one.
func TestLabels(t *testing.T) {
	for _, test := range []struct{ command, out string }{
		{`edge-crush --force "518 N" --length "100 mm" --method iso-3037`, "edge-crush  5.2 kN/m  reported to step 0.1 (memory)\nmethod      iso-3037  as given\n"},
		// 48/7 degrees of freedom (Welch and Satterthwaite, by hand)
		{`cobb --mass-in "1.354 ± 0.001 g" --mass-out "1.667 ± 0.001 g" --time "60 s" --freedom mass-in=3 --freedom mass-out=4 --expanded 95% --steps`,
			"k = 2.37 (95 %, 6.9 degrees of freedom, not cut to 6)\n"},
		{`cobb --mass-in "1.354 ± 0.001 g" --mass-out "1.667 g" --time "60 s" --freedom mass-in=3 --expanded 95% --steps`, "k = 3.18 (95 %, 3 degrees of freedom)\n"},
		{`edge-crush --force "518..520 N by 2 N" --length "100 mm" --method iso-3037 --csv`, "force [N],edge-crush [kN/m]\n518,5.2\n520,5.2\n"},
		{`edge-crush --force "518..520 N by 2 N" --length "100 mm" --method iso-3037 --csv --full`, "force [N],edge-crush [kN/m]\n518,5.18\n520,5.2\n"},
		{`edge-crush --help`, "  --csv           for tables, unrounded; a range as reported, unrounded with\n                  --full\n"},
		{`edge-crush --force "518 N" --length "100 mm" --method iso-3037 --csv`, "output,value,unit,u,reported\nedge-crush,5.18,kN/m,,5.2 kN/m\nmethod,iso-3037,,,iso-3037\n"},
		{`basis-weight --grammage "80 g/m2" --ream bristol`, "basis-weight  36.4829 lb\nream-area     2226.56 ft2\nream          bristol      as given: 500 sheets of 22.5 x 28.5 in\n"},
		{`basis-weight --grammage "80 g/m2" --ream ft2-3300`, "basis-weight  54.0715 lb\nream-area     3300 ft2\nream          ft2-3300    as given: 3300 ft2\n"},
		{`basis-weight --grammage "80 g/m2" --ream ft2-1000`, "as given: 1000 ft2\n"},
		{`basis-weight --grammage "80 g/m2" --ream tissue --csv`, "ream-area,2880,ft2,,2880 ft2\nream,tissue,,,tissue: 480 sheets of 24 x 36 in\n"},
		{`box-compression --edge-crush "4.9 kN/m" --perimeter "1.32 m" --thickness "3.9 mm" --constant 5.876`, "constant            5.876      as given\n"},
		{`box-compression --edge-crush "4.9 kN/m" --perimeter "1.32 m" --thickness "3.9 mm"`, "constant            5.87       default\n"},
		{`reel-mass-by-factor --diameter "1250 mm" --core-diameter "100 mm" --reel-width "1080 mm" --reel-factor "0.018 lb/in3"`, "reel-factor   0.018 lb/in3   as given\n"},
		{`reel --length "5000 m" --diameter "1250 mm" --core-diameter "100 mm"`, "reel-thickness  243.866 um  in the reel, not the tester's\n"},
		{`reel --length "5000 ± 3 m" --diameter "1250 mm" --core-diameter "100 mm"`, "reel-thickness  243.87 um  u = 0.15 um; in the reel, not the tester's\n"},
		{`reel --length "5000 m" --diameter "1250 mm" --core-diameter "100 mm" --json`, `"unit":"um","remark":"in the reel, not the tester's"}`},
		{`roll-density --mass "2 t" --diameter "1250 mm" --core-diameter "100 mm" --reel-width "2240 mm" --grammage "120 g/m2" --steps`, "reel-thickness  in the reel, not the tester's\n"},
		{`gurley --time "10 s" --gurley-constant "127 um/Pa" --csv`, "gurley-constant,127,um/Pa,,127 um/Pa\n"},
	} {
		if r := called("", words(test.command)...); r.Status != done || !strings.Contains(r.Out, test.out) {
			t.Errorf("millmaths %s\n exit %d, said\n%s%s want\n%s", test.command, r.Status, r.Out, r.Err, test.out)
		}
	}
}

// The call at the top of each --help works as it stands.
func TestHelpExamplesRun(t *testing.T) {
	for _, name := range catalogue.Names() {
		if name == "convert" {
			continue
		}
		help := called("", name, "--help")
		if help.Status != done || help.Err != "" {
			t.Errorf("millmaths %s --help: exit %d, %s", name, help.Status, help.Err)
			continue
		}
		_, rest, _ := strings.Cut(help.Out, "\n\n  millmaths ")
		example, _, ok := strings.Cut(rest, "\n\n")
		if !ok {
			t.Errorf("%s --help begins with no example:\n%s", name, help.Out)
			continue
		}
		r := called("", words(strings.Join(strings.Fields(strings.ReplaceAll(example, "\\\n", " ")), " "))...)
		if r.Status != done || r.Out == "" {
			t.Errorf("millmaths %s: exit %d, %s", example, r.Status, r.Err)
		}
		c, _ := catalogue.Find(name)
		if batch := called("", "batch", name, "--help"); !c.Info().Tool && (batch.Status != done || batch.Err != "") {
			t.Errorf("millmaths batch %s --help: exit %d, %s", name, batch.Status, batch.Err)
		}
		for _, line := range strings.Split(help.Out+called("", "explain", name).Out, "\n") {
			if len([]rune(line)) > 80 && !strings.Contains(line, "|") {
				t.Errorf("%s: line of %d columns: %s", name, len([]rune(line)), line)
			}
		}
	}
}

func TestEveryFaceOfEveryCalculation(t *testing.T) {
	for _, g := range catalogue.Groups() {
		for _, c := range g.Calculations {
			info := c.Info()
			if r := called("", "explain", info.Name); r.Status != done || !strings.Contains(r.Out, "\nSource: ") {
				t.Errorf("explain %s: exit %d, %s", info.Name, r.Status, r.Err)
			}
			if info.Tool {
				continue
			}
			args := []string{info.Name}
			pairs, err := calc.ParsePairs(info.Example)
			if err != nil {
				t.Fatal(err)
			}
			for _, p := range pairs {
				args = append(args, "--"+p.Name, p.Text)
			}
			for _, face := range []string{"--steps", "--steps=markdown", "--csv", "--full"} {
				if r := called("", append(args, face)...); r.Status != done || strings.Contains(r.Out, "NaN") {
					t.Errorf("%s %s: exit %d, %s", info.Name, face, r.Status, r.Err)
				}
			}
			r := called("", append(args, "--json")...)
			var answer struct {
				Calculation, Version, Source, Kind string
				Outputs                            map[string]any
			}
			if err := json.Unmarshal([]byte(r.Out), &answer); err != nil || answer.Calculation != info.Name || len(answer.Outputs) == 0 || answer.Kind == "" {
				t.Errorf("%s --json: %v: %s", info.Name, err, r.Out)
			}
			var schema map[string]any
			if r := called("", "schema", info.Name); json.Unmarshal([]byte(r.Out), &schema) != nil || schema["version"] != calc.Version {
				t.Errorf("schema %s: exit %d: %s", info.Name, r.Status, r.Out)
			}
		}
	}
	if r := called("", "schema"); !json.Valid([]byte(r.Out)) {
		t.Errorf("schema of all is no JSON: %s", r.Err)
	}
}

// What the trade calls by three letters is found by them, and by words of the mill; words that stand nowhere as they
// do here are found apart; a hyphen is a blank, and so are two of them.
func TestListWords(t *testing.T) {
	for word, names := range map[string][]string{
		"ECT":                  {"edge-crush", "edge-crush-estimate", "box-compression", "box-compression-full"},
		"BCT":                  {"box-compression", "box-compression-full", "stacking", "stack-offset"},
		"SCT":                  {"strength-index", "short-span", "edge-crush-estimate"},
		"RCT":                  {"strength-index", "ring-crush", "edge-crush-estimate"},
		"CCT":                  {"strength-index", "corrugated-crush"},
		"CMT":                  {"fluted-crush"},
		"FCT":                  {"flat-crush"},
		"porosity":             {"air-permeance", "air-permeance-flow", "gurley"},
		"Bendtsen":             {"air-permeance-flow"},
		"sizing":               {"cobb"},
		"gsm":                  {"grammage"},
		"refining energy":      {"refining"},
		"specific evaporation": {"steam-use"},
		"evaporation rate":     {"drying-rate", "contact-drying-rate", "cylinders-needed", "sheet-evaporation"},
		"white-water":          {"dilution", "dilution-batch", "thick-stock", "retention", "retention-two-product", "loop-retention", "loop-ash"},
		"first pass":           {"thick-stock", "retention", "retention-two-product", "filler-retention", "loop-retention", "loop-ash", "fresh-stock", "headbox-flow"},
		"steam  use":           {"steam-use", "heat-use"},
		"refining qqqqqqqq":    {},
		"caliper":              {"density", "tensile-stiffness", "plate-stiffness", "box-compression", "compression-factor"},
		"ash":                  {"fibre-consistency", "chest-response", "filler-retention", "loop-ash", "ash", "filler-content", "filler-two-temperatures", "ply-value"},
		"ISO 535":              {"cobb"},
	} {
		r := called("", "list", word)
		var got []string
		for _, row := range strings.Split(r.Out, "\n") {
			if strings.HasPrefix(row, "  ") && row[2] != ' ' {
				got = append(got, strings.Fields(row)[0])
			}
		}
		if !slices.Equal(got, names) {
			t.Errorf("list %s: %q, want %q", word, got, names)
		}
	}
}

func TestConvertTellsWhereUnitsAre(t *testing.T) {
	r := called("", "convert", "--help")
	if r.Status != done || !strings.Contains(r.Out, "all stand with their factors\nin paperprop/units.csv") {
		t.Errorf("exit %d: %s", r.Status, r.Out)
	}
	for line := range strings.Lines(r.Out) {
		if len([]rune(line)) > plain.Width+1 {
			t.Errorf("wider than the terminal: %s", line)
		}
	}
}

// For programs a conversion answers as every calculation does, and for several units as
// a range does.
func TestConvertJSON(t *testing.T) {
	const (
		about = `{"calculation":"convert","version":"` + calc.Version + `",`
		from  = `,"source":"exact factors: SI Brochure, NIST Handbook 44 App. C, NIST SP 811 (2008) App. B.8, GNU units 2.22","kind":"published"}`
		grams = about + `"inputs":{"value":"42 lb/1000ft2","to":"g/m2"},"outputs":{"value":{"value":205.0619607280881,"unit":"g/m2"}}` + from
		ream  = about + `"inputs":{"value":"42 lb/1000ft2","to":"lb/3000ft2"},"outputs":{"value":{"value":126,"unit":"lb/3000ft2"}}` + from
	)
	for _, test := range []struct {
		command string
		status  int
		out     string
	}{
		{`convert --json "42 lb/1000ft2" g/m2`, done, grams},
		{`convert "42 lb/1000ft2" g/m2 lb/3000ft2 --json`, done, "[" + grams + "\n," + ream + "\n]"},
		{`convert "-40 degF" degC --json --full`, done, about + `"inputs":{"value":"-40 degF","to":"degC"},"outputs":{"value":{"value":-40,"unit":"degC"}}` + from},
		{`convert "3 kg" g ton --json`, failed, about + `"error":{"code":"text","input":"to","text":"to: \"ton\" is ambiguous: t, short ton or long ton"}}`},
	} {
		if r := called("", words(test.command)...); r.Status != test.status || r.Out != test.out+"\n" || r.Err != "" {
			t.Errorf("millmaths %s: exit %d, said %q, printed\n%s want\n%s", test.command, r.Status, r.Err, r.Out, test.out)
		}
	}
}

// A list that is empty is an answer, and people read it; no output that is a text or a
// list is offered to solve for an input.
func TestNone(t *testing.T) {
	chart := []string{"control-chart", "--value", "[70 71 70 71] g/m2"}
	for _, test := range []struct {
		flags []string
		want  string
	}{
		{nil, "moving-range-limit  3.26653 g/m2\noutside             none\n"},
		{[]string{"--steps"}, "  i     none               outside\n"},
		{[]string{"--steps=markdown"}, "| i | none | outside |  |\n"},
	} {
		if r := called("", append(slices.Clone(chart), test.flags...)...); r.Status != done || !strings.Contains(r.Out, test.want) {
			t.Errorf("%v: exit %d, printed\n%s%s want\n%s", test.flags, r.Status, r.Out, r.Err, test.want)
		}
	}
	if r := called("", "shares", "--help"); !strings.Contains(r.Out, "\nOutputs\n  share  list, %  add up to 100 % exactly\n") {
		t.Errorf("shares --help:\n%s", r.Out)
	}
}

// A number without a unit is told as one on the page of a tool.
func TestToolsTellNumbers(t *testing.T) {
	r := called("", "explain", "propagate")
	for _, name := range []string{"df(NAME)", "corr(NAME,NAME)"} {
		if n := strings.Count(r.Out, name+" "); n != 2 || strings.Count(strings.Join(strings.Fields(r.Out), " "), name+" number ") != n {
			t.Errorf("%s, in and out, is no number:\n%s", name, r.Out)
		}
	}
}

// What a page must say: whence a number is taken, what a symbol of a formula is.
func TestPagesSay(t *testing.T) {
	for name, want := range map[string]string{
		"flat-crush":           "flat-crush ISO 3035: its rule of rounding was not seen, none applied",
		"pin-adhesion":         "pin-adhesion no method was seen, no rule applied",
		"stacking":             "g_0 is standard gravity, 9.80665 m/s2",
		"precision-limits":     "2.77 (TAPPI, memory)",
		"precision":            "2.77 (TAPPI, memory)",
		"expanded-uncertainty": "a little smaller than at 11, to which the GUM cuts (memory)",
		"notation":             "reported 2.342(43) kN/m",
		"z-strength":           "greatest, through the thickness",
		"tear":                 "A reading in gf is given as gf: as mN it is 9.8 times too small.",
	} {
		if r := called("", "explain", name); !strings.Contains(strings.Join(strings.Fields(r.Out), " "), want) {
			t.Errorf("explain %s lacks %q:\n%s", name, want, r.Out)
		}
	}
}

// The page of a tool gives the answer of its example.
func TestToolsAreExplained(t *testing.T) {
	for name, want := range map[string]string{
		"convert":   "  millmaths convert \"42 lb/1000ft2\" g/m2\n\nvalue  205.062 g/m2\n",
		"precision": "mean                       2.32889 kN/m\n",
		"profile":   "mean                      120.308 g/m2\n",
		"propagate": "g        117.42 g/m2\nu(g)     0.215048 g/m2\n",
	} {
		if r := called("", "explain", name); r.Status != done || !strings.Contains(r.Out, want) {
			t.Errorf("explain %s: exit %d, want in it %q\n%s%s", name, r.Status, want, r.Out, r.Err)
		}
	}
}

func TestPictures(t *testing.T) {
	dir := t.TempDir()
	for _, name := range []string{"curve.svg", "curve.png"} {
		file := filepath.Join(dir, name)
		r := called("", "retention", "--headbox-consistency", "0.8 %", "--tray-consistency", "0.1..0.3 %", "--plot", file)
		if r.Status != done {
			t.Fatalf("exit %d, %s", r.Status, r.Err)
		}
		data, err := os.ReadFile(file)
		if err != nil {
			t.Fatal(err)
		}
		if name == "curve.svg" && !bytes.Contains(data, []byte("first-pass-retention [%]")) {
			t.Errorf("%s does not name its axis with the unit", name)
		}
		if name == "curve.png" {
			if picture, err := png.Decode(bytes.NewReader(data)); err != nil || picture.Bounds().Dx() < 300 {
				t.Errorf("%s: %v", name, err)
			}
		}
	}
	if left, _ := filepath.Glob(filepath.Join(dir, ".millmaths-*")); len(left) > 0 {
		t.Errorf("left behind: %v", left)
	}
}

func TestJSONLines(t *testing.T) {
	in := `{"headbox-consistency":"0.8 %","tray-consistency":{"value":0.2,"unit":"%","u":0.01}}

{"headbox-consistency":"0.8 %","tray-consistency":"0.2 %","tray-consistency":"0.3 %"}
{"headbox-consistency":"0.8 %","tray":"0.2 %"}
{"headbox-consistency":"0.2 %","tray-consistency":"0.8 %"}
[1]
`
	r := called(in, "batch", "retention", "--jsonl")
	lines := strings.Split(strings.TrimSpace(r.Out), "\n")
	if len(lines) != 5 || r.Status != failed {
		t.Fatalf("%d lines, exit %d:\n%s", len(lines), r.Status, r.Out)
	}
	for i, want := range []string{
		`"first-pass-retention":{"value":75,"unit":"%","u":1.25}`,
		`"error":{"code":"input","line":3,"text":"tray-consistency is given twice, want it once"}`,
		`"error":{"code":"name","line":4,"input":"tray","text":"retention has no input or output \"tray\", near: tray-consistency"}`,
		`"error":{"code":"refused","line":5,"input":"tray-consistency","text":"tray-consistency is 0.8 %, want at most headbox-consistency 0.2 %"}`,
		`"error":{"code":"input","line":6,"text":"JSON: begins with '[', want a JSON object such as {\"mass-flow\":\"300 t/h\"}"}`,
	} {
		if !strings.Contains(lines[i], want) {
			t.Errorf("line %d is %s\n want in it %s", i+1, lines[i], want)
		}
	}
	help := strings.Join(strings.Fields(called("", "batch", "retention", "--help").Out), " ")
	if want := "an answer a line out, in order; an empty line has none, and an error tells its line"; !strings.Contains(help, want) {
		t.Errorf("the help does not say %q:\n%s", want, help)
	}
}

// A line that is too long, or half an object, ends no stream: the next is answered.
// The mark at the beginning of a text of UTF-8 belongs to no object.
func TestJSONLinesGoOn(t *testing.T) {
	good := `{"headbox-consistency":"0.8 %","tray-consistency":"0.2 %"}`
	long := strings.Repeat(" ", maxLine+1-len(good)) + good
	in := "\ufeff" + good + "\r\n" + long + "\n" + long[1:] + "\n" + strings.Repeat("x", 3*maxLine) + "\n{\"headbox-consistency\":\n\"0.8 %\"}\n" + good
	r := called(in, "batch", "retention", "--jsonl")
	lines := strings.Split(r.Out, "\n")
	answer := `"first-pass-retention":{"value":75,"unit":"%"}`
	wants := []string{
		answer,
		`"error":{"code":"input","line":2,"text":"more than 1048576 bytes in a line, want fewer"}`,
		answer,
		`"error":{"code":"input","line":4,"text":"more than 1048576 bytes in a line, want fewer"}`,
		`"error":{"code":"input","line":5,"text":"JSON: headbox-consistency: the object has no end, want it whole, and in a stream of lines in one line"}`,
		`"error":{"code":"input","line":6,"text":"JSON: begins with '\"', want a JSON object such as`,
		answer,
		"",
	}
	if len(lines) != len(wants) || r.Status != failed || r.Err != "" {
		t.Fatalf("%d lines, exit %d, %s", len(lines), r.Status, r.Err)
	}
	for i, want := range wants {
		if !strings.Contains(lines[i], want) {
			t.Errorf("line %d is %s\n want in it %s", i+1, lines[i], want)
		}
	}
	if r := called(long[1:], "batch", "retention", "--jsonl"); !strings.Contains(r.Out, answer) || r.Status != done {
		t.Errorf("a last line of %d bytes: exit %d\n%s", maxLine, r.Status, r.Out)
	}
}

// What a flag gives for every object can't be overridden unseen by one.
func TestJSONLinesGivenTwice(t *testing.T) {
	for _, test := range []struct{ command, in, want string }{
		{"retention --headbox-consistency 0.8% --tray-consistency 0.2%", `{"headbox-consistency":"0.9 %"}` + "\n{}\n", "0.8%"},
		{"precision --result 3g", `{"result":["1 g"]}` + "\n", "3g"},
	} {
		r := called(test.in, append([]string{"batch"}, words(test.command+" --jsonl")...)...)
		lines := strings.Split(r.Out, "\n")
		if want := test.want + " is given for every object already, want it in one place"; r.Status != failed || !strings.Contains(lines[0], want) {
			t.Errorf("%s: exit %d\n%s%s", test.command, r.Status, r.Out, r.Err)
		}
	}
}

func TestCompletion(t *testing.T) {
	for _, test := range []struct {
		words, want string
	}{
		{`dilution-b`, "dilution-batch\n"},
		{`explain mass`, "mass-at-moisture\n"},
		{`dilution --mass-f`, "--mass-flow\n--mass-flow-out\n"},
		{`moisture-claim --rule `, "basis\npoints\n"},
		{`tensile --force "85 k"`, "\"85 kN\"\n\"85 kgf\"\n"},
		{`production --unit `, "paper-flow=\narea-flow=\n"},
		{`production --unit pap`, "paper-flow=\n"},
		{`production --unit paper-flow=t/`, "paper-flow=t/h\npaper-flow=t/d\n"},
		{`production --unit paper-flow = t/`, "t/h\nt/d\n"}, // as bash parts words
		{`production --unit paper-flow =`, "t/h\nkg/h\nkg/s\nt/d\nlb/h\n\"short ton/h\"\n\"short ton/d\"\n"},
		{`production --unit=pap`, "--unit=paper-flow=\n"},
		{`production --steps=`, "--steps=markdown\n"},
		{`production --steps =`, "markdown\n"},
		{`production --st`, "--steps\n"},
		{`production --plot `, ""},
		{`moisture-claim --rule = b`, "basis\n"},
		{`precision --unit rep`, "repeatability-deviation=\nreproducibility-deviation=\nrepeatability-limit=\nreproducibility-limit=\n"},
		{`precision --steps=`, "--steps=markdown\n"},
		{`precision --de`, "--decimal\n--delimiter\n"},
		{`precision --decimal c`, "comma\n"},
		{`precision --cs`, ""},
		{`precision --r`, "--result\n"},      // a tool solves for nothing
		{`blend --dry-`, "--dry-flow-out\n"}, // nor is anything solved from a list
		{`round --re`, ""},                   // or from a text
		{`propagate --NA`, ""},               // which stands for names of one's own
		{`propagate --m`, "--model\n--method\n"},
		{`convert "42 lb/1000ft2" lb/3`, "lb/3000ft2\nlb/3300ft2\n"},
		{`convert 5t/h kg/h t`, "t/h\nt/d\n"},
		{`convert --`, "--full\n--json\n--help\n"},
		{`convert 5 `, "1\n"},
		{`convert 5 blorb`, ""},
		{`tensile --se`, "--seed\n--second-order\n"},
		{`tensile --seed `, ""},
		{`tensile --second-order --st`, "--strip-width\n--steps\n"}, // which has no value
		{`tensile --of t`, "tensile-strength\ntensile-index\n"},
		{`batch tensile --su`, "--summary\n"},
		{`batch tensile --summary m`, "markdown\n"},
		{`batch tensile --lot `, ""},
	} {
		args := append([]string{"complete", "--"}, words(test.words)...)
		if strings.HasSuffix(test.words, " ") {
			args = append(args, "")
		}
		if got := called("", args...).Out; got != test.want {
			t.Errorf("complete %s: %s", test.words, cmp.Diff(test.want, got))
		}
	}
	for _, shell := range []string{"bash", "zsh", "fish"} {
		if r := called("", "completion", shell); r.Status != done || !strings.Contains(r.Out, "millmaths complete --") {
			t.Errorf("completion %s: exit %d", shell, r.Status)
		}
	}
}

// A terminal whose disk is full.
type full struct{}

func (full) Write([]byte) (int, error) { return 0, errors.New("no space left on device") }

func TestFullOutput(t *testing.T) {
	for _, command := range []string{
		`retention --headbox-consistency "0.8 %" --tray-consistency "0.2 %"`,
		`list`,
		`batch short-span ../../examples/quillbeck/short-span.csv --quiet`,
	} {
		var said bytes.Buffer
		status := run(context.Background(), words(command), strings.NewReader(""), full{}, &said)
		if status != failed || !strings.Contains(said.String(), "no space left on device") {
			t.Errorf("%s: exit %d, said %s", command, status, said.String())
		}
	}
}

func TestInterrupt(t *testing.T) {
	ctx, cancel := context.WithCancel(context.Background())
	cancel()
	var out, err bytes.Buffer
	args := words(`batch tensile ../../examples/quillbeck/tensile.txt --quiet`)
	if status := run(ctx, args, strings.NewReader(""), &out, &err); status != interrupted {
		t.Errorf("exit %d, want %d: %s", status, interrupted, err.String())
	}
}

// A file that could not be finished leaves the old one as it was.
func TestOutputFileIsWhole(t *testing.T) {
	file := filepath.Join(t.TempDir(), "rows.csv")
	if err := os.WriteFile(file, []byte("old"), 0o644); err != nil {
		t.Fatal(err)
	}
	r := called("a;b\n1;2\n", "batch", "tensile", "-", "--out", file)
	if r.Status != failed {
		t.Errorf("exit %d: %s", r.Status, r.Err)
	}
	if data, _ := os.ReadFile(file); string(data) != "old" {
		t.Errorf("the old file holds %q", data)
	}
	r = called("force [N],grammage [g/m2]\n85,80\n", "batch", "tensile", "-", "--out", file, "--quiet")
	want := "force [N],grammage [g/m2],tensile-strength [kN/m],tensile-index [kN.m/kg],breaking-length [km],remark\n85,80,5.67,70.8,7.22,\n"
	if data, _ := os.ReadFile(file); r.Status != done || string(data) != want {
		t.Errorf("exit %d, file: %s", r.Status, cmp.Diff(want, string(data)))
	}
}

func TestUnitsOfOutputs(t *testing.T) {
	r := called("", words(`production --grammage "120 g/m2" --sheet-width "3.36 m" --speed "625 m/min" --unit paper-flow=t/d`)...)
	want := "paper-flow  362.88 t/d\narea-flow   126000 m2/h\n"
	if r.Out != want {
		t.Error(cmp.Diff(want, r.Out))
	}
}

// A tool restates the output named, and what follows its unit unless that has
// its own.
func TestUnitsOfTools(t *testing.T) {
	for _, test := range []struct{ command, want string }{
		{`precision --result "[1 2 | 3 4] kN/m" --factor 2.8 --unit mean=lbf/in`, "mean                       14.2754 lbf/in\nrepeatability-deviation    0.707107 kN/m\n"},
		{`propagate --model y=2*a --method first-order --a "5 ± 0.1 g" --unit y=kg`, "y        0.01 kg\nu(y)     0.0002 kg\npart(a)  0.0002 kg\n"},
		{`propagate --model y=2*a --method first-order --a "5 ± 0.1 g" --unit y=kg --unit u(y)=mg`, "y        0.01 kg\nu(y)     200 mg\npart(a)  0.0002 kg\n"},
		{`propagate --model mean=2*a --method first-order --a "5 ± 0.1 g" --unit mean=mg`, "mean     10000 mg\nu(mean)  200 mg\npart(a)  200 mg\n"},
	} {
		if r := called("", words(test.command)...); r.Status != done || !strings.HasPrefix(r.Out, test.want) {
			t.Errorf("%s: exit %d, %s\n%s", test.command, r.Status, r.Err, cmp.Diff(test.want, r.Out))
		}
	}
}

// One balance weighs both masses: what it is off by cancels in the difference.
func TestSharedSource(t *testing.T) {
	apart := called("", words(`cobb --mass-in "1.354 ± 0.001 g" --mass-out "1.667 ± 0.001 g" --time "60 s" --csv`)...)
	if !strings.Contains(apart.Out, ",g/m2,0.141421356237,31.3 g/m2") {
		t.Errorf("two balances: %s", apart.Out)
	}
	shared := called("", append(words(`cobb --mass-in "1.354 g ± balance" --mass-out "1.667 g ± balance" --time "60 s" --csv`), "--source", "balance=1 mg")...)
	if !strings.Contains(shared.Out, ",g/m2,0,31.3 g/m2") {
		t.Errorf("one balance: exit %d %s %s", shared.Status, shared.Out, shared.Err)
	}
}

// A range tells the defaults that hold along it, as a single result does; JSON has them
// with each point.
func TestRangeTellsDefaults(t *testing.T) {
	command := words(`tensile --force "50..100 N by 25 N" --grammage "80 g/m2"`)
	want := "default along the range: strip-width 15 mm\ndefault along the range: gravity 9.80665 m/s2\n"
	for _, face := range []string{"--full", "--csv"} {
		if r := called("", append(command, face)...); r.Err != want {
			t.Errorf("%s: %q, want %q", face, r.Err, want)
		}
	}
	if r := called("", append(command, "--json")...); r.Err != "" || strings.Count(r.Out, `"strip-width":{"value":15,`) != 3 {
		t.Errorf("--json: %q, %s", r.Err, r.Out)
	}
	if r := called("", append(command, "--strip-width", "25 mm")...); r.Err != "default along the range: gravity 9.80665 m/s2\n" {
		t.Errorf("with a strip-width: %q", r.Err)
	}
}

// Every length of reel that leaves a rest is told, and where there can be more, that.
func TestSeveralRoots(t *testing.T) {
	r := called("", words(`sets --jumbo-length "20817 m" --rest-length "4500 m"`)...)
	const roots = `reel-length  5439 m   solved for
reel-length  8158.5 m  solved for
reel-length  16317 m  solved for
sets         3
`
	if got := strings.Join(strings.Fields(r.Out), " "); !strings.HasPrefix(got, strings.Join(strings.Fields(roots), " ")) {
		t.Errorf("%s, want %s", r.Out, roots)
	}
	if want := "warning: several-roots: the results are of the first of 3 values of\n  reel-length\n"; !strings.HasSuffix(r.Err, want) {
		t.Errorf("%q, want at its end %q", r.Err, want)
	}
	r = called("", words(`sets --jumbo-length "20817 m" --rest-length "10 m"`)...)
	if want := "values of\n  reel-length; there can be more, closer together than the search goes\n"; !strings.HasSuffix(r.Err, want) {
		t.Errorf("%q, want at its end %q", r.Err, want)
	}
}

// With --full the value that was solved for, and those of a range, have all their digits.
func TestFullSolvedAndRange(t *testing.T) {
	const solved = `dilution --water-flow "1234.567 t/h" --consistency-in "4.63 %" --consistency-out "0.97 %"`
	if r := called("", append(words(solved), "--full")...); !strings.HasPrefix(r.Out, "mass-flow          327.1939863387978 t/h  solved for\n") {
		t.Error(r.Out)
	}
	if r := called("", words(solved)...); !strings.HasPrefix(r.Out, "mass-flow          327.194 t/h  solved for\n") {
		t.Error(r.Out)
	}
	const along = `dilution --mass-flow "1234567..1234569 t/h by 1 t/h" --consistency-in "4 %" --consistency-out "1 %"`
	for option, want := range map[string]string{
		"--full": "1234567          3703701           4938268              49382.68\n1234568          3703704",
		"--csv":  "1234570,3703700,4938270,49382.7\n",
	} {
		if r := called("", append(words(along), option)...); !strings.Contains(r.Out, want) {
			t.Errorf("%s: %s, want %s", option, r.Out, want)
		}
	}
	if r := called("", append(words(along), "--csv", "--full")...); !strings.Contains(r.Out, "1234567,3703701,4938268,49382.68\n1234568,3703704,") {
		t.Error(r.Out)
	}
}

// What is solved for may be an output too, with other last digits: it has one line, and
// one column along a range.
func TestSolvedIsNoOutputTwice(t *testing.T) {
	for _, temperature := range []string{"60 degC", "60..62 degC by 1 degC"} {
		r := called("", "humid-air", "--temperature", temperature, "--enthalpy", "200 kJ/kg", "--relative-humidity", "?", "--csv", "--full")
		if strings.Count(r.Out, "relative-humidity") != 1 || !strings.Contains(r.Out, ",40.20587240431249,") {
			t.Errorf("%s: %s", temperature, r.Out)
		}
	}
}

// A list has its uncertainties in CSV as in JSON.
func TestUncertainListInCSV(t *testing.T) {
	r := called("", words(`proportioning --dry-flow "10 ± 0.1 t/h" --dry-share "[60 40] %" --consistency "[4 3] %" --csv`)...)
	const want = "mass-flow,[150 133.33333333333334],t/h,[1.5 1.33333333333],[150 133.333] t/h\nmass-flow-out,283.33333333333337,t/h,2.83333333333,283.333 t/h\n"
	if !strings.Contains(r.Out, want) {
		t.Errorf("%s, want in it %s", r.Out, want)
	}
}

// What is asked for of the uncertainty has columns in CSV, with the figures of JSON.
func TestFindingsInCSV(t *testing.T) {
	const command = `proportioning --dry-flow "10 ± 0.1 t/h" --dry-share "[60 40] %" --consistency "[4 3] %" --csv`
	for _, test := range []struct{ options, head, list, one string }{
		{"--expanded 95%", "U,k", "[2.9399459768100806 2.613285312713538],[1.9599639845400536 1.9599639845400536]", "5.553231289523619,1.9599639845400536"},
		{"--monte-carlo 1000 --seed 1", "monte-carlo-mean,monte-carlo-u,monte-carlo-lower,monte-carlo-upper",
			"[150.05654215065093 133.38359302280082],[1.5742607294062165 1.399342870583302],[146.88324582046997 130.56288517375108],[153.06439276882693 136.05723801673508]",
			"283.4401351734518,2.9736035999895174,277.44613099422105,289.12163078556205"},
	} {
		r := called("", append(words(command), words(test.options)...)...)
		want := "output,value,unit,u,reported," + test.head + "\nmass-flow,[150 133.33333333333334],t/h,[1.5 1.33333333333],[150 133.333] t/h," + test.list +
			"\nmass-flow-out,283.33333333333337,t/h,2.83333333333,283.333 t/h," + test.one + "\n"
		if !strings.HasPrefix(r.Out, want) {
			t.Errorf("%s: %s", test.options, cmp.Diff(want, r.Out))
		}
	}
	r := called("", words(`dilution --mass-flow "300 ± 3 t/h" --consistency-in "4.6 %" --consistency-out "0.92 %" --second-order --csv`)...)
	if want := "output,value,unit,u,reported,second-order-mean,second-order-u\nwater-flow,1200,t/h,12,1200 t/h,1200,12\n"; !strings.HasPrefix(r.Out, want) {
		t.Errorf("%s, want first %s", r.Out, want)
	}
	// The second of several roots has none, and as many cells.
	r = called("", words(`sets --jumbo-length "20817 ± 5 m" --rest-length "4500 m" --lost-length "60 m" --csv --expanded 95%`)...)
	for i, line := range strings.Split(strings.TrimSpace(r.Out), "\n") {
		if strings.Count(line, ",") != 6 || i == 2 && !strings.HasSuffix(line, ",m,,8128.5 m,,") {
			t.Errorf("line %d: %s", i+1, line)
		}
	}
}

// An uncertainty is of the root that the results are of: to the others belongs another.
// Of 16257 m, one reel, it would be 5 m, and of the three reels of 5419 m it is a third.
func TestUncertaintyOfTheFirstRoot(t *testing.T) {
	const command = `sets --jumbo-length "20817 ± 5 m" --rest-length "4500 m" --lost-length "60 m"`
	const want = `reel-length  5419.0 m  u = 1.7 m, solved for
reel-length  8128.5 m  solved for
reel-length  16257 m   solved for
`
	if r := called("", words(command)...); !strings.HasPrefix(r.Out, want) {
		t.Error(cmp.Diff(want, r.Out))
	}
	const csv = "output,value,unit,u,reported\nreel-length,5419,m,1.66666666667,5419 m\nreel-length,8128.5,m,,8128.5 m\nreel-length,16257,m,,16257 m\n"
	if r := called("", append(words(command), "--csv")...); !strings.HasPrefix(r.Out, csv) {
		t.Error(cmp.Diff(csv, r.Out))
	}
	const none = "millmaths: uncertainty of reel-length: sets moves in steps and has no slope, want the inputs without ±\n"
	if r := called("", words(`sets --jumbo-length "20817 ± 5 m" --sets 3`)...); r.Status != failed || !strings.HasSuffix(r.Err, "\n"+none) {
		t.Errorf("from a count: exit %d, %q, want %q", r.Status, r.Err, none)
	}
}

// What has no meaning along a range is refused there, and not left out in silence.
func TestNotAlongARange(t *testing.T) {
	const command = `retention --headbox-consistency "0.8 ± 0.01 %" --tray-consistency "0.1..0.3 %"`
	for _, flag := range []string{"--correlated=headbox-consistency,tray-consistency=0.5", "--freedom=headbox-consistency=4", "--expanded=95%", "--second-order", "--monte-carlo=1000", "--steps"} {
		name, _, _ := strings.Cut(flag, "=")
		want := "millmaths: tray-consistency is a range, which makes a table without " + name + ": give one value for that\n"
		if r := called("", append(words(command), flag)...); r.Status != misused || r.Err != want {
			t.Errorf("%s: exit %d, %q, want %q", flag, r.Status, r.Err, want)
		}
	}
}

// A range of an input beside an output that was given: the answer is a column.
func TestRangeWithSolving(t *testing.T) {
	r := called("", words(`retention --headbox-consistency "0.5..1 % by 0.3 %" --first-pass-retention "80 %"`)...)
	want := `headbox-consistency [%]  tray-consistency [%]  first-pass-retention [%]
0.5                      0.1                   80
0.8                      0.16                  80
`
	if r.Out != want || r.Err != "the range ends at 0.8 %: its step does not lead to the end\n" {
		t.Errorf("%s%s", cmp.Diff(want, r.Out), r.Err)
	}
}

// A range of which some values are refused has failed, as a table with refused rows has,
// and tells the rest in each form.
func TestRangeWithRefused(t *testing.T) {
	const command = `dilution --mass-flow "300 t/h" --consistency-in "4 %" --consistency-out "2..6 % by 2 %" --unit water-flow=t/h `
	const heads = "consistency-out [%],water-flow [t/h],mass-flow-out [t/h],dry-flow-out [t/h]\n"
	const summary = "default along the range: water-consistency 0 %\n1 of 3 values of consistency-out refused\n"
	const refused = "consistency-out is 6 %, want above water-consistency 0 % and at most consistency-in 4 %"
	for face, want := range map[string][2]string{
		"--csv":  {heads + "2,300,600,12\n4,0,300,12\n6,,,\"refused: " + refused + "\"\n", summary},
		"--full": {"", "consistency-out = 6 %: refused: " + refused + "\n" + summary},
		"--json": {"", "1 of 3 values of consistency-out refused\n"},
	} {
		r := called("", append(words(command), face)...)
		if r.Status != failed || want[0] != "" && r.Out != want[0] || r.Err != want[1] || strings.Count(r.Out, `"error"`) > 1 {
			t.Errorf("%s: exit %d\n%s\n%s", face, r.Status, r.Out, cmp.Diff(want[1], r.Err))
		}
	}
	if r := called("", words(`dilution --mass-flow "300 t/h" --consistency-in "4 %" --consistency-out "5..6 %" --json`)...); r.Status != failed || strings.Count(r.Out, "\n") != 1 {
		t.Errorf("all refused: exit %d, %s", r.Status, r.Out)
	}
	if r := called("", words(`line ../../examples/quillbeck/harebell-120.toml --set headbox.consistency="0.8..6 % by 2.6 %"`)...); r.Status != failed || !strings.HasSuffix(r.Err, " values of headbox.consistency refused\n") {
		t.Errorf("a line: exit %d, %s", r.Status, r.Err)
	}
}

// The warnings of all values of a range are told, not those of the last alone.
func TestRangeTellsWarnings(t *testing.T) {
	for _, test := range []struct{ command, want string }{
		{`freeness --volume "50..150 mL by 50 mL" --consistency "0.3 %" --temperature "20 degC" --volume-correction "0 mL" --csv`,
			"warning: false-freeness: below 100 mL fine fibre that passes the plate may\n  give a false freeness (at 1 of 3 values of volume, first at 50 mL)\n"},
		{`sets --jumbo-length "11000..2000 m by 4500 m" --rest-length "1000 m" --lost-length "0 m" --csv`,
			"warning: several-roots: the results are of the first of 9 values of\n  reel-length (at 2 of 3 values of jumbo-length, first at 11000 m)\n1 of 3 values of jumbo-length refused\n"},
	} {
		if r := called("", words(test.command)...); !strings.HasSuffix(r.Err, test.want) {
			t.Errorf("millmaths %s: %s", test.command, cmp.Diff(test.want, r.Err))
		}
	}
}

// TestStandardInput reads what is named - wherever a file is read, and once.
func TestStandardInput(t *testing.T) {
	const list = "12 13 14 N\n"
	lone := called(list, "replicates", "--value", "@-")
	if lone.Status != done || !strings.Contains(lone.Out, "mean                      13 N\n") {
		t.Errorf("a list: %d: %s%s", lone.Status, lone.Out, lone.Err)
	}
	if r := called("id,value [N]\na,12\nb,13\nc,14\n", "replicates", "--value", "@-:value"); r != lone {
		t.Errorf("a column: %s", cmp.Diff(lone, r))
	}
	checks := "id,calculation,inputs,expected,tolerance,kind,source,note\nd,dilution,mass-flow=300 t/h; consistency-in=4 %; consistency-out=1 %,water-flow=900 t/h,exact,common-practice,,\n"
	if r := called(checks, "verify", "-"); r.Out != "1 row, 0 failed\n" {
		t.Errorf("checks: %d: %s%s", r.Status, r.Out, r.Err)
	}
	if r := called("r1 [N],r2 [N]\n1,2\n3,4\n5,7\n", "precision", "--result", "@-", "--factor", "2.8"); r.Status != done {
		t.Errorf("a table: %d: %s", r.Status, r.Err)
	}
	for _, test := range []struct {
		want string
		args []string
	}{
		{"confidence: standard input can be read only once, want a file instead of one -", words(`replicates --value @- --confidence @-`)},
		{"standard input can be read only once, want a file instead of one -", words(`batch replicates --value @-`)},
		{"value: the name of a file is empty, want FILE, or - for standard input", words(`replicates --value @`)},
	} {
		if r := called(list, test.args...); r.Status == done || r.Err != "millmaths: "+test.want+"\n" {
			t.Errorf("%q: %d: %s", test.args, r.Status, r.Err)
		}
	}
	// A list that holds for every row may stand in a file.
	file := filepath.Join(t.TempDir(), "list.txt")
	if err := os.WriteFile(file, []byte(list), 0o644); err != nil {
		t.Fatal(err)
	}
	r := called("confidence [%]\n90\n95\n", "batch", "replicates", "--value", "@"+file, "--quiet")
	if r.Status != done || !strings.Contains(r.Out, "\n90,3,13,1,") || !strings.Contains(r.Out, "\n95,3,13,1,") {
		t.Errorf("for every row: %d: %s%s", r.Status, r.Out, r.Err)
	}
}

// TestRefusedPointJSON names the calculation in a point of a range that it refuses.
func TestRefusedPointJSON(t *testing.T) {
	r := called("", words(`dilution --mass-flow "300 t/h" --consistency-in "4 %" --consistency-out "4..5 % by 1 %" --json`)...)
	lines := strings.Split(r.Out, "\n")
	if want := `,{"calculation":"dilution","version":"` + calc.Version + `","error":{"code":"refused","input":"consistency-out",`; len(lines) != 4 || !strings.HasPrefix(lines[1], want) {
		t.Errorf("%d: %s%s, want a second point with %s", r.Status, r.Out, r.Err, want)
	}
}

// A warning is broken at 80 columns, as a caution is.
func TestWarningsKeepTheWidth(t *testing.T) {
	r := called("", words(`total-solids --dish-mass "38.4127 g ± 1 %" --wet-dish-mass "88.2951 g" --dry-dish-mass "38.5103 g" --monte-carlo 1000`)...)
	const want = "warning: draws-refused: 429 draws lay outside what the calculation takes and\n  are left out\n"
	if r.Status != done || !strings.HasSuffix(r.Err, want) {
		t.Errorf("exit %d, %s\nwant at the end %s", r.Status, r.Err, want)
	}
	r = called("", words(`whiteness --y-tristimulus 88.5 --x-chromaticity 0.36 --y-chromaticity 0.3215 --white-x-chromaticity 0.3138 --white-y-chromaticity 0.3310 --observer ten-degree`)...)
	if !strings.HasPrefix(r.Err, "warning: out-of-range: ") {
		t.Errorf("%s, want a warning", r.Err)
	}
	for line := range strings.Lines(r.Err) {
		if line = strings.TrimSuffix(line, "\n"); utf8.RuneCountInString(line) > 80 {
			t.Errorf("%q is wider than 80 columns", line)
		}
	}
}

// The uncertainties along a range are in its JSON, and not in its table.
func TestUncertaintyAlongARange(t *testing.T) {
	const command = `moisture --moist-mass "10..11 g by 1 g" --dry-mass "8 g ± 5 mg"`
	if r := called("", words(command)...); r.Err != "warning: uncertainty-left-out: that of dry-mass is not carried along a range\n" {
		t.Errorf("a table: %s", r.Err)
	}
	r := called("", words(command+" --json")...)
	if r.Err != "" || strings.Count(r.Out, `"moisture":{"value":20,"unit":"%","u":0.05,`) != 1 {
		t.Errorf("JSON: %s%s", r.Out, r.Err)
	}
}

// The shares of a variance add up, with what a correlation adds or takes: 2·33·16·0.9 of
// 23² t/h here.
func TestBudgetOfCorrelated(t *testing.T) {
	const command = `dilution --mass-flow "300 ± 3 t/h" --consistency-in "4.6 ± 0.1 %" --consistency-out "0.92 ± 0.01 %" --correlated consistency-in,consistency-out=0.9 --steps`
	const want = `Uncertainty of water-flow, u = 23 t/h, first order (JCGM 100:2008)
  consistency-in   33 t/h  206.0 % of the variance
  consistency-out  16 t/h  51.5 % of the variance
  mass-flow        12 t/h  27.9 % of the variance
  correlations             -185.4 % of the variance
`
	if r := called("", words(command)...); !strings.Contains(r.Out, want) {
		t.Errorf("%s", r.Out)
	}
}

// A value stands at the place of its uncertainty, wherever both are told.
func TestDigitsBesideUncertainty(t *testing.T) {
	const gauge = `propagate --model "l = ls + d" --ls "50000623 +- 25" --d "215 +- 9.7" --method `
	for _, test := range []struct{ command, want string }{
		{`moisture --moist-mass "10.000 g ± 5 mg" --moisture "7.0 ± 0.1 %"`, "dry-mass        9.300 g       u = 0.011 g, solved for\n"},
		{`grammage --mass "12345.6789 g ± 0.01 g" --area "1 m2" --second-order`, "  grammage  mean 12345.6789 g/m2  u = 0.010 g/m2\n"},
		{`grammage --mass "12345.6789 g" --area "1 m2 ± 0.1 cm2" --monte-carlo 1000`, "  grammage  12345.43 to 12345.93 g/m2  u = 0.13 g/m2\n"},
		{`dilution --mass-flow "300 t/h" --consistency-in "4.6 %" --consistency-out "0.92 ± 0.02 %" --monte-carlo 1000`, "  dry-flow-out   13.8 to 13.8 t/h        u = 0 t/h\n"},
		{gauge + "first-order", "l         50000838\n"},
		{gauge + "first-order --full", "l         50000838\n"},
		{gauge + "second-order", "mean(l)  50000838\n"},
		{gauge + "monte-carlo", "mean(l)   50000838\nlower(l)  500007"},
		{`propagate --model "y = 2*x" --x "3 +- 0.1 mm" --method first-order --unit y=um`, "y        6000 um\n"},
	} {
		if r := called("", words(test.command)...); r.Status != done || !strings.Contains(r.Out, test.want) {
			t.Errorf("millmaths %s: %d: %s%s, want %s", test.command, r.Status, r.Out, r.Err, test.want)
		}
	}
}

// Doubts about an uncertainty are told after the result, and stand in a report.
func TestDoubtsAreTold(t *testing.T) {
	const command = `dilution --mass-flow "300 t/h" --consistency-in "4.6 %" --consistency-out "0.92 ± 0.5 %"`
	const want = "warning: first-order-bends: water-flow, mass-flow-out: u of first order is off\n  by a tenth or more: "
	if r := called("", words(command)...); r.Status != done || !strings.HasPrefix(r.Err, want) {
		t.Errorf("%d: %s", r.Status, r.Err)
	}
	if r := called("", words(command+" --steps=markdown")...); !strings.Contains(r.Out, "\n**Warning** (first-order-bends): water-flow, mass-flow-out: ") {
		t.Errorf("%s", r.Out)
	}
	const backward = `dilution --mass-flow "300 t/h" --consistency-in "4.6 %" --water-flow "1200 ± 600 t/h"`
	if r := called("", words(backward)...); r.Err != "warning: first-order-bends: consistency-out: u of first order is off by a\n"+
		"  tenth or more: the calculation bends within the uncertainty of its inputs\n" { // it takes no draws
		t.Errorf("%s", r.Err)
	}
	const own = `propagate --model "y = pow(x, 2)" --method first-order --x "0 ± 1"`
	const bends = "y: u of first order is off by a tenth or more: the calculation bends within the uncertainty of its inputs; take draws"
	if r := called("", words(own)...); !strings.HasPrefix(r.Err, "warning: first-order-bends: y: u of first order is off") {
		t.Errorf("%s", r.Err)
	}
	if r := called("", words(own+" --steps=markdown")...); !strings.Contains(r.Out, "\n**Warning** (first-order-bends): "+bends+"\n") || !strings.HasPrefix(r.Err, "warning: first-order-bends: y: ") {
		t.Errorf("%s%s", r.Out, r.Err)
	}
	if r := called("", words(own+" --json")...); !strings.Contains(r.Out, `"warnings":[{"code":"first-order-bends","text":"`+bends+`"}]`) || r.Err != "" {
		t.Errorf("%s%s", r.Out, r.Err)
	}
}
