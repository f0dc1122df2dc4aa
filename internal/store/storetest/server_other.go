//go:build !unix

package storetest

import "os/exec"

// asUnprivileged has nothing to do where there is no root.
func asUnprivileged(*exec.Cmd, string) error { return nil }
