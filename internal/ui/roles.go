package ui

import (
	"foldwright/internal/access"
	"foldwright/internal/words"
)

// roleNames are the roles as people call them.
var roleNames = [...]words.Text{
	access.Nobody: words.T("nobody"), access.Viewer: words.T("viewer"), access.Operator: words.T("operator"),
	access.Lead: words.T("lead"), access.Admin: words.T("admin"),
}

// roleName is a role as people call it.
func roleName(r access.Role) words.Text { return roleNames[min(r, access.Admin)] }

// roleChoices are the roles that somebody can be given, least first.
func roleChoices(now access.Role) (list []choice) {
	for _, r := range access.Roles() {
		list = append(list, choice{r.String(), roleName(r), r == now})
	}
	return list
}
