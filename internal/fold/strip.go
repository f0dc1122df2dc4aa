package fold

// A fold moves every point by its distance along the travel alone, whatever lies across it, and a turn only swaps the two
// directions. So where a point of the sheet comes to lie along one direction of the stack depends on one of its flat
// coordinates only: folding a sheet is folding two paper strips, one for each axis, and a panel is a pair of their
// pieces. Everything here rests on that. Which of two panels lies above is read off the folds that moved them (see key).

// piece is a part of a strip between creases. Its point x of the flat sheet lies at sign·x + off in the stack.
type piece struct {
	from, to int64 // on the flat sheet
	off      int64
	sign     int64  // +1 or −1
	moved    uint32 // bit k is set when fold k (from 0) moved the piece
}

func (p *piece) place(x int64) int64 { return p.sign*x + p.off }

// span is the range the piece covers in the stack.
func (p *piece) span() (lo, hi int64) {
	lo, hi = p.place(p.from), p.place(p.to)
	if lo > hi {
		lo, hi = hi, lo
	}
	return lo, hi
}

// strip is the pieces in the order of the flat sheet.
type strip []piece

func flatStrip(length int64) piece { return piece{to: length, sign: 1} }

// fold folds the strip's leading part [0, d] over; the fold becomes place 0. It appends to out, which must not share
// memory with s, and hands each new crease to made.
func (s strip) fold(d int64, bit uint32, out strip, made func(at int64)) strip {
	for _, p := range s {
		lo, hi := p.span()
		switch {
		case hi <= d:
			out = append(out, p.over(d, bit))
		case lo >= d:
			out = append(out, p.rest(d))
		default:
			at := (d - p.off) * p.sign
			head, tail := p, p // of the flat sheet: below at, above at
			head.to, tail.from = at, at
			if p.sign > 0 {
				head, tail = head.over(d, bit), tail.rest(d)
			} else {
				head, tail = head.rest(d), tail.over(d, bit)
			}
			out = append(out, head, tail)
			made(at)
		}
	}
	return out
}

// over is the piece mirrored at d.
func (p piece) over(d int64, bit uint32) piece {
	p.sign, p.off, p.moved = -p.sign, d-p.off, p.moved|bit
	return p
}

// rest is the piece that stays; only the frame moves to the new leading edge.
func (p piece) rest(d int64) piece {
	p.off -= d
	return p
}

// mirror turns the frame end for end: place becomes length − place.
func (s strip) mirror(length int64) {
	for i := range s {
		s[i].sign, s[i].off = -s[i].sign, length-s[i].off
	}
}

// most is the greatest number of pieces over any place.
func (s strip) most() int {
	most := 0
	for i := range s {
		lo, _ := s[i].span()
		n := 0 // the greatest number is reached just above the lower end of some piece
		for j := range s {
			if a, b := s[j].span(); a <= lo && lo < b {
				n++
			}
		}
		most = max(most, n)
	}
	return most
}
