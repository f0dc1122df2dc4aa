package fold

import (
	"fmt"
	"regexp"
	"strconv"
	"strings"

	"foldwright/internal/fault"
	"foldwright/internal/units"
)

// Parse reads a scheme as people write it: steps in order, parted by commas.
//
//	up 1/2, left, up 1/2, left, up 1/4     shares of the unfolded sheet in the direction of travel
//	up 1/3, down 210 mm, up 8 1/2 in       lengths; a bare number is millimetres
//	up 1/2 + 5 mm, up 1/4 - 1 mm           a share with an allowance
//	letter inner 2 mm                      a named style, see styles.go; styles and steps may be mixed:
//	zigzag 4, left, up 1/2
//	F16-7                                  a catalogue name, alone
//
// A share is of the sheet as it was before any fold. Only 1/2 has a second meaning: where half the sheet is no longer
// there to be folded, it halves the stack as it lies, so that "up 1/2, up 1/2" is "up 1/2, up 1/4"; the scheme returned
// says 1/4.
func Parse(text string) (Scheme, error) { return ParseIn(text, units.Millimetre) }

// ParseIn is Parse with another unit for bare numbers.
func ParseIn(text string, bare units.Length) (Scheme, error) {
	items := splitSteps(tidy(text))
	switch {
	case len(items) == 0:
		return Scheme{}, nil // a flat sheet
	case len(items) > maxSteps:
		return Scheme{}, bad(codeLimit, "scheme", fmt.Sprintf("%d steps", len(items)), fmt.Sprintf("at most %d", maxSteps))
	case len(items) == 1 && catalogueName.MatchString(items[0]):
		return Catalogue(items[0])
	}
	p := reader{bare: bare, extent: [2]share{{known: true, length: Ratio{1, 1}}, {known: true, length: Ratio{1, 1}}}}
	var faults fault.List
	for i, item := range items {
		if err := p.read(item); err != nil {
			for _, f := range fault.All(err) {
				f.Field = stepField(i)
				faults.Add(f)
			}
		}
	}
	if err := faults.Err(); err != nil {
		return Scheme{}, err
	}
	return Scheme{Steps: p.steps}, nil
}

// signs turns what keyboards and word processors produce into the signs of the notation.
var signs = strings.NewReplacer("½", " 1/2", "⅓", " 1/3", "⅔", " 2/3", "¼", " 1/4", "¾", " 3/4", "⅛", " 1/8", "⅜", " 3/8",
	"⅝", " 5/8", "⅞", " 7/8", "⅕", " 1/5", "⅙", " 1/6", "⁄", "/", "−", "-", "–", "-", "“", `"`, "”", `"`, "″", `"`, ";", ",", "\n", ",")

func tidy(text string) string { return strings.ToLower(signs.Replace(text)) }

// splitSteps parts at commas, but not at a decimal comma. Empty items, as after a closing comma, fall out.
func splitSteps(text string) []string {
	var items []string
	from := 0
	keep := func(item string) {
		if item = strings.Join(strings.Fields(item), " "); item != "" {
			items = append(items, item)
		}
	}
	for i := range len(text) {
		if text[i] != ',' || i > 0 && i+1 < len(text) && digit(text[i-1]) && digit(text[i+1]) {
			continue
		}
		keep(text[from:i])
		from = i + 1
	}
	keep(text[from:])
	return items
}

func digit(b byte) bool { return b >= '0' && b <= '9' }

// reader collects steps and keeps the extent of the stack in shares of the sheet, as far as shares alone tell it.
type reader struct {
	bare   units.Length
	steps  []Step
	extent [2]share // along the sheet's length, along its width
	axis   Axis     // which of them lies along the travel
}

// share is an extent as a share of the unfolded sheet, allowances left aside; not known once a fold was given as a
// bare length.
type share struct {
	known  bool
	length Ratio
}

var foldStep = regexp.MustCompile(`^(?:fold )?(up|down)\b ?(.*)$`)

func (p *reader) read(item string) error {
	switch item {
	case "left", "turn left":
		p.add(Step{Op: Left})
		return nil
	case "right", "turn right":
		p.add(Step{Op: Right})
		return nil
	}
	if m := foldStep.FindStringSubmatch(item); m != nil {
		depth, err := parseDepth(m[2], p.bare)
		if err != nil {
			return err
		}
		p.add(Step{Op: opOf(m[1]), Depth: p.halved(depth)})
		return nil
	}
	steps, err := p.style(item)
	for _, st := range steps {
		if f, ok := st.check(); !ok {
			return f
		}
		p.add(st)
	}
	return err
}

