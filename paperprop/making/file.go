package making

import (
	"cmp"
	"errors"
	"fmt"
	"io"
	"maps"
	"os"
	"path/filepath"
	"slices"
	"strconv"
	"strings"
	"time"

	"millmaths.example/paperprop"
	"millmaths.example/paperprop/calc"
	"millmaths.example/paperprop/internal/strict"
	"millmaths.example/paperprop/table"
	"millmaths.example/paperprop/trim"
	"millmaths.example/stock/line"
)

// A Setting changes a value of a file: "uptime" or "jumbo.diameter" of the book,
// "line.headbox.consistency" of the line of every grade, or "Whin 105.size.speed"
// of the line of one grade, which overrides the former.
type Setting struct{ Name, Text string }

// An Opener opens the files that a book names, by names joined to its folder. A nil
// Opener opens none.
type Opener func(name string) (io.ReadCloser, error)

func (open Opener) file(name string) (io.ReadCloser, error) {
	if open == nil {
		return nil, fmt.Errorf("%s is named by the book, and there is no Opener to open it", name)
	}
	return open(name)
}

// ReadFile reads an order book, with its lines and its order list, whose names are
// relative to its folder. Orders of the list that can't be read are in [Book.Bad];
// anything else that is wrong is an error.
func ReadFile(name string, o table.Options, set ...Setting) (*Book, error) {
	f, err := os.Open(name)
	if err != nil {
		return nil, err
	}
	defer f.Close()
	return Read(name, f, func(other string) (io.ReadCloser, error) { return os.Open(other) }, o, set...)
}

// beside returns the name of a file that another file names.
func beside(name, other string) string {
	if filepath.IsAbs(other) {
		return other
	}
	return filepath.Join(filepath.Dir(name), other)
}

// The contents of a book, by the names in its file.
type bookText struct {
	Name     string              `toml:"name" about:"of the book"`
	Start    any                 `toml:"start" about:"when the machine is free, by the clock of the mill: 2026-11-30T06:00:00" needed:"yes"` // a TOML date, or a text
	Line     string              `toml:"line" about:"file of the line of all grades that name no other"`
	Orders   string              `toml:"orders" about:"file of the order list; or [[order]] for each"`
	Columns  map[string]string   `toml:"columns" about:"INPUT = \"HEAD\": where an input comes from, if its head in the list has another name"`
	Sequence []string            `toml:"sequence" about:"names of the grades in the order to run; if left out, the one with the fewest late orders"`
	Running  string              `toml:"running" about:"the grade on the machine at the start"`
	Uptime   *paperprop.Fraction `toml:"uptime" about:"share of time with the sheet on the reel; if left out, running under [mill] of the line"`
	Handling paperprop.Duration  `toml:"handling" about:"from the jumbo to the lorry"`
	Yard     *paperprop.Mass     `toml:"yard" about:"recovered paper in the yard, moist"`
	Broke    string              `toml:"broke" about:"what the winder's broke in the line is: beside trim, which comes on top, or trim included; if left out, beside trim"`
	Limit    string              `toml:"limit" about:"for the whole search for sets, such as 20s; the best by then is kept"`
	Machine  struct {
		Deckle paperprop.Length `toml:"deckle" about:"width that is slit" needed:"yes"`
		Edge   paperprop.Length `toml:"edge" about:"cut away on each side, at least"`
		trim.Slitter
	} `toml:"machine" about:"what sets are cut on, with the limits of the slitter"`
	Jumbo struct {
		Diameter paperprop.Length `toml:"diameter" about:"wound full" needed:"yes"`
		Spool    paperprop.Length `toml:"spool" about:"its diameter"`
		Lost     paperprop.Length `toml:"lost" about:"length of paper lost of each, outside, inside and in threading"`
		Rest     string           `toml:"rest" about:"what stays on the spool: broke, or not wound; if left out, broke"`
	} `toml:"jumbo" about:"a reel as the machine winds it"`
	Change struct {
		Time paperprop.Duration `toml:"time" about:"from one grade to the next"`
		Loss paperprop.Mass     `toml:"loss" about:"unsaleable paper made in it"`
	} `toml:"change" about:"of grade"`
	Grades []gradeText `toml:"grade" about:"what is sold under a name; repeated for each"`
	List   []orderText `toml:"order" about:"an order, where there is no list; repeated for each"`
	trim.TermsText

	set []calc.Pair // of the line of every grade
}

