package main

import (
	"encoding/json"
	"fmt"
	"io"
	"maps"
	"net/http"
	"net/http/httptest"
	"slices"
	"strings"
	"testing"
	"time"

	"millmaths.example/paperprop"
	"millmaths.example/paperprop/calc"
	"millmaths.example/paperprop/catalogue"
)

var usual = limits{body: 1 << 20, working: 4, inside: 256, time: 30 * time.Second}

func start(t *testing.T, groups []catalogue.Group, l limits) *httptest.Server {
	t.Helper()
	handler, err := newService(groups, l)
	if err != nil {
		t.Fatal(err)
	}
	server := httptest.NewServer(handler)
	t.Cleanup(server.Close)
	return server
}

func ask(t *testing.T, method, url, contentType, body string) (int, http.Header, string) {
	t.Helper()
	request, err := http.NewRequest(method, url, strings.NewReader(body))
	if err != nil {
		t.Fatal(err)
	}
	request.Header.Set("Content-Type", contentType)
	response, err := http.DefaultClient.Do(request)
	if err != nil {
		t.Fatal(err)
	}
	defer response.Body.Close()
	answer, err := io.ReadAll(response.Body)
	if err != nil {
		t.Fatal(err)
	}
	return response.StatusCode, response.Header, string(answer)
}

func TestAnswers(t *testing.T) {
	server := start(t, catalogue.Groups(), limits{body: 200, working: 1, inside: 1, time: 5 * time.Second})
	const asJSON = "application/json"
	for _, test := range []struct {
		name, method, path, contentType, body string
		status                                int
		holds                                 string
	}{
		{"computed", "POST", "/calculations/dilution", asJSON, `{"mass-flow":"300 t/h","consistency-in":"4.6 %","consistency-out":"0.92 %"}`, 200, `"water-flow":{"value":1200,"unit":"t/h"}`},
		{"solved", "POST", "/calculations/dilution", asJSON, `{"water-flow":"1200 t/h","consistency-in":"4.6 %","consistency-out":"0.92 %"}`, 200, `"solved":"mass-flow"`},
		{"a tool", "POST", "/calculations/convert", asJSON, `{"value":"1 in","to":"mm"}`, 200, `25.4`},
		{"missing", "POST", "/calculations/dilution", asJSON, `{"mass-flow":"300 t/h"}`, 422, `"code":"missing","input":"consistency-in"`},
		{"bad unit", "POST", "/calculations/dilution", asJSON, `{"mass-flow":"300 m","consistency-in":"4.6 %","consistency-out":"0.92 %"}`, 422, `"input":"mass-flow"`},
		{"out of range", "POST", "/calculations/dilution", asJSON, `{"mass-flow":"-1 t/h","consistency-in":"4.6 %","consistency-out":"0.92 %"}`, 422, `"code":"range"`},
		{"an unknown input", "POST", "/calculations/dilution", asJSON, `{"mass-flw":"300 t/h"}`, 422, `near: mass-flow`},
		{"given twice", "POST", "/calculations/dilution", asJSON, `{"mass-flow":"300 t/h","mass-flow":"301 t/h"}`, 422, `given twice`},
		{"no object", "POST", "/calculations/dilution", asJSON, `[1]`, 422, `want a JSON object`},
		{"no JSON", "POST", "/calculations/dilution", asJSON, `mass-flow=300`, 400, `"code":"json"`},
		{"empty", "POST", "/calculations/dilution", asJSON, ``, 400, `"code":"json"`},
		{"too large", "POST", "/calculations/dilution", asJSON, `{"mass-flow":"` + strings.Repeat(" ", 200) + `300 t/h"}`, 413, `"code":"size"`},
		{"a form", "POST", "/calculations/dilution", "application/x-www-form-urlencoded", `{}`, 415, `want application/json`},
		{"unknown", "POST", "/calculations/dillution", asJSON, `{}`, 404, `near: dilution`},
		{"schema", "GET", "/calculations/dilution", "", "", 200, `"mass-flow"`},
		{"schema of none", "GET", "/calculations/nothing-like-it", "", "", 404, `see /calculations`},
		{"list", "GET", "/calculations", "", "", 200, `"name":"dilution"`},
		{"health", "GET", "/health", "", "", 200, `"ok"`},
		{"method", "DELETE", "/calculations/dilution", "", "", 405, `want GET, HEAD, POST`},
		{"method of a document", "POST", "/health", asJSON, "{}", 405, `want GET, HEAD`},
		{"path", "GET", "/", "", "", 404, `"code":"path"`},
	} {
		t.Run(test.name, func(t *testing.T) {
			status, header, body := ask(t, test.method, server.URL+test.path, test.contentType, test.body)
			if status != test.status || !strings.Contains(body, test.holds) {
				t.Errorf("%s %s gives %d %s, want %d with %s", test.method, test.path, status, body, test.status, test.holds)
			}
			if got := header.Get("Content-Type"); got != asJSON || !json.Valid([]byte(body)) {
				t.Errorf("%s %s gives %s %q, want JSON", test.method, test.path, got, body)
			}
			if status == http.StatusMethodNotAllowed && header.Get("Allow") == "" {
				t.Errorf("%s %s does not say what is allowed", test.method, test.path)
			}
		})
	}
}

