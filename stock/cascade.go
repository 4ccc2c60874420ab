package stock

import (
	"millmaths.example/paperprop"
	"millmaths.example/paperprop/calc"
)

// An Arrangement says where the accepts of the later stages of a screen plant go.
// The rejects of each stage feed the next.
type Arrangement string

// The two arrangements in use.
const (
	ArrangementCascade     Arrangement = "cascade"      // to the feed of the stage before
	ArrangementFeedForward Arrangement = "feed-forward" // on with the accepts
)

// maxStages is the largest number of stages in a screen plant.
const maxStages = 10

// ScreenCascade is the balance of dry matter of a screen plant of several stages.
type ScreenCascade struct {
	Arrangement    Arrangement
	DryFlow        paperprop.OvenDryFlow // fresh feed of the first stage, above zero
	MassRejectRate []paperprop.Fraction  // of each stage, of its own dry feed: above zero, below 100 %; 1 to 10 stages
}

// ScreenCascadeResult is the dry flow into each stage and out of the plant.
type ScreenCascadeResult struct {
	StageDryFlow  []paperprop.OvenDryFlow // feed of each stage
	RejectDryFlow paperprop.OvenDryFlow   // out of the last stage
	AcceptDryFlow paperprop.OvenDryFlow   // to the machine
	Loss          paperprop.Fraction
}

// Calculate closes the balance of dry matter over each stage.
func (s ScreenCascade) Calculate() (ScreenCascadeResult, error) { return screenCascade.Calculate(s) }

func (s ScreenCascade) compute() (ScreenCascadeResult, error) {
	n := len(s.MassRejectRate)
	if n > maxStages {
		return ScreenCascadeResult{}, calc.Refuse("mass-reject-rate", paperprop.Count(n), "1 to 10 stages")
	}
	// The feed of each stage over the part of it that is fresh, found from the last
	// stage back to the first: part of what goes down to the later stages comes
	// back.
	var turns [maxStages]float64
	rest := lastStage
	for i := n - 1; i >= 0; i-- {
		rest, turns[i] = rest.before(s.Arrangement, float64(s.MassRejectRate[i]))
	}
	fresh := s.DryFlow.In(paperprop.DryTonnePerHour)
	stages := make([]paperprop.OvenDryFlow, n)
	down := fresh
	for i := range stages {
		feed := down * turns[i]
		stages[i] = paperprop.OvenDryFlow(feed) * paperprop.DryTonnePerHour
		down = feed * float64(s.MassRejectRate[i])
	}
	return ScreenCascadeResult{
		StageDryFlow:  stages,
		RejectDryFlow: paperprop.OvenDryFlow(down) * paperprop.DryTonnePerHour,
		AcceptDryFlow: paperprop.OvenDryFlow(fresh*rest.accepted) * paperprop.DryTonnePerHour,
		Loss:          paperprop.Fraction(rest.rejected),
	}, nil
}

// A plant is a row of stages, as the shares of its feed that it accepts and
// rejects. Neither is computed as the rest of the other, so both keep their digits
// where they are small.
type plant struct{ accepted, rejected float64 }

// lastStage is what follows the last stage: all that gets there is rejected.
var lastStage = plant{rejected: 1}

// before puts a stage with a reject rate of r in front of the plant, and returns
// the feed of that stage over the part of it that is fresh.
func (p plant) before(a Arrangement, r float64) (whole plant, turns float64) {
	if a == ArrangementFeedForward {
		return plant{accepted: 1 - r + r*p.accepted, rejected: r * p.rejected}, 1
	}
	if r == 0 { // nothing reaches the later stages
		return plant{accepted: 1}, 1
	}
	out := 1 - r + r*p.rejected // the share of the stage's feed that does not come back
	return plant{accepted: (1 - r) / out, rejected: r * p.rejected / out}, 1 / out
}

const cascadeMethod = "from the last stage back to the first: of what stage k is sent by the stage before it, the share x_k ends as final rejects: r_k*x_next/(1 - r_k + r_k*x_next) in a cascade, " +
	"r_k*x_next in feed-forward, where x_next is the share of the stage after it, 1 after the last"

