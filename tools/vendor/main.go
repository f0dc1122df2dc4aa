// Vendor fetches the browser libraries that a manifest names, at their versions, and puts the files named there beside it:
//
//	go run ./tools/vendor internal/ui/assets/vendor/MANIFEST.json
//
// It needs npm, and nothing else does: what is fetched is committed. A package whose integrity differs from the
// manifest's is refused; to take a new version, change the version, empty its integrity and run this.
package main

import (
	"archive/tar"
	"bytes"
	"compress/gzip"
	"crypto/sha256"
	"crypto/sha512"
	"encoding/base64"
	"encoding/hex"
	"errors"
	"fmt"
	"io"
	"os"
	"os/exec"
	"path/filepath"
	"strings"
)

func main() {
	if len(os.Args) < 2 {
		fmt.Fprintln(os.Stderr, "name the manifests to refresh")
		os.Exit(2)
	}
	for _, path := range os.Args[1:] {
		if err := refresh(path); err != nil {
			fmt.Fprintf(os.Stderr, "%s: %v\n", path, err)
			os.Exit(1)
		}
	}
}

// refresh fetches all packages of a manifest and writes its sums anew.
func refresh(path string) error {
	m, err := readManifest(path)
	if err != nil {
		return err
	}
	for _, p := range m.Packages {
		data, err := fetch(p.Name + "@" + p.Version)
		if err != nil {
			return err
		}
		if err := p.take(data, filepath.Dir(path)); err != nil {
			return fmt.Errorf("%s %s: %w", p.Name, p.Version, err)
		}
	}
	return m.write(path)
}

// fetch lets npm pack a package, which runs nothing of it, and returns the packed file.
func fetch(what string) ([]byte, error) {
	dir, err := os.MkdirTemp("", "vendor")
	if err != nil {
		return nil, err
	}
	defer func() { _ = os.RemoveAll(dir) }()
	cmd := exec.Command("npm", "pack", "--silent", "--ignore-scripts", what) // #nosec G204 -- names from our manifest
	cmd.Dir, cmd.Stderr = dir, os.Stderr
	name, err := cmd.Output()
	if err != nil {
		return nil, fmt.Errorf("npm pack %s: %w", what, err)
	}
	return os.ReadFile(filepath.Join(dir, strings.TrimSpace(string(name))))
}

// take checks the packed file and writes what is wanted of it into a directory.
func (p *pack) take(data []byte, dir string) error {
	sum := sha512.Sum512(data)
	integrity := "sha512-" + base64.StdEncoding.EncodeToString(sum[:])
	if p.Integrity != "" && p.Integrity != integrity {
		return fmt.Errorf("the package has the integrity %s, the manifest says %s", integrity, p.Integrity)
	}
	p.Integrity = integrity
	inside, err := unpack(data)
	if err != nil {
		return err
	}
	for _, f := range p.Files {
		text, ok := inside["package/"+f.From]
		if !ok {
			return fmt.Errorf("there is no %s in it", f.From)
		}
		sum := sha256.Sum256(text)
		f.Sum256 = hex.EncodeToString(sum[:])
		if err := os.WriteFile(filepath.Join(dir, filepath.Base(f.To)), text, 0o644); err != nil { // #nosec G306 -- part of the source
			return err
		}
	}
	return nil
}

// unpack reads all files of a packed package.
func unpack(data []byte) (map[string][]byte, error) {
	z, err := gzip.NewReader(bytes.NewReader(data))
	if err != nil {
		return nil, err
	}
	files, r := map[string][]byte{}, tar.NewReader(z)
	for {
		h, err := r.Next()
		switch {
		case errors.Is(err, io.EOF):
			return files, nil
		case err != nil:
			return nil, err
		case h.Typeflag != tar.TypeReg:
			continue
		}
		if files[h.Name], err = io.ReadAll(r); err != nil {
			return nil, err
		}
	}
}
