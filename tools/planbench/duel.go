package main

import (
	"fmt"
	"io"
	"path/filepath"

	"foldwright/internal/schedule"
)

// tally counts on how many files the search finds less than cbc, the same and more, and on how many cbc finds nothing.
type tally struct{ less, same, more, none int }

// duels prints a table of what the search and cbc find for each file in the same time, and how often which is better.
func duels(names []string, l limits, known map[string]int64, out io.Writer) error {
	cbc, err := solver()
	if err != nil {
		return err
	}
	var t tally
	fmt.Fprintf(out, "| %-28s | %10s | %6s | %12s |\n|---|---|---|---|\n", "instance", "best known", "ours", "cbc")
	for _, name := range names {
		if err := t.duel(name, cbc, l, known, out); err != nil {
			return fmt.Errorf("%s: %w", name, err)
		}
	}
	_, err = fmt.Fprintf(out, "\nof %d: ours better on %d (on %d of those cbc finds nothing in its time), equal on %d, worse on %d\n",
		len(names), t.less, t.none, t.same, t.more)
	return err
}

func (t *tally) duel(name, cbc string, l limits, known map[string]int64, out io.Writer) error {
	f := formats["sdst"]
	p, err := load(name, f)
	if err != nil {
		return err
	}
	value, err := ours(p, f, l)
	if err != nil {
		return err
	}
	r, err := solve(cbc, p, l.time)
	if err != nil {
		return err
	}
	theirs, err := r.value(p, f)
	if err != nil {
		return err
	}
	best, cell := "-", fmt.Sprint(theirs)
	if x, ok := known[filepath.Base(name)]; ok {
		best = fmt.Sprint(x)
	}
	switch {
	case r.order == nil:
		t.less, t.none, cell = t.less+1, t.none+1, "-"
	case value < theirs:
		t.less++
	case value == theirs:
		t.same++
	default:
		t.more++
	}
	if r.proven {
		cell += ", proven"
	}
	_, err = fmt.Fprintf(out, "| %-28s | %10s | %6d | %12s |\n", filepath.Base(name), best, value, cell)
	return err
}

// value is what the order costs that cbc found, by our definition; nothing where there is none.
func (r rival) value(p *schedule.Problem, f format) (int64, error) {
	if r.order == nil {
		return 0, nil
	}
	cost, err := schedule.Evaluate(p, r.order, schedule.Decode(p, r.order))
	if err != nil {
		return 0, fmt.Errorf("cbc's order is none: %w", err)
	}
	return f.value(cost), nil
}
