package plan

import (
	"foldwright/internal/fold"
	"foldwright/internal/job"
	"foldwright/internal/settings"
	"foldwright/internal/tooling"
	"foldwright/internal/words"
)

// askWays asks settings for every job on every folder it may run on, numbers the jobs that can run and tells why the
// others cannot. What was asked earlier of the same folders and tools and still holds is not asked again.
func (t *translation) askWays(earlier map[string]asked) {
	all := make([][]*settings.Settings, len(t.shop.Jobs))
	whys := make([][]Why, len(t.shop.Jobs))
	t.asked = map[string]asked{}
	for i := range t.shop.Jobs {
		j := &t.shop.Jobs[i]
		a, known := earlier[j.Name]
		if !known || !a.still(j) {
			ways, whys := t.waysOf(j)
			a = asked{*j, ways, whys}
		}
		t.asked[j.Name] = a
		all[i], whys[i] = a.ways, a.whys
	}
	t.dropWaiting(all, whys)
	for i := range t.shop.Jobs {
		if all[i] == nil {
			t.unplaced = append(t.unplaced, Unplaced{t.shop.Jobs[i].Name, whys[i]})
			continue
		}
		t.jobs = append(t.jobs, &t.shop.Jobs[i])
		t.ways = append(t.ways, all[i])
		t.whys = append(t.whys, whys[i])
	}
	t.present = make([]*settings.Settings, len(t.shop.Folders))
	for m := range t.shop.Folders {
		t.present[m] = t.presentOn(m)
	}
}

// waysOf returns the best way to set the job on each folder, nil when there is none at all, and the reasons of those that
// have none.
func (t *translation) waysOf(j *job.Job) ([]*settings.Settings, []Why) {
	folded, err := j.Scheme.Apply(j.Sheet)
	if err != nil {
		return nil, []Why{{"", words.Plain(err.Error())}}
	}
	ways := make([]*settings.Settings, len(t.shop.Folders))
	var whys []Why
	can := false
	for m := range ways {
		way, why := t.wayOn(j, folded, m)
		ways[m] = way
		can = can || way != nil
		if way == nil {
			whys = append(whys, Why{t.folder(m).Name, why})
		}
	}
	if !can {
		return nil, whys
	}
	return ways, whys
}

// wayOn returns the best way to set the job on a folder for which the shop has the tools, or why there is none. A pin to
// another folder is a reason.
func (t *translation) wayOn(j *job.Job, folded *fold.Folded, m int) (*settings.Settings, words.Text) {
	f := t.folder(m)
	if j.Pin.Folder != "" && j.Pin.Folder != f.Name {
		return nil, words.T("the job is pinned to %s", j.Pin.Folder)
	}
	ways, miss := settings.Ways(j, folded, f, t.house)
	if len(ways) == 0 {
		return nil, miss.Why()
	}
	return t.first(ways)
}

// first is the first way for which the shop has the tools, or what the first of all lacks.
func (t *translation) first(ways []settings.Settings) (*settings.Settings, words.Text) {
	for i := range ways {
		if _, short := t.lack(&ways[i]); !short {
			return &ways[i], words.Text{}
		}
	}
	why, _ := t.lack(&ways[0])
	return nil, why
}

// lack tells which tool a way needs that the shop does not have, loose or on any set; it is not short when it has all.
func (t *translation) lack(way *settings.Settings) (why words.Text, short bool) {
	for u := range way.Units {
		for k := range way.Units[u].Stations {
			st := &way.Units[u].Stations[k]
			for _, tool := range st.Tools {
				need, have := numberOf(st.Pattern().Tools, tool.Type), t.owned(st.Class, tool.Type)
				if need > have {
					why = words.T("station %s needs %d × %s, and the shop has %d for shafts of class %s, loose and on sets together",
						st.Name, need, tool.Type, have, st.Class)
					return t.instead(why, st.Class, tool.Type), true
				}
			}
		}
	}
	return words.Text{}, false
}

// instead adds the tools of the same kind that the shop has for shafts of a class: perhaps the docket leaves out which.
func (t *translation) instead(why words.Text, class string, typ tooling.Type) words.Text {
	var others words.List
	for i := range t.shop.Tools {
		if stock := &t.shop.Tools[i]; stock.Class == class && stock.Kind == typ.Kind && stock.Type != typ {
			others = append(others, stock.Type)
		}
	}
	if len(others) == 0 {
		return why
	}
	return words.T("%s", words.Series{why, words.T("there is %s: say so on the docket if it will do", others)})
}

// owned is how many tools of a type the shop has for shafts of a class.
func (t *translation) owned(class string, typ tooling.Type) int {
	n := 0
	for i := range t.shop.Tools {
		if stock := &t.shop.Tools[i]; stock.Class == class && stock.Type == typ {
			n += stock.Loose
		}
	}
	for i := range t.shop.Sets {
		if t.shop.Sets[i].Class == class {
			n += numberOf(t.shop.Sets[i].Tools, typ)
		}
	}
	return n
}

func numberOf(tools []tooling.Tool, typ tooling.Type) int {
	n := 0
	for _, tool := range tools {
		if tool.Type == typ {
			n++
		}
	}
	return n
}

// dropWaiting takes out the jobs that wait for a job which no folder can run, and those that wait for them.
func (t *translation) dropWaiting(all [][]*settings.Settings, whys [][]Why) {
	byName := map[string]int{}
	for i := range t.shop.Jobs {
		byName[t.shop.Jobs[i].Name] = i
	}
	for changed := true; changed; {
		changed = false
		for i := range t.shop.Jobs {
			for _, before := range t.shop.Jobs[i].After {
				b, known := byName[before]
				if known && all[i] != nil && all[b] == nil {
					all[i], changed = nil, true
					whys[i] = []Why{{"", words.T("it waits for %s, which no folder can run", before)}}
				}
			}
		}
	}
}

// presentOn is what a folder is set for now; nil when that is not known.
func (t *translation) presentOn(m int) *settings.Settings {
	state, ok := t.shop.State(t.folder(m).Name)
	if !ok {
		return nil
	}
	j, ok := t.shop.Job(state.Job)
	if !ok {
		return nil
	}
	folded, err := j.Scheme.Apply(j.Sheet)
	if err != nil {
		return nil
	}
	ways, _ := settings.Ways(j, folded, t.folder(m), t.house) // wherever the job may be pinned now
	if len(ways) == 0 {
		return nil
	}
	now, _ := t.first(ways)
	if now == nil {
		return nil
	}
	for u := range now.Units {
		if at, ok := t.guideTold(m, u); ok {
			now.Units[u].Guide.At = at
		}
	}
	return now
}
