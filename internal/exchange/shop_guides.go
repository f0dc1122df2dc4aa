package exchange

import (
	"strconv"

	"go.yaml.in/yaml/v4"

	"foldwright/internal/shop"
)

// guidePlaces is the place of the guide of each unit, by the number of the unit.
var guidePlaces = shape[[]shop.Guide]{
	Value: Value{Form: FormTable, Says: "units with places, such as {1: 305, 2: 250}", Each: &length.Value},
	told:  schema{"type": "object", "additionalProperties": length.told},
	read: func(s spot) (out []shop.Guide, ok bool) {
		found, ok := s.pairs("units and places, such as {1: 305, 2: 250}")
		for i, p := range found {
			place := s.item(i, p.spot.node)
			unit, err := parseCount(p.name)
			if err != nil {
				place.refuseErr(err)
				ok = false
			}
			at, good := length.read(place)
			ok = ok && good
			out = append(out, shop.Guide{Unit: unit, At: at})
		}
		return out, ok
	},
	write: func(w *writing, all []shop.Guide) *yaml.Node {
		n := &yaml.Node{Kind: yaml.MappingNode, Style: yaml.FlowStyle}
		for _, g := range all {
			n.Content = append(n.Content, scalar(strconv.Itoa(g.Unit)), length.write(w, g.At))
		}
		return n
	},
}
