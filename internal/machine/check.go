package machine

import (
	"fmt"
	"slices"

	"foldwright/internal/fault"
	"foldwright/internal/units"
)

// The codes of what can be wrong with a folder.
const (
	CodeFolder  fault.Code = "folder"
	CodeRange   fault.Code = "range"
	CodeUnit    fault.Code = "unit"
	CodeStation fault.Code = "station"
)

// Bounds beyond which a figure is a slip of the pen.
const (
	mostLength = 10 * units.Metre
	mostRate   = 200_000 // sheets or strokes an hour
	mostSpeed  = 1000 * units.MetrePerMin
	mostMass   = 2000 * units.GramPerM2
	mostAccess = 240 // minutes
)

// Check lists what cannot be, each with the path of its field as the shop file names it, such as units[1].plates[0].
// Messages count units, plates and stations from 1, as people do.
func (f *Folder) Check() fault.List {
	c := checker{names: map[string]bool{}}
	if f.Name == "" {
		c.add(CodeFolder, "name", "a folder without a name", "write a short name")
	}
	c.feeder(f.Feeder)
	if len(f.Units) == 0 {
		c.add(CodeFolder, "units", "a folder without units", "list at least one buckle or knife unit")
	}
	for i, u := range f.Units {
		c.unit(i, u)
	}
	return c.list
}

type checker struct {
	list  fault.List
	names map[string]bool // of stations, on the whole folder
}

func (c *checker) add(code fault.Code, field, wrong, right string) {
	c.list.Add(fault.Fault{Kind: fault.Input, Code: code, Field: field, Wrong: wrong, Right: right})
}

func (c *checker) feeder(f Feeder) {
	c.limits("feeder.length", "the feeder's sheet length", f.Length)
	c.limits("feeder.width", "the feeder's sheet width", f.Width)
	if f.MinGrammage <= 0 || f.MinGrammage > f.MaxGrammage || f.MaxGrammage > mostMass {
		c.add(CodeRange, "feeder.grammage", fmt.Sprintf("the feeder's grammage goes from %s to %s", f.MinGrammage.Format(), f.MaxGrammage.Format()),
			"more than 0, the lesser first, at most "+mostMass.Format())
	}
	c.rate("feeder.rate", "sheets", f.SheetsPerHourMax)
}

// limits checks a range that must hold something: the lesser end is above nothing.
func (c *checker) limits(field, what string, r Range) {
	if r.Min <= 0 {
		c.add(CodeRange, field, fmt.Sprintf("%s goes from %s", what, r), "start above 0")
	}
	c.order(field, what, r)
}

func (c *checker) order(field, what string, r Range) {
	switch {
	case r.Min > r.Max:
		c.add(CodeRange, field, fmt.Sprintf("%s goes from %s: the least is greater than the greatest", what, r),
			fmt.Sprintf("write %s, if that is meant", Range{r.Max, r.Min}))
	case r.Max > mostLength:
		c.add(CodeRange, field, fmt.Sprintf("%s goes from %s", what, r), "at most "+mostLength.Format(false))
	}
}

func (c *checker) rate(field, what string, n int) {
	if n <= 0 || n > mostRate {
		c.add(CodeRange, field, fmt.Sprintf("%d %s an hour", n, what), fmt.Sprintf("1 to %d", mostRate))
	}
}

func (c *checker) unit(i int, u Unit) {
	at, name := fmt.Sprintf("units[%d]", i), fmt.Sprintf("unit %d", i+1)
	switch u.Kind {
	case Buckle:
		c.plates(at, name, u)
	case Knife:
		c.knife(at, name, u)
	default:
		c.add(CodeUnit, at+".kind", fmt.Sprintf("%s is of kind %q", name, string(u.Kind)), "write buckle or knife")
	}
	c.enters(at, name, i == 0, u.Enters)
	c.travel(at, name, u)
	c.sides(at, name, u)
	for k, st := range u.Stations {
		c.station(fmt.Sprintf("%s.stations[%d]", at, k), st)
	}
}

func (c *checker) plates(at, name string, u Unit) {
	if len(u.Plates) == 0 {
		c.add(CodeUnit, at+".plates", name+" is a buckle unit without plates", "list the range of each plate's stop")
	}
	for p, plate := range u.Plates {
		c.limits(fmt.Sprintf("%s.plates[%d]", at, p), fmt.Sprintf("the stop of plate %d of %s", p+1, name), plate.Stop)
	}
	if u.Stop != (Range{}) || u.StrokesMax != 0 {
		c.add(CodeUnit, at, name+" is a buckle unit with a knife's stop or strokes", "leave them out, or write kind: knife")
	}
}

