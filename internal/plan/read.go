package plan

import (
	"fmt"
	"slices"
	"strings"

	"foldwright/internal/fault"
	"foldwright/internal/schedule"
	"foldwright/internal/shop"
	"foldwright/internal/words"
)

// reading is an order of names in the numbers of the problem.
type reading struct {
	named Order          // with a lane for every folder, in the order of the shop
	all   schedule.Order // the jobs it names
	order schedule.Order // without those that wait for a job it leaves out
	left  []leftOut

	wishes []schedule.Wish // what was chosen for it
}

// leftOut is a job that an order leaves out, and why.
type leftOut struct {
	job int
	why words.Text
}

// reader turns names into numbers and lists what is wrong.
type reader struct {
	*translation
	number map[string]int // of each job
	seen   map[string]string
	lanes  []bool
	out    reading
	faults fault.List
}

// read turns an order of names into one of numbers. Lanes may come in any order, and an empty one may be left out.
func (t *translation) read(o Order) (reading, error) {
	r := reader{translation: t, number: t.numbers(), seen: map[string]string{}, lanes: make([]bool, len(t.shop.Folders))}
	r.out.all = make(schedule.Order, len(t.shop.Folders))
	for i, lane := range o {
		r.lane(fmt.Sprintf("order[%d]", i), lane)
	}
	if len(r.faults) == 0 {
		r.fixed()
	}
	if err := r.faults.Err(); err != nil {
		return reading{}, err
	}
	r.out.wishes = t.wishes(o)
	r.out.named = t.named(r.out.all, r.out.wishes)
	r.leaveOut()
	return r.out, nil
}

func (r *reader) lane(field string, lane Lane) {
	m := slices.Index(r.shop.FolderNames(), lane.Folder)
	if m < 0 {
		r.faults.Add(fault.Fault{
			Kind: fault.Missing, Code: CodeOrderName, Field: field + ".folder",
			Wrong: fmt.Sprintf("there is no folder %q", lane.Folder), Right: shop.DidYouMean(lane.Folder, "folder", r.shop.FolderNames()),
		})
		return
	}
	if r.lanes[m] {
		r.faults.Add(fault.Fault{Code: CodeOrderTwice, Field: field + ".folder", Wrong: "the folder " + lane.Folder + " stands in the order twice", Right: "give it one lane"})
		return
	}
	r.lanes[m] = true
	for n, name := range lane.Jobs {
		if j, ok := r.job(fmt.Sprintf("%s.jobs[%d]", field, n), name, m); ok {
			r.out.all[m] = append(r.out.all[m], j)
		}
	}
}

// job finds the number of a job that stands on a folder, or says what is wrong with that.
func (r *reader) job(field, name string, m int) (int, bool) {
	folder := r.folder(m).Name
	if on, ok := r.seen[name]; ok {
		r.faults.Add(fault.Fault{Code: CodeOrderTwice, Field: field, Wrong: fmt.Sprintf("job %s stands twice, on %s and on %s", name, on, folder), Right: "give it one place"})
		return 0, false
	}
	r.seen[name] = folder
	j, ok := r.number[name]
	if !ok {
		r.faults.Add(r.noSuchJob(field, name, folder))
		return 0, false
	}
	if r.ways[j][m] == nil {
		r.faults.Add(cannotRun(field, name, folder, r.whys[j]))
		return 0, false
	}
	return j, true
}

// noSuchJob tells a job that no folder can run, or that is done, from one that nobody knows.
func (r *reader) noSuchJob(field, name, folder string) fault.Fault {
	for _, u := range r.unplaced {
		if u.Job == name {
			return cannotRun(field, name, folder, u.Whys)
		}
	}
	if _, ok := r.shop.Job(name); ok {
		return fault.Fault{Kind: fault.Missing, Code: CodeOrderName, Field: field, Wrong: "job " + name + " is done", Right: "leave it out"}
	}
	return fault.Fault{
		Kind: fault.Missing, Code: CodeOrderName, Field: field,
		Wrong: fmt.Sprintf("there is no job %q", name), Right: shop.DidYouMean(name, "job", r.shop.JobNames()),
	}
}

// cannotRun says why a folder does not take a job.
func cannotRun(field, name, folder string, whys []Why) fault.Fault {
	f := fault.Fault{Kind: fault.No, Code: CodeOrderRun, Field: field, Wrong: fmt.Sprintf("%s cannot run job %s", folder, name)}
	for _, why := range whys {
		if why.Folder == folder || why.Folder == "" {
			f.Wrong += ": " + why.Text.String()
			break
		}
	}
	return f
}

// fixed holds the order to the jobs that have started and those pinned to the front.
func (r *reader) fixed() {
	for m := range r.problem.Machines {
		fixed := r.problem.Machines[m].Fixed
		if row := r.out.all[m]; len(row) < len(fixed) || !slices.Equal(row[:len(fixed)], fixed) {
			var names []string
			for _, j := range fixed {
				names = append(names, r.jobs[j].Name)
			}
			r.faults.Add(fault.Fault{
				Code: CodeOrderFixed, Field: "order",
				Wrong: fmt.Sprintf("on %s a job that has started or is pinned to its place does not stand there", r.folder(m).Name),
				Right: "begin the folder with " + strings.Join(names, ", "),
			})
		}
	}
}

// leaveOut lists the jobs that the order leaves out, and drops those that wait for one of them.
func (r *reader) leaveOut() {
	out := make([]bool, len(r.jobs))
	for j := range out {
		out[j] = true
	}
	for _, row := range r.out.all {
		for _, j := range row {
			out[j] = false
		}
	}
	for j := range out {
		if out[j] {
			r.out.left = append(r.out.left, leftOut{j, words.T("not in the order")})
		}
	}
	for changed := true; changed; {
		changed = false
		for _, p := range r.problem.Precedences {
			if out[p.Before] && !out[p.After] {
				out[p.After], changed = true, true
				r.out.left = append(r.out.left, leftOut{p.After, words.T("it waits for %s, which is not in the order", r.jobs[p.Before].Name)})
			}
		}
	}
	r.out.order = make(schedule.Order, len(r.out.all))
	for m, row := range r.out.all {
		r.out.order[m] = slices.DeleteFunc(slices.Clone(row), func(j int) bool { return out[j] })
	}
}

// complete puts the jobs that an order leaves out where they would end first, one after another in the order of the shop.
func (t *translation) complete(order schedule.Order) schedule.Order {
	placed := make([]bool, len(t.jobs))
	for _, row := range order {
		for _, j := range row {
			placed[j] = true
		}
	}
	return t.fill(order.Clone(), placed)
}
