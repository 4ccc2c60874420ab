package main

import (
	"strings"
	"testing"
	"unicode/utf8"

	"millmaths.example/paperprop/calc"
	"millmaths.example/paperprop/calc/plain"
)

// Help and explain tell every key of a file, as its reader knows it.
func TestKeysOfFiles(t *testing.T) {
	told := 0
	for _, command := range tools() {
		if command.tables == nil {
			continue
		}
		told++
		help, explained := called("", command.name, "--help"), called("", "explain", command.name)
		if help.Status != done || explained.Status != done {
			t.Fatalf("%s: exit %d and %d", command.name, help.Status, explained.Status)
		}
		for _, page := range []string{help.Out, explained.Out} {
			for _, line := range strings.Split(page, "\n") {
				if utf8.RuneCountInString(line) > plain.Width {
					t.Errorf("%s: wider than %d: %s", command.name, plain.Width, line)
				}
			}
			everyKey(t, command.name, page, command.tables())
		}
	}
	if told != 3 {
		t.Errorf("%d commands tell of their files, want line, trim and making", told)
	}
	for _, test := range []struct{ name, want string }{
		{"line", "The balance of a machine line described in a file (line)\n\n  millmaths line FILE...\n"},
		{"line", "    consistency  %     of the stock, after water was added (above 0 %, below 100\n                       %); needed\n"},
		{"line", "    reject-rate         text  by dry mass | by mass of stock\n"},
		{"line", "    flow         t/h    of the water; or in t/t, per tonne sold (above 0 t/h);\n                        needed\n"},
		{"trim", "  [[deckle]]: what sets are cut from; repeated for more\n    width  text          of what is slit; needed\n"},
		{"making", "    spool     mm    its diameter\n"},
	} {
		if page := called("", "explain", test.name).Out; !strings.Contains(page, test.want) {
			t.Errorf("explain %s has no\n%s:\n%s", test.name, test.want, page)
		}
	}
}

func everyKey(t *testing.T, name, page string, tables []calc.FileTable) {
	t.Helper()
	for _, table := range tables {
		if !strings.Contains(page, "  "+table.Head) {
			t.Errorf("%s: no table %s", name, table.Head)
		}
		for _, k := range table.Keys {
			if k.About == "" {
				t.Errorf("%s: nothing is said of %s under %s", name, k.Name, table.Head)
			}
			if !strings.Contains(page, "\n    "+k.Name+" ") {
				t.Errorf("%s: no key %s", name, k.Name)
			}
		}
	}
}

// No page of help is wider than a screen: the first one that anybody sees, that of each
// command, and that of a calculation.
func TestHelpFitsTheScreen(t *testing.T) {
	pages := [][]string{nil, {"dilution", "--help"}, {"propagate", "--help"}, {"batch", "dilution", "--help"}}
	for _, command := range tools() {
		if command.usage != "" {
			pages = append(pages, []string{command.name, "--help"})
		}
	}
	for _, page := range pages {
		for line := range strings.Lines(called("", page...).Out) {
			if utf8.RuneCountInString(strings.TrimSuffix(line, "\n")) > plain.Width {
				t.Errorf("%v: wider than %d: %s", page, plain.Width, line)
			}
		}
	}
}

// A flag that is left out stands for something, and the help says for what.
func TestHelpTellsWhatIsLeftOut(t *testing.T) {
	for command, want := range map[string]string{
		"trim": "of the search, 20s if left out", "making": "for sets, in all, 20s if left out", "dilution": "of the draws, 1 if left out",
		"batch tensile": "summary's interval in per cent, 95 if left out", "": "millmaths --version tells the version.",
	} {
		help := called("", append(strings.Fields(command), "--help")...).Out
		if !strings.Contains(strings.Join(strings.Fields(help), " "), want) {
			t.Errorf("%s --help:\n%s\nwithout %s", command, help, want)
		}
	}
}
