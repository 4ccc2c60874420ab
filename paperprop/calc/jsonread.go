package calc

import (
	"bytes"
	"encoding/json"
	"errors"
	"fmt"
	"io"
	"strings"
	"unicode/utf8"
)

// SetJSON sets the inputs given in a JSON object. A value is "4 %",
// {"value":4,"unit":"%","u":0.1}, a number if no unit is needed, or a word; a list is
// an array of these or {"value":[..],"unit":..}. Unknown and repeated names are
// refused.
func (s *Sheet) SetJSON(data []byte) error {
	members, err := parseObject(data)
	if err != nil {
		return err
	}
	for _, m := range members {
		c, ok := s.Input(m.name)
		text, err := valueText(m.raw, ok && c.Shape == List)
		if err != nil {
			return &InputError{m.name, string(m.raw), err}
		}
		if err := s.Set(m.name, text); err != nil {
			return err
		}
	}
	return nil
}

type rawMember struct {
	name string
	raw  json.RawMessage
}

func parseObject(data []byte) ([]rawMember, error) {
	text := bytes.TrimLeft(data, " \t\r\n")
	switch {
	case len(text) == 0:
		return nil, errNoObject
	case text[0] != '{':
		first, _ := utf8.DecodeRune(text)
		return nil, fmt.Errorf("JSON: begins with %q, %w", first, errNoObject)
	}
	d := json.NewDecoder(bytes.NewReader(data))
	if _, err := d.Token(); err != nil {
		return nil, betweenMembers(err)
	}
	var members []rawMember
	seen := map[string]bool{}
	for d.More() {
		t, err := d.Token()
		if err != nil {
			return nil, betweenMembers(err)
		}
		name := t.(string)
		if seen[name] {
			return nil, fmt.Errorf("%s is given twice, want it once", name)
		}
		seen[name] = true
		var raw json.RawMessage
		if err := d.Decode(&raw); err != nil {
			return nil, fmt.Errorf("JSON: %s: %w", name, unfinished(err))
		}
		members = append(members, rawMember{name, raw})
	}
	if _, err := d.Token(); err != nil {
		return nil, betweenMembers(err)
	}
	if _, err := d.Token(); err != io.EOF {
		return nil, errors.New("JSON: text after the object, want one object")
	}
	return members, nil
}

// unfinished returns the error for JSON that ends too early.
func unfinished(err error) error {
	if errors.Is(err, io.EOF) || errors.Is(err, io.ErrUnexpectedEOF) {
		return errors.New("the object has no end, want it whole, and in a stream of lines in one line")
	}
	return err
}

// betweenMembers returns an error with the place of invalid JSON between the members of
// an object.
func betweenMembers(err error) error {
	var syntax *json.SyntaxError
	if errors.As(err, &syntax) {
		return fmt.Errorf("JSON: after byte %d: %w", syntax.Offset, err)
	}
	return fmt.Errorf("JSON: %w", unfinished(err))
}

var errNoObject = errors.New(`want a JSON object such as {"mass-flow":"300 t/h"}`)

var (
	errJSONValue  = errors.New(`want "4 %", {"value":4,"unit":"%"}, a list of these or a word`)
	errJSONMember = errors.New(`want "4 %" or {"value":4,"unit":"%"}`)
	errJSONParts  = errors.New(`value is missing, want it beside its unit: {"value":4,"unit":"%"}`)
)

// valueText returns the text of a value, or of a list, given in JSON.
func valueText(raw json.RawMessage, isList bool) (string, error) {
	switch raw[0] {
	case '"':
		var text string
		err := json.Unmarshal(raw, &text)
		return text, err
	case '[':
		var list []json.RawMessage
		if err := json.Unmarshal(raw, &list); err != nil {
			return "", err
		}
		var texts []string
		plain := true
		for i, m := range list {
			text, err := memberText(m)
			if err != nil {
				return "", fmt.Errorf("member %d: %w", i+1, err)
			}
			plain = plain && m[0] != '"' && m[0] != '{'
			texts = append(texts, text)
		}
		switch {
		case plain || len(texts) == 0:
			return "[" + strings.Join(texts, " ") + "]", nil
		case len(texts) == 1:
			return listOfOne(texts[0])
		}
		return strings.Join(texts, "; "), nil
	case '{':
		return partsText(raw, isList)
	case 't', 'f', 'n':
		return "", errJSONValue
	}
	return string(raw), nil
}

