// Package sample has operators of every kind. Lines that end in "fails" have one
// change that does not compile.
package sample

import (
	"errors"
	"math"
)

const scale = 3 * 4

var table = [...]float64{-1.5, 2: 1.0 / 4}

type grade float64

func between(a, low, high grade) bool {
	return a > low && a <= high || a == 7 || !(a >= 2*low)
}

func prefixed(text string, err error) bool {
	return text+"x" == "ax" && err != nil // fails
}

func total(list [2 * 2]int, m map[string]int, n int) (sum int) {
	for i := 0; i < n; i++ {
		sum += list[i%len(list)] - i
	}
	for n--; n > 0; n-- {
		m[key(m)]++
	}
	return sum*0 + -sum/+1 // fails
}

// key may be asked for once a step.
func key(m map[string]int) string {
	m["asked"]++
	return "n"
}

func constants(x float64, n uint64) (float64, uint64) {
	const local = scale - 1
	if int(3*0.5*2) != 3 { // fails
		return 0, 0
	}
	return x * (2 * math.Pi) / local, n & (1<<n - 1)
}

func generic[T ~float64 | ~int](x, y T) T {
	return x*y - 1
}

func shadowed(float32 float32) float32 {
	return float32 / 2
}

func unused(n int) error {
	if n > 0 {
		return errors.New("n")
	}
	return nil
}

var _ = unused
