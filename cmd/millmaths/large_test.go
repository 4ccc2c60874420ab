//go:build unix

package main

import (
	"flag"
	"io"
	"runtime/debug"
	"runtime/metrics"
	"strings"
	"testing"
	"time"
)

var large = flag.Float64("large", 0.25, "MiB of each file that is too large")

// A generated disk gives the file "stream" that nobody could store.
type generated struct {
	process
	make func() io.Reader
}

func (d *generated) open(name string) (io.ReadCloser, error) {
	if name == "stream" || name == "stream.toml" {
		return io.NopCloser(d.make()), nil
	}
	return d.process.open(name)
}

// memory watches how much of it the process has, and returns how to learn by how
// much that grew at most.
func memory() (most func() (grown int)) {
	samples := []metrics.Sample{{Name: "/memory/classes/total:bytes"}, {Name: "/memory/classes/heap/released:bytes"}}
	now := func() int {
		metrics.Read(samples)
		return int(samples[0].Value.Uint64() - samples[1].Value.Uint64())
	}
	debug.FreeOSMemory()
	idle := now()
	stop, peak := make(chan struct{}), make(chan int)
	go func() {
		high := idle
		for {
			select {
			case <-stop:
				peak <- max(high, now()) - idle
				return
			case <-time.After(time.Millisecond):
				high = max(high, now())
			}
		}
	}()
	return func() int {
		close(stop)
		return <-peak
	}
}

// Files of many mebibytes, none of them stored: a text, and another again and
// again behind it.
type streamed struct{ name, text, again, end string }

const (
	tableHead = "specimen;force [N];grammage [g/m2]\n"
	checkHead = "id,calculation,inputs,expected,tolerance,kind,source,note\n"
)

// streams go, each sort of them, to the commands that read it.
var streams = []struct {
	commands []string
	files    []streamed
}{
	{[]string{
		"batch tensile stream --quiet",
		"batch tensile stream --quiet --by specimen --summary markdown",
		"batch replicates stream --quiet --lot specimen --column value=force",
		"replicates --value @stream:force",
		"profile --scan @stream",
		"trim stream --deckle 3300mm --limit 300ms --partly --quiet",
	}, []streamed{
		{"rows", tableHead, "A;80.25;121.5\n", ""},
		{"rows that fail", tableHead, "A;x;121.5\n", ""},
		{"rows of units that are none", tableHead, "A;80.25 newtn/x;121.5\n", ""},
		{"footers", tableHead, "Mean;80;121.5\n", ""},
		{"digits of a cell", tableHead + "A;", "9", ";121\n"},
		{"digits of an exponent", tableHead + "A;1e", "9", ";121\n"},
		{"a quote not closed", tableHead + "A;80;121\n\"A", "x;80\n", ""},
		{"a million columns", "force [N];grammage [g/m2]", ";c", "\n80;121\n"},
		{"bales", "specimen;force [kg]\n", "A;500\n", ""},
		{"orders", "order,width [mm],reels\n", "a,500,3\n", ""},
		{"orders that fail", "order,width [mm],reels\n", "a,x,3\n", ""},
	}},
	{[]string{"replicates --value @stream"}, []streamed{
		{"a list", "", "1.25 ", "g"},
		{"lines of a list", "", "1.25\n", "g"},
		{"digits of a list", "", "9", " g"},
		{"rules of a list", "", "---\n", "1 g"},
	}},
	{[]string{"batch dilution stream --jsonl", "batch precision stream --jsonl"}, []streamed{
		{"brackets", "", "[", ""},
		{"braces", "", "{\"mass-flow\":", ""},
		{"keys of one object", "{", "\"mass-flow\":\"1 t/h\",", "\"a\":1}"},
		{"JSON lines that fail", "", "{\"mass-flow\":\"1 t/h\"}\n", ""},
		{"JSON lines that are none", "", "x\n", ""},
		{"JSON lines of units that are none", "", "{\"mass-flow\":\"1 tph/x\"}\n", ""},
	}},
	{[]string{"batch convert stream --jsonl"}, []streamed{
		{"values of units that are none", "", "{\"value\":\"1 tph/x\",\"to\":\"kg/h\"}\n", ""},
	}},
	{[]string{"line stream", "line stream --json", "trim stream.toml"}, []streamed{
		{"keys of a line", "", "name = \"a\"\n", ""},
		{"tables of a line", "", "[[stage]]\n", ""},
		{"brackets of a line", "a = ", "[", ""},
		{"a text of a line", "name = \"", "a", ""},
		{"remarks of a line", "", "# a\n", ""},
	}},
	{[]string{"verify stream"}, []streamed{
		{"checks", checkHead, "1,dilution,mass-flow=3 t/h; consistency-in=4 %; consistency-out=1 %,water-flow=9 t/h,rel 1e-9,memory,,\n", ""},
		{"checks that fail", checkHead, "1,nothing,,refused,exact,memory,,\n", ""},
		{"checks that are none", checkHead, "1\n", ""},
		{"a check that has no end", checkHead + "1,\"", "x\n", ""},
	}},
	{append(readers, "trim %s.toml"), []streamed{
		{"a line of text", "", "force ", ""},
		{"a line of cells", "", "force;", ""},
		{"a line of quotes", "", "\"\",", ""},
		{"NULs", "", "\x00", ""},
		{"blank lines", "", "\n", ""},
		{"marks", "", "\ufeff", ""},
		{"UTF-16", "\xff\xfe", "A\x00;\x00", ""},
	}},
}

// Whatever is too large is done or refused in time, and in little memory.
func TestLargeFiles(t *testing.T) {
	for _, sort := range streams {
		for _, file := range sort.files {
			for _, command := range sort.commands {
				command = strings.ReplaceAll(command, "%s", "stream")
				t.Run(file.name+" in "+command, func(t *testing.T) { file.through(t, command) })
			}
		}
	}
}

func (s *streamed) through(t *testing.T, command string) {
	const most = 64 << 20
	again := strings.Repeat(s.again, 64<<10/len(s.again))
	d := &generated{make: func() io.Reader {
		whole := int(*large*(1<<20)) / len(again) * len(again)
		return io.MultiReader(strings.NewReader(s.text), io.LimitReader(&endless{again: again}, int64(whole)), strings.NewReader(s.end))
	}}
	grown := memory()
	begin := processorTime()
	var out, said counter
	status := newTerminal(d.make(), &out, &said, d).run(t.Context(), words(command))
	took, grew := processorTime()-begin, grown()
	t.Logf("%s, %s: exit %d, %v, %d MiB", s.name, command, status, took, grew>>20)
	size := int(*large*(1<<20)) + int(out+said) // what comes in and what goes out
	if took > allowed(size) || grew > most {
		t.Errorf("%s of %v MiB, %s: %v, %d MiB", s.name, *large, command, took, grew>>20)
	}
	if status != done && out+said == 0 {
		t.Errorf("%s, %s: exit %d and no word", s.name, command, status)
	}
}

// A counter counts what is written.
type counter int

func (c *counter) Write(p []byte) (int, error) {
	*c += counter(len(p))
	return len(p), nil
}
