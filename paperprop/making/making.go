// Package making carries an order book back to what it takes. It slits the orders
// of each grade (package trim), lays the sets on jumbos, schedules the machine's
// hours with changes of grade, and asks the line (package line) for bales, fresh
// water, steam and starch.
//
//	book, err := making.ReadFile("order-book.toml", table.Options{})
//	...
//	plan, err := book.Plan(ctx)
//	fmt.Printf("%.1f t of recovered paper until %s\n", plan.Takes.Paper.In(paperprop.Tonne), making.Day(plan.Ready))
//	for i, m := range plan.Orders {
//		if m.Late > 0 {
//			fmt.Println(book.Orders[i].Name, m.Reason)
//		}
//	}
//
// # Method
//
// A set is as long as its reels: grammage, thickness in the reel, diameter and
// core give that length, and so the mass. The sets of a plan, divided by those of a
// jumbo, give the jumbos, and with them the trim of the deckle and what stays on a
// spool. The line says what else of the reel comes back as broke. These three make
// up the share of the machine's paper that is not sold. The line is balanced once
// more with that share at its winder, at the production that its file states. So no
// tonne is counted as broke twice, and what a grade takes is the balance of a
// running hour times the hours that its paper takes.
//
// Grades run one after another, each once. Where the book gives no sequence, that
// with the fewest late orders is taken, and of those the one with the least
// lateness. Within a grade, sets are cut in the order of the dates they have to meet.
//
// # What people get wrong
//
// What a line tells as broke of its winder holds the trim of the deckle or doesn't:
// [Book].Broke says which. The other way round, broke is counted twice or not at all.
//
// An order is ready once its last jumbo is wound and Handling is over, not when its
// grade begins or ends. A date without a time is met until its midnight.
//
// A jumbo is wound full, and what stays on its spool is made and not sold; Turned says
// that it is not wound.
//
// The plan of each grade has a certificate of its own. Give Plan a context with an end,
// or the book a Limit, where nobody waits for proofs.
package making

import (
	"time"

	"millmaths.example/paperprop"
	"millmaths.example/paperprop/internal/strict"
	"millmaths.example/paperprop/trim"
	"millmaths.example/stock/line"
)

// A Book is an order book, with the machine to make it on. Planning does not change
// it.
type Book struct {
	Name     string
	File     string    // "" if it was not read from a file
	Start    time.Time // when the machine is free, by the clock of the mill
	Machine  Machine
	Jumbo    Jumbo
	Change   Change
	Handling paperprop.Duration // from the jumbo to the lorry: slitting, wrapping, loading; from 0
	Yard     paperprop.Mass     // recovered paper in the yard, moist; zero is not given
	Grades   []Grade
	Sequence []string // names of grades in the order to run; if empty, one is chosen
	Running  string   // the grade on the machine at Start; if "", the first to run
	Broke    Broke
	Orders   []Order
	Limit    time.Duration // time for the whole search for sets; zero is no limit

	Bad    []error  // orders of the list that could not be read
	Notes  []string // how the list was understood
	List   string   // file of the list; "" if the book holds the orders
	Footer int      // rows that are the list's own totals, not counted

	source *strict.Source // nil if it was not read from a file
}

// A Machine is the machine that sets are cut on.
type Machine struct {
	Deckle paperprop.Length // width that is slit, above zero, at most that of the line's reel
	Edge   paperprop.Length // least width cut away on each side, from 0
	trim.Slitter
}

// A Jumbo is a reel as wound by the machine.
type Jumbo struct {
	Diameter paperprop.Length // above Spool
	Spool    paperprop.Length // from 0
	Lost     paperprop.Length // length of paper lost of each jumbo, outside, inside and in threading; from 0
	Turned   bool             // turned up when its whole sets are wound; else it is wound full, and the rest is broke
}

// A Change is a change of grade. It takes time, in which some unsaleable paper is
// made.
type Change struct {
	Time paperprop.Duration // from 0
	Loss paperprop.Mass     // unsaleable paper made at the reel, from 0
}

// Broke says what the line's figure for broke at the winder includes.
type Broke uint8

const (
	// BesideTrim means the strips outside the deckle, breaks and rejects. Trim of
	// the deckle and rests of jumbos come on top.
	BesideTrim Broke = iota
	// TrimIncluded means these too. A plan that cuts away more is refused.
	TrimIncluded
)

