package fold

import (
	"fmt"
	"regexp"
	"strconv"
	"strings"

	"foldwright/internal/fault"
)

// The named styles. Each stands for exact steps on the piece as it lies; "down" after the name swaps up and down in all
// of them. The allowance is the amount by which an inner panel is shorter.
//
//	letter [inner 2 mm]              three panels, the trailing one inside and short
//	zigzag 4                         so many equal panels, to and fro
//	roll 4 [steps 2.4 mm and 1.6 mm] two full panels, then each shorter by the next step; the last step repeats
//	gate [gap 3 mm]                  two flaps that leave the gap between them
//	closed gate [gap 3 mm]           the same, halved once more with the flaps inside
//	double parallel [inner 0.5 mm]   halved twice; the innermost quarter short
//	halves 3                         halved so many times, with a left turn before each but the first
var styleItem = regexp.MustCompile(`^(letter|zigzag|roll|gate|closed gate|double parallel|halves)(?: (\d{1,3}))?(?: (up|down))?(?: (inner|gap|steps) (.+))?$`)

const styleIs = "up, down, left, right or a style: letter, zigzag 3, roll 4, gate, closed gate, double parallel, halves 3"

// allowanceWord is the word that brings in the allowance of a style; halves and zigzag have none.
func allowanceWord(name string) string {
	switch name {
	case "letter", "double parallel":
		return "inner"
	case "gate", "closed gate":
		return "gap"
	case "roll":
		return "steps"
	}
	return ""
}

func counted(name string) bool { return name == "zigzag" || name == "roll" || name == "halves" }

// style expands a named style on the piece as it lies.
func (p *reader) style(item string) ([]Step, error) {
	m := styleItem.FindStringSubmatch(item)
	if m == nil {
		return nil, bad(codeNotation, "", fmt.Sprintf("%.60q is neither a fold, a turn nor a style", item), styleIs)
	}
	name, word := m[1], m[4]
	count, err := styleCount(name, m[2])
	if err != nil {
		return nil, err
	}
	if word != "" && word != allowanceWord(name) {
		return nil, bad(codeNotation, "", fmt.Sprintf("%s takes no %q", name, word), styleExample(name))
	}
	allowances, err := p.allowances(m[5])
	if err != nil {
		return nil, err
	}
	if len(allowances) > 1 && word != "steps" || len(allowances) > max(count-2, 1) {
		return nil, bad(codeNotation, "", fmt.Sprintf("%d allowances for a %s", len(allowances), name), styleExample(name))
	}
	now, across := p.extent[p.axis], p.extent[other(p.axis)]
	if !now.known || name == "halves" && !across.known {
		return nil, bad(codeNotation, "", "a style after a fold given as a length", "the steps written out, or that fold as a share")
	}
	var steps []Step
	if name == "halves" {
		steps = halves(count, now.length, across.length)
	} else {
		steps = expand(name, count, now.length, allowances)
	}
	if m[3] == "down" {
		swap(steps)
	}
	return steps, nil
}

func styleCount(name, digits string) (int, error) {
	if counted(name) != (digits != "") {
		return 0, bad(codeNotation, "", "wrong number of panels for "+name, styleExample(name))
	}
	if digits == "" {
		return 0, nil
	}
	n, _ := strconv.Atoi(digits) // one to three digits
	least, most := 2, maxFolds+1
	switch name {
	case "roll":
		least = 3
	case "halves":
		least, most = 1, 10
	}
	if n < least || n > most {
		return 0, bad(codeNotation, "", fmt.Sprintf("%s %d", name, n), fmt.Sprintf("%s %d to %s %d", name, least, name, most))
	}
	return n, nil
}

func styleExample(name string) string {
	example := name
	if counted(name) {
		example += " 4"
	}
	switch allowanceWord(name) {
	case "inner":
		example += " inner 2 mm"
	case "gap":
		example += " gap 3 mm"
	case "steps":
		example += " steps 2.4 mm and 1.6 mm"
	}
	return "such as: " + example
}

