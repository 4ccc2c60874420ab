package main

import (
	"context"
	"fmt"
	"slices"
	"strings"

	"millmaths.example/paperprop/calc"
	"millmaths.example/paperprop/catalogue"
)

// script asks the command itself, so that it never grows old.
func script(shell string) string {
	switch shell {
	case "bash":
		return `_millmaths() {
    local IFS=$'\n'
    COMPREPLY=($(millmaths complete -- "${COMP_WORDS[@]:1:COMP_CWORD}" 2>/dev/null))
}
complete -o default -F _millmaths millmaths
`
	case "zsh":
		return `#compdef millmaths
_millmaths() {
    local -a found
    found=("${(@f)$(millmaths complete -- "${(@)words[2,CURRENT]}" 2>/dev/null)}")
    compadd -Q -a found || _files
}
compdef _millmaths millmaths
`
	case "fish":
		return `complete -c millmaths -f -a '(millmaths complete -- (commandline -opc)[2..-1] (commandline -ct) 2>/dev/null)'
`
	}
	return ""
}

func completion(_ context.Context, args []string, t *terminal) error {
	if len(args) == 1 {
		if text := script(args[0]); text != "" {
			_, err := fmt.Fprint(t.out, text)
			return err
		}
	}
	return usageError{fmt.Errorf("completion takes bash, zsh or fish")}
}

// complete prints what could stand in place of the last word: commands,
// flags, words, and for a number the units that the input takes.
func complete(_ context.Context, args []string, t *terminal) error {
	if len(args) > 0 && args[0] == "--" {
		args = args[1:]
	}
	if len(args) == 0 {
		args = []string{""}
	}
	last := args[len(args)-1]
	for _, candidate := range candidates(args[:len(args)-1], last) {
		fmt.Fprintln(t.out, candidate)
	}
	return nil
}

func candidates(before []string, last string) []string {
	if len(before) == 0 {
		return beginning(commandNames(), last)
	}
	name := before[0]
	switch name {
	case "explain", "schema", "batch":
		if len(before) == 1 {
			return beginning(catalogue.Names(), last)
		}
		name = before[1]
	case "completion":
		return beginning([]string{"bash", "zsh", "fish"}, last)
	}
	c, ok := catalogue.Find(name)
	if !ok {
		return nil
	}
	info := c.Info()
	fields := slices.Concat(info.In, info.Out)
	if flag, ok := strings.CutPrefix(before[len(before)-1], "--"); ok {
		if i := slices.IndexFunc(fields, func(f *calc.Field) bool { return f.Name == flag }); i >= 0 {
			return valueCandidates(fields[i], last)
		}
	}
	var flags []string
	for _, f := range fields {
		if flag := "--" + f.Name; !slices.Contains(before, flag) && !slices.Contains(flags, flag) {
			flags = append(flags, flag)
		}
	}
	if before[0] != "batch" {
		flags = append(flags, "--steps", "--json", "--csv", "--full", "--plot", "--monte-carlo", "--unit", "--help")
	} else {
		flags = append(flags, "--column", "--by", "--lot", "--full", "--out", "--decimal", "--help")
	}
	return beginning(flags, last)
}

// valueCandidates are words, or the number typed so far with each unit.
func valueCandidates(f *calc.Field, last string) []string {
	if f.Shape == calc.Word {
		return beginning(f.Choices, last)
	}
	if f.Kind == nil {
		return nil
	}
	typed := strings.Trim(last, `"'`)
	number, unit, _ := strings.Cut(typed, " ")
	if number == "" {
		number = "1"
	}
	var found []string
	for _, u := range f.Kind.Units() {
		if text := u.String(); text != "1" && strings.HasPrefix(text, unit) {
			found = append(found, `"`+number+" "+text+`"`)
		}
	}
	return found
}

func beginning(words []string, with string) []string {
	var found []string
	for _, w := range words {
		if strings.HasPrefix(w, with) {
			found = append(found, w)
		}
	}
	return found
}
