package settings

import "testing"

// Streams are counted by what a cut leaves on either side: the sheet is 310 mm wide and folded across the cuts.
func TestStreams(t *testing.T) {
	for name, c := range map[string]struct {
		operations []string
		streams    int
	}{
		"no cut":                       {nil, 1},
		"two-up":                       {[]string{"slit at t 155"}, 2},
		"two-up with a strip":          {[]string{"slit at t 155 strip 6 mm two-up"}, 2},
		"three-up":                     {[]string{"slit at t 100", "slit at t 205"}, 3},
		"edges trimmed":                {[]string{"slit at t 4", "slit at t 306"}, 1},
		"edges trimmed, two-up":        {[]string{"slit at t 4", "slit at t 155 strip 6 mm two-up", "slit at t 306"}, 2},
		"a broad edge falls off":       {[]string{"slit at t 40 mm one-up"}, 1},
		"a narrow piece that is meant": {[]string{"slit at t 30 mm strip 44 mm two-up"}, 2},
	} {
		t.Run(name, func(t *testing.T) {
			j, folded := docket(t, 420*mm, 310*mm, "up 1/2", c.operations...)
			f := combination()
			f.Units[0].Stations = append(f.Units[0].Stations, f.Units[0].Stations[0])
			h := house()
			best, miss := Best(j, folded, f, h)
			if miss != nil {
				t.Fatal(miss.Why())
			}
			if best.Streams != c.streams {
				t.Errorf("%d streams, want %d", best.Streams, c.streams)
			}
		})
	}
}
