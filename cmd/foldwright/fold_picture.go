package main

import (
	"fmt"
	"strings"

	"charm.land/lipgloss/v2"

	"foldwright/internal/fold"
)

// faces draws both faces of the flat sheet: with folios and the way their heads point, or, where there are no
// folios, with the layer of each panel.
func (p sheet) faces(f *fold.Folded) {
	front, back := facesOf(f)
	left, right := box(front), box(back)
	title := p.in("Front: leading edge left, t = 0 below")
	gap := strings.Repeat(" ", 4)
	width := max(lipgloss.Width(left[0]), lipgloss.Width(title))
	pad := func(text string) string { return text + strings.Repeat(" ", width-lipgloss.Width(text)) }
	p.say("%s%s%s", pad(title), gap, p.in("Back: turned over like a page"))
	for i := range left {
		p.say("%s%s%s", pad(left[i]), gap, right[i])
	}
	if f.Folios {
		p.say("%s", p.faint(p.in("The arrow points to the head of the page.")))
	} else {
		p.say("%s", p.faint(p.in("No folios, since the panels differ. The figure is the layer from the bottom; ▲ the face seen looks up when folded.")))
	}
}

// facesOf gives the cells of front and back, rows from the top.
func facesOf(f *fold.Folded) (front, back [][]string) {
	rows := 0
	for rows < len(f.Panels) && f.Panels[rows].S == f.Panels[0].S {
		rows++
	}
	columns := len(f.Panels) / rows
	front, back = make([][]string, rows), make([][]string, rows)
	for r := range rows {
		front[r], back[r] = make([]string, columns), make([]string, columns)
		for c := range columns {
			p := f.Panels[c*rows+rows-1-r]
			front[r][c], back[r][columns-1-c] = cell(f, p, true), cell(f, p, false)
		}
	}
	return front, back
}

func cell(f *fold.Folded, p fold.Panel, front bool) string {
	if !f.Folios {
		mark := "▼"
		if p.TopFaceUp == front {
			mark = "▲"
		}
		return fmt.Sprintf("%d %s", p.Layer, mark)
	}
	folio := p.BottomFolio
	if front {
		folio = p.TopFolio
	}
	arrow := map[fold.Head]string{fold.HeadTPlus: "↑", fold.HeadTMinus: "↓", fold.HeadSPlus: "→", fold.HeadSMinus: "←"}[p.Head]
	if !front { // turned over, s runs the other way
		arrow = map[string]string{"→": "←", "←": "→"}[arrow] + strings.Trim(arrow, "→←")
	}
	return fmt.Sprintf("%d %s", folio, arrow)
}

// box draws a grid of equal cells.
func box(cells [][]string) []string {
	width := 0
	for _, row := range cells {
		for _, text := range row {
			width = max(width, lipgloss.Width(text))
		}
	}
	rule := func(left, middle, right string) string {
		parts := make([]string, len(cells[0]))
		for i := range parts {
			parts[i] = strings.Repeat("─", width+2)
		}
		return left + strings.Join(parts, middle) + right
	}
	lines := []string{rule("┌", "┬", "┐")}
	for i, row := range cells {
		if i > 0 {
			lines = append(lines, rule("├", "┼", "┤"))
		}
		var b strings.Builder
		for _, text := range row {
			b.WriteString("│ " + strings.Repeat(" ", width-lipgloss.Width(text)) + text + " ")
		}
		lines = append(lines, b.String()+"│")
	}
	return append(lines, rule("└", "┴", "┘"))
}
