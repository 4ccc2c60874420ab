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
	"millmaths.example/paperprop/trim"
	"millmaths.example/stock/line"
)

// A Book is an order book, with the machine that is to make it. Planning leaves
// it as it is.
type Book struct {
	Name     string
	File     string    // "" for one that was read from no file
	Start    time.Time // when the machine is free, by the clock of the mill
	Machine  Machine
	Jumbo    Jumbo
	Change   Change
	Handling paperprop.Duration // from the jumbo to the lorry: slitting, wrapping, loading; from 0
	Yard     paperprop.Mass     // recovered paper there, as it lies; zero is not told
	Grades   []Grade
	Sequence []string // names of grades as they are to run; empty: chosen
	Running  string   // the grade on the machine at Start; "": that which comes first
	Broke    Broke
	Orders   []Order
	Limit    time.Duration // of the search for sets, in all; zero is without end

	Bad    []error  // orders of the list that could not be read
	Notes  []string // how the list was understood
	List   string   // its file; "" where the book holds the orders
	Footer int      // rows that are the list's own totals, not counted
}

// A Machine is what sets are cut on.
type Machine struct {
	Deckle paperprop.Length // that is slit, above zero, at most the width of the line's reel
	Edge   paperprop.Length // of it cut away on each side, at least; from 0
	trim.Slitter
}

// A Jumbo is a reel as the machine winds it.
type Jumbo struct {
	Diameter paperprop.Length // above Spool
	Spool    paperprop.Length // from 0
	Lost     paperprop.Length // of paper, outside and inside, threading: of each jumbo; from 0
	Turned   bool             // up when its whole sets are wound; else it is wound full, and the rest is broke
}

// A Change of grade takes time, in which some paper is made that can't be sold.
type Change struct {
	Time paperprop.Duration // from 0
	Loss paperprop.Mass     // made at the reel and broke, from 0
}

// Broke says what of it the line's figure at the winder holds.
type Broke uint8

const (
	// BesideTrim: strips beside the deckle, breaks and what is cast off; trim of
	// the deckle and rests of jumbos come on top.
	BesideTrim Broke = iota
	// TrimIncluded: these too. A plan that cuts away more is refused.
	TrimIncluded
)

// A Grade is what is sold under a name, and the line as it runs for it.
type Grade struct {
	Name           string
	Grammage       paperprop.Grammage // at the dryness of the reel, above zero
	ReelThickness  paperprop.Length   // of a layer in the reel, above zero
	JumboThickness paperprop.Length   // of one in the jumbo; zero: as in the reel
	Uptime         paperprop.Fraction // time with sheet on the reel; zero: as the line tells
	Line           *line.Line
}

// An Order is what a customer asked for, and by when. Several may bear one name: the
// lines of one order, each with its own width and figures.
type Order struct {
	trim.Request
	Customer string
	Due      time.Time // zero: no date
}

// A Plan is what an order book takes.
type Plan struct {
	Book        *Book
	Runs        []Run  // of grades, as they follow each other
	Orders      []Made // as in the book
	Tonnes      Tonnes // of all runs
	Takes       Takes
	Hours       Hours
	Ready       time.Time      // when the last run ends
	YardLeft    paperprop.Mass // below zero: so much is missing
	YardOut     time.Time      // when it is empty; zero: it lasts, or is not told
	Conventions []string       // on which all that depends
}

// A Run is the making of one grade.
type Run struct {
	Grade   *Grade
	Job     trim.Job
	Sets    *trim.Plan
	Wound   []Wound // by kinds of reel, as they follow each other
	Jumbos  int
	Changed bool      // a change of grade came before
	Change  time.Time // when that began; Begin where there was none
	Begin   time.Time // of the first jumbo
	End     time.Time // of the last
	Hours   Hours
	Tonnes  Tonnes
	Takes   Takes
	Broke   paperprop.Fraction // of what is made at the reel, all in all
	Line    *line.Answer       // of an hour that the grade runs

	orders []int // of the book; the job has them in this order
	needs  needs
}

// Cut are the patterns of the sets, by their index, as they are cut.
func (r *Run) Cut() []int {
	var list []int
	for _, w := range r.Wound {
		list = append(list, w.patterns...)
	}
	return list
}

// Wound tells how reels of one kind are wound: sets of one kind alone lie on a
// jumbo.
type Wound struct {
	Diameter, Core paperprop.Length
	Group          string           // as the orders name it
	Length         paperprop.Length // of a reel
	Jumbo          paperprop.Length // on a jumbo that is wound full
	PerJumbo       int              // sets
	Sets, Jumbos   int
	Rest           paperprop.Length // on a spool that is wound full, over its sets; zero where it is turned up
	Rests          int              // spools with a rest: the last is wound to its sets

	name     string
	patterns []int // of the plan, as they are cut
	lost     paperprop.Length
}

// Tonnes are what is made at the reel, and what becomes of it.
type Tonnes struct {
	Ordered paperprop.Mass // of reels up to what is ordered
	Over    paperprop.Mass // of reels above that
	Trim    paperprop.Mass // of the deckle
	Rest    paperprop.Mass // of jumbos, what is lost of each included
	Broke   paperprop.Mass // what else the line tells: strips, breaks, cast off
	Change  paperprop.Mass // of grade
	Made    paperprop.Mass // at the reel: the sum
}

// Takes are what the making takes in and gives off. Zero is none, or not told
// by the line.
type Takes struct {
	Paper       paperprop.Mass        // recovered, as it lies
	DryPaper    paperprop.OvenDryMass // in it
	FreshWater  paperprop.Mass
	Steam       paperprop.Mass // of the dryers
	Added       []Added
	Evaporation paperprop.Mass
	Effluent    paperprop.Mass
}

// Added is what size presses add of a component.
type Added struct {
	Component string
	Mass      paperprop.OvenDryMass
}

// Hours are times of the machine.
type Hours struct {
	Reeling paperprop.Duration // with sheet on the reel, but for changes
	Lost    paperprop.Duration // by uptime
	Changes paperprop.Duration
}

// Sum is all of them.
func (h Hours) Sum() paperprop.Duration { return h.Reeling + h.Lost + h.Changes }

// Made is what becomes of an order.
type Made struct {
	Order  trim.Order // as counted in reels
	Reels  int
	Over   int            // reels above what is ordered; below zero: under
	Mass   paperprop.Mass // of Reels
	Ready  time.Time      // zero: it is not made
	Late   time.Duration  // above zero: after its date
	First  time.Time      // when it would be ready if its grade ran first; zero if it is not late
	Left   int            // reels that can't be made
	Reason string         // why it is late, or can't be made
}

// Out tells whether the order is left out, or some of its reels.
func (m *Made) Out() bool { return m.Left > 0 || m.Reels == 0 && m.Reason != "" }
