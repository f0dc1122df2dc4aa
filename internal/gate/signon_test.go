package gate

import (
	"crypto"
	"crypto/rand"
	"crypto/rsa"
	"crypto/sha256"
	"encoding/base64"
	"encoding/json"
	"fmt"
	"math/big"
	"net/http"
	"net/http/httptest"
	"net/url"
	"strings"
	"testing"
	"time"

	"foldwright/internal/access"
)

// voucher is a small provider of OpenID Connect with a key of its own: discovery, keys and the exchange of a code for a token, as in
// OpenID Connect Core 1.0, section 3.1, with the proof of RFC 7636.
type voucher struct {
	t      *testing.T
	server *httptest.Server
	key    *rsa.PrivateKey
	codes  map[string]ticket // given out, by code
	spoil  func(claims map[string]any)
	other  *rsa.PrivateKey // signs with this instead
	wrong  string          // what a client did against the rules
}

type ticket struct {
	challenge string
	claims    map[string]any
}

func newVoucher(t *testing.T, key *rsa.PrivateKey) *voucher {
	v := &voucher{t: t, key: key, codes: map[string]ticket{}}
	mux := http.NewServeMux()
	mux.HandleFunc("GET /.well-known/openid-configuration", func(w http.ResponseWriter, _ *http.Request) {
		at := v.server.URL
		json.NewEncoder(w).Encode(map[string]any{
			"issuer": at, "authorization_endpoint": at + "/authorize", "token_endpoint": at + "/token", "jwks_uri": at + "/keys",
			"id_token_signing_alg_values_supported": []string{"RS256"}, "response_types_supported": []string{"code"}, "subject_types_supported": []string{"public"},
		})
	})
	mux.HandleFunc("GET /keys", func(w http.ResponseWriter, _ *http.Request) {
		json.NewEncoder(w).Encode(map[string]any{"keys": []any{map[string]string{
			"kty": "RSA", "alg": "RS256", "use": "sig", "kid": "1", "n": b64(v.key.N.Bytes()), "e": b64(big.NewInt(int64(v.key.E)).Bytes()),
		}}})
	})
	mux.HandleFunc("POST /token", v.token)
	v.server = httptest.NewServer(mux)
	t.Cleanup(v.server.Close)
	return v
}

func someKey(t *testing.T) *rsa.PrivateKey {
	t.Helper()
	key, err := rsa.GenerateKey(rand.Reader, 2048)
	if err != nil {
		t.Fatal(err)
	}
	return key
}

func b64(b []byte) string { return base64.RawURLEncoding.EncodeToString(b) }

// token takes a code, once, from the client that holds the secret and knows what the challenge was made of.
func (v *voucher) token(w http.ResponseWriter, r *http.Request) {
	id, secret, ok := r.BasicAuth()
	secret, _ = url.QueryUnescape(secret) // RFC 6749, section 2.3.1: it is encoded as a form
	known, there := v.codes[r.FormValue("code")]
	delete(v.codes, r.FormValue("code"))
	sum := sha256.Sum256([]byte(r.FormValue("code_verifier")))
	switch {
	case !ok || id != "folding" || secret != "a client secret":
		v.wrong = "the client did not say who it is"
	case r.FormValue("grant_type") != "authorization_code" || !there:
		v.wrong = "a code that was never given out"
	case known.challenge != b64(sum[:]):
		v.wrong = "the verifier does not fit the challenge"
	default:
		w.Header().Set("Content-Type", "application/json")
		json.NewEncoder(w).Encode(map[string]any{"access_token": "x", "token_type": "Bearer", "expires_in": 60, "id_token": v.sign(known.claims)})
		return
	}
	http.Error(w, `{"error":"invalid_grant"}`, http.StatusBadRequest)
}

func (v *voucher) sign(claims map[string]any) string {
	head, _ := json.Marshal(map[string]string{"alg": "RS256", "typ": "JWT", "kid": "1"})
	body, _ := json.Marshal(claims)
	text := b64(head) + "." + b64(body)
	sum := sha256.Sum256([]byte(text))
	key := v.key
	if v.other != nil {
		key = v.other
	}
	signed, err := rsa.SignPKCS1v15(rand.Reader, key, crypto.SHA256, sum[:])
	if err != nil {
		v.t.Fatal(err)
	}
	return text + "." + b64(signed)
}

