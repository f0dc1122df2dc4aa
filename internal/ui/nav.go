package ui

import (
	"net/http"
	"slices"
	"strings"

	"foldwright/internal/access"
	"foldwright/internal/words"
)

// navItem is a place in the navigation.
type navItem struct {
	Path, Icon string
	Name       words.Text
	Key        string // that opens it
	Here       bool
	deed       access.Deed
}

// places are the main places of the app, in their order.
var places = []navItem{
	{Path: "/day", Icon: "day", Name: words.T("Day"), Key: "d", deed: access.See},
	{Path: "/jobs", Icon: "jobs", Name: words.T("Jobs"), Key: "j", deed: access.See},
	{Path: "/rack", Icon: "rack", Name: words.T("Rack"), Key: "r", deed: access.See},
	{Path: "/folders", Icon: "folders", Name: words.T("Folders"), Key: "f", deed: access.See},
	{Path: "/admin", Icon: "admin", Name: words.T("Admin"), Key: "a", deed: access.Rule},
}

// nav is the places that somebody of this role can go to.
func (p *pages) nav(r *http.Request, role access.Role) []navItem {
	var items []navItem
	for _, item := range places {
		if !role.Allows(item.deed) || !p.has("GET "+item.Path) {
			continue
		}
		item.Here = r.URL.Path == item.Path || strings.HasPrefix(r.URL.Path, item.Path+"/")
		items = append(items, item)
	}
	return items
}

// has says whether the table has a route.
func (p *pages) has(pattern string) bool {
	return slices.ContainsFunc(p.routes, func(rt route) bool { return rt.pattern == pattern })
}
