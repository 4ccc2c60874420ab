package oracles

import (
	"bytes"
	"errors"
	"io"
	"strings"
	"testing"

	"golang.org/x/text/encoding"
	"golang.org/x/text/encoding/charmap"
	"golang.org/x/text/encoding/unicode"

	"millmaths.example/paperprop/table"
)

// Each byte of a code page, in a cell, comes out as golang.org/x/text has it. A
// byte that the page leaves open is refused or comes out as there, but is never
// another letter.
func TestCodePages(t *testing.T) {
	compared := 0
	defer func() {
		t.Logf("%d cells compared", compared)
		if compared < 2*220+2*12_000 {
			t.Errorf("%d cells compared, want nearly all", compared)
		}
	}()
	for name, page := range map[string]*charmap.Charmap{"windows-1252": charmap.Windows1252, "iso-8859-1": charmap.ISO8859_1} {
		for b := range 256 {
			if strings.ContainsRune("\r\n\";", rune(b)) {
				continue // part the cells
			}
			compared += compareCell(t, name, page, append(append([]byte("head;other\nx"), byte(b)), "y;1\n"...))
		}
	}
	for name, order := range map[string]unicode.Endianness{"utf-16le": unicode.LittleEndian, "utf-16be": unicode.BigEndian} {
		page := unicode.UTF16(order, unicode.IgnoreBOM)
		for r := rune(0x20); r < 0x3000; r++ {
			if r == '"' || r == ';' || r == 0x2028 || r == 0x2029 {
				continue
			}
			raw, err := page.NewEncoder().Bytes([]byte("head;other\nx" + string(r) + "y;1\n"))
			if err != nil {
				t.Fatal(err)
			}
			compared += compareCell(t, name, page, raw)
		}
	}
}

// compareCell compares one cell, and says how many it could: a file may be refused.
func compareCell(t *testing.T, name string, page encoding.Encoding, raw []byte) int {
	t.Helper()
	decoded, err := page.NewDecoder().Bytes(raw)
	if err != nil {
		t.Fatal(err)
	}
	want := string(bytes.Split(bytes.Split(decoded, []byte("\n"))[1], []byte(";"))[0])
	r, err := table.Open(bytes.NewReader(raw), table.Options{Encoding: name, Delimiter: ';', Decimal: '.', Head: 1})
	if err != nil {
		t.Logf("%s %q is refused: %v", name, want, err)
		return 0
	}
	var b table.Block
	var rec table.Record
	for {
		err := r.Next(&b)
		for b.Record(&rec) {
			if rec.Line == 2 && (len(rec.Fields) != 2 || string(rec.Fields[0]) != want) {
				t.Errorf("%s: %q comes out as %q", name, want, rec.Fields)
			}
		}
		if errors.Is(err, io.EOF) {
			return 1
		}
		if err != nil {
			t.Logf("%s %q is refused: %v", name, want, err)
			return 0
		}
	}
}
