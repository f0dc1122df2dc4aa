package desk_test

import (
	"testing"

	"foldwright/internal/access"
	"foldwright/internal/demo"
)

func TestImport(t *testing.T) {
	d := kept(t)
	whole, err := demo.Shop()
	if err != nil {
		t.Fatal(err)
	}
	whole.Jobs = whole.Jobs[:3]
	whole.Name = "Another bindery"
	_, err = d.Import(as(t, access.Lead), whole, true)
	wantFault(t, err, "not-allowed")
	_, err = d.Import(signed(t), whole, false)
	wantFault(t, err, "shop-exists")
	if got := len(shopNow(t, d).Jobs); got == 3 {
		t.Fatal("what was refused was taken in")
	}
	before, _ := d.Snapshot(signed(t))
	now, err := d.Import(signed(t), whole, true)
	if err != nil {
		t.Fatal(err)
	}
	if now.Shop.Name != "Another bindery" || len(now.Shop.Jobs) != 3 {
		t.Errorf("%s with %d jobs", now.Shop.Name, len(now.Shop.Jobs))
	}
	same, _ := before.Tag("set", "W-04")
	if kept, _ := now.Tag("set", "W-04"); kept != same {
		t.Errorf("a set that stayed as it was is %+v, was %+v", kept, same)
	}
	nowhere, _ := demoDesk(t)
	_, err = nowhere.Import(signed(t), whole, true)
	wantFault(t, err, "no-backup")
}
