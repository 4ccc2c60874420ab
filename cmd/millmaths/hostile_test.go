package main

import (
	"strings"
	"testing"

	"millmaths.example/paperprop/calc"
	"millmaths.example/paperprop/catalogue"
)

// Whatever is typed for an input of whatever calculation, there is no panic, no
// NaN or infinity in what is said, and a word where nothing is computed.
func TestHostileInputs(t *testing.T) {
	for _, name := range catalogue.Names() {
		c, _ := catalogue.Find(name)
		info := c.Info()
		if info.Tool {
			continue
		}
		pairs, _ := calc.ParsePairs(info.Example)
		for k := range pairs {
			for _, bad := range []string{"-1", "NaN", "abc", "1e500", "", "5 furlong", "?", "[1 2 3]", "1..3", "3 ± -1", "[]", "1e300", "0", "-0", "Inf %", "5 ± rectangular()", "mean() g", "@nowhere", "±", "1e-320"} {
				args := []string{name}
				unit := ""
				if f := strings.Fields(pairs[k].Text); len(f) > 1 && !strings.HasPrefix(pairs[k].Text, "[") {
					unit = " " + strings.Join(f[1:], " ")
				}
				for i, p := range pairs {
					text := p.Text
					if i == k {
						text = bad
						if bad == "-1" || bad == "1e300" || bad == "0" || bad == "-0" || bad == "1e-320" || bad == "1e500" {
							text += unit
						}
					}
					args = append(args, "--"+p.Name, text)
				}
				r := called("", args...)
				all := r.Out + r.Err
				if strings.Contains(all, "NaN") && bad != "NaN" || strings.Contains(all, "Inf") && !strings.HasPrefix(bad, "Inf") {
					t.Errorf("%v: %s", args, all)
				}
				if r.Status != done && r.Err == "" {
					t.Errorf("%v: exit %d and no word", args, r.Status)
				}
			}
		}
	}
}
