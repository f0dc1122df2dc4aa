package tooling

import (
	"cmp"
	"encoding/binary"
	"slices"

	"foldwright/internal/units"
)

// typeNumber numbers the types of a rack; noType is a type that is on none of its sets.
type typeNumber int32

const noType typeNumber = -1

// rack is the sets of one class, arranged for questions. Sets are numbered anew, by their sequence of types and within a
// sequence by their span, so that what is asked for together lies together.
type rack struct {
	sets       []int32        // the number of each set in the index
	start      []int32        // where its tools begin in types and at; one more entry marks the end
	types      []typeNumber   // of all tools
	at         []units.Length // of all tools
	sequence   []int32        // of each set
	sequences  []sequence
	bySequence map[string]int32
	bagOf      []int32 // of each set
	bags       []bag
	bagTools   []uint16  // the number of tools in each bag
	bagsWith   [][]int32 // for each number of tools, the bags that hold so many
	holders    [][]share // for each type, the bags that hold it
	spacings   map[typePair][]spacing
	standings  [][]standing // for each type
	numbered   map[Type]typeNumber
	longest    int // the greatest number of tools on a set
}

// sequence is the sets whose tools are of the same types in the same order: first included, after not.
type sequence struct {
	types        []typeNumber
	first, after int32
}

// bag is the sequences that hold the same types in the same numbers, in whatever order.
type bag struct{ sequences []int32 }

// share says how many tools of a type a bag holds.
type share struct {
	bag   int32
	count uint16
}

func newRack(sets []Set, members []int32) *rack {
	r := &rack{bySequence: map[string]int32{}, numbered: map[Type]typeNumber{}, spacings: map[typePair][]spacing{}}
	keys := r.numberTypes(sets, members)
	order := make([]int, len(members))
	for i := range order {
		order[i] = i
	}
	slices.SortFunc(order, func(a, b int) int {
		return cmp.Or(cmp.Compare(keys[a], keys[b]),
			cmp.Compare(spanOf(sets[members[a]].Tools), spanOf(sets[members[b]].Tools)), cmp.Compare(members[a], members[b]))
	})
	for _, i := range order {
		r.append(sets[members[i]].Tools, members[i], keys[i])
	}
	r.start = append(r.start, int32(len(r.at)))
	r.fillBags()
	r.fillSpacings()
	r.fillStandings()
	return r
}

// numberTypes numbers the types in the order of the sets and returns the key of each set's sequence.
func (r *rack) numberTypes(sets []Set, members []int32) []string {
	keys := make([]string, len(members))
	for i, m := range members {
		for _, t := range sets[m].Tools {
			if _, ok := r.numbered[t.Type]; !ok {
				r.numbered[t.Type] = typeNumber(len(r.numbered))
			}
		}
		keys[i] = sequenceKey(r.numbers(sets[m].Tools))
	}
	return keys
}

// append adds a set; sets of one sequence come one after the other.
func (r *rack) append(tools []Tool, member int32, key string) {
	set := int32(len(r.sets))
	r.sets = append(r.sets, member)
	r.start = append(r.start, int32(len(r.at)))
	for _, t := range tools {
		r.types = append(r.types, r.numbered[t.Type])
		r.at = append(r.at, t.At)
	}
	number, ok := r.bySequence[key]
	if !ok {
		number = int32(len(r.sequences))
		r.bySequence[key] = number
		r.sequences = append(r.sequences, sequence{types: r.numbers(tools), first: set})
	}
	r.sequences[number].after = set + 1
	r.sequence = append(r.sequence, number)
}

func (r *rack) fillBags() {
	r.holders = make([][]share, len(r.numbered))
	known := map[string]int32{}
	for i := range r.sequences {
		sorted := slices.Sorted(slices.Values(r.sequences[i].types))
		key := sequenceKey(sorted)
		b, ok := known[key]
		if !ok {
			b = int32(len(r.bags))
			known[key] = b
			r.bags = append(r.bags, bag{})
			r.bagTools = append(r.bagTools, uint16(len(sorted)))
			r.longest = max(r.longest, len(sorted))
			for len(r.bagsWith) <= len(sorted) {
				r.bagsWith = append(r.bagsWith, nil)
			}
			r.bagsWith[len(sorted)] = append(r.bagsWith[len(sorted)], b)
			r.addHolder(b, sorted)
		}
		r.bags[b].sequences = append(r.bags[b].sequences, int32(i))
		for range r.sequences[i].after - r.sequences[i].first {
			r.bagOf = append(r.bagOf, b)
		}
	}
}

func (r *rack) addHolder(b int32, sorted []typeNumber) {
	for i := 0; i < len(sorted); {
		n := 1
		for i+n < len(sorted) && sorted[i+n] == sorted[i] {
			n++
		}
		r.holders[sorted[i]] = append(r.holders[sorted[i]], share{b, uint16(n)})
		i += n
	}
}

// numbers gives the types of tools by their numbers.
func (r *rack) numbers(tools []Tool) []typeNumber {
	list := make([]typeNumber, len(tools))
	for i, t := range tools {
		n, ok := r.numbered[t.Type]
		if !ok {
			n = noType
		}
		list[i] = n
	}
	return list
}

// sequenceKey is equal for two lists exactly when they are.
func sequenceKey(types []typeNumber) string {
	key := make([]byte, 0, 4*len(types))
	for _, t := range types {
		key = binary.BigEndian.AppendUint32(key, uint32(t))
	}
	return string(key)
}

func spanOf(tools []Tool) units.Length {
	if len(tools) == 0 {
		return 0
	}
	return tools[len(tools)-1].At - tools[0].At
}

// places gives where the tools of a set stand, kinds what they are.
func (r *rack) places(set int32) []units.Length { return r.at[r.start[set]:r.start[set+1]] }
func (r *rack) kinds(set int32) []typeNumber    { return r.types[r.start[set]:r.start[set+1]] }

// tools is the number of tools on a set.
func (r *rack) tools(set int32) int { return int(r.start[set+1] - r.start[set]) }

func (r *rack) span(set int32) units.Length {
	at := r.places(set)
	if len(at) == 0 {
		return 0
	}
	return at[len(at)-1] - at[0]
}
