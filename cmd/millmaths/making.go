package main

import (
	"context"
	"errors"
	"fmt"
	"io"
	"slices"
	"strconv"
	"strings"
	"time"

	"github.com/spf13/pflag"

	"millmaths.example/paperprop"
	"millmaths.example/paperprop/calc"
	"millmaths.example/paperprop/calc/plain"
	"millmaths.example/paperprop/making"
)

// makingOptions holds the flags of making.
type makingOptions struct {
	set                    []string
	limit                  time.Duration
	sets, json, csv, quiet bool
	plot                   string
	ofList                 string // a flag that was given on how to read the order list
	table                  tableFlags
	help                   bool
}

func (o *makingOptions) flags() *pflag.FlagSet {
	flags := newFlags("making")
	flags.StringArrayVar(&o.set, "set", nil, `NAME="VALUE": another value for what the book tells (uptime, jumbo.diameter), for a figure of every line (line.FIGURE) or of one grade's (GRADE.FIGURE), which holds where both tell it; a list as in the book: sequence=["A", "B"]`)
	flags.DurationVar(&o.limit, "limit", 20*time.Second, "of the search for sets, in all, 20s if left out; then the best so far")
	flags.BoolVar(&o.sets, "sets", false, "the sets of each grade too")
	flags.BoolVar(&o.json, "json", false, "for programs")
	flags.BoolVar(&o.csv, "csv", false, "for tables: a result a line")
	flags.StringVar(&o.plot, "plot", "", "draw the plan over time: FILE.svg or FILE.png")
	o.table.add(flags)
	flags.BoolVar(&o.quiet, "quiet", false, "do not say how the order list was understood")
	flags.BoolVarP(&o.help, "help", "h", false, "this page")
	return flags
}

// makingCommand plans an order book.
func makingCommand(ctx context.Context, args []string, t *terminal) error {
	var o makingOptions
	flags := o.flags()
	if err := parseFlags(flags, args); err != nil {
		return err
	}
	if o.help {
		return makingHelp(t.out, flags)
	}
	switch {
	case flags.NArg() != 1:
		return usageError{fmt.Errorf("making takes one order book, not %d: millmaths making FILE.toml", flags.NArg())}
	case strings.HasSuffix(strings.ToLower(flags.Arg(0)), ".csv"):
		return usageError{fmt.Errorf("%s is an order list: making takes the book that names it, a TOML file", flags.Arg(0))}
	case o.json && o.csv:
		return usageError{errors.New("--json and --csv are two forms of one result: use one of them")}
	case o.sets && o.csv:
		return usageError{errors.New("--csv has a result a line, and no sets: want --sets without it, or --json, which has them")}
	case o.limit <= 0:
		return usageError{fmt.Errorf("--limit %v, want a time such as 20s", o.limit)}
	}
	o.ofList = tableFlagGiven(flags)
	return t.withJSON("making", o.json, o.run(ctx, flags.Arg(0), flags.Changed("limit"), t))
}

func (o *makingOptions) run(ctx context.Context, name string, limited bool, t *terminal) error {
	if err := checkPlot(o.plot); err != nil {
		return err
	}
	pairs, err := readSettings(o.set, "NAME")
	if err != nil {
		return err
	}
	var settings []making.Setting
	for _, p := range pairs {
		settings = append(settings, making.Setting(p))
	}
	options, err := o.table.options("")
	if err != nil {
		return err
	}
	in, err := t.openInput(name)
	if err != nil {
		return err
	}
	defer in.Close()
	if name == "-" {
		name = source(name) // which names the same folder
	}
	book, err := making.Read(name, in, t.open, options, settings...)
	if err != nil {
		return err
	}
	if o.ofList != "" && book.List == "" {
		return usageError{fmt.Errorf("--%s is about an order list: %s has its orders in itself", o.ofList, name)}
	}
	if !o.quiet {
		for _, n := range book.Notes {
			t.say("%s: %s", book.List, n)
		}
	}
	for _, bad := range book.Bad {
		t.say("%v", bad)
	}
	if book.Footer > 0 {
		t.say("%s not counted: the list's own totals", counted(book.Footer, "row"))
	}
	if limited || book.Limit == 0 {
		book.Limit = o.limit
	}
	plan, err := book.Plan(ctx)
	if err != nil {
		return err
	}
	if err := o.print(plan, t); err != nil {
		return err
	}
	if o.plot != "" {
		if err := drawMaking(o.plot, plan, t); err != nil {
			return err
		}
	}
	if !o.json {
		t.tellCautions(&calc.HeavyReel)
	}
	if err := ctx.Err(); err != nil {
		return err // the plan so far has been printed
	}
	if anyOut(plan) {
		return errReported
	}
	return nil
}

