package drying

import (
	"fmt"
	"math"
	"strings"

	"millmaths.example/paperprop"
	"millmaths.example/paperprop/calc"
	"millmaths.example/paperprop/water"
)

// airChart draws the saturation line and the lines of 20, 40, 60 and 80 %, up to a
// temperature and a humidity ratio.
func airChart(title string, hottest, wettest float64, p paperprop.AbsolutePressure) *calc.Picture {
	chart := &calc.Picture{
		Title: title,
		X:     calc.Axis{Label: "temperature [°C]", From: 0, To: hottest},
		Y:     calc.Axis{Label: "water over dry air [kg/kg]", From: 0, To: wettest},
	}
	for _, percent := range [...]float64{20, 40, 60, 80, 100} {
		curve := calc.Curve{Label: humidityLabel(percent), Light: percent < 100}
		for t := 0.0; t <= hottest; t += hottest / 200 {
			air, err := water.AirWithRelative(paperprop.Celsius(t), paperprop.Fraction(percent*paperprop.Percent), p)
			if err != nil || float64(air.HumidityRatio) > wettest {
				break // steam, or above the top of the chart
			}
			curve.Add(t, float64(air.HumidityRatio))
		}
		chart.Curves = append(chart.Curves, curve)
	}
	return chart
}

// humidityLabel returns a short label, as the lines end close together. Only that
// of saturation, which stands apart, has the unit.
func humidityLabel(percent float64) string {
	if percent == 100 {
		return "100 %"
	}
	return fmt.Sprintf("%.0f", percent)
}

// drawAir shows a state of humid air with its wet bulb and its dew point.
func drawAir(in *HumidAir, out *HumidAirResult) *calc.Picture {
	t, x := in.Temperature.Celsius(), float64(out.HumidityRatio)
	p := airChart("humid air at "+in.AtmosphericPressure.String()+", lines of relative humidity", max(60, 1.2*t), max(0.05, 1.5*x), in.AtmosphericPressure)
	p.Marks = append(p.Marks, calc.Mark{Label: "air", X: t, Y: x})
	if out.DewPoint != nil {
		dew := out.DewPoint.Celsius()
		p.Curves = append(p.Curves, calc.Curve{X: []float64{dew, t}, Y: []float64{x, x}, Dashed: true})
		p.Marks = append(p.Marks, calc.Mark{Label: "dew point", X: dew, Y: x})
	}
	if out.WetBulb != nil {
		if full, err := water.RatioAtDewPoint(*out.WetBulb, in.AtmosphericPressure); err == nil {
			wet := out.WetBulb.Celsius()
			p.Curves = append(p.Curves, calc.Curve{X: []float64{wet, t}, Y: []float64{float64(full), x}, Dashed: true})
			p.Marks = append(p.Marks, calc.Mark{Label: "wet bulb", X: wet, Y: float64(full)})
		}
	}
	return p
}

// drawHood shows the air into and out of a hood, each at its dew point: a balance
// of water does not tell its temperature.
func drawHood(in *Hood, out *HoodResult) *calc.Picture {
	states := [...]struct {
		name string
		x    paperprop.HumidityRatio
		flow paperprop.DryAirFlow
	}{
		{"exhaust", out.ExhaustHumidityRatio, out.ExhaustAirFlow},
		{"supply", in.SupplyHumidityRatio, out.SupplyAirFlow},
		{"hall", in.LeakHumidityRatio, out.LeakAirFlow},
	}
	var marks []calc.Mark
	var flows []string
	warmest := 0.0
	for _, s := range states {
		air, err := water.AirWithRatio(water.HottestAir, s.x, in.AtmosphericPressure)
		if err != nil {
			continue
		}
		if dew, ok := air.DewPoint(); ok {
			flow := math.Round(s.flow.In(paperprop.DryAirTonnePerHour)*10) / 10
			flows = append(flows, s.name+" "+paperprop.People(flow))
			marks = append(marks, calc.Mark{Label: s.name, X: dew.Celsius(), Y: float64(s.x)})
			warmest = max(warmest, dew.Celsius())
		}
	}
	p := airChart("air of a hood at its dew points, dry air in t/h: "+strings.Join(flows, ", "), max(60, 1.3*warmest), 1.3*float64(out.ExhaustHumidityRatio), in.AtmosphericPressure)
	p.Marks = marks
	return p
}
