package main

import (
	"context"
	"fmt"
	"slices"
	"strings"
	"unicode"

	"millmaths.example/paperprop/calc"
	"millmaths.example/paperprop/calc/plain"
	"millmaths.example/paperprop/catalogue"
)

// A listing is a calculation, or a command with a file of its own, as list finds and
// prints it.
type listing struct {
	name, title string
	spelt       string // all that is said about it, in small letters
	text        string // the same, plain: see plainly
	source      string // as wholeWords, since only such count: ash is not ASHRAE
}

// A shelf is what list prints together: the calculations of a room, or the commands.
type shelf struct {
	name, title string
	listings    []listing
}

// mostWords is the most bytes of words that are looked for: no text says more at once.
const mostWords = 200

// list prints the calculations, or those in which words turn up.
func list(_ context.Context, args []string, t *terminal) error {
	words := strings.Join(args, " ")
	if strings.HasPrefix(words, "-") {
		return usageError{fmt.Errorf("list has no flag %s, want a word or nothing: millmaths list starch", args[0])}
	}
	found := listed(words)
	if len(found) == 0 {
		return nothingTo(words)
	}
	for _, s := range found {
		var rows [][]string
		for _, l := range s.listings {
			rows = append(rows, []string{"  " + l.name, l.title})
		}
		fmt.Fprintf(t.out, "%s - %s\n", s.name, s.title)
		plain.Rows(t.out, rows)
	}
	return nil
}

// nothingTo says that words turn up nowhere, with the nearest words that do.
func nothingTo(words string) error {
	if near := nearWords(words); len(near) > 0 {
		return fmt.Errorf("no calculation has to do with %q, near: %s", words, strings.Join(near, ", "))
	}
	return fmt.Errorf("no calculation has to do with %q; millmaths list shows all", words)
}

// nearWords returns words of the texts, as they are spelt there, that are like those of
// words that turn up nowhere.
func nearWords(words string) (near []string) {
	if len(words) > mostWords {
		return nil
	}
	all := shelves()
	var texts []string
	for _, s := range all {
		for _, l := range s.listings {
			texts = append(texts, strings.Fields(wholeWords(l.spelt))...)
		}
	}
	slices.Sort(texts)
	texts = slices.Compact(texts)
	for _, word := range strings.Fields(plainly(words)) {
		if len(narrowed(all, func(l listing) bool { return l.mentions(word) })) == 0 {
			near = append(near, alike(word, texts)...)
		}
	}
	return near
}

// alike returns the texts most similar to a word that is long enough to be told from
// others: couch is no count, and knives are not what a machine gives. A text much shorter
// only begins as the word does.
func alike(word string, texts []string) []string {
	const long = 6
	if len(word) < long {
		return nil
	}
	return slices.DeleteFunc(calc.Nearest(word, texts), func(near string) bool { return near[0] != word[0] || 2*len(near) < len(word) })
}

// shelves returns all that there is to list.
func shelves() []shelf {
	var all []shelf
	for _, g := range catalogue.Groups() {
		s := shelf{name: g.Name, title: g.Title}
		for _, c := range g.Calculations {
			s.listings = append(s.listings, listingOf(c.Info()))
		}
		all = append(all, s)
	}
	commands := shelf{name: "command", title: "whole lines, order lists and order books, described in a file"}
	for _, t := range tools() {
		if t.tables != nil {
			commands.listings = append(commands.listings, listingOfTool(t))
		}
	}
	return append(all, commands)
}

func listingOf(info *calc.Info) listing {
	texts := append([]string{info.Name, info.Title, info.Answers, info.Method}, info.Mistakes...)
	sources := []string{info.Source}
	for _, f := range slices.Concat(info.In, info.Out) {
		texts = append(texts, f.Name, f.Help)
		texts = append(texts, f.Choices...)
		sources = append(sources, f.Report.Of)
		if len(f.Symbol) > 1 && f.Symbol == strings.ToUpper(f.Symbol) {
			texts = append(texts, f.Symbol) // CSF, SR and WRV are words of the trade, m_d is none
		}
	}
	return listing{info.Name, info.Title, smallLetters(texts...), plainly(texts...), wholeWords(plainly(sources...))}
}

func listingOfTool(t tool) listing {
	texts := []string{t.name, t.help}
	for _, table := range t.tables() {
		texts = append(texts, strings.Trim(table.Head, "[]"), table.About)
		for _, k := range table.Keys {
			texts = append(texts, k.Name, k.Holds, k.About)
		}
	}
	return listing{name: t.name, title: t.help, spelt: smallLetters(texts...), text: plainly(texts...)}
}

