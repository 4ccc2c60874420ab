//go:build !wasm

// Command browser puts the library in a web page: a student picks a calculation,
// types values with their units, and sees the worked solution change; a range is
// drawn. Everything is computed in the page.
//
//	browser -listen 127.0.0.1:8081     build the page and show it
//	browser -out DIR                   build the page for any server of files
package main

import (
	"bytes"
	"compress/gzip"
	"embed"
	"flag"
	"fmt"
	"io"
	"io/fs"
	"net/http"
	"os"
	"os/exec"
	"path/filepath"
	"strings"
	"time"

	"github.com/andybalholm/brotli"
)

//go:embed page
var page embed.FS

func main() {
	listen := flag.String("listen", "127.0.0.1:8081", "address; only this machine can reach 127.0.0.1")
	out := flag.String("out", "", "write the page to this folder, and show nothing")
	flag.Parse()
	if err := run(*listen, *out); err != nil {
		fmt.Fprintln(os.Stderr, "browser:", err)
		os.Exit(1)
	}
}

func run(listen, out string) error {
	folder := out
	if folder == "" {
		var err error
		if folder, err = os.MkdirTemp("", "browser-"); err != nil {
			return err
		}
		defer os.RemoveAll(folder)
	}
	if err := build(folder); err != nil {
		return err
	}
	if out != "" {
		return nil
	}
	server := &http.Server{Addr: listen, Handler: serve(folder), ReadHeaderTimeout: 5 * time.Second}
	fmt.Fprintf(os.Stderr, "http://%s/\n", listen)
	return server.ListenAndServe()
}

// build writes the page, the library and the script of Go that starts it, each
// with compressed copies beside it.
func build(folder string) error {
	if err := os.MkdirAll(folder, 0o755); err != nil {
		return err
	}
	files, err := fs.Sub(page, "page")
	if err != nil {
		return err
	}
	names, err := fs.Glob(files, "*")
	if err != nil {
		return err
	}
	for _, name := range names {
		data, err := fs.ReadFile(files, name)
		if err != nil {
			return err
		}
		if err := write(folder, name, data); err != nil {
			return err
		}
	}
	root, err := exec.Command("go", "env", "GOROOT").Output()
	if err != nil {
		return fmt.Errorf("go env GOROOT: %w", err)
	}
	script, err := os.ReadFile(filepath.Join(strings.TrimSpace(string(root)), "lib", "wasm", "wasm_exec.js"))
	if err != nil {
		return err
	}
	if err := write(folder, "wasm_exec.js", script); err != nil {
		return err
	}
	wasm := filepath.Join(folder, "millmaths.wasm")
	// Without inlining (-l) the program runs a little slower and loads a tenth
	// sooner: a page waits for its loading.
	command := exec.Command("go", "build", "-trimpath", "-ldflags=-s -w", "-gcflags=all=-l", "-o", wasm, "millmaths.example/examples/browser")
	command.Env = append(os.Environ(), "GOOS=js", "GOARCH=wasm")
	command.Stderr = os.Stderr
	if err := command.Run(); err != nil {
		return fmt.Errorf("go build for the browser: %w", err)
	}
	data, err := os.ReadFile(wasm)
	if err != nil {
		return err
	}
	return write(folder, "millmaths.wasm", data)
}

// A coding is a way to compress what is sent, and the end of its files' names.
type coding struct {
	name, suffix string
	writer       func(w io.Writer) (io.WriteCloser, error)
}

// codings are the best first. All browsers of these years take Brotli, over HTTPS
// or from their own machine.
var codings = []coding{
	{"br", ".br", func(w io.Writer) (io.WriteCloser, error) {
		return brotli.NewWriterOptions(w, brotli.WriterOptions{Quality: brotli.BestCompression, LGWin: 24}), nil
	}},
	{"gzip", ".gz", func(w io.Writer) (io.WriteCloser, error) { return gzip.NewWriterLevel(w, gzip.BestCompression) }},
}

func write(folder, name string, data []byte) error {
	file := filepath.Join(folder, name)
	for _, c := range codings {
		var b bytes.Buffer
		z, err := c.writer(&b)
		if err != nil {
			return err
		}
		if _, err := z.Write(data); err != nil {
			return err
		}
		if err := z.Close(); err != nil {
			return err
		}
		if err := os.WriteFile(file+c.suffix, b.Bytes(), 0o644); err != nil {
			return err
		}
	}
	return os.WriteFile(file, data, 0o644)
}

// serve sends the compressed copies to whoever takes them.
func serve(folder string) http.Handler {
	files := http.FileServer(http.Dir(folder))
	types := map[string]string{".html": "text/html; charset=utf-8", ".js": "text/javascript", ".css": "text/css", ".wasm": "application/wasm"}
	return http.HandlerFunc(func(w http.ResponseWriter, r *http.Request) {
		name := r.URL.Path
		if name == "/" {
			name = "/index.html"
		}
		if kind, ok := types[filepath.Ext(name)]; ok {
			if c, ok := accepted(r.Header.Get("Accept-Encoding")); ok {
				w.Header().Set("Content-Type", kind)
				w.Header().Set("Content-Encoding", c.name)
				r.URL.Path = name + c.suffix
			}
		}
		w.Header().Set("Vary", "Accept-Encoding")
		files.ServeHTTP(w, r)
	})
}

// accepted is the best coding among those that a browser names: "gzip, br;q=1".
func accepted(header string) (coding, bool) {
	for _, c := range codings {
		for item := range strings.SplitSeq(header, ",") {
			name, weight, _ := strings.Cut(item, ";")
			if strings.TrimSpace(name) == c.name && strings.TrimSpace(weight) != "q=0" {
				return c, true
			}
		}
	}
	return coding{}, false
}
