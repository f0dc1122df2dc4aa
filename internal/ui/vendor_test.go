package ui

import (
	"crypto/sha256"
	"encoding/hex"
	"encoding/json"
	"os"
	"path/filepath"
	"slices"
	"strings"
	"testing"
)

// What was fetched from a registry is what the manifests say, to the byte, and nothing lies there that they do not name;
// NOTICE tells what of it is built in.
func TestVendoredFilesAreTheManifests(t *testing.T) {
	notice, err := os.ReadFile("../../NOTICE")
	if err != nil {
		t.Fatal(err)
	}
	for dir, builtIn := range map[string]bool{"assets/vendor": true, "browsertest/testdata": false} {
		var m struct {
			Packages []struct {
				Name, Version, Licence, Integrity string
				Files                             []struct{ From, To, SHA256 string }
			}
		}
		data, err := os.ReadFile(filepath.Join(dir, "MANIFEST.json"))
		if err != nil {
			t.Fatal(err)
		}
		if err := json.Unmarshal(data, &m); err != nil {
			t.Fatal(err)
		}
		named := []string{"MANIFEST.json"}
		for _, p := range m.Packages {
			if p.Version == "" || p.Licence == "" || !strings.HasPrefix(p.Integrity, "sha512-") {
				t.Errorf("%s: %+v is not told in full", dir, p)
			}
			if line := p.Name + " " + p.Version + ", " + p.Licence; builtIn && !strings.Contains(string(notice), line) {
				t.Errorf("NOTICE does not name %q", line)
			}
			for _, f := range p.Files {
				named = append(named, f.To)
				text, err := os.ReadFile(filepath.Join(dir, f.To))
				if err != nil {
					t.Error(err)
				}
				sum := sha256.Sum256(text)
				if got := hex.EncodeToString(sum[:]); got != f.SHA256 {
					t.Errorf("%s/%s has the sum %s, the manifest says %s", dir, f.To, got, f.SHA256)
				}
			}
		}
		lying, err := os.ReadDir(dir)
		if err != nil {
			t.Fatal(err)
		}
		for _, f := range lying {
			if !slices.Contains(named, f.Name()) {
				t.Errorf("%s/%s is in no manifest", dir, f.Name())
			}
		}
	}
}
