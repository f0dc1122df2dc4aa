package draw

// Below puts pictures one below the other, for screens, which have no pages. It has the title of the first.
func Below(pictures ...*Picture) *Picture {
	all := &Picture{}
	for _, p := range pictures {
		if all.Title == "" {
			all.Title = p.Title
		}
		for _, m := range p.Marks {
			all.Marks = append(all.Marks, m.placed(0, all.Height, 1))
		}
		all.Width = max(all.Width, p.Width)
		all.Height += p.Height
	}
	return all
}

// placed is the mark drawn at a scale with the picture's corner at x, y. Lines keep their widths.
func (s Stroke) placed(x, y, scale float64) Mark { s.Points = placed(s.Points, x, y, scale); return s }

func (f Fill) placed(x, y, scale float64) Mark { f.Points = placed(f.Points, x, y, scale); return f }

func (t Text) placed(x, y, scale float64) Mark {
	t.X, t.Y, t.Size = x+t.X*scale, y+t.Y*scale, t.Size*scale
	return t
}

func placed(ps []Point, x, y, scale float64) []Point {
	list := make([]Point, len(ps))
	for i, p := range ps {
		list[i] = Point{x + p.X*scale, y + p.Y*scale}
	}
	return list
}
