package reel

import (
	"github.com/shopspring/decimal"

	"millmaths.example/paperprop"
	"millmaths.example/paperprop/calc"
	"millmaths.example/paperprop/result"
)

// TrimLoss is what a set of reels leaves of the deckle.
type TrimLoss struct {
	Deckle    paperprop.Length   // width that can be sold from the reel, above zero
	ReelWidth []paperprop.Length // of each reel across, above zero; their sum at most Deckle
	Count     []paperprop.Count  // of each width, whole; empty: one each
}

// TrimLossResult is the trim, on either denominator.
type TrimLossResult struct {
	Trim             paperprop.Length
	EdgeWidth        paperprop.Length // a side, when centred
	LossOnDeckle     paperprop.Fraction
	LossOnReels      paperprop.Fraction
	DeckleEfficiency paperprop.Fraction
	Reels            paperprop.Count
	Cuts             paperprop.Count // both edges are cut, also at trim 0
}

// Calculate adds the widths up in decimals, so that no trim comes of binary
// fractions.
func (t TrimLoss) Calculate() (TrimLossResult, error) { return trimLoss.Calculate(t) }

func (t TrimLoss) compute() (TrimLossResult, error) {
	deckle, used, reels := result.Exact(float64(t.Deckle)), decimal.Zero, 0.0
	for i, width := range t.ReelWidth {
		n := 1.0
		if len(t.Count) > 0 {
			n = float64(t.Count[i])
		}
		used = used.Add(result.Exact(float64(width)).Mul(result.Exact(n)))
		reels += n
	}
	sum := paperprop.Length(used.InexactFloat64())
	if reels == 0 {
		return TrimLossResult{}, calc.Refuse("count", paperprop.Count(0), "at least one reel in all")
	}
	if used.GreaterThan(deckle) {
		return TrimLossResult{}, calc.Refuse("reel-width", sum, "a sum of at most the deckle, %v", t.Deckle)
	}
	trim := paperprop.Length(deckle.Sub(used).InexactFloat64())
	onDeckle := float64(trim / t.Deckle)
	return TrimLossResult{
		Trim:             trim,
		EdgeWidth:        trim / 2,
		LossOnDeckle:     paperprop.Fraction(onDeckle),
		LossOnReels:      paperprop.Fraction(trim / sum),
		DeckleEfficiency: paperprop.Fraction(1 - onDeckle),
		Reels:            paperprop.Count(reels),
		Cuts:             paperprop.Count(reels + 1),
	}, nil
}

var trimLoss = &calc.Description[TrimLoss, TrimLossResult]{
	Name:    "trim-loss",
	Title:   "Trim loss of a set of reels",
	Answers: "What width a set of reels leaves of the deckle, and what part that is.",
	Formula: []string{
		"b_t = B - sum(n*b)", "b_e = b_t/2", "x_d = b_t/B", "x_r = b_t/sum(n*b)", "eta_d = 1 - x_d", "n_r = sum(n)", "n_c = n_r + 1",
	},
	Source:   "definitions; both denominators are in use",
	Status:   calc.CommonPractice,
	Example:  "deckle=3300 mm; reel-width=[1080 820] mm; count=[2 1]",
	Mistakes: []string{"Loss on the deckle and loss on the reels are different numbers: say which."},
	Compute:  TrimLoss.compute,
	Fields: func(f *calc.Form, in *TrimLoss, out *TrimLossResult) {
		calc.In(f, &in.Deckle, "deckle", "B", "mm", "width that can be sold from the reel").Above(0)
		f.Even(
			calc.InList(f, &in.ReelWidth, "reel-width", "b", "mm", "of each reel across").Above(0),
			calc.InList(f, &in.Count, "count", "n", "1", "of each width; left out: one each").From(0).Optional(),
		)
		calc.Out(f, &out.Trim, "trim", "b_t", "mm", "deckle less the reels")
		calc.Out(f, &out.EdgeWidth, "edge-width", "b_e", "mm", "a side, when centred")
		calc.Out(f, &out.LossOnDeckle, "loss-on-deckle", "x_d", "%", "trim over deckle")
		calc.Out(f, &out.LossOnReels, "loss-on-reels", "x_r", "%", "trim over the sum of the reels")
		calc.Out(f, &out.DeckleEfficiency, "deckle-efficiency", "eta_d", "%", "1 - loss-on-deckle")
		calc.Out(f, &out.Reels, "reels", "n_r", "1", "across")
		calc.Out(f, &out.Cuts, "cuts", "n_c", "1", "reels + 1: both edges are cut")
	},
}
