package oracles

import (
	"context"
	"flag"
	"fmt"
	"math/rand/v2"
	"os"
	"os/exec"
	"path/filepath"
	"regexp"
	"strings"
	"testing"

	"millmaths.example/paperprop"
	"millmaths.example/paperprop/trim"
)

var orders = flag.Int("orders", 500, "how many random orders to slit")

var objective = regexp.MustCompile(`Objective:\s+\S+ = ([0-9]+) `)

// The fewest sets of small random orders are those that GLPK finds over all
// patterns there are.
func TestSlitting(t *testing.T) {
	folder := t.TempDir()
	for k := range *orders {
		r := rand.New(rand.NewPCG(uint64(k), 2))
		deckle := 2400 + r.IntN(1200)
		across := 3 + r.IntN(4)
		job := &trim.Job{
			Parents:     []trim.Parent{{Deckle: paperprop.Length(deckle)}},
			Slitter:     trim.Slitter{MostReels: across},
			AnyPatterns: true,
		}
		var widths, reels []int
		for range 2 + r.IntN(3) {
			w := 400 + 10*r.IntN(160)
			widths, reels = append(widths, w), append(reels, 1+r.IntN(14))
			job.Orders = append(job.Orders, trim.Order{Width: paperprop.Length(w), Reels: reels[len(reels)-1]})
		}
		plan, err := job.Plan(context.Background())
		if err != nil {
			t.Fatalf("order %d: %v", k, err)
		}
		model, answer := filepath.Join(folder, "model.lp"), filepath.Join(folder, "answer")
		if err := os.WriteFile(model, []byte(program(deckle, across, widths, reels)), 0o644); err != nil {
			t.Fatal(err)
		}
		if out, err := exec.Command("glpsol", "--lp", model, "-o", answer).CombinedOutput(); err != nil {
			t.Fatalf("%v (apt-get install glpk-utils): %s", err, out)
		}
		told, err := os.ReadFile(answer)
		if err != nil {
			t.Fatal(err)
		}
		best := objective.FindSubmatch(told)
		if best == nil || !strings.Contains(string(told), "INTEGER OPTIMAL") {
			t.Fatalf("order %d: %s", k, told)
		}
		if fmt.Sprint(plan.Sets) != string(best[1]) || !plan.Certificate.Proven {
			t.Errorf("deckle %d, at most %d of %d times %d: %d sets (proven: %v), GLPK %s", deckle, across, reels, widths, plan.Sets, plan.Certificate.Proven, best[1])
		}
	}
}

// program writes the least number of sets over every pattern: how often each is
// cut is a whole number, and each width comes out as often as it is ordered.
func program(deckle, across int, widths, reels []int) string {
	var sets, whole strings.Builder
	rows := make([]strings.Builder, len(widths))
	n := 0
	var patterns func(i, room, left int, counts []int)
	patterns = func(i, room, left int, counts []int) {
		if i == len(widths) {
			if left == across {
				return
			}
			n++
			fmt.Fprintf(&sets, " + x%d", n)
			fmt.Fprintf(&whole, " x%d\n", n)
			for j, c := range counts {
				if c > 0 {
					fmt.Fprintf(&rows[j], " + %d x%d", c, n)
				}
			}
			return
		}
		for c := 0; c*widths[i] <= room && c <= left; c++ {
			patterns(i+1, room-c*widths[i], left-c, append(counts[:i:i], c))
		}
	}
	patterns(0, deckle, across, nil)
	var b strings.Builder
	fmt.Fprintf(&b, "Minimize\n sets:%s\nSubject To\n", sets.String())
	for j := range rows {
		fmt.Fprintf(&b, " w%d:%s = %d\n", j, rows[j].String(), reels[j])
	}
	fmt.Fprintf(&b, "General\n%sEnd\n", whole.String())
	return b.String()
}
