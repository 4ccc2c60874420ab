package making_test

import (
	"encoding/json"
	"fmt"
	"slices"
	"strconv"
	"strings"
	"testing"
	"time"

	"millmaths.example/paperprop"
	"millmaths.example/paperprop/making"
	"millmaths.example/paperprop/table"
)

// A value of the JSON, with its unit.
type valued struct {
	Value float64
	Unit  string
}

type toldTonnes struct {
	Ordered, Over, Trim, Change, Made valued
	Rest                              valued `json:"jumbo-rest"`
	Broke                             valued `json:"other-broke"`
}

type toldHours struct{ Reeling, Lost, Changes, Sum valued }

type toldPlan struct {
	Start, Ready string
	Runs         []struct {
		Grade, Change, Begin, End string
		Sets, Jumbos              int
		Hours                     toldHours
		Production, Broke         valued
		Tonnes                    toldTonnes
		Takes                     []making.Taken
		Slitting                  struct{ Patterns []any }
	}
	Orders []struct {
		Order         string
		Asked         *valued `json:"ordered-mass"`
		Ordered, Made int
		Width, Mass   valued
		Due, Ready    string
		Late          *valued
		Left          int `json:"left-out"`
		Reason        string
	}
	Refused  []string
	Hours    toldHours
	Tonnes   toldTonnes
	Takes    []making.Taken
	YardLeft *valued `json:"yard-left"`
	YardOut  string  `json:"yard-empty"`
}

func clock(t time.Time) string {
	if t.IsZero() {
		return ""
	}
	return t.Round(time.Second).Format("2006-01-02T15:04:05")
}

func decoded(t *testing.T, p *making.Plan) toldPlan {
	t.Helper()
	text, err := p.JSON()
	if err != nil {
		t.Fatal(err)
	}
	var told toldPlan
	if err := json.Unmarshal(text, &told); err != nil {
		t.Fatal(err)
	}
	return told
}

