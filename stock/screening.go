package stock

import (
	"math"

	"millmaths.example/paperprop"
	"millmaths.example/paperprop/calc"
	"millmaths.example/paperprop/result"
)

// Screening splits the feed of a screen or cleaner into accepts and rejects. All
// three are taken to have the same density.
type Screening struct {
	FeedVolumeFlow    paperprop.VolumeFlow  // above zero
	FeedConsistency   paperprop.Consistency // above zero
	RejectVolumeFlow  paperprop.VolumeFlow  // above zero, below FeedVolumeFlow
	RejectConsistency paperprop.Consistency // the rejects hold at most the dry matter fed
}

// ScreeningResult is the accepts, and the reject rates.
type ScreeningResult struct {
	AcceptVolumeFlow       paperprop.VolumeFlow
	AcceptConsistency      paperprop.Consistency
	VolumeRejectRate       paperprop.Fraction
	MassRejectRate         paperprop.Fraction // dry matter rejected over dry matter fed
	RejectThickeningFactor paperprop.Ratio
}

// Calculate closes the balance of volume and of dry matter.
func (s Screening) Calculate() (ScreeningResult, error) { return screening.Calculate(s) }

func (s Screening) compute() (ScreeningResult, error) {
	if s.RejectVolumeFlow >= s.FeedVolumeFlow {
		return ScreeningResult{}, calc.Refuse("reject-volume-flow", s.RejectVolumeFlow, "below feed-volume-flow %v", s.FeedVolumeFlow)
	}
	feed, reject := s.FeedVolumeFlow.In(paperprop.CubicMetrePerHour), s.RejectVolumeFlow.In(paperprop.CubicMetrePerHour)
	feedDry, rejectDry := feed*float64(s.FeedConsistency), reject*float64(s.RejectConsistency)
	accept, acceptDry := feed-reject, result.Rest(feedDry, rejectDry)
	if acceptDry < 0 {
		return ScreeningResult{}, calc.Refuse("reject-consistency", s.RejectConsistency,
			"at most %v: no more dry matter can leave than comes", paperprop.Consistency(feedDry/reject))
	}
	if result.Rest(feed, reject+acceptDry) < 0 {
		return ScreeningResult{}, calc.Refuse("reject-consistency", s.RejectConsistency,
			"at least %v: the accepts would hold more than 100 %% of dry matter", paperprop.Consistency((feedDry-accept)/reject))
	}
	return ScreeningResult{
		AcceptVolumeFlow:       paperprop.VolumeFlow(accept) * paperprop.CubicMetrePerHour,
		AcceptConsistency:      paperprop.Consistency(acceptDry / accept),
		VolumeRejectRate:       paperprop.Fraction(reject / feed),
		MassRejectRate:         paperprop.Fraction(rejectDry / feedDry),
		RejectThickeningFactor: paperprop.Ratio(s.RejectConsistency / s.FeedConsistency),
	}, nil
}

var screening = &calc.Description[Screening, ScreeningResult]{
	Name:    "screening",
	Title:   "Balance of a screen or cleaner",
	Answers: "What a screen or a cleaner (hydrocyclone) accepts, and what part of volume and of dry matter it rejects.",
	Formula: []string{
		"Q_a = Q_f - Q_r",
		"c_a = (Q_f*c_f - Q_r*c_r)/Q_a",
		"r_v = Q_r/Q_f",
		"r_m = Q_r*c_r/(Q_f*c_f)",
		"k_r = c_r/c_f",
	},
	Source:  "formulas on a public know-how page on pressure screens (seen): volumetric and mass reject rate, reject thickening factor",
	Status:  calc.Published,
	Example: "feed-volume-flow=8400 L/min; feed-consistency=3.0 %; reject-volume-flow=980 L/min; reject-consistency=3.6 %",
	Mistakes: []string{
		"Two rates go by one name: in the example 11.7 % of the volume is rejected and 14 % of the dry matter.",
		"Rejects thicken: the smaller the flow of rejects, the nearer the screen is to plugging.",
	},
	Compute: Screening.compute,
	Fields: func(f *calc.Form, in *Screening, out *ScreeningResult) {
		calc.In(f, &in.FeedVolumeFlow, "feed-volume-flow", "Q_f", "L/min", "into the screen").Above(0)
		calc.In(f, &in.FeedConsistency, "feed-consistency", "c_f", "%", "of the feed").Above(0)
		calc.In(f, &in.RejectVolumeFlow, "reject-volume-flow", "Q_r", "L/min", "of the rejects").Above(0)
		calc.In(f, &in.RejectConsistency, "reject-consistency", "c_r", "%", "of the rejects; density taken as the same everywhere")
		calc.Out(f, &out.AcceptVolumeFlow, "accept-volume-flow", "Q_a", "L/min", "feed less reject")
		calc.Out(f, &out.AcceptConsistency, "accept-consistency", "c_a", "%", "of the accepts")
		calc.Out(f, &out.VolumeRejectRate, "volume-reject-rate", "r_v", "%", "volume rejected over volume fed")
		calc.Out(f, &out.MassRejectRate, "mass-reject-rate", "r_m", "%", "dry matter rejected over dry matter fed")
		calc.Out(f, &out.RejectThickeningFactor, "reject-thickening-factor", "k_r", "1", "reject-consistency/feed-consistency")
	},
}

