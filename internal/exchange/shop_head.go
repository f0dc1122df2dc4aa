package exchange

import (
	"time"

	"foldwright/internal/shop"
	"foldwright/internal/units"
)

// headFields are the fields at the head of the file, on which the reading of the rest depends.
var headFields = record[shop.Shop]{what: "the head of a shop", fields: []field[shop.Shop]{
	need("shop", "the name of the shop", words, in(func(s *shop.Shop) *string { return &s.Name })),
	shopZone(),
	shopNow(),
	shopUnits(),
}}

// shopZone settles what the clock of all later times is.
func shopZone() field[shop.Shop] {
	f := need("zone", "the time zone whose clock all times are by, such as Europe/Berlin", zone, in(func(s *shop.Shop) **time.Location { return &s.Zone }))
	read := f.read
	f.read = func(s spot, into *shop.Shop) {
		if read(s, into); into.Zone != nil {
			s.zone = into.Zone
		}
	}
	return f
}

// shopNow is when planning starts.
func shopNow() field[shop.Shop] {
	return maybeMoment("now", "when the plan starts; without it: the moment of asking", func(s *shop.Shop) *time.Time { return &s.Now })
}

// shopUnits settles what a bare length is from here on.
func shopUnits() field[shop.Shop] {
	f := may("units", "what a bare length is: mm or inch", measure, false, in(func(s *shop.Shop) *bool { return &s.Inch }))
	f.usual = "mm"
	read := f.read
	f.read = func(s spot, into *shop.Shop) {
		if read(s, into); into.Inch {
			s.bare = units.Inch
		}
	}
	return f
}
