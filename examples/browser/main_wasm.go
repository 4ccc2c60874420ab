package main

import (
	"reflect"
	"strings"
	"syscall/js"

	"millmaths.example/paperprop/calc"
)

// In the browser the program gives the page three functions and waits.
func main() {
	give := func(name string, f func(args []js.Value) any) {
		js.Global().Set(name, js.FuncOf(func(_ js.Value, args []js.Value) any { return f(args) }))
	}
	give("millmathsRooms", func([]js.Value) any { return answer(rooms(), nil) })
	give("millmathsDescribe", func(args []js.Value) any { return answer(describe(args[0].String())) })
	give("millmathsWork", func(args []js.Value) any { return answer(work(args[0].String(), texts(args[1]))) })
	js.Global().Call("millmathsReady")
	select {}
}

// texts takes an object of texts from the page.
func texts(object js.Value) map[string]string {
	m := map[string]string{}
	keys := js.Global().Get("Object").Call("keys", object)
	for i := range keys.Length() {
		key := keys.Index(i).String()
		m[key] = object.Get(key).String()
	}
	return m
}

// answer gives what the page asked for, or what was refused in its place.
func answer(v any, err error) any {
	a := map[string]any{"result": plain(reflect.ValueOf(v))}
	if err != nil {
		code, input := calc.Code(err)
		a["error"] = map[string]any{"code": code, "input": input, "text": err.Error()}
	}
	return a
}

// plain turns a struct into an object, a slice into an array, and so on down.
// By encoding/json the page would load a tenth more.
func plain(v reflect.Value) any {
	switch v.Kind() {
	case reflect.Pointer:
		if v.IsNil() {
			return nil
		}
		return plain(v.Elem())
	case reflect.Struct:
		object := map[string]any{}
		for i := range v.NumField() {
			name := v.Type().Field(i).Name
			object[strings.ToLower(name[:1])+name[1:]] = plain(v.Field(i))
		}
		return object
	case reflect.Slice, reflect.Array:
		array := make([]any, v.Len())
		for i := range array {
			array[i] = plain(v.Index(i))
		}
		return array
	}
	return v.Interface()
}
