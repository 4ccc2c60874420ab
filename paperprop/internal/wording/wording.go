// Package wording holds what messages about texts need: numbers and lists of things as a
// person says them, texts of a length to be read, and how far two spellings are apart.
package wording

import (
	"strconv"
	"strings"
)

// Count returns a number of things: "1 row", "2 rows".
func Count(n int, thing string) string {
	if n == 1 {
		return "1 " + thing
	}
	return strconv.Itoa(n) + " " + thing + "s"
}

// Or joins words as a person does: "t, short ton or long ton".
func Or(words []string) string {
	if len(words) < 2 {
		return strings.Join(words, "")
	}
	return strings.Join(words[:len(words)-1], ", ") + " or " + words[len(words)-1]
}

// Clip cuts a text that would make a message long, to 64 bytes of whole characters.
func Clip(text string) string {
	const most = 64
	if len(text) <= most {
		return text
	}
	return strings.ToValidUTF8(text[:most], "") + "…"
}

// Distance returns the number of bytes to insert, delete or replace to turn a into b
// (Levenshtein).
func Distance(a, b string) int {
	row := make([]int, 0, 64) // on the stack, for a word of usual length
	for j := range len(b) + 1 {
		row = append(row, j)
	}
	for i := range len(a) {
		before := row[0] // of the row above, one to the left
		row[0] = i + 1
		for j := range len(b) {
			cost := before
			if a[i] != b[j] {
				cost = 1 + min(before, row[j], row[j+1])
			}
			before, row[j+1] = row[j+1], cost
		}
	}
	return row[len(b)]
}
