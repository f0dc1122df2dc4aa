package ui

import (
	"cmp"
	"net/http"
	"slices"
	"time"

	"foldwright/internal/desk"
	"foldwright/internal/draw"
	"foldwright/internal/fault"
	"foldwright/internal/fold"
	"foldwright/internal/job"
	"foldwright/internal/ledger"
	"foldwright/internal/paper"
	"foldwright/internal/settings"
	"foldwright/internal/shop"
	"foldwright/internal/words"
)

// jobBody is what the page of a job shows.
type jobBody struct {
	docketView
	Done            bool
	At              *placedJob
	Whys            []whyLine // why it found no place
	Answers         []answerView
	No              fault.List // when no folder can
	Chosen          *answerView
	Set             *setView
	Dummy, Sequence *draw.Picture
	Cautions        []words.Text
	Records         []recordRow
	Changes         []changeRow
	Folders         []string
	Paths           jobPaths
}

// jobPaths are the addresses that belong to a job.
type jobPaths struct{ Page, Card, Floor, Repeat, Edit string }

// docketView is the docket, with what the geometry adds to it.
type docketView struct {
	*job.Job
	Folded    *fold.Folded
	Size      words.Text // as folded
	Trimmed   *words.Text
	Caliper   words.Text
	Grain     words.Text
	Scheme    string
	First     words.Text
	Wanted    []words.Text
	Due       time.Time // by the clock of the shop
	Release   time.Time
	PageCount int
}

type whyLine struct {
	Folder string
	Text   words.Text
}

func (p *pages) job(w http.ResponseWriter, r *http.Request) error {
	s, err := p.desk.Shop(r.Context())
	if err != nil {
		return err
	}
	b, err := p.jobBody(r, s, r.PathValue("job"))
	if err != nil {
		return err
	}
	return p.show(w, r, page{name: "job", title: words.T("Job %s", b.Name), body: b})
}

func (p *pages) jobBody(r *http.Request, s *shop.Shop, name string) (*jobBody, error) {
	answers, err := p.desk.Settings(r.Context(), name, "")
	if answers == nil {
		return nil, err
	}
	j := answers[0].Job
	folded, foldErr := j.Scheme.Apply(j.Sheet)
	if foldErr != nil {
		return nil, foldErr
	}
	say := p.gate.Speaker(r)
	b := &jobBody{docketView: viewDocket(s, j, folded), No: fault.All(err), Folders: s.FolderNames()}
	b.Done = !slices.Contains(waitingNames(s), name)
	b.Paths = jobPaths{Page: jobPath(name), Card: jobPath(name) + "/card.pdf", Floor: "/floor" + jobPath(name), Edit: jobPath(name) + "/edit", Repeat: repeatPath(name)}
	if b.Done {
		b.Paths.Edit = editURL(ledger.OfDone, name, b.Paths.Page)
	}
	b.Dummy, b.Sequence = draw.Dummy(folded, j.Operations, say), draw.Sequence(folded, say)
	b.choose(s, answers, r.FormValue("folder"), say)
	b.Cautions = cautionTexts()
	if err := p.placeOf(r, b); err != nil {
		return nil, err
	}
	if b.Records, err = p.recordsOf(r, s, ledger.RecordQuery{Job: name, Most: 20}); err != nil {
		return nil, err
	}
	b.Changes, err = p.changesOf(r, name, b.Done)
	return b, err
}

// choose takes the folder whose settings are shown in full: the one asked for, else the one it is given to, else the best.
func (b *jobBody) choose(s *shop.Shop, answers []desk.Answer, asked string, say *words.Speaker) {
	can := func(name string) bool {
		return slices.ContainsFunc(answers, func(a desk.Answer) bool { return a.Folder.Name == name && a.Miss == nil })
	}
	chosen := answers[0].Folder.Name
	for _, name := range []string{asked, b.Given} {
		if can(name) {
			chosen = name
			break
		}
	}
	b.Answers = viewAnswers(answers, b.Paths.Page, chosen, true)
	for i := range b.Answers {
		if b.Answers[i].Chosen {
			b.Chosen = &b.Answers[i]
			b.Set = setOf(s, b.Chosen.Answer, say)
		}
	}
}

// setOf is all that a folder is set to for a job, from what stands on it now.
func setOf(s *shop.Shop, a desk.Answer, say *words.Speaker) *setView {
	return viewSettings(s, a.Settings, nil, say, func(name string) (words.Text, bool) {
		for _, st := range viewAnswers([]desk.Answer{a}, "", "", false)[0].Sets {
			if st.Station == name {
				return st.How, false
			}
		}
		return words.T("leave it as it is"), true
	})
}

