package making_test

import (
	"cmp"
	"fmt"
	"math"
	"math/rand/v2"
	"slices"
	"strings"
	"testing"
	"time"

	"millmaths.example/paperprop"
	"millmaths.example/paperprop/making"
	"millmaths.example/paperprop/table"
)

// small is a book of grades whose line solves fast, without orders.
func small(head string, grades ...string) string {
	var b strings.Builder
	fmt.Fprintf(&b, `
start = "2026-11-30 06:00"
line = "small.toml"
uptime = "80 %%"
diameter = "1250 mm"
core-diameter = "100 mm"
orders = "list.csv"
%s
[machine]
deckle = "3300 mm"
[jumbo]
diameter = "2.30 m"
spool = "0.60 m"
[change]
time = "30 min"
loss = "1 t"
`, head)
	for _, name := range grades {
		fmt.Fprintf(&b, "[[grade]]\nname = %q\ngrammage = \"105 g/m2\"\nreel-thickness = \"172 um\"\n", name)
	}
	return b.String()
}

func smallBook(t testing.TB, head string, grades []string, list string) *making.Book {
	t.Helper()
	return read(t, small(head, grades...), map[string]string{"small.toml": smallLine, "list.csv": list})
}

func apart(a, b time.Time) time.Duration { return a.Sub(b).Abs() }

// replay cuts the sets of a run one by one, and tells when each order has its last
// reel, and when each jumbo is full.
func replay(t *testing.T, p *making.Plan, r *making.Run, lost float64) (ready map[int]time.Time, ends []time.Time) {
	t.Helper()
	ready = map[int]time.Time{}
	all := 0.0
	for _, w := range r.Wound {
		all += float64(w.Sets)*w.Length.In(paperprop.Metre) + float64(w.Rests)*w.Rest.In(paperprop.Metre) + float64(w.Jumbos)*lost
	}
	cut, wound := r.Cut(), 0.0
	for _, w := range r.Wound {
		// Who waits for a width gets its reels by the date, then by the name.
		waiting := map[paperprop.Length][]int{}
		dates := map[paperprop.Length]time.Time{}
		for i, o := range p.Book.Orders {
			if o.Grade == r.Grade.Name && o.Terms.Diameter == w.Diameter && o.Terms.CoreDiameter == w.Core && o.Group == w.Group {
				if d := dates[o.Width]; !o.Due.IsZero() && (d.IsZero() || o.Due.Before(d)) {
					dates[o.Width] = o.Due
				}
				if p.Orders[i].Reels > 0 {
					waiting[o.Width] = append(waiting[o.Width], i)
				}
			}
		}
		never := time.Date(9999, 1, 1, 0, 0, 0, 0, time.UTC)
		date := func(due time.Time) time.Time {
			if due.IsZero() {
				return never
			}
			return due
		}
		for _, list := range waiting {
			slices.SortFunc(list, func(i, j int) int {
				a, b := p.Book.Orders[i], p.Book.Orders[j]
				return cmp.Or(date(a.Due).Compare(date(b.Due)), cmp.Compare(a.Name, b.Name))
			})
		}
		sets, last := 0, time.Time{}
		got := map[paperprop.Length]int{}
		for sets < w.Sets {
			pattern := r.Sets.Patterns[cut[0]]
			cut = cut[1:]
			soonest := never
			for _, reels := range pattern.Reels {
				if d := date(dates[reels.Width]); d.Before(soonest) {
					soonest = d
				}
			}
			if soonest.Before(last) {
				t.Errorf("%s: a pattern that is due %v is cut after one due %v", r.Grade.Name, soonest, last)
			}
			last = soonest
			for range pattern.Times {
				sets++
				jumbo := (sets + w.PerJumbo - 1) / w.PerJumbo
				length := float64(min(jumbo*w.PerJumbo, w.Sets))*w.Length.In(paperprop.Metre) + float64(min(jumbo, w.Rests))*w.Rest.In(paperprop.Metre) + float64(jumbo)*lost
				full := r.Begin.Add(time.Duration((wound + length) / all * float64(r.End.Sub(r.Begin))))
				if sets%w.PerJumbo == 0 || sets == w.Sets {
					ends = append(ends, full)
				}
				for _, reels := range pattern.Reels {
					got[reels.Width] += reels.Count
					for len(waiting[reels.Width]) > 0 {
						i := waiting[reels.Width][0]
						if got[reels.Width] < p.Orders[i].Reels {
							break
						}
						got[reels.Width] -= p.Orders[i].Reels
						ready[i], waiting[reels.Width] = full, waiting[reels.Width][1:]
					}
				}
			}
		}
		wound += float64(w.Sets)*w.Length.In(paperprop.Metre) + float64(w.Rests)*w.Rest.In(paperprop.Metre) + float64(w.Jumbos)*lost
	}
	return ready, ends
}

