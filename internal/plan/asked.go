package plan

import (
	"reflect"
	"slices"

	"foldwright/internal/job"
	"foldwright/internal/settings"
	"foldwright/internal/shop"
	"foldwright/internal/tooling"
)

// asked is what settings answered for a job on every folder. It does not change and may be shared.
type asked struct {
	job  job.Job // as it was then
	ways []*settings.Settings
	whys []Why
}

// still says whether the answer holds for a job, too: all that settings look at is the same.
func (a asked) still(j *job.Job) bool {
	return a.job.Sheet == j.Sheet && a.job.Stock == j.Stock && a.job.RateMax == j.RateMax && a.job.Pin.Folder == j.Pin.Folder &&
		reflect.DeepEqual(a.job.Scheme, j.Scheme) && slices.Equal(a.job.Operations, j.Operations)
}

// askedFor is what was asked for another shop, when it holds for this one: folders, tools, sets and the rules of the house
// are the same. Where sets lie does not matter.
func (t *translation) askedFor(s *shop.Shop) map[string]asked {
	was := t.shop
	alike := func(a, b tooling.Set) bool { return a.Class == b.Class && slices.Equal(a.Tools, b.Tools) }
	if reflect.DeepEqual(was.Folders, s.Folders) && slices.Equal(was.Tools, s.Tools) && slices.EqualFunc(was.Sets, s.Sets, alike) && reflect.DeepEqual(was.House, s.House) {
		return t.asked
	}
	return nil
}
