package api_test

import (
	"net/http"
	"net/http/cookiejar"
	"net/url"
	"strings"
	"testing"

	"foldwright/internal/access"
	"foldwright/internal/api"
)

type account struct {
	Name  string `json:"name"`
	Role  string `json:"role"`
	Lang  string `json:"lang"`
	Ended any    `json:"ended"`
}

func TestPeople(t *testing.T) {
	d := open(t)
	admin := func(method, path string, body any, head map[string]string) answer {
		return d.send(ask{method: method, path: path, body: body, head: head, as: access.Admin})
	}
	link := read[struct{ Secret, Link string }](t, admin(http.MethodPost, "/people/ada/invitation", map[string]any{"role": "operator", "lang": "de"}, nil).want(t, http.StatusCreated))
	if link.Secret == "" || link.Link != d.server.URL+"/welcome?secret="+link.Secret {
		t.Errorf("%+v", link)
	}
	admin(http.MethodPost, "/people/ada/invitation", map[string]any{"role": "lead"}, nil).wantProblem(t, http.StatusConflict, "name-taken")
	admin(http.MethodPost, "/people/ada/invitation", nil, nil).want(t, http.StatusCreated) // another password
	admin(http.MethodPost, "/people/ada%20l/invitation", map[string]any{"role": "lead"}, nil).wantProblem(t, http.StatusUnprocessableEntity, "account-name")
	list := read[struct{ Items []account }](t, admin(http.MethodGet, "/people?limit=2", nil, nil).want(t, http.StatusOK))
	if len(list.Items) != 2 || list.Items[0].Name != "ada" || list.Items[0].Role != "operator" || list.Items[0].Lang != "de" {
		t.Errorf("%+v", list)
	}
	got := admin(http.MethodGet, "/people/ada", nil, nil).want(t, http.StatusOK)
	ada := read[map[string]any](t, got)
	ada["role"], ada["ended"] = "lead", true
	admin(http.MethodPut, "/people/ada", ada, nil).wantProblem(t, http.StatusPreconditionRequired, "if-match")
	put := admin(http.MethodPut, "/people/ada", ada, map[string]string{"If-Match": got.Header.Get("ETag")}).want(t, http.StatusOK)
	if now := read[account](t, put); now.Role != "lead" || now.Ended == nil {
		t.Errorf("%+v", now)
	}
	admin(http.MethodPut, "/people/ada", ada, map[string]string{"If-Match": got.Header.Get("ETag")}).want(t, http.StatusPreconditionFailed)
	ada["name"] = "eve"
	admin(http.MethodPut, "/people/ada", ada, map[string]string{"If-Match": put.Header.Get("ETag")}).wantProblem(t, http.StatusUnprocessableEntity, "account-name")
	admin(http.MethodGet, "/people/nobody", nil, nil).want(t, http.StatusNotFound)
	if strings.Contains(string(got.body), "argon2") {
		t.Error("an account tells of its password")
	}
}

func TestMyself(t *testing.T) {
	d := open(t)
	token := d.get("/me").want(t, http.StatusOK) // a program may look, and no more
	d.send(ask{method: http.MethodPut, path: "/me", body: token.body, as: access.Viewer, head: map[string]string{"If-Match": token.Header.Get("ETag")}}).wantProblem(t, http.StatusUnprocessableEntity, "in-person")
	d.logIn(t, access.Viewer)
	got := d.send(ask{method: http.MethodGet, path: "/me"}).want(t, http.StatusOK)
	me := read[map[string]any](t, got)
	if me["name"] != "viewer" || me["role"] != "viewer" {
		t.Fatalf("%v", me)
	}
	me["lang"] = "fr"
	put := d.send(ask{method: http.MethodPut, path: "/me", body: me, head: map[string]string{"If-Match": got.Header.Get("ETag")}}).want(t, http.StatusOK)
	me["role"] = "admin"
	d.send(ask{method: http.MethodPut, path: "/me", body: me, head: map[string]string{"If-Match": put.Header.Get("ETag")}}).want(t, http.StatusForbidden)
	if now := read[account](t, d.get("/me")); now.Role != "viewer" || now.Lang != "fr" {
		t.Errorf("%+v", now)
	}
}

// logIn lets the client of the tests in as somebody of a role.
func (d *door) logIn(t *testing.T, r access.Role) {
	t.Helper()
	jar, err := cookiejar.New(nil)
	if err != nil {
		t.Fatal(err)
	}
	d.server.Client().Jar = jar
	d.send(ask{method: http.MethodPost, path: "/session", body: map[string]any{"name": r.String(), "password": password(r)}}).want(t, http.StatusNoContent)
}

