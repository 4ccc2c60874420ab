package batch_test

import (
	"bytes"
	"context"
	"errors"
	"io"
	"runtime"
	"strings"
	"testing"
	"time"

	"millmaths.example/paperprop/calc/batch"
	"millmaths.example/paperprop/catalogue"
	"millmaths.example/paperprop/table"
)

var errBroken = errors.New("broken pipe")

// A failing reader or writer fails at its n-th call, from 1.
type failing struct {
	n   int
	in  io.Reader
	out bytes.Buffer
}

func (f *failing) Read(p []byte) (int, error) {
	if f.n--; f.n == 0 {
		return 0, errBroken
	}
	return f.in.Read(p[:min(len(p), 100_000)])
}

func (f *failing) Write(p []byte) (int, error) {
	if f.n--; f.n == 0 {
		return 0, errBroken
	}
	return f.out.Write(p)
}

// atRest waits until no more goroutines run than before.
func atRest(t *testing.T, before int) {
	t.Helper()
	for range 100 {
		if runtime.NumGoroutine() <= before {
			return
		}
		time.Sleep(10 * time.Millisecond)
	}
	t.Errorf("%d goroutines are left, there were %d before", runtime.NumGoroutine(), before)
}

// A reader that fails ends the work with its error, and the rows before are
// written whole.
func TestReaderFails(t *testing.T) {
	tensile, _ := catalogue.Find("tensile")
	text := tensileTable(60_000) // about 2.5 MB
	before := runtime.NumGoroutine()
	for _, n := range []int{1, 2, 3, 11, 12, 19, 26} {
		var out bytes.Buffer
		job := &batch.Job{Calculation: tensile, Workers: 2}
		totals, err := job.Run(context.Background(), &failing{n: n, in: bytes.NewReader(text)}, &out)
		if !errors.Is(err, errBroken) {
			t.Fatalf("reading fails at call %d: %v", n, err)
		}
		if lines := bytes.Count(out.Bytes(), []byte("\n")); totals.Rows > 0 && lines != totals.Rows+1 || out.Len() > 0 && out.Bytes()[out.Len()-1] != '\n' {
			t.Errorf("reading fails at call %d: %d lines for %d rows", n, lines, totals.Rows)
		}
	}
	atRest(t, before)
}

// A writer that fails ends the work with its error; what it took before are
// the first bytes of what would have been written.
func TestWriterFails(t *testing.T) {
	tensile, _ := catalogue.Find("tensile")
	text := tensileTable(60_000)
	whole := run(t, "tensile", batch.Job{}, string(text)).out
	before := runtime.NumGoroutine()
	for _, workers := range []int{1, 2, 7} {
		for _, n := range []int{1, 2, 3, 7} { // 7 is the last
			out := &failing{n: n}
			job := &batch.Job{Calculation: tensile, Workers: workers}
			if _, err := job.Run(context.Background(), bytes.NewReader(text), out); !errors.Is(err, errBroken) {
				t.Errorf("writing fails at call %d: %v", n, err)
			}
			if !strings.HasPrefix(whole, out.out.String()) {
				t.Errorf("before writing fails at call %d, something else is written", n)
			}
		}
	}
	atRest(t, before)
}

// half takes half of what it is given, and gives no error, as no writer may.
type half struct{ after int }

func (h *half) Write(p []byte) (int, error) {
	if h.after--; h.after >= 0 {
		return len(p), nil
	}
	return len(p) / 2, nil
}

// A writer that took less than it was given ends the work, though it says nothing.
func TestWriterTakesLess(t *testing.T) {
	tensile, _ := catalogue.Find("tensile")
	text := tensileTable(20)
	for _, job := range []batch.Job{{}, {Workers: 2}, {Together: true}} {
		job.Calculation = tensile
		writes := 2 // heads, rows
		if job.Together {
			writes = 1
		}
		for after := range writes {
			if _, err := job.Run(context.Background(), bytes.NewReader(text), &half{after}); !errors.Is(err, io.ErrShortWrite) {
				t.Errorf("%+v, half taken at call %d: %v, want %v", job, after+1, err, io.ErrShortWrite)
			}
		}
	}
	totals, err := (&batch.Job{Calculation: tensile}).Run(context.Background(), bytes.NewReader(text), io.Discard)
	if err != nil {
		t.Fatal(err)
	}
	if err := totals.WriteSummary(&half{}, nil, 0.95); !errors.Is(err, io.ErrShortWrite) {
		t.Errorf("summary: %v, want %v", err, io.ErrShortWrite)
	}
}

