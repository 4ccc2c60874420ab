package main

import (
	"bufio"
	"errors"
	"fmt"
	"io"
	"io/fs"
	"math/rand/v2"
	"os"
	"path/filepath"
	"strings"

	"millmaths.example/paperprop/calc"
	"millmaths.example/paperprop/table"
)

// writeFile writes a file next to its place, and renames it once it is whole and on
// the disk: nobody finds half a file, and a failure leaves the old one. The new
// file has the permissions of the old one. A link stays a link; a device or a pipe
// is written to directly.
func (t *terminal) writeFile(name string, write func(io.Writer) error) error {
	mode := fs.FileMode(0o666) // less the umask of the user
	if info, err := t.disk.stat(name); err == nil {
		mode = info.Mode()
		switch {
		case !mode.IsRegular():
			return t.writeDevice(name, write)
		case mode&0o200 == 0:
			return &fs.PathError{Op: "write", Path: name, Err: fs.ErrPermission}
		}
		if name, err = filepath.EvalSymlinks(name); err != nil {
			return err
		}
	}
	beside := filepath.Join(filepath.Dir(name), fmt.Sprintf(".millmaths-%016x", rand.Uint64()))
	f, err := t.disk.create(beside, mode.Perm())
	if err != nil {
		return inPlaceOf(beside, name, err)
	}
	b := bufio.NewWriterSize(f, 64<<10)
	err = inTurn(func() error { return write(b) }, b.Flush, f.Sync)
	if err = closed(f, err); err == nil {
		err = t.disk.rename(beside, name)
	}
	if err != nil {
		t.disk.remove(beside)
	}
	return inPlaceOf(beside, name, err)
}

func (t *terminal) writeDevice(name string, write func(io.Writer) error) error {
	f, err := t.disk.openDevice(name)
	if err != nil {
		return err
	}
	b := bufio.NewWriterSize(f, 64<<10)
	return closed(f, inTurn(func() error { return write(b) }, b.Flush))
}

// closed closes a file, and returns err or else the error of closing.
func closed(f io.Closer, err error) error {
	closeErr := f.Close()
	if err != nil {
		return err
	}
	return closeErr
}

// inTurn runs the steps one after another until one fails.
func inTurn(steps ...func() error) error {
	for _, step := range steps {
		if err := step(); err != nil {
			return err
		}
	}
	return nil
}

// inPlaceOf puts the name of the intended file into an error that names the one
// beside it.
func inPlaceOf(beside, name string, err error) error {
	var path *fs.PathError
	if errors.As(err, &path) && path.Path == beside {
		return &fs.PathError{Op: path.Op, Path: name, Err: path.Err}
	}
	return err
}

// open opens a file that a person named.
func (t *terminal) open(name string) (io.ReadCloser, error) {
	f, err := t.disk.open(name)
	var path *fs.PathError
	if errors.As(err, &path) {
		err = &fs.PathError{Op: path.Op, Path: shown(path.Path), Err: path.Err}
	}
	return f, err
}

// openInput opens a file, or standard input for "-", which can be read once.
func (t *terminal) openInput(name string) (io.ReadCloser, error) {
	switch {
	case name == "":
		return nil, usageError{errors.New("the name of a file is empty, want FILE, or - for standard input")}
	case name != "-":
		return t.open(name)
	case t.in == nil:
		return nil, usageError{errors.New("standard input can be read only once, want a file instead of one -")}
	}
	in := t.in
	t.in = nil
	return io.NopCloser(in), nil
}

// sameFile reports whether two names are the same file.
func (t *terminal) sameFile(a, b string) bool {
	x, err := t.disk.stat(a)
	if err != nil {
		return false
	}
	y, err := t.disk.stat(b)
	return err == nil && os.SameFile(x, y)
}

// textOf returns the text of an input. If it is @FILE, that is the list in the file,
// whose name is returned too.
func (t *terminal) textOf(p calc.Pair, flags *tableFlags) (text, file string, err error) {
	file, ok := strings.CutPrefix(p.Text, "@")
	if !ok {
		return p.Text, "", nil
	}
	if text, err = t.listIn(file, flags); err != nil {
		return "", file, fmt.Errorf("%s: %w", p.Name, err)
	}
	return text, file, nil
}

// whereListIs says that millmaths batch makes a list of what textOf refuses: it has the flag
// that an error asks for, and leaves out rows without a reading.
func whereListIs(err error) error {
	var either *table.AmbiguousError
	var mixed *table.MixedError
	var cell *table.CellError
	switch {
	case errors.As(err, &either), errors.As(err, &mixed):
		return fmt.Errorf("%w; --decimal is a flag of millmaths batch, where --lot \"*\" makes one list of all rows", err)
	case errors.As(err, &cell) && cell.Head != "" && table.Missing([]byte(cell.Text)):
		return fmt.Errorf("%w; millmaths batch with --lot \"*\" makes one list of the rows that have one", err)
	}
	return err
}

// listIn reads the list that @ names: the numbers in a file or, with FILE:HEAD,
// those of one column of a table, with its unit.
func (t *terminal) listIn(name string, flags *tableFlags) (string, error) {
	i := strings.LastIndexByte(name, ':')
	file := name
	if i > 0 {
		file = name[:i]
	}
	f, err := t.openInput(file)
	if err != nil {
		return "", err
	}
	defer f.Close()
	if i < 1 {
		return calc.ReadList(source(file), f)
	}
	options, err := flags.options(file)
	if err != nil {
		return "", err
	}
	options.Tell = func(note string) { t.say("%s: %s", source(file), note) }
	numbers, unit, err := table.ReadColumn(f, options, name[i+1:])
	if err != nil {
		return "", err
	}
	return "[" + strings.Join(numbers, " ") + "] " + unit, nil
}
