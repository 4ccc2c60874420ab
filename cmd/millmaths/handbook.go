package main

import (
	"bytes"
	"context"
	_ "embed"
	"errors"
	"fmt"
	"io"
	"io/fs"
	"path/filepath"
	"slices"
	"strings"

	"millmaths.example/paperprop/calc"
	"millmaths.example/paperprop/catalogue"
	"millmaths.example/testdata/checks"
)

//go:embed handbook/style.css
var styleSheet string

// handbookMark is at the beginning of every file of a handbook, in a comment of its
// language. It identifies a folder as a handbook, and a file as one that may be
// overwritten.
const handbookMark = "written by millmaths handbook"

const handbookHelp = `A static reference of all calculations: plain HTML and CSS, to read without a
network or to print

  millmaths handbook DIR

DIR is a folder that does not exist or is empty, or one that an earlier call has
written: its pages are written anew, pages of calculations that are gone are
removed, and nobody else's file is written over or removed. Worked examples are
computed and all check rows are run on writing.

Options
  --checks FILE   a check table of one's own, shown beside those that the
                  program carries; may be given several times
  --help          this page
`

// handbookCommand writes the handbook. It knows no calculation by name.
func handbookCommand(ctx context.Context, args []string, t *terminal) error {
	flags := newFlags("handbook")
	tables := flags.StringArray("checks", nil, "")
	help := flags.BoolP("help", "h", false, "")
	if err := parseFlags(flags, args); err != nil {
		return err
	}
	if *help {
		fmt.Fprint(t.out, handbookHelp)
		return nil
	}
	if flags.NArg() != 1 {
		return usageError{errors.New("handbook takes one folder to write to: millmaths handbook DIR")}
	}
	dir := flags.Arg(0)
	old, others, err := t.handbookFiles(dir)
	if err != nil {
		return err
	}
	b, err := newHandbook(ctx, *tables, t)
	if err != nil {
		return err
	}
	files, err := b.files(ctx)
	if err != nil {
		return err
	}
	for _, f := range files {
		if slices.Contains(others, f.name) {
			return fmt.Errorf("%s is there and is not of a handbook: move it away, or write to another folder", shown(filepath.Join(dir, f.name)))
		}
	}
	if err := t.writeHandbook(ctx, dir, files, old); err != nil {
		return err
	}
	size := 0
	for _, f := range files {
		size += len(f.data)
	}
	fmt.Fprintf(t.out, "%s: %d pages, %.1f MB; %d check rows, %d failed\n",
		filepath.Join(dir, "index.html"), len(files)-1, float64(size)/1e6, b.rows, b.failed)
	if b.failed > 0 {
		return errReported
	}
	return nil
}

// A handbookFile is one file to write.
type handbookFile struct {
	name string
	data []byte
}

// handbookFiles lists the files of an earlier handbook in a folder, and the others
// in it. A folder that holds only others is refused.
func (t *terminal) handbookFiles(dir string) (ours, others []string, err error) {
	entries, err := t.disk.readDir(dir)
	if errors.Is(err, fs.ErrNotExist) {
		return nil, nil, nil
	}
	if err != nil {
		return nil, nil, err
	}
	for _, e := range entries {
		if strings.HasPrefix(e.Name(), ".") { // from version control, or a torn write
			continue
		}
		marked := false
		if e.Type().IsRegular() {
			if marked, err = t.hasMark(filepath.Join(dir, e.Name())); err != nil {
				return nil, nil, err
			}
		}
		if marked {
			ours = append(ours, e.Name())
		} else {
			others = append(others, e.Name())
		}
	}
	if len(others) > 0 && len(ours) == 0 {
		return nil, nil, fmt.Errorf("%s holds no handbook, but %s: want a folder that is new or empty, or an earlier handbook", shown(dir), shown(others[0]))
	}
	return ours, others, nil
}

// hasMark reports whether a file begins as those of a handbook do. A file that may
// not be read does not.
func (t *terminal) hasMark(name string) (bool, error) {
	f, err := t.open(name)
	if errors.Is(err, fs.ErrPermission) {
		return false, nil
	}
	if err != nil {
		return false, err
	}
	defer f.Close()
	head, err := io.ReadAll(io.LimitReader(f, 256))
	if err != nil {
		return false, fmt.Errorf("%s: %w", shown(name), err)
	}
	return bytes.Contains(head, []byte(handbookMark)), nil
}

// writeHandbook writes the files, and removes those of an earlier handbook that
// are not written again.
func (t *terminal) writeHandbook(ctx context.Context, dir string, files []handbookFile, old []string) error {
	if err := t.disk.makeFolder(dir); err != nil {
		return err
	}
	for _, f := range files {
		if err := ctx.Err(); err != nil {
			return err
		}
		err := t.writeFile(filepath.Join(dir, f.name), func(out io.Writer) error {
			_, err := out.Write(f.data)
			return err
		})
		if err != nil {
			return err
		}
	}
	for _, name := range old {
		if !slices.ContainsFunc(files, func(f handbookFile) bool { return f.name == name }) {
			if err := t.disk.remove(filepath.Join(dir, name)); err != nil {
				return err
			}
		}
	}
	return nil
}

