package calc

// A FileTable is a table of a TOML file that tells a job, for whoever writes one.
type FileTable struct {
	Head  string // as it stands in the file, "[[deckle]]"; "": above all tables
	About string
	Keys  []FileKey
}

// A FileKey is what such a table may say.
type FileKey struct {
	Name     string
	Field    *Field // of a value with a unit: its kind and range; else nil
	Holds    string // what stands behind the key where that is no such value
	About    string
	Required bool
}
