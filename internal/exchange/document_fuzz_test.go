package exchange

import (
	"testing"
	"time"

	"github.com/google/go-cmp/cmp"
	"github.com/google/go-cmp/cmp/cmpopts"

	"foldwright/internal/fault"
	"foldwright/internal/shop"
)

// What the floor sends does not panic; it is refused with a place and a reason, or read and written back the same.
func FuzzReadRecord(f *testing.F) {
	berlin, err := time.LoadLocation("Europe/Berlin")
	if err != nil {
		f.Fatal(err)
	}
	s := &shop.Shop{Zone: berlin}
	f.Add([]byte(`{"job":"2107","folder":"alder","start":"2026-10-25T02:30","sheets":12000,"planned_min":22.3333}`))
	f.Add([]byte(`{"job":"2107","folder":"alder","start":"2026-03-02T08:00:00.5Z","plates":[{"where":"a","set_mm":305,"was_mm":-0.000001}]}`))
	f.Add([]byte(`{"planned_min":1e-9,"plates":[null],"version":9223372036854775808}`))
	f.Fuzz(func(t *testing.T, data []byte) {
		r, err := Records().Read(data, s)
		if err != nil {
			for _, one := range fault.All(err) {
				if one.Wrong == "" || one.Code == "" || one.Kind != fault.Input {
					t.Errorf("a fault that says too little: %+v", one)
				}
			}
			return
		}
		text := Records().Write(r, s)
		again, err := Records().Read(text, s)
		if err != nil {
			t.Fatalf("%v\n%s", err, text)
		}
		if diff := cmp.Diff(r, again, cmpopts.EquateEmpty()); diff != "" {
			t.Fatalf("%s\n%s", diff, text)
		}
	})
}
