package drying

import (
	"fmt"

	"millmaths.example/paperprop"
	"millmaths.example/paperprop/calc"
	"millmaths.example/paperprop/water"
)

// Groups divides the drying of a section among its steam groups. Exactly one of
// GaugePressure and Pressure is given; the lists are of equal length.
type Groups struct {
	DrynessIn           paperprop.DryContent // into the first cylinder, above zero
	MoistureOut         paperprop.Moisture   // after the last one, below 100 %
	GaugePressure       []paperprop.GaugePressure
	Pressure            []paperprop.AbsolutePressure // 0.00611 to 165.29 bar absolute
	Cylinders           []paperprop.Count            // of each group: whole, from 1
	WebTemperature      paperprop.Temperature        // of the sheet along the section, below that of each steam
	AtmosphericPressure paperprop.AbsolutePressure   // zero stands for 1.01325 bar absolute
}

// GroupsResult is the water that each group evaporates, and the dryness after it.
type GroupsResult struct {
	SteamTemperature []paperprop.Temperature
	WaterShare       []paperprop.Fraction   // of all water evaporated
	GroupDryness     []paperprop.DryContent // after each group
}

// Calculate divides the water in proportion to n(T_s − T_w): the cylinders times
// the difference between steam and sheet temperature.
func (g Groups) Calculate() (GroupsResult, error) { return dryerGroups.Calculate(g) }

func (g Groups) compute() (GroupsResult, error) {
	var r GroupsResult
	before, after, err := dries(g.DrynessIn, g.MoistureOut)
	if err != nil {
		return r, err
	}
	total := 0.0
	for i, n := range g.Cylinders {
		s, err := groupSteam(g.Pressure, g.GaugePressure, i, g.AtmosphericPressure)
		if err != nil {
			return r, err
		}
		if !hotter(s.Temperature, g.WebTemperature) {
			return r, calc.Refuse("web-temperature", g.WebTemperature, "below the steam of group %v, %v", paperprop.Count(i+1), s.Temperature)
		}
		drive := float64(n) * float64(s.Temperature-g.WebTemperature)
		total += drive
		r.SteamTemperature = append(r.SteamTemperature, s.Temperature)
		r.WaterShare = append(r.WaterShare, paperprop.Fraction(drive))
	}
	in, out := wetness(before), wetness(after)
	left := in
	for i, drive := range r.WaterShare {
		r.WaterShare[i] = drive / paperprop.Fraction(total)
		left -= float64(r.WaterShare[i]) * (in - out)
		r.GroupDryness = append(r.GroupDryness, paperprop.DryContent(1/(1+left)))
	}
	return r, nil
}

// wetness returns water over dry matter at a dryness.
func wetness(dryness float64) float64 { return (1 - dryness) / dryness }

// groupSteam returns the saturated steam of group i, from absolute or gauge
// pressures.
func groupSteam(absolute []paperprop.AbsolutePressure, gauge []paperprop.GaugePressure, i int, atmosphere paperprop.AbsolutePressure) (water.Saturation, error) {
	var p paperprop.AbsolutePressure
	var g *paperprop.GaugePressure
	if len(absolute) > 0 {
		p = absolute[i]
	} else {
		g = &gauge[i]
	}
	s, err := saturatedSteam(p, g, atmosphere, "")
	if err != nil {
		return s, fmt.Errorf("group %d: %w", i+1, err)
	}
	return s, nil
}

// groupPressures binds the inputs that describe steam groups.
func groupPressures(f *calc.Form, gauge *[]paperprop.GaugePressure, absolute *[]paperprop.AbsolutePressure, cylinders *[]paperprop.Count) {
	highest := water.HighestSaturated.In(paperprop.BarAbsolute)
	g := calc.InList(f, gauge, "gauge-pressure", "p_g", "bar(g)", "of each steam group, as the gauge reads").UpTo(highest)
	p := calc.InList(f, absolute, "pressure", "p", "bar(a)", "of each steam group, absolute").
		From(water.LowestSaturated.In(paperprop.BarAbsolute)).UpTo(highest)
	f.Exactly(1, g, p)
	f.Even(calc.InList(f, cylinders, "cylinders", "n", "1", "of each group, the weight").From(1), g, p)
}

