package table

import (
	"encoding/binary"
	"encoding/json"
	"errors"
	"fmt"
	"slices"
	"sync/atomic"
)

// A travelling holds what another process needs to read the records of a block: where
// its text is in the file, and how the file is written. It is sent before the text and
// preceded by its own length. It is JSON, which every program of ours links anyway; gob
// would be the largest part of each program's start.
type travelling struct {
	Line, Index int
	Before      Class
	Length      int // length of the text

	Layout       Layout // only the exported fields are sent
	Heads, Units []string
	More         []more
	Named        []int
	Names        []nameColumn
	Usual        sorts
	Fewest       int
	Undecided    bool
	DecimalName  string
}

var errOwnUnits = errors.New("table: a block read with Options.IsUnit can't be sent: a function can't be encoded")

// MarshalBinary encodes a block with all that Block.Record needs, so that a table cut
// in one process can be read in others. It must be called before the first record is
// read.
func (b *Block) MarshalBinary() ([]byte, error) {
	switch {
	case b.layout == nil:
		return nil, errors.New("table: a block that Next has not filled can't be sent")
	case b.layout.ownUnits:
		return nil, errOwnUnits
	case b.scan.pos > 0:
		return nil, errors.New("table: a block whose records were read already can't be sent")
	}
	l := b.layout
	head, err := json.Marshal(travelling{
		Line: b.line, Index: b.index, Before: b.before, Length: len(b.text),
		Layout: *l, Heads: l.heads, Units: l.units, More: l.more, Named: l.named, Fewest: l.fewest, Undecided: l.undecided, DecimalName: l.decimalName,
		Names: l.names, Usual: l.usual,
	})
	if err != nil {
		return nil, fmt.Errorf("table: sending a block: %w", err)
	}
	out := make([]byte, 0, binary.MaxVarintLen64+len(head)+len(b.text))
	out = binary.AppendUvarint(out, uint64(len(head)))
	return append(append(out, head...), b.text...), nil
}

// UnmarshalBinary decodes a block that MarshalBinary encoded. A record of class Changed
// ends this block only: the caller must stop the readers of later blocks.
func (b *Block) UnmarshalBinary(data []byte) error {
	size, at := binary.Uvarint(data)
	if at <= 0 || size > uint64(len(data)-at) {
		return errors.New("table: not a block that was sent: its head is cut off")
	}
	head, text := data[at:at+int(size)], data[at+int(size):]
	var t travelling
	if err := json.Unmarshal(head, &t); err != nil {
		return fmt.Errorf("table: not a block that was sent: %w", err)
	}
	if len(t.Heads) != len(t.Layout.Columns) || len(t.Heads) == 0 {
		return fmt.Errorf("table: not a block that was sent: %d heads for %d columns", len(t.Heads), len(t.Layout.Columns))
	}
	if len(text) != t.Length {
		return fmt.Errorf("table: not the block that was sent: %d bytes of text, want %d", len(text), t.Length)
	}
	l := t.Layout
	l.Columns, l.isUnit = nil, isUnit
	l.setHeads(t.Heads, nil)
	l.Columns = t.Layout.Columns // including units from the row of units
	for i, column := range l.Columns {
		l.folded[i] = fold(column.Head)
	}
	l.units, l.more, l.named, l.fewest, l.undecided = t.Units, t.More, t.Named, t.Fewest, t.Undecided
	l.names, l.usual, l.decimalName = t.Names, t.Usual, t.DecimalName
	*b = Block{text: slices.Clone(text), line: t.Line, index: t.Index, before: t.Before, layout: &l, changed: new(atomic.Pointer[CellError])}
	b.scan = scanner{text: b.text, delimiter: l.Delimiter}
	return nil
}
