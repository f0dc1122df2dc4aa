package draw

import (
	"strings"
	"testing"

	"foldwright/internal/demo"
	"foldwright/internal/words"
)

// Every folder of the demo is drawn from the side: nothing runs off the picture, texts do not lie on one another, and each
// plate, knife and station is there by its name.
func TestFolderFromTheSide(t *testing.T) {
	s, err := demo.Shop()
	if err != nil {
		t.Fatal(err)
	}
	for _, lang := range words.Langs() {
		for i := range s.Folders {
			f := &s.Folders[i]
			p := Folder(f, words.NewSpeaker(lang, lang == words.Spanish))
			whole := Box{0, 0, p.Width, p.Height}
			var texts []Text
			for _, m := range p.Marks {
				if !whole.Contains(m.bounds()) {
					t.Errorf("%s in %s: %+v lies outside", f.Name, lang, m)
				}
				if text, ok := m.(Text); ok {
					for _, other := range texts {
						if other.bounds().Overlaps(text.bounds()) {
							t.Errorf("%s in %s: %q lies on %q", f.Name, lang, text.String, other.String)
						}
					}
					texts = append(texts, text)
				}
			}
			drawn := string(p.SVG())
			for _, u := range f.Units {
				for _, st := range u.Stations {
					if !strings.Contains(drawn, ">"+st.Name+"<") {
						t.Errorf("%s: station %s is not drawn", f.Name, st.Name)
					}
				}
			}
		}
	}
	golden(t, "folder.svg", Folder(&s.Folders[0], words.NewSpeaker(words.English, false)).SVG())
}
