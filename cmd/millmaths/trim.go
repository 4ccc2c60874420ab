package main

import (
	"cmp"
	"context"
	"errors"
	"fmt"
	"io"
	"maps"
	"path/filepath"
	"slices"
	"strconv"
	"strings"
	"time"
	"unicode/utf8"

	"github.com/spf13/pflag"

	"millmaths.example/paperprop"
	"millmaths.example/paperprop/calc"
	"millmaths.example/paperprop/calc/plain"
	"millmaths.example/paperprop/trim"
)

// trimOptions holds the flags of trim.
type trimOptions struct {
	job                       trim.Job
	terms                     trim.Terms
	deckles, fillers, columns []string
	edge                      paperprop.Length
	aim                       string
	limit                     time.Duration
	unit                      string
	json, csv, quiet, help    bool
	limited                   bool     // --limit is given
	given                     []string // flags that describe the job
	ofList                    string   // a flag that was given on how to read the order list
	file, list                string   // the job's file, if it has one, and that of the orders
	plot                      string
	table                     tableFlags
}

func (o *trimOptions) flags() *pflag.FlagSet {
	flags := newFlags("trim")
	s := &o.job.Slitter
	flags.StringArrayVar(&o.deckles, "deckle", nil, `"5180 mm", width of what is slit; again for more; "12 x 2480 mm": good for 12 sets`)
	flags.TextVar(&o.edge, "edge", paperprop.Length(0), "cut away on each side, at least")
	flags.IntVar(&s.MostReels, "most-reels", 0, "across")
	flags.IntVar(&s.MostWidths, "most-widths", 0, "different ones across")
	flags.TextVar(&s.Narrowest, "narrowest", paperprop.Length(0), "reel")
	flags.TextVar(&s.Widest, "widest", paperprop.Length(0), "reel")
	flags.TextVar(&s.LeastUsed, "least-used", paperprop.Length(0), "width of the reels of a set, together")
	flags.IntVar(&s.SetMultiple, "set-multiple", 0, "sets that a jumbo gives: a pattern is cut in multiples of it")
	flags.IntVar(&s.LeastSets, "least-sets", 0, "of a pattern that is cut at all")
	flags.StringArrayVar(&o.fillers, "filler", nil, `"200 mm", may use up trim; again for more; "12 x 200 mm": at most 12 reels`)
	flags.TextVar(&o.terms.UnderRun, "under-run", paperprop.Fraction(0), "allowed below what is ordered")
	flags.TextVar(&o.terms.OverRun, "over-run", paperprop.Fraction(0), "allowed above")
	flags.TextVar(&o.terms.Diameter, "diameter", paperprop.Length(0), "of the reels, for ordered mass and tonnes")
	flags.TextVar(&o.terms.CoreDiameter, "core-diameter", paperprop.Length(0), "OUTSIDE of the core")
	flags.TextVar(&o.terms.RollDensity, "roll-density", paperprop.Density(0), "as wound; or grammage and reel-thickness")
	flags.TextVar(&o.terms.Grammage, "grammage", paperprop.Grammage(0), "at the moisture of the reel")
	flags.TextVar(&o.terms.ReelThickness, "reel-thickness", paperprop.Length(0), "of a layer in the reel")
	flags.StringVar(&o.aim, "aim", "sets", "sets: fewest sets, also if left out; width: least total deckle, if there are several")
	flags.BoolVar(&o.job.AnyPatterns, "any-patterns", false, "do not look for fewer different patterns: saves time")
	flags.BoolVar(&o.job.Partly, "partly", false, "plan what can be made and list what is left out")
	flags.DurationVar(&o.limit, "limit", 20*time.Second, "of the search, 20s if left out; then the best plan so far")
	flags.StringVar(&o.unit, "unit", "", "of the widths that are printed; that of the deckle where none is named")
	flags.BoolVar(&o.json, "json", false, "for programs")
	flags.BoolVar(&o.csv, "csv", false, "for tables")
	flags.StringVar(&o.plot, "plot", "", "draw the sets to scale: FILE.svg or FILE.png")
	flags.StringArrayVar(&o.columns, "column", nil, "INPUT=HEAD,...: where an input comes from, if its head has another name")
	o.table.add(flags)
	flags.BoolVar(&o.quiet, "quiet", false, "do not say how the table was understood")
	flags.BoolVarP(&o.help, "help", "h", false, "this page")
	return flags
}

