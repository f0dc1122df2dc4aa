package tooling

import (
	"fmt"
	"math"

	"foldwright/internal/fault"
	"foldwright/internal/units"
)

// The codes of what can be wrong with shafts and with what stands on them.
const (
	CodeClass   fault.Code = "shaft-class"
	CodePattern fault.Code = "pattern"
)

// Bounds beyond which a figure is a slip of the pen.
const (
	mostDiameter = 200 * units.Millimetre
	mostLength   = 5 * units.Metre
	mostTools    = 100 // on a shaft
)

// Usable is the part of the shaft on which tools can stand.
func (c Class) Usable() Window { return Window{0, c.Length} }

// Mass is the mass in kilograms of one solid steel shaft of the class without its tools: π/4 · d² · length at 7850 kg/m³.
// A shaft is longer than its usable part, so this is the least it weighs; the label should carry the weighed mass.
func (c Class) Mass() float64 {
	const steel = 7850 // kg/m³, plain carbon steel
	d, l := c.Diameter.MM()/1000, c.Length.MM()/1000
	return steel * math.Pi / 4 * d * d * l
}

// Check lists what cannot be about the class, each with its field.
func (c Class) Check() fault.List {
	var list fault.List
	add := func(field, wrong, right string) {
		list.Add(fault.Fault{Kind: fault.Input, Code: CodeClass, Field: field, Wrong: wrong, Right: right})
	}
	if c.Name == "" {
		add("name", "a shaft class without a name", "write a short name")
	}
	if c.Diameter <= 0 || c.Diameter > mostDiameter {
		add("diameter", "a shaft diameter of "+c.Diameter.Format(false), "more than 0, at most "+mostDiameter.Format(false))
	}
	if c.Length <= 0 || c.Length > mostLength {
		add("length", "a usable length of "+c.Length.Format(false), "more than 0, at most "+mostLength.Format(false))
	}
	return list
}

// CheckTools lists what cannot be about tools on a shaft of the class, each with its field such as tools[1]: they must
// ascend and stand on the usable part. Bodies are another question: see [Clashes] and [Beyond].
func (c Class) CheckTools(tools []Tool) fault.List {
	var list fault.List
	add := func(i int, wrong, right string) {
		list.Add(fault.Fault{Kind: fault.Input, Code: CodePattern, Field: fmt.Sprintf("tools[%d]", i), Wrong: wrong, Right: right})
	}
	if len(tools) > mostTools {
		add(mostTools, fmt.Sprintf("%d tools on a shaft", len(tools)), fmt.Sprintf("at most %d", mostTools))
	}
	for i, t := range tools {
		if !c.Usable().Has(t.At) {
			add(i, t.Format(false)+" is not on the shaft", "0 to "+c.Length.Format(false))
		}
		if i > 0 && t.At <= tools[i-1].At {
			add(i, fmt.Sprintf("%s stands after %s", t.Format(false), tools[i-1].Format(false)),
				"list the tools in ascending order from the datum shoulder, one at each place")
		}
	}
	return list
}
