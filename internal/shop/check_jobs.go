package shop

import (
	"cmp"
	"fmt"
	"slices"
	"strings"

	"foldwright/internal/fault"
	"foldwright/internal/job"
	"foldwright/internal/paper"
)

func (c *checker) doneNames() []string {
	return names(c.shop.Done, func(j job.Job) string { return j.Name })
}

func (c *checker) jobs() {
	c.jobNames()
	folders, jobs := listed(c.shop.FolderNames()), listed(append(c.shop.JobNames(), c.doneNames()...))
	for i := range c.shop.Jobs {
		if c.full() {
			return // folding a sheet is the dearest part of a check
		}
		path := fmt.Sprintf("jobs[%d]", i)
		j := &c.shop.Jobs[i]
		c.job(path, j)
		c.references(path, j, folders, jobs)
	}
	for i := range c.shop.Done {
		c.job(fmt.Sprintf("done[%d]", i), &c.shop.Done[i])
	}
}

// jobNames holds the names of all jobs to their rules; those done and those to come share one set of names.
func (c *checker) jobNames() {
	c.names("jobs", "name", c.shop.JobNames())
	c.names("done", "name", c.doneNames())
	open := listed(c.shop.JobNames())
	for i, name := range c.doneNames() {
		if name != "" && open.has[name] {
			c.add(CodeTwice, fmt.Sprintf("done[%d].name", i), fmt.Sprintf("%q is among the jobs too", clip(name)), "give each its own name")
		}
	}
}

// job holds a job to its own rules.
func (c *checker) job(path string, j *job.Job) {
	if !c.sound(j) {
		c.under(path, asInTheFile(j.Check()))
	}
	if listed, ok := c.shop.Stock(j.Stock.Name); !ok || !sameStock(*listed, j.Stock) {
		if j.Stock.Grammage > 0 { // else told by the job itself
			c.stock(path+".stock", j.Stock)
		}
	}
}

// asInTheFile tells what the fold room says of a step at the field that the file has.
func asInTheFile(found fault.List) fault.List {
	for i, f := range found {
		switch place, _, _ := strings.Cut(f.Field, " "); place {
		case "step":
			found[i].Field, found[i].Wrong = "fold", f.Field+": "+f.Wrong
		case "sheet":
			found[i].Field = "sheet"
		case "scheme":
			found[i].Field = "fold"
		}
	}
	return found
}

// sameStock compares stocks but for the grain, which belongs to the job.
func sameStock(a, b paper.Stock) bool {
	a.Grain, b.Grain = paper.GrainUnknown, paper.GrainUnknown
	return a == b
}

// references holds what a job names to what there is.
func (c *checker) references(path string, j *job.Job, folders, jobs nameList) {
	if j.Given != "" {
		c.known(path+".given", "folder", j.Given, folders)
	}
	if j.Pin.Folder != "" && c.known(path+".pin.folder", "folder", j.Pin.Folder, folders) && j.Given != "" && j.Given != j.Pin.Folder {
		c.add(CodePin, path+".given", fmt.Sprintf("the job stands on %s in the order given and is pinned to %s", clip(j.Given), clip(j.Pin.Folder)), "name the same folder, or leave given out")
	}
	for k, name := range j.After {
		c.known(fmt.Sprintf("%s.after[%d]", path, k), "job", name, jobs)
	}
}

// before lists the jobs that must come before a job: those it waits for, and the one that is pinned ahead of it.
func (c *checker) before(i int, number map[string]int) []int {
	var list []int
	for _, name := range c.shop.Jobs[i].After {
		if k, ok := number[name]; ok && k != i {
			list = append(list, k)
		}
	}
	if k, ok := c.ahead[i]; ok {
		list = append(list, k)
	}
	return list
}

// cycles finds jobs that wait for one another, by taking away again and again those that wait for none of the rest.
func (c *checker) cycles() {
	jobs := c.shop.Jobs
	number := map[string]int{}
	for i := range jobs {
		number[jobs[i].Name] = i
	}
	waits := make([]int, len(jobs))
	followers := make([][]int, len(jobs))
	var free []int
	for i := range jobs {
		for _, k := range c.before(i, number) {
			waits[i]++
			followers[k] = append(followers[k], i)
		}
		if waits[i] == 0 {
			free = append(free, i)
		}
	}
	for len(free) > 0 {
		done := free[len(free)-1]
		free = free[:len(free)-1]
		for _, f := range followers[done] {
			if waits[f]--; waits[f] == 0 {
				free = append(free, f)
			}
		}
	}
	c.tellCycle(waits, number)
}

