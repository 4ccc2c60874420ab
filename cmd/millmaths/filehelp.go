package main

import (
	"fmt"
	"io"
	"strings"

	"millmaths.example/paperprop/calc"
	"millmaths.example/paperprop/calc/plain"
)

// explainFile explains the keys of the file that a command takes.
func explainFile(out io.Writer, command tool) {
	fmt.Fprintf(out, "%s%s (%s)\n\n  millmaths %s\n", strings.ToUpper(command.help[:1]), command.help[1:], command.name, command.usage)
	printTables(out, command.tables())
}

// printTables prints the keys of a file, as its reader defines them.
func printTables(out io.Writer, tables []calc.FileTable) {
	fmt.Fprintln(out, "\nThe file, table by table; a value is a text with its unit, the one shown\nor another of its kind: \"0.82 %\"")
	for _, t := range tables {
		head := t.Head
		if head == "" {
			head = "above the tables"
		}
		if t.About != "" {
			head += ": " + t.About
		}
		fmt.Fprintf(out, "  %s\n", plain.WrappedAt(head, 4))
		var rows [][]string
		for _, k := range t.Keys {
			rows = append(rows, keyRow(k))
		}
		plain.Rows(out, rows)
	}
}

func keyRow(k calc.FileKey) []string {
	holds, about := k.Holds, []string{}
	if k.About != "" {
		about = append(about, k.About)
	}
	if k.Field != nil {
		holds = valueShape(k.Field)
		low, high := bounds(k.Field)
		about = append(about, strings.TrimSpace(inBrackets(given(low, high))))
	}
	text := strings.TrimSpace(strings.Join(about, " "))
	if k.Required {
		text += "; needed"
	}
	return []string{"    " + k.Name, holds, strings.TrimPrefix(text, "; ")}
}

// given returns the texts that are not empty.
func given(texts ...string) []string {
	var list []string
	for _, t := range texts {
		if t != "" {
			list = append(list, t)
		}
	}
	return list
}
