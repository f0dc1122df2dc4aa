package ui

import (
	"net/http"
	"slices"
	"strconv"
	"strings"

	"foldwright/internal/desk"
	"foldwright/internal/exchange"
	"foldwright/internal/fault"
	"foldwright/internal/ledger"
	"foldwright/internal/shop"
	"foldwright/internal/words"
)

// form is a thing of the shop being edited: what stands in its fields, what is wrong with it, and the version it began with.
// The template part "form" shows it, "form-fields" its fields alone.
type form struct {
	Kind    ledger.Kind
	ID      string // of the thing; empty for a new one
	Name    string // as the thing is called now; empty for a new one, and for what a shop has one of
	Version int64  // that was seen
	Back    string // where to go afterwards
	Faults  fault.List
	Theirs  *conflict // somebody else was first

	say    *words.Speaker
	shop   *shop.Shop // in the reader's unit
	thing  *exchange.Value
	typed  *tree
	inputs map[string]*input // by the path of faults
}

// New says whether the thing is not in the shop yet.
func (f *form) New() bool { return f.ID == "" }

// blankForm is a form of a kind without anything in it.
func (p *pages) blankForm(r *http.Request, k ledger.Kind) (*form, error) {
	fields := exchange.Fields(k)
	if fields == nil {
		return nil, fault.Fault{Kind: fault.Missing, Code: CodePage, Wrong: "there are no things of that kind", Right: "go on from the start page"}
	}
	s, err := p.desk.Shop(r.Context())
	if err != nil {
		return nil, err
	}
	own, say := *s, p.gate.Speaker(r)
	own.Inch = say.Inch // a bare length is typed and read as the reader does
	f := &form{Kind: k, say: say, shop: &own, thing: group(fields), Back: local(r.FormValue("back"))}
	f.typed = empty(f.thing)
	return f, nil
}

// formOf is the form of a thing as it is now.
func (p *pages) formOf(r *http.Request, t desk.Thing) (*form, error) {
	f, err := p.blankForm(r, t.Kind)
	if err != nil {
		return nil, err
	}
	f.ID, f.Name, f.Version = t.ID, t.Name, t.Version
	f.typed, err = f.written(t.Value)
	return f, err
}

// formLike is the form of a new thing that begins as another, without its name.
func (p *pages) formLike(r *http.Request, k ledger.Kind, value any) (*form, error) {
	f, err := p.blankForm(r, k)
	if err != nil {
		return nil, err
	}
	f.typed, err = f.written(value)
	return f, err
}

// written is a value as it stands in the fields.
func (f *form) written(value any) (*tree, error) {
	return readJSON(f.thing, exchange.WriteThing(f.Kind, value, f.shop))
}

// sentForm is the form as the browser sent it, with what its buttons asked for done to it. Saving is told by saves.
func (p *pages) sentForm(r *http.Request, k ledger.Kind) (f *form, saves bool, err error) {
	if f, err = p.blankForm(r, k); err != nil {
		return nil, false, err
	}
	if err := r.ParseForm(); err != nil {
		return nil, false, fault.Fault{Kind: fault.Input, Code: CodeForm, Wrong: "the form cannot be read: " + err.Error(), Right: "send it from its page"}
	}
	f.ID, f.Name = r.PostForm.Get("thing-id"), r.PostForm.Get("thing-name")
	if v := r.PostForm.Get("thing-version"); v != "" {
		if f.Version, err = strconv.ParseInt(v, 10, 64); err != nil {
			return nil, false, fault.Fault{Kind: fault.Input, Code: CodeForm, Wrong: "the form does not say which version of the thing it was made of", Right: "open it again"}
		}
	}
	f.typed = newTyped(r.PostForm).read(f.thing, "")
	if f.typed.do(f.thing, r.PostForm.Get("do")) {
		return f, false, nil
	}
	f.typed.prune()
	return f, true, p.takeTheirs(r, f)
}

// value is what was typed as a value of the shop; its faults stay with the form.
func (f *form) value() (any, bool) {
	v, err := exchange.ReadThing(f.Kind, f.typed.json(f.thing), f.shop)
	if err != nil {
		f.Faults = fault.All(err)
		return nil, false
	}
	return v, true
}

// refuse keeps the faults that the shop has with the thing, by the fields of the form; other errors come back.
func (f *form) refuse(err error, value any) error {
	found := fault.All(err)
	if len(found) == 0 {
		return err
	}
	name, nameErr := ledger.NameOf(f.Kind, value)
	if nameErr != nil {
		return err
	}
	if !f.New() {
		name = f.Name
	}
	f.Faults = exchange.FieldsWithin(f.Kind, exchange.At(f.shop, f.Kind, name), found)
	return nil
}

// save keeps the thing as it was typed. Saved is false when something is wrong with it, which the form then tells. The version
// of what was kept is that of the change, to be taken back; 0 when nothing was different.
func (p *pages) save(r *http.Request, f *form) (kept desk.Thing, saved bool, err error) {
	value, ok := f.value()
	if !ok {
		return kept, false, nil
	}
	if f.New() {
		kept, err = p.desk.Add(r.Context(), f.Kind, value)
	} else {
		kept, err = p.put(r, f, value)
	}
	switch {
	case err == nil:
		if kept.Version == f.Version {
			kept.Version = 0
		}
		return kept, true, nil
	case f.Theirs != nil:
		return kept, false, nil
	}
	found := fault.All(err)
	if slices.ContainsFunc(found, func(x fault.Fault) bool { return x.Kind == fault.Denied || x.Kind == fault.Missing }) {
		return kept, false, err
	}
	return kept, false, f.refuse(err, value)
}

// put changes a thing. When somebody was first, the form is told what they made of it.
func (p *pages) put(r *http.Request, f *form, value any) (desk.Thing, error) {
	tag := ledger.Tag{Kind: f.Kind, ID: f.ID, Name: f.Name, Version: f.Version}
	kept, err := p.desk.Put(r.Context(), tag, value)
	if found := fault.All(err); len(found) > 0 && found[0].Code == ledger.CodeStale {
		now, there, err := p.thingNow(r, f)
		if err == nil && there {
			err = f.meet(now, value, found[0])
		}
		if err != nil {
			return kept, err
		}
	}
	return kept, err
}

// thingNow is the thing of a form as it is by now, if it is there still. It may have another name.
func (p *pages) thingNow(r *http.Request, f *form) (desk.Thing, bool, error) {
	all, err := p.desk.Things(r.Context(), f.Kind)
	if i := slices.IndexFunc(all, func(t desk.Thing) bool { return t.ID == f.ID }); err == nil && i >= 0 {
		return all[i], true, nil
	}
	return desk.Thing{}, false, err
}

// inchMarked tells a usual length that stands for millimetres to those who read inches.
func inchMarked(form exchange.Form, usual string, inch bool) string {
	bare := usual != "" && strings.Trim(usual, "0123456789.") == ""
	if inch && bare && (form == exchange.FormLength || form == exchange.FormThickness) {
		return usual + " mm"
	}
	return usual
}
