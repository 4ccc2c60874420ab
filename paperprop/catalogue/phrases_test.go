package catalogue_test

import (
	"slices"
	"strings"
	"testing"

	"millmaths.example/paperprop/calc"
	"millmaths.example/paperprop/catalogue"
)

// phrases are what no text of a calculation says, and how it is said instead: turns of
// another language, a number without its noun, a unit that no result prints.
var phrases = map[string]string{
	"let expect": "is to be expected of", "by its own weight": "under its own weight", " a direction": "in each direction", " a side (": "from each side",
	"blueish": "bluish", "each 5 nm": "every 5 nm", "each 10 or": "every 10 or", "8 % were": "8 % was", " nor microflute": " or microflute",
	"are not exchanged": "are not interchangeable", "um/(Pa.s)": "um/(Pa s)", "weighs tonnes": "can weigh tonnes", "than it comes": "than it enters", "nor their squares": "nor do their squares",
}

func TestPhrases(t *testing.T) {
	for _, name := range catalogue.Names() {
		c, _ := catalogue.Find(name)
		text := strings.Join(textsOf(c.Info()), "\n")
		for phrase, better := range phrases {
			if strings.Contains(text, phrase) {
				t.Errorf("%s says %q, want %q", name, phrase, better)
			}
		}
	}
}

// textsOf are the texts of a description that people read.
func textsOf(info *calc.Info) []string {
	texts := append([]string{info.Title, info.Answers, info.Method, info.Source}, info.Mistakes...)
	for _, c := range info.Compare {
		texts = append(texts, c.Why)
	}
	for _, c := range info.Cautions {
		texts = append(texts, c.Text)
	}
	for _, f := range slices.Concat(info.In, info.Out) {
		texts = append(texts, f.Help, f.Report.String())
	}
	return texts
}