// An order is ready when the jumbo with its last reel is wound, and handled; jumbos
// are full one after another.
func TestReady(t *testing.T) {
	r := rand.New(rand.NewPCG(6, 7))
	for n := range 12 {
		set := making.Setting{Name: "jumbo.rest", Text: []string{"broke", "not wound"}[n%2]}
		p := plan(t, listed(t, "handling = \"50 min\"\nlimit = \"200ms\"\n", head+strings.Join(random(r, 4+r.IntN(10)), "\n"),
			set, making.Setting{Name: "jumbo.lost", Text: "20 m"}))
		for k := range p.Runs {
			run := &p.Runs[k]
			ready, ends := replay(t, p, run, 20)
			for i, at := range ready {
				if got := p.Orders[i].Ready; apart(got, at.Add(50*time.Minute)) > time.Millisecond {
					t.Errorf("%s is ready %v, and its last reel is wound %v", p.Book.Orders[i].Name, got, at)
				}
			}
			list := append(run.Ends(), run.End)
			if len(list) != run.Jumbos || len(ends) != run.Jumbos {
				t.Fatalf("%s: %d ends of %d jumbos, %d by hand", run.Grade.Name, len(list), run.Jumbos, len(ends))
			}
			for j := range list {
				if apart(list[j], ends[j]) > time.Millisecond {
					t.Errorf("%s: jumbo %d is full %v, want %v", run.Grade.Name, j+1, list[j], ends[j])
				}
			}
			for _, w := range run.Wound {
				if turned := n%2 == 1; turned && (w.Rest != 0 || w.Rests != 0) || !turned && w.Rests != w.Jumbos-1 {
					t.Errorf("%s: %d rests of %v on %d jumbos", run.Grade.Name, w.Rests, w.Rest, w.Jumbos)
				}
			}
		}
	}
}

// Every spool but the last of a size has a rest, whether the last holds as many sets as
// it can or fewer: the machine ends it when its sets are wound.
func TestRests(t *testing.T) {
	for _, test := range []struct {
		diameter, orders      string
		sets, perJumbo, rests []int     // by size
		lost                  []float64 // m on each spool with a rest
	}{
		// A layer of 172 µm: reels of 1250 mm hold 7089 m, of 1000 mm 4521 m; a jumbo of
		// 2.0 m on its spool of 0.6 m 16621 m, one of 2.3 m 22512 m.
		{"2.0 m", "A;Whin 105;3000;14;1250 mm\n", []int{14}, []int{2}, []int{6}, []float64{2443}},
		{"2.0 m", "A;Whin 105;3000;13;1250 mm\n", []int{13}, []int{2}, []int{6}, []float64{2443}},
		{"2.0 m", "A;Whin 105;3000;2;1250 mm\n", []int{2}, []int{2}, []int{0}, []float64{2443}},
		{"2.3 m", "A;Whin 105;3000;14;1250 mm\n", []int{14}, []int{3}, []int{4}, []float64{1244}},
		{"2.3 m", "A;Whin 105;3000;11;1250 mm\nB;Whin 105;3000;8;1000 mm\n", []int{11, 8}, []int{3, 4}, []int{3, 1}, []float64{1244, 4429}},
	} {
		p := plan(t, listed(t, "", "order;grade;width [mm];reels;diameter\n"+test.orders, making.Setting{Name: "jumbo.diameter", Text: test.diameter}))
		r, length := &p.Runs[0], 0.0
		if len(r.Wound) != len(test.sets) {
			t.Fatalf("%s, %q: wound %+v", test.diameter, test.orders, r.Wound)
		}
		for i, w := range r.Wound {
			if w.Sets != test.sets[i] || w.PerJumbo != test.perJumbo[i] || w.Rests != test.rests[i] || math.Round(w.Rest.In(paperprop.Metre)) != test.lost[i] {
				t.Errorf("%s, %q: %d sets, %d to a jumbo, %d rests of %v; want %d, %d, %d of %v m", test.diameter, test.orders,
					w.Sets, w.PerJumbo, w.Rests, w.Rest, test.sets[i], test.perJumbo[i], test.rests[i], test.lost[i])
			}
			length += float64(test.rests[i]) * w.Rest.In(paperprop.Metre)
		}
		if got := r.Tonnes.Rest.In(paperprop.Tonne); !near(got, length*3.3*105/1e6) { // of the deckle
			t.Errorf("%s, %q: rests of %v t, want %v", test.diameter, test.orders, got, length*3.3*105/1e6)
		}
	}
}

