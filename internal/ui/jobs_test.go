package ui

import (
	"net/http"
	"net/http/httptest"
	"net/url"
	"strings"
	"testing"

	"foldwright/internal/access"
	"foldwright/internal/words"
)

// shown holds what a page answers to its status, to texts that must be there and to texts that must not.
func shown(t *testing.T, w *httptest.ResponseRecorder, status int, has, without []string) {
	t.Helper()
	body := w.Body.String()
	if w.Code != status {
		t.Errorf("status %d, want %d\n%.600s", w.Code, status, body)
	}
	for _, text := range has {
		if !strings.Contains(body, text) {
			t.Errorf("%q is missing", text)
		}
	}
	for _, text := range without {
		if strings.Contains(body, text) {
			t.Errorf("%q is there", text)
		}
	}
}

// The list says where every job stands, and leaves out what a filter does not want.
func TestJobsList(t *testing.T) {
	h, _ := kept(t, speaking{lang: words.English})
	for _, c := range []struct {
		name, target string
		role         access.Role
		has, without []string
	}{
		{"all", "/jobs", access.Viewer, []string{`href="/jobs/2101"`, "Tide tables, section 1", "perforate: fold 2, fold 3", "alder, place 1"}, []string{"/jobs/new"}},
		{"a lead may add", "/jobs", access.Lead, []string{"/jobs/new", "/jobs/new?like=2101"}, nil},
		{"words anywhere", "/jobs?find=TIDE+2109", access.Viewer, []string{`href="/jobs/2109"`}, []string{`href="/jobs/2101"`, `href="/jobs/2102"`}},
		{"a folder", "/jobs?folder=rowan", access.Viewer, []string{`href="/jobs/2104"`}, []string{`href="/jobs/2101"`}},
		{"a due day", "/jobs?due=2026-03-03", access.Viewer, []string{`href="/jobs/2133"`, "Tue 2026-03-03"}, []string{`href="/jobs/2101"`}},
		{"folded nowhere", "/jobs?nowhere=1", access.Viewer, []string{`href="/jobs/2124"`}, []string{`href="/jobs/2101"`}},
		{"done ones", "/jobs?state=done", access.Viewer, []string{`href="/jobs/2095"`}, []string{`href="/jobs/2101"`}},
		{"nothing fits", "/jobs?find=zzz", access.Viewer, []string{"No job fits."}, []string{"<tbody>"}},
		{"hostile", "/jobs?find=%3Cscript%3E&sort=zzz&due=%00&folder=%22", access.Viewer, []string{"&lt;script&gt;"}, []string{"<script>"}},
	} {
		t.Run(c.name, func(t *testing.T) {
			shown(t, ask(t, h, asked{role: c.role, target: c.target}), http.StatusOK, c.has, c.without)
		})
	}
	part := ask(t, h, asked{role: access.Viewer, target: "/jobs?find=tide", partial: true})
	shown(t, part, http.StatusOK, []string{`id="jobs-list"`}, []string{"<html", "jobs-filter"})
}

// A list sorted one way is the list sorted the other way, turned round.
func TestJobsSorted(t *testing.T) {
	h, _ := kept(t, speaking{lang: words.English})
	names := func(sort string) (list []string) {
		body := ask(t, h, asked{role: access.Viewer, target: "/jobs?sort=" + url.QueryEscape(sort)}).Body.String()
		for _, part := range strings.Split(body, `<th scope="row"><a href="/jobs/`)[1:] {
			list = append(list, part[:strings.IndexByte(part, '"')])
		}
		return list
	}
	up, down := names("name"), names("-name")
	if len(up) < 40 || up[0] != "2101" {
		t.Fatalf("sorted by name: %v", up)
	}
	for i := range up {
		if up[i] != down[len(down)-1-i] {
			t.Fatalf("place %d: %s one way, %s the other", i, up[i], down[len(down)-1-i])
		}
	}
}
