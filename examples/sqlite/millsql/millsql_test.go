package millsql_test

import (
	"database/sql"
	"encoding/json"
	"fmt"
	"math"
	"os"
	"path/filepath"
	"slices"
	"strings"
	"testing"

	"millmaths.example/paperprop"
	"millmaths.example/paperprop/calc"
	"millmaths.example/paperprop/catalogue"

	"millmaths.example/examples/sqlite/millsql"
)

func open(t testing.TB) *sql.DB {
	t.Helper()
	db, err := millsql.Open(":memory:", catalogue.All()...)
	if err != nil {
		t.Fatal(err)
	}
	db.SetMaxOpenConns(1)
	t.Cleanup(func() { db.Close() })
	return db
}

// call writes a call of a function and asks for it.
func call(db *sql.DB, calculation, result string, inputs []calc.Pair) (value any, err error) {
	text := "SELECT " + millsql.FunctionName(calculation) + "(?"
	args := []any{result}
	for _, p := range inputs {
		text += ", ?, ?"
		args = append(args, p.Name, p.Text)
	}
	err = db.QueryRow(text+")", args...).Scan(&value)
	return value, err
}

// numbersOf are the numbers of an SQL value: one, or an array of JSON.
func numbersOf(value any) ([]float64, error) {
	switch v := value.(type) {
	case float64:
		return []float64{v}, nil
	case int64:
		return []float64{float64(v)}, nil
	case string:
		var list []float64
		err := json.Unmarshal([]byte(v), &list)
		return list, err
	}
	return nil, fmt.Errorf("%T is no number", value)
}

// compare says how a result differs from an expected text such as "[1 2] %".
func compare(db *sql.DB, c calc.Check, p calc.Pair) string {
	value, err := call(db, c.Calculation, p.Name, c.Inputs)
	if err != nil {
		return err.Error()
	}
	if text, ok := value.(string); ok && text == p.Text {
		return ""
	}
	numbers, unit, _ := strings.Cut(strings.TrimPrefix(p.Text, "["), "]")
	if !strings.HasPrefix(p.Text, "[") {
		numbers, unit, _ = strings.Cut(p.Text, " ")
	}
	if unit = strings.TrimSpace(unit); unit != "" {
		if value, err = call(db, c.Calculation, p.Name+" ["+unit+"]", c.Inputs); err != nil {
			return err.Error()
		}
	}
	if p.Text == "[]" && value == nil {
		return ""
	}
	got, err := numbersOf(value)
	if err != nil {
		return fmt.Sprintf("%v: %v", value, err)
	}
	words := strings.Fields(numbers)
	if len(words) != len(got) {
		return fmt.Sprintf("%d numbers, want %d", len(got), len(words))
	}
	for i, word := range words {
		want, err := paperprop.ParseNumber(word)
		if err != nil {
			return err.Error()
		}
		room := max(c.Tolerance.Absolute, c.Tolerance.Relative*math.Abs(want), 1e-15)
		if c.Tolerance.Exact {
			room = 0
		}
		if !(math.Abs(got[i]-want) <= room) {
			return fmt.Sprintf("got %v, want %v", got[i], want)
		}
	}
	return ""
}

// several reports whether an input that is solved for has several values.
func several(db *sql.DB, c calc.Check) bool {
	value, err := call(db, c.Calculation, "json", c.Inputs)
	if err != nil {
		return false
	}
	var answer struct{ Roots []json.RawMessage }
	text, _ := value.(string)
	return json.Unmarshal([]byte(text), &answer) == nil && len(answer.Roots) > 1
}

