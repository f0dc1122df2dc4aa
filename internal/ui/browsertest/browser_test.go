// Package browsertest looks at the pages as people do: in a browser, on a real server with the demo shop, with four people
// who may more and more. Without Chromium its tests are left out, unless CI is set.
package browsertest

import (
	"context"
	"encoding/json"
	"fmt"
	"os"
	"os/exec"
	"path/filepath"
	"slices"
	"strings"
	"sync"
	"testing"
	"time"

	cdp "github.com/chromedp/chromedp"

	"foldwright/internal/access"
	"foldwright/internal/gate"
	"foldwright/internal/serve"
)

// longest is how long one test may take before the browser is given up: a limit for hung tests, not a wait.
const longest = 90 * time.Second

// browser is the one browser of all tests; each tab has cookies of its own.
var browser struct {
	once sync.Once
	ctx  context.Context
	err  error
}

// start starts the browser, or skips the test where there is none.
func start(t *testing.T) context.Context {
	t.Helper()
	if testing.Short() {
		t.Skip("a browser is no short matter")
	}
	path := chromium()
	if path == "" {
		if os.Getenv("CI") != "" {
			t.Fatal("there is no chromium; .ci/test-tools installs it")
		}
		t.Skip("there is no chromium")
	}
	browser.once.Do(func() {
		ctx, _ := cdp.NewExecAllocator(context.Background(), flags(path)...)
		browser.ctx, _ = cdp.NewContext(ctx)
		browser.err = cdp.Do(browser.ctx)
	})
	if browser.err != nil {
		t.Fatal(browser.err)
	}
	return browser.ctx
}

// TestMain ends the browser in good order.
func TestMain(m *testing.M) {
	code := m.Run()
	if browser.ctx != nil && browser.err == nil {
		_ = cdp.Cancel(browser.ctx)
	}
	os.Exit(code)
}

func chromium() string {
	for _, name := range []string{"chromium", "chromium-browser", "google-chrome"} {
		if path, err := exec.LookPath(name); err == nil {
			return path
		}
	}
	return ""
}

// flags keep the browser to itself: it asks nobody for news of its own.
func flags(path string) []cdp.ExecAllocatorOption {
	return append(slices.Clone(cdp.DefaultExecAllocatorOptions[:]),
		cdp.ExecPath(path), cdp.NoSandbox, cdp.DisableGPU, cdp.NoFirstRun, cdp.NoDefaultBrowserCheck,
		cdp.Flag("disable-quic", true), cdp.Flag("disable-background-networking", true), cdp.Flag("disable-component-update", true),
		cdp.Flag("disable-sync", true), cdp.Flag("disable-dev-shm-usage", true), cdp.Flag("lang", "en-GB"),
	)
}

// app is a server with a shop of its own and the people of the demo.
type app struct {
	t       *testing.T
	server  *serve.Server
	address string
	guests  map[access.Role]serve.Guest
}

// demoApp serves the demo shop until the test ends, which runs beside others of its kind.
func demoApp(t *testing.T) *app {
	t.Helper()
	start(t)
	t.Parallel()
	return served(t, serve.Config{Demo: true})
}

// served serves what is configured until the test ends.
func served(t *testing.T, c serve.Config) *app {
	t.Helper()
	c.Listen = "127.0.0.1:0"
	c.Limits = gate.Limits{LogInsByAddress: -1, LogInsByName: -1, Calls: -1}
	s, err := serve.New(t.Context(), c)
	if err != nil {
		t.Fatal(err)
	}
	ctx, stop := context.WithCancel(context.WithoutCancel(t.Context()))
	ended := make(chan error, 1)
	go func() { ended <- s.Run(ctx) }()
	t.Cleanup(func() {
		stop()
		if err := <-ended; err != nil {
			t.Error(err)
		}
	})
	a := &app{t: t, server: s, address: s.Address(), guests: map[access.Role]serve.Guest{}}
	if c.Demo {
		a.invite()
	}
	return a
}

// invite makes the people: the guests of the demo, and an admin.
func (a *app) invite() {
	a.t.Helper()
	guests, err := a.server.Guests(a.t.Context())
	if err != nil {
		a.t.Fatal(err)
	}
	ctx, d := access.With(a.t.Context(), access.Who{Name: "test", Role: access.Admin}), a.server.Desk()
	admin := serve.Guest{Name: "admin", Password: "a lantern under nine bridges", Role: access.Admin}
	secret, err := d.Invite(ctx, admin.Name, admin.Role, "")
	if err == nil {
		_, err = d.ChoosePassword(ctx, secret, "", admin.Password)
	}
	if err != nil {
		a.t.Fatal(err)
	}
	for _, g := range append(guests, admin) {
		a.guests[g.Role] = g
	}
}

