package line

import (
	"fmt"
	"math"
	"strings"

	"millmaths.example/paperprop"
	"millmaths.example/paperprop/calc"
)

// A sort says what a key of the file holds.
type sort uint8

const (
	figure     sort = iota // a value with its unit
	place                  // a stage, a tank or an exit
	places                 // a place, or several with the share of each
	tankName               // a tank
	component              // the name of a component
	shares                 // a figure for each component
	components             // a figure for each component, or one for all suspended ones
	bales                  // moisture, and a share of the dry matter for each component
	word                   // a name, or one of several words
	exits                  // names of exits
	inner                  // a table of keys of its own
)

// holds names the value of a key that is not a figure.
func (s sort) holds() string {
	return [...]string{
		place: "place", places: "place, or shares", tankName: "tank", component: "component", shares: "a share each",
		components: "share, or one each", bales: "shares", word: "text", exits: "list of names", inner: "table",
	}[s]
}

// A key of a stage, with the values it takes.
type key struct {
	name     string
	sort     sort
	quantity string // of a figure: the type of package paperprop
	unit     string // unit of the bounds
	low      float64
	high     float64
	endless  bool // no bound above
	openLow  bool // the bound itself is excluded
	openHigh bool
	required bool
	about    string
}

func (k key) need() key { k.required = true; return k }

func (k key) field(name string) *calc.Field {
	kind, _ := paperprop.KindNamed(k.quantity)
	unit, _ := kind.Unit(k.unit)
	f := calc.NewField(name, "", calc.One, k.about)
	f.Kind, f.Unit = kind, unit
	f.Low, f.High = unit.From(k.low), unit.From(k.high)
	if k.endless {
		f.High = math.Inf(1)
	}
	f.AboveLow, f.BelowHigh = k.openLow, k.openHigh
	f.Whole = k.quantity == "Count"
	return f
}

// percent returns a key for a figure above 0 % and below 100 %.
func percent(name, quantity, about string) key {
	return key{name: name, quantity: quantity, unit: "%", high: 100, openLow: true, openHigh: true, about: about}
}

// share returns a key for a figure from 0 to 100 %.
func share(name, about string) key {
	return key{name: name, quantity: "Fraction", unit: "%", high: 100, about: about}
}

// above returns a key for a figure above zero.
func above(name, quantity, unit, about string) key {
	return key{name: name, quantity: quantity, unit: unit, endless: true, openLow: true, about: about}
}

// Keys that several kinds of stage have.
var (
	thinned     = percent("consistency", "Consistency", "of the stock, after water was added")
	waterFrom   = key{name: "water", sort: tankName, about: "the tank that thins the stock"}
	waterTo     = key{name: "water-to", sort: place, about: "where the water goes"}
	rejectsTo   = key{name: "rejects-to", sort: place, about: "where the rejects go"}
	sheetDry    = percent("dryness", "DryContent", "of the sheet that leaves")
	broke       = share("broke", "share of the sheet that comes back")
	brokeTo     = key{name: "broke-to", sort: place, about: "where the broke goes"}
	temperature = key{name: "temperature", quantity: "Temperature", unit: "degC", high: 99, about: "of what leaves"}
	everyStage  = []key{
		{name: "name", sort: word, required: true, about: "by which others refer to it"},
		{name: "kind", sort: word, required: true, about: "one of those below"},
		{name: "to", sort: places, about: "where it goes on, if not to the next stage; in branches, { sold = \"rest\", sewer = \"2 %\" }"},
		temperature,
	}
)

// A kind of stage: the keys it may have, the equations it stands for, and its dangers.
type kind struct {
	name     string
	about    string
	keys     []key
	streams  func(*builder, *stage) // makes the streams that leave the stage
	rows     func(*builder, *stage) // writes the equations of its figures
	cautions []*calc.Caution        // what to beware of there
}

