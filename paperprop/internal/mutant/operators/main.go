// Command operators changes one operator of a package at a time, as gremlins does,
// and runs the tests of the package that evaluate it, to see whether one fails. All
// changes are built into one program; see .ci/release/mutation.
//
//	operators [-list] [-known FILE] [-wanted PERCENT] PACKAGE
package main

import (
	"flag"
	"fmt"
	"go/ast"
	"go/token"
	"os"
	"os/exec"
	"path/filepath"
	"strings"
	"time"

	switches "millmaths.example/paperprop/internal/mutant"
	"millmaths.example/paperprop/internal/mutant/copies"
	"millmaths.example/paperprop/internal/source"
)

func main() {
	list := flag.Bool("list", false, "list the mutants, and run none")
	known := flag.String("known", "", "a `file` that says of mutants why they live")
	wanted := flag.Float64("wanted", 0, "the share of mutants that must be noticed, in `percent`")
	flag.Parse()
	if flag.NArg() != 1 {
		flag.Usage()
		os.Exit(2)
	}
	share, err := mutate(flag.Arg(0), *known, *list)
	if err != nil {
		fmt.Fprintln(os.Stderr, "operators:", err)
		os.Exit(2)
	}
	if share < *wanted && !*list {
		os.Exit(1)
	}
}

// mutate tries the mutants of a package, and returns the share that is noticed of
// those that its tests evaluate.
func mutate(name, known string, list bool) (share float64, err error) {
	start := time.Now()
	folder, err := os.MkdirTemp("", "operators")
	if err != nil {
		return 0, err
	}
	defer os.RemoveAll(folder)
	reasons, err := readReasons(known)
	if err != nil {
		return 0, err
	}
	w := &rewriter{fset: token.NewFileSet()}
	packages, err := source.Load(w.fset, source.Module+"/"+name)
	if err != nil {
		return 0, err
	}
	if len(packages) != 1 {
		return 0, fmt.Errorf("%s is no package of the module", name)
	}
	overlay, err := w.write(folder, packages[0])
	if err != nil {
		return 0, err
	}
	if list {
		for _, m := range append(w.mutants, w.fixed...) {
			fmt.Println(m)
		}
		return 0, nil
	}
	p := &program{path: filepath.Join(folder, "test"), dir: packages[0].Dir, scratch: folder}
	build := exec.Command("go", "test", "-vet", "off", "-overlay", overlay, "-c", "-o", p.path, "./"+name)
	if out, err := build.CombinedOutput(); err != nil {
		return 0, fmt.Errorf("%w\n%s", err, out)
	}
	if err := p.record(); err != nil {
		return 0, err
	}
	fmt.Printf("%d mutants, %d tests\n", len(w.mutants), len(p.tests))
	for _, name := range p.broken {
		fmt.Printf("left out, as it fails without a mutant: %s\n", name)
	}
	for _, m := range w.fixed {
		fmt.Printf("not switched\t%v\n", m)
	}
	count := map[outcome]int{}
	for i, m := range w.mutants {
		o := p.try(i+1, m.recorded)
		count[o]++
		if o == killed {
			continue
		}
		told := fmt.Sprintf("%s\t%v", o, m)
		if reason := reasons[m.key()]; reason != "" && o == lived {
			count["known"]++
			told += "\tknown: " + reason
		}
		fmt.Println(told)
	}
	share = 100 * float64(count[killed]) / float64(count[killed]+count[lived])
	fmt.Printf("%d killed, %d lived (%d known), %d timed out, %d not covered, %d not switched: %.2f %% noticed, in %.0f s\n",
		count[killed], count[lived], count["known"], count[timedOut], count[notCovered], len(w.fixed), share, time.Since(start).Seconds())
	return share, nil
}

// String is the line of a report: place, kind and code, then column and change.
func (m mutant) String() string {
	return fmt.Sprintf("%s\t%s\t%s\tcolumn %d: %v to %v", m.place, m.kind, m.code, m.column, m.from, m.to)
}

// key is how a mutant is told in the list of known ones, where lines have no number.
func (m mutant) key() string {
	file, _, _ := strings.Cut(m.place, ":")
	return file + "\t" + m.kind + "\t" + m.code
}

// readReasons reads the list of known mutants: file, kind, line of code, reason.
func readReasons(path string) (map[string]string, error) {
	reasons := map[string]string{}
	if path == "" {
		return reasons, nil
	}
	text, err := os.ReadFile(path)
	for line := range strings.Lines(string(text)) {
		if i := strings.LastIndexByte(line, '\t'); i > 0 {
			reasons[line[:i]] = strings.TrimSpace(line[i:])
		}
	}
	return reasons, err
}

// write writes the copies of a package, and of a test file that tells at its end
// what was evaluated.
func (w *rewriter) write(folder string, p *source.Package) (overlay string, err error) {
	o, err := copies.New(folder, p)
	if err != nil {
		return "", err
	}
	for _, f := range p.Files {
		file, err := copies.Open(w.fset, p, f)
		if err != nil {
			return "", err
		}
		ast.Inspect(f, copying{file, w}.visit)
		if err := o.Add(file); err != nil {
			return "", err
		}
	}
	if len(w.mutants) > switches.Most {
		return "", fmt.Errorf("%d mutants, want at most %d", len(w.mutants), switches.Most)
	}
	tell := fmt.Sprintf(telling, p.Name(), source.Module)
	if err := o.AddText(filepath.Join(p.Dir, "mutant_telling_test.go"), "mutant_telling_test.go", tell); err != nil {
		return "", err
	}
	return o.Path(), o.Write()
}

const telling = `package %s

import (
	"os"
	"testing"

	"%s/internal/mutant"
)

func TestMain(m *testing.M) {
	code := m.Run()
	mutant.Tell()
	os.Exit(code)
}
`
