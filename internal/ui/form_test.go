package ui

import (
	"crypto/rand"
	"fmt"
	"net/http"
	"net/http/httptest"
	"net/url"
	"path/filepath"
	"regexp"
	"strings"
	"testing"
	"time"

	"github.com/google/go-cmp/cmp"
	"golang.org/x/net/html"
	"pgregory.net/rapid"

	"foldwright/internal/access"
	"foldwright/internal/demo"
	"foldwright/internal/desk"
	"foldwright/internal/exchange"
	"foldwright/internal/ledger"
	"foldwright/internal/store"
	"foldwright/internal/words"
)

// kept is the app on the demo shop in a database, with its desk.
func kept(t *testing.T, g speaking) (http.Handler, *desk.Desk) {
	t.Helper()
	whole, err := demo.Shop()
	if err != nil {
		t.Fatal(err)
	}
	s, err := store.Open(t.Context(), filepath.Join(t.TempDir(), "shop.db"), store.Options{})
	if err != nil {
		t.Fatal(err)
	}
	t.Cleanup(func() { _ = s.Close() })
	if _, err := s.Fill(t.Context(), ledger.By{Who: "test"}, whole); err != nil {
		t.Fatal(err)
	}
	d := &desk.Desk{Store: s, Books: s, Now: func() time.Time { return whole.Now }, Random: rand.Reader}
	return New(d, g), d
}

// fieldsOf reads the inputs of the page's main form as a browser would send them.
func fieldsOf(t *testing.T, w *httptest.ResponseRecorder) url.Values {
	t.Helper()
	root, err := html.Parse(strings.NewReader(w.Body.String()))
	if err != nil {
		t.Fatal(err)
	}
	sent := url.Values{}
	var walk func(n *html.Node, inside bool)
	walk = func(n *html.Node, inside bool) {
		if n.Type == html.ElementNode {
			inside = inside || n.Data == "form" && attr(n, "class") == "form"
			if name := attr(n, "name"); inside && name != "" {
				addField(sent, n, name)
			}
		}
		for c := n.FirstChild; c != nil; c = c.NextSibling {
			walk(c, inside)
		}
	}
	walk(root, false)
	return sent
}

func addField(sent url.Values, n *html.Node, name string) {
	switch {
	case n.Data == "input" && (attr(n, "type") == "checkbox" || attr(n, "type") == "radio"):
		if has(n, "checked") {
			sent.Add(name, attr(n, "value"))
		}
	case n.Data == "input":
		sent.Add(name, attr(n, "value"))
	case n.Data == "select":
		sent.Add(name, chosen(n))
	}
}

// chosen is the option that is selected, or the first.
func chosen(n *html.Node) string {
	value, first := "", true
	for c := range n.Descendants() {
		if c.Type == html.ElementNode && c.Data == "option" && (first || has(c, "selected")) {
			first = false
			if value = attr(c, "value"); !has(c, "value") && c.FirstChild != nil {
				value = c.FirstChild.Data
			}
		}
	}
	return value
}

func attr(n *html.Node, name string) string {
	for _, a := range n.Attr {
		if a.Key == name {
			return a.Val
		}
	}
	return ""
}

func has(n *html.Node, name string) bool {
	for _, a := range n.Attr {
		if a.Key == name {
			return true
		}
	}
	return false
}

// Goal: opening a form and saving it changes nothing, whatever the thing and in whichever unit it is read. Method: every
// thing of the demo is shown, sent back as the browser would send it, and read.
func TestEveryFormReadsBackWhatItShows(t *testing.T) {
	for _, inch := range []bool{false, true} {
		h, d := kept(t, speaking{lang: words.English, inch: inch})
		now, err := d.Snapshot(access.With(t.Context(), access.Who{Name: "ada", Role: access.Admin}))
		if err != nil {
			t.Fatal(err)
		}
		for _, k := range ledger.Kinds() {
			for i, tag := range now.Tags(k) {
				if i >= 12 { // of sixty jobs the first twelve
					break
				}
				at := editURL(k, tag.Name, "/")
				w := ask(t, h, asked{role: access.Admin, target: at})
				if w.Code != http.StatusOK {
					t.Fatalf("%s: %d", at, w.Code)
				}
				read := newTyped(fieldsOf(t, w)).read(group(exchange.Fields(k)), "")
				read.prune()
				own := *now.Shop
				own.Inch = inch
				got, err := exchange.ReadThing(k, read.json(group(exchange.Fields(k))), &own)
				if err != nil {
					t.Fatalf("%s: %v\n%s", at, err, read.json(group(exchange.Fields(k))))
				}
				want := ledger.Values(now.Shop, k)[i]
				if a, b := exchange.WriteThing(k, want, now.Shop), exchange.WriteThing(k, got, now.Shop); string(a) != string(b) {
					t.Errorf("%s (inch %v): %s", at, inch, cmp.Diff(string(a), string(b)))
				}
			}
		}
	}
}

