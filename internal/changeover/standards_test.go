package changeover

import (
	"reflect"
	"slices"
	"testing"
	"time"

	"foldwright/internal/tooling"
)

func sorted(places []float64) tooling.Pattern {
	slices.Sort(places)
	return perforations(slices.Compact(places)...)
}

func TestDefaultIsSound(t *testing.T) {
	if list := Default().Check(); len(list) > 0 {
		t.Fatal(list)
	}
}

// Fields names every duration of the struct once, in the struct's order, with unlike names.
func TestFieldsAreComplete(t *testing.T) {
	s := Default()
	var want []*time.Duration
	var walk func(v reflect.Value)
	walk = func(v reflect.Value) {
		for i := range v.NumField() {
			if f := v.Field(i); f.Kind() == reflect.Struct {
				walk(f)
			} else {
				want = append(want, f.Addr().Interface().(*time.Duration))
			}
		}
	}
	walk(reflect.ValueOf(&s).Elem())
	names := map[string]bool{}
	var got []*time.Duration
	for _, f := range s.Fields() {
		got = append(got, f.Value)
		if names[f.Name] || f.What == "" {
			t.Errorf("field %q is named twice or says nothing", f.Name)
		}
		names[f.Name] = true
	}
	if !slices.Equal(got, want) {
		t.Fatalf("%d fields for %d durations, or another order", len(got), len(want))
	}
}

func TestStandardsFaults(t *testing.T) {
	for _, c := range []struct {
		name  string
		spoil func(*Standards)
		want  string
	}{
		{
			"negative", func(s *Standards) { s.Stop = -time.Minute },
			"stop: -1 min for each plate stop or knife stop moved; whole seconds, 0 to 4 h [standard-minutes]",
		},
		{
			"too long", func(s *Standards) { s.Docket = 5 * time.Hour },
			"docket: 5 h for each job: docket read, pile fetched, counter and delivery set; whole seconds, 0 to 4 h [standard-minutes]",
		},
		{
			"broken second", func(s *Standards) { s.Guide = 1500 * time.Millisecond },
			"guide: 1.5 s for each side guide moved; whole seconds, 0 to 4 h [standard-minutes]",
		},
		{
			"turn dearer than coupling", func(s *Standards) { s.Turn = 7 * time.Minute },
			"turn: turning the way into a unit takes 7 min, coupling it only 6 min; at most 6 min [standard-minutes]",
		},
		{
			"slide dearer than both", func(s *Standards) { s.AtBench.Slide = 4 * time.Minute },
			"bench_slide: sliding a tool takes 4 min, taking it off and fitting it only 3 min 30 s; at most 3 min 30 s [standard-minutes]",
		},
	} {
		t.Run(c.name, func(t *testing.T) {
			s := Default()
			c.spoil(&s)
			if got := s.Check().Error(); got != c.want {
				t.Fatalf("got\n%s\nwant\n%s", got, c.want)
			}
		})
	}
}
