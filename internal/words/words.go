// Package words says things to people in their language: one catalogue of texts, the English one being the key.
//
// A room that has something to say returns a [Text], the English words with its figures still apart; a door renders it
// with a [Speaker], which knows the language and whether lengths are read in millimetres or inches. A text whose key is
// not in the catalogue comes out in English; a test holds every key of the program to the catalogue.
package words

import (
	"fmt"
	"slices"
	"strings"
	"time"

	"golang.org/x/text/language"
	"golang.org/x/text/message"
	"golang.org/x/text/message/catalog"
	"golang.org/x/text/number"

	"foldwright/internal/tooling"
	"foldwright/internal/units"
)

// Text is something to say: a key of the catalogue with what goes into its places (%s, %d).
//
// Lengths, durations, tools, texts and lists of them among Args are put into words by the speaker, so their place is %s.
type Text struct {
	Key  string
	Args []any
}

// T makes a text.
func T(key string, args ...any) Text { return Text{key, args} }

// String is the text in English and millimetres.
func (t Text) String() string { return english.Text(t) }

// Lang is a language of the catalogue.
type Lang string

const (
	English Lang = "en"
	German  Lang = "de"
	Spanish Lang = "es"
	French  Lang = "fr"
)

// Langs lists the languages of the catalogue.
func Langs() []Lang { return []Lang{English, German, Spanish, French} }

// Speaker renders texts for a reader. It may be shared.
type Speaker struct {
	Lang    Lang
	Inch    bool
	printer *message.Printer
}

var english = NewSpeaker(English, false)

// NewSpeaker makes a speaker; a language that is not in the catalogue is spoken to in English.
func NewSpeaker(lang Lang, inch bool) *Speaker {
	if !slices.Contains(Langs(), lang) {
		lang = English
	}
	return &Speaker{Lang: lang, Inch: inch, printer: message.NewPrinter(tags[lang], message.Catalog(book))}
}

var tags = map[Lang]language.Tag{
	English: language.BritishEnglish, German: language.German, Spanish: language.Spanish, French: language.French,
}

// book is the catalogue in the library's form. It is written once and only read.
var book = func() catalog.Catalog {
	b := catalog.NewBuilder(catalog.Fallback(language.English))
	for _, e := range entries {
		for i, lang := range Langs() {
			if err := b.SetString(tags[lang], e.key(), e[i]); err != nil {
				panic(err) // the catalogue is part of the program
			}
		}
	}
	return b
}()

// Text renders a text.
func (s *Speaker) Text(t Text) string { return s.Say(t.Key, t.Args...) }

// Say renders a key of the catalogue with its arguments.
func (s *Speaker) Say(key string, args ...any) string {
	ready := make([]any, len(args))
	for i, a := range args {
		ready[i] = s.ready(a)
	}
	return tidySpaces.Replace(s.printer.Sprintf(message.Key(key, key), ready...))
}

// tidySpaces turns the narrow no-break space that some languages group digits with into the common one: fonts lack it.
var tidySpaces = strings.NewReplacer("\u202f", "\u00a0")

func (s *Speaker) ready(a any) any {
	switch a := a.(type) {
	case Text:
		return s.Text(a)
	case Joined:
		return s.list(a, ", ")
	case Series:
		return s.list(a, s.semicolon())
	case List:
		return s.and(a)
	case units.Length:
		return s.Length(a)
	case Bare:
		return s.Bare(units.Length(a))
	case Fine:
		return s.Fine(units.Length(a))
	case Micron:
		return s.Micron(units.Length(a))
	case units.Grammage:
		return s.Grammage(a)
	case time.Duration:
		return s.Minutes(a)
	case Clock:
		return s.Clock(time.Time(a))
	case tooling.Type:
		return s.Tool(a)
	case float64:
		return number.Decimal(a, number.MaxFractionDigits(2))
	}
	return a
}

// Number writes a number to at most so many decimals, as the language writes it.
func (s *Speaker) Number(x float64, decimals int) string {
	return tidySpaces.Replace(s.printer.Sprint(number.Decimal(x, number.MaxFractionDigits(decimals))))
}

// Length writes a length with its unit: millimetres to the hundredth, or inches, as a fraction where a multiple of 1/64
// says it exactly.
func (s *Speaker) Length(l units.Length) string {
	if s.Inch {
		return s.Bare(l) + " in"
	}
	return s.Bare(l) + " mm"
}

// Fine writes a length with its unit as Length does, but millimetres to the thousandth.
func (s *Speaker) Fine(l units.Length) string {
	if s.Inch {
		return s.Length(l)
	}
	return s.plain(l.MM(), 3) + " mm"
}

// Bare is a length without its unit, for tables whose head names it.
func (s *Speaker) Bare(l units.Length) string {
	if !s.Inch {
		return s.plain(l.MM(), 2)
	}
	if text, exact := l.Fraction(); exact {
		return text
	}
	return s.plain(l.Inches(), 3)
}

// plain writes a number without grouping its digits: 1000 mm, as rulers do.
func (s *Speaker) plain(x float64, decimals int) string {
	return s.printer.Sprint(number.Decimal(x, number.MaxFractionDigits(decimals), number.NoSeparator()))
}

// Unit names the unit that Bare leaves out.
func (s *Speaker) Unit() string {
	if s.Inch {
		return "in"
	}
	return "mm"
}

// Micron writes a thickness: whole micrometres, or thousandths of an inch.
func (s *Speaker) Micron(l units.Length) string {
	if s.Inch {
		return s.Number(l.Inches()*1000, 1) + " pt"
	}
	return s.Number(l.Microns(), 0) + " µm"
}

// Minutes writes a duration in minutes to the tenth.
func (s *Speaker) Minutes(d time.Duration) string {
	return fmt.Sprintf("%s min", s.Number(d.Minutes(), 1))
}

// Grammage writes a grammage in g/m².
func (s *Speaker) Grammage(g units.Grammage) string { return s.Number(g.G(), 1) + " g/m²" }

// Tool names a tool with its spec.
func (s *Speaker) Tool(t tooling.Type) string {
	name := s.Say(string(t.Kind))
	if t.Spec == "" {
		return name
	}
	return name + " " + t.Spec
}
