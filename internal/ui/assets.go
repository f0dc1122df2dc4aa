package ui

import (
	"bytes"
	"compress/gzip"
	"crypto/sha256"
	"embed"
	"encoding/hex"
	"io/fs"
	"mime"
	"net/http"
	"path"
	"regexp"
	"strconv"
	"strings"
)

//go:embed assets
var assetFiles embed.FS

// assets are the style sheet, the scripts and the pictures. Their addresses carry a hash of what is inside, so a browser
// keeps them for good and still never shows an old one.
type assets struct {
	byPath map[string]*asset // by the path asked for
	urls   map[string]string // by name
	icons  map[string]bool
}

// asset is one file as it is sent.
type asset struct {
	kind          string
	plain, zipped []byte
}

// loadAssets reads the embedded files. The style sheets become one, and so do our own scripts, in the order of their names.
func loadAssets() *assets {
	a := &assets{byPath: map[string]*asset{}, urls: map[string]string{}, icons: map[string]bool{}}
	a.add("pages.css", joined("assets/css"))
	a.add("pages.js", joined("assets/js"))
	for _, name := range []string{"icons.svg", "mark.svg"} {
		a.add(name, read("assets/"+name))
	}
	for _, m := range iconID.FindAllSubmatch(read("assets/icons.svg"), -1) {
		a.icons[string(m[1])] = true
	}
	for _, script := range []string{"htmx.min.js", "hx-sse.min.js", "sortable.min.js"} {
		a.add(script, read("assets/vendor/"+script))
	}
	return a
}

var iconID = regexp.MustCompile(`<symbol id="([a-z-]+)"`)

// read returns an embedded file.
func read(name string) []byte {
	data, err := assetFiles.ReadFile(name)
	if err != nil {
		panic(err) // it is embedded: a name that is wrong is a fault of the program
	}
	return data
}

// joined is all files of a directory one after another.
func joined(dir string) []byte {
	files, err := fs.ReadDir(assetFiles, dir)
	if err != nil {
		panic(err)
	}
	var all bytes.Buffer
	for _, f := range files {
		all.Write(read(path.Join(dir, f.Name())))
		all.WriteByte('\n')
	}
	return all.Bytes()
}

func (a *assets) add(name string, data []byte) {
	sum := sha256.Sum256(data)
	ext := path.Ext(name)
	at := "/static/" + strings.TrimSuffix(name, ext) + "." + hex.EncodeToString(sum[:6]) + ext
	a.urls[name] = at
	a.byPath[at] = &asset{kind: mime.TypeByExtension(ext), plain: data, zipped: zip(data)}
}

// zip packs as tightly as it goes: it is done once.
func zip(data []byte) []byte {
	var out bytes.Buffer
	w, err := gzip.NewWriterLevel(&out, gzip.BestCompression)
	if err != nil {
		panic(err) // the level exists
	}
	_, _ = w.Write(data) // into memory
	_ = w.Close()
	return out.Bytes()
}

// url is the address of an asset, for templates.
func (a *assets) url(name string) string {
	at, ok := a.urls[name]
	if !ok {
		panic("there is no asset " + name)
	}
	return at
}

func (a *assets) ServeHTTP(w http.ResponseWriter, r *http.Request) {
	f := a.byPath[r.URL.Path]
	if f == nil {
		http.NotFound(w, r)
		return
	}
	h, data := w.Header(), f.plain
	h.Set("Content-Type", f.kind)
	h.Set("Cache-Control", "public, max-age=31536000, immutable")
	h.Set("Vary", "Accept-Encoding")
	if strings.Contains(r.Header.Get("Accept-Encoding"), "gzip") && len(f.zipped) < len(f.plain) {
		h.Set("Content-Encoding", "gzip")
		data = f.zipped
	}
	h.Set("Content-Length", strconv.Itoa(len(data)))
	if r.Method != http.MethodHead {
		_, _ = w.Write(data)
	}
}
