package units

import (
	"math/big"
	"slices"
	"strings"
	"time"
)

// clockUnit is a unit of time with its names.
type clockUnit struct {
	size  time.Duration
	names []string
}

// clockUnits are in falling order, as they follow one another in "1 h 20 min".
var clockUnits = []clockUnit{
	{time.Hour, []string{"h", "hour", "hours"}},
	{time.Minute, []string{"min", "m", "minute", "minutes"}},
	{time.Second, []string{"s", "sec", "second", "seconds"}},
}

// Places in clockUnits.
const hours, minutes = 0, 1

// durations lends the faults of a measure to times, which are read piece by piece.
var durations = measure{
	name: "time", code: CodeMinutes, zero: true,
	most:    int64(10_000 * time.Hour),
	mostIs:  "10000 h",
	example: "minutes or a number and h, min or s, such as 12, 1.5 min, 90 s or 1 h 20",
}

// ParseMinutes reads a duration: "12", "1.5 min", "90 s", "1 h 20". A number alone, or after hours, is minutes.
func ParseMinutes(text string) (time.Duration, error) {
	rest := tidy(text)
	switch {
	case rest == "":
		return 0, durations.refuse("an empty text is no time")
	case len(text) > textMost:
		return 0, durations.refuse(quote(text) + " is too long for a time")
	case strings.HasPrefix(rest, "-"):
		return 0, durations.beyond(quote(text)+" is below zero", "a time is not negative")
	}
	sum, wrong := pieces(rest)
	if wrong != "" {
		return 0, durations.refuse(quote(text) + " " + wrong)
	}
	n, err := durations.whole(text, 1, sum)
	return time.Duration(n), err
}

// pieces adds up hours, minutes and seconds, each at most once and in this order.
func pieces(text string) (sum *big.Rat, wrong string) {
	sum = new(big.Rat)
	last := -1
	for text != "" {
		value, rest, wrong := number(text)
		if wrong != "" {
			return nil, wrong
		}
		name := rest[:len(rest)-len(strings.TrimLeft(rest, "abcdefghijklmnopqrstuvwxyz"))]
		unit := clockUnitNamed(name)
		if rest == "" && last <= hours { // a last number without a unit, alone or after hours
			unit = minutes
		}
		if unit <= last {
			return nil, "is not in hours, minutes and seconds, one after the other"
		}
		sum.Add(sum, value.Mul(value, big.NewRat(int64(clockUnits[unit].size), 1)))
		last, text = unit, strings.TrimSpace(rest[len(name):])
	}
	return sum, ""
}

// clockUnitNamed finds the place of a unit in clockUnits, -1 for none.
func clockUnitNamed(name string) int {
	return slices.IndexFunc(clockUnits, func(u clockUnit) bool { return slices.Contains(u.names, name) })
}

// FormatMinutes gives a duration as "1 h 20 min", "12 min" or "1 min 30 s"; [ParseMinutes] reads the same value back.
func FormatMinutes(d time.Duration) string {
	if d < 0 {
		return "-" + FormatMinutes(-d)
	}
	var parts []string
	if h := d / time.Hour; h > 0 {
		parts = append(parts, decimalText(big.NewRat(int64(h), 1), 0)+" h")
	}
	if m := d % time.Hour / time.Minute; m > 0 {
		parts = append(parts, decimalText(big.NewRat(int64(m), 1), 0)+" min")
	}
	if s := d % time.Minute; s > 0 {
		parts = append(parts, decimalText(big.NewRat(int64(s), int64(time.Second)), 9)+" s")
	}
	if parts == nil {
		return "0 min"
	}
	return strings.Join(parts, " ")
}
