package batch_test

import (
	"bytes"
	"context"
	"fmt"
	"io"
	"slices"
	"strings"
	"testing"

	"millmaths.example/paperprop/calc"
	"millmaths.example/paperprop/calc/batch"
	"millmaths.example/paperprop/catalogue"
)

// priced is a job that turns prices of the dry tonne into those of the tonne as it lies.
func priced(t *testing.T, by ...string) *batch.Job {
	t.Helper()
	c, ok := catalogue.Find("price-as-received")
	if !ok {
		t.Fatal("no price-as-received")
	}
	job := &batch.Job{Calculation: c, By: by, Together: len(by) == 0}
	job.Options.Name = "bales.csv"
	pairs, err := calc.ParsePairs(c.Info().Example)
	if err != nil {
		t.Fatal(err)
	}
	for _, p := range pairs {
		if p.Name != "dry-price" {
			job.Constants = append(job.Constants, p)
		}
	}
	return job
}

// Prices in two currencies have no mean, in one block of rows or in two.
func TestSummaryOfCurrencies(t *testing.T) {
	for _, rows := range []int{1, 1000} {
		text := "lot,dry-price\n" + strings.Repeat("a,100 EUR/t\n", rows) + "b,200 USD/t\n"
		want := fmt.Sprintf("bales.csv:%d: price is in USD/t, and in EUR/t in line 2: a summary takes one currency, want By a column that separates them", rows+2)
		totals, err := priced(t).Run(context.Background(), strings.NewReader(text), io.Discard)
		if err == nil || err.Error() != want {
			t.Errorf("%d rows in EUR, one in USD: %v, want %s", rows, err, want)
		}
		totals, err = priced(t, "lot").Run(context.Background(), strings.NewReader(text), io.Discard)
		if err != nil {
			t.Fatal(err)
		}
		statements, err := totals.Statements(0.95)
		if err != nil || len(statements) != 2 || statements[0].Unit != "EUR/t" || statements[1].Unit != "USD/t" || statements[0].Count != rows {
			t.Errorf("%d rows in EUR, one in USD, apart: %v, %v", rows, statements, err)
		}
	}
	const between = 100_000 // rows, of 1.2 MB
	text := "lot,dry-price\na,100 EUR/t\n" + strings.Repeat("b,100 EUR/t\n", between)
	totals, err := priced(t, "lot").Run(context.Background(), strings.NewReader(text+"a,n/a\n"), io.Discard)
	if err != nil || totals.Groups[0].LeftOut != 1 || totals.Groups[0].Results[0].Count != 1 {
		t.Errorf("no price in a later block: %v, %+v", err, totals.Groups)
	}
	text += "a,200 USD/t\n"
	want := fmt.Sprintf("bales.csv:%d: price is in USD/t, and in EUR/t in line 2: a summary takes one currency, want By a column that separates them", between+3)
	if _, err := priced(t, "lot").Run(context.Background(), strings.NewReader(text), io.Discard); err == nil || err.Error() != want {
		t.Errorf("two currencies in two blocks: %v, want %s", err, want)
	}
}

// What is a word has no mean: it is counted, in one block of rows or in several.
func TestSummaryOfWords(t *testing.T) {
	const more = 100_000 // rows, of 1.2 MB
	job := batch.Job{By: []string{"piece"}, Constants: []calc.Pair{{Name: "limit", Text: "8 %"}, {Name: "side", Text: "at-most"}}}
	text := "piece,value [%]\nA,7.9\nA,8.0\nA,8.1\nB,x\n" + strings.Repeat("C,8.12345678\n", more) + "A,8.2\n"
	a := run(t, "conformity-absolute", job, text)
	var summary bytes.Buffer
	if err := a.totals.WriteSummary(&summary, job.By, 0.95); err != nil || a.err != nil {
		t.Fatal(err, a.err)
	}
	var words []string
	for line := range strings.Lines(summary.String()) {
		if strings.Contains(line, ",verdict,") {
			words = append(words, strings.TrimSpace(line))
		}
	}
	want := []string{`A,verdict,4,0,,,,,,,,"2 pass, 2 fail",`, "B,verdict,0,1,,,,,,,,,", "C,verdict,100000,0,,,,,,,,100000 fail,"}
	if !slices.Equal(words, want) {
		t.Errorf("summarised as\n%s\nwant\n%s", strings.Join(words, "\n"), strings.Join(want, "\n"))
	}
	job.Calculation, _ = catalogue.Find("conformity-absolute")
	data, err := a.totals.MarshalSummary(&job, 0.95)
	for _, want := range []string{
		`{"by":{"piece":"A"},"output":"margin","n":4,"not-computed":0,"mean":-0.05,`,
		`{"by":{"piece":"A"},"output":"verdict","n":4,"not-computed":0,"words":["2 pass","2 fail"]}`,
		`{"by":{"piece":"B"},"output":"margin","n":0,"not-computed":1}`,
	} {
		if err != nil || !strings.Contains(string(data), want) {
			t.Errorf("in JSON: %v, %.900s, want %s", err, data, want)
		}
	}
}