// ScreenEfficiency is the effect of a screen on a contaminant. Contaminants may be
// counts or areas per dry matter, all three in the same measure.
type ScreenEfficiency struct {
	MassRejectRate    paperprop.Fraction // above zero, below 100 %
	FeedContaminant   paperprop.Fraction // per dry matter, above zero
	AcceptContaminant paperprop.Fraction // the accepts hold less contaminant than the feed
}

// ScreenEfficiencyResult is the efficiency by each definition in use.
type ScreenEfficiencyResult struct {
	RejectContaminant     paperprop.Fraction
	CleanlinessEfficiency paperprop.Fraction // below zero when the accepts are dirtier
	RemovalEfficiency     paperprop.Fraction
	ScreeningQuotient     paperprop.Ratio
}

// Calculate closes the balance of contaminant and returns the efficiencies 1 −
// s_a/s_f, r_m·s_r/s_f and 1 − s_a/s_r.
func (s ScreenEfficiency) Calculate() (ScreenEfficiencyResult, error) {
	return screenEfficiency.Calculate(s)
}

func (s ScreenEfficiency) compute() (ScreenEfficiencyResult, error) {
	r, feed, accept := float64(s.MassRejectRate), float64(s.FeedContaminant), float64(s.AcceptContaminant)
	accepted := (1 - r) * accept
	if result.Rest(feed, accepted) <= 0 {
		return ScreenEfficiencyResult{}, calc.Refuse("accept-contaminant", s.AcceptContaminant,
			"below %v: less contaminant accepted than fed", paperprop.Fraction(feed/(1-r)))
	}
	reject := (feed - accepted) / r
	return ScreenEfficiencyResult{
		RejectContaminant:     paperprop.Fraction(reject),
		CleanlinessEfficiency: paperprop.Fraction(1 - accept/feed),
		RemovalEfficiency:     paperprop.Fraction(r * reject / feed),
		ScreeningQuotient:     paperprop.Ratio(1 - accept/reject),
	}, nil
}

var screenEfficiency = &calc.Description[ScreenEfficiency, ScreenEfficiencyResult]{
	Name:    "screen-efficiency",
	Title:   "Efficiency of a screen, by each definition",
	Answers: "How well a screen takes contaminant out, such as specks or stickies, from what is in feed and accepts.",
	Formula: []string{
		"s_r = (s_f - (1 - r_m)*s_a)/r_m",
		"E_c = 1 - s_a/s_f",
		"E_r = r_m*s_r/s_f",
		"Q_s = 1 - s_a/s_r",
	},
	Source:  "balance of contaminant; quotient of Nelson 1981 from memory",
	Status:  calc.Memory,
	Example: "mass-reject-rate=14 %; feed-contaminant=950 ppm; accept-contaminant=240 ppm",
	Mistakes: []string{
		"Cleanliness and removal differ by the reject rate: 74.7 % cleaner accepts are 78.3 % removed at 14 %.",
		"A splitter that rejects 14 % removes 14 % and cleans nothing: removal alone does not tell it from a screen.",
	},
	Compare: []calc.Comparison{
		{
			Name: "screen-quotient", Inputs: "mass-reject-rate=18 %; screening-quotient=0.954814",
			Why: "the same screen, its quotient kept, at a higher reject rate",
		},
		{
			Name: "screen-passage", Inputs: "model=mixed; volume-reject-rate=11.67 %; fibre-passage-ratio=0.8113; contaminant-passage-ratio=0.045186",
			Why: "mixed flow with P_c = 1 - Q_s and the same 14 % of mass: removal goes by the 11.67 % of volume and is smaller",
		},
	},
	Compute: ScreenEfficiency.compute,
	Fields: func(f *calc.Form, in *ScreenEfficiency, out *ScreenEfficiencyResult) {
		calc.In(f, &in.MassRejectRate, "mass-reject-rate", "r_m", "%", "dry matter rejected over dry matter fed").Above(0).Below(100)
		calc.In(f, &in.FeedContaminant, "feed-contaminant", "s_f", "%", "over dry matter in the feed; only ratios matter: of counts or areas per mass give the bare number as %").Above(0)
		calc.In(f, &in.AcceptContaminant, "accept-contaminant", "s_a", "%", "in the accepts, same measure").From(0)
		calc.Out(f, &out.RejectContaminant, "reject-contaminant", "s_r", "%", "in the rejects, from the balance")
		calc.Out(f, &out.CleanlinessEfficiency, "cleanliness-efficiency", "E_c", "%", "by how much cleaner the accepts are than the feed")
		calc.Out(f, &out.RemovalEfficiency, "removal-efficiency", "E_r", "%", "contaminant rejected over contaminant fed")
		calc.Out(f, &out.ScreeningQuotient, "screening-quotient", "Q_s", "1", "0 a splitter, 1 ideal")
	},
}

