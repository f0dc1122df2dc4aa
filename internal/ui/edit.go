package ui

import (
	"net/http"
	"net/url"
	"strconv"
	"strings"

	"foldwright/internal/access"
	"foldwright/internal/desk"
	"foldwright/internal/fault"
	"foldwright/internal/ledger"
	"foldwright/internal/words"
)

// Any thing of the shop can be edited at /edit/<kind>?name=…&back=…, added at /new/<kind>?back=…&like=… and taken out by a
// post to /remove/<kind>. Where a noun has more to show beside the fields it has a page of its own.
func (p *pages) editRoutes() (list []route) {
	for _, k := range ledger.Kinds() {
		at, deed := "/"+string(k), desk.Editing(k)
		list = append(list,
			route{pattern: "GET /edit" + at, serve: p.edit, deed: deed, call: "get-" + apiNames[k]},
			route{pattern: "POST /edit" + at, serve: p.edited, deed: deed, call: "put-" + apiNames[k]})
		if k.Alone() {
			continue
		}
		list = append(list,
			route{pattern: "GET /new" + at, serve: p.add, deed: deed, call: "list-" + apiNames[k]},
			route{pattern: "POST /new" + at, serve: p.edited, deed: deed, call: "add-" + apiNames[k]},
			route{pattern: "POST /remove" + at, serve: p.remove, deed: deed, call: "remove-" + apiNames[k]})
	}
	return list
}

// apiNames are the kinds as operations of the API name them.
var apiNames = map[ledger.Kind]string{
	ledger.OfShop: "shop", ledger.OfCalendar: "calendars", ledger.OfClass: "classes", ledger.OfTool: "tools", ledger.OfSet: "sets",
	ledger.OfFolder: "folders", ledger.OfPresent: "present", ledger.OfPerson: "bench", ledger.OfStock: "stocks", ledger.OfJob: "jobs",
	ledger.OfDone: "done", ledger.OfStandards: "standards", ledger.OfWeights: "weights", ledger.OfHouse: "house",
}

// kindOf is the kind that the address names in its second part.
func kindOf(r *http.Request) ledger.Kind {
	_, k, _ := strings.Cut(strings.TrimPrefix(r.URL.Path, "/"), "/")
	return ledger.Kind(k)
}

func (p *pages) edit(w http.ResponseWriter, r *http.Request) error {
	k := kindOf(r)
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
	k := kindOf(r)
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
	k := kindOf(r)
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
	k := kindOf(r)
	name := r.FormValue("name")
	t, err := p.desk.Thing(r.Context(), k, name)
	if err != nil {
		return err
	}
	if seen := r.FormValue("version"); seen != "" { // what somebody changed since is not removed unseen
		if t.Version, err = strconv.ParseInt(seen, 10, 64); err != nil {
			return fault.Fault{Kind: fault.Input, Code: CodeForm, Field: "version", Wrong: "is no number of a change", Right: "remove it from its page"}
		}
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
