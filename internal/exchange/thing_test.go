package exchange

import (
	"bytes"
	"encoding/json"
	"fmt"
	"slices"
	"strings"
	"testing"

	"github.com/google/go-cmp/cmp"
	"github.com/santhosh-tekuri/jsonschema/v6"
	"pgregory.net/rapid"

	"foldwright/internal/fault"
	"foldwright/internal/ledger"
	"foldwright/internal/paper"
	"foldwright/internal/shop"
	"foldwright/internal/units"
)

// Every thing of any shop, written and read, is the same thing; it is JSON to the standard library, and what its schema
// says to a validator that is not ours.
func TestThingsReadBackTheSame(t *testing.T) {
	schemas := map[ledger.Kind]*jsonschema.Schema{}
	for _, k := range ledger.Kinds() {
		schemas[k] = compiledThing(t, k)
	}
	rapid.Check(t, func(t *rapid.T) {
		s := anyShop(t)
		for _, k := range ledger.Kinds() {
			for _, want := range ledger.Values(s, k) {
				if err := schemas[k].Validate(roundTrip(t, k, want, s)); err != nil {
					t.Fatalf("%s: %v", k, err)
				}
			}
		}
	})
}

// roundTrip writes and reads a thing, and returns its JSON as the standard library reads it.
func roundTrip(t rapid.TB, k ledger.Kind, want any, s *shop.Shop) any {
	text := WriteThing(k, want, s)
	got, err := ReadThing(k, text, s)
	if err != nil {
		t.Fatalf("%s: %v\n%s", k, err, text)
	}
	if diff := cmp.Diff(want, got, sameShop); diff != "" {
		t.Fatalf("%s: %s\n%s", k, diff, text)
	}
	if again := WriteThing(k, got, s); !bytes.Equal(again, text) {
		t.Fatalf("%s: written once:\n%s\nand again:\n%s", k, text, again)
	}
	value, err := jsonschema.UnmarshalJSON(bytes.NewReader(text))
	if err != nil {
		t.Fatalf("%s: %v\n%s", k, err, text)
	}
	return value
}

func compiledThing(t *testing.T, k ledger.Kind) *jsonschema.Schema {
	t.Helper()
	return compiledTold(t, ThingSchema(k))
}

// compiledTold makes a validator of a schema.
func compiledTold(t *testing.T, schema map[string]any) *jsonschema.Schema {
	t.Helper()
	told, err := json.Marshal(schema)
	if err != nil {
		t.Fatal(err)
	}
	value, err := jsonschema.UnmarshalJSON(bytes.NewReader(told))
	if err != nil {
		t.Fatal(err)
	}
	c := jsonschema.NewCompiler()
	c.DefaultDraft(jsonschema.Draft2020)
	if err := c.AddResource("thing.json", value); err != nil {
		t.Fatal(err)
	}
	compiled, err := c.Compile("thing.json")
	if err != nil {
		t.Fatal(err)
	}
	return compiled
}

// All of the example, so that what people write is among what is held to the round trip.
func TestExampleThingByThing(t *testing.T) {
	for _, file := range []string{"testdata/example.yaml", "../demo/shop.yaml"} {
		s, err := ReadShop(file, read(t, file))
		if err != nil {
			t.Fatal(err)
		}
		for _, k := range ledger.Kinds() {
			for _, v := range ledger.Values(s, k) {
				roundTrip(t, k, v, s)
			}
		}
	}
}

// The types that JSON shows: names are texts though they look like numbers, a yes is true, lengths are numbers where the
// file has them bare.
func TestThingAsJSON(t *testing.T) {
	s := &shop.Shop{}
	for _, c := range []struct {
		kind       ledger.Kind
		yaml, want string
	}{
		{ledger.OfClass, "name: 35\ndiameter: 35\nlength: 27 1/2 in", `{"name":"35","diameter":35,"length":698.5}`},
		{ledger.OfTool, "tool: slit\nclass: wide\nleft: 1/64 in\nright: 5\nloose: 0", `{"tool":"slit","class":"wide","left":0.396875,"right":5}`},
		{ledger.OfSet, "label: 0107\nclass: wide\nbench: yes\nserved: 2107\nrun_km: 1.50", `{"label":"0107","class":"wide","bench":true,"served":["2107"],"run_km":1.5}`},
		{ledger.OfStock, "name: 'null'\ngrammage: 60 lb text\ncaliper: 98 um", `{"name":"null","grammage":88.809,"caliper":0.098}`},
		{ledger.OfWeights, "late: 2", `{"late":2,"makeready":1,"waiting":1,"bench":0.25}`},
		{ledger.OfShop, "shop: 12\nzone: Europe/Berlin\nnow: 2026-10-25 02:30 +01:00", `{"shop":"12","zone":"Europe/Berlin","now":"2026-10-25 02:30 +01:00"}`},
		{ledger.OfPresent, "folder: alder\nguides: {2: 305.5, 1: 250}", `{"folder":"alder","guides":{"2":305.5,"1":250}}`},
		{
			ledger.OfJob, "name: 2107\nsheet: 860x610\nstock: {name: own, grammage: 90}\nscheme: F16-7\nsheets: 12000\ndue: 2026-03-02T14:00:00Z",
			`{"name":"2107","sheet":"860 x 610","stock":{"name":"own","grammage":90},"scheme":"F16-7","sheets":12000,"due":"2026-03-02 14:00"}`,
		},
	} {
		v, err := ReadThing(c.kind, []byte(c.yaml), s)
		if err != nil {
			t.Errorf("%s: %v", c.yaml, err)
			continue
		}
		if got := string(WriteThing(c.kind, v, s)); got != c.want {
			t.Errorf("got  %s\nwant %s", got, c.want)
		}
	}
}

