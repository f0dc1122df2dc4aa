// Command foldwright plans the work of a folding department; README.md tells for whom and why.
package main

import (
	"context"
	"errors"
	"fmt"
	"io"
	"os"
	"os/signal"
	"runtime/debug"
	"strings"
	"syscall"
	"time"

	"github.com/alecthomas/kong"
	"golang.org/x/term"

	"foldwright/internal/access"
	"foldwright/internal/draw"
	"foldwright/internal/fault"
)

// streams is where a command writes, what that place can show, and which clock it asks; tests give their own.
type streams struct {
	out, err io.Writer
	colour   bool             // out shows colour and weight
	live     bool             // err is a terminal, so a line may be rewritten there
	now      func() time.Time // nil: the wall clock
}

// cli is the whole command line. Each command is a type in a file of its own with a Run method and a Help with examples.
type cli struct {
	Fold       foldCommand       `cmd:"" help:"Fold a sheet: stack, pages, creases."`
	Find       findCommand       `cmd:"" help:"Name the schemes that give the pages of a sheet."`
	Settings   settingsCommand   `cmd:"" help:"Show everything the operator sets for a job."`
	Rack       rackCommand       `cmd:"" help:"List the shaft sets, or what serves a job."`
	Plan       planCommand       `cmd:"" help:"Plan the day, beside the order given."`
	Card       cardCommand       `cmd:"" help:"Print set-up cards."`
	Bench      benchCommand      `cmd:"" help:"Print bench cards with full-scale strips."`
	Label      labelCommand      `cmd:"" help:"Print labels of shaft sets."`
	Check      checkCommand      `cmd:"" help:"List everything that is wrong with a shop file."`
	Import     importCommand     `cmd:"" help:"Check a shop file and put it into the database."`
	Export     exportCommand     `cmd:"" help:"Print the shop as a tidied shop file."`
	Backup     backupCommand     `cmd:"" help:"Copy the database into one file."`
	Restore    restoreCommand    `cmd:"" help:"Take a backup of the database back."`
	Serve      serveCommand      `cmd:"" help:"Serve the web app and the API."`
	User       userCommand       `cmd:"" help:"Say who can log in."`
	Schema     schemaCommand     `cmd:"" help:"Print the JSON Schema of the shop file."`
	Demo       demoCommand       `cmd:"" help:"Plan an invented shop and serve it, or write its shop file."`
	Completion completionCommand `cmd:"" help:"Print the completion script of a shell."`
	Complete   completeCommand   `cmd:"" hidden:"" help:"Answer the completion scripts."`
	Version    versionCommand    `cmd:"" help:"Say which foldwright this is."`
}

func main() {
	ctx, stop := signal.NotifyContext(context.Background(), os.Interrupt, syscall.SIGTERM)
	context.AfterFunc(ctx, stop) // the first interrupt ends the work in good order, the second at once
	code := run(ctx, os.Args[1:], streams{
		out:    os.Stdout,
		err:    os.Stderr,
		colour: term.IsTerminal(int(os.Stdout.Fd())) && os.Getenv("NO_COLOR") == "" && os.Getenv("TERM") != "dumb",
		live:   term.IsTerminal(int(os.Stderr.Fd())) && os.Getenv("TERM") != "dumb",
	})
	stop()
	os.Exit(code)
}

// left is how kong's wish to exit (after --help) travels up to [run], which alone answers with a code.
type left int

// run does one command and returns its exit code.
func run(ctx context.Context, args []string, s streams) (code int) {
	defer func() {
		switch reason := recover().(type) {
		case nil:
		case left:
			code = int(reason)
		default: // a fault of the program; Go's own exit code would say bad input
			fmt.Fprintf(s.err, "internal: %v\n%s", reason, debug.Stack())
			code = 3
		}
	}()
	if s.now == nil {
		s.now = time.Now
	}
	if len(args) == 0 {
		args = []string{"--help"}
	}
	ctx = access.With(ctx, access.Who{Name: whoami(), Role: access.Admin}) // whoever can run the program has the files anyhow
	k, err := newParser(ctx, s).Parse(args)
	if err != nil {
		fmt.Fprintln(s.err, usage(err))
		return 2
	}
	return exitCode(s, k.Run())
}

// newParser builds the grammar and hands the commands what their Run methods ask for.
func newParser(ctx context.Context, s streams) *kong.Kong {
	parser, err := kong.New(new(cli),
		kong.Name("foldwright"),
		kong.Description("Settings, shaft sets and the day's order for the folders of a bindery."),
		kong.Writers(s.out, s.err),
		kong.Exit(func(code int) { panic(left(code)) }),
		kong.ConfigureHelp(kong.HelpOptions{Compact: true, WrapUpperBound: 100}),
		kong.Vars{"shop_default": defaultShopShown(), "label_stocks": strings.Join(draw.StockNames(), "; ")},
		kong.BindTo(ctx, (*context.Context)(nil)),
		kong.Bind(s))
	if err != nil {
		panic(err) // the grammar itself is wrong
	}
	return parser
}

// usage says in one line what is wrong with the command line and where to read on.
func usage(err error) string {
	where := "foldwright --help"
	var wrong *kong.ParseError
	if errors.As(err, &wrong) && wrong.Context != nil && wrong.Context.Selected() != nil {
		where = "foldwright " + wrong.Context.Selected().Path() + " --help"
	}
	return fmt.Sprintf("foldwright: %v; see: %s", err, where)
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
