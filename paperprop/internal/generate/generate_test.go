package generate_test

import (
	"bytes"
	"os"
	"path/filepath"
	"strings"
	"testing"

	"millmaths.example/paperprop/internal/generate"
)

func TestUpToDate(t *testing.T) {
	source, err := os.ReadFile("../../units.csv")
	if err != nil {
		t.Fatal(err)
	}
	files, err := generate.Files(source)
	if err != nil {
		t.Fatal(err)
	}
	for name, want := range files {
		got, err := os.ReadFile(filepath.Join("../..", name))
		if err != nil {
			t.Fatal(err)
		}
		if !bytes.Equal(got, want) {
			t.Errorf("%s is not what units.csv gives: run go generate", name)
		}
	}
}

func TestRefused(t *testing.T) {
	const head = "type,like,unit,aliases,go,factor,offset,canonical,si,min,max,print,apart,about,kind,source,note\n"
	const mass = "Mass,,kg,,,1,,yes,1 kg,,,,,a mass,published,SI Brochure,\n"
	for name, rows := range map[string]string{
		"is no number":           mass + "Mass,,g,,,a thousandth,,no,,,,,,,,,\n",
		"must come first":        mass + "Mass,,g,,,0.001,,yes,1 kg,,,,,a mass,,,\n",
		"differs from":           mass + "Dry,Mass,kg,,,1,,yes,1 kg,,,,,a mass,,,\nDry,,kg,,,2,,no,,,,,,,,,\n",
		"no unit stone to print": "Mass,,kg,,,1,,yes,1 kg,,,stone,,a mass,,,\n",
		"does not fit":           mass + "Mass,,g,,,0.12345678901234567890123,,no,,,,,,,,,\n",
	} {
		if _, err := generate.Files([]byte(head + rows)); err == nil || !strings.Contains(err.Error(), name) {
			t.Errorf("error %v, want one that says %q, for\n%s", err, name, rows)
		}
	}
}
