package schedule

import (
	"strings"
	"testing"

	"pgregory.net/rapid"
)

func TestCheck(t *testing.T) {
	for _, c := range []struct {
		name   string
		change func(*Problem)
		want   string
	}{
		{
			"windows that overlap", func(p *Problem) { p.Machines[0].Windows = []Window{{0, 10}, {5, 20}} },
			"window 1 of machine 0 is [5, 20); windows must ascend from 0, not overlap and not be empty",
		},
		{
			"an empty window", func(p *Problem) { p.Machines[0].Windows = []Window{{3, 3}} },
			"window 0 of machine 0 is [3, 3); windows must ascend from 0, not overlap and not be empty",
		},
		{
			"an open window in the middle", func(p *Problem) { p.Machines[0].Windows = []Window{{0, Forever}, {Forever, Forever + 1}} },
			"no window but an open last one may pass",
		},
		{"run times for too few machines", func(p *Problem) { p.Jobs[0].Run = nil }, "job 0 has run times for 0 machines; there are 1"},
		{"a job for no machine", func(p *Problem) { p.Jobs[0].Run[0] = -1 }, "job 0 can run nowhere; leave it out or give it a machine"},
		{"a release before the start", func(p *Problem) { p.Jobs[0].Release = -1 }, "the release of job 0 is -1 s; it must be from 0 to"},
		{"a due time out of reach", func(p *Problem) { p.Jobs[0].Due = Forever - 1 }, "or Forever"},
		{"a negative weight", func(p *Problem) { p.Jobs[0].Weight = -1 }, "job 0 weighs -1; it must be from 0 to 1048576"},
		{"a table too few", func(p *Problem) { p.Setup = nil }, "there are set-up tables for 0 machines; there are 1 machines"},
		{"a row too few", func(p *Problem) { p.Setup[0] = p.Setup[0][:1] }, "the set-up table of machine 0 has 1 rows; it needs one a job and one for the present state, 3"},
		{"an entry too few", func(p *Problem) { p.Setup[0][1] = nil }, "row 1 of the set-up table of machine 0 has 0 entries; there are 2 jobs"},
		{"a negative set-up", func(p *Problem) { p.Setup[0][1][0] = -5 }, "the set-up on machine 0 from job 1 to job 0 is -5 s"},
		{"closing set-ups for too few machines", func(p *Problem) { p.Closing = [][]Time{} }, "there are closing set-ups for 0 machines"},
		{"a closing set-up too few", func(p *Problem) { p.Closing = [][]Time{{1}} }, "machine 0 has 1 closing set-ups; there are 2 jobs"},
		{"a negative closing set-up", func(p *Problem) { p.Closing = [][]Time{{1, -1}} }, "the closing set-up on machine 0 after job 1 is -1 s"},
		{"a rack too few", func(p *Problem) { p.Racks = []Rack{} }, "there are racks for 0 machines"},
		{"a rack below none", func(p *Problem) { p.Racks = []Rack{{Places: -1}} }, "the rack of machine 0 has -1 places"},
		{"needs of too few jobs", func(p *Problem) { p.Racks = []Rack{{Places: 1}} }, "the rack of machine 0 lists the needs of 0 jobs; there are 2"},
		{"more needs than places", func(p *Problem) { p.Racks = []Rack{{Places: 1, Needs: [][]int{{0, 1}, nil}}} }, "job 0 needs 2 sets at once on machine 0, whose rack holds 1"},
		{"a set named twice", func(p *Problem) { p.Racks = []Rack{{Places: 2, Needs: [][]int{nil, {3, 3}}}} }, "job 1 names set 3 twice for machine 0"},
		{"a set below none", func(p *Problem) { p.Racks = []Rack{{Places: 2, Needs: [][]int{nil, {-1}}}} }, "a set that job 1 needs on machine 0 is -1"},
		{"loads without end", func(p *Problem) { p.Racks = []Rack{{Places: 2, Load: -1, Needs: [][]int{nil, nil}}} }, "the time to bring a set to the rack of machine 0 is -1 s"},
		{"a precedence of no job", func(p *Problem) { p.Precedences = []Precedence{{0, 2}} }, "the second job of precedence 0 is 2; there are 2, counted from 0"},
		{"a circle", func(p *Problem) { p.Precedences = []Precedence{{0, 1}, {1, 0}} }, "job 0 waits for itself by way of its precedences; break the circle"},
		{"started with nothing", func(p *Problem) { p.Machines[0].Started = true }, "machine 0 has started but no fixed job; name the job that is running"},
		{"fixed twice", func(p *Problem) { p.Machines[0].Fixed = []int{0, 0} }, "job 0 is fixed twice; fix it on one machine only"},
		{"fixed where it cannot run", func(p *Problem) {
			p.Machines = append(p.Machines, Machine{Windows: p.Machines[0].Windows, Fixed: []int{0}})
			p.Jobs[0].Run, p.Jobs[1].Run, p.Setup = []Time{1, -1}, []Time{1, 1}, append(p.Setup, p.Setup[0])
		}, "job 0 is fixed on machine 1, which cannot run it"},
		{"a negative price", func(p *Problem) { p.Weights.Late = -1 }, "a weight of the cost is -1; it must be from 0 to 1048576"},
		{"too large to add up", func(p *Problem) { p.Jobs[0].Run[0], p.Weights.Late, p.Jobs[0].Weight = mostTime, 1000, mostWeight }, "scale them down"},
		{"a class that is not there", func(p *Problem) { p.Tools.Patterns[1].Class = 1 }, "the class of pattern 1 is 1; there are 1, counted from 0"},
		{"types that do not ascend", func(p *Problem) { p.Tools.Patterns[1].Tools = []Count{{1, 1}, {0, 1}} }, "pattern 1 names 1 tools of type 0; types must ascend and numbers be at least 1"},
		{"fewer than no loose tools", func(p *Problem) { p.Tools.Loose[1] = -2 }, "there are -2 loose tools of type 1; there cannot be fewer than none"},
		{"two sets in a place", func(p *Problem) { p.Tools.Sets = append(p.Tools.Sets, Set{Station: 0}) }, "sets 0 and 1 both stand at station 0"},
		{"a set nowhere", func(p *Problem) { p.Tools.Sets[0].Station = 7 }, "the station of set 0 is 7; there are 1, counted from 0"},
		{"a person without order", func(p *Problem) { p.Tools.People[0].Windows = []Window{{5, 1}} }, "window 0 of bench person 0 is [5, 1)"},
		{"a small table", func(p *Problem) { p.Tools.OnBench = p.Tools.OnBench[1:] }, "OnBench has 3 rows; there are 4 patterns"},
		{"work between classes", func(p *Problem) {
			p.Tools.Classes = 2
			p.Tools.Patterns = append(p.Tools.Patterns, Pattern{Class: 1})
			for a := range p.Tools.InFolder {
				p.Tools.InFolder[a], p.Tools.OnBench[a] = append(p.Tools.InFolder[a], 9), append(p.Tools.OnBench[a], -1)
			}
			p.Tools.InFolder = append(p.Tools.InFolder, []Time{-1, -1, -1, -1, 0})
			p.Tools.OnBench = append(p.Tools.OnBench, []Time{-1, -1, -1, -1, 0})
		}, "InFolder makes pattern 0 of class 0 into pattern 4 of class 1; give a negative time"},
		{"a want too few", func(p *Problem) { p.Tools.Wants[1] = nil }, "job 1 has wants for 0 stations; there are 1"},
		{"a want of no pattern", func(p *Problem) { p.Tools.Wants[1][0].Pattern = 9 }, "the pattern that job 1 wants at station 0 is 9; there are 4, counted from 0"},
		{"a want that leaves out its own", func(p *Problem) { p.Tools.Wants[1][0].Pattern = 2 }, "the fits of job 1 at station 0 leave out pattern 2, which it wants; name it with its range"},
		{"fits that do not ascend", func(p *Problem) { p.Tools.Wants[1][0].Fits = []Fit{{2, 0, 1}, {0, 0, 1}} }, "the fits of job 1 at station 0 must ascend by pattern; 0 follows 2"},
		{"an empty range", func(p *Problem) { p.Tools.Wants[1][0].Fits[0].Lo = AnywhereHi + 1 }, "pattern 0 serves job 1 at station 0 with the guide from 1152921504606846977 to 1152921504606846976"},
	} {
		t.Run(c.name, func(t *testing.T) {
			p := shafts(2)
			if err := p.Check(); err != nil {
				t.Fatal(err)
			}
			c.change(p)
			if err := p.Check(); err == nil || !strings.Contains(err.Error(), c.want) {
				t.Errorf("got %v\nwant %q", err, c.want)
			}
		})
	}
}