// vouch is what a person does there: logs in, and is sent back with a code.
func (v *voucher) vouch(asked *url.URL, who map[string]any) (back string) {
	q := asked.Query()
	if q.Get("code_challenge_method") != "S256" || q.Get("response_type") != "code" || !strings.Contains(q.Get("scope"), "openid") || q.Get("state") == "" || q.Get("nonce") == "" {
		v.t.Errorf("asked for %v", q)
	}
	now := time.Now()
	claims := map[string]any{"iss": v.server.URL, "aud": "folding", "sub": "17", "iat": now.Unix(), "exp": now.Add(time.Minute).Unix(), "nonce": q.Get("nonce")}
	for k, c := range who {
		claims[k] = c
	}
	if v.spoil != nil {
		v.spoil(claims)
	}
	code := rand.Text()
	v.codes[code] = ticket{q.Get("code_challenge"), claims}
	return fmt.Sprintf("%s?code=%s&state=%s", "/login/oidc/back", code, url.QueryEscape(q.Get("state")))
}

func (v *voucher) config(c *Config) {
	c.Address = "http://folding.example"
	c.SignOn = &SignOn{
		Label: "house sign-on", Issuer: v.server.URL, ID: "folding", Secret: "a client secret", RoleClaim: "groups",
		Roles: map[string]access.Role{"folding-leads": access.Lead, "folding": access.Operator},
	}
}

// begin starts a log-in and gives where the browser is sent.
func (b *browser) begin(to string) *url.URL {
	b.t.Helper()
	w := b.get("/login/oidc?to=" + url.QueryEscape(to))
	u, err := url.Parse(w.Header.Get("Location"))
	if err != nil || w.StatusCode != http.StatusSeeOther {
		b.t.Fatalf("the log-in begins with %s %s", w.Status, w.text)
	}
	return u
}

func TestSignOn(t *testing.T) {
	ada := map[string]any{"preferred_username": "ada", "groups": []string{"folding", "folding-leads", "canteen"}}
	key, another := someKey(t), someKey(t)
	for _, c := range []struct {
		what  string
		who   map[string]any
		conf  func(*SignOn)
		spoil func(map[string]any)
		do    func(h *house, v *voucher)
		want  string // who is in; empty: nobody
	}{
		{what: "the highest role of the groups", who: ada, want: "ada is lead"},
		{what: "one group as a text", who: map[string]any{"preferred_username": "Ada", "groups": "folding"}, want: "ada is operator"},
		{what: "no group that counts", who: map[string]any{"preferred_username": "ada", "groups": []string{"canteen"}}},
		{what: "groups of another shape", who: map[string]any{"preferred_username": "ada", "groups": 7}},
		{what: "no name", who: map[string]any{"groups": "folding"}},
		{what: "a name that none can have", who: map[string]any{"preferred_username": "<b>ada", "groups": "folding"}},
		{what: "somebody without an account", who: map[string]any{"preferred_username": "bob", "groups": "folding"}},
		{what: "a new account", who: map[string]any{"preferred_username": "bob", "groups": "folding"}, conf: func(c *SignOn) { c.NewRole = access.Viewer }, want: "bob is operator"},
		{what: "a new account without group", who: map[string]any{"preferred_username": "bob"}, conf: func(c *SignOn) { c.NewRole = access.Viewer }, want: "bob is viewer"},
		{what: "roles given here", who: ada, conf: func(c *SignOn) { c.RoleClaim = "" }, want: "ada is viewer"},
		{what: "an address that was not verified", who: map[string]any{"email": "ada@folding", "groups": "folding"}, conf: func(c *SignOn) { c.NameClaim, c.NewRole = "email", access.Viewer }},
		{what: "a verified address", who: map[string]any{"email": "ada@folding", "email_verified": true, "groups": "folding"}, conf: func(c *SignOn) { c.NameClaim, c.NewRole = "email", access.Viewer }, want: "ada@folding is operator"},
		{what: "another nonce", who: ada, spoil: func(m map[string]any) { m["nonce"] = "replayed" }},
		{what: "for another program", who: ada, spoil: func(m map[string]any) { m["aud"] = "canteen" }},
		{what: "of another issuer", who: ada, spoil: func(m map[string]any) { m["iss"] = "https://evil.example" }},
		{what: "too old", who: ada, spoil: func(m map[string]any) { m["exp"] = time.Now().Add(-time.Hour).Unix() }},
		{what: "signed by somebody else", who: ada, do: func(_ *house, v *voucher) { v.other = another }},
		{what: "another client secret", who: ada, conf: func(c *SignOn) { c.Secret = "guessed" }},
		{what: "too late", who: ada, do: func(h *house, _ *voucher) { h.clock.turn(waitsFor) }},
		{what: "an ended account", who: ada, do: func(h *house, _ *voucher) {
			ctx := access.With(t.Context(), access.Who{Name: "root", Role: access.Admin})
			all, _ := h.desk.Accounts(ctx)
			all[0].Ended = true
			if _, err := h.desk.PutAccount(ctx, all[0]); err != nil {
				t.Fatal(err)
			}
		}},
	} {
		t.Run(c.what, func(t *testing.T) {
			v := newVoucher(t, key)
			h := newHouse(t, v.config, func(conf *Config) {
				if c.conf != nil {
					c.conf(conf.SignOn)
				}
			})
			h.moveIn(t, "ada", access.Viewer)
			v.spoil = c.spoil
			b := h.browser(t)
			back := v.vouch(b.begin("/jobs/2107"), c.who)
			if c.do != nil {
				c.do(h, v)
			}
			w := b.get(back)
			if in := w.StatusCode == http.StatusSeeOther; in != (c.want != "") || in && w.Header.Get("Location") != "/jobs/2107" {
				t.Errorf("comes back to %s %q: %s", w.Status, w.Header.Get("Location"), w.text)
			}
			if w := b.get("/"); c.want != "" && w.text != c.want || c.want == "" && w.StatusCode != http.StatusSeeOther {
				t.Errorf("in is %q, want %q", w.text, c.want)
			}
			if c.want != "" && v.wrong != "" {
				t.Error(v.wrong)
			}
			if w := b.get(back); w.StatusCode == http.StatusSeeOther {
				t.Error("the way back can be gone twice")
			}
		})
	}
}

