package draw

import (
	"bytes"
	"fmt"
	"time"

	"codeberg.org/go-pdf/fpdf"
	"golang.org/x/image/font/gofont/gobold"
	"golang.org/x/image/font/gofont/goregular"
)

// Document is what a PDF says of itself.
type Document struct {
	Title   string
	Lang    string    // such as "en"
	Created time.Time // told from outside, so that the same pages give the same bytes
}

// PDF writes the pages, each at its own size and at full scale.
func PDF(d Document, pages []*Picture) ([]byte, error) {
	f := fpdf.NewCustom(&fpdf.InitType{UnitStr: "mm", Size: fpdf.SizeType{Wd: 210, Ht: 297}})
	f.SetTitle(printable(d.Title, false), true)
	f.SetLang(d.Lang)
	f.SetProducer("foldwright", false)
	f.SetCreator("foldwright", false)
	f.SetCreationDate(d.Created.UTC())
	f.SetModificationDate(d.Created.UTC())
	f.SetCatalogSort(true)
	f.SetMargins(0, 0, 0)
	f.SetAutoPageBreak(false, 0)
	f.AddUTF8FontFromBytes(family, "", goregular.TTF)
	f.AddUTF8FontFromBytes(family, "B", gobold.TTF)
	for _, p := range pages {
		f.AddPageFormat("P", fpdf.SizeType{Wd: p.Width, Ht: p.Height})
		for _, m := range p.Marks {
			pdfMark(f, m)
		}
	}
	var out bytes.Buffer
	if err := f.Output(&out); err != nil {
		return nil, fmt.Errorf("writing the PDF %q: %w", d.Title, err)
	}
	return out.Bytes(), nil
}

func pdfMark(f *fpdf.Fpdf, m Mark) {
	switch m := m.(type) {
	case Stroke:
		c := rgb[m.Pen.Ink]
		f.SetDrawColor(int(c[0]), int(c[1]), int(c[2]))
		f.SetLineWidth(m.Pen.Width)
		f.SetDashPattern(append([]float64{}, m.Pen.dash()...), 0)
		pdfPath(f, m.Points, m.Closed, "D")
	case Fill:
		c := rgb[m.Ink]
		f.SetFillColor(int(c[0]), int(c[1]), int(c[2]))
		pdfPath(f, m.Points, true, "F")
	case Text:
		pdfText(f, m)
	}
}

func pdfPath(f *fpdf.Fpdf, ps []Point, closed bool, style string) {
	for i, p := range ps {
		if i == 0 {
			f.MoveTo(p.X, p.Y)
		} else {
			f.LineTo(p.X, p.Y)
		}
	}
	if closed {
		f.ClosePath()
	}
	f.DrawPath(style)
}

func pdfText(f *fpdf.Fpdf, t Text) {
	style := ""
	if t.Bold {
		style = "B"
	}
	f.SetFont(family, style, t.Size*72/25.4)
	c := rgb[t.Ink]
	f.SetTextColor(int(c[0]), int(c[1]), int(c[2]))
	x := t.X
	switch t.Anchor {
	case Middle:
		x -= TextWidth(t.String, t.Size, t.Bold) / 2
	case End:
		x -= TextWidth(t.String, t.Size, t.Bold)
	}
	if t.Turns == 0 {
		f.Text(x, t.Y, t.String)
		return
	}
	f.TransformBegin()
	f.TransformRotate(90*float64(t.Turns), t.X, t.Y)
	f.Text(x, t.Y, t.String)
	f.TransformEnd()
}
