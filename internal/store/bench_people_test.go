package store_test

import (
	"fmt"
	"testing"
	"time"

	"foldwright/internal/access"
	"foldwright/internal/ledger"
	"foldwright/internal/store"
)

// lookups are what a server asks at every request.
var lookups = []struct {
	name string
	ask  func(b *testing.B, s *store.Store) error
}{
	{"token", func(b *testing.B, s *store.Store) error {
		_, err := s.TokenByDigest(b.Context(), "digest 500")
		return err
	}},
	{"account", func(b *testing.B, s *store.Store) error { _, err := s.Account(b.Context(), "ada"); return err }},
	{"session", func(_ *testing.B, s *store.Store) error {
		_, found, err := s.Sessions().Find("token 500")
		if err == nil && !found {
			err = fmt.Errorf("not found")
		}
		return err
	}},
	{"snapshot", func(b *testing.B, s *store.Store) error { _, err := s.Snapshot(b.Context()); return err }},
}

// peopled is a store with as many tokens and sessions as a busy shop has in a year.
func peopled(b *testing.B) *store.Store {
	s, _ := benchStore(b, 20)
	ok := func(err error) {
		if err != nil {
			b.Fatal(err)
		}
	}
	ok(s.AddAccount(b.Context(), access.Account{Name: "ada", Role: access.Admin}))
	for i := range 1000 {
		ok(s.Sessions().Commit(fmt.Sprint("token ", i), make([]byte, 200), time.Now().Add(time.Hour)))
		ok(s.AddToken(b.Context(), access.Token{ID: fmt.Sprint(i), Name: "x", Account: "ada", Digest: fmt.Sprint("digest ", i)}))
	}
	return s
}

// A hundred at once ask, with and without somebody who writes meanwhile.
func BenchmarkLookup(b *testing.B) {
	s := peopled(b)
	for _, l := range lookups {
		b.Run(l.name, func(b *testing.B) {
			b.SetParallelism(50) // for each of two cores
			b.RunParallel(func(pb *testing.PB) {
				for pb.Next() {
					if err := l.ask(b, s); err != nil {
						b.Error(err)
					}
				}
			})
		})
	}
}

// What is written now and then for somebody who is logged in, and around every write that has a key.
func BenchmarkSmallWrite(b *testing.B) {
	s := peopled(b)
	i := 0
	for name, write := range map[string]func() error{
		"session": func() error {
			return s.Sessions().Commit("token 500", make([]byte, 200), time.Now().Add(time.Hour))
		},
		"token used": func() error { return s.TokenUsed(b.Context(), "500", time.Now().Add(time.Duration(i)*time.Second)) },
		"key": func() error {
			a := ledger.Attempt{Who: "ada", Key: fmt.Sprint(i, time.Now().UnixNano())}
			if _, _, err := s.Keys().Begin(b.Context(), a); err != nil {
				return err
			}
			return s.Keys().End(b.Context(), a, ledger.Answer{Status: 200, Body: make([]byte, 1000)})
		},
	} {
		b.Run(name, func(b *testing.B) {
			for b.Loop() {
				i++
				if err := write(); err != nil {
					b.Fatal(err)
				}
			}
		})
	}
}