// trimCommand plans the sets of an order list.
func trimCommand(ctx context.Context, args []string, t *terminal) error {
	var o trimOptions
	flags := o.flags()
	if err := parseFlags(flags, args); err != nil {
		return err
	}
	if o.help {
		return trimHelp(t.out, flags)
	}
	o.limited = flags.Changed("limit")
	flags.Visit(func(f *pflag.Flag) {
		switch f.Name {
		case "limit", "partly", "unit", "json", "csv", "plot", "quiet":
		default:
			if f.Name == "column" || slices.Contains(tableFlagNames[:], f.Name) {
				o.ofList = f.Name
				return
			}
			o.given = append(o.given, f.Name)
		}
	})
	if flags.NArg() != 1 {
		return usageError{fmt.Errorf("trim takes one order list, not %d: millmaths trim ORDERS.csv --deckle \"5180 mm\"", flags.NArg())}
	}
	return t.withJSON("trim", o.json, o.run(ctx, flags.Arg(0), t))
}

func (o *trimOptions) run(ctx context.Context, name string, t *terminal) error {
	if err := checkPlot(o.plot); err != nil {
		return err
	}
	unit, list, err := o.take(name, t)
	if err != nil {
		return err
	}
	for _, bad := range list.Bad {
		t.say("%v", bad)
	}
	name = source(o.list)
	if list.Footer > 0 {
		t.say("%s not counted: the list's own totals", counted(list.Footer, "row"))
	}
	if len(list.Bad) > 0 && !o.job.Partly {
		return fmt.Errorf("%s: %s can't be read; --partly plans the others", name, counted(len(list.Bad), "row"))
	}
	if len(list.Orders) == 0 {
		return fmt.Errorf("%s: no order under the heads", name)
	}
	o.job.Orders, o.job.Bad = list.Orders, list.Bad
	limited, cancel := context.WithTimeout(ctx, o.limit)
	defer cancel()
	plan, err := o.job.Plan(limited)
	if err != nil {
		var order *trim.OrderError
		if errors.As(err, &order) {
			return fmt.Errorf("%s: %w; --partly plans the others", name, err)
		}
		if o.file != "" {
			return fmt.Errorf("%s: %w", o.file, err)
		}
		return err
	}
	if err := o.print(plan, unit, t); err != nil {
		return err
	}
	if unknown := func(x trim.Order) bool { return x.ReelMass == 0 }; ofMass(o.terms) && slices.ContainsFunc(o.job.Orders, unknown) {
		t.say("no mass is told: it takes the diameter of every reel, and its roll density, or grammage and reel-thickness")
	}
	if !o.json {
		for _, w := range o.job.Warnings() {
			t.warn(w)
		}
	}
	for _, l := range plan.Left {
		t.say("%s: %v", name, &trim.OrderError{Index: l.Order, Order: o.job.Orders[l.Order], Reason: fmt.Sprintf("%s left out: %s", counted(l.Reels, "reel"), l.Reason)})
	}
	if o.plot != "" {
		if err := o.draw(plan, unit, t); err != nil {
			return err
		}
	}
	if !o.json {
		t.tellCautions(&calc.HeavyReel)
	}
	if err := ctx.Err(); err != nil {
		return err // the plan so far has been printed
	}
	if len(list.Bad)+len(plan.Left) > 0 {
		return errReported
	}
	return nil
}

// ofMass reports whether terms give anything that only a mass depends on.
func ofMass(t trim.Terms) bool {
	return t.Diameter != 0 || t.CoreDiameter != 0 || t.RollDensity != 0 || t.Grammage != 0 || t.ReelThickness != 0
}

// take reads the job: an order list with flags, or a job file.
func (o *trimOptions) take(name string, t *terminal) (unit paperprop.Unit, list *trim.Listing, err error) {
	if strings.HasSuffix(strings.ToLower(name), ".toml") {
		return o.takeFile(name, t)
	}
	o.list = name
	if unit, err = o.settle(); err == nil {
		list, err = o.read(name, t)
	}
	return unit, list, err
}

