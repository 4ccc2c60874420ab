package main

import (
	"os"
	"strings"
	"testing"

	"millmaths.example/paperprop"
)

// The night of the invented Quillbeck: two hours of poor retention, an hour
// without a headbox reading, one with a gauge being calibrated.
func TestWatch(t *testing.T) {
	f, err := os.Open("../quillbeck/white-water.csv")
	if err != nil {
		t.Fatal(err)
	}
	defer f.Close()
	var said strings.Builder
	if err := watch(f, &said, 74*paperprop.Percent); err != nil {
		t.Fatal(err)
	}
	const want = `24.10.2026 22:00  not known: headbox: number "-- %": no digits
25.10.2026 01:00  not known: tray: number "<0.05 %": no digits
25.10.2026 04:00  low: 66.9 %
25.10.2026 05:00  low: 65.9 %
`
	if said.String() != want {
		t.Errorf("said\n%swant\n%s", said.String(), want)
	}
}

func TestWatchRows(t *testing.T) {
	const header = "date,time,headbox consistency [%],tray consistency [%]\n"
	for _, test := range []struct{ name, rows, said, err string }{
		{"no heads", "1,2,0.82,0.4\n1,2,0.82,0.3\n", "1 2  low: 51.2 %\n1 2  low: 63.4 %\n", ""},
		{"heads, written otherwise", "Date, Time, Headbox consistency [%], Tray consistency [%], flag\n1,2,0.82,0.4,ok\n", "1 2  low: 51.2 %\n", ""},
		{"no value first", "24.10.2026,22:00,--,--\n", "24.10.2026 22:00  not known: headbox: number \"-- %\": no digits\n", ""},
		{"a short row", header + "1,2,0.82\n1,3,0.82,0.4\n", "line 2  not known: 3 cells, want date, time, headbox and tray consistency: \"1,2,0.82\"\n1 3  low: 51.2 %\n", ""},
		{"a short row first", "1,2\n1,3,0.82,0.4\n", "line 1  not known: 2 cells, want date, time, headbox and tray consistency: \"1,2\"\n1 3  low: 51.2 %\n", ""},
		{"a stray quote", header + "1,2,0.8\"2,0.1\n1,3,\"0.82,0.1\n\n1,4,0.82,0.4\n",
			"line 2  not known: bare \" in non-quoted-field: \"1,2,0.8\\\"2,0.1\"\n" +
				"line 3  not known: extraneous or missing \" in quoted-field: \"1,3,\\\"0.82,0.1\"\n1 4  low: 51.2 %\n", ""},
		{"other heads", "time,a\n1,2\n", "", `line 1 is "time,a", want a reading or the heads "date,time,headbox consistency [%],tray consistency [%]"`},
		{"heads in another order", "date,time,tray consistency [%],headbox consistency [%]\n", "",
			`line 1 is "date,time,tray consistency [%],headbox consistency [%]", want a reading or the heads "date,time,headbox consistency [%],tray consistency [%]"`},
		{"nothing", "", "", "no line came, want rows of date, time, headbox and tray consistency"},
	} {
		var said strings.Builder
		var text string
		if err := watch(strings.NewReader(test.rows), &said, 74*paperprop.Percent); err != nil {
			text = err.Error()
		}
		if said.String() != test.said || text != test.err {
			t.Errorf("%s: said\n%s%s\nwant\n%s%s", test.name, said.String(), text, test.said, test.err)
		}
	}
}

func TestReadLimit(t *testing.T) {
	for _, test := range []struct {
		args  []string
		limit paperprop.Fraction
		err   string
	}{
		{nil, 74 * paperprop.Percent, ""},
		{[]string{"1"}, 1 * paperprop.Percent, ""},
		{[]string{"100"}, 100 * paperprop.Percent, ""},
		{[]string{"0.74"}, 0, "limit is 0.74, want 1 to 100: the number is per cent"},
		{[]string{"740"}, 0, "limit is 740, want 1 to 100: the number is per cent"},
		{[]string{"74", "75"}, 0, `"75" is too much, want the limit alone`},
	} {
		limit, err := readLimit(test.args)
		var text string
		if err != nil {
			text = err.Error()
		}
		if limit != test.limit || text != test.err {
			t.Errorf("%q: %v, %s, want %v, %s", test.args, limit, text, test.limit, test.err)
		}
	}
}
