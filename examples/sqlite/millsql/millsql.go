// Package millsql gives SQLite every calculation of a list as an SQL function
// whose units are checked.
//
// A function is named mill_ and the name of the calculation, with _ for -. It
// takes the wanted result, then names and values of inputs, with a unit in brackets
// after a name as in the heads of a table:
//
//	SELECT mill_tensile('tensile-index', 'force [N]', force, 'grammage', '121.4 g/m2') FROM readings
//
// It returns a number in the unit that the library prints, or in the one asked for
// ('tensile-index [N.m/g]'). What people get wrong: a number without a unit is an
// error, not a guess; a NULL anywhere makes the result NULL, so omit the name of an
// input that is to take its default; and an error ends the whole query, so ask for
// 'error' first where readings may be spoilt.
package millsql

import (
	"context"
	"database/sql"
	"database/sql/driver"
	"fmt"
	"strings"

	"modernc.org/sqlite"

	"millmaths.example/paperprop/calc"
)

// Prefix begins the names of all functions.
const Prefix = "mill_"

// FunctionName is the SQL name of a calculation: mill_edge_crush.
func FunctionName(calculation string) string {
	return Prefix + strings.ReplaceAll(calculation, "-", "_")
}

// Register adds the calculations to a driver, before it opens its first database.
func Register(d *sqlite.Driver, calculations ...calc.Calculation) error {
	for _, c := range calculations {
		f := &function{calculation: c, name: FunctionName(c.ID())}
		err := d.RegisterFunction(f.name, &sqlite.FunctionImpl{
			NArgs: -1, Deterministic: true,
			Scalar: func(_ *sqlite.FunctionContext, args []driver.Value) (driver.Value, error) { return f.call(args) },
		})
		if err != nil {
			return fmt.Errorf("%s: %w", f.name, err)
		}
	}
	return nil
}

// Open opens a database with the calculations as functions: dsn is as for
// modernc.org/sqlite, such as a file name or ":memory:".
func Open(dsn string, calculations ...calc.Calculation) (*sql.DB, error) {
	d := new(sqlite.Driver)
	if err := Register(d, calculations...); err != nil {
		return nil, err
	}
	return sql.OpenDB(connector{d, dsn}), nil
}

// A connector opens one database by a driver that no global name has.
type connector struct {
	driver *sqlite.Driver
	dsn    string
}

func (c connector) Connect(context.Context) (driver.Conn, error) { return c.driver.Open(c.dsn) }
func (c connector) Driver() driver.Driver                        { return c.driver }
