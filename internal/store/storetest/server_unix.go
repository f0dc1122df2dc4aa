//go:build unix

package storetest

import (
	"fmt"
	"os"
	"os/exec"
	"os/user"
	"strconv"
	"syscall"
)

// asUnprivileged lets a program run as somebody else when we are root, as whom a PostgreSQL server refuses to start, and
// gives that somebody the directory.
func asUnprivileged(cmd *exec.Cmd, dir string) error {
	if os.Getuid() != 0 {
		return nil
	}
	who, err := user.Lookup("postgres")
	if err != nil {
		who, err = user.Lookup("nobody")
	}
	if err != nil {
		return fmt.Errorf("root has nobody to start a server as: %w", err)
	}
	uid, _ := strconv.ParseUint(who.Uid, 10, 32)
	gid, _ := strconv.ParseUint(who.Gid, 10, 32)
	cmd.SysProcAttr = &syscall.SysProcAttr{Credential: &syscall.Credential{Uid: uint32(uid), Gid: uint32(gid)}}
	return os.Chown(dir, int(uid), int(gid))
}
