package draw

import "foldwright/internal/words"

// FeedPicture draws the sheet as drawn, front up, with the edge that leads marked by an arrow: what the card shows beside its
// words about the feed, for screens.
func (c *Card) FeedPicture(say *words.Speaker) *Picture {
	s := cardSay{c, say}
	p := &Picture{Width: 56, Height: 48, Title: s.feedWords()}
	s.feedSketch(p, Box{0, 0, p.Width, p.Height})
	return p
}