// Reels of one width in two sizes are two kinds: the dates of one do not hurry the
// sets of the other, nor do its reels serve it.
func TestKindsApart(t *testing.T) {
	p := plan(t, smallBook(t, "", []string{"Whin"}, head+`A;Whin;3000;4;;;0 %;1250 mm
B;Whin;2900;4;;2026-12-01;0 %;1250 mm
C;Whin;3000;4;;2026-11-30 08:00;0 %;1000 mm
D;Whin;3600;4;;;0 %;900 mm
`))
	r := &p.Runs[0]
	if len(r.Wound) != 2 {
		t.Errorf("wound %+v, want nothing of D, which is wider than the deckle", r.Wound)
	}
	ready, _ := replay(t, p, r, 0)
	for i, at := range ready {
		if apart(p.Orders[i].Ready, at) > time.Millisecond {
			t.Errorf("%s is ready %v, and its last reel is wound %v", p.Book.Orders[i].Name, p.Orders[i].Ready, at)
		}
	}
	if !p.Orders[1].Ready.Before(p.Orders[0].Ready) {
		t.Errorf("B waits for a date and is ready %v, A for none and is ready %v", p.Orders[1].Ready, p.Orders[0].Ready)
	}
}

// The ends of a thousand jumbos are listed, those of more are not.
func TestEnds(t *testing.T) {
	for reels, want := range map[int]int{3000: 999, 3001: 0, 1: 0, 4: 1} {
		p := plan(t, smallBook(t, "", []string{"Whin"}, fmt.Sprintf("order;grade;width [mm];reels\nA;Whin;3000;%d\n", reels)))
		if got := p.Runs[0].Ends(); len(got) != want {
			t.Errorf("%d reels on %d jumbos: %d ends, want %d", reels, p.Runs[0].Jumbos, len(got), want)
		}
	}
}

// lateness is what a sequence is chosen by.
func lateness(p *making.Plan) (orders int, sum time.Duration) {
	for _, m := range p.Orders {
		if m.Late > 0 {
			orders, sum = orders+1, sum+m.Late
		}
	}
	return orders, sum
}

func permutations(names []string) [][]string {
	if len(names) < 2 {
		return [][]string{names}
	}
	var all [][]string
	for i, first := range names {
		for _, rest := range permutations(slices.Concat(names[:i], names[i+1:])) {
			all = append(all, append([]string{first}, rest...))
		}
	}
	return all
}

// No other sequence has fewer late orders, nor as many with less lateness.
func TestBestSequence(t *testing.T) {
	r := rand.New(rand.NewPCG(8, 7))
	grades := []string{"Whin", "Fern", "Moss"}
	for range 15 {
		list := "order;grade;width [mm];reels;due\n"
		for i := range 7 {
			due := time.Date(2026, 11, 30, 7, 20*r.IntN(18), 0, 0, time.UTC)
			list += fmt.Sprintf("O%d;%s;3000;%d;%s\n", i, grades[i%3], 1+r.IntN(9), due.Format("2006-01-02 15:04"))
		}
		p := plan(t, smallBook(t, "", grades, list))
		late, sum := lateness(p)
		for _, names := range permutations(grades) {
			b := smallBook(t, "", grades, list)
			b.Sequence = names
			q := plan(t, b)
			for k, run := range q.Runs {
				if run.Grade.Name != names[k] {
					t.Errorf("%s runs as number %d, want %v", run.Grade.Name, k+1, names)
				}
			}
			if l, s := lateness(q); l < late || l == late && s < sum-time.Millisecond {
				t.Errorf("%v makes %d late by %v, and what was chosen %d by %v\n%s", names, l, s, late, sum, list)
			}
		}
	}
}

