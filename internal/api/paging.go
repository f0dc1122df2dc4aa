package api

import (
	"fmt"
	"net/url"
	"slices"
	"strconv"

	"foldwright/internal/fault"
	"foldwright/internal/shop"
)

// Paging says which part of a list is wanted.
type Paging struct {
	After string `query:"after" maxLength:"200" doc:"Continue behind this one: the next of the page before has it."`
	Limit int    `query:"limit" minimum:"1" maximum:"500" default:"100" doc:"At most so many."`
}

// page is the part of a list that was asked for, and whether there is more. Who goes by what an item is called for paging.
func page[T any](list []T, p Paging, called func(T) string) (part []T, more bool, err error) {
	if p.After != "" {
		at := slices.IndexFunc(list, func(v T) bool { return called(v) == p.After })
		if at < 0 {
			names := make([]string, len(list))
			for i, v := range list {
				names[i] = called(v)
			}
			return nil, false, fault.Fault{Kind: fault.Input, Code: shop.CodeUnknownName, Field: "after", Wrong: fmt.Sprintf("there is no %q in the list", clip(p.After)), Right: shop.DidYouMean(p.After, "such thing", names)}
		}
		list = list[at+1:]
	}
	if len(list) > p.Limit {
		return list[:p.Limit], true, nil
	}
	return list, false, nil
}

// nextPage is the address of the page behind the last item, with what else was asked for.
func nextPage(path string, p Paging, last string, more url.Values) string {
	q := url.Values{}
	for k, v := range more {
		q[k] = v
	}
	q.Set("after", last)
	q.Set("limit", strconv.Itoa(p.Limit))
	return Prefix + path + "?" + q.Encode()
}

// link is a Link header that leads to the next page (RFC 8288).
func link(next string) string {
	if next == "" {
		return ""
	}
	return "<" + next + `>; rel="next"`
}