// In a shop that counts in inches, bare lengths are inches both ways.
func TestThingInInches(t *testing.T) {
	s := &shop.Shop{Inch: true}
	v, err := ReadThing(ledger.OfClass, []byte(`{"name": "wide", "diameter": "35 mm", "length": 27.5}`), s)
	if err != nil {
		t.Fatal(err)
	}
	_, err = ReadThing(ledger.OfClass, []byte(`{"name": "wide", "diameter": 1, "length": "27 1/2"}`), s)
	if err != nil {
		t.Error(err)
	}
	if got, want := string(WriteThing(ledger.OfClass, v, s)), `{"name":"wide","diameter":"35 mm","length":"27 1/2"}`; got != want {
		t.Errorf("got %s, want %s", got, want)
	}
	if got, want := string(WriteThing(ledger.OfClass, v, nil)), `{"name":"wide","diameter":35,"length":698.5}`; got != want {
		t.Errorf("got %s, want %s", got, want)
	}
}

// Faults name the field inside the thing; all of them are told.
func TestThingFaults(t *testing.T) {
	for _, c := range []struct {
		kind ledger.Kind
		text string
		want []string
	}{
		{ledger.OfClass, `{"name": "wide", "diametre": 35}`, []string{
			"diameter: is missing; give the diameter of the shafts [missing-field]", "length: is missing; give the usable length of the shafts from the datum shoulder [missing-field]",
			`diametre: "diametre" is no field of a class; did you mean diameter? [unknown-field]`,
		}},
		{
			ledger.OfFolder, `{"name": "alder", "calendar": "day", "feeder": {"length": "1 to 2", "width": "1 to 2", "grammage": "1 to 2", "rate": 3.5},
			"units": [{"kind": "knive", "speed": 100, "gap": 50, "operator": "left", "guide": {"side": "left", "range": "0 to 500"}, "plates": ["80 to 520", "80"]}]}`,
			[]string{`feeder.rate: "3.5" is no whole number; write digits only, such as 12000 [number]`, `units[0].kind: "knive" means nothing here; write buckle or knife [word]`, `units[0].plates[1]: "80" is no range; write the least and the most with to between them, such as 80 to 520 [least-most]`},
		},
		{ledger.OfSet, `{"label": "A", "label": "B", "class": "wide"}`, []string{`1:16: "label" stands here again, first in line 1; keep one of the two [field-twice]`}},
		{ledger.OfSet, `{"label": {"a": 1}, "class": null}`, []string{"label: a group of fields stands here; write a name or a few words [wrong-type]", "class: says nothing; write a name or a few words [empty-field]"}},
		{
			ledger.OfJob, `{"name": "a", "sheet": "860 x 610", "stock": "ofset", "sheets": 1, "fold": "up 1/2", "due": "soon"}`,
			[]string{`stock: there is no stock "ofset"; did you mean "offset"? [unknown-name]`, `due: "soon" is no date and time; write year, month, day and the time, such as 2026-03-02 14:00 [moment]`},
		},
		{ledger.OfJob, "name: a\nsheet: 860 x 610\nstock: offset\nsheets: many\n", []string{
			"1:1: fold: the job does not say how it is folded; give scheme (a catalogue name such as F16-7) or fold (such as up 1/2, left, up 1/2) [job-fold]",
			`4:9: sheets: "many" is no whole number; write digits only, such as 12000 [number]`,
		}},
		{ledger.OfClass, ``, []string{"there is nothing; write the fields of a class [empty-field]"}},
		{ledger.OfClass, " \n", []string{"there is nothing; write the fields of a class [empty-field]"}},
		{ledger.OfClass, `[1]`, []string{"1:1: a list stands here; write the fields of a class, such as name: … [wrong-type]"}},
		{ledger.OfClass, `wide`, []string{`1:1: "wide" stands here; write the fields of a class, such as name: … [wrong-type]`}},
		{"plate", `{}`, []string{`there are no things of the kind "plate"; the kinds are shop, calendar, class, tool, set, folder, present, person, stock, job, done, standards, weights, house [thing-kind]`}},
	} {
		_, err := ReadThing(c.kind, []byte(c.text), &shop.Shop{Stocks: []paper.Stock{{Name: "offset", Grammage: 90 * units.GramPerM2}}})
		if diff := cmp.Diff(c.want, lines(err)); diff != "" {
			t.Errorf("%s\n%s", c.text, diff)
		}
	}
}