// A Grade is a product, with the line as it runs for it.
type Grade struct {
	Name           string
	Grammage       paperprop.Grammage // at the dryness of the reel, above zero
	ReelThickness  paperprop.Length   // of a layer in the reel, above zero
	JumboThickness paperprop.Length   // of a layer in the jumbo; zero is as in the reel
	Uptime         paperprop.Fraction // share of time with sheet on the reel; zero is that of the line
	Line           *line.Line
}

// An Order is what a customer ordered, and by when. Several may share a name: the
// items of one order, each with its own width and figures.
type Order struct {
	trim.Request
	Customer string
	Due      time.Time // zero is no date
}

// A Plan is everything that an order book takes.
type Plan struct {
	Book        *Book
	Runs        []Run  // in sequence
	Orders      []Made // as in the book
	Tonnes      Tonnes // of all runs
	Takes       Takes
	Hours       Hours
	Ready       time.Time      // when the last run ends
	YardLeft    paperprop.Mass // below zero if so much is missing
	YardOut     time.Time      // when the yard is empty; zero if it lasts, or is not given
	Conventions []string       // statements that the plan depends on
}

// A Run is the production of one grade.
type Run struct {
	Grade   *Grade
	Job     trim.Job
	Sets    *trim.Plan
	Wound   []Wound // by kinds of reel, in sequence
	Jumbos  int
	Changed bool      // a change of grade came before
	Change  time.Time // when the change began; Begin if there was none
	Begin   time.Time // of the first jumbo
	End     time.Time // of the last
	Hours   Hours
	Tonnes  Tonnes
	Takes   Takes
	Broke   paperprop.Fraction // all broke over what is made at the reel
	Line    *line.Answer       // of an hour that the grade runs

	orders []int // of the book; the job has them in this order
	needs  needs
}

// Cut returns the indices of the patterns of the sets, in the order they are cut.
func (r *Run) Cut() []int {
	var list []int
	for _, w := range r.Wound {
		list = append(list, w.patterns...)
	}
	return list
}

// Wound says how reels of one kind are wound. Only sets of one kind share a jumbo.
type Wound struct {
	Diameter, Core paperprop.Length
	Group          string           // as the orders name it
	Length         paperprop.Length // of a reel
	Jumbo          paperprop.Length // length on a jumbo that is wound full
	PerJumbo       int              // sets
	Sets, Jumbos   int
	Rest           paperprop.Length // on the spool of a full jumbo, beyond its sets; zero if it is turned up
	Rests          int              // spools with a rest: the last jumbo is wound only for its sets

	name     string
	patterns []int // of the plan, as they are cut
	lost     paperprop.Length
}

// Tonnes is what is made at the reel, and what becomes of it.
type Tonnes struct {
	Ordered paperprop.Mass // reels up to what is ordered
	Over    paperprop.Mass // reels above that
	Trim    paperprop.Mass // of the deckle
	Rest    paperprop.Mass // of jumbos, including what is lost of each
	Broke   paperprop.Mass // other broke of the line: strips, breaks, rejects
	Change  paperprop.Mass // of grade
	Made    paperprop.Mass // at the reel: the sum of the others
}

// Takes is what making takes in and gives off. Zero is none, or not known from the
// line.
type Takes struct {
	Paper       paperprop.Mass        // recovered paper, moist
	DryPaper    paperprop.OvenDryMass // dry matter of Paper
	FreshWater  paperprop.Mass
	Steam       paperprop.Mass // of the dryers
	Added       []Added
	Evaporation paperprop.Mass
	Effluent    paperprop.Mass
}

// Added is the amount of a component that size presses add.
type Added struct {
	Component string
	Mass      paperprop.OvenDryMass
}

// Hours is the times of the machine.
type Hours struct {
	Reeling paperprop.Duration // with sheet on the reel, apart from changes
	Lost    paperprop.Duration // to downtime, by the uptime
	Changes paperprop.Duration
}

// Sum returns the total.
func (h Hours) Sum() paperprop.Duration { return h.Reeling + h.Lost + h.Changes }

// Made is what becomes of an order.
type Made struct {
	Order  trim.Order // in reels
	Reels  int
	Over   int            // reels more than ordered; below zero: fewer
	Mass   paperprop.Mass // of Reels
	Ready  time.Time      // zero if it is not made
	Late   time.Duration  // time after its date, if above zero
	First  time.Time      // when it would be ready if its grade ran first; zero if it is not late
	Left   int            // reels that can't be made
	Reason string         // why it is late, or can't be made
}

// Out reports whether the order, or some of its reels, is left out.
func (m *Made) Out() bool { return m.Left > 0 || m.Reels == 0 && m.Reason != "" }