// JSON and facts tell what the plan holds, each number with its unit, and nothing
// that the book does not tell.
func TestTold(t *testing.T) {
	without, err := making.ReadFile(quillbeck+"order-book.toml", table.Options{})
	if err != nil {
		t.Fatal(err)
	}
	with := listed(t, "yard = \"30 t\"\n", head+"A;Whin 105;1640;12;;2026-11-30 08:00;0 %;1250 mm\nB;Harebell 120;1080;;9 t;;20 %;1250 mm\nC;Whin 105;3500;2;;;0 %;1250 mm\nD;Nowhere;1000;1;;;;\n")
	for i := range without.Grades { // whose lines tell a yard too
		if without.Grades[i].Line, err = without.Grades[i].Line.With("mill.yard", "1e6 t"); err != nil {
			t.Fatal(err)
		}
	}
	for name, b := range map[string]*making.Book{"Quillbeck": without, "with a yard": with} {
		p := plan(t, b)
		told := decoded(t, p)
		facts := map[string]string{}
		for _, f := range p.Facts() {
			facts[f.Of+" "+f.Name+" "+f.Result] = f.Value + " " + f.Unit
		}
		same := func(of, result string, got valued, want float64, unit string) {
			t.Helper()
			if got.Unit != unit || !near(got.Value, want) {
				t.Errorf("%s: %s %s in JSON is %v, want %v %s", name, of, result, got, want, unit)
			}
			x, err := strconv.ParseFloat(strings.TrimSuffix(facts[of+" "+result], " "+unit), 64)
			if err != nil || !near(x, want) {
				t.Errorf("%s: %s %s among the facts is %q, want %v %s", name, of, result, facts[of+" "+result], want, unit)
			}
		}
		said := func(of, result, got, want string) {
			t.Helper()
			if fact := strings.TrimSpace(facts[of+" "+result]); got != want || fact != want {
				t.Errorf("%s: %s %s is %q in JSON and %q among the facts, want %q", name, of, result, got, fact, want)
			}
		}
		shared := func(of string, h toldHours, x toldTonnes, list []making.Taken, hours making.Hours, tonnes making.Tonnes, takes making.Takes) {
			t.Helper()
			for result, v := range map[string]struct {
				got  valued
				want paperprop.Duration
			}{"reeling": {h.Reeling, hours.Reeling}, "lost": {h.Lost, hours.Lost}, "changes": {h.Changes, hours.Changes}, "hours": {h.Sum, hours.Reeling + hours.Lost + hours.Changes}} {
				same(of, result, v.got, v.want.In(paperprop.Hour), "h")
			}
			for result, v := range map[string]struct {
				got  valued
				want paperprop.Mass
			}{
				"ordered": {x.Ordered, tonnes.Ordered}, "over": {x.Over, tonnes.Over}, "trim": {x.Trim, tonnes.Trim}, "jumbo-rest": {x.Rest, tonnes.Rest},
				"other-broke": {x.Broke, tonnes.Broke}, "change": {x.Change, tonnes.Change}, "made": {x.Made, tonnes.Made},
			} {
				same(of, result, v.got, v.want.In(paperprop.Tonne), "t")
			}
			var names []string
			want := map[string]float64{
				"recovered-paper": takes.Paper.In(paperprop.Tonne), "recovered-paper-dry": takes.DryPaper.In(paperprop.OvenDryTonne),
				"fresh-water": takes.FreshWater.In(paperprop.Tonne), "steam": takes.Steam.In(paperprop.Tonne),
				"starch":      takes.Added[0].Mass.In(paperprop.OvenDryTonne),
				"evaporation": takes.Evaporation.In(paperprop.Tonne), "effluent": takes.Effluent.In(paperprop.Tonne),
			}
			for _, v := range list {
				names = append(names, v.Name)
				same(of, v.Name, valued{v.Value, v.Unit}, want[v.Name], v.Unit)
			}
			if got := strings.Join(names, " "); got != "recovered-paper recovered-paper-dry fresh-water steam starch evaporation effluent" || len(takes.Added) != 1 {
				t.Errorf("%s: %s takes %s", name, of, got)
			}
		}
		for i := range p.Runs {
			r, got := &p.Runs[i], told.Runs[i]
			of := "grade " + r.Grade.Name
			shared(of, got.Hours, got.Tonnes, got.Takes, r.Hours, r.Tonnes, r.Takes)
			production, _ := r.Line.Value("production")
			same(of, "production", got.Production, production, "t/h")
			same(of, "broke", got.Broke, 100*(1-float64(r.Tonnes.Sold()/r.Tonnes.Made)), "%")
			same(of, "trim-loss", valued{100 * float64(r.Sets.Loss()), "%"}, 100*float64(r.Sets.Loss()), "%")
			said(of, "begin", got.Begin, clock(r.Begin))
			said(of, "end", got.End, clock(r.End))
			said(of, "sets", strconv.Itoa(got.Sets), strconv.Itoa(r.Sets.Sets))
			said(of, "jumbos", strconv.Itoa(got.Jumbos), strconv.Itoa(r.Jumbos))
			if (got.Change != "") != r.Changed || r.Changed && got.Change != clock(r.Change) {
				t.Errorf("%s: %s is changed to at %q, want %v", name, of, got.Change, r.Change)
			}
			if len(got.Slitting.Patterns) != len(r.Sets.Patterns) {
				t.Errorf("%s: %s has %d patterns, want %d", name, of, len(got.Slitting.Patterns), len(r.Sets.Patterns))
			}
		}
		of := "book " + b.Name
		shared(of, told.Hours, told.Tonnes, told.Takes, p.Hours, p.Tonnes, p.Takes)
		said(of, "begin", told.Start, clock(b.Start))
		said(of, "end", told.Ready, clock(p.Ready))
		same(of, "yard-left", *told.YardLeft, p.YardLeft.In(paperprop.Tonne), "t")
		if told.YardOut != clock(p.YardOut) {
			t.Errorf("%s: the yard is empty %q, want %v", name, told.YardOut, p.YardOut)
		}
		for i, m := range p.Orders {
			o, got := &b.Orders[i], told.Orders[i]
			of := "order " + o.Name
			same(of, "width", got.Width, o.Width.In(paperprop.Millimetre), "mm")
			same(of, "mass", got.Mass, m.Mass.In(paperprop.Tonne), "t")
			said(of, "ordered", strconv.Itoa(got.Ordered), strconv.Itoa(m.Order.Reels))
			said(of, "made", strconv.Itoa(got.Made), strconv.Itoa(m.Reels))
			said(of, "left-out", strconv.Itoa(got.Left), strconv.Itoa(m.Left))
			said(of, "due", got.Due, clock(o.Due))
			said(of, "ready", got.Ready, clock(m.Ready))
			said(of, "reason", got.Reason, m.Reason)
			late := valued{0, "h"}
			if got.Late != nil {
				late = *got.Late
			}
			same(of, "late", late, m.Late.Hours(), "h")
			if (got.Late != nil) != (m.Late > 0) {
				t.Errorf("%s: %s is late by %v, and by %v", name, of, got.Late, m.Late)
			}
			if (got.Asked != nil) != (o.Mass > 0) || got.Asked != nil && !near(got.Asked.Value, o.Mass.In(paperprop.Tonne)) {
				t.Errorf("%s: %s asks for %v, want %v", name, of, got.Asked, o.Mass)
			}
		}
		if len(told.Refused) != len(b.Bad) {
			t.Errorf("%s: refused %q, want %v", name, told.Refused, b.Bad)
		}
	}
}

