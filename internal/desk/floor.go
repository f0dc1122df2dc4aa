package desk

import (
	"context"
	"fmt"
	"slices"

	"foldwright/internal/access"
	"foldwright/internal/fault"
	"foldwright/internal/job"
	"foldwright/internal/ledger"
	"foldwright/internal/machine"
	"foldwright/internal/plan"
	"foldwright/internal/shop"
)

// The codes of what the floor cannot have done.
const (
	CodeFolderBusy fault.Code = "folder-busy"
	CodeJobDone    fault.Code = "job-done"
	CodeOnFolder   fault.Code = "job-folder"
)

// Start says that a job is made ready and runs on a folder: it is first there and started, the folder is set for it, and the
// sets that its make-ready takes stand in their stations.
func (d *Desk) Start(ctx context.Context, name, folder string) (Thing, error) {
	now, err := d.onFloor(ctx, name, folder, "%s runs on %s", func(f *floor) ([]ledger.Edit, error) {
		if f.job().Pin.Started {
			return nil, fault.Fault{Kind: fault.Conflict, Code: CodeFolderBusy, Field: "job " + name, Wrong: "it runs on " + f.folder.Name + " already", Right: "finish it there"}
		}
		f.jobs = pinned(f.jobs, f.i, job.Pin{Folder: f.folder.Name, Position: 1, Started: true})
		if err := f.setUp(); err != nil {
			return nil, err
		}
		return f.edits(), nil
	})
	return thingIn(now, ledger.OfJob, name), err
}

// Finish says that all sheets of a job are folded: it is done, its sets have served it, and its folder still stands as it
// left it. A job that nobody said had started is taken to have been made ready as planned.
func (d *Desk) Finish(ctx context.Context, name, folder string) (Thing, error) {
	now, err := d.onFloor(ctx, name, folder, "%s is finished on %s", func(f *floor) ([]ledger.Edit, error) {
		if !f.job().Pin.Started {
			if err := f.setUp(); err != nil {
				return nil, err
			}
		}
		f.serve()
		done := *f.job()
		f.jobs = pinned(f.jobs, f.i, job.Pin{})
		done.Pin, done.After, done.Given, done.Choices = job.Pin{}, nil, f.folder.Name, nil
		edits := []ledger.Edit{ledger.Remove(f.now.Tags(ledger.OfJob)[f.i]), ledger.Add(ledger.OfDone, done)}
		f.jobs[f.i] = f.now.Shop.Jobs[f.i] // it goes; nothing to put
		return append(edits, f.edits()...), nil
	})
	return thingIn(now, ledger.OfDone, name), err
}

// floor is a job on its folder as the floor reports it, with what that changes.
type floor struct {
	now    *ledger.Snapshot
	folder *machine.Folder
	i      int // of the job among the waiting ones
	jobs   []job.Job
	task   *plan.Task // how the folder is set up for it from what stands there now
	state  shop.State
	hands  *hands
}

func (f *floor) job() *job.Job { return &f.jobs[f.i] }

// onFloor works out what a report of the floor changes, and keeps it. That takes a plan, so it is done before the turn to
// write; whatever changed until then is a conflict.
func (d *Desk) onFloor(ctx context.Context, name, folder, what string, report func(f *floor) ([]ledger.Edit, error)) (*ledger.Snapshot, error) {
	if err := access.From(ctx).May(access.Record); err != nil {
		return nil, err
	}
	now, err := d.Snapshot(ctx)
	if err != nil {
		return nil, err
	}
	if err := now.Faults.Err(); err != nil {
		return nil, err
	}
	f, err := d.atFolder(now, name, folder)
	if err != nil {
		return nil, err
	}
	edits, err := report(f)
	if err != nil {
		return nil, err
	}
	return d.change(ctx, access.Record, fmt.Sprintf(what, name, f.folder.Name), edits...)
}

// atFolder finds a waiting job and its folder: the one named, else that of its pin, else that of the order given.
func (d *Desk) atFolder(now *ledger.Snapshot, name, folder string) (*floor, error) {
	f := &floor{now: now, jobs: slices.Clone(now.Shop.Jobs), hands: newHands(now)}
	var err error
	if f.i, err = waiting(now.Shop, name); err != nil {
		return nil, err
	}
	pin := f.job().Pin
	switch {
	case pin.Started && folder != "" && folder != pin.Folder:
		return nil, fault.Fault{Kind: fault.Conflict, Code: CodeOnFolder, Field: "folder", Wrong: fmt.Sprintf("job %s runs on %s", name, pin.Folder), Right: "name that folder, or none"}
	case folder == "" && pin.Folder != "":
		folder = pin.Folder
	case folder == "" && f.job().Given != "":
		folder = f.job().Given
	case folder == "":
		return nil, fault.Fault{Kind: fault.Input, Code: CodeOnFolder, Field: "folder", Wrong: "the job has no folder yet", Right: "say on which one it runs"}
	}
	if f.folder, err = folderNamed(now.Shop, folder); err != nil {
		return nil, err
	}
	for k := range f.jobs {
		if p := f.jobs[k].Pin; k != f.i && p.Started && p.Folder == folder {
			return nil, fault.Fault{Kind: fault.Conflict, Code: CodeFolderBusy, Field: "folder", Wrong: fmt.Sprintf("job %s runs on %s", f.jobs[k].Name, folder), Right: "finish that one first"}
		}
	}
	f.state = shop.State{Folder: folder}
	if st, ok := now.Shop.State(folder); ok {
		f.state = *st
	}
	f.task, err = d.setUpOf(now.Shop, f)
	return f, err
}

// waiting is the number of a job that is not done.
func waiting(s *shop.Shop, name string) (int, error) {
	if i := slices.IndexFunc(s.Jobs, func(j job.Job) bool { return j.Name == name }); i >= 0 {
		return i, nil
	}
	if _, done := s.Job(name); done {
		return 0, fault.Fault{Kind: fault.Conflict, Code: CodeJobDone, Field: "job " + name, Wrong: "it is done already", Right: "repeat it as a new job"}
	}
	return 0, unknown("job", name, s.JobNames())
}
