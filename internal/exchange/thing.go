package exchange

import (
	"bytes"
	"encoding/json"
	"fmt"
	"time"

	"go.yaml.in/yaml/v4"

	"foldwright/internal/calendar"
	"foldwright/internal/fault"
	"foldwright/internal/ledger"
	"foldwright/internal/paper"
	"foldwright/internal/shop"
	"foldwright/internal/units"
)

// A thing by itself stands in JSON with the fields that the shop file has for it, read and written by the same records.
// Names and other words are texts; a yes is true; whole and decimal numbers are numbers; a length, a grammage, a speed or
// minutes are a number where the shop file writes them bare (millimetres, or inches in a shop that counts in inches; g/m²;
// m/min; minutes) and else a text with its unit. Nothing is rounded. A field that has its usual value is left out.

// thingMost is the longest text of a thing that is read: hundreds of times what a folder needs.
const thingMost = 1 << 20

// thing is how a kind of thing stands by itself.
type thing struct {
	section string // of the shop file; empty for the head
	what    string // such as "a set"
	read    func(spot) any
	write   func(*writing, any) *yaml.Node
	schema  func() schema
	value   Value
}

// of makes a thing of the shape of its values.
func of[T any](section, what string, s shape[T]) thing {
	return thing{
		section: section,
		what:    what,
		read: func(at spot) any {
			v, _ := s.read(at)
			return v
		},
		write:  func(w *writing, v any) *yaml.Node { return s.write(w, v.(T)) },
		schema: func() schema { return s.told },
		value:  s.Value,
	}
}

// things are the kinds by themselves, in the vocabulary of their sections.
var things = map[ledger.Kind]thing{
	ledger.OfShop:      of("", headFields.what, headShape),
	ledger.OfCalendar:  of("calendars", calendarFields.what, calendarShape),
	ledger.OfClass:     of("classes", classFields.what, classFields.shape()),
	ledger.OfTool:      of("tools", toolFields.what, toolFields.shape()),
	ledger.OfSet:       of("sets", setFields.what, setFields.shape()),
	ledger.OfFolder:    of("folders", folderFields.what, folderFields.shape()),
	ledger.OfPresent:   of("present", stateFields.what, stateFields.shape()),
	ledger.OfPerson:    of("bench", personFields.what, personFields.shape()),
	ledger.OfStock:     of("stocks", stockFields.what, stockFields.shape()),
	ledger.OfJob:       of("jobs", docketFields.what, jobShape),
	ledger.OfDone:      of("done", docketFields.what, jobShape),
	ledger.OfStandards: of("standards", standardFields.what, standardFields.shape()),
	ledger.OfWeights:   of("weights", weightFields.what, weightFields.shape()),
	ledger.OfHouse:     of("house", houseFields.what, houseFields.shape()),
}

// headShape is what a shop says of itself.
var headShape = shape[ledger.Head]{
	Value: headFields.value(),
	told:  headFields.schema(),
	read: func(s spot) (ledger.Head, bool) {
		top, ok := headFields.shape().read(s)
		return ledger.Head{Name: top.Name, Zone: top.Zone, Now: top.Now, Inch: top.Inch}, ok
	},
	write: func(w *writing, h ledger.Head) *yaml.Node {
		own := *w
		if own.inch = h.Inch; h.Zone != nil {
			own.zone = h.Zone
		}
		return headFields.write(&own, &shop.Shop{Name: h.Name, Zone: h.Zone, Now: h.Now, Inch: h.Inch})
	},
}

// calendarShape is a calendar by itself, which goes by the shop's clock unless it says otherwise.
var calendarShape = shape[calendar.Calendar]{
	Value: calendarFields.value(),
	told:  calendarFields.schema(),
	read: func(s spot) (calendar.Calendar, bool) {
		c, ok := calendarFields.shape().read(s)
		if c.Zone == nil {
			c.Zone = s.zone
		}
		return c, ok
	},
	write: func(w *writing, c calendar.Calendar) *yaml.Node { return calendarFields.write(w, &c) },
}

