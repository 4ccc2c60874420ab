package making

import (
	"testing"
	"time"
)

func TestDue(t *testing.T) {
	for _, test := range []struct{ text, want string }{
		{"2026-12-02", "2026-12-03 00:00"}, // its midnight
		{"2026-12-02 14:00", "2026-12-02 14:00"},
		{"2026-12-02T14:00:00", "2026-12-02 14:00"},
		{" 2.12.2026 ", "2026-12-03 00:00"},
		{"31.12.2026", "2027-01-01 00:00"},
		{"02.12.2026 06:30", "2026-12-02 06:30"},
		{"12/02/2026", ""}, // two readings
		{"25/12/2026", ""},
		{"2.12.26", ""},
		{"2026-02-30", ""},
		{"0026-12-02", ""},
		{"1.1.1900", "1900-01-02 00:00"},
		{"31.12.1899 23:59", ""},
		{"31.12.2100", "2101-01-01 00:00"},
		{"1.1.2101", ""},
		{"2026-12-02T14:00:00+01:00", ""}, // of which clock?
		{"Wednesday", ""},
		{"", ""},
	} {
		got, err := due(test.text)
		if (err != nil) != (test.want == "") || err == nil && got.Format("2006-01-02 15:04") != test.want {
			t.Errorf("due(%q) = %v, %v, want %q", test.text, got, err, test.want)
		}
	}
}

func TestDay(t *testing.T) {
	for text, want := range map[string]string{
		"2026-12-02 14:05": "Wed 2 Dec 14:05", "2026-12-02 00:00": "Tue 1 Dec 24:00", "2027-01-01 00:00": "Thu 31 Dec 24:00",
	} {
		at, err := time.Parse("2006-01-02 15:04", text)
		if err != nil {
			t.Fatal(err)
		}
		if got := Day(at); got != want {
			t.Errorf("Day(%s) = %s, want %s", text, got, want)
		}
	}
}

func TestClockText(t *testing.T) {
	for d, want := range map[time.Duration]string{
		0: "0 min", 29 * time.Second: "0 min", 59 * time.Minute: "59 min", 59*time.Minute + 30*time.Second: "1 h 0 min",
		time.Hour: "1 h 0 min", 90 * time.Minute: "1 h 30 min", 49*time.Hour + 59*time.Minute: "49 h 59 min",
	} {
		if got := clockText(d); got != want {
			t.Errorf("clockText(%v) = %s, want %s", d, got, want)
		}
	}
}

// Every order of the runs is tried once, that which is given first.
func TestPermute(t *testing.T) {
	runs := []*Run{{Jumbos: 1}, {Jumbos: 2}, {Jumbos: 3}, {Jumbos: 4}}
	seen := map[[4]int]bool{}
	first := [4]int{}
	permute(runs, 0, func(r []*Run) {
		key := [4]int{r[0].Jumbos, r[1].Jumbos, r[2].Jumbos, r[3].Jumbos}
		if len(seen) == 0 {
			first = key
		}
		seen[key] = true
	})
	if len(seen) != 24 || first != [4]int{1, 2, 3, 4} || runs[0].Jumbos != 1 || runs[3].Jumbos != 4 {
		t.Errorf("%d orders, first %v", len(seen), first)
	}
}
