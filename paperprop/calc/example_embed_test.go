package calc_test

import (
	"encoding/json"
	"errors"
	"fmt"
	"slices"

	"millmaths.example/paperprop"
	"millmaths.example/paperprop/calc"
	"millmaths.example/paperprop/catalogue"
	"millmaths.example/stock"
)

// A list of calculations is a slice: one's own stands beside those of the
// library, and every face takes either. Nothing is registered anywhere.
func ExampleCalculation() {
	list := append(stock.Calculations(), sheets)
	find := func(name string) (calc.Calculation, bool) {
		i := slices.IndexFunc(list, func(c calc.Calculation) bool { return c.ID() == name })
		if i < 0 {
			return nil, false
		}
		return list[i], true
	}
	for _, ask := range [][2]string{
		{"sheets", `{"mass":"5 kg","grammage":"80 g/m2","area":"0.0625 m2"}`},
		{"retention", `{"headbox-consistency":"0.8 %","tray-consistency":"0.2 %"}`},
	} {
		c, ok := find(ask[0])
		if !ok {
			fmt.Println("unknown:", ask[0])
			return
		}
		s := c.NewSheet()
		if err := s.SetJSON([]byte(ask[1])); err != nil {
			fmt.Println(err)
			return
		}
		if err := s.Run(); err != nil {
			fmt.Println(err)
			return
		}
		fmt.Println(c.ID(), s.Out[0].Name, s.Out[0].Reported())
	}
	// Output:
	// sheets sheets 1000
	// retention first-pass-retention 75 %
}

// The JSON face in one call: inputs in, an answer or an error out, both JSON.
func ExampleRunJSON() {
	c, _ := catalogue.Find("grammage-at-moisture")
	for _, request := range []string{
		`{"grammage":"120 g/m2","moisture":"7.5 %","to-moisture":"0 %"}`,
		`{"grammage":"120 g/m2","moisture":7.5,"to-moisture":"0 %"}`,
	} {
		data, err := calc.RunJSON(c, []byte(request))
		if err != nil {
			data = calc.ErrorJSON(c.ID(), err)
		}
		var answer struct {
			Outputs map[string]struct {
				Value float64
				Unit  string
			}
			Error struct{ Code, Input, Text string }
		}
		if err := json.Unmarshal(data, &answer); err != nil {
			fmt.Println(err)
			return
		}
		if answer.Error.Code != "" {
			fmt.Printf("%s: %s\n", answer.Error.Code, answer.Error.Text)
			continue
		}
		fmt.Println(answer.Outputs["to-grammage"])
	}
	// Output:
	// {111 g/m2}
	// text: moisture "7.5": unit missing, want % or g/g
}

// How sure is a dilution, and whose fault is it? One ± is one standard
// uncertainty. The flow is that of an invented mill, Quillbeck.
func ExampleSheet_Uncertainties() {
	c, _ := catalogue.Find("dilution")
	s := c.NewSheet()
	if err := s.SetText("mass-flow=300 t/h ± 1 %; consistency-in=4.6 ± 0.1 %; consistency-out=0.92 %"); err != nil {
		fmt.Println(err)
		return
	}
	if err := s.Run(); err != nil {
		fmt.Println(err)
		return
	}
	all, err := s.Uncertainties()
	if err != nil {
		fmt.Println(err)
		return
	}
	water := all[0]
	k, expanded, err := water.Expanded(0.95)
	fmt.Printf("%s %s, u = %s, U = %s (k = %.2f), %v\n", water.Cell.Name, water.Cell.Reported(),
		water.Cell.Spread(water.Standard), water.Cell.Spread(expanded), k, err)
	for _, share := range water.Shares {
		fmt.Println(share.Name, water.Cell.Spread(share.U))
	}
	// Output:
	// water-flow 1200 t/h, u = 35 t/h, U = 68 t/h (k = 1.96), <nil>
	// mass-flow 12 t/h
	// consistency-in 33 t/h
}

// Any input left out is solved for where an output is given in its place; an
// answer that is not there is an error with its reason.
func ExampleSheet_Set_solve() {
	c, _ := catalogue.Find("dilution")
	for _, water := range []string{"1200 t/h", "-5 t/h"} {
		s := c.NewSheet()
		if err := s.SetText("mass-flow=300 t/h; consistency-in=4.6 %; water-flow=" + water); err != nil {
			fmt.Println(err)
			return
		}
		err := s.Run()
		var none *calc.NoRootError
		switch {
		case errors.As(err, &none):
			fmt.Println("no value of", none.Unknown.Name, "gives", water)
		case err != nil:
			fmt.Println(err)
		default:
			for _, root := range s.Roots {
				fmt.Println(root.Input.Name, root.People())
			}
		}
	}
	// Output:
	// consistency-out 0.92 %
	// no value of consistency-out gives -5 t/h
}

// Rows that come from anywhere go through one sheet, by number: no text is
// made, and nothing allocated. A row that is refused ends no stream.
func ExampleCell_Put() {
	c, _ := catalogue.Find("retention")
	s := c.NewSheet()
	headbox, _ := s.Input("headbox-consistency")
	tray, _ := s.Input("tray-consistency")
	retention, _ := s.Output("first-pass-retention")
	for _, row := range [][2]paperprop.Consistency{
		{0.82 * paperprop.Percent, 0.19 * paperprop.Percent},
		{0.19 * paperprop.Percent, 0.82 * paperprop.Percent}, // swapped
		{0.80 * paperprop.Percent, 0.20 * paperprop.Percent},
	} {
		headbox.Put(float64(row[0])) // in the canonical unit
		tray.Put(float64(row[1]))
		if err := s.Run(); err != nil {
			fmt.Println(err)
			continue
		}
		fmt.Printf("%.2f %%\n", retention.Printed())
	}
	// Output:
	// 76.83 %
	// tray-consistency is 0.82 %, want at most headbox-consistency 0.19 %
	// 75.00 %
}