// memberText is valueText for a member, which is not a list. Nested brackets are
// refused unread: at each level the inner ones would be read again.
func memberText(raw json.RawMessage) (text string, err error) {
	what := string(raw)
	if raw[0] != '[' {
		text, err = valueText(raw, false)
	}
	switch {
	case raw[0] == '[' || strings.HasPrefix(text, "["):
		what = "a list"
	case err == errJSONValue: // null, true, false
	default:
		return text, err
	}
	return "", fmt.Errorf("%s, %w", what, errJSONMember)
}

// listOfOne returns the text of a member as a list, with the number alone in brackets.
func listOfOne(text string) (string, error) {
	numbers, _, bracket, err := splitNumbers(text)
	if err == nil && !bracket && len(numbers) > 1 && numbers[1] != "1" { // the unit 1 is no number
		return "", fmt.Errorf("member 1: %w", notOne(numbers))
	}
	end := numberEnd(text)
	if end == 0 {
		return "[" + text + "]", nil // still a list, which a word is not
	}
	return strings.TrimSpace("[" + text[:end] + "] " + strings.TrimSpace(text[end:])), nil
}

// partsText turns {"value":4,"unit":"%","u":0.1} into "4 ± 0.1 %", or for a list into
// "[4] ± 0.1 %", as "4 1" would be two numbers.
func partsText(raw json.RawMessage, isList bool) (string, error) {
	members, err := parseObject(raw)
	if err != nil {
		return "", err
	}
	var value, unit, u string
	for _, m := range members {
		switch m.name {
		case "value":
			value, err = numbersText(m)
		case "u":
			u, err = numbersText(m)
		case "unit":
			unit, err = unitText(m.raw)
		default:
			err = fmt.Errorf("unknown name %q, want value, unit, u", m.name)
		}
		if err != nil {
			return "", err
		}
	}
	if value == "" {
		return "", errJSONParts
	}
	if isList && value[0] != '[' {
		value = "[" + value + "]"
	}
	if value[0] != '[' && strings.HasPrefix(u, "[") {
		return "", fmt.Errorf("u is %s, want one number beside one", u)
	}
	if u != "" && value[0] == '[' && u[0] != '[' && isNumber(unit) {
		u = "[" + u + "]" // in a list 0.1 1 would be two numbers
	}
	if u != "" {
		value += " ± " + u
	}
	return strings.TrimSpace(value + " " + unit), nil
}

// unitText refuses a unit that would be more than a unit beside a number: another
// number, member or uncertainty.
func unitText(raw json.RawMessage) (string, error) {
	var unit string
	err := json.Unmarshal(raw, &unit)
	word, _, _ := strings.Cut(unit, " ")
	if err != nil || raw[0] == 'n' || isNumber(word) && unit != "1" || strings.ContainsAny(unit, ";|[]±+") {
		return "", fmt.Errorf(`unit is %s, want a unit alone, as a text such as "%%"`, raw)
	}
	return unit, nil
}

// numbersText refuses null: in a list it would shift the other numbers, and a value of
// unknown uncertainty is not exact.
func numbersText(m rawMember) (string, error) {
	if m.raw[0] != '[' {
		if !isJSONNumber(m.raw) {
			return "", fmt.Errorf("%s is %s, want a number such as 4, or a list of numbers", m.name, m.raw)
		}
		return string(m.raw), nil
	}
	var list []json.RawMessage
	if err := json.Unmarshal(m.raw, &list); err != nil {
		return "", err
	}
	var texts []string
	for i, n := range list {
		if !isJSONNumber(n) {
			return "", fmt.Errorf("member %d of %s is %s, want a number such as 4", i+1, m.name, n)
		}
		texts = append(texts, string(n))
	}
	return "[" + strings.Join(texts, " ") + "]", nil
}

// isJSONNumber reports whether a JSON value is a number.
func isJSONNumber(raw json.RawMessage) bool { return raw[0] == '-' || '0' <= raw[0] && raw[0] <= '9' }