// send sends a form back with some fields changed.
func send(t *testing.T, h http.Handler, at string, fields url.Values, change map[string]string) *httptest.ResponseRecorder {
	t.Helper()
	for name, value := range change {
		fields.Set(name, value)
	}
	return ask(t, h, asked{role: access.Admin, method: http.MethodPost, target: strings.SplitN(at, "?", 2)[0], form: fields})
}

// A thing is changed, the next page says so and takes it back.
func TestSaveAndUndo(t *testing.T) {
	h, d := kept(t, speaking{lang: words.English})
	ctx := access.With(t.Context(), access.Who{Name: "ada", Role: access.Admin})
	people, err := d.Things(ctx, ledger.OfPerson)
	if err != nil {
		t.Fatal(err)
	}
	at := editURL(ledger.OfPerson, people[0].Name, "/admin/shop")
	fields := fieldsOf(t, ask(t, h, asked{role: access.Admin, target: at}))
	w := send(t, h, at, fields, map[string]string{"name": "somebody else"})
	if w.Code != http.StatusSeeOther || w.Header().Get("Location") != "/admin/shop" {
		t.Fatalf("%d to %s\n%s", w.Code, w.Header().Get("Location"), w.Body)
	}
	r := httptest.NewRequest(http.MethodGet, "/admin/shop", nil).WithContext(ctx)
	for _, c := range w.Result().Cookies() {
		r.AddCookie(c)
	}
	next := httptest.NewRecorder()
	h.ServeHTTP(next, r)
	undo := regexp.MustCompile(`name="revision" value="(\d+)"`).FindStringSubmatch(next.Body.String())
	if undo == nil || !strings.Contains(next.Body.String(), "somebody else is saved.") {
		t.Fatalf("the next page does not say what was done:\n%s", next.Body)
	}
	w = ask(t, h, asked{role: access.Admin, method: http.MethodPost, target: "/undo", form: url.Values{"revision": {undo[1]}, "back": {"/admin/shop"}}})
	if w.Code != http.StatusSeeOther {
		t.Fatalf("%d\n%s", w.Code, w.Body)
	}
	if _, err := d.Thing(ctx, ledger.OfPerson, people[0].Name); err != nil {
		t.Errorf("it was not taken back: %v", err)
	}
}

// A form that is saved as it was changes nothing, and offers nothing to take back: that would be an older change.
func TestSavingWhatIsThereAlready(t *testing.T) {
	h, d := kept(t, speaking{lang: words.English})
	ctx := access.With(t.Context(), access.Who{Name: "ada", Role: access.Admin})
	before, err := d.Snapshot(ctx)
	if err != nil {
		t.Fatal(err)
	}
	at := editURL(ledger.OfFolder, "alder", "/admin/shop")
	w := send(t, h, at, fieldsOf(t, ask(t, h, asked{role: access.Admin, target: at})), map[string]string{"do": "save"})
	if w.Code != http.StatusSeeOther {
		t.Fatalf("%d\n%s", w.Code, w.Body)
	}
	r := httptest.NewRequest(http.MethodGet, "/admin/shop", nil).WithContext(ctx)
	for _, c := range w.Result().Cookies() {
		r.AddCookie(c)
	}
	if f := takeFlash(httptest.NewRecorder(), r); f == nil || f.Undo != 0 {
		t.Errorf("the next page says %+v", f)
	}
	after, err := d.Snapshot(ctx)
	if err != nil || after.Revision != before.Revision {
		t.Errorf("revision %d after %d, %v", after.Revision, before.Revision, err)
	}
}

// Whatever is sent as a form is read without a panic, and every answer is a page.
func TestForeignForms(t *testing.T) {
	h, _ := kept(t, speaking{lang: words.English})
	part := rapid.SampledFrom([]string{"name", "units", "plates", "week", "stock", "[0]", "[1]", "[-1]", "[999999999999]", "{0}", "{0}=", ".", "=", "take:", "\x00", "\xff", "<b>", "[", "]", "sheet", "tools", "guides"})
	deed := rapid.SampledFrom([]string{"", "save", "add:", "drop:", "up:", "fields:", "name:", "take:"})
	rapid.Check(t, func(t *rapid.T) {
		form := url.Values{}
		path := func(label string) string { return strings.Join(rapid.SliceOfN(part, 0, 4).Draw(t, label), "") }
		for range rapid.IntRange(0, 6).Draw(t, "fields") {
			form.Add(path("field"), path("value"))
		}
		form.Set("do", deed.Draw(t, "deed")+path("what"))
		k := rapid.SampledFrom(ledger.Kinds()).Draw(t, "kind")
		r := httptest.NewRequest(http.MethodPost, "/edit/"+string(k), strings.NewReader(form.Encode()))
		r.Header.Set("Content-Type", "application/x-www-form-urlencoded")
		r = r.WithContext(access.With(r.Context(), access.Who{Name: "ada", Role: access.Admin}))
		w := httptest.NewRecorder()
		h.ServeHTTP(w, r)
		if w.Code >= http.StatusInternalServerError || w.Code < http.StatusSeeOther && w.Code != http.StatusOK {
			t.Fatalf("%v gives %d", form, w.Code)
		}
		if strings.Contains(w.Body.String(), "<b>") {
			t.Fatalf("%v: what was typed is part of the page", form)
		}
	})
}

