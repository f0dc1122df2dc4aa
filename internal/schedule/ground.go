package schedule

// newGround finds the ground for a problem; nil when it needs the decoder.
func newGround(m *model) ground {
	if !m.simple() {
		return nil
	}
	one, ordered, late := len(m.Machines) == 1, len(m.Precedences) > 0, m.late()
	switch {
	case !one && !ordered && !late && m.Racks == nil && m.Closing == nil && m.Weights.Setup == 0 && m.Weights.Makespan > 0:
		return newSpread(m)
	case one && m.Racks == nil && !late:
		return newTour(m)
	case one && m.Racks == nil && !ordered && m.Closing == nil:
		return newTardiness(m)
	case one && !ordered && !late && m.Racks[0].Places > 0:
		return newRackful(m)
	}
	return nil
}

// simple says whether jobs follow one another without a wait: no tooling, nothing fixed, no releases, work without end.
func (m *model) simple() bool {
	for i := range m.Machines {
		x := &m.Machines[i]
		if len(x.Fixed) > 0 || len(x.Windows) != 1 || x.Windows[0] != (Window{0, Forever}) {
			return false
		}
	}
	for j := range m.Jobs {
		if m.Jobs[j].Release > 0 {
			return false
		}
	}
	return m.Tools == nil && m.jobs > 1
}

// late says whether lateness can cost anything.
func (m *model) late() bool {
	for j := range m.Jobs {
		if m.Jobs[j].Weight > 0 && m.Jobs[j].Due < Forever {
			return m.Weights.Late > 0
		}
	}
	return false
}
