package main

import (
	"fmt"
	"slices"
	"strings"
	"testing"
)

// found returns the names that list prints for words.
func found(t *testing.T, words string) (names []string) {
	t.Helper()
	r := called("", "list", words)
	for _, row := range strings.Split(r.Out, "\n") {
		if strings.HasPrefix(row, "  ") && row[2] != ' ' {
			names = append(names, strings.Fields(row)[0])
		}
	}
	return names
}

// A word that the trade says leads to the calculation or the command that has to do
// with it, whatever our texts call it first.
func TestListTradeWords(t *testing.T) {
	for word, name := range map[string]string{
		"uptake": "cobb", "water uptake": "cobb", "starch uptake": "pick-up", "sizing": "cobb", "gsm": "grammage",
		"basis weight": "basis-weight", "caliper": "density", "bulk": "density", "ream": "ream-mass",
		"furnish": "furnish", "broke": "broke", "bale": "bale-lot", "yield": "yield", "stickies": "screen-efficiency",
		"dirt": "spots", "specks": "spots", "hydrocyclone": "screening", "cleaner": "screening", "rejects": "screening",
		"freeness": "freeness", "CSF": "freeness", "SR": "schopper-riegler", "Schopper": "schopper-riegler", "WRV": "water-retention-value",
		"tank": "chest", "tower": "chest", "pulper": "pulping", "refiner": "refining", "beating": "refining",
		"white water": "retention", "whitewater": "retention", "headbox": "headbox-flow", "head box": "headbox-flow", "slice": "slice",
		"couch": "dewatering", "disc filter": "thickening", "screw press": "thickening", "COD": "effluent-load",
		"nip": "press-nip", "dryers": "dryer-steam", "dew point": "humid-air", "dewpoint": "humid-air", "psychrometer": "humid-air",
		"hood": "hood", "condensate": "condensate", "flash": "flash-steam", "size press": "pick-up",
		"jumbo": "sets", "tambour": "sets", "parent reel": "sets", "spool": "sets", "core": "reel", "roll weight": "reel-mass",
		"rewinder": "winder-time", "knife": "trim-loss", "downtime": "machine-efficiency",
		"TEA": "tensile-energy", "Young's modulus": "tensile-stiffness", "E-modulus": "tensile-stiffness", "Elmendorf": "tear",
		"SCT": "short-span", "RCT": "ring-crush", "CMT": "fluted-crush", "CCT": "corrugated-crush", "ECT": "edge-crush",
		"BCT": "box-compression", "FCT": "flat-crush", "edgewise": "edge-crush", "iso-3037": "edge-crush", "corrugating medium": "board-grammage",
		"flute": "take-up", "porosity": "air-permeance", "brightness": "brightness", "L*a*b*": "cielab", "color": "cielab",
		"fiber length": "fibre-length", "dry content": "moisture", "hydrocyclones": "screening", "suspension": "consistency",
		"calibration": "line-fit", "regression": "line-prediction", "t-test": "compare-samples", "paired t-test": "compare-pairs",
		"SPC": "control-chart", "Shewhart": "control-chart", "round robin": "precision", "decision rule": "conformity-guard-band",
		"slitter": "trim", "deckle": "trim", "sheets": "trim", "grade change": "making", "order book": "making", "shower": "line",
		"knives": "trim", "calender": "press-nip", "shoe press": "press-nip", "felt": "vacuum-air", "suction box": "vacuum-air",
		"fourdrinier": "dewatering", "flow box": "headbox-flow", "backwater": "loop-retention", "dryer can": "cylinder-heat", "Yankee": "cylinder-heat",
		"trap": "condensate", "web break": "broke", "AKD": "dosage", "alum": "dosage", "flocculant": "dosage", "defoamer": "dosage",
		"slusher": "pulping", "repulper": "pulping", "deflaker": "refining", "beater": "refining", "SRE": "refining", "SEL": "refiner-edge-load",
		"DAF": "thickening", "disk filter": "thickening", "TSS": "suspended-solids", "TDS": "dissolved-solids", "PCD": "charge-demand",
		"OCC": "moisture-claim", "wastepaper": "bale-lot", "shives": "spots", "kaolin": "filler-content", "PCC": "filler-two-temperatures",
		"pigment": "coat-weight", "coater": "coat-weight", "testliner": "board-grammage", "carton": "box-blank", "RSC": "box-blank",
		"Mullen": "burst", "internal bond": "ply-bond", "z-direction": "z-strength", "wet strength": "strip-strength", "Sheffield": "air-permeance-flow",
		"shade": "colour-difference", "calliper": "density", "gage": "steam", "DP": "polymerisation-degree", "digester": "h-factor", "white liquor": "cooking-liquor",
		"drainability": "schopper-riegler", "odt": "air-dry", "BDMT": "air-dry", "virgin fibre": "fibre-age-start", "PFI": "test-charge", "sheet former": "handsheet",
		"absorbency": "cobb", "air resistance": "gurley", "CV": "replicates", "vena contracta": "slice", "clarifier": "thickening", "AOX": "effluent-load",
		"OEE": "machine-efficiency", "ANOVA": "profile", "gpm": "stock-flow-rule", "tpd": "stock-flow-rule", "pli": "press-impulse", "fpm": "press-impulse",
		"AD": "air-dry", "bone dry": "air-dry",
		"steam consumption": "steam-use", "water consumption": "water-use", "power consumption": "power-use", "psychrometric": "humid-air",
		"Uhle box": "vacuum-air", "linear load": "press-impulse", "butt roll": "reel-left", "footage": "web-length",
		"sizing agent": "dosage", "ASA": "dosage", "bleaching": "dosage", "vacuum pump": "free-air", "heat recovery": "air-heating", "crepe": "draw",
		"delta E": "colour-difference", "foil": "dewatering", "sludge dewatering": "thickening", "strain": "tensile-curve", "creep": "stacking",
		"calendering": "press-nip", "forming fabric": "jet", "talc": "filler-content", "titanium dioxide": "filler-content", "delamination": "ply-bond",
	} {
		if names := found(t, word); !slices.Contains(names, name) {
			t.Errorf("list %s finds %q, want %s among them", word, names, name)
		}
	}
}

