// Command sqlite opens a database in which every calculation of millmaths is an
// SQL function, loads readings of a short-span tester of the invented mill
// Quillbeck, and queries them, or runs the SQL given.
package main

import (
	"context"
	"database/sql"
	"errors"
	"flag"
	"fmt"
	"io"
	"io/fs"
	"os"
	"os/signal"
	"strings"
	"text/tabwriter"

	"millmaths.example/paperprop/catalogue"
	"millmaths.example/paperprop/table"

	"millmaths.example/examples/sqlite/millsql"
)

func main() {
	ctx, stop := signal.NotifyContext(context.Background(), os.Interrupt)
	status := run(ctx, os.Args[1:], os.Stdout, os.Stderr)
	stop()
	os.Exit(status)
}

func run(ctx context.Context, args []string, stdout, stderr io.Writer) int {
	flags := flag.NewFlagSet("sqlite", flag.ContinueOnError)
	flags.SetOutput(stderr)
	flags.Usage = func() {
		fmt.Fprintln(stderr, "sqlite [-database FILE] [-readings FILE] [SQL].. runs SQL, or a few queries of its own")
		flags.PrintDefaults()
	}
	database := flags.String("database", memory, "the `file` of the database")
	readings := flags.String("readings", "", "the `file` of readings that become a new table readings, in a new database where there is none; without SQL and database that of Quillbeck")
	if err := flags.Parse(args); errors.Is(err, flag.ErrHelp) {
		return 0
	} else if err != nil {
		return 2
	}
	demo := flags.NArg() == 0
	if demo && *database == memory && *readings == "" {
		*readings = "../quillbeck/short-span.csv"
	}
	isNew, err := check(*database, *readings, demo)
	if err == nil {
		statements := flags.Args()
		if demo {
			statements = queries
		}
		err = ask(ctx, *database, isNew, *readings, statements, stdout)
	}
	if err != nil {
		fmt.Fprintln(stderr, "sqlite:", err)
		return 1
	}
	return 0
}

// queries show the common cases. A spoilt reading ends a query: those are looked
// for first, by the result 'error'.
var queries = []string{
	`SELECT piece, force, mill_short_span('error', 'force [N]', force, 'strip-width [mm]', width, 'grammage [g/m2]', grammage) AS why
  FROM readings WHERE why IS NOT NULL`,
	`DELETE FROM readings WHERE mill_short_span('error', 'force [N]', force, 'strip-width [mm]', width, 'grammage [g/m2]', grammage) IS NOT NULL`,
	`SELECT piece, round(mill_short_span('short-span-strength', 'force [N]', force, 'strip-width [mm]', width, 'grammage [g/m2]', grammage), 2) AS "kN/m",
       round(mill_short_span('short-span-strength [lbf/in]', 'force [N]', force, 'strip-width [mm]', width, 'grammage [g/m2]', grammage), 2) AS "lbf/in"
  FROM readings LIMIT 3`,
	`SELECT count(*) AS n, round(avg(mill_short_span('short-span-index', 'force [N]', force, 'strip-width [mm]', width, 'grammage [g/m2]', grammage)), 2) AS "mean kN.m/kg"
  FROM readings`,
	`SELECT round(mill_dilution('consistency-out', 'mass-flow', '300 t/h', 'consistency-in', '4.6 %', 'water-flow', '1200 t/h'), 4) AS "solved for, %"`,
	`SELECT mill_dilution('water-flow', 'mass-flow', NULL, 'consistency-in', '4.6 %', 'consistency-out', '0.92 %') IS NULL AS "NULL in, NULL out"`,
}

// memory is where a database lies that has no file.
const memory = ":memory:"

// check says whether the database has no file yet. A name mistyped makes no new,
// empty one, and the demo, which deletes rows, gets none that it did not make.
func check(database, readings string, demo bool) (isNew bool, err error) {
	if database == memory {
		return false, nil
	}
	_, err = os.Stat(database)
	switch {
	case err == nil && demo:
		return false, fmt.Errorf("%s is there already, and the queries of the demo delete rows: give SQL, or no -database, or with -readings a -database that is not there yet", database)
	case errors.Is(err, fs.ErrNotExist) && readings != "":
		return true, nil
	}
	return false, err
}

