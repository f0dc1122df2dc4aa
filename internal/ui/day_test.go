package ui

import (
	"context"
	"crypto/rand"
	"net/http"
	"net/url"
	"path/filepath"
	"regexp"
	"strings"
	"sync"
	"testing"
	"time"

	"foldwright/internal/access"
	"foldwright/internal/calendar"
	"foldwright/internal/demo"
	"foldwright/internal/desk"
	"foldwright/internal/job"
	"foldwright/internal/ledger"
	"foldwright/internal/store"
	"foldwright/internal/words"
)

// waiting is a gate that runs what goes on in the background until it is told to wait for it.
type waiting struct {
	speaking
	*sync.WaitGroup
}

func (w waiting) Background(run func(context.Context)) { w.Go(func() { run(context.Background()) }) }
func (w waiting) Stopping() <-chan struct{}            { return nil }
func (w waiting) Streams(http.ResponseWriter)          {}

// dayPages is the app on a store with the demo shop, and what waits for its background work.
func dayPages(t *testing.T) (http.Handler, *desk.Desk, waiting) {
	t.Helper()
	whole, err := demo.Shop()
	if err != nil {
		t.Fatal(err)
	}
	s, err := store.Open(t.Context(), filepath.Join(t.TempDir(), "shop.db"), store.Options{})
	if err != nil {
		t.Fatal(err)
	}
	if _, err := s.Fill(t.Context(), ledger.By{Who: "test"}, whole); err != nil {
		t.Fatal(err)
	}
	d := &desk.Desk{Store: s, Books: s, Now: time.Now, Random: rand.Reader}
	g := waiting{speaking{lang: words.English}, new(sync.WaitGroup)}
	t.Cleanup(func() {
		g.Wait()
		_ = s.Close()
	})
	return New(d, g), d, g
}

// Goal: the axis is to scale where anybody works and folds the rest; a moment later never stands further left. Method: two
// days of one shift, worked out by hand.
func TestDayAxis(t *testing.T) {
	c := &calendar.Calendar{Zone: time.UTC}
	for d := range c.Week {
		c.Week[d] = []calendar.Span{{From: 6 * 60, To: 9 * 60}, {From: 9*60 + 15, To: 14*60 + 30}}
	}
	at := func(day, hour, minute int) time.Time { return time.Date(2026, 3, day, hour, minute, 0, 0, time.UTC) }
	a := newDayAxis(at(2, 7, 10), at(3, 12, 5), []calendar.Hours{{Calendar: c}})
	for _, w := range []struct {
		at              time.Time
		minutes, strips float64
	}{
		{at(2, 5, 0), 0, 0}, {at(2, 7, 0), 0, 0}, {at(2, 8, 30), 90, 0}, {at(2, 9, 10), 130, 0}, // a break is to scale
		{at(2, 15, 0), 480, 0}, {at(2, 22, 30), 480, 0.5}, // half the night from the full hour to six
		{at(3, 6, 0), 480, 1}, {at(3, 13, 0), 900, 1}, {at(4, 0, 0), 900, 1},
	} {
		if got := a.place(w.at); got.minutes != w.minutes || got.strips != w.strips {
			t.Errorf("%s stands at %v, want %v and %v", w.at, got, w.minutes, w.strips)
		}
	}
	if len(a.Days) != 2 || len(a.Folds) != 1 || a.Folds[0].Long != 15*time.Hour || len(a.Ticks) != 15 {
		t.Errorf("%d days, %+v folded, %d hours", len(a.Days), a.Folds, len(a.Ticks))
	}
	if closed := a.closed(calendar.Hours{Calendar: c}); len(closed) != 3 { // the break of the first day, half an hour in the afternoon, the break of the second
		t.Errorf("closed at %v, want three pieces", closed)
	}
}

// The page has every job of the plan at its place, and what a reader may not do is not on it.
func TestDayShowsThePlan(t *testing.T) {
	h, d, _ := dayPages(t)
	given, err := d.Draft(access.With(t.Context(), access.Who{Name: "ada", Role: access.Viewer}), desk.GivenDraft)
	if err != nil {
		t.Fatal(err)
	}
	seen := ask(t, h, asked{role: access.Viewer, target: "/day"}).Body.String()
	for _, lane := range given.Plan.Folders {
		for _, task := range lane.Tasks {
			if n := strings.Count(seen, `data-job="`+task.Job+`"`); n != 1 {
				t.Errorf("job %s stands on the page %d times", task.Job, n)
			}
		}
	}
	if got, want := len(regexp.MustCompile(`<tr [^>]*data-late`).FindAllString(seen, -1)), given.Plan.Figures.LateJobs; got != want {
		t.Errorf("%d jobs are marked late, want %d", got, want)
	}
	for _, forbidden := range []string{`action="/day/drafts/given/move"`, `action="/day/drafts/given/search"`, "data-grip"} {
		if strings.Contains(seen, forbidden) {
			t.Errorf("a viewer is shown %s", forbidden)
		}
		if !strings.Contains(ask(t, h, asked{role: access.Lead, target: "/day"}).Body.String(), forbidden) {
			t.Errorf("a lead is not shown %s", forbidden)
		}
	}
}

