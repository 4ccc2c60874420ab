package main

import (
	"html"
	"strings"
)

// A markup is HTML; text becomes markup by escaping. The template packages of the
// standard library would do too, but they keep every method of every type in the
// program and set up tables at every start: 4 MB and a tenth of a millisecond for
// all other commands.
type markup string

// text turns text into markup.
func text(s string) markup { return markup(html.EscapeString(s)) }

// join concatenates pieces of markup.
func join(parts ...markup) markup {
	var b strings.Builder
	for _, p := range parts {
		b.WriteString(string(p))
	}
	return markup(b.String())
}

// element returns an element; opening is its name and attributes: element(`table
// class="checks"`, ...).
func element(opening string, content ...markup) markup {
	name, _, _ := strings.Cut(opening, " ")
	return join(markup("<"+opening+">"), join(content...), markup("</"+name+">"))
}

// ownLine returns an element on a line of its own.
func ownLine(opening string, content ...markup) markup { return element(opening, content...) + "\n" }

// attribute returns an attribute; its value may hold any characters.
func attribute(name, value string) string { return " " + name + `="` + html.EscapeString(value) + `"` }

// link returns a link to an address within the handbook.
func link(address string, content ...markup) markup {
	return element("a"+attribute("href", address), content...)
}

func code(s string) markup { return element("code", text(s)) }

// tableOf returns a table that scrolls by itself if it is wider than the page. The
// first cell of each row is its head.
func tableOf(caption string, heads []string, rows [][]markup) markup {
	return tableIn("table", caption, heads, rows)
}

// wideTable returns a table whose cells hold sentences, and so have a least width.
func wideTable(caption string, heads []string, rows [][]markup) markup {
	return tableIn(`table class="sentences"`, caption, heads, rows)
}

func tableIn(opening, caption string, heads []string, rows [][]markup) markup {
	var b []markup
	var head []markup
	for _, h := range heads {
		head = append(head, element(`th scope="col"`, text(h)))
	}
	for _, row := range rows {
		cells := []markup{element(`th scope="row"`, row[0])}
		for _, cell := range row[1:] {
			cells = append(cells, element("td", cell))
		}
		b = append(b, ownLine("tr", cells...))
	}
	return scrolling(caption, "\n", element(opening, ownLine("caption", text(caption)),
		ownLine("thead", element("tr", head...)), ownLine("tbody", join(append([]markup{"\n"}, b...)...))))
}

// scrolling wraps content that may be wider than the page. It takes the focus, so
// that the keyboard can scroll it.
func scrolling(label string, content ...markup) markup {
	return ownLine(`div class="wide" role="group" tabindex="0"`+attribute("aria-label", label), content...)
}

// bullets returns a list of items.
func bullets(items ...markup) markup {
	var b []markup
	for _, item := range items {
		b = append(b, ownLine("li", item))
	}
	return ownLine("ul", append([]markup{"\n"}, b...)...)
}

// typeset returns a value with its units as in print: g/m², °C, µm. Every command
// reads both spellings.
func typeset(value string) string {
	r := []rune(strings.NewReplacer("degC", "°C", "degF", "°F", "+-", "±").Replace(value))
	at := func(i int) rune {
		if i < 0 || i >= len(r) {
			return ' '
		}
		return r[i]
	}
	var b strings.Builder
	for i, c := range r {
		power := strings.IndexRune("23467", c)
		switch {
		case power >= 0 && isLetter(at(i-1)) && !isWord(at(i+1)) && !(at(i-1) == 'e' && isDigit(at(i-2))):
			b.WriteRune([]rune("²³⁴⁶⁷")[power])
		case c == 'u' && strings.ContainsRune("mgLe", at(i+1)) && !isWord(at(i-1)) && (!isWord(at(i+2)) || strings.ContainsRune("oq", at(i+2))):
			b.WriteRune('µ')
		case c == '-' && isDigit(at(i+1)) && strings.ContainsRune(" [", at(i-1)):
			b.WriteRune('−')
		default:
			b.WriteRune(c)
		}
	}
	return b.String()
}

func isLetter(r rune) bool { return r >= 'a' && r <= 'z' || r >= 'A' && r <= 'Z' }
func isDigit(r rune) bool  { return r >= '0' && r <= '9' }
func isWord(r rune) bool   { return isLetter(r) || isDigit(r) }
