package exchange

import (
	"time"

	"foldwright/internal/changeover"
	"foldwright/internal/shop"
)

// standardFields are the standard minutes, as the changeover room names them.
var standardFields = func() record[changeover.Standards] {
	r := record[changeover.Standards]{what: "standard minutes"}
	usual := changeover.Default()
	for i, f := range usual.Fields() {
		place := func(s *changeover.Standards) *time.Duration { return s.Fields()[i].Value }
		r.fields = append(r.fields, always(f.Name, f.What, minutes, *f.Value, in(place)))
	}
	return r
}()

// standards is the group of standard minutes.
func standards() field[shop.Shop] {
	return group("standards", "the shop's standard minutes", standardFields, func(s *shop.Shop) *changeover.Standards { return &s.Standards })
}
