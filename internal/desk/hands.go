package desk

import (
	"fmt"
	"slices"
	"strings"

	"foldwright/internal/fault"
	"foldwright/internal/ledger"
	"foldwright/internal/shop"
	"foldwright/internal/tooling"
)

// The codes of what cannot be done to a set.
const (
	CodeToolsLacking fault.Code = "tools-lacking"
	CodeSetMounted   fault.Code = "set-mounted"
)

// hands move sets and change what stands on them, in a copy of the rack; edits tells what came of it.
type hands struct {
	now   *ledger.Snapshot
	sets  []tooling.Set
	tools []shop.ToolStock
	// what was touched, by number
	otherSets, otherTools []bool
}

func newHands(now *ledger.Snapshot) *hands {
	s := now.Shop
	return &hands{
		now: now, sets: slices.Clone(s.Sets), tools: slices.Clone(s.Tools),
		otherSets: make([]bool, len(s.Sets)), otherTools: make([]bool, len(s.Tools)),
	}
}

// set is the number of the set with a label.
func (h *hands) set(label string) (int, error) {
	i := slices.IndexFunc(h.sets, func(s tooling.Set) bool { return s.Label == label })
	if i < 0 {
		return 0, unknown("set", label, h.now.Shop.SetLabels())
	}
	return i, nil
}

// move brings a set to a place. A set that stands in that station goes to the slot that the new one leaves, or onto the
// bench when it leaves none.
func (h *hands) move(i int, to tooling.Place) {
	from := h.sets[i].Place
	if from == to {
		return
	}
	if to.Station != "" {
		for k := range h.sets {
			if h.sets[k].Place == to {
				h.sets[k].Place, h.otherSets[k] = left(from), true
			}
		}
	}
	h.sets[i].Place, h.otherSets[i] = to, true
}

// left is where a displaced set goes when the one that displaces it comes from a place.
func left(from tooling.Place) tooling.Place {
	if from.Slot != "" {
		return tooling.Place{Slot: from.Slot}
	}
	return tooling.Place{Bench: true}
}

// refit puts other tools on a set. What it takes is counted off the loose tools, what comes off is counted in.
func (h *hands) refit(i int, want []tooling.Tool) error {
	set := &h.sets[i]
	more := map[tooling.Type]int{}
	for _, t := range set.Tools {
		more[t.Type]++
	}
	for _, t := range want {
		more[t.Type]--
	}
	var lacking fault.List
	for k := range h.tools {
		t := &h.tools[k]
		if n := more[t.Type]; n != 0 && t.Class == set.Class {
			if t.Loose+n < 0 {
				lacking.Add(h.lacking(set.Label, t, -n))
			}
			t.Loose, h.otherTools[k] = t.Loose+n, true
		}
	}
	set.Tools, h.otherSets[i] = slices.Clone(want), true
	return lacking.Err()
}

// lacking is the fault of too few loose tools; it names the sets off the folders that carry some.
func (h *hands) lacking(label string, t *shop.ToolStock, needs int) fault.Fault {
	const most = 4
	f := fault.Fault{
		Kind: fault.No, Code: CodeToolsLacking, Field: "set " + label, Right: "strip another set first, or count the loose tools anew",
		Wrong: fmt.Sprintf("%s takes %d more %s for %s, and %d lie loose", label, needs, t.Type, t.Class, t.Loose),
	}
	var carry []string
	for _, s := range h.sets {
		has := slices.ContainsFunc(s.Tools, func(o tooling.Tool) bool { return o.Type == t.Type })
		if has && s.Class == t.Class && s.Label != label && s.Place.Folder == "" && len(carry) < most {
			carry = append(carry, s.Label)
		}
	}
	if len(carry) > 0 {
		f.Right = "strip one that carries such tools first: " + strings.Join(carry, ", ")
	}
	return f
}

// edits lists what is different now.
func (h *hands) edits() []ledger.Edit {
	var list []ledger.Edit
	for i, t := range h.now.Tags(ledger.OfTool) {
		if h.otherTools[i] {
			list = append(list, ledger.Put(t, h.tools[i]))
		}
	}
	for i, t := range h.now.Tags(ledger.OfSet) {
		if h.otherSets[i] {
			list = append(list, ledger.Put(t, h.sets[i]))
		}
	}
	return list
}
