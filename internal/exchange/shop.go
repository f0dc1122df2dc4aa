// Package exchange turns values of the shop into files and answers, and back: YAML for the shop file, JSON for what the
// commands print. Each format has a file or a few of its own. Domain types carry no tags: the outer shape is settled
// here, once for the command line and whatever door comes next.
//
// Readers list every fault with line and field and never half-load.
package exchange

import (
	"bytes"
	"regexp"
	"strings"
	"time"

	"go.yaml.in/yaml/v4"

	"foldwright/internal/fault"
	"foldwright/internal/shop"
)

// ReadShop reads a shop file; name is how its faults call it. The error is every fault of the file as a [fault.List],
// and then there is no shop. Jobs that no folder can fold are no fault of the file: [CheckShop] tells them.
func ReadShop(name string, data []byte) (*shop.Shop, error) {
	s, r := readShop(name, data)
	if err := r.sorted().Err(); err != nil {
		return nil, err
	}
	return s, nil
}

// CheckShop lists all that is wrong with a shop file: faults of kind [fault.Input], and, of kind [fault.No], the jobs that
// no folder can fold, as far as what the file says of folders and tools can be trusted.
func CheckShop(name string, data []byte) fault.List {
	s, r := readShop(name, data)
	known := troubleOf(r.faults)
	if s == nil || r.full() || len(s.Folders) == 0 || known.faulty("folders") || known.faulty("classes") || known.faulty("tools") || known.faulty("house") {
		return r.sorted()
	}
	for _, f := range s.Unfoldable() {
		if !known.faulty(itemOf(f.Field)) && !(strings.HasPrefix(f.Field, "present") && (known.faulty("jobs") || known.faulty("done"))) {
			r.place(fault.List{f})
		}
	}
	return r.sorted()
}

// itemOf is the item of a section in which a field lies: jobs[3] for jobs[3].given.
func itemOf(field string) string {
	if end := strings.IndexByte(field, ']'); end >= 0 {
		return field[:end+1]
	}
	return field
}

// readShop reads and checks; the shop is nil when the file could not even be parsed, and half-filled when r has faults.
func readShop(name string, data []byte) (*shop.Shop, *reading) {
	top, ok := open(name, data)
	if !ok {
		return nil, top.reading
	}
	s := new(shop.Shop)
	shopFields.readInto(top, s)
	if top.node.Kind != yaml.MappingNode || top.full() {
		return nil, top.reading
	}
	for i := range s.Calendars {
		if s.Calendars[i].Zone == nil {
			s.Calendars[i].Zone = top.zone
		}
	}
	top.crossCheck(s)
	return s, top.reading
}

// crossCheck holds what was read to the rules that span fields. What only follows from a fault already told is left out:
// a field that was not read, and names that may stand in what was not read.
func (r *reading) crossCheck(s *shop.Shop) {
	known := troubleOf(r.faults)
	for _, f := range s.Check() {
		if known.faulty(f.Field) || f.Code == shop.CodeUnknownName && known.hides(f.Field) {
			continue
		}
		r.place(fault.List{f})
	}
}

// WriteShop writes a shop as a file that reads back as the same shop. Every field stands in its usual order; what has its
// usual value is left out, but for the shop's own standards and rules.
func WriteShop(s *shop.Shop) []byte {
	w := &writing{inch: s.Inch, zone: s.Zone, stock: bookOf(s.Stocks).find}
	if w.zone == nil {
		w.zone = time.UTC
	}
	var out bytes.Buffer
	dumper, err := yaml.NewDumper(&out, yaml.WithLineWidth(-1), yaml.WithIndent(2))
	if err != nil {
		panic(err) // the options themselves are wrong
	}
	if err := dumper.Dump(shopFields.write(w, s)); err != nil {
		panic(err) // a tree of plain nodes
	}
	if err := dumper.Close(); err != nil {
		panic(err) // writing to memory
	}
	return section.ReplaceAll(out.Bytes(), []byte("\n$0"))
}

// section is a line at which a section starts: no value goes over several lines, so nothing else looks like it.
var section = regexp.MustCompile(`(?m)^[a-z]+:$`)
