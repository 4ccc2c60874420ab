package main

import (
	"encoding/json"
	"errors"
	"fmt"
	"io"
	"log/slog"
	"mime"
	"net/http"
	"os"
	"runtime/debug"
	"strconv"
	"strings"
	"time"

	"millmaths.example/paperprop/calc"
	"millmaths.example/paperprop/catalogue"
)

// limits keep one caller from taking all that there is.
type limits struct {
	body    int64         // bytes of a request
	working int           // calculations at once
	inside  int           // requests at once, with those that wait for their turn
	time    time.Duration // to wait for a turn; to calculate
}

func (l limits) check() error {
	switch {
	case l.body < 1:
		return fmt.Errorf("-body is %d, want 1 byte or more", l.body)
	case l.working < 1:
		return fmt.Errorf("-working is %d, want 1 or more", l.working)
	case l.inside < l.working:
		return fmt.Errorf("-inside is %d, want -working %d or more", l.inside, l.working)
	case l.time <= 0:
		return fmt.Errorf("-time is %v, want above zero", l.time)
	}
	return nil
}

// A service answers the calculations of some rooms. What never changes is
// written once, when it is made.
type service struct {
	calculations map[string]calc.Calculation
	names        []string
	limits       limits
	inside       chan struct{} // a token of each request whose body may be in memory
	working      chan struct{} // a token of each calculation that runs
}

// newService returns the handler of all paths.
func newService(groups []catalogue.Group, l limits) (http.Handler, error) {
	s := &service{
		calculations: map[string]calc.Calculation{}, limits: l,
		inside: make(chan struct{}, l.inside), working: make(chan struct{}, l.working),
	}
	for _, g := range groups {
		for _, c := range g.Calculations {
			s.calculations[c.ID()] = c
			s.names = append(s.names, c.ID())
		}
	}
	list, err := listJSON(groups)
	if err != nil {
		return nil, err
	}
	openAPI, err := openAPIJSON(groups)
	if err != nil {
		return nil, err
	}
	mux := http.NewServeMux()
	mux.Handle("GET /health", fixed([]byte(`{"status":"ok","version":"`+calc.Version+`"}`)))
	mux.Handle("GET /openapi.json", fixed(openAPI))
	mux.Handle("GET /calculations", fixed(list))
	mux.HandleFunc("GET /calculations/{name}", s.schema)
	mux.HandleFunc("POST /calculations/{name}", s.answer)
	// Patterns without a method catch what the others leave, so that every
	// refusal is JSON.
	for path, allow := range map[string]string{
		"/health": "GET, HEAD", "/openapi.json": "GET, HEAD", "/calculations": "GET, HEAD", "/calculations/{name}": "GET, HEAD, POST",
	} {
		mux.HandleFunc(path, func(w http.ResponseWriter, r *http.Request) {
			w.Header().Set("Allow", allow)
			refuse(w, "", http.StatusMethodNotAllowed, "method", r.Method+" is not allowed here, want "+allow)
		})
	}
	mux.HandleFunc("/", func(w http.ResponseWriter, r *http.Request) {
		refuse(w, "", http.StatusNotFound, "path", "no such path, want /calculations, /calculations/NAME, /openapi.json or /health")
	})
	return mux, nil
}

func fixed(body []byte) http.HandlerFunc {
	return func(w http.ResponseWriter, _ *http.Request) { send(w, http.StatusOK, body) }
}

func send(w http.ResponseWriter, status int, body []byte) {
	w.Header().Set("Content-Type", "application/json")
	w.Header().Set("Content-Length", strconv.Itoa(len(body)+1))
	w.WriteHeader(status)
	w.Write(body) // who has hung up is not told
	io.WriteString(w, "\n")
}

// refuse answers in the shape that calc gives to errors, for what the service
// itself refuses.
func refuse(w http.ResponseWriter, calculation string, status int, code, text string) {
	send(w, status, refusalJSON(calculation, code, text))
}

func refusalJSON(calculation, code, text string) []byte {
	body, err := json.Marshal(map[string]any{
		"calculation": calculation, "version": calc.Version, "error": map[string]string{"code": code, "text": text},
	})
	if err != nil {
		return []byte(`{"error":{"code":"internal"}}`)
	}
	return body
}

// find answers 404 with the nearest names where there is no such calculation.
func (s *service) find(w http.ResponseWriter, r *http.Request) (calc.Calculation, bool) {
	name := r.PathValue("name")
	c, ok := s.calculations[name]
	if !ok {
		text := fmt.Sprintf("unknown calculation %q, see /calculations", name)
		if near := calc.Nearest(name, s.names); len(near) > 0 {
			text = fmt.Sprintf("unknown calculation %q, near: %s", name, strings.Join(near, ", "))
		}
		refuse(w, name, http.StatusNotFound, "calculation", text)
	}
	return c, ok
}

func (s *service) schema(w http.ResponseWriter, r *http.Request) {
	c, ok := s.find(w, r)
	if !ok {
		return
	}
	body, err := calc.Schema(c.Info())
	if err != nil {
		refuse(w, c.ID(), http.StatusInternalServerError, "internal", err.Error())
		return
	}
	send(w, http.StatusOK, body)
}

