package shop

import (
	"testing"

	"github.com/google/go-cmp/cmp"
	"pgregory.net/rapid"

	"foldwright/internal/job"
)

// Goal: what was checked before is not checked again, and nothing is missed. Method: spoil some jobs by themselves and some in
// what they name, call sound what is, and compare with the whole check.
func TestCheckButFindsWhatCheckFinds(t *testing.T) {
	rapid.Check(t, func(r *rapid.T) {
		s := well(t)
		for range rapid.IntRange(0, 6).Draw(r, "more") {
			one := s.Jobs[0]
			one.Name = rapid.StringMatching(`[a-e]`).Draw(r, "name")
			switch rapid.IntRange(0, 5).Draw(r, "slip") {
			case 0:
				one.Sheets = 0
			case 1:
				one.After = []string{rapid.StringMatching(`[a-f]`).Draw(r, "after")}
			case 2:
				one.Given = "nowhere"
			}
			s.Jobs = append(s.Jobs, one)
		}
		asked := 0
		sound := func(j *job.Job) bool {
			asked++
			return len(j.Check()) == 0
		}
		if diff := cmp.Diff(s.Check(), s.CheckBut(sound)); diff != "" {
			r.Fatal(diff)
		}
		if asked < len(s.Jobs) {
			r.Fatalf("%d of %d jobs were asked about", asked, len(s.Jobs))
		}
	})
}
