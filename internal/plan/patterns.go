package plan

import (
	"fmt"
	"strings"

	"foldwright/internal/schedule"
	"foldwright/internal/tooling"
)

// patterns numbers classes, tool types and patterns for the problem, and keeps what the numbers stand for. Patterns with
// the same tools at the same places are one, so that a standing set and the job it was built for share a number.
type patterns struct {
	classes  map[string]int
	types    map[typeKey]int
	known    map[string]int
	patterns []tooling.Pattern
	counts   []schedule.Pattern
	byClass  [][]int // the pattern numbers of each class, ascending
}

// typeKey is a tool type on shafts of a class: a wheel for 30 mm does not go on 35 mm.
type typeKey struct {
	class string
	tooling.Type
}

// newPatterns numbers the classes and gives each its plain pattern.
func newPatterns(classes []tooling.Class) *patterns {
	p := &patterns{classes: map[string]int{}, types: map[typeKey]int{}, known: map[string]int{}}
	for i, c := range classes {
		p.classes[c.Name] = i
	}
	p.byClass = make([][]int, len(classes))
	for _, c := range classes {
		p.number(tooling.Pattern{Class: c.Name})
	}
	return p
}

// number returns the number of a pattern, a new one when it was not seen before.
func (p *patterns) number(t tooling.Pattern) int {
	key := patternKey(t)
	if n, ok := p.known[key]; ok {
		return n
	}
	n := len(p.patterns)
	class := p.classes[t.Class]
	p.known[key] = n
	p.patterns = append(p.patterns, t)
	p.counts = append(p.counts, schedule.Pattern{Class: class, Tools: p.count(t)})
	p.byClass[class] = append(p.byClass[class], n)
	return n
}

// count tells how many tools of each type a pattern takes, ascending by type.
func (p *patterns) count(t tooling.Pattern) []schedule.Count {
	var counts []schedule.Count
	for _, tool := range t.Tools {
		counts = addCount(counts, p.typeNumber(typeKey{t.Class, tool.Type}))
	}
	return counts
}

// addCount adds one tool of a type, keeping the counts ascending.
func addCount(counts []schedule.Count, typ int) []schedule.Count {
	at := 0
	for at < len(counts) && counts[at].Type < typ {
		at++
	}
	if at < len(counts) && counts[at].Type == typ {
		counts[at].N++
		return counts
	}
	counts = append(counts, schedule.Count{})
	copy(counts[at+1:], counts[at:])
	counts[at] = schedule.Count{Type: typ, N: 1}
	return counts
}

// typeNumber returns the number of a tool type, a new one when it was not seen before.
func (p *patterns) typeNumber(k typeKey) int {
	n, ok := p.types[k]
	if !ok {
		n = len(p.types)
		p.types[k] = n
	}
	return n
}

// patternKey is equal for two patterns exactly when class, types and places are.
func patternKey(t tooling.Pattern) string {
	var b strings.Builder
	fmt.Fprintf(&b, "%q", t.Class)
	for _, tool := range t.Tools {
		fmt.Fprintf(&b, " %q %q %d", tool.Kind, tool.Spec, tool.At)
	}
	return b.String()
}
