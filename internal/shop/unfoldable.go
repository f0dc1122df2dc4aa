package shop

import (
	"fmt"
	"strings"

	"foldwright/internal/fault"
	"foldwright/internal/job"
	"foldwright/internal/settings"
)

// Unfoldable lists the jobs that no folder can fold, or not the one to which they are pinned, each with the nearest miss
// on every folder. These faults are of kind [fault.No]: the shop can be planned without those jobs. It asks the settings
// of every job on every folder.
func (s *Shop) Unfoldable() fault.List {
	var faults fault.List
	house := s.SettingsHouse()
	for i := range s.Jobs {
		j := &s.Jobs[i]
		if misses, can := s.misses(j, house); !can {
			faults.Add(fault.Fault{Kind: fault.No, Code: CodeUnfoldable, Field: fmt.Sprintf("jobs[%d]", i),
				Wrong: fmt.Sprintf("job %q cannot be folded: %s", clip(j.Name), strings.Join(misses, "; ")),
				Right: "change the job, or plan without it"})
		}
	}
	return faults
}

// misses asks the folders on which a job may run, in the order of the shop, until one can run it.
func (s *Shop) misses(j *job.Job, house *settings.House) (misses []string, can bool) {
	folded, err := j.Scheme.Apply(j.Sheet)
	if err != nil {
		return []string{err.Error()}, false
	}
	for i := range s.Folders {
		f := &s.Folders[i]
		if j.Pin.Folder != "" && j.Pin.Folder != f.Name {
			continue
		}
		ways, miss := settings.Ways(j, folded, f, house)
		if len(ways) > 0 {
			return nil, true
		}
		misses = append(misses, f.Name+": "+miss.Why)
	}
	if len(misses) == 0 {
		misses = []string{"there is no folder"}
	}
	return misses, false
}
