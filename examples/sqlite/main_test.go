package main

import (
	"bytes"
	"context"
	"os"
	"path/filepath"
	"strings"
	"testing"
)

func sqliteCommand(args ...string) (status int, out, said string) {
	var stdout, stderr bytes.Buffer
	status = run(context.Background(), args, &stdout, &stderr)
	return status, stdout.String(), stderr.String()
}

func TestDemo(t *testing.T) {
	status, out, said := sqliteCommand()
	if status != 0 {
		t.Fatal(said)
	}
	for _, want := range []string{
		"H120-7/2  overload  force is \"overload\", want a number in N, as its name says\n",
		"H120-7/1  2.3   13.13\n",
		"n   mean kN.m/kg\n13  18.6\n",
		"solved for, %\n0.92\n",
	} {
		if !strings.Contains(out, want) {
			t.Errorf("no %q in\n%s", want, out)
		}
	}
}

func TestOwnSQL(t *testing.T) {
	file := filepath.Join(t.TempDir(), "lab.db")
	if status, _, said := sqliteCommand("-database", file, "SELECT 1"); status != 1 || !strings.Contains(said, file) {
		t.Errorf("a file that is not there: status %d, %s", status, said)
	}
	const quillbeck = "../quillbeck/short-span.csv"
	if status, _, said := sqliteCommand("-database", file, "-readings", quillbeck, "DELETE FROM readings WHERE force = 'overload'"); status != 0 {
		t.Fatal(said)
	}
	status, out, said := sqliteCommand("-database", file, "SELECT count(*) FROM readings")
	if status != 0 || !strings.HasSuffix(out, "\n13\n\n") {
		t.Errorf("status %d, %s%s", status, out, said)
	}
	for _, test := range []struct {
		sql    string
		status int
		want   string
	}{
		{"SELECT mill_cobb('cobb', 'mass-in', '1.2 g', 'mass-out', '1.1 g', 'time', '60 s')", 1, "mill_cobb: mass-"},
		{"SELECT mill_tensil()", 1, "no such function"},
		{"SELEKT", 1, "syntax error"},
		{"-unknown", 2, "not defined"},
	} {
		if status, _, said := sqliteCommand(test.sql); status != test.status || !strings.Contains(said, test.want) {
			t.Errorf("%s: status %d, %s, want %d, %q", test.sql, status, said, test.status, test.want)
		}
	}
}

// A database of one's own gets no table that was not asked for.
func TestOwnDatabase(t *testing.T) {
	file := filepath.Join(t.TempDir(), "lab.db")
	if err := os.WriteFile(file, nil, 0o600); err != nil {
		t.Fatal(err)
	}
	status, out, said := sqliteCommand("-database", file, "CREATE TABLE own (x)", "SELECT name FROM sqlite_schema")
	if status != 0 || !strings.HasSuffix(out, "name\nown\n\n") {
		t.Errorf("status %d, %s%s", status, out, said)
	}
}

// The demo deletes rows: never those of a database that was there before it.
func TestDemoOnlyInItsOwn(t *testing.T) {
	const quillbeck = "../quillbeck/short-span.csv"
	file := filepath.Join(t.TempDir(), "lab.db")
	if status, _, said := sqliteCommand("-database", file, "-readings", quillbeck); status != 0 {
		t.Fatalf("a database of its own is refused: %s", said)
	}
	if status, _, said := sqliteCommand("-database", file, "UPDATE readings SET force = 'own'"); status != 0 {
		t.Fatal(said)
	}
	want := "sqlite: " + file + " is there already, and the queries of the demo delete rows: " +
		"give SQL, or no -database, or with -readings a -database that is not there yet\n"
	for _, args := range [][]string{{"-database", file}, {"-database", file, "-readings", quillbeck}} {
		if status, out, said := sqliteCommand(args...); status != 1 || out != "" || said != want {
			t.Errorf("%q: status %d, %s%swant 1 and\n%s", args, status, out, said, want)
		}
	}
	if _, out, said := sqliteCommand("-database", file, "SELECT count(*) FROM readings WHERE force = 'own'"); !strings.HasSuffix(out, "\n13\n\n") {
		t.Errorf("rows of one's own: %s%s", out, said)
	}
}

// Readings that can't be taken are told, and leave no empty database behind.
func TestReadingsRefused(t *testing.T) {
	const quillbeck = "../quillbeck/short-span.csv"
	dir := t.TempDir()
	lab, fresh, missing := filepath.Join(dir, "lab.db"), filepath.Join(dir, "new.db"), filepath.Join(dir, "nope.csv")
	if status, _, said := sqliteCommand("-database", lab, "-readings", quillbeck, "SELECT 1"); status != 0 {
		t.Fatal(said)
	}
	noSuchFile := "sqlite: open " + missing + ": no such file or directory\n"
	for _, test := range []struct{ database, readings, want string }{
		{lab, missing, noSuchFile},
		{fresh, missing, noSuchFile},
		{memory, missing, noSuchFile},
		{lab, quillbeck, "sqlite: " + lab + " has a table readings already, and " + quillbeck +
			" is not read into it: leave out -readings, or give another -database\n"},
		{fresh, "../quillbeck/orders.csv", "sqlite: ../quillbeck/orders.csv: no column \"Specimen\"\n"},
	} {
		status, out, said := sqliteCommand("-database", test.database, "-readings", test.readings, "SELECT 1")
		if status != 1 || out != "" || said != test.want {
			t.Errorf("%s, %s: status %d, %s%swant 1 and\n%s", test.database, test.readings, status, out, said, test.want)
		}
	}
	if left, err := os.ReadDir(dir); err != nil || len(left) != 1 {
		t.Errorf("%v, %v: want lab.db alone", left, err)
	}
}
