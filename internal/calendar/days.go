package calendar

import (
	"fmt"
	"strings"
	"time"

	"foldwright/internal/fault"
)

// CodeDay is the code of what is no day of the week.
const CodeDay fault.Code = "weekday"

// ParseDay reads a day of the week: "monday", "mon".
func ParseDay(text string) (time.Weekday, error) {
	word := strings.ToLower(strings.TrimSpace(text))
	for d := time.Sunday; d <= time.Saturday; d++ {
		if name := strings.ToLower(d.String()); word == name || word == name[:3] {
			return d, nil
		}
	}
	return 0, fault.Fault{Code: CodeDay, Wrong: fmt.Sprintf("%.40q is no day of the week", text), Right: "write mon, tue, wed, thu, fri, sat or sun"}
}

// ParseDays reads days of the week: "mon", "mon-fri", "mon, wed, fri". A row of days may run over the weekend.
func ParseDays(text string) ([]time.Weekday, error) {
	var days []time.Weekday
	for piece := range strings.SplitSeq(text, ",") {
		first, last, isRow := strings.Cut(piece, "-")
		from, err := ParseDay(first)
		if err != nil {
			return nil, err
		}
		to := from
		if isRow {
			if to, err = ParseDay(last); err != nil {
				return nil, err
			}
		}
		for d := from; ; d = (d + 1) % 7 {
			days = append(days, d)
			if d == to {
				break
			}
		}
	}
	return days, nil
}