type gradeText struct {
	Name           string              `toml:"name" about:"by which orders refer to it" needed:"yes"`
	JumboThickness paperprop.Length    `toml:"jumbo-thickness" about:"of a layer in the jumbo; if left out, as in the reel"`
	Uptime         *paperprop.Fraction `toml:"uptime" about:"of this grade"`
	Line           string              `toml:"line" about:"file of its line"`
	Figures        map[string]any      `toml:"figures" about:"FIGURE = \"VALUE\": what differs in its line, as size.speed or headbox.consistency"`
	trim.TermsText

	set []calc.Pair // of its line
}

// Tables returns the keys that an order book may use, table by table.
func Tables() []calc.FileTable { return strict.Tables(bookText{}) }

type orderText struct {
	Customer string `toml:"customer" about:"who ordered"`
	Due      any    `toml:"due" about:"by when: 2026-12-02 or 2026-12-02 14:00"`
	trim.OrderText
}

// Read reads an order book, and uses open for the files that it names.
func Read(name string, in io.Reader, open Opener, o table.Options, set ...Setting) (*Book, error) {
	var text bookText
	source, err := strict.Decode(name, in, &text)
	if err != nil {
		return nil, err
	}
	for _, s := range set {
		if err := text.change(s); err != nil {
			return nil, err
		}
		source.Change(s.Name, s.Text)
	}
	if err := cmp.Or(source.Needs("grade", "name", "that by which orders refer to it"), source.Needs("order", "width", "a length such as 1000 mm")); err != nil {
		return nil, source.Placed(err)
	}
	b, err := text.book(name, open, o)
	if err != nil {
		var list *listError
		if errors.As(err, &list) {
			return nil, list.error
		}
		return nil, source.Placed(err)
	}
	b.source = source
	return b, nil
}

// ofGrade adds the name of a grade to an error. Where it is about no key of the book, it
// is about that grade's table.
func (b *Book) ofGrade(g *Grade, err error) error {
	err = fmt.Errorf("%s: %w", g.Name, err)
	var f *strict.Fault
	if errors.As(err, &f) {
		return err
	}
	i := slices.IndexFunc(b.Grades, func(of Grade) bool { return of.Name == g.Name })
	return &strict.Fault{Key: strict.Member("grade", i), Err: err}
}

// placed adds the file to an error about the book, and the line of its key where there
// is one. A trim job has other keys than the book that it is made from.
func (b *Book) placed(err error) error {
	switch {
	case b.File == "":
		return err
	case b.source == nil:
		return fmt.Errorf("%s: %w", b.File, err)
	}
	var f *strict.Fault
	if errors.As(err, &f) {
		keys := strings.NewReplacer("slitter.", "machine.", "deckle[1].width", "machine.deckle", "deckle[1].edge", "machine.edge")
		err = &strict.Fault{Key: keys.Replace(f.Key), Err: err}
	}
	return b.source.Placed(err)
}

// A listError is an error that already names a file.
type listError struct{ error }

// settable reports whether a name can be a key: words in small letters, separated
// by hyphens and full stops.
func settable(name string) bool {
	for _, word := range strings.Split(strings.ReplaceAll(name, ".", "-"), "-") {
		if word == "" || strings.ContainsFunc(word, func(c rune) bool { return c < 'a' || c > 'z' }) {
			return false
		}
	}
	return true
}

// change changes a value of the book before anything is made from it.
func (x *bookText) change(s Setting) error {
	for i := range x.Grades {
		figure, one := strings.CutPrefix(s.Name, x.Grades[i].Name+".")
		if !one {
			continue
		}
		x.Grades[i].set = append(x.Grades[i].set, calc.Pair{Name: figure, Text: s.Text})
		return nil
	}
	if figure, all := strings.CutPrefix(s.Name, "line."); all {
		x.set = append(x.set, calc.Pair{Name: figure, Text: s.Text})
		return nil
	}
	if !settable(s.Name) {
		return s.unknown(fmt.Errorf("%s: no figure of the book, want one such as uptime, jumbo.diameter, line.FIGURE or GRADE.FIGURE", s.Name))
	}
	if isList(s.Text) {
		return x.decode(s, s.Text)
	}
	err := x.decode(s, strconv.Quote(s.Text))
	if _, notWhole := strconv.Atoi(s.Text); err != nil && notWhole == nil && x.decode(s, s.Text) == nil {
		return nil
	}
	return err
}

// decode reads a setting as a line of the book, with a value as TOML has it.
func (x *bookText) decode(s Setting, value string) error {
	_, err := strict.Decode(fmt.Sprintf("%s=%q", s.Name, s.Text), strings.NewReader(s.Name+" = "+value), x)
	if unknown := (*strict.UnknownError)(nil); errors.As(err, &unknown) {
		return s.unknown(err)
	}
	return err
}

// unknown returns the error of a setting that names nothing in the book.
func (s Setting) unknown(err error) error {
	return &nameError{err, calc.NameError{Calculation: "book", Name: s.Name}}
}

