package catalogue_test

import (
	"regexp"
	"slices"
	"strings"
	"testing"

	"millmaths.example/paperprop/calc"
	"millmaths.example/paperprop/catalogue"
)

// foreign are turns of phrase that crept into descriptions from another language, and
// American spellings.
var foreign = regexp.MustCompile(`\b(in the mean|on the average|so often|encyclopedia|gray|center|fiber)\b|\b(is|are) no [0-9]|\b[Bb]ehind (each group|the last)\b|` +
	`\b[0-9.]+ % (of the [a-z]+|by [a-z]+) are\b|\bcolor|\bkaolin|\bhangs? on\b|\bnought\b|\bparted by\b|\brubs\b|\b(limits|trial|statement|results) out of\b|\bout of (limits|a trial|a precision)\b|(?i:\b(analy|hydroly|student|normal|optim|minim|maxim|organ|polymer|ionis|oxid)iz(e|ed|es|ing|ation)\b)`)

// capital begins a sentence: a word, and no symbol or name of letters.
var capital = regexp.MustCompile(`^[A-Z][a-z]+ `)

// What a description says is English as the trade in Britain writes it. What people get
// wrong is told in sentences; a reason for a comparison of one sentence, and the note on
// a field, go on from what stands before them and have no stop.
func TestLanguage(t *testing.T) {
	for _, g := range catalogue.Groups() {
		for _, c := range g.Calculations {
			info := c.Info()
			texts := slices.Concat([]string{info.Title, info.Answers, info.Method, info.Source}, info.Mistakes)
			for _, caution := range info.Cautions {
				texts = append(texts, caution.Text)
			}
			for _, other := range info.Compare {
				texts = append(texts, other.Why)
				if strings.HasSuffix(other.Why, ".") && !strings.Contains(other.Why, ". ") {
					t.Errorf("%s: a stop ends %q", info.Name, other.Why)
				}
			}
			for _, f := range slices.Concat(info.In, info.Out, info.Between) {
				texts = append(texts, f.Help)
				if strings.HasSuffix(f.Help, ".") {
					t.Errorf("%s: a stop ends the note on %s, %q", info.Name, f.Symbol, f.Help)
				}
			}
			if strings.HasSuffix(info.Method, ".") || capital.MatchString(info.Method) {
				t.Errorf("%s: the method, which goes on after a colon, is a sentence of its own: %q", info.Name, info.Method)
			}
			for _, m := range info.Mistakes {
				if !strings.HasSuffix(m, ".") {
					t.Errorf("%s: no stop ends %q", info.Name, m)
				}
			}
			for _, text := range texts {
				if found := foreign.FindString(text); found != "" {
					t.Errorf("%s: %q in %q", info.Name, found, text)
				}
			}
		}
	}
}

// Before and after are told apart by the notes on inputs, not by their names alone.
func TestNotesTellInputsApart(t *testing.T) {
	notes := map[string]string{}
	for _, f := range infoOf("flash-steam").In {
		if other, ok := notes[f.Help]; ok {
			t.Errorf("flash-steam: %s and %s are both %q", other, f.Name, f.Help)
		}
		notes[f.Help] = f.Name
	}
}

// What one calculation has seen in print another does not remember, nor is a range wider
// in one than in the other: the heat capacity of dry fibre, and what clay leaves.
func TestOneFactOneStatus(t *testing.T) {
	const printed, residue = "printed values run from 1.2 to 1.55 (memory)", "86 to 89 % for clay at 900 degC (seen on a page on ISO 2144)"
	for _, name := range []string{"mixing-temperature", "steam-heating", "sheet-heat", "dryer-steam"} {
		for _, f := range infoOf(name).In {
			if f.Name == "fibre-heat-capacity" && !strings.Contains(f.Help, printed) {
				t.Errorf("%s: %q, want %s (memory)", name, f.Help, printed)
			}
		}
	}
	if got := infoOf("filler-content").Source; !strings.Contains(got, residue) {
		t.Errorf("filler-content: %q, want %s (published: page of a standards body on ISO 2144)", got, residue)
	}
}

func infoOf(name string) *calc.Info {
	c, _ := catalogue.Find(name)
	return c.Info()
}
