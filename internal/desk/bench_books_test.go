package desk_test

import (
	"testing"

	"foldwright/internal/access"
	"foldwright/internal/desk"
	"foldwright/internal/job"
	"foldwright/internal/ledger"
)

// What somebody waits who looks at the day: nobody changed anything since, or somebody changed a job.
func BenchmarkDay(b *testing.B) {
	d := kept(b)
	one := thing(b, d, ledger.OfJob, "2101")
	b.Run("unchanged", func(b *testing.B) {
		for b.Loop() {
			draft(b, d, desk.GivenDraft)
		}
	})
	b.Run("changed", func(b *testing.B) {
		for b.Loop() {
			j := one.Value.(job.Job)
			j.Sheets++
			var err error
			one, err = d.Put(as(b, access.Lead), one.Tag, j)
			ok(b, err)
			draft(b, d, desk.GivenDraft)
		}
	})
}
