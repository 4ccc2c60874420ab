package strict

import (
	"bytes"
	"errors"
	"fmt"
	"slices"
	"strconv"
	"strings"

	"github.com/pelletier/go-toml/v2/unstable"
)

// A Source is a file that was read. It tells on which line a key stands, and how its value
// is written, if an error asks.
type Source struct {
	name    string
	data    []byte
	changed map[string]string // texts of keys whose values are not those of the file
}

// A Fault is an error about a key of a file: its value, or that it is missing.
type Fault struct {
	Key string // "deckle[2].edge" is that of the second [[deckle]]
	Err error
}

// Refuse returns a Fault.
func Refuse(key, format string, args ...any) error { return &Fault{key, fmt.Errorf(format, args...)} }

// Error returns the message of the error, without the key.
func (f *Fault) Error() string { return f.Err.Error() }

// Unwrap returns the error.
func (f *Fault) Unwrap() error { return f.Err }

// longest is the length of the longest value that is worth repeating, a little more than
// that of a number.
const longest = 70

// Placed adds the name of the file to an error, and to a Fault the line of its key and
// the text of its value, where the message has this in another form: 2 ft as 609.6 mm.
func (s *Source) Placed(err error) error {
	var f *Fault
	if !errors.As(err, &f) {
		return fmt.Errorf("%s: %w", s.name, err)
	}
	place := s.name
	if line := s.line(f.Key); line > 0 {
		place = fmt.Sprintf("%s:%d", s.name, line)
	}
	written := strconv.Quote(s.Text(f.Key))
	if len(written) <= longest && !strings.Contains(err.Error(), strings.Trim(written, `"`)) {
		return fmt.Errorf("%s: %w (written %s)", place, err, written)
	}
	return fmt.Errorf("%s: %w", place, err)
}

// Change notes that a key has the value of a text, not that of the file, so that its line
// is not told.
func (s *Source) Change(key, text string) {
	if s.changed == nil {
		s.changed = map[string]string{}
	}
	s.changed[key] = text
}

// Text returns the text that the value of a key was read from; empty if there is none.
func (s *Source) Text(key string) (text string) {
	if text, ok := s.changed[key]; ok {
		return text
	}
	s.each(func(k string, _ int, value *unstable.Node) {
		if k == key && value != nil && value.Kind == unstable.String {
			text = string(value.Data)
		}
	})
	return text
}

// line returns the line of a key, or of the table that lacks it; 0 if there is neither.
func (s *Source) line(key string) int {
	if _, ok := s.changed[key]; ok {
		return 0
	}
	found, length := 0, 0
	s.each(func(k string, line int, _ *unstable.Node) {
		if in := k == key || strings.HasPrefix(key, k+".") || strings.HasPrefix(key, k+"["); in && len(k) > length {
			found, length = line, len(k)
		}
	})
	return found
}

// Lines returns the lines of the tables of a list: of each [[order]].
func (s *Source) Lines(list string) []int {
	var lines []int
	next := Member(list, 0)
	s.each(func(key string, line int, _ *unstable.Node) {
		if key == next {
			lines = append(lines, line)
			next = Member(list, len(lines))
		}
	})
	return lines
}

// Needs refuses the first table of a list without a key, and says what would be a value.
// A value of zero is one: whether it will do is for others to say.
func (s *Source) Needs(list, key, want string) error {
	var has []bool // of each table
	own, next := "", Member(list, 0)
	s.each(func(k string, _ int, _ *unstable.Node) {
		switch {
		case k == next:
			own, next = next+"."+key, Member(list, len(has)+1)
			has = append(has, false)
		case len(has) > 0 && k == own:
			has[len(has)-1] = true
		}
	})
	if i := slices.Index(has, false); i >= 0 {
		return Refuse(Member(list, i)+"."+key, "%s %d: %s missing, want %s", list, i+1, key, want)
	}
	return nil
}

// Member returns the key of a table of a list, by its index from 0.
func Member(list string, i int) string { return fmt.Sprintf("%s[%d]", list, i+1) }

// each calls visit with all keys and tables in the order of the file, and with the value
// of a key.
func (s *Source) each(visit func(key string, line int, value *unstable.Node)) {
	w := walker{visit: visit, data: s.data, line: 1}
	w.Reset(s.data)
	table, tables := "", map[string]int{} // of each list so far
	for w.NextExpression() {
		switch e := w.Expression(); e.Kind {
		case unstable.KeyValue:
			w.pair(table, e)
		case unstable.Table, unstable.ArrayTable:
			table = ""
			for it := e.Key(); it.Next(); {
				w.reach(it.Node())
				table = below(table, it.Node())
				if e.Kind == unstable.ArrayTable && it.IsLast() {
					tables[table]++
				}
				if n := tables[table]; n > 0 {
					table = Member(table, n-1)
				}
			}
			visit(table, w.line, nil)
		}
	}
}

// A walker visits the keys of a file.
type walker struct {
	unstable.Parser
	visit func(key string, line int, value *unstable.Node)
	data  []byte
	at    int // bytes that are counted in line
	line  int
}

// reach counts the lines up to a key. Keys come in the order of the file, so that each
// line is counted once.
func (w *walker) reach(key *unstable.Node) {
	if to := int(key.Raw.Offset); to > w.at {
		w.line += bytes.Count(w.data[w.at:to], []byte("\n"))
		w.at = to
	}
}

func below(table string, key *unstable.Node) string {
	return strings.TrimPrefix(table+"."+string(key.Data), ".")
}

// key returns the key of e under a table, and counts the lines up to it.
func (w *walker) key(table string, e *unstable.Node) string {
	for it := e.Key(); it.Next(); {
		table = below(table, it.Node())
		w.reach(it.Node())
	}
	return table
}

// pair visits a key and the keys within its value.
func (w *walker) pair(table string, e *unstable.Node) {
	key := w.key(table, e)
	w.visit(key, w.line, e.Value())
	w.within(key, e.Value())
}

func (w *walker) within(key string, v *unstable.Node) {
	it := v.Children()
	for n := 0; it.Next(); n++ {
		switch child := it.Node(); {
		case v.Kind == unstable.InlineTable:
			w.pair(key, child)
		case child.Kind == unstable.InlineTable:
			if first := child.Child(); first != nil {
				w.key("", first)
			}
			w.visit(Member(key, n), w.line, nil)
			w.within(Member(key, n), child)
		}
	}
}
