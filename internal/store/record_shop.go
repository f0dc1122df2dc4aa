package store

import (
	"encoding/json"
	"fmt"
	"maps"
	"slices"
	"time"

	"foldwright/internal/calendar"
	"foldwright/internal/changeover"
	"foldwright/internal/ledger"
	"foldwright/internal/paper"
	"foldwright/internal/settings"
	"foldwright/internal/shop"
	"foldwright/internal/tooling"
	"foldwright/internal/units"
)

// A record is how a value stands in the database, as JSON. Its names are our own and must stay; the types of the other
// rooms may change around them. Where a record has the very fields of its value one is converted into the other, so
// that a field added there does not compile until it is kept here; for all others a test fills every field.
//
// A change that old rows do not fit gets a new bodyFormat and a function that lifts a body from the one before.

// bodyFormat is the form of bodies that this program writes.
const bodyFormat = 1

type headRecord struct {
	Name string    `json:"name"`
	Zone zoneName  `json:"zone"`
	Now  time.Time `json:"now_utc,omitzero"`
	Inch bool      `json:"inch"`
}

func headOf(h ledger.Head) headRecord {
	return headRecord{h.Name, zoneName{h.Zone}, h.Now.UTC(), h.Inch}
}

func (r headRecord) value() ledger.Head {
	return ledger.Head{Name: r.Name, Zone: r.Zone.Location, Now: r.Now, Inch: r.Inch}
}

type spanRecord struct {
	From int `json:"from_min"`
	To   int `json:"to_min"`
}

func spanOf(s calendar.Span) spanRecord   { return spanRecord(s) }
func (r spanRecord) value() calendar.Span { return calendar.Span(r) }

type calendarRecord struct {
	Name string                  `json:"name"`
	Zone zoneName                `json:"zone"`
	Week [7][]spanRecord         `json:"week"`           // from Sunday
	Days map[string][]spanRecord `json:"days,omitempty"` // none on a day: closed
}

func calendarOf(c calendar.Calendar) calendarRecord {
	r := calendarRecord{Name: c.Name, Zone: zoneName{c.Zone}}
	for i, spans := range c.Week {
		r.Week[i] = each(spans, spanOf)
	}
	if c.Days != nil {
		r.Days = map[string][]spanRecord{}
	}
	for day, spans := range c.Days {
		r.Days[day] = each(spans, spanOf)
	}
	return r
}

func (r calendarRecord) value() calendar.Calendar {
	c := calendar.Calendar{Name: r.Name, Zone: r.Zone.Location}
	for i, spans := range r.Week {
		c.Week[i] = each(spans, spanRecord.value)
	}
	if r.Days != nil {
		c.Days = map[string][]calendar.Span{}
	}
	for day, spans := range r.Days {
		c.Days[day] = each(spans, spanRecord.value)
	}
	return c
}

type personRecord struct {
	Name     string          `json:"name"`
	Calendar string          `json:"calendar"`
	Away     []absenceRecord `json:"away,omitempty"`
}

func personOf(p shop.Person) personRecord {
	return personRecord{p.Name, p.Calendar, each(p.Away, absenceOf)}
}

func (r personRecord) value() shop.Person {
	return shop.Person{Name: r.Name, Calendar: r.Calendar, Away: each(r.Away, absenceRecord.value)}
}

// absenceRecord is a time at which a folder is down or a person away.
type absenceRecord struct {
	From time.Time `json:"from_utc"`
	To   time.Time `json:"to_utc"`
}

func absenceOf(w calendar.Window) absenceRecord { return absenceRecord{w.From.UTC(), w.To.UTC()} }
func (r absenceRecord) value() calendar.Window  { return calendar.Window(r) }

type stateRecord struct {
	Folder string             `json:"folder"`
	Job    string             `json:"job"`
	Guides []guidePlaceRecord `json:"guides,omitempty"`
	Down   []absenceRecord    `json:"down,omitempty"`
}

type guidePlaceRecord struct {
	Unit int          `json:"unit"`
	At   units.Length `json:"at_nm"`
}

func stateOf(s shop.State) stateRecord {
	return stateRecord{
		s.Folder, s.Job, each(s.Guides, func(g shop.Guide) guidePlaceRecord { return guidePlaceRecord(g) }), each(s.Down, absenceOf),
	}
}

func (r stateRecord) value() shop.State {
	return shop.State{
		Folder: r.Folder, Job: r.Job, Guides: each(r.Guides, func(g guidePlaceRecord) shop.Guide { return shop.Guide(g) }),
		Down: each(r.Down, absenceRecord.value),
	}
}

// standardsRecord holds the standard minutes by their names in the shop file.
type standardsRecord map[string]timeText

func standardsOf(s changeover.Standards) standardsRecord {
	r := standardsRecord{}
	for _, f := range s.Fields() {
		r[f.Name] = timeText(*f.Value)
	}
	return r
}

// value takes what is usual for a standard that the row does not have: it was written before there was such a one.
func (r standardsRecord) value() changeover.Standards {
	s := changeover.Default()
	for _, f := range s.Fields() {
		if t, ok := r[f.Name]; ok {
			*f.Value = time.Duration(t)
		}
	}
	return s
}

