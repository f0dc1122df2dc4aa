package exchange

import (
	"slices"
	"strconv"
	"time"

	"go.yaml.in/yaml/v4"

	"foldwright/internal/calendar"
	"foldwright/internal/job"
	"foldwright/internal/paper"
	"foldwright/internal/shop"
	"foldwright/internal/units"
)

type yamlNode = yaml.Node

// Fields on which the reading of others depends, and mappings whose names are free.

func jobsIn(s *shop.Shop) *[]job.Job { return &s.Jobs }
func doneIn(s *shop.Shop) *[]job.Job { return &s.Done }

// shopZone settles what the clock of all later times is.
func shopZone() field[shop.Shop] {
	f := need("zone", "the time zone whose clock all times are by, such as Europe/Berlin", zone, in(func(s *shop.Shop) **time.Location { return &s.Zone }))
	read := f.read
	f.read = func(s spot, into *shop.Shop) {
		if read(s, into); into.Zone != nil {
			s.zone = into.Zone
		}
	}
	return f
}

// shopNow is when planning starts.
func shopNow() field[shop.Shop] {
	return maybeMoment("now", "when the plan starts; without it: the moment of asking", func(s *shop.Shop) *time.Time { return &s.Now })
}

// maybeMoment is a moment that may be left out.
func maybeMoment[T any](name, about string, place func(*T) *time.Time) field[T] {
	f := need(name, about, moment, in(place))
	f.needed = false
	write := f.write
	f.write = func(w *writing, from *T) *yamlNode {
		if place(from).IsZero() {
			return nil
		}
		return write(w, from)
	}
	return f
}

// shopUnits settles what a bare length is from here on.
func shopUnits() field[shop.Shop] {
	f := may("units", "what a bare length is: mm or inch", measure, false, in(func(s *shop.Shop) *bool { return &s.Inch }))
	f.usual = "mm"
	read := f.read
	f.read = func(s spot, into *shop.Shop) {
		if read(s, into); into.Inch {
			s.bare = units.Inch
		}
	}
	return f
}

// stockBook is the stocks of the shop by name, for the jobs that refer to them.
type stockBook map[string]paper.Stock

// stocks keeps the stocks for the jobs that follow.
func stocks() field[shop.Shop] {
	f := many("stocks", "the stocks that jobs refer to", list(stockFields.shape(), false), func(s *shop.Shop) *[]paper.Stock { return &s.Stocks })
	read := f.read
	f.read = func(s spot, into *shop.Shop) {
		read(s, into)
		s.stocks = bookOf(into.Stocks)
	}
	return f
}

func bookOf(all []paper.Stock) stockBook {
	book := stockBook{}
	for _, s := range all {
		if _, twice := book[s.Name]; !twice {
			book[s.Name] = s
		}
	}
	return book
}

// mayZone is the zone of a calendar: the shop's, unless the folder stands elsewhere.
func mayZone() field[calendar.Calendar] {
	f := need("zone", "a time zone, when it is not the shop's", zone, in(func(c *calendar.Calendar) **time.Location { return &c.Zone }))
	f.needed = false
	f.write = func(w *writing, c *calendar.Calendar) *yamlNode {
		if c.Zone == nil || c.Zone.String() == w.zone.String() {
			return nil
		}
		return zone.write(w, c.Zone)
	}
	return f
}

var spans = text("times such as 06:00-09:00, 09:15-14:00, or closed", schema{"type": "string"},
	func(_ *reading, t string) ([]calendar.Span, error) { return calendar.ParseSpans(t) },
	func(_ *writing, v []calendar.Span) string { return calendar.FormatSpans(v) })

// week is the spans of the days of the week; days of the same spans stand together.
func week() field[calendar.Calendar] {
	return field[calendar.Calendar]{
		name: "week", about: "the times of the days of the week: mon, or mon-fri", says: "days with their times",
		told:   schema{"type": "object", "additionalProperties": spans.told},
		absent: func(*calendar.Calendar) {},
		read:   readWeek,
		write:  writeWeek,
	}
}

