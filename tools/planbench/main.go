// Command planbench runs the planner's search core on published benchmark instances.
//
//	planbench --set atsp|sop|wtsds|sdst|ssp --time 10s [--seed 1] [--iterations N] FILE…
//
// It prints a line a file: NAME VALUE SECONDS. With --iterations instead of --time the values repeat on every machine.
// Every value is recounted by the slow definition of cost before it is printed. With --best best.csv the line is
// NAME BEST VALUE GAP SECONDS, the gap in per cent of the best value known.
//
// With --cbc, for sdst only, the solver cbc works on a linear program of each file for the same time, and the lines make a
// table of NAME, BEST, VALUE and what cbc finds, with a count below it.
package main

import (
	"context"
	"errors"
	"flag"
	"fmt"
	"io"
	"os"
	"path/filepath"
	"time"

	"foldwright/internal/schedule"
)

func main() {
	if err := run(os.Args[1:], os.Stdout); err != nil {
		fmt.Fprintln(os.Stderr, "planbench:", err)
		os.Exit(2)
	}
}

// limits say how long to search each instance.
type limits struct {
	time       time.Duration
	seed       uint64
	iterations int
}

func run(args []string, out io.Writer) error {
	flags := flag.NewFlagSet("planbench", flag.ContinueOnError)
	flags.SetOutput(out)
	var l limits
	kind := flags.String("set", "", "format of the files: atsp, sop, wtsds, sdst or ssp")
	flags.DurationVar(&l.time, "time", 10*time.Second, "time for each file")
	flags.Uint64Var(&l.seed, "seed", 1, "seed of the search")
	flags.IntVar(&l.iterations, "iterations", 0, "steps for each file; 0 = as many as the time allows")
	duel := flags.Bool("cbc", false, "let the solver cbc work on each file too (sdst only)")
	best := flags.String("best", "", "table of best values known: lines of name,value,…")
	if err := flags.Parse(args); err != nil {
		if errors.Is(err, flag.ErrHelp) {
			return nil
		}
		return err
	}
	f, ok := formats[*kind]
	if !ok {
		return fmt.Errorf("--set is %q; it must be atsp, sop, wtsds, sdst or ssp", *kind)
	}
	if l.time <= 0 || l.iterations < 0 {
		return errors.New("--time must be more than nothing, and --iterations not less")
	}
	if *duel && *kind != "sdst" {
		return errors.New("--cbc is for --set sdst; there is a linear program for no other")
	}
	known, err := readBest(*best)
	if err != nil {
		return err
	}
	if *duel {
		return duels(flags.Args(), l, known, out)
	}
	for _, name := range flags.Args() {
		if err := bench(name, f, l, known, out); err != nil {
			return fmt.Errorf("%s: %w", name, err)
		}
	}
	return nil
}

// bench searches one file and prints its line.
func bench(name string, f format, l limits, known map[string]int64, out io.Writer) error {
	p, err := load(name, f)
	if err != nil {
		return err
	}
	begin := time.Now()
	value, err := ours(p, f, l)
	if err != nil {
		return err
	}
	seconds := time.Since(begin).Seconds()
	name = filepath.Base(name)
	if best, ok := known[name]; ok {
		_, err = fmt.Fprintf(out, "%-28s %8d %8d %8s %7.2f\n", name, best, value, gap(best, value), seconds)
	} else {
		_, err = fmt.Fprintf(out, "%s %d %.2f\n", name, value, seconds)
	}
	return err
}

// load reads and checks a file.
func load(name string, f format) (*schedule.Problem, error) {
	data, err := os.ReadFile(name)
	if err != nil {
		return nil, err
	}
	p, err := f.read(data)
	if err != nil {
		return nil, err
	}
	return p, p.Check()
}

// ours is the value of what the search finds.
func ours(p *schedule.Problem, f format, l limits) (int64, error) {
	r := search(p, l)
	cost, err := schedule.Evaluate(p, r.Order, r.Plan)
	if err == nil && cost.Unplaced > 0 {
		err = fmt.Errorf("no order without a fault found: %d jobs have no place", cost.Unplaced)
	}
	return f.value(cost), err
}

func search(p *schedule.Problem, l limits) schedule.Result {
	o := schedule.Options{Seed: l.seed, Iterations: l.iterations}
	if l.iterations > 0 {
		return schedule.Search(context.Background(), p, nil, o)
	}
	ctx, stop := context.WithTimeout(context.Background(), l.time)
	defer stop()
	begin := time.Now()
	o.Used = func() int { return int(1000 * time.Since(begin) / l.time) }
	return schedule.Search(ctx, p, nil, o)
}

// gap is how far a value lies above the best known, in per cent; above a best of 0 there are none.
func gap(best, value int64) string {
	switch best {
	case value:
		return "0"
	case 0:
		return "-"
	}
	return fmt.Sprintf("%.2f%%", 100*float64(value-best)/float64(best))
}
