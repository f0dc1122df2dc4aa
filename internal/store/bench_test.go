package store_test

import (
	"fmt"
	"path/filepath"
	"testing"

	"foldwright/internal/demo"
	"foldwright/internal/ledger"
	"foldwright/internal/shop"
	"foldwright/internal/store"
)

// many is the demo with its jobs again and again.
func many(b *testing.B, times int) *shop.Shop {
	s, err := demo.Shop()
	if err != nil {
		b.Fatal(err)
	}
	once := s.Jobs
	for i := 1; i < times; i++ {
		for _, j := range once {
			j.Name = fmt.Sprintf("%s-%d", j.Name, i)
			j.After, j.Pin.Position, j.Pin.Started = nil, 0, false
			s.Jobs = append(s.Jobs, j)
		}
	}
	return s
}

func benchStore(b *testing.B, times int) (*store.Store, *ledger.Snapshot) {
	s, err := store.Open(b.Context(), filepath.Join(b.TempDir(), "shop.db"), store.Options{})
	if err != nil {
		b.Fatal(err)
	}
	b.Cleanup(func() { s.Close() })
	now, err := s.Fill(b.Context(), ledger.By{Who: "bench"}, many(b, times))
	if err != nil {
		b.Fatal(err)
	}
	return s, now
}

// One edit of a job, on the disk.
func BenchmarkChange(b *testing.B) {
	for _, times := range []int{1, 20} {
		b.Run(fmt.Sprintf("%d jobs", 60*times), func(b *testing.B) {
			s, now := benchStore(b, times)
			j := now.Shop.Jobs[0]
			for b.Loop() {
				j.Sheets++
				tag, _ := now.Tag(ledger.OfJob, j.Name)
				var err error
				if now, err = s.Change(b.Context(), ledger.By{Who: "bench"}, ledger.Put(tag, j)); err != nil {
					b.Fatal(err)
				}
			}
		})
	}
}

// Asking for a shop that nobody changed.
func BenchmarkShop(b *testing.B) {
	s, _ := benchStore(b, 1)
	for b.Loop() {
		if _, err := s.Shop(b.Context()); err != nil {
			b.Fatal(err)
		}
	}
}

// The first reading of a program that starts.
func BenchmarkFirstRead(b *testing.B) {
	s, _ := benchStore(b, 20)
	file := filepath.Join(b.TempDir(), "copy.db")
	if err := s.Backup(b.Context(), file); err != nil {
		b.Fatal(err)
	}
	for b.Loop() {
		fresh, err := store.Open(b.Context(), file, store.Options{})
		if err != nil {
			b.Fatal(err)
		}
		if _, err := fresh.Shop(b.Context()); err != nil {
			b.Fatal(err)
		}
		fresh.Close()
	}
}

// A page of the trail that reaches back to the first import, and the trail of one job.
func BenchmarkHistory(b *testing.B) {
	s, now := benchStore(b, 20)
	j := now.Shop.Jobs[0]
	tag, _ := now.Tag(ledger.OfJob, j.Name)
	for _, p := range []ledger.Page{{Limit: 20}, {Limit: 20, Thing: tag.ID}} {
		b.Run(fmt.Sprintf("of one %v", p.Thing != ""), func(b *testing.B) {
			for b.Loop() {
				if _, err := s.History(b.Context(), p); err != nil {
					b.Fatal(err)
				}
			}
		})
	}
}
