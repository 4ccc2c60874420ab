package lab

import (
	"fmt"
	"math"
	"slices"

	"millmaths.example/paperprop/calc"
	"millmaths.example/paperprop/internal/wording"
	"millmaths.example/paperprop/result"
)

// Profile is the readings of a scanner across a running sheet.
type Profile struct {
	// Scan has a row per scan and a column per position, at least 2 by 2, without
	// gaps: see [CleanScans].
	Scan [][]float64
}

// ProfileResult separates the variation across the sheet (CD) from that along it
// (MD), and from the residual that neither explains.
type ProfileResult struct {
	Mean      float64
	CDProfile []float64 // mean of each position

	// Standard deviations of the mean profile and of the scan means, both including
	// some of the residual, and of all readings.
	CDStandardDeviation, MDStandardDeviation, TotalStandardDeviation float64

	// Twice the square roots of the variance components; 0 if a component is
	// estimated below 0.
	CDTwoSigma, MDTwoSigma, ResidualTwoSigma float64

	CDSum, MDSum, ResidualSum, TotalSum float64 // sums of squares; TotalSum is the sum of the others
}

// Calculate analyses the variance by scan and position.
func (p Profile) Calculate() (ProfileResult, error) {
	scans, positions, err := p.size()
	if err != nil {
		return ProfileResult{}, err
	}
	r := ProfileResult{CDProfile: make([]float64, positions)}
	along := make([]float64, scans)
	column := make([]float64, scans)
	for j := range positions {
		for i, scan := range p.Scan {
			column[i] = scan[j]
		}
		r.CDProfile[j] = result.Mean(column)
	}
	for i, scan := range p.Scan {
		along[i] = result.Mean(scan)
	}
	r.Mean = result.Mean(along)
	n, m := float64(scans), float64(positions)
	r.CDSum, r.MDSum = n*squares(r.CDProfile, r.Mean), m*squares(along, r.Mean)
	for i, scan := range p.Scan {
		for j, x := range scan {
			rest := (x - along[i]) - (r.CDProfile[j] - r.Mean)
			if math.Abs(rest) > result.LastDigits*(math.Abs(x)+math.Abs(along[i])+math.Abs(r.Mean)) {
				r.ResidualSum += rest * rest
			}
		}
	}
	r.TotalSum = r.CDSum + r.MDSum + r.ResidualSum
	r.CDStandardDeviation, _ = result.StandardDeviation(r.CDProfile)
	r.MDStandardDeviation, _ = result.StandardDeviation(along)
	r.TotalStandardDeviation = math.Sqrt(r.TotalSum / (n*m - 1))
	residual := r.ResidualSum / ((n - 1) * (m - 1))
	r.CDTwoSigma = 2 * math.Sqrt(max(0, (r.CDSum/(m-1)-residual)/n))
	r.MDTwoSigma = 2 * math.Sqrt(max(0, (r.MDSum/(n-1)-residual)/m))
	r.ResidualTwoSigma = 2 * math.Sqrt(residual)
	return r, nil
}

func squares(x []float64, mean float64) float64 {
	sum := 0.0
	for _, v := range x {
		sum += (v - mean) * (v - mean)
	}
	return sum
}

func (p Profile) size() (scans, positions int, err error) {
	if len(p.Scan) < 2 {
		return 0, 0, calc.Refuse("scan", text(fmt.Sprintf("%d scan", len(p.Scan))), "at least 2")
	}
	positions = len(p.Scan[0])
	for i, scan := range p.Scan {
		if len(scan) != positions {
			return 0, 0, calc.Refuse("scan", text(fmt.Sprintf("%s in scan %d", wording.Count(len(scan), "position"), i+1)), "%v, as many as in the first", text(fmt.Sprint(positions)))
		}
	}
	if positions < 2 {
		return 0, 0, calc.Refuse("scan", text(fmt.Sprintf("%d position", positions)), "at least 2")
	}
	return len(p.Scan), positions, checkReadings("scan", "scan", "position", p.Scan, "want no gaps: cut empty edges, leave out broken scans")
}

// Scans holds the scans fit for a [Profile], and what was left out.
type Scans struct {
	Scan    [][]float64 // shares memory with the scans given
	First   int         // position of the first column kept, from 1
	LeftOut []int       // scans left out, from 1
}

// leastStuck is the number of equal readings that make a scan stuck: fewer may be
// equal by chance.
const leastStuck = 3