// A thousand uncertain numbers are computed, one more is refused before the work
// begins, whichever way they are written.
func TestUncertainNumbersAreLimited(t *testing.T) {
	server := start(t, catalogue.Groups(), usual)
	list := func(member string, n int) string { return "[" + strings.Repeat(member+",", n-1) + member + "]" }
	const tooMany = `"error":{"code":"uncertain","text":"1001 uncertain numbers, want at most 1000 in a request"}`
	for _, test := range []struct {
		name, mass, moisture string
		status               int
		holds                string
	}{
		{"1000", `{"value":` + list("500", 1000) + `,"unit":"kg","u":1}`, `{"value":` + list("10", 1000) + `,"unit":"%"}`, 200, `"lot-mass":{"value":500000,"unit":"kg","u":`},
		{"1001, one u", `{"value":` + list("500", 1001) + `,"unit":"kg","u":1}`, `{"value":` + list("10", 1001) + `,"unit":"%"}`, 413, tooMany},
		{"1001, a u each", `{"value":` + list("500", 1001) + `,"unit":"kg","u":` + list("1", 1001) + `}`, `["10 %"]`, 413, tooMany},
		{"1001, texts", list(`"500 ± 1 kg"`, 1001), `["10 %"]`, 413, tooMany},
		{"1001, of two inputs", `{"value":` + list("500", 1000) + `,"unit":"kg","u":1}`, `["10 ± 1 %"]`, 413, tooMany},
		{"2000, none uncertain", `{"value":` + list("500", 2000) + `,"unit":"kg"}`, `{"value":` + list("10", 2000) + `,"unit":"%"}`, 200, `"lot-mass":{"value":1000000,"unit":"kg"}`},
	} {
		status, _, body := ask(t, "POST", server.URL+"/calculations/bale-lot", "application/json", `{"mass":`+test.mass+`,"moisture":`+test.moisture+`}`)
		if status != test.status || !strings.Contains(body, test.holds) {
			t.Errorf("%s: %d %.300s, want %d with %s", test.name, status, body, test.status, test.holds)
		}
	}
}

// A slow is a calculation beside those of the library, which takes as long as
// the test wants.
type slow struct{ Mass paperprop.Mass }

type slowResult struct{ Mass paperprop.Mass }

func slowGroup(compute func(slow) (slowResult, error)) []catalogue.Group {
	return []catalogue.Group{{Name: "own", Title: "of one's own", Calculations: []calc.Calculation{&calc.Description[slow, slowResult]{
		Name: "slow", Title: "Slow", Compute: compute,
		Fields: func(f *calc.Form, in *slow, out *slowResult) {
			calc.In(f, &in.Mass, "mass", "m", "kg", "any")
			calc.Out(f, &out.Mass, "mass-out", "m_o", "kg", "the same")
		},
	}}}}
}

