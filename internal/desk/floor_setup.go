package desk

import (
	"fmt"
	"slices"
	"time"

	"foldwright/internal/changeover"
	"foldwright/internal/fault"
	"foldwright/internal/job"
	"foldwright/internal/ledger"
	"foldwright/internal/plan"
	"foldwright/internal/settings"
	"foldwright/internal/shop"
	"foldwright/internal/tooling"
	"foldwright/internal/words"
)

// setUpOf asks the planner how the folder is set up when this job is the next on it and all others stay as they are.
func (d *Desk) setUpOf(s *shop.Shop, f *floor) (*plan.Task, error) {
	next := *s
	if !f.job().Pin.Started {
		next.Jobs = pinned(s.Jobs, f.i, job.Pin{Folder: f.folder.Name, Position: 1})
		one := &next.Jobs[f.i]
		one.After, one.Release = nil, time.Time{} // it is here, whatever was to come first
	}
	p, err := plan.Prepare(&next, d.now(s))
	if err != nil {
		return nil, err
	}
	made, err := p.Evaluate(p.Given())
	if err != nil {
		return nil, err
	}
	for _, lane := range made.Folders {
		for i := range lane.Tasks {
			if lane.Tasks[i].Job == f.job().Name {
				return &lane.Tasks[i], nil
			}
		}
	}
	return nil, noRun(made, f, words.NewSpeaker(words.English, s.Inch))
}

// noRun is the fault of a job that the folder cannot have run.
func noRun(p *plan.Plan, f *floor, say *words.Speaker) error {
	no := fault.Fault{Kind: fault.No, Code: CodeOnFolder, Field: "folder", Wrong: fmt.Sprintf("%s cannot run job %s", f.folder.Name, f.job().Name)}
	for _, u := range p.Unplaced {
		for _, why := range u.Whys {
			if u.Job == f.job().Name && (why.Folder == f.folder.Name || why.Folder == "") {
				no.Right = say.Text(why.Text)
			}
		}
	}
	return no
}

// setUp brings the sets of the task into their stations, with the tools that the job wants, and notes where the guides are.
func (f *floor) setUp() error {
	for _, st := range f.task.Stations {
		if st.Set == "" {
			continue
		}
		i, err := f.hands.set(st.Set)
		if err != nil {
			return err
		}
		f.hands.move(i, tooling.Place{Folder: f.folder.Name, Station: st.Station})
		if st.Mode == changeover.Built || st.Mode == changeover.InFolder {
			if err := f.hands.refit(i, f.station(st.Station).Pattern().Tools); err != nil {
				return err
			}
		}
	}
	f.state.Job, f.state.Guides = f.job().Name, nil
	for _, g := range f.task.Guides {
		f.state.Guides = append(f.state.Guides, shop.Guide{Unit: g.Unit, At: g.At})
	}
	return nil
}

// serve counts the run to the sets whose tools the job used.
func (f *floor) serve() {
	f.state.Job = f.job().Name
	for _, u := range f.task.Settings.Units {
		for _, st := range u.Stations {
			here := tooling.Place{Folder: f.folder.Name, Station: st.Name}
			i := slices.IndexFunc(f.hands.sets, func(s tooling.Set) bool { return s.Place == here })
			if i < 0 || len(st.Tools) == 0 {
				continue
			}
			set := f.hands.sets[i].Run(f.job().Sheets, u.Out.Length)
			set.Served = union(set.Served, []string{f.job().Name})
			f.hands.sets[i], f.hands.otherSets[i] = set, true
		}
	}
}

// station is what the job wants at a station of its folder.
func (f *floor) station(name string) settings.Station {
	for _, u := range f.task.Settings.Units {
		for _, st := range u.Stations {
			if st.Name == name {
				return st
			}
		}
	}
	return settings.Station{}
}

// edits lists what is different on the floor now.
func (f *floor) edits() []ledger.Edit {
	edits := append(putJobs(f.now, f.jobs), f.hands.edits()...)
	if tag, ok := f.now.Tag(ledger.OfPresent, f.folder.Name); ok {
		return append(edits, ledger.Put(tag, f.state))
	}
	return append(edits, ledger.Add(ledger.OfPresent, f.state))
}
