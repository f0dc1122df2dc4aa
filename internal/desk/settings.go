package desk

import (
	"cmp"
	"context"
	"fmt"
	"slices"
	"time"

	"foldwright/internal/changeover"
	"foldwright/internal/fault"
	"foldwright/internal/fold"
	"foldwright/internal/job"
	"foldwright/internal/machine"
	"foldwright/internal/plan"
	"foldwright/internal/settings"
	"foldwright/internal/shop"
	"foldwright/internal/words"
)

// Answer is what one folder says to a job: its settings with the minutes to get there, or why it cannot.
type Answer struct {
	Job       *job.Job
	Folder    *machine.Folder
	Settings  *settings.Settings // nil when the folder cannot run the job
	Miss      *settings.Miss     // nil when it can
	Run       time.Duration      // working time for all sheets
	Makeready time.Duration      // from what stands on the folder now; the sum of Lines
	Lines     []changeover.Line
	Stations  []Station // every station of the folder, in order of travel
}

// Station is how a station would get its tools if this job came next.
type Station struct {
	Unit int // from 1
	Name string
	Mode changeover.Mode
	Set  string // the set that would stand there; empty when none
	Match
}

// Settings answers how a job is set on every folder, best first, or on the one that is named. Best is the least time to
// make ready and run; folders that cannot run the job come last. When no folder can, the answers come with a fault that
// says no.
//
// The minutes are those of a day on which this job is the only one: the same rules as the plan's, so the two agree.
func (d *Desk) Settings(ctx context.Context, name, folder string) ([]Answer, error) {
	s, err := d.Shop(ctx)
	if err != nil {
		return nil, err
	}
	j, err := jobNamed(s, name)
	if err != nil {
		return nil, err
	}
	return d.answers(ctx, s, j, folder)
}

// answers asks the folders of a shop, or the one that is named, what they say to a job of it.
func (d *Desk) answers(ctx context.Context, s *shop.Shop, j *job.Job, folder string) ([]Answer, error) {
	folders, err := foldersAsked(s, folder)
	if err != nil {
		return nil, err
	}
	folded, err := j.Scheme.Apply(j.Sheet)
	if err != nil {
		return nil, fmt.Errorf("job %s: %w", j.Name, err)
	}
	answers := make([]Answer, len(folders))
	for i, f := range folders {
		if answers[i], err = d.answer(ctx, s, j, folded, f); err != nil {
			return nil, fmt.Errorf("job %s on %s: %w", j.Name, f.Name, err)
		}
	}
	slices.SortStableFunc(answers, better)
	return answers, refusal(answers, words.NewSpeaker(words.English, s.Inch))
}

func foldersAsked(s *shop.Shop, name string) ([]*machine.Folder, error) {
	if name != "" {
		f, err := folderNamed(s, name)
		return []*machine.Folder{f}, err
	}
	all := make([]*machine.Folder, len(s.Folders))
	for i := range s.Folders {
		all[i] = &s.Folders[i]
	}
	return all, nil
}

func (d *Desk) answer(ctx context.Context, s *shop.Shop, j *job.Job, folded *fold.Folded, f *machine.Folder) (Answer, error) {
	a := Answer{Job: j, Folder: f}
	ways, miss := settings.Ways(j, folded, f, s.SettingsHouse())
	if len(ways) == 0 {
		a.Miss = miss
		return a, nil
	}
	a.Settings = &ways[0]
	err := d.fillMinutes(ctx, s, &a)
	return a, err
}

// fillMinutes plans a day with this job alone on this folder and reads the changeover off it. A folder that could fold the
// job and yet gives it no place, for want of tools or shafts, cannot run it either.
func (d *Desk) fillMinutes(ctx context.Context, s *shop.Shop, a *Answer) error {
	p, err := plan.Make(ctx, alone(s, a.Job, a.Folder), d.now(s), plan.Options{Iterations: 1})
	if err != nil {
		return err
	}
	r := newRack(s)
	for _, lane := range p.Folders {
		for _, t := range lane.Tasks {
			a.Run, a.Makeready, a.Lines = t.Run, t.Makeready, t.Lines
			for _, st := range t.Stations {
				a.Stations = append(a.Stations, r.station(a.Settings, st))
			}
		}
	}
	for _, u := range p.Unplaced {
		a.Settings, a.Miss = nil, &settings.Miss{Job: a.Job.Name, Folder: a.Folder.Name}
		for _, why := range u.Whys {
			if why.Folder == a.Folder.Name || why.Folder == "" {
				a.Miss.Whys = append(a.Miss.Whys, why.Text)
			}
		}
	}
	return nil
}

// alone is the shop with this job as its only one, free to start now on this folder.
func alone(s *shop.Shop, j *job.Job, f *machine.Folder) *shop.Shop {
	one := *j
	one.Pin = job.Pin{Folder: f.Name}
	one.After, one.Release = nil, time.Time{}
	only := *s
	only.Jobs = []job.Job{one}
	only.Done = slices.Concat(s.Done, s.Jobs) // what a folder is set for now may be any of them
	only.Done = slices.DeleteFunc(only.Done, func(d job.Job) bool { return d.Name == j.Name })
	return &only
}

// better orders answers: those that can first, by time to the last sheet.
func better(a, b Answer) int {
	if (a.Miss == nil) != (b.Miss == nil) {
		if a.Miss == nil {
			return -1
		}
		return 1
	}
	return cmp.Compare(a.Makeready+a.Run, b.Makeready+b.Run)
}

// refusal is the fault of a job that none of the folders asked can run, with the reasons of the one that lacks least; the
// answers hold those of all of them.
func refusal(answers []Answer, say *words.Speaker) error {
	for _, a := range answers {
		if a.Miss == nil {
			return nil
		}
	}
	nearest := slices.MinFunc(answers, func(a, b Answer) int { return cmp.Compare(len(a.Miss.Whys), len(b.Miss.Whys)) })
	no := fault.Fault{Kind: fault.No, Code: "no-folder", Field: "job " + nearest.Job.Name}
	if len(answers) == 1 {
		no.Wrong, no.Right = nearest.Folder.Name+" cannot fold it", say.Text(nearest.Miss.Why())
		return no
	}
	no.Wrong, no.Right = "no folder can fold it", "nearest is "+nearest.Folder.Name+": "+say.Text(nearest.Miss.Why())
	return no
}
