package reel

import (
	"github.com/shopspring/decimal"

	"millmaths.example/paperprop"
	"millmaths.example/paperprop/calc"
	"millmaths.example/paperprop/result"
)

// TrimLoss is the trim that a set of reels leaves of the deckle.
type TrimLoss struct {
	Deckle    paperprop.Length   // saleable width of the reel, above zero
	ReelWidth []paperprop.Length // of each reel across, above zero; their sum at most Deckle
	Count     []paperprop.Count  // of each width, whole; empty is one each
}

// TrimLossResult is the trim, over deckle and over reels.
type TrimLossResult struct {
	Trim             paperprop.Length
	EdgeWidth        paperprop.Length // on each side, if the set is centred
	LossOnDeckle     paperprop.Fraction
	LossOnReels      paperprop.Fraction
	DeckleEfficiency paperprop.Fraction
	Reels            paperprop.Count
	Cuts             paperprop.Count // both edges are cut, even if the trim is 0
}

// Calculate adds up the widths in decimals, so that binary fractions leave no
// spurious trim.
func (t TrimLoss) Calculate() (TrimLossResult, error) { return trimLoss.Calculate(t) }

func (t TrimLoss) compute() (TrimLossResult, error) {
	used, spare, reels, err := across(t.ReelWidth, t.Count, "deckle", exactly(t.Deckle))
	if err != nil {
		return TrimLossResult{}, err
	}
	trim := millimetres(spare)
	onDeckle := float64(trim / t.Deckle)
	return TrimLossResult{
		Trim:             trim,
		EdgeWidth:        trim / 2,
		LossOnDeckle:     paperprop.Fraction(onDeckle),
		LossOnReels:      paperprop.Fraction(trim / millimetres(used)),
		DeckleEfficiency: paperprop.Fraction(1 - onDeckle),
		Reels:            paperprop.Count(reels),
		Cuts:             paperprop.Count(reels + 1),
	}, nil
}

// across returns the total width and number of the reels of a set, and the room
// they leave. They must fit into the room, which messages call name.
func across(widths []paperprop.Length, counts []paperprop.Count, name string, room decimal.Decimal) (used, spare decimal.Decimal, reels float64, err error) {
	for i, width := range widths {
		n := 1.0
		if len(counts) > 0 {
			n = float64(counts[i])
		}
		used = used.Add(exactly(width).Mul(result.Exact(n)))
		reels += n
	}
	spare = rest(room, used)
	if reels == 0 {
		err = calc.Refuse("count", paperprop.Count(0), "at least one reel in all")
	} else if spare.Sign() < 0 {
		err = calc.Refuse("reel-width", millimetres(used), "a sum of at most the "+name+", %v", millimetres(room))
	}
	return used, spare, reels, err
}

var trimLoss = &calc.Description[TrimLoss, TrimLossResult]{
	Name:    "trim-loss",
	Title:   "Trim loss of a set of reels",
	Answers: "What width a set of reels leaves of the deckle, what part that is, and how often a knife cuts it.",
	Formula: []string{
		"b_t = B - sum(n*b)", "b_e = b_t/2", "x_d = b_t/B", "x_r = b_t/sum(n*b)", "eta_d = 1 - x_d", "n_r = sum(n)", "n_c = n_r + 1",
	},
	Source:  "definitions; both denominators are in use",
	Status:  calc.CommonPractice,
	Example: "deckle=3300 mm; reel-width=[1080 820] mm; count=[2 1]",
	Mistakes: []string{
		"Loss on the deckle and loss on the reels are different numbers: say which.",
		"One line between two reels is one cut; a mill that cuts a gap between reels makes two.",
	},
	Compare: []calc.Comparison{{
		Name:   "edge-trim",
		Inputs: "sheet-width=3360 mm; least-edge=30 mm; reel-width=[1080 820] mm; count=[2 1]",
		Why:    "on the whole width of the sheet the edges that are always cut away are loss too",
	}},
	Compute: TrimLoss.compute,
	Fields: func(f *calc.Form, in *TrimLoss, out *TrimLossResult) {
		calc.In(f, &in.Deckle, "deckle", "B", "mm", "width that can be sold from the reel").Above(0)
		reelsAcross(f, &in.ReelWidth, &in.Count)
		calc.Out(f, &out.Trim, "trim", "b_t", "mm", "deckle less the reels")
		calc.Out(f, &out.EdgeWidth, "edge-width", "b_e", "mm", "a side, when centred")
		calc.Out(f, &out.LossOnDeckle, "loss-on-deckle", "x_d", "%", "trim over deckle")
		calc.Out(f, &out.LossOnReels, "loss-on-reels", "x_r", "%", "trim over the sum of the reels")
		calc.Out(f, &out.DeckleEfficiency, "deckle-efficiency", "eta_d", "%", "1 - loss-on-deckle")
		calc.Out(f, &out.Reels, "reels", "n_r", "1", "across")
		calc.Out(f, &out.Cuts, "cuts", "n_c", "1", "by the knives: reels + 1, as both edges are cut")
	},
}

