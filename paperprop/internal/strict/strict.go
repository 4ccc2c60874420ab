// Package strict reads TOML files in which people describe a job. It refuses an
// unknown name with the nearest known one, and gives the place of every fault.
package strict

import (
	"bytes"
	"encoding"
	"errors"
	"fmt"
	"io"
	"reflect"
	"slices"
	"strconv"
	"strings"

	"github.com/pelletier/go-toml/v2"
	"github.com/pelletier/go-toml/v2/unstable"

	"millmaths.example/paperprop"
	"millmaths.example/paperprop/calc"
)

// most limits the bytes of a file: a job takes a few kilobytes, an order list of a
// hundred thousand some megabytes.
const most = 16 << 20

// Decode reads a file of at most 16 MiB into a struct with toml tags. An unknown name
// is refused with the most similar known ones. Errors begin with the name of the file
// and, where there is one, the line.
func Decode(name string, in io.Reader, into any) (*Source, error) {
	data, err := io.ReadAll(io.LimitReader(in, most+1))
	if err != nil {
		return nil, fmt.Errorf("%s: %w", name, err)
	}
	if len(data) > most {
		return nil, fmt.Errorf("%s: longer than 16 MiB", name)
	}
	data = bytes.TrimPrefix(data, []byte("\ufeff"))
	var all map[string]any // the content of the file, known or not
	if err := placed(name, data, toml.Unmarshal(data, &all)); err != nil {
		return nil, err
	}
	f := fields{}
	if err := f.known(data, reflect.TypeOf(into)); err != nil {
		return nil, fmt.Errorf("%s:%w", name, err)
	}
	if err := placed(name, data, toml.Unmarshal(data, into)); err != nil {
		return nil, err
	}
	return &Source{name: name, data: data}, nil
}

// placed adds the file, line and column to an error.
func placed(name string, data []byte, err error) error {
	var bad *toml.DecodeError
	switch {
	case errors.As(err, &bad):
		line, column := bad.Position()
		return fmt.Errorf("%s:%d:%d: %s", name, line, column, said(bad, written(data, line, column)))
	case err != nil:
		return fmt.Errorf("%s: %w", name, err)
	}
	return nil
}

// written returns a value as it stands in the file. It is empty for a list, a table and
// text over several lines.
func written(data []byte, line, column int) string {
	for range line - 1 {
		_, data, _ = bytes.Cut(data, []byte("\n"))
	}
	data, _, _ = bytes.Cut(data, []byte("\n"))
	text := string(data[min(column-1, len(data)):])
	switch {
	case text == "", text[0] == '[', text[0] == '{', strings.HasPrefix(text, `"""`), strings.HasPrefix(text, "'''"):
		return ""
	case text[0] == '"':
		text, _ = strconv.QuotedPrefix(text)
		return text
	case text[0] == '\'':
		end := strings.IndexByte(text[1:], '\'')
		return text[:end+2]
	}
	if end := strings.IndexAny(text, " \t\r,]}#"); end >= 0 {
		return text[:end]
	}
	return text
}

// said returns the message of a decoding error, without the Go types that the decoder
// names if a value is of the wrong sort.
func said(bad *toml.DecodeError, value string) string {
	text := strings.TrimPrefix(bad.Error(), "toml: ")
	sorts, _ := strings.CutPrefix(text, "cannot decode TOML ")
	is, into, found := strings.Cut(sorts, " into ")
	if sorts == text || !found || is == "" {
		return inWords(text)
	}
	what := strings.Join(bad.Key(), ".")
	want := "a table: the line [" + what + "] and its keys under it"
	switch {
	case strings.HasSuffix(into, " string"):
		want = "text in quotes, with its unit where it has one"
	case strings.HasSuffix(into, " int"):
		want = "a whole number without quotes"
	case strings.HasSuffix(into, " bool"):
		want = "true or false"
	case strings.HasSuffix(into, " []string"):
		want = `a list of texts, ["A", "B"]`
	}
	if what == "" {
		what = "the value"
	}
	article := "a"
	if strings.ContainsRune("aeiou", rune(is[0])) {
		article = "an"
	}
	if value != "" {
		what += ": " + value
	}
	return fmt.Sprintf("%s is %s %s, want %s", what, article, is, want)
}

// inWords rewords an error of the decoder for people who do not know TOML.
func inWords(text string) string {
	switch {
	case strings.HasSuffix(text, "strings cannot have new lines"), strings.HasPrefix(text, "unterminated "):
		return "text in quotes without its closing quote"
	case strings.HasPrefix(text, "expected newline but got "):
		return `text after the value, want a value with a unit in quotes, such as "1000 mm"`
	case strings.HasSuffix(text, "cannot store an array table in a struct"):
		return "there is one table of this name, want it in single brackets"
	case strings.HasSuffix(text, " at start of value"):
		return "no value here, want a number, true, false, or text in quotes"
	}
	return text
}

// known refuses the first name that has no field. The decoder could list them all, but
// in time that grows with the square of the file's length.
func (f fields) known(data []byte, t reflect.Type) error {
	var p unstable.Parser
	p.Reset(data)
	in := place{t: t}
	for p.NextExpression() {
		e := p.Expression()
		var err error
		switch e.Kind {
		case unstable.Table, unstable.ArrayTable:
			in, err = f.under(&p, place{t: t}, e)
		case unstable.KeyValue:
			err = f.value(&p, in, e)
		}
		if err != nil {
			return err
		}
	}
	return nil // syntax errors were reported before
}