func (c *checker) knife(at, name string, u Unit) {
	if len(u.Plates) > 0 {
		c.add(CodeUnit, at+".plates", fmt.Sprintf("%s is a knife unit with %d plates", name, len(u.Plates)), "leave them out, or write kind: buckle")
	}
	c.limits(at+".stop", "the stop of "+name, u.Stop)
	c.rate(at+".strokes", "strokes", u.StrokesMax)
}

func (c *checker) enters(at, name string, first bool, ways []Entry) {
	if first {
		if len(ways) > 1 || len(ways) == 1 && ways[0] != Straight {
			c.add(CodeUnit, at+".enters", name+" is entered by a turn", "the sheet enters the first unit straight: leave it out")
		}
		return
	}
	if len(ways) == 0 {
		c.add(CodeUnit, at+".enters", name+" does not say how the stack comes in", "list one or more of straight, left, right")
	}
	for k, e := range ways {
		field := fmt.Sprintf("%s.enters[%d]", at, k)
		switch {
		case e != Straight && e != TurnLeft && e != TurnRight:
			c.add(CodeUnit, field, fmt.Sprintf("%s is entered %q", name, string(e)), "write straight, left or right")
		case slices.Contains(ways[:k], e):
			c.add(CodeUnit, field, fmt.Sprintf("%s lists %s twice", name, e), "write each way once")
		}
	}
}

func (c *checker) travel(at, name string, u Unit) {
	if u.Speed <= 0 || u.Speed > mostSpeed {
		c.add(CodeRange, at+".speed", name+" runs at "+u.Speed.Format(false), "more than 0, at most "+mostSpeed.Format(false))
	}
	notNegative := func(field, what string, l units.Length) {
		if l < 0 || l > mostLength {
			c.add(CodeRange, at+"."+field, fmt.Sprintf("%s of %s is %s", what, name, l.Format(false)), "0 to "+mostLength.Format(false))
		}
	}
	notNegative("gap", "the gap between sheets", u.Gap)
	notNegative("width", "the greatest width", u.WidthMax)
	notNegative("thickness", "the greatest thickness", u.ThicknessMax)
}

func (c *checker) sides(at, name string, u Unit) {
	side := func(field, what string, s Side) {
		if s != LeftSide && s != RightSide {
			c.add(CodeUnit, at+"."+field, fmt.Sprintf("%s of %s is on side %q", what, name, string(s)), "write left or right, looking with the travel")
		}
	}
	side("operator", "the operator", u.Operator)
	side("guide.side", "the side guide", u.Guide.Side)
	c.onShaft(at+".guide.range", "the side guide of "+name, u.Guide.Range)
}

// onShaft checks a range of places on a shaft, which may begin at the datum shoulder itself.
func (c *checker) onShaft(field, what string, r Range) {
	if r.Min < 0 {
		c.add(CodeRange, field, fmt.Sprintf("%s goes from %s", what, r), "places are measured from the datum shoulder, 0 or more")
	}
	c.order(field, what, r)
}

func (c *checker) station(at string, st Station) {
	switch {
	case st.Name == "":
		c.add(CodeStation, at+".name", "a station without a name", "write a short name, unique on the folder, such as 1A")
	case c.names[st.Name]:
		c.add(CodeStation, at+".name", fmt.Sprintf("a second station %s on this folder", st.Name), "give each station its own name")
	}
	c.names[st.Name] = true
	if st.Class == "" {
		c.add(CodeStation, at+".class", fmt.Sprintf("station %s does not say which sets it takes", st.Name), "name a shaft class")
	}
	c.onShaft(at+".shaft", "the usable part of the shaft of station "+st.Name, Range{st.From, st.To})
	if st.From == st.To {
		c.add(CodeStation, at+".shaft", fmt.Sprintf("station %s has no usable shaft", st.Name), "write from where to where tools can stand, such as 0 to 760")
	}
	if !(st.AccessMin >= 0 && st.AccessMin <= mostAccess) { // a NaN is neither
		c.add(CodeStation, at+".access", fmt.Sprintf("the way to the shafts of station %s takes %g minutes", st.Name, st.AccessMin), fmt.Sprintf("0 to %d minutes", mostAccess))
	}
}