var screenCascade = &calc.Description[ScreenCascade, ScreenCascadeResult]{
	Name:    "screen-cascade",
	Title:   "Screen plant of several stages",
	Answers: "How much each stage of a screen plant is fed, and what of the dry matter is lost.",
	Formula: []string{"q_r = final(r)*final(q_i)", "x_l = q_r/q_d", "q_a = q_d - q_r"},
	Method:  cascadeMethod,
	Source:  "balance of dry matter over each stage; checked against a linear solver",
	Status:  calc.CommonPractice,
	Example: "arrangement=cascade; dry-flow=14.7 t/h; mass-reject-rate=[14 18] %",
	Mistakes: []string{
		"Rates are of mass: multiply the volume rate by the thickening factor first.",
		"In a cascade the later stages load the first: at 20 and 15 % it is fed 120 % of the fresh feed.",
		"Each rate is an input of its own: a stage that is throttled changes the load of the others, not their rates.",
	},
	Compare: []calc.Comparison{{
		Inputs: "arrangement=feed-forward; dry-flow=14.7 t/h; mass-reject-rate=[14 18] %",
		Why:    "less load and less loss, but what the second stage lets through goes to the machine",
	}},
	Compute: ScreenCascade.compute,
	Fields: func(f *calc.Form, in *ScreenCascade, out *ScreenCascadeResult) {
		arrangementOfPlant(f, &in.Arrangement)
		calc.In(f, &in.DryFlow, "dry-flow", "q_d", "t/h", "fresh feed of stage 1").Above(0)
		calc.InList(f, &in.MassRejectRate, "mass-reject-rate", "r", "%", "of each stage, of its own dry feed; 1 to 10 stages").Above(0).Below(100)
		calc.OutList(f, &out.StageDryFlow, "stage-dry-flow", "q_i", "t/h", "feed of each stage")
		calc.Out(f, &out.RejectDryFlow, "reject-dry-flow", "q_r", "t/h", "out of the last stage")
		calc.Out(f, &out.AcceptDryFlow, "accept-dry-flow", "q_a", "t/h", "to the machine")
		calc.Out(f, &out.Loss, "loss", "x_l", "%", "reject-dry-flow/dry-flow")
	},
}

// CascadeRemoval is the contaminant that a screen plant of several stages removes.
type CascadeRemoval struct {
	Arrangement            Arrangement
	StageRemovalEfficiency []paperprop.Fraction // contaminant rejected over contaminant fed, of each stage, 0 to 100 %
}

// CascadeRemovalResult is the removal efficiency of the whole plant.
type CascadeRemovalResult struct {
	RemovalEfficiency paperprop.Fraction
}

// Calculate closes the balance of contaminant over each stage.
func (c CascadeRemoval) Calculate() (CascadeRemovalResult, error) { return cascadeRemoval.Calculate(c) }

func (c CascadeRemoval) compute() (CascadeRemovalResult, error) {
	rest := lastStage
	for i := len(c.StageRemovalEfficiency) - 1; i >= 0; i-- {
		rest, _ = rest.before(c.Arrangement, float64(c.StageRemovalEfficiency[i]))
	}
	if rest.rejected-rest.rejected != 0 {
		return CascadeRemovalResult{}, calc.Refuse("stage-removal-efficiency", paperprop.Fraction(0),
			"above 0 %% after a stage of 100 %%: between the two contaminant gathers and has no way out")
	}
	return CascadeRemovalResult{paperprop.Fraction(rest.rejected)}, nil
}

var cascadeRemoval = &calc.Description[CascadeRemoval, CascadeRemovalResult]{
	Name:    "cascade-removal",
	Title:   "Contaminant removed by a screen plant",
	Answers: "What part of a contaminant a screen plant of several stages takes out.",
	Method:  cascadeMethod + "; r_k is the removal efficiency of stage k",
	Source:  "balance of contaminant over each stage, as of mass with removal efficiencies in place of reject rates; checked against a linear solver",
	Status:  calc.CommonPractice,
	Example: "arrangement=cascade; stage-removal-efficiency=[85 80] %",
	Mistakes: []string{
		"A later stage adds nothing to the removal, it takes from it: 85 and 80 % make 81.9 % in a cascade and 68 % in feed-forward.",
		"Efficiencies are those of the stage, of its own feed, not of what is fresh.",
	},
	Compare: []calc.Comparison{{
		Inputs: "arrangement=feed-forward; stage-removal-efficiency=[85 80] %",
		Why:    "what each stage lets through goes to the machine: the product",
	}},
	Compute: CascadeRemoval.compute,
	Fields: func(f *calc.Form, in *CascadeRemoval, out *CascadeRemovalResult) {
		arrangementOfPlant(f, &in.Arrangement)
		calc.InList(f, &in.StageRemovalEfficiency, "stage-removal-efficiency", "E_i", "%", "contaminant rejected over contaminant fed, of each stage").
			From(0).UpTo(100)
		calc.Out(f, &out.RemovalEfficiency, "removal-efficiency", "E_r", "%", "of the plant")
	},
}

func arrangementOfPlant(f *calc.Form, arrangement *Arrangement) {
	calc.InWord(f, arrangement, "arrangement", "accepts of a stage go to the feed of the stage before, or on with the accepts",
		ArrangementCascade, ArrangementFeedForward)
}