// CleanScans leaves out what no profile can use, by three rules, and repairs
// nothing. NaN is a missing reading.
//
//  1. A scan is left out if it has no reading, or if it is stuck: all its readings
//     are equal, or it repeats the scan before it, in 3 readings or more.
//  2. Positions at either edge at which no remaining scan has a reading are cut off.
//  3. Any other gap is an error, which names its place.
func CleanScans(scan [][]float64) (Scans, error) {
	c := Scans{First: 1}
	var numbers []int // of the scans kept
	for i, s := range scan {
		if len(present(s)) == 0 || stuck(s) || i > 0 && repeats(s, scan[i-1]) {
			c.LeftOut = append(c.LeftOut, i+1)
			continue
		}
		c.Scan, numbers = append(c.Scan, s), append(numbers, i+1)
	}
	if len(c.Scan) == 0 {
		return Scans{}, calc.Refuse("scan", text(wording.Count(len(scan), "scan")+", all empty or stuck"), "at least 2 that are not")
	}
	for k, s := range c.Scan {
		if len(s) != len(c.Scan[0]) {
			return Scans{}, calc.Refuse("scan", text(fmt.Sprintf("%s in scan %d", wording.Count(len(s), "position"), numbers[k])),
				"%v, as many as in scan %v", text(fmt.Sprint(len(c.Scan[0]))), text(fmt.Sprint(numbers[0])))
		}
	}
	low, high := c.edges()
	for k, s := range c.Scan {
		for j, x := range s[low:high] {
			if math.IsNaN(x) {
				return Scans{}, &placeError{"scan", "scan", "position", numbers[k], low + j + 1, "missing amid others, leave out the scan"}
			}
		}
		c.Scan[k] = s[low:high]
	}
	c.First = low + 1
	return c, nil
}

func present(scan []float64) []float64 {
	return slices.DeleteFunc(slices.Clone(scan), math.IsNaN)
}

func stuck(scan []float64) bool {
	read := present(scan)
	return len(read) >= leastStuck && !slices.ContainsFunc(read, func(x float64) bool { return x != read[0] })
}

func repeats(scan, before []float64) bool {
	return len(present(scan)) >= leastStuck && slices.EqualFunc(scan, before, func(x, y float64) bool {
		return x == y || math.IsNaN(x) && math.IsNaN(y)
	})
}

// edges returns the range of positions at which scans have readings.
func (c *Scans) edges() (low, high int) {
	low = len(c.Scan[0])
	for _, s := range c.Scan {
		for j, x := range s {
			if !math.IsNaN(x) {
				low, high = min(low, j), max(high, j+1)
			}
		}
	}
	return low, high // every scan here has a reading
}

var profile = &calc.Tool{
	About: calc.Info{
		Name:    "profile",
		Title:   "Profile across and along the sheet",
		Answers: "How a property varies across the sheet, along it, and apart from both, from the scans of a scanner.",
		Method: "x_ij = m + MD_i + CD_j + e_ij of n scans and m positions; sums of squares SS_cd = n*sum((m_j - m)^2), SS_md = m*sum((m_i - m)^2), SS_e of the rest; " +
			"variance components (MS_cd - MS_e)/n, (MS_md - MS_e)/m and MS_e, not below 0; 2-sigma is twice their root",
		Source:  "two-way random-effects analysis of variance (ANOVA) without interaction",
		Status:  calc.CommonPractice,
		Example: "scan=[121.0 120.4 119.6 120.2 | 120.7 120.2 119.1 120.0 | 121.3 120.9 119.9 120.4] g/m2",
		Mistakes: []string{
			"Many displays show twice the standard deviation of the mean profile: the residual over the number of scans is still in it.",
			"Standard deviations do not add up, nor do their squares; the sums of squares do.",
			"Of a file empty edges are cut first, and a stuck scan is left out: it hides what varies across. Stuck is one of 3 readings or more " +
				"that are all alike, or repeat the scan before it; two are alike by chance.",
		},
		Tool: true,
	},
	Fields: func() (in, out []*calc.Field) {
		return []*calc.Field{
			calc.NewField("scan", "x", calc.Table, "a row a scan, a column a position, separated by bars: [1 2 3 | 4 5 6] g/m2; no gaps"),
		}, fieldsOf(new(ProfileResult).outputs())
	},
	Clean:   cleanScans,
	Picture: drawProfile,
	Run: func(given []calc.Pair) ([]calc.Answer, error) {
		table, err := readRows(given, "scan")
		if err != nil {
			return nil, err
		}
		r, err := Profile{Scan: table.readings}.Calculate()
		if err != nil {
			return nil, err
		}
		return answersOf(r.outputs(), table.unit), nil
	},
}

func (r *ProfileResult) outputs() []output {
	return []output{
		related(&r.Mean, "mean", "m", "as scan", "of all readings"),
		{Field: calc.NewField("cd-profile", "x_cd", calc.List, "mean of each position"), list: &r.CDProfile},
		related(&r.CDStandardDeviation, "cd-standard-deviation", "s_cd", "difference of scan", "of the mean profile, residual still in it"),
		related(&r.MDStandardDeviation, "md-standard-deviation", "s_md", "difference of scan", "of the scan means, residual still in it"),
		related(&r.TotalStandardDeviation, "total-standard-deviation", "s_t", "difference of scan", "of all readings"),
		related(&r.CDTwoSigma, "cd-two-sigma", "d_cd", "difference of scan", "of the variance component across"),
		related(&r.MDTwoSigma, "md-two-sigma", "d_md", "difference of scan", "of the variance component along"),
		related(&r.ResidualTwoSigma, "residual-two-sigma", "d_e", "difference of scan", "of the residual"),
		related(&r.CDSum, "cd-sum", "SS_cd", "square of scan", "sum of squares across"),
		related(&r.MDSum, "md-sum", "SS_md", "square of scan", "sum of squares along"),
		related(&r.ResidualSum, "residual-sum", "SS_e", "square of scan", "sum of squares of the rest"),
		related(&r.TotalSum, "total-sum", "SS_t", "square of scan", "the sum of the three"),
	}
}