func ask(ctx context.Context, database string, isNew bool, readings string, statements []string, out io.Writer) error {
	db, err := millsql.Open(database, catalogue.All()...)
	if err != nil {
		return fmt.Errorf("%s: %w", database, err)
	}
	defer db.Close()
	db.SetMaxOpenConns(1) // each connection to ":memory:" is a database of its own
	if readings != "" {
		if err := load(ctx, db, database, readings); err != nil {
			if isNew { // nothing is in it
				db.Close()
				os.Remove(database)
			}
			return err
		}
	}
	for _, s := range statements {
		fmt.Fprintf(out, "%s\n\n", s)
		if err := query(ctx, db, s, out); err != nil {
			return err
		}
		fmt.Fprintln(out)
	}
	return nil
}

// load reads the pieces of the tester's file; what a cell says that is no number
// stays a text, for the query to find.
func load(ctx context.Context, db *sql.DB, database, name string) error {
	f, err := os.Open(name)
	if err != nil {
		return err
	}
	defer f.Close()
	var there int
	if err := db.QueryRowContext(ctx, "SELECT count(*) FROM sqlite_schema WHERE name = 'readings' COLLATE NOCASE").Scan(&there); err != nil {
		return fmt.Errorf("%s: %w", database, err)
	}
	if there > 0 {
		return fmt.Errorf("%s has a table readings already, and %s is not read into it: leave out -readings, or give another -database", database, name)
	}
	r, err := table.Open(f, table.Options{Name: name})
	if err != nil {
		return err
	}
	tx, err := db.BeginTx(ctx, nil)
	if err != nil {
		return err
	}
	defer tx.Rollback()
	if _, err := tx.ExecContext(ctx, "CREATE TABLE readings (piece TEXT, force NUMERIC, width NUMERIC, grammage NUMERIC)"); err != nil {
		return err
	}
	columns := make([]int, 4)
	for i, head := range []string{"Specimen", "Force", "Strip width", "Grammage"} {
		var ok bool
		if columns[i], ok = r.Layout().Find(head); !ok {
			return fmt.Errorf("%s: no column %q", name, head)
		}
	}
	var block table.Block
	var rec table.Record
	for {
		if err := r.Next(&block); err == io.EOF {
			return tx.Commit()
		} else if err != nil {
			return err
		}
		for block.Record(&rec) {
			if rec.Err != nil {
				return rec.Err
			}
			if rec.Class != table.Data {
				continue
			}
			var cells []any
			for _, at := range columns {
				cells = append(cells, string(rec.Cell(at)))
			}
			if _, err := tx.ExecContext(ctx, "INSERT INTO readings VALUES (?, ?, ?, ?)", cells...); err != nil {
				return err
			}
		}
	}
}

// query runs a statement and prints its rows.
func query(ctx context.Context, db *sql.DB, statement string, out io.Writer) error {
	rows, err := db.QueryContext(ctx, statement)
	if err != nil {
		return err
	}
	defer rows.Close()
	heads, err := rows.Columns()
	if err != nil {
		return err
	}
	w := tabwriter.NewWriter(out, 0, 8, 2, ' ', 0)
	if len(heads) > 0 {
		fmt.Fprintln(w, strings.Join(heads, "\t"))
	}
	values, places := make([]any, len(heads)), make([]any, len(heads))
	for i := range values {
		places[i] = &values[i]
	}
	for rows.Next() {
		if err := rows.Scan(places...); err != nil {
			return err
		}
		for i, v := range values {
			if i > 0 {
				fmt.Fprint(w, "\t")
			}
			if v == nil {
				v = "NULL"
			}
			fmt.Fprint(w, v)
		}
		fmt.Fprintln(w)
	}
	return errors.Join(rows.Err(), w.Flush())
}
