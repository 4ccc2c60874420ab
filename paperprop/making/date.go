package making

import (
	"errors"
	"strings"
	"time"
)

// Forms of dates that can be read in one way only. With points the day is first
// everywhere; a slash parts both day first and month first.
var dates = []string{"2006-01-02", "2.1.2006"}

var (
	errDate = errors.New("no date that reads in one way only")
	errYear = errors.New("year out of 1900 to 2100")
)

const wantDate = "2026-12-02 or 2026-12-02 14:00"

// moment reads a date with a time of the day.
func moment(text string) (time.Time, error) {
	t, _, err := dated(text)
	return t, err
}

// due reads the date of an order: without a time, the end of the day.
func due(text string) (time.Time, error) {
	t, clocked, err := dated(text)
	if err == nil && !clocked {
		t = t.AddDate(0, 0, 1)
	}
	return t, err
}

// dated reads a date, and whether it tells a time. Years are those of a plan: two
// digits would be guessed.
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

// inReach refuses years with which no duration can be told.
func inReach(t time.Time, clocked bool) (time.Time, bool, error) {
	if y := t.Year(); y < 1900 || y > 2100 {
		return time.Time{}, false, errYear
	}
	return t, clocked, nil
}
