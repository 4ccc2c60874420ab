package main

import (
	"context"
	"errors"
	"fmt"
	"slices"
	"strings"

	"github.com/spf13/pflag"

	"millmaths.example/paperprop"
	"millmaths.example/paperprop/calc"
	"millmaths.example/paperprop/catalogue"
)

// script returns a script that asks the command itself, so that it never becomes
// outdated.
func script(shell string) string {
	switch shell {
	case "bash":
		return `_millmaths() {
    local IFS=$'\n'
    COMPREPLY=($(millmaths complete -- "${COMP_WORDS[@]:1:COMP_CWORD}" 2>/dev/null))
    [[ ${COMPREPLY[0]} == *= ]] && compopt -o nospace
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
	return usageError{errors.New("completion takes bash, zsh or fish")}
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
	args, typed := whole(args)
	last := args[len(args)-1]
	for _, candidate := range candidates(args[:len(args)-1], last) {
		fmt.Fprintln(t.out, strings.TrimPrefix(candidate, typed))
	}
	return nil
}

// whole rejoins words that bash splits at an equals sign, and returns what it takes
// as typed of the last one.
func whole(args []string) (words []string, typed string) {
	open := false
	for _, a := range args {
		n := len(words) - 1
		switch {
		case a == "=" && n >= 0:
			words[n] += a
			typed, open = words[n], true
		case open:
			words[n] += a
			open = false
		default:
			words = append(words, a)
			typed = ""
		}
	}
	return words, typed
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
	case "convert": // whose value and units are no flags
		return convertCandidates(before[1:], last)
	}
	c, ok := catalogue.Find(name)
	if !ok {
		return nil
	}
	info := c.Info()
	if flag, ok := strings.CutPrefix(before[len(before)-1], "--"); ok {
		if found, ok := flagValues(c, before[0] == "batch", flag, last); ok {
			return found
		}
	}
	if flag, value, ok := strings.Cut(last, "="); ok && strings.HasPrefix(flag, "--") {
		if flag == "--steps" { // its value is optional, so it can't be a word of its own
			return beginning([]string{"--steps=markdown"}, last)
		}
		found, _ := flagValues(c, before[0] == "batch", flag[2:], value)
		for i := range found {
			found[i] = flag + "=" + found[i]
		}
		return found
	}
	var flags []string
	for _, f := range slices.Concat(info.Named(), info.Solvable()) {
		if flag := "--" + f.Name; !slices.Contains(before, flag) && !slices.Contains(flags, flag) {
			flags = append(flags, flag)
		}
	}
	return beginning(append(flags, optionsOf(c, before[0] == "batch")...), last)
}

// convertCandidates returns the units that the value can be converted to.
func convertCandidates(words []string, last string) []string {
	if len(words) == 0 || strings.HasPrefix(last, "-") {
		return beginning([]string{"--full", "--json", "--help"}, last)
	}
	unit, err := paperprop.ParseUnit(strings.TrimLeft(words[0], "0123456789.-− "))
	if err != nil || unit.Kind() == nil {
		return nil
	}
	var found []string
	for _, u := range unit.Kind().Units() {
		found = append(found, quoted(u.String()))
	}
	return beginning(found, last)
}

// optionsOf returns the flags that are not inputs.
func optionsOf(c calc.Calculation, batch bool) []string {
	if _, isTool := c.(*calc.Tool); isTool && !batch {
		return []string{"--steps=markdown", "--json", "--full", "--plot", "--unit", "--decimal", "--delimiter", "--encoding", "--head-line", "--help"}
	}
	var options []string
	fields := slices.Concat(c.Info().In, c.Info().Out)
	flagsOf(c.Info(), batch).VisitAll(func(f *pflag.Flag) {
		if !slices.ContainsFunc(fields, func(field *calc.Field) bool { return field.Name == f.Name }) {
			options = append(options, "--"+f.Name)
		}
	})
	return options
}

// flagsOf returns the flags of a calculation, alone or over a table.
func flagsOf(info *calc.Info, batch bool) *pflag.FlagSet {
	if batch {
		return new(batchOptions).flags(info)
	}
	return new(options).flags(info)
}

// flagValues returns the possible values of a flag; none if it takes a file or a
// free number. ok is false if the flag has no value.
func flagValues(c calc.Calculation, batch bool, flag, typed string) (found []string, ok bool) {
	info := c.Info()
	fields := slices.Concat(info.In, info.Out)
	if i := slices.IndexFunc(fields, func(f *calc.Field) bool { return f.Name == flag }); i >= 0 {
		return valueCandidates(fields[i], typed), true
	}
	switch flag {
	case "unit":
		return unitCandidates(info, typed), true
	case "of":
		var outputs []string
		for _, f := range info.Out {
			if f.Shape == calc.One {
				outputs = append(outputs, f.Name)
			}
		}
		return beginning(outputs, typed), true
	case "summary":
		return beginning([]string{"markdown", "json"}, typed), true
	case "decimal":
		return beginning([]string{"point", "comma"}, typed), true
	case "delimiter":
		return beginning([]string{"comma", "semicolon", "tab"}, typed), true
	case "encoding":
		return beginning([]string{"utf-8", "utf-16le", "utf-16be", "windows-1252", "iso-8859-1"}, typed), true
	case "plot", "head-line": // of a tool too
		return nil, true
	}
	other := flagsOf(info, batch).Lookup(flag)
	return nil, other != nil && other.NoOptDefVal == "" // one that is true or false has that
}

// unitCandidates returns the outputs and, after a name and =, the units that it can
// be printed in.
func unitCandidates(info *calc.Info, typed string) []string {
	name, _, named := strings.Cut(typed, "=")
	var all []string
	for _, f := range info.Out {
		switch {
		case f.Shape == calc.Word || f.Shape == calc.Text:
		case !named:
			all = append(all, f.Name+"=")
		case f.Name == name && f.Kind != nil:
			for _, u := range f.Kind.Units() {
				if text := u.String(); text != "1" {
					all = append(all, name+"="+quoted(text))
				}
			}
		}
	}
	return beginning(all, typed)
}

// valueCandidates returns words, or the number typed so far with each unit.
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