func opOf(word string) Op {
	if word == "down" {
		return Down
	}
	return Up
}

// halved gives 1/2 its second meaning.
func (p *reader) halved(d Depth) Depth {
	now := p.extent[p.axis]
	half := Ratio{1, 2}
	if d.Share == half && now.known && now.length.cmp(half) <= 0 {
		d.Share = now.length.mul(half)
	}
	return d
}

// add appends a step and follows the extent it leaves.
func (p *reader) add(st Step) {
	p.steps = append(p.steps, st)
	if !st.Op.IsFold() {
		p.axis = other(p.axis)
		return
	}
	now := &p.extent[p.axis]
	now.known = now.known && !st.Depth.Share.IsZero() && st.Depth.Share.cmp(now.length) < 0
	if !now.known {
		return
	}
	now.length = longer(now.length.sub(st.Depth.Share), st.Depth.Share)
	now.known = now.length.Den <= maxDenominator/2 // beyond that nobody reckons, and halves would not read back
}

func longer(a, b Ratio) Ratio {
	if a.cmp(b) > 0 {
		return a
	}
	return b
}

func other(a Axis) Axis { return S + T - a }

var (
	shareDepth = regexp.MustCompile(`^(\d{1,7}) ?/ ?(\d{1,7})(?: ?([+-]) ?(.+))?$`)
	fractionMM = regexp.MustCompile(`^(\d{1,15}) ?/ ?(\d{1,15}) ?mm$`)
	unitless   = regexp.MustCompile(`^(?:.*/.*[0-9]|0?[.,]\d+)$`)
)

const depthIs = "a share such as 1/2, a length such as 210 mm or 8 1/2 in, or both: 1/2 + 5 mm"

func parseDepth(text string, bare units.Length) (Depth, error) {
	m := shareDepth.FindStringSubmatch(text)
	if m == nil {
		length, err := exactLength(text, bare)
		return Depth{Plus: length}, err
	}
	num, _ := strconv.ParseInt(m[1], 10, 64) // digits only, and few
	den, _ := strconv.ParseInt(m[2], 10, 64)
	d := Depth{Share: Ratio{num, den}}
	if _, ok := d.check(); !ok || num == 0 || num == den {
		return Depth{}, bad(codeNotation, "", m[1]+"/"+m[2]+" is no share of the sheet", depthIs)
	}
	d.Share = ratio(num, den)
	if m[4] == "" {
		return d, nil
	}
	plus, err := exactLength(m[4], bare)
	if m[3] == "-" {
		plus.Num = -plus.Num
	}
	d.Plus = plus
	return d, err
}

// exactLength reads a length; thirds and the like of a millimetre, which no whole number of nanometres holds, stay exact.
func exactLength(text string, bare units.Length) (Ratio, error) {
	if m := fractionMM.FindStringSubmatch(text); m != nil {
		if r, ok := fractionOfMM(m[1], m[2]); ok {
			return r, nil
		}
		return Ratio{}, noDepth(text)
	}
	if text == "" || unitless.MatchString(text) {
		return Ratio{}, noDepth(text)
	}
	l, err := units.ParseLength(text, bare)
	if err != nil {
		return Ratio{}, noDepth(text)
	}
	return Ratio{int64(l), 1}, nil
}

func noDepth(text string) error {
	return bad(codeNotation, "", fmt.Sprintf("%.60q is no depth", text), depthIs)
}

func fractionOfMM(a, b string) (Ratio, bool) {
	num, errNum := strconv.ParseInt(a, 10, 64)
	den, errDen := strconv.ParseInt(b, 10, 64)
	if errNum != nil || errDen != nil || den == 0 {
		return Ratio{}, false
	}
	lowest := ratio(num, den)
	mil := int64(units.Millimetre)
	g := gcd(mil, lowest.Den)
	if lowest.Num > int64(maxSide)/(mil/g)*(lowest.Den/g) || lowest.Den/g > maxDenominator {
		return Ratio{}, false
	}
	return Ratio{lowest.Num * (mil / g), lowest.Den / g}, true
}
