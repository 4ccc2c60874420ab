// Command write reads units.csv in the current folder and writes the generated
// files of package paperprop beside it.
package main

import (
	"fmt"
	"os"

	"millmaths.example/paperprop/internal/generate"
)

func main() {
	if err := run(); err != nil {
		fmt.Fprintln(os.Stderr, "generate:", err)
		os.Exit(1)
	}
}

func run() error {
	source, err := os.ReadFile("units.csv")
	if err != nil {
		return err
	}
	files, err := generate.Files(source)
	if err != nil {
		return err
	}
	for name, code := range files {
		if err := os.WriteFile(name, code, 0o644); err != nil {
			return err
		}
	}
	return nil
}
