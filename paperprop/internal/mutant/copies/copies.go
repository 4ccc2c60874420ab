// Package copies writes changed copies of our source, which the go command's flag
// -overlay builds in its place. A copy may use package mutant.
package copies

import (
	"encoding/json"
	"fmt"
	"go/ast"
	"go/token"
	"go/types"
	"maps"
	"os"
	"path/filepath"
	"slices"
	"strings"

	"millmaths.example/paperprop/internal/source"
)

// A File is one file of a package with the edits of its copy.
type File struct {
	*ast.File
	Path    string
	Text    []byte
	Package *source.Package

	fset     *token.FileSet
	edits    []edit
	imported map[string]string // names in the copy, by path
}

// An edit replaces a part of a file. Edits do not overlap; those at the same place are
// in the order in which they were made.
type edit struct {
	from, to int
	text     string
}

// Open reads a file of a package that was loaded with fset.
func Open(fset *token.FileSet, p *source.Package, f *ast.File) (*File, error) {
	path := fset.Position(f.Pos()).Filename
	text, err := os.ReadFile(path)
	return &File{File: f, Path: path, Text: text, Package: p, fset: fset, imported: map[string]string{}}, err
}

// Short returns the path within the module: "stock/density.go".
func (f *File) Short() string { return f.Package.Short() + "/" + filepath.Base(f.Path) }

// Offset returns the offset of a position in Text.
func (f *File) Offset(pos token.Pos) int { return f.fset.Position(pos).Offset }

// Source returns the source text of a node.
func (f *File) Source(n ast.Node) string { return string(f.Text[f.Offset(n.Pos()):f.Offset(n.End())]) }

// Insert adds text to the copy.
func (f *File) Insert(at token.Pos, text string) { f.Replace(at, at, text) }

// Replace puts text in the copy in place of the source between two positions.
func (f *File) Replace(from, to token.Pos, text string) {
	f.edits = append(f.edits, edit{f.Offset(from), f.Offset(to), text})
}

// TypeName returns the name of a type in the copy, which imports what the name needs.
// It is "" if a name is private elsewhere or means something else at this position.
func (f *File) TypeName(t types.Type, at token.Pos) string {
	if n, ok := t.(interface{ Obj() *types.TypeName }); ok {
		own := n.Obj().Pkg() == f.Package.Package
		if !own && n.Obj().Pkg() != nil && !n.Obj().Exported() || own && !f.means(n.Obj(), at) {
			return ""
		}
	}
	if b, ok := t.(*types.Basic); ok && !f.means(types.Universe.Lookup(b.Name()), at) {
		return ""
	}
	return types.TypeString(t, func(other *types.Package) string {
		if other == f.Package.Package {
			return ""
		}
		if f.imported[other.Path()] == "" {
			f.imported[other.Path()] = fmt.Sprintf("mutant%d", len(f.imported))
		}
		return f.imported[other.Path()]
	})
}

// means reports whether the name of an object denotes it at a position.
func (f *File) means(object types.Object, at token.Pos) bool {
	_, found := f.Package.Scope().Innermost(at).LookupParent(object.Name(), at)
	return found == object
}

// changed returns the copy. Its lines are those of the file, so that a panic shows
// them.
func (f *File) changed() string {
	slices.SortStableFunc(f.edits, func(a, b edit) int { return a.from - b.from })
	var b strings.Builder
	at := f.Offset(f.Name.End())
	b.Write(f.Text[:at])
	fmt.Fprintf(&b, "; import %q", source.Module+"/internal/mutant")
	for _, path := range slices.Sorted(maps.Keys(f.imported)) {
		fmt.Fprintf(&b, "; import %s %q", f.imported[path], path)
	}
	for _, e := range f.edits {
		b.Write(f.Text[at:e.from])
		b.WriteString(e.text)
		at = e.to
	}
	b.Write(f.Text[at:])
	return b.String()
}

// An Overlay is a folder of copies.
type Overlay struct {
	Folder  string
	replace map[string]string // copies, by the path they replace
}

// New makes an overlay whose copies may import package mutant, which is added where all
// packages of the module can see it, but only in the copies.
func New(folder string, p *source.Package) (*Overlay, error) {
	o := &Overlay{folder, map[string]string{}}
	files, err := filepath.Glob(filepath.Join(Root(p), "paperprop/internal/mutant/*.go"))
	for _, f := range files {
		if !strings.HasSuffix(f, "_test.go") {
			o.Put(filepath.Join(Root(p), "internal/mutant", filepath.Base(f)), f)
		}
	}
	return o, err
}

// Root returns the folder of the module that a package belongs to.
func Root(p *source.Package) string { return strings.TrimSuffix(p.Dir, "/"+p.Short()) }

// Path returns the path of the file for the flag -overlay.
func (o *Overlay) Path() string { return filepath.Join(o.Folder, "overlay.json") }

// Len returns the number of files that the overlay replaces or adds.
func (o *Overlay) Len() int { return len(o.replace) }

// Put replaces one file by another.
func (o *Overlay) Put(path, by string) { o.replace[path] = by }

// PutTests adds test files to the catalogue. As ordinary files, tests that import what
// only the overlay has would make go mod tidy fail, here and in every module that
// imports the catalogue.
func (o *Overlay) PutTests(root string, names ...string) {
	for _, name := range names {
		o.Put(filepath.Join(root, "paperprop/catalogue", name), filepath.Join(root, "paperprop/internal/mutant/testdata", name))
	}
}

// Add writes the copy of a file, if it has edits.
func (o *Overlay) Add(f *File) error {
	if len(f.edits) == 0 {
		return nil
	}
	return o.AddText(f.Path, strings.ReplaceAll(f.Short(), "/", "_"), f.changed())
}

// AddText writes a copy under a name in the overlay's folder.
func (o *Overlay) AddText(path, name, text string) error {
	by := filepath.Join(o.Folder, name)
	o.Put(path, by)
	return os.WriteFile(by, []byte(text), 0o644)
}

// Write writes the file for the flag -overlay.
func (o *Overlay) Write() error { return WriteJSON(o.Path(), map[string]any{"Replace": o.replace}) }

// WriteJSON writes a value to a file as JSON.
func WriteJSON(path string, v any) error {
	text, err := json.MarshalIndent(v, "", "\t")
	if err != nil {
		return err
	}
	return os.WriteFile(path, text, 0o644)
}
