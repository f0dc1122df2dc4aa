package main

import (
	"bytes"
	"regexp"
	"strings"
	"testing"

	"foldwright/internal/demo"
	"foldwright/internal/desk"
	"foldwright/internal/plan"
	speech "foldwright/internal/words"
)

// inEnglish are words of the trade that no other language of the catalogue shares.
var inEnglish = regexp.MustCompile(`(?i)\b(the|of|and|fold|folds|sheets?|plates?|nips?|stops?|knife|layers?|needs|takes|closed|thick|before|shafts|score|slit|late|waiting|from)\b`)

// what the shop itself has named stays as it is.
var shopNamed = regexp.MustCompile(`(?m)^\d{4} .*$|Roberts.*|PrintWiki, Perforating| +\d{4} .*$`)

// A reader of another language is never told half of it in English.
func TestNothingIsToldInEnglishToOthers(t *testing.T) {
	s, err := demo.Shop()
	if err != nil {
		t.Fatal(err)
	}
	d := &desk.Desk{Store: kept{s}}
	p, err := d.Plan(signed(t), plan.Options{Seed: 1, Iterations: 1})
	if err != nil {
		t.Fatal(err)
	}
	for _, lang := range speech.Langs()[1:] {
		for _, j := range s.Jobs {
			answers, _ := d.Settings(signed(t), j.Name, "")
			var out bytes.Buffer
			sheet{streams{out: &out}, speech.NewSpeaker(lang, false)}.answers(answers)
			noEnglish(t, lang, out.String())
		}
		var out bytes.Buffer
		sheet{streams{out: &out}, speech.NewSpeaker(lang, false)}.plan(p, true)
		noEnglish(t, lang, out.String())
	}
}

func noEnglish(t *testing.T, lang speech.Lang, text string) {
	t.Helper()
	for line := range strings.Lines(text) {
		if word := inEnglish.FindString(shopNamed.ReplaceAllString(line, "")); word != "" {
			t.Errorf("%s: %q in %q", lang, word, line)
		}
	}
}

// Notes, misses and the lines of a make-ready are told in the shop's unit like everything else.
func TestAnInchShopReadsNoMillimetres(t *testing.T) {
	s, err := demo.Shop()
	if err != nil {
		t.Fatal(err)
	}
	metric, typed := regexp.MustCompile(`\d (mm|µm)\b`), regexp.MustCompile(`strip|score|; folio 1`) // as on the docket
	for _, j := range s.Jobs {
		answers, _ := (&desk.Desk{Store: kept{s}}).Settings(signed(t), j.Name, "")
		var out bytes.Buffer
		sheet{streams{out: &out}, english(true)}.answers(answers)
		for line := range strings.Lines(out.String()) {
			if metric.MatchString(line) && !typed.MatchString(line) {
				t.Errorf("job %s: %q", j.Name, line)
			}
		}
	}
}
