// Command foldwright plans the work of a folding department; README.md tells for whom and why.
package main

import (
	"context"
	"fmt"
	"io"
	"os"
	"os/signal"
	"syscall"

	"github.com/alecthomas/kong"

	"foldwright/internal/fault"
)

// streams is where a command writes; tests give their own.
type streams struct {
	out, err io.Writer
}

// cli is the whole command line. Each command is a type in a file of its own with a Run method.
type cli struct {
}

func main() {
	ctx, stop := signal.NotifyContext(context.Background(), os.Interrupt, syscall.SIGTERM)
	defer stop()
	os.Exit(run(ctx, os.Args[1:], streams{os.Stdout, os.Stderr}))
}

// run does one command and returns its exit code.
func run(ctx context.Context, args []string, s streams) int {
	var c cli
	parser, err := kong.New(&c, kong.Name("foldwright"), kong.Writers(s.out, s.err), kong.BindTo(ctx, (*context.Context)(nil)), kong.Bind(s))
	if err != nil {
		panic(err) // the grammar itself is wrong
	}
	k, err := parser.Parse(args)
	if err == nil {
		err = k.Run()
	} else {
		fmt.Fprintln(s.err, err)
		return 2
	}
	return exitCode(s, err)
}

// exitCode is the one place where a fault becomes a number: 0 done, 1 the answer is no, 2 bad input, 3 internal.
func exitCode(s streams, err error) int {
	if err == nil {
		return 0
	}
	faults := fault.All(err)
	if faults == nil {
		fmt.Fprintln(s.err, "internal:", err)
		return 3
	}
	code := 1
	for _, f := range faults {
		fmt.Fprintln(s.err, f.Error())
		if f.Kind != fault.No {
			code = 2
		}
	}
	return code
}
