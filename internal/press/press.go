// Package press makes of what the desk answers what goes out: printed pages, pictures, the shape for JSON, alike for the command
// line, the API and the pages of the app. The desk neither draws nor writes, and draw and exchange do not know the desk; they meet here.
package press

import (
	"net/url"

	"foldwright/internal/desk"
	"foldwright/internal/draw"
	"foldwright/internal/shop"
	"foldwright/internal/tooling"
	"foldwright/internal/units"
	"foldwright/internal/words"
)

// Address is where the app is reached, without a slash at the end; QR codes on paper lead there.
type Address string

// Job is the page at the folder of a job.
func (a Address) Job(name string) string { return string(a) + "/floor/jobs/" + url.PathEscape(name) }

// Set is the page of a set.
func (a Address) Set(label string) string { return string(a) + "/rack/" + url.PathEscape(label) }

// Cards lays out set-up cards, one after the other.
func Cards(cards []*desk.Card, at Address, paper draw.Paper, say *words.Speaker) ([]*draw.Picture, error) {
	var all []*draw.Picture
	for _, of := range cards {
		card := &draw.Card{
			Shop: of.Shop, Job: of.Job, Folded: of.Folded, Folder: of.Folder, Task: of.Task, Planned: of.Planned, Places: of.Places,
			Address: at.Job(of.Job.Name),
		}
		pages, err := card.Pages(paper, say)
		if err != nil {
			return nil, err
		}
		all = append(all, pages...)
	}
	return all, nil
}

// BenchCards lays out bench cards, each with its strip at full scale behind it.
func BenchCards(builds []*desk.Build, at Address, paper draw.Paper, say *words.Speaker) ([]*draw.Picture, error) {
	var all []*draw.Picture
	for _, b := range builds {
		card := &draw.BenchCard{
			Shop: b.Shop, Set: b.Set, Place: b.Place, Job: b.Job, Folder: b.Folder, Station: b.Station, By: b.By, Frees: b.Frees,
			Work: b.Work, Have: b.Have, Want: b.Want, Steps: b.Steps, Address: at.Set(b.Set.Label),
		}
		pages, err := card.Pages(paper, say)
		if err != nil {
			return nil, err
		}
		all = append(all, pages...)
	}
	return all, nil
}

// Labels lays out labels on a stock, the first places of the first sheet left out.
func Labels(s *shop.Shop, sets []desk.Labelled, at Address, stock draw.Stock, skip int, say *words.Speaker) ([]*draw.Picture, error) {
	list := make([]draw.Label, len(sets))
	for i, one := range sets {
		class, _ := s.Class(one.Set.Class)
		list[i] = draw.Label{Set: one.Set.Label, Class: *class, Tools: one.Set.Tools, Jobs: one.Jobs, Address: at.Set(one.Set.Label)}
	}
	return draw.Labels(list, stock, skip, say)
}

// Set draws a set as it stands, to scale, without a sheet.
func Set(s *shop.Shop, set *tooling.Set, say *words.Speaker) *draw.Picture {
	shaft := shaftOf(s, set)
	p := &draw.Picture{Width: 190, Height: shaft.Height() + 12, Title: set.Label + ", " + set.Class}
	p.Elevation(draw.Box{X: 4, Y: 4, W: p.Width - 8, H: p.Height - 8}, shaft, say)
	return p
}

// Glance draws a set small, for lists; all sets of a shop to one scale.
func Glance(s *shop.Shop, set *tooling.Set) *draw.Picture {
	longest := units.Millimetre
	for _, c := range s.Classes {
		longest = max(longest, c.Length)
	}
	return shaftOf(s, set).Glance(longest)
}

func shaftOf(s *shop.Shop, set *tooling.Set) *draw.Shaft {
	class, _ := s.Class(set.Class)
	return &draw.Shaft{
		Name: set.Label, Class: *class, Usable: class.Usable(), Tools: set.Tools,
		Body: func(t tooling.Type) tooling.Body {
			if listed, ok := s.Tool(set.Class, t); ok {
				return listed.Body
			}
			return tooling.Body{}
		},
	}
}
