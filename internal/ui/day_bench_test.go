package ui

import (
	"context"
	"crypto/rand"
	"fmt"
	"net/http"
	"net/http/httptest"
	"path/filepath"
	"testing"
	"time"

	"foldwright/internal/access"
	"foldwright/internal/demo"
	"foldwright/internal/desk"
	"foldwright/internal/ledger"
	"foldwright/internal/shop"
	"foldwright/internal/store"
	"foldwright/internal/words"
)

// manyJobs is the demo shop with its jobs so many times, due a day later each time.
func manyJobs(b *testing.B, times int) *shop.Shop {
	b.Helper()
	s, err := demo.Shop()
	if err != nil {
		b.Fatal(err)
	}
	first := s.Jobs
	for n := 1; n < times; n++ {
		for _, j := range first {
			j.Name, j.After, j.Pin.Position, j.Pin.Started = fmt.Sprintf("%s-%d", j.Name, n), nil, 0, false
			j.Due = j.Due.AddDate(0, 0, n)
			s.Jobs = append(s.Jobs, j)
		}
	}
	return s
}

// What a reader of the day waits for on the server: the order given, worked out and made a page.
func BenchmarkDay(b *testing.B) {
	for _, times := range []int{1, 7} {
		b.Run(fmt.Sprintf("jobs=%d", 60*times), func(b *testing.B) {
			whole := manyJobs(b, times)
			s, err := store.Open(b.Context(), filepath.Join(b.TempDir(), "shop.db"), store.Options{})
			if err != nil {
				b.Fatal(err)
			}
			defer s.Close()
			if _, err := s.Fill(b.Context(), ledger.By{Who: "test"}, whole); err != nil {
				b.Fatal(err)
			}
			d := &desk.Desk{Store: s, Books: s, Now: time.Now, Random: rand.Reader}
			h := New(d, speaking{lang: words.English})
			ctx := access.With(context.Background(), access.Who{Name: "ada", Role: access.Lead})
			d0, err := d.Arrange(ctx, desk.GivenDraft, "2105", "alder", 1)
			if err != nil {
				b.Fatal(err)
			}
			for b.Loop() {
				w := httptest.NewRecorder()
				h.ServeHTTP(w, httptest.NewRequest(http.MethodGet, "/day/drafts/"+d0.ID, http.NoBody).WithContext(ctx))
				if w.Code != http.StatusOK {
					b.Fatal(w.Body)
				}
				b.ReportMetric(float64(w.Body.Len())/1000, "kB")
			}
		})
	}
}
