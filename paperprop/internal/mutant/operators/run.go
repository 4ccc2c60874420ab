package main

import (
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

// A program is the test program of a package, built with the copy of the mutated one.
type program struct {
	path, dir, scratch string
}

// A test is one that runs without a flag: a Test, the seeds of a Fuzz, an Example; or
// a subtest of one.
type test struct {
	*program
	name string
	took time.Duration
	asks map[int]bool // the operators that it evaluates, by the first number
}

// Tests are what may notice a mutant, the quickest first.
type tests struct {
	all    []*test
	broken []string // tests that fail though no mutant is active
}

type outcome string

const (
	killed     outcome = "killed"
	lived      outcome = "lived"
	timedOut   outcome = "timed out"
	notCovered outcome = "not covered"
)

// long is from where a test is worth the taking apart: a mutant then needs only
// those of its subtests that evaluate it.
const long = time.Second

// record runs each test of a program by itself, to see its time and what it evaluates.
func (s *tests) record(p *program, apart bool) error {
	list := exec.Command(p.path, "-test.list", "^(Test|Fuzz|Example)")
	list.Dir = p.dir
	out, err := list.Output()
	if err != nil {
		return err
	}
	for _, name := range strings.Fields(string(out)) {
		t, err := p.time(name)
		if err != nil {
			return err
		}
		switch {
		case t == nil:
			s.broken = append(s.broken, name)
		case len(t.asks) == 0:
		case apart && t.took > long:
			if err := s.take(t); err != nil {
				return err
			}
		default:
			s.all = append(s.all, t)
		}
	}
	slices.SortStableFunc(s.all, func(a, b *test) int { return int(a.took - b.took) })
	return nil
}

// take adds the subtests of a test, or itself if it has none.
func (s *tests) take(t *test) error {
	c := t.command(0, context.Background(), t)
	c.Args = append(c.Args, "-test.v")
	out, err := c.Output()
	if err != nil {
		return err
	}
	apart, failed := 0, 0
	for line := range strings.Lines(string(out)) {
		name, found := strings.CutPrefix(strings.TrimSpace(line), "=== RUN   ")
		if !found || strings.Count(name, "/") != 1 {
			continue
		}
		apart++
		sub, err := t.time(name)
		switch {
		case err != nil:
			return err
		case sub == nil:
			failed++
		case len(sub.asks) > 0:
			s.all = append(s.all, sub)
		}
	}
	switch {
	case apart == 0:
		s.all = append(s.all, t)
	case failed > 0:
		s.broken = append(s.broken, fmt.Sprintf("%d of %d subtests of %s", failed, apart, t.name))
	}
	return nil
}

// time runs a test without a mutant: nil if it fails.
func (p *program) time(name string) (*test, error) {
	t := &test{program: p, name: name, asks: map[int]bool{}}
	asked := filepath.Join(p.scratch, "asked")
	start := time.Now()
	if run(0, 10*time.Minute, asked, t) != lived {
		return nil, nil
	}
	t.took = time.Since(start)
	text, err := os.ReadFile(asked)
	if err != nil {
		return nil, err
	}
	for _, n := range strings.Fields(string(text)) {
		number, err := strconv.Atoi(n)
		if err != nil {
			return nil, err
		}
		t.asks[number] = true
	}
	return t, nil
}

// try runs the tests that evaluate the operator of a mutant until one fails: the
// quick ones, up to a second of them, in one process, then each of the others.
func (s *tests) try(number, recorded int) outcome {
	var batches [][]*test
	spent, open := map[string]time.Duration{}, map[string]int{}
	for _, t := range s.all {
		if !t.asks[recorded] {
			continue
		}
		key := t.together()
		if spent[key] += t.took; open[key] == 0 || spent[key] > time.Second {
			batches = append(batches, nil)
			open[key] = len(batches)
		}
		batches[open[key]-1] = append(batches[open[key]-1], t)
	}
	if len(batches) == 0 {
		return notCovered
	}
	for _, b := range batches {
		limit := 2 * time.Second
		for _, t := range b {
			limit += 5 * t.took
		}
		if o := run(number, limit, "", b...); o != lived {
			return o
		}
	}
	return lived
}

// together is the same of tests that one process may run: whole ones of a program, or
// the subtests of a test.
func (t *test) together() string {
	top, _, sub := strings.Cut(t.name, "/")
	if !sub {
		top = ""
	}
	return t.path + " " + top
}

// run runs tests that go together with a mutant.
func run(number int, limit time.Duration, asked string, together ...*test) outcome {
	ctx, cancel := context.WithTimeout(context.Background(), limit)
	defer cancel()
	c := together[0].command(number, ctx, together...)
	c.Env = append(c.Env, "MUTANT_ASKED="+asked)
	switch err := c.Run(); {
	case ctx.Err() != nil:
		return timedOut
	case errors.As(err, new(*exec.ExitError)):
		return killed
	case err != nil:
		panic(err) // not the mutant's doing
	}
	return lived
}

func (p *program) command(number int, ctx context.Context, together ...*test) *exec.Cmd {
	var names []string
	above := ""
	for _, t := range together {
		name := t.name
		if top, sub, found := strings.Cut(name, "/"); found {
			above, name = "^"+regexp.QuoteMeta(top)+"$/", sub
		}
		names = append(names, regexp.QuoteMeta(name))
	}
	c := exec.CommandContext(ctx, p.path, "-test.short", "-test.failfast", "-test.paniconexit0", "-test.run", above+"^("+strings.Join(names, "|")+")$")
	c.Dir = p.dir
	c.Env = append(os.Environ(), fmt.Sprintf("MUTANT=%d", number), "TMPDIR="+p.scratch)
	return c
}
