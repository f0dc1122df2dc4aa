package fold_test

import (
	"fmt"

	"foldwright/internal/fold"
	"foldwright/internal/units"
)

func Example() {
	scheme, err := fold.Parse("up 1/2, left, up 1/2, left, up 1/2")
	if err != nil {
		panic(err)
	}
	f, err := scheme.Apply(fold.Sheet{Length: 860 * units.Millimetre, Width: 610 * units.Millimetre})
	if err != nil {
		panic(err)
	}
	end := f.Finished()
	fmt.Printf("%s × %s, %d layers\n", end.Length.Format(false), end.Width.Format(false), end.Layers)
	for _, p := range f.Panels {
		fmt.Printf("s from %3.0f, t from %3.0f: layer %d, folios %d and %d, head %s\n",
			p.S[0].MM(), p.T[0].MM(), p.Layer, p.TopFolio, p.BottomFolio, p.Head)
	}
	// Output:
	// 215 mm × 305 mm, 8 layers
	// s from   0, t from   0: layer 6, folios 6 and 5, head t+
	// s from   0, t from 305: layer 7, folios 3 and 4, head t-
	// s from 215, t from   0: layer 3, folios 11 and 12, head t+
	// s from 215, t from 305: layer 2, folios 14 and 13, head t-
	// s from 430, t from   0: layer 4, folios 10 and 9, head t+
	// s from 430, t from 305: layer 1, folios 15 and 16, head t-
	// s from 645, t from   0: layer 5, folios 7 and 8, head t+
	// s from 645, t from 305: layer 8, folios 2 and 1, head t-
}

func ExampleFind() {
	// A sheet folded once in the middle: 4 and 1 are seen, 2 and 3 are behind.
	found, err := fold.Find(fold.FolioMap{AlongS: 2, AlongT: 1, Top: []int{4, 1}, Bottom: []int{3, 2}})
	if err != nil {
		panic(err)
	}
	for _, f := range found {
		fmt.Println(f.Scheme, "folio 1", f.Scheme.First, "leading", f.Feeds[0].Leading, "top", f.Feeds[0].Up)
	}
	// Output:
	// down 1/2 folio 1 up leading s0 top up
	// down 1/2 folio 1 down leading s1 top up
	// up 1/2 folio 1 down leading s0 top down
	// up 1/2 folio 1 up leading s1 top down
}
