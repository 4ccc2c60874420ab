// Package oracles compares the library with programs by others for the same job. It
// is a module of its own, so that nobody who imports the library gets what those need,
// and it has no code of its own.
//
//	apt-get install --no-install-recommends python3-iapws python3-mpmath units glpk-utils
//	cd testdata/oracles && go test ./...
//
// installs and runs them: water and steam against python3-iapws, quantiles against
// mpmath and gonum, slitting against GLPK's mixed-integer solver, unit factors
// against GNU units, code pages against golang.org/x/text, and tables against
// encoding/csv. For more tables, as before a release:
//
//	go test ./... -run TestTables -tables 1000000
package oracles
