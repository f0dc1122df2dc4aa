package exchange

import (
	"regexp"
	"slices"
	"strconv"
	"strings"
	"time"

	"go.yaml.in/yaml/v4"

	"foldwright/internal/calendar"
	"foldwright/internal/fault"
)

// RowsByName names the rows of tables as the text of a thing names them. The check of a shop counts them (guides[1],
// and week[1] for the Monday); who typed guides: {2: 305} or mon-fri: 06:00-14:00 looks for guides.2 and week.mon-fri.
// The faults are those of a thing, as [FieldsWithin] tells them; [ReadThing] names rows so already.
func RowsByName(text []byte, found fault.List) fault.List {
	top, ok := newReading("").top(text, looksJSON(text))
	if !ok {
		return found
	}
	return rowsByName(top.node, found)
}

func rowsByName(top *yaml.Node, found fault.List) fault.List {
	named := slices.Clone(found)
	for i := range named {
		named[i].Field = rowByName(top, named[i].Field)
	}
	return named
}

// step is one step of a path: a field, or what stands in brackets.
var step = regexp.MustCompile(`[^.\[\]]+|\[[^\]]*\]`)

func rowByName(n *yaml.Node, path string) string {
	steps := step.FindAllString(path, -1)
	for i, s := range steps {
		inside, bracketed := strings.CutPrefix(strings.TrimSuffix(s, "]"), "[")
		switch {
		case n.Kind == yaml.MappingNode && bracketed:
			at := rowAt(n, inside, i > 0 && steps[i-1] == "week")
			if at < 0 {
				return path
			}
			steps[i], n = n.Content[at].Value, n.Content[at+1]
		case n.Kind == yaml.MappingNode:
			at := keyAt(n, s)
			if at < 0 {
				return path
			}
			n = n.Content[at+1]
		case n.Kind == yaml.SequenceNode && bracketed:
			k, err := strconv.Atoi(inside)
			if err != nil || k < 0 || k >= len(n.Content) {
				return path
			}
			n = n.Content[k]
		default:
			return path
		}
	}
	return strings.ReplaceAll(strings.Join(steps, "."), ".[", "[")
}

// rowAt finds a row by its number, its name or its day of the week.
func rowAt(n *yaml.Node, row string, week bool) int {
	number, err := strconv.Atoi(row)
	switch {
	case err != nil:
		return keyAt(n, row)
	case !week && number >= 0 && number < len(n.Content)/2:
		return 2 * number
	case !week:
		return -1
	}
	for at := 0; at+1 < len(n.Content); at += 2 {
		if days, err := calendar.ParseDays(n.Content[at].Value); err == nil && slices.Contains(days, time.Weekday(number)) {
			return at
		}
	}
	return -1
}

func keyAt(n *yaml.Node, name string) int {
	for at := 0; at+1 < len(n.Content); at += 2 {
		if n.Content[at].Value == name {
			return at
		}
	}
	return -1
}