// anyOut reports whether any order could not be read or made.
func anyOut(p *making.Plan) bool {
	return len(p.Book.Bad) > 0 || slices.ContainsFunc(p.Orders, func(m making.Made) bool { return m.Out() })
}

func (o *makingOptions) print(p *making.Plan, t *terminal) error {
	switch {
	case o.json:
		data, err := p.JSON()
		if err == nil {
			_, err = t.out.Write(data)
		}
		return err
	case o.csv:
		fmt.Fprintln(t.out, "of,name,result,value,unit")
		for _, f := range p.Facts() {
			printCSVLine(t.out, f.Of, f.Name, f.Result, f.Value, f.Unit)
		}
		return nil
	}
	printMaking(p, o.sets, t.out)
	return nil
}

// printMaking prints the plan for people.
func printMaking(p *making.Plan, sets bool, out io.Writer) {
	title := p.Book.Name
	if title == "" {
		title = p.Book.File
	}
	fmt.Fprintf(out, "%s\n\n", title)
	rows := [][]string{{"grade", "sets", "jumbos", "change h", "run h", "from", "to"}}
	for i := range p.Runs {
		r := &p.Runs[i]
		rows = append(rows, []string{r.Grade.Name, strconv.Itoa(r.Sets.Sets), strconv.Itoa(r.Jumbos), hoursText(r.Hours.Changes),
			hoursText(r.Hours.Reeling + r.Hours.Lost), clockText(r.Begin), clockText(r.End)})
	}
	if len(p.Runs) == 0 && !anyOut(p) {
		fmt.Fprintln(out, "Nothing need be made.")
	} else if len(p.Runs) == 0 {
		fmt.Fprintln(out, "Nothing can be made.")
	} else {
		printFlows(out, rows)
		printTonnes(p, out)
		printTakes(p, out)
	}
	printMade(p, out)
	if sets {
		printSets(p, out)
	}
	if len(p.Runs) > 0 {
		fmt.Fprintln(out, "\nCertificates")
		rows = nil
		for i := range p.Runs {
			r := &p.Runs[i]
			rows = append(rows, []string{"  " + r.Grade.Name, certified(&r.Job, r.Sets, millimetre())})
		}
		plain.Rows(out, rows)
	}
	fmt.Fprintln(out, "\nConventions")
	for _, c := range p.Conventions {
		fmt.Fprintf(out, "  %s\n", plain.Wrapped(c, "  "))
	}
}

func millimetre() paperprop.Unit { return paperprop.Length(0).Kind().Canonical() }

func clockText(t time.Time) string {
	if t.IsZero() {
		return "--"
	}
	return making.Day(t)
}

func hoursText(d paperprop.Duration) string { return toDecimals(d.In(paperprop.Hour), 2) }

// tonnesText formats a mass next to others, with as many decimals as give the
// largest about five digits.
func tonnesText(m, largest paperprop.Mass) string {
	decimals := 2
	for x := largest.In(paperprop.Tonne); x >= 1000 && decimals > 0; x /= 10 {
		decimals--
	}
	return toDecimals(m.In(paperprop.Tonne), decimals)
}

