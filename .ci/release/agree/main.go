// Command agree runs the examples of all calculations with two builds of
// millmaths, and compares the numbers to 12 digits.
package main

import (
	"bytes"
	"encoding/json"
	"errors"
	"fmt"
	"io"
	"math"
	"os"
	"os/exec"

	"millmaths.example/paperprop/calc"
	"millmaths.example/paperprop/catalogue"
)

func main() {
	if len(os.Args) != 3 {
		fmt.Fprintln(os.Stderr, "agree: want two programs")
		os.Exit(2)
	}
	if err := agree(os.Args[1], os.Args[2]); err != nil {
		fmt.Fprintln(os.Stderr, "agree:", err)
		os.Exit(1)
	}
}

func agree(a, b string) error {
	numbers, calculations, widest := 0, 0, 0.0
	var errs []error
	for _, name := range catalogue.Names() {
		c, _ := catalogue.Find(name)
		given, err := calc.ParsePairs(c.Info().Example)
		if err != nil {
			return err
		}
		inputs := map[string]string{}
		for _, p := range given {
			inputs[p.Name] = p.Text
		}
		line, err := json.Marshal(inputs)
		if err != nil {
			return err
		}
		x, errX := run(a, name, line)
		y, errY := run(b, name, line)
		if err := errors.Join(errX, errY); err != nil {
			return fmt.Errorf("%s: %w", name, err)
		}
		if len(x) != len(y) {
			errs = append(errs, fmt.Errorf("%s: %d tokens and %d", name, len(x), len(y)))
			continue
		}
		calculations++
		for i := range x {
			p, isNumber := x[i].(float64)
			q, same := y[i].(float64)
			switch {
			case isNumber != same || !isNumber && x[i] != y[i]:
				errs = append(errs, fmt.Errorf("%s: %v and %v", name, x[i], y[i]))
			case isNumber:
				numbers++
				apart := math.Abs(p-q) / max(math.Abs(p), math.Abs(q), math.SmallestNonzeroFloat64)
				widest = max(widest, apart)
				if apart > 1e-12 {
					errs = append(errs, fmt.Errorf("%s: %v and %v", name, p, q))
				}
			}
		}
	}
	fmt.Printf("%d numbers of %d calculations, at most %.2g apart\n", numbers, calculations, widest)
	return errors.Join(errs...)
}

// run returns the tokens of the JSON that answers a line.
func run(program, name string, line []byte) (tokens []json.Token, err error) {
	command := exec.Command(program, "batch", name, "--jsonl")
	command.Stdin = bytes.NewReader(line)
	out, err := command.Output()
	if err != nil {
		return nil, fmt.Errorf("%w: %s", err, out)
	}
	for d := json.NewDecoder(bytes.NewReader(out)); ; {
		token, err := d.Token()
		if err == io.EOF {
			return tokens, nil
		}
		if err != nil {
			return nil, err
		}
		tokens = append(tokens, token)
	}
}
