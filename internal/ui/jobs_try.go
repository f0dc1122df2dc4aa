package ui

import (
	"encoding/json"
	"net/http"
	"slices"
	"strings"

	"foldwright/internal/desk"
	"foldwright/internal/draw"
	"foldwright/internal/exchange"
	"foldwright/internal/fault"
	"foldwright/internal/fold"
	"foldwright/internal/job"
	"foldwright/internal/ledger"
	"foldwright/internal/words"
)

// trialView is what a docket would come to, as far as it is typed.
type trialView struct {
	Faults                  []trialFault
	Lacks                   []words.Text // what must be there and is not yet
	Dummy, Sequence, Shafts *draw.Picture
	Size                    words.Text
	Pages                   int
	Answers                 []answerView
	No                      fault.List
	NoSheets                bool // the quantity is not known, so nothing is said of the run
	Schemes                 []schemeChoice

	found fault.List
}

// trialFault is something wrong, beside the input that it speaks of.
type trialFault struct {
	For   string // id of the input
	Label words.Text
	fault.Fault
}

// jobTry answers what the docket that is being typed would come to.
func (p *pages) jobTry(w http.ResponseWriter, r *http.Request) error {
	f, _, err := p.sentForm(r, ledger.OfJob)
	if err != nil {
		return err
	}
	t, err := p.try(r, f)
	if err != nil {
		return err
	}
	return p.part(w, r, "job_form", "job-live", t)
}

// try works out what is typed. What cannot be read is left out or stood in for, so that what can be read is seen already.
func (p *pages) try(r *http.Request, f *form) (*trialView, error) {
	v := &trialView{}
	data := f.typed.json(f.thing)
	value, err := exchange.ReadThing(f.Kind, data, f.shop)
	in := standIns{}
	if err != nil {
		v.found = fault.All(err)
		in = standInsFor(v.found)
		value, err = exchange.ReadThing(f.Kind, in.put(data), f.shop)
	}
	if err == nil && !in.stuck {
		t, err := p.desk.Try(r.Context(), f.Name, value.(job.Job))
		if err != nil {
			return nil, err
		}
		v.take(t, in, p, r)
	}
	v.tell(f)
	return v, nil
}

// standIns are values in the places of what cannot be read.
type standIns struct {
	fields []string // at fault
	stuck  bool     // without these nothing is to be seen
}

// standInsFor tells which fields cannot be read.
func standInsFor(found fault.List) (in standIns) {
	for _, x := range found {
		field := x.Field[:len(x.Field)-len(strings.TrimLeft(x.Field, "abcdefghijklmnopqrstuvwxyz_"))]
		switch field {
		case "", "sheet", "fold", "scheme":
			in.stuck = true
		}
		if !slices.Contains(in.fields, field) {
			in.fields = append(in.fields, field)
		}
	}
	return in
}

// put makes a docket that can be read: what must be there is stood in for, the rest left out.
func (in standIns) put(data []byte) []byte {
	var all map[string]json.RawMessage
	if in.stuck || json.Unmarshal(data, &all) != nil {
		return data
	}
	for _, field := range in.fields {
		switch field {
		case "name":
			all[field] = json.RawMessage(`"?"`)
		case "sheets":
			all[field] = json.RawMessage(`1`)
		case "stock":
			all[field] = json.RawMessage(`{"name":"?","grammage":"100 g/m2"}`)
		default:
			delete(all, field)
		}
	}
	out, err := json.Marshal(all)
	if err != nil {
		return data
	}
	return out
}

func (in standIns) has(field string) bool { return slices.Contains(in.fields, field) }

// take keeps of a trial what can be trusted.
func (v *trialView) take(t *desk.Trial, in standIns, p *pages, r *http.Request) {
	say := p.gate.Speaker(r)
	for _, x := range t.Faults {
		field, _, _ := strings.Cut(strings.ReplaceAll(x.Field, "[", "."), ".")
		if !in.has(field) {
			v.found.Add(x)
		}
	}
	if t.Folded == nil {
		return
	}
	v.Dummy, v.Sequence = draw.Dummy(t.Folded, t.Job.Operations, say), draw.Sequence(t.Folded, say)
	done := t.Folded.Finished()
	v.Size = words.T("%s × %s, layers: %d", words.Bare(done.Length), done.Width, done.Layers)
	if t.Folded.Folios {
		v.Pages = 2 * len(t.Folded.Panels)
	}
	if in.has("stock") || in.has("operations") { // what folders would say hangs on them
		return
	}
	v.NoSheets = in.has("sheets")
	v.Answers, v.No = viewAnswers(t.Answers, "", "", false), fault.All(t.No)
	if len(t.Answers) > 0 && t.Answers[0].Miss == nil {
		v.Shafts = setOf(t.Shop, t.Answers[0], say).Shafts
	}
}

// Best is the folder that takes least; nil when none can.
func (v *trialView) Best() *answerView {
	if len(v.Answers) == 0 || v.Answers[0].Miss != nil {
		return nil
	}
	return &v.Answers[0]
}

// tell puts the faults to their inputs. What is only not typed yet is no fault as long as nobody saves.
func (v *trialView) tell(f *form) {
	f.Inputs()
	for _, x := range v.found {
		in := f.place(x.Field)
		if in == nil {
			v.Faults = append(v.Faults, trialFault{Label: words.Plain(x.Field), Fault: x})
			continue
		}
		if in.Value == "" && !in.Group && !in.Rows && (in.Needed || in.Path == "fold") {
			v.Lacks = append(v.Lacks, in.Label)
			continue
		}
		v.Faults = append(v.Faults, trialFault{in.ID, in.Label, x})
	}
	if typed := f.typed.at("scheme"); typed != nil && f.typed.at("fold").blank() {
		v.Schemes = schemesLike(typed.text)
	}
}

// beside lets the form itself tell what is wrong, all of it when somebody asked.
func (v *trialView) beside(f *form, asked bool) {
	if asked {
		f.Faults = v.found
	}
}

// schemesLike are the catalogue names that begin as what is typed, when that is none itself.
func schemesLike(typed string) (list []schemeChoice) {
	typed = strings.ToLower(strings.TrimSpace(typed))
	if typed == "" {
		return nil
	}
	for _, name := range fold.CatalogueNames() {
		low := strings.ToLower(name)
		if low == typed {
			return nil
		}
		if !strings.HasPrefix(low, typed) {
			continue
		}
		if scheme, err := fold.Catalogue(name); err == nil {
			list = append(list, schemeChoice{name, scheme.String()})
		}
	}
	return list
}