func TestCheckOrder(t *testing.T) {
	p := two(3)
	p.Jobs[2].Run[1] = -1
	p.Machines[0].Fixed = []int{1}
	for _, c := range []struct {
		order Order
		want  string
	}{
		{Order{{1, 2}, {0}}, ""},
		{Order{{1, 2}}, "the order has rows for 1 machines; there are 2"},
		{Order{{1, 2}, {3}}, "machine 1 has job 3; there are 3 jobs, counted from 0"},
		{Order{{1}, {2, 0}}, "machine 1 has job 2, which it cannot run"},
		{Order{{1, 2}, {0, 1}}, "job 1 stands twice in the order; once is right"},
		{Order{{2, 1}, {0}}, "machine 0 must begin with its fixed jobs [1]"},
		{Order{{1}, {}}, "job 0 is missing from the order, with 1 others; every job must be there"},
	} {
		err := p.CheckOrder(c.order)
		if err == nil && c.want != "" || err != nil && err.Error() != c.want {
			t.Errorf("%v: got %v, want %q", c.order, err, c.want)
		}
	}
}

// Whatever number of a good problem is replaced by whatever other: Check answers, and what it accepts can be decoded,
// constructed and bounded, and the plan holds.
func TestCheckIsEnough(t *testing.T) {
	accepted := 0
	rapid.Check(t, func(t *rapid.T) {
		d := rapidDice(t)
		p := anyShape(d).draw(d)
		for range d(1, 3) {
			spoil(t, d, p)
		}
		if p.Check() != nil {
			return
		}
		accepted++
		Bound(p)
		order := Construct(p)
		if _, err := Evaluate(p, order, Decode(p, order)); err != nil {
			t.Fatal(err)
		}
	})
	if accepted < 5 {
		t.Errorf("only %d spoilt problems were accepted", accepted)
	}
}

