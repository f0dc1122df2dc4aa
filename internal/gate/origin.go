package gate

import (
	"net/http"

	"foldwright/internal/fault"
)

// CodeOrigin is the code of a request that a page of somebody else made.
const CodeOrigin fault.Code = "other-origin"

// sameOrigin refuses what changes something and was sent by a page of somebody else: the browser would add the cookie. Browsers
// tell with Sec-Fetch-Site or Origin where a request was made; programs tell neither, and have no cookie.
func (g *Gate) sameOrigin(next http.Handler) http.Handler {
	return http.HandlerFunc(func(w http.ResponseWriter, r *http.Request) {
		if err := g.origins.Check(r); err != nil {
			g.refuse(w, r, fault.Fault{Kind: fault.Denied, Code: CodeOrigin, Wrong: "a page from elsewhere sent this", Right: "do it on a page of this app; behind a proxy, say with --address how people reach it"})
			return
		}
		next.ServeHTTP(w, r)
	})
}
