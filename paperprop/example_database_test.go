package paperprop_test

import (
	"context"
	"database/sql"
	"database/sql/driver"
	"errors"
	"fmt"
	"io"
	"slices"

	"millmaths.example/paperprop"
)

// A quantity is a column of a database by itself. It is written as a number in
// its canonical unit; a number and a text with a unit are read, NULL is refused,
// and sql.Null takes what may be absent. The readings are of the invented
// Quillbeck Board Mill.
func Example_database() {
	db := sql.OpenDB(&memory{})
	defer db.Close()

	_, err := db.Exec("insert", "H120-7", 121.4*paperprop.GramPerSquareMetre, sql.Null[paperprop.Moisture]{})
	if err != nil {
		fmt.Println(err)
		return
	}
	// Somebody else wrote texts into the same columns.
	if _, err := db.Exec("insert", "H120-8", "25 lb/1000ft2", "7.6 %"); err != nil {
		fmt.Println(err)
		return
	}
	rows, err := db.Query("select")
	if err != nil {
		fmt.Println(err)
		return
	}
	defer rows.Close()
	for rows.Next() {
		var reel string
		var grammage paperprop.Grammage
		var moisture sql.Null[paperprop.Moisture]
		if err := rows.Scan(&reel, &grammage, &moisture); err != nil {
			fmt.Println(err)
			return
		}
		fmt.Printf("%s %.1f g/m², moisture known: %v\n", reel, grammage.In(paperprop.GramPerSquareMetre), moisture.Valid)
	}
	fmt.Println(rows.Err())

	var consistency paperprop.Consistency
	fmt.Println(consistency.Scan("4.6"))
	// Output:
	// H120-7 121.4 g/m², moisture known: false
	// H120-8 122.1 g/m², moisture known: true
	// <nil>
	// consistency "4.6": unit missing, want % or g/g
}

// memory is a driver of one table, which "insert" appends to and "select" reads:
// enough to show what database/sql hands over.
type memory struct{ rows [][]driver.Value }

func (m *memory) Connect(context.Context) (driver.Conn, error) { return m, nil }
func (m *memory) Driver() driver.Driver                        { return m }
func (m *memory) Open(string) (driver.Conn, error)             { return m, nil }
func (m *memory) Close() error                                 { return nil }
func (m *memory) Begin() (driver.Tx, error)                    { return nil, errors.New("no transactions here") }
func (m *memory) Prepare(string) (driver.Stmt, error) {
	return nil, errors.New("nothing is prepared here")
}

func (m *memory) ExecContext(_ context.Context, _ string, args []driver.NamedValue) (driver.Result, error) {
	var row []driver.Value
	for _, a := range args {
		row = append(row, a.Value)
	}
	m.rows = append(m.rows, row)
	return driver.RowsAffected(1), nil
}

func (m *memory) QueryContext(context.Context, string, []driver.NamedValue) (driver.Rows, error) {
	return &cursor{slices.Clone(m.rows)}, nil
}

type cursor struct{ left [][]driver.Value }

func (c *cursor) Columns() []string { return []string{"reel", "grammage", "moisture"} }
func (c *cursor) Close() error      { return nil }

func (c *cursor) Next(dest []driver.Value) error {
	if len(c.left) == 0 {
		return io.EOF
	}
	copy(dest, c.left[0])
	c.left = c.left[1:]
	return nil
}
