package exchange

import (
	"bytes"
	"math"
	"slices"
	"testing"
	"time"

	"github.com/google/go-cmp/cmp"
	"github.com/google/go-cmp/cmp/cmpopts"
	"pgregory.net/rapid"

	"foldwright/internal/calendar"
	"foldwright/internal/changeover"
	"foldwright/internal/fold"
	"foldwright/internal/job"
	"foldwright/internal/machine"
	"foldwright/internal/paper"
	"foldwright/internal/settings"
	"foldwright/internal/shop"
	"foldwright/internal/tooling"
	"foldwright/internal/units"
)

var sameShop = cmp.Options{
	cmpopts.EquateEmpty(),
	cmp.Comparer(func(a, b fold.Ratio) bool { return a == b || a.Num == 0 && b.Num == 0 }),
	cmp.Comparer(func(a, b *time.Location) bool { return a.String() == b.String() }),
}

// Writing and reading gives the same shop back, whatever stands in it: names that YAML takes for something else, lengths
// to the nanometre, moments in the hour that comes twice. The rules between fields are left aside, so that the values can
// be as odd as their types allow.
func TestWrittenShopReadsBackTheSame(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		want := anyShop(t)
		text := WriteShop(want)
		got, r := readShop("round.yaml", text)
		if got == nil {
			t.Fatalf("%s\n%s", r.faults.Error(), text)
		}
		if diff := cmp.Diff(want, got, sameShop); diff != "" {
			t.Fatalf("%s\n%s\n%s", diff, r.faults.Error(), text)
		}
		if again := WriteShop(got); !bytes.Equal(again, text) {
			t.Fatalf("written once:\n%s\nand again:\n%s", text, again)
		}
	})
}

// The example is what the handbook shows; its tidied form is kept to be read.
func TestExampleWritten(t *testing.T) {
	s, err := ReadShop("example.yaml", read(t, "testdata/example.yaml"))
	if err != nil {
		t.Fatal(err)
	}
	got := WriteShop(s)
	if *update {
		write(t, "testdata/example.tidy.yaml", got)
	}
	diffLines(t, string(got), string(read(t, "testdata/example.tidy.yaml")))
	again, err := ReadShop("example.tidy.yaml", got)
	if err != nil {
		t.Fatal(err)
	}
	if diff := cmp.Diff(s, again, sameShop); diff != "" {
		t.Error(diff)
	}
}

// What is checked says nothing about the written form, so a shop that is well stays well.
func TestExampleIsWell(t *testing.T) {
	if found := CheckShop("example.yaml", read(t, "testdata/example.yaml")); len(found) > 0 {
		t.Error(found.Error())
	}
}

// In an inch shop bare numbers are inches, and the same shop comes of it.
func TestInchShop(t *testing.T) {
	const file = `
shop: Inches
zone: America/New_York
units: inch
classes:
  - {name: wide, diameter: 35 mm, length: 27 1/2}
tools:
  - {tool: slit, class: wide, left: 1/4, right: 3/8}
sets:
  - {label: A, class: wide, tools: [slit @ 8 1/2, slit @ 433 mm], slot: A1}
jobs:
  - {name: a, sheet: 25 x 38, stock: {name: own, grammage: 60 lb text, caliper: 4.5 pt}, fold: up 12 1/2 in, sheets: 100}
`
	s, r := readShop("inch.yaml", []byte(file))
	if s == nil {
		t.Fatal(r.faults.Error())
	}
	if len(r.faults) > 0 {
		t.Fatal(r.faults.Error())
	}
	j := s.Jobs[0]
	for _, c := range []struct {
		what      string
		got, want units.Length
	}{
		{"diameter", s.Classes[0].Diameter, 35 * units.Millimetre},
		{"length", s.Classes[0].Length, 55 * units.Inch / 2},
		{"first tool", s.Sets[0].Tools[0].At, 17 * units.Inch / 2},
		{"second tool", s.Sets[0].Tools[1].At, 433 * units.Millimetre},
		{"sheet length", j.Sheet.Length, 25 * units.Inch},
		{"sheet width", j.Sheet.Width, 38 * units.Inch},
		{"caliper", j.Stock.Measured, 4500 * units.Inch / 1_000_000},
		{"depth", units.Length(j.Scheme.Steps[0].Depth.Plus.Num), 25 * units.Inch / 2},
	} {
		if c.got != c.want {
			t.Errorf("%s: got %s, want %s", c.what, c.got.Exact(), c.want.Exact())
		}
	}
	again, _ := readShop("again.yaml", WriteShop(s))
	if diff := cmp.Diff(s, again, sameShop); diff != "" {
		t.Error(diff)
	}
}

