package main

import (
	"context"
	"fmt"
	"strings"

	"foldwright/internal/desk"
	"foldwright/internal/exchange"
	"foldwright/internal/tooling"
	speech "foldwright/internal/words"
)

type rackCommand struct {
	Serves string `names:"job" placeholder:"JOB" help:"Only what serves this job, station by station, and the nearest sets that do not."`
	shopFlag
	langFlag
	JSON bool `name:"json" help:"As JSON."`
}

func (rackCommand) Help() string {
	return `
A set serves when its tools are alike and one move of the side guide, the same for all stations of the unit, brings the
sheet to them. Of those that do not serve, the one with the least bench work is named.

Examples:

    foldwright rack
    foldwright rack --serves 2101 --shop shop.yaml
`
}

func (c rackCommand) Run(ctx context.Context, s streams) error {
	d := c.desk(s)
	if c.Serves != "" {
		return c.serving(ctx, s, d)
	}
	shop, err := d.Shop(ctx)
	if err != nil {
		return err
	}
	sets, err := d.Rack(ctx)
	if err != nil {
		return err
	}
	if c.JSON {
		return s.json(exchange.Rack(sets))
	}
	sheet{s, c.speaker(shop.Inch)}.rack(sets)
	return nil
}

func (p sheet) rack(sets []tooling.Set) {
	t := newTable(words(p.in("set")), words(p.in("class")), words(p.in("place")), words(p.in("tools")), figures(p.in("km run")), words(p.in("served")))
	for _, set := range sets {
		t.row(set.Label, set.Class, p.words.Text(placeWords(set.Place)), p.words.Text(toolWords(set.Tools)), wear(set), strings.Join(set.Served, " "))
	}
	t.write(p.streams)
	p.gap()
	p.say("%s", p.words.Text(speech.Count(len(sets), "%d set", "%d sets")))
}

func wear(set tooling.Set) string {
	if set.MetresK == 0 {
		return ""
	}
	return fmt.Sprintf("%.0f", set.MetresK)
}

// serving answers for one job, on every folder that can run it.
func (c rackCommand) serving(ctx context.Context, s streams, d *desk.Desk) error {
	answers, no := d.Settings(ctx, c.Serves, "")
	if answers == nil {
		return no
	}
	if c.JSON {
		if err := s.json(settingsJSON(answers, false)); err != nil {
			return err
		}
		return no
	}
	shop, err := d.Shop(ctx)
	if err != nil {
		return err
	}
	sheet{s, c.speaker(shop.Inch)}.serving(answers)
	return no
}

func (p sheet) serving(list []desk.Answer) {
	p.job(list[0])
	for _, a := range list {
		if a.Miss != nil {
			continue
		}
		p.gap()
		p.title("%s", a.Folder.Name)
		for i := range a.Settings.Units {
			for k := range a.Settings.Units[i].Stations {
				st := &a.Settings.Units[i].Stations[k]
				p.station(st, found(a.Stations, st.Name))
			}
		}
	}
	p.misses(list)
}
