package main

import (
	"bufio"
	"io"
	"os"
	"path/filepath"
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
