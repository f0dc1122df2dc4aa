package storetest

import (
	"fmt"
	"testing"
	"time"

	"foldwright/internal/ledger"
)

func sessions(b *bench) {
	clock := noon
	here, there := b.openAt(func() time.Time { return clock }).Sessions(), b.open().Sessions()
	data := []byte("\x00who\xff")
	b.ok(here.Commit("token one", []byte("first"), noon.Add(time.Hour)))
	b.ok(here.Commit("token one", data, noon.Add(time.Hour)))
	b.ok(here.CommitCtx(b.ctx, "token two", nil, noon.Add(time.Minute)))
	for token, want := range map[string]bool{"token one": true, "token two": true, "token three": false, "": false, "\x00\xff": false} {
		got, found, err := there.Find(token)
		b.ok(err)
		if found != want || token == "token one" && string(got) != string(data) {
			b.Errorf("%q is found: %v, with %q", token, found, got)
		}
	}
	all, err := there.All()
	b.ok(err)
	if len(all) != 2 {
		b.Errorf("%d sessions are kept, want 2", len(all))
	}
	for stands, got := range all {
		if _, found, err := there.Find(stands); err != nil || found {
			b.Errorf("who reads the database can come in: %v", err)
		}
		if string(got) == string(data) {
			b.ok(there.Commit(stands, []byte("changed"), noon.Add(time.Hour)))
			b.ok(there.Delete("token two"))
		}
	}
	if got, found, err := here.Find("token one"); err != nil || !found || string(got) != "changed" {
		b.Errorf("got %q, %v, %v", got, found, err)
	}
	b.ok(here.Delete("token two")) // ended already

	clock = noon.Add(time.Hour)
	if _, found, err := here.Find("token one"); err != nil || found {
		b.Errorf("a session that is over lets somebody in: %v", err)
	}
	b.ok(there.Expire(b.ctx, noon.Add(time.Hour-1)))
	if _, found, _ := there.Find("token one"); !found {
		b.Error("a session was taken away before its end")
	}
	b.ok(there.Expire(b.ctx, noon.Add(time.Hour)))
	if _, found, _ := there.Find("token one"); found {
		b.Error("a session that is over is still there")
	}
}

func keys(b *bench) {
	clock := noon
	here, there := b.openAt(func() time.Time { return clock }).Keys(), b.open().Keys()
	one := ledger.Attempt{Who: "ada", Key: "k-1", What: "POST /api/v1/jobs", Digest: "d1"}
	answer := ledger.Answer{Status: 201, Header: map[string][]string{"Location": {"/api/v1/jobs/1"}}, Body: []byte("{\"a\":\"\x00\xff\"}")}
	stands := func(a ledger.Attempt, want ledger.Standing) {
		b.Helper()
		got, said, err := there.Begin(b.ctx, a)
		b.ok(err)
		if got != want {
			b.Errorf("%+v stands at %d, want %d", a, got, want)
		}
		if want == ledger.Answered {
			b.same(answer, said)
		}
	}
	got, _, err := here.Begin(b.ctx, one)
	b.ok(err)
	if got != ledger.Fresh {
		b.Errorf("the first attempt stands at %d", got)
	}
	stands(one, ledger.Open)
	otherBody, otherPath, otherWho := one, one, one
	otherBody.Digest, otherPath.What, otherWho.Who = "d2", "PUT /api/v1/jobs/1", "ben"
	stands(otherBody, ledger.Other)
	stands(otherWho, ledger.Fresh)
	b.ok(here.End(b.ctx, one, answer))
	stands(one, ledger.Answered)
	stands(otherBody, ledger.Other)
	stands(otherPath, ledger.Other)
	if here.End(b.ctx, one, answer) == nil {
		b.Error("an attempt ended twice")
	}
	b.ok(here.Drop(b.ctx, one)) // too late: it was answered
	stands(one, ledger.Answered)
	b.ok(here.Drop(b.ctx, otherWho))
	stands(otherWho, ledger.Fresh)
	stands(ledger.Attempt{Key: "\x00caf\xe9"}, ledger.Fresh)

	clock = noon.Add(24*time.Hour + time.Millisecond)
	if got, _, err := here.Begin(b.ctx, one); err != nil || got != ledger.Fresh {
		b.Errorf("after a day the key stands at %d: %v", got, err)
	}
	keysAtOnce(b)
}

// keysAtOnce lets many begin one thing at once: one of them does it.
func keysAtOnce(b *bench) {
	one, two := b.open().Keys(), b.open().Keys()
	got := make([]ledger.Standing, 8)
	b.Run("at once", func(t *testing.T) {
		for n := range got {
			t.Run(fmt.Sprint(n), func(t *testing.T) {
				t.Parallel()
				keys := one
				if n%2 == 1 {
					keys = two
				}
				var err error
				if got[n], _, err = keys.Begin(t.Context(), ledger.Attempt{Who: "ada", Key: "once"}); err != nil {
					t.Error(err)
				}
			})
		}
	})
	fresh := 0
	for _, s := range got {
		if s == ledger.Fresh {
			fresh++
		}
	}
	if fresh != 1 {
		b.Errorf("%d did the same thing at once", fresh)
	}
}
