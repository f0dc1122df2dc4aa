package ui

import (
	"bytes"
	"net/http"
	"strconv"

	"foldwright/internal/words"
)

// show writes a whole page.
func (p *pages) show(w http.ResponseWriter, r *http.Request, pg page) error {
	return p.write(w, r, pg, "layout")
}

// part writes one block of a page's template, for a script to put into the page. The block sees what the whole page would.
func (p *pages) part(w http.ResponseWriter, r *http.Request, name, block string, body any) error {
	return p.write(w, r, page{name: name, title: words.Plain(""), body: body}, block)
}

// write renders first and writes then, so that a page that fails half-way is not sent half.
func (p *pages) write(w http.ResponseWriter, r *http.Request, pg page, block string) error {
	var out bytes.Buffer
	t, err := p.prints.page(p.gate.Speaker(r), pg.name)
	if err != nil {
		return err
	}
	if err := t.ExecuteTemplate(&out, block, p.view(w, r, pg)); err != nil {
		return err
	}
	h := w.Header()
	h.Set("Content-Type", "text/html; charset=utf-8")
	h.Set("Content-Length", strconv.Itoa(out.Len()))
	h.Set("Cache-Control", "no-store")
	h.Add("Vary", "HX-Request")
	if pg.status == 0 {
		pg.status = http.StatusOK
	}
	w.WriteHeader(pg.status)
	_, _ = w.Write(out.Bytes()) // whoever has left does not read it
	return nil
}
