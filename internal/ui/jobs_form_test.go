package ui

import (
	"html"
	"net/http"
	"net/url"
	"strings"
	"testing"

	"foldwright/internal/access"
	"foldwright/internal/desk"
	"foldwright/internal/job"
	"foldwright/internal/ledger"
	"foldwright/internal/units"
	"foldwright/internal/words"
)

// Goal: what the helper beside the operations writes is what a docket holds. Method: the text of each choice is read by the
// docket's own reader and written again.
func TestOperationHelper(t *testing.T) {
	for want, v := range map[string]url.Values{
		"perforate fold 2 with 12 tpi":       {"op-kind": {"perforate"}, "op-on": {"fold"}, "op-fold": {"2"}, "op-spec": {"12 tpi"}, "op-strip": {"6"}},
		"score fold 1":                       {"op-kind": {"score"}, "op-on": {"fold"}, "op-fold": {"1"}, "op-ups": {"two-up"}},
		"perforate at s 100 mm":              {"op-kind": {"perforate"}, "op-on": {"line"}, "op-axis": {"s"}, "op-at": {"100"}, "op-fold": {"3"}},
		"slit at t 305 mm strip 6 mm two-up": {"op-kind": {"slit"}, "op-on": {"line"}, "op-axis": {"t"}, "op-at": {"305"}, "op-strip": {"6"}, "op-ups": {"two-up"}, "op-spec": {"x"}},
		"slit fold 2":                        {"op-kind": {"slit"}, "op-on": {"fold"}, "op-fold": {"2"}, "op-ups": {"two-up"}},
		"trim 3 mm at the foot":              {"op-kind": {"trim"}, "op-by": {"3"}, "op-edge": {"foot"}, "op-fold": {"1"}},
		"slit at t 213 mm one-up":            {"op-kind": {"slit"}, "op-on": {"line"}, "op-axis": {"t"}, "op-at": {"213"}, "op-ups": {"one-up"}},
		"score at t 40 mm with 0.7 mm":       {"op-kind": {"score"}, "op-on": {"line"}, "op-axis": {"t"}, "op-at": {" 40 "}, "op-spec": {"0.7 mm"}},
		"perforate at t 12.5 mm with 18 tpi": {"op-kind": {"perforate"}, "op-on": {"line"}, "op-axis": {"t"}, "op-at": {"12.5"}, "op-spec": {"18 tpi"}},
		"trim 2.5 mm at the front":           {"op-kind": {"trim"}, "op-by": {"2.5"}, "op-edge": {"front"}},
		"slit at s 100 mm strip 4 mm":        {"op-kind": {"slit"}, "op-on": {"line"}, "op-axis": {"s"}, "op-at": {"100"}, "op-strip": {"4"}},
		"perforate fold 3 with 12 tpi":       {"op-kind": {"perforate"}, "op-on": {"fold"}, "op-fold": {"3"}, "op-spec": {"12 tpi"}},
	} {
		text := operationTyped(v)
		op, err := job.ParseOperation(text, units.Millimetre)
		if err != nil || op.String() != want {
			t.Errorf("%v writes %q, read as %q, %v; want %q", v, text, op, err, want)
		}
	}
}

