package main

import (
	"encoding/json"
	"os"
)

// manifest says which files of which packages lie beside it.
type manifest struct {
	Packages []*pack `json:"packages"`
}

// pack is a package of the registry at one version.
type pack struct {
	Name      string  `json:"name"`
	Version   string  `json:"version"`
	Licence   string  `json:"licence"`
	Integrity string  `json:"integrity"` // of the packed file, as the registry tells it
	Files     []*file `json:"files"`
}

// file is one that is taken out of a package.
type file struct {
	From   string `json:"from"` // inside the package
	To     string `json:"to"`   // beside the manifest
	Sum256 string `json:"sha256"`
}

func readManifest(path string) (*manifest, error) {
	data, err := os.ReadFile(path)
	if err != nil {
		return nil, err
	}
	m := new(manifest)
	return m, json.Unmarshal(data, m)
}

func (m *manifest) write(path string) error {
	data, err := json.MarshalIndent(m, "", "  ")
	if err != nil {
		return err
	}
	return os.WriteFile(path, append(data, '\n'), 0o644) // #nosec G306 -- part of the source
}
