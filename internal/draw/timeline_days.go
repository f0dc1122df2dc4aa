package draw

import (
	"time"

	"foldwright/internal/calendar"
	"foldwright/internal/plan"
	"foldwright/internal/shop"
)

// daySpan is the part of a calendar day that the page shows, whole hours.
type daySpan struct{ from, to time.Time }

// workedDays lists the days on which anything happens, each from the hour of its first to the hour of its last event.
func workedDays(pl *plan.Plan, s *shop.Shop) []daySpan {
	var list []daySpan
	for day := midnight(pl.From.In(pl.Zone)); day.Before(pl.Figures.End); day = nextDay(day) {
		first, last := time.Time{}, time.Time{}
		for _, iv := range intervals(pl, s) {
			if from, to := calendar.Later(iv.From, day), calendar.Earlier(iv.To, nextDay(day)); from.Before(to) {
				if first.IsZero() || from.Before(first) {
					first = from
				}
				last = calendar.Later(last, to)
			}
		}
		if !first.IsZero() {
			list = append(list, daySpan{wholeHour(first, day), wholeHour(last.Add(time.Hour-1), day)})
		}
	}
	return list
}

// intervals is when anything happens, breaks and nights left out.
func intervals(pl *plan.Plan, s *shop.Shop) []calendar.Window {
	var list []calendar.Window
	for _, f := range pl.Folders {
		hours, _ := s.FolderHours(f.Name)
		for _, t := range f.Tasks {
			list = append(list, worked(hours, t.MakereadyStart, t.RunEnd)...)
		}
	}
	for _, b := range pl.Day.Bench {
		list = append(list, calendar.Window{From: b.Start, To: b.End})
	}
	return list
}

// worked is the working time between two instants.
func worked(h calendar.Hours, from, to time.Time) []calendar.Window {
	if !from.Before(to) {
		return nil
	}
	return h.Windows(from, to)
}

func midnight(t time.Time) time.Time {
	y, m, d := t.Date()
	return time.Date(y, m, d, 0, 0, 0, 0, t.Location())
}

func nextDay(t time.Time) time.Time { return midnight(t.Add(36 * time.Hour)) } // whatever daylight saving does

func wholeHour(t, day time.Time) time.Time { return day.Add(t.Sub(day).Truncate(time.Hour)) }