// A nameError is an error that errors.As takes for a [calc.NameError] too.
type nameError struct {
	error
	name calc.NameError
}

func (e *nameError) Unwrap() error { return &e.name }

// isList reports whether a text is a list as a file has it, such as ["A", "B"], in one
// line, since a second line could set something else.
func isList(text string) bool {
	return strings.HasPrefix(text, "[") && strings.HasSuffix(text, "]") && !strings.Contains(text, "\n")
}

// told returns the figures by name, with tables separated by full stops.
func (g *gradeText) told() []calc.Pair {
	var list []calc.Pair
	var walk func(prefix string, table map[string]any)
	walk = func(prefix string, table map[string]any) {
		for key, value := range table {
			if inner, ok := value.(map[string]any); ok {
				walk(prefix+key+".", inner)
				continue
			}
			list = append(list, calc.Pair{Name: prefix + key, Text: fmt.Sprint(value)})
		}
	}
	walk("", g.Figures)
	slices.SortFunc(list, func(a, b calc.Pair) int { return cmp.Or(cmp.Compare(a.Name, b.Name), cmp.Compare(a.Text, b.Text)) })
	return list
}

func (x *bookText) book(name string, open Opener, o table.Options) (*Book, error) {
	b := &Book{
		Name: x.Name, File: name, Sequence: x.Sequence, Running: x.Running, Handling: x.Handling,
		Machine: Machine{x.Machine.Deckle, x.Machine.Edge, x.Machine.Slitter},
		Jumbo:   Jumbo{Diameter: x.Jumbo.Diameter, Spool: x.Jumbo.Spool, Lost: x.Jumbo.Lost},
		Change:  Change(x.Change),
	}
	if x.Orders != "" {
		b.List = beside(name, x.Orders)
	}
	var err error
	if x.Yard != nil {
		if b.Yard = *x.Yard; b.Yard == 0 {
			return nil, strict.Refuse("yard", "yard is 0 t: there is nothing to make paper of, want above 0 t")
		}
	}
	if x.Start != nil {
		if b.Start, err = moment(fmt.Sprint(x.Start)); err != nil {
			return nil, strict.Refuse("start", "start is %q: %w, want %s", fmt.Sprint(x.Start), err, wantDate)
		}
	}
	if b.Jumbo.Turned, err = choice("jumbo.rest", x.Jumbo.Rest, "broke", "not wound"); err != nil {
		return nil, err
	}
	included, err := choice("broke", x.Broke, "beside trim", "trim included")
	if err != nil {
		return nil, err
	}
	if included {
		b.Broke = TrimIncluded
	}
	if x.Limit != "" {
		if b.Limit, err = time.ParseDuration(x.Limit); err != nil || b.Limit <= 0 {
			return nil, strict.Refuse("limit", "limit is %q, want a time such as 20s", x.Limit)
		}
	}
	if (len(x.List) > 0) == (x.Orders != "") {
		return nil, strict.Refuse("orders", "want either orders = %q or [[order]]", cmp.Or(x.Orders, "FILE"))
	}
	terms, err := x.grades(b, open)
	if err != nil {
		return nil, err
	}
	if x.Orders != "" {
		return b, x.list(b, terms, open, o)
	}
	return b, x.orders(b, terms)
}

// choice reads one of two words under a key. The first is the default.
func choice(key, word, first, second string) (isSecond bool, err error) {
	switch word {
	case "", first:
		return false, nil
	case second:
		return true, nil
	}
	return false, strict.Refuse(key, "%s is %q, want %q or %q", key, word, first, second)
}