// Of sequences that are as good the first is that of the dates, of equal dates that
// of the grade on the machine, then that of the book.
func TestEqualSequences(t *testing.T) {
	grades := []string{"Whin", "Fern", "Moss"}
	for _, test := range []struct{ head, whin, fern, moss, want string }{
		{"", "", "", "", "Whin Fern Moss"},
		{`running = "Fern"`, "", "", "", "Fern Whin Moss"},
		{`running = "Moss"`, "", "", "", "Moss Whin Fern"},
		{"", "2026-12-09", "2026-12-08", "2026-12-07", "Moss Fern Whin"},
		{"", "", "2026-12-08", "", "Fern Whin Moss"},
		{"", "2026-12-08", "2026-12-08", "2026-12-07", "Moss Whin Fern"},
		{`running = "Fern"`, "2026-12-08", "2026-12-08", "2026-12-07", "Moss Fern Whin"},
		{`running = "Whin"`, "2026-12-09", "2026-12-08", "2026-12-07", "Moss Fern Whin"},
	} {
		// The second order of a grade waits longer, or has no date.
		p := plan(t, smallBook(t, test.head, grades, fmt.Sprintf("order;grade;width [mm];reels;due\nA;Whin;3000;2;%s\nB;Fern;3000;2;%s\nC;Moss;3000;2;%s\n"+
			"D;Whin;2900;2;\nE;Fern;2900;2;2026-12-10\nF;Whin;2800;1;2026-12-10\nG;Moss;2800;1;2026-12-10\n",
			cmp.Or(test.whin, "2026-12-10"), cmp.Or(test.fern, "2026-12-10"), cmp.Or(test.moss, "2026-12-10"))))
		var got []string
		for _, r := range p.Runs {
			got = append(got, r.Grade.Name)
		}
		if strings.Join(got, " ") != test.want {
			t.Errorf("%s, dates %q %q %q: %v, want %s", test.head, test.whin, test.fern, test.moss, got, test.want)
		}
	}
}

// Of seven grades all sequences are looked at; of more the dates alone choose, and
// so a grade that is late in any case goes first, if it is due first.
func TestManyGrades(t *testing.T) {
	for n, want := range map[int]string{7: "of all sequences of grades", 8: "the sequence is that of the dates, as there are more than 7 grades"} {
		var grades []string
		list := "order;grade;width [mm];reels;due\n"
		for i := range n {
			grades = append(grades, fmt.Sprint("G", i))
			if i == 0 {
				list += "O0;G0;3000;60;2026-11-30 06:01\n"
			} else {
				list += fmt.Sprintf("O%d;G%d;3000;1;2026-11-30 16:%02d\n", i, i, i)
			}
		}
		p := plan(t, smallBook(t, "", grades, list))
		last := p.Runs[n-1].Grade.Name == "G0"
		if late, _ := lateness(p); last != (n <= 7) || (late == 1) != (n <= 7) {
			t.Errorf("%d grades: %d late, G0 last: %v", n, late, last)
		}
		if got := p.Conventions[len(p.Conventions)-1]; !strings.HasPrefix(got, want) {
			t.Errorf("%d grades: %q, want %q", n, got, want)
		}
	}
}

