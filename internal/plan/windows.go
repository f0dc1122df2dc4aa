package plan

import (
	"time"

	"foldwright/internal/calendar"
	"foldwright/internal/schedule"
)

// farthest is how far ahead calendars are read when the work does not fit sooner. A shop that needs longer has no plan
// for a day but a backlog, and the jobs that do not fit are told as such.
const farthest = 3 * 366 * 24 * time.Hour

// windows reads hours from the plan's start until it holds the needed working time, in whole seconds from the
// start. The span read doubles until it suffices, so that a short plan reads a short calendar.
func windows(h calendar.Hours, from time.Time, need time.Duration) []schedule.Window {
	for span := 14 * 24 * time.Hour; ; span *= 2 {
		span = min(span, farthest)
		out := seconds(h.Windows(from, from.Add(span)), from)
		if span == farthest || worth(out) >= schedule.Time(need/time.Second) {
			return out
		}
	}
}

// seconds turns windows into seconds from a start. A window that holds no whole second is left out.
func seconds(windows []calendar.Window, from time.Time) []schedule.Window {
	out := make([]schedule.Window, 0, len(windows))
	for _, w := range windows {
		s := schedule.Window{
			From: schedule.Time((w.From.Sub(from) + time.Second - 1) / time.Second),
			To:   schedule.Time(w.To.Sub(from) / time.Second),
		}
		s.From = max(s.From, 0)
		if s.From < s.To {
			out = append(out, s)
		}
	}
	return out
}

// worth is the working time the windows hold.
func worth(windows []schedule.Window) schedule.Time {
	var sum schedule.Time
	for _, w := range windows {
		sum += w.To - w.From
	}
	return sum
}
