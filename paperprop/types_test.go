package paperprop

import (
	"database/sql/driver"
	"encoding"
	"encoding/json"
	"errors"
	"math"
	"math/rand/v2"
	"strings"
	"testing"
)

// typed is what the types have beyond Property.
type typed interface {
	Property
	encoding.TextMarshaler
	Scan(src any) error
	Value() (driver.Value, error)
}

// TestConstants parses "1 UNIT" for each constant of each type, and wants the
// constant bit for bit.
func TestConstants(t *testing.T) {
	for _, c := range constants {
		got, _, err := c.kind.Parse("1 " + c.unit)
		if err != nil || got != c.value {
			t.Errorf("%s: 1 %s parses as %v, %v, the constant is %v", c.kind.Name(), c.unit, got, err, c.value)
		}
	}
}

// TestTypes takes values of all types through text, JSON and a database.
func TestTypes(t *testing.T) {
	random := rand.New(rand.NewPCG(1, 2))
	list, all := properties(), Kinds()
	if len(list) != len(all) {
		t.Fatalf("%d types, %d kinds", len(list), len(all))
	}
	for i, p := range list {
		if p.Kind() != all[i] {
			t.Errorf("%T is of kind %v, want %v", p, p.Kind().Name(), all[i].Name())
		}
		for range 100 {
			want := randomFloat(random)
			*p.Number() = want
			through(t, p, want)
		}
		refusals := []struct {
			name string
			err  error
		}{{"text", p.UnmarshalText([]byte("12 furlongs"))}, {"NULL", p.Scan(nil)}, {"bool", p.Scan(true)}, {"NaN", p.Scan(math.NaN())}}
		before := *p.Number()
		for _, r := range refusals {
			if r.err == nil || *p.Number() != before {
				t.Errorf("%T takes %s: error %v, value %v", p, r.name, r.err, *p.Number())
			}
		}
		*p.Number() = math.Inf(1)
		if text, err := p.MarshalText(); !errors.Is(err, ErrRange) || !strings.HasSuffix(err.Error(), ", want a finite number") {
			t.Errorf("%T: MarshalText of +Inf is %q, %v", p, text, err)
		}
		if v, err := p.Value(); !errors.Is(err, ErrRange) {
			t.Errorf("%T: Value of +Inf is %v, %v", p, v, err)
		}
	}
}

func through(t *testing.T, p typed, want float64) {
	t.Helper()
	steps := []struct {
		name string
		take func() error
	}{
		{"text", func() error { return p.UnmarshalText([]byte(p.String())) }},
		{"JSON", func() error {
			text, err := json.Marshal(p)
			*p.Number() = 0
			return errors.Join(err, json.Unmarshal(text, p))
		}},
		{"database number", func() error {
			v, err := p.Value()
			*p.Number() = 0
			return errors.Join(err, p.Scan(v))
		}},
		{"database text", func() error { return p.Scan(p.String()) }},
		{"database bytes", func() error { return p.Scan([]byte(p.String())) }},
	}
	for _, s := range steps {
		if err := s.take(); err != nil || *p.Number() != want {
			t.Errorf("%T of %v comes back from %s as %v, %v", p, want, s.name, *p.Number(), err)
			*p.Number() = want
		}
	}
}

// randomFloat returns what people measure, and now and then any float.
func randomFloat(r *rand.Rand) float64 {
	switch r.IntN(4) {
	case 0:
		for {
			if x := math.Float64frombits(r.Uint64()); x-x == 0 && math.Abs(x) < 1e300 && math.Abs(x) > 1e-300 {
				return x
			}
		}
	case 1:
		return float64(r.IntN(100000)) / 100
	}
	return r.NormFloat64() * math.Pow(10, float64(r.IntN(12)-6))
}