// What is not told of a yard, or does not run, is not written.
func TestNotTold(t *testing.T) {
	p := plan(t, smallBook(t, "", []string{"Whin"}, "order;grade;width [mm];reels\nA;Whin;3000;6\n"))
	if told := decoded(t, p); told.YardLeft != nil || told.YardOut != "" {
		t.Errorf("a yard in JSON: %v, %s", told.YardLeft, told.YardOut)
	}
	for _, f := range p.Facts() {
		if f.Result == "yard-left" || f.Result == "steam" {
			t.Errorf("a fact that nothing tells: %+v", f)
		}
	}
}

// Takes of the book are those of its runs, and those of a run so many hours of its
// line; of bales what is not moisture is dry.
func TestTakes(t *testing.T) {
	p := plan(t, listed(t, "", "order;grade;width [mm];reels\nA;Whin 105;1640;12\nB;Harebell 120;1080;9\n"))
	sum := map[string]float64{}
	for _, r := range p.Runs {
		production, _ := r.Line.Value("production")
		hours := r.Tonnes.Made.In(paperprop.Tonne) / production
		for _, x := range r.Takes.List() {
			sum[x.Name] += x.Value
			result := map[string]string{"recovered-paper": "recovered paper.total", "starch": "size solution.starch"}[x.Name]
			if result == "" {
				result = x.Name
			}
			if want, ok := r.Line.Value(result); ok && !near(x.Value, want*hours) {
				t.Errorf("%s: %v %s of %s, want %v", r.Grade.Name, x.Value, x.Unit, x.Name, want*hours)
			} else if !ok && x.Name != "recovered-paper-dry" {
				t.Errorf("%s: the line has no %s", r.Grade.Name, result)
			}
		}
		if got := float64(r.Takes.DryPaper) / float64(r.Takes.Paper); !near(got, 0.885) { // 11.5 % of moisture
			t.Errorf("%s: %v of the bales is dry", r.Grade.Name, got)
		}
	}
	for _, x := range p.Takes.List() {
		if !near(x.Value, sum[x.Name]) {
			t.Errorf("all takes %v %s of %s, and its runs %v", x.Value, x.Unit, x.Name, sum[x.Name])
		}
	}
	if len(sum) != len(p.Takes.List()) || len(sum) != 7 {
		t.Errorf("%d are taken by runs, %d by all", len(sum), len(p.Takes.List()))
	}
}

