package ui

import (
	"encoding/base64"
	"encoding/json"
	"net/http"
	"time"

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
	f := flash{Key: what.Key, Undo: undo}
	say := p.gate.Speaker(r)
	for _, a := range what.Args {
		f.Args = append(f.Args, say.Say("%s", a))
	}
	data, err := json.Marshal(f)
	if err != nil {
		return err
	}
	http.SetCookie(w, p.cookie(r, flashCookie, base64.RawURLEncoding.EncodeToString(data), time.Minute))
	p.redirect(w, r, to)
	return nil
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