// tab is a window of the browser with cookies of its own.
type tab struct {
	t   *testing.T
	app *app
	ctx context.Context
	mu  sync.Mutex
	bad []string // what the browser complained about
}

// open opens a window in which nobody is logged in yet.
func (a *app) open() *tab {
	a.t.Helper()
	ctx, cancel := cdp.NewContext(browser.ctx, cdp.WithNewBrowserContext())
	a.t.Cleanup(cancel)
	b := &tab{t: a.t, app: a, ctx: ctx}
	b.must(cdp.Do(ctx))
	b.watch()
	limited, done := context.WithTimeout(ctx, longest)
	a.t.Cleanup(done)
	b.ctx = limited
	b.do(cdp.EmulateViewport(1280, 800))
	return b
}

// openAs opens a window in which somebody of that role is logged in.
func (a *app) openAs(role access.Role) *tab {
	a.t.Helper()
	b := a.open()
	g := a.guests[role]
	b.visit("/login?to=/account")
	b.fill("#name", g.Name)
	b.fill("#password", g.Password)
	b.press(`main form button.main`)
	return b
}

// watch collects what the browser complains about: broken scripts, and whatever the policy of the pages forbids.
func (b *tab) watch() {
	messages := cdp.Console(b.ctx)
	go func() {
		for m, err := range messages {
			if err != nil {
				return
			}
			if m.IsException() || m.Type == cdp.ConsoleError && m.Source != "network" {
				b.mu.Lock()
				b.bad = append(b.bad, m.String())
				b.mu.Unlock()
			}
		}
	}()
	b.t.Cleanup(func() {
		b.mu.Lock()
		defer b.mu.Unlock()
		for _, m := range b.bad {
			b.t.Errorf("the browser complains: %s", m)
		}
	})
}

func (b *tab) must(err error) {
	b.t.Helper()
	if err == nil {
		return
	}
	if dir := os.Getenv("FOLDWRIGHT_SHOTS"); dir != "" {
		if data, bad := cdp.Run(b.ctx, cdp.FullScreenshot(100)); bad == nil {
			_ = os.WriteFile(filepath.Join(dir, "failed-"+strings.ReplaceAll(b.t.Name(), "/", "-")+".png"), data, 0o600)
		}
	}
	b.t.Fatal(err)
}

// do does things one after another.
func (b *tab) do(steps ...cdp.Action[cdp.Void]) {
	b.t.Helper()
	b.must(cdp.Do(b.ctx, steps...))
}

// visit goes to a page of the app and returns its status.
func (b *tab) visit(path string) int64 {
	b.t.Helper()
	r, err := cdp.Run(b.ctx, cdp.NavigateResponse(b.app.address+path))
	b.must(err)
	return r.Status
}

// fill types into a field, in the place of what stands there.
func (b *tab) fill(selector, text string) {
	b.t.Helper()
	b.do(cdp.Clear(cdp.CSS(selector)), cdp.SendKeys(cdp.CSS(selector), text))
}

// press clicks on what leads to another page, and returns that page's status.
func (b *tab) press(selector string) int64 {
	b.t.Helper()
	r, err := cdp.RunResponse(b.ctx, cdp.Click(cdp.CSS(selector)))
	b.must(err)
	return r.Status
}

// click clicks on what changes the page it stands on.
func (b *tab) click(selector string) {
	b.t.Helper()
	b.do(cdp.Click(cdp.CSS(selector)))
}

// until waits until a piece of script is true.
func (b *tab) until(script string) {
	b.t.Helper()
	_, err := cdp.Run(b.ctx, cdp.Poll[cdp.Void](script))
	if err != nil {
		err = fmt.Errorf("waited for %s: %w", script, err)
	}
	b.must(err)
}

// text is what stands in an element.
func (b *tab) text(selector string) string {
	b.t.Helper()
	s, err := cdp.Run(b.ctx, cdp.Text(cdp.CSS(selector)))
	b.must(err)
	return s
}

// says fails when an element does not say something.
func (b *tab) says(selector, want string) {
	b.t.Helper()
	if got := b.text(selector); !strings.Contains(got, want) {
		b.t.Errorf("%s says %q, want %q in it", selector, got, want)
	}
}

// at is the path of the page with its query.
func (b *tab) at() string {
	b.t.Helper()
	s, err := cdp.Run(b.ctx, cdp.Location())
	b.must(err)
	return strings.TrimPrefix(s, b.app.address)
}

// eval runs a piece of script and returns what it gives.
func eval[T any](b *tab, script string) T {
	b.t.Helper()
	v, err := cdp.Run(b.ctx, cdp.Evaluate[T](script, cdp.EvalAwaitPromise))
	b.must(err)
	return v
}

