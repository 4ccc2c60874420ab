package calc

// A FileTable describes a table of a TOML input file, for those who write such a file.
type FileTable struct {
	Head  string // as in the file, "[[deckle]]"; "" for keys above all tables
	About string
	Keys  []FileKey
}

// A FileKey describes a key of a [FileTable].
type FileKey struct {
	Name     string
	Field    *Field // kind and range of a value with a unit; else nil
	Holds    string // what the key takes, if not such a value
	About    string
	Required bool
}
