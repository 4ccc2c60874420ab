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

// A program is the test program of a package, built from its copy.
type program struct {
	path, dir, scratch string
	tests              []*test
	broken             []string // tests that fail though no mutant is active
}

// A test is one that runs without a flag: a Test, the seeds of a Fuzz, an Example.
type test struct {
	name string
	took time.Duration
	asks map[int]bool // the operators that it evaluates, by the first number
}

type outcome string

const (
	killed     outcome = "killed"
	lived      outcome = "lived"
	timedOut   outcome = "timed out"
	notCovered outcome = "not covered"
)

// record runs each test by itself, to see its time and what it evaluates.
func (p *program) record() error {
	list := exec.Command(p.path, "-test.list", "^(Test|Fuzz|Example)")
	list.Dir = p.dir
	out, err := list.Output()
	if err != nil {
		return err
	}
	asked := filepath.Join(p.scratch, "asked")
	for _, name := range strings.Fields(string(out)) {
		t := &test{name: name, asks: map[int]bool{}}
		start := time.Now()
		if p.run(0, 10*time.Minute, asked, t) != lived {
			p.broken = append(p.broken, name)
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
		p.tests = append(p.tests, t)
	}
	slices.SortStableFunc(p.tests, func(a, b *test) int { return int(a.took - b.took) })
	return nil
}

// try runs the tests that evaluate the operator of a mutant until one fails: the
// quick ones, up to a second of them, in one process, then each of the others.
func (p *program) try(number, recorded int) outcome {
	var batches [][]*test
	var quick time.Duration
	for _, t := range p.tests {
		if !t.asks[recorded] {
			continue
		}
		quick += t.took
		if len(batches) == 0 || quick > time.Second {
			batches = append(batches, nil)
		}
		last := len(batches) - 1
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
		if o := p.run(number, limit, "", b...); o != lived {
			return o
		}
	}
	return lived
}

// run runs tests with a mutant.
func (p *program) run(number int, limit time.Duration, asked string, tests ...*test) outcome {
	var names []string
	for _, t := range tests {
		names = append(names, regexp.QuoteMeta(t.name))
	}
	ctx, cancel := context.WithTimeout(context.Background(), limit)
	defer cancel()
	c := exec.CommandContext(ctx, p.path, "-test.short", "-test.failfast", "-test.paniconexit0", "-test.run", "^("+strings.Join(names, "|")+")$")
	c.Dir = p.dir
	c.Env = append(os.Environ(), fmt.Sprintf("MUTANT=%d", number), "MUTANT_ASKED="+asked, "TMPDIR="+p.scratch)
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