// widths are those at which every page is looked at: a small telephone, an office screen, a wall.
var widths = []int64{360, 1280, 3840}

// look holds the page that is open to what every page must be, in light and dark and at every width: no sideways scrolling, nothing
// that axe finds fault with. With FOLDWRIGHT_SHOTS it leaves pictures in that directory.
func (b *tab) look(name string) {
	b.t.Helper()
	eval[any](b, `document.querySelectorAll(".stick, .top").forEach(e => { e.style.position = "static" })`) // else they stand in the middle of long pictures
	for _, theme := range []string{"light", "dark"} {
		eval[any](b, `document.documentElement.dataset.theme = "`+theme+`"`)
		for _, width := range widths {
			b.do(cdp.EmulateViewport(width, width*10/16))
			b.fits(fmt.Sprintf("%s at %d", name, width))
			if small := eval[string](b, tooSmall); small != "" {
				b.t.Errorf("%s at %d: too small for gloves: %s", name, width, small)
			}
			if width == 360 && theme == "light" || width == 1280 && theme == "dark" { // a run takes about a second
				b.axe(fmt.Sprintf("%s at %d, %s", name, width, theme))
			}
			if file := fmt.Sprintf("%s-%d-%s.png", name, width, theme); width < 3840 {
				b.shoot(file)
			} else {
				b.keep(file, cdp.CaptureScreenshot()) // what fits on the wall
			}
		}
	}
	eval[any](b, `delete document.documentElement.dataset.theme`)
	b.do(cdp.EmulateViewport(1280, 800))
}

// fits fails when the page scrolls sideways.
func (b *tab) fits(where string) {
	b.t.Helper()
	if over := eval[int](b, `document.documentElement.scrollWidth - document.documentElement.clientWidth`); over > 0 {
		b.t.Errorf("%s: scrolls sideways by %d; too wide: %s", where, over, eval[string](b, tooWide))
	}
}

// tooWide names the elements that reach beyond the window.
const tooWide = `[...document.querySelectorAll("main *, header *")].filter(e => e.getBoundingClientRect().right > innerWidth + 1)
	.slice(0, 5).map(e => e.tagName + "." + e.className).join(", ")`

// tooSmall names what is pressed, on a page for gloves, and is lower than 48 px: what common guides for touch screens ask for, and twice
// the least of WCAG 2.2 (2.5.8). Links inside running text are not meant.
const tooSmall = `[...document.querySelectorAll("body.touch :is(button, .button, select, input:not([type=hidden], [type=checkbox], [type=radio]), nav a)")]
	.filter(e => { const r = e.getBoundingClientRect(); return r.width > 1 && r.height > 1 && r.height < 48 })
	.slice(0, 5).map(e => e.tagName + "." + e.className + " " + e.textContent.trim().slice(0, 20) + " " + Math.round(e.getBoundingClientRect().height)).join(", ")`

// shoot leaves a picture of the whole page.
func (b *tab) shoot(file string) {
	b.t.Helper()
	b.keep(file, cdp.FullScreenshot(100))
}

func (b *tab) keep(file string, picture cdp.Action[[]byte]) {
	b.t.Helper()
	dir := os.Getenv("FOLDWRIGHT_SHOTS")
	if dir == "" {
		return
	}
	data, err := cdp.Run(b.ctx, picture)
	b.must(err)
	b.must(os.MkdirAll(dir, 0o750))
	b.must(os.WriteFile(filepath.Join(dir, file), data, 0o600))
}

var axeScript = sync.OnceValues(func() ([]byte, error) { return os.ReadFile("testdata/axe.min.js") })

// axe runs axe-core, whose rules follow WCAG, and fails on what it finds.
func (b *tab) axe(where string) {
	b.t.Helper()
	script, err := axeScript()
	b.must(err)
	if !eval[bool](b, `typeof axe !== "undefined"`) {
		b.do(cdp.Evaluate[cdp.Void](string(script)))
	}
	found := eval[string](b, `axe.run(document, {resultTypes: ["violations"]}).then(r => JSON.stringify(r.violations.map(v => ({
		id: v.id, help: v.help, nodes: v.nodes.slice(0, 4).map(n => n.html.slice(0, 200) + " " + (n.any[0]?.message ?? n.all[0]?.message ?? "")) }))))`)
	var violations []struct {
		ID, Help string
		Nodes    []string
	}
	b.must(json.Unmarshal([]byte(found), &violations))
	for _, v := range violations {
		b.t.Errorf("%s: %s (%s)\n\t%s", where, v.Help, v.ID, strings.Join(v.Nodes, "\n\t"))
	}
}