// What is wrong stands beside its field and in the summary, which leads there; what was typed stays, wherever the fault is found.
func TestFaultsStandBesideTheirFields(t *testing.T) {
	h, _ := kept(t, speaking{lang: words.English})
	at := editURL(ledger.OfFolder, "alder", "/folders")
	for path, typed := range map[string]string{
		"units[0].plates[1]":          "wide",
		"units[0].speed":              "fast",
		"units[0].stations[0].class":  "99",
		"feeder.rate":                 "-3",
		"units[0].stations[0].name":   "",
		"units[1].guide.range":        "300 to 200",
		"calendar":                    "nowhere",
		"units[0].stations[0].shaft":  "40",
		"units[0].thickness":          "<script>",
		"units[0].stations[0].access": "1:20",
	} {
		fields := fieldsOf(t, ask(t, h, asked{role: access.Admin, target: at}))
		w := send(t, h, at, fields, map[string]string{path: typed})
		body := w.Body.String()
		if w.Code != http.StatusUnprocessableEntity {
			t.Errorf("%s = %q: %d", path, typed, w.Code)
			continue
		}
		id := idOf(path)
		if !strings.Contains(body, `href="#`+id+`"`) || !strings.Contains(body, `id="`+id+`-fault"`) {
			t.Errorf("%s = %q: no fault at #%s in\n%s", path, typed, id, regexp.MustCompile(`(?s)<ul class="faults".*?</ul>`).FindString(body))
		}
		if got := fieldsOf(t, w).Get(path); got != typed {
			t.Errorf("%s: %q was typed, %q is left", path, typed, got)
		}
		if strings.Contains(body, "<script>") && typed == "<script>" {
			t.Error("what was typed runs")
		}
	}
}

// Rows are added, moved and taken away without a script, and nothing is saved by it.
func TestRowsOfAForm(t *testing.T) {
	h, _ := kept(t, speaking{lang: words.English})
	at := editURL(ledger.OfFolder, "alder", "/folders")
	fields := fieldsOf(t, ask(t, h, asked{role: access.Admin, target: at}))
	first, second := fields.Get("units[0].plates[0]"), fields.Get("units[0].plates[1]")
	rows := func(v url.Values) (n int) {
		for v.Has(fmt.Sprintf("units[0].plates[%d]", n)) {
			n++
		}
		return n
	}
	before := rows(fields)
	fields = fieldsOf(t, send(t, h, at, fields, map[string]string{"do": "add:units[0].plates"}))
	if got := rows(fields); got != before+1 {
		t.Fatalf("%d rows after one was added to %d", got, before)
	}
	fields = fieldsOf(t, send(t, h, at, fields, map[string]string{"do": "up:units[0].plates[1]"}))
	if fields.Get("units[0].plates[0]") != second || fields.Get("units[0].plates[1]") != first {
		t.Errorf("the rows did not change places: %v", fields)
	}
	fields = fieldsOf(t, send(t, h, at, fields, map[string]string{"do": "drop:units[0].plates[0]"}))
	if got := rows(fields); got != before || fields.Get("units[0].plates[0]") != first {
		t.Errorf("%d rows, the first %q, after one was dropped", got, fields.Get("units[0].plates[0]"))
	}
	fields = fieldsOf(t, ask(t, h, asked{role: access.Admin, target: "/new/calendar?back=/"}))
	fields = fieldsOf(t, send(t, h, "/new/calendar", fields, map[string]string{"name": "nights", "do": "add:week"}))
	w := send(t, h, "/new/calendar", fields, map[string]string{"week{0}": "mon-fri", "week{0}=": "22:00-24:00", "do": "save"})
	if w.Code != http.StatusSeeOther {
		t.Errorf("a new calendar: %d\n%s", w.Code, w.Body)
	}
	for _, nonsense := range []string{"add:nowhere", "drop:units[99]", "up:units[0]", "drop:units", "add:", "fields:name", "add:units[x]"} {
		f := newTyped(url.Values{}).read(group(exchange.Fields(ledger.OfFolder)), "")
		if f.do(group(exchange.Fields(ledger.OfFolder)), nonsense) {
			t.Errorf("%s was done", nonsense)
		}
	}
}

