package trim_test

import (
	"context"
	"fmt"

	"millmaths.example/paperprop"
	"millmaths.example/paperprop/trim"
)

// Harebell 120, a grade of the invented Quillbeck Board Mill: 25 reels out of a
// deckle of 3300 mm, at most five across.
func ExampleJob_Plan() {
	job := trim.Job{
		Parents: []trim.Parent{{Deckle: 3300 * paperprop.Millimetre}},
		Slitter: trim.Slitter{MostReels: 5},
		Orders: []trim.Order{
			{Width: 2240 * paperprop.Millimetre, Reels: 3},
			{Width: 1450 * paperprop.Millimetre, Reels: 6},
			{Width: 1080 * paperprop.Millimetre, Reels: 9},
			{Width: 820 * paperprop.Millimetre, Reels: 7},
		},
	}
	plan, err := job.Plan(context.Background())
	if err != nil {
		fmt.Println(err)
		return
	}
	fmt.Printf("%d sets, %.2f %% trim; no plan uses fewer: %v\n",
		plan.Sets, plan.Loss().In(paperprop.Percent), plan.Certificate.Proven)
	cut := 0
	for _, p := range plan.Patterns {
		for _, r := range p.Reels {
			cut += p.Times * r.Count
		}
	}
	fmt.Println(cut, "reels")
	// Output:
	// 10 sets, 6.42 % trim; no plan uses fewer: true
	// 25 reels
}
