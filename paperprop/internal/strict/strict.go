// Package strict reads TOML files in which people tell a job: a name that is not
// known is refused with the nearest, and everything wrong with its place.
package strict

import (
	"bytes"
	"encoding"
	"errors"
	"fmt"
	"io"
	"maps"
	"reflect"
	"slices"
	"strings"

	"github.com/pelletier/go-toml/v2"

	"millmaths.example/paperprop/calc"
)

// most bounds a file: a job tells itself in a few kilobytes, an order list of a
// hundred thousand in some megabytes.
const most = 32 << 20

// Decode reads a file into a struct with toml tags. Errors begin with the name of
// the file, line and column.
func Decode(name string, in io.Reader, into any) error {
	data, err := io.ReadAll(io.LimitReader(in, most+1))
	if err != nil {
		return fmt.Errorf("%s: %w", name, err)
	}
	if len(data) > most {
		return fmt.Errorf("%s: longer than 32 MiB", name)
	}
	data = bytes.TrimPrefix(data, []byte("\ufeff"))
	err = toml.NewDecoder(bytes.NewReader(data)).DisallowUnknownFields().Decode(into)
	var unknown *toml.StrictMissingError
	var bad *toml.DecodeError
	switch {
	case errors.As(err, &unknown):
		e := unknown.Errors[0]
		line, _ := e.Position()
		return fmt.Errorf("%s:%d: unknown name %q, %s", name, line, strings.Join(e.Key(), "."), wanted(reflect.TypeOf(into), e.Key()))
	case errors.As(err, &bad):
		line, column := bad.Position()
		return fmt.Errorf("%s:%d:%d: %s", name, line, column, strings.TrimPrefix(bad.Error(), "toml: "))
	case err != nil:
		return fmt.Errorf("%s: %w", name, err)
	}
	var all map[string]any
	if err := toml.Unmarshal(data, &all); err != nil {
		return fmt.Errorf("%s: %w", name, err)
	}
	if err := quoted(reflect.TypeOf(into), all, ""); err != nil {
		return fmt.Errorf("%s: %w", name, err)
	}
	return nil
}

var text = reflect.TypeFor[encoding.TextUnmarshaler]()

// quoted refuses a bare number where a value with its unit is read from text: the
// decoder would take 12 for 12 of whatever the canonical unit is.
func quoted(t reflect.Type, value any, path string) error {
	t = table(t)
	switch v := value.(type) {
	case int64, float64:
		if reflect.PointerTo(t).Implements(text) {
			return fmt.Errorf("%s is %v, want it in quotes with its unit", path, v)
		}
	case []any:
		for i, x := range v {
			if err := quoted(t, x, fmt.Sprintf("%s %d", path, i+1)); err != nil {
				return err
			}
		}
	case map[string]any:
		for _, key := range slices.Sorted(maps.Keys(v)) {
			if f, ok := field(t, key); ok {
				if err := quoted(f.Type, v[key], strings.TrimPrefix(path+"."+key, ".")); err != nil {
					return err
				}
			}
		}
	}
	return nil
}

// wanted names what is nearest to the last part of a key, of all that the table
// it stands in may hold.
func wanted(t reflect.Type, key toml.Key) string {
	for _, part := range key[:len(key)-1] {
		t = table(t)
		f, ok := field(t, part)
		if !ok {
			break
		}
		t = f.Type
	}
	names := names(table(t))
	if near := calc.Nearest(key[len(key)-1], names); len(near) > 0 {
		return "near: " + strings.Join(near, ", ")
	}
	return "want one of " + strings.Join(names, ", ")
}

// table is the struct behind pointers and lists.
func table(t reflect.Type) reflect.Type {
	for t.Kind() == reflect.Pointer || t.Kind() == reflect.Slice {
		t = t.Elem()
	}
	return t
}

func field(t reflect.Type, name string) (reflect.StructField, bool) {
	for _, f := range fields(t) {
		if f.Tag.Get("toml") == name {
			return f, true
		}
	}
	return reflect.StructField{}, false
}

// fields are those with a name in the file, embedded ones included.
func fields(t reflect.Type) []reflect.StructField {
	if t.Kind() != reflect.Struct {
		return nil
	}
	return slices.DeleteFunc(reflect.VisibleFields(t), func(f reflect.StructField) bool { return f.Tag.Get("toml") == "" })
}

func names(t reflect.Type) []string {
	var list []string
	for _, f := range fields(t) {
		list = append(list, f.Tag.Get("toml"))
	}
	return list
}