// kinds returns the kinds of stage, in the order in which stock meets them.
func kinds() []*kind {
	screen := []key{
		thinned, waterFrom,
		share("reject-rate", "share that is rejected").need(),
		percent("reject-consistency", "Consistency", "of the rejects").need(), rejectsTo.need(),
	}
	thickener := []key{
		percent("consistency", "Consistency", "of the thickened stock").need(), waterTo.need(),
		{name: "capture", sort: components, quantity: "Fraction", unit: "%", high: 100, about: "share of a suspended component that stays with the stock; all if left out"},
	}
	enclosed := []*calc.Caution{&calc.ConfinedSpace}
	moving := []*calc.Caution{&calc.MovingMachine}
	hot := []*calc.Caution{&calc.MovingMachine, &calc.Steam}
	wound := []*calc.Caution{&calc.MovingMachine, &calc.HeavyReel}
	return []*kind{
		{"pulper", "bales, or broke, become stock", []key{
			{name: "bales", sort: bales, about: "moisture of the moist mass, and the share of each component in the dry matter; one may be \"rest\""}, thinned.need(), waterFrom.need(),
			share("share", "of the dry recovered paper of all pulpers"),
			share("reject-rate", "coarse rejects, of the dry bales"),
			percent("reject-dryness", "DryContent", "of the coarse rejects"), rejectsTo,
		}, pulperStreams, pulperRows, enclosed},
		{"screen", "parts stock into accepts and rejects", screen, screenStreams, screenRows, nil},
		{"cleaner", "parts stock into accepts and rejects", screen, screenStreams, screenRows, nil},
		{"thickener", "takes water out of stock", thickener, thickenerStreams, thickenerRows, moving},
		{"save-all", "takes the stock out of water", thickener, thickenerStreams, thickenerRows, moving},
		{"chest", "joins streams, and thins them if it gives a consistency", []key{thinned, waterFrom}, mixStreams, mixRows, enclosed},
		{"headbox", "thins the stock for the wire", []key{thinned.need(), waterFrom.need()}, mixStreams, mixRows, moving},
		{"wire", "keeps part of the stock as a sheet", []key{
			{name: "retention", sort: shares, quantity: "Fraction", unit: "%", high: 100, required: true,
				about: "share that leaves with the sheet; without one, dissolved matter follows the water"},
			sheetDry.need(), waterTo.need(), broke, brokeTo,
		}, wireStreams, wireRows, moving},
		{"press", "presses water out of the sheet", []key{sheetDry.need(), waterTo.need(), broke, brokeTo}, pressStreams, pressRows, moving},
		{"dryers", "dry the sheet", []key{
			sheetDry.need(), broke, brokeTo,
			above("steam", "MassRatio", "t/t", "steam for a tonne evaporated"),
			above("cylinders", "Count", "1", "number of drying cylinders"),
			above("diameter", "Length", "m", "of the drying cylinders"),
		}, dryersStreams, dryersRows, hot},
		{"size press", "gives the sheet a solution", []key{
			percent("solution", "Consistency", "strength of the solution").need(),
			{name: "adds", sort: component, required: true, about: "the component in the solution"},
			percent("dryness", "DryContent", "of the sheet that leaves"),
			above("pick-up", "Fraction", "%", "dry matter taken up, over the dry sheet"), broke, brokeTo,
		}, sizeStreams, sizeRows, hot},
		{"reel", "winds up the sheet", []key{
			above("width", "Length", "m", "of the sheet on the reel"),
			above("grammage", "Grammage", "g/m2", "of the sheet on the reel"), broke, brokeTo,
		}, sheetStreams, sheetRows, wound},
		{"winder", "slits the reel", []key{broke, brokeTo}, sheetStreams, sheetRows, wound},
	}
}

func kindNamed(name string) (*kind, bool) {
	for _, k := range kinds() {
		if k.name == name {
			return k, true
		}
	}
	return nil, false
}

func (k *kind) key(name string) (key, bool) {
	for _, list := range [][]key{everyStage, k.keys} {
		for _, key := range list {
			if key.name == name {
				return key, true
			}
		}
	}
	return key{}, false
}

func (k *kind) keyNames() []string {
	var names []string
	for _, list := range [][]key{everyStage, k.keys} {
		for _, key := range list {
			names = append(names, key.name)
		}
	}
	return names
}

