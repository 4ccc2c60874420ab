package sheet

import (
	"crypto/sha256"
	"fmt"
	"strings"
	"testing"
)

// The tables are letter for letter those that were written out of colour-science
// 0.4.6 (kind library), as a line each of wavelength, illuminant and observer: a
// slip in any number changes the hash.
func TestTablesOfCIE(t *testing.T) {
	for _, test := range []struct {
		name    string
		weights [81]spectralWeight
		want    string
	}{
		{"illuminant C, 2 degrees", cieCObserver1931, "025b062b974ec45d6b8d29929424f630168d5c2ba29aece6179cd3a2f9bac6c5"},
		{"illuminant D65, 10 degrees", cieD65Observer1964, "80f78a7d2676b596e72d32fe3550ca26a474c80529d44bf0087791998f2b38c2"},
	} {
		var b strings.Builder
		b.WriteString("wavelength_nm,illuminant,xbar,ybar,zbar\r\n")
		for i, w := range test.weights {
			fmt.Fprintf(&b, "%d,%v,%v,%v,%v\r\n", 380+5*i, w.illuminant, w.x, w.y, w.z)
		}
		if got := fmt.Sprintf("%x", sha256.Sum256([]byte(b.String()))); got != test.want {
			t.Errorf("%s has the hash %s, want that of the data of the library, %s", test.name, got, test.want)
		}
	}
}
