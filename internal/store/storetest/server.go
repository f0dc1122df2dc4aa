package storetest

import (
	"context"
	"database/sql"
	"fmt"
	"net/url"
	"os"
	"os/exec"
	"path/filepath"
	"slices"
	"strconv"
	"strings"
	"sync/atomic"
	"testing"
)

// serverVariable names a PostgreSQL server to use instead of starting one; its databases are left alone but for new
// schemas, which are dropped again.
const serverVariable = "FOLDWRIGHT_TEST_POSTGRES"

// Server gives the URL of a PostgreSQL server for the time of the test: the one that FOLDWRIGHT_TEST_POSTGRES names, else
// one that it starts itself from the programs that are installed, in a directory of its own, reached through a socket in
// there only. Without those programs the test is left out, unless CI is set.
func Server(t *testing.T) string {
	if given := os.Getenv(serverVariable); given != "" {
		return given
	}
	programs, ok := serverPrograms()
	if !ok {
		if os.Getenv("CI") != "" {
			t.Fatal("no PostgreSQL server is installed; make test-tools installs one")
		}
		t.Skip("no PostgreSQL server is installed; make test-tools installs one")
	}
	return startServer(t, programs)
}

// serverPrograms finds the directory of the server's programs; distributions keep it out of the search path.
func serverPrograms() (dir string, ok bool) {
	if path, err := exec.LookPath("initdb"); err == nil {
		if path, err = filepath.EvalSymlinks(path); err == nil {
			return filepath.Dir(path), true
		}
	}
	found, err := filepath.Glob("/usr/lib/postgresql/*/bin/initdb")
	if err != nil || len(found) == 0 {
		return "", false
	}
	newest := slices.MaxFunc(found, func(a, b string) int { return release(a) - release(b) })
	return filepath.Dir(newest), true
}

// release is the number in /usr/lib/postgresql/15/bin/initdb.
func release(path string) int {
	n, _ := strconv.Atoi(filepath.Base(filepath.Dir(filepath.Dir(path))))
	return n
}

// startServer makes a cluster and starts it. The name of a socket is short by law, so it is not in the test's own directory.
func startServer(t *testing.T, programs string) string {
	dir, err := os.MkdirTemp("", "fwpg")
	if err != nil {
		t.Fatal(err)
	}
	t.Cleanup(func() { os.RemoveAll(dir) })
	run := func(program string, args ...string) {
		t.Helper()
		cmd := exec.Command(filepath.Join(programs, program), args...)
		cmd.Dir = dir
		if err := asUnprivileged(cmd, dir); err != nil {
			t.Fatal(err)
		}
		// Its output goes into a file: the server keeps what it inherits, and would hold a pipe open.
		out, err := os.Create(filepath.Join(t.TempDir(), program+".log"))
		if err != nil {
			t.Fatal(err)
		}
		defer out.Close()
		cmd.Stdout, cmd.Stderr = out, out
		if err := cmd.Run(); err != nil {
			said, _ := os.ReadFile(out.Name())
			t.Fatalf("%s: %v\n%s", program, err, said)
		}
	}
	data := filepath.Join(dir, "data")
	run("initdb", "-D", data, "-U", "foldwright", "-A", "trust", "-E", "UTF8", "--no-sync", "--no-locale")
	run("pg_ctl", "-D", data, "-w", "-l", filepath.Join(dir, "log"), "-o", "-c listen_addresses='' -k "+dir+" -c fsync=off", "start")
	t.Cleanup(func() { run("pg_ctl", "-D", data, "-w", "-m", "immediate", "stop") })
	return "postgres://foldwright@/postgres?host=" + url.QueryEscape(dir)
}

// schemas numbers the schemas of this process.
var schemas atomic.Int64

// Schema makes a new, empty schema on a server and gives the URL under which it is all there is.
func Schema(t *testing.T, server string) string {
	t.Helper()
	name := fmt.Sprintf("t%d_%d", os.Getpid(), schemas.Add(1))
	on := func(statement string) {
		t.Helper()
		db, err := sql.Open("pgx", server)
		if err != nil {
			t.Fatal(err)
		}
		defer db.Close()
		if _, err := db.ExecContext(context.Background(), statement); err != nil {
			t.Fatal(err)
		}
	}
	on("CREATE SCHEMA " + name)
	t.Cleanup(func() { on("DROP SCHEMA " + name + " CASCADE") })
	with := "?"
	if strings.Contains(server, "?") {
		with = "&"
	}
	return server + with + "search_path=" + name
}
