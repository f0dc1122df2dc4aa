package words

import "time"

// Clock is a moment within a week, said with its day: Mon 22:00.
type Clock time.Time

var weekdays = [...]Text{T("Sun"), T("Mon"), T("Tue"), T("Wed"), T("Thu"), T("Fri"), T("Sat")}

// Clock says a moment within a week.
func (s *Speaker) Clock(t time.Time) string {
	return s.Text(weekdays[t.Weekday()]) + t.Format(" 15:04")
}
