package calc

import (
	"bytes"
	"fmt"
	"io"
	"os"
	"path/filepath"
	"strings"
)

// expanded returns the text of an input, with a file name replaced by the numbers of
// the file.
func (c *Check) expanded(text string) (string, error) {
	name, ok := strings.CutPrefix(text, "@")
	if !ok {
		return text, nil
	}
	open := c.Open
	if open == nil {
		open = func(name string) (io.ReadCloser, error) { return os.OpenInRoot(filepath.Dir(c.File), name) }
	}
	f, err := open(name)
	if err != nil {
		return "", err
	}
	defer f.Close()
	return ReadList(name, f)
}

// maxListFile limits the bytes of a file of numbers.
const maxListFile = 4 << 20

// ListFile is [ReadList] for the file at path.
func ListFile(path string) (string, error) {
	f, err := os.Open(path)
	if err != nil {
		return "", err
	}
	defer f.Close()
	return ReadList(path, f)
}

// ReadList reads a list from a file: the numbers after the last line that begins with
// ---, or all of it, with a unit after the last number. It reads at most 4 MiB. Its
// errors begin with name.
func ReadList(name string, r io.Reader) (string, error) {
	data, err := io.ReadAll(io.LimitReader(r, maxListFile+1))
	if err != nil {
		return "", err
	}
	if len(data) > maxListFile {
		return "", fmt.Errorf("%s: longer than %d bytes", name, maxListFile)
	}
	if i := bytes.LastIndex(data, []byte("\n---")); i >= 0 {
		_, data, _ = bytes.Cut(data[i+1:], []byte("\n"))
	} else if bytes.HasPrefix(data, []byte("---")) {
		_, data, _ = bytes.Cut(data, []byte("\n"))
	}
	var list strings.Builder
	list.Grow(len(data) + 2)
	before := "["
	unit := false
	for word := range bytes.FieldsSeq(data) {
		if !unit && !isNumber(string(word)) {
			if before == "[" {
				break
			}
			before, unit = "] ", true
		}
		list.WriteString(before)
		list.Write(word)
		before = " "
	}
	switch {
	case before == "[":
		return "", fmt.Errorf("%s: no numbers, want one a line after a line of ---", name)
	case !unit:
		list.WriteString("] ")
	}
	return list.String(), nil
}