// awkward are texts that YAML reads as something else, or that it must quote.
var awkward = []string{
	"", "null", "~", "yes", "no", "true", "0107", "1e3", "4711", ".5", "-1", "2026-03-02", "12:30", "- a", "a: b", "a #b", "#a",
	"[a]", "{a}", "*a", "&a", "!a", "|", ">", "%a", "@a", "`a`", "'", `"`, `\`, "a,b", "a, b", "? a", ": a", "<<", "=", "a\nb", " a", "a ", "\ta", "0x1F", "é", "½", "🗂", "…",
}

func anyWords(t *rapid.T, label string) string {
	return rapid.OneOf(rapid.SampledFrom(awkward), rapid.StringMatching(`[A-Za-z0-9 .:#\-]{0,12}`), rapid.String()).Draw(t, label)
}

// anyLength is a whole number of millimetres, of 1/64 in or of nanometres.
func anyLength(t *rapid.T, label string) units.Length {
	unit := rapid.SampledFrom([]units.Length{units.Millimetre, units.Inch / 64, units.Nanometre}).Draw(t, label+" in")
	return unit * units.Length(rapid.Int64Range(0, int64(10*units.Metre/unit)).Draw(t, label))
}

func anyRange(t *rapid.T, label string) machine.Range {
	return machine.Range{Min: anyLength(t, label+" least"), Max: anyLength(t, label+" most")}
}

func anyGrammage(t *rapid.T, label string) units.Grammage {
	return units.Grammage(rapid.Int64Range(1, 2_000_000).Draw(t, label))
}

func anyMinutes(t *rapid.T, label string) time.Duration {
	return time.Duration(rapid.IntRange(0, 20_000).Draw(t, label)) * time.Second
}

var zones = []string{"UTC", "Europe/Berlin", "America/New_York", "Australia/Lord_Howe", "Asia/Kolkata"}

func anyZone(t *rapid.T) *time.Location {
	z, err := time.LoadLocation(rapid.SampledFrom(zones).Draw(t, "zone"))
	if err != nil {
		t.Fatal(err)
	}
	return z
}

// anyMoment is often close to a change of the clock.
func anyMoment(t *rapid.T, zone *time.Location) time.Time {
	base := rapid.SampledFrom([]int64{0, 1_774_746_000, 1_792_890_000, 1_793_512_800, 1_775_314_800}).Draw(t, "base") // changes in 2026
	if base == 0 {
		if rapid.Bool().Draw(t, "none") {
			return time.Time{}
		}
		base = rapid.Int64Range(1_000_000_000, 7_000_000_000).Draw(t, "unix")
	}
	at := time.Unix(base+60*rapid.Int64Range(-300, 300).Draw(t, "minutes"), rapid.SampledFrom([]int64{0, 0, 5e8, 1}).Draw(t, "nanoseconds"))
	return at.In(zone)
}

func anyCalendar(t *rapid.T, zone *time.Location) calendar.Calendar {
	c := calendar.Calendar{Name: anyWords(t, "calendar"), Zone: zone, Days: map[string][]calendar.Span{}}
	if rapid.Bool().Draw(t, "elsewhere") {
		c.Zone = anyZone(t)
	}
	for d := range c.Week {
		c.Week[d] = anySpans(t)
	}
	for range rapid.IntRange(0, 2).Draw(t, "exceptions") {
		day := time.Unix(rapid.Int64Range(1e9, 3e9).Draw(t, "day"), 0)
		c.Days[day.UTC().Format(time.DateOnly)] = anySpans(t)
	}
	return c
}

// anySpans cuts a day at an even number of places; the last span may go on past midnight.
func anySpans(t *rapid.T) []calendar.Span {
	cuts := rapid.SliceOfNDistinct(rapid.IntRange(0, 1439), 0, 6, rapid.ID[int]).Draw(t, "cuts")
	slices.Sort(cuts)
	var spans []calendar.Span
	for i := 0; i+1 < len(cuts); i += 2 {
		spans = append(spans, calendar.Span{From: cuts[i], To: cuts[i+1]})
	}
	if len(cuts)%2 == 1 && cuts[len(cuts)-1] > 0 {
		last := cuts[len(cuts)-1]
		spans = append(spans, calendar.Span{From: last, To: 1440 + rapid.IntRange(0, last-1).Draw(t, "past midnight")})
	}
	return spans
}

func anyType(t *rapid.T) tooling.Type {
	text := rapid.SampledFrom([]string{"slit", "strip 6 mm", "strip 1/4 in", "perforate 12 tpi", "perforate", "perforate 10/6 mm", "score 0.7 mm", "score"}).Draw(t, "tool")
	typ, err := tooling.ParseType(text, units.Millimetre)
	if err != nil {
		t.Fatal(err)
	}
	return typ
}

func anySet(t *rapid.T) tooling.Set {
	s := tooling.Set{Label: anyWords(t, "label"), Class: anyWords(t, "class"), MetresK: rapid.Float64Range(0, 1e9).Draw(t, "run")}
	for range rapid.IntRange(0, 3).Draw(t, "tools") {
		s.Tools = append(s.Tools, tooling.Tool{Type: anyType(t), At: anyLength(t, "at")})
	}
	s.Place = tooling.Place{Slot: anyWords(t, "slot"), Folder: anyWords(t, "folder"), Station: anyWords(t, "station"), Bench: rapid.Bool().Draw(t, "bench")}
	for range rapid.IntRange(0, 2).Draw(t, "served") {
		s.Served = append(s.Served, anyWords(t, "served"))
	}
	return s
}

func anyFolder(t *rapid.T) machine.Folder {
	f := machine.Folder{
		Name: anyWords(t, "folder"), Model: anyWords(t, "model"), Serial: anyWords(t, "serial"), Calendar: anyWords(t, "calendar"),
		Feeder: machine.Feeder{
			Length: anyRange(t, "feeder length"), Width: anyRange(t, "feeder width"),
			MinGrammage: anyGrammage(t, "least"), MaxGrammage: anyGrammage(t, "most"), SheetsPerHourMax: rapid.IntRange(-1_000_000_000_000, 1_000_000_000_000).Draw(t, "rate"),
		},
	}
	for range rapid.IntRange(0, 3).Draw(t, "units") {
		f.Units = append(f.Units, anyUnit(t))
	}
	return f
}

func anyUnit(t *rapid.T) machine.Unit {
	u := machine.Unit{
		Kind: rapid.SampledFrom([]machine.UnitKind{machine.Buckle, machine.Knife}).Draw(t, "kind"),
		Enters: rapid.SliceOfN(rapid.SampledFrom([]machine.Entry{machine.Straight, machine.TurnLeft, machine.TurnRight}), 0, 3).
			Draw(t, "enters"),
		FirstBelow: rapid.Bool().Draw(t, "below"), StrokesMax: rapid.IntRange(-1_000_000_000_000, 1_000_000_000_000).Draw(t, "strokes"),
		Speed: units.Speed(rapid.Int64Range(1, int64(2000*units.MetrePerMin)).Draw(t, "speed")),
		Gap:   anyLength(t, "gap"), WidthMax: anyLength(t, "width"), ThicknessMax: anyLength(t, "thickness") / 1000,
		Passable: rapid.Bool().Draw(t, "passable"), Operator: anySide(t), Guide: machine.Guide{Side: anySide(t), Range: anyRange(t, "guide")},
	}
	if rapid.Bool().Draw(t, "stop") {
		u.Stop = anyRange(t, "stop")
	}
	for range rapid.IntRange(0, 3).Draw(t, "plates") {
		u.Plates = append(u.Plates, machine.Plate{Stop: anyRange(t, "plate")})
	}
	for range rapid.IntRange(0, 2).Draw(t, "stations") {
		reach := anyRange(t, "shaft")
		u.Stations = append(u.Stations, machine.Station{
			Name: anyWords(t, "station"), Class: anyWords(t, "class"), From: reach.Min, To: reach.Max,
			AccessMin: anyMinutes(t, "access").Minutes(), ExitShaft: rapid.Bool().Draw(t, "exit shaft"),
		})
	}
	return u
}

func anySide(t *rapid.T) machine.Side {
	return rapid.SampledFrom([]machine.Side{machine.LeftSide, machine.RightSide}).Draw(t, "side")
}

func anyStock(t *rapid.T) paper.Stock {
	return paper.Stock{
		Name: anyWords(t, "stock"), Grammage: anyGrammage(t, "grammage"), Finish: paper.Finish(rapid.IntRange(0, 3).Draw(t, "finish")),
		Volume: rapid.Float64Range(0, 10).Draw(t, "volume"), Measured: anyLength(t, "caliper") / 1000,
	}
}

func anyScheme(t *rapid.T) fold.Scheme {
	s, err := fold.Parse(rapid.SampledFrom([]string{
		"F16-7", "F16-6", "F8-1", "up 1/2", "up 1/2, left, up 1/2", "letter inner 2 mm", "zigzag 4, left, up 1/2",
		"up 210.000001 mm, right, down 8 1/2 in", "down 1/3 + 1/7 mm", "gate",
	}).Draw(t, "folds"))
	if err != nil {
		t.Fatal(err)
	}
	s.Lap = anyLength(t, "lap") - anyLength(t, "other lap")
	s.Trims = fold.Trims{Head: anyLength(t, "head"), Foot: anyLength(t, "foot"), Front: anyLength(t, "front")}
	if rapid.Bool().Draw(t, "other face") {
		s.First = fold.Face(rapid.IntRange(0, 1).Draw(t, "first"))
	}
	if rapid.Bool().Draw(t, "own name") {
		s.Name = anyWords(t, "scheme")
	}
	return s
}

func anyOperation(t *rapid.T) job.Operation {
	text := rapid.SampledFrom([]string{
		"perforate fold 2", "perforate fold 1 with 12 tpi", "score fold 3 with 0.7 mm", "slit at t 305.000001 mm",
		"slit at t 305 strip 6 mm two-up", "slit at s 100 one-up", "score at s 100", "trim 3 mm at the foot", "trim 1/8 in at the front",
	}).Draw(t, "operation")
	op, err := job.ParseOperation(text, units.Millimetre)
	if err != nil {
		t.Fatal(err)
	}
	return op
}

func anyJob(t *rapid.T, zone *time.Location, stocks []paper.Stock) job.Job {
	j := job.Job{
		Name: anyWords(t, "job"), Title: anyWords(t, "title"), Customer: anyWords(t, "customer"),
		Sheet: fold.Sheet{Length: 1 + anyLength(t, "long")/2, Width: 1 + anyLength(t, "wide")/2}, Stock: anyStock(t), Scheme: anyScheme(t),
		Sheets: rapid.IntRange(-1_000_000_000_000, 1_000_000_000_000).Draw(t, "sheets"), RateMax: rapid.IntRange(-1_000_000_000_000, 1_000_000_000_000).Draw(t, "rate"), Weight: rapid.IntRange(-3, 3).Draw(t, "weight"),
		Release: anyMoment(t, zone), Due: anyMoment(t, zone), Given: anyWords(t, "given"),
	}
	if len(stocks) > 0 && rapid.Bool().Draw(t, "listed") {
		j.Stock = rapid.SampledFrom(stocks).Draw(t, "listed stock")
	}
	j.Stock.Grain = paper.Grain(rapid.IntRange(0, 2).Draw(t, "grain"))
	for range rapid.IntRange(0, 3).Draw(t, "operations") {
		j.Operations = append(j.Operations, anyOperation(t))
	}
	for range rapid.IntRange(0, 2).Draw(t, "after") {
		j.After = append(j.After, anyWords(t, "after"))
	}
	for range rapid.IntRange(0, 2).Draw(t, "choices") {
		c := job.Choice{Unit: rapid.IntRange(1, 9).Draw(t, "unit"), Guide: anyLength(t, "guide")}
		if rapid.Bool().Draw(t, "of a set") {
			c = job.Choice{
				Station: "x" + anyWords(t, "station"), Way: rapid.SampledFrom([]job.Way{job.Swap, job.Built, job.InFolder}).Draw(t, "way"),
				Set: "x" + anyWords(t, "set"),
			}
		}
		j.Choices = append(j.Choices, c)
	}
	if rapid.Bool().Draw(t, "pinned") {
		j.Pin = job.Pin{Folder: anyWords(t, "pin"), Position: rapid.IntRange(-1, 3).Draw(t, "position"), Started: rapid.Bool().Draw(t, "started")}
	}
	return j
}

func anyHouse(t *rapid.T) shop.House {
	h := shop.House{Tolerance: anyLength(t, "tolerance"), Usual: map[tooling.Kind]string{}}
	for _, spec := range []struct {
		kind tooling.Kind
		text string
	}{{tooling.Perforate, "12 tpi"}, {tooling.Score, "0.7 mm"}, {tooling.Strip, "8 mm"}} {
		if rapid.Bool().Draw(t, "usual") {
			h.Usual[spec.kind] = spec.text
		}
	}
	ratio := func(label string) float64 { return rapid.Float64Range(0, 10).Draw(t, label) }
	h.Rings = settings.Rings{Width: anyLength(t, "ring"), Clearance: anyLength(t, "clearance"), Apart: ratio("apart")}
	h.Spread = shop.Spread{Makeready: ratio("spread"), Run: ratio("spread"), Bench: ratio("spread")}
	h.Advice = settings.Advice{
		ScoreAcross: anyGrammage(t, "across"), ScoreAlong: 0, ScoreCoated: anyGrammage(t, "coated"), PierceLayers: rapid.IntRange(0, 64).Draw(t, "pierce"),
		Creep: anyLength(t, "creep"), CreepRound: ratio("round"), GrooveAlong: ratio("along"), GrooveAcross: ratio("across"),
		MostLayers: []settings.LayersLimit{{UpTo: anyGrammage(t, "up to"), Layers: rapid.IntRange(-1_000_000_000_000, 1_000_000_000_000).Draw(t, "layers")}, {UpTo: math.MaxInt64, Layers: 2}},
	}
	return h
}

func anyShop(t *rapid.T) *shop.Shop {
	zone := anyZone(t)
	some := func(label string) int { return rapid.IntRange(0, 2).Draw(t, label) }
	price := func(label string) float64 { return rapid.Float64Range(0, 1000).Draw(t, label) }
	s := &shop.Shop{
		Name: anyWords(t, "shop"), Zone: zone, Now: anyMoment(t, zone), Inch: rapid.Bool().Draw(t, "inch"), House: anyHouse(t),
		Weights: shop.Weights{Late: price("late"), Makeready: price("makeready"), Waiting: price("waiting"), Bench: price("bench")},
	}
	var standards changeover.Standards
	for _, f := range standards.Fields() {
		*f.Value = anyMinutes(t, f.Name)
	}
	s.Standards = standards
	for range some("calendars") {
		s.Calendars = append(s.Calendars, anyCalendar(t, zone))
	}
	for range some("classes") {
		s.Classes = append(s.Classes, tooling.Class{Name: anyWords(t, "class"), Diameter: anyLength(t, "diameter"), Length: anyLength(t, "length")})
	}
	for range some("tools") {
		s.Tools = append(s.Tools, shop.ToolStock{
			Type: anyType(t), Class: anyWords(t, "class"),
			Body: tooling.Body{Left: anyLength(t, "left"), Right: anyLength(t, "right")}, Loose: rapid.IntRange(-1_000_000_000_000, 1_000_000_000_000).Draw(t, "loose"),
		})
	}
	for range some("sets") {
		s.Sets = append(s.Sets, anySet(t))
	}
	for range some("folders") {
		s.Folders = append(s.Folders, anyFolder(t))
	}
	for range some("present") {
		s.States = append(s.States, anyState(t, zone))
	}
	for range some("people") {
		s.Bench = append(s.Bench, shop.Person{Name: anyWords(t, "person"), Calendar: anyWords(t, "calendar"), Away: anyAbsences(t, s.Zone)})
	}
	s.Stocks = rapid.SliceOfNDistinct(rapid.Custom(anyStock), 0, 2, func(k paper.Stock) string { return k.Name }).Draw(t, "stocks")
	for range some("jobs") {
		s.Jobs = append(s.Jobs, anyJob(t, zone, s.Stocks))
	}
	for range some("done") {
		s.Done = append(s.Done, anyJob(t, zone, s.Stocks))
	}
	return s
}

func anyState(t *rapid.T, zone *time.Location) shop.State {
	s := shop.State{Folder: anyWords(t, "folder"), Job: anyWords(t, "job"), Down: anyAbsences(t, zone)}
	for _, u := range rapid.SliceOfNDistinct(rapid.IntRange(1, 9), 0, 3, rapid.ID[int]).Draw(t, "guides") {
		s.Guides = append(s.Guides, shop.Guide{Unit: u, At: anyLength(t, "guide")})
	}
	return s
}

func anyAbsences(t *rapid.T, zone *time.Location) []calendar.Window {
	var out []calendar.Window
	for range rapid.IntRange(0, 2).Draw(t, "absences") {
		if w := (calendar.Window{From: anyMoment(t, zone), To: anyMoment(t, zone)}); !w.From.IsZero() && !w.To.IsZero() {
			out = append(out, w)
		}
	}
	return out
}
