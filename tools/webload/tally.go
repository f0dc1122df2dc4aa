package main

import (
	"errors"
	"fmt"
	"io"
	"slices"
	"sync"
	"sync/atomic"
	"text/tabwriter"
	"time"
)

// tally counts what the clients saw.
type tally struct {
	mu   sync.Mutex
	took map[string][]time.Duration
	errs []string
	bad  int

	searches atomic.Int64 // that were begun
}

// errorsShown is how many different errors are worth reading.
const errorsShown = 5

func (t *tally) add(what string, took time.Duration, err error) {
	t.mu.Lock()
	defer t.mu.Unlock()
	if t.took == nil {
		t.took = map[string][]time.Duration{}
	}
	t.took[what] = append(t.took[what], took)
	if err == nil {
		return
	}
	t.bad++
	if text := what + ": " + err.Error(); len(t.errs) < errorsShown && !slices.Contains(t.errs, text) {
		t.errs = append(t.errs, text)
	}
}

// print writes the table; the error says when something went wrong or took too long.
func (t *tally) print(w io.Writer, s settings, lasted time.Duration) error {
	tab := tabwriter.NewWriter(w, 0, 0, 2, ' ', tabwriter.AlignRight)
	fmt.Fprintln(tab, "what\tanswers\ta second\tmedian ms\tp95 ms\tp99 ms\tslowest ms\t")
	var all []time.Duration
	row := func(what string, took []time.Duration) {
		slices.Sort(took)
		fmt.Fprintf(tab, "%s\t%d\t%.0f\t%.1f\t%.1f\t%.1f\t%.1f\t\n", what, len(took), float64(len(took))/lasted.Seconds(),
			ms(part(took, 50)), ms(part(took, 95)), ms(part(took, 99)), ms(part(took, 100)))
	}
	for _, d := range deeds {
		row(d.what, t.took[d.what])
		all = append(all, t.took[d.what]...)
	}
	row("all", all)
	if err := tab.Flush(); err != nil {
		return err
	}
	fmt.Fprintf(w, "%d clients for %v, pausing %v on average; searches of 20 s begun meanwhile: %d; errors: %d\n", s.clients, lasted.Round(time.Second), s.pause, t.searches.Load(), t.bad)
	for _, e := range t.errs {
		fmt.Fprintln(w, "  ", e)
	}
	switch slow := part(all, 99); {
	case s.search && t.searches.Load() == 0:
		return errors.New("no plan was being searched: the server took none")
	case t.bad > 0:
		return fmt.Errorf("%d of %d answers were errors", t.bad, len(all))
	case s.most > 0 && slow > s.most:
		return fmt.Errorf("the 99th percentile is %v, more than %v", slow.Round(time.Millisecond), s.most)
	}
	return nil
}

// part is the percentile of sorted durations: the least that so many per cent do not exceed.
func part(sorted []time.Duration, percent int) time.Duration {
	if len(sorted) == 0 {
		return 0
	}
	return sorted[max(0, (len(sorted)*percent+99)/100-1)]
}

func ms(d time.Duration) float64 { return float64(d) / float64(time.Millisecond) }
