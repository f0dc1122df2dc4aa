package draw

import (
	"bytes"
	"fmt"
	"math"
	"slices"
	"strings"
	"testing"
	"time"

	"foldwright/internal/tooling"
	"foldwright/internal/words"
)

func pagesOf(t testing.TB, c interface {
	Pages(Paper, *words.Speaker) ([]*Picture, error)
}, paper Paper, say *words.Speaker,
) []*Picture {
	t.Helper()
	pages, err := c.Pages(paper, say)
	if err != nil {
		t.Fatal(err)
	}
	return pages
}

// One card is less than 200 kB, stands a general-purpose check, and carries its fonts, so that every printer sets the same
// letters.
func TestCardIsASoundFile(t *testing.T) {
	d := theDay(t)
	file, size := written(t, pagesOf(t, d.card(t, "2101"), A4, words.NewSpeaker(words.English, false)))
	if size >= 200_000 {
		t.Errorf("the file of one card has %d bytes, want less than 200 000", size)
	}
	if said := call(t, "qpdf", "--check", file); !strings.Contains(said, "No syntax or stream encoding errors found") {
		t.Errorf("qpdf says:\n%s", said)
	}
	fonts := strings.Split(strings.TrimSpace(call(t, "pdffonts", file)), "\n")[2:] // below the head and its rule
	if len(fonts) != 2 {
		t.Errorf("%d fonts, want regular and bold", len(fonts))
	}
	for _, line := range fonts {
		fields := strings.Fields(line) // … emb sub uni object ID
		if n := len(fields); n < 6 || fields[n-5] != "yes" || fields[n-3] != "yes" {
			t.Errorf("a font is not embedded, or its text cannot be searched: %s", line)
		}
	}
}

// What a card says can be searched, accents and all.
func TestCardCanBeSearched(t *testing.T) {
	d := theDay(t)
	for lang, want := range map[words.Lang][]string{
		words.English: {"2101", "Tide tables, section 1", "Unit 1, buckle", "side guide right", "make-ready in all", "Notes"},
		words.German:  {"2101", "Falzwerk 1, Tasche", "Rüsten zusammen", "anhalten und fragen"},
		words.Spanish: {"2101", "Unidad 1, bolsas", "preparación en total", "pare y pregunte"},
		words.French:  {"2101", "Groupe 1, poches", "calage au total", "Réglages réels, à la main"},
	} {
		file, _ := written(t, pagesOf(t, d.card(t, "2101"), A4, words.NewSpeaker(lang, false)))
		text := strings.Join(strings.Fields(call(t, "pdftotext", "-layout", file, "-")), " ")
		for _, w := range want {
			if !strings.Contains(text, w) {
				t.Errorf("%s: %q cannot be found in\n%s", lang, w, text)
			}
		}
	}
}

// The same pages give the same bytes.
func TestPDFIsRepeatable(t *testing.T) {
	d := theDay(t)
	say := words.NewSpeaker(words.French, true)
	doc := Document{Title: "x", Lang: "fr", Created: time.Date(2026, 3, 2, 6, 0, 0, 0, time.UTC)}
	first, err := PDF(doc, pagesOf(t, d.card(t, "2102"), Letter, say))
	if err != nil {
		t.Fatal(err)
	}
	second, err := PDF(doc, pagesOf(t, d.card(t, "2102"), Letter, words.NewSpeaker(words.French, true)))
	if err != nil {
		t.Fatal(err)
	}
	if !bytes.Equal(first, second) {
		t.Error("two runs give two files")
	}
}

// Goal: the strip can be laid along the shaft. Method: rasterise its pages at 300 dpi and measure, in pixels alone, the
// control length and where the line of every tool stands; all within 0.2 mm.
func TestStripIsFullScale(t *testing.T) {
	d := theDay(t)
	most := slices.MaxFunc(d.builds, func(a, b *BenchCard) int { return len(a.Want) - len(b.Want) })
	if len(most.Want) < 3 {
		t.Fatalf("the demo builds nothing with three tools or more")
	}
	for name, paper := range papers {
		strip := most.shaft(most.Want).Strip(paper, words.NewSpeaker(words.English, false))
		file, _ := written(t, strip)
		seen := map[int]bool{}
		for page := range strip {
			holdStripPage(t, fmt.Sprintf("%s, page %d", name, page+1), most, strip[page], page, pixelRows(t, file, page+1), seen)
		}
		if len(seen) != len(most.Want) {
			t.Errorf("%s: only %d of %d tools are drawn", name, len(seen), len(most.Want))
		}
	}
}

