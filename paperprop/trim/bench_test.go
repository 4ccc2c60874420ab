package trim

import (
	"encoding/csv"
	"fmt"
	"os"
	"path/filepath"
	"sort"
	"strconv"
	"strings"
	"testing"
	"time"
)

type inst struct {
	name string
	m    *model
}

func readInst(t testing.TB, file string) []inst {
	f, err := os.Open(file)
	if err != nil {
		t.Fatal(err)
	}
	defer f.Close()
	recs, _ := csv.NewReader(f).ReadAll()
	var out []inst
	for _, r := range recs[1:] {
		c, _ := strconv.ParseInt(r[1], 10, 64)
		w, _ := strconv.ParseInt(r[2], 10, 64)
		d, _ := strconv.Atoi(r[3])
		if len(out) == 0 || out[len(out)-1].name != r[0] {
			out = append(out, inst{r[0], &model{parents: []parent{{width: c, cost: 1, times: 1}}, groups: [][]int32{nil}, pieces: 1 << 30, kinds: 1 << 30, runs: 1}})
		}
		m := out[len(out)-1].m
		i := int32(len(m.rows))
		m.rows = append(m.rows, row{d, d})
		m.cuts = append(m.cuts, cut{w, i, 1, 0})
		m.groups[0] = append(m.groups[0], i)
	}
	return out
}

func TestScratch(t *testing.T) {
	dir := os.Getenv("TRIMDIR")
	if dir == "" {
		t.Skip()
	}
	limit, _ := time.ParseDuration(os.Getenv("TRIMLIMIT"))
	if limit == 0 {
		limit = 5 * time.Second
	}
	best := map[string][]string{}
	f, _ := os.Open(filepath.Join(dir, "best-known.csv"))
	recs, _ := csv.NewReader(f).ReadAll()
	for _, r := range recs[1:] {
		best[r[0]] = r
	}
	for _, class := range strings.Split(os.Getenv("TRIMCLASS"), ",") {
		var times []float64
		proven, above := 0, 0
		ins := readInst(t, filepath.Join(dir, class+".csv"))
		for _, in := range ins {
			if only := os.Getenv("TRIMONLY"); only != "" && !strings.Contains(in.name, only) {
				continue
			}
			start := time.Now()
			s := solve(in.m, func() bool { return time.Since(start) > limit })
			d := time.Since(start).Seconds()
			times = append(times, d)
			known, _ := strconv.ParseInt(best[in.name][1], 10, 64)
			if s.done() {
				proven++
			}
			if s.best.cost > known {
				above++
			}
			if !s.done() || d > 1 || os.Getenv("TRIMV") != "" || s.best.cost < known {
				fmt.Printf("  %s m=%d best=%d lower=%d known=%v %.3fs nodes=%d cols=%d pivots=%d doubt=%v\n", in.name, len(in.m.rows), s.best.cost, s.lower, best[in.name][1:3], d, s.nodes, len(s.patterns), s.lp.steps, s.doubt)
			}
		}
		sort.Float64s(times)
		if n := len(times); n > 0 {
			fmt.Printf("%s: %d/%d proven, %d above known, median %.4f p90 %.3f max %.3f\n", class, proven, n, above, times[n/2], times[n*9/10], times[n-1])
		}
	}
}