// A place is the type and path that a key leads to.
type place struct {
	t    reflect.Type
	path []string
}

// under follows the key of e. Names in a map are free.
func (f fields) under(p *unstable.Parser, in place, e *unstable.Node) (place, error) {
	in.path = slices.Clip(in.path)
	for it := e.Key(); it.Next(); {
		key := string(it.Node().Data)
		in.path = append(in.path, key)
		of := table(in.t)
		if of.Kind() != reflect.Struct {
			in.t = reflect.TypeFor[any]()
			continue
		}
		field, ok := f.find(of, key)
		if !ok {
			return in, fmt.Errorf("%d: %w", p.Shape(it.Node().Raw).Start.Line, &UnknownError{strings.Join(in.path, "."), f.wanted(of, key)})
		}
		in.t = field.Type
	}
	return in, nil
}

// An UnknownError reports a name that a file can't have.
type UnknownError struct{ Name, Wanted string }

func (e *UnknownError) Error() string { return fmt.Sprintf("unknown name %q, %s", e.Name, e.Wanted) }

// value checks a key and its value, including tables within.
func (f fields) value(p *unstable.Parser, in place, e *unstable.Node) error {
	in, err := f.under(p, in, e)
	if err != nil {
		return err
	}
	return f.within(p, in, e.Value())
}

// within checks the tables within a value. It refuses a bare number for a value that is
// read from text with its unit: the decoder would take 12 as 12 of the canonical unit.
func (f fields) within(p *unstable.Parser, in place, v *unstable.Node) error {
	if bare := v.Kind == unstable.Integer || v.Kind == unstable.Float; bare && reflect.PointerTo(table(in.t)).Implements(reflect.TypeFor[encoding.TextUnmarshaler]()) {
		return fmt.Errorf("%d: %s is %s, want it in quotes with its unit", p.Shape(v.Raw).Start.Line, strings.Join(in.path, "."), v.Data)
	}
	for it := v.Children(); it.Next(); {
		var err error
		switch n := it.Node(); {
		case v.Kind == unstable.InlineTable && n.Kind == unstable.KeyValue:
			err = f.value(p, in, n)
		case v.Kind == unstable.Array:
			err = f.within(p, in, n)
		}
		if err != nil {
			return err
		}
	}
	return nil
}

// table returns the struct type behind pointers and lists.
func table(t reflect.Type) reflect.Type {
	for t.Kind() == reflect.Pointer || t.Kind() == reflect.Slice {
		t = t.Elem()
	}
	return t
}

// fields caches the fields of each struct that have a name in the file, including
// embedded ones.
type fields map[reflect.Type][]reflect.StructField

func (f fields) of(t reflect.Type) []reflect.StructField {
	list, ok := f[t]
	if !ok && t.Kind() == reflect.Struct {
		list = slices.DeleteFunc(reflect.VisibleFields(t), func(f reflect.StructField) bool { return f.Tag.Get("toml") == "" })
		f[t] = list
	}
	return list
}

func (f fields) find(t reflect.Type, name string) (reflect.StructField, bool) {
	for _, field := range f.of(t) {
		if field.Tag.Get("toml") == name {
			return field, true
		}
	}
	return reflect.StructField{}, false
}

// wanted returns the names most similar to a key, or else all names of the table.
func (f fields) wanted(t reflect.Type, key string) string {
	var names []string
	for _, field := range f.of(t) {
		names = append(names, field.Tag.Get("toml"))
	}
	if near := calc.Nearest(key, names); len(near) > 0 {
		return "near: " + strings.Join(near, ", ")
	}
	return "want one of " + strings.Join(names, ", ")
}

// Tables returns the tables, with their keys, of the files that are read into a struct
// with toml tags. The about tags describe the keys, and needed marks those that must be there.
func Tables(into any) []calc.FileTable {
	return fields{}.tablesOf(calc.FileTable{}, reflect.TypeOf(into), "")
}

// tablesOf returns a table with the keys of t, followed by the tables below it.
func (f fields) tablesOf(in calc.FileTable, t reflect.Type, path string) []calc.FileTable {
	var below []calc.FileTable
	for _, field := range f.of(table(t)) {
		name, about := field.Tag.Get("toml"), field.Tag.Get("about")
		under := table(field.Type)
		if under.Kind() == reflect.Struct {
			inner := calc.FileTable{Head: "[" + path + name + "]", About: about}
			if field.Type.Kind() == reflect.Slice {
				inner.Head = "[" + inner.Head + "]"
			}
			below = append(below, f.tablesOf(inner, under, path+name+".")...)
			continue
		}
		key := calc.FileKey{Name: name, About: about, Required: field.Tag.Get("needed") != ""}
		if kind, ok := paperprop.KindNamed(under.Name()); ok {
			key.Field = calc.NewField(name, "", calc.One, about)
			key.Field.Kind, key.Field.Unit = kind, kind.Print()
		} else {
			key.Holds = holds(field.Type)
		}
		in.Keys = append(in.Keys, key)
	}
	return append([]calc.FileTable{in}, below...)
}

// holds returns in words what a type that is not a quantity takes.
func holds(t reflect.Type) string {
	switch t.Kind() {
	case reflect.Pointer:
		return holds(t.Elem())
	case reflect.Int:
		return "whole number"
	case reflect.Bool:
		return "true or false"
	case reflect.Slice:
		return "list of texts"
	case reflect.Map:
		return "table"
	}
	return "text"
}
