package shop

import (
	"fmt"
	"strings"

	"foldwright/internal/fault"
	"foldwright/internal/job"
	"foldwright/internal/machine"
	"foldwright/internal/settings"
	"foldwright/internal/words"
)

// Unfoldable lists the jobs that no folder can fold, or not the one to which they are pinned, each with the nearest miss
// on every folder; then those that stand on a folder that cannot fold them, in the order given or as what it is set for
// now. These faults are of kind [fault.No]: the shop can be planned all the same. It asks the settings of every job on
// every folder.
func (s *Shop) Unfoldable() fault.List {
	a := asker{shop: s, house: s.SettingsHouse(), say: words.NewSpeaker(words.English, s.Inch)}
	for i := range s.Jobs {
		a.job(fmt.Sprintf("jobs[%d]", i), &s.Jobs[i])
	}
	for i := range s.States {
		a.present(fmt.Sprintf("present[%d].job", i), &s.States[i])
	}
	return a.faults
}

// asker asks folders whether they can fold jobs.
type asker struct {
	shop   *Shop
	house  *settings.House
	say    *words.Speaker
	faults fault.List
}

func (a *asker) no(code fault.Code, field, wrong, right string) {
	a.faults.Add(fault.Fault{Kind: fault.No, Code: code, Field: field, Wrong: wrong, Right: right})
}

// misses are the reasons why a folder cannot fold a job; none when it can.
func (a *asker) misses(j *job.Job, f *machine.Folder) []string {
	folded, err := j.Scheme.Apply(j.Sheet)
	if err != nil {
		return []string{err.Error()}
	}
	ways, miss := settings.Ways(j, folded, f, a.house)
	if len(ways) > 0 {
		return nil
	}
	list := make([]string, len(miss.Whys))
	for i, why := range miss.Whys {
		list[i] = a.say.Text(why)
	}
	return list
}

// miss is all of them in a row; empty when the folder can.
func (a *asker) miss(j *job.Job, f *machine.Folder) string { return strings.Join(a.misses(j, f), "; ") }

// first is the first of several reasons, and how many more there are: one line tells of all folders.
func first(misses []string) string {
	if n := len(misses) - 1; n > 0 {
		return fmt.Sprintf("%s (and %d more)", misses[0], n)
	}
	return misses[0]
}

// job asks all folders on which a job may run.
func (a *asker) job(path string, j *job.Job) {
	var told []string
	can, given := false, ""
	for i := range a.shop.Folders {
		f := &a.shop.Folders[i]
		if j.Pin.Folder != "" && j.Pin.Folder != f.Name || can && f.Name != j.Given {
			continue
		}
		misses := a.misses(j, f)
		if len(misses) == 0 {
			can = true
			continue
		}
		if f.Name == j.Given {
			given = strings.Join(misses, "; ")
		}
		told = append(told, f.Name+": "+first(misses))
	}
	switch {
	case len(a.shop.Folders) == 0:
		a.no(CodeUnfoldable, path, fmt.Sprintf("job %q cannot be folded: there is no folder", clip(j.Name)), "list a folder")
	case !can:
		a.no(CodeUnfoldable, path, fmt.Sprintf("job %q cannot be folded: %s", clip(j.Name), strings.Join(told, "; ")), "change the job, or plan without it")
	case given != "":
		a.no(CodeGiven, path+".given", fmt.Sprintf("%s cannot fold job %q: %s", j.Given, clip(j.Name), given), "name a folder that can, or none")
	}
}

// present asks a folder for the job it is said to be set for.
func (a *asker) present(path string, st *State) {
	f, known := a.shop.Folder(st.Folder)
	j, told := a.shop.Job(st.Job)
	if !known || !told {
		return // told already, or nothing is said
	}
	if miss := a.miss(j, f); miss != "" {
		a.no(CodeGiven, path, fmt.Sprintf("%s cannot be set for job %q: %s", f.Name, clip(j.Name), miss), "name the job it is set for, or none: then all is set anew")
	}
}
