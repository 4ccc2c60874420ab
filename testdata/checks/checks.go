// Package checks embeds the check tables, so that a program can run them without a
// copy of the source.
package checks

import "embed"

// Files are the tables, NAME.csv, and the files that their rows name.
//
//go:embed *.csv strd
var Files embed.FS
