// Package trim plans what a slitter cuts: which reels lie side by side in a set,
// and how often each set is cut, so that an order list takes the fewest sets. This
// is the one-dimensional cutting-stock problem as a mill meets it. Every plan comes
// with a lower bound that can be checked in whole numbers.
//
//	job := trim.Job{
//		Parents: []trim.Parent{{Deckle: 5180 * paperprop.Millimetre}},
//		Orders:  []trim.Order{{Width: 1450 * paperprop.Millimetre, Reels: 6}, ...},
//	}
//	plan, err := job.Plan(ctx)
//
// # Method
//
// Widths are whole numbers of a common step, found from their decimals, so that
// three reels of 0.1 m fit 0.3 m. Equal widths are one row; an order of thousands
// is one number.
//
// A linear program over the sets found so far (Gilmore and Gomory 1961) is solved
// by the simplex method with a dense inverse. The sets it lacks are found by a
// bounded knapsack in whole numbers, solved exactly under the limits of the
// slitter. Rows take no more of a set than is ordered, which makes the program
// stronger; the cuts of an order of several sheets share that limit. Its dual
// values are rounded to whole numbers before they are trusted. Whatever they are,
// if no set is worth more than Z and the orders are worth V, no plan has fewer than
// V/Z sets (Farley 1990). That is the [Certificate].
//
// Plans come from dives: whole parts of the solution are fixed, or what is nearest
// to the next whole number, and the program is solved again for the rest, with
// sets that fit the rest. Most problems end here, as the bound rounded up is
// nearly always reached (see Caprara, Dell'Amico, Díaz-Díaz, Iori and Rizzi 2015
// for those where it is not). For the others a search branches on one more run of
// a set against no more of it, with new sets in every node, until its tree is empty
// or time is up.
//
// Another search comes first where a plan of one set fewer leaves little room. What
// a set is worth below Z is lost, and a plan of n sets may lose n·Z − V in all, so
// a set that alone loses more is in none (reduced costs as Dantzig, Fulkerson and
// Johnson 1954 use them, in whole numbers). Dual values from inside the optimal face
// leave the fewest sets (looked for as in de Lima, Iori and Miyazawa 2023): often
// some hundred out of billions, which are listed and searched. Where there are too
// many, and sets must be full or nearly so, the search branches on the sets of the
// rarest reel, or on whether two reels lie side by side (Ryan and Foster 1981; Vance
// 1998), and lists again. A table of the most that the widths to come can be worth
// in each remaining width leads to the sets.
//
// Where deckles of several widths add up to a cost, the number of sets from each is
// chosen first, and what is left is searched.
//
// Then, at that cost, the fewest different sets: dives over sets that are cut t
// times at once, as in Vanderbeck 2000. Between them, what a few sets make together
// is made by one fewer of others, as in Foerster and Wäscher 2000, or by as many
// others, from which the next such step may lead on. Where patterns must be cut
// several times, or sets be full, such steps mend a plan that does not comply.
//
// The papers are named from memory, except those on bin packing in
// testdata/trim/README.md.
//
// Nothing depends on chance (random draws have a fixed seed), on the number of
// processors, or on the order of the list. Only time matters, where it ends a
// search.
//
// # What people get wrong
//
// A plan without a proof is not wrong: look at [Certificate].Proven before calling it
// the best, and give Plan a context with a deadline where nobody waits for the proof.
//
// An order without Least is owed all its reels, whatever Most is; NoneWillDo says
// that none will do. Under- and over-run are whole reels here; [Within] computes
// them from a percentage.
//
// The deckle is what the machine makes; the edges take Edge on each side, and
// [Plan.Loss] counts both.
//
// Trim saved with widths that nobody ordered is no saving: only the job names
// fillers.
package trim

import (
	"context"
	"fmt"

	"millmaths.example/paperprop"
)

