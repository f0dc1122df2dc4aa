package ui

import (
	"net/http"
	"time"

	"foldwright/internal/access"
	"foldwright/internal/words"
)

// page is what a handler says of the page it shows.
type page struct {
	name   string     // of its template: templates/<name>.html
	title  words.Text // of the window and the heading
	body   any        // .Body in the template
	status int        // 200 unless given
	shop   bool       // stands beside a folder or the bench: everything to touch is large
	bare   bool       // without navigation, as the log-in is
}

// view is what a template sees.
type view struct {
	Title string
	Path  string // of this page, to come back to
	Who   access.Who
	Shop  string
	Clock time.Time // of the shop
	Nav   []navItem
	Lang  words.Lang
	Inch  bool
	Theme string // light, dark, or empty: as the system wishes
	Touch bool
	Bare  bool
	Flash *flash
	Body  any
}

// May lets a template leave out what the reader is not allowed.
func (v *view) May(deed string) bool { return v.Who.Role.Allows(access.Deed(deed)) }

// view fills in what all pages have.
func (p *pages) view(w http.ResponseWriter, r *http.Request, pg page) *view {
	say := p.gate.Speaker(r)
	v := &view{
		Title: say.Text(pg.title), Path: r.URL.RequestURI(), Who: access.From(r.Context()),
		Lang: say.Lang, Inch: say.Inch, Theme: themeOf(r), Touch: pg.shop, Bare: pg.bare, Body: pg.body,
	}
	if v.Who.Role == access.Nobody || pg.bare {
		return v
	}
	v.Nav = p.nav(r, v.Who.Role)
	if s, err := p.desk.Shop(r.Context()); err == nil {
		v.Shop, v.Clock = s.Name, p.clock(s)
	}
	if w != nil && !partial(r) {
		v.Flash = takeFlash(w, r)
	}
	return v
}
