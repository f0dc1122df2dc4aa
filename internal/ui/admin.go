package ui

import (
	"net/http"
	"slices"

	"foldwright/internal/access"
	"foldwright/internal/ledger"
	"foldwright/internal/words"
)

func (p *pages) adminRoutes() []route {
	return slices.Concat(
		[]route{
			{pattern: "GET /admin", serve: p.admin, deed: access.Rule},
			{pattern: "GET /admin/shop", serve: p.adminShop, deed: access.Rule, call: "get-shop"},
		},
		p.peopleRoutes(),
		p.tokenRoutes(),
		p.trailRoutes(),
		p.sessionRoutes(),
		p.keepRoutes(),
	)
}

// tile leads to a page of the admin's.
type tile struct {
	Path, Icon string
	Name, What words.Text
}

var adminTiles = []tile{
	{"/admin/people", "people", words.T("People"), words.T("Who may come in, and what they may do")},
	{"/admin/tokens", "lock", words.T("Tokens"), words.T("Programs that come in under somebody's name")},
	{"/admin/sessions", "person", words.T("Sessions"), words.T("Who is logged in where")},
	{"/admin/trail", "trail", words.T("Audit trail"), words.T("Every change: who, when, what; and taking it back")},
	{"/admin/shop", "admin", words.T("Shop"), words.T("Units, clock, calendars, classes, standards, weights, house rules")},
	{"/admin/keep", "load", words.T("Backup and import"), words.T("A copy of everything, and the shop as a file")},
}

// admin is the start page of who rules.
func (p *pages) admin(w http.ResponseWriter, r *http.Request) error {
	var tiles []tile
	for _, t := range adminTiles {
		if p.has("GET " + t.Path) {
			tiles = append(tiles, t)
		}
	}
	return p.show(w, r, page{name: "admin", title: words.T("Admin"), body: tiles})
}

// shopPart is a kind of thing that the shop is made of, with where each is edited.
type shopPart struct {
	Kind   ledger.Kind
	Name   words.Text // of one
	Many   words.Text
	Things []shopThing
	Alone  bool
	New    string
}

type shopThing struct{ Name, Edit string }

// adminKinds are what an admin edits that has no page of its own.
var adminKinds = []ledger.Kind{ledger.OfShop, ledger.OfStandards, ledger.OfWeights, ledger.OfHouse, ledger.OfCalendar, ledger.OfClass, ledger.OfPerson, ledger.OfStock, ledger.OfTool}

// manyNames is what several things of a kind are called; of what a shop has one of, that.
func manyNames(k ledger.Kind) words.Text {
	switch k {
	case ledger.OfCalendar:
		return words.T("Calendars")
	case ledger.OfClass:
		return words.T("Classes of shafts")
	case ledger.OfPerson:
		return words.T("People at the bench")
	case ledger.OfStock:
		return words.T("Stocks of paper")
	case ledger.OfTool:
		return words.T("Tools")
	}
	return kindNames[k]
}

// adminShop lists the parts of the shop that are edited rarely.
func (p *pages) adminShop(w http.ResponseWriter, r *http.Request) error {
	now, err := p.desk.Snapshot(r.Context())
	if err != nil {
		return err
	}
	var parts []shopPart
	for _, k := range adminKinds {
		part := shopPart{Kind: k, Name: kindNames[k], Many: manyNames(k), Alone: k.Alone(), New: "/new/" + string(k) + "?back=/admin/shop"}
		for _, t := range now.Tags(k) {
			part.Things = append(part.Things, shopThing{t.Name, editURL(k, t.Name, "/admin/shop")})
		}
		parts = append(parts, part)
	}
	return p.show(w, r, page{name: "admin_shop", title: words.T("Shop"), body: parts})
}
