package schedule

// forest finds the cheapest way to give every job one thing that comes before it, without circles: a directed tree of
// least weight for each root (Edmonds), grown along paths on a dense table in O(jobs × sources), where the sources are
// the jobs, by number, and then the roots.
//
// From any job a path is followed backwards along the cheapest arcs. Where it bites its tail, the circle becomes one
// node: an arc into it from outside replaces one of its own, so it costs what it costs less that one. Where the path
// meets a root or a finished path, it is finished. At the end the circles are opened again.
type forest struct {
	jobs, sources int
	rows          []circleRow
	groups        []int // of each job and root: the outermost node it is in, by way of parents
	parent        []int // of each node: the circle it is in, -1 when in none
	into          []arc // of each node: the arc chosen into it
	paid          []Time
	state         []int // of each node: the path it is on, done, or 0
	members       [][]int
	path          []int
}

// arc is a price and its ends.
type arc struct {
	price    Time
	from, to int
}

// circleRow is what it costs to come to a node from each source, and at which job one arrives.
type circleRow struct {
	price []Time
	to    []int
}

const finished = -1

// grow returns for each job what comes before it and the sum of the prices. price must be a table by job and source.
func grow(jobs, sources int, price []Time) (before []int, sum Time) {
	f := &forest{jobs: jobs, sources: sources}
	for n := range sources {
		f.add(nil)
		if n >= jobs {
			f.state[n] = finished
			continue
		}
		row := circleRow{price: append([]Time(nil), price[n*sources:(n+1)*sources]...), to: make([]int, sources)}
		for i := range row.to {
			row.to[i] = n
		}
		f.rows[n] = row
	}
	for j := range jobs {
		f.follow(j)
	}
	f.open()
	before = make([]int, jobs)
	for j := range before {
		before[j] = f.into[j].from
		sum += price[j*sources+before[j]]
	}
	return before, sum
}

// add makes a new node of the given members and returns its number.
func (f *forest) add(members []int) int {
	f.rows = append(f.rows, circleRow{})
	f.parent = append(f.parent, -1)
	f.into = append(f.into, arc{})
	f.paid = append(f.paid, 0)
	f.state = append(f.state, 0)
	f.members = append(f.members, members)
	n := len(f.parent) - 1
	for _, m := range members {
		f.parent[m] = n
	}
	if n < f.sources {
		f.groups = append(f.groups, n)
	}
	return n
}

// group is the outermost node that a source is in.
func (f *forest) group(source int) int {
	n := f.groups[source]
	for f.parent[n] >= 0 {
		n = f.parent[n]
	}
	f.groups[source] = n
	return n
}

// follow grows a path backwards from a job until it meets what is finished.
func (f *forest) follow(job int) {
	f.path = f.path[:0]
	mark := job + 1
	for n := f.group(job); f.state[n] != finished; {
		if f.state[n] == mark {
			n = f.contract(n)
		}
		f.state[n] = mark
		f.path = append(f.path, n)
		f.into[n] = f.cheapest(n)
		f.paid[n] = f.into[n].price
		n = f.group(f.into[n].from)
	}
	for _, n := range f.path {
		f.state[n] = finished
	}
}

// cheapest is the cheapest arc into a node from outside.
func (f *forest) cheapest(n int) arc {
	best := arc{price: 1<<63 - 1}
	row := f.rows[n]
	for from, price := range row.price {
		if price < best.price && f.group(from) != n {
			best = arc{price: price, from: from, to: row.to[from]}
		}
	}
	return best
}

// contract makes one node of the circle that ends the path and begins at n.
func (f *forest) contract(n int) int {
	at := len(f.path) - 1
	for f.path[at] != n {
		at--
	}
	circle := f.add(append([]int(nil), f.path[at:]...))
	f.path = f.path[:at]
	row := f.rows[n]
	for from := range row.price {
		row.price[from] -= f.paid[n]
	}
	for _, m := range f.members[circle] {
		if m == n {
			continue
		}
		other := f.rows[m]
		for from, price := range other.price {
			if price -= f.paid[m]; price < row.price[from] {
				row.price[from], row.to[from] = price, other.to[from]
			}
		}
	}
	f.rows[circle] = row
	return circle
}

// open undoes the circles, the outermost first: the member at which the arc into the circle arrives takes that arc, the
// others keep theirs.
func (f *forest) open() {
	for circle := len(f.parent) - 1; circle >= f.sources; circle-- {
		in := f.into[circle]
		n := in.to
		for f.parent[n] != circle {
			n = f.parent[n]
		}
		f.into[n] = in
	}
}