// Two people open the same folder, both save: the second sees both, takes one thing and keeps another.
func TestConflictShowsBoth(t *testing.T) {
	h, d := kept(t, speaking{lang: words.English})
	ctx := access.With(t.Context(), access.Who{Name: "ada", Role: access.Admin})
	at := editURL(ledger.OfFolder, "alder", "/folders")
	mine, theirs := fieldsOf(t, ask(t, h, asked{role: access.Admin, target: at})), fieldsOf(t, ask(t, h, asked{role: access.Admin, target: at}))
	if w := send(t, h, at, theirs, map[string]string{"serial": "theirs-1", "model": "theirs"}); w.Code != http.StatusSeeOther {
		t.Fatalf("the first: %d\n%s", w.Code, w.Body)
	}
	w := send(t, h, at, mine, map[string]string{"serial": "mine-1", "model": "mine"})
	if w.Code != http.StatusConflict {
		t.Fatalf("the second: %d", w.Code)
	}
	for _, want := range []string{"mine-1", "theirs-1", `name="take:serial"`, `name="take:model"`, "ada"} {
		if !strings.Contains(w.Body.String(), want) {
			t.Errorf("the page of the conflict does not show %s", want)
		}
	}
	if strings.Contains(w.Body.String(), `name="take:units`) {
		t.Error("the page shows a difference where there is none")
	}
	w = send(t, h, at, fieldsOf(t, w), map[string]string{"take:serial": "theirs"})
	if w.Code != http.StatusSeeOther {
		t.Fatalf("the mixture: %d\n%s", w.Code, w.Body)
	}
	kept, err := d.Shop(ctx)
	if err != nil {
		t.Fatal(err)
	}
	if f, _ := kept.Folder("alder"); f.Serial != "theirs-1" || f.Model != "mine" {
		t.Errorf("kept: serial %q, model %q", f.Serial, f.Model)
	}
}

// A job names its stock, or has one of its own.
func TestStockOfItsOwn(t *testing.T) {
	h, d := kept(t, speaking{lang: words.English})
	ctx := access.With(t.Context(), access.Who{Name: "ada", Role: access.Lead})
	jobs, err := d.Things(ctx, ledger.OfJob)
	if err != nil {
		t.Fatal(err)
	}
	at := editURL(ledger.OfJob, jobs[0].Name, "/jobs")
	fields := fieldsOf(t, ask(t, h, asked{role: access.Lead, target: at}))
	fields = fieldsOf(t, send(t, h, at, fields, map[string]string{"do": "fields:stock"}))
	if !fields.Has("stock.grammage") || fields.Has("stock") {
		t.Fatalf("no fields of a stock: %v", fields)
	}
	w := send(t, h, at, fields, map[string]string{"stock.grammage": "90", "stock.name": "odd lot", "do": "save"})
	if w.Code != http.StatusSeeOther {
		t.Fatalf("%d\n%s", w.Code, w.Body)
	}
	got, err := d.Shop(ctx)
	if err != nil {
		t.Fatal(err)
	}
	if j, _ := got.Job(jobs[0].Name); j.Stock.Name != "odd lot" || j.Stock.Grammage.G() != 90 {
		t.Errorf("kept: %+v", j.Stock)
	}
}

// Every field of every kind has a name for people, and what it is about stands among the texts.
func TestEveryFieldHasALabel(t *testing.T) {
	said := map[string]bool{}
	for _, h := range helps {
		said[h.Key] = false
	}
	var walk func(k ledger.Kind, v *exchange.Value, path string)
	walk = func(k ledger.Kind, v *exchange.Value, path string) {
		if v == nil {
			return
		}
		for i := range v.Fields {
			f := &v.Fields[i]
			at := join(path, f.Name)
			if l := labelOf(k, at); l.Key == "%s" {
				t.Errorf("%s %s has no label", k, at)
			}
			if _, ok := said[f.About]; !ok {
				t.Errorf("%s %s: %q is not among the helps", k, at, f.About)
			}
			said[f.About] = true
			walk(k, &f.Value, at)
		}
		walk(k, v.Each, path)
		walk(k, v.Or, path)
	}
	for _, k := range ledger.Kinds() {
		if kindNames[k].Key == "" || apiNames[k] == "" {
			t.Errorf("%s has no name", k)
		}
		walk(k, group(exchange.Fields(k)), "")
	}
	for help, used := range said {
		if !used {
			t.Errorf("no field is about %q", help)
		}
	}
}
