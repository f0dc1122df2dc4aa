package main

import (
	"flag"
	"testing"

	"github.com/rogpeppe/go-internal/testscript"
)

var update = flag.Bool("update", false, "rewrite the expected output in testdata")

func TestMain(m *testing.M) { testscript.Main(m, map[string]func(){"foldwright": main}) }

// TestStories runs testdata/*.txtar: one story a file, told in commands and what they answer.
func TestStories(t *testing.T) {
	testscript.Run(t, testscript.Params{
		Dir:                 "testdata",
		UpdateScripts:       *update,
		RequireExplicitExec: true,
		RequireUniqueNames:  true,
	})
}
