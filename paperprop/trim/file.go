package trim

import (
	"cmp"
	"errors"
	"fmt"
	"io"
	"strings"
	"time"

	"millmaths.example/paperprop"
	"millmaths.example/paperprop/calc"
	"millmaths.example/paperprop/internal/strict"
)

// A File is a whole job, as a TOML file gives it:
//
//	orders = "orders.csv"  # or [[order]], with the names of its columns
//	limit = "20s"
//	aim = "sets"
//	over-run = "5 %"       # and other terms that hold for every order
//
//	[[deckle]]
//	width = "5180 mm"
//	edge = "15 mm"
//
//	[slitter]
//	most-reels = 5
//
//	[[filler]]
//	width = "200 mm"
//	most = 12
type File struct {
	Job    Job
	Terms  Terms
	Orders string        // name of the order list; "" if the file holds the orders
	Limit  time.Duration // zero is not given
	Unit   paperprop.Unit
}

// The contents of the file, by its own names.
type fileText struct {
	Orders  string  `toml:"orders" about:"file of the order list; or [[order]] for each"`
	Limit   string  `toml:"limit" about:"for the search, such as 20s; the best plan by then is kept"`
	Aim     string  `toml:"aim" about:"sets: fewest sets; width: least total deckle, if there are several"`
	Partly  bool    `toml:"partly" about:"plan what can be made and list what is left out"`
	Any     bool    `toml:"any-patterns" about:"do not look for fewer different patterns: saves time"`
	Slitter Slitter `toml:"slitter" about:"limits of every set; what is left out is unlimited"`
	Deckles []struct {
		Width string           `toml:"width" about:"of what is slit" needed:"yes"`
		Edge  paperprop.Length `toml:"edge" about:"cut away on each side, at least"`
		Sets  int              `toml:"sets" about:"the most that it gives; unlimited if left out"`
	} `toml:"deckle" about:"what sets are cut from; repeated for more"`
	Fillers []struct {
		Width paperprop.Length `toml:"width" about:"of the reels" needed:"yes"`
		Most  int              `toml:"most" about:"reels at most; as many as fit if left out"`
		Group string           `toml:"group" about:"the only group that it may lie beside; any if left out"`
	} `toml:"filler" about:"a width that may use up trim; repeated for more"`
	List []OrderText `toml:"order" about:"an order, where there is no list; repeated for each"`
	TermsText
}

// Tables returns the keys that a job file may use, table by table.
func Tables() []calc.FileTable { return strict.Tables(fileText{}) }

// TermsText is the terms of all orders, or of one, as a TOML file gives them.
type TermsText struct {
	UnderRun      *paperprop.Fraction `toml:"under-run" about:"allowed below what is ordered"`
	OverRun       *paperprop.Fraction `toml:"over-run" about:"allowed above"`
	Diameter      *paperprop.Length   `toml:"diameter" about:"of the reels, for ordered mass and tonnes"`
	CoreDiameter  *paperprop.Length   `toml:"core-diameter" about:"OUTSIDE of the core"`
	RollDensity   *paperprop.Density  `toml:"roll-density" about:"as wound; or grammage and reel-thickness"`
	Grammage      *paperprop.Grammage `toml:"grammage" about:"at the moisture of the reel"`
	ReelThickness *paperprop.Length   `toml:"reel-thickness" about:"of a layer in the reel"`
}

// OrderText is an order as a TOML file gives it, with the names of the columns of
// an order list.
type OrderText struct {
	Name   string           `toml:"order" about:"its name"`
	Width  paperprop.Length `toml:"width" about:"of a reel" needed:"yes"`
	Reels  *int             `toml:"reels" about:"ordered; or ordered-mass"`
	Mass   *paperprop.Mass  `toml:"ordered-mass" about:"in place of reels: needs a diameter and a roll density"`
	Sheets int              `toml:"sheets" about:"the most widths across a reel, which counts as so many; 1 if left out"`
	Grade  string           `toml:"grade" about:"orders that differ in it never share a set"`
	Group  string           `toml:"group" about:"orders that differ in it never share a set"`
	TermsText
}

// Over returns t with the terms that x gives in place of its own.
func (x TermsText) Over(t Terms) Terms {
	put(&t.UnderRun, x.UnderRun)
	put(&t.OverRun, x.OverRun)
	put(&t.Diameter, x.Diameter)
	put(&t.CoreDiameter, x.CoreDiameter)
	put(&t.RollDensity, x.RollDensity)
	put(&t.Grammage, x.Grammage)
	put(&t.ReelThickness, x.ReelThickness)
	return t
}

func put[T any](to, from *T) {
	if from != nil {
		*to = *from
	}
}

