package making

import (
	"bytes"
	"encoding/json"
	"errors"
	"time"

	"millmaths.example/paperprop"
	"millmaths.example/paperprop/calc"
)

type jsonPlan struct {
	Command     string        `json:"command"`
	Version     string        `json:"version"`
	Name        string        `json:"name,omitempty"`
	Start       string        `json:"start"`
	Ready       string        `json:"ready"`
	Runs        []jsonRun     `json:"runs"`
	Orders      []jsonOrder   `json:"orders"`
	Refused     []string      `json:"refused,omitempty"`
	Hours       jsonHours     `json:"hours"`
	Tonnes      jsonTonnes    `json:"tonnes"`
	Takes       []Taken       `json:"takes"`
	YardLeft    *jsonValue    `json:"yard-left,omitempty"`
	YardOut     string        `json:"yard-empty,omitempty"`
	Conventions []string      `json:"conventions"`
	Cautions    []jsonCaution `json:"cautions"`
}

type jsonValue struct {
	Value float64 `json:"value"`
	Unit  string  `json:"unit"`
}

type jsonRun struct {
	Grade    string          `json:"grade"`
	Change   string          `json:"change,omitempty"`
	Begin    string          `json:"begin"`
	End      string          `json:"end"`
	Sets     int             `json:"sets"`
	Jumbos   int             `json:"jumbos"`
	Wound    []jsonWound     `json:"wound"`
	Hours    jsonHours       `json:"hours"`
	Made     jsonValue       `json:"production"`
	Broke    jsonValue       `json:"broke"`
	Tonnes   jsonTonnes      `json:"tonnes"`
	Takes    []Taken         `json:"takes"`
	Slitting json.RawMessage `json:"slitting"`
}

type jsonWound struct {
	Diameter jsonValue `json:"diameter"`
	Core     jsonValue `json:"core-diameter"`
	Group    string    `json:"group,omitempty"`
	Length   jsonValue `json:"reel-length"`
	Jumbo    jsonValue `json:"jumbo-length"`
	PerJumbo int       `json:"sets-per-jumbo"`
	Sets     int       `json:"sets"`
	Jumbos   int       `json:"jumbos"`
	Rest     jsonValue `json:"rest-length"`
	Rests    int       `json:"rests"`
}

type jsonHours struct {
	Reeling jsonValue `json:"reeling"`
	Lost    jsonValue `json:"lost"`
	Changes jsonValue `json:"changes"`
	Sum     jsonValue `json:"sum"`
}

type jsonTonnes struct {
	Ordered jsonValue `json:"ordered"`
	Over    jsonValue `json:"over"`
	Trim    jsonValue `json:"trim"`
	Rest    jsonValue `json:"jumbo-rest"`
	Broke   jsonValue `json:"other-broke"`
	Change  jsonValue `json:"change"`
	Made    jsonValue `json:"made"`
}

type jsonOrder struct {
	Name     string     `json:"order,omitempty"`
	Line     int        `json:"line,omitempty"`
	Customer string     `json:"customer,omitempty"`
	Grade    string     `json:"grade"`
	Width    jsonValue  `json:"width"`
	Asked    *jsonValue `json:"ordered-mass,omitempty"`
	Ordered  int        `json:"ordered"`
	Made     int        `json:"made"`
	Over     int        `json:"over"`
	Mass     jsonValue  `json:"mass"`
	Due      string     `json:"due,omitempty"`
	Ready    string     `json:"ready,omitempty"`
	Late     *jsonValue `json:"late,omitempty"`
	First    string     `json:"ready-if-first,omitempty"`
	Left     int        `json:"left-out,omitempty"`
	Reason   string     `json:"reason,omitempty"`
}

type jsonCaution struct {
	Code string `json:"code"`
	Text string `json:"text"`
}

