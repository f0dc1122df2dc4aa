package gate

import (
	"context"
	"net/http"
	"strings"

	"golang.org/x/text/language"

	"foldwright/internal/access"
	"foldwright/internal/desk"
	"foldwright/internal/fault"
	"foldwright/internal/words"
)

// visitor is who a request comes from.
type visitor struct {
	who  access.Who
	lang string
	inch *bool
}

type visitorKey struct{}

func withVisitor(ctx context.Context, v visitor) context.Context {
	return context.WithValue(access.With(ctx, v.who), visitorKey{}, v)
}

func visitorOf(ctx context.Context) visitor {
	v, _ := ctx.Value(visitorKey{}).(visitor)
	return v
}

// signed signs the context of a request with who asks: the program of a token, else the person of the session.
func (g *Gate) signed(next http.Handler) http.Handler {
	return http.HandlerFunc(func(w http.ResponseWriter, r *http.Request) {
		v, err := g.identify(r)
		if err != nil {
			g.refuse(w, r, err)
			return
		}
		noteOf(r).who = v.who.String()
		bounded(w, r, v.who)
		next.ServeHTTP(w, r.WithContext(withVisitor(r.Context(), v)))
	})
}

func (g *Gate) identify(r *http.Request) (visitor, error) {
	header := r.Header.Get("Authorization")
	if header == "" {
		return g.resume(r.Context())
	}
	scheme, secret, _ := strings.Cut(header, " ")
	if !strings.EqualFold(scheme, "Bearer") {
		return visitor{}, fault.Fault{Kind: fault.Denied, Code: desk.CodeToken, Wrong: "the header Authorization is of a kind that is not used here", Right: "Authorization: Bearer …, with a token that the admin page made"}
	}
	who, err := g.desk.WhoHas(r.Context(), strings.TrimSpace(secret))
	if err != nil {
		g.metrics.refused.WithLabelValues("token").Inc()
	}
	return visitor{who: who}, err
}

// Speaker speaks to the reader of an answer: in the language of their account, else in that which the browser wishes, else in English; in
// inches when their account says so, or says nothing and the shop reads lengths in inches.
func (g *Gate) Speaker(r *http.Request) *words.Speaker {
	v := visitorOf(r.Context())
	lang := words.Lang(v.lang)
	if lang == "" {
		lang = wished(r.Header.Get("Accept-Language"))
	}
	inch := false
	if v.inch != nil {
		inch = *v.inch
	} else if s, err := g.desk.Shop(r.Context()); err == nil {
		inch = s.Inch
	}
	return words.NewSpeaker(lang, inch)
}

var matcher = func() language.Matcher {
	var tags []language.Tag
	for _, l := range words.Langs() {
		tags = append(tags, language.Make(string(l)))
	}
	return language.NewMatcher(tags)
}()

// wished is the language of ours that a browser wishes first. A list longer than any browser's is not looked at.
func wished(header string) words.Lang {
	if header == "" || len(header) > 200 {
		return words.English
	}
	tags, _, err := language.ParseAcceptLanguage(header)
	if err != nil || len(tags) == 0 {
		return words.English
	}
	_, at, _ := matcher.Match(tags...)
	return words.Langs()[at]
}
