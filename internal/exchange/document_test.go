package exchange

import (
	"bytes"
	"encoding/json"
	"strings"
	"testing"
	"time"

	"github.com/google/go-cmp/cmp"
	"github.com/google/go-cmp/cmp/cmpopts"
	"github.com/santhosh-tekuri/jsonschema/v6"
	"pgregory.net/rapid"

	whose "foldwright/internal/access"
	"foldwright/internal/ledger"
	"foldwright/internal/shop"
	"foldwright/internal/units"
)

func TestDocumentsReadBackTheSame(t *testing.T) {
	records, accounts, tokens := compiledTold(t, Records().Schema()), compiledTold(t, Accounts().Schema()), compiledTold(t, Tokens().Schema())
	rapid.Check(t, func(t *rapid.T) {
		s := &shop.Shop{Zone: anyZone(t)}
		documentRound(t, Records(), anyRecord(t, s.Zone), s, records)
		documentRound(t, Accounts(), anyAccount(t, s.Zone), s, accounts)
		documentRound(t, Tokens(), anyToken(t, s.Zone), s, tokens)
	})
}

func documentRound[T any](t rapid.TB, d Document[T], want T, s *shop.Shop, schema *jsonschema.Schema) {
	text := d.Write(want, s)
	got, err := d.Read(text, s)
	if err != nil {
		t.Fatalf("%v\n%s", err, text)
	}
	if diff := cmp.Diff(want, got, cmpopts.EquateEmpty()); diff != "" {
		t.Fatalf("%s\n%s", diff, text)
	}
	value, err := jsonschema.UnmarshalJSON(bytes.NewReader(text))
	if err == nil {
		err = schema.Validate(value)
	}
	if err != nil {
		t.Fatalf("%v\n%s", err, text)
	}
}

// anyStamp is a moment that is told in reason.
func anyStamp(t *rapid.T, zone *time.Location, label string) time.Time {
	return time.UnixMilli(rapid.Int64Range(1_000_000_000_000, 7_000_000_000_000).Draw(t, label)).In(zone)
}

func anyPlaces(t *rapid.T, label string) []ledger.AsRun {
	return rapid.SliceOfN(rapid.Custom(func(t *rapid.T) ledger.AsRun {
		return ledger.AsRun{Where: anyWords(t, "where"), Set: anyLength(t, "set"), Was: -anyLength(t, "was")}
	}), 0, 3).Draw(t, label)
}

func anyRecord(t *rapid.T, zone *time.Location) ledger.Record {
	return ledger.Record{
		ID: anyWords(t, "id"), Version: rapid.Int64Range(0, 1<<40).Draw(t, "version"), Who: anyWords(t, "who"), At: anyMoment(t, zone),
		Job: anyWords(t, "job"), Folder: anyWords(t, "folder"), Start: anyStamp(t, zone, "start"), Good: anyMoment(t, zone), End: anyMoment(t, zone),
		Sheets: rapid.IntRange(-5, 1_000_000).Draw(t, "sheets"), Plates: anyPlaces(t, "plates"), Tools: anyPlaces(t, "tools"),
		Planned: time.Duration(rapid.IntRange(0, 60_000_000).Draw(t, "planned")) * time.Second, Disturbed: anyWords(t, "disturbed"), Note: anyWords(t, "note"),
	}
}

func anyAccount(t *rapid.T, zone *time.Location) Account {
	a := Account{
		Name: anyWords(t, "name"), Role: rapid.SampledFrom(whose.Roles()).Draw(t, "role"), Lang: rapid.SampledFrom([]string{"", "en", "de", "es", "fr"}).Draw(t, "lang"),
		Since: anyStamp(t, zone, "since"), Ended: rapid.Bool().Draw(t, "ended"), Chosen: rapid.Bool().Draw(t, "chosen"), Version: rapid.Int64Range(0, 99).Draw(t, "version"),
	}
	if rapid.Bool().Draw(t, "own unit") {
		inch := rapid.Bool().Draw(t, "inch")
		a.Inch = &inch
	}
	return a
}

func anyToken(t *rapid.T, zone *time.Location) Token {
	return Token{
		ID: anyWords(t, "id"), Name: anyWords(t, "name"), Account: anyWords(t, "account"), Role: rapid.SampledFrom(whose.Roles()).Draw(t, "role"),
		Since: anyStamp(t, zone, "since"), Until: anyMoment(t, zone), Used: anyMoment(t, zone),
	}
}