// A Job is a list of orders and the machines and limits for slitting them.
type Job struct {
	Orders  []Order
	Parents []Parent // at least one
	Slitter Slitter
	Fillers []Filler // used in this order once all orders are planned; they count towards LeastUsed
	Aim     Aim
	// AnyPatterns accepts any number of different patterns, which saves the time to
	// reduce it.
	AnyPatterns bool
	// Partly leaves out what can't be made, and lists it in [Plan.Left], instead of
	// refusing the job. Each order in turn, from the top of the list, is made whole or
	// as far as there is room beside those above it. Invalid numbers are still refused.
	Partly bool
	// Bad are the rows of an order list that could not be read, as in [Listing]: no
	// plan depends on them, and its JSON lists them.
	Bad []error
}

// An Order is a width, and the number of reels wanted.
type Order struct {
	Name  string           // in messages and in the plan; may be empty
	Line  int              // of the list or of the job's file, in messages; zero if there is none
	Width paperprop.Length // of a reel, or of a sheet if Sheets is above 1; above zero
	Reels int              // ordered, from 0
	// Least and Most are the fewest and most reels accepted, for under- and
	// over-run. Zero is not given, and stands for Reels: with neither, the order is
	// exact.
	Least, Most int
	// NoneWillDo says that Least is really zero although reels are ordered: an
	// under-run of 100 %.
	NoneWillDo bool
	// Sheets is the most times Width that a reel may be wide, for sheets cut from
	// it; such a reel counts as so many. At most 100; zero is 1.
	Sheets int
	// Group is what must be the same throughout a set: grade, diameter, core.
	// Orders of different groups never share one.
	Group string
	// ReelMass is the mass of one reel of Width, for the tonnes of the plan; zero
	// is not known.
	ReelMass paperprop.Mass
	// OrderedMass is the mass ordered, of an order by mass; zero is an order by
	// reels.
	OrderedMass paperprop.Mass
	// Coreless says that ReelMass is that of paper down to the middle of the reel, as no
	// diameter of a core was told.
	Coreless bool
}

// A Parent is what sets are cut from: the deckle of the machine, or a stock of
// parent reels.
type Parent struct {
	Deckle paperprop.Length // above zero
	Edge   paperprop.Length // cut away on each side, at least; from 0
	Sets   int              // the most sets it gives; zero is no limit
}

// Slitter holds the limits of every set, by the names that files use. Zero is no
// limit.
//
// Under SetMultiple or LeastSets above 1 a job has no bound if reels of one width may go to
// orders that differ in Sheets: sets that are cut alike and shared out differently count
// apart in the search, so that it misses plans that mix them. Nor has it one under
// MostReels, MostWidths or a Narrowest above the width if orders of one width differ in
// Sheets, 2 or more, that a reel has room for: the search misses plans in which these share
// a reel.
type Slitter struct {
	MostReels   int              `toml:"most-reels" about:"across; with both edges cut, one fewer than the knives"`         // across
	MostWidths  int              `toml:"most-widths" about:"different ones across"`                                         // different ones across
	Narrowest   paperprop.Length `toml:"narrowest" about:"reel"`                                                            // reel
	Widest      paperprop.Length `toml:"widest" about:"reel"`                                                               // reel
	LeastUsed   paperprop.Length `toml:"least-used" about:"width of the reels of a set, together"`                          // sum of the reels across, fillers too
	SetMultiple int              `toml:"set-multiple" about:"sets that a jumbo gives: a pattern is cut in multiples of it"` // a pattern is cut in multiples of this: the sets of a jumbo
	LeastSets   int              `toml:"least-sets" about:"of a pattern that is cut at all"`                                // a pattern that is cut at all is cut at least so often
}

// A Filler is a width that may use up trim.
type Filler struct {
	Width paperprop.Length // above zero
	Most  int              // reels at most; zero is as many as fit
	Group string           // "" lies beside every group
}

// Aim is what a plan minimises first.
type Aim uint8

const (
	// FewestSets counts sets, equally for all parents.
	FewestSets Aim = iota
	// LeastWidth adds up the deckles of all sets: the least mass and, with exact
	// counts, the least trim.
	LeastWidth
)

