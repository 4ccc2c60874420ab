package main

import (
	"bytes"
	"context"
	"os"
	"path/filepath"
	"strings"
	"testing"
)

func parquetCommand(args ...string) (status int, out, said string) {
	var stdout, stderr bytes.Buffer
	status = run(context.Background(), args, &stdout, &stderr)
	return status, stdout.String(), stderr.String()
}

func TestCommand(t *testing.T) {
	dir := t.TempDir()
	in, out := filepath.Join(dir, "readings.parquet"), filepath.Join(dir, "results.parquet")
	if status, _, said := parquetCommand("-sample", "2000", in); status != 0 {
		t.Fatal(said)
	}
	status, _, said := parquetCommand("tensile", in, out)
	if status != 1 || !strings.Contains(said, "2000 rows = 1996 computed + 4 reported\n") ||
		!strings.Contains(said, "readings.parquet:43:2: force: no reading, want a number in N\n") {
		t.Errorf("status %d:\n%s", status, said)
	}
	_, rows, _ := parquetCommand("-csv", out)
	if lines := strings.Split(rows, "\n"); len(lines) != 2002 ||
		lines[0] != "piece,force [N],strip_width [mm],grammage [g/m2],tensile-strength [kN/m],tensile-index [kN.m/kg],breaking-length [km],remark" ||
		!strings.HasSuffix(lines[778], `,,,,"force is -99.8 N, want above 0 N"`) {
		t.Errorf("%d lines:\n%.400s", len(lines), rows)
	}
	left, err := os.ReadDir(dir)
	if err != nil || len(left) != 2 {
		t.Errorf("%v, %v: want two files", left, err)
	}
}

func TestCommandRefuses(t *testing.T) {
	dir := t.TempDir()
	in, out := filepath.Join(dir, "readings.parquet"), filepath.Join(dir, "results.parquet")
	if status, _, said := parquetCommand("-sample", "10", in); status != 0 {
		t.Fatal(said)
	}
	kept := filepath.Join(dir, "kept.txt")
	if err := os.WriteFile(kept, []byte("kept"), 0o600); err != nil {
		t.Fatal(err)
	}
	for _, test := range []struct {
		args   []string
		status int
		want   string
	}{
		{nil, 2, "want a calculation and two files"},
		{[]string{"-sample", "-3", out}, 2, "above 0"},
		{[]string{"-column", "force", "tensile", in, out}, 2, "want INPUT=COLUMN"},
		{[]string{"tensil", in, out}, 2, "no calculation \"tensil\", near are: tensile"},
		{[]string{"nope", in, out}, 2, "parquet: wrong usage: no calculation \"nope\"\nparquet runs"},
		{[]string{"tensile", in, in}, 1, "parquet: " + in + " is there already and would be written over, want the name of a new file\n"},
		{[]string{"tensile", in, kept}, 1, kept + " is there already"},
		{[]string{"-sample", "10", kept}, 1, kept + " is there already"},
		{[]string{"tensile", filepath.Join(dir, "nowhere"), out}, 1, "no such file"},
		{[]string{"cobb", in, out}, 1, "no column is named like an input of cobb"},
		{[]string{"-input", "force=90 N", "-column", "force=force", "tensile", in, out}, 1, "given as a column and as a value"},
		{[]string{"-input", "force=90", "tensile", in, out}, 1, "unit missing"},
		{[]string{"-csv", "main.go"}, 1, "not a Parquet file"},
	} {
		status, _, said := parquetCommand(test.args...)
		if status != test.status || !strings.Contains(said, test.want) {
			t.Errorf("%q: status %d, want %d and %q:\n%s", test.args, status, test.status, test.want, said)
		}
		if _, err := os.Stat(out); err == nil {
			t.Fatalf("%q left a file", test.args)
		}
	}
	if text, err := os.ReadFile(kept); string(text) != "kept" {
		t.Errorf("a file that was there holds %q, %v", text, err)
	}
	if left, err := os.ReadDir(dir); err != nil || len(left) != 2 {
		t.Errorf("%v, %v: want the two files that were there", left, err)
	}
}