// Ready on the dot is not late, neither in what is told nor in what is chosen by.
func TestOnTheDot(t *testing.T) {
	list := "order;grade;width [mm];reels\nA;Whin;3000;6\nB;Fern;3000;7\nC;Fern;2900;8\n"
	b := smallBook(t, "", []string{"Whin", "Fern"}, list)
	b.Sequence = []string{"Whin", "Fern"}
	p := plan(t, b)
	for i := range b.Orders {
		b.Orders[i].Due = p.Orders[i].Ready
	}
	b.Sequence = nil
	q := plan(t, b)
	if late, sum := lateness(q); late > 0 || q.Runs[0].Grade.Name != "Whin" {
		t.Errorf("%s runs first, and %d are late by %v", q.Runs[0].Grade.Name, late, sum)
	}
	b.Orders[0].Due = b.Orders[0].Due.Add(-1)
	b.Sequence = []string{"Whin", "Fern"}
	if late, sum := lateness(plan(t, b)); late != 1 || sum != 1 {
		t.Errorf("%d are late by %v, want one by 1ns", late, sum)
	}
}

// The machine's time is that of its paper, at the uptime, and of changes.
func TestHours(t *testing.T) {
	p := plan(t, smallBook(t, `running = "Fern"`, []string{"Whin", "Fern"}, "order;grade;width [mm];reels\nA;Whin;3000;6\nB;Fern;3000;7\n"))
	var sum making.Hours
	at := p.Book.Start
	for _, r := range p.Runs {
		made := (r.Tonnes.Made - r.Tonnes.Change).In(paperprop.Tonne)
		if got := r.Hours.Reeling.In(paperprop.Hour); !near(got, made/10) { // at 10 t/h
			t.Errorf("%s: %v h of reeling for %v t", r.Grade.Name, got, made)
		}
		if got := r.Hours.Lost; !near(float64(got), 0.25*float64(r.Hours.Reeling)) { // at 80 %
			t.Errorf("%s: %v lost, %v of reeling", r.Grade.Name, got, r.Hours.Reeling)
		}
		if got := r.Hours.Sum().In(paperprop.Hour); !near(got, r.End.Sub(r.Change).Hours()) || !r.Change.Equal(at) {
			t.Errorf("%s: %v h in all, from %v to %v", r.Grade.Name, got, r.Change, r.End)
		}
		at = r.End
		sum.Reeling, sum.Lost, sum.Changes = sum.Reeling+r.Hours.Reeling, sum.Lost+r.Hours.Lost, sum.Changes+r.Hours.Changes
	}
	if p.Hours != sum || !p.Ready.Equal(at) {
		t.Errorf("all %+v until %v, want %+v until %v", p.Hours, p.Ready, sum, at)
	}
	if sum.Changes != 30*paperprop.Minute {
		t.Errorf("changes take %v", sum.Changes)
	}
}

// A plan may take a century, and no more; a loss as long as the change that makes
// it, and no longer.
func TestLongest(t *testing.T) {
	list := "order;grade;width [mm];reels\nA;Whin;3000;6\n"
	whin := []string{"Whin"}
	hours := plan(t, smallBook(t, "", whin, list)).Hours.Reeling.In(paperprop.Hour)
	for _, test := range []struct {
		old, new, want string
	}{
		{`"80 %"`, fmt.Sprintf("\"%.12f %%\"", 100*hours/(36524*24)), ""},
		{`"80 %"`, fmt.Sprintf("\"%.12f %%\"", 100*hours/(36526*24)), "Whin: it takes more than a hundred years"},
		{`"80 %"`, `"100 %"`, ""},
		{`"1 t"`, `"5 t"`, ""}, // half an hour, at 10 t/h
		{`"1 t"`, `"5.001 t"`, "Whin: change.loss is 5.001 t, and takes 30 min at 10 t/h: more than change.time, 30 min"},
		{`"1 t"`, `"15 t"`, "change.loss is 15 t, and takes 1 h 30 min at 10 t/h"},
	} {
		text := strings.Replace(small("", whin...), test.old, test.new, 1)
		_, err := read(t, text, map[string]string{"small.toml": smallLine, "list.csv": list}).Plan(t.Context())
		if (err != nil) != (test.want != "") || err != nil && !strings.Contains(err.Error(), test.want) {
			t.Errorf("%s for %s: %v, want %q", test.new, test.old, err, test.want)
		}
	}
}

