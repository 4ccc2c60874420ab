package strict_test

import (
	"errors"
	"fmt"
	"slices"
	"strings"
	"testing"

	"millmaths.example/paperprop"
	"millmaths.example/paperprop/internal/strict"
)

type terms struct {
	Diameter *paperprop.Length `toml:"diameter"`
}

type file struct {
	Name   string `toml:"name"`
	Orders []struct {
		Width paperprop.Length `toml:"width"`
		terms
	} `toml:"order"`
	Names []string       `toml:"names"`
	Free  map[string]any `toml:"free"`
	Jumbo struct {
		Spool paperprop.Length `toml:"spool"`
		Sets  int              `toml:"sets"`
		Only  bool             `toml:"only"`
	} `toml:"jumbo"`
	terms
}

// A file of names that are not known takes no more time than its length asks for.
func TestManyUnknownNames(t *testing.T) {
	var f file
	_, err := strict.Decode("a.toml", strings.NewReader(strings.Repeat("[[stage]]\n", 1<<17)), &f)
	if err == nil || !strings.Contains(err.Error(), `a.toml:1: unknown name "stage"`) {
		t.Error(err)
	}
}

func TestDecode(t *testing.T) {
	var f file
	if _, err := strict.Decode("a.toml", strings.NewReader("\ufeffname = 'x'\ndiameter = '1250 mm'\n[[order]]\nwidth = '1 m'\ndiameter = '1 m'\n"), &f); err != nil {
		t.Fatal(err)
	}
	if *f.Diameter != 1250 || f.Orders[0].Width != 1000 || *f.Orders[0].Diameter != 1000 {
		t.Errorf("read %+v", f)
	}
	for _, test := range []struct{ text, want string }{
		{"nam = 'x'", `a.toml:1: unknown name "nam", near: name`},
		{"\n[[order]]\nwidht = '1 m'", `a.toml:3: unknown name "order.widht", near: width`},
		{"\n[[order]]\ndiametre = '1 m'", `a.toml:3: unknown name "order.diametre", near: diameter`},
		{"[jumbo]\ncolour = 'x'", `a.toml:2: unknown name "jumbo.colour", want one of spool, sets, only`},
		{"jumbo = {spool = '1 m', colour = 'x'}", `a.toml:1: unknown name "jumbo.colour", want one of spool, sets, only`},
		{"order = [{width = '1 m'},\n{width = '2 m', widht = '1 m'}]", `a.toml:2: unknown name "order.widht", near: width`},
		{"jumbo.colour.red = 1", `a.toml:1: unknown name "jumbo.colour", want one of spool, sets, only`},
		{"Name = 'x'", `a.toml:1: unknown name "Name", near: name`},
		{"[free.x]\ny = 1\n[fre]", `a.toml:3: unknown name "fre", near: free`},
		{"name.x = 1", "a.toml:1:"},
		{"name = 'x'\nname = 'y'", "a.toml:"},
		{"[[order]]\nwidth = '12'", "unit missing"},
		{"[[order]]\nwidth = 12", "a.toml:2: order.width is 12, want it in quotes with its unit\n"},
		{"diameter = 1250.5", "a.toml:1: diameter is 1250.5, want it in quotes"},
		{"name = ", "a.toml:1:"},
		{"name = 'x\n", "a.toml:1:10: text in quotes without its closing quote"},
		{"name = \"x\n", "a.toml:1:10: text in quotes without its closing quote"},
		{"name = \"x", "a.toml:1:9: text in quotes without its closing quote"},
		{"diameter = 1250 mm", "a.toml:1:17: text after the value, want a value with a unit in quotes, such as \"1000 mm\""},
		{"order = [{reels = 3},\n{width = -12}]", `a.toml:1: unknown name "order.reels"`},
		{"order = [{width = '1 m'},\n{width = -12}]", "a.toml:2: order.width is -12, want it in quotes with its unit\n"},
		{"[[jumbo]]\nsets = 3", "a.toml:1:3: there is one table of this name, want it in single brackets\n"},
		{"names = 'x'", "a.toml:1:9: names: 'x' is a string, want a list of texts, [\"A\", \"B\"]\n"},
		{"[jumbo]\nsets = \nonly = true", "a.toml:2:8: no value here, want a number, true, false, or text in quotes"},
		{"[jumbo]\nsets = about three", "a.toml:2:8: no value here, want"},
		{"name = 3300", "a.toml:1:8: name: 3300 is an integer, want text in quotes, with its unit where it has one"},
		{"[jumbo]\nsets = '3'", "a.toml:2:8: jumbo.sets: '3' is a string, want a whole number without quotes"},
		{"[jumbo]\nonly = 1.5", "a.toml:2:8: jumbo.only: 1.5 is a float, want true or false"},
		{"[jumbo]\nsets = \"3 \\\" 4\" # x", `a.toml:2:8: jumbo.sets: "3 \" 4" is a string, want`},
		{"jumbo = {only = 3}", "a.toml:1:17: jumbo: 3 is an integer, want"},
		{"jumbo = '3 m'", "a.toml:1:9: jumbo: '3 m' is a string, want a table: the line [jumbo] and its keys under it\n"},
		{"order = '3 m'", "a.toml:1:9: order: '3 m' is a string, want a table: the line [order] and its keys under it\n"},
		{"order = ['3 m']", "a.toml:1:10: order: '3 m' is a string, want a table: the line [order] and its keys under it\n"},
		{"[jumbo]\nsets = [3]", "a.toml:2:8: jumbo.sets is an array, want"},
		{"[jumbo]\nsets = '''\n3'''", "a.toml:2:8: jumbo.sets is a string, want"},
		{"[jumbo]\nonly = 1979-05-27 # x", "a.toml:2:8: jumbo.only"},
	} {
		var f file
		if _, err := strict.Decode("a.toml", strings.NewReader(test.text), &f); err == nil || !strings.Contains(err.Error()+"\n", test.want) {
			t.Errorf("Decode(%q) = %v, want %q", test.text, err, test.want)
		}
	}
}