// A result that no row has is not told, whether or not another row of the group failed;
// where all failed, all are.
func TestSummaryOfAbsentResults(t *testing.T) {
	c, _ := catalogue.Find("replicates")
	job := batch.Job{Calculation: c, By: []string{"lot"}}
	totals, err := job.Run(context.Background(), strings.NewReader("lot,value [um]\na,188\na,190\nb,188\nb,--\nc,--\n"), io.Discard)
	if err != nil {
		t.Fatal(err)
	}
	statements, err := totals.Statements(0.95)
	if err != nil {
		t.Fatal(err)
	}
	names := map[string][]string{}
	for _, s := range statements {
		names[s.Key[0]] = append(names[s.Key[0]], s.Name)
	}
	single := []string{"count", "mean", "minimum", "maximum", "median"}
	if !slices.Equal(names["a"], single) || !slices.Equal(names["b"], single) || len(names["c"]) != len(c.Info().Out) {
		t.Errorf("results told %v", names)
	}
}

// Rows of which the cell is empty are one group, and that is said: a spreadsheet may show
// the name once for them all.
func TestSummaryOfUnnamedRows(t *testing.T) {
	const heads = "piece,side,value [N]\n"
	for _, test := range []struct{ rows, want string }{
		{"A,a,1\nA,b,2\n", ""},
		{"A,a,1\n,a,2\nB,a,3\n,a,--\n", "2 rows: group-unnamed: an empty cell of piece counts as a name of its own, whatever stands above it: write the name in each row"},
		{"A,a,1\n,,2\nB,,3\n,,4\n", "3 rows: group-unnamed: an empty cell of piece, side counts as a name of its own, whatever stands above it: write the name in each row"},
	} {
		c, _ := catalogue.Find("replicates")
		totals, err := (&batch.Job{Calculation: c, By: []string{"piece", "side"}}).Run(context.Background(), strings.NewReader(heads+test.rows), io.Discard)
		if err != nil {
			t.Fatal(err)
		}
		got := ""
		for _, warning := range totals.Warnings() {
			if strings.Contains(warning, batch.GroupUnnamed) {
				got = warning
			}
		}
		if got != test.want {
			t.Errorf("%q: %q, want %q", test.rows, got, test.want)
		}
	}
}

// A row without a name counts where a name may hold for the rows below it, and that is
// said, unless the name is asked for otherwise.
func TestUnnamedRowsCount(t *testing.T) {
	const text = "piece,value [N]\nA,1\n,2\nB,3\n,4\n"
	const want = "2 rows: row-unnamed: no name in column 1 (piece), and the row counts as a reading: write the name in each row, and none beside a total"
	c, _ := catalogue.Find("replicates")
	for _, test := range []struct {
		job      batch.Job
		computed int
		want     string
	}{
		{batch.Job{}, 4, want},
		{batch.Job{Lot: "*"}, 4, want},
		{batch.Job{Lot: "piece"}, 2, ""},
		{batch.Job{By: []string{"piece"}}, 4, "2 rows: group-unnamed: an empty cell of piece counts as a name of its own, whatever stands above it: write the name in each row"},
	} {
		test.job.Calculation = c
		totals, err := test.job.Run(context.Background(), strings.NewReader(text), io.Discard)
		if err != nil {
			t.Fatal(err)
		}
		told := slices.DeleteFunc(totals.Warnings(), func(line string) bool { return !strings.Contains(line, "unnamed") })
		if got := strings.Join(told, "\n"); got != test.want || totals.Computed != test.computed {
			t.Errorf("lot %q, by %q: %d computed, %q, want %d, %q", test.job.Lot, test.job.By, totals.Computed, got, test.computed, test.want)
		}
	}
}

// A summary is written for the heads by which the job ran, and one of totals that no
// run has left in commas and points.
func TestSummaryHeads(t *testing.T) {
	var b bytes.Buffer
	var none batch.Totals
	if err := none.WriteSummary(&b, []string{"lot"}, 0.95); err != nil || !strings.HasPrefix(b.String(), "lot,result,n,left out,mean,") {
		t.Errorf("no rows: %q, %v", b.String(), err)
	}
	job := priced(t, "lot")
	totals, err := job.Run(context.Background(), strings.NewReader("lot,dry-price [EUR/t]\na,100\n"), io.Discard)
	if err != nil {
		t.Fatal(err)
	}
	const want = "batch: groups share 1 cell and the number of heads named is 2: want the heads in By of the job that ran"
	b.Reset()
	if err := totals.WriteSummary(&b, []string{"lot", "mill"}, 0.95); err == nil || err.Error() != want || b.Len() > 0 {
		t.Errorf("two heads for one cell: %q, %v, want %s", b.String(), err, want)
	}
	job.By = []string{"lot", "mill"}
	if _, err := totals.MarshalSummary(job, 0.95); err == nil || err.Error() != want {
		t.Errorf("two heads for one cell in JSON: %v, want %s", err, want)
	}
	if _, err := totals.MarshalSummary(&batch.Job{}, 0.95); err == nil || err.Error() != "batch: a job without a calculation" {
		t.Errorf("the JSON of no calculation: %v", err)
	}
	if _, err := totals.Statements(0.5); err == nil || err.Error() != "confidence is 0.5, want above 0.5 and below 1" {
		t.Errorf("a confidence of 0.5: %v", err)
	}
}

// Totals that came by way of JSON, say, add up like others.
func TestAddTotals(t *testing.T) {
	got := batch.Totals{FooterLines: make([]string, 9), Warned: map[string]int{"air-filled": 1}}
	got.Add(&batch.Totals{Rows: 2, FooterLines: []string{"line 7"}, Warned: map[string]int{"air-filled": 2}, Texts: map[string]string{"air-filled": "air"}})
	if got.Rows != 2 || len(got.FooterLines) != 9 || got.Warned["air-filled"] != 3 || got.Texts["air-filled"] != "air" {
		t.Errorf("%+v", got)
	}
}
