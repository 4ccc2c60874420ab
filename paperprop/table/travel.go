package table

import (
	"bytes"
	"encoding/gob"
	"errors"
	"fmt"
	"sync/atomic"
)

// A travelling block is what another process needs to read its records: the
// text, where it stands, and how the file is written.
type travelling struct {
	Text        []byte
	Line, Index int
	AfterHeads  bool

	Layout       Layout // its exported fields
	Heads, Units []string
	Fewest       int
	Undecided    bool
}

var errOwnUnits = errors.New("table: a block read with Options.IsUnit can't be sent: functions don't travel")

// MarshalBinary writes a block with all that Block.Record needs, so that a
// table cut in one process is read in others. It is asked before the first
// record is.
func (b *Block) MarshalBinary() ([]byte, error) {
	switch {
	case b.layout == nil:
		return nil, errors.New("table: a block that Next has not filled can't be sent")
	case b.layout.ownUnits:
		return nil, errOwnUnits
	case b.scan.pos > 0:
		return nil, errors.New("table: a block of which records were read can't be sent")
	}
	l := b.layout
	var out bytes.Buffer
	err := gob.NewEncoder(&out).Encode(travelling{
		Text: b.text, Line: b.line, Index: b.index, AfterHeads: b.afterHeads,
		Layout: *l, Heads: l.heads, Units: l.units, Fewest: l.fewest, Undecided: l.undecided,
	})
	if err != nil {
		return nil, fmt.Errorf("table: sending a block: %w", err)
	}
	return out.Bytes(), nil
}

// UnmarshalBinary makes the block that MarshalBinary wrote. A record of class
// Changed ends this block alone: whoever reads the others must be told.
func (b *Block) UnmarshalBinary(data []byte) error {
	var t travelling
	if err := gob.NewDecoder(bytes.NewReader(data)).Decode(&t); err != nil {
		return fmt.Errorf("table: not a block that was sent: %w", err)
	}
	if len(t.Heads) != len(t.Layout.Columns) || len(t.Heads) == 0 {
		return fmt.Errorf("table: not a block that was sent: %d heads for %d columns", len(t.Heads), len(t.Layout.Columns))
	}
	l := t.Layout
	l.Columns, l.isUnit = nil, isUnit
	l.setHeads(t.Heads)
	l.Columns = t.Layout.Columns // with the units of the row of units
	l.units, l.fewest, l.undecided = t.Units, t.Fewest, t.Undecided
	*b = Block{text: t.Text, line: t.Line, index: t.Index, afterHeads: t.AfterHeads, layout: &l, changed: new(atomic.Pointer[CellError])}
	b.scan = scanner{text: b.text, delimiter: l.Delimiter}
	return nil
}
