package stock

import (
	"millmaths.example/paperprop"
	"millmaths.example/paperprop/calc"
)

// HeadboxFlow is the stock that must leave the headbox to form a sheet.
type HeadboxFlow struct {
	SheetDryFlow       paperprop.OvenDryFlow // leaving the wire, above zero
	FirstPassRetention paperprop.Fraction    // above zero, at most 100 %
	HeadboxConsistency paperprop.Consistency // above zero, usually 0.2 to 1 %
	Density            paperprop.Density     // of the stock in the headbox, above zero
	SliceWidth         paperprop.Length      // of the jet, above zero
}

// HeadboxFlowResult is the flow out of the headbox, and the solids that pass
// through the wire.
type HeadboxFlowResult struct {
	MassFlow     paperprop.MassFlow
	VolumeFlow   paperprop.VolumeFlow
	FlowPerWidth paperprop.FlowPerWidth // over SliceWidth
	TrayDryFlow  paperprop.OvenDryFlow
}

// Calculate returns the flow q_s/(R·c), by mass and by volume.
func (h HeadboxFlow) Calculate() (HeadboxFlowResult, error) { return headboxFlow.Calculate(h) }

func (h HeadboxFlow) compute() (HeadboxFlowResult, error) {
	sheet, r := h.SheetDryFlow.In(paperprop.DryTonnePerHour), float64(h.FirstPassRetention)
	mass := sheet / (r * float64(h.HeadboxConsistency))
	volume := 1000 * mass / h.Density.In(paperprop.KilogramPerCubicMetre) // m³/h
	return HeadboxFlowResult{
		MassFlow:     paperprop.MassFlow(mass) * paperprop.TonnePerHour,
		VolumeFlow:   paperprop.VolumeFlow(volume) * paperprop.CubicMetrePerHour,
		FlowPerWidth: paperprop.FlowPerWidth(volume/60/h.SliceWidth.In(paperprop.Metre)) * paperprop.CubicMetrePerMinuteMetre,
		TrayDryFlow:  paperprop.OvenDryFlow(sheet*(1-r)/r) * paperprop.DryTonnePerHour,
	}, nil
}

var headboxFlow = &calc.Description[HeadboxFlow, HeadboxFlowResult]{
	Name:    "headbox-flow",
	Title:   "Flow of stock out of the headbox",
	Answers: "How much stock must leave the headbox (flow box) for a sheet, in all and per width of the jet.",
	Formula: []string{"q = q_s/(R*c)", "Q = q/rho", "Q_b = Q/B_s", "q_t = q_s*(1/R - 1)"},
	Source:  balance + " over the wire",
	Status:  calc.CommonPractice,
	Example: "sheet-dry-flow=13.4451 t/h; first-pass-retention=75.73 %; headbox-consistency=0.82 %; density=993 kg/m3; slice-width=3.5 m",
	Mistakes: []string{
		"The sheet on the wire is wider than that at the reel and holds no surface starch: don't reckon from reel grammage.",
		"Take the dry matter leaving the wire, not the paper: paper at 7.5 % moisture in its place makes the flow 8.1 % too large.",
		"What goes round through the overflow of the headbox, a deaerator or a bypass is not in it: the fan pump brings that too.",
	},
	Compute: HeadboxFlow.compute,
	Fields: func(f *calc.Form, in *HeadboxFlow, out *HeadboxFlowResult) {
		calc.In(f, &in.SheetDryFlow, "sheet-dry-flow", "q_s", "t/h", "leaving the wire").Above(0)
		calc.In(f, &in.FirstPassRetention, "first-pass-retention", "R", "%", "on the wire").Above(0).UpTo(100)
		calc.In(f, &in.HeadboxConsistency, "headbox-consistency", "c", "%", "usually 0.2 to 1 % (seen)").Above(0)
		calc.In(f, &in.Density, "density", "rho", "kg/m3", "of the stock in the headbox, from stock-density").Above(0)
		calc.In(f, &in.SliceWidth, "slice-width", "B_s", "m", "of the jet, not that of the reel").Above(0)
		calc.Out(f, &out.MassFlow, "mass-flow", "q", "t/h", "headbox stock")
		calc.Out(f, &out.VolumeFlow, "volume-flow", "Q", "m3/h", "headbox stock")
		calc.Out(f, &out.FlowPerWidth, "flow-per-width", "Q_b", "L/(min m)", "over slice-width")
		calc.Out(f, &out.TrayDryFlow, "tray-dry-flow", "q_t", "t/h", "dry matter through the wire")
	},
}

// Slice is the opening of a headbox that makes a jet of a given flow and speed.
type Slice struct {
	FlowPerWidth           paperprop.FlowPerWidth // above zero
	JetSpeed               paperprop.Speed        // above zero
	ContractionCoefficient paperprop.Ratio        // jet thickness over opening: above zero, at most 1
}

// SliceResult is the jet and the opening that it comes out of.
type SliceResult struct {
	JetThickness paperprop.Length // where the jet has contracted
	SliceOpening paperprop.Length
}

// Calculate returns the jet thickness Q_b/v_j, and the opening: that over the
// contraction coefficient.
func (s Slice) Calculate() (SliceResult, error) { return slice.Calculate(s) }

func (s Slice) compute() (SliceResult, error) {
	jet := s.FlowPerWidth.In(paperprop.LitrePerMinuteMetre) / s.JetSpeed.In(paperprop.MetrePerMinute) // L/m² is mm
	return SliceResult{
		JetThickness: paperprop.Length(jet) * paperprop.Millimetre,
		SliceOpening: paperprop.Length(jet/float64(s.ContractionCoefficient)) * paperprop.Millimetre,
	}, nil
}

var slice = &calc.Description[Slice, SliceResult]{
	Name:    "slice",
	Title:   "Opening of the slice",
	Answers: "How thick the jet is, and how far the slice (its lip) must be open for it.",
	Formula: []string{"t_j = Q_b/v_j", "t_s = t_j/mu"},
	Source:  "balance of volume over the jet; contraction from memory: pi/(pi + 2) for a sharp edge, 0.9 or more for a long nozzle",
	Status:  calc.CommonPractice,
	Example: "flow-per-width=10383 L/(min m); jet-speed=628 m/min; contraction-coefficient=0.9",
	Mistakes: []string{
		"The jet is thinner than the opening: how much thinner depends on the nozzle, so there is no default.",
		"Flow over the width of the jet, not over that of the reel.",
	},
	Compare: []calc.Comparison{{
		Inputs: "flow-per-width=10383 L/(min m); jet-speed=628 m/min; contraction-coefficient=0.611015",
		Why:    "a sharp edge in place of a long nozzle, pi/(pi + 2) by potential theory (memory)",
	}},
	Cautions: []*calc.Caution{&calc.MovingMachine},
	Compute:  Slice.compute,
	Fields: func(f *calc.Form, in *Slice, out *SliceResult) {
		calc.In(f, &in.FlowPerWidth, "flow-per-width", "Q_b", "L/(min m)", "from headbox-flow").Above(0)
		calc.In(f, &in.JetSpeed, "jet-speed", "v_j", "m/min", "from jet").Above(0)
		calc.In(f, &in.ContractionCoefficient, "contraction-coefficient", "mu", "1", "jet thickness over opening").Above(0).UpTo(1)
		calc.Out(f, &out.JetThickness, "jet-thickness", "t_j", "mm", "where the jet has contracted (vena contracta)")
		calc.Out(f, &out.SliceOpening, "slice-opening", "t_s", "mm", "of the slice")
	},
}