// A Plan is what to cut.
type Plan struct {
	Patterns []Pattern // most often cut first
	Sets     int       // cut in all
	Orders   []Made    // as in the job
	Fillers  []int     // reels of each filler
	Left     []Left    // left out of the plan, only if the job is planned partly
	// Deckle is the width of all sets together; Trim is the part of it in no reel,
	// both edges included.
	Deckle, Trim paperprop.Length
	Certificate  Certificate
}

// A Pattern is a set, and how often it is cut.
type Pattern struct {
	Times  int
	Parent int              // index in the job
	Group  string           // of its orders
	Reels  []Reels          // widest first
	Edge   paperprop.Length // on each side, if the set is centred
	Trim   paperprop.Length // both edges together
}

// Reels are reels of one width, side by side.
type Reels struct {
	Width  paperprop.Length
	Count  int
	Sheets int  // sheets across each of them; 1 for a reel order
	Filler bool // belongs to no order
}

// Made is what a plan makes for an order.
type Made struct {
	Reels int // in multiples of the order's width
	Over  int // more than ordered; below zero: fewer
	// OverMass is the mass of Over; for an order by mass, the mass of the reels
	// above the mass ordered. It is zero if the mass of a reel is not known.
	OverMass paperprop.Mass
}

// Left is an order, or some of its reels, that a plan leaves out.
type Left struct {
	Order  int // index in the job
	Reels  int
	Reason string
}

// Proof says how the bound of a plan is proven.
type Proof uint8

const (
	// ByWeights is a sum that anyone can check: see [Weights].
	ByWeights Proof = iota
	// BySearch means that all plans below the bound are ruled out otherwise: by a
	// complete search, because no deckles add up to a cost between weights and
	// plan, or by weights of fillers too.
	BySearch
)

// A Certificate shows how little any plan can take.
type Certificate struct {
	// Bound is what any plan takes at least: sets or, for [LeastWidth], the sum of
	// deckles in steps of Step.
	Bound int
	// Value is what the plan takes, in the same unit.
	Value  int
	Step   paperprop.Length // zero for sets
	Proven bool             // Value equals Bound
	Proof  Proof            // how the last step of Bound is proven
	// Weights prove Bound, or the part of it that needs no search, as a sum over
	// groups.
	Weights []Weights
}

// Weights prove a bound for the orders of some groups: give each reel of order i
// the weight Order[i]; then no set on parent j weighs more than Full times the cost
// of j plus Spare[j], where the cost is 1, or the deckle in steps. So all sets cost
// at least the weight of everything ordered, less Spare[j] for each set that parent
// j gives, over Full. An order counts with its least, or with its most if its
// weight is below zero. A set counts no more of a width than the least of all its
// orders, as the rest may be trim; under LeastUsed or LeastSets no more than their
// most, over the times that it is cut at least. With a set multiple all these are
// counted in multiples, and the bound is multiplied.
type Weights struct {
	Orders []int // whose weights these are, by index in the job
	Order  []int64
	Spare  []int64
	Full   int64
	Bound  int // proven by these weights
	// Proof says whether a search raised the bound of these orders further.
	Proof Proof
}

// An OrderError reports an order that fits in no set, or in no plan.
type OrderError struct {
	Index  int // in the job, from 0
	Order  Order
	Reason string
}

// Error returns the line, the width and the reason.
func (e *OrderError) Error() string {
	where := fmt.Sprintf("order %d", e.Index+1)
	if e.Order.Line > 0 {
		where = fmt.Sprintf("line %d", e.Order.Line)
	}
	if e.Order.Name != "" {
		where += ", " + e.Order.Name
	}
	return fmt.Sprintf("%s: width %v: %s", where, e.Order.Width, e.Reason)
}

// Plan finds what to cut. When ctx ends it returns the best plan so far; the
// certificate shows what is not proven. Otherwise it ends when all is proven, which
// takes long for a few lists.
//
// The error is an [OrderError] if one order is at fault, else it names the limit of the
// machine or of the job that no plan can keep. The end of ctx is none. Planning does
// not change the job, so several goroutines may plan one.
func (j *Job) Plan(ctx context.Context) (*Plan, error) {
	b, err := j.read()
	if err != nil {
		return nil, err
	}
	return b.plan(ctx)
}
