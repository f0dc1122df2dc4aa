package ui

import (
	"net/http"
	"net/url"
	"slices"
	"strings"

	"foldwright/internal/access"
	"foldwright/internal/desk"
	"foldwright/internal/fold"
	"foldwright/internal/ledger"
	"foldwright/internal/shop"
	"foldwright/internal/words"
)

func (p *pages) jobFormRoutes() []route {
	return []route{
		{pattern: "GET /jobs/new", serve: p.jobNew, deed: access.Arrange, call: "list-jobs"},
		{pattern: "POST /jobs/new", serve: p.jobSent, deed: access.Arrange, call: "add-jobs"},
		{pattern: "GET /jobs/{job}/edit", serve: p.jobEdit, deed: access.Arrange, call: "get-jobs"},
		{pattern: "POST /jobs/{job}/edit", serve: p.jobSent, deed: access.Arrange, call: "put-jobs"},
		{pattern: "POST /jobs/try", serve: p.jobTry, deed: access.Arrange, call: "try-job"},
	}
}

// jobForm is the form of a docket with what it would come to beside it.
type jobForm struct {
	*form
	Like    string // the earlier job that this one repeats
	Groups  []inputGroup
	Trial   *trialView // nil until somebody asked
	Schemes []schemeGroup
	Folds   []string // examples to begin with
	Helper  url.Values
	Wheels  []string // that the shop has
	Action  string
}

// inputGroup is a part of the form under a heading of its own.
type inputGroup struct {
	ID     string
	Title  words.Text
	Inputs []*input
	Closed bool // folded away until somebody opens it
	Ops    bool // the operations, with their helper
}

// jobGroups are the parts of a docket's form, by the names of its fields.
var jobGroups = []struct {
	id     string
	title  words.Text
	fields []string
	closed bool
}{
	{"docket", words.T("Docket"), []string{"name", "title", "customer", "sheets", "due"}, false},
	{"paper", words.T("Sheet and stock"), []string{"sheet", "stock", "grain"}, false},
	{"folding", words.T("Folding"), []string{"scheme", "fold", "first", "lap", "trims"}, false},
	{"wanted", words.T("Operations"), []string{"operations"}, false},
	{"order", words.T("Times, order and limits"), []string{"release", "weight", "after", "given", "choices", "pin", "rate"}, true},
}

// repeatFirst is what differs in a repeat; it stands first, and the rest is kept.
var repeatFirst = []string{"name", "title", "sheets", "due"}

func repeatPath(name string) string { return "/jobs/new?like=" + url.QueryEscape(name) }

// jobNew is the form of a new job, or of the repeat of an earlier one.
func (p *pages) jobNew(w http.ResponseWriter, r *http.Request) error {
	like := r.FormValue("like")
	if like == "" {
		f, err := p.blankForm(r, ledger.OfJob)
		if err != nil {
			return err
		}
		f.Back = "/jobs"
		return p.showJobForm(w, r, &jobForm{form: f})
	}
	again, err := p.desk.Again(r.Context(), like, desk.RepeatAsk{})
	if err != nil {
		return err
	}
	f, err := p.formLike(r, ledger.OfJob, again)
	if err != nil {
		return err
	}
	f.Back = jobPath(like)
	b := &jobForm{form: f, Like: like}
	if b.Trial, err = p.try(r, f); err != nil {
		return err
	}
	return p.showJobForm(w, r, b)
}

func (p *pages) jobEdit(w http.ResponseWriter, r *http.Request) error {
	t, err := p.desk.Thing(r.Context(), ledger.OfJob, r.PathValue("job"))
	if err != nil {
		return err
	}
	f, err := p.formOf(r, t)
	if err != nil {
		return err
	}
	f.Back = jobPath(t.Name)
	b := &jobForm{form: f}
	if b.Trial, err = p.try(r, f); err != nil {
		return err
	}
	return p.showJobForm(w, r, b)
}

