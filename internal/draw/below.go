package draw

// Below puts pictures one below the other, for screens, which have no pages. It has the title of the first.
func Below(pictures ...*Picture) *Picture {
	all := &Picture{}
	for _, p := range pictures {
		if all.Title == "" {
			all.Title = p.Title
		}
		for _, m := range p.Marks {
			all.Marks = append(all.Marks, m.lowered(all.Height))
		}
		all.Width = max(all.Width, p.Width)
		all.Height += p.Height
	}
	return all
}

func (s Stroke) lowered(by float64) Mark { s.Points = lowered(s.Points, by); return s }
func (f Fill) lowered(by float64) Mark   { f.Points = lowered(f.Points, by); return f }
func (t Text) lowered(by float64) Mark   { t.Y += by; return t }

func lowered(ps []Point, by float64) []Point {
	list := make([]Point, len(ps))
	for i, p := range ps {
		list[i] = Point{p.X, p.Y + by}
	}
	return list
}
