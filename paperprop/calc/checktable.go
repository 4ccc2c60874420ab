package calc

import (
	"bufio"
	"encoding/csv"
	"errors"
	"fmt"
	"io"
	"iter"
	"math"
	"slices"
	"strconv"
	"strings"

	"millmaths.example/paperprop/internal/wording"
)

// checkHead is the head of a check table.
var checkHead = []string{"id", "calculation", "inputs", "expected", "tolerance", "kind", "source", "note"}

// maxCheck limits the bytes of a row of a check table.
const maxCheck = 1 << 20

// ReadChecks reads a check table. A row that cannot be understood gives an error with
// file and line; the other rows are returned nevertheless, and all errors together.
func ReadChecks(name string, r io.Reader) ([]Check, error) {
	var checks []Check
	var errs []error
	for c, err := range EachCheck(name, r) {
		if err != nil {
			errs = append(errs, err)
			continue
		}
		checks = append(checks, c)
	}
	return checks, errors.Join(errs...)
}

// EachCheck iterates over the rows of a check table, keeping none. A row that cannot be
// understood, or is longer than a mebibyte, gives an error with file and line. The
// iteration ends where the table cannot be read any further.
func EachCheck(name string, r io.Reader) iter.Seq2[Check, error] {
	return func(yield func(Check, error) bool) {
		from, err := skipMark(r)
		if err != nil {
			yield(Check{}, fmt.Errorf("%s: %w", name, err))
			return
		}
		source := &bounded{from: from, left: maxCheck}
		rows := csv.NewReader(source)
		rows.FieldsPerRecord = -1
		if err := readCheckHead(name, rows); err != nil {
			yield(Check{}, err)
			return
		}
		for {
			source.left = maxCheck
			row, err := rows.Read()
			if err == io.EOF {
				return
			}
			if err != nil {
				yield(Check{}, fmt.Errorf("%s: %w", name, err))
				return
			}
			c, err := parseCheck(row)
			c.File = name
			c.Line, _ = rows.FieldPos(0)
			if err != nil {
				err = fmt.Errorf("%s:%d: %w", name, c.Line, err)
			}
			if !yield(c, err) {
				return
			}
		}
	}
}

func readCheckHead(name string, rows *csv.Reader) error {
	head, err := rows.Read()
	switch {
	case err == io.EOF:
		return fmt.Errorf("%s: nothing in it, want the head %s and rows under it", name, strings.Join(checkHead, ","))
	case err != nil:
		return fmt.Errorf("%s: no head: %w", name, err)
	case !slices.Equal(head, checkHead):
		return fmt.Errorf("%s:1: head is %s, want %s", name, wording.Clip(strings.Join(head, ",")), strings.Join(checkHead, ","))
	}
	return nil
}

// bounded is a source of rows that fails on a row without an end, as an unclosed quote
// may span a whole disk.
type bounded struct {
	from io.Reader
	left int
}

func (b *bounded) Read(p []byte) (int, error) {
	if b.left <= 0 {
		return 0, fmt.Errorf("a row of more than %d bytes: is a quote not closed?", maxCheck)
	}
	n, err := b.from.Read(p)
	b.left -= n
	return n, err
}

// skipMark skips a byte order mark.
func skipMark(r io.Reader) (io.Reader, error) {
	b := bufio.NewReader(r)
	mark, err := b.Peek(3)
	if string(mark) == "\ufeff" {
		b.Discard(3)
	}
	if err == io.EOF {
		err = nil
	}
	return b, err
}

func parseCheck(row []string) (Check, error) {
	if len(row) != len(checkHead) {
		return Check{}, fmt.Errorf("%s, want %d: %s", wording.Count(len(row), "cell"), len(checkHead), strings.Join(checkHead, ","))
	}
	c := Check{ID: row[0], Calculation: row[1], Kind: Status(row[5]), Source: row[6], Note: row[7]}
	var err error
	if c.Inputs, err = splitPairs(row[2]); err != nil {
		return c, fmt.Errorf("%s: inputs: %w", c.ID, err)
	}
	for _, part := range strings.Split(row[3], ";") {
		switch part = strings.TrimSpace(part); part {
		case "":
		case "refused":
			c.Refused = true
		case "warned":
			c.Warned = true
		default:
			p, err := parsePair(part)
			if err != nil {
				return c, fmt.Errorf("%s: expected: %w", c.ID, err)
			}
			c.Expected = append(c.Expected, p)
		}
	}
	if err := givenTwice(c.Inputs); err != nil && !c.Refused { // a slip of the table
		return c, fmt.Errorf("%s: inputs: %w", c.ID, err)
	}
	if !c.Refused && !c.Warned && len(c.Expected) == 0 {
		return c, fmt.Errorf("%s: nothing is expected, want NAME=VALUE UNIT, refused or warned", c.ID)
	}
	if !slices.Contains([]Status{Published, Library, CommonPractice, Memory}, c.Kind) {
		return c, fmt.Errorf("%s: kind is %q, want published, library, common-practice or memory", c.ID, c.Kind)
	}
	c.Tolerance, err = parseTolerance(row[4])
	if err != nil {
		return c, fmt.Errorf("%s: %w", c.ID, err)
	}
	return c, nil
}

// ParsePairs reads "name=value unit; name=value unit". A name ends at the first =. It
// refuses a part without a name and a name given twice, and looks at no value.
func ParsePairs(text string) ([]Pair, error) {
	pairs, err := splitPairs(text)
	if err == nil {
		err = givenTwice(pairs)
	}
	if err != nil {
		return nil, err
	}
	return pairs, nil
}

func splitPairs(text string) ([]Pair, error) {
	var pairs []Pair
	for _, part := range strings.Split(text, ";") {
		if part = strings.TrimSpace(part); part == "" {
			continue
		}
		p, err := parsePair(part)
		if err != nil {
			return nil, err
		}
		pairs = append(pairs, p)
	}
	return pairs, nil
}

// givenTwice refuses a name that comes again, as it is not clear which value is meant.
func givenTwice(pairs []Pair) error {
	for i, p := range pairs {
		if slices.ContainsFunc(pairs[:i], func(q Pair) bool { return q.Name == p.Name }) {
			return fmt.Errorf("%s is given twice", p.Name)
		}
	}
	return nil
}

func parsePair(part string) (Pair, error) {
	name, text, ok := strings.Cut(part, "=")
	if name = strings.TrimSpace(name); !ok || name == "" {
		return Pair{}, fmt.Errorf("%q, want NAME=VALUE UNIT", part)
	}
	return Pair{name, strings.TrimSpace(text)}, nil
}

func parseTolerance(text string) (Tolerance, error) {
	kind, number, _ := strings.Cut(strings.TrimSpace(text), " ")
	x, err := strconv.ParseFloat(number, 64)
	switch {
	case text == "exact":
		return Tolerance{Exact: true}, nil
	case err != nil || x < 0 || math.IsInf(x, 0) || math.IsNaN(x):
	case kind == "rel":
		return Tolerance{Relative: x}, nil
	case kind == "abs":
		return Tolerance{Absolute: x}, nil
	}
	return Tolerance{}, fmt.Errorf("tolerance is %q, want rel 1e-6, abs 0.002 or exact", text)
}
