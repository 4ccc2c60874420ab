//go:build !wasm

package main

import "testing"

func TestAccepted(t *testing.T) {
	for _, test := range []struct{ header, want string }{
		{"", ""},
		{"gzip, deflate", "gzip"},
		{"gzip, deflate, br, zstd", "br"},
		{"br;q=0, gzip;q=0.5", "gzip"},
		{"identity", ""},
		{"brotli", ""},
	} {
		if c, ok := accepted(test.header); c.name != test.want || ok != (test.want != "") {
			t.Errorf("accepted(%q) = %q, want %q", test.header, c.name, test.want)
		}
	}
}
