package desk_test

import (
	"context"
	"crypto/rand"
	"path/filepath"
	"testing"
	"time"

	"foldwright/internal/access"
	"foldwright/internal/demo"
	"foldwright/internal/desk"
	"foldwright/internal/ledger"
	"foldwright/internal/shop"
	"foldwright/internal/store"
	"foldwright/internal/tooling"
)

// as is the context of somebody with a role.
func as(t testing.TB, r access.Role) context.Context {
	return access.With(t.Context(), access.Who{Name: "ada", Role: r})
}

// kept is a desk whose shop, the demo's, can be changed.
func kept(t testing.TB) *desk.Desk {
	t.Helper()
	whole, err := demo.Shop()
	if err != nil {
		t.Fatal(err)
	}
	clock := func() time.Time { return whole.Now }
	s, err := store.Open(t.Context(), filepath.Join(t.TempDir(), "shop.db"), store.Options{Now: clock})
	if err != nil {
		t.Fatal(err)
	}
	t.Cleanup(func() { s.Close() })
	if _, err := s.Fill(t.Context(), ledger.By{Who: "test"}, whole); err != nil {
		t.Fatal(err)
	}
	return &desk.Desk{Store: s, Books: s, Now: clock, Random: rand.Reader}
}

// shopNow is the shop as it is kept; it passes its own check.
func shopNow(t testing.TB, d *desk.Desk) *shop.Shop {
	t.Helper()
	s, err := d.Shop(signed(t))
	if err != nil {
		t.Fatal(err)
	}
	if faults := s.Check(); len(faults) > 0 {
		t.Fatalf("the shop kept is torn: %v", faults)
	}
	return s
}

// allTools counts the tools of a shop, on sets and loose, by class and type: work on sets neither makes nor loses any.
func allTools(s *shop.Shop) map[string]int {
	count := map[string]int{}
	for _, t := range s.Tools {
		count[t.Class+" "+t.Type.String()] += t.Loose
	}
	for _, set := range s.Sets {
		for _, t := range set.Tools {
			count[set.Class+" "+t.Type.String()]++
		}
	}
	return count
}

func placeOf(t testing.TB, s *shop.Shop, label string) tooling.Place {
	t.Helper()
	set, ok := s.Set(label)
	if !ok {
		t.Fatalf("set %s is gone", label)
	}
	return set.Place
}