// ScreenQuotient predicts the efficiency of a screen from its screening quotient.
type ScreenQuotient struct {
	MassRejectRate    paperprop.Fraction // above zero, below 100 %
	ScreeningQuotient paperprop.Ratio    // 0 for a mere splitter, 1 for an ideal screen
}

// ScreenQuotientResult is the efficiency by either definition.
type ScreenQuotientResult struct {
	RemovalEfficiency     paperprop.Fraction
	CleanlinessEfficiency paperprop.Fraction
}

// Calculate returns the removal efficiency r_m/(1 − Q_s + Q_s·r_m), and the
// cleanliness efficiency that goes with it.
func (s ScreenQuotient) Calculate() (ScreenQuotientResult, error) { return screenQuotient.Calculate(s) }

func (s ScreenQuotient) compute() (ScreenQuotientResult, error) {
	r, q := float64(s.MassRejectRate), float64(s.ScreeningQuotient)
	removal := r / (1 - q + q*r)
	return ScreenQuotientResult{
		RemovalEfficiency:     paperprop.Fraction(removal),
		CleanlinessEfficiency: paperprop.Fraction(q * removal), // what 1 − (1 − E_r)/(1 − r_m) comes to
	}, nil
}

var screenQuotient = &calc.Description[ScreenQuotient, ScreenQuotientResult]{
	Name:    "screen-quotient",
	Title:   "Efficiency of a screen from its screening quotient",
	Answers: "How much a screen removes at another reject rate.",
	Formula: []string{"E_r = r_m/(1 - Q_s + Q_s*r_m)", "E_c = 1 - (1 - E_r)/(1 - r_m)"},
	Source:  "Nelson 1981 from memory; follows from Q = 1 - s_a/s_r and the balance of contaminant",
	Status:  calc.Memory,
	Example: "mass-reject-rate=14 %; screening-quotient=0.95",
	Mistakes: []string{
		"Efficiencies at different reject rates tell nothing of two screens: their quotients do.",
		"The rate is that of dry matter; the passage ratio model has the same form, but takes that of volume.",
	},
	Compare: []calc.Comparison{{
		Name: "screen-passage", Inputs: "model=mixed; volume-reject-rate=11.67 %; fibre-passage-ratio=0.8113; contaminant-passage-ratio=0.05",
		Why: "the same form with P_c = 1 - Q_s, but by the 11.67 % of volume that are 14 % of mass here",
	}},
	Compute: ScreenQuotient.compute,
	Fields: func(f *calc.Form, in *ScreenQuotient, out *ScreenQuotientResult) {
		calc.In(f, &in.MassRejectRate, "mass-reject-rate", "r_m", "%", "dry matter rejected over dry matter fed").Above(0).Below(100)
		calc.In(f, &in.ScreeningQuotient, "screening-quotient", "Q_s", "1", "0 a splitter, 1 ideal").From(0).UpTo(1)
		calc.Out(f, &out.RemovalEfficiency, "removal-efficiency", "E_r", "%", "contaminant rejected over contaminant fed")
		calc.Out(f, &out.CleanlinessEfficiency, "cleanliness-efficiency", "E_c", "%", "by how much cleaner the accepts are than the feed")
	},
}