// spoil replaces one number somewhere.
func spoil(t *rapid.T, d dice, p *Problem) {
	x := rapid.SampledFrom([]int64{-2, -1, 0, 1, 7, 1000, mostTime, Forever, 1 << 62}).Draw(t, "x")
	m, j := d(0, len(p.Machines)-1), d(0, len(p.Jobs)-1)
	switch d(0, 9) {
	case 0:
		p.Machines[m].Windows = append(p.Machines[m].Windows, Window{From: x, To: Forever})
	case 1:
		p.Machines[m].Fixed = append(p.Machines[m].Fixed, int(x))
	case 2:
		p.Jobs[j].Run[m] = x
	case 3:
		p.Jobs[j].Due = -x
	case 4:
		p.Setup[m][j][d(0, len(p.Jobs)-1)] = x
	case 5:
		p.Precedences = append(p.Precedences, Precedence{Before: j, After: d(-1, len(p.Jobs))})
	case 6:
		p.Weights.Setup = x
	default:
		if p.Tools != nil {
			spoilTools(d, p.Tools, x, j)
		}
	}
}

func spoilTools(d dice, t *Tooling, x int64, j int) {
	set, k, q := d(0, len(t.Sets)-1), d(0, len(t.Stations)-1), d(0, len(t.Patterns)-1)
	switch d(0, 8) {
	case 0:
		t.Sets[set].Pattern = int(x)
	case 1:
		t.Sets[set].Station = int(x)
	case 2:
		t.Stations[k].Swap = x
	case 3:
		t.Stations[k].Unit = int(x)
	case 4:
		t.Loose[0] = int(min(x, 100))
	case 5:
		t.Wants[j][k] = Want{Pattern: int(x), Fits: []Fit{{Pattern: q, Lo: -5, Hi: x}}}
	case 6:
		t.InFolder[q][d(0, len(t.Patterns)-1)] = x
	case 7:
		t.Patterns[q].Tools = append(t.Patterns[q].Tools, Count{Type: int(x), N: 1})
	case 8:
		t.Units[0].GuideAt = x
	}
}