// listed returns what words find: all for no words; what is on a shelf for its name;
// what says a short word, since tear begins with TEA; what mentions the words as they
// stand, or else run together (dewpoint), or else each of them, or else in the singular;
// or else the shelf whose title does.
func listed(words string) []shelf {
	all := shelves()
	if words == "" {
		return all
	}
	if len(words) > mostWords {
		return nil
	}
	words = plainly(words)
	for i, s := range all {
		if words == s.name {
			return all[i : i+1]
		}
	}
	const short = 3
	fits := []func(listing) bool{
		func(l listing) bool { return len(words) <= short && l.says(words) },
		func(l listing) bool { return l.mentions(words) },
		func(l listing) bool { return l.runsTogether(words) },
		func(l listing) bool { return l.mentionsEach(words) },
	}
	for _, plural := range []string{"s", "es"} {
		if singular, ok := strings.CutSuffix(words, plural); ok && len(singular) >= short {
			fits = append(fits, func(l listing) bool { return l.mentions(singular) })
		}
	}
	for _, fit := range fits {
		if found := narrowed(all, fit); len(found) > 0 {
			return found
		}
	}
	return slices.DeleteFunc(all, func(s shelf) bool { return !strings.Contains(" "+plainly(s.title), " "+words) })
}

// narrowed returns the shelves with only what fits, and none that are empty.
func narrowed(all []shelf, fits func(listing) bool) []shelf {
	var some []shelf
	for _, s := range all {
		var kept []listing
		for _, l := range s.listings {
			if fits(l) {
				kept = append(kept, l)
			}
		}
		if len(kept) > 0 {
			some = append(some, shelf{s.name, s.title, kept})
		}
	}
	return some
}

// turnsUp reports whether list finds anything for words.
func turnsUp(words string) bool { return words != "" && len(listed(words)) > 0 }

// mentions reports whether plain words begin anywhere in the texts, or are whole
// words of the source.
func (l listing) mentions(words string) bool {
	return strings.Contains(" "+l.text, " "+words) || strings.Contains(l.text, "("+words) ||
		l.source != "" && strings.Contains(l.source, wholeWords(words))
}

// says reports whether a plain word is one of the texts or of the source, or several of
// it are.
func (l listing) says(word string) bool {
	text := wholeWords(l.text)
	return strings.Contains(text, " "+word+" ") || strings.Contains(text, " "+word+"s ") || strings.Contains(l.source, " "+word+" ")
}

func (l listing) mentionsEach(words string) bool {
	return !slices.ContainsFunc(strings.Fields(words), func(word string) bool { return !l.mentions(word) })
}

// runsTogether reports whether long words begin anywhere in the texts but for blanks:
// some write dewpoint and head box. Of short ones, as held would be ash.
func (l listing) runsTogether(words string) bool {
	const long = 6
	words = strings.ReplaceAll(words, " ", "")
	if len(words) < long {
		return false
	}
	parts := strings.Fields(strings.ReplaceAll(l.text, "(", ""))
	for i := range parts {
		run := ""
		for j := i; j < len(parts) && len(run) < len(words); j++ {
			run += parts[j]
		}
		if strings.HasPrefix(run, words) {
			return true
		}
	}
	return false
}

// american are spellings that a reader of American texts types, or other words than
// ours, and those to compare. Both the texts and the words asked for pass through them,
// so that parts of words do no harm.
var american = [...][2]string{
	{"fiber", "fibre"}, {"color", "colour"}, {"liter", "litre"}, {"meter", "metre"}, {"center", "centre"},
	{"vapor", "vapour"}, {"evapour", "evapor"}, {"sulf", "sulph"}, {"mold", "mould"}, {"disk", "disc"}, {"gage", "gauge"},
	{"percent", "per cent"}, {"calliper", "caliper"}, {"kaolin", "clay"}, {"calendering", "calender"},
	{"sizing agent", "size"},
	{"forming fabric", "wire"}, {"fabric", "wire"}, {"talc", "filler"}, {"titanium dioxide", "filler"}, {"delamination", "ply bond"},
}

// plainly joins texts in small letters and in one spelling.
func plainly(texts ...string) string {
	joined := smallLetters(texts...)
	for _, word := range american {
		joined = strings.ReplaceAll(joined, word[0], word[1])
	}
	return joined
}

// smallLetters joins texts in small letters, with blanks for hyphens: some write
// white-water, some white water, and air dry is called air-dry.
func smallLetters(texts ...string) string {
	joined := strings.ToLower(strings.Join(texts, " "))
	return strings.Join(strings.Fields(strings.ReplaceAll(joined, "-", " ")), " ")
}

// wholeWords are the words of a text in small letters, each between blanks.
func wholeWords(text string) string {
	words := strings.FieldsFunc(strings.ToLower(text), func(c rune) bool { return !unicode.IsLetter(c) && !unicode.IsDigit(c) })
	return " " + strings.Join(words, " ") + " "
}