// answer runs one calculation on the body of the request.
func (s *service) answer(w http.ResponseWriter, r *http.Request) {
	c, ok := s.find(w, r)
	if !ok {
		return
	}
	select {
	case s.inside <- struct{}{}:
		defer func() { <-s.inside }()
	default:
		busy(w, c.ID())
		return
	}
	body, ok := s.read(w, r, c.ID())
	if !ok {
		return
	}
	patience := time.NewTimer(s.limits.time)
	defer patience.Stop()
	select {
	case s.working <- struct{}{}:
	case <-r.Context().Done():
		return // the caller has hung up
	case <-patience.C:
		busy(w, c.ID())
		return
	}
	patience.Reset(s.limits.time)
	answered := make(chan reply, 1)
	go func() {
		// The token is given back when the work is done, not when its caller
		// gives up: at no time do more calculations run than there are tokens.
		defer func() { <-s.working }()
		answered <- calculate(c, body)
	}()
	select {
	case a := <-answered:
		send(w, a.status, a.body)
	case <-patience.C:
		refuse(w, c.ID(), http.StatusGatewayTimeout, "time", fmt.Sprintf("not done within %v", s.limits.time))
	}
}

func busy(w http.ResponseWriter, calculation string) {
	w.Header().Set("Retry-After", "1")
	refuse(w, calculation, http.StatusServiceUnavailable, "busy", "too many requests at once, ask again in a second")
}

// read takes the body within its limits.
func (s *service) read(w http.ResponseWriter, r *http.Request, name string) ([]byte, bool) {
	if media, _, err := mime.ParseMediaType(r.Header.Get("Content-Type")); err != nil || media != "application/json" {
		refuse(w, name, http.StatusUnsupportedMediaType, "content-type",
			fmt.Sprintf("Content-Type is %q, want application/json", r.Header.Get("Content-Type")))
		return nil, false
	}
	body, err := io.ReadAll(http.MaxBytesReader(w, r.Body, s.limits.body))
	var large *http.MaxBytesError
	switch {
	case errors.As(err, &large):
		refuse(w, name, http.StatusRequestEntityTooLarge, "size", fmt.Sprintf("more than %d bytes, want fewer", large.Limit))
	case errors.Is(err, os.ErrDeadlineExceeded):
		refuse(w, name, http.StatusRequestTimeout, "time", "the body did not come in time")
	case err != nil:
		refuse(w, name, http.StatusBadRequest, "body", "the body did not come whole: "+err.Error())
	case !json.Valid(body):
		refuse(w, name, http.StatusBadRequest, "json", "the body is no JSON, want an object such as {\"mass-flow\":\"300 t/h\"}")
	default:
		return body, true
	}
	return nil, false
}

type reply struct {
	status int
	body   []byte
}

// calculate answers 422 where the calculation refuses its inputs. A panic would
// be a mistake of ours; it ends this answer, not the answers of all others.
func calculate(c calc.Calculation, body []byte) (a reply) {
	defer func() {
		if p := recover(); p != nil {
			slog.Error("panic", "calculation", c.ID(), "value", p, "stack", string(debug.Stack()))
			a = reply{http.StatusInternalServerError, calc.ErrorJSON(c.ID(), errors.New("a mistake of this program; it is in the log"))}
		}
	}()
	answer, err := runJSON(c, body)
	var many tooUncertain
	switch {
	case errors.As(err, &many):
		return reply{http.StatusRequestEntityTooLarge, refusalJSON(c.ID(), "uncertain", many.Error())}
	case err != nil:
		return reply{http.StatusUnprocessableEntity, calc.ErrorJSON(c.ID(), err)}
	}
	return reply{http.StatusOK, answer}
}

// mostUncertain is how many uncertain numbers a request may have. Each of them
// is a calculation of all numbers again: the work grows with the square, and
// what has begun can't be stopped.
const mostUncertain = 1000

// tooUncertain is the count of uncertain numbers where there are too many.
type tooUncertain int

func (n tooUncertain) Error() string {
	return fmt.Sprintf("%d uncertain numbers, want at most %d in a request", int(n), mostUncertain)
}

// runJSON is calc.RunJSON, with the uncertain numbers counted before it computes.
// The tools read their inputs themselves.
func runJSON(c calc.Calculation, body []byte) ([]byte, error) {
	if _, ok := c.(*calc.Tool); ok {
		return calc.RunJSON(c, body)
	}
	sheet := c.NewSheet()
	if err := sheet.SetJSON(body); err != nil {
		return nil, err
	}
	var uncertain int
	for _, in := range sheet.In {
		if in.Uncertain() {
			uncertain += len(in.Numbers())
		}
	}
	if uncertain > mostUncertain {
		return nil, tooUncertain(uncertain)
	}
	if err := sheet.Run(); err != nil {
		return nil, err
	}
	return sheet.MarshalJSON()
}
