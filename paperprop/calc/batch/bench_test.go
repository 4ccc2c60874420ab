package batch_test

import (
	"bufio"
	"bytes"
	"context"
	"encoding/csv"
	"fmt"
	"io"
	"math/rand/v2"
	"strconv"
	"testing"

	"millmaths.example/paperprop/calc/batch"
	"millmaths.example/paperprop/catalogue"
)

const benchRows = 200_000

// tensileTable is a table of seven columns of numbers, about 41 bytes a row, of
// which three are inputs of tensile.
func tensileTable(rows int) []byte {
	r := rand.New(rand.NewPCG(1, 2))
	var b bytes.Buffer
	b.WriteString("piece,force [N],strip-width [mm],grammage [g/m2],elongation [mm],thickness [um],moisture [%]\n")
	for i := range rows {
		fmt.Fprintf(&b, "%d,%.1f,%.2f,%.1f,%.2f,%.1f,%.2f\n", i+1, 60+60*r.Float64(), 14.9+0.2*r.Float64(),
			100+30*r.Float64(), 1+3*r.Float64(), 150+60*r.Float64(), 6+3*r.Float64())
	}
	return b.Bytes()
}

func BenchmarkBatch(b *testing.B) {
	tensile, ok := catalogue.Find("tensile")
	if !ok {
		b.Fatal("no tensile")
	}
	text := tensileTable(benchRows)
	for _, full := range []bool{false, true} {
		for _, workers := range []int{1, 2} {
			b.Run(fmt.Sprintf("full=%v/workers=%d", full, workers), func(b *testing.B) {
				b.SetBytes(int64(len(text)))
				for b.Loop() {
					job := &batch.Job{Calculation: tensile, Full: full, Workers: workers}
					totals, err := job.Run(context.Background(), bytes.NewReader(text), io.Discard)
					if err != nil || totals.Computed != benchRows {
						b.Fatalf("%d rows computed, %v", totals.Computed, err)
					}
				}
				b.ReportMetric(float64(b.Elapsed().Nanoseconds())/float64(b.N)/benchRows, "ns/row")
			})
		}
	}
}

// BenchmarkPlainProgram is what somebody would write with the standard library
// for that table alone, without units, checks, or rounding: as its pages show
// (records in, records out), and with lines put together by hand.
func BenchmarkPlainProgram(b *testing.B) {
	text := tensileTable(benchRows)
	for _, plain := range []struct {
		name string
		run  func(io.Reader, io.Writer) (int, error)
	}{{"records", plainRecords}, {"lines", plainLines}} {
		b.Run(plain.name, func(b *testing.B) {
			b.SetBytes(int64(len(text)))
			for b.Loop() {
				if rows, err := plain.run(bytes.NewReader(text), io.Discard); err != nil || rows != benchRows {
					b.Fatalf("%d rows computed, %v", rows, err)
				}
			}
			b.ReportMetric(float64(b.Elapsed().Nanoseconds())/float64(b.N)/benchRows, "ns/row")
		})
	}
}

func plainRecords(in io.Reader, out io.Writer) (rows int, err error) {
	r, w := csv.NewReader(in), csv.NewWriter(out)
	if _, err := r.Read(); err != nil {
		return 0, err
	}
	for ; ; rows++ {
		record, err := r.Read()
		if err == io.EOF {
			w.Flush()
			return rows, w.Error()
		} else if err != nil {
			return rows, err
		}
		var x [7]float64
		for i, cell := range record {
			if x[i], err = strconv.ParseFloat(cell, 64); err != nil {
				return rows, err
			}
		}
		strength := x[1] / x[2]
		for _, y := range []float64{strength, strength / x[3] * 1000, strength * 1000 / (x[3] * 9.80665)} {
			record = append(record, strconv.FormatFloat(y, 'g', -1, 64))
		}
		if err := w.Write(record); err != nil {
			return rows, err
		}
	}
}

func plainLines(in io.Reader, out io.Writer) (rows int, err error) {
	r := csv.NewReader(in)
	r.ReuseRecord = true
	if _, err := r.Read(); err != nil {
		return 0, err
	}
	w := bufio.NewWriterSize(out, 64<<10)
	var x [7]float64
	var line []byte
	for ; ; rows++ {
		record, err := r.Read()
		if err == io.EOF {
			return rows, w.Flush()
		} else if err != nil {
			return rows, err
		}
		line = line[:0]
		for i, cell := range record {
			if x[i], err = strconv.ParseFloat(cell, 64); err != nil {
				return rows, err
			}
			line = append(append(line, cell...), ',')
		}
		strength := x[1] / x[2]
		line = append(strconv.AppendFloat(line, strength, 'g', -1, 64), ',')
		line = append(strconv.AppendFloat(line, strength/x[3]*1000, 'g', -1, 64), ',')
		line = append(strconv.AppendFloat(line, strength*1000/(x[3]*9.80665), 'g', -1, 64), '\n')
		if _, err := w.Write(line); err != nil {
			return rows, err
		}
	}
}
