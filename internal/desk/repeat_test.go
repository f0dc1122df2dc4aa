package desk_test

import (
	"testing"
	"time"

	"foldwright/internal/access"
	"foldwright/internal/desk"
	"foldwright/internal/job"
)

func TestRepeat(t *testing.T) {
	d := kept(t)
	lead := as(t, access.Lead)
	due := shopNow(t, d).Now.Add(48 * time.Hour)
	if _, err := d.Pin(lead, "2101", job.Pin{Folder: "birch", Position: 1}); err != nil {
		t.Fatal(err)
	}
	first, err := d.Repeat(lead, "2101", desk.RepeatAsk{Due: due, Sheets: 900})
	if err != nil {
		t.Fatal(err)
	}
	was, _ := shopNow(t, d).Job("2101")
	got := first.Value.(job.Job)
	if got.Name != "2101-2" || !got.Due.Equal(due) || got.Sheets != 900 || got.Pin != (job.Pin{}) || got.Given != "" || got.After != nil {
		t.Errorf("the repeat is %+v", got)
	}
	if got.Title != was.Title || got.Sheet != was.Sheet || got.Scheme.String() != was.Scheme.String() || len(got.Operations) != len(was.Operations) || got.Stock != was.Stock {
		t.Errorf("the repeat folds %+v, the first %+v", got, was)
	}
	second, err := d.Repeat(lead, "2095", desk.RepeatAsk{Name: "3001", Title: "again"}) // one that is done
	if err != nil || second.Name != "3001" || second.Value.(job.Job).Title != "again" {
		t.Errorf("%v, %v", second, err)
	}
	if third, err := d.Repeat(lead, "2101", desk.RepeatAsk{}); err != nil || third.Name != "2101-3" {
		t.Errorf("%v, %v", third.Name, err)
	}
	_, err = d.Repeat(lead, "2101", desk.RepeatAsk{Name: "3001"})
	wantFault(t, err, "name-taken")
	_, err = d.Repeat(lead, "21o1", desk.RepeatAsk{})
	wantFault(t, err, "unknown-name")
	_, err = d.Repeat(as(t, access.Operator), "2101", desk.RepeatAsk{})
	wantFault(t, err, "not-allowed")
}
