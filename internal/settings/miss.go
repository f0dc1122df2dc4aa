package settings

import (
	"fmt"
	"slices"

	"foldwright/internal/words"
)

// Miss is why a folder cannot run a job: what the way that came nearest lacks, in words and figures.
type Miss struct {
	Job, Folder string
	Whys        words.Series // "plate 2 of unit 1 reaches 310 mm, fold 2 needs 322 mm"
}

// Why strings the reasons together.
func (m *Miss) Why() words.Text { return words.T("%s", m.Whys) }

// miss walks again, through everything that does not fit, and tells the way that comes nearest: the one whose troubles
// weigh least together, and of equals the one tried first.
func (e *engine) miss() *Miss {
	m := &Miss{Job: e.job.Name, Folder: e.folder.Name}
	switch {
	case len(e.folder.Units) == 0:
		m.Whys = words.Series{words.T("the folder has no units")}
		return m
	case len(e.drawn) == 0:
		m.Whys = words.Series{words.T("the scheme has no folds, so there is nothing for a folder to do")}
		return m
	}
	e.nearest, e.sites.speak = true, true
	e.found = func(p path, troubles []trouble) {
		if !stranded(troubles) {
			_, more, _ := e.lay(p)
			troubles = append(slices.Clone(troubles), more...)
		}
		sum := 0.0
		for _, t := range troubles {
			sum += t.bad
		}
		if sum < e.best {
			e.best, e.told, m.Whys = sum, slices.Clone(troubles), tell(p.feed, troubles)
		}
	}
	e.run()
	if m.Whys == nil {
		panic(fmt.Sprintf("settings: no way for job %q on folder %q, and no reason", m.Job, m.Folder))
	}
	return m
}

// stranded tells a way that ends before its last fold: where its tools would stand is not asked.
func stranded(troubles []trouble) bool {
	return slices.ContainsFunc(troubles, func(t trouble) bool { return t.kind == noUnit })
}