// takeFile reads a job from a file. Flags that describe the job can't be combined
// with it.
func (o *trimOptions) takeFile(name string, t *terminal) (unit paperprop.Unit, list *trim.Listing, err error) {
	if len(o.given) > 0 {
		return unit, nil, usageError{fmt.Errorf("--%s with %s: the file describes the job", o.given[0], name)}
	}
	in, err := t.openInput(name)
	if err != nil {
		return unit, nil, err
	}
	defer in.Close()
	f, err := trim.ReadFile(source(name), in)
	if err != nil {
		return unit, nil, err
	}
	o.file, o.list = source(name), name
	partly := o.job.Partly || f.Job.Partly
	o.job, o.terms = f.Job, f.Terms
	o.job.Partly = partly
	if f.Limit > 0 && !o.limited {
		o.limit = f.Limit
	}
	if unit, err = o.checked(f.Unit); err != nil {
		return unit, nil, err
	}
	if f.Orders == "" && o.ofList != "" {
		return unit, nil, usageError{fmt.Errorf("--%s is about an order list: %s has its orders in itself", o.ofList, o.file)}
	}
	if f.Orders == "" {
		return unit, &trim.Listing{Orders: f.Job.Orders}, nil
	}
	if !filepath.IsAbs(f.Orders) {
		f.Orders = filepath.Join(filepath.Dir(name), f.Orders)
	}
	o.list = f.Orders
	list, err = o.read(f.Orders, t)
	return unit, list, err
}

// settle converts the texts of flags into the job.
func (o *trimOptions) settle() (unit paperprop.Unit, err error) {
	if len(o.deckles) == 0 {
		return unit, usageError{errors.New(`--deckle is missing, want the width of what is slit: --deckle "5180 mm"`)}
	}
	kind := paperprop.Length(0).Kind()
	if o.terms.RollDensity != 0 && (o.terms.Grammage != 0 || o.terms.ReelThickness != 0) {
		return unit, usageError{errors.New("want either --roll-density, or --grammage and --reel-thickness, which give it")}
	}
	for _, text := range o.deckles {
		n, width := times(text)
		x, u, err := kind.Parse(width)
		if err != nil {
			return unit, usageError{fmt.Errorf(`--deckle %q: %w; write "5180 mm", or "12 x 2480 mm" for 12 sets`, text, err)}
		}
		if unit.IsZero() {
			unit = u
		}
		o.job.Parents = append(o.job.Parents, trim.Parent{Deckle: paperprop.Length(x), Edge: o.edge, Sets: n})
	}
	for _, text := range o.fillers {
		n, width := times(text)
		w, err := paperprop.ParseLength(width)
		if err != nil {
			return unit, usageError{fmt.Errorf(`--filler %q: %w; write "200 mm", or "12 x 200 mm" for at most 12 reels`, text, err)}
		}
		o.job.Fillers = append(o.job.Fillers, trim.Filler{Width: w, Most: n})
	}
	if o.job.Aim, err = trim.ParseAim(o.aim); err != nil {
		return unit, usageError{fmt.Errorf("--%w", err)}
	}
	return o.checked(unit)
}

// checked checks what applies to every job.
func (o *trimOptions) checked(unit paperprop.Unit) (paperprop.Unit, error) {
	var err error
	if o.unit != "" {
		if unit, err = paperprop.Length(0).Kind().Unit(o.unit); err != nil {
			return unit, usageError{fmt.Errorf("--unit %s: %w", o.unit, err)}
		}
	}
	if o.json && o.csv {
		return unit, usageError{errors.New("--json and --csv are two forms of one result: use one of them")}
	}
	if o.limit <= 0 {
		return unit, usageError{fmt.Errorf("--limit %v, want a time such as 20s", o.limit)}
	}
	return unit, nil
}

// times splits "12 x 2480 mm", or "12 × 2480 mm" as plans have it; n is 0 if there is no
// number in front.
func times(text string) (n int, width string) {
	if before, after, ok := strings.Cut(strings.Replace(text, "×", "x", 1), "x"); ok {
		if n, err := strconv.Atoi(strings.TrimSpace(before)); err == nil && n > 0 {
			return n, strings.TrimSpace(after)
		}
	}
	return 0, text
}

func (o *trimOptions) read(name string, t *terminal) (*trim.Listing, error) {
	options, err := o.table.options(name)
	if err != nil {
		return nil, err
	}
	list := trim.List{Table: options, Columns: map[string]string{}, Naming: "--column INPUT=HEAD", Terms: o.terms}
	columns, err := columnHeads(o.columns)
	if err != nil {
		return nil, err
	}
	for _, input := range slices.Sorted(maps.Keys(columns)) {
		heads := columns[input]
		if known := trim.Inputs(); !slices.Contains(known, input) {
			return nil, usageError{fmt.Errorf("--column %s: no input of that name, want one of %s", input, strings.Join(known, ", "))}
		}
		if len(heads) > 1 {
			return nil, usageError{fmt.Errorf("--column %s has %d heads, want one", input, len(heads))}
		}
		list.Columns[input] = heads[0]
	}
	in, err := t.openInput(name)
	if err != nil {
		return nil, err
	}
	defer in.Close()
	listing, err := list.Read(in)
	if err == nil && !o.quiet {
		for _, n := range listing.Notes {
			t.say("%s: %s", source(name), n)
		}
	}
	return listing, err
}

