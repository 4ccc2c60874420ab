package line

import (
	"bytes"
	"errors"
	"fmt"
	"strings"

	"github.com/pelletier/go-toml/v2"
	"github.com/pelletier/go-toml/v2/unstable"
)

// A node is a value of a TOML file with the line it stands on. Decoding into
// structs would lose the lines, and the order of the keys.
type node struct {
	line   int
	text   string // of a text; of another single value, as written
	quoted bool   // it is a text
	table  []member
	list   []*node
	sort   unstable.Kind
}

type member struct {
	key string
	*node
}

func (n *node) get(key string) *node {
	for i := len(n.table) - 1; i >= 0; i-- {
		if n.table[i].key == key {
			return n.table[i].node
		}
	}
	return nil
}

// at returns the value of a key, or the table if it has no such key: the place to
// report a fault of the key.
func (n *node) at(key string) *node {
	if v := n.get(key); v != nil {
		return v
	}
	return n
}

// written returns a value as messages quote it.
func (n *node) written() string {
	switch n.sort {
	case unstable.Array:
		return "a list"
	case unstable.Table:
		return "a table"
	}
	return n.text
}

// parseTree reads a TOML file. The decoder checks it first, so that the walk meets
// no repeated key and no broken value.
func parseTree(data []byte) (*node, error) {
	data = bytes.TrimPrefix(data, []byte("\ufeff"))
	var all map[string]any
	if err := toml.Unmarshal(data, &all); err != nil {
		var at *toml.DecodeError
		if errors.As(err, &at) {
			line, column := at.Position()
			return nil, &Error{Line: line, Err: fmt.Errorf("column %d: %s", column, strings.TrimPrefix(at.Error(), "toml: "))}
		}
		return nil, &Error{Err: err}
	}
	p := &source{line: 1}
	p.Reset(data)
	root := &node{sort: unstable.Table}
	in := root
	for p.NextExpression() {
		e := p.Expression()
		switch e.Kind {
		case unstable.Table, unstable.ArrayTable:
			in = root
			for it := e.Key(); it.Next(); {
				in = in.under(string(it.Node().Data), p.lineOf(it.Node()), e.Kind == unstable.ArrayTable && it.IsLast())
			}
		case unstable.KeyValue:
			in.put(p, e)
		}
	}
	return root, p.Error()
}

// A source is a parser that keeps count of lines. It counts on from key to key:
// from the beginning each time would take the square of the file's length.
type source struct {
	unstable.Parser
	offset, line int
}

func (s *source) lineOf(n *unstable.Node) int {
	to := int(n.Raw.Offset)
	if to < s.offset {
		s.offset, s.line = 0, 1
	}
	s.line += bytes.Count(s.Data()[s.offset:to], []byte("\n"))
	s.offset = to
	return s.line
}

// under returns the table of a key: the last of a list of tables, or a new one.
func (n *node) under(key string, line int, another bool) *node {
	at := n.get(key)
	switch {
	case at == nil && another:
		at = &node{line: line, sort: unstable.Array}
		n.table = append(n.table, member{key, at})
	case at == nil:
		at = &node{line: line, sort: unstable.Table}
		n.table = append(n.table, member{key, at})
		return at
	}
	if another {
		at.list = append(at.list, &node{line: line, sort: unstable.Table})
	}
	if at.sort == unstable.Array && len(at.list) > 0 {
		return at.list[len(at.list)-1]
	}
	return at
}

// put adds the value of a key. The key may be dotted.
func (n *node) put(p *source, e *unstable.Node) {
	it := e.Key()
	for it.Next() {
		key, line := string(it.Node().Data), p.lineOf(it.Node())
		if it.IsLast() {
			v := value(p, e.Value())
			v.line = line
			n.table = append(n.table, member{key, v})
			return
		}
		n = n.under(key, line, false)
	}
}

func value(p *source, v *unstable.Node) *node {
	n := &node{sort: v.Kind, text: string(v.Data), quoted: v.Kind == unstable.String}
	switch v.Kind {
	case unstable.Array:
		for it := v.Children(); it.Next(); {
			n.list = append(n.list, value(p, it.Node()))
		}
	case unstable.InlineTable:
		n.sort = unstable.Table
		for it := v.Children(); it.Next(); {
			n.put(p, it.Node())
		}
	}
	return n
}
