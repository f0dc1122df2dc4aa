package schedule

func (c *checker) tooling() {
	t := c.Tools
	c.patterns()
	c.stationsAndUnits()
	c.rack()
	for n := range t.People {
		c.windows(t.People[n].Windows, "bench person %d", n)
	}
	for kind, n := range t.Loose {
		if n < 0 {
			c.addf("there are %d loose tools of type %d; there cannot be fewer than none", n, kind)
		}
	}
	c.table(t.InFolder, "InFolder")
	c.table(t.OnBench, "OnBench")
	if len(c.faults) == 0 {
		c.wants()
	}
}

func (c *checker) patterns() {
	t := c.Tools
	for p := range t.Patterns {
		c.in(t.Patterns[p].Class, t.Classes, "the class of pattern %d", p)
		last := -1
		for _, x := range t.Patterns[p].Tools {
			c.in(x.Type, len(t.Loose), "a tool type of pattern %d", p)
			if x.Type <= last || x.N <= 0 {
				c.addf("pattern %d names %d tools of type %d; types must ascend and numbers be at least 1", p, x.N, x.Type)
			}
			last = x.Type
		}
	}
}

func (c *checker) stationsAndUnits() {
	t := c.Tools
	for u := range t.Units {
		c.in(t.Units[u].Machine, len(c.Machines), "the machine of unit %d", u)
		c.span(t.Units[u].GuideMove, "the guide move of unit %d", u)
	}
	for k := range t.Stations {
		st := &t.Stations[k]
		c.in(st.Class, t.Classes, "the class of station %d", k)
		c.span(st.Swap, "the swap at station %d", k)
		c.span(st.Access, "the access of station %d", k)
		if c.in(st.Machine, len(c.Machines), "the machine of station %d", k) &&
			c.in(st.Unit, len(t.Units), "the unit of station %d", k) && t.Units[st.Unit].Machine != st.Machine {
			c.addf("station %d is on machine %d but its unit %d is on machine %d", k, st.Machine, st.Unit, t.Units[st.Unit].Machine)
		}
	}
}

func (c *checker) rack() {
	t := c.Tools
	at := make(map[int]int)
	for x := range t.Sets {
		s := &t.Sets[x]
		if c.in(s.Class, t.Classes, "the class of set %d", x) && c.in(s.Pattern, len(t.Patterns), "the pattern of set %d", x) &&
			t.Patterns[s.Pattern].Class != s.Class {
			c.addf("set %d is of class %d but its pattern %d is of class %d", x, s.Class, s.Pattern, t.Patterns[s.Pattern].Class)
		}
		if s.Station == -1 || !c.in(s.Station, len(t.Stations), "the station of set %d", x) {
			continue
		}
		if t.Stations[s.Station].Class != s.Class {
			c.addf("set %d of class %d stands at station %d, which takes class %d", x, s.Class, s.Station, t.Stations[s.Station].Class)
		}
		if y, taken := at[s.Station]; taken {
			c.addf("sets %d and %d both stand at station %d", y, x, s.Station)
		}
		at[s.Station] = x
	}
}

// table checks a conversion table: square, and no work between classes.
func (c *checker) table(table [][]Time, name string) {
	t := c.Tools
	if len(table) != len(t.Patterns) {
		c.addf("%s has %d rows; there are %d patterns", name, len(table), len(t.Patterns))
		return
	}
	for p, row := range table {
		if len(row) != len(t.Patterns) {
			c.addf("row %d of %s has %d entries; there are %d patterns", p, name, len(row), len(t.Patterns))
			continue
		}
		for q, work := range row {
			if work > mostTime {
				c.span(work, "%s from pattern %d to pattern %d", name, p, q)
			}
			if work >= 0 && t.Patterns[p].Class != t.Patterns[q].Class {
				c.addf("%s makes pattern %d of class %d into pattern %d of class %d; give a negative time", name, p, t.Patterns[p].Class, q, t.Patterns[q].Class)
			}
		}
	}
}

func (c *checker) wants() {
	t := c.Tools
	if len(t.Wants) != len(c.Jobs) {
		c.addf("there are wants of %d jobs; there are %d jobs", len(t.Wants), len(c.Jobs))
		return
	}
	for j := range t.Wants {
		if len(t.Wants[j]) != len(t.Stations) {
			c.addf("job %d has wants for %d stations; there are %d", j, len(t.Wants[j]), len(t.Stations))
			continue
		}
		for k := range t.Stations {
			if c.able(j, t.Stations[k].Machine) && !t.Wants[j][k].Any {
				c.want(j, k)
			}
		}
	}
}

func (c *checker) want(j, k int) {
	t, w := c.Tools, &c.Tools.Wants[j][k]
	class := t.Stations[k].Class
	if !c.in(w.Pattern, len(t.Patterns), "the pattern that job %d wants at station %d", j, k) {
		return
	}
	own, last := false, -1
	for _, f := range w.Fits {
		if !c.in(f.Pattern, len(t.Patterns), "a pattern that serves job %d at station %d", j, k) {
			return
		}
		if f.Pattern <= last {
			c.addf("the fits of job %d at station %d must ascend by pattern; %d follows %d", j, k, f.Pattern, last)
		}
		if t.Patterns[f.Pattern].Class != class {
			c.addf("pattern %d of class %d cannot serve job %d at station %d, which takes class %d", f.Pattern, t.Patterns[f.Pattern].Class, j, k, class)
		}
		if f.Lo > f.Hi || f.Lo < AnywhereLo || f.Hi > AnywhereHi {
			c.addf("pattern %d serves job %d at station %d with the guide from %d to %d; the range must not be empty and stay within %d to %d", f.Pattern, j, k, f.Lo, f.Hi, AnywhereLo, AnywhereHi)
		}
		own, last = own || f.Pattern == w.Pattern, f.Pattern
	}
	if !own {
		c.addf("the fits of job %d at station %d leave out pattern %d, which it wants; name it with its range", j, k, w.Pattern)
	}
}