func readWeek(s spot, into *calendar.Calendar) {
	found, _ := s.pairs("days and their times, such as mon-fri: 06:00-14:00")
	var said [7]string
	for _, p := range found {
		days, err := calendar.ParseDays(p.name)
		if err != nil {
			p.spot.refuseErr(err)
			continue
		}
		v, _ := spans.read(p.spot)
		for _, d := range days {
			s.marks[s.path+"["+strconv.Itoa(int(d))+"]"] = mark{p.spot.node.Line, p.spot.node.Column}
			if said[d] != "" {
				p.spot.refuse(CodeTwice, d.String()+" is in "+quoted(said[d])+" too", "name each day once")
			}
			said[d], into.Week[d] = p.name, v
		}
	}
}

// weekOrder is the order in which people read a week.
var weekOrder = []time.Weekday{time.Monday, time.Tuesday, time.Wednesday, time.Thursday, time.Friday, time.Saturday, time.Sunday}

func writeWeek(w *writing, c *calendar.Calendar) *yamlNode {
	n := &yamlNode{Kind: yaml.MappingNode}
	for i := 0; i < len(weekOrder); {
		last := i
		for last+1 < len(weekOrder) && slices.Equal(c.Week[weekOrder[last+1]], c.Week[weekOrder[i]]) {
			last++
		}
		if len(c.Week[weekOrder[i]]) > 0 {
			name := shortDay(weekOrder[i])
			if last > i {
				name += "-" + shortDay(weekOrder[last])
			}
			n.Content = append(n.Content, scalar(name), spans.write(w, c.Week[weekOrder[i]]))
		}
		i = last + 1
	}
	if len(n.Content) == 0 {
		return nil
	}
	return n
}

func shortDay(d time.Weekday) string {
	return [...]string{"sun", "mon", "tue", "wed", "thu", "fri", "sat"}[d]
}

// exceptions is the dates that differ from the week.
func exceptions() field[calendar.Calendar] {
	return field[calendar.Calendar]{
		name: "days", about: "dates that differ: times, or closed", says: "dates with their times",
		told:   schema{"type": "object", "additionalProperties": spans.told},
		absent: func(*calendar.Calendar) {},
		read: func(s spot, into *calendar.Calendar) {
			found, _ := s.pairs("dates and their times, such as 2026-12-24: closed")
			into.Days = map[string][]calendar.Span{}
			for _, p := range found {
				into.Days[p.name], _ = spans.read(s.at(s.path+"["+p.name+"]", p.spot.node))
			}
		},
		write: func(w *writing, c *calendar.Calendar) *yamlNode {
			n := &yamlNode{Kind: yaml.MappingNode}
			for _, date := range sortedKeys(c.Days) {
				n.Content = append(n.Content, scalar(date), spans.write(w, c.Days[date]))
			}
			if len(n.Content) == 0 {
				return nil
			}
			return n
		},
	}
}

// guidePlaces is the place of the guide of each unit, by the number of the unit.
var guidePlaces = shape[[]shop.Guide]{
	says: "units with places, such as {1: 305, 2: 250}",
	told: schema{"type": "object", "additionalProperties": length.told},
	read: func(s spot) (out []shop.Guide, ok bool) {
		found, ok := s.pairs("units and places, such as {1: 305, 2: 250}")
		for i, p := range found {
			place := s.item(i, p.spot.node)
			unit, err := parseCount(p.name)
			if err != nil {
				place.refuseErr(err)
				ok = false
			}
			at, good := length.read(place)
			ok = ok && good
			out = append(out, shop.Guide{Unit: unit, At: at})
		}
		return out, ok
	},
	write: func(w *writing, all []shop.Guide) *yamlNode {
		n := &yamlNode{Kind: yaml.MappingNode, Style: yaml.FlowStyle}
		for _, g := range all {
			n.Content = append(n.Content, scalar(strconv.Itoa(g.Unit)), length.write(w, g.At))
		}
		return n
	},
}

// neededGroup is a group that must be there.
func neededGroup[T, V any](name, about string, of record[V], place func(*T) *V) field[T] {
	f := group(name, about, of, place)
	f.needed = true
	return f
}
