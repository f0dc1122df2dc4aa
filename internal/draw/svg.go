package draw

import (
	"encoding/xml"
	"fmt"
	"strconv"
	"strings"
)

// SVG writes the picture as a document of its own. Inks are also classes (ink-blue), so that a page can recolour them.
func (p *Picture) SVG() []byte {
	var b strings.Builder
	fmt.Fprintf(&b, `<svg xmlns="http://www.w3.org/2000/svg" width="%smm" height="%smm" viewBox="0 0 %s %s" role="img" font-family="%s, system-ui, sans-serif">`+"\n",
		num(p.Width), num(p.Height), num(p.Width), num(p.Height), family)
	if p.Title != "" {
		fmt.Fprintf(&b, "<title>%s</title>\n", escape(p.Title))
	}
	for _, m := range p.Marks {
		switch m := m.(type) {
		case Stroke:
			svgStroke(&b, m)
		case Fill:
			fmt.Fprintf(&b, `<path class="fill-%s" fill="%s" d="%s"/>`+"\n", inkNames[m.Ink], hex(m.Ink), pathData(m.Points, true))
		case Text:
			svgText(&b, m)
		}
	}
	b.WriteString("</svg>\n")
	return []byte(b.String())
}

func svgStroke(b *strings.Builder, s Stroke) {
	fmt.Fprintf(b, `<path class="ink-%s" fill="none" stroke="%s" stroke-width="%s"`, inkNames[s.Pen.Ink], hex(s.Pen.Ink), num(s.Pen.Width))
	if d := s.Pen.dash(); d != nil {
		parts := make([]string, len(d))
		for i, x := range d {
			parts[i] = num(x)
		}
		fmt.Fprintf(b, ` stroke-dasharray="%s"`, strings.Join(parts, " "))
	}
	fmt.Fprintf(b, ` d="%s"/>`+"\n", pathData(s.Points, s.Closed))
}

func svgText(b *strings.Builder, t Text) {
	fmt.Fprintf(b, `<text class="fill-%s" x="%s" y="%s" font-size="%s" fill="%s"`, inkNames[t.Ink], num(t.X), num(t.Y), num(t.Size), hex(t.Ink))
	if t.Bold {
		b.WriteString(` font-weight="bold"`)
	}
	if w := TextWidth(t.String, t.Size, t.Bold); w > 0 {
		fmt.Fprintf(b, ` textLength="%s" lengthAdjust="spacingAndGlyphs"`, num(w)) // the room is the same in any font
	}
	if t.Anchor != Start {
		fmt.Fprintf(b, ` text-anchor="%s"`, [...]string{Middle: "middle", End: "end"}[t.Anchor])
	}
	if t.Turns != 0 {
		fmt.Fprintf(b, ` transform="rotate(%d %s %s)"`, -90*t.Turns, num(t.X), num(t.Y))
	}
	fmt.Fprintf(b, ">%s</text>\n", escape(t.String))
}

func pathData(ps []Point, closed bool) string {
	var b strings.Builder
	for i, p := range ps {
		if i == 0 {
			b.WriteByte('M')
		} else {
			b.WriteByte('L')
		}
		b.WriteString(num(p.X))
		b.WriteByte(' ')
		b.WriteString(num(p.Y))
	}
	if closed {
		b.WriteByte('Z')
	}
	return b.String()
}

// num writes millimetres to the micrometre, without needless zeros.
func num(x float64) string {
	s := strconv.FormatFloat(x, 'f', 3, 64)
	s = strings.TrimRight(strings.TrimRight(s, "0"), ".")
	if s == "-0" {
		return "0"
	}
	return s
}

func hex(i Ink) string { return fmt.Sprintf("#%02x%02x%02x", rgb[i][0], rgb[i][1], rgb[i][2]) }

func escape(s string) string {
	var b strings.Builder
	_ = xml.EscapeText(&b, []byte(s)) // a strings.Builder does not fail
	return b.String()
}
