package browsertest

import (
	"testing"

	cdp "github.com/chromedp/chromedp"

	"foldwright/internal/access"
)

func TestTmp(t *testing.T) {
	b := demoApp(t).openAs(access.Lead)
	b.visit("/jobs/2101")
	b.do(cdp.EmulateViewport(360, 225))
	t.Log(eval[string](b, `[...document.querySelectorAll("main *")].filter(e => e.getBoundingClientRect().right > 361 && !e.closest("svg")).map(e => e.tagName + "." + e.className + " " + Math.round(e.getBoundingClientRect().right) + " " + getComputedStyle(e).overflowX).join("\n")`))
	t.Log(eval[string](b, `[...document.querySelectorAll(".picture")].map(e => getComputedStyle(e).overflowX + e.scrollWidth + " " + e.clientWidth + " " + e.getBoundingClientRect().right).join("\n")`))
	t.Log(eval[int](b, `document.documentElement.scrollWidth`))
}
