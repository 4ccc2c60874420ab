package making

import (
	"errors"
	"strings"
	"time"
)

// The accepted forms of dates, which can be read in one way only. With full stops
// the day comes first everywhere; with slashes the day or the month may.
var dates = []string{"2006-01-02", "2.1.2006"}

var (
	errDate = errors.New("no date that reads in one way only")
	errYear = errors.New("year out of 1900 to 2100")
)

const wantDate = "2026-12-02 or 2026-12-02 14:00"

// moment parses a date with a time of day.
func moment(text string) (time.Time, error) {
	t, _, err := dated(text)
	return t, err
}

// due parses the date of an order. Without a time it is the end of the day.
func due(text string) (time.Time, error) {
	t, clocked, err := dated(text)
	if err == nil && !clocked {
		t = t.AddDate(0, 0, 1)
	}
	return t, err
}

// dated parses a date, and reports whether it has a time. Years have four digits:
// two would need guessing.
func dated(text string) (t time.Time, clocked bool, err error) {
	text = strings.Replace(strings.TrimSpace(text), "T", " ", 1)
	for _, date := range dates {
		if t, err = time.Parse(date, text); err == nil {
			return inReach(t, false)
		}
		for _, clock := range []string{" 15:04", " 15:04:05"} {
			if t, err = time.Parse(date+clock, text); err == nil {
				return inReach(t, true)
			}
		}
	}
	return time.Time{}, false, errDate
}

// inReach refuses years that are too far away for a duration.
func inReach(t time.Time, clocked bool) (time.Time, bool, error) {
	if y := t.Year(); y < 1900 || y > 2100 {
		return time.Time{}, false, errYear
	}
	return t, clocked, nil
}
