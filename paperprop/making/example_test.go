package making_test

import (
	"context"
	"fmt"

	"millmaths.example/paperprop"
	"millmaths.example/paperprop/making"
	"millmaths.example/paperprop/table"
)

// The order book of the invented mill: what each grade takes, and who waits.
func Example() {
	book, err := making.ReadFile("../../examples/quillbeck/order-book.toml", table.Options{})
	if err != nil {
		fmt.Println(err)
		return
	}
	plan, err := book.Plan(context.Background())
	if err != nil {
		fmt.Println(err)
		return
	}
	for _, r := range plan.Runs {
		fmt.Printf("%-12s %d sets on %d jumbos, %.1f t of bales, ready %s\n",
			r.Grade.Name, r.Sets.Sets, r.Jumbos, r.Takes.Paper.In(paperprop.Tonne), making.Day(r.End))
	}
	for i, m := range plan.Orders {
		if m.Late > 0 {
			fmt.Printf("%s is %.0f min late\n", book.Orders[i].Name, m.Late.Minutes())
		}
	}
	// Output:
	// Whin 105     14 sets on 5 jumbos, 35.1 t of bales, ready Mon 30 Nov 08:51
	// Harebell 120 10 sets on 4 jumbos, 26.2 t of bales, ready Mon 30 Nov 11:28
	// Harebell 140 10 sets on 4 jumbos, 27.2 t of bales, ready Mon 30 Nov 14:06
	// OB-315 is 45 min late
}
