package main

import (
	"bytes"
	"strings"
	"testing"

	"charm.land/lipgloss/v2"
)

func tabled(colour bool, rows ...[]string) string {
	var out bytes.Buffer
	t := newTable(words("set"), figures("min"), words("tools"))
	for _, cells := range rows {
		t.row(cells...)
	}
	t.write(streams{out: &out, colour: colour})
	return out.String()
}

func TestTableAligns(t *testing.T) {
	got := tabled(false, []string{"W-04", "1.5", "plain"}, []string{"折り", "12", "slit"}, []string{"é", "3"})
	want := "" +
		"set   min  tools\n" +
		"W-04  1.5  plain\n" +
		"折り   12  slit\n" +
		"é       3\n"
	if got != want {
		t.Errorf("got\n%swant\n%s", got, want)
	}
}

// Colour may only repeat what the words say: without it the same letters stand in the same cells.
func TestTableColourAddsNothing(t *testing.T) {
	plain := tabled(false, []string{"W-04", "1.5", "plain"})
	coloured := tabled(true, []string{"W-04", "1.5", "plain"})
	if plain == coloured {
		t.Error("a terminal that can show weight gets none")
	}
	if strings.Contains(plain, "\x1b") {
		t.Error("escape codes where no terminal is")
	}
	for i, line := range strings.Split(coloured, "\n") {
		if lipgloss.Width(line) != lipgloss.Width(strings.Split(plain, "\n")[i]) {
			t.Errorf("line %d is of another width in colour: %q", i, line)
		}
	}
}