// ReadFile reads a job. Unknown names, and machines and limits that no plan can have, are
// refused, with the line they stand on.
func ReadFile(name string, in io.Reader) (*File, error) {
	var text fileText
	source, err := strict.Decode(name, in, &text)
	if err != nil {
		return nil, err
	}
	var f *File
	if err = needed(source); err == nil {
		f, err = text.file()
	}
	if err == nil {
		b := &book{job: &f.Job}
		err = b.readLimits()
	}
	if err != nil {
		return nil, source.Placed(err)
	}
	for i, line := range source.Lines("order") {
		f.Job.Orders[i].Line = line
	}
	return f, nil
}

// needed refuses a deckle, a filler or an order without a width.
func needed(source *strict.Source) error {
	return cmp.Or(
		source.Needs("deckle", "width", "a length such as 3300 mm"),
		source.Needs("filler", "width", "a length such as 200 mm"),
		source.Needs("order", "width", "a length such as 1000 mm"))
}

func (x *fileText) file() (*File, error) {
	f := &File{Orders: x.Orders, Terms: x.Over(Terms{}), Job: Job{Partly: x.Partly, AnyPatterns: x.Any, Slitter: x.Slitter}}
	err := f.Terms.check()
	if err != nil {
		return nil, err
	}
	if x.Limit != "" {
		if f.Limit, err = time.ParseDuration(x.Limit); err != nil || f.Limit <= 0 {
			return nil, strict.Refuse("limit", "limit is %q, want a time such as 20s", x.Limit)
		}
	}
	if f.Job.Aim, err = ParseAim(x.Aim); err != nil {
		return nil, &strict.Fault{Key: "aim", Err: err}
	}
	if (len(x.List) > 0) == (x.Orders != "") {
		return nil, strict.Refuse("orders", "want either orders = %q or [[order]]", cmp.Or(x.Orders, "FILE"))
	}
	for i, d := range x.Deckles {
		key := strict.Member("deckle", i) + ".width"
		w, unit, err := paperprop.Length(0).Kind().Parse(d.Width)
		if err != nil {
			return nil, strict.Refuse(key, "deckle %d: width: %w", i+1, err)
		}
		if i == 0 {
			f.Unit = unit
		}
		f.Job.Parents = append(f.Job.Parents, Parent{paperprop.Length(w), d.Edge, d.Sets})
	}
	for _, w := range x.Fillers {
		f.Job.Fillers = append(f.Job.Fillers, Filler(w))
	}
	for i, o := range x.List {
		if !(o.Width > 0) {
			return nil, strict.Refuse(strict.Member("order", i)+".width", "order %d: width is %v, want above 0 mm", i+1, o.Width)
		}
		order, err := o.order(f.Terms)
		if err != nil {
			key := strict.Member("order", i)
			if of := (*strict.Fault)(nil); errors.As(err, &of) {
				key += "." + of.Key
			}
			return nil, strict.Refuse(key, "order %d: width %v: %w", i+1, o.Width, err)
		}
		f.Job.Orders = append(f.Job.Orders, order)
	}
	return f, nil
}

func (x OrderText) order(t Terms) (Order, error) {
	r, err := x.Request(t)
	if err != nil {
		return Order{}, err
	}
	return r.Order()
}

// Request returns the order as a request, under its own terms and, for the rest,
// those of t. It is an error unless exactly one of reels and ordered-mass is given.
func (x OrderText) Request(t Terms) (Request, error) {
	r := Request{Name: x.Name, Grade: x.Grade, Group: x.Group, Width: x.Width, Sheets: x.Sheets, Terms: x.Over(t)}
	if x.Diameter != nil {
		r.alike = append(r.alike, x.Diameter.String())
	}
	if x.CoreDiameter != nil {
		r.alike = append(r.alike, "core "+x.CoreDiameter.String())
	}
	switch {
	case (x.Reels == nil) == (x.Mass == nil):
		return r, errors.New("want either reels or ordered-mass")
	case x.Reels != nil:
		r.Reels = *x.Reels
	case !(*x.Mass > 0):
		return r, fmt.Errorf("ordered-mass is %v, want above 0 kg", *x.Mass)
	default:
		r.Mass = *x.Mass
	}
	return r, nil
}

// joined makes one group name of everything that must be alike.
func joined(parts []string) string {
	var said []string
	for _, p := range parts {
		if p != "" {
			said = append(said, p)
		}
	}
	return strings.Join(said, ", ")
}

// ParseAim reads "sets" or "width"; "" is sets.
func ParseAim(text string) (Aim, error) {
	switch text {
	case "", "sets":
		return FewestSets, nil
	case "width":
		return LeastWidth, nil
	}
	return 0, fmt.Errorf("aim is %q, want sets or width", text)
}