// jobSent takes a sent docket: it keeps it, or shows it again with what it would come to.
func (p *pages) jobSent(w http.ResponseWriter, r *http.Request) error {
	f, saves, err := p.sentForm(r, ledger.OfJob)
	if err != nil {
		return err
	}
	b := &jobForm{form: f, Like: r.PostForm.Get("like")}
	switch r.PostForm.Get("do") {
	case "check":
		saves = false
		f.value() // its faults stand beside the fields
	case "operation":
		saves = false
		f.typed.at("operations").addText(operationTyped(r.PostForm))
	}
	if saves {
		kept, saved, err := p.save(r, f)
		if err != nil {
			return err
		}
		if saved {
			return p.done(w, r, jobPath(kept.Name), kept.Version, savedText(kept.Tag))
		}
	}
	if !saves || f.Theirs != nil || len(f.Faults) > 0 {
		if b.Trial, err = p.try(r, f); err != nil {
			return err
		}
		b.Trial.beside(f, r.PostForm.Get("do") == "check")
	}
	b.Helper = r.PostForm
	return p.showJobForm(w, r, b)
}

// addText puts a text behind the others of a list.
func (t *tree) addText(text string) {
	if t == nil || !t.whole || text == "" || len(t.items) >= rowsMost {
		return
	}
	t.items = append(t.items, &tree{text: text})
}

func (p *pages) showJobForm(w http.ResponseWriter, r *http.Request, b *jobForm) error {
	title := words.T("New job")
	switch {
	case !b.New():
		title = words.T("Job %s", b.Name)
	case b.Like != "":
		title = words.T("Repeat of %s", b.Like)
	}
	b.lay()
	return p.show(w, r, page{name: "job_form", title: title, body: b, status: b.status()})
}

// lay puts the inputs into their groups.
func (b *jobForm) lay() {
	all := b.Inputs()
	find := func(name string) *input {
		return all[slices.IndexFunc(all, func(in *input) bool { return in.Path == name })]
	}
	taken := map[string]bool{}
	group := func(g inputGroup, names []string) {
		for _, name := range names {
			if !taken[name] {
				taken[name] = true
				g.Inputs = append(g.Inputs, find(name))
			}
		}
		if len(g.Inputs) > 0 {
			b.Groups = append(b.Groups, g)
		}
	}
	if b.Like != "" {
		group(inputGroup{ID: "repeat", Title: words.T("What differs")}, repeatFirst)
	}
	for _, g := range jobGroups {
		group(inputGroup{ID: g.id, Title: g.title, Closed: g.closed || b.Like != "", Ops: g.id == "wanted"}, g.fields)
	}
	for i := range b.Groups {
		b.Groups[i].Closed = b.Groups[i].Closed && !slices.ContainsFunc(b.Groups[i].Inputs, faulty)
	}
	find("scheme").List, find("fold").List = "scheme-names", "fold-examples"
	b.Schemes, b.Folds, b.Wheels = catalogueSchemes(), foldExamples, wheels(b.shop)
	b.Action = "/jobs/new"
	if !b.New() {
		b.Action = jobPath(b.Name) + "/edit"
	}
}

// wheels are the specs of the wheels that the shop has.
func wheels(s *shop.Shop) (specs []string) {
	for _, t := range s.Tools {
		if t.Spec != "" && !slices.Contains(specs, t.Spec) {
			specs = append(specs, t.Spec)
		}
	}
	return specs
}

// faulty says whether there is something wrong with an input or inside it.
func faulty(in *input) bool { return in.Mark() || slices.ContainsFunc(in.Inside, faulty) }

// schemeGroup is the schemes of the catalogue whose names begin alike: those with as many pages.
type schemeGroup struct {
	Prefix  string
	Schemes []schemeChoice
}

type schemeChoice struct{ Name, Steps string }

// catalogueSchemes are those of the fold catalogue, together as their names begin.
func catalogueSchemes() (groups []schemeGroup) {
	for _, name := range fold.CatalogueNames() {
		scheme, err := fold.Catalogue(name)
		if err != nil {
			continue // its directions are not known
		}
		prefix, _, _ := strings.Cut(name, "-")
		if n := len(groups); n == 0 || groups[n-1].Prefix != prefix {
			groups = append(groups, schemeGroup{Prefix: prefix})
		}
		g := &groups[len(groups)-1]
		g.Schemes = append(g.Schemes, schemeChoice{name, scheme.String()})
	}
	return groups
}

// foldExamples are ways to say how a sheet is folded, for those who do not know the notation yet.
var foldExamples = []string{
	"up 1/2", "up 1/2, left, up 1/2", "up 1/2, left, up 1/2, left, up 1/2", "up 1/2, left, up 1/2, left, up 1/2, left, up 1/2",
	"letter inner 2 mm", "zigzag 3", "zigzag 4", "gate gap 3 mm", "closed gate gap 3 mm", "double parallel inner 0.5 mm", "roll 4", "halves 3", "zigzag 3, left, up 1/2",
}