// Text that is meant to do harm, or broken on the way, is refused with one fault that says what.
func TestHostileJSON(t *testing.T) {
	const sets = `{"label": "A", "class": "wide", "run_km": `
	for _, c := range []struct{ what, text, want string }{
		{"cut off", `{"label": "A"`, "1:14: no JSON: it ends too early; "},
		{"a comma too many", `{"label": "A",}`, "1:15: no JSON: invalid character '}' looking"},
		{"no quotes", "{\n  label: A}", "2:3: no JSON: invalid character 'l'; "},
		{"two values", `{} {}`, "1:4: no JSON: something stands behind the end"},
		{"deep lists", strings.Repeat("[", 500_000), "1:51: no JSON: it nests deeper than 50 levels"},
		{"deep groups", strings.Repeat(`{"a":`, 100_000) + "1" + strings.Repeat("}", 100_000), "no JSON: it nests deeper than 50 levels"},
		{"half a letter", `{"label": "\ud83d", "class": "wide"}`, `1:11: no JSON: half a letter: an escape \ud800 to \udfff without its other half`},
		{"bytes", "{\"label\": \"Caf\xe9\"}", "1: byte 0xE9 is no UTF-8 text; save it as UTF-8 [file-encoding]"},
		{"nought", "{\"label\": \"\x00\"}", "1: there is a control character, byte 0x00; take it out [file-encoding]"},
		{"a long text", `{"label": "` + strings.Repeat("a", thingMost) + `"}`, "there are 1048589 bytes; at most 1048576 are read [file-size]"},
		{"a huge number", sets + "1e999}", `run_km: "1e999" is no number; `},
		{"a long number", sets + strings.Repeat("9", 500_000) + "}", `run_km: "9999999999999999999999999999999999999999…" is no number; `},
		{"not a number", sets + "NaN}", "1:43: no JSON: invalid character 'N' looking"},
		{"yaml's tricks", "label: !!binary wide\nclass: wide", "1:8: label: the tag !!binary stands here; write the value without a tag [yaml-unused]"},
	} {
		_, err := ReadThing(ledger.OfSet, []byte(c.text), nil)
		found := fault.All(err)
		if len(found) != 1 || !strings.Contains(found[0].Error(), c.want) {
			t.Errorf("%s: got %v\nwant one fault with %s", c.what, clipped(err), c.want)
		}
	}
}

// A number as large as no figure of a shop is refused in every field, quickly and with a fault.
func TestHugeNumbersInEveryField(t *testing.T) {
	numeric := map[Form]bool{}
	for _, f := range []Form{FormCount, FormNumber, FormLength, FormThickness, FormGrammage, FormSpeed, FormMinutes, FormMoment, FormRange, FormGroup, FormTable} {
		numeric[f] = true
	}
	large := func(number string) bool { return !strings.Contains(number, "e-") && !strings.HasPrefix(number, "0.") }
	for _, k := range ledger.Kinds() {
		for _, f := range Fields(k) {
			for _, number := range []string{"1e999999999", "-1e999999999", "1e-999999999", strings.Repeat("7", 100_000), "0." + strings.Repeat("3", 100_000)} {
				_, err := ReadThing(k, fmt.Appendf(nil, `{%q: %s}`, f.Name, number), nil)
				if numeric[f.Form] && large(number) && !slices.ContainsFunc(fault.All(err), func(g fault.Fault) bool { return g.Field == f.Name }) {
					t.Errorf("%s.%s takes %.20s: %v", k, f.Name, number, clipped(err))
				}
			}
		}
	}
}

// Letters beyond the first plane, which other programs write as two escapes, and signs that YAML takes for the end of a
// line, come through as they are.
func TestLettersComeThrough(t *testing.T) {
	want := "🗂 \u2028\u0085\ufffd\\/é\"<"
	for _, text := range []string{
		`"\ud83d\uDDC2 \u2028\u0085\uFFFD\\\/\u00e9\"\u003c"`,
		"\"🗂 \u2028\u0085\ufffd\\\\/é\\\"<\"",
	} {
		v, err := ReadThing(ledger.OfClass, []byte(`{"diameter":35,"length":700,"name":`+text+`}`), nil)
		if err != nil {
			t.Error(err)
		} else if name, _ := ledger.NameOf(ledger.OfClass, v); name != want {
			t.Errorf("got %q, want %q", name, want)
		}
	}
}

func lines(err error) []string {
	var out []string
	for _, f := range fault.All(err) {
		out = append(out, f.Error())
	}
	return out
}

func clipped(err error) string {
	text := fmt.Sprint(err)
	return text[:min(len(text), 300)]
}
