package catalogue_test

import (
	"math/rand/v2"
	"reflect"
	"strings"
	"testing"

	"millmaths.example/paperprop/calc"
)

// The typed struct and the sheet are one calculation: from the same inputs
// come the same results, to the last bit. In Go mass-flow is MassFlow.
func TestTypedAgreesWithSheet(t *testing.T) {
	every(t, func(t *testing.T, c calc.Calculation) {
		calculate := reflect.ValueOf(c).MethodByName("Calculate")
		r := rand.New(rand.NewPCG(11, 12))
		for range 50 {
			s := accepted(t, c, r)
			in := reflect.New(calculate.Type().In(0)).Elem()
			for _, cell := range s.In {
				if cell.Given() {
					setTyped(t, in, cell)
				}
			}
			answer := calculate.Call([]reflect.Value{in})
			if err, _ := answer[1].Interface().(error); err != nil {
				t.Fatalf("%+v: %v, but the sheet computes", in, err)
			}
			for _, cell := range s.Out {
				compareTyped(t, answer[0], cell)
			}
		}
	})
}

// goName is the name in Go of an input or output.
func goName(name string) string {
	var b strings.Builder
	for part := range strings.SplitSeq(name, "-") {
		b.WriteString(strings.ToUpper(part[:1]) + part[1:])
	}
	return b.String()
}

func typedField(t *testing.T, of reflect.Value, cell *calc.Cell) reflect.Value {
	t.Helper()
	field := of.FieldByName(goName(cell.Name))
	if !field.IsValid() {
		t.Fatalf("%v has no field %s", of.Type(), goName(cell.Name))
	}
	return field
}

func setTyped(t *testing.T, in reflect.Value, cell *calc.Cell) {
	t.Helper()
	field := typedField(t, in, cell)
	switch field.Kind() {
	case reflect.String:
		field.SetString(cell.Word())
	case reflect.Pointer:
		field.Set(reflect.New(field.Type().Elem()))
		field.Elem().SetFloat(cell.Number())
	case reflect.Slice:
		for _, x := range cell.Numbers() {
			field.Set(reflect.Append(field, reflect.ValueOf(x).Convert(field.Type().Elem())))
		}
	default:
		field.SetFloat(cell.Number())
	}
}

func compareTyped(t *testing.T, out reflect.Value, cell *calc.Cell) {
	t.Helper()
	field := typedField(t, out, cell)
	if field.Kind() == reflect.String {
		if field.String() != cell.Word() {
			t.Errorf("typed %s is %q, the sheet's %q", cell.Name, field, cell.Word())
		}
		return
	}
	var typed []float64
	switch field.Kind() {
	case reflect.Pointer:
		if !field.IsNil() {
			typed = append(typed, field.Elem().Float())
		}
	case reflect.Slice:
		for i := range field.Len() {
			typed = append(typed, field.Index(i).Float())
		}
	default:
		typed = append(typed, field.Float())
	}
	sheet := cell.Numbers()
	if len(typed) != len(sheet) {
		t.Errorf("typed %s has %d numbers, the sheet's %d", cell.Name, len(typed), len(sheet))
		return
	}
	for i := range typed {
		if typed[i] != sheet[i] {
			t.Errorf("typed %s is %v, the sheet's %v", cell.Name, typed, sheet)
		}
	}
}
