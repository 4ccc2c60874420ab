package main

import (
	"bytes"
	"encoding/json"
	"errors"
	"fmt"
	"io"
	"strings"

	"millmaths.example/paperprop/calc"
	"millmaths.example/paperprop/catalogue"
)

// main is never called in a library, but a library of Go is made of a command.
func main() {}

// A request names a calculation and gives its inputs, as the schema of the
// whole catalogue describes it.
type request struct {
	Calculation string          `json:"calculation"`
	Inputs      json.RawMessage `json:"inputs"`
}

// answer runs the calculation that a request asks for. What is refused is
// answered in JSON too; nothing of a request ends the program that called.
func answer(text []byte) (reply []byte) {
	var r request
	defer func() {
		if p := recover(); p != nil {
			reply = calc.ErrorJSON(r.Calculation, fmt.Errorf("a mistake of this library: %v", p))
		}
	}()
	d := json.NewDecoder(bytes.NewReader(text))
	d.DisallowUnknownFields()
	err := d.Decode(&r)
	if err == nil {
		if _, more := d.Token(); more != io.EOF {
			err = errors.New("more after the object")
		}
	}
	if err != nil || r.Calculation == "" || r.Inputs == nil {
		return calc.ErrorJSON(r.Calculation, fmt.Errorf(`want {"calculation":"NAME","inputs":{...}}%s`, because(err)))
	}
	c, ok := catalogue.Find(r.Calculation)
	if !ok {
		return calc.ErrorJSON(r.Calculation, unknown(r.Calculation))
	}
	reply, err = calc.RunJSON(c, r.Inputs)
	if err != nil {
		return calc.ErrorJSON(r.Calculation, err)
	}
	return reply
}

func because(err error) string {
	if err == nil {
		return ""
	}
	return ": " + err.Error()
}

func unknown(name string) error {
	near := calc.Nearest(name, catalogue.Names())
	if len(near) == 0 {
		return fmt.Errorf("unknown calculation %q", name)
	}
	return fmt.Errorf("unknown calculation %q, near: %s", name, strings.Join(near, ", "))
}
