package batch

import (
	"encoding/json"

	"millmaths.example/paperprop"
	"millmaths.example/paperprop/calc"
)

// A summaryJSON is the summary for programs, in the form of the JSON interface.
type summaryJSON struct {
	Calculation string          `json:"calculation"`
	Version     string          `json:"version"`
	File        string          `json:"file,omitempty"`
	Rows        int             `json:"rows"`
	Computed    int             `json:"computed"`
	Reported    int             `json:"reported"`
	Footers     int             `json:"footers,omitempty"` // included in reported
	Others      int             `json:"others,omitempty"`
	Confidence  json.Number     `json:"confidence"`
	Statements  []statementJSON `json:"statements"`
	Assumed     []string        `json:"assumed,omitempty"`
	Warnings    []string        `json:"warnings,omitempty"`
	Cautions    []cautionJSON   `json:"cautions,omitempty"`
	Source      string          `json:"source"`
	Kind        calc.Status     `json:"kind"`
}

type cautionJSON struct {
	Code string `json:"code"`
	Text string `json:"text"`
}

type statementJSON struct {
	By       map[string]string `json:"by"`
	Output   string            `json:"output"`
	Count    int               `json:"n"`
	LeftOut  int               `json:"not-computed"`
	Mean     *json.Number      `json:"mean,omitempty"`
	S        *json.Number      `json:"standard-deviation,omitempty"`
	V        *json.Number      `json:"coefficient-of-variation,omitempty"`
	Lower    *json.Number      `json:"lower,omitempty"`
	Upper    *json.Number      `json:"upper,omitempty"`
	Unit     string            `json:"unit,omitempty"`
	Reported string            `json:"reported,omitempty"`
	Rule     string            `json:"rule,omitempty"`
	Words    []string          `json:"words,omitempty"`
}

// MarshalSummary returns the summary of the job's groups as JSON, with all digits.
func (t *Totals) MarshalSummary(j *Job, confidence float64) ([]byte, error) {
	if j.Calculation == nil {
		return nil, errNoCalculation
	}
	statements, err := t.statementsBy(j.By, confidence)
	if err != nil {
		return nil, err
	}
	info := j.Calculation.Info()
	out := summaryJSON{
		Calculation: info.Name, Version: calc.Version, File: j.Options.Name,
		Rows: t.Rows, Computed: t.Computed, Reported: t.Reported, Footers: t.Footers, Others: t.Others, Confidence: *number(&confidence),
		Statements: []statementJSON{}, Assumed: t.Assumed, Warnings: t.Warnings(), Source: info.Source, Kind: info.Status,
	}
	for _, c := range info.Cautions {
		out.Cautions = append(out.Cautions, cautionJSON{c.Code, c.Text})
	}
	for _, s := range statements {
		line := statementJSON{
			By: map[string]string{}, Output: s.Name, Count: s.Count, LeftOut: s.LeftOut, S: number(s.Deviation), V: number(s.Variation),
			Lower: number(s.Lower), Upper: number(s.Upper), Unit: s.Unit, Reported: s.Reported, Rule: s.Rule, Words: s.Words,
		}
		for i, head := range j.By {
			line.By[head] = s.Key[i]
		}
		if s.Count > 0 && s.Words == nil {
			line.Mean = number(&s.Mean)
		}
		out.Statements = append(out.Statements, line)
	}
	return json.Marshal(out)
}

func number(x *float64) *json.Number {
	if x == nil {
		return nil
	}
	n := json.Number(paperprop.AppendShort(nil, *x))
	return &n
}
