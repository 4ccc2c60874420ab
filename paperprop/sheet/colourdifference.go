package sheet

import (
	"math"

	"millmaths.example/paperprop"
	"millmaths.example/paperprop/calc"
)

// ColourDifference compares two colours. Each list holds two values, for the
// reference and then for the sample.
type ColourDifference struct {
	Lightness       []paperprop.Ratio // L*
	RedGreen        []paperprop.Ratio // a*
	YellowBlue      []paperprop.Ratio // b*
	LightnessWeight paperprop.Ratio   // k_L, above zero; zero stands for 1
	ChromaWeight    paperprop.Ratio   // k_C, above zero; zero stands for 1
	HueWeight       paperprop.Ratio   // k_H, above zero; zero stands for 1
}

// ColourDifferenceResult is the difference of the colours by two formulas.
type ColourDifferenceResult struct {
	Difference2000 paperprop.Ratio // CIEDE2000
	Difference1976 paperprop.Ratio // straight distance in CIELAB
}

// Calculate returns CIEDE2000 after Sharma, Wu and Dalal (2005), and the CIELAB
// distance.
func (c ColourDifference) Calculate() (ColourDifferenceResult, error) {
	return colourDifference.Calculate(c)
}

func (c ColourDifference) compute() (ColourDifferenceResult, error) {
	if n := len(c.Lightness); n != 2 {
		return ColourDifferenceResult{}, calc.Refuse("lightness", calc.Members(n), "2, of the reference and of the sample")
	}
	reference := lab{float64(c.Lightness[0]), float64(c.RedGreen[0]), float64(c.YellowBlue[0])}
	sample := lab{float64(c.Lightness[1]), float64(c.RedGreen[1]), float64(c.YellowBlue[1])}
	return ColourDifferenceResult{
		Difference2000: paperprop.Ratio(ciede2000(reference, sample, float64(c.LightnessWeight), float64(c.ChromaWeight), float64(c.HueWeight))),
		Difference1976: paperprop.Ratio(math.Hypot(math.Hypot(sample.l-reference.l, sample.a-reference.a), sample.b-reference.b)),
	}, nil
}

type lab struct{ l, a, b float64 }

// hueTie is how close to 180° apart two hues count as opposite, so that the last
// digit of an arc tangent does not decide on which side their mean lies.
const hueTie = 1e-9

// ciede2000 follows the steps and symbols of Sharma, Wu and Dalal (2005), with
// angles in degrees.
func ciede2000(p, q lab, kL, kC, kH float64) float64 {
	chroma7 := math.Pow((math.Hypot(p.a, p.b)+math.Hypot(q.a, q.b))/2, 7)
	stretch := 1 + 0.5*(1-math.Sqrt(chroma7/(chroma7+pow25to7)))
	c1, h1 := math.Hypot(stretch*p.a, p.b), hueOf(stretch*p.a, p.b)
	c2, h2 := math.Hypot(stretch*q.a, q.b), hueOf(stretch*q.a, q.b)
	turn, hue := meanHue(h1, h2, c1 < noChroma || c2 < noChroma)
	light, chroma := (p.l+q.l)/2, (c1+c2)/2

	dL, dC, dH := q.l-p.l, c2-c1, 2*math.Sqrt(c1*c2)*sine(turn/2)
	t := 1 - 0.17*cosine(hue-30) + 0.24*cosine(2*hue) + 0.32*cosine(3*hue+6) - 0.20*cosine(4*hue-63)
	fromMiddle := (light - 50) * (light - 50)
	sL := 1 + 0.015*fromMiddle/math.Sqrt(20+fromMiddle)
	sC, sH := 1+0.045*chroma, 1+0.015*chroma*t

	chroma7 = math.Pow(chroma, 7)
	blue := (hue - 275) / 25
	rotation := -2 * math.Sqrt(chroma7/(chroma7+pow25to7)) * sine(60*math.Exp(-blue*blue))
	dL, dC, dH = dL/(kL*sL), dC/(kC*sC), dH/(kH*sH)
	return math.Sqrt(dL*dL + dC*dC + dH*dH + rotation*dC*dH)
}

const pow25to7 = 25 * 25 * 25 * 25 * 25 * 25 * 25

// meanHue returns the turn from the first hue to the second, the short way, and the
// hue midway. If one colour is grey, the other's hue stands for both.
func meanHue(h1, h2 float64, grey bool) (turn, mean float64) {
	if grey {
		return 0, h1 + h2
	}
	turn, mean = h2-h1, (h1+h2)/2
	if math.Abs(turn) > 180+hueTie { // the short way leads through 0°
		turn -= math.Copysign(360, turn)
		mean = math.Mod(mean+180, 360)
	}
	return turn, mean
}

func sine(degrees float64) float64   { return math.Sin(degrees * (math.Pi / 180)) }
func cosine(degrees float64) float64 { return math.Cos(degrees * (math.Pi / 180)) }

var colourDifference = &calc.Description[ColourDifference, ColourDifferenceResult]{
	Name:    "colour-difference",
	Title:   "Difference of two colours",
	Answers: "How far a sample's colour (shade) lies from the reference, by CIEDE2000 and by the distance of 1976 (delta E).",
	Formula: []string{
		"D_L = sum(after(L) - before(L))",
		"D_a = sum(after(a) - before(a))",
		"D_b = sum(after(b) - before(b))",
		"dE76 = sqrt(pow(D_L, 2) + pow(D_a, 2) + pow(D_b, 2))",
	},
	Method: "CIEDE2000 by the steps of Sharma, Wu and Dalal; hues within 1e-9 degrees of opposite count as opposite, " +
		"so that the last digit of an arc tangent does not decide",
	Source:  "Sharma, Wu and Dalal (2005), Color Research and Application 30(1), 21-30, with their 34 pairs (seen as carried by colour-science 0.4.6)",
	Status:  calc.Published,
	Example: "lightness=[72 75]; red-green=[4 5]; yellow-blue=[14 12]",
	Mistakes: []string{
		"The two differences are on different scales: a tolerance agreed in one means nothing in the other.",
		"Weights other than 1 belong in the agreement: halving the lightness by k_L = 2 makes many a claim vanish.",
	},
	Compute: ColourDifference.compute,
	Fields: func(f *calc.Form, in *ColourDifference, out *ColourDifferenceResult) {
		f.Even(
			calc.InList(f, &in.Lightness, "lightness", "L", "1", "L*, two values: reference, sample"),
			calc.InList(f, &in.RedGreen, "red-green", "a", "1", "a*, two values"),
			calc.InList(f, &in.YellowBlue, "yellow-blue", "b", "1", "b*, two values"),
		)
		calc.In(f, &in.LightnessWeight, "lightness-weight", "k_L", "1", "of CIEDE2000").Above(0).Default(1)
		calc.In(f, &in.ChromaWeight, "chroma-weight", "k_C", "1", "of CIEDE2000").Above(0).Default(1)
		calc.In(f, &in.HueWeight, "hue-weight", "k_H", "1", "of CIEDE2000").Above(0).Default(1)
		calc.Out(f, &out.Difference2000, "difference-2000", "dE00", "1", "CIEDE2000")
		calc.Out(f, &out.Difference1976, "difference-1976", "dE76", "1", "CIELAB distance")
	},
}