// allowances reads "2.4 mm and 1.6 mm".
func (p *reader) allowances(text string) ([]Ratio, error) {
	if text == "" {
		return nil, nil
	}
	var list []Ratio
	var faults fault.List
	for part := range strings.SplitSeq(text, " and ") {
		r, err := exactLength(strings.TrimSpace(part), p.bare)
		if err != nil {
			faults = append(faults, fault.All(err)...)
		}
		list = append(list, r)
	}
	return list, faults.Err()
}

func expand(name string, count int, length Ratio, allowances []Ratio) []Step {
	var a Ratio
	if len(allowances) > 0 {
		a = allowances[0]
	}
	// f is a depth of num/den of the piece and num/den of the allowance.
	f := func(op Op, share, allowance Ratio) Step {
		return Step{Op: op, Depth: Depth{Share: length.mul(share), Plus: a.mul(allowance)}}
	}
	switch name {
	case "letter": // 3f − a = L, so f = L/3 + a/3; the first fold is after two full panels
		return []Step{f(Up, Ratio{2, 3}, Ratio{2, 3}), f(Down, Ratio{1, 3}, Ratio{1, 3})}
	case "gate": // the flaps have (L − gap)/4; the middle, now leading, has (L + gap)/2
		return []Step{f(Up, Ratio{1, 4}, Ratio{-1, 4}), f(Up, Ratio{1, 2}, Ratio{1, 2})}
	case "closed gate": // the flaps lie below after the second fold, so the third goes down to shut them in
		return append(expand("gate", 0, length, allowances), f(Down, Ratio{1, 4}, Ratio{1, 4}))
	case "double parallel": // 4f − a = L, so f = L/4 + a/4
		return []Step{f(Up, Ratio{1, 2}, Ratio{1, 2}), f(Down, Ratio{1, 4}, Ratio{1, 4})}
	case "zigzag":
		return zigzag(count, length)
	default:
		return roll(count, length, allowances)
	}
}

func zigzag(panels int, length Ratio) []Step {
	var steps []Step
	for i := range panels - 1 {
		op := Up
		if i%2 == 1 {
			op = Down
		}
		steps = append(steps, Step{Op: op, Depth: Depth{Share: length.mul(Ratio{1, int64(panels)})}})
	}
	return steps
}

// roll gives the first fold after all panels but the innermost, which trails; the others are then rolled in from the
// inside outwards. A panel is short by the sum of the steps up to it; all shortages together are shared out so that the
// panels fill the sheet.
func roll(panels int, length Ratio, allowances []Ratio) []Step {
	n := int64(panels)
	short := make([]Ratio, panels) // by how much panel i is shorter than the two full ones
	var total Ratio
	for i := 2; i < panels && len(allowances) > 0; i++ {
		short[i] = short[i-1].add(allowances[min(i-2, len(allowances)-1)])
		total = total.add(short[i])
	}
	plus := func(i int) Ratio { return total.mul(Ratio{1, n}).sub(short[i]) }
	panel := func(i int) Depth { return Depth{Share: length.mul(Ratio{1, n}), Plus: plus(i)} }
	last := plus(panels - 1)
	steps := []Step{{Op: Up, Depth: Depth{Share: length.mul(Ratio{n - 1, n}), Plus: Ratio{-last.Num, last.norm().Den}}}}
	for i := panels - 2; i >= 1; i-- {
		steps = append(steps, Step{Op: Down, Depth: panel(i)})
	}
	return steps
}

func halves(times int, length, across Ratio) []Step {
	extent := [2]Ratio{length, across}
	var steps []Step
	for i := range times {
		if i > 0 {
			steps = append(steps, Step{Op: Left})
		}
		e := &extent[i%2]
		*e = e.mul(Ratio{1, 2})
		steps = append(steps, Step{Op: Up, Depth: Depth{Share: *e}})
	}
	return steps
}

// swap turns up into down and down into up.
func swap(steps []Step) {
	for i, st := range steps {
		switch st.Op {
		case Up:
			steps[i].Op = Down
		case Down:
			steps[i].Op = Up
		}
	}
}
