package gate

import "net/http"

// policy lets a page load nothing from elsewhere, run no script and wear no style that stands in it, post nowhere else, and
// stand in no frame.
const policy = "default-src 'self'; img-src 'self' data:; object-src 'none'; frame-ancestors 'none'; form-action 'self'; base-uri 'none'"

// hsts makes browsers come by TLS only, for a year.
const hsts = "max-age=31536000"

// safe sets the headers that every answer has.
func (g *Gate) safe(w http.ResponseWriter) {
	h := w.Header()
	h.Set("Content-Security-Policy", policy)
	h.Set("X-Content-Type-Options", "nosniff")
	h.Set("Referrer-Policy", "same-origin")                                                                             // stricter, browsers would send forms with the origin "null", which is refused
	h.Set("Permissions-Policy", "camera=(self), geolocation=(), microphone=(), payment=(), usb=(), browsing-topics=()") // a camera reads the codes of labels
	h.Set("Cross-Origin-Opener-Policy", "same-origin")
	h.Set("Cross-Origin-Resource-Policy", "same-origin")
	if g.secure {
		h.Set("Strict-Transport-Security", hsts)
	}
}
