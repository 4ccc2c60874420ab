package trim_test

import (
	"context"
	"encoding/csv"
	"os"
	"strconv"
	"strings"
	"testing"
	"time"

	"millmaths.example/paperprop"
	"millmaths.example/paperprop/trim"
)

// TestReference runs the worked examples of the table: each says where it is
// from.
func TestReference(t *testing.T) {
	f, err := os.Open("../../testdata/trim/reference.csv")
	if err != nil {
		t.Fatal(err)
	}
	defer f.Close()
	rows, err := csv.NewReader(f).ReadAll()
	if err != nil {
		t.Fatal(err)
	}
	for _, row := range rows[1:] {
		in, want := members(row[3]), members(row[4])
		t.Run(row[0], func(t *testing.T) {
			job := referenceJob(t, in)
			job.AnyPatterns = want["fewest_patterns"] == ""
			ctx, cancel := context.WithTimeout(context.Background(), 2*time.Minute)
			defer cancel()
			p, err := job.Plan(ctx)
			if want["refused"] != "" {
				if err == nil {
					t.Fatalf("%s: planned, want refused", row[3])
				}
				return
			}
			if err != nil {
				t.Fatalf("%s: %v (%s: %s)", row[3], err, row[6], row[7])
			}
			if err := check(job, p); err != nil {
				t.Errorf("%s: %v", row[3], err)
			}
			for name, got := range map[string]string{
				"fewest_sets":        strconv.Itoa(p.Sets),
				"fewest_patterns":    strconv.Itoa(len(p.Patterns)),
				"most_filler_reels":  fillers(p),
				"trim_left":          number(p.Trim),
				"parent_width_total": number(p.Deckle),
				"group_a":            strconv.Itoa(groupSets(p, "a")),
				"group_b":            strconv.Itoa(groupSets(p, "b")),
			} {
				if w, _, _ := strings.Cut(want[name], " "); want[name] != "" && got != w {
					t.Errorf("%s: %s is %s, want %s (%s: %s)", row[3], name, got, want[name], row[6], row[7])
				}
			}
			if want["proven"] == "yes" && !p.Certificate.Proven {
				t.Errorf("%s: not proven: %d, bound %d", row[3], p.Certificate.Value, p.Certificate.Bound)
			}
		})
	}
}

func fillers(p *trim.Plan) string {
	if len(p.Fillers) == 0 {
		return ""
	}
	return strconv.Itoa(p.Fillers[0])
}

func number(l paperprop.Length) string { return string(paperprop.AppendShort(nil, float64(l))) }

func groupSets(p *trim.Plan, group string) int {
	n := 0
	for _, x := range p.Patterns {
		if x.Group == group {
			n += x.Times
		}
	}
	return n
}

// members parts "a=1 mm; b=2".
func members(text string) map[string]string {
	m := map[string]string{}
	for _, part := range strings.Split(text, ";") {
		name, value, _ := strings.Cut(strings.TrimSpace(part), "=")
		m[name] = value
	}
	return m
}

// list parts "1,2.5,3 in"; a width without a unit is in mm.
func list(text string) (numbers []string, unit string) {
	text, unit, _ = strings.Cut(strings.TrimSpace(text), " ")
	if unit == "" || unit == "1" {
		unit = "mm"
	}
	return strings.Split(text, ","), unit
}

func lengths(t *testing.T, text string) []paperprop.Length {
	var out []paperprop.Length
	numbers, unit := list(text)
	for _, n := range numbers {
		l, err := paperprop.ParseLength(n + " " + unit)
		if err != nil {
			t.Fatal(err)
		}
		out = append(out, l)
	}
	return out
}

func counts(t *testing.T, text string) []int {
	var out []int
	numbers, _ := list(text)
	for _, n := range numbers {
		x, err := strconv.Atoi(n)
		if err != nil {
			t.Fatal(err)
		}
		out = append(out, x)
	}
	return out
}

func referenceJob(t *testing.T, in map[string]string) *trim.Job {
	job := &trim.Job{}
	for name, value := range in {
		switch name {
		case "deckle", "deckles":
			for _, l := range lengths(t, value) {
				job.Parents = append(job.Parents, trim.Parent{Deckle: l})
			}
			if name == "deckles" {
				job.Aim = trim.LeastWidth
			}
		case "widths":
			widths := lengths(t, value)
			for i, w := range widths {
				o := trim.Order{Width: w}
				if d := in["demands"]; d != "" {
					o.Reels = counts(t, d)[i]
				} else {
					o.Least, o.Most = counts(t, in["least"])[i], counts(t, in["most"])[i]
					o.Reels = (o.Least + o.Most) / 2
				}
				if in["least_used"] != "" { // the rows ask for at least what is ordered
					o.Least, o.Most = o.Reels, 2*o.Reels
				}
				if g := in["groups"]; g != "" {
					o.Group = strings.Split(g, ",")[i]
				}
				job.Orders = append(job.Orders, o)
			}
		case "most_pieces":
			job.Slitter.MostReels = counts(t, value)[0]
		case "most_widths":
			job.Slitter.MostWidths = counts(t, value)[0]
		case "least_used":
			job.Slitter.LeastUsed = lengths(t, value)[0]
		case "filler":
			job.Fillers = []trim.Filler{{Width: lengths(t, value)[0]}}
		case "demands", "least", "most", "groups", "sets":
		default:
			t.Fatalf("unknown input %q", name)
		}
	}
	return job
}

// publishedJobs are instances of public classes, and the fewest sets of each:
// testdata/trim/README.md says where they are from.
func publishedJobs(t testing.TB) (names []string, jobs []*trim.Job, fewest []int) {
	f, err := os.Open("../../testdata/trim/published.csv")
	if err != nil {
		t.Fatal(err)
	}
	defer f.Close()
	rows, err := csv.NewReader(f).ReadAll()
	if err != nil {
		t.Fatal(err)
	}
	for _, row := range rows[1:] {
		var n [4]int
		for i := range n {
			if n[i], err = strconv.Atoi(row[2+i]); err != nil {
				t.Fatal(err)
			}
		}
		if last := len(names) - 1; last < 0 || names[last] != row[1] {
			names = append(names, row[1])
			jobs = append(jobs, &trim.Job{Parents: []trim.Parent{{Deckle: paperprop.Length(n[0])}}, AnyPatterns: true})
			fewest = append(fewest, n[3])
		}
		j := jobs[len(jobs)-1]
		j.Orders = append(j.Orders, trim.Order{Width: paperprop.Length(n[1]), Reels: n[2]})
	}
	return names, jobs, fewest
}

func TestPublished(t *testing.T) {
	names, jobs, fewest := publishedJobs(t)
	for i, j := range jobs {
		p, err := j.Plan(context.Background())
		if err != nil {
			t.Fatal(err)
		}
		if err := check(j, p); err != nil {
			t.Errorf("%s: %v", names[i], err)
		}
		if p.Sets != fewest[i] || !p.Certificate.Proven {
			t.Errorf("%s: %d sets, proven %v, want %d", names[i], p.Sets, p.Certificate.Proven, fewest[i])
		}
	}
}

// A day's orders, and public instances.
func BenchmarkPlan(b *testing.B) {
	names, jobs, _ := publishedJobs(b)
	for i, j := range jobs {
		b.Run("instance="+names[i], func(b *testing.B) {
			for b.Loop() {
				if _, err := j.Plan(context.Background()); err != nil {
					b.Fatal(err)
				}
			}
		})
	}
}
