package calls

import (
	"flag"
	"fmt"
	"hash/fnv"
	"math"
	"math/rand/v2"
	"reflect"
	"runtime/debug"
	"slices"
	"strings"
	"testing"
	"time"
)

var wanted = flag.Int("calls", 60_000, "how many calls to make")

// A function is one that the library exports, or a method as an expression: its
// first argument is the receiver.
type function struct {
	name  string
	value reflect.Value
}

// methods lists those of a type and of a pointer to it, each once.
func methods(t reflect.Type) []function {
	var list []function
	of := func(t reflect.Type, not reflect.Type) {
		for i := range t.NumMethod() {
			m := t.Method(i)
			if not != nil {
				if _, ok := not.MethodByName(m.Name); ok {
					continue
				}
			}
			list = append(list, function{strings.TrimPrefix(t.String(), "*") + "." + m.Name, m.Func})
		}
	}
	of(t, nil)
	of(reflect.PointerTo(t), t)
	return list
}

// A target is a function with what was seen of it.
type target struct {
	function
	exempt exemption
	calls  int
	took   time.Duration
	well   int // calls that gave no error
}

// No call panics, and none gives a number that is not finite.
func TestNoPanicNoNaN(t *testing.T) {
	var targets []*target
	all := slices.Clone(functions)
	for _, k := range kinds {
		all = append(all, methods(k)...)
	}
	used := map[string]bool{}
	for _, f := range all {
		e := exemptionOf(f.name, used)
		if e.sort != written {
			targets = append(targets, &target{function: f, exempt: e})
		}
	}
	for _, e := range exemptions {
		if !used[e.name] {
			t.Errorf("nothing exported has the name %s, which is exempt", e.name)
		}
	}

	made, w, start := 0, allWays(), time.Now()
	failed := map[string]int{}
	for round := 0; made < *wanted; round++ {
		before := made
		for _, f := range targets {
			// What takes long gets its share of time, not of calls.
			if f.took > 20*time.Millisecond+time.Since(start)/100 || failed[f.name] > 2 {
				continue
			}
			began := time.Now()
			if fault := f.call(w, round); fault != "" {
				failed[f.name]++
				t.Error(fault)
			}
			took := time.Since(began)
			f.took += took
			f.calls++
			made++
			if took > 2*time.Second {
				t.Logf("%s took %v in round %d", f.name, took, round)
			}
		}
		if made == before {
			time.Sleep(time.Millisecond)
		}
	}
	well := 0
	for _, f := range targets {
		well += f.well
		if f.calls == 0 {
			t.Errorf("%s was not called", f.name)
		}
	}
	t.Logf("%d calls of %d functions and methods, %d without an error, in %v", made, len(targets), well, time.Since(start).Round(time.Millisecond))
	if well < made/4 {
		t.Errorf("%d of %d calls gave no error, want a quarter: what is tried must not always be refused", well, made)
	}
}

// call calls a function once, with arguments that its name and the round give.
func (f *target) call(w ways, round int) (fault string) {
	h := fnv.New64a()
	h.Write([]byte(f.name))
	m := maker{rand.New(rand.NewPCG(h.Sum64(), uint64(round))), w}
	kind := f.value.Type()
	arguments := make([]reflect.Value, kind.NumIn())
	defer func() {
		if p := recover(); p != nil {
			fault = fmt.Sprintf("%s panics in round %d: %v\n%s\n%s", f.name, round, p, tell(arguments), debug.Stack())
		}
	}()
	if fit := together[f.name]; fit != nil {
		for i, a := range fit(m) {
			arguments[i] = reflect.ValueOf(a)
		}
	}
	for i := range arguments {
		if arguments[i].IsValid() {
			continue
		}
		arguments[i] = m.make(kind.In(i), 0)
		if i == 0 && arguments[i].Kind() == reflect.Pointer && arguments[i].IsNil() {
			arguments[i] = m.filled(kind.In(i).Elem(), 0)
		}
	}
	var results []reflect.Value
	if kind.IsVariadic() {
		results = f.value.CallSlice(arguments)
	} else {
		results = f.value.Call(arguments)
	}
	refused := false
	for _, r := range results {
		if err, ok := r.Interface().(error); ok && r.Type().Kind() == reflect.Interface {
			if err.Error() == "" {
				return fmt.Sprintf("%s gives an error without a text\n%s", f.name, tell(arguments))
			}
			refused = true
		}
	}
	if !refused {
		f.well++
	}
	if f.exempt.sort == handsOn {
		return ""
	}
	for i, r := range results {
		if _, ok := r.Interface().(error); ok {
			continue // an error tells of the number as it was
		}
		if where := notFinite(r, 0); where != "" {
			return fmt.Sprintf("%s gives a result %d that is not finite, at %s, in round %d: %+v\n%s", f.name, i, where, round, r, tell(arguments))
		}
	}
	return ""
}

func tell(arguments []reflect.Value) string {
	var b strings.Builder
	for _, a := range arguments {
		text := "not made"
		if a.IsValid() {
			text = fmt.Sprintf("%#v", a)
			if a.Kind() == reflect.Pointer && !a.IsNil() && a.Elem().Kind() != reflect.Struct {
				text = fmt.Sprintf("&%#v", a.Elem())
			} else if a.Kind() == reflect.Pointer && !a.IsNil() {
				text = "&" + shorten(fmt.Sprintf("%+v", a.Elem()))
			}
		}
		fmt.Fprintf(&b, "    %s\n", shorten(text))
	}
	return b.String()
}

func shorten(text string) string {
	if len(text) > 400 {
		return text[:400] + " ..."
	}
	return text
}

// notFinite says where in a result a number stands that is not finite, or
// nothing.
func notFinite(v reflect.Value, depth int) string {
	if depth > 4 || described(v.Type()) {
		return ""
	}
	switch v.Kind() {
	case reflect.Float64, reflect.Float32:
		if x := v.Float(); math.IsNaN(x) || math.IsInf(x, 0) {
			return fmt.Sprint(x)
		}
	case reflect.Pointer, reflect.Interface:
		if !v.IsNil() {
			return notFinite(v.Elem(), depth+1)
		}
	case reflect.Slice, reflect.Array:
		if v.Type().Elem().Kind() < reflect.Float32 {
			break // whole numbers and truths
		}
		for i := range v.Len() {
			if where := notFinite(v.Index(i), depth+1); where != "" {
				return fmt.Sprintf("[%d] %s", i, where)
			}
		}
	case reflect.Map:
		for _, k := range v.MapKeys() {
			if where := notFinite(v.MapIndex(k), depth+1); where != "" {
				return fmt.Sprintf("[%v] %s", k, where)
			}
		}
	case reflect.Struct:
		for i := range v.NumField() {
			if where := notFinite(v.Field(i), depth+1); where != "" {
				return "." + v.Type().Field(i).Name + " " + where
			}
		}
	}
	return ""
}
