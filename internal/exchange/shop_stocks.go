package exchange

import (
	"foldwright/internal/paper"
	"foldwright/internal/shop"
)

// stockBook is the stocks of the shop by name, for the jobs that refer to them.
type stockBook map[string]paper.Stock

// stocks keeps the stocks for the jobs that follow.
func stocks() field[shop.Shop] {
	f := many("stocks", "the stocks that jobs refer to", list(stockFields.shape(), false), func(s *shop.Shop) *[]paper.Stock { return &s.Stocks })
	read := f.read
	f.read = func(s spot, into *shop.Shop) {
		read(s, into)
		s.stocks = bookOf(into.Stocks)
	}
	return f
}

func (b stockBook) find(name string) (paper.Stock, bool) {
	s, ok := b[name]
	return s, ok
}

func bookOf(all []paper.Stock) stockBook {
	book := stockBook{}
	for _, s := range all {
		if _, twice := book[s.Name]; !twice {
			book[s.Name] = s
		}
	}
	return book
}