// A PassageModel is the flow assumed inside the screen.
type PassageModel string

// The two limits of mixing between the inlet and the reject end.
const (
	ModelPlug  PassageModel = "plug"  // none along the screen
	ModelMixed PassageModel = "mixed" // perfect
)

// ScreenPassage predicts a screen from its passage ratios. A passage ratio is the
// concentration that passes the apertures over that in front of them.
type ScreenPassage struct {
	Model                   PassageModel
	VolumeRejectRate        paperprop.Fraction // above zero, below 100 %
	FibrePassageRatio       paperprop.Ratio    // above zero, at most 1
	ContaminantPassageRatio paperprop.Ratio    // 0 to 1
}

// ScreenPassageResult is the fibre and the contaminant rejected.
type ScreenPassageResult struct {
	RejectThickeningFactor paperprop.Ratio
	MassRejectRate         paperprop.Fraction
	RemovalEfficiency      paperprop.Fraction
}

// Calculate returns the reject thickening, r_v^(P−1) for plug flow or 1/(r_v + P(1
// − r_v)) for mixed flow, and the removal that goes with it.
func (s ScreenPassage) Calculate() (ScreenPassageResult, error) { return screenPassage.Calculate(s) }

func (s ScreenPassage) compute() (ScreenPassageResult, error) {
	r := float64(s.VolumeRejectRate)
	thicker := func(passage paperprop.Ratio) float64 {
		if s.Model == ModelPlug {
			return math.Pow(r, float64(passage)-1)
		}
		return 1 / (r + float64(passage)*(1-r))
	}
	k := thicker(s.FibrePassageRatio)
	return ScreenPassageResult{
		RejectThickeningFactor: paperprop.Ratio(k),
		MassRejectRate:         paperprop.Fraction(r * k),
		RemovalEfficiency:      paperprop.Fraction(r * thicker(s.ContaminantPassageRatio)),
	}, nil
}

var screenPassage = &calc.Description[ScreenPassage, ScreenPassageResult]{
	Name:    "screen-passage",
	Title:   "Screen by passage ratios",
	Answers: "How rejects thicken and how much contaminant goes with them, from what passes the apertures.",
	Formula: []string{
		"plug: k_r = pow(r_v, P_f - 1)",
		"plug: E_r = pow(r_v, P_c)",
		"mixed: k_r = 1/(r_v + P_f*(1 - r_v))",
		"mixed: E_r = r_v/(r_v + P_c*(1 - r_v))",
		"r_m = r_v*k_r",
	},
	Source:  "Gooding and Kerekes 1989 from memory; the mixed case also follows from the balance",
	Status:  calc.Memory,
	Example: "model=plug; volume-reject-rate=11.67 %; fibre-passage-ratio=0.92; contaminant-passage-ratio=0.12",
	Mistakes: []string{
		"The rate is that of volume: with that of mass, removal comes out too high.",
		"A passage ratio belongs to its model: one found with plug flow is not to be used with mixed.",
	},
	Compare: []calc.Comparison{{
		Inputs: "model=mixed; volume-reject-rate=11.67 %; fibre-passage-ratio=0.92; contaminant-passage-ratio=0.12",
		Why:    "the other limit: perfect mixing along the screen",
	}},
	Compute: ScreenPassage.compute,
	Fields: func(f *calc.Form, in *ScreenPassage, out *ScreenPassageResult) {
		calc.InWord(f, &in.Model, "model", "the flow in the screen: no mixing along it, or perfect mixing", ModelPlug, ModelMixed)
		calc.In(f, &in.VolumeRejectRate, "volume-reject-rate", "r_v", "%", "volume rejected over volume fed").Above(0).Below(100)
		calc.In(f, &in.FibrePassageRatio, "fibre-passage-ratio", "P_f", "1", "fibre through the apertures over that before them").Above(0).UpTo(1)
		calc.In(f, &in.ContaminantPassageRatio, "contaminant-passage-ratio", "P_c", "1", "contaminant through the apertures over that before them").From(0).UpTo(1)
		calc.Out(f, &out.RejectThickeningFactor, "reject-thickening-factor", "k_r", "1", "reject consistency over that of the feed")
		calc.Out(f, &out.MassRejectRate, "mass-reject-rate", "r_m", "%", "dry matter rejected over dry matter fed")
		calc.Out(f, &out.RemovalEfficiency, "removal-efficiency", "E_r", "%", "contaminant rejected over contaminant fed")
	},
}
