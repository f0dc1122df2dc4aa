package ui

import (
	"encoding/base64"
	"encoding/json"
	"net/http"
	"time"

	"foldwright/internal/access"
	"foldwright/internal/ledger"
	"foldwright/internal/words"
)

// flash is a short word about what was just done, shown on the next page, with the change to take back if there is one.
type flash struct {
	Key  string   `json:"say"`
	Args []string `json:"args,omitempty"`
	Undo int64    `json:"undo,omitempty"` // the revision
}

// Text is what it says.
func (f *flash) Text() words.Text {
	args := make([]any, len(f.Args))
	for i, a := range f.Args {
		args[i] = a
	}
	return words.T(f.Key, args...)
}

const flashCookie = "foldwright_flash"

// done goes to another page, which says what was done; undo is the revision that a click there takes back, 0 for none. All
// places of the text are filled with plain texts.
func (p *pages) done(w http.ResponseWriter, r *http.Request, to string, undo int64, what words.Text) error {
	undo, err := p.justDone(r, undo)
	if err != nil {
		return err
	}
	f := flash{Key: what.Key, Undo: undo}
	say := p.gate.Speaker(r)
	for _, a := range what.Args {
		f.Args = append(f.Args, say.Say("%s", a))
	}
	data, err := json.Marshal(f)
	if err != nil {
		return err
	}
	http.SetCookie(w, p.cookie(r, flashCookie, base64.RawURLEncoding.EncodeToString(data), flashLasts))
	p.redirect(w, r, to)
	return nil
}

// flashLasts is how long the word waits to be shown.
const flashLasts = time.Minute

// justDone is a change that the asker made just now; 0 when somebody else made it, or it is an older one: a thing that already was as asked
// keeps the version of whatever was done to it last.
func (p *pages) justDone(r *http.Request, revision int64) (int64, error) {
	if revision == 0 {
		return 0, nil
	}
	last, err := p.desk.History(r.Context(), ledger.Page{Limit: 1})
	if err != nil {
		return 0, err
	}
	this, err := p.desk.History(r.Context(), ledger.Page{Before: revision + 1, Limit: 1})
	if err != nil || len(this) == 0 || len(last) == 0 {
		return 0, err
	}
	if this[0].Revision != revision || this[0].Who != access.From(r.Context()).String() || last[0].At.Sub(this[0].At) > flashLasts {
		return 0, nil
	}
	return revision, nil
}

// takeFlash reads the word and forgets it. It comes from the browser, so anything may stand in it: whoever forges one only
// deceives themselves, and it is shown as text.
func takeFlash(w http.ResponseWriter, r *http.Request) *flash {
	c, err := r.Cookie(flashCookie)
	if err != nil {
		return nil
	}
	http.SetCookie(w, &http.Cookie{Name: flashCookie, Path: "/", MaxAge: -1, HttpOnly: true, SameSite: http.SameSiteLaxMode, Secure: r.TLS != nil})
	data, err := base64.RawURLEncoding.DecodeString(c.Value)
	if err != nil {
		return nil
	}
	f := new(flash)
	if json.Unmarshal(data, f) != nil || f.Key == "" {
		return nil
	}
	return f
}
