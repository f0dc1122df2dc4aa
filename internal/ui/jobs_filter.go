package ui

import (
	"cmp"
	"net/http"
	"net/url"
	"slices"
	"strconv"
	"strings"
	"time"

	"foldwright/internal/shop"
	"foldwright/internal/words"
)

// jobFilter says which jobs are wanted, and in which order.
type jobFilter struct {
	Find    string
	Folder  string // none = on no folder yet
	State   string // waiting (usual), done, all
	Due     string // late, today, tomorrow, week, none, or a day
	Nowhere bool
	Sort    string // a column; empty: the order of the shop
	Down    bool   // the other way round
}

// noFolder is the filter for jobs that are on no folder yet.
const noFolder = "none"

func readJobFilter(r *http.Request) jobFilter {
	f := jobFilter{
		Find: strings.TrimSpace(r.FormValue("find")), Folder: r.FormValue("folder"), State: r.FormValue("state"), Due: r.FormValue("due"),
		Nowhere: r.FormValue("nowhere") != "",
	}
	f.Sort, f.Down = strings.CutPrefix(r.FormValue("sort"), "-")
	if !slices.ContainsFunc(jobColumns, func(c jobColumn) bool { return c.sort != nil && c.id == f.Sort }) {
		f.Sort, f.Down = "", false
	}
	return f
}

// On says whether anything is left out but done jobs.
func (f jobFilter) On() bool { return f.Find+f.Folder+f.Due != "" || f.Nowhere || f.State != "" }

// SortSent is the order as the form sends it again.
func (f jobFilter) SortSent() string {
	if f.Down {
		return "-" + f.Sort
	}
	return f.Sort
}

func (f jobFilter) address() string {
	q := url.Values{}
	for name, value := range map[string]string{"find": f.Find, "folder": f.Folder, "state": f.State, "due": f.Due, "sort": f.SortSent()} {
		if value != "" {
			q.Set(name, value)
		}
	}
	if f.Nowhere {
		q.Set("nowhere", "1")
	}
	if len(q) == 0 {
		return "/jobs"
	}
	return "/jobs?" + q.Encode()
}

// fits says whether a job is wanted.
func (f jobFilter) fits(j *jobRow, now time.Time) bool {
	switch {
	case f.State == "" && j.Done, f.State == "done" && !j.Done:
		return false
	case f.Nowhere && !j.Nowhere:
		return false
	case f.Folder == noFolder && j.OnFolder() != "":
		return false
	case f.Folder != "" && f.Folder != noFolder && j.OnFolder() != f.Folder:
		return false
	case !f.dueFits(j, now):
		return false
	}
	if f.Find == "" {
		return true
	}
	in := j.jobFind()
	for _, word := range strings.Fields(strings.ToLower(f.Find)) {
		if !strings.Contains(in, word) {
			return false
		}
	}
	return true
}

// dueFits holds the due time to the calendar day of the shop's clock.
func (f jobFilter) dueFits(j *jobRow, now time.Time) bool {
	due := j.Due.In(now.Location())
	midnight := func(days int) time.Time {
		return time.Date(now.Year(), now.Month(), now.Day()+days, 0, 0, 0, 0, now.Location())
	}
	switch f.Due {
	case "late":
		return j.At != nil && j.At.Late > 0
	case "today":
		return !j.Due.IsZero() && due.Before(midnight(1))
	case "tomorrow":
		return !j.Due.IsZero() && !due.Before(midnight(1)) && due.Before(midnight(2))
	case "week":
		return !j.Due.IsZero() && due.Before(midnight(7))
	case "none":
		return j.Due.IsZero()
	case "":
		return true
	}
	return !j.Due.IsZero() && due.Format(time.DateOnly) == f.Due
}

func (f jobFilter) folders(s *shop.Shop) []choice {
	list := []choice{{"", words.T("all folders"), f.Folder == ""}}
	for _, name := range s.FolderNames() {
		list = append(list, choice{name, words.Plain(name), f.Folder == name})
	}
	return append(list, choice{noFolder, words.T("on none yet"), f.Folder == noFolder})
}

func (f jobFilter) states() []choice {
	return []choice{{"", words.T("waiting"), f.State == ""}, {"done", words.T("done"), f.State == "done"}, {"all", words.T("all"), f.State == "all"}}
}

// dueDays is the most days that are offered by their dates.
const dueDays = 21