// The yard is empty when what is left is less than a grade takes, not when it goes
// up to the last bale.
func TestLastBale(t *testing.T) {
	list := "order;grade;width [mm];reels;due\nA;Whin;3000;6;\nB;Fern;3000;7;2026-11-30 05:00\n"
	b := smallBook(t, "", []string{"Whin", "Fern"}, list)
	b.Sequence = []string{"Whin", "Fern"}
	all := plan(t, b)
	b.Yard = all.Runs[0].Takes.Paper
	p := plan(t, b)
	if !p.YardOut.Equal(p.Runs[1].Change) || !near(float64(p.YardLeft), -float64(p.Runs[1].Takes.Paper)) {
		t.Errorf("what Whin takes: empty %v, %v left", p.YardOut, p.YardLeft)
	}
	if want := "not without more bales, as the yard is empty " + making.Day(p.YardOut); p.Orders[0].Reason != "" ||
		p.Orders[1].Reason != "its date is not after the start; "+want {
		t.Errorf("reasons %q, %q, want %q", p.Orders[0].Reason, p.Orders[1].Reason, want)
	}
	b.Orders[1].Due = time.Time{}
	if got := plan(t, b).Orders[1].Reason; got != "not without more bales, as the yard is empty "+making.Day(p.YardOut) {
		t.Errorf("reason %q", got)
	}
	b.Orders = b.Orders[:1]
	if p = plan(t, b); p.YardLeft != 0 || !p.YardOut.IsZero() || p.Orders[0].Reason != "" {
		t.Errorf("Whin alone: empty %v, %v left, %q", p.YardOut, p.YardLeft, p.Orders[0].Reason)
	}
}

// Bales are taken in as paper is made: the 5 t of a change within its half an hour, the
// rest over the run. An order whose last jumbo is wound before the yard is empty has
// them, though it is ready only when it is handled.
func TestYardEmpty(t *testing.T) {
	for _, test := range []struct {
		yard, empty, without string
	}{
		// Whin 105 takes 35.148 t until 08:50:57. Harebell 120 takes 26.153 t for 34.071 t
		// made: 3.838 t in its change, then 22.315 t from 09:20:57 to 11:27:44. Of the 27.190 t
		// of Harebell 140, 23.247 t are taken from 11:57:44 to 14:06:27.
		{"35.1 t", "08:50:43", "TD-87 TD-88 OB-311 OB-312 OB-313 OB-314 OB-315 OB-316 OB-317 OB-318"},
		{"37 t", "09:05:26", "OB-311 OB-312 OB-313 OB-314 OB-315 OB-316 OB-317 OB-318"},
		{"50 t", "10:23:31", "OB-312 OB-313 OB-314 OB-315 OB-316 OB-317 OB-318"},
		{"88.4 t", "14:05:56", "OB-318"},
		{"88.6 t", "", ""},
	} {
		b, err := making.ReadFile(quillbeck+"order-book.toml", table.Options{}, making.Setting{Name: "yard", Text: test.yard})
		if err != nil {
			t.Fatal(err)
		}
		p := plan(t, b)
		var without []string
		for i, m := range p.Orders {
			if strings.Contains(m.Reason, "not without more bales") {
				without = append(without, b.Orders[i].Name)
			}
		}
		slices.SortFunc(without, func(x, y string) int { return cmp.Or(-cmp.Compare(x[:2], y[:2]), cmp.Compare(x, y)) })
		empty := ""
		if !p.YardOut.IsZero() {
			empty = p.YardOut.Round(time.Second).Format(time.TimeOnly)
		}
		if got := strings.Join(without, " "); empty != test.empty || got != test.without {
			t.Errorf("%s: empty %s, and then without bales are %s; want %s, %s", test.yard, empty, got, test.empty, test.without)
		}
	}
}

// Who can't be on time though its grade runs first is told when its jumbo is wound,
// before handling.
func TestReasonOfFirst(t *testing.T) {
	p := plan(t, smallBook(t, `handling = "90 min"`, []string{"Whin"}, "order;grade;width [mm];reels;due\nA;Whin;3000;6;2026-11-30 06:30\n"))
	want := "can't be made by then: though Whin runs first, the last jumbo with a reel of it is wound " + making.Day(p.Runs[0].End)
	if m := p.Orders[0]; m.Reason != want || !m.Ready.Equal(p.Runs[0].End.Add(90*time.Minute)) {
		t.Errorf("ready %v: %q, want %q", m.Ready, m.Reason, want)
	}
}
