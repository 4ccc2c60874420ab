// Command alarm watches the white water of an invented mill: it reads rows as a
// gauge writes them, date, time, headbox and tray consistency in per cent, and
// says at once where the first-pass retention falls below a limit.
//
//	tail -f gauge.csv | alarm 74
package main

import (
	"encoding/csv"
	"errors"
	"fmt"
	"io"
	"os"

	"millmaths.example/paperprop"
	"millmaths.example/stock"
)

func main() {
	limit := paperprop.Fraction(74 * paperprop.Percent)
	if len(os.Args) > 1 {
		var err error
		if limit, err = paperprop.ParseFraction(os.Args[1] + " %"); err != nil {
			fmt.Fprintln(os.Stderr, "alarm:", err)
			os.Exit(2)
		}
	}
	if err := watch(os.Stdin, os.Stdout, limit); err != nil {
		fmt.Fprintln(os.Stderr, "alarm:", err)
		os.Exit(1)
	}
}

// watch says of each row whether retention is low, or why it can't be told. A
// gauge that says nothing is no reason to be at ease.
func watch(rows io.Reader, say io.Writer, limit paperprop.Fraction) error {
	r := csv.NewReader(rows)
	r.ReuseRecord = true
	if _, err := r.Read(); err != nil { // the heads
		return err
	}
	for {
		row, err := r.Read()
		if err == io.EOF {
			return nil
		}
		if err != nil {
			return err
		}
		if len(row) < 4 {
			return errors.New("want date, time, headbox and tray consistency")
		}
		when := row[0] + " " + row[1]
		retention, err := retained(row[2], row[3])
		switch {
		case err != nil:
			fmt.Fprintf(say, "%s  not known: %v\n", when, err)
		case retention < limit:
			fmt.Fprintf(say, "%s  low: %.1f %%\n", when, retention.In(paperprop.Percent))
		}
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