// A fault is told with the line of its key, or of the table that lacks it, and with the
// value as it is written, unless the message has it so or it is long.
func TestPlaced(t *testing.T) {
	const text = "\ufeffname = 'x'\n[jumbo]\n# a spool\nspool = \"\"\"\n1 m\"\"\"\n\n[[order]]\n[[order]]\nwidth = '1 m'\n[free]\n'a b' = 1\nx.y = 2\nz = [[1],\n{c = 1,\nd = 2}]\n[free.w]\n[[free.l]]\n[[free.l.m]]\n[[free.l.m]]\nk = 1\n"
	var f file
	s, err := strict.Decode("a.toml", strings.NewReader(text), &f)
	if err != nil {
		t.Fatal(err)
	}
	s.Change("jumbo.sets", "3")
	for _, test := range []struct{ key, want string }{
		{"name", ":1"}, {"jumbo", ":2"}, {"jumbo.spool", ":4"}, {"jumbo.only", ":2"}, {"jumbo.sets", ""},
		{"order[1]", ":7"}, {"order[1].width", ":7"}, {"order[2].width", ":9"}, {"order[3].width", ""}, {"orders", ""},
		{"free.a b", ":11"}, {"free.x.y", ":12"}, {"free.x.z", ":10"}, {"free.z[2].c", ":14"}, {"free.z[2].d", ":15"}, {"free.z[2]", ":14"},
		{"free.w.q", ":16"}, {"free.l[1].m[1]", ":18"}, {"free.l[1].m[2].k", ":20"}, {"", ""},
	} {
		err := s.Placed(fmt.Errorf("A: %w", strict.Refuse(test.key, "x is 1 m, want %d", 3)))
		if got, want := err.Error(), "a.toml"+test.want+": A: x is 1 m, want 3"; got != want {
			t.Errorf("key %q: %s, want %s", test.key, got, want)
		}
	}
	for key, want := range map[string]string{
		"name": "x", "jumbo.spool": "1 m", "order[2].width": "1 m", "jumbo.sets": "3", // as changed
		"order[1].width": "", "order[2]": "", "jumbo": "", "free.x.y": "", "free.z": "", "": "",
	} {
		if got := s.Text(key); got != want {
			t.Errorf("the text of %q is %q, want %q", key, got, want)
		}
	}
	for text, want := range map[string]string{
		"39 in": `A (written "39 in")`, `1 "`: `A (written "1 \"")`, strings.Repeat("9", 68): `A (written "` + strings.Repeat("9", 68) + `")`,
		strings.Repeat("9", 69): "A", "A": "A",
	} {
		s.Change("order[2].width", text)
		if got := s.Placed(strict.Refuse("order[2].width", "A")).Error(); got != "a.toml: "+want {
			t.Errorf("written %s: %s, want a.toml: %s", text, got, want)
		}
	}
	if err := s.Placed(errors.New("A")); err.Error() != "a.toml: A" {
		t.Error(err)
	}
	if got := s.Lines("order"); !slices.Equal(got, []int{7, 8}) {
		t.Errorf("orders on lines %v, want 7 and 8", got)
	}
}

// What a file may say is told table by table, from the struct that takes it.
func TestTables(t *testing.T) {
	type job struct {
		Name   string         `toml:"name" about:"of the job" needed:"yes"`
		Figs   map[string]any `toml:"figures" about:"what differs"`
		Orders []struct {
			Reels *int `toml:"reels" about:"ordered"`
			terms
		} `toml:"order" about:"again for each"`
		Jumbo struct {
			Only  bool     `toml:"only"`
			Names []string `toml:"names"`
			Start any      `toml:"start"`
		} `toml:"jumbo"`
	}
	var b strings.Builder
	for _, table := range strict.Tables(job{}) {
		fmt.Fprintf(&b, "%s|%s\n", table.Head, table.About)
		for _, k := range table.Keys {
			holds := k.Holds
			if k.Field != nil {
				holds = k.Field.Unit.String()
			}
			fmt.Fprintf(&b, "  %s|%s|%s|%v\n", k.Name, holds, k.About, k.Required)
		}
	}
	const want = `|
  name|text|of the job|true
  figures|table|what differs|false
[[order]]|again for each
  reels|whole number|ordered|false
  diameter|mm||false
[jumbo]|
  only|true or false||false
  names|list of texts||false
  start|text||false
`
	if b.String() != want {
		t.Errorf("got\n%swant\n%s", b.String(), want)
	}
}