// A handbook is the data that all its pages are made from.
type handbook struct {
	groups       []catalogue.Group
	checks       map[string][]checkedRow // by calculation
	rows, failed int
}

// A checkedRow is a row of a check table that has been run.
type checkedRow struct {
	calc.Check
	failures []calc.Failure
}

// newHandbook runs the check rows built into the program, and those of the files.
func newHandbook(ctx context.Context, files []string, t *terminal) (*handbook, error) {
	b := &handbook{groups: catalogue.Groups(), checks: map[string][]checkedRow{}}
	names, err := fs.Glob(checks.Files, "*.csv")
	if err != nil {
		return nil, err
	}
	carried := func(name string) (io.ReadCloser, error) { return checks.Files.Open(name) }
	for _, name := range names {
		if err := b.readChecks(ctx, name, carried, carried); err != nil {
			return nil, err
		}
	}
	for _, name := range files {
		beside := func(other string) (io.ReadCloser, error) { return t.disk.openIn(filepath.Dir(name), other) }
		if err := b.readChecks(ctx, name, t.open, beside); err != nil {
			return nil, err
		}
	}
	return b, nil
}

// readChecks reads and runs a table; beside opens the files of numbers next to it.
func (b *handbook) readChecks(ctx context.Context, name string, open, beside func(string) (io.ReadCloser, error)) error {
	f, err := open(name)
	if err != nil {
		return err
	}
	defer f.Close()
	rows, err := calc.ReadChecks(shown(name), f)
	if err != nil {
		return err
	}
	for _, c := range rows {
		if err := ctx.Err(); err != nil {
			return err
		}
		if _, ok := catalogue.Find(c.Calculation); !ok {
			return fmt.Errorf("%s:%d: %w", c.File, c.Line, unknown("calculation", c.Calculation, catalogue.Names()))
		}
		c.Open = beside
		row := checkedRow{c, c.Run(catalogue.Find)}
		if b.rows++; len(row.failures) > 0 {
			b.failed++
		}
		b.checks[c.Calculation] = append(b.checks[c.Calculation], row)
	}
	return nil
}

// files makes all pages, in a fixed order.
func (b *handbook) files(ctx context.Context) ([]handbookFile, error) {
	files := []handbookFile{{"style.css", []byte("/* " + handbookMark + " " + calc.Version + " */\n" + styleSheet)}}
	add := func(name, title, answers string, main markup) {
		files = append(files, handbookFile{name, handbookPage(title, answers, main)})
	}
	add("index.html", "Handbook", "Calculations for pulp, paper and board mills", b.rooms())
	add("questions.html", "Questions", "The calculations by the question that they answer", b.questions())
	add("standards.html", "Standards", "The calculations by the standards that they name", b.standards())
	for _, g := range b.groups {
		for i, c := range g.Calculations {
			if err := ctx.Err(); err != nil {
				return nil, err
			}
			p := pageOf{c: c, info: c.Info(), room: g, checks: b.checks[c.ID()]}
			main, err := p.main()
			if err != nil {
				return nil, fmt.Errorf("%s: %w", c.ID(), err)
			}
			add(c.ID()+".html", p.info.Title, p.info.Answers, join(main, neighbours(g, i)))
		}
	}
	return files, nil
}

// handbookPage wraps the main part of a page in what all pages share.
func handbookPage(title, description string, main markup) []byte {
	head := join(
		`<meta charset="utf-8"/>`+"\n",
		`<meta name="viewport" content="width=device-width, initial-scale=1"/>`+"\n",
		ownLine("title", text(title+" - millmaths handbook")),
		markup("<meta name=\"description\""+attribute("content", description)+"/>\n"),
		`<link rel="stylesheet" href="style.css"/>`+"\n",
	)
	body := join(
		ownLine(`a class="skip" href="#main"`, "To the text"),
		ownLine("header", element(`p class="mark"`, link("index.html", "millmaths handbook")),
			element(`nav aria-label="Indexes"`, link("index.html", "Rooms"), " ", link("questions.html", "Questions"), " ", link("standards.html", "Standards"))),
		ownLine(`main id="main"`, "\n", main),
		ownLine("footer", element("p", text("Written by millmaths "+calc.Version+". Results that bear on people's safety carry a caution; none of them "+
			"replaces local codes, the safety data sheet or licensed practice. Figures of the examples are invented."))),
	)
	return []byte(join("<!DOCTYPE html>\n<!-- ", handbookMark, " ", calc.Version, " -->\n",
		ownLine(`html lang="en-GB"`, "\n", ownLine("head", "\n", head), ownLine("body", "\n", body))))
}

// neighbours links to the calculations before and after one in its room.
func neighbours(g catalogue.Group, i int) markup {
	var around []markup
	if i > 0 {
		before := g.Calculations[i-1].Info()
		around = append(around, element("span", "Before: ", link(before.Name+".html", text(before.Title))))
	}
	if i < len(g.Calculations)-1 {
		after := g.Calculations[i+1].Info()
		around = append(around, element("span", "Next: ", link(after.Name+".html", text(after.Title))))
	}
	return ownLine(`nav class="around" aria-label="Neighbours"`, around...)
}
