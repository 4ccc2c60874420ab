// Package calls calls every exported function and method of the library with
// whatever its arguments can hold: zero of both signs, NaN, infinities, the
// largest and the smallest numbers, nil, empty, texts that mean nothing. None may
// panic, and none may give a number that is not finite. It is a test, and has no
// code of its own.
//
// The suite makes a sample of the calls; a million, as before a release:
//
//	go test ./paperprop/internal/calls -calls 1000000
//
// A function or type that was added is written into the list by
//
//	go test ./paperprop/internal/calls -run TestListIsWhole -update
package calls
