package main

import (
	"bytes"
	"errors"
	"fmt"
	"strings"
	"testing"

	"foldwright/internal/fault"
)

func TestExitCodes(t *testing.T) {
	no := fault.Fault{Kind: fault.No, Wrong: "no folder can"}
	wrong := fault.Fault{Kind: fault.Input, Wrong: "wrong"}
	gone := fault.Fault{Kind: fault.Missing, Wrong: "not there"}
	for _, c := range []struct {
		name  string
		err   error
		code  int
		lines int
	}{
		{"done", nil, 0, 0},
		{"the answer is no", no, 1, 1},
		{"wrong input", wrong, 2, 1},
		{"not there", gone, 2, 1},
		{"no and wrong", fault.List{no, wrong, no}, 2, 3},
		{"only noes", fault.List{no, no}, 1, 2},
		{"wrapped", fmt.Errorf("job 4711: %w", wrong), 2, 1},
		{"anything else", errors.New("the disk is full"), 3, 1},
	} {
		t.Run(c.name, func(t *testing.T) {
			var out, err bytes.Buffer
			if got := exitCode(streams{out: &out, err: &err}, c.err); got != c.code {
				t.Errorf("exit code %d, want %d", got, c.code)
			}
			if got := strings.Count(err.String(), "\n"); got != c.lines {
				t.Errorf("%d lines on stderr, want %d: %q", got, c.lines, err.String())
			}
			if out.Len() > 0 {
				t.Errorf("stdout got %q", out.String())
			}
		})
	}
}

// run answers with a code whatever is asked of it, help included, and never leaves the process by itself.
func TestRunReturns(t *testing.T) {
	for _, c := range []struct {
		args string
		code int
		out  string // begins stdout
		err  string // begins stderr
	}{
		{"", 0, "Usage: foldwright <command>", ""},
		{"--help", 0, "Usage: foldwright <command>", ""},
		{"settings --help", 0, "Usage: foldwright settings <job>", ""},
		{"version", 0, "foldwright ", ""},
		{"settings", 2, "", `foldwright: expected "<job>"; see: foldwright settings --help`},
		{"plan --iterations -1", 2, "", "foldwright: "},
		{"plan --time soon", 2, "", "foldwright: --time: "},
		{"no-such", 2, "", "foldwright: unexpected argument no-such"},
	} {
		t.Run(c.args, func(t *testing.T) {
			var out, err bytes.Buffer
			if got := run(t.Context(), strings.Fields(c.args), streams{out: &out, err: &err}); got != c.code {
				t.Errorf("exit code %d, want %d (%s)", got, c.code, err.String())
			}
			if !strings.HasPrefix(out.String(), c.out) || (c.out == "") != (out.Len() == 0) {
				t.Errorf("stdout %q, want it to begin with %q", out.String(), c.out)
			}
			if !strings.HasPrefix(err.String(), c.err) || (c.err == "") != (err.Len() == 0) {
				t.Errorf("stderr %q, want it to begin with %q", err.String(), c.err)
			}
			if strings.Count(err.String(), "\n") > 1 {
				t.Errorf("a usage error of several lines: %q", err.String())
			}
		})
	}
}

// A panic is a fault of the program: exit code 3 and the place, never the code of bad input.
func TestPanicIsInternal(t *testing.T) {
	var err bytes.Buffer
	s := streams{out: panicking{}, err: &err}
	if got := run(t.Context(), []string{"version"}, s); got != 3 {
		t.Errorf("exit code %d, want 3", got)
	}
	if !strings.HasPrefix(err.String(), "internal: out of paper\n") || !strings.Contains(err.String(), "version.go") {
		t.Errorf("stderr tells neither what nor where: %s", err.String())
	}
}

type panicking struct{}

func (panicking) Write([]byte) (int, error) { panic("out of paper") }