// Everything of a job stands on its page: its lines sum to its make-ready as the plan has it, and a late one says how likely
// it is on time.
func TestDayTellsAllOfAJob(t *testing.T) {
	h, _, _ := dayPages(t)
	page := ask(t, h, asked{role: access.Lead, target: "/day/drafts/given/jobs/2105"}).Body.String()
	for _, want := range []string{`on time on \d{1,3} days of 100`, `make-ready: 31.5 min`, `1A</dt><dd>leave`, `action="/day/jobs/2105/pin"`, `href="/day/drafts/given/cards.pdf\?job=2105"`} {
		if !regexp.MustCompile(want).MatchString(page) {
			t.Errorf("%q is not on\n%s", want, page)
		}
	}
	rescues := ask(t, h, asked{role: access.Viewer, target: "/day/drafts/given/jobs/2105/rescues"})
	if rescues.Code != http.StatusOK || !strings.Contains(rescues.Body.String(), "rescues") {
		t.Errorf("what would help: %d\n%s", rescues.Code, rescues.Body)
	}
	without := ask(t, h, asked{role: access.Lead, target: "/day/drafts/given/jobs/2124"}).Body.String()
	if !strings.Contains(without, "Without a place") || !strings.Contains(without, "<b>rowan</b>") {
		t.Errorf("a job without a place does not say why:\n%s", without)
	}
	if w := ask(t, h, asked{role: access.Lead, target: "/day/drafts/given/jobs/none"}); w.Code != http.StatusNotFound {
		t.Errorf("a job that is not there: %d", w.Code)
	}
}

// Without a script: a move leads to the draft it made, which leads back; a move that cannot be says why; taking over asks for
// the revision that was seen.
func TestDayWithoutScript(t *testing.T) {
	h, d, _ := dayPages(t)
	move := func(form url.Values) (int, string, string) {
		w := ask(t, h, asked{role: access.Lead, method: http.MethodPost, target: "/day/drafts/given/move", form: form})
		return w.Code, w.Header().Get("Location"), w.Body.String()
	}
	code, at, _ := move(url.Values{"job": {"2105"}, "spot": {spotOf("alder", "2101")}})
	if code != http.StatusSeeOther || !strings.HasPrefix(at, "/day/drafts/") {
		t.Fatalf("a move gives %d to %q", code, at)
	}
	page := ask(t, h, asked{role: access.Lead, target: at}).Body.String()
	first, second := strings.Index(page, `data-job="2105"`), strings.Index(page, `data-job="2101"`)
	if first < 0 || first > second {
		t.Errorf("2105 stands at %d, 2101 at %d", first, second)
	}
	if !strings.Contains(page, `href="/day?undone=`+strings.TrimPrefix(at, "/day/drafts/")) {
		t.Error("the draft does not lead back")
	}
	for name, c := range map[string]struct {
		form url.Values
		code int
		says string
	}{
		"to a folder that cannot":  {url.Values{"job": {"2107"}, "folder": {"rowan"}}, 422, "rowan cannot run job 2107"},
		"to a folder nobody knows": {url.Values{"job": {"2107"}, "folder": {"<b>"}}, 404, "there is no folder"},
		"in front of nothing":      {url.Values{"job": {"2107"}, "folder": {"birch"}, "before": {"2101"}}, 409, "does not stand on birch"},
		"of a job nobody knows":    {url.Values{"job": {"x"}, "folder": {"birch"}}, 404, "there is no job"},
		"of nothing to nowhere":    {url.Values{"spot": {"%zz"}}, 422, "is no place in the order"},
	} {
		if code, _, body := move(c.form); code != c.code || !strings.Contains(body, c.says) {
			t.Errorf("%s: %d, want %d and %q in\n%s", name, code, c.code, c.says, body)
		}
	}
	accept := func(revision string) (int, string) {
		w := ask(t, h, asked{role: access.Lead, method: http.MethodPost, target: at + "/accept", form: url.Values{"revision": {revision}}})
		return w.Code, w.Header().Get("Location")
	}
	seen := regexp.MustCompile(`name="revision" value="(\d+)"`).FindStringSubmatch(page)
	if seen == nil {
		t.Fatal("the draft cannot be taken over")
	}
	if _, err := d.Pin(access.With(t.Context(), access.Who{Name: "bo", Role: access.Lead}), "2160", job.Pin{Folder: "alder"}); err != nil {
		t.Fatal(err)
	}
	if code, _ := accept(seen[1]); code != http.StatusConflict {
		t.Errorf("taking over what was changed since gives %d", code)
	}
	if code, _ := accept("many"); code != http.StatusUnprocessableEntity {
		t.Errorf("a revision that is none gives %d", code)
	}
	page = ask(t, h, asked{role: access.Lead, target: at}).Body.String()
	seen = regexp.MustCompile(`name="revision" value="(\d+)"`).FindStringSubmatch(page)
	if code, to := accept(seen[1]); code != http.StatusSeeOther || to != "/day" {
		t.Errorf("taking over gives %d to %q", code, to)
	}
}

