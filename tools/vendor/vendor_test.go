package main

import (
	"archive/tar"
	"bytes"
	"compress/gzip"
	"os"
	"path/filepath"
	"strings"
	"testing"
)

// packed makes a package as npm packs it.
func packed(t *testing.T, files map[string]string) []byte {
	t.Helper()
	var out bytes.Buffer
	z := gzip.NewWriter(&out)
	w := tar.NewWriter(z)
	for name, text := range files {
		if err := w.WriteHeader(&tar.Header{Name: name, Typeflag: tar.TypeReg, Mode: 0o644, Size: int64(len(text))}); err != nil {
			t.Fatal(err)
		}
		if _, err := w.Write([]byte(text)); err != nil {
			t.Fatal(err)
		}
	}
	if err := w.Close(); err != nil {
		t.Fatal(err)
	}
	if err := z.Close(); err != nil {
		t.Fatal(err)
	}
	return out.Bytes()
}

func TestTakesWhatTheManifestNames(t *testing.T) {
	data, dir := packed(t, map[string]string{"package/dist/a.js": "abc", "package/b.js": "no"}), t.TempDir()
	p := &pack{Name: "x", Version: "1.0.0", Files: []*file{{From: "dist/a.js", To: "a.js"}}}
	if err := p.take(data, dir); err != nil {
		t.Fatal(err)
	}
	text, err := os.ReadFile(filepath.Join(dir, "a.js"))
	if err != nil || string(text) != "abc" {
		t.Errorf("%q, %v", text, err)
	}
	// SHA-256 of "abc": FIPS 180-2, appendix B.1.
	if want := "ba7816bf8f01cfea414140de5dae2223b00361a396177a9cb410ff61f20015ad"; p.Files[0].Sum256 != want {
		t.Errorf("the sum is %s, want %s", p.Files[0].Sum256, want)
	}
	if !strings.HasPrefix(p.Integrity, "sha512-") {
		t.Errorf("the integrity is %q", p.Integrity)
	}
}

func TestRefusesAnotherPackage(t *testing.T) {
	p := &pack{Name: "x", Version: "1.0.0", Integrity: "sha512-AAAA", Files: []*file{{From: "a.js", To: "a.js"}}}
	if err := p.take(packed(t, map[string]string{"package/a.js": "abc"}), t.TempDir()); err == nil || !strings.Contains(err.Error(), "integrity") {
		t.Errorf("a package with another integrity: %v", err)
	}
	p.Integrity = ""
	if err := p.take(packed(t, map[string]string{"package/b.js": "abc"}), t.TempDir()); err == nil || !strings.Contains(err.Error(), "a.js") {
		t.Errorf("a package without the file: %v", err)
	}
}