func reelsAcross(f *calc.Form, widths *[]paperprop.Length, counts *[]paperprop.Count) {
	f.Even(
		calc.InList(f, widths, "reel-width", "b", "mm", "of each reel across").Above(0),
		calc.InList(f, counts, "count", "n", "1", "of each width; left out: one each").From(0).Optional(),
	)
}

// EdgeTrim is the trim of a set of reels out of the whole width of the sheet.
type EdgeTrim struct {
	SheetWidth paperprop.Length   // on the jumbo, above zero
	LeastEdge  paperprop.Length   // on each side, cut away from every set
	ReelWidth  []paperprop.Length // of each reel across, above zero; their sum at most the usable deckle
	Count      []paperprop.Count  // of each width, whole; empty is one each
}

// EdgeTrimResult is the trim, with and without the edges that must be cut away.
type EdgeTrimResult struct {
	UsableDeckle       paperprop.Length
	Trim               paperprop.Length // of the sheet
	SpareTrim          paperprop.Length // beyond the two least edges
	LossOnSheetWidth   paperprop.Fraction
	LossOnUsableDeckle paperprop.Fraction
}

// Calculate subtracts both least edges from the sheet, then the reels, in decimals.
func (t EdgeTrim) Calculate() (EdgeTrimResult, error) { return edgeTrim.Calculate(t) }

func (t EdgeTrim) compute() (EdgeTrimResult, error) {
	sheet, edge := exactly(t.SheetWidth), exactly(t.LeastEdge)
	usable := rest(sheet, edge.Add(edge))
	if usable.Sign() <= 0 {
		return EdgeTrimResult{}, calc.Refuse("least-edge", t.LeastEdge, "below half of sheet-width, %v", t.SheetWidth/2)
	}
	used, spare, _, err := across(t.ReelWidth, t.Count, "usable-deckle", usable)
	if err != nil {
		return EdgeTrimResult{}, err
	}
	r := EdgeTrimResult{
		UsableDeckle: millimetres(usable),
		Trim:         millimetres(sheet.Sub(used)),
		SpareTrim:    millimetres(spare),
	}
	r.LossOnSheetWidth = paperprop.Fraction(r.Trim / t.SheetWidth)
	r.LossOnUsableDeckle = paperprop.Fraction(r.SpareTrim / r.UsableDeckle)
	return r, nil
}

var edgeTrim = &calc.Description[EdgeTrim, EdgeTrimResult]{
	Name:    "edge-trim",
	Title:   "Trim of a set with edges that must be cut",
	Answers: "What width a set of reels leaves of the sheet, and of the part of it that can be used.",
	Formula: []string{"B_u = b_j - 2*b_e", "b_t = b_j - sum(n*b)", "b_s = B_u - sum(n*b)", "x_b = b_t/b_j", "x_u = b_s/B_u"},
	Source:  "definitions; both widths are in use",
	Status:  calc.CommonPractice,
	Example: "sheet-width=3360 mm; least-edge=30 mm; reel-width=[1080 820] mm; count=[2 1]",
	Mistakes: []string{
		"The same set loses 3.08 % of a sheet of 2600 mm and 1.95 % of the 2570 mm that 15 mm a side leave: say which width.",
		"Trim cannot be zero on the sheet: the slitter needs a strip each side to carry away, 5 to 30 mm (memory).",
	},
	Compare: []calc.Comparison{{
		Name:   "trim-loss",
		Inputs: "deckle=3300 mm; reel-width=[1080 820] mm; count=[2 1]",
		Why:    "the deckle is the usable width already: the edges are not a loss there",
	}},
	Compute: EdgeTrim.compute,
	Fields: func(f *calc.Form, in *EdgeTrim, out *EdgeTrimResult) {
		calc.In(f, &in.SheetWidth, "sheet-width", "b_j", "mm", "on the jumbo").Above(0)
		calc.In(f, &in.LeastEdge, "least-edge", "b_e", "mm", "a side, cut away in every set").From(0)
		reelsAcross(f, &in.ReelWidth, &in.Count)
		calc.Out(f, &out.UsableDeckle, "usable-deckle", "B_u", "mm", "sheet less the two least edges")
		calc.Out(f, &out.Trim, "trim", "b_t", "mm", "sheet less the reels")
		calc.Out(f, &out.SpareTrim, "spare-trim", "b_s", "mm", "beyond the two least edges")
		calc.Out(f, &out.LossOnSheetWidth, "loss-on-sheet-width", "x_b", "%", "trim over the sheet")
		calc.Out(f, &out.LossOnUsableDeckle, "loss-on-usable-deckle", "x_u", "%", "spare trim over usable-deckle")
	},
}