// A search without a script: it begins, its page tells how far it is, and in the end leads to a draft that is no worse.
func TestDaySearchWithoutScript(t *testing.T) {
	h, d, g := dayPages(t)
	lead := func(method, target string, form url.Values) (int, string, string) {
		w := ask(t, h, asked{role: access.Lead, method: method, target: target, form: form})
		return w.Code, w.Header().Get("Location"), w.Body.String()
	}
	for _, wrong := range []url.Values{{"seconds": {"7"}}, {"seconds": {"5"}, "near": {"60"}, "price": {"-1"}}, {"seconds": {"5"}, "safe": {"x"}}} {
		if code, _, _ := lead(http.MethodPost, "/day/drafts/given/search", wrong); code != http.StatusUnprocessableEntity {
			t.Errorf("%v gives %d", wrong, code)
		}
	}
	_, at, _ := lead(http.MethodPost, "/day/drafts/given/search", url.Values{"seconds": {"300"}, "near": {"60"}, "price": {"15"}, "safe": {"67"}})
	if !strings.HasPrefix(at, "/day/searches/") {
		t.Fatalf("a search leads to %q", at)
	}
	if code, _, body := lead(http.MethodGet, at, nil); code != http.StatusOK || !strings.Contains(body, "ada searches for a better order") {
		t.Errorf("its page: %d\n%s", code, body)
	}
	if w := ask(t, h, asked{role: access.Viewer, target: "/day/searches?on=given&seen=", partial: true}); w.Code != http.StatusOK || !strings.Contains(w.Body.String(), "ada searches") {
		t.Errorf("somebody else is told %d:\n%s", w.Code, w.Body)
	}
	if w := ask(t, h, asked{role: access.Viewer, target: "/day/searches?on=given&seen=" + strings.TrimPrefix(at, "/day/searches/"), partial: true}); w.Code != http.StatusNoContent {
		t.Errorf("who has seen it is told %d", w.Code)
	}
	if code, back, _ := lead(http.MethodPost, at+"/cancel", url.Values{}); code != http.StatusSeeOther || back != at {
		t.Errorf("stopping gives %d to %q", code, back)
	}
	g.Wait()
	_, _, body := lead(http.MethodGet, at, nil)
	found := regexp.MustCompile(`href="/day/drafts/([a-z0-9]+)"`).FindStringSubmatch(body)
	if found == nil {
		t.Fatalf("nothing was found:\n%s", body)
	}
	made, err := d.Draft(access.With(t.Context(), access.Who{Name: "ada", Role: access.Lead}), found[1])
	if err != nil {
		t.Fatal(err)
	}
	if len(made.Plan.Unplaced) > len(made.Plan.Given.Unplaced) {
		t.Errorf("the search leaves %d jobs without a place", len(made.Plan.Unplaced))
	}
	events := ask(t, h, asked{role: access.Viewer, target: at + "/events"})
	if got := events.Header().Get("Content-Type"); got != "text/event-stream" || !strings.Contains(events.Body.String(), "event: done") {
		t.Errorf("the stream is %s:\n%s", got, events.Body)
	}
}

// What is printed is a PDF; nothing to print is said.
func TestDayPrints(t *testing.T) {
	h, _, _ := dayPages(t)
	for _, target := range []string{"/day/drafts/given/cards.pdf?job=2101", "/day/drafts/given/day.pdf"} {
		w := ask(t, h, asked{role: access.Viewer, target: target})
		if w.Code != http.StatusOK || !strings.HasPrefix(w.Body.String(), "%PDF-") {
			t.Errorf("%s: %d", target, w.Code)
		}
	}
	if w := ask(t, h, asked{role: access.Viewer, target: "/day/drafts/given/cards.pdf?job=none"}); w.Code != http.StatusNotFound {
		t.Errorf("a card of no job: %d", w.Code)
	}
}

// Undo and redo travel in the address, and only what looks like a draft does.
func TestStepsInTheAddress(t *testing.T) {
	r, err := http.NewRequestWithContext(t.Context(), http.MethodGet, "/day/drafts/b?undone=c,d,%2F%2Fe.example", http.NoBody)
	if err != nil {
		t.Fatal(err)
	}
	b := &dayBody{Draft: &desk.Draft{Draft: ledger.Draft{ID: "b", Parent: "a", How: "move"}}}
	b.steps(r)
	if b.Undo != "/day/drafts/a?undone=b%2Cc%2Cd" || b.Redo != "/day/drafts/c?undone=d" {
		t.Errorf("back is %s, forth %s", b.Undo, b.Redo)
	}
}
