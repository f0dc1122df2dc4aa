package ui

import (
	"net/http"
	"net/url"

	"foldwright/internal/access"
	"foldwright/internal/desk"
	"foldwright/internal/exchange"
	"foldwright/internal/fault"
	"foldwright/internal/ledger"
	"foldwright/internal/words"
)

// Any thing of the shop can be edited at /edit/<kind>?name=…&back=…, added at /new/<kind>?back=…&like=… and taken out by a
// post to /remove/<kind>. Where a noun has more to show beside the fields it has a page of its own.
func (p *pages) editRoutes() []route {
	return []route{
		{pattern: "GET /edit/{kind}", serve: p.edit, deed: access.Record, call: "get-thing"},
		{pattern: "POST /edit/{kind}", serve: p.edited, deed: access.Record, call: "put-thing"},
		{pattern: "GET /new/{kind}", serve: p.add, deed: access.Record, call: "get-thing"},
		{pattern: "POST /new/{kind}", serve: p.edited, deed: access.Record, call: "add-thing"},
		{pattern: "POST /remove/{kind}", serve: p.remove, deed: access.Record, call: "remove-thing"},
	}
}

// kindOf is the kind that the address names, if the asker may change its things.
func kindOf(r *http.Request) (ledger.Kind, error) {
	k := ledger.Kind(r.PathValue("kind"))
	if exchange.Fields(k) == nil {
		return k, fault.Fault{Kind: fault.Missing, Code: CodePage, Wrong: "there are no things of that kind", Right: "go on from the start page"}
	}
	return k, access.From(r.Context()).May(desk.Editing(k))
}

func (p *pages) edit(w http.ResponseWriter, r *http.Request) error {
	k, err := kindOf(r)
	if err != nil {
		return err
	}
	t, err := p.desk.Thing(r.Context(), k, r.FormValue("name"))
	if err != nil {
		return err
	}
	f, err := p.formOf(r, t)
	if err != nil {
		return err
	}
	return p.showForm(w, r, f)
}

func (p *pages) add(w http.ResponseWriter, r *http.Request) error {
	k, err := kindOf(r)
	if err != nil {
		return err
	}
	like := r.FormValue("like")
	if like == "" {
		f, err := p.blankForm(r, k)
		if err != nil {
			return err
		}
		return p.showForm(w, r, f)
	}
	t, err := p.desk.Thing(r.Context(), k, like)
	if err != nil {
		return err
	}
	f, err := p.formLike(r, k, t.Value)
	if err != nil {
		return err
	}
	return p.showForm(w, r, f)
}

// edited takes a sent form: it saves, or shows it again with a row more or less, or with what is wrong.
func (p *pages) edited(w http.ResponseWriter, r *http.Request) error {
	k, err := kindOf(r)
	if err != nil {
		return err
	}
	f, saves, err := p.sentForm(r, k)
	if err != nil {
		return err
	}
	if !saves {
		return p.showForm(w, r, f)
	}
	kept, saved, err := p.save(r, f)
	switch {
	case err != nil:
		return err
	case saved:
		return p.done(w, r, f.Back, kept.Version, savedText(kept.Tag))
	}
	return p.showForm(w, r, f)
}

// savedText says what was kept.
func savedText(t ledger.Tag) words.Text {
	if t.Name == "" {
		return words.T("Saved.")
	}
	return words.T("%s is saved.", t.Name)
}

// showForm shows a form, with a status that tells whether something is wrong with it.
func (p *pages) showForm(w http.ResponseWriter, r *http.Request, f *form) error {
	title := words.T("%s: new", kindNames[f.Kind])
	switch {
	case !f.New() && f.Name == "":
		title = kindNames[f.Kind]
	case !f.New():
		title = words.T("%s %s", kindNames[f.Kind], f.Name)
	}
	return p.show(w, r, page{name: "edit", title: title, body: f, status: f.status()})
}

func (f *form) status() int {
	switch {
	case f.Theirs != nil:
		return http.StatusConflict
	case len(f.Faults) > 0:
		return http.StatusUnprocessableEntity
	}
	return http.StatusOK
}

// remove takes a thing out of the shop, as it was seen.
func (p *pages) remove(w http.ResponseWriter, r *http.Request) error {
	k, err := kindOf(r)
	if err != nil {
		return err
	}
	name := r.FormValue("name")
	t, err := p.desk.Thing(r.Context(), k, name)
	if err != nil {
		return err
	}
	if err := p.desk.Remove(r.Context(), t.Tag); err != nil {
		return err
	}
	undo, err := p.lastChange(r)
	if err != nil {
		return err
	}
	return p.done(w, r, local(r.FormValue("back")), undo, words.T("%s is removed.", name))
}

// lastChange is the revision of the asker's last change, to take back.
func (p *pages) lastChange(r *http.Request) (int64, error) {
	trail, err := p.desk.History(r.Context(), ledger.Page{Limit: 1})
	if err != nil || len(trail) == 0 || trail[0].Who != access.From(r.Context()).String() {
		return 0, err
	}
	return trail[0].Revision, nil
}

// editURL is where a thing is edited.
func editURL(k ledger.Kind, name, back string) string {
	q := url.Values{"back": {back}}
	if name != "" {
		q.Set("name", name)
	}
	return "/edit/" + string(k) + "?" + q.Encode()
}