// Goal: a docket that is half typed is drawn as far as it goes, and what is missing is asked for, not complained of.
func TestTryHalfADocket(t *testing.T) {
	h, _ := kept(t, speaking{lang: words.English})
	whole := url.Values{"name": {"3001"}, "sheet": {"860 x 610"}, "stock": {"offset 80"}, "fold": {"up 1/2, left, up 1/2, left, up 1/2"}, "sheets": {"9000"}}
	for _, c := range []struct {
		name         string
		change       url.Values
		has, without []string
	}{
		{"all of it", nil, []string{"data-dummy", "to run", "16 pages"}, []string{"Still to come", "data-wrong"}},
		{"nothing yet", url.Values{"name": {""}, "sheet": {""}, "stock": {""}, "fold": {""}, "sheets": {""}}, []string{"Still to come", "Folds and turns"}, []string{"data-dummy", "data-wrong"}},
		{"no name, no sheets", url.Values{"name": {""}, "sheets": {""}}, []string{"data-dummy", "to make ready", "Still to come"}, []string{"data-wrong"}},
		{"no stock", url.Values{"stock": {""}}, []string{"data-dummy"}, []string{"to make ready", "No folder can fold it"}},
		{"an unknown stock", url.Values{"stock": {"offset 81"}}, []string{"data-dummy", `data-for="f-stock"`}, []string{"to make ready"}},
		{"a due time that is none", url.Values{"due": {"soon"}}, []string{"data-dummy", "to run", `data-for="f-due"`}, nil},
		{"an operation that is none", url.Values{"operations[0]": {"perforate"}}, []string{"data-dummy", "data-for=\"f-operations-0\""}, []string{"to make ready"}},
		{"a scheme begun", url.Values{"fold": {""}, "scheme": {"F16-"}}, []string{"Schemes that begin so", "F16-7"}, []string{"data-dummy"}},
		{"a name that is taken", url.Values{"name": {"2101"}}, []string{"data-dummy", `data-for="f-name"`}, nil},
		{"too large for all", url.Values{"sheet": {"2000 x 1500"}}, []string{"No folder can fold it", "the feeder takes sheets up to"}, []string{"to run"}},
		{"hostile", url.Values{"name": {`"><script>`}, "title": {strings.Repeat("x", 9000)}, "sheet": {"1e9 x 1e9"}}, nil, []string{"<script>"}},
		{"huge", url.Values{"sheets": {strings.Repeat("9", 400)}}, []string{"data-dummy"}, nil},
	} {
		t.Run(c.name, func(t *testing.T) {
			form := url.Values{}
			for _, from := range []url.Values{whole, c.change} {
				for k, v := range from {
					form[k] = v
				}
			}
			shown(t, ask(t, h, asked{role: access.Lead, method: http.MethodPost, target: "/jobs/try", form: form, partial: true}), http.StatusOK, c.has, c.without)
		})
	}
	if w := ask(t, h, asked{role: access.Operator, method: http.MethodPost, target: "/jobs/try", form: whole}); w.Code != http.StatusForbidden {
		t.Errorf("an operator gets %d, want 403", w.Code)
	}
}

// Goal: whoever has no script has a docket checked and kept by its buttons alone. Method: the form is sent as a browser would.
func TestDocketWithoutScript(t *testing.T) {
	h, d := kept(t, speaking{lang: words.English})
	post := func(target string, form url.Values) string {
		w := ask(t, h, asked{role: access.Lead, method: http.MethodPost, target: target, form: form})
		return w.Header().Get("Location")
	}
	form := fieldsOf(t, ask(t, h, asked{role: access.Lead, target: "/jobs/new"}))
	for k, v := range map[string]string{"sheet": "297 x 210", "stock": "offset 100", "fold": "letter inner 2 mm", "sheets": "500"} {
		form.Set(k, v)
	}
	form.Set("do", "check")
	w := ask(t, h, asked{role: access.Lead, method: http.MethodPost, target: "/jobs/new", form: form})
	shown(t, w, http.StatusUnprocessableEntity, []string{`id="f-name-fault"`, "data-dummy", "rowan"}, nil)
	form = fieldsOf(t, w)
	form.Set("do", "operation")
	form.Set("op-kind", "trim")
	form.Set("op-edge", "foot")
	form.Set("op-by", "3")
	w = ask(t, h, asked{role: access.Lead, method: http.MethodPost, target: "/jobs/new", form: form})
	form = fieldsOf(t, w)
	if got := form.Get("operations[0]"); got != "trim 3 at the foot" {
		t.Errorf("the helper wrote %q", got)
	}
	form.Set("name", "3001")
	form.Set("do", "save")
	if to := post("/jobs/new", form); to != "/jobs/3001" {
		t.Fatalf("saved, one is led to %q", to)
	}
	thing, err := d.Thing(access.With(t.Context(), access.Who{Name: "ada", Role: access.Viewer}), ledger.OfJob, "3001")
	if err != nil {
		t.Fatal(err)
	}
	if j := thing.Value.(job.Job); j.Sheets != 500 || len(j.Operations) != 1 || j.Operations[0].String() != "trim 3 mm at the foot" {
		t.Errorf("kept is %+v", j)
	}
}