// printTonnes prints what is made at the reel, and what becomes of it.
func printTonnes(p *making.Plan, out io.Writer) {
	fmt.Fprintln(out, "\nMade at the reel, t")
	row := func(name string, x making.Tonnes) []string {
		cells := []string{name}
		for _, m := range []paperprop.Mass{x.Ordered, x.Over, x.Trim, x.Rest, x.Broke, x.Change, x.Made} {
			cells = append(cells, tonnesText(m, p.Tonnes.Made))
		}
		return append(cells, toDecimals(100*(1-float64(x.Sold()/x.Made)), 2))
	}
	rows := [][]string{{"", "ordered", "over", "trim", "rests", "broke", "change", "made", "not sold %"}}
	for i := range p.Runs {
		rows = append(rows, row(p.Runs[i].Grade.Name, p.Runs[i].Tonnes))
	}
	printFlows(out, append(rows, row("all", p.Tonnes)))
	for i := range p.Runs {
		for _, w := range p.Runs[i].Wound {
			fmt.Fprintf(out, "  %s\n", plain.Wrapped(windingText(&p.Runs[i], &w), "  "))
		}
	}
}

// windingText says how the sets of a kind are put on jumbos.
func windingText(r *making.Run, w *making.Wound) string {
	text := fmt.Sprintf("%s: %s of %s", r.Grade.Name, counted(w.Sets, "set"), metresText(w.Length))
	if len(r.Wound) > 1 {
		text += fmt.Sprintf(" (%v on %v)", w.Diameter, w.Core)
	}
	text += fmt.Sprintf(", %d to a jumbo of %s", w.PerJumbo, metresText(w.Jumbo))
	if w.Rests > 0 {
		text += fmt.Sprintf("; %s of %s", counted(w.Rests, "rest"), metresText(w.Rest))
	}
	return text
}

func metresText(l paperprop.Length) string { return toDecimals(l.In(paperprop.Metre), 0) + " m" }

// printTakes prints what the line takes in and gives off. Its columns are whatever
// any grade takes.
func printTakes(p *making.Plan, out io.Writer) {
	fmt.Fprintln(out, "\nTaken in and given off, t")
	all := p.Takes.List()
	head, largest := []string{""}, 0.0
	for _, x := range all {
		head, largest = append(head, short(x.Name)), max(largest, x.Value)
	}
	row := func(name string, list []making.Taken) []string {
		cells := []string{name}
		for _, x := range all {
			value := 0.0
			for _, y := range list {
				if y.Name == x.Name {
					value = y.Value
				}
			}
			cells = append(cells, tonnesText(paperprop.Mass(value)*paperprop.Tonne, paperprop.Mass(largest)*paperprop.Tonne))
		}
		return cells
	}
	rows := [][]string{head}
	for i := range p.Runs {
		rows = append(rows, row(p.Runs[i].Grade.Name, p.Runs[i].Takes.List()))
	}
	printFlows(out, append(rows, row("all", all)))
	fmt.Fprintf(out, "  %s t of recovered paper for a tonne sold\n", toDecimals(float64(p.Takes.Paper/p.Tonnes.Sold()), 4))
	switch left := p.YardLeft; {
	case left > 0:
		fmt.Fprintf(out, "  %s t are left in the yard\n", tonnesText(left, left))
	case left < 0:
		fmt.Fprintf(out, "  the yard lacks %s t: it is empty %s\n", tonnesText(-left, -left), making.Day(p.YardOut))
	}
}

// short abbreviates a name for the head of a column.
func short(name string) string {
	switch name {
	case "recovered-paper":
		return "bales"
	case "recovered-paper-dry":
		return "dry"
	}
	return strings.ReplaceAll(name, "-", " ")
}

