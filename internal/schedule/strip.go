package schedule

// stripBefore says whether the set of build a should be stripped rather than that of build b, whose patterns are next
// needed at the given instants: keep the tool needed soonest, hence strip the one needed last. A build that is ready
// by start goes before one that is not; of two that are not, the earlier one; draws go to the lesser work.
func stripBefore(a Build, needA Time, b Build, needB Time, start Time) bool {
	inTimeA, inTimeB := a.End <= start, b.End <= start
	switch {
	case inTimeA != inTimeB:
		return inTimeA
	case !inTimeA && a.End != b.End:
		return a.End < b.End
	case needA != needB:
		return needA > needB
	default:
		return a.Work < b.Work
	}
}