// UnmarshalJSON refuses a name that no standard has, as the decoder does for other records.
func (r *standardsRecord) UnmarshalJSON(body []byte) error {
	var m map[string]timeText
	if err := json.Unmarshal(body, &m); err != nil {
		return err
	}
	known := standardsOf(changeover.Standards{})
	for _, name := range slices.Sorted(maps.Keys(m)) {
		if _, ok := known[name]; !ok {
			return fmt.Errorf("there is no standard %q", name)
		}
	}
	*r = m
	return nil
}

type weightsRecord struct {
	Late      float64 `json:"late"`
	Makeready float64 `json:"makeready"`
	Waiting   float64 `json:"waiting"`
	Bench     float64 `json:"bench"`
}

func weightsOf(w shop.Weights) weightsRecord { return weightsRecord(w) }
func (r weightsRecord) value() shop.Weights  { return shop.Weights(r) }

type houseRecord struct {
	Tolerance units.Length            `json:"tolerance_nm"`
	Usual     map[tooling.Kind]string `json:"usual,omitempty"`
	Rings     ringsRecord             `json:"rings"`
	Advice    adviceRecord            `json:"advice"`
	Spread    *spreadRecord           `json:"spread,omitempty"` // left out where it is spreadOfOld
}

type spreadRecord struct {
	Makeready float64 `json:"makeready"`
	Run       float64 `json:"run"`
	Bench     float64 `json:"bench"`
}

// spreadOfOld is what a row without a spread means: what was usual when rows had none yet. It stays, whatever becomes usual.
var spreadOfOld = spreadRecord{Makeready: 0.25, Run: 0.1, Bench: 0.25}

func spreadOf(s shop.Spread) *spreadRecord {
	if r := spreadRecord(s); r != spreadOfOld {
		return &r
	}
	return nil
}

func (r *spreadRecord) value() shop.Spread {
	if r == nil {
		return shop.Spread(spreadOfOld)
	}
	return shop.Spread(*r)
}

type ringsRecord struct {
	Width     units.Length `json:"width_nm"`
	Clearance units.Length `json:"clearance_nm"`
	Apart     float64      `json:"apart"`
}

type adviceRecord struct {
	ScoreAcross  units.Grammage `json:"score_across_mg_m2"`
	ScoreAlong   units.Grammage `json:"score_along_mg_m2"`
	ScoreCoated  units.Grammage `json:"score_coated_mg_m2"`
	PierceLayers int            `json:"pierce_layers"`
	MostLayers   []layersRecord `json:"most_layers,omitempty"`
	Creep        units.Length   `json:"creep_nm"`
	CreepRound   float64        `json:"creep_round"`
	GrooveAlong  float64        `json:"groove_along"`
	GrooveAcross float64        `json:"groove_across"`
}

type layersRecord struct {
	UpTo   units.Grammage `json:"up_to_mg_m2"`
	Layers int            `json:"layers"`
}

func houseOf(h shop.House) houseRecord {
	return houseRecord{h.Tolerance, h.Usual, ringsRecord(h.Rings), adviceOf(h.Advice), spreadOf(h.Spread)}
}

func (r houseRecord) value() shop.House {
	return shop.House{Tolerance: r.Tolerance, Usual: r.Usual, Rings: settings.Rings(r.Rings), Advice: r.Advice.value(), Spread: r.Spread.value()}
}

func adviceOf(a settings.Advice) adviceRecord {
	return adviceRecord{
		a.ScoreAcross, a.ScoreAlong, a.ScoreCoated, a.PierceLayers,
		each(a.MostLayers, func(l settings.LayersLimit) layersRecord { return layersRecord(l) }),
		a.Creep, a.CreepRound, a.GrooveAlong, a.GrooveAcross,
	}
}

func (r adviceRecord) value() settings.Advice {
	return settings.Advice{
		ScoreAcross: r.ScoreAcross, ScoreAlong: r.ScoreAlong, ScoreCoated: r.ScoreCoated, PierceLayers: r.PierceLayers,
		MostLayers: each(r.MostLayers, func(l layersRecord) settings.LayersLimit { return settings.LayersLimit(l) }),
		Creep:      r.Creep, CreepRound: r.CreepRound, GrooveAlong: r.GrooveAlong, GrooveAcross: r.GrooveAcross,
	}
}

type stockRecord struct {
	Name     string         `json:"name"`
	Grammage units.Grammage `json:"grammage_mg_m2"`
	Finish   finishWord     `json:"finish"`
	Grain    grainWord      `json:"grain"`
	Volume   float64        `json:"volume_cm3_g"`
	Measured units.Length   `json:"measured_nm"`
}

func stockOf(s paper.Stock) stockRecord {
	return stockRecord{s.Name, s.Grammage, finishWord(s.Finish), grainWord(s.Grain), s.Volume, s.Measured}
}

func (r stockRecord) value() paper.Stock {
	return paper.Stock{Name: r.Name, Grammage: r.Grammage, Finish: paper.Finish(r.Finish), Grain: paper.Grain(r.Grain), Volume: r.Volume, Measured: r.Measured}
}
