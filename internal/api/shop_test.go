package api_test

import (
	"net/http"
	"strings"
	"testing"

	"foldwright/internal/access"
	"foldwright/internal/demo"
	"foldwright/internal/exchange"
)

var asYAML = map[string]string{"Content-Type": "application/yaml"}

// What is exported is the shop file of the shop, and goes in again without a change.
func TestExportAndImport(t *testing.T) {
	d := open(t)
	whole, err := demo.Shop()
	if err != nil {
		t.Fatal(err)
	}
	file := d.get("/shop/export").want(t, http.StatusOK)
	if string(file.body) != string(exchange.WriteShop(whole)) {
		t.Error("the export is another shop")
	}
	admin := func(path string, body any) answer {
		return d.send(ask{method: http.MethodPost, path: path, body: body, head: asYAML, as: access.Admin})
	}
	admin("/shop/import", file.body).wantProblem(t, http.StatusConflict, "shop-exists")
	first := int(read[changeList](t, d.send(ask{method: http.MethodGet, path: "/changes?limit=1", as: access.Admin})).Items[0].Revision) // the accounts of the test came before
	same := read[map[string]int](t, admin("/shop/import?replace=true", file.body).want(t, http.StatusOK))
	if same["revision"] != first || same["jobs"] != len(whole.Jobs) {
		t.Errorf("%v", same)
	}
	other := strings.Replace(string(file.body), "shop: Demo bindery", "shop: Another bindery", 1)
	if now := read[map[string]int](t, admin("/shop/import?replace=true", other).want(t, http.StatusOK)); now["revision"] != first+1 {
		t.Errorf("%v", now)
	}
	p := admin("/shop/import?replace=true", strings.Replace(other, "zone: ", "zone: No", 1)).wantProblem(t, http.StatusUnprocessableEntity, "zone")
	if p.Errors[0].Line == 0 {
		t.Errorf("no line: %+v", p.Errors[0])
	}
	d.send(ask{method: http.MethodPost, path: "/shop/import", body: "{}", as: access.Admin}).wantProblem(t, http.StatusUnsupportedMediaType, "request-media")
}

// A backup is a database that brings everything back as it was.
func TestBackupAndRestore(t *testing.T) {
	d := open(t)
	admin := func(path string, body any) answer {
		return d.send(ask{method: http.MethodPost, path: path, body: body, head: map[string]string{"Content-Type": "application/vnd.sqlite3"}, as: access.Admin})
	}
	copied := d.send(ask{method: http.MethodPost, path: "/backups", as: access.Admin}).want(t, http.StatusOK)
	// the first bytes of a SQLite database are those of its file format (sqlite.org/fileformat)
	if !strings.HasPrefix(string(copied.body), "SQLite format 3\x00") || !strings.HasPrefix(copied.Header.Get("Content-Disposition"), "attachment;") {
		t.Fatalf("no database: %.20q", copied.body)
	}
	d.send(ask{method: http.MethodPost, path: "/jobs/2101/start", body: map[string]any{"folder": "birch"}, as: access.Operator}).want(t, http.StatusOK)
	admin("/restore", "no database").want(t, http.StatusUnprocessableEntity)
	if !d.job("2101").Pin.Started {
		t.Error("what was refused changed something")
	}
	admin("/restore", copied.body).want(t, http.StatusOK)
	if d.job("2101").Pin.Started {
		t.Error("it is not as it was at the backup")
	}
	d.get("/jobs").want(t, http.StatusOK)
}

// Where nothing can be backed up, that is said in the shape of everything else.
func TestNoBackup(t *testing.T) {
	d := open(t)
	d.desk.Vault = nil
	d.send(ask{method: http.MethodPost, path: "/backups", as: access.Admin}).wantProblem(t, http.StatusConflict, "no-backup")
}

// Before there is a shop, people and tokens are there already, and whoever rules takes the first shop in.
func TestBeforeThereIsAShop(t *testing.T) {
	d := openTo(t, nil)
	for _, path := range []string{"/jobs", "/shop", "/plans/given", "/rack", "/records", "/jobs/2101/card.pdf", "/sets/labels.pdf", "/shop/export"} {
		d.get(path).wantProblem(t, http.StatusNotFound, "no-shop")
	}
	d.send(ask{method: http.MethodPost, path: "/stocks", body: map[string]any{"name": "x", "grammage": 90, "finish": "coated"}, as: access.Lead}).wantProblem(t, http.StatusNotFound, "no-shop")
	for _, path := range []string{"/me", "/people", "/tokens", "/searches"} {
		d.send(ask{method: http.MethodGet, path: path, as: access.Admin}).want(t, http.StatusOK)
	}
	d.send(ask{method: http.MethodPost, path: "/shop/import", body: demo.File(), head: asYAML, as: access.Admin}).want(t, http.StatusOK)
	d.get("/jobs").want(t, http.StatusOK)
}
