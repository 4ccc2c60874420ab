package main

import (
	"context"
	"fmt"
	"slices"
	"time"

	"millmaths.example/paperprop"
	"millmaths.example/paperprop/trim"
)

// A limit is what a slitter or an order list may ask for beyond widths. put
// gives a job that has it, or the job that a time with it is compared with.
type limit struct {
	name string
	put  func(j *trim.Job, on bool)
}

// eachOrder changes the orders of a job, where that is on.
func eachOrder(change func(i int, o *trim.Order)) func(*trim.Job, bool) {
	return func(j *trim.Job, on bool) {
		for i := range j.Orders {
			if on {
				change(i, &j.Orders[i])
			}
		}
	}
}

// looser lets a tenth more be made of every order.
func looser(j *trim.Job) {
	for i := range j.Orders {
		o := &j.Orders[i]
		o.Least, o.Most = o.Reels, o.Reels+max(1, o.Reels/10)
	}
}

// deckles puts a second deckle, nine tenths as wide, beside the first.
func deckles(sets int, aim trim.Aim) func(*trim.Job, bool) {
	return func(j *trim.Job, on bool) {
		if on {
			j.Parents = append(j.Parents, trim.Parent{Deckle: paperprop.Length(int(j.Parents[0].Deckle) * 9 / 10), Sets: sets})
			j.Aim = aim
		}
	}
}

var limits = []limit{
	{"most reels across", func(j *trim.Job, on bool) {
		if on {
			j.Slitter.MostReels = across(j)
		}
	}},
	{"most different widths", func(j *trim.Job, on bool) {
		if on {
			j.Slitter.MostWidths = 3
		}
	}},
	{"least used width", func(j *trim.Job, on bool) {
		if looser(j); on {
			j.Slitter.LeastUsed = j.Parents[0].Deckle * 9 / 10
		}
	}},
	{"set multiple", func(j *trim.Job, on bool) {
		for i := range j.Orders {
			j.Orders[i].Reels += j.Orders[i].Reels % 2
		}
		if on {
			j.Slitter.SetMultiple = 2
		}
	}},
	{"least sets, over-run", func(j *trim.Job, on bool) {
		if looser(j); on {
			j.Slitter.LeastSets = 2
		}
	}},
	{"least sets, exact counts", func(j *trim.Job, on bool) {
		for i := range j.Orders {
			j.Orders[i].Reels = max(2, j.Orders[i].Reels)
		}
		if on {
			j.Slitter.LeastSets = 2
		}
	}},
	{"two deckles", deckles(0, trim.FewestSets)},
	{"two deckles, least width", deckles(0, trim.LeastWidth)},
	{"two deckles, ten sets of one", deckles(10, trim.LeastWidth)},
	{"two groups", eachOrder(func(i int, o *trim.Order) { o.Group = string(rune('a' + i%2)) })},
	{"under- and over-run", eachOrder(func(_ int, o *trim.Order) {
		o.Least, o.Most = o.Reels-o.Reels/10, o.Reels+o.Reels/10
	})},
	{"sheets", eachOrder(func(i int, o *trim.Order) { o.Sheets = 1 + i%2 })},
	{"filler", func(j *trim.Job, on bool) {
		if on {
			j.Fillers = []trim.Filler{{Width: j.Parents[0].Deckle / 20, Most: 10}}
		}
	}},
}

// across is how many reels of the mean width lie across a deckle, and no more.
func across(j *trim.Job) int {
	reels, width := 0, 0.0
	for _, o := range j.Orders {
		reels += o.Reels
		width += float64(o.Reels) * float64(o.Width)
	}
	return max(2, int(float64(j.Parents[0].Deckle)*float64(reels)/width))
}

// factors tells how many times as long each limit takes as no limit.
func factors(class string, instances []*instance, time time.Duration) {
	fmt.Printf("%s: %d instances\n%-30s %8s %8s %8s %6s\n", class, len(instances), "limit", "median", "of all", "proven", "failed")
	for _, l := range limits {
		var each []float64
		var with, without float64
		proven, failed := 0, 0
		for _, in := range instances {
			plain, limited := in.job, in.job
			plain.Orders, limited.Orders = slices.Clone(plain.Orders), slices.Clone(plain.Orders)
			plain.Parents, limited.Parents = slices.Clone(plain.Parents), slices.Clone(plain.Parents)
			l.put(&plain, false)
			l.put(&limited, true)
			a, _, _ := timed(&plain, time)
			b, isProven, ok := timed(&limited, time)
			with, without, each = with+b, without+a, append(each, b/a)
			if isProven {
				proven++
			}
			if !ok {
				failed++
			}
		}
		slices.Sort(each)
		fmt.Printf("%-30s %8.2f %8.2f %8d %6d\n", l.name, each[len(each)/2], with/without, proven, failed)
	}
}

// timed plans a job and tells how many seconds that took, the least of a hundred, or of
// as many as half a second is good for.
func timed(j *trim.Job, limit time.Duration) (seconds float64, proven, ok bool) {
	began := time.Now()
	for run := range 100 {
		ctx, cancel := context.WithTimeout(context.Background(), limit)
		start := time.Now()
		p, err := j.Plan(ctx)
		took := time.Since(start).Seconds()
		cancel()
		if run == 0 || took < seconds {
			seconds, proven, ok = took, err == nil && p.Certificate.Proven, err == nil
		}
		if time.Since(began).Seconds() > 0.5 {
			break
		}
	}
	return seconds, proven, ok
}