const fullRow = "96.4,121.4\n"

// endless is a table without an end.
type endless struct {
	row   string
	begun bool
}

func (e *endless) Read(p []byte) (int, error) {
	if !e.begun {
		e.begun = true
		return copy(p, "force [N],grammage [g/m2]\n"), nil
	}
	row := e.row
	n := 0
	for n+len(row) <= len(p) {
		n += copy(p[n:], row)
	}
	if n == 0 {
		return copy(p, "\n"), nil
	}
	return n, nil
}

func TestInterrupt(t *testing.T) {
	tensile, _ := catalogue.Find("tensile")
	before := runtime.NumGoroutine()
	for _, workers := range []int{1, 2, 7} {
		for _, lot := range []string{"", "grammage"} {
			ctx, cancel := context.WithCancel(context.Background())
			time.AfterFunc(50*time.Millisecond, cancel)
			start := time.Now()
			job := &batch.Job{Calculation: tensile, Workers: workers, Lot: lot}
			var last lastByte
			row := fullRow
			if lot != "" {
				row = "96.4,\n" // of no lot, as lots hold what is in them
			}
			_, err := job.Run(ctx, &endless{row: row}, &last)
			if !errors.Is(err, context.Canceled) {
				t.Errorf("%d workers: %v, want %v", workers, err, context.Canceled)
			}
			if took := time.Since(start); took > 5*time.Second {
				t.Errorf("%d workers: an interrupt takes %v", workers, took)
			}
			if lot == "" && last != '\n' {
				t.Errorf("%d workers: the last row is torn", workers)
			}
		}
	}
	atRest(t, before)
}

// lastByte keeps the last byte written to it.
type lastByte byte

func (l *lastByte) Write(p []byte) (int, error) {
	if len(p) > 0 {
		*l = lastByte(p[len(p)-1])
	}
	return len(p), nil
}

// What has no end is refused with its line, after a mebibyte and not after
// all of it.
func TestNoEnd(t *testing.T) {
	const heads = "force [N],grammage [g/m2]\n96.4,121.4\n"
	long := io.MultiReader(strings.NewReader(heads), io.LimitReader(repeated('1'), 64<<20))
	open := io.MultiReader(strings.NewReader(heads+`"`), io.LimitReader(repeated('x'), 64<<20))
	for name, in := range map[string]io.Reader{"a line of 64 MiB": long, "a quote that is never closed": open} {
		a := runReader(t, "tensile", batch.Job{Options: table.Options{Name: "t.csv"}}, in)
		if a.err == nil || !strings.HasPrefix(a.err.Error(), "t.csv:3: the record that begins here has no end within 1 MiB") {
			t.Errorf("%s: %v", name, a.err)
		}
		a.wantTotals(t, 1, 1, 0, 0)
	}
	a := run(t, "tensile", batch.Job{Options: table.Options{Name: "t.csv"}}, heads+"\"1,2\n3,4\n")
	if a.err == nil || !strings.HasPrefix(a.err.Error(), "t.csv:3: a quote in the record that begins here is never closed") {
		t.Errorf("a quote that is never closed: %v", a.err)
	}
}

type repeated byte

func (r repeated) Read(p []byte) (int, error) {
	for i := range p {
		p[i] = byte(r)
	}
	return len(p), nil
}

// What is allocated does not grow with the file: five times the rows take the
// same few blocks.
func TestMemoryIsBounded(t *testing.T) {
	tensile, _ := catalogue.Find("tensile")
	allocated := func(rows int64) uint64 {
		const row = 11 // bytes, of endless
		var before, after runtime.MemStats
		runtime.ReadMemStats(&before)
		job := &batch.Job{Calculation: tensile, Workers: 2}
		totals, err := job.Run(context.Background(), io.LimitReader(&endless{row: fullRow}, 26+rows*row), io.Discard)
		if err != nil || totals.Computed < int(rows)*9/10 {
			t.Fatalf("%d rows computed, %v", totals.Computed, err)
		}
		runtime.ReadMemStats(&after)
		return after.TotalAlloc - before.TotalAlloc
	}
	allocated(100_000) // rooms that are made once
	few, many := allocated(200_000), allocated(1_000_000)
	if many > few+1<<20 {
		t.Errorf("1,000,000 rows allocate %d bytes, 200,000 rows %d", many, few)
	}
}
