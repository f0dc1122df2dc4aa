package api_test

import (
	"net/http"
	"os"
	"path/filepath"
	"strings"
	"testing"

	"foldwright/internal/access"
)

// Goal: who may, who may not, and what they get, for every operation there is. Method: a table written by hand; each operation is
// sent by nobody and by every role, with names that do not exist, so that whoever may gets any answer but 401 and 403. An operation
// that the table does not know, or the other way round, fails.
func TestRouteByRole(t *testing.T) {
	d := open(t)
	table := rolesByHand(t)
	for _, o := range d.schema.routes {
		least, known := table[o.id]
		if !known {
			t.Errorf("%s %s (%s) is missing in testdata/roles.txt", o.method, o.path, o.id)
			continue
		}
		delete(table, o.id)
		t.Run(o.id, func(t *testing.T) {
			for _, r := range append([]access.Role{access.Nobody}, access.Roles()...) {
				holdRole(t, d, o, least, r)
			}
		})
	}
	for id := range table {
		t.Errorf("testdata/roles.txt knows %s, the API does not", id)
	}
}

// holdRole sends an operation as somebody.
func holdRole(t *testing.T, d *door, o route, least, r access.Role) {
	t.Helper()
	a := ask{method: o.method, path: strings.NewReplacer("{name}", "no-such", "{id}", "no-such", "{job}", "no-such", "{revision}", "999999").Replace(o.path), as: r}
	if o.method != http.MethodGet && o.method != http.MethodDelete {
		a.body = "{}"
	}
	if o.id == "restore" || o.id == "import-shop" {
		a.body, a.head = "no shop", map[string]string{"Content-Type": map[string]string{"restore": "application/vnd.sqlite3", "import-shop": "application/yaml"}[o.id]}
	}
	got := d.send(a)
	switch {
	case r >= least:
		if got.StatusCode == http.StatusForbidden || got.StatusCode == http.StatusUnauthorized || got.StatusCode >= http.StatusInternalServerError {
			t.Errorf("%v may %s, and gets %d: %.200s", r, o.id, got.StatusCode, got.body)
		}
	case r == access.Nobody:
		if got.StatusCode != http.StatusUnauthorized || got.Header.Get("WWW-Authenticate") == "" {
			t.Errorf("nobody asks for %s, and gets %d: %.200s", o.id, got.StatusCode, got.body)
		}
	default:
		if got.StatusCode != http.StatusForbidden || !strings.Contains(string(got.body), "not-allowed") {
			t.Errorf("%v may not %s, and gets %d: %.200s", r, o.id, got.StatusCode, got.body)
		}
	}
}

// rolesByHand reads the table: an operation and the least role a line.
func rolesByHand(t *testing.T) map[string]access.Role {
	t.Helper()
	text, err := os.ReadFile(filepath.Join("testdata", "roles.txt"))
	if err != nil {
		t.Fatal(err)
	}
	table := map[string]access.Role{}
	for line := range strings.Lines(string(text)) {
		fields := strings.Fields(line)
		if len(fields) != 2 || strings.HasPrefix(line, "#") {
			continue
		}
		r, ok := access.RoleNamed(fields[1])
		if !ok && fields[1] != "everybody" {
			t.Errorf("no role %s", fields[1])
		}
		table[fields[0]] = r
	}
	return table
}
