package exchange

import (
	"slices"
	"strings"
	"time"

	"go.yaml.in/yaml/v4"

	"foldwright/internal/fault"
	"foldwright/internal/fold"
	"foldwright/internal/job"
	"foldwright/internal/ledger"
	"foldwright/internal/paper"
	"foldwright/internal/shop"
	"foldwright/internal/units"
)

// CodeFold is the code of a job that does not say how it is folded.
const CodeFold fault.Code = "job-fold"

// docket is a job as the file tells it: what the job holds, and what it is put together from.
type docket struct {
	job   job.Job
	stock paper.Stock
	grain string       // "" when the file does not say
	named string       // scheme
	steps *fold.Scheme // fold
	first *fold.Face
}

func jobPart[V any](place func(*job.Job) *V) access[docket, V] {
	return in(func(d *docket) *V { return place(&d.job) })
}

// docketFields are the fields of a job. The stock comes before the grain and the sheet before both, which lean on them.
var docketFields = record[docket]{what: "a job", after: putTogether, fields: []field[docket]{
	need("name", "the docket number or a short name; once in the shop", words, jobPart(func(j *job.Job) *string { return &j.Name })),
	may("title", "what the job is", words, "", jobPart(func(j *job.Job) *string { return &j.Title })),
	may("customer", "whose job it is", words, "", jobPart(func(j *job.Job) *string { return &j.Customer })),
	need("sheet", "the flat sheet as drawn, front up: length (along the travel on the feed table) x width", sheetSize, jobPart(func(j *job.Job) *fold.Sheet { return &j.Sheet })),
	need("stock", "the stock: a name from stocks, or its fields", stockOrName, in(func(d *docket) *paper.Stock { return &d.stock })),
	may("grain", "the grain on the sheet as drawn: length, width, long, short or unknown", oneOf(words, "length", "width", "long", "short", "unknown"), "", in(func(d *docket) *string { return &d.grain })),
	may("scheme", "a name of the fold catalogue such as F16-7; with fold: a name of the shop's own", words, "", in(func(d *docket) *string { return &d.named })),
	maybe("fold", "folds and turns such as up 1/2, left, up 1/2, or letter inner 2 mm", notation, func(d *docket) **fold.Scheme { return &d.steps }),
	maybe("first", "the face of the folded stack that carries page 1, up or down; without it: up, or what the catalogue says", face, func(d *docket) **fold.Face { return &d.first }),
	may("lap", "how far one half stands out after the last fold; negative: the other half", offset, 0, jobPart(func(j *job.Job) *units.Length { return &j.Scheme.Lap })),
	group("trims", "what is trimmed off the finished piece", trimFields, func(d *docket) *fold.Trims { return &d.job.Scheme.Trims }),
	many("operations", "what is wanted besides folding, such as perforate fold 2", list(operation, false), func(d *docket) *[]job.Operation { return &d.job.Operations }),
	need("sheets", "how many sheets are to be folded, without those for setting up", count, jobPart(func(j *job.Job) *int { return &j.Sheets })),
	may("rate", "the most sheets an hour that the job allows", count, 0, jobPart(func(j *job.Job) *int { return &j.RateMax })),
	maybeMoment("release", "when make-ready may start at the earliest", func(d *docket) *time.Time { return &d.job.Release }),
	maybeMoment("due", "when the last sheet must be folded", func(d *docket) *time.Time { return &d.job.Due }),
	may("weight", "what a minute of lateness weighs", count, 1, jobPart(func(j *job.Job) *int { return &j.Weight })),
	many("after", "the jobs that must be finished before", oneOrMore(naming(ledger.OfJob)), func(d *docket) *[]string { return &d.job.After }),
	may("given", "the folder on which the job stands in the order given", naming(ledger.OfFolder), "", jobPart(func(j *job.Job) *string { return &j.Given })),
	many("choices", "what was chosen there of its tools, for the sake of later jobs", list(choiceFields.shape(), false), func(d *docket) *[]job.Choice { return &d.job.Choices }),
	may("pin", "where a person holds the job", pinFields.shape(), job.Pin{}, jobPart(func(j *job.Job) *job.Pin { return &j.Pin })),
}}

var pinFields = record[job.Pin]{what: "a pin", oneLine: true, fields: []field[job.Pin]{
	need("folder", "the folder on which the job must run", naming(ledger.OfFolder), in(func(p *job.Pin) *string { return &p.Folder })),
	may("position", "its place on the folder, 1 for the first; without it: anywhere", count, 0, in(func(p *job.Pin) *int { return &p.Position })),
	may("started", "whether it is made ready and running", yes, false, in(func(p *job.Pin) *bool { return &p.Started })),
}}

// CodeChoice is the code of a choice of tools that says too little or too much.
const CodeChoice fault.Code = "job-choice"

var choiceFields = record[job.Choice]{what: "a choice", oneLine: true, after: oneChoice, fields: []field[job.Choice]{
	may("station", "the station for which a set is chosen", words, "", in(func(c *job.Choice) *string { return &c.Station })),
	may("way", "how the set gets there", setWay, "", in(func(c *job.Choice) *job.Way { return &c.Way })),
	may("set", "the set that is chosen", naming(ledger.OfSet), "", in(func(c *job.Choice) *string { return &c.Set })),
	may("unit", "without a station: the unit for whose side guide a place is chosen", count, 0, in(func(c *job.Choice) *int { return &c.Unit })),
	may("guide", "without a station: where that guide stands, from the datum shoulder", offset, 0, in(func(c *job.Choice) *units.Length { return &c.Guide })),
}}