// tellCycle follows, from the first job that still waits, who waits for whom until a name comes again.
func (c *checker) tellCycle(waits []int, number map[string]int) {
	at := slices.IndexFunc(waits, func(n int) bool { return n > 0 })
	if at < 0 {
		return
	}
	seen := map[int]int{}
	var chain []int
	for {
		if from, again := seen[at]; again {
			chain = chain[from:]
			break
		}
		seen[at] = len(chain)
		chain = append(chain, at)
		for _, k := range c.before(at, number) {
			if waits[k] > 0 {
				at = k
				break
			}
		}
	}
	slices.Reverse(chain) // in the order in which they would have to run
	first := slices.Index(chain, slices.Min(chain))
	var told []string
	for i := range chain {
		told = append(told, c.shop.Jobs[chain[(first+i)%len(chain)]].Name)
	}
	c.add(CodeCycle, fmt.Sprintf("jobs[%d].after", chain[first]), "these jobs wait for one another, by after or by their pins: "+few(append(told, told[0])),
		"one of them must not wait")
}

// pins holds the places that people gave to jobs to one another.
func (c *checker) pins() {
	for _, folder := range c.shop.FolderNames() {
		var held []int
		for i := range c.shop.Jobs {
			if p := c.shop.Jobs[i].Pin; p.Folder == folder && (p.Position > 0 || p.Started) {
				held = append(held, i)
			}
		}
		c.heldOn(folder, held)
	}
}

// place is where a pinned job stands on its folder: what has started comes first.
func place(p job.Pin) int {
	if p.Started && p.Position == 0 {
		return 1
	}
	return p.Position
}

// heldOn holds the pinned jobs of one folder to one another.
func (c *checker) heldOn(folder string, held []int) {
	jobs := c.shop.Jobs
	slices.SortStableFunc(held, func(a, b int) int { return cmp.Compare(place(jobs[a].Pin), place(jobs[b].Pin)) })
	for k, i := range held {
		field := fmt.Sprintf("jobs[%d].pin", i)
		at := place(jobs[i].Pin)
		before := 0
		if k > 0 {
			before = place(jobs[held[k-1]].Pin)
		}
		switch {
		case at == before:
			c.add(CodePin, field, fmt.Sprintf("position %d on %s is held by %q too", at, folder, clip(jobs[held[k-1]].Name)), "give each position once; what has started comes first")
		case jobs[i].Pin.Started && at != 1:
			c.add(CodePin, field, fmt.Sprintf("a started job at position %d on %s", at, folder), "what has started comes first")
		case at > before+1:
			c.add(CodePin, field, fmt.Sprintf("position %d on %s, and nothing at position %d", at, folder, before+1), "pin from position 1 on, without gaps")
		}
		if k > 0 {
			c.ahead[i] = held[k-1]
		}
		c.free(field, i, folder)
	}
}

// free says when a job that is held at the head of a folder waits for one that must run there too, behind those held.
func (c *checker) free(field string, i int, folder string) {
	for _, name := range c.shop.Jobs[i].After {
		other, ok := find(c.shop.Jobs, func(j *job.Job) bool { return j.Name == name })
		if ok && other.Pin.Folder == folder && place(other.Pin) == 0 {
			c.add(CodePin, field, fmt.Sprintf("%q is held in its place on %s and waits for %q, which runs there behind it", clip(c.shop.Jobs[i].Name), folder, clip(name)),
				"give both a position, or let it not wait")
		}
		if ok && c.shop.Jobs[i].Pin.Started && !other.Pin.Started {
			c.add(CodePin, field, fmt.Sprintf("%q has started, and waits for %q, which has not", clip(c.shop.Jobs[i].Name), clip(name)), "let it not wait, or move what is finished to done")
		}
	}
}
