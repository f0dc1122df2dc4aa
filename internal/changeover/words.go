package changeover

import (
	"time"

	"foldwright/internal/words"
)

// Lines explains the change.
func (c Change) Lines(std *Standards) []Line {
	var list []Line
	add := func(what, why words.Text, t time.Duration) {
		if t > 0 {
			list = append(list, Line{what, why, t})
		}
	}
	add(words.T("docket"), c.docketWords(), std.Docket)
	if c.Sheet {
		add(words.T("sheet"), c.sheetWords(), std.Sheet)
	}
	if c.Stock {
		add(words.T("stock"), c.stockWords(), std.Stock)
	}
	add(words.T("units"), c.unitWords(), c.unitTime(std))
	add(words.T("plates"), c.stopWords(), c.stopTime(std))
	add(words.T("gaps"), words.Count(c.Gaps, "%d nip set", "%d nips set"), times(c.Gaps, std.Gap))
	add(words.T("trial"), words.Count(c.Folds, "trial sheets, %d fold to check", "trial sheets, %d folds to check"), c.trialTime(std))
	return list
}

func (c Change) docketWords() words.Text {
	switch {
	case c.Anew:
		return words.T("docket change; how the folder is set is not known, so all is set anew")
	case c.Same():
		return words.T("docket change; nothing else differs")
	default:
		return words.T("docket change")
	}
}

func (c Change) sheetWords() words.Text {
	if c.Anew {
		return c.To.size()
	}
	return words.T("%s before, %s now", c.From.size(), c.To.size())
}

func (s Sheet) size() words.Text { return words.T("%s × %s", words.Bare(s.Length), s.Width) }

func (c Change) stockWords() words.Text {
	now := words.Micron(c.To.Caliper)
	if c.Anew {
		return words.T("%s thick", now)
	}
	return words.T("%s thick before, %s now", words.Micron(c.From.Caliper), now)
}

func (c Change) unitWords() words.Text {
	var parts words.Joined
	add := func(numbers []int, one, many string) {
		switch len(numbers) {
		case 0:
		case 1:
			parts = append(parts, words.T(one, numbers[0]))
		default:
			parts = append(parts, words.T(many, words.Numbers(numbers)))
		}
	}
	add(c.Coupled, "unit %d coupled", "units %s coupled")
	add(c.Uncoupled, "unit %d uncoupled", "units %s uncoupled")
	add(c.Turned, "unit %d entered another way", "units %s entered another way")
	return words.T("%s", parts)
}

func (c Change) stopWords() words.Text {
	var parts words.Joined
	add := func(n int, one, many string) {
		if n > 0 {
			parts = append(parts, words.Count(n, one, many))
		}
	}
	add(c.Stops, "%d stop set", "%d stops set")
	add(c.Opened, "%d plate opened", "%d plates opened")
	add(c.Closed, "%d plate closed", "%d plates closed")
	return words.T("%s", parts)
}