var dryerGroups = &calc.Description[Groups, GroupsResult]{
	Name:    "dryer-groups",
	Title:   "Dryness along the steam groups of a dryer section",
	Answers: "How much of the water each steam group takes out and how dry it leaves the sheet, if all cylinders pass on heat alike.",
	Formula: []string{"x_w = n*(T_s - T_w)/sum(n*(T_s - T_w))"},
	Method: "saturation temperature of each group by IAPWS-IF97 region 4; the moisture ratio falls by the shares of the water, " +
		"one group after the other",
	Source: "one heat transfer and one sheet temperature all along the section: an assumption, stated; where dryness was measured, that counts",
	Status: calc.CommonPractice,
	Example: "dryness-in=47.5 %; moisture-out=4 %; gauge-pressure=[0.4 1.8 3.2] bar(g); cylinders=[8 11 13]; " +
		"web-temperature=85 degC",
	Mistakes: []string{
		"The last cylinders pass on less heat than the first wet ones: real sheets dry more slowly at the end than this.",
		"No drying-rate curve is built in: where one was measured, take that.",
	},
	Cautions: []*calc.Caution{&calc.Steam, &calc.MovingMachine},
	Compute:  Groups.compute,
	Fields: func(f *calc.Form, in *Groups, out *GroupsResult) {
		calc.In(f, &in.DrynessIn, "dryness-in", "d_in", "%", "into the first cylinder").Above(0)
		calc.In(f, &in.MoistureOut, "moisture-out", "w_out", "%", "after the last one").Below(100)
		groupPressures(f, &in.GaugePressure, &in.Pressure, &in.Cylinders)
		calc.In(f, &in.WebTemperature, "web-temperature", "T_w", "degC", "of the sheet, the same all along").From(0).UpTo(200)
		steamAtmosphere(f, &in.AtmosphericPressure)
		calc.OutList(f, &out.SteamTemperature, "steam-temperature", "T_s", "degC", "saturation of each group")
		calc.OutList(f, &out.WaterShare, "water-share", "x_w", "%", "of the water evaporated, by group")
		calc.OutList(f, &out.GroupDryness, "group-dryness", "d", "%", "after each group")
		f.Picture(func() *calc.Picture { return dryingCurve(in, out) })
	},
}

// dryingCurve draws the dryness along the cylinders, and the ends of the groups.
func dryingCurve(in *Groups, out *GroupsResult) *calc.Picture {
	p := &calc.Picture{
		Title: "dryness along the steam groups, all cylinders alike",
		X:     calc.Axis{Label: "cylinder"}, Y: calc.Axis{Label: "dryness [%]"},
	}
	left, from, cylinder := wetness(float64(in.DrynessIn)), wetness(float64(in.DrynessIn)), 0.0
	evaporated := from - wetness(1-float64(in.MoistureOut))
	curve := calc.Curve{}
	curve.Add(0, 100*float64(in.DrynessIn))
	for i, n := range in.Cylinders {
		for range int(n) {
			cylinder++
			left -= float64(out.WaterShare[i]) * evaporated / float64(n)
			curve.Add(cylinder, 100/(1+left))
		}
		p.Marks = append(p.Marks, calc.Mark{Label: steamLabel(in, i), X: cylinder, Y: 100 * float64(out.GroupDryness[i])})
		end := calc.Curve{Light: true, Dashed: true}
		end.Add(cylinder, 100*float64(in.DrynessIn))
		end.Add(cylinder, 100*float64(out.GroupDryness[i]))
		p.Curves = append(p.Curves, end)
	}
	p.Curves = append(p.Curves, curve)
	return p
}

func steamLabel(in *Groups, i int) string {
	if len(in.Pressure) > 0 {
		return in.Pressure[i].String()
	}
	return in.GaugePressure[i].String()
}
