package main

import (
	"cmp"
	"fmt"
	"maps"
	"regexp"
	"slices"
	"strconv"
	"strings"
	"sync"

	"millmaths.example/paperprop/calc"
	"millmaths.example/paperprop/catalogue"
)

// rooms returns the first page: how to read the others, and the calculations by
// room.
func (b *handbook) rooms() markup {
	count := 0
	for _, g := range b.groups {
		count += len(g.Calculations)
	}
	verdict := "all of them agree"
	if b.failed > 0 {
		verdict = fmt.Sprintf("%d of them fail", b.failed)
	}
	parts := []markup{
		ownLine("h1", "Handbook of mill calculations"),
		ownLine(`p class="answers"`, text(fmt.Sprintf("%d calculations for pulp, paper and board mills: what each answers, its formula with units, "+
			"a worked example, what people get wrong, and where it comes from. %s of check tables were run on writing; %s.", count, counted(b.rows, "row"), verdict))),
		ownLine("p", "Find one by room on this page, ", link("questions.html", "by the question"), " it answers, or ", link("standards.html", "by a standard"), " it names."),
		ownLine("h2", "How to read a page"),
		ownLine("p", "Names such as ", code("mass-flow"), " are those of the command line, of JSON, of table heads and of check tables. "+
			"A symbol stands for a value with its unit: the formulas hold in any units that fit together. An output may be given in place of an input, which is then solved for. "+
			"Of each source and each check row a page says how it is known:"),
		ownLine("dl", "\n",
			meaning(calc.Published, "The number, limit or rule was seen in print."),
			meaning(calc.Library, "The number was computed with a named general-purpose library."),
			meaning(calc.CommonPractice, "A balance or a rule of the trade, without a source."),
			meaning(calc.Memory, "Remembered, and not seen: to be looked up before anything depends on it.")),
		ownLine("h2", "Rooms"),
		ownLine(`nav class="rooms" aria-label="Rooms"`, b.roomLinks()...),
	}
	for _, g := range b.groups {
		var all []markup
		for _, c := range g.Calculations {
			all = append(all, link(c.ID()+".html", text(c.Info().Title)))
		}
		parts = append(parts, ownLine(`section class="index"`, ownLine("h3"+attribute("id", g.Name), text(g.Name+" - "+g.Title)), bullets(all...)))
	}
	return join(parts...)
}

func (b *handbook) roomLinks() []markup {
	var links []markup
	for _, g := range b.groups {
		links = append(links, link("#"+g.Name, text(g.Title)), " ")
	}
	return links
}

func meaning(s calc.Status, what string) markup {
	return join(ownLine("dt"+attribute("id", string(s)), text(plainKind(s))), ownLine("dd", text(what)))
}

// commonOpening is how many questions must begin alike to get a heading of their
// own.
const commonOpening = 5

// questions lists the calculations by how their questions begin.
func (b *handbook) questions() markup {
	infos := allInfos()
	begin := map[string]int{}
	for _, info := range infos {
		begin[opening(info.Answers, 2)]++
	}
	head := func(info *calc.Info) string {
		if two := opening(info.Answers, 2); begin[two] >= commonOpening {
			return two
		}
		return opening(info.Answers, 1)
	}
	by := map[string][]*calc.Info{}
	for _, info := range infos {
		by[head(info)] = append(by[head(info)], info)
	}
	parts := []markup{
		ownLine("h1", "By question"),
		ownLine(`p class="answers"`, "What each calculation answers, in the order of the alphabet."),
	}
	for _, h := range slices.Sorted(maps.Keys(by)) {
		slices.SortFunc(by[h], func(a, b *calc.Info) int {
			return cmp.Or(cmp.Compare(a.Answers, b.Answers), cmp.Compare(a.Name, b.Name))
		})
		var all []markup
		for _, info := range by[h] {
			all = append(all, link(info.Name+".html", text(info.Answers)))
		}
		parts = append(parts, ownLine(`section class="questions"`, ownLine("h2", text(h+" ...")), bullets(all...)))
	}
	return join(parts...)
}

// allInfos returns the descriptions of all calculations.
func allInfos() []*calc.Info {
	var infos []*calc.Info
	for _, c := range catalogue.All() {
		infos = append(infos, c.Info())
	}
	return infos
}

// opening returns the first n words of a text.
func opening(s string, n int) string {
	words := strings.Fields(s)
	return strings.Trim(strings.Join(words[:min(n, len(words))], " "), ",.;:")
}

// A citation is a mention of a standard by a page.
type citation struct {
	info *calc.Info
	how  []string // "source (published)", "a check row (memory)"
}