// Every check row of the library, asked in SQL: the results, the refusals and
// the warnings.
func TestChecksInSQL(t *testing.T) {
	db := open(t)
	files, err := filepath.Glob("../../../testdata/checks/*.csv")
	if err != nil || len(files) == 0 {
		t.Fatal(files, err)
	}
	rows, asked := 0, 0
	for _, name := range files {
		f, err := os.Open(name)
		if err != nil {
			t.Fatal(err)
		}
		checks, err := calc.ReadChecks(name, f)
		f.Close()
		if err != nil {
			t.Fatal(err)
		}
		for _, c := range checks {
			rows++
			for i, p := range c.Inputs {
				if file, ok := strings.CutPrefix(p.Text, "@"); ok {
					if c.Inputs[i].Text, err = calc.ListFile(filepath.Join(filepath.Dir(name), file)); err != nil {
						t.Fatal(err)
					}
				}
			}
			if c.Refused {
				asked++
				if value, err := call(db, c.Calculation, "json", c.Inputs); err == nil {
					t.Errorf("%s: computed, want a refusal: %v", c.ID, value)
				}
				if value, err := call(db, c.Calculation, "error", c.Inputs); err != nil || value == nil {
					t.Errorf("%s: error is %v, %v", c.ID, value, err)
				}
				continue
			}
			if c.Warned {
				value, err := call(db, c.Calculation, "json", c.Inputs)
				if text, _ := value.(string); err != nil || !strings.Contains(text, `"warnings":[{"code":"`) {
					t.Errorf("%s: no warning: %v, %v", c.ID, value, err)
				}
			}
			if several(db, c) {
				continue // SQL has the results of the first value, a row may expect another
			}
			for _, p := range c.Expected {
				asked++
				if difference := compare(db, c, p); difference != "" {
					t.Errorf("%s: %s of %s: %s", c.ID, p.Name, c.Calculation, difference)
				}
			}
		}
	}
	if rows < 1000 || asked < rows {
		t.Errorf("%d rows, %d results asked for", rows, asked)
	}
}

func TestEveryCalculationIsAFunction(t *testing.T) {
	db := open(t)
	plain, err := sql.Open("sqlite", ":memory:") // without our functions
	if err != nil {
		t.Fatal(err)
	}
	defer plain.Close()
	for _, c := range catalogue.All() {
		var usage string
		name := millsql.FunctionName(c.ID())
		if err := db.QueryRow("SELECT " + name + "()").Scan(&usage); err != nil || !strings.Contains(usage, c.Info().Title) {
			t.Errorf("%s: %q, %v", name, usage, err)
		}
		if err := plain.QueryRow("SELECT " + name + "()").Scan(&usage); err == nil {
			t.Errorf("%s is a function of every database of the process", name)
		}
		for _, f := range c.Info().Out {
			if f.Name == "json" || f.Name == "error" {
				t.Errorf("%s has a result %s", name, f.Name)
			}
		}
	}
}

func TestCalls(t *testing.T) {
	db := open(t)
	const dilution = "'mass-flow','300 t/h','consistency-in [%]',4.6,'consistency-out','0.92 %'"
	for _, test := range []struct {
		call string
		want any // an error where it is a string that begins with "!"
	}{
		{"mill_dilution('water-flow'," + dilution + ")", 1200.0},
		{"mill_dilution('water-flow [kg/h]'," + dilution + ")", 1.2e6},
		{"round(mill_dilution('consistency-out','mass-flow [t/h]',300,'consistency-in','4.6 %','water-flow','1200 t/h'),12)", 0.92},
		{"round(mill_dilution('consistency-out [g/g]','mass-flow [t/h]',300,'consistency-in','4.6 %','water-flow','1200 t/h'),12)", 0.0092},
		{"round(mill_dilution('u(water-flow)','mass-flow','300 ± 3 t/h','consistency-in','4.6 %','consistency-out','0.92 %'),9)", 12.0},
		{"mill_dilution('u(water-flow)'," + dilution + ")", nil},
		{"mill_dilution('json'," + dilution + `) ->> '$.outputs."water-flow".value'`, int64(1200)},
		{"mill_dilution('error'," + dilution + ")", nil},
		{"mill_dilution('water-flow','mass-flow',NULL,'consistency-in','4.6 %','consistency-out','0.92 %')", nil},
		{"mill_dilution(NULL," + dilution + ")", nil},
		{"mill_dilution('error','mass-flow',300,'consistency-in','4.6 %','consistency-out','0.92 %')", `mass-flow "300": unit missing, want t/h or kg/h`},
		{"mill_dilution('water-flow','mass-flow',300,'consistency-in','4.6 %','consistency-out','0.92 %')", "!mill_dilution: mass-flow"},
		{"mill_dilution('water-flow','mass-flow','300 kg','consistency-in','4.6 %','consistency-out','0.92 %')", "!kg"},
		{"mill_dilution('water-flow','mass-flow [kg]',300,'consistency-in','4.6 %','consistency-out','0.92 %')", "!kg"},
		{"mill_dilution('water-flow','mass-flow [t/h]','300 t/h','consistency-in','4.6 %','consistency-out','0.92 %')", "!want a number in t/h"},
		{"mill_dilution('water-flow','mass-flow [t/h]',9e999,'consistency-in','4.6 %','consistency-out','0.92 %')", "!mass-flow"},
		{"mill_dilution('water-flow','mass-flow [t/h]',-300,'consistency-in','4.6 %','consistency-out','0.92 %')", "!want above 0 t/h"},
		{"mill_dilution('water-flow','mass-flow',x'00','consistency-in','4.6 %','consistency-out','0.92 %')", "!want a number or a text"},
		{"mill_dilution('water-flow',7,'300 t/h')", "!no name of an input"},
		{"mill_dilution('water-flow','mass-flow')", "!takes the result, then names and values"},
		{"mill_dilution('water-flow','massflow','300 t/h')", "!mass-flow"},
		{"mill_dilution('water-flow [kg]'," + dilution + ")", "!kg"},
		{"mill_dilution('waterflow'," + dilution + ")", "!no result \"waterflow\", want water-flow"},
		{"mill_dilution('mass-flow'," + dilution + ")", "!where an output is given"},
		{"mill_dilution('water-flow'," + dilution + ",'mass-flow','1 t/h')", "!given twice"},
		{"mill_bale_lot('lot-mass [kg]','mass [kg]',json_array(512.5,498),'moisture','[11 12] %')", 1010.5},
		{"mill_bale_lot('lot-mass [kg]','mass [kg]',json_array(512.5,NULL),'moisture','[11 12] %')", "!null"},
		{"mill_convert('value','value','42 lb/1000ft2','to','lb/3000ft2')", 126.0},
		{"mill_convert('value','value','3 ton','to','kg')", "!ambiguous"},
		{"mill_convert('value','values','3 t','to','kg')", "!values"},
	} {
		var got any
		err := db.QueryRow("SELECT " + test.call).Scan(&got)
		want, _ := test.want.(string)
		switch message, refused := strings.CutPrefix(want, "!"); {
		case refused:
			if err == nil || !strings.Contains(err.Error(), message) {
				t.Errorf("%s: %v, %v, want the error %q", test.call, got, err, message)
			}
		case err != nil || got != test.want:
			t.Errorf("%s: %v (%T), %v, want %v", test.call, got, got, err, test.want)
		}
	}
}

