// Package plain sets plain text for a terminal of 80 columns, and tables and texts in
// Markdown.
package plain

import (
	"fmt"
	"io"
	"slices"
	"strings"
	"unicode"
	"unicode/utf8"
)

// Width is that of the terminal that plain text is written for.
const Width = 80

// UnbrokenBlank is a space at which a line must not be broken.
const UnbrokenBlank = "\u00a0"

// Rows aligns columns. If the last one does not fit, it continues below its
// beginning or, if that is too far right, on lines of its own.
func Rows(out io.Writer, rows [][]string) {
	starts, wide := startsOf(rows)
	for k, row := range rows {
		switch {
		case len(row) == 0:
			fmt.Fprintln(out)
			continue
		case wide[k]:
			printWide(out, row, starts)
			continue
		}
		var line strings.Builder
		n := len(row) - 1
		for i, cell := range row[:n] {
			fmt.Fprintf(&line, "%-*s", starts[i+1]-starts[i], cell)
		}
		last := row[n]
		if at := starts[n]; at < Width-24 {
			last = WrappedAt(last, at)
		} else if last != "" && at+utf8.RuneCountInString(last) > Width {
			fmt.Fprintln(out, strings.TrimRight(line.String(), " "))
			line.Reset()
			last = "      " + Wrapped(last, "      ")
		}
		fmt.Fprintln(out, strings.TrimRight(line.String()+last, " "))
	}
}

// startsOf returns where the columns of rows begin, and which rows have a cell before
// their last one that does not fit there: they do not widen its column.
func startsOf(rows [][]string) (starts []int, wide []bool) {
	starts, wide = []int{0}, make([]bool, len(rows))
	for i := 0; ; i++ {
		next, more := starts[i]+2, false
		for k, row := range rows {
			if wide[k] || i >= len(row)-1 {
				continue
			}
			more = true
			if end := starts[i] + utf8.RuneCountInString(row[i]); end > Width {
				wide[k] = true
			} else {
				next = max(next, end+2)
			}
		}
		if !more {
			return starts, wide
		}
		starts = append(starts, next)
	}
}

// printWide prints a row whose first cell that does not fit continues below its
// beginning, and so do the cells after it, each on a line of its own.
func printWide(out io.Writer, row []string, starts []int) {
	var line strings.Builder
	for i, cell := range row {
		if at := starts[i]; at+utf8.RuneCountInString(cell) > Width {
			fmt.Fprintf(out, "%s%s\n", line.String(), WrappedAt(cell, at))
			for _, rest := range row[i+1:] {
				if rest != "" {
					fmt.Fprintf(out, "%s%s\n", strings.Repeat(" ", at), WrappedAt(rest, at))
				}
			}
			return
		}
		fmt.Fprintf(&line, "%-*s", starts[i+1]-starts[i], cell)
	}
}

// Wrapped breaks text at Width, lines after the first indented.
func Wrapped(text, indent string) string { return WrappedAt(text, len(indent)) }

// WrappedAt breaks text that begins at a column, and continues at that column. It does
// not break at a no-break space, which comes out as a space.
func WrappedAt(text string, column int) string {
	var b strings.Builder
	column = onLine(column)
	at := column
	words := strings.FieldsFunc(text, func(c rune) bool { return unicode.IsSpace(c) && string(c) != UnbrokenBlank })
	for i, word := range words {
		word = strings.ReplaceAll(word, UnbrokenBlank, " ")
		n := utf8.RuneCountInString(word)
		switch {
		case i == 0:
		case at+1+n > Width:
			b.WriteString("\n" + strings.Repeat(" ", column))
			at = column
		default:
			b.WriteByte(' ')
			at++
		}
		b.WriteString(word)
		at += n
	}
	return b.String()
}

// Folded breaks a formula that begins at a column if it is wider than the terminal:
// before a sign, after a comma, or between the members of a list.
func Folded(text string, column int) string {
	var b strings.Builder
	column = onLine(column)
	for {
		at := foldAt(text, Width-column)
		if at == 0 {
			b.WriteString(text)
			return b.String()
		}
		b.WriteString(strings.TrimRight(text[:at], " ") + "\n" + strings.Repeat(" ", column))
		text = strings.TrimLeft(text[at:], " ")
	}
}

// onLine returns the column nearest to a number.
func onLine(column int) int { return min(max(column, 0), Width) }

// foldAt returns where to break a formula so that the first part fits, or is as
// short as possible; 0 if it fits or can't be broken. A product or a list is broken
// only where no sum can be.
func foldAt(text string, room int) int {
	if utf8.RuneCountInString(text) <= room {
		return 0
	}
	last, within := 0, 0
	bracket := strings.IndexAny(text, "[]")
	list := bracket >= 0 && text[bracket] == ']' // a list that was broken before
	for i, c := range text {
		if i > 0 && max(last, within) > 0 && utf8.RuneCountInString(text[:i]) > room {
			break
		}
		if c == '[' || c == ']' {
			list = c == '['
		}
		rest := text[i:]
		switch {
		case i == 0:
		case c == '*' || c == ' ' && list:
			within = i
		case c == ' ' && text[i-1] == ',' || strings.HasPrefix(rest, " + ") || strings.HasPrefix(rest, " - "):
			last = i
		}
	}
	if last < room/3 {
		return max(last, within)
	}
	return last
}

// InMarkdown returns a text as it must be written in Markdown, which takes what stands
// between two asterisks for stressed: k*a*b would come out without them.
func InMarkdown(text string) string { return strings.ReplaceAll(text, "*", `\*`) }

// MarkdownTable writes rows below their heads.
func MarkdownTable(out io.Writer, head []string, rows [][]string) {
	fmt.Fprintf(out, "| %s |\n|%s\n", strings.Join(head, " | "), strings.Repeat(" --- |", len(head)))
	plain := strings.NewReplacer("|", `\|`, "*", `\*`, "\r\n", " ", "\n", " ", "\r", " ") // a row must be one line
	for _, row := range rows {
		cells := slices.Clone(row)
		for i, cell := range cells {
			cells[i] = plain.Replace(cell)
		}
		fmt.Fprintf(out, "| %s |\n", strings.Join(cells, " | "))
	}
}
