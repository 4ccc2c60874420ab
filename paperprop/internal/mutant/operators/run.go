package main

import (
	"bufio"
	"context"
	"errors"
	"fmt"
	"os"
	"os/exec"
	"path/filepath"
	"regexp"
	"slices"
	"strconv"
	"strings"
	"time"
)

// A program is the test program of a package, built with the copies of the mutated one.
type program struct {
	path, dir, scratch string
}

// A test runs without a flag: a Test, the seeds of a Fuzz, an Example.
type test struct {
	*program
	name string
	took time.Duration
	asks map[int]bool // operators that it evaluates, by their first number
}

// tests are those that may notice a mutant, the fastest first.
type tests struct {
	all    []*test
	broken []string // tests that fail without an active mutant
	long   []string // tests of further packages that would take too long
}

type outcome string

const (
	killed     outcome = "killed"
	lived      outcome = "lived"
	timedOut   outcome = "timed out"
	notCovered outcome = "not covered"
)

// long is the processor time above which a test of a further package is left out: a
// mutant that lives has to wait for all tests.
const long = 200 * time.Millisecond

// noticing is the test that runs the checks of the catalogue: see notice.
const noticing = "TestNoticed"

// names returns the names of the tests of a program.
func (p *program) names() ([]string, error) {
	list := exec.Command(p.path, "-test.list", "^(Test|Fuzz|Example)")
	list.Dir = p.dir
	out, err := list.Output()
	return strings.Fields(string(out)), err
}

// record runs each test of a program by itself, to find its time and what it evaluates.
func (s *tests) record(p *program, names []string, further bool) error {
	asked := filepath.Join(p.scratch, "asked")
	limit := 10 * time.Minute
	if further {
		limit = 20 * long // even if the machine is busy
	}
	for _, name := range names {
		if name == noticing {
			continue
		}
		t := &test{program: p, name: name, asks: map[int]bool{}}
		start := time.Now()
		o, spent := p.run(0, limit, asked, t)
		switch {
		case further && (o == timedOut || spent > long):
			s.long = append(s.long, name)
			continue
		case o != lived:
			s.broken = append(s.broken, name)
			continue
		}
		t.took = time.Since(start)
		text, err := os.ReadFile(asked)
		if err != nil {
			return err
		}
		for _, n := range strings.Fields(string(text)) {
			number, err := strconv.Atoi(n)
			if err != nil {
				return err
			}
			t.asks[number] = true
		}
		s.all = append(s.all, t)
	}
	slices.SortStableFunc(s.all, func(a, b *test) int { return int(a.took - b.took) })
	return nil
}

// notice runs the check rows, limits and formula lines of the catalogue for each mutant
// in one process, and starts another one after a mutant that crashes or hangs.
func (p *program) notice(mutants []mutant, tries func(int, mutant) bool) ([]outcome, error) {
	outcomes := make([]outcome, len(mutants))
	for next := 0; next < len(mutants); next++ {
		c := exec.Command(p.path, "-test.run", "^"+noticing+"$", "-test.timeout", "0", "-test.paniconexit0")
		c.Dir = p.dir
		c.Env = append(os.Environ(), "TMPDIR="+p.scratch)
		in, err := c.StdinPipe()
		if err != nil {
			return nil, err
		}
		out, err := c.StdoutPipe()
		if err != nil {
			return nil, err
		}
		if err := c.Start(); err != nil {
			return nil, err
		}
		lines := bufio.NewScanner(out)
		if !lines.Scan() || lines.Text() != "ready" {
			return nil, errors.New("the catalogue does not answer: " + lines.Text())
		}
		for ; next < len(mutants); next++ {
			if !tries(next, mutants[next]) {
				continue
			}
			patience := time.AfterFunc(30*time.Second, func() { c.Process.Kill() })
			fmt.Fprintln(in, next+1, mutants[next].recorded)
			alive := lines.Scan()
			if !patience.Stop() || !alive {
				outcomes[next] = timedOut
				break
			}
			outcomes[next] = outcome(lines.Text())
		}
		c.Process.Kill()
		c.Wait()
	}
	return outcomes, nil
}

// try runs the tests that evaluate the operator of a mutant until one fails: the fast
// ones of a program, up to a second of them, in one process, then each of the others.
func (s *tests) try(number, recorded int) outcome {
	var batches [][]*test
	var quick time.Duration
	for _, t := range s.all {
		if !t.asks[recorded] {
			continue
		}
		quick += t.took
		last := len(batches) - 1
		if last < 0 || quick > time.Second || batches[last][0].program != t.program {
			batches = append(batches, nil)
			last++
		}
		batches[last] = append(batches[last], t)
	}
	if len(batches) == 0 {
		return notCovered
	}
	for _, b := range batches {
		limit := 2 * time.Second
		for _, t := range b {
			limit += 5 * t.took
		}
		if o, _ := b[0].run(number, limit, "", b...); o != lived {
			return o
		}
	}
	return lived
}

// run runs tests of a program with a mutant, and returns the processor time they took.
func (p *program) run(number int, limit time.Duration, asked string, tests ...*test) (outcome, time.Duration) {
	var names []string
	for _, t := range tests {
		names = append(names, regexp.QuoteMeta(t.name))
	}
	ctx, cancel := context.WithTimeout(context.Background(), limit)
	defer cancel()
	c := exec.CommandContext(ctx, p.path, "-test.short", "-test.failfast", "-test.paniconexit0", "-test.run", "^("+strings.Join(names, "|")+")$")
	c.Dir = p.dir
	c.Env = append(os.Environ(), fmt.Sprintf("MUTANT=%d", number), "MUTANT_ASKED="+asked, "TMPDIR="+p.scratch)
	err := c.Run()
	if err != nil && !errors.As(err, new(*exec.ExitError)) && ctx.Err() == nil {
		panic(err) // not caused by the mutant
	}
	spent := c.ProcessState.UserTime() + c.ProcessState.SystemTime()
	switch {
	case ctx.Err() != nil:
		return timedOut, spent
	case err != nil:
		return killed, spent
	}
	return lived, spent
}
