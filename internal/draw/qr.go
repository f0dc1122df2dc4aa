package draw

import (
	"fmt"

	qr "github.com/piglig/go-qr"
)

// QuietZone is the empty margin a QR code needs on every side, in modules (ISO/IEC 18004).
const QuietZone = 4

// QR is a code ready to be drawn.
type QR struct {
	Modules int // along a side, without the quiet zone
	dark    func(x, y int) bool
}

// NewQR makes a code of error level M, which stands some dirt. The text must be ASCII, so that every scanner reads it the
// same way.
func NewQR(text string) (*QR, error) {
	for _, r := range text {
		if r < 0x20 || r > 0x7e {
			return nil, fmt.Errorf("QR code of %q: only ASCII characters are read alike by all scanners", text)
		}
	}
	code, err := qr.EncodeText(text, qr.Medium)
	if err != nil {
		return nil, fmt.Errorf("QR code of %q: %w", text, err)
	}
	return &QR{Modules: code.Size(), dark: code.Module}, nil
}

// Side is the side of the code with its quiet zone at a module size, mm.
func (q *QR) Side(module float64) float64 { return float64(q.Modules+2*QuietZone) * module }

// QR draws a code with its quiet zone into the square whose upper left corner is x, y.
func (p *Picture) QR(x, y, module float64, q *QR) {
	side := q.Side(module)
	p.Area(Box{x, y, side, side}, White)
	for row := range q.Modules {
		for col := 0; col < q.Modules; col++ {
			run := col
			for run < q.Modules && q.dark(run, row) {
				run++
			}
			if run > col {
				p.Area(Box{x + float64(col+QuietZone)*module, y + float64(row+QuietZone)*module, float64(run-col) * module, module}, Black)
				col = run
			}
		}
	}
}