// ReadThing reads one thing of a kind, as JSON or as YAML; what a bare length is, the clock of times and the stocks that
// may be named are those of the shop (nil: millimetres, UTC and none). The error is every fault as a [fault.List], with
// the paths of fields inside the thing, such as units[0].plates[1]. What only the whole shop can tell, such as whether a
// name exists, is not asked here: see [FieldsWithin].
func ReadThing(k ledger.Kind, data []byte, s *shop.Shop) (any, error) {
	kind, ok := things[k]
	if !ok {
		return nil, fault.List{{Kind: fault.Missing, Code: ledger.CodeKind, Wrong: "there are no things of the kind " + quoted(string(k)), Right: "the kinds are " + kindsInWords()}}
	}
	var value any
	found := readOne(data, s, "the fields of "+kind.what, func(at spot) { value = kind.read(at) })
	if len(found) > 0 {
		return nil, found
	}
	return value, nil
}

func kindsInWords() string {
	var b bytes.Buffer
	for i, k := range ledger.Kinds() {
		if i > 0 {
			b.WriteString(", ")
		}
		b.WriteString(string(k))
	}
	return b.String()
}

// WriteThing writes a thing as JSON that [ReadThing] reads back as the same. The value is of the type that its kind names;
// another is a fault of the program.
func WriteThing(k ledger.Kind, value any, s *shop.Shop) json.RawMessage {
	kind, ok := things[k]
	if !ok {
		panic(fmt.Sprintf("exchange: no kind %q", k))
	}
	return jsonOf(kind.write(writingIn(s), value))
}

// ThingSchema is the JSON Schema (draft 2020-12) of a thing by itself; nil for a kind that does not exist. It is shared:
// nobody changes it.
func ThingSchema(k ledger.Kind) map[string]any {
	if kind, ok := things[k]; ok {
		return kind.schema()
	}
	return nil
}

// Fields describes the fields of a thing in their order. The list is shared: nobody changes it.
func Fields(k ledger.Kind) []Field { return things[k].value.Fields }

// readOne reads one value that stands by itself, with what a shop says of bare lengths, times and stocks.
func readOne(data []byte, s *shop.Shop, what string, read func(spot)) fault.List {
	r := readingIn(s)
	if f, ok := refuseBytes(data, thingMost); !ok {
		return fault.List{f}
	}
	if len(bytes.TrimSpace(data)) == 0 {
		return fault.List{{Kind: fault.Input, Code: CodeEmpty, Wrong: "there is nothing", Right: "write " + what}}
	}
	isJSON := looksJSON(data)
	top, ok := r.top(data, isJSON)
	if ok {
		read(top)
	}
	found := r.sorted()
	if len(found) > 0 && ok {
		found = rowsByName(top.node, found)
	}
	for i := range found {
		if isJSON && found[i].Field != "" {
			found[i].Line, found[i].Col = 0, 0 // nobody wrote those lines
		}
	}
	return found
}

// top is the value that a text holds.
func (r *reading) top(data []byte, isJSON bool) (spot, bool) {
	if !isJSON {
		return r.load(data)
	}
	n, err := jsonNode(data)
	if err != nil {
		r.addAll(fault.All(err))
		return spot{}, false
	}
	return spot{reading: r, node: n}, true
}

func readingIn(s *shop.Shop) *reading {
	r := newReading("")
	if s == nil {
		return r
	}
	if s.Zone != nil {
		r.zone = s.Zone
	}
	if s.Inch {
		r.bare = units.Inch
	}
	r.stocks = bookOf(s.Stocks)
	return r
}

func writingIn(s *shop.Shop) *writing {
	w := &writing{zone: time.UTC, json: true, stock: stockBook(nil).find}
	if s == nil {
		return w
	}
	if s.Zone != nil {
		w.zone = s.Zone
	}
	w.inch = s.Inch
	w.stock = func(name string) (paper.Stock, bool) { // a book of all of them would be made for one thing
		if listed, ok := s.Stock(name); ok {
			return *listed, true
		}
		return paper.Stock{}, false
	}
	return w
}