// A record as people and programs see it.
func TestRecordAsJSON(t *testing.T) {
	berlin, err := time.LoadLocation("Europe/Berlin")
	if err != nil {
		t.Fatal(err)
	}
	s := &shop.Shop{Zone: berlin}
	at := func(hour, minute int) time.Time { return time.Date(2026, 3, 2, hour, minute, 0, 0, berlin) }
	r := ledger.Record{
		ID: "r1", Version: 3, Who: "ada", At: at(9, 30), Job: "2107", Folder: "alder", Start: at(8, 0), Good: at(8, 25), Sheets: 12000,
		Plates:  []ledger.AsRun{{Where: "unit 1 plate 2", Set: 305 * units.Millimetre, Was: 305_250_000}},
		Planned: 22*time.Minute + 20*time.Second, Note: "new rollers",
	}
	want := `{"id":"r1","version":3,"who":"ada","at":"2026-03-02T09:30:00+01:00","job":"2107","folder":"alder","start":"2026-03-02T08:00:00+01:00",` +
		`"good":"2026-03-02T08:25:00+01:00","sheets":12000,"plates":[{"where":"unit 1 plate 2","set_mm":305,"was_mm":305.25}],"planned_min":22.3333,"note":"new rollers"}`
	if diff := cmp.Diff(want, string(Records().Write(r, s))); diff != "" {
		t.Error(diff)
	}
	for _, start := range []string{"2026-03-02T08:00", "2026-03-02 08:00", "2026-03-02T07:00:00Z", "2026-03-02T08:00:00.000+01:00"} {
		got, err := Records().Read([]byte(`{"job":"2107","folder":"alder","start":"`+start+`"}`), s)
		if err != nil || !got.Start.Equal(r.Start) || got.Start.Location() != berlin {
			t.Errorf("%s: %v (%v)", start, got.Start, err)
		}
	}
}

func TestDocumentFaults(t *testing.T) {
	_, record := Records().Read([]byte(`{"folder": "alder", "start": "soon", "sheets": "many", "planned_min": -1, "plates": [{"where": "unit 1 plate 1", "set_mm": "12 in", "was_mm": 1e3}], "foldr": 3}`), nil)
	_, account := Accounts().Read([]byte(`{"name": "ada", "role": "king", "lang": "la", "units": "ell", "hash": "x"}`), nil)
	_, token := Tokens().Read([]byte(`{"role": "nobody", "until": "2026-02-30T00:00"}`), nil)
	for _, c := range []struct {
		got  error
		want []string
	}{
		{record, []string{
			"job: is missing; give the job [missing-field]",
			`start: "soon" is no date and time; write year, month, day and the time, such as 2026-03-02 14:00 [moment]`,
			`sheets: "many" is no whole number; write digits only, such as 12000 [number]`,
			`planned_min: "-1" is beyond reason; write minutes from 0 to 1000000 [number]`,
			`plates[0].set_mm: "12 in" is no number; write millimetres such as 305.5 [number]`,
			`plates[0].was_mm: "1e3" is no number; write millimetres such as 305.5 [number]`,
			`foldr: "foldr" is no field of a record; did you mean folder? [unknown-field]`,
		}},
		{account, []string{
			`role: "king" means nothing here; write viewer, operator, lead or admin [word]`,
			`lang: "la" means nothing here; write en, de, es or fr [word]`,
			`units: "ell" means nothing here; write mm or inch [word]`,
			`hash: "hash" is no field of an account; the fields of an account are name, role, lang, units, ended, since, chosen, version [unknown-field]`,
		}},
		{token, []string{
			"name: is missing; give what the program is called [missing-field]",
			`role: "nobody" means nothing here; write viewer, operator, lead or admin [word]`,
			`until: "2026-02-30T00:00" is no date and time; write year, month, day and the time, such as 2026-03-02 14:00 [moment]`,
		}},
	} {
		if diff := cmp.Diff(c.want, lines(c.got)); diff != "" {
			t.Error(diff)
		}
	}
}

// The secret of a token is in the one answer that tells it, and nowhere else.
func TestNewToken(t *testing.T) {
	k := Token{ID: "k1", Name: "screen", Account: "ada", Role: whose.Viewer, Since: time.Unix(1_772_000_000, 0)}
	got := string(NewToken(k, "1234567", nil))
	if want := `{"id":"k1","name":"screen","account":"ada","role":"viewer","since":"2026-02-25T06:13:20Z","secret":"1234567"}`; got != want {
		t.Errorf("got  %s\nwant %s", got, want)
	}
	if again := string(Tokens().Write(k, nil)); strings.Contains(again, "secret") {
		t.Errorf("the secret is told again: %s", again)
	}
}

func TestChanges(t *testing.T) {
	list := []ledger.Change{{Revision: 7, At: time.Unix(1_772_000_000, 0), Who: "ada", Things: []ledger.Changed{
		{Kind: ledger.OfJob, ID: "x1", Name: "2107", Deed: ledger.Altered, Fields: []ledger.Field{{Name: "due", Before: "2026-03-02 14:00", After: ""}}},
		{Kind: ledger.OfHouse, ID: "x2", Deed: ledger.Added},
	}}}
	got, err := json.Marshal(Changes(list, time.FixedZone("", 3600)))
	if err != nil {
		t.Fatal(err)
	}
	want := `[{"revision":7,"at":"2026-02-25T07:13:20+01:00","who":"ada","things":[` +
		`{"kind":"job","id":"x1","name":"2107","deed":"changed","fields":[{"field":"due","before":"2026-03-02 14:00"}]},{"kind":"house","id":"x2","deed":"added","fields":[]}]}]`
	if diff := cmp.Diff(want, string(got)); diff != "" {
		t.Error(diff)
	}
}