// Goal: a repeat is the earlier job, with a number of its own. Method: the form of the repeat is sent untouched.
func TestRepeatUntouched(t *testing.T) {
	for _, name := range []string{"2101", "2106", "2117", "2095"} { // the last is done
		h, d := kept(t, speaking{lang: words.German, inch: true})
		form := fieldsOf(t, ask(t, h, asked{role: access.Lead, target: repeatPath(name)}))
		form.Set("do", "save")
		w := ask(t, h, asked{role: access.Lead, method: http.MethodPost, target: "/jobs/new", form: form})
		if to := w.Header().Get("Location"); to != "/jobs/"+name+"-2" {
			t.Fatalf("%s: led to %q\n%.400s", name, to, w.Body)
		}
		s, err := d.Shop(access.With(t.Context(), access.Who{Name: "ada", Role: access.Viewer}))
		if err != nil {
			t.Fatal(err)
		}
		was, _ := s.Job(name)
		got, _ := s.Job(name + "-2")
		if got.Sheet != was.Sheet || got.Scheme.String() != was.Scheme.String() || got.Sheets != was.Sheets || len(got.Operations) != len(was.Operations) || !got.Due.IsZero() || got.Given != "" {
			t.Errorf("%s: %+v repeats %+v", name, got, was)
		}
	}
}

// Every page of jobs speaks every language, in millimetres and inches, of a waiting job, a done one and one that nobody can fold.
func TestJobPagesInAllLanguages(t *testing.T) {
	for _, lang := range words.Langs() {
		for _, inch := range []bool{false, true} {
			h, _ := kept(t, speaking{lang: lang, inch: inch})
			for target, want := range map[string]int{
				"/jobs": 200, "/jobs?state=all": 200, "/jobs?nowhere=1": 200, "/jobs/2101": 200, "/jobs/2106?folder=hazel": 200, "/jobs/2095": 200, "/jobs/2124": 200, "/jobs/new": 200,
				"/jobs/2101/edit": 200, "/jobs/new?like=2124": 200, "/floor/jobs/2101": 200, "/floor/jobs/2103?folder=hazel": 200, "/floor/jobs/2095": 200, "/floor/jobs/2124": 422,
				"/records": 200, "/records/new": 200, "/jobs/2101/card.pdf?paper=Letter": 200, "/jobs/nothing": 404, "/jobs/new?like=nothing": 404, "/floor/jobs/nothing": 404,
				"/jobs/2101/card.pdf?folder=rowan": 422, "/jobs/2101/bench.pdf?set=none": 404, "/records/nothing": 404,
			} {
				if w := ask(t, h, asked{role: access.Admin, target: target}); w.Code != want {
					t.Errorf("%s, inch %t: %s gives %d, want %d\n%.300s", lang, inch, target, w.Code, want, w.Body)
				}
			}
		}
	}
}

// A job may be called whatever the docket says; its pages are reached all the same, and nothing of it is taken for more than text.
func TestJobsWithOddNames(t *testing.T) {
	h, d := kept(t, speaking{lang: words.English})
	lead := access.With(t.Context(), access.Who{Name: "ada", Role: access.Lead})
	for _, name := range []string{"a/b", "50 % <i>?#&", "../day", "ö'\""} {
		if _, err := d.Repeat(lead, "2101", desk.RepeatAsk{Name: name}); err != nil {
			t.Errorf("%q: %v", name, err)
			continue
		}
		list := ask(t, h, asked{role: access.Lead, target: "/jobs?find=" + url.QueryEscape(name)}).Body.String()
		at := jobPath(name)
		if !strings.Contains(list, `href="`+html.EscapeString(at)+`"`) {
			t.Errorf("%q is not linked as %s", name, at)
		}
		for _, page := range []string{at, at + "/edit", at + "/card.pdf", "/floor" + at, repeatPath(name)} {
			if w := ask(t, h, asked{role: access.Lead, target: page}); w.Code != http.StatusOK || strings.Contains(w.Body.String(), "<i>?") {
				t.Errorf("%q: %s gives %d", name, page, w.Code)
			}
		}
	}
}
