package line

// A convention says how figures of a line are meant. Where it has several words,
// the file may choose one.
type convention struct {
	key   string
	words []string // the first is the default
	about string   // text in front of the word
}

// Conventions, in the order in which they are printed.
const (
	counts = iota
	drynessCounts
	rejectMakeUp
	coarseMakeUp
	rejectRate
	pulperConsistency
	pressWater
	tankMixing
	retentionMeans
	sizeSolution
	sizePressDries
)

var conventions = []convention{
	counts:            {"consistency", []string{"everything but water", "suspended matter"}, "consistency counts"},
	drynessCounts:     {"dryness", []string{"everything but water", "suspended matter"}, "dryness counts"},
	rejectMakeUp:      {"rejects", []string{"as the stream they are taken from", "dissolved matter follows the water"}, "rejects are made up"},
	coarseMakeUp:      {"coarse-rejects", []string{"as the bales", "as the stock"}, "coarse rejects are made up"},
	rejectRate:        {"reject-rate", []string{"by dry mass", "by mass of stock"}, "a reject rate is"},
	pulperConsistency: {"pulper-consistency", []string{"of the accepted stock", "before the rejects are taken out"}, "the pulper's consistency is that"},
	pressWater:        {"press-water", []string{"carries no solids", "carries dissolved matter"}, "press water"},
	tankMixing:        {"tanks", []string{"well mixed"}, "every draw has its tank's composition, as tanks are"},
	retentionMeans:    {"retention", []string{"the share of each component in the headbox that leaves with the sheet"}, "retention is"},
	sizeSolution:      {"size-solution", []string{"pure"}, "size solution is"},
	sizePressDries:    {"size-press", []string{"evaporates nothing"}, "the size press"},
}
