package draw

import (
	"slices"
	"testing"

	"foldwright/internal/settings"
	"foldwright/internal/words"
)

// Whichever edge leads, the picture says so in words and by one arrow, and keeps within its frame.
func TestFeedPictureMarksTheEdgeThatLeads(t *testing.T) {
	say := words.NewSpeaker(words.English, false)
	seen := map[string]bool{}
	for _, edge := range []settings.Edge{settings.S0, settings.S1, settings.T0, settings.T1} {
		c := *theDay(t).card(t, "2101")
		w := *c.Task.Settings
		w.Feed.Leading = edge
		c.Task.Settings = &w
		p := c.FeedPicture(say)
		if seen[p.Title] {
			t.Errorf("%s is told as another edge: %q", edge, p.Title)
		}
		seen[p.Title] = true
		holdLayout(t, "feed", p)
		marked := func(m Mark) bool { s, ok := m.(Stroke); return ok && s.Pen.Ink == Orange }
		if !slices.ContainsFunc(p.Marks, marked) {
			t.Errorf("%s: no edge is marked", edge)
		}
	}
}
