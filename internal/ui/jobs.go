package ui

import (
	"net/http"
	"net/url"
	"slices"
	"strings"
	"time"

	"foldwright/internal/access"
	"foldwright/internal/desk"
	"foldwright/internal/job"
	"foldwright/internal/machine"
	"foldwright/internal/plan"
	"foldwright/internal/shop"
	"foldwright/internal/words"
)

func (p *pages) jobsRoutes() []route {
	return slices.Concat([]route{
		{pattern: "GET /jobs", serve: p.jobs, deed: access.See, call: "list-jobs"},
		{pattern: "GET /jobs/{job}", serve: p.job, deed: access.See, call: "job-settings"},
		{pattern: "GET /jobs/{job}/card.pdf", serve: p.jobCard, deed: access.See, call: "job-card"},
		{pattern: "GET /jobs/{job}/bench.pdf", serve: p.jobBench, deed: access.See, call: "set-bench-card"},
	}, p.jobFormRoutes(), p.floorRoutes(), p.recordsRoutes())
}

// jobsBody is what the list of jobs shows.
type jobsBody struct {
	Filter  jobFilter
	Rows    []jobRow
	More    int // that fit and are not shown
	Hidden  int // that do not fit
	Folders []choice
	States  []choice
	Dues    []choice
	Heads   []jobsHead
	Late    int
	Nowhere int
	Empty   bool // the shop has no job at all
}

// jobRow is a job in the list.
type jobRow struct {
	*job.Job
	Page    string
	Done    bool
	At      *placedJob // in the order given; nil when it has no place there
	Nowhere bool       // no folder can fold it
	Lost    bool       // it has no place for another reason
	Due     time.Time  // by the clock of the shop
}

// placedJob is where the order given has a job.
type placedJob struct {
	*plan.Task
	Folder string
	Place  int
}

// Folds is how it folds, in as few words as there are.
func (j jobRow) Folds() string { return schemeInShort(j.Job) }

// Wanted is the operations in short: those on folds together by what is done, without their wheels.
func (j jobRow) Wanted() (list []words.Text) {
	var verbs []string
	folds := map[string]words.Joined{}
	for _, op := range j.Operations {
		if op.Target != job.OnFold {
			list = append(list, op.Short())
			continue
		}
		verb := string(op.Kind)
		if !slices.Contains(verbs, verb) {
			verbs = append(verbs, verb)
		}
		folds[verb] = append(folds[verb], op.Short())
	}
	for _, verb := range verbs {
		list = append(list, words.T("%s: %s", words.Text{Key: verb}, folds[verb]))
	}
	return list
}

// OnFolder is the folder of the order given, else the one on the docket.
func (j jobRow) OnFolder() string {
	if j.At != nil {
		return j.At.Folder
	}
	return j.Given
}

func schemeInShort(j *job.Job) string {
	if j.Scheme.Name != "" {
		return j.Scheme.Name
	}
	return j.Scheme.String()
}

// jobPath is the page of a job.
func jobPath(name string) string { return "/jobs/" + url.PathEscape(name) }

// rowsShown is the most jobs a list shows; beyond that one filters.
const rowsShown = 500

func (p *pages) jobs(w http.ResponseWriter, r *http.Request) error {
	s, err := p.desk.Shop(r.Context())
	if err != nil {
		return err
	}
	given, err := p.desk.Draft(r.Context(), desk.GivenDraft)
	if err != nil {
		return err
	}
	b := listJobs(s, given.Plan, readJobFilter(r), p.clock(s))
	if partial(r) {
		return p.part(w, r, "jobs", "jobs-list", b)
	}
	return p.show(w, r, page{name: "jobs", title: words.T("Jobs"), body: b})
}

// listJobs makes the list: all rows, then those that fit, in the order asked for.
func listJobs(s *shop.Shop, given *plan.Plan, f jobFilter, now time.Time) *jobsBody {
	b := &jobsBody{Filter: f, Heads: f.heads(), Folders: f.folders(s), States: f.states(), Dues: f.dues(s)}
	rows := jobRows(s, given)
	b.Empty = len(rows) == 0
	for i := range rows {
		row := &rows[i]
		if row.Nowhere {
			b.Nowhere++
		}
		if row.At != nil && row.At.Late > 0 {
			b.Late++
		}
		switch {
		case f.fits(row, now):
			b.Rows = append(b.Rows, *row)
		case f.State != "" || !row.Done: // that done ones are not among the waiting ones goes without saying
			b.Hidden++
		}
	}
	f.sort(b.Rows)
	if n := len(b.Rows); n > rowsShown {
		b.Rows, b.More = b.Rows[:rowsShown], n-rowsShown
	}
	return b
}

// jobRows are the waiting jobs in the order of the shop, then the done ones, the last first.
func jobRows(s *shop.Shop, given *plan.Plan) []jobRow {
	at := map[string]*placedJob{}
	for i := range given.Folders {
		for k := range given.Folders[i].Tasks {
			t := &given.Folders[i].Tasks[k]
			at[t.Job] = &placedJob{t, given.Folders[i].Name, k + 1}
		}
	}
	without := map[string][]plan.Why{}
	for _, u := range given.Unplaced {
		without[u.Job] = u.Whys
	}
	rows := make([]jobRow, 0, len(s.Jobs)+len(s.Done))
	for i := range s.Jobs {
		j := &s.Jobs[i]
		whys, lost := without[j.Name]
		row := jobRow{Job: j, Page: jobPath(j.Name), At: at[j.Name], Lost: lost}
		row.Nowhere = lost && foldedNowhere(whys, s)
		if !j.Due.IsZero() {
			row.Due = j.Due.In(s.Zone)
		}
		rows = append(rows, row)
	}
	for i := len(s.Done) - 1; i >= 0; i-- {
		rows = append(rows, jobRow{Job: &s.Done[i], Page: jobPath(s.Done[i].Name), Done: true, Due: s.Done[i].Due})
	}
	return rows
}

// foldedNowhere tells a job that no folder can fold from one that found no place: then every folder has its reason.
func foldedNowhere(whys []plan.Why, s *shop.Shop) bool {
	said := map[string]bool{}
	for _, w := range whys {
		said[w.Folder] = true
	}
	return !slices.ContainsFunc(s.Folders, func(f machine.Folder) bool { return !said[f.Name] })
}

// jobFind is what the search looks into.
func (j jobRow) jobFind() string {
	parts := []string{j.Name, j.Title, j.Customer, j.Stock.Name, j.Folds(), j.OnFolder()}
	for _, op := range j.Operations {
		parts = append(parts, op.String())
	}
	return strings.ToLower(strings.Join(parts, " "))
}
