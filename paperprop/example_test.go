package paperprop_test

import (
	"encoding/json"
	"errors"
	"fmt"

	"millmaths.example/paperprop"
)

// The mill and its figures are invented: Harebell 120 on the machine at
// Quillbeck.
func Example() {
	g := 120 * paperprop.GramPerSquareMetre
	width := 3.36 * paperprop.Metre
	speed := 625 * paperprop.MetrePerMinute

	perHour := g.In(paperprop.GramPerSquareMetre) * width.In(paperprop.Metre) * speed.In(paperprop.MetrePerMinute) * 60
	flow := paperprop.MassFlow(perHour/1e6) * paperprop.TonnePerHour
	fmt.Println(flow)
	fmt.Printf("%.2f short tons a day\n", flow.In(paperprop.ShortTonPerDay))
	// Output:
	// 15.12 t/h
	// 400.01 short tons a day
}

func ExampleParseGrammage() {
	g, err := paperprop.ParseGrammage("26 lb/1000ft²")
	fmt.Printf("%.1f g/m², error: %v\n", g.In(paperprop.GramPerSquareMetre), err)
	_, err = paperprop.ParseGrammage("26 lb")
	fmt.Println(err)
	// Output:
	// 126.9 g/m², error: <nil>
	// "lb" is no unit of grammage, want g/m2, lb/1000ft2, lb/3000ft2 or lb/17x22-500 (pounds of a ream have to name it)
}

func ExampleParseConsistency() {
	c, _ := paperprop.ParseConsistency("4.6 %")
	fmt.Println(c, c == 4.6*paperprop.Percent)
	_, err := paperprop.ParseConsistency("4,6 %")
	fmt.Println(err)
	_, err = paperprop.ParseConsistency("4.6")
	fmt.Println(err)
	// Output:
	// 4.6 % true
	// number "4,6 %": decimal comma, write 4.6
	// consistency "4.6": unit missing, want % or g/g
}

func ExampleConvert() {
	for _, c := range [][2]string{
		{"0.1 in", "mm"},
		{"1 ft3/(min in2)", "m3/(h cm2)"},
		{"3 tons", "kg"},
		{"45 psig", "psia"},
	} {
		x, u, err := paperprop.Convert(c[0], c[1])
		if err != nil {
			fmt.Println(err)
			continue
		}
		fmt.Println(c[0], "=", paperprop.People(x), u)
	}
	// Output:
	// 0.1 in = 2.54 mm
	// 1 ft3/(min in2) = 0.263347 m3/(h cm2)
	// "tons" is ambiguous: t, short ton or long ton
	// "psia" is no unit of gauge pressure, want bar(g), kPa(g) or psig (an absolute pressure is higher by that of the air)
}

func ExampleTemperature() {
	t := paperprop.Fahrenheit(73.4)
	fmt.Println(t, t.Kelvin())
	// Output: 23 degC 296.15
}

func ExampleUnit_Read() {
	k, _ := paperprop.KindNamed("Length")
	um, _ := k.Unit("µm")
	mm, err := um.Read([]byte("186,5"), ',')
	fmt.Println(mm, err)
	// Output: 0.1865 <nil>
}

// A lorry of bales at the invented Quillbeck Board Mill: what lies on the scale,
// what of it is dry, and what is invoiced are three types, and each step between
// them has a name. Passing one for another, or a moisture where a dry content is
// wanted, does not compile.
func ExampleMass_OvenDry() {
	onScale := 23.46 * paperprop.Tonne
	var moisture paperprop.Moisture = 11.5 * paperprop.Percent

	dry := onScale.OvenDry(moisture.DryContent())
	fmt.Printf("%.3f t oven-dry\n", dry.In(paperprop.OvenDryTonne))
	fmt.Printf("%.3f t air-dry\n", dry.AirDry().In(paperprop.AirDryTonne))
	fmt.Printf("%.3f short tons on the scale\n", onScale.In(paperprop.ShortTon))
	// Output:
	// 20.762 t oven-dry
	// 23.069 t air-dry
	// 25.860 short tons on the scale
}

// Settings are read with their units; whether a machine can have them is another
// question, which the natural range of a quantity answers.
func ExampleKind_Check() {
	var settings struct {
		Speed    paperprop.Speed
		Moisture paperprop.Moisture
	}
	if err := json.Unmarshal([]byte(`{"speed":"600 m/min","moisture":"750 %"}`), &settings); err != nil {
		fmt.Println(err)
		return
	}
	for _, p := range []paperprop.Property{&settings.Speed, &settings.Moisture} {
		err := p.Kind().Check(*p.Number())
		fmt.Println(err, errors.Is(err, paperprop.ErrRange))
	}
	// Output:
	// <nil> false
	// moisture is 750 %, want 0 % to 100 % true
}