func TestLimitsOfWork(t *testing.T) {
	entered, leave := make(chan bool), make(chan bool)
	server := start(t, slowGroup(func(s slow) (slowResult, error) {
		entered <- true
		<-leave
		return slowResult(s), nil
	}), limits{body: 100, working: 1, inside: 2, time: 500 * time.Millisecond})
	post := func() chan int {
		answered := make(chan int, 1)
		go func() {
			response, err := http.Post(server.URL+"/calculations/slow", "application/json", strings.NewReader(`{"mass":"1 kg"}`))
			if err != nil {
				t.Error(err)
				answered <- 0
				return
			}
			response.Body.Close()
			answered <- response.StatusCode
		}()
		return answered
	}
	first := post()
	<-entered
	if status := <-first; status != http.StatusGatewayTimeout {
		t.Errorf("a calculation without end answers %d, want 504", status)
	}
	// It still holds the one token, so the next waits in vain.
	second := post()
	if status := <-second; status != http.StatusServiceUnavailable {
		t.Errorf("a request without a turn answers %d, want 503", status)
	}
	close(leave)
	third := post()
	<-entered
	if status := <-third; status != http.StatusOK {
		t.Errorf("once the work is done a request answers %d, want 200", status)
	}
}

func TestPanicEndsOneAnswer(t *testing.T) {
	server := start(t, slowGroup(func(s slow) (slowResult, error) {
		if s.Mass > 1 {
			panic("a mistake")
		}
		return slowResult(s), nil
	}), usual)
	for _, test := range []struct {
		body   string
		status int
	}{{`{"mass":"2 kg"}`, 500}, {`{"mass":"1 kg"}`, 200}} {
		status, _, body := ask(t, "POST", server.URL+"/calculations/slow", "application/json", test.body)
		if status != test.status {
			t.Errorf("%s gives %d %s, want %d", test.body, status, body, test.status)
		}
	}
}

// TestOpenAPI holds the document to OpenAPI's rules on names and references,
// and to the list of calculations.
func TestOpenAPI(t *testing.T) {
	server := start(t, catalogue.Groups(), usual)
	_, _, text := ask(t, "GET", server.URL+"/openapi.json", "", "")
	var document struct {
		OpenAPI    string
		Paths      map[string]map[string]map[string]any
		Components struct{ Schemas map[string]any }
	}
	if err := json.Unmarshal([]byte(text), &document); err != nil {
		t.Fatal(err)
	}
	if document.OpenAPI != "3.1.0" {
		t.Errorf("openapi is %q", document.OpenAPI)
	}
	for _, name := range catalogue.Names() {
		if document.Paths["/calculations/"+name]["post"] == nil || document.Components.Schemas[name] == nil {
			t.Errorf("no path or no schema of %s", name)
		}
	}
	ids := map[any]bool{}
	for path, operations := range document.Paths {
		for _, operation := range operations {
			id := operation["operationId"]
			if id == nil || ids[id] {
				t.Errorf("%s: operationId %v is missing or there twice", path, id)
			}
			ids[id] = true
		}
	}
	var whole any
	if err := json.Unmarshal([]byte(text), &whole); err != nil {
		t.Fatal(err)
	}
	for _, ref := range references(whole) {
		name, ok := strings.CutPrefix(ref, "#/components/schemas/")
		if !ok || document.Components.Schemas[name] == nil {
			t.Errorf("reference %s leads nowhere", ref)
		}
	}
}

func references(v any) []string {
	var found []string
	switch v := v.(type) {
	case map[string]any:
		for _, name := range slices.Sorted(maps.Keys(v)) {
			if ref, ok := v[name].(string); ok && name == "$ref" {
				found = append(found, ref)
			}
			found = append(found, references(v[name])...)
		}
	case []any:
		for _, member := range v {
			found = append(found, references(member)...)
		}
	}
	return found
}

func TestFlagsRefused(t *testing.T) {
	for _, args := range [][]string{
		{"-working", "0"}, {"-inside", "1", "-working", "2"}, {"-body", "0"}, {"-time", "0s"}, {"-time", "-1s"}, {"-grace", "-1s"}, {"stray"}, {"-listen", "nowhere"},
	} {
		if err := run(t.Context(), args); err == nil {
			t.Errorf("%v is taken", args)
		} else if text := fmt.Sprint(err); strings.Contains(text, "panic") {
			t.Error(text)
		}
	}
}
