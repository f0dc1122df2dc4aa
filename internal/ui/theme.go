package ui

import (
	"net/http"
	"time"

	"foldwright/internal/gate"
	"foldwright/internal/shop"
)

const themeCookie = "foldwright_theme"

func (p *pages) themeRoutes() []route {
	return []route{{pattern: "POST /theme", serve: p.setTheme}}
}

// themeOf is light, dark, or empty: as the system wishes.
func themeOf(r *http.Request) string {
	c, err := r.Cookie(themeCookie)
	if err != nil || c.Value != "light" && c.Value != "dark" {
		return ""
	}
	return c.Value
}

// setTheme keeps the choice in the browser, for it is the screen's more than the person's.
func (p *pages) setTheme(w http.ResponseWriter, r *http.Request) error {
	c := p.cookie(r, themeCookie, r.FormValue("theme"), 365*24*time.Hour)
	if c.Value != "light" && c.Value != "dark" {
		c.MaxAge = -1
	}
	http.SetCookie(w, c)
	p.redirect(w, r, local(r.FormValue("back")))
	return nil
}

// cookie makes one that scripts cannot read and other sites do not send.
func (p *pages) cookie(r *http.Request, name, value string, keep time.Duration) *http.Cookie {
	return &http.Cookie{
		Name: name, Value: value, Path: "/", MaxAge: int(keep.Seconds()),
		HttpOnly: true, SameSite: http.SameSiteLaxMode, Secure: r.TLS != nil,
	}
}

// local lets a redirect lead to this app only, by the rule of the gate.
func local(to string) string { return gate.Local(to) }

// clock is the moment the shop stands at.
func (p *pages) clock(s *shop.Shop) time.Time {
	if !s.Now.IsZero() {
		return s.Now
	}
	return p.desk.Now().In(s.Zone)
}
