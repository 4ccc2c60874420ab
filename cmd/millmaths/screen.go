package main

import (
	"fmt"
	"io"
	"strconv"
	"strings"
	"unicode"
	"unicode/utf8"
)

// A screen writes for people: characters that could control a terminal, or change
// the direction of a text, are written as \x1b or \u202e. Files, arguments and
// their names come from other people.
type screen struct {
	to  io.Writer
	cut []byte // the beginning of a character whose rest has not arrived
}

// Write writes all of text except a character that is cut off at its end.
func (s *screen) Write(text []byte) (int, error) {
	n := len(text)
	if len(s.cut) > 0 {
		text = append(s.cut, text...)
		s.cut = nil
	}
	whole := text[:len(text)-cutLength(text)]
	s.cut = append(s.cut, text[len(whole):]...)
	if _, err := s.to.Write(printable(whole)); err != nil {
		return 0, err
	}
	return n, nil
}

// cutLength returns the number of bytes at the end of text that begin an incomplete
// character.
func cutLength(text []byte) int {
	for i := 1; i < utf8.UTFMax && i <= len(text); i++ {
		if tail := text[len(text)-i:]; utf8.RuneStart(tail[0]) {
			if utf8.FullRune(tail) {
				return 0
			}
			return i
		}
	}
	return 0
}

// printable returns text with unprintable characters as escapes. Most text has
// none.
func printable(text []byte) []byte {
	if clean(text) {
		return text
	}
	out := make([]byte, 0, len(text)+32)
	for len(text) > 0 {
		r, size := utf8.DecodeRune(text)
		switch {
		case r == utf8.RuneError && size == 1:
			out = fmt.Appendf(out, `\x%02x`, text[0])
		case prints(r):
			out = append(out, text[:size]...)
		default:
			quoted := strconv.AppendQuoteRuneToASCII(nil, r)
			out = append(out, quoted[1:len(quoted)-1]...)
		}
		text = text[size:]
	}
	return out
}

func clean(text []byte) bool {
	for i := 0; i < len(text); {
		if c := text[i]; c >= ' ' && c < 0x7f || c == '\n' || c == '\t' {
			i++
			continue
		}
		r, size := utf8.DecodeRune(text[i:])
		if !prints(r) || r == utf8.RuneError && size == 1 {
			return false
		}
		i += size
	}
	return true
}

func prints(r rune) bool { return unicode.IsGraphic(r) || r == '\n' || r == '\t' }

// shown returns the name of a file for messages, in which it must not look like
// anything else.
func shown(name string) string {
	if strings.ContainsAny(name, "\n\t") || !clean([]byte(name)) {
		return strconv.Quote(name)
	}
	return name
}

// source returns the name of what is read, for messages.
func source(name string) string {
	if name == "-" {
		return "standard input"
	}
	return shown(name)
}

// oneLine returns a message as one line of readable length: a file may have a
// million heads, and a line end in a name would make two messages of one.
func oneLine(text string) string {
	text = string(printable([]byte(strings.ReplaceAll(text, "\n", `\n`))))
	const most = 2000
	if len(text) <= most {
		return text
	}
	kept := strings.ToValidUTF8(text[:most], "")
	return fmt.Sprintf("%s… and %d bytes more", kept, len(text)-len(kept))
}

// linesOf returns one line for each of several joined errors.
func linesOf(err error) string {
	joined, ok := err.(interface{ Unwrap() []error })
	if !ok {
		return oneLine(err.Error())
	}
	var lines []string
	for _, e := range joined.Unwrap() {
		lines = append(lines, linesOf(e))
	}
	return strings.Join(lines, "\n")
}
