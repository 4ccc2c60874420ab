package main

import (
	"bufio"
	"io"
	"os"
	"path/filepath"
	"strings"

	"millmaths.example/paperprop/calc"
	"millmaths.example/paperprop/table"
)

// writeFile writes a file beside its place and renames it once it is whole:
// nobody finds half a file, and a failure leaves the old one.
func writeFile(name string, write func(io.Writer) error) (err error) {
	f, err := os.CreateTemp(filepath.Dir(name), ".millmaths-*")
	if err != nil {
		return err
	}
	defer func() {
		if err != nil {
			f.Close()
			os.Remove(f.Name())
		}
	}()
	b := bufio.NewWriter(f)
	if err = write(b); err != nil {
		return err
	}
	if err = b.Flush(); err != nil {
		return err
	}
	if err = f.Chmod(0o644); err != nil {
		return err
	}
	if err = f.Close(); err != nil {
		return err
	}
	return os.Rename(f.Name(), name)
}

// listText reads the list that @ names: the numbers of a file, or with FILE:HEAD
// those of one column of a table, with its unit.
func listText(name string) (string, error) {
	i := strings.LastIndexByte(name, ':')
	if i < 1 {
		return calc.ListFile(name)
	}
	file, head := name[:i], name[i+1:]
	f, err := os.Open(file)
	if err != nil {
		return "", err
	}
	defer f.Close()
	numbers, unit, err := table.ReadColumn(f, table.Options{Name: file}, head)
	if err != nil {
		return "", err
	}
	return "[" + strings.Join(numbers, " ") + "] " + unit, nil
}
