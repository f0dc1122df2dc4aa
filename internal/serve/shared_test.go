package serve

import (
	"net/http"
	"net/http/cookiejar"
	"net/url"
	"testing"

	"foldwright/internal/access"
	"foldwright/internal/store/storetest"
)

// Two servers on one PostgreSQL database: who logs in at one is in at the other, and out at both.
func TestTwoServersShareADatabase(t *testing.T) {
	where := storetest.Schema(t, storetest.Server(t))
	one, other := run(t, Config{Shop: where}), run(t, Config{Shop: where})
	admin := access.With(t.Context(), access.Who{Name: "test", Role: access.Admin})
	secret, err := one.desk.Invite(admin, "ada", access.Viewer, "")
	if err == nil {
		_, err = other.desk.ChoosePassword(t.Context(), secret, "", "seven folded sheets")
	}
	if err != nil {
		t.Fatal(err)
	}
	jar, err := cookiejar.New(nil) // cookies are by host, not by port
	if err != nil {
		t.Fatal(err)
	}
	client := &http.Client{Jar: jar}
	w, err := client.PostForm(one.Address()+"/login", url.Values{"name": {"ada"}, "password": {"seven folded sheets"}})
	if err != nil {
		t.Fatal(err)
	}
	w.Body.Close()
	in := func(what string, want int) {
		t.Helper()
		for _, h := range []*house{one, other} {
			if status, text := get(t, client, h.Address()+"/api/v1/me"); status != want {
				t.Errorf("%s: %d %s", what, status, text)
			}
		}
	}
	in("logged in at one", http.StatusOK)
	all, err := other.desk.Accounts(admin)
	if err != nil {
		t.Fatal(err)
	}
	all[0].Ended = true
	if _, err := other.desk.PutAccount(admin, all[0]); err != nil {
		t.Fatal(err)
	}
	in("ended at the other", http.StatusUnauthorized)
}
