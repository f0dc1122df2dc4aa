package main

import (
	"runtime"
	"runtime/debug"
)

type versionCommand struct {
	JSON bool `name:"json" help:"As JSON."`
}

func (versionCommand) Help() string {
	return `
Example:

    foldwright version
`
}

// Run prints what the build recorded of itself, so that a report of a fault can say which program it was.
func (c versionCommand) Run(s streams) error {
	b := build()
	if c.JSON {
		return s.json(b)
	}
	s.say("foldwright %s (%s, %s)", b.Version, b.Revision, b.Go)
	return nil
}

// about is what version --json tells.
type about struct {
	Version  string `json:"version"`
	Revision string `json:"revision"`
	Go       string `json:"go"`
}

func build() about {
	a := about{Version: "development", Revision: "revision unknown", Go: runtime.Version()}
	info, ok := debug.ReadBuildInfo()
	if !ok {
		return a
	}
	if v := info.Main.Version; v != "" && v != "(devel)" {
		a.Version = v
	}
	for _, setting := range info.Settings {
		if setting.Key == "vcs.revision" {
			a.Revision = "revision " + setting.Value[:min(12, len(setting.Value))]
		}
	}
	return a
}
