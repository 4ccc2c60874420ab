// Command clibrary makes the calculations a library for C, and so for every
// language that can call C: one function, JSON in and JSON out.
//
//	go build -buildmode=c-shared -o libmillmaths.so ./examples/clibrary
//
//	char *millmaths_calculate(char *request);
//	void millmaths_free(char *answer);
package main

// #include <stdlib.h>
import "C"

import "unsafe"

// millmaths_calculate answers a request, a text in UTF-8 that ends with a zero
// byte: {"calculation":"dilution","inputs":{"mass-flow":"300 t/h",...}}. The
// answer is such a text too, and never NULL; one with "error" in place of
// "outputs" says what was refused.
//
// The request stays the caller's and is not looked at again after the return.
// The answer is the caller's from then on, who gives it to millmaths_free, once.
// Any number of threads may call at the same time.
//
//export millmaths_calculate
func millmaths_calculate(request *C.char) *C.char {
	if request == nil {
		return C.CString(string(answer(nil)))
	}
	return C.CString(string(answer([]byte(C.GoString(request)))))
}

// millmaths_free gives back the memory of an answer. NULL is taken and left.
//
//export millmaths_free
func millmaths_free(answer *C.char) { C.free(unsafe.Pointer(answer)) }