// A list comes from the rows of a group, and an index from an expression.
func TestInQueries(t *testing.T) {
	db := open(t)
	for _, s := range []string{
		"CREATE TABLE bales (load TEXT, mass REAL, moisture REAL)",
		"INSERT INTO bales VALUES ('Q-0411', 512.5, 11), ('Q-0411', 498, 12), ('Q-0412', 500, 10)",
		"CREATE INDEX dry ON bales (mill_air_dry('dry-mass', 'mass [kg]', mass, 'dryness [%]', 100 - moisture))",
	} {
		if _, err := db.Exec(s); err != nil {
			t.Fatal(err)
		}
	}
	rows, err := db.Query("SELECT mill_bale_lot('lot-mass [kg]', 'mass [kg]', json_group_array(mass), 'moisture [%]', json_group_array(moisture)) FROM bales GROUP BY load ORDER BY load")
	if err != nil {
		t.Fatal(err)
	}
	defer rows.Close()
	var got []float64
	for rows.Next() {
		var x float64
		if err := rows.Scan(&x); err != nil {
			t.Fatal(err)
		}
		got = append(got, x)
	}
	if rows.Err() != nil || !slices.Equal(got, []float64{1010.5, 500}) {
		t.Errorf("%v, %v", got, rows.Err())
	}
}

func BenchmarkQuery(b *testing.B) {
	db := open(b)
	const rows = 20_000
	for _, s := range []string{
		"CREATE TABLE readings (force REAL)",
		fmt.Sprintf("WITH RECURSIVE n(i) AS (SELECT 1 UNION ALL SELECT i+1 FROM n WHERE i < %d) INSERT INTO readings SELECT 80 + i %% 97 / 7.0 FROM n", rows),
	} {
		if _, err := db.Exec(s); err != nil {
			b.Fatal(err)
		}
	}
	for b.Loop() {
		var mean float64
		if err := db.QueryRow("SELECT avg(mill_tensile('tensile-index', 'force [N]', force, 'strip-width [mm]', 15, 'grammage [g/m2]', 121.4)) FROM readings").Scan(&mean); err != nil {
			b.Fatal(err)
		}
	}
	b.ReportMetric(float64(b.N*rows)/b.Elapsed().Seconds(), "rows/s")
}
