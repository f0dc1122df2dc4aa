package shop

import (
	"fmt"

	"foldwright/internal/calendar"
	"foldwright/internal/machine"
	"foldwright/internal/paper"
	"foldwright/internal/units"
)

func (c *checker) calendars() {
	c.names("calendars", "name", c.calendarNames())
	for i := range c.shop.Calendars {
		path := fmt.Sprintf("calendars[%d]", i)
		if c.shop.Calendars[i].Name == "" {
			c.name(path+".name", "")
		}
		c.under(path, c.shop.Calendars[i].Check())
	}
}

func (c *checker) calendarNames() []string {
	return names(c.shop.Calendars, func(k calendar.Calendar) string { return k.Name })
}

func (c *checker) folders() {
	c.names("folders", "name", c.shop.FolderNames())
	calendars := listed(c.calendarNames())
	for i := range c.shop.Folders {
		f := &c.shop.Folders[i]
		path := fmt.Sprintf("folders[%d]", i)
		c.under(path, f.Check())
		c.known(path+".calendar", "calendar", f.Calendar, calendars)
		for u := range f.Units {
			for k := range f.Units[u].Stations {
				c.station(fmt.Sprintf("%s.units[%d].stations[%d]", path, u, k), f.Units[u].Stations[k])
			}
		}
	}
}

// station holds a station to the class of its sets.
func (c *checker) station(path string, st machine.Station) {
	if st.Class == "" || !c.known(path+".class", "class", st.Class, listed(c.classNames())) {
		return // an empty class is told already
	}
	if class, _ := c.shop.Class(st.Class); st.To > class.Length && class.Length > 0 {
		c.add(CodeStation, path+".shaft", fmt.Sprintf("the usable part of station %s ends at %s, and shafts of %s are %s long", st.Name, st.To.Format(false), class.Name, class.Length.Format(false)),
			"at most "+class.Length.Format(false))
	}
}

func (c *checker) present() {
	folders, jobs := listed(c.shop.FolderNames()), listed(append(c.shop.JobNames(), c.doneNames()...))
	first := map[string]int{}
	for i, st := range c.shop.States {
		path := fmt.Sprintf("present[%d]", i)
		if st.Job != "" {
			c.known(path+".job", "job", st.Job, jobs)
		}
		c.absences(path+".down", st.Down)
		if !c.known(path+".folder", "folder", st.Folder, folders) {
			continue
		}
		if k, twice := first[st.Folder]; twice {
			c.add(CodePresent, path+".folder", fmt.Sprintf("what stands on %s is told as present[%d] too", st.Folder, k), "tell it once")
		}
		first[st.Folder] = i
		c.guides(path, st)
	}
}

// guides holds the places of the side guides to what the units allow.
func (c *checker) guides(path string, st State) {
	f, _ := c.shop.Folder(st.Folder)
	seen := map[int]bool{}
	for k, g := range st.Guides {
		field := fmt.Sprintf("%s.guides[%d]", path, k)
		switch {
		case g.Unit < 1 || g.Unit > len(f.Units):
			c.add(CodePresent, field, fmt.Sprintf("%s has no unit %d", f.Name, g.Unit), fmt.Sprintf("unit 1 to %d", len(f.Units)))
			continue
		case seen[g.Unit]:
			c.add(CodePresent, field, fmt.Sprintf("the guide of unit %d is told twice", g.Unit), "tell it once")
		}
		seen[g.Unit] = true
		if r := f.Units[g.Unit-1].Guide.Range; g.At < r.Min || g.At > r.Max {
			c.add(CodePresent, field, fmt.Sprintf("the guide of unit %d of %s stands at %s", g.Unit, f.Name, g.At.Format(false)),
				fmt.Sprintf("it goes from %s to %s", units.FormatMM(r.Min), r.Max.Format(false)))
		}
	}
}

func (c *checker) bench() {
	calendars := listed(c.calendarNames())
	c.names("bench", "name", names(c.shop.Bench, func(p Person) string { return p.Name }))
	for i, p := range c.shop.Bench {
		path := fmt.Sprintf("bench[%d]", i)
		if p.Name == "" {
			c.name(path+".name", "")
		}
		c.known(path+".calendar", "calendar", p.Calendar, calendars)
		c.absences(path+".away", p.Away)
	}
}

// absences holds times at which a folder is down or a person away to reason.
func (c *checker) absences(path string, times []calendar.Window) {
	for i, w := range times {
		if !w.From.Before(w.To) {
			const form = "2006-01-02 15:04"
			c.add(CodeAbsence, fmt.Sprintf("%s[%d]", path, i), fmt.Sprintf("from %s to %s is no time", w.From.Format(form), w.To.Format(form)), "an end after the beginning")
		}
	}
}

// Bounds beyond which a figure of a stock is a slip of the pen.
const (
	grammageMost = 2000 * units.GramPerM2
	volumeMost   = 10 // cm³/g
	caliperMost  = 5 * units.Millimetre
)

func (c *checker) stocks() {
	c.names("stocks", "name", names(c.shop.Stocks, func(k paper.Stock) string { return k.Name }))
	for i, k := range c.shop.Stocks {
		path := fmt.Sprintf("stocks[%d]", i)
		if k.Name == "" {
			c.name(path+".name", "")
		}
		c.stock(path, k)
		if k.Grain != paper.GrainUnknown {
			c.add(CodeStock, path, "a stock in the list with a grain", "the grain is told by each job, for its sheet as drawn")
		}
	}
}

// stock holds the figures of a stock to reason.
func (c *checker) stock(path string, k paper.Stock) {
	if k.Grammage <= 0 || k.Grammage > grammageMost {
		c.add(CodeStock, path+".grammage", "a stock of "+k.Grammage.Format(), "more than 0, at most "+grammageMost.Format())
	}
	if !(k.Volume >= 0 && k.Volume <= volumeMost) { // a NaN is neither
		c.add(CodeStock, path+".volume", fmt.Sprintf("a specific volume of %g cm³/g", k.Volume), fmt.Sprintf("most papers have 0.7 to 2.2; at most %d, or leave it out", volumeMost))
	}
	if k.Measured < 0 || k.Measured > caliperMost {
		c.add(CodeStock, path+".caliper", "a sheet that is "+k.Measured.Format(false)+" thick", "at most "+caliperMost.Format(false)+"; 98 µm is written 98 um or 0.098")
	}
}