// What a plan rests on is said, and nothing else.
func TestConventions(t *testing.T) {
	const hard, chosen = "jumbos are wound as hard as the reels", "of all sequences of grades"
	one, two := "order;grade;width [mm];reels\nA;Harebell 120;1080;9\n", "order;grade;width [mm];reels\nA;Harebell 120;1080;9\nB;Whin 105;1080;9\n"
	for _, test := range []struct {
		head, list string
		set        []making.Setting
		has, lacks []string
	}{
		{"", one, nil, []string{"come on top of it", "wound full", hard, "is ready 0 min after"}, []string{"holds trim", "turned up", "down to the middle", chosen}},
		{"", two, nil, []string{hard, chosen}, nil},
		{"sequence = [\"Whin 105\", \"Harebell 120\"]\n", two, nil, []string{hard}, []string{chosen}},
		{"", one, []making.Setting{{Name: "jumbo.spool", Text: "0 mm"}}, []string{"jumbos are paper down to the middle: jumbo.spool is 0 mm"}, []string{"reels are paper down"}},
		{"", one, []making.Setting{{Name: "core-diameter", Text: "0 mm"}}, []string{"reels are paper down to the middle: core-diameter is 0 mm"}, []string{"jumbos are paper down"}},
		{"broke = \"trim included\"\n", one, []making.Setting{{Name: "jumbo.rest", Text: "not wound"}}, []string{"includes trim of the deckle and rests of jumbos too"}, []string{"come on top of it"}},
		{"handling = \"90 min\"\n", one, []making.Setting{{Name: "jumbo.rest", Text: "not wound"}}, []string{"turned up", "is ready 1 h 30 min after"}, []string{"wound full"}},
	} {
		p := plan(t, listed(t, test.head, test.list, test.set...))
		all := strings.Join(p.Conventions, "\n")
		for _, want := range test.has {
			if !strings.Contains(all, want) {
				t.Errorf("%q: no word of %q in %s", test.head, want, all)
			}
		}
		for _, not := range test.lacks {
			if strings.Contains(all, not) {
				t.Errorf("%q: %q in %s", test.head, not, all)
			}
		}
	}
	for _, thickness := range []string{"", "jumbo-thickness = \"190 um\"\n"} {
		text := strings.Replace(small("", "Whin"), "name = \"Whin\"\n", "name = \"Whin\"\n"+thickness, 1)
		p := plan(t, read(t, text, map[string]string{"small.toml": smallLine, "list.csv": "order;grade;width [mm];reels\nA;Whin;3000;6\n"}))
		if got := slices.Contains(p.Conventions, hard); got != (thickness == "") {
			t.Errorf("%q: said to be wound as hard as the reels: %v", thickness, got)
		}
	}
}

// An order is out where reels of it are left, or where it is not even counted.
func TestOut(t *testing.T) {
	b := listed(t, "", head+"A;Whin 105;1640;12;;;;\nB;Whin 105;3500;2;;;;\nC;Whin 105;1640;;9 t;;50 %;\nD;Whin 105;1640;2;;2026-11-30 05:00;;\n")
	b.Orders[2].Terms.Diameter = 0 // its tonnes are no reels
	p := plan(t, b)
	for i, want := range []bool{false, true, true, false} {
		if m := p.Orders[i]; m.Out() != want {
			t.Errorf("%s is out: %v, want %v (%d made, %d left, %q)", b.Orders[i].Name, m.Out(), want, m.Reels, m.Left, m.Reason)
		}
	}
	if got := (&making.Made{}).Out(); got {
		t.Error("nothing asked is out")
	}
}

// What is alike in a set is told by the group that an order names, and by its sizes.
func TestGroups(t *testing.T) {
	p := plan(t, smallBook(t, "", []string{"Whin"}, "order;grade;width [mm];reels;group\nA;Whin;3000;6;\nB;Whin;3000;6;glued\n"))
	r := &p.Runs[0]
	var got []string
	for _, o := range r.Job.Orders {
		got = append(got, o.Group)
	}
	if want := []string{"1250 mm on 100 mm", "glued, 1250 mm on 100 mm"}; fmt.Sprint(got) != fmt.Sprint(want) && fmt.Sprint(got) != fmt.Sprint([]string{want[1], want[0]}) {
		t.Errorf("groups %q, want %q", got, want)
	}
	if len(r.Wound) != 2 || r.Jumbos != 4 {
		t.Errorf("wound %+v", r.Wound)
	}
}