// JSON returns the plan for programs. Times are by the clock of the mill, without a
// zone.
func (p *Plan) JSON() ([]byte, error) {
	if p.Book == nil {
		return nil, errors.New("the plan has no book")
	}
	out := jsonPlan{
		Command: "making", Version: calc.Version, Name: p.Book.Name, Start: clock(p.Book.Start), Ready: clock(p.Ready),
		Runs: []jsonRun{}, Orders: []jsonOrder{},
		Hours: p.Hours.json(), Tonnes: p.Tonnes.json(), Takes: p.Takes.List(), YardOut: clock(p.YardOut), Conventions: p.Conventions,
		Cautions: []jsonCaution{{calc.HeavyReel.Code, calc.HeavyReel.Text}},
	}
	if p.YardLeft != 0 {
		left := tonnes(p.YardLeft)
		out.YardLeft = &left
	}
	for _, err := range p.Book.Bad {
		out.Refused = append(out.Refused, err.Error())
	}
	for i := range p.Runs {
		r, err := p.Runs[i].json()
		if err != nil {
			return nil, err
		}
		out.Runs = append(out.Runs, r)
	}
	for i := range p.Orders {
		out.Orders = append(out.Orders, p.Orders[i].json(&p.Book.Orders[i]))
	}
	var b bytes.Buffer
	e := json.NewEncoder(&b)
	e.SetEscapeHTML(false)
	e.SetIndent("", "  ")
	err := e.Encode(out)
	return b.Bytes(), err
}

func (r *Run) json() (jsonRun, error) {
	out := jsonRun{
		Grade: r.Grade.Name, Begin: clock(r.Begin), End: clock(r.End), Sets: r.Sets.Sets, Jumbos: r.Jumbos,
		Hours: r.Hours.json(), Made: jsonValue{r.needs.perHour, "t/h"}, Broke: jsonValue{100 * float64(r.Broke), "%"},
		Tonnes: r.Tonnes.json(), Takes: r.Takes.List(),
	}
	if r.Changed {
		out.Change = clock(r.Change)
	}
	for _, w := range r.Wound {
		out.Wound = append(out.Wound, jsonWound{
			Diameter: millimetres(w.Diameter), Core: millimetres(w.Core), Group: w.Group, Length: metres(w.Length), Jumbo: metres(w.Jumbo),
			PerJumbo: w.PerJumbo, Sets: w.Sets, Jumbos: w.Jumbos, Rest: metres(w.Rest), Rests: w.Rests,
		})
	}
	unit, err := paperprop.Length(0).Kind().Unit("mm")
	if err == nil {
		out.Slitting, err = r.Sets.JSON(&r.Job, unit)
	}
	return out, err
}

func (m *Made) json(o *Order) jsonOrder {
	out := jsonOrder{
		Name: o.Name, Line: o.Line, Customer: o.Customer, Grade: o.Grade, Width: millimetres(o.Width),
		Ordered: m.Order.Reels, Made: m.Reels, Over: m.Over, Mass: tonnes(m.Mass), Due: clock(o.Due), Ready: clock(m.Ready),
		First: clock(m.First), Left: m.Left, Reason: m.Reason,
	}
	if o.Mass > 0 {
		asked := tonnes(o.Mass)
		out.Asked = &asked
	}
	if m.Late > 0 {
		out.Late = &jsonValue{m.Late.Hours(), "h"}
	}
	return out
}

// clock formats a time; the zero time is "".
func clock(t time.Time) string {
	if t.IsZero() {
		return ""
	}
	return t.Round(time.Second).Format("2006-01-02T15:04:05")
}

func tonnes(m paperprop.Mass) jsonValue        { return jsonValue{m.In(paperprop.Tonne), "t"} }
func millimetres(l paperprop.Length) jsonValue { return jsonValue{l.In(paperprop.Millimetre), "mm"} }
func metres(l paperprop.Length) jsonValue      { return jsonValue{l.In(paperprop.Metre), "m"} }
func hours(d paperprop.Duration) jsonValue     { return jsonValue{d.In(paperprop.Hour), "h"} }

func (h Hours) json() jsonHours {
	return jsonHours{hours(h.Reeling), hours(h.Lost), hours(h.Changes), hours(h.Sum())}
}

func (t Tonnes) json() jsonTonnes {
	return jsonTonnes{tonnes(t.Ordered), tonnes(t.Over), tonnes(t.Trim), tonnes(t.Rest), tonnes(t.Broke), tonnes(t.Change), tonnes(t.Made)}
}