// standards lists the calculations by the standards that their descriptions and
// check rows name.
func (b *handbook) standards() markup {
	cited := map[string][]*citation{}
	for _, info := range allInfos() {
		for _, m := range b.mentionsOf(info) {
			for _, name := range standardsIn(m.text) {
				all := cited[name]
				if len(all) == 0 || all[len(all)-1].info != info {
					all = append(all, &citation{info: info})
				}
				last := all[len(all)-1]
				if !slices.Contains(last.how, m.how) {
					last.how = append(last.how, m.how)
				}
				cited[name] = all
			}
		}
	}
	parts := []markup{
		ownLine("h1", "By standard"),
		ownLine(`p class="answers"`, "Which calculations name a standard, and how they know of it."),
		ownLine("p", "A name here does not say that a calculation carries out the standard, nor that its body approves of it: read the source on the page, and the standard itself. "+
			"T stands for a test method, TIP for an information sheet of TAPPI."),
	}
	body := ""
	for _, name := range slices.SortedFunc(maps.Keys(cited), byNumber) {
		if of := bodyOf(name); of != body {
			body = of
			parts = append(parts, ownLine("h2", text(body)))
		}
		var all []markup
		for _, c := range cited[name] {
			all = append(all, join(link(c.info.Name+".html", text(c.info.Title)), element(`span class="quiet"`, text(" - "+strings.Join(c.how, ", ")))))
		}
		parts = append(parts, ownLine(`section class="standards"`, ownLine("h3", text(name)), bullets(all...)))
	}
	return join(parts...)
}

// A mention is a text that may name a standard, and where it comes from.
type mention struct{ text, how string }

func (b *handbook) mentionsOf(info *calc.Info) []mention {
	all := []mention{{info.Source, "source (" + plainKind(info.Status) + ")"}}
	for _, f := range info.Out {
		all = append(all, mention{f.Report.Of, "reporting (" + plainKind(f.Report.Status) + ")"}, mention{f.Report.Note, "reporting"})
	}
	texts := slices.Concat([]string{info.Title, info.Answers, info.Method}, info.Mistakes)
	for _, other := range info.Compare {
		texts = append(texts, other.Why)
	}
	for _, f := range slices.Concat(info.In, info.Out) {
		texts = append(texts, f.Help)
	}
	for _, t := range texts {
		all = append(all, mention{t, "in the text"})
	}
	for _, c := range b.checks[info.Name] {
		all = append(all, mention{c.Source, "checks (" + plainKind(c.Kind) + ")"})
	}
	return all
}

// standardNames matches names of standards: a body and a number. The pattern is
// compiled only when a handbook is written, as no other command needs it.
func standardNames() *regexp.Regexp {
	standardForm.once.Do(func() {
		standardForm.names = regexp.MustCompile(`\b(?:ISO|EN|CIE|JCGM|GB/T|NIST Handbook|NIST HB|NIST SP|IAPWS R|TAPPI TIP|TAPPI TIS|TIP|TIS|T) ?\d{1,5}(?:-\d+)*\b|\bASTM [A-Z]\d+\b|\bAS(?:/NZS)? \d{4}\.\d+\b`)
	})
	return standardForm.names
}

var standardForm struct {
	once  sync.Once
	names *regexp.Regexp
}

// standardsIn lists the standards that a text names, each in one spelling.
func standardsIn(s string) []string {
	var names []string
	for _, found := range standardNames().FindAllString(s, -1) {
		if name := standardName(found); name != "" && !slices.Contains(names, name) {
			names = append(names, name)
		}
	}
	return names
}

// standardName returns a name in the common spelling, or "" if it is no standard: T
// 20 is a temperature, as the numbers of methods have three digits or more.
func standardName(found string) string {
	body, number, _ := strings.Cut(found, " ")
	if body == "NIST" || body == "TAPPI" {
		more, rest, _ := strings.Cut(number, " ")
		body, number = body+" "+more, rest
	}
	switch body {
	case "T":
		if len(number) < 3 {
			return ""
		}
	case "TIP", "TIS":
		body = "TAPPI " + body
	case "NIST HB":
		body = "NIST Handbook"
	case "CIE":
		number = strings.TrimLeft(number, "0")
	}
	return body + " " + number
}

// bodyOf returns the publisher of a standard.
func bodyOf(name string) string {
	body, _, _ := strings.Cut(name, " ")
	if body == "T" {
		return "TAPPI"
	}
	return body
}

// byNumber sorts ISO 535 before ISO 1924.
func byNumber(a, b string) int {
	return cmp.Or(cmp.Compare(bodyOf(a), bodyOf(b)), cmp.Compare(lead(a), lead(b)), slices.Compare(numbersOf(a), numbersOf(b)), cmp.Compare(a, b))
}

// lead returns a name up to its first digit.
func lead(name string) string {
	if i := strings.IndexAny(name, "0123456789"); i >= 0 {
		return name[:i]
	}
	return name
}

func numbersOf(name string) []int {
	var numbers []int
	for _, part := range strings.FieldsFunc(name, func(r rune) bool { return !isDigit(r) }) {
		if n, err := strconv.Atoi(part); err == nil {
			numbers = append(numbers, n)
		}
	}
	return numbers
}
