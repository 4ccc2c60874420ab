package main

import (
	"fmt"
	"io"
	"math"
	"math/rand/v2"

	"github.com/apache/arrow-go/v18/arrow"
	"github.com/apache/arrow-go/v18/arrow/array"
	"github.com/apache/arrow-go/v18/arrow/memory"
	"github.com/apache/arrow-go/v18/parquet"
	"github.com/apache/arrow-go/v18/parquet/pqarrow"

	"millmaths.example/examples/parquet/unitparquet"
)

// writeSample writes invented tensile readings of the invented mill Quillbeck:
// in every thousand a piece slipped (null), and one was typed with its sign
// wrong.
func writeSample(out io.Writer, rows int) error {
	unit := func(u string) arrow.Metadata {
		return arrow.NewMetadata([]string{unitparquet.UnitKey}, []string{u})
	}
	schema := arrow.NewSchema([]arrow.Field{
		{Name: "piece", Type: arrow.BinaryTypes.String},
		{Name: "force", Type: arrow.PrimitiveTypes.Float64, Nullable: true, Metadata: unit("N")},
		{Name: "strip_width", Type: arrow.PrimitiveTypes.Float64, Metadata: unit("mm")},
		{Name: "grammage", Type: arrow.PrimitiveTypes.Float32, Metadata: unit("g/m2")},
	}, nil)
	w, err := pqarrow.NewFileWriter(schema, out,
		parquet.NewWriterProperties(), pqarrow.NewArrowWriterProperties(pqarrow.WithStoreSchema()))
	if err != nil {
		return err
	}
	const group = 100_000 // rows of a row group
	random := rand.New(rand.NewPCG(120, 7))
	b := array.NewRecordBuilder(memory.DefaultAllocator, schema)
	for from := 0; from < rows; from += group {
		for i := from; i < min(from+group, rows); i++ {
			b.Field(0).(*array.StringBuilder).Append(fmt.Sprintf("H120-7/%d", i+1))
			force := math.Round(10*(96+3*random.NormFloat64())) / 10
			switch i % 1000 {
			case 42:
				b.Field(1).AppendNull()
			case 777:
				force = -force
				fallthrough
			default:
				b.Field(1).(*array.Float64Builder).Append(force)
			}
			b.Field(2).(*array.Float64Builder).Append(15)
			b.Field(3).(*array.Float32Builder).Append(float32(math.Round(10*(121.4+random.NormFloat64())) / 10))
		}
		record := b.NewRecordBatch()
		err := w.Write(record)
		record.Release()
		if err != nil {
			return err
		}
	}
	return w.Close()
}
