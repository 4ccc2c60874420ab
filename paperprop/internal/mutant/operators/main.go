// Command operators changes one operator of a package at a time, and runs the tests
// that evaluate it, in the package and in others named to it, to see whether one
// fails. All changes are built into one program for each package of tests; see
// .ci/release/mutation.
//
//	operators [-list] [-known FILE] [-wanted PERCENT] [-with PACKAGE] [-every N [-from N]] [-in NAME] PACKAGE
package main

import (
	"flag"
	"fmt"
	"io"
	"maps"
	"os"
	"os/exec"
	"path/filepath"
	"slices"
	"strings"
	"time"
)

// A job holds the arguments of the command.
type job struct {
	name   string   // name of the package
	with   []string // packages whose tests count too
	known  string
	wanted float64
	every  int
	from   int
	in     string
	list   bool
}

func main() {
	var j job
	flag.BoolVar(&j.list, "list", false, "list the mutants, and run none")
	flag.StringVar(&j.known, "known", "", "a `file` that says of mutants why they live")
	flag.Float64Var(&j.wanted, "wanted", 0, "the share of mutants that must be noticed, in `percent`")
	flag.IntVar(&j.every, "every", 1, "try only each `n`-th mutant")
	flag.IntVar(&j.from, "from", 0, "begin with the mutant of this `number`, the first is 0: parts that together are all")
	flag.StringVar(&j.in, "in", "", "try only those of files with this in their `name`")
	flag.Func("with", "a `package` whose tests count too; may be given again", func(name string) error {
		j.with = append(j.with, name)
		return nil
	})
	flag.Parse()
	if flag.NArg() != 1 || j.every < 1 || j.from < 0 {
		flag.Usage()
		os.Exit(2)
	}
	j.name = flag.Arg(0)
	enough, err := j.mutate(os.Stdout)
	if err != nil {
		fmt.Fprintln(os.Stderr, "operators:", err)
		os.Exit(2)
	}
	if !enough {
		os.Exit(1)
	}
}

// mutate tries the mutants of a package and reports those that no test notices.
func (j *job) mutate(out io.Writer) (enough bool, err error) {
	start := time.Now()
	folder, err := os.MkdirTemp("", "operators")
	if err != nil {
		return false, err
	}
	defer os.RemoveAll(folder)
	reasons, err := readReasons(j.known, j.name)
	if err != nil {
		return false, err
	}
	w, err := rewrite(folder, j.name, j.with)
	if err != nil {
		return false, err
	}
	if j.list {
		for _, m := range slices.Concat(w.mutants, w.fixed) {
			fmt.Fprintln(out, m.line("listed"))
		}
		return true, nil
	}
	all, noticed, err := j.programs(w, folder)
	if err != nil {
		return false, err
	}
	fmt.Fprintf(out, "%d mutants, %d tests\n", len(w.mutants), len(all.all))
	for _, test := range all.broken {
		fmt.Fprintf(out, "without a mutant, failing and so left out: %s\n", test)
	}
	for _, test := range all.long {
		fmt.Fprintf(out, "of another package, long and so left out: %s\n", test)
	}
	count, explained := j.tryEach(out, w.mutants, noticed, &all, reasons)
	for _, m := range w.fixed {
		fmt.Fprintln(out, m.line("not switched"))
	}
	for _, key := range slices.Sorted(maps.Keys(reasons)) {
		if !reasons[key].used && j.every == 1 && strings.Contains(key, j.in) {
			fmt.Fprintf(out, "known to live, but noticed or gone:\t%s\n", key)
		}
	}
	share := 100 * float64(count[killed]) / float64(count[killed]+count[lived])
	fmt.Fprintf(out, "%d killed, %d lived (%d known), %d timed out, %d not covered, %d not switched: %.2f %% noticed, in %.0f s\n",
		count[killed], count[lived], explained, count[timedOut], count[notCovered], len(w.fixed), share, time.Since(start).Seconds())
	return share >= j.wanted, nil
}

// tryEach tries the mutants that the checks have not noticed, and reports those that no
// test notices either. It returns what became of all, and how many of those that live
// are known to.
func (j *job) tryEach(out io.Writer, mutants []mutant, noticed []outcome, all *tests, reasons map[string]*reason) (count map[outcome]int, explained int) {
	count = map[outcome]int{}
	for i, m := range mutants {
		if !j.tries(i, m) {
			continue
		}
		o := noticed[i]
		if o != killed {
			if again := all.try(i+1, m.recorded); again != notCovered || o == "" {
				o = again
			}
		}
		count[o]++
		if o == killed {
			continue
		}
		line := m.line(o)
		if reason := reasons[m.key()]; reason != nil {
			line += "\tknown: " + reason.text
			reason.used = true
			if o == lived {
				explained++
			}
		}
		fmt.Fprintln(out, line)
	}
	return count, explained
}

// tries reports whether the i-th mutant is one of those asked for.
func (j *job) tries(i int, m mutant) bool {
	return i >= j.from && (i-j.from)%j.every == 0 && strings.Contains(m.file, j.in)
}

// programs builds the test programs, records what they evaluate and, if the catalogue
// is one of them, finds which mutants its checks notice.
func (j *job) programs(w *rewriter, folder string) (all tests, noticed []outcome, err error) {
	noticed = make([]outcome, len(w.mutants))
	for i, dir := range w.dirs {
		p := &program{path: filepath.Join(folder, fmt.Sprintf("test%d", i)), dir: dir, scratch: folder}
		build := exec.Command("go", "test", "-vet", "off", "-overlay", w.overlay, "-c", "-o", p.path, dir)
		if told, err := build.CombinedOutput(); err != nil {
			return all, nil, fmt.Errorf("%w\n%s", err, told)
		}
		names, err := p.names()
		if err != nil {
			return all, nil, err
		}
		if slices.Contains(names, noticing) {
			if noticed, err = p.notice(w.mutants, j.tries); err != nil {
				return all, nil, err
			}
		}
		if err := all.record(p, names, i > 0); err != nil {
			return all, nil, err
		}
	}
	return all, noticed, nil
}

// line returns the line of a mutant in the report.
func (m mutant) line(o outcome) string {
	return fmt.Sprintf("%s:%d\t%s\t%s\t%s\tcolumn %d: %v to %v", m.file, m.at.Line, m.kind, m.code, o, m.at.Column, m.from, m.to)
}

// key returns how the list of known mutants names a mutant: its lines have no numbers.
func (m mutant) key() string { return m.file + "\t" + m.kind + "\t" + m.code }

// A reason explains why a known mutant lives.
type reason struct {
	text string
	used bool
}

// readReasons reads from a table what it says of the mutants in a package: file, kind,
// line of code, reason.
func readReasons(path, name string) (map[string]*reason, error) {
	reasons := map[string]*reason{}
	if path == "" {
		return reasons, nil
	}
	text, err := os.ReadFile(path)
	for line := range strings.Lines(string(text)) {
		if i := strings.LastIndexByte(line, '\t'); i > 0 && filepath.Dir(line[:strings.IndexByte(line, '\t')]) == name {
			reasons[line[:i]] = &reason{text: strings.TrimSpace(line[i:])}
		}
	}
	return reasons, err
}
