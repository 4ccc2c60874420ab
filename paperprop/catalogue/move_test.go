package catalogue_test

import (
	"math"
	"strconv"
	"strings"

	"millmaths.example/paperprop/calc"
)

// movedTexts writes an expected value with each of its numbers moved by two
// tolerances, an exact number by its last digit, a word to another.
func movedTexts(text string, t calc.Tolerance) []string {
	var moved []string
	words := strings.Fields(text)
	for i, word := range words {
		core := strings.Trim(word, "[]")
		x, err := strconv.ParseFloat(core, 64)
		if err != nil || i > 0 && !strings.HasPrefix(words[0], "[") {
			continue
		}
		other := append([]string(nil), words...)
		other[i] = strings.Replace(word, core, move(core, x, t), 1)
		moved = append(moved, strings.Join(other, " "))
	}
	if len(moved) == 0 {
		moved = append(moved, text+"x")
	}
	return moved
}

func move(text string, x float64, t calc.Tolerance) string {
	var by float64
	switch {
	case t.Exact:
		decimals := 0
		if i := strings.IndexByte(text, '.'); i >= 0 {
			decimals = len(text) - i - 1
		}
		return strconv.FormatFloat(x+math.Pow(10, -float64(decimals)), 'f', decimals, 64)
	case t.Absolute > 0:
		by = 2 * t.Absolute
	case x == 0:
		by = 2e-15
	default:
		by = max(2*t.Relative*math.Abs(x), 4e-16*math.Abs(x))
	}
	return strconv.FormatFloat(x+by, 'f', -1, 64)
}
