package main

import (
	"encoding/json"
	"strings"
	"testing"
)

func TestAnswer(t *testing.T) {
	for _, test := range []struct{ request, holds string }{
		{`{"calculation":"dilution","inputs":{"mass-flow":"300 t/h","consistency-in":"4.6 %","consistency-out":"0.92 %"}}`, `"water-flow":{"value":1200,"unit":"t/h"}`},
		{`{"calculation":"convert","inputs":{"value":"1 in","to":"mm"}}`, `25.4`},
		{`{"calculation":"dilution","inputs":{"mass-flow":"300 t/h"}}`, `"code":"missing","input":"consistency-in"`},
		{`{"calculation":"dillution","inputs":{}}`, `near: dilution`},
		{`{"calculation":"dilution"}`, `want {\"calculation\"`},
		{`{"inputs":{}}`, `want {\"calculation\"`},
		{`{"calculation":"dilution","inputs":[]}`, `want a JSON object`},
		{`{"calculation":"dilution","inputs":{}} {}`, `more after the object`},
		{`{"calculation":"dilution","input":{}}`, `unknown field`},
		{`null`, `want {\"calculation\"`},
		{"", `want {\"calculation\"`},
		{"\xff", `want {\"calculation\"`},
	} {
		got := answer([]byte(test.request))
		if !json.Valid(got) || !strings.Contains(string(got), test.holds) {
			t.Errorf("answer(%q) = %s, want %s in it", test.request, got, test.holds)
		}
	}
}
