package sheet

import (
	"fmt"
	"math"

	"millmaths.example/paperprop"
	"millmaths.example/paperprop/calc"
)

// firstSample finds the wavelength from nm among evenly spaced ones, and returns
// its index and their spacing in nm, which must be one of steps. The wavelengths
// must reach up to the end, to nm.
func firstSample(wavelength []paperprop.Length, from, to float64, steps ...float64) (first int, step float64, err error) {
	const near = 1e-6 // nm
	start, end := wavelength[0], wavelength[len(wavelength)-1]
	if start.In(paperprop.Nanometre) > from+near {
		return 0, 0, calc.Refuse("wavelength", start, fmt.Sprintf("a first one of %g nm or less", from))
	}
	if end.In(paperprop.Nanometre) < to-near {
		return 0, 0, calc.Refuse("wavelength", end, fmt.Sprintf("a last one of %g nm or more", to))
	}
	for _, s := range steps {
		if math.Abs((wavelength[1]-wavelength[0]).In(paperprop.Nanometre)-s) <= near {
			step = s
		}
	}
	if step == 0 {
		return 0, 0, calc.Refuse("wavelength", wavelength[1], fmt.Sprintf("each %s nm above the one before", either(steps)))
	}
	for i, w := range wavelength {
		if math.Abs((w-start).In(paperprop.Nanometre)-float64(i)*step) > near {
			return 0, 0, calc.Refuse("wavelength", w, fmt.Sprintf("each %g nm above the one before, like the first two", step))
		}
	}
	before := math.Round((from - start.In(paperprop.Nanometre)) / step)
	if math.Abs(start.In(paperprop.Nanometre)+before*step-from) > near {
		return 0, 0, calc.Refuse("wavelength", start, fmt.Sprintf("a first one from which %g nm is reached by steps of %g nm", from, step))
	}
	return int(before), step, nil
}

func either(steps []float64) string {
	text := fmt.Sprint(steps[0])
	for _, s := range steps[1:] {
		text += fmt.Sprintf(" or %g", s)
	}
	return text
}

func spectrumOf(f *calc.Form, wavelength *[]paperprop.Length, reflectance *[]paperprop.Fraction, span string) {
	f.Even(
		calc.InList(f, wavelength, "wavelength", "lambda", "nm", span).Above(0),
		calc.InList(f, reflectance, "reflectance", "R", "%", "at each wavelength; a fluorescent sheet may pass 100 %").From(0),
	)
}

// blueWeights are the relative weights of R457 at 400(5)510 nm, source and receiver
// together: from memory, not seen in print. They add up to 937.4 and are centred on
// 457.16 nm, which fits the name.
var blueWeights = [...]float64{
	1.0, 2.9, 6.7, 12.1, 18.2, 25.8, 34.5, 44.9, 57.6, 70.0, 82.5, 94.1,
	100.0, 99.3, 88.7, 72.5, 53.1, 34.0, 20.3, 11.1, 5.6, 2.2, 0.3,
}

// Brightness is the brightness of a spectrum in the blue. Its lists are of equal
// length.
type Brightness struct {
	Wavelength  []paperprop.Length   // from 400 nm or less to 510 nm or more, every 5 nm or every 10 nm
	Reflectance []paperprop.Fraction // at each wavelength, zero or above
}

// BrightnessResult is the reflectance at an effective wavelength of 457 nm.
type BrightnessResult struct {
	Brightness paperprop.Fraction
}

// Calculate returns ΣR·F/ΣF, with every second F if the data are 10 nm apart.
func (b Brightness) Calculate() (BrightnessResult, error) { return brightness.Calculate(b) }

func (b Brightness) compute() (BrightnessResult, error) {
	first, step, err := firstSample(b.Wavelength, 400, 510, 5, 10)
	if err != nil {
		return BrightnessResult{}, err
	}
	stride := int(step) / 5
	var weighted, weights float64
	for i := 0; i < len(blueWeights); i += stride {
		weighted += blueWeights[i] * float64(b.Reflectance[first+i/stride])
		weights += blueWeights[i]
	}
	return BrightnessResult{paperprop.Fraction(weighted / weights)}, nil
}

var brightness = &calc.Description[Brightness, BrightnessResult]{
	Name:    "brightness",
	Title:   "Brightness R457 from a spectrum",
	Answers: "What a sheet reflects in the blue, at an effective wavelength of 457 nm.",
	Method:  "R_457 = sum(R*F)/sum(F), with the weights F at 400(5)510 nm, every second one for data 10 nm apart",
	Source:  "weights from memory, not compared with a printed table: the result is R457 by these weights, not an ISO brightness",
	Status:  calc.Memory,
	Example: "wavelength=[400 410 420 430 440 450 460 470 480 490 500 510] nm; " +
		"reflectance=[61.0 63.1 65.2 67.0 68.4 69.7 70.8 71.6 72.3 72.9 73.4 73.8] %",
	Mistakes: []string{
		"d/0 (ISO 2470) and 45/0 (T 452) are different geometries: no conversion between them exists.",
		"A fluorescent sheet has the brightness of its lamp: the ultraviolet of the instrument must be set before anything is compared.",
	},
	Compute: Brightness.compute,
	Fields: func(f *calc.Form, in *Brightness, out *BrightnessResult) {
		spectrumOf(f, &in.Wavelength, &in.Reflectance, "at least 400 to 510 nm, every 5 nm or every 10 nm")
		calc.Out(f, &out.Brightness, "brightness", "R_457", "%", "R457 by weights from memory, not ISO brightness").
			Unreported("no reporting clause and no table of the method was seen")
	},
}