// A short word is looked for as a whole: tear begins with TEA, and ppm with what is left
// of PPS.
func TestListShortWords(t *testing.T) {
	for word, want := range map[string][]string{
		"TEA": {"tensile-energy"}, "PPS": {"air-permeance-flow"}, "pH": {"chest-response"}, "SEL": {"refiner-edge-load"}, "nip": {"pick-up", "pick-up-evaporation", "press-impulse", "press-nip"},
	} {
		if names := found(t, word); !slices.Equal(names, want) {
			t.Errorf("list %s finds %q, want %q", word, names, want)
		}
	}
}

// What list does not find, or is no word, it says what to do about.
func TestListSays(t *testing.T) {
	for _, test := range []struct {
		word   string
		status int
		want   string
	}{
		{"consistancy", failed, `no calculation has to do with "consistancy", near: consistency`},
		{"Grammege of card", failed, `no calculation has to do with "Grammege of card", near: grammage, grammages`},
		{"evaporaton", failed, `no calculation has to do with "evaporaton", near: evaporation, evaporate, evaporated`},
		{"diamater", failed, `no calculation has to do with "diamater", near: diameter, diameters, digester`},
		{"thermocompressor", failed, `no calculation has to do with "thermocompressor"; millmaths list shows all`},
		{"bark", failed, `no calculation has to do with "bark"; millmaths list shows all`},
		{"zeta", failed, `no calculation has to do with "zeta"; millmaths list shows all`},
		{strings.Repeat("mills ", 40), failed, fmt.Sprintf("no calculation has to do with %q; millmaths list shows all", strings.Repeat("mills ", 40))},
		{"--all", misused, "list has no flag --all, want a word or nothing: millmaths list starch"},
		{"-v", misused, "list has no flag -v, want a word or nothing: millmaths list starch"},
	} {
		if r := called("", "list", test.word); r.Status != test.status || strings.TrimSpace(r.Err) != "millmaths: "+test.want {
			t.Errorf("list %s: exit %d, %s, want %d, %s", test.word, r.Status, r.Err, test.status, test.want)
		}
	}
	if r := called("", "list", "order book"); r.Out != "command - whole lines, order lists and order books, described in a file\n"+
		"  making  an order book carried back to bales, water, steam, starch and hours\n" {
		t.Errorf("list order book:\n%s", r.Out)
	}
}
