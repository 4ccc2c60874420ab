package main

import (
	"encoding/json"
	"syscall/js"

	"millmaths.example/paperprop/calc"
)

// In the browser the program gives the page three functions and waits.
func main() {
	give := func(name string, f func(args []js.Value) string) {
		js.Global().Set(name, js.FuncOf(func(_ js.Value, args []js.Value) any { return f(args) }))
	}
	give("millmathsRooms", func([]js.Value) string { return answer(rooms(), nil) })
	give("millmathsDescribe", func(args []js.Value) string { return answer(describe(args[0].String())) })
	give("millmathsWork", func(args []js.Value) string {
		var texts map[string]string
		if err := json.Unmarshal([]byte(args[1].String()), &texts); err != nil {
			return answer(worked{}, err)
		}
		return answer(work(args[0].String(), texts))
	})
	js.Global().Call("millmathsReady")
	select {}
}

// answer writes what the page asked for, or what was refused in its place.
func answer[T any](v T, err error) string {
	type refusal struct {
		Code  string `json:"code"`
		Input string `json:"input"`
		Text  string `json:"text"`
	}
	var out struct {
		Result T        `json:"result"`
		Error  *refusal `json:"error"`
	}
	out.Result = v
	if err != nil {
		code, input := calc.Code(err)
		out.Error = &refusal{code, input, err.Error()}
	}
	data, err := json.Marshal(out)
	if err != nil {
		return `{"error":{"code":"internal","text":"a result that is no JSON"}}`
	}
	return string(data)
}
