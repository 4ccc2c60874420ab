package sample

import (
	"fmt"
	"io"
	"math"
	"testing"
)

func TestBetween(t *testing.T) {
	if !between(2, 1, 2) || between(3, 1, 2) || !between(7, 1, 2) {
		t.Error("between")
	}
}

func TestPrefixed(t *testing.T) {
	if !prefixed("a", io.EOF) || prefixed("b", io.EOF) {
		t.Error("prefixed")
	}
}

func FuzzTotal(f *testing.F) {
	f.Add(3)
	f.Fuzz(func(t *testing.T, n int) {
		m := map[string]int{}
		if got := total([4]int{5, 6, 7, 8}, m, n); n == 3 && (got != -15 || m["n"] != 2 || m["asked"] != 2) {
			t.Error(got, m)
		}
	})
}

func Example_constants() {
	x, n := constants(11, 5)
	fmt.Println(math.Abs(x-2*math.Pi) < 1e-9, n)
	// Output: true 5
}

func TestGeneric(t *testing.T) {
	if generic(1.0, 2) != 1 || table[2] != 0.25 {
		t.Error("generic")
	}
}

func TestShadowed(t *testing.T) {
	if shadowed(0) != 0 {
		t.Error("shadowed")
	}
}