func (o *trimOptions) print(p *trim.Plan, unit paperprop.Unit, t *terminal) error {
	switch {
	case o.json:
		data, err := p.JSON(&o.job, unit)
		if err == nil {
			_, err = t.out.Write(data)
		}
		return err
	case o.csv:
		return o.printCSV(p, unit, t.out)
	}
	o.printPlan(p, unit, t.out)
	return nil
}

// printPlan prints the plan for people.
func (o *trimOptions) printPlan(p *trim.Plan, unit paperprop.Unit, out io.Writer) {
	number := func(l paperprop.Length) string { return lengthText(l, unit) }
	u := unit.String()
	rows := [][]string{{"times", "edge " + u, "trim " + u, "reels across, " + u}}
	if len(o.job.Parents) > 1 {
		rows[0] = append([]string{rows[0][0], "deckle " + u}, rows[0][1:]...)
	}
	for _, x := range p.Patterns {
		row := []string{strconv.Itoa(x.Times), number(x.Edge), number(x.Trim), across(x, unit)}
		if len(o.job.Parents) > 1 {
			row = append([]string{row[0], number(o.job.Parents[x.Parent].Deckle)}, row[1:]...)
		}
		rows = append(rows, row)
	}
	plain.Rows(out, rows)
	fmt.Fprintln(out)
	plain.Rows(out, o.totals(p, unit))
	o.printOrders(p, unit, out)
}

// mostDigits is the most digits of a length that are printed whole: 1 mm is
// 0.03937007874015748 in.
const mostDigits = 14

// lengthText returns a length of a plan as it was typed or adds up, with all its digits.
// Only one that a unit can't express in few is rounded as other figures are.
func lengthText(l paperprop.Length, unit paperprop.Unit) string {
	x := trim.In(l, unit)
	text := fullText(x)
	if len(strings.TrimLeft(strings.Replace(text, ".", "", 1), "-0")) > mostDigits {
		return paperprop.People(x)
	}
	return text
}

// across describes a set in words.
func across(x trim.Pattern, unit paperprop.Unit) string {
	var reels []string
	for _, r := range x.Reels {
		text := fmt.Sprintf("%d × %s", r.Count, lengthText(r.Width, unit))
		switch {
		case r.Filler:
			text += " filler"
		case r.Sheets > 1:
			text += fmt.Sprintf(" (%d sheets)", r.Sheets)
		}
		reels = append(reels, text)
	}
	text := strings.Join(reels, ", ")
	if x.Group != "" {
		text += "; " + x.Group
	}
	return text
}

// totals returns the totals of a plan, and what is proven.
func (o *trimOptions) totals(p *trim.Plan, unit paperprop.Unit) [][]string {
	reels, over, under := 0, 0, 0
	for _, m := range p.Orders {
		reels += m.Reels
		over += max(0, m.Over)
		under += max(0, -m.Over)
	}
	several := ""
	if slices.ContainsFunc(p.Patterns, sheeted) {
		several = "; one of several sheets counts as so many"
	}
	rows := [][]string{
		{"sets", strconv.Itoa(p.Sets)},
		{"patterns", strconv.Itoa(len(p.Patterns))},
		{"trim", fmt.Sprintf("%s %s, %s of the deckle", lengthText(p.Trim, unit), unit, people(p.Loss()))},
		{"reels", fmt.Sprintf("%d, %d over and %d under what is ordered%s", reels, over, under, several)},
	}
	if n := len(o.job.Bad); n > 0 {
		rows = append(rows, []string{"not read", counted(n, "order") + " of the list, in none of these figures"})
	}
	for i, f := range o.job.Fillers {
		rows = append(rows, []string{"filler", fmt.Sprintf("%s of %s %s", counted(p.Fillers[i], "reel"), lengthText(f.Width, unit), unit)})
	}
	if m, ok := p.Mass(&o.job); ok {
		text := inTonnes(m) + " t"
		if over, under := p.OverMass(); o.job.ByMass() {
			text += fmt.Sprintf(", %s t over and %s t under what is ordered", inTonnes(over), inTonnes(under))
		}
		rows = append(rows, []string{"mass", text})
	}
	return append(rows, []string{"certificate", certified(&o.job, p, unit)})
}

