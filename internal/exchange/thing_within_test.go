package exchange

import (
	"testing"

	"github.com/google/go-cmp/cmp"

	"foldwright/internal/fault"
	"foldwright/internal/ledger"
	"foldwright/internal/shop"
)

func TestFieldsWithin(t *testing.T) {
	for _, c := range []struct {
		kind        ledger.Kind
		at          int
		field, want string
	}{
		{ledger.OfJob, 3, "jobs[3].due", "due"},
		{ledger.OfJob, 3, "jobs[3].after[1]", "after[1]"},
		{ledger.OfJob, 3, "jobs[3]", ""},
		{ledger.OfJob, 3, "jobs[30].due", "jobs[30].due"},
		{ledger.OfJob, 3, "jobs", "jobs"},
		{ledger.OfJob, 3, "done[3].due", "done[3].due"},
		{ledger.OfDone, 3, "done[3].due", "due"},
		{ledger.OfFolder, 0, "folders[0].units[1].plates[0]", "units[1].plates[0]"},
		{ledger.OfCalendar, 1, "calendars[1].days[2026-12-24]", "days[2026-12-24]"},
		{ledger.OfPerson, 0, "bench[0].calendar", "calendar"},
		{ledger.OfPresent, 2, "present[2].guides[0]", "guides[0]"},
		{ledger.OfShop, 0, "zone", "zone"},
		{ledger.OfShop, 0, "jobs[0].due", "jobs[0].due"},
		{ledger.OfStandards, 0, "standards.trial", "trial"},
		{ledger.OfWeights, 0, "weights.late", "late"},
		{ledger.OfHouse, 0, "house.advice.most_layers[0]", "advice.most_layers[0]"},
		{ledger.OfHouse, 0, "houses", "houses"},
	} {
		got := FieldsWithin(c.kind, c.at, fault.List{{Field: c.field}})
		if got[0].Field != c.want {
			t.Errorf("%s at %d: %s becomes %q, want %q", c.kind, c.at, c.field, got[0].Field, c.want)
		}
	}
}

// What the check of a whole shop says of a thing is told at fields that the thing has.
func TestFieldsWithinAreFieldsOfTheThing(t *testing.T) {
	s, err := ReadShop("example.yaml", read(t, "testdata/example.yaml"))
	if err != nil {
		t.Fatal(err)
	}
	broken := *s
	broken.Jobs = append(broken.Jobs[:0:0], s.Jobs...)
	last := &broken.Jobs[len(broken.Jobs)-1]
	last.Given, last.Pin.Folder, last.After, last.Release = "nowhere", "", []string{"nobody"}, last.Due.Add(1)
	at := At(&broken, ledger.OfJob, last.Name)
	if at != len(broken.Jobs)-1 {
		t.Fatalf("%s stands at %d", last.Name, at)
	}
	var got []string
	for _, f := range FieldsWithin(ledger.OfJob, at, broken.Check()) {
		got = append(got, f.Field)
	}
	if diff := cmp.Diff([]string{"due", "given", "after[0]"}, got); diff != "" {
		t.Error(diff)
	}
}

func TestAt(t *testing.T) {
	s := &shop.Shop{States: []shop.State{{Folder: "alder"}, {Folder: "birch"}}}
	for name, want := range map[string]int{"alder": 0, "birch": 1, "cedar": 2} {
		if got := At(s, ledger.OfPresent, name); got != want {
			t.Errorf("%s stands at %d, want %d", name, got, want)
		}
	}
	if got := At(s, ledger.OfHouse, ""); got != 0 {
		t.Errorf("the house stands at %d", got)
	}
}

// Rows of tables go by their names, whether reading them failed or the shop's check did.
func TestRowsByName(t *testing.T) {
	calendarText := `{"name": "day", "week": {"mon-thu": "06:00-14:00", "fri": "06:00-12:00"}, "days": {"24.12.2026": "closed"}}`
	folder := `{"name": "alder", "units": [{"guide": {"side": "left"}}]}`
	for _, c := range []struct{ text, field, want string }{
		{calendarText, "week[1]", "week.mon-thu"},
		{calendarText, "week[4]", "week.mon-thu"},
		{calendarText, "week[5]", "week.fri"},
		{calendarText, "week[0]", "week[0]"},
		{calendarText, "days[24.12.2026]", "days.24.12.2026"},
		{calendarText, "days.24.12.2026", "days.24.12.2026"},
		{calendarText, "week.fri", "week.fri"},
		{calendarText, "", ""},
		{`{"guides": {"2": 305, "1": 250}}`, "guides[0]", "guides.2"},
		{`{"guides": {"2": 305, "1": 250}}`, "guides[1]", "guides.1"},
		{`{"guides": {"2": 305, "1": 250}}`, "guides[2]", "guides[2]"},
		{"guides:\n  2: 305\n", "guides[0]", "guides.2"},
		{`{"advice": {"most_layers": {"90": 16, "any": 2}}}`, "advice.most_layers[1]", "advice.most_layers.any"},
		{folder, "units[0].guide.side", "units[0].guide.side"},
		{folder, "units[1].guide.side", "units[1].guide.side"},
		{folder, "units[0].plates[1]", "units[0].plates[1]"},
		{folder, "jobs[7].due", "jobs[7].due"},
		{`{"name"`, "week[1]", "week[1]"},
	} {
		if got := RowsByName([]byte(c.text), fault.List{{Field: c.field}}); got[0].Field != c.want {
			t.Errorf("%s: %s becomes %q, want %q", c.text, c.field, got[0].Field, c.want)
		}
	}
	_, err := ReadThing(ledger.OfCalendar, []byte(`{"name": "day", "week": {"mon-fri": "6 to 14"}, "days": {"2026-12-24": "open"}}`), nil)
	var got []string
	for _, f := range fault.All(err) {
		got = append(got, f.Field)
	}
	if diff := cmp.Diff([]string{"week.mon-fri", "days.2026-12-24"}, got); diff != "" {
		t.Error(diff)
	}
}