// oneChoice holds a choice to be of a set or of a guide.
func oneChoice(s spot, _ *job.Choice) {
	var has []string
	for _, name := range []string{"station", "way", "set", "unit", "guide"} {
		if _, ok := s.child(name); ok {
			has = append(has, name)
		}
	}
	if said := strings.Join(has, " "); said != "station way set" && said != "unit guide" && said != "unit" { // where it stands at 0
		s.refuse(CodeChoice, "the choice is neither of a set nor of a guide", "give station, way and set, or unit and guide")
	}
}

// jobShape reads dockets as jobs.
var jobShape = shape[job.Job]{
	Value: docketFields.value(),
	told:  docketFields.schema(),
	read: func(s spot) (job.Job, bool) {
		d, ok := docketFields.shape().read(s)
		return d.job, ok
	},
	write: func(w *writing, j job.Job) *yaml.Node {
		d := takeApart(j)
		return docketFields.write(w, &d)
	},
}

// stockOrName reads a stock by its name in the shop's list, or with its own fields.
var stockOrName = shape[paper.Stock]{
	Value: Value{Form: FormText, Says: "the name of a stock, or its fields", Names: ledger.OfStock, Or: &Value{Form: FormGroup, Says: "its fields", Fields: stockFields.describe()}},
	told:  schema{"anyOf": []any{anyText, stockFields.schema()}},
	read: func(s spot) (v paper.Stock, ok bool) {
		if s.node.Kind == yaml.MappingNode {
			return stockFields.shape().read(s)
		}
		name, ok := words.read(s)
		if !ok {
			return v, false
		}
		v, ok = s.stocks[name]
		if !ok {
			s.refuse(shop.CodeUnknownName, "there is no stock "+quoted(name), shop.DidYouMean(name, "stock", sortedKeys(s.stocks)))
		}
		return v, ok
	},
	write: func(w *writing, v paper.Stock) *yaml.Node {
		if listed, ok := w.stock(v.Name); ok && listed == v {
			return words.write(w, v.Name)
		}
		return stockFields.write(w, &v)
	},
}

// putTogether makes the stock and the scheme of a job of what its docket says.
func putTogether(s spot, d *docket) {
	d.job.Stock = d.stock
	if d.grain != "" {
		grain, err := paper.ParseGrain(d.grain, d.job.Sheet.Length, d.job.Sheet.Width)
		if at, ok := s.child("grain"); ok && err != nil && d.job.Sheet != (fold.Sheet{}) {
			at.refuseErr(err)
		}
		d.job.Stock.Grain = grain
	}
	scheme, ok := d.scheme(s)
	if !ok {
		return
	}
	scheme.Lap, scheme.Trims = d.job.Scheme.Lap, d.job.Scheme.Trims
	if d.first != nil {
		scheme.First = *d.first
	}
	d.job.Scheme = scheme
}

// scheme is the folds and turns of a docket with their name.
func (d *docket) scheme(s spot) (fold.Scheme, bool) {
	if d.steps != nil {
		scheme := *d.steps
		if d.named != "" {
			scheme.Name = d.named
		}
		return scheme, true
	}
	if _, refused := s.child("fold"); refused {
		return fold.Scheme{}, false
	}
	at, ok := s.child("scheme")
	if !ok {
		s.field("fold", s.node).refuse(CodeFold, "the job does not say how it is folded",
			"give scheme (a catalogue name such as F16-7) or fold (such as up 1/2, left, up 1/2)")
		return fold.Scheme{}, false
	}
	s.marks[s.path+".fold"] = mark{at.node.Line, at.node.Column}
	if d.named == "" {
		return fold.Scheme{}, false
	}
	scheme, err := fold.Catalogue(d.named)
	if err != nil {
		at.refuseErr(err)
		return fold.Scheme{}, false
	}
	return scheme, true
}

// child is the spot of a field of this mapping as it stands in the file.
func (s spot) child(name string) (spot, bool) {
	for i := 0; i+1 < len(s.node.Content); i += 2 {
		if s.node.Content[i].Value == name {
			return s.field(name, s.node.Content[i+1]), true
		}
	}
	return s, false
}

// takeApart makes a docket of a job, so that [putTogether] makes the same job of it.
func takeApart(j job.Job) docket {
	d := docket{job: j, stock: j.Stock, named: j.Scheme.Name}
	d.stock.Grain = paper.GrainUnknown
	if j.Stock.Grain != paper.GrainUnknown {
		d.grain = grainWord(j.Stock.Grain)
	}
	usual := fold.FaceUp
	if known, err := fold.Catalogue(j.Scheme.Name); err == nil && slices.Equal(known.Steps, j.Scheme.Steps) {
		usual = known.First
	} else {
		d.steps = &j.Scheme
	}
	if j.Scheme.First != usual {
		d.first = &j.Scheme.First
	}
	return d
}

func grainWord(g paper.Grain) string {
	if g == paper.GrainAlongS {
		return "length"
	}
	return "width"
}