// sheeted reports whether a pattern has a reel of several sheets.
func sheeted(x trim.Pattern) bool {
	return slices.ContainsFunc(x.Reels, func(r trim.Reels) bool { return r.Sheets > 1 })
}

func inTonnes(m paperprop.Mass) string { return paperprop.People(m.In(paperprop.Tonne)) }

func people(x paperprop.Fraction) string {
	return strconv.FormatFloat(100*float64(x), 'f', 2, 64) + " %"
}

// certified says what is proven.
func certified(j *trim.Job, p *trim.Plan, unit paperprop.Unit) string {
	c := &p.Certificate
	what, value, bound := "fewer sets", strconv.Itoa(c.Value), strconv.Itoa(c.Bound)
	if j.Aim == trim.LeastWidth {
		what, value = "less deckle", lengthText(p.Deckle, unit)+" "+unit.String()
		bound = lengthText(c.Width(), unit) + " " + unit.String()
	}
	switch {
	case c.Proven:
		return fmt.Sprintf("no plan uses %s (bound %s, by %s)", what, bound, c.Proof)
	case c.Bound == 0:
		return fmt.Sprintf("no plan is known with %s than %s; how little will do is not proven", what, value)
	}
	return fmt.Sprintf("no plan is known with %s than %s; none can do with less than %s (by %s)", what, value, bound, c.Proof)
}

// printOrders prints what is made of each order if any is over or under, and by
// mass if any order is by mass.
func (o *trimOptions) printOrders(p *trim.Plan, unit paperprop.Unit, out io.Writer) {
	rows := [][]string{{"order", "ordered", "made", "over", "width " + unit.String()}}
	if o.job.ByMass() {
		rows[0] = append(rows[0], "ordered t", "made t", "over t")
	}
	for i, order := range o.job.Orders {
		m := p.Orders[i]
		if m.Over == 0 && (order.OrderedMass == 0 || m.OverMass == 0) {
			continue
		}
		name := order.Name
		if order.Line > 0 {
			name = cmp.Or(name, fmt.Sprintf("line %d", order.Line))
		}
		over := "0"
		if m.Over != 0 {
			over = fmt.Sprintf("%+d", m.Over)
		}
		row := []string{name, strconv.Itoa(order.Reels), strconv.Itoa(m.Reels), over, lengthText(order.Width, unit)}
		if o.job.ByMass() {
			row = append(row, massCells(&order, m)...)
		}
		rows = append(rows, row)
	}
	if len(rows) > 1 {
		fmt.Fprintln(out)
		plain.Rows(out, withLongNames(rows))
	}
}

// withLongNames puts a first cell that leaves too little of the width for the rest of
// its row on a row of its own.
func withLongNames(rows [][]string) [][]string {
	room := plain.Width
	for i := range rows[0][1:] {
		widest := 0
		for _, row := range rows {
			widest = max(widest, utf8.RuneCountInString(row[i+1]))
		}
		room -= widest + 2
	}
	var out [][]string
	for _, row := range rows {
		if utf8.RuneCountInString(row[0]) > room {
			out = append(out, row[:1])
			row = append([]string{""}, row[1:]...)
		}
		out = append(out, row)
	}
	return out
}

// massCells returns the mass ordered, made and over of an order by mass, in t;
// empty for one by reels.
func massCells(o *trim.Order, m trim.Made) []string {
	if o.OrderedMass == 0 || o.ReelMass == 0 {
		return []string{"", "", ""}
	}
	over := inTonnes(m.OverMass)
	if m.OverMass > 0 {
		over = "+" + over
	}
	return []string{inTonnes(o.OrderedMass), inTonnes(o.OrderedMass + m.OverMass), over}
}

// printCSV writes a line for each width of each pattern.
func (o *trimOptions) printCSV(p *trim.Plan, unit paperprop.Unit, out io.Writer) error {
	full := func(l paperprop.Length) string { return fullText(trim.In(l, unit)) }
	fmt.Fprintln(out, "pattern,times,deckle,width,count,sheets,filler,edge,trim,unit,group")
	for i, x := range p.Patterns {
		for _, r := range x.Reels {
			if err := printCSVLine(out, strconv.Itoa(i+1), strconv.Itoa(x.Times), full(o.job.Parents[x.Parent].Deckle), full(r.Width),
				strconv.Itoa(r.Count), strconv.Itoa(r.Sheets), strconv.FormatBool(r.Filler), full(x.Edge), full(x.Trim), unit.String(), x.Group); err != nil {
				return err
			}
		}
	}
	return nil
}

