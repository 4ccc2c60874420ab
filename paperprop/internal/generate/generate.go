// Package generate writes the quantity types of package paperprop, and the
// tables behind them, from the list of units. It is separate from its command so
// that a test can check that the generated files are up to date.
package generate

import (
	"bytes"
	"fmt"
	"go/format"
	"strings"
)

// Files returns the generated files by name, given the text of units.csv.
func Files(source []byte) (map[string][]byte, error) {
	l, err := read(source)
	if err != nil {
		return nil, err
	}
	files := map[string][]byte{}
	for name, write := range map[string]func(*bytes.Buffer, *list){
		"types_gen.go":      writeTypes,
		"units_gen.go":      writeTables,
		"lookup_gen.go":     writeLookups,
		"types_gen_test.go": writeTest,
	} {
		var b bytes.Buffer
		b.WriteString("// Code generated from units.csv by internal/generate; DO NOT EDIT.\n\npackage paperprop\n\n")
		write(&b, l)
		if files[name], err = format.Source(b.Bytes()); err != nil {
			return nil, fmt.Errorf("%s: %w", name, err)
		}
	}
	return files, nil
}

// writeTypes writes the types, their constants and their methods.
func writeTypes(b *bytes.Buffer, l *list) {
	b.WriteString("import (\n\"database/sql/driver\"\n\"math\"\n)\n\n")
	for _, k := range l.kinds {
		fmt.Fprintf(b, "// %s is %s.\n// Its canonical unit is %s%s.\ntype %[1]s float64\n\n", k.name, k.about, k.units[0].name, k.rangeText())
		writeConstants(b, k)
		writeMethods(b, k)
	}
}

func writeConstants(b *bytes.Buffer, k *kind) {
	var lines []string
	for _, u := range k.units {
		if u.constant != "" {
			lines = append(lines, fmt.Sprintf("%s %s = %s // %s", u.constant, k.name, u.expression(), u.name))
		}
	}
	if lines == nil {
		return
	}
	fmt.Fprintf(b, "// Units of %s, in %s.\nconst (\n%s\n)\n\n", k.words(), k.units[0].name, strings.Join(lines, "\n"))
}

const methods = `// ParseNAME reads a number and a unit, such as "WRITTEN". The error is a
// [NumberError] or a [UnitError].
func ParseNAME(text string) (NAME, error) {
	v, _, err := kinds[kindNAME].Parse(text)
	return NAME(v), err
}

IN// String returns x with its unit, as text that parses back to the same value.
func (x NAME) String() string { return kinds[kindNAME].text(float64(x)) }

// MarshalText returns the text of [NAME.String]; an x that is not finite is an error.
func (x NAME) MarshalText() ([]byte, error) { return kinds[kindNAME].marshal(float64(x)) }

// UnmarshalText reads what [ParseNAME] reads; an error leaves x unchanged.
func (x *NAME) UnmarshalText(text []byte) error { return kinds[kindNAME].unmarshal(text, (*float64)(x)) }

// Scan reads a database value: a number in UNIT, or text with a unit.
func (x *NAME) Scan(src any) error { return kinds[kindNAME].scan(src, (*float64)(x)) }

// Value returns the number in UNIT for a database; an x that is not finite is an error.
func (x NAME) Value() (driver.Value, error) { return kinds[kindNAME].value(float64(x)) }

// Kind returns the kind shared by all values of the type.
func (NAME) Kind() *Kind { return &kinds[kindNAME] }

// Number returns a pointer to the number of x, in UNIT.
func (x *NAME) Number() *float64 { return (*float64)(x) }

`

const in = `// In returns x as a number in unit u: x.In(CONSTANT).
func (x NAME) In(u NAME) float64 { return float64(x / u) }

`

