package table

import (
	"bytes"
	"errors"
	"fmt"
	"strings"
	"unicode/utf8"

	"golang.org/x/text/encoding/charmap"
	"golang.org/x/text/encoding/unicode"
	"golang.org/x/text/transform"
)

// The supported encodings, as Options and Layout name them.
const (
	utf8Name    = "utf-8"
	utf16leName = "utf-16le"
	utf16beName = "utf-16be"
	windowsName = "windows-1252"
	latin1Name  = "iso-8859-1"
)

type encodingFound struct {
	name    string
	mark    int                   // length of the byte order mark
	assumed bool                  // guessed because the bytes are not UTF-8
	decoder transform.Transformer // nil: the text is UTF-8 already
}

// findEncoding returns the encoding of the option, else that of a byte order mark, else
// a guess from the bytes: with NUL in every other byte it is UTF-16, and if not valid
// UTF-8 it is windows-1252, which includes ISO 8859-1 text.
func findEncoding(raw []byte, whole bool, option string) (encodingFound, error) {
	name, mark := markOf(raw)
	if bytes.HasPrefix(raw, []byte("\xff\xfe\x00\x00")) || bytes.HasPrefix(raw, []byte("\x00\x00\xfe\xff")) {
		return encodingFound{}, errors.New("the text is UTF-32, want UTF-8, UTF-16, windows-1252 or ISO 8859-1")
	}
	found := encodingFound{name: name, mark: mark}
	switch {
	case option != "":
		found.name = strings.ToLower(option)
		if found.name != name {
			found.mark = 0
		}
	case name != "":
	case utf16Shaped(raw) != "":
		found.name = utf16Shaped(raw)
	case validStart(raw, whole):
		found.name = utf8Name
	default:
		found.name, found.assumed = windowsName, true
	}
	switch found.name {
	case utf8Name:
	case utf16leName:
		found.decoder = unicode.UTF16(unicode.LittleEndian, unicode.IgnoreBOM).NewDecoder()
	case utf16beName:
		found.decoder = unicode.UTF16(unicode.BigEndian, unicode.IgnoreBOM).NewDecoder()
	case windowsName:
		found.decoder = charmap.Windows1252.NewDecoder()
	case latin1Name:
		found.decoder = charmap.ISO8859_1.NewDecoder()
	default:
		return encodingFound{}, fmt.Errorf("encoding is %q, want %s, %s, %s, %s or %s",
			option, utf8Name, utf16leName, utf16beName, windowsName, latin1Name)
	}
	return found, nil
}

func markOf(raw []byte) (name string, length int) {
	switch {
	case bytes.HasPrefix(raw, []byte("\xef\xbb\xbf")):
		return utf8Name, 3
	case bytes.HasPrefix(raw, []byte("\xff\xfe")):
		return utf16leName, 2
	case bytes.HasPrefix(raw, []byte("\xfe\xff")):
		return utf16beName, 2
	}
	return "", 0
}

// utf16Shaped returns the UTF-16 encoding of text without a mark: at least three in ten
// characters have a zero high byte, and hardly any a zero low byte.
func utf16Shaped(raw []byte) string {
	var zeros [2]int
	for i, c := range raw {
		if c == 0 {
			zeros[i&1]++
		}
	}
	even, odd, enough := zeros[0], zeros[1], max(1, (3*len(raw)+19)/20)
	switch {
	case odd >= enough && even*10 <= odd:
		return utf16leName
	case even >= enough && odd*10 <= even:
		return utf16beName
	}
	return ""
}

// validStart reports whether raw is UTF-8, apart from a character cut off at the end if
// the file goes on.
func validStart(raw []byte, whole bool) bool {
	if !whole {
		for i := 1; i < utf8.UTFMax && i <= len(raw); i++ {
			if c := raw[len(raw)-i]; utf8.RuneStart(c) {
				if !utf8.FullRune(raw[len(raw)-i:]) {
					raw = raw[:len(raw)-i]
				}
				break
			}
		}
	}
	return utf8.Valid(raw)
}

// encodingTitle returns the usual name of an encoding.
func encodingTitle(name string) string {
	switch name {
	case utf8Name:
		return "UTF-8"
	case utf16leName:
		return "UTF-16 little endian"
	case utf16beName:
		return "UTF-16 big endian"
	case latin1Name:
		return "ISO 8859-1"
	}
	return "windows-1252"
}
