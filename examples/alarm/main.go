// Command alarm watches the white water of an invented mill. It reads rows as a
// gauge writes them (date, time, headbox and tray consistency in per cent) and
// reports at once when first-pass retention falls below a limit in per cent.
// Heads may stand before the rows.
//
//	tail -f gauge.csv | alarm 74
package main

import (
	"bufio"
	"encoding/csv"
	"errors"
	"fmt"
	"io"
	"os"
	"slices"
	"strings"

	"millmaths.example/paperprop"
	"millmaths.example/stock"
)

func main() {
	limit, err := readLimit(os.Args[1:])
	if err != nil {
		fmt.Fprintln(os.Stderr, "alarm:", err)
		os.Exit(2)
	}
	if err := watch(os.Stdin, os.Stdout, limit); err != nil {
		fmt.Fprintln(os.Stderr, "alarm:", err)
		os.Exit(1)
	}
}

// readLimit reads the limit, a number in per cent, or takes the usual one. A
// limit typed as a fraction would never ring.
func readLimit(args []string) (paperprop.Fraction, error) {
	switch len(args) {
	case 0:
		return 74 * paperprop.Percent, nil
	case 1:
	default:
		return 0, fmt.Errorf("%q is too much, want the limit alone", args[1])
	}
	limit, err := paperprop.ParseFraction(args[0] + " %")
	if err != nil {
		return 0, fmt.Errorf("limit: %w", err)
	}
	if limit < 1*paperprop.Percent || limit > 100*paperprop.Percent {
		return 0, fmt.Errorf("limit is %s, want 1 to 100: the number is per cent", args[0])
	}
	return limit, nil
}

// heads are those of the first columns, where the gauge writes any.
var heads = []string{"date", "time", "headbox consistency [%]", "tray consistency [%]"}

// watch says of each row whether retention is low, or why it can't be told. A
// gauge that says nothing is no reason to be at ease, and one spoilt row is none
// to stop watching. Each line is read by itself: a stray quote takes no other.
func watch(rows io.Reader, say io.Writer, limit paperprop.Fraction) error {
	lines := bufio.NewScanner(rows)
	n, first := 0, true
	for lines.Scan() {
		n++
		row, err := cells(lines.Text())
		switch {
		case err != nil:
			fmt.Fprintf(say, "line %d  not known: %v: %q\n", n, err, lines.Text())
			continue
		case row == nil:
			continue
		case first && !isReading(row):
			if !areHeads(row) {
				return fmt.Errorf("line %d is %q, want a reading or the heads %q", n, lines.Text(), strings.Join(heads, ","))
			}
		case len(row) < len(heads):
			fmt.Fprintf(say, "line %d  not known: %d cells, want date, time, headbox and tray consistency: %q\n", n, len(row), lines.Text())
		default:
			report(row, say, limit)
		}
		first = false
	}
	if err := lines.Err(); err != nil {
		return fmt.Errorf("line %d: %w", n+1, err)
	}
	if n == 0 {
		return errors.New("no line came, want rows of date, time, headbox and tray consistency")
	}
	return nil
}

// cells parts a line; an empty one has none.
func cells(line string) ([]string, error) {
	row, err := csv.NewReader(strings.NewReader(line)).Read()
	if err == io.EOF {
		return nil, nil
	}
	var bad *csv.ParseError
	if errors.As(err, &bad) {
		return nil, bad.Err // its line is always 1
	}
	return row, err
}

// isReading tells a reading from heads: one of its cells begins with a digit.
// Not all need to, for the gauge writes -- where it has no value.
func isReading(row []string) bool {
	return slices.ContainsFunc(row[:min(len(row), len(heads))], func(cell string) bool {
		cell = strings.TrimSpace(cell)
		return cell != "" && '0' <= cell[0] && cell[0] <= '9'
	})
}

func areHeads(row []string) bool {
	return len(row) >= len(heads) && slices.EqualFunc(row[:len(heads)], heads, func(cell, head string) bool {
		return strings.EqualFold(strings.TrimSpace(cell), head)
	})
}

func report(row []string, say io.Writer, limit paperprop.Fraction) {
	when := row[0] + " " + row[1]
	retention, err := retained(row[2], row[3])
	switch {
	case err != nil:
		fmt.Fprintf(say, "%s  not known: %v\n", when, err)
	case retention < limit:
		fmt.Fprintf(say, "%s  low: %.1f %%\n", when, retention.In(paperprop.Percent))
	}
}

func retained(headbox, tray string) (paperprop.Fraction, error) {
	var r stock.Retention
	var err error
	if r.HeadboxConsistency, err = paperprop.ParseConsistency(headbox + " %"); err != nil {
		return 0, fmt.Errorf("headbox: %w", err)
	}
	if r.TrayConsistency, err = paperprop.ParseConsistency(tray + " %"); err != nil {
		return 0, fmt.Errorf("tray: %w", err)
	}
	result, err := r.Calculate()
	return result.FirstPassRetention, err
}
