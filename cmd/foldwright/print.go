package main

import (
	"fmt"
	"net/url"
	"os"
	"strings"
	"time"

	"golang.org/x/term"

	"foldwright/internal/draw"
	"foldwright/internal/fault"
	"foldwright/internal/press"
	"foldwright/internal/shop"
	speech "foldwright/internal/words"
)

// printFlags say how a PDF is made and where it goes.
type printFlags struct {
	Out     string `short:"o" placeholder:"FILE.pdf" help:"Where to write; - is the standard output. Without it a name that tells what it is, in this directory."`
	Inch    bool   `help:"Lengths in inches, also when the shop thinks in millimetres."`
	Address string `default:"http://foldwright.local" placeholder:"URL" help:"Where the QR codes lead."`
	langFlag
}

// paperFlag is the paper of the office; labels have theirs.
type paperFlag struct {
	Paper string `enum:"A4,Letter" default:"A4" placeholder:"A4|Letter" help:"A4 or Letter."`
}

func (f printFlags) Validate() error {
	if at, err := url.Parse(f.Address); err != nil || at.Host == "" || at.RawQuery != "" || at.Fragment != "" {
		return fmt.Errorf("--address is %q; it must be where foldwright can be reached, such as http://foldwright.local", f.Address)
	}
	return nil
}

func (f paperFlag) paper() draw.Paper {
	if f.Paper == "Letter" {
		return draw.Letter
	}
	return draw.A4
}

// reader is who reads the pages of a shop.
func (f printFlags) reader(s *shop.Shop) *speech.Speaker { return f.speaker(f.Inch || s.Inch) }

// at is where the pages of jobs and sets are reached.
func (f printFlags) at() press.Address { return press.Address(strings.TrimSuffix(f.Address, "/")) }

// pdf writes the pages into the file wished for, else into one of that name, and tells which it was.
func (f printFlags) pdf(s streams, sh *shop.Shop, name, title string, pages []*draw.Picture) error {
	made := sh.Now
	if made.IsZero() {
		made = s.now()
	}
	data, err := draw.PDF(draw.Document{Title: title, Lang: f.Lang, Created: made}, pages)
	if err != nil {
		return err
	}
	if f.Out == "-" {
		return s.raw(data)
	}
	if f.Out != "" {
		name = f.Out
	}
	if err := os.WriteFile(name, data, 0o644); err != nil {
		return unwritable(name, err)
	}
	s.say("wrote %s, %s", name, counted(len(pages), "page"))
	return nil
}

// raw writes bytes that are not for people: never onto a terminal.
func (s streams) raw(data []byte) error {
	if f, ok := s.out.(*os.File); ok && term.IsTerminal(int(f.Fd())) {
		return fault.Fault{Kind: fault.Input, Code: "terminal", Field: "-o", Wrong: "a terminal cannot show a PDF", Right: "a file, such as -o card.pdf, or a pipe"}
	}
	_, err := s.out.Write(data)
	return err
}

// fileName makes a file name of a word and a name, without what file systems have their own use for.
func fileName(what, name string) string {
	keep := func(r rune) rune {
		if strings.ContainsRune(`/\:*?"<>|`, r) || r < ' ' {
			return '-'
		}
		return r
	}
	return what + "-" + strings.Map(keep, name) + ".pdf"
}

// dayOf names the first day of a plan in file names.
func dayOf(from time.Time) string { return from.Format(time.DateOnly) }
