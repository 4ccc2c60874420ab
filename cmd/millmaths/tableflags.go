package main

import (
	"github.com/spf13/pflag"

	"millmaths.example/paperprop/table"
)

// A tableFlags says how to read a table that does not show it.
type tableFlags struct {
	decimal, delimiter, encoding string
	head                         int
}

func (f *tableFlags) add(flags *pflag.FlagSet) {
	flags.StringVar(&f.decimal, "decimal", "", "point or comma: the decimal sign, if the file does not show it")
	flags.StringVar(&f.delimiter, "delimiter", "", "comma, semicolon or tab, if the file does not show it")
	flags.StringVar(&f.encoding, "encoding", "", "utf-8, utf-16le, utf-16be, windows-1252 or iso-8859-1")
	flags.IntVar(&f.head, "head-line", 0, "the line of the heads, if the file does not show it")
}

// tableFlagNames are the names of the flags of a tableFlags.
var tableFlagNames = [...]string{"decimal", "delimiter", "encoding", "head-line"}

// tableFlagGiven returns the first of them that was given; "" if none was.
func tableFlagGiven(flags *pflag.FlagSet) string {
	for _, name := range tableFlagNames {
		if flags.Changed(name) {
			return name
		}
	}
	return ""
}

// options returns the options for the table of that name.
func (f *tableFlags) options(name string) (o table.Options, err error) {
	o = table.Options{Name: shown(name), Encoding: f.encoding, Head: f.head, DecimalName: "--decimal"}
	if o.Decimal, err = oneOf("decimal", f.decimal, map[string]byte{"point": '.', "comma": ',', ".": '.', ",": ','}); err != nil {
		return o, err
	}
	o.Delimiter, err = oneOf("delimiter", f.delimiter, map[string]byte{"comma": ',', "semicolon": ';', "tab": '\t', ",": ',', ";": ';'})
	return o, err
}