// Sizes of the picture of a plan, in points.
const (
	barHeight, barStep  = 16, 22
	barsLeft, barsRight = 46, 46
	barsTop, barsBottom = 34, 30
	paper, white        = 0.82, 1.0
)

// draw draws a bar for each pattern, to scale: reels are grey with their width in
// them, fillers white, trim an empty frame.
func (o *trimOptions) draw(p *trim.Plan, unit paperprop.Unit, t *terminal) error {
	height := barsTop + barStep*len(p.Patterns) + barsBottom
	return drawFile(o.plot, pictureWidth, max(height, 120), t, func(c canvas) {
		var widest paperprop.Length
		for _, parent := range o.job.Parents {
			widest = max(widest, parent.Deckle)
		}
		scale := func(l paperprop.Length) float64 {
			return float64(l/widest) * (pictureWidth - barsLeft - barsRight)
		}
		heading := fmt.Sprintf("%s, %s, trim %s of the deckle", counted(p.Sets, "set"), counted(len(p.Patterns), "pattern"), people(p.Loss()))
		c.text(point{barsLeft, 20}, heading, start)
		for i, x := range p.Patterns {
			y := float64(barsTop + barStep*i + barHeight/2)
			c.text(point{barsLeft - 6, y + 0.35*fontSize}, fmt.Sprintf("%d ×", x.Times), end)
			deckle := o.job.Parents[x.Parent].Deckle
			at := barsLeft + scale(x.Edge)
			for _, r := range x.Reels {
				for range r.Count {
					w := scale(r.Width)
					shade := paper
					if r.Filler {
						shade = white
					}
					bar(c, at, y, w, shade)
					if text := lengthText(r.Width, unit); w > letterWidth*float64(len(text)) {
						c.text(point{at + w/2, y + 0.35*fontSize}, text, middle)
					}
					at += w
				}
			}
			barAt(barsLeft, y, scale(deckle)).outlined(c)
			c.text(point{barsLeft + scale(deckle) + 4, y + 0.35*fontSize}, lengthText(x.Trim, unit), start)
		}
		// An empty end is white too, so the legend mentions fillers only if there
		// are any.
		legend := "right: trim, the empty ends"
		if fills(p) {
			legend = "right: trim; white reels: filler"
		}
		foot := float64(barsTop + barStep*len(p.Patterns) + 18)
		c.text(point{barsLeft, foot}, fmt.Sprintf("widths in %s; left: times; %s", unit, legend), start)
	})
}

// fills reports whether a pattern of the plan has a filler.
func fills(p *trim.Plan) bool {
	return slices.ContainsFunc(p.Patterns, func(x trim.Pattern) bool {
		return slices.ContainsFunc(x.Reels, func(r trim.Reels) bool { return r.Filler })
	})
}

// bar draws a reel.
func bar(c canvas, x, y, w, shade float64) {
	// In thin lines, as a thick one would extend beyond its ends.
	for top := y - barHeight/2 + 1; top < y+barHeight/2; top += 2 {
		c.line([]point{{x + 1, top}, {x + w - 1, top}}, 2, shade)
	}
	barAt(x, y, w).outlined(c)
}

// barAt returns the box of a bar of that width, around the height y.
func barAt(x, y, w float64) box { return box{x, y - barHeight/2, x + w, y + barHeight/2} }

func trimHelp(out io.Writer, flags *pflag.FlagSet) error {
	fmt.Fprintf(out, `Slitting plans: the fewest sets for an order list, with a proof

  millmaths trim ORDERS.csv --deckle "5180 mm"

The order list is a table with the columns width [mm] and reels; - reads it from
standard input. Then the plan has the fewest different patterns that were found
with so many sets, and its certificate says that no plan has fewer sets, or
which gap is left. Columns that are understood, by their heads:

  %s

ordered-mass in place of reels needs a diameter and a roll density, or grammage
and reel thickness, as columns or flags. Orders that differ in grade, group,
diameter or core-diameter never share a set. With sheets a reel may be up to so
many widths wide, and counts as many.

  millmaths trim JOB.toml

A job file describes the whole job; no flag that does so is taken beside it.
`, plain.WrappedAt(strings.Join(trim.Inputs(), ", "), 2))
	printTables(out, trim.Tables())
	printOptions(out, flags)
	return nil
}