func cautionTexts() []words.Text {
	var list []words.Text
	for _, text := range settings.Cautions() {
		list = append(list, words.Text{Key: text})
	}
	return list
}

func waitingNames(s *shop.Shop) []string {
	names := make([]string, len(s.Jobs))
	for i := range s.Jobs {
		names[i] = s.Jobs[i].Name
	}
	return names
}

// placeOf tells where the order given has the job, or why nowhere.
func (p *pages) placeOf(r *http.Request, b *jobBody) error {
	if b.Done {
		return nil
	}
	given, err := p.desk.Draft(r.Context(), desk.GivenDraft)
	if err != nil {
		return err
	}
	for i := range given.Plan.Folders {
		for k := range given.Plan.Folders[i].Tasks {
			if t := &given.Plan.Folders[i].Tasks[k]; t.Job == b.Name {
				b.At = &placedJob{t, given.Plan.Folders[i].Name, k + 1}
			}
		}
	}
	for _, u := range given.Plan.Unplaced {
		if u.Job != b.Name || b.No != nil { // each folder says why below
			continue
		}
		for _, why := range u.Whys {
			b.Whys = append(b.Whys, whyLine{why.Folder, why.Text})
		}
	}
	return nil
}

// viewDocket tells the docket.
func viewDocket(s *shop.Shop, j *job.Job, folded *fold.Folded) docketView {
	done := folded.Finished()
	v := docketView{Job: j, Folded: folded, Scheme: j.Scheme.String(), Size: words.T("%s × %s, layers: %d", words.Bare(done.Length), done.Width, done.Layers)}
	if j.Scheme.Trims != (fold.Trims{}) {
		cut := folded.Trimmed()
		text := words.T("%s × %s", words.Bare(cut.Length), cut.Width)
		v.Trimmed = &text
	}
	thick, estimated := j.Stock.Caliper()
	v.Caliper = words.T("%s", words.Micron(thick))
	if estimated {
		v.Caliper = words.T("about %s, measure it", words.Micron(thick))
	}
	v.First = words.T("folio 1 looks up")
	if j.Scheme.First == fold.FaceDown {
		v.First = words.T("folio 1 looks down")
	}
	for _, op := range j.Operations {
		v.Wanted = append(v.Wanted, op.Words())
	}
	if !j.Due.IsZero() {
		v.Due = j.Due.In(s.Zone)
	}
	if !j.Release.IsZero() {
		v.Release = j.Release.In(s.Zone)
	}
	if folded.Folios {
		v.PageCount = 2 * len(folded.Panels)
	}
	v.Grain = grainTexts[j.Stock.Grain]
	return v
}

// changesOf is what became of a job, newest first. One that is done was another thing while it waited.
func (p *pages) changesOf(r *http.Request, name string, done bool) ([]changeRow, error) {
	kind := ledger.OfJob
	if done {
		kind = ledger.OfDone
	}
	t, err := p.desk.Thing(r.Context(), kind, name)
	if err != nil {
		return nil, err
	}
	all, err := p.desk.History(r.Context(), ledger.Page{Thing: t.ID, Limit: 30, Shop: true})
	if err != nil {
		return nil, err
	}
	if n := len(all); n > 0 && done {
		before, err := p.whileWaiting(r, name, all[n-1].Revision)
		if err != nil {
			return nil, err
		}
		all = append(all, before...)
	}
	slices.SortStableFunc(all, func(a, b ledger.Change) int { return cmp.Compare(b.Revision, a.Revision) })
	all = slices.CompactFunc(all, func(a, b ledger.Change) bool { return a.Revision == b.Revision })
	rows := make([]changeRow, len(all))
	for i, c := range all {
		c.Things = slices.DeleteFunc(slices.Clone(c.Things), func(x ledger.Changed) bool { return x.Name != name })
		rows[i] = shownChange(c)
	}
	return rows, nil
}

// whileWaiting is what became of a job before the change that finished it.
func (p *pages) whileWaiting(r *http.Request, name string, finished int64) ([]ledger.Change, error) {
	whole, err := p.desk.History(r.Context(), ledger.Page{Before: finished + 1, Limit: 1, Shop: true})
	if err != nil {
		return nil, err
	}
	for _, c := range whole {
		for _, was := range c.Things {
			if c.Revision == finished && was.Kind == ledger.OfJob && was.Name == name {
				return p.desk.History(r.Context(), ledger.Page{Thing: was.ID, Limit: 30, Shop: true})
			}
		}
	}
	return nil, nil
}

var grainTexts = map[paper.Grain]words.Text{
	paper.GrainUnknown: words.T("grain not known"), paper.GrainAlongS: words.T("grain along the length"), paper.GrainAlongT: words.T("grain along the width"),
}
