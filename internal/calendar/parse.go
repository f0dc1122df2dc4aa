package calendar

import (
	"fmt"
	"regexp"
	"strconv"
	"strings"

	"foldwright/internal/fault"
)

// The codes of what can be wrong with working times.
const (
	CodeSpan    fault.Code = "span"         // not understood
	CodeOverlap fault.Code = "span-overlap" // two spans of a day share a minute
	CodeDate    fault.Code = "calendar-date"
	CodeZone    fault.Code = "calendar-zone"
	CodeEmpty   fault.Code = "calendar-empty"
)

// written is a span as people write it; 24:00 is the midnight that ends a day.
var written = regexp.MustCompile(`^([01]?\d|2[0-4]):([0-5]\d) ?(?:-|–|to) ?([01]?\d|2[0-4]):([0-5]\d)$`)

// ParseSpans reads the spans of a day: "06:00-14:00", "06:00-09:00, 09:15-14:00", "22:00-06:00" (to the next morning),
// "00:00-24:00", "closed".
func ParseSpans(text string) ([]Span, error) {
	if word := strings.ToLower(strings.TrimSpace(text)); word == "closed" {
		return nil, nil
	}
	var spans []Span
	for piece := range strings.SplitSeq(text, ",") {
		s, ok := parseSpan(strings.Join(strings.Fields(piece), " "))
		if !ok {
			return nil, fault.Fault{
				Code: CodeSpan, Wrong: fmt.Sprintf("%.40q is no time from and to", strings.TrimSpace(piece)),
				Right: "write times such as 06:00-14:00, several with commas between them, or closed",
			}
		}
		spans = append(spans, s)
	}
	if f := overlap(spans); f != nil {
		return nil, *f
	}
	return spans, nil
}

// parseSpan reads one span. One that ends before its start ends on the next day; one that ends at its start might be all
// day or nothing, so it is refused.
func parseSpan(text string) (Span, bool) {
	m := written.FindStringSubmatch(text)
	if m == nil {
		return Span{}, false
	}
	from, to := clock(m[1], m[2]), clock(m[3], m[4])
	if from >= minutesADay || to > minutesADay || from == to {
		return Span{}, false
	}
	if to < from {
		to += minutesADay
	}
	return Span{from, to}, true
}

// clock gives the minutes after midnight of digits that are known to be digits.
func clock(hours, minutes string) int {
	h, _ := strconv.Atoi(hours)
	m, _ := strconv.Atoi(minutes)
	return 60*h + m
}

// FormatSpans writes spans so that [ParseSpans] reads the same ones back.
func FormatSpans(spans []Span) string {
	if len(spans) == 0 {
		return "closed"
	}
	pieces := make([]string, len(spans))
	for i, s := range spans {
		pieces[i] = s.String()
	}
	return strings.Join(pieces, ", ")
}

// String gives the span as 22:00-06:00.
func (s Span) String() string {
	to := s.To
	if to > minutesADay {
		to -= minutesADay
	}
	return fmt.Sprintf("%02d:%02d-%02d:%02d", s.From/60, s.From%60, to/60, to%60)
}
