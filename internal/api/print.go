package api

import (
	"context"
	"mime"
	"net/http"
	"strings"
	"time"

	"foldwright/internal/draw"
	"foldwright/internal/press"
	"foldwright/internal/shop"
	"foldwright/internal/words"
)

const (
	mediaPDF    = "application/pdf"
	mediaSVG    = "image/svg+xml"
	mediaYAML   = "application/yaml"
	mediaBackup = "application/vnd.sqlite3"
)

// Reader says who reads a print or a picture.
type Reader struct {
	Lang string `query:"lang" enum:"en,de,es,fr" doc:"The language; without it that of the account."`
	Inch string `query:"inch" enum:"true,false" doc:"Lengths in inches; without it as the account, else the shop, reads them."`
	IfNoneMatch
}

// PaperOf says what a print is made for.
type PaperOf struct {
	Reader
	Paper string `query:"paper" enum:"A4,Letter" default:"A4" doc:"The paper of the office."`
}

func (p PaperOf) paper() draw.Paper {
	if p.Paper == "Letter" {
		return draw.Letter
	}
	return draw.A4
}

// fileOut is a file.
type fileOut struct {
	Status      int
	ContentType string `header:"Content-Type"`
	Disposition string `header:"Content-Disposition"`
	ETag        string `header:"ETag"`
	Body        []byte
}

// file answers with a file, or says that the client has it already.
func file(media, name string, data []byte, has IfNoneMatch) *fileOut {
	out := &fileOut{Status: http.StatusOK, ContentType: media, ETag: etagOf(data), Body: data}
	out.Disposition = mime.FormatMediaType("inline", map[string]string{"filename": fileName(name)})
	if has.has(out.ETag) {
		out.Status, out.Body = http.StatusNotModified, nil
	}
	return out
}

// fileName is a name without what file systems have their own use for.
func fileName(name string) string {
	return strings.Map(func(r rune) rune {
		if strings.ContainsRune(`/\:*?"<>|`, r) || r < ' ' {
			return '-'
		}
		return r
	}, name)
}

// speaker speaks to the reader: as asked, else as the account says.
func (a *API) speaker(ctx context.Context, r Reader) *words.Speaker {
	say := a.gate.Speaker(requestOf(ctx))
	lang, inch := say.Lang, say.Inch
	if r.Lang != "" {
		lang = words.Lang(r.Lang)
	}
	if r.Inch != "" {
		inch = r.Inch == "true"
	}
	return words.NewSpeaker(lang, inch)
}

// pdf prints pages. The time that it tells is the shop's, so that the same pages give the same bytes.
func (a *API) pdf(s *shop.Shop, say *words.Speaker, name, title string, pages []*draw.Picture, has IfNoneMatch) (*fileOut, error) {
	made := s.Now
	if made.IsZero() {
		made = a.desk.Now().In(s.Zone).Truncate(24 * time.Hour)
	}
	data, err := draw.PDF(draw.Document{Title: title, Lang: string(say.Lang), Created: made}, pages)
	if err != nil {
		return nil, err
	}
	return file(mediaPDF, name+".pdf", data, has), nil
}

// svg answers with a picture.
func svg(name string, p *draw.Picture, has IfNoneMatch) *fileOut {
	return file(mediaSVG, name+".svg", p.SVG(), has)
}

// reached is where the app is reached: what printed codes and links begin with.
func (a *API) reached(ctx context.Context) press.Address {
	return press.Address(strings.TrimSuffix(a.gate.Reached(requestOf(ctx)), "/"))
}
