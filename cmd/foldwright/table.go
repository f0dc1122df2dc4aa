package main

import (
	"fmt"
	"io"
	"strings"

	"charm.land/lipgloss/v2"
)

// table is a block of aligned columns. Widths are counted in cells of the terminal, so wide letters line up too.
// Colour and weight only repeat what words and places already say; where the output is no terminal there are none.
type table struct {
	columns []column
	rows    [][]string
}

// column is one column: its head and the side its cells stand on.
type column struct {
	head  string
	right bool
}

// words makes a column of text, figures a column of numbers.
func words(head string) column   { return column{head: head} }
func figures(head string) column { return column{head: head, right: true} }

func newTable(columns ...column) *table { return &table{columns: columns} }

// row adds a row; missing cells are empty.
func (t *table) row(cells ...string) { t.rows = append(t.rows, cells) }

// write prints heads and rows, two spaces between columns, nothing at the end of a line.
func (t *table) write(s streams) {
	widths := t.widths()
	heads := make([]string, len(t.columns))
	for i, c := range t.columns {
		heads[i] = c.head
	}
	if strings.Join(heads, "") != "" {
		fmt.Fprintln(s.out, s.faint(t.line(heads, widths)))
	}
	for _, cells := range t.rows {
		fmt.Fprintln(s.out, t.line(cells, widths))
	}
}

func (t *table) widths() []int {
	widths := make([]int, len(t.columns))
	for i, c := range t.columns {
		widths[i] = lipgloss.Width(c.head)
	}
	for _, cells := range t.rows {
		for i, cell := range cells {
			widths[i] = max(widths[i], lipgloss.Width(cell))
		}
	}
	return widths
}

func (t *table) line(cells []string, widths []int) string {
	var b strings.Builder
	for i, c := range t.columns {
		cell := ""
		if i < len(cells) {
			cell = cells[i]
		}
		pad := strings.Repeat(" ", widths[i]-lipgloss.Width(cell))
		if i > 0 {
			b.WriteString("  ")
		}
		if c.right {
			b.WriteString(pad + cell)
		} else {
			b.WriteString(cell + pad)
		}
	}
	return strings.TrimRight(b.String(), " ")
}

// title prints a heading with a blank line above it, unless it is the first thing printed.
func (s streams) title(format string, args ...any) {
	fmt.Fprintln(s.out, s.bold(fmt.Sprintf(format, args...)))
}

// say prints one line.
func (s streams) say(format string, args ...any) { fmt.Fprintf(s.out, format+"\n", args...) }

// gap prints an empty line.
func (s streams) gap() { io.WriteString(s.out, "\n") }

func (s streams) bold(text string) string {
	return s.style(text, lipgloss.NewStyle().Bold(true))
}

func (s streams) faint(text string) string {
	return s.style(text, lipgloss.NewStyle().Faint(true))
}

// warn marks text that asks for attention; the words must do so by themselves.
func (s streams) warn(text string) string {
	return s.style(text, lipgloss.NewStyle().Foreground(lipgloss.Yellow))
}

func (s streams) style(text string, style lipgloss.Style) string {
	if !s.colour || text == "" {
		return text
	}
	return style.Render(text)
}
