package main

import (
	"context"
	"encoding/json"
	"fmt"
	"math/rand/v2"
	"net/http"
	"time"
)

// client is one person at a desk or a tablet.
type client struct {
	*server
	names   names
	tally   *tally
	number  int
	written int
	began   int64 // of the whole run, so that keys of another run are not used again
	dice    *rand.Rand
	pause   time.Duration
}

// deeds are what people do, each so often in a hundred.
var deeds = []struct {
	share int
	what  string
	do    func(*client, context.Context) error
}{
	{20, "list jobs", func(c *client, ctx context.Context) error { return c.get(ctx, "/jobs?limit=100") }},
	{20, "read a job", func(c *client, ctx context.Context) error { return c.get(ctx, "/jobs/"+c.job()) }},
	{10, "settings of a job", func(c *client, ctx context.Context) error { return c.get(ctx, "/jobs/"+c.job()+"/settings") }},
	{10, "the day as it is", func(c *client, ctx context.Context) error { return c.get(ctx, "/plans/given") }},
	{15, "read a set", func(c *client, ctx context.Context) error { return c.get(ctx, "/sets/"+c.set()) }},
	{5, "draw a set", func(c *client, ctx context.Context) error { return c.get(ctx, "/sets/"+c.set()+"/drawing.svg") }},
	{12, "change a job", (*client).changeJob},
	{8, "write a record", (*client).record},
}

func (c *client) job() string { return c.names.jobs[c.dice.IntN(len(c.names.jobs))] }
func (c *client) set() string { return c.names.sets[c.dice.IntN(len(c.names.sets))] }

// work asks and pauses until the time is over.
func (c *client) work(ctx context.Context) {
	for c.rest(ctx) {
		at, n := 0, c.dice.IntN(100)
		for n -= deeds[at].share; n >= 0; n -= deeds[at].share {
			at++
		}
		began := time.Now()
		err := deeds[at].do(c, ctx)
		if ctx.Err() != nil {
			return // cut off by the end, which says nothing of the server
		}
		c.tally.add(deeds[at].what, time.Since(began), err)
	}
}

// rest pauses; false when the time is over.
func (c *client) rest(ctx context.Context) bool {
	pause := time.NewTimer(time.Duration(c.dice.ExpFloat64() * float64(c.pause)))
	defer pause.Stop()
	select {
	case <-ctx.Done():
		return false
	case <-pause.C:
		return true
	}
}

func (c *client) get(ctx context.Context, path string) error {
	got, err := c.ask(ctx, http.MethodGet, path, nil)
	return fine(got, err, http.StatusOK)
}

// changeJob reads a job and gives it another title, as two people do at once now and then: that the other was first is an
// answer, not an error.
func (c *client) changeJob(ctx context.Context) error {
	path := "/jobs/" + c.job()
	got, err := c.ask(ctx, http.MethodGet, path, nil)
	if err := fine(got, err, http.StatusOK); err != nil {
		return err
	}
	var job map[string]any
	if err := json.Unmarshal(got.body, &job); err != nil {
		return err
	}
	job["title"] = fmt.Sprintf("title %d of client %d", c.dice.IntN(1000), c.number)
	got, err = c.ask(ctx, http.MethodPut, path, job, "If-Match", got.etag)
	return fine(got, err, http.StatusOK, http.StatusPreconditionFailed)
}

func (c *client) record(ctx context.Context) error {
	c.written++ // nobody begins two make-readies of a job on a folder at one moment
	start := time.Date(2026, 3, 2, 6, 0, 0, 0, time.UTC).Add(time.Duration(c.number+1000*c.written) * time.Minute)
	got, err := c.ask(ctx, http.MethodPost, "/records", map[string]any{
		"job": "2101", "folder": "alder", "start": start, "good": start.Add(17 * time.Minute),
	}, "Idempotency-Key", fmt.Sprintf("load-%d-%d-%d", c.began, c.number, c.dice.Uint64()))
	return fine(got, err, http.StatusCreated)
}

// fine turns an unexpected answer into an error.
func fine(got answer, err error, expected ...int) error {
	if err != nil {
		return err
	}
	for _, status := range expected {
		if got.status == status {
			return nil
		}
	}
	return fmt.Errorf("%d %.300s", got.status, got.body)
}