func writeMethods(b *bytes.Buffer, k *kind) {
	text := strings.Replace(methods, "IN//", in+"//", 1)
	if k.affine() {
		text = strings.Replace(methods, "IN//", "//", 1)
	}
	example := "Percent"
	for _, u := range k.units {
		if u.constant != "" {
			example = u.constant
			break
		}
	}
	if example == "Percent" && k.print == 0 {
		text = strings.Replace(text, ": x.In(CONSTANT)", "", 1)
	}
	written := "12 " + k.units[k.print].name
	if k.units[k.print].name == "1" {
		written = "12"
	}
	b.WriteString(strings.NewReplacer("WRITTEN", written, "NAME", k.name, "UNIT", k.units[0].name, "CONSTANT", example).Replace(text))
}

// writeTables writes the kinds, the units and the refused spellings.
func writeTables(b *bytes.Buffer, l *list) {
	b.WriteString("import \"math\"\n\n// The kinds, in the order of units.csv.\nconst (\n")
	for i, k := range l.kinds {
		fmt.Fprintf(b, "kind%s", k.name)
		if i == 0 {
			b.WriteString(" kindID = iota")
		}
		b.WriteString("\n")
	}
	b.WriteString("noKind\n)\n\nvar kinds = [...]Kind{\n")
	for _, k := range l.kinds {
		fmt.Fprintf(b, "kind%s: {%s},\n", k.name, k.literal())
	}
	b.WriteString("}\n\nvar units = [...]unit{\n")
	for _, k := range l.kinds {
		for _, u := range k.units {
			fmt.Fprintf(b, "{%s},\n", u.literal(k))
		}
	}
	b.WriteString("}\n\nvar refusals = [...]refusal{\n")
	for _, r := range l.refused {
		id := "noKind"
		if r.kind != "" {
			id = "kind" + r.kind
		}
		fmt.Fprintf(b, "{%s, %q, %q, %q},\n", id, strings.Join(r.spellings, ","), strings.Join(r.candidates, ","), r.note)
	}
	b.WriteString("}\n")
}

// writeLookups writes the switches from a spelling to a unit.
func writeLookups(b *bytes.Buffer, l *list) {
	done := map[string]bool{}
	for _, k := range l.kinds {
		if name := k.lookup; !done[name] {
			done[name] = true
			fmt.Fprintf(b, "// %s finds a unit of %s by its spelling, as an index from the kind's first unit.\n", name, k.words())
			writeSwitch(b, name, k.cases())
		}
	}
	b.WriteString("// lookupAtom finds a unit that others may be composed of.\n")
	writeSwitch(b, "lookupAtom", l.atoms())
	b.WriteString("// lookupAny finds a unit of any kind; a name takes precedence over an alias.\n")
	writeSwitch(b, "lookupAny", l.any())
}

// writeTest writes the lists that tests iterate over: every constant with its unit, and
// a value of every type.
func writeTest(b *bytes.Buffer, l *list) {
	b.WriteString("var constants = []struct {\nkind *Kind\nunit string\nvalue float64\n}{\n")
	for _, k := range l.kinds {
		for _, u := range k.units {
			if u.constant != "" {
				fmt.Fprintf(b, "{&kinds[kind%s], %q, float64(%s)},\n", k.name, u.name, u.constant)
			}
		}
	}
	b.WriteString("}\n\nfunc properties() []typed {\nreturn []typed{\n")
	for _, k := range l.kinds {
		fmt.Fprintf(b, "new(%s),\n", k.name)
	}
	b.WriteString("}\n}\n")
}

// writeSwitch writes a function whose switch the compiler turns into a binary search.
func writeSwitch(b *bytes.Buffer, name string, cases []spelled) {
	fmt.Fprintf(b, "func %s(text string) int {\nswitch text {\n", name)
	for _, c := range cases {
		if len(c.texts) == 0 {
			continue
		}
		quoted := make([]string, len(c.texts))
		for i, t := range c.texts {
			quoted[i] = fmt.Sprintf("%q", t)
		}
		fmt.Fprintf(b, "case %s:\nreturn %d\n", strings.Join(quoted, ", "), c.unit)
	}
	b.WriteString("}\nreturn -1\n}\n\n")
}
