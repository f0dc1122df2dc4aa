package ui

import (
	"strconv"
	"time"

	"foldwright/internal/plan"
	"foldwright/internal/words"
)

// dayFigures is what an order comes to, beside others: one column a figure, one row a comparison.
type dayFigures struct {
	Heads []words.Text
	Rows  []figureRow
}

// figureRow is one line of it.
type figureRow struct {
	Name  words.Text
	Cells []figureCell
	Main  bool // of the order itself; the others tell differences
}

// figureCell is a figure, or by how much it differs; less is better in all of them.
type figureCell struct {
	Text   words.Text
	Better bool
	Worse  bool
}

// measures are the figures of a day, as numbers of what they count: jobs first, then times.
func measures(d *plan.Day) []time.Duration {
	f := d.Figures
	return []time.Duration{time.Duration(len(d.Unplaced)), time.Duration(f.LateJobs), f.LatePlain, f.Late, f.Makeready, f.Waiting, f.Bench, f.Cost}
}

// counted is how many of the measures count jobs.
const counted = 2

func measureHeads() []words.Text {
	return []words.Text{
		words.T("without a place"), words.T("late jobs"), words.T("late"), words.T("late, by docket weight"), words.T("make-ready"), words.T("waiting"), words.T("bench"), words.T("cost"),
	}
}

// figuresOf puts an order beside the one before it, nil when that is the order given or there is none, and the order given.
func figuresOf(is *plan.Plan, before *plan.Plan, given bool) dayFigures {
	out := dayFigures{Heads: measureHeads()}
	if given {
		out.Rows = []figureRow{{Name: words.T("order given"), Cells: plainCells(&is.Day), Main: true}}
		return out
	}
	out.Rows = append(out.Rows, figureRow{Name: words.T("this draft"), Cells: plainCells(&is.Day), Main: true})
	if before != nil {
		out.Rows = append(out.Rows, figureRow{Name: words.T("against the draft before"), Cells: differences(&before.Day, &is.Day)})
	}
	out.Rows = append(out.Rows, figureRow{Name: words.T("against the order given"), Cells: differences(&is.Given, &is.Day)})
	return out
}

func plainCells(d *plan.Day) []figureCell {
	var cells []figureCell
	for i, m := range measures(d) {
		text := words.T("%s", m.Round(time.Minute))
		if i < counted {
			text = words.Plain(strconv.Itoa(int(m)))
		}
		cells = append(cells, figureCell{Text: text})
	}
	return cells
}

// differences tells by how much each figure is more or less now.
func differences(was, is *plan.Day) []figureCell {
	before, now := measures(was), measures(is)
	cells := make([]figureCell, len(now))
	for i := range now {
		cells[i] = difference(now[i]-before[i], i < counted)
	}
	return cells
}

// difference is a figure with its sign; a count of jobs or minutes.
func difference(d time.Duration, count bool) figureCell {
	size, sign := d, "+"
	if d < 0 {
		size, sign = -d, "−"
	}
	var text words.Text
	switch {
	case d == 0, !count && size < leastTold:
		return figureCell{Text: words.T("the same")}
	case count:
		text = words.Plain(sign + strconv.Itoa(int(size)))
	default:
		text = words.T("%s%s", sign, size.Round(time.Second))
	}
	return figureCell{Text: text, Better: d < 0, Worse: d > 0}
}

// leastTold is the least difference that is told: half of a tenth of a minute.
const leastTold = 3 * time.Second

// stepSaid tells in a sentence what a move did to the draft before it: for those who hear the page.
func stepSaid(before, is *plan.Day) words.Text {
	heads := measureHeads()
	var said words.Joined
	for i, c := range differences(before, is) {
		if c.Better || c.Worse {
			said = append(said, words.T("%s %s", heads[i], c.Text))
		}
	}
	if len(said) == 0 {
		return words.T("Moved; no figure differs.")
	}
	return words.T("Moved: %s", said)
}
