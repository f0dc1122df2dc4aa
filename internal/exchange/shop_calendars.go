package exchange

import (
	"slices"
	"strconv"
	"time"

	"go.yaml.in/yaml/v4"

	"foldwright/internal/calendar"
)

// mayZone is the zone of a calendar: the shop's, unless the folder stands elsewhere.
func mayZone() field[calendar.Calendar] {
	f := need("zone", "a time zone, when it is not the shop's", zone, in(func(c *calendar.Calendar) **time.Location { return &c.Zone }))
	f.needed = false
	f.write = func(w *writing, c *calendar.Calendar) *yaml.Node {
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
		name: "week", about: "the times of the days of the week: mon, or mon-fri",
		Value:  Value{Form: FormTable, Says: "days with their times", Each: &spans.Value},
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

func writeWeek(w *writing, c *calendar.Calendar) *yaml.Node {
	n := &yaml.Node{Kind: yaml.MappingNode}
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
		name: "days", about: "dates that differ: times, or closed",
		Value:  Value{Form: FormTable, Says: "dates with their times", Each: &spans.Value},
		told:   schema{"type": "object", "additionalProperties": spans.told},
		absent: func(*calendar.Calendar) {},
		read: func(s spot, into *calendar.Calendar) {
			found, _ := s.pairs("dates and their times, such as 2026-12-24: closed")
			into.Days = map[string][]calendar.Span{}
			for _, p := range found {
				into.Days[p.name], _ = spans.read(s.at(s.path+"["+p.name+"]", p.spot.node))
			}
		},
		write: func(w *writing, c *calendar.Calendar) *yaml.Node {
			n := &yaml.Node{Kind: yaml.MappingNode}
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