// A way back that another browser began lets nobody in, whatever it brings.
func TestSignOnBelongsToOneBrowser(t *testing.T) {
	v := newVoucher(t, someKey(t))
	h := newHouse(t, v.config)
	h.moveIn(t, "eve", access.Viewer)
	eve, victim := h.browser(t), h.browser(t)
	back := v.vouch(eve.begin("/"), map[string]any{"preferred_username": "eve", "groups": "folding"})
	if w := victim.get(back); w.StatusCode != http.StatusForbidden {
		t.Errorf("the victim is logged in as eve: %s", w.Status)
	}
	victim.begin("/")
	for _, path := range []string{back, "/login/oidc/back", "/login/oidc/back?state=&code=", "/login/oidc/back?error=access_denied&state=x", "/login/oidc/back?code=%ff&state=%00"} {
		if w := victim.get(path); w.StatusCode != http.StatusForbidden {
			t.Errorf("%s: %s", path, w.Status)
		}
	}
	if w := h.browser(t).begin("https://evil.example"); w.Host == "evil.example" {
		t.Error("sent elsewhere")
	}
}

func TestSignOnThatIsDown(t *testing.T) {
	v := newVoucher(t, someKey(t))
	h := newHouse(t, v.config)
	v.server.Close()
	w := h.browser(t).get("/login/oidc")
	if w.StatusCode != http.StatusServiceUnavailable || strings.Contains(w.text, v.server.URL) {
		t.Errorf("%s %q", w.Status, w.text)
	}
	if !strings.Contains(h.log.String(), "connection refused") {
		t.Error("the log does not tell why")
	}
}

func TestNoSignOn(t *testing.T) {
	h := newHouse(t)
	for _, path := range []string{"/login/oidc", "/login/oidc/back?code=x&state=y"} {
		if w := h.browser(t).get(path); w.StatusCode != http.StatusNotFound {
			t.Errorf("%s: %s", path, w.Status)
		}
	}
	if label, _ := h.SignOnLabel(); label != "" {
		t.Errorf("the log-in page would show %q", label)
	}
	for what, c := range map[string]Config{
		"no client":          {Address: "http://x", SignOn: &SignOn{Issuer: "http://y"}},
		"no address":         {SignOn: &SignOn{Issuer: "http://y", ID: "z"}},
		"no roles for claim": {Address: "http://x", SignOn: &SignOn{Issuer: "http://y", ID: "z", RoleClaim: "groups"}},
	} {
		if _, err := newSignOn(*c.SignOn, c.Address); err == nil {
			t.Errorf("%s is taken", what)
		}
	}
}
