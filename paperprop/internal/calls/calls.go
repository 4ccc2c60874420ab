// Package calls calls every exported function and method of the library with
// whatever its arguments can hold: zero of both signs, NaN, infinities, the
// largest and the smallest numbers, nil, empty values, meaningless texts. None may
// panic or return a number that is not finite. It is a test, and has no code of its
// own.
//
// The suite makes a sample of the calls; before a release make a million:
//
//	go test ./paperprop/internal/calls -calls 1000000
//
// To add a new function or type to the list, run
//
//	go test ./paperprop/internal/calls -run TestListIsWhole -update
package calls