// dues are the choices of due times: the usual ones, then the days on which waiting jobs are due.
func (f jobFilter) dues(s *shop.Shop) []choice {
	list := []choice{
		{"", words.T("at any time"), f.Due == ""},
		{"late", words.T("late in the order given"), f.Due == "late"},
		{"today", words.T("up to today"), f.Due == "today"},
		{"tomorrow", words.T("tomorrow"), f.Due == "tomorrow"},
		{"week", words.T("within 7 days"), f.Due == "week"},
		{"none", words.T("without a due time"), f.Due == "none"},
	}
	var days []string
	for i := range s.Jobs {
		if due := s.Jobs[i].Due; !due.IsZero() {
			days = append(days, due.In(s.Zone).Format(time.DateOnly))
		}
	}
	slices.Sort(days)
	days = slices.Compact(days)
	for _, d := range days[:min(len(days), dueDays)] {
		day, err := time.Parse(time.DateOnly, d)
		if err == nil {
			list = append(list, choice{d, words.T("%s %s", weekdays[day.Weekday()], d), f.Due == d})
		}
	}
	return list
}

// jobColumn is a column of the list, which can be sorted by it.
type jobColumn struct {
	id    string
	name  words.Text
	right bool // figures
	sort  func(a, b *jobRow) int
}

var jobColumns = []jobColumn{
	{"name", words.T("Job"), false, func(a, b *jobRow) int { return natural(a.Name, b.Name) }},
	{"customer", words.T("Customer"), false, func(a, b *jobRow) int { return cmp.Compare(a.Customer, b.Customer) }},
	{"sheet", words.T("Sheet and stock"), false, func(a, b *jobRow) int {
		return cmp.Or(cmp.Compare(a.Stock.Name, b.Stock.Name), cmp.Compare(a.Sheet.Length, b.Sheet.Length), cmp.Compare(a.Sheet.Width, b.Sheet.Width))
	}},
	{"scheme", words.T("Folding"), false, func(a, b *jobRow) int { return cmp.Compare(a.Folds(), b.Folds()) }},
	{"sheets", words.T("Sheets"), true, func(a, b *jobRow) int { return cmp.Compare(a.Sheets, b.Sheets) }},
	{"due", words.T("Due"), false, byDue},
	{"folder", words.T("Folder"), false, func(a, b *jobRow) int {
		return cmp.Or(cmp.Compare(a.OnFolder(), b.OnFolder()), cmp.Compare(a.place(), b.place()))
	}},
}

func (j jobRow) place() int {
	if j.At == nil {
		return 0
	}
	return j.At.Place
}

// byDue puts jobs without a due time last.
func byDue(a, b *jobRow) int {
	if a.Due.IsZero() != b.Due.IsZero() {
		return cmp.Compare(b.Due.Unix(), a.Due.Unix()) // the zero time is long ago
	}
	return a.Due.Compare(b.Due)
}

// natural compares dockets as numbers where they are.
func natural(a, b string) int {
	m, errA := strconv.Atoi(a)
	n, errB := strconv.Atoi(b)
	if errA == nil && errB == nil {
		return cmp.Compare(m, n)
	}
	return cmp.Compare(a, b)
}

// sort puts rows in the order asked for; equals stay in the shop's own order.
func (f jobFilter) sort(rows []jobRow) {
	i := slices.IndexFunc(jobColumns, func(c jobColumn) bool { return c.id == f.Sort })
	if f.Sort == "" || i < 0 {
		return
	}
	by := jobColumns[i].sort
	slices.SortStableFunc(rows, func(a, b jobRow) int {
		if f.Down {
			return by(&b, &a)
		}
		return by(&a, &b)
	})
}

// jobsHead is the head of a column: a click sorts by it, another one the other way round, a third by nothing.
type jobsHead struct {
	Name    words.Text
	Right   bool
	Sort    string // ascending, descending or empty, as it is sorted now
	Address string
}

func (f jobFilter) heads() []jobsHead {
	list := make([]jobsHead, len(jobColumns))
	for i, c := range jobColumns {
		next := f
		next.Sort, next.Down = c.id, false
		h := jobsHead{Name: c.name, Right: c.right}
		switch {
		case f.Sort == c.id && f.Down:
			h.Sort, next.Sort = "descending", ""
		case f.Sort == c.id:
			h.Sort, next.Down = "ascending", true
		}
		h.Address = next.address()
		list[i] = h
	}
	return list
}