func TestTokens(t *testing.T) {
	d := open(t)
	d.send(ask{method: http.MethodPost, path: "/tokens", body: map[string]any{"name": "of a program", "role": "viewer"}, as: access.Lead}).wantProblem(t, http.StatusUnprocessableEntity, "in-person")
	d.logIn(t, access.Lead)
	lead := func(method, path string, body any) answer {
		return d.send(ask{method: method, path: path, body: body})
	}
	made := lead(http.MethodPost, "/tokens", map[string]any{"name": "screen in the hall", "role": "viewer"})
	made.want(t, http.StatusCreated)
	token := read[map[string]any](t, made)
	secret, _ := token["secret"].(string)
	d.tokens[access.Viewer] = secret
	d.get("/jobs").want(t, http.StatusOK)
	lead(http.MethodPost, "/tokens", map[string]any{"name": "too much", "role": "admin"}).wantProblem(t, http.StatusUnprocessableEntity, "role")
	lead(http.MethodPost, "/tokens", map[string]any{"name": "of another", "role": "viewer", "account": "admin"}).want(t, http.StatusForbidden)
	list := lead(http.MethodGet, "/tokens", nil).want(t, http.StatusOK)
	if strings.Contains(string(list.body), secret) || !strings.Contains(string(list.body), "screen in the hall") {
		t.Errorf("%s", list.body)
	}
	lead(http.MethodDelete, strings.TrimPrefix(made.Header.Get("Location"), api.Prefix), nil).want(t, http.StatusNoContent)
	d.get("/jobs").want(t, http.StatusUnauthorized)
}

// Who is invited chooses a password with the secret, once, and is logged in.
func TestInvitedComesIn(t *testing.T) {
	d := open(t)
	link := read[struct{ Secret string }](t, d.send(ask{method: http.MethodPost, path: "/people/ada/invitation", body: map[string]any{"role": "operator"}, as: access.Admin}).want(t, http.StatusCreated))
	jar, err := cookiejar.New(nil)
	if err != nil {
		t.Fatal(err)
	}
	d.server.Client().Jar = jar
	in := ask{method: http.MethodPost, path: "/session", body: map[string]any{"secret": link.Secret, "password": "a horse that nobody knows"}}
	d.send(in).want(t, http.StatusNoContent)
	if me := read[account](t, d.send(ask{method: http.MethodGet, path: "/me"}).want(t, http.StatusOK)); me.Name != "ada" || me.Role != "operator" {
		t.Errorf("%+v", me)
	}
	if again := d.send(in); again.StatusCode < 400 || again.StatusCode >= 500 {
		t.Errorf("the link was used twice: %d", again.StatusCode)
	}
}

// Somebody logs in by name and password, sees where else they are logged in, changes the password, logs out.
func TestLogInAndOut(t *testing.T) {
	d := open(t)
	jar, err := cookiejar.New(nil)
	if err != nil {
		t.Fatal(err)
	}
	d.server.Client().Jar = jar
	in := func(password string) answer {
		return d.send(ask{method: http.MethodPost, path: "/session", body: map[string]any{"name": "Lead", "password": password}})
	}
	if in("not this").wantProblem(t, http.StatusForbidden, "log-in"); len(jar.Cookies(urlOf(t, d))) > 0 {
		t.Error("a cookie for a wrong password")
	}
	in(password(access.Lead)).want(t, http.StatusNoContent)
	if me := read[account](t, d.send(ask{method: http.MethodGet, path: "/me"}).want(t, http.StatusOK)); me.Name != "lead" {
		t.Fatalf("logged in as %+v", me)
	}
	list := read[struct{ Items []api.Session }](t, d.send(ask{method: http.MethodGet, path: "/sessions"}).want(t, http.StatusOK))
	if len(list.Items) != 1 || !list.Items[0].This || list.Items[0].Account != "lead" {
		t.Errorf("%+v", list)
	}
	d.send(ask{method: http.MethodGet, path: "/sessions?account=*"}).want(t, http.StatusForbidden)
	change := func(old, new string) answer {
		return d.send(ask{method: http.MethodPut, path: "/me/password", body: map[string]any{"old": old, "new": new}})
	}
	change("not this", "another horse, another stable").wantProblem(t, http.StatusUnprocessableEntity, "log-in")
	change(password(access.Lead), "short").wantProblem(t, http.StatusUnprocessableEntity, "password")
	change(password(access.Lead), "another horse, another stable").want(t, http.StatusNoContent)
	d.send(ask{method: http.MethodGet, path: "/me"}).want(t, http.StatusOK)
	d.send(ask{method: http.MethodDelete, path: "/session"}).want(t, http.StatusNoContent)
	d.send(ask{method: http.MethodGet, path: "/me"}).want(t, http.StatusUnauthorized)
	in("another horse, another stable").want(t, http.StatusNoContent)
	mine := read[struct{ Items []api.Session }](t, d.send(ask{method: http.MethodGet, path: "/sessions"}).want(t, http.StatusOK))
	d.send(ask{method: http.MethodDelete, path: "/sessions?id=" + mine.Items[0].ID}).want(t, http.StatusNoContent)
}

func urlOf(t *testing.T, d *door) *url.URL {
	t.Helper()
	u, err := url.Parse(d.server.URL)
	if err != nil {
		t.Fatal(err)
	}
	return u
}
