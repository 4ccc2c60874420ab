package main

import (
	"context"
	"encoding/json"
	"errors"
	"fmt"
	"io"
	"net"
	"net/http"
	"strings"
	"sync"
	"sync/atomic"
	"testing"
	"time"

	"millmaths.example/paperprop/calc"
	"millmaths.example/paperprop/catalogue"
)

// A question is a request with the answer that the library gives.
type question struct {
	path, body string
	status     int
	answer     string
}

// questions asks every calculation for its own example, and once wrongly.
func questions(t *testing.T) []question {
	t.Helper()
	var all []question
	for _, g := range catalogue.Groups() {
		for _, c := range g.Calculations {
			pairs, err := calc.ParsePairs(c.Info().Example)
			if err != nil {
				t.Fatalf("%s: example: %v", c.ID(), err)
			}
			inputs := map[string]string{}
			for _, p := range pairs {
				inputs[p.Name] = p.Text
			}
			body, err := json.Marshal(inputs)
			if err != nil {
				t.Fatal(err)
			}
			for _, body := range []string{string(body), `{"no-such-input":1}`} {
				q := question{"/calculations/" + c.ID(), body, http.StatusOK, ""}
				answer, err := calc.RunJSON(c, []byte(body))
				if err != nil {
					q.status, answer = http.StatusUnprocessableEntity, calc.ErrorJSON(c.ID(), err)
				}
				q.answer = string(answer) + "\n"
				all = append(all, q)
			}
		}
	}
	return all
}

// listening runs serve as main does and returns its address and what ends it.
func listening(t *testing.T, handler http.Handler) (address string, stop func() error) {
	t.Helper()
	listener, err := net.Listen("tcp", "127.0.0.1:0")
	if err != nil {
		t.Fatal(err)
	}
	ctx, cancel := context.WithCancel(context.Background())
	ended := make(chan error, 1)
	go func() { ended <- serve(ctx, listener, handler, usual, 20*time.Second) }()
	stop = sync.OnceValue(func() error {
		cancel()
		return <-ended
	})
	t.Cleanup(func() { stop() })
	return "http://" + listener.Addr().String(), stop
}

const connections = 64

func newClient() *http.Client {
	return &http.Client{
		Timeout:   time.Minute,
		Transport: &http.Transport{MaxConnsPerHost: connections, MaxIdleConnsPerHost: connections},
	}
}

// put asks one question; an error means that no whole answer came.
func put(client *http.Client, address string, q question) error {
	response, err := client.Post(address+q.path, "application/json", strings.NewReader(q.body))
	if err != nil {
		return err
	}
	defer response.Body.Close()
	answer, err := io.ReadAll(response.Body)
	if err != nil {
		return err
	}
	if response.StatusCode != q.status || string(answer) != q.answer {
		return &wrongError{q, response.StatusCode, string(answer)}
	}
	return nil
}

// A wrongError is an answer other than the library's.
type wrongError struct {
	question
	gotStatus int
	got       string
}

func (e *wrongError) Error() string {
	return fmt.Sprintf("%s %s\ngives %d %swant  %d %s", e.path, e.body, e.gotStatus, e.got, e.status, e.answer)
}

// TestLoad: 20,000 requests over 64 connections are all answered, as the library
// answers them.
func TestLoad(t *testing.T) {
	const requests = 20_000
	handler, err := newService(catalogue.Groups(), usual)
	if err != nil {
		t.Fatal(err)
	}
	address, stop := listening(t, handler)
	all := questions(t)
	client := newClient()
	var next, answered atomic.Int64
	begun := time.Now()
	var workers sync.WaitGroup
	for range connections {
		workers.Go(func() {
			for {
				i := next.Add(1) - 1
				if i >= requests {
					return
				}
				if err := put(client, address, all[i%int64(len(all))]); err != nil {
					t.Errorf("request %d: %v", i, err)
					return
				}
				answered.Add(1)
			}
		})
	}
	workers.Wait()
	if n := answered.Load(); n != requests {
		t.Errorf("%d of %d requests answered", n, requests)
	}
	t.Logf("%d questions of %d kinds in %v", requests, len(all), time.Since(begun).Round(time.Millisecond))
	client.CloseIdleConnections()
	if err := stop(); err != nil {
		t.Error(err)
	}
}

// TestStopUnderLoad: whatever was begun before the stop is answered. A request
// that fails was refused before it was begun, and may be sent again elsewhere.
func TestStopUnderLoad(t *testing.T) {
	handler, err := newService(catalogue.Groups(), usual)
	if err != nil {
		t.Fatal(err)
	}
	var begun, answered, refused atomic.Int64
	address, stop := listening(t, http.HandlerFunc(func(w http.ResponseWriter, r *http.Request) {
		begun.Add(1)
		handler.ServeHTTP(w, r)
	}))
	all := questions(t)
	client := newClient()
	var workers sync.WaitGroup
	for worker := range connections {
		workers.Go(func() {
			for i := worker; ; i += connections {
				err := put(client, address, all[i%len(all)])
				var wrong *wrongError
				if errors.As(err, &wrong) {
					t.Error(err)
					return
				}
				if err != nil {
					refused.Add(1)
					return
				}
				answered.Add(1)
			}
		})
	}
	for begun.Load() < 4_000 {
		time.Sleep(time.Millisecond)
	}
	if err := stop(); err != nil {
		t.Error(err)
	}
	workers.Wait()
	t.Logf("%d begun, %d answered, %d workers refused", begun.Load(), answered.Load(), refused.Load())
	if begun.Load() != answered.Load() {
		t.Errorf("%d requests begun, %d answered: some were lost", begun.Load(), answered.Load())
	}
}

// TestStopWaits: a stop while a calculation runs waits for its answer; past
// grace it says that something was lost.
func TestStopWaits(t *testing.T) {
	entered, leave := make(chan bool), make(chan bool)
	handler, err := newService(slowGroup(func(s slow) (slowResult, error) {
		entered <- true
		<-leave
		return slowResult(s), nil
	}), usual)
	if err != nil {
		t.Fatal(err)
	}
	for _, test := range []struct {
		grace time.Duration
		lost  bool
	}{{10 * time.Second, false}, {50 * time.Millisecond, true}} {
		listener, err := net.Listen("tcp", "127.0.0.1:0")
		if err != nil {
			t.Fatal(err)
		}
		ctx, cancel := context.WithCancel(context.Background())
		ended, answered := make(chan error, 1), make(chan error, 1)
		go func() { ended <- serve(ctx, listener, handler, usual, test.grace) }()
		go func() {
			response, err := http.Post("http://"+listener.Addr().String()+"/calculations/slow", "application/json", strings.NewReader(`{"mass":"1 kg"}`))
			if err == nil {
				response.Body.Close()
			}
			answered <- err
		}()
		<-entered
		cancel()
		if !test.lost {
			// Not before its grace: the answer comes after the stop was asked for.
			select {
			case err := <-ended:
				t.Fatalf("stopped with %v before the answer", err)
			case <-time.After(100 * time.Millisecond):
			}
			leave <- true
		}
		err = <-ended
		if (err != nil) != test.lost {
			t.Errorf("grace %v: stopped with %v", test.grace, err)
		}
		if err := <-answered; (err != nil) != test.lost {
			t.Errorf("grace %v: answered with %v", test.grace, err)
		}
		if test.lost {
			leave <- true
		}
	}
}