// A Condition is an illuminant and an observer.
type Condition string

// The conditions: illuminant, slash, field of view in degrees.
const (
	ConditionC2    Condition = "C/2"
	ConditionD6510 Condition = "D65/10"
	ConditionD652  Condition = "D65/2"
)

// Tristimulus is the colour of a spectrum, for an illuminant and an observer. Its
// lists are of equal length.
type Tristimulus struct {
	Wavelength  []paperprop.Length   // from 380 nm or less to 780 nm or more, every 5 nm
	Reflectance []paperprop.Fraction // at each wavelength, zero or above
	Condition   Condition            // C/2 or D65/10
}

// TristimulusResult is a colour in CIE XYZ. Perfect white has Y = 100.
type TristimulusResult struct {
	XTristimulus paperprop.Ratio
	YTristimulus paperprop.Ratio
	ZTristimulus paperprop.Ratio
}

// Calculate returns X = 100·ΣS·x̄·R/ΣS·ȳ, and Y and Z likewise.
func (t Tristimulus) Calculate() (TristimulusResult, error) { return tristimulus.Calculate(t) }

func (t Tristimulus) compute() (TristimulusResult, error) {
	first, _, err := firstSample(t.Wavelength, 380, 780, 5)
	if err != nil {
		return TristimulusResult{}, err
	}
	table := &cieD65Observer1964
	if t.Condition == ConditionC2 {
		table = &cieCObserver1931
	}
	var x, y, z, white float64
	for i, at := range table {
		light := at.illuminant * float64(t.Reflectance[first+i])
		x += light * at.x
		y += light * at.y
		z += light * at.z
		white += at.illuminant * at.y
	}
	return TristimulusResult{paperprop.Ratio(100 * x / white), paperprop.Ratio(100 * y / white), paperprop.Ratio(100 * z / white)}, nil
}

var tristimulus = &calc.Description[Tristimulus, TristimulusResult]{
	Name:    "tristimulus",
	Title:   "CIE XYZ from a spectrum",
	Answers: "What colour a sheet has, as X, Y and Z, from its reflectance over the visible range.",
	Method: "X = 100*sum(S*x*R)/sum(S*y) over 380(5)780 nm, S the illuminant, x, y, z the observer, R as a fraction; Y and Z likewise. " +
		"Wavelengths outside are left aside; a short range is refused, not stretched",
	Source: "definition of CIE XYZ; observers of 1931 and 1964 and illuminant D65 of the CIE, illuminant C of textbooks, " +
		"all as carried by colour-science 0.4.6",
	Status: calc.Library,
	Example: "wavelength=[380 385 390 395 400 405 410 415 420 425 430 435 440 445 450 455 460 465 470 475 480 485 490 495 500 505 510 515 " +
		"520 525 530 535 540 545 550 555 560 565 570 575 580 585 590 595 600 605 610 615 620 625 630 635 640 645 650 655 660 665 670 675 680 " +
		"685 690 695 700 705 710 715 720 725 730 735 740 745 750 755 760 765 770 775 780] nm; " +
		"reflectance=[38 38 39 39 40 40 41 41 42 42 43 43 44 44 45 45 46 46 47 47 48 48 49 49 50 50 51 51 52 52 53 53 54 54 55 55 56 56 57 57 58 " +
		"58 59 59 60 60 61 61 62 62 63 63 64 64 65 65 66 66 67 67 68 68 69 69 70 70 71 71 72 72 73 73 74 74 75 75 76 76 77 77 78] %; condition=C/2",
	Mistakes: []string{
		"The sums have a white point of their own, 98.0717 100 118.2249 for C/2 and 94.8118 100 107.3241 for D65/10: take one source of white points throughout.",
		"Tables for data every 10 or 20 nm are other tables: they allow for the slit of the instrument, and differ by 0.01 to 0.05.",
	},
	Compute: Tristimulus.compute,
	Fields: func(f *calc.Form, in *Tristimulus, out *TristimulusResult) {
		spectrumOf(f, &in.Wavelength, &in.Reflectance, "at least 380 to 780 nm, every 5 nm")
		calc.InWord(f, &in.Condition, "condition", "illuminant and observer", ConditionC2, ConditionD6510).Label()
		xyz(f, &out.XTristimulus, &out.YTristimulus, &out.ZTristimulus)
	},
}

func xyz(f *calc.Form, x, y, z *paperprop.Ratio) {
	calc.Out(f, x, "x-tristimulus", "X", "1", "perfect white has Y = 100")
	calc.Out(f, y, "y-tristimulus", "Y", "1", "luminance")
	calc.Out(f, z, "z-tristimulus", "Z", "1", "on the same scale")
}
