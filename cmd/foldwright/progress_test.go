package main

import (
	"bytes"
	"context"
	"sync"
	"testing"
	"testing/synctest"
	"time"
)

// locked is a buffer that a progress line may write to from its own goroutine.
type locked struct {
	sync.Mutex
	bytes.Buffer
}

func (l *locked) Write(p []byte) (int, error) {
	l.Lock()
	defer l.Unlock()
	return l.Buffer.Write(p)
}

func (l *locked) text() string {
	l.Lock()
	defer l.Unlock()
	return l.String()
}

func TestProgressKeepsSilent(t *testing.T) {
	for name, live := range map[string]bool{"a pipe": false, "short work on a terminal": true} {
		var out locked
		p := streams{err: &out, live: live}.progress(context.Background(), "planning", 10)
		p.set(5, "half")
		p.done()
		if got := out.text(); name == "a pipe" && got != "" {
			t.Errorf("%s: %q", name, got)
		}
	}
}

// In the bubble the clock jumps as soon as everybody waits, so this takes no time.
func TestProgressShowsAfterASecond(t *testing.T) {
	synctest.Test(t, func(t *testing.T) {
		var out locked
		p := streams{err: &out, live: true}.progress(t.Context(), "planning", 10)
		p.set(5, "12 min")
		time.Sleep(patience + time.Second)
		shown := out.text()
		p.done()
		for _, want := range []string{"planning", "50", "12 min"} {
			if !bytes.Contains([]byte(shown), []byte(want)) {
				t.Errorf("%q is not on the line %q", want, shown)
			}
		}
	})
}