// grades reads the grades, each with its line, and returns the terms of their
// orders.
func (x *bookText) grades(b *Book, open Opener) (map[string]trim.Terms, error) {
	lines := map[string]*line.Line{}
	terms := map[string]trim.Terms{}
	for i := range x.Grades {
		g, key := &x.Grades[i], strict.Member("grade", i)
		file := g.Line
		if file == "" {
			file = x.Line
		}
		if file == "" {
			return nil, strict.Refuse(key, "grade %q: line missing, want the file of its line, or line = \"FILE\" for all grades", g.Name)
		}
		file = beside(b.File, file)
		if lines[file] == nil {
			l, err := readLine(file, open)
			if err != nil {
				return nil, &listError{err}
			}
			lines[file] = l
		}
		t := g.Over(x.Over(trim.Terms{}))
		grade := Grade{
			Name: g.Name, Grammage: t.Grammage, ReelThickness: t.ReelThickness,
			JumboThickness: g.JumboThickness, Line: lines[file],
		}
		for _, told := range []struct {
			key    string
			uptime *paperprop.Fraction
		}{{"uptime", x.Uptime}, {key + ".uptime", g.Uptime}} {
			if told.uptime == nil {
				continue
			}
			switch grade.Uptime = *told.uptime; {
			case grade.Uptime == 0:
				return nil, strict.Refuse(told.key, "grade %q: uptime is 0 %%, want above it: the machine makes nothing", g.Name)
			case grade.Uptime > 1:
				return nil, strict.Refuse(told.key, "grade %q: uptime is %v, want above 0 %% to 100 %%", g.Name, grade.Uptime)
			}
		}
		if density := t.RollDensity.In(paperprop.KilogramPerCubicMetre); density > 0 && t.ReelThickness == 0 {
			grade.ReelThickness = paperprop.Length(t.Grammage.In(paperprop.GramPerSquareMetre)/density) * paperprop.Millimetre
		}
		// The more specific setting wins. A size replaces any size given before it,
		// under whatever name.
		for n, figures := range [][]calc.Pair{g.told(), x.set, g.set} {
			l, err := grade.Line.WithAll(figures)
			switch {
			case err != nil && n == 0:
				return nil, strict.Refuse(key+".figures", "grade %q: %w", g.Name, ofFile(err))
			case err != nil: // of a setting
				return nil, fmt.Errorf("grade %q: %w", g.Name, err)
			}
			grade.Line = l
		}
		b.Grades = append(b.Grades, grade)
		terms[g.Name] = t
	}
	return terms, nil
}

// ofFile makes an unknown name a fault of the file, and not of who asked for it.
func ofFile(err error) error {
	if unknown := (*calc.NameError)(nil); errors.As(err, &unknown) {
		return errors.New(err.Error())
	}
	return err
}

func readLine(file string, open Opener) (*line.Line, error) {
	f, err := open.file(file)
	if err != nil {
		return nil, err
	}
	defer f.Close()
	return line.Read(file, f)
}

// orders reads the orders in the book itself.
func (x *bookText) orders(b *Book, terms map[string]trim.Terms) error {
	for i, o := range x.List {
		name, key := o.Name, strict.Member("order", i)
		if name == "" {
			name = fmt.Sprintf("order %d", i+1)
		}
		t, ok := terms[o.Grade]
		if !ok {
			return strict.Refuse(key+".grade", "%s: grade %q is not one of the book%s", name, o.Grade, near(o.Grade, slices.Sorted(maps.Keys(terms))))
		}
		r, err := o.Request(t)
		if err != nil {
			return strict.Refuse(key, "%s: %w", name, err)
		}
		r.Name = name
		order := Order{Request: r, Customer: o.Customer}
		if o.Due != nil {
			if order.Due, err = due(fmt.Sprint(o.Due)); err != nil {
				return strict.Refuse(key+".due", "%s: due is %q: %w, want %s", name, fmt.Sprint(o.Due), err, wantDate)
			}
		}
		b.Orders = append(b.Orders, order)
	}
	return nil
}

func near(name string, names []string) string {
	if near := calc.Nearest(name, names); len(near) > 0 {
		return ", near: " + strings.Join(near, ", ")
	}
	return ", want one of " + strings.Join(names, ", ")
}

// list reads the order list that the book names.
func (x *bookText) list(b *Book, terms map[string]trim.Terms, open Opener, o table.Options) error {
	f, err := open.file(b.List)
	if err != nil {
		return &listError{err}
	}
	defer f.Close()
	o.Name = b.List
	for input := range x.Columns {
		if known := append(trim.Inputs(), "customer", "due"); !slices.Contains(known, input) {
			return strict.Refuse("columns."+input, "columns: unknown name %q%s", input, near(input, known))
		}
	}
	list, err := trim.List{Table: o, Columns: x.Columns, Naming: `columns.INPUT = "HEAD" in the book`, Terms: x.Over(trim.Terms{}), Grades: terms, Also: []string{"customer", "due"}}.Read(f)
	if err != nil {
		return &listError{err}
	}
	b.Bad, b.Notes, b.Footer = list.Bad, list.Notes, list.Footer
	for i, r := range list.Requests {
		order := Order{Request: r, Customer: list.Also[i][0].Text}
		if order.Name == "" {
			order.Name = fmt.Sprintf("line %d", r.Line)
		}
		if c := list.Also[i][1]; c.Text != "" {
			if order.Due, err = due(c.Text); err != nil {
				b.Bad = append(b.Bad, &table.CellError{
					File: b.List, Line: r.Line, Column: c.Column, Head: "due", Text: c.Text, Reason: err.Error(), Accepted: wantDate,
				})
				continue
			}
		}
		b.Orders = append(b.Orders, order)
	}
	return nil
}
