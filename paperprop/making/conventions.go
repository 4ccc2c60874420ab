package making

import (
	"fmt"
	"slices"
)

// conventions returns the statements that a plan depends on, as chosen by the book.
func (b *Book) conventions(runs []Run) []string {
	broke := "the line's broke at the winder includes the strips outside the deckle, breaks and rejects; " +
		"trim of the deckle and rests of jumbos come on top of it"
	if b.Broke == TrimIncluded {
		broke = "the line's broke at the winder includes trim of the deckle and rests of jumbos too"
	}
	jumbo := "a jumbo is wound full, and what stays on the spool over its whole sets is broke; the last of a grade, or of a size of reels in it, is wound to its sets"
	if b.Jumbo.Turned {
		jumbo = "a jumbo is turned up when its whole sets are wound"
	}
	list := []string{
		broke,
		"all broke comes back at the winder of the grade's line, which is balanced at that broke and at the production of its file: none is counted twice",
		jumbo + "; sets of reels of another size begin a new one",
	}
	hard, coreless := true, false
	for _, r := range runs {
		hard = hard && r.Grade.JumboThickness == 0
		coreless = coreless || slices.ContainsFunc(r.Wound, func(w Wound) bool { return w.Core == 0 })
	}
	if b.Jumbo.Spool == 0 {
		list = append(list, "jumbos are paper down to the middle: jumbo.spool is 0 mm, as where none is told")
	}
	if coreless {
		list = append(list, "reels are paper down to the middle: core-diameter is 0 mm, as where none is told")
	}
	if hard {
		list = append(list, "jumbos are wound as hard as the reels")
	}
	list = append(list,
		"uptime is the share of the time with sheet on the reel; the line takes in nothing in the rest of it",
		"a change of grade takes its time on top of that, and its loss is made in it; it is counted with the grade that it leads to",
		fmt.Sprintf("an order is ready %s after the last jumbo with a reel of it is wound; a date without a time is met until its midnight, and a start without one is the midnight before",
			clockText(minutes(b.Handling))),
		"orders of one width get their reels by their dates; within a grade, sets are cut by the dates to be met",
		"masses are those on the scale, at the dryness of the reel; steam is that of the dryers",
	)
	if len(b.Sequence) == 0 && len(runs) > 1 {
		chosen := fmt.Sprintf("the sequence is that of the dates, as there are more than %d grades", tried)
		if len(runs) <= tried {
			chosen = "of all sequences of grades, each run once, this has the fewest late orders, then the least lateness, then that of the dates"
		}
		list = append(list, chosen)
	}
	return list
}