// printMade prints for each order what is made and when, then what is late, lacks bales,
// can't be made or need not be.
func printMade(p *making.Plan, out io.Writer) {
	u := millimetre()
	rows := [][]string{{"order", "reels", "over", "mm", "t", "due", "ready", ""}}
	var late, lacking, left, none [][]string
	var largest paperprop.Mass
	for _, m := range p.Orders {
		largest = max(largest, m.Mass)
	}
	for k := range p.Runs {
		rows = append(rows, []string{p.Runs[k].Grade.Name, "", "", "", "", "", "", ""})
		for i := range p.Orders {
			m, o := &p.Orders[i], &p.Book.Orders[i]
			if m.Reels == 0 || o.Grade != p.Runs[k].Grade.Name {
				continue
			}
			row := []string{"  " + o.Name, strconv.Itoa(m.Reels), strconv.Itoa(m.Over), lengthText(o.Width, u), tonnesText(m.Mass, largest), clockText(o.Due), clockText(m.Ready), ""}
			if m.Late > 0 {
				row[len(row)-1] = "late"
				late = append(late, []string{"  " + o.Name, fmt.Sprintf("%s late: %s", lateText(m.Late), m.Reason)})
			} else if m.Left == 0 && m.Reason != "" {
				lacking = append(lacking, []string{"  " + o.Name, m.Reason})
			}
			rows = append(rows, row)
		}
	}
	for i := range p.Orders {
		switch m, o := &p.Orders[i], &p.Book.Orders[i]; {
		case m.Out():
			what := counted(m.Left, "reel")
			if m.Left == 0 && o.Mass > 0 { // its tonnes are no reels
				what = tonnesText(o.Mass, o.Mass) + " t"
			}
			left = append(left, []string{"  " + o.Name, fmt.Sprintf("%s of %s mm: %s", what, lengthText(o.Width, u), m.Reason)})
		case m.Reels == 0:
			none = append(none, []string{"  " + o.Name, fmt.Sprintf("%s of %s mm ordered", counted(m.Order.Reels, "reel"), lengthText(o.Width, u))})
		}
	}
	if len(rows) > 1 {
		fmt.Fprintln(out)
		printFlows(out, rows)
	}
	if len(late) > 0 {
		fmt.Fprintln(out, "\nNot by its date")
		plain.Rows(out, late)
	}
	if len(lacking) > 0 {
		fmt.Fprintln(out, "\nShort of bales")
		plain.Rows(out, lacking)
	}
	if len(left) > 0 {
		fmt.Fprintln(out, "\nNot to be made")
		plain.Rows(out, left)
	}
	if len(none) > 0 {
		fmt.Fprintln(out, "\nNone made, as none need be")
		plain.Rows(out, none)
	}
	if len(p.Book.Bad) > 0 {
		fmt.Fprintf(out, "\nNot understood, and in none of the figures: %s of the list\n", counted(len(p.Book.Bad), "order"))
		for _, err := range p.Book.Bad {
			fmt.Fprintf(out, "  %s\n", plain.Wrapped(oneLine(err.Error()), "    "))
		}
	}
}

// lateText formats how late something is.
func lateText(d time.Duration) string {
	if d < time.Minute {
		return "less than a minute"
	}
	if d < time.Hour {
		return fmt.Sprintf("%d min", int(d.Minutes()))
	}
	if d < 48*time.Hour {
		return fmt.Sprintf("%d h %d min", int(d.Hours()), int(d.Minutes())%60)
	}
	return fmt.Sprintf("%s days", toDecimals(d.Hours()/24, 1))
}

// printSets prints the sets of each grade in the order they are cut.
func printSets(p *making.Plan, out io.Writer) {
	u := millimetre()
	for i := range p.Runs {
		r := &p.Runs[i]
		fmt.Fprintf(out, "\n%s\n", r.Grade.Name)
		rows := [][]string{{"times", "edge mm", "trim mm", "reels across, mm"}}
		for _, k := range r.Cut() {
			x := r.Sets.Patterns[k]
			if len(r.Wound) == 1 {
				x.Group = ""
			}
			rows = append(rows, []string{strconv.Itoa(x.Times), lengthText(x.Edge, u), lengthText(x.Trim, u), across(x, u)})
		}
		plain.Rows(out, rows)
	}
}

func makingHelp(out io.Writer, flags *pflag.FlagSet) error {
	fmt.Fprint(out, `An order book carried back to bales, water, steam, starch and machine hours

  millmaths making BOOK.toml
  millmaths making BOOK.toml --set "uptime=85 %" --set "line.wire.dryness=20 %"

The book tells the machine, the jumbo, the time and loss of a change of grade,
the grades, each with the file of its line or with figures that differ in it,
and the orders or the name of their list; examples/quillbeck/order-book.toml
says how. The orders of a grade are slit as trim does it, their sets wound on
jumbos, and the line balanced with all that is not sold as broke. Where the book
gives no sequence of grades, that with the fewest late orders is taken.

Columns of the list: grade, width [mm], reels or ordered-mass, due (2026-12-02
or 2026-12-02 14:00), order, customer, and the others of millmaths trim.
`)
	printTables(out, making.Tables())
	printOptions(out, flags)
	return nil
}
