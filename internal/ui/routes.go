package ui

import (
	"net/http"
	"slices"

	"foldwright/internal/access"
)

// route is one line of the table of what the pages can do.
type route struct {
	pattern string
	serve   func(http.ResponseWriter, *http.Request) error
	deed    access.Deed // the least one must be allowed; empty: anybody, logged in or not
	call    string      // the operation of the API that does the same; empty for what only concerns the pages themselves
}

// table is every route, by noun. A noun lists its own in its own file.
func (p *pages) table() []route {
	return slices.Concat(
		p.startRoutes(),
		p.dayRoutes(),
		p.themeRoutes(),
		p.rackRoutes(),
		p.jobsRoutes(),
		p.foldersRoutes(),
		p.editRoutes(),
		p.logInRoutes(),
		p.accountRoutes(),
		p.adminRoutes(),
	)
}
