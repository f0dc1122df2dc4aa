package exchange

import (
	"fmt"
	"regexp"
	"strings"
	"testing"
)

const handbook = "../../docs/shop-file.md"

// The tables of the handbook are those of the program.
func TestHandbookTellsEveryField(t *testing.T) {
	tables := map[string]string{
		"shop": headOf(rowsOf(shopFields)), "calendars": rowsOf(calendarFields), "classes": rowsOf(classFields), "tools": rowsOf(toolFields),
		"sets": rowsOf(setFields), "folders": rowsOf(folderFields), "feeder": rowsOf(feederFields), "units": rowsOf(unitFields),
		"guide": rowsOf(guideFields), "stations": rowsOf(stationFields), "present": rowsOf(stateFields), "bench": rowsOf(personFields),
		"stocks": rowsOf(stockFields), "jobs": rowsOf(docketFields), "choices": rowsOf(choiceFields), "pin": rowsOf(pinFields), "trims": rowsOf(trimFields),
		"standards": rowsOf(standardFields), "weights": rowsOf(weightFields), "house": rowsOf(houseFields), "usual": rowsOf(usualFields),
		"rings": rowsOf(ringFields), "advice": rowsOf(adviceFields), "spread": rowsOf(spreadFields),
	}
	told := map[string]bool{}
	text := string(read(t, handbook))
	got := regexp.MustCompile(`(?s)(<!-- fields: (\w+) -->\n).*?(<!-- end -->)`).ReplaceAllStringFunc(text, func(part string) string {
		name, _, _ := strings.Cut(strings.TrimPrefix(part, "<!-- fields: "), " ")
		told[name] = true
		return "<!-- fields: " + name + " -->\n" + tables[name] + "<!-- end -->"
	})
	for name := range tables {
		if !told[name] {
			t.Errorf("the handbook has no table of %s", name)
		}
	}
	if *update {
		write(t, handbook, []byte(got))
		return
	}
	diffLines(t, got, text)
}

// rowsOf is a record as a table.
func rowsOf[T any](r record[T]) string {
	var b strings.Builder
	b.WriteString("\n| field | | what | written |\n|---|---|---|---|\n")
	for _, f := range r.fields {
		need := ""
		if f.needed {
			need = "needed"
		}
		about := f.about
		if f.usual != "" {
			about += "; without it: " + f.usual
		}
		fmt.Fprintf(&b, "| `%s` | %s | %s | %s |\n", f.name, need, about, f.Says)
	}
	return b.String() + "\n"
}

// headOf leaves out the sections, which have tables of their own.
func headOf(table string) string {
	lines := strings.Split(table, "\n")
	const head = 7 // an empty line, two of the table, shop, zone, now, units
	return strings.Join(lines[:head], "\n") + "\n\n"
}
