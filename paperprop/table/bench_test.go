package table

import (
	"bytes"
	"encoding/csv"
	"fmt"
	"io"
	"math/rand/v2"
	"testing"
)

// plainTable is a table of seven columns of numbers, about 45 bytes a row.
func plainTable(rows int) []byte {
	rnd := rand.New(rand.NewPCG(1, 2))
	var b bytes.Buffer
	b.WriteString("mass,length,width,count,thickness,force,moisture\n")
	for range rows {
		fmt.Fprintf(&b, "%.4f,%.1f,%.2f,%d,%.1f,%.2f,%.3f\n", 4+rnd.Float64(), 200+rnd.Float64()*50, 15+rnd.Float64(),
			1+rnd.IntN(20), 150+60*rnd.Float64(), 90+20*rnd.Float64(), 7+rnd.Float64())
	}
	return b.Bytes()
}

func BenchmarkRecords(b *testing.B) {
	const rows = 200_000
	plain := plainTable(rows)
	quoted := append(bytes.ReplaceAll(bytes.ReplaceAll(bytes.TrimSuffix(plain, []byte("\n")), []byte(","), []byte(`","`)), []byte("\n"), []byte("\"\n\"")), "\"\n"...)
	quoted = append([]byte{'"'}, quoted...)
	texts := bytes.ReplaceAll(plain, []byte("\n"), []byte("\nH120-7/"))
	texts = append([]byte("specimen of "), bytes.TrimSuffix(texts, []byte("H120-7/"))...)
	for _, test := range []struct {
		name string
		text []byte
	}{
		{"plain", plain},
		{"crlf", bytes.ReplaceAll(plain, []byte("\n"), []byte("\r\n"))},
		{"text-first", texts},
		{"quoted", quoted},
	} {
		b.Run("read="+test.name, func(b *testing.B) {
			b.ReportAllocs()
			b.SetBytes(int64(len(test.text)))
			var block Block
			var rec Record
			for b.Loop() {
				b.StopTimer()
				r, err := Open(bytes.NewReader(test.text), Options{})
				if err != nil {
					b.Fatal(err)
				}
				b.StartTimer()
				if n, err := countData(r, &block, &rec); n != rows || err != nil {
					b.Fatalf("%d rows, %v", n, err)
				}
			}
			b.ReportMetric(float64(b.Elapsed().Nanoseconds())/float64(b.N)/rows, "ns/row")
		})
		b.Run("encoding-csv="+test.name, func(b *testing.B) {
			b.ReportAllocs()
			b.SetBytes(int64(len(test.text)))
			for b.Loop() {
				r := csv.NewReader(bytes.NewReader(test.text))
				r.ReuseRecord = true
				n := -1
				for {
					if _, err := r.Read(); err == io.EOF {
						break
					} else if err != nil {
						b.Fatal(err)
					}
					n++
				}
				if n != rows {
					b.Fatal(n)
				}
			}
			b.ReportMetric(float64(b.Elapsed().Nanoseconds())/float64(b.N)/rows, "ns/row")
		})
	}
}

func countData(r *Reader, block *Block, rec *Record) (rows int, err error) {
	for {
		if err := r.Next(block); err == io.EOF {
			return rows, nil
		} else if err != nil {
			return rows, err
		}
		for block.Record(rec) {
			if rec.Class == Data {
				rows++
			}
		}
	}
}

// BenchmarkOpen finds out about a mebibyte of 23,000 rows.
func BenchmarkOpen(b *testing.B) {
	text := plainTable(30_000)
	b.SetBytes(sampleSize)
	for b.Loop() {
		if _, err := Open(bytes.NewReader(text), Options{}); err != nil {
			b.Fatal(err)
		}
	}
}

// BenchmarkNext cuts blocks alone: the part that one goroutine has to do.
func BenchmarkNext(b *testing.B) {
	const rows = 200_000
	text := plainTable(rows)
	b.SetBytes(int64(len(text)))
	var block Block
	for b.Loop() {
		b.StopTimer()
		r, err := Open(bytes.NewReader(text), Options{})
		if err != nil {
			b.Fatal(err)
		}
		b.StartTimer()
		for err == nil {
			err = r.Next(&block)
		}
		if err != io.EOF {
			b.Fatal(err)
		}
	}
	b.ReportMetric(float64(b.Elapsed().Nanoseconds())/float64(b.N)/rows, "ns/row")
}
