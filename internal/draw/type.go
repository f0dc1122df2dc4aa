package draw

import (
	"sync"

	"golang.org/x/image/font"
	"golang.org/x/image/font/gofont/gobold"
	"golang.org/x/image/font/gofont/goregular"
	"golang.org/x/image/font/sfnt"
	"golang.org/x/image/math/fixed"
)

// The letters are the Go fonts: their digits are all of one width, so columns of figures line up.
const (
	family  = "Go"
	ascent  = 0.93 // of the em, to the top of an accented capital
	descent = 0.22 // to the bottom of a descender
	// CapHeight is the height of a capital as a share of the em.
	CapHeight = 0.71
)

// face measures text; widths of letters are kept, since a page asks for the same few again and again.
type face struct {
	mu     sync.Mutex
	font   *sfnt.Font
	buffer sfnt.Buffer
	widths map[rune]float64
}

var faces = sync.OnceValue(func() [2]*face {
	return [2]*face{newFace(goregular.TTF), newFace(gobold.TTF)}
})

func newFace(ttf []byte) *face {
	f, err := sfnt.Parse(ttf)
	if err != nil {
		panic(err) // the font is part of the program
	}
	return &face{font: f, widths: map[rune]float64{}}
}

// width is the advance of a letter as a share of the em.
func (f *face) width(r rune) float64 {
	if w, ok := f.widths[r]; ok {
		return w
	}
	em := f.font.UnitsPerEm()
	w := 0.0
	if glyph, err := f.font.GlyphIndex(&f.buffer, r); err == nil {
		if adv, err := f.font.GlyphAdvance(&f.buffer, glyph, fixed.I(int(em)), font.HintingNone); err == nil {
			w = float64(adv) / 64 / float64(em)
		}
	}
	f.widths[r] = w
	return w
}

// TextWidth is how wide a text runs, mm.
func TextWidth(s string, size float64, bold bool) float64 {
	f := faces()[0]
	if bold {
		f = faces()[1]
	}
	f.mu.Lock()
	defer f.mu.Unlock()
	w := 0.0
	for _, r := range s {
		w += f.width(r)
	}
	return w * size
}
