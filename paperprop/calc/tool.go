package calc

import (
	"fmt"

	"millmaths.example/paperprop"
)

// A Pair is a name with the text given for it.
type Pair struct{ Name, Text string }

// An Answer is one result of a tool.
type Answer struct {
	Name  string
	Value float64   // in Unit
	List  []float64 // where the result is a list
	Unit  paperprop.Unit
	Text  string // where the result is a text
}

// Numbers are the values of a result that is no text.
func (a Answer) Numbers() []float64 {
	if a.List != nil {
		return a.List
	}
	return []float64{a.Value}
}

// A Tool takes names or tables of its own, so no pair of structs can hold its
// inputs. It has a signature and answers to check tables all the same.
type Tool struct {
	About Info
	Run   func(given []Pair) ([]Answer, error)
}

// ID returns the name.
func (t *Tool) ID() string { return t.About.Name }

// Info returns what the tool says of itself.
func (t *Tool) Info() *Info { return &t.About }

// NewSheet returns a sheet without inputs, whose Run refuses: a tool is run by
// its own Run.
func (t *Tool) NewSheet() *Sheet {
	return &Sheet{info: t.Info, fresh: t.NewSheet, compute: func() error {
		return fmt.Errorf("%s is a tool and has no sheet", t.About.Name)
	}}
}

// NewField describes an input or output of a tool.
func NewField(name, symbol string, shape Shape, help string) *Field {
	return &Field{Name: name, Symbol: symbol, Shape: shape, Help: help}
}