// pixelRows gives for a page the middles, in mm, of the black runs along a line so many mm from the top.
func pixelRows(t *testing.T, file string, page int) func(y float64) []float64 {
	const dpi = 300
	img := pixels(t, rastered(t, file, page, dpi))
	return func(y float64) (middles []float64) {
		row := img.row(int(y / 25.4 * dpi))
		for x := 0; x < len(row); x++ {
			start := x
			for x < len(row) && row[x] < 80 {
				x++
			}
			if x > start {
				middles = append(middles, float64(start+x)/2/dpi*25.4)
			}
		}
		return middles
	}
}

func holdStripPage(t *testing.T, what string, b *BenchCard, p *Picture, page int, black func(y float64) []float64, seen map[int]bool) {
	t.Helper()
	ends := black(181) // below the line of the control length, where only its ends reach
	if len(ends) != 2 || math.Abs(ends[1]-ends[0]-100) > 0.2 {
		t.Errorf("%s: the control length has its ends at %v, want them 100 mm apart", what, ends)
		return
	}
	from := float64(page) * (p.Width - 2*stripMargin - stripOverlap)
	for _, x := range black(133) { // between tools and ruler, where only the lines of the tools reach
		at := x - ends[0] + from // the control length starts where the strip does
		i := slices.IndexFunc(b.Want, func(w tooling.Tool) bool { return math.Abs(w.At.MM()-at) <= 0.2 })
		if i < 0 {
			t.Errorf("%s: a line stands %.2f mm from the datum, where no tool is wanted: %v", what, at, b.Want)
			continue
		}
		seen[i] = true
	}
}

// Goal: the codes open the right page. Method: an independent reader takes them from the rasterised page, at the
// resolutions of label printers and of offices.
func TestCodesAreReadFromThePage(t *testing.T) {
	d := theDay(t)
	say := words.NewSpeaker(words.English, false)
	card, build := d.card(t, "2101"), d.builds[0]
	for name, paper := range papers {
		holdCodes(t, "card on "+name, pagesOf(t, card, paper, say)[0], card.Address)
		holdCodes(t, "bench card on "+name, pagesOf(t, build, paper, say)[0], build.Address)
	}
	for _, stock := range Stocks() {
		pages, err := Labels(d.labels, stock, 0, say)
		if err != nil {
			t.Fatal(err)
		}
		var want []string
		for _, l := range d.labels[:min(len(d.labels), stock.Columns*stock.Rows)] {
			want = append(want, l.Address)
		}
		holdCodes(t, "labels on "+stock.Name, pages[0], want...)
	}
}

func holdCodes(t *testing.T, what string, page *Picture, want ...string) {
	t.Helper()
	slices.Sort(want)
	file, _ := written(t, []*Picture{page})
	for _, dpi := range []int{203, 300} {
		read := strings.Fields(call(t, "zbarimg", "--quiet", "--nodbus", "--raw", "-Sdisable", "-Sqrcode.enable", rastered(t, file, 1, dpi)))
		slices.Sort(read)
		if !slices.Equal(read, want) {
			t.Errorf("%s at %d dpi: read %v, want %v", what, dpi, read, want)
		}
	}
}

// BenchmarkCards draws the cards of the demo's day and writes them as one PDF.
func BenchmarkCards(b *testing.B) {
	d := theDay(b)
	say := words.NewSpeaker(words.English, false)
	for b.Loop() {
		var pages []*Picture
		for _, c := range d.cards {
			pages = append(pages, pagesOf(b, c, A4, say)...)
		}
		if _, err := PDF(Document{Title: "day", Lang: "en", Created: d.shop.Now}, pages); err != nil {
			b.Fatal(err)
		}
	}
	b.ReportMetric(float64(len(d.cards)), "cards/op")
}
