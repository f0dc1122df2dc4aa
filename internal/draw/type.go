package draw

import (
	"strings"
	"sync"

	"golang.org/x/image/font"
	"golang.org/x/image/font/gofont/gobold"
	"golang.org/x/image/font/gofont/goregular"
	"golang.org/x/image/font/sfnt"
	"golang.org/x/image/math/fixed"
	"golang.org/x/text/unicode/norm"
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

// missing stands for a letter that the fonts do not have.
const missing = '\u25a1'

// width is the advance of a letter as a share of the em; ok is false when the font does not have it.
func (f *face) width(r rune) (w float64, ok bool) {
	if w, ok := f.widths[r]; ok {
		return w, w >= 0
	}
	em := f.font.UnitsPerEm()
	w = -1
	if glyph, err := f.font.GlyphIndex(&f.buffer, r); err == nil && glyph != 0 && r >= ' ' && r <= 0xffff {
		if adv, err := f.font.GlyphAdvance(&f.buffer, glyph, fixed.I(int(em)), font.HintingNone); err == nil {
			w = float64(adv) / 64 / float64(em)
		}
	}
	f.widths[r] = w
	return w, w >= 0
}

// faceOf is the regular or the bold face.
func faceOf(bold bool) *face {
	if bold {
		return faces()[1]
	}
	return faces()[0]
}

// printable is a text as the fonts can set it: letters put together with their accents, blanks of every kind as blanks, and
// a box for what the fonts do not have. People paste all sorts of things into a title.
func printable(s string, bold bool) string {
	f := faceOf(bold)
	f.mu.Lock()
	defer f.mu.Unlock()
	return strings.Map(func(r rune) rune {
		if r == '\t' || r == '\n' || r == '\r' {
			return ' '
		}
		if _, ok := f.width(r); !ok {
			return missing
		}
		return r
	}, norm.NFC.String(s))
}

// TextWidth is how wide a text runs, mm.
func TextWidth(s string, size float64, bold bool) float64 {
	f := faceOf(bold)
	f.mu.Lock()
	defer f.mu.Unlock()
	w := 0.0
	for _, r := range s {
		letter, ok := f.width(r)
		if !ok {
			letter, _ = f.width(missing)
		}
		w += letter
	}
	return w * size
}
