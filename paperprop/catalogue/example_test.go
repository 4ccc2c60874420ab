package catalogue_test

import (
	"fmt"

	"millmaths.example/paperprop/catalogue"
)

// A program that learns the name of a calculation when it runs, and its inputs
// as JSON, needs no Go type of it.
func Example() {
	c, ok := catalogue.Find("retention")
	if !ok {
		return
	}
	s := c.NewSheet()
	if err := s.SetJSON([]byte(`{"headbox-consistency":"0.8 %","tray-consistency":"0.2 %"}`)); err != nil {
		fmt.Println(err)
		return
	}
	if err := s.Run(); err != nil {
		fmt.Println(err)
		return
	}
	for _, out := range s.Out {
		fmt.Println(out.Name, out.Reported())
	}
	// Output: first-pass-retention 75 %
}
