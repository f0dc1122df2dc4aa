package ui

import (
	"embed"
	"html/template"
	"io/fs"
	"path"
	"strings"
	"sync"

	"foldwright/internal/words"
)

//go:embed templates
var templateFiles embed.FS

// prints are the templates, made ready once for each way of speaking, so that they need not be told whom they speak to.
type prints struct {
	assets *assets
	mu     sync.Mutex
	ready  map[manner]map[string]*template.Template // by page
}

// manner is a way of speaking.
type manner struct {
	lang words.Lang
	inch bool
}

// newPrints makes one manner ready, so that a template that does not parse is found at start.
func newPrints(a *assets) *prints {
	p := &prints{assets: a, ready: map[manner]map[string]*template.Template{}}
	p.ready[manner{words.English, false}] = p.parse(words.NewSpeaker(words.English, false))
	return p
}

// page is the template of a page with the layout and all parts.
func (p *prints) page(say *words.Speaker, name string) (*template.Template, error) {
	m := manner{say.Lang, say.Inch}
	p.mu.Lock()
	defer p.mu.Unlock()
	if p.ready[m] == nil {
		p.ready[m] = p.parse(say)
	}
	t := p.ready[m][name]
	if t == nil {
		return nil, &fs.PathError{Op: "show", Path: "templates/" + name + ".html", Err: fs.ErrNotExist}
	}
	return t, nil
}

// parse reads all templates. They are part of the program, so one that does not parse is its fault.
func (p *prints) parse(say *words.Speaker) map[string]*template.Template {
	common := template.Must(template.New("").Funcs(functions(say, p.assets)).ParseFS(templateFiles, "templates/parts/*.html"))
	files, err := fs.Glob(templateFiles, "templates/*.html")
	if err != nil {
		panic(err) // only a malformed pattern
	}
	all := map[string]*template.Template{}
	for _, file := range files {
		t := template.Must(template.Must(common.Clone()).ParseFS(templateFiles, file))
		all[strings.TrimSuffix(path.Base(file), ".html")] = t
	}
	return all
}
