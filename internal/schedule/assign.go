package schedule

// impossible is the price of a pair that may not be assigned; sums of it stay below the largest integer.
const impossible Time = 1 << 48

// assign gives every row a column of its own at the least sum of prices, by successive shortest paths with dual prices
// (the Hungarian method), in O(rows² × columns). There must be at least as many columns as rows.
func assign(rows, columns int, price func(row, column int) Time) Time {
	h := &hungarian{
		price: price, rowDual: make([]Time, rows+1), columnDual: make([]Time, columns+1),
		row: make([]int, columns+1), way: make([]int, columns+1), slack: make([]Time, columns+1), seen: make([]bool, columns+1),
	}
	for r := 1; r <= rows; r++ {
		h.insert(r)
	}
	var sum Time
	for c := 1; c <= columns; c++ {
		if h.row[c] > 0 {
			sum += price(h.row[c]-1, c-1)
		}
	}
	return sum
}

// hungarian counts rows and columns from 1; column 0 holds the row that is being inserted.
type hungarian struct {
	price               func(row, column int) Time
	rowDual, columnDual []Time
	row                 []int // of each column, 0 when free
	way                 []int // of each column: the one before it on the shortest path
	slack               []Time
	seen                []bool
}

func (h *hungarian) insert(r int) {
	for c := range h.slack {
		h.slack[c], h.seen[c] = 1<<60, false
	}
	h.row[0] = r
	at := 0
	for h.row[at] != 0 {
		at = h.step(at)
	}
	for at != 0 {
		before := h.way[at]
		h.row[at] = h.row[before]
		at = before
	}
}

// step settles one column and returns the next nearest.
func (h *hungarian) step(at int) int {
	h.seen[at] = true
	r, next, least := h.row[at], 0, Time(1<<60)
	for c := 1; c < len(h.row); c++ {
		if h.seen[c] {
			continue
		}
		if s := h.price(r-1, c-1) - h.rowDual[r] - h.columnDual[c]; s < h.slack[c] {
			h.slack[c], h.way[c] = s, at
		}
		if h.slack[c] < least {
			least, next = h.slack[c], c
		}
	}
	for c := range h.row {
		if h.seen[c] {
			h.rowDual[h.row[c]] += least
			h.columnDual[c] -= least
		} else {
			h.slack[c] -= least
		}
	}
	return next
}
