package shop

import (
	"fmt"

	"foldwright/internal/tooling"
	"foldwright/internal/units"
)

// Bounds beyond which a figure is a slip of the pen.
const (
	bodyMost  = 500 * units.Millimetre
	looseMost = 100_000
	runMost   = 1e9 // thousand metres
)

func (c *checker) classes() {
	c.names("classes", "name", c.classNames())
	for i, class := range c.shop.Classes {
		c.under(fmt.Sprintf("classes[%d]", i), class.Check())
	}
}

func (c *checker) classNames() []string {
	return names(c.shop.Classes, func(k tooling.Class) string { return k.Name })
}

// kindOfTool is a type of tool on shafts of a class.
type kindOfTool struct {
	class string
	tooling.Type
}

func (c *checker) tools() {
	classes := listed(c.classNames())
	first := map[kindOfTool]int{}
	for i, t := range c.shop.Tools {
		path := fmt.Sprintf("tools[%d]", i)
		c.known(path+".class", "class", t.Class, classes)
		key := kindOfTool{t.Class, t.Type}
		if k, twice := first[key]; twice {
			c.add(CodeTwice, path+".tool", fmt.Sprintf("%s for %s is listed as tools[%d] too", t.Type, t.Class, k), "list each tool once for a class, with all that lie loose")
		} else {
			first[key] = i
		}
		c.body(path+".left", t.Body.Left)
		c.body(path+".right", t.Body.Right)
		if t.Loose < 0 || t.Loose > looseMost {
			c.add(CodeTool, path+".loose", fmt.Sprintf("%d tools lie loose", t.Loose), fmt.Sprintf("0 to %d", looseMost))
		}
	}
}

func (c *checker) body(field string, l units.Length) {
	if l < 0 || l > bodyMost {
		c.add(CodeTool, field, "a tool that takes "+l.Format(false)+" of the shaft", "0 to "+bodyMost.Format(false))
	}
}

func (c *checker) sets() {
	c.names("sets", "label", names(c.shop.Sets, func(t tooling.Set) string { return t.Label }))
	classes := listed(c.classNames())
	bodies := c.shop.bodies()
	standing := map[tooling.Place]int{}
	for i, t := range c.shop.Sets {
		path := fmt.Sprintf("sets[%d]", i)
		if t.Label == "" {
			c.name(path+".label", "")
		}
		if c.known(path+".class", "class", t.Class, classes) {
			c.onShaft(path, t, bodies)
		}
		c.place(path, i, standing)
		if !(t.MetresK >= 0 && t.MetresK <= runMost) { // a NaN is neither
			c.add(CodeTool, path+".run_km", fmt.Sprintf("the set ran %g thousand metres", t.MetresK), "0 or more")
		}
	}
}

// onShaft holds the tools of a set to the shaft of its class and to one another.
func (c *checker) onShaft(path string, t tooling.Set, bodies map[kindOfTool]tooling.Body) {
	class, _ := c.shop.Class(t.Class)
	if wrong := class.CheckTools(t.Tools); len(wrong) > 0 {
		c.under(path, wrong)
		return // bodies make sense only for tools in order
	}
	body := func(k tooling.Type) tooling.Body { return bodies[kindOfTool{t.Class, k}] }
	for k, tool := range t.Tools {
		if _, listed := bodies[kindOfTool{t.Class, tool.Type}]; !listed {
			c.add(CodeUnlisted, fmt.Sprintf("%s.tools[%d]", path, k), fmt.Sprintf("%s for %s is not among the tools", tool.Type, t.Class),
				c.toolsOf(t.Class, tool.Type))
		}
	}
	for _, k := range tooling.Beyond(t.Tools, body, class.Usable()) {
		b := body(t.Tools[k].Type)
		c.add(CodeOffShaft, fmt.Sprintf("%s.tools[%d]", path, k), fmt.Sprintf("%s reaches beyond the shaft of %s", t.Tools[k].Format(false), t.Class),
			fmt.Sprintf("between %s and %s, for its body takes %s and %s", b.Left.Format(false), (class.Length-b.Right).Format(false), b.Left.Format(false), b.Right.Format(false)))
	}
	for _, k := range tooling.Clashes(t.Tools, body) {
		c.add(CodeOverlap, fmt.Sprintf("%s.tools[%d]", path, k.J), fmt.Sprintf("%s and %s stand %s apart", t.Tools[k.I].Format(false), t.Tools[k.J].Format(false), k.Distance.Format(false)),
			"their bodies need at least "+k.Least.Format(false))
	}
}

// toolsOf says which tool may have been meant.
func (c *checker) toolsOf(class string, t tooling.Type) string {
	var listed []string
	for _, k := range c.shop.Tools {
		if k.Class == class {
			listed = append(listed, k.Type.String())
		}
	}
	if near, ok := Nearest(t.String(), listed); ok {
		return fmt.Sprintf("add it to tools with the room it takes; or did you mean %q?", near)
	}
	return "add it to tools with the room it takes"
}

// bodies is the room that each listed tool takes.
func (s *Shop) bodies() map[kindOfTool]tooling.Body {
	all := make(map[kindOfTool]tooling.Body, len(s.Tools))
	for _, t := range s.Tools {
		all[kindOfTool{t.Class, t.Type}] = t.Body
	}
	return all
}

// place holds a set to one place, in which no other stands.
func (c *checker) place(path string, i int, standing map[tooling.Place]int) {
	t := &c.shop.Sets[i]
	p := t.Place
	mounted := p.Folder != "" || p.Station != ""
	switch {
	case count(p.Slot != "", mounted, p.Bench) > 1:
		c.add(CodePlace, path, fmt.Sprintf("set %q stands in more than one place", clip(t.Label)), "keep one of slot, folder and station, bench")
		return
	case count(p.Slot != "", mounted, p.Bench) == 0:
		c.add(CodePlace, path, fmt.Sprintf("set %q stands nowhere", clip(t.Label)), "give slot, or folder and station, or bench: yes")
		return
	case mounted && !c.mounted(path, t):
		return
	case p.Slot != "":
		c.name(path+".slot", p.Slot)
	}
	if k, taken := standing[p]; taken && !p.Bench {
		c.add(CodePlace, path, fmt.Sprintf("set %q stands where %q stands", clip(t.Label), clip(c.shop.Sets[k].Label)), "a place holds one set")
		return
	}
	standing[p] = i
}

// mounted holds a mounted set to its station.
func (c *checker) mounted(path string, t *tooling.Set) bool {
	if !c.known(path+".folder", "folder", t.Place.Folder, listed(c.shop.FolderNames())) {
		return false
	}
	folder, _ := c.shop.Folder(t.Place.Folder)
	var stations []string
	class := ""
	for _, u := range folder.Units {
		for _, st := range u.Stations {
			stations = append(stations, st.Name)
			if st.Name == t.Place.Station {
				class = st.Class
			}
		}
	}
	if !c.known(path+".station", "station", t.Place.Station, listed(stations)) {
		return false
	}
	if class != t.Class {
		c.add(CodeClass, path+".class", fmt.Sprintf("set %q is of class %s and stands in station %s of %s, which takes %s", clip(t.Label), clip(t.Class), t.Place.Station, folder.Name, clip(class)),
			"mount a set of that class")
	}
	return true
}

func count(all ...bool) int {
	n := 0
	for _, is := range all {
		if is {
			n++
		}
	}
	return n
}
