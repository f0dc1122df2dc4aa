package schedule

// shifts is working time made ready for asking: windows with the working seconds before each.
type shifts struct {
	windows []Window
	before  []Time
}

func newShifts(windows []Window) shifts {
	s := shifts{windows: windows, before: make([]Time, len(windows))}
	var sum Time
	for i, w := range windows {
		s.before[i] = sum
		sum += w.To - w.From
	}
	return s
}

// at is the first window that ends after t; len(windows) when there is none.
func (s *shifts) at(t Time) int {
	lo, hi := 0, len(s.windows)
	for lo < hi {
		mid := int(uint(lo+hi) / 2)
		if s.windows[mid].To > t {
			hi = mid
		} else {
			lo = mid + 1
		}
	}
	return lo
}

// next is the first working instant from t on; Forever when there is none.
func (s *shifts) next(t Time) Time {
	i := s.at(t)
	if i == len(s.windows) {
		return Forever
	}
	return max(t, s.windows[i].From)
}

// worked is the working seconds before t.
func (s *shifts) worked(t Time) Time {
	i := s.at(t)
	if i < len(s.windows) {
		return s.before[i] + max(0, t-s.windows[i].From)
	}
	if i == 0 {
		return 0
	}
	last := s.windows[i-1]
	return s.before[i-1] + last.To - last.From
}

// between is the working seconds from one instant to a later one.
func (s *shifts) between(from, to Time) Time { return s.worked(to) - s.worked(from) }

// finish is when work that begins at the working instant from is done: at the end of a window rather than at the start
// of the next. It is Forever when the windows do not hold the work.
func (s *shifts) finish(from, work Time) Time {
	for i := s.at(from); i < len(s.windows); i++ {
		w := s.windows[i]
		from = max(from, w.From)
		if work <= w.To-from {
			return from + work
		}
		work -= w.To - from
	}
	return Forever
}
