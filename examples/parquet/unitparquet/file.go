package unitparquet

import (
	"context"
	"errors"
	"fmt"
	"io"
	"math"
	"slices"
	"strconv"

	"github.com/apache/arrow-go/v18/arrow"
	"github.com/apache/arrow-go/v18/arrow/array"
	"github.com/apache/arrow-go/v18/arrow/memory"
	"github.com/apache/arrow-go/v18/parquet"
	"github.com/apache/arrow-go/v18/parquet/file"
	"github.com/apache/arrow-go/v18/parquet/pqarrow"

	"millmaths.example/paperprop"
	"millmaths.example/paperprop/table"
)

// UnitKey is the key in a column's metadata under which its unit stands: "g/m2".
const UnitKey = "unit"

// batchRows bounds the rows that are in memory decoded.
const batchRows = 16 << 10

// A source is an open Parquet file.
type source struct {
	name   string
	file   *file.Reader
	reader *pqarrow.FileReader
	schema *arrow.Schema
}

func open(name string, in parquet.ReaderAtSeeker) (*source, error) {
	f, err := file.NewParquetReader(in)
	if err != nil {
		return nil, fmt.Errorf("%s: not a Parquet file that can be read: %w", name, err)
	}
	r, err := pqarrow.NewFileReader(f, pqarrow.ArrowReadProperties{BatchSize: batchRows}, memory.DefaultAllocator)
	if err != nil {
		return nil, fmt.Errorf("%s: %w", name, err)
	}
	schema, err := r.Schema()
	if err != nil {
		return nil, fmt.Errorf("%s: columns: %w", name, err)
	}
	return &source{name, f, r, schema}, nil
}

// groups calls record with the records of each row group, and end behind each
// group. At most batchRows rows are decoded at a time.
func (s *source) groups(ctx context.Context, record func(arrow.RecordBatch) error, end func() error) error {
	for i := range s.file.NumRowGroups() {
		if err := s.group(ctx, i, record); err != nil {
			return err
		}
		if err := end(); err != nil {
			return err
		}
	}
	return nil
}

func (s *source) group(ctx context.Context, i int, record func(arrow.RecordBatch) error) error {
	records, err := s.reader.GetRecordReader(ctx, nil, []int{i})
	if err != nil {
		return fmt.Errorf("%s: row group %d: %w", s.name, i, err)
	}
	defer records.Release()
	for {
		if err := ctx.Err(); err != nil {
			return err
		}
		batch, err := records.Read()
		if errors.Is(err, io.EOF) {
			return nil
		}
		if err != nil {
			return fmt.Errorf("%s: row group %d: %w", s.name, i, err)
		}
		if err := record(batch); err != nil {
			return err
		}
	}
}

// layout is what batch needs to know of the columns.
func (s *source) layout() *table.Layout {
	var columns []table.Column
	for _, f := range s.schema.Fields() {
		unit, _ := f.Metadata.GetValue(UnitKey)
		columns = append(columns, table.Column{Head: f.Name, Unit: unit})
	}
	return table.NewLayout(s.name, columns)
}

// number says whether a column holds numbers, which need a unit from elsewhere.
func number(t arrow.DataType) bool {
	return arrow.IsInteger(t.ID()) || arrow.IsFloating(t.ID()) || arrow.IsDecimal(t.ID())
}

func words(t arrow.DataType) bool {
	if d, ok := t.(*arrow.DictionaryType); ok {
		t = d.ValueType
	}
	return t.ID() == arrow.STRING || t.ID() == arrow.LARGE_STRING || t.ID() == arrow.STRING_VIEW
}

func numbers(t arrow.DataType) bool {
	list, ok := t.(arrow.ListLikeType)
	return ok && number(list.Elem())
}

// appendCell appends a value as a table would have it: all digits of a number,
// a list in brackets, nothing for null. The digits go through the same door as
// those of any other table, so that its exact units hold here too.
func appendCell(dst []byte, column arrow.Array, row int) []byte {
	if column.IsNull(row) {
		return dst
	}
	switch c := column.(type) {
	case *array.Float64:
		return appendFloat(dst, c.Value(row))
	case *array.Float32: // 96.4 as it was meant, not the 96.4000015 that lies nearest
		x, _ := strconv.ParseFloat(strconv.FormatFloat(float64(c.Value(row)), 'g', -1, 32), 64)
		return appendFloat(dst, x)
	case *array.Int64:
		return strconv.AppendInt(dst, c.Value(row), 10)
	case *array.String:
		return append(dst, c.Value(row)...)
	case array.ListLike:
		from, to := c.ValueOffsets(row)
		dst = append(dst, '[')
		for i := from; i < to; i++ {
			if i > from {
				dst = append(dst, ' ')
			}
			dst = appendCell(dst, c.ListValues(), int(i))
		}
		return append(dst, ']')
	}
	return append(dst, column.ValueStr(row)...)
}

func appendFloat(dst []byte, x float64) []byte {
	if math.IsNaN(x) || math.IsInf(x, 0) {
		return strconv.AppendFloat(dst, x, 'g', -1, 64)
	}
	return paperprop.AppendShort(dst, x)
}

// WriteCSV writes a Parquet file as a table: names and units in the heads, and
// all digits. A row of nulls has a dash, since a blank line is no row of a table.
func WriteCSV(ctx context.Context, name string, in parquet.ReaderAtSeeker, out io.Writer) error {
	s, err := open(name, in)
	if err != nil {
		return err
	}
	defer s.file.Close()
	var line []byte
	for i, c := range s.layout().Columns {
		head := c.Head
		if c.Unit != "" {
			head += " [" + c.Unit + "]"
		}
		line = table.AppendCSV(comma(line, i), ',', []byte(head))
	}
	if _, err := out.Write(append(line, '\n')); err != nil {
		return err
	}
	var cell []byte
	return s.groups(ctx, func(r arrow.RecordBatch) error {
		line = line[:0]
		for row := range int(r.NumRows()) {
			begin := len(line)
			for i, column := range r.Columns() {
				cell = appendCell(cell[:0], column, row)
				line = table.AppendCSV(comma(line, i), ',', cell)
			}
			if len(line)-begin == len(r.Columns())-1 {
				line = slices.Insert(line, begin, '-')
			}
			line = append(line, '\n')
		}
		_, err := out.Write(line)
		return err
	}, func() error { return nil })
}

func comma(line []byte, column int) []byte {
	if column > 0 {
		return append(line, ',')
	}
	return line
}