// The keys of a file outside its stages.
var (
	lineKeys = []key{
		{name: "name", sort: word, about: "of the line"},
		{name: "waste", sort: exits, about: "where something leaves the mill, beside what is sold and what evaporates"},
		{name: "effluent", sort: exits, about: "where water leaves the mill"},
		{name: "temperature", quantity: "Temperature", unit: "degC", high: 99, about: "of everything that gives none of its own"},
		{name: "size", sort: inner}, {name: "mill", sort: inner}, {name: "conventions", sort: inner},
		{name: "component", sort: inner}, {name: "tank", sort: inner}, {name: "water", sort: inner}, {name: "stage", sort: inner},
	}
	componentKeys = []key{
		{name: "name", sort: word, required: true, about: "of what stock is made of, other than water"},
		{name: "form", sort: word, required: true, about: "suspended, which follows retention and rejects, or dissolved, which follows the water"},
		above("density", "Density", "kg/m3", "of a suspended component, for volume flows"),
	}
	tankKeys = []key{
		{name: "name", sort: word, required: true, about: "by which others refer to it"},
		{name: "overflow", sort: place, about: "where it overflows to; this, make-up or both"},
		{name: "make-up", sort: tankName, about: "what keeps it full: fresh, or a tank"},
		temperature,
	}
	waterFlow     = key{name: "flow", quantity: "MassFlow", unit: "t/h", endless: true, openLow: true, required: true, about: "of the water; or in t/t, per tonne sold"}
	waterPerTonne = above("flow", "MassRatio", "t/t", "of the water, per tonne sold")
	waterKeys     = []key{
		{name: "name", sort: word, required: true, about: "of a shower, sealing water or another water at a given rate"},
		{name: "from", sort: tankName, about: "a tank; fresh if left out"},
		{name: "to", sort: place, required: true, about: "where it goes"},
		waterFlow,
		{name: "temperature", quantity: "Temperature", unit: "degC", high: 99, about: "of fresh water, for its volume flow"},
	}
)

// The keys that can fix the size of a line; a file gives one.
var sizes = []key{
	above("fed", "MassFlow", "t/h", "recovered paper fed"),
	above("reel", "MassFlow", "t/h", "made at the reel"),
	above("sold", "MassFlow", "t/h", "sold"),
	above("speed", "Speed", "m/min", "of the machine; the reel gives width and grammage"),
}

// The keys of the mill around the line.
var millKeys = []key{
	share("running", "share of the time with the sheet on the reel"),
	above("yard", "Mass", "t", "recovered paper in the yard"),
}

// A Kind describes a kind of stage for people who write files.
type Kind struct {
	Name, About string
	Keys        []Key
}

// A Key is a key that stages of a kind take.
type Key struct {
	Name, About string
	Required    bool
}

// Kinds returns the kinds of stage and their keys, apart from those that every
// stage takes: name, kind, to and temperature.
func Kinds() []Kind {
	var list []Kind
	for _, k := range kinds() {
		d := Kind{Name: k.name, About: k.about}
		for _, key := range k.keys {
			d.Keys = append(d.Keys, Key{key.name, key.about, key.required})
		}
		list = append(list, d)
	}
	return list
}

// Tables returns the keys that a file may use, table by table: first those of every
// stage, then those of each kind.
func Tables() []calc.FileTable {
	list := []calc.FileTable{
		told("", "", lineKeys),
		told("[size]", "one of these fixes it", sizes),
		told("[mill]", "", millKeys),
		chosen(),
		told("[[component]]", "what stock is made of; repeated for each", componentKeys),
		told("[[tank]]", "well mixed; repeated for each", tankKeys),
		told("[[water]]", "at a given rate; repeated for each", waterKeys),
		told("[[stage]]", "in the order in which stock meets them; repeated for each", everyStage),
	}
	for _, k := range kinds() {
		list = append(list, told(fmt.Sprintf("kind = %q", k.name), k.about, k.keys))
	}
	return list
}

// chosen describes the conventions.
func chosen() calc.FileTable {
	t := calc.FileTable{Head: "[conventions]", About: "on which the answer depends; the first word is the default"}
	for _, c := range conventions {
		t.Keys = append(t.Keys, calc.FileKey{Name: c.key, Holds: sort.holds(word), About: strings.Join(c.words, " | ")})
	}
	return t
}

// told describes the keys of a table, other than those that hold tables.
func told(head, about string, keys []key) calc.FileTable {
	t := calc.FileTable{Head: head, About: about}
	for _, k := range keys {
		if k.sort == inner {
			continue
		}
		d := calc.FileKey{Name: k.name, About: k.about, Required: k.required, Holds: k.sort.holds()}
		if k.quantity != "" && k.sort == figure {
			d.Field = k.field(k.name)
		}
		t.Keys = append(t.Keys, d)
	}
	return t
}

// A Choice is a convention and the words that a file may choose from. The first is
// the default.
type Choice struct {
	Key   string
	Words []string
}

// Choices returns the conventions.
func Choices() []Choice {
	var list []Choice
	for _, c := range conventions {
		list = append(list, Choice{c.key, append([]string(nil), c.words...)})
	}
	return list
}
