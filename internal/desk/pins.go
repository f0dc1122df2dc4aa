package desk

import (
	"cmp"
	"context"
	"fmt"
	"slices"

	"foldwright/internal/access"
	"foldwright/internal/job"
	"foldwright/internal/ledger"
)

// Pin holds a waiting job on a folder, at a place of it when one is given. Jobs that are held there already make room.
func (d *Desk) Pin(ctx context.Context, name string, pin job.Pin) (Thing, error) {
	return d.pin(ctx, name, fmt.Sprintf("%s pinned to %s", name, pin.Folder), pin)
}

// Unpin lets a job go wherever the plan puts it.
func (d *Desk) Unpin(ctx context.Context, name string) (Thing, error) {
	return d.pin(ctx, name, name+" not pinned any more", job.Pin{})
}

func (d *Desk) pin(ctx context.Context, name, what string, pin job.Pin) (Thing, error) {
	now, err := d.update(ctx, access.Arrange, what, func(now *ledger.Snapshot) ([]ledger.Edit, error) {
		i, err := waiting(now.Shop, name)
		if err != nil {
			return nil, err
		}
		if pin.Folder != "" {
			if _, err := folderNamed(now.Shop, pin.Folder); err != nil {
				return nil, err
			}
		}
		return putJobs(now, pinned(now.Shop.Jobs, i, pin)), nil
	})
	return thingIn(now, ledger.OfJob, name), err
}

// pinned is the jobs with one of them pinned elsewhere: those held behind its former place move up, those at its new place
// and behind make room. A job that is held on another folder than the order given has it stands there from now on.
func pinned(jobs []job.Job, i int, pin job.Pin) []job.Job {
	jobs = slices.Clone(jobs)
	from := jobs[i].Pin
	jobs[i].Pin = job.Pin{}
	if placeOf(from) > 0 {
		number(jobs, held(jobs, from.Folder))
	}
	if at := placeOf(pin); at > 0 {
		row := held(jobs, pin.Folder)
		if at <= len(row) { // beyond that, the rules of the shop say what is wrong
			for _, k := range row[at-1:] {
				jobs[k].Pin.Position = placeOf(jobs[k].Pin) + 1
			}
		}
	}
	jobs[i].Pin = pin
	if pin.Folder != "" && jobs[i].Given != "" && jobs[i].Given != pin.Folder {
		jobs[i].Given, jobs[i].Choices = pin.Folder, nil
	}
	return jobs
}

// held lists the jobs that have a place of a folder, by place.
func held(jobs []job.Job, folder string) []int {
	var row []int
	for i := range jobs {
		if jobs[i].Pin.Folder == folder && placeOf(jobs[i].Pin) > 0 {
			row = append(row, i)
		}
	}
	slices.SortStableFunc(row, func(a, b int) int { return cmp.Compare(placeOf(jobs[a].Pin), placeOf(jobs[b].Pin)) })
	return row
}

// number gives the jobs of a row the places from 1 on.
func number(jobs []job.Job, row []int) {
	for n, k := range row {
		if placeOf(jobs[k].Pin) != n+1 {
			jobs[k].Pin.Position = n + 1
		}
	}
}

// placeOf is the place that a pin holds; 0 when it is anywhere on the folder. What has started comes first.
func placeOf(p job.Pin) int {
	if p.Started && p.Position == 0 {
		return 1
	}
	return p.Position
}

// putJobs lists the edits that make the waiting jobs of the shop these, in the same order.
func putJobs(now *ledger.Snapshot, jobs []job.Job) []ledger.Edit {
	var edits []ledger.Edit
	for i, t := range now.Tags(ledger.OfJob) {
		if was := &now.Shop.Jobs[i]; was.Pin != jobs[i].Pin || was.Given != jobs[i].Given {
			edits = append(edits, ledger.Put(t, jobs[i]))
		}
	}
	return edits
}