// PlanTrimLoss is the trim of a slitting plan: patterns, and how often each is cut.
type PlanTrimLoss struct {
	Deckle    paperprop.Length   // above zero
	UsedWidth []paperprop.Length // sum of reels of each pattern, above zero, at most Deckle
	Runs      []paperprop.Count  // sets cut with each pattern, whole, not all zero
}

// PlanTrimLossResult is the trim of the whole plan.
type PlanTrimLossResult struct {
	Sets            paperprop.Count
	Trim            paperprop.Length // sum over all sets
	LossOnDeckle    paperprop.Fraction
	LossOnReels     paperprop.Fraction
	PatternMeanLoss paperprop.Fraction // each pattern counted once, whatever its runs
}

// Calculate weights each pattern by its runs.
func (p PlanTrimLoss) Calculate() (PlanTrimLossResult, error) { return planTrimLoss.Calculate(p) }

func (p PlanTrimLoss) compute() (PlanTrimLossResult, error) {
	deckle := exactly(p.Deckle)
	var sets, trim, used, ofPatterns decimal.Decimal
	for i, width := range p.UsedWidth {
		b, n := exactly(width), result.Exact(float64(p.Runs[i]))
		spare := rest(deckle, b)
		if spare.Sign() < 0 {
			return PlanTrimLossResult{}, calc.Refuse("used-width", width, "at most the deckle, %v", p.Deckle)
		}
		sets, trim, used, ofPatterns = sets.Add(n), trim.Add(n.Mul(spare)), used.Add(n.Mul(b)), ofPatterns.Add(spare)
	}
	if sets.IsZero() {
		return PlanTrimLossResult{}, calc.Refuse("runs", paperprop.Count(0), "at least one set in all")
	}
	r := PlanTrimLossResult{Sets: paperprop.Count(sets.InexactFloat64()), Trim: millimetres(trim)}
	r.LossOnDeckle = paperprop.Fraction(r.Trim / millimetres(sets.Mul(deckle)))
	r.LossOnReels = paperprop.Fraction(r.Trim / millimetres(used))
	r.PatternMeanLoss = paperprop.Fraction(float64(millimetres(ofPatterns)/p.Deckle) / float64(len(p.UsedWidth)))
	return r, nil
}

var planTrimLoss = &calc.Description[PlanTrimLoss, PlanTrimLossResult]{
	Name:    "plan-trim-loss",
	Title:   "Trim loss of a slitting plan",
	Answers: "What a plan of patterns leaves of the deckle, each pattern counted as often as it is cut.",
	Formula: []string{
		"N = sum(n)", "b_t = sum(n*(B - b_u))", "x_d = b_t/(N*B)", "x_r = b_t/sum(n*b_u)", "x_p = mean(B - b_u)/B",
	},
	Source:  "encyclopaedia article on the cutting-stock problem, whose 0.401 % is on the deckle; both denominators are in use",
	Status:  calc.Published,
	Example: "deckle=3300 mm; used-width=[3060 2900 3240 3280] mm; runs=[3 3 3 1]",
	Mistakes: []string{
		"The mean over the patterns is not the loss of the plan: it is shown because it is reported.",
		"Reels cut beyond the order count as used here: say so where they are not sold.",
	},
	Compute: PlanTrimLoss.compute,
	Fields: func(f *calc.Form, in *PlanTrimLoss, out *PlanTrimLossResult) {
		calc.In(f, &in.Deckle, "deckle", "B", "mm", "width that can be sold from the reel").Above(0)
		f.Even(
			calc.InList(f, &in.UsedWidth, "used-width", "b_u", "mm", "sum of reels of each pattern, at most the deckle").Above(0),
			calc.InList(f, &in.Runs, "runs", "n", "1", "sets cut with each pattern").From(0),
		)
		calc.Out(f, &out.Sets, "sets", "N", "1", "of the plan")
		calc.Out(f, &out.Trim, "trim", "b_t", "mm", "summed over all sets")
		calc.Out(f, &out.LossOnDeckle, "loss-on-deckle", "x_d", "%", "trim over deckle, by runs")
		calc.Out(f, &out.LossOnReels, "loss-on-reels", "x_r", "%", "trim over reels, by runs")
		calc.Out(f, &out.PatternMeanLoss, "pattern-mean-loss", "x_p", "%", "patterns counted once each: the wrong figure")
	},
}
