package ui

import (
	"errors"
	"io"
	"net/http"

	"foldwright/internal/access"
	"foldwright/internal/exchange"
	"foldwright/internal/fault"
	"foldwright/internal/gate"
	"foldwright/internal/ledger"
	"foldwright/internal/words"
)

// The addresses end in what they are for: the gate lets as much in as that takes.
func (p *pages) keepRoutes() []route {
	return []route{
		{pattern: "GET /admin/keep", serve: p.keep, deed: access.Rule},
		{pattern: "POST /admin/backup", serve: p.backup, deed: access.Rule, call: "backup"},
		{pattern: "POST /admin/restore", serve: p.restore, deed: access.Rule, call: "restore"},
		{pattern: "GET /admin/export", serve: p.export, deed: access.See, call: "export-shop"},
		{pattern: "GET /admin/import", serve: p.keep, deed: access.Rule},
		{pattern: "POST /admin/import", serve: p.importShop, deed: access.Rule, call: "import-shop"},
	}
}

// keepBody is what the page says of what is kept.
type keepBody struct {
	Empty  bool // there is no shop yet
	Faults fault.List
	Of     string // what the faults are of: import or restore
}

// faultsShown is how many faults of a file the page lists; mending the first often mends others.
const faultsShown = 50

// More is how many faults the page leaves out.
func (b keepBody) More() int { return max(len(b.Faults)-faultsShown, 0) }

// First are the faults that are shown.
func (b keepBody) First() fault.List { return b.Faults[:min(len(b.Faults), faultsShown)] }

func (p *pages) keep(w http.ResponseWriter, r *http.Request) error {
	return p.showKeep(w, r, keepBody{}, http.StatusOK)
}

func (p *pages) showKeep(w http.ResponseWriter, r *http.Request, b keepBody, status int) error {
	_, err := p.desk.Shop(r.Context())
	b.Empty = isNoShop(err)
	return p.show(w, r, page{name: "admin_keep", title: words.T("Backup and import"), body: b, status: status})
}

// isNoShop says whether nothing was put into the store yet.
func isNoShop(err error) bool {
	found := fault.All(err)
	return len(found) == 1 && found[0].Code == ledger.CodeNoShop
}

// backup sends a checked copy of the database. Until its first byte is there, an error can still be told.
func (p *pages) backup(w http.ResponseWriter, r *http.Request) error {
	p.gate.Streams(w)
	out := &download{w: w, kind: "application/vnd.sqlite3", name: "foldwright-backup.db"}
	err := p.desk.Backup(r.Context(), out)
	if err != nil && out.begun {
		panic(http.ErrAbortHandler) // so that nobody takes a half for the whole
	}
	return err
}

// download says what comes when the first of it is there.
type download struct {
	w          http.ResponseWriter
	kind, name string
	begun      bool
}

func (d *download) Write(data []byte) (int, error) {
	if !d.begun {
		d.begun = true
		d.w.Header().Set("Content-Type", d.kind)
		d.w.Header().Set("Content-Disposition", `attachment; filename="`+d.name+`"`)
	}
	return d.w.Write(data)
}

// export sends the shop as a file.
func (p *pages) export(w http.ResponseWriter, r *http.Request) error {
	s, err := p.desk.Shop(r.Context())
	if err != nil {
		return err
	}
	_, err = (&download{w: w, kind: "application/yaml", name: "shop.yaml"}).Write(exchange.WriteShop(s))
	return err
}

// importShop puts a shop file into the store, whole or not at all.
func (p *pages) importShop(w http.ResponseWriter, r *http.Request) error {
	file, head, err := r.FormFile("file")
	if err != nil {
		return p.noFile(w, r, "import", err)
	}
	defer func() { _ = file.Close() }()
	data, err := io.ReadAll(file)
	if err != nil {
		return err
	}
	whole, err := exchange.ReadShop(head.Filename, data)
	if err == nil {
		_, err = p.desk.Import(r.Context(), whole, r.FormValue("replace") == "yes")
	}
	if found := fault.All(err); len(found) > 0 && found[0].Kind != fault.Denied {
		return p.showKeep(w, r, keepBody{Faults: found, Of: "import"}, gate.Status(err))
	}
	if err != nil {
		return err
	}
	undo, err := p.lastChange(r)
	if err != nil {
		return err
	}
	return p.done(w, r, "/", undo, words.T("%s is imported.", whole.Name))
}

// restore puts a backup in the place of all there is. Sessions are kept in it as well, so everybody may have to log in again.
func (p *pages) restore(w http.ResponseWriter, r *http.Request) error {
	file, _, err := r.FormFile("file")
	if err != nil {
		return p.noFile(w, r, "restore", err)
	}
	defer func() { _ = file.Close() }()
	_, err = p.desk.Restore(r.Context(), file)
	if found := fault.All(err); len(found) > 0 && found[0].Kind != fault.Denied {
		return p.showKeep(w, r, keepBody{Faults: found, Of: "restore"}, gate.Status(err))
	}
	if err != nil {
		return err
	}
	return p.done(w, r, "/", 0, words.T("The backup is in place."))
}

// noFile tells a form without a file from one that is too large.
func (p *pages) noFile(w http.ResponseWriter, r *http.Request, of string, err error) error {
	var big *http.MaxBytesError
	if errors.As(err, &big) {
		return err
	}
	f := fault.Fault{Kind: fault.Input, Code: CodeForm, Field: "file", Wrong: "no file came with the form", Right: "choose one"}
	return p.showKeep(w, r, keepBody{Faults: fault.List{f}, Of: of}, gate.Status(f))
}
