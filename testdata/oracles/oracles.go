// Package oracles compares the library with programs that others wrote for the
// same job. It is a module of its own, so that nobody who imports the library
// meets what they need, and it has no code of its own.
//
//	apt-get install --no-install-recommends python3-iapws python3-mpmath units glpk-utils
//	cd testdata/oracles && go test ./...
//
// brings and runs them: water and steam against python3-iapws, quantiles against
// mpmath and gonum, slitting against the mixed-integer solver of
// GLPK, unit factors against GNU units, code pages against golang.org/x/text, and
// tables against encoding/csv. More tables, as before a release:
//
//	go test ./... -run TestTables -tables 1000000
package oracles
