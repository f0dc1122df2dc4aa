package main

import (
	"fmt"
	"math/rand/v2"
	"slices"
	"strings"
	"time"

	"foldwright/internal/job"
	"foldwright/internal/shop"
	"foldwright/internal/tooling"
)

// twins are the folders that come to those of the demo, each like one of them and set for the same job.
var twins = [...]struct{ name, of string }{{"linden", "alder"}, {"oak", "hazel"}}

// grow makes a week of a day: two folders more with their plain sets, more than half of the sets on the rack twice, and so many jobs,
// each like one of the shop's.
func grow(s *shop.Shop, jobs int, seed uint64) {
	luck := rand.New(rand.NewPCG(seed, 400))
	for _, t := range twins {
		addTwin(s, t.name, t.of)
	}
	for _, set := range slices.Clone(s.Sets) {
		if set.Place.Slot != "" && luck.IntN(5) < 3 {
			set.Label += "b"
			set.Place = tooling.Place{Slot: set.Place.Slot + "b"}
			set.Served = nil
			s.Sets = append(s.Sets, set)
		}
	}
	patterns := foldable(s)
	y, m, d := s.Now.Date()
	monday := time.Date(y, m, d, 0, 0, 0, 0, s.Zone)
	s.Jobs = s.Jobs[:0]
	for n := range jobs {
		j := patterns[luck.IntN(len(patterns))]
		j.Name = fmt.Sprint(3001 + n)
		j.Given, j.Choices, j.Pin, j.After, j.Release = "", nil, job.Pin{}, nil, time.Time{}
		j.Sheets = max(300, j.Sheets*(20+luck.IntN(36))/100/50*50)
		due := luck.IntN(days)
		j.Due = at(monday, due, 10*60+luck.IntN(12)*60)
		if due > 0 && luck.IntN(4) == 0 {
			j.Release = at(monday, luck.IntN(due), 7*60+luck.IntN(20)*30)
		}
		if luck.IntN(33) == 0 {
			j.After = anEarlier(s.Jobs, j.Due, luck)
		}
		s.Jobs = append(s.Jobs, j)
	}
}

// anEarlier is one of the jobs that are due a day or more before an instant; none when there is none.
func anEarlier(jobs []job.Job, due time.Time, luck *rand.Rand) []string {
	var earlier []string
	for _, j := range jobs {
		if !j.Due.After(due.AddDate(0, 0, -1)) {
			earlier = append(earlier, j.Name)
		}
	}
	if len(earlier) == 0 {
		return nil
	}
	return []string{earlier[luck.IntN(len(earlier))]}
}

// foldable is the jobs that some folder can fold.
func foldable(s *shop.Shop) []job.Job {
	return slices.DeleteFunc(slices.Clone(s.Jobs), func(j job.Job) bool {
		alone := *s
		alone.Jobs = []job.Job{j}
		return len(alone.Unfoldable()) > 0
	})
}

// addTwin adds a folder like another, with a set of its own at each station where the other has one.
func addTwin(s *shop.Shop, name, of string) {
	for _, f := range s.Folders {
		if f.Name == of {
			f.Name, f.Serial = name, f.Serial+"b"
			s.Folders = append(s.Folders, f)
		}
	}
	for _, state := range s.States {
		if state.Folder == of {
			state.Folder = name
			s.States = append(s.States, state)
		}
	}
	for _, set := range slices.Clone(s.Sets) {
		if set.Place.Folder == of {
			set.Label += strings.ToLower(name[:1])
			set.Place.Folder = name
			s.Sets = append(s.Sets, set)
		}
	}
}
