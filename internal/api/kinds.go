package api

import (
	"net/url"
	"slices"

	"foldwright/internal/ledger"
)

// kind is a kind of thing as it stands in addresses.
type kind struct {
	ledger.Kind
	path   string // below the prefix
	schema ref
	one    string // what one of them is called
	many   string
}

// kinds are all of them, in the order of the ledger.
var kinds = []kind{
	{ledger.OfShop, "shop", "Shop", "the shop", ""},
	{ledger.OfCalendar, "calendars", "Calendar", "a calendar", "the calendars"},
	{ledger.OfClass, "classes", "Class", "a class of shafts", "the classes of shafts"},
	{ledger.OfTool, "tools", "Tool", "a tool", "the tools"},
	{ledger.OfSet, "sets", "Set", "a set", "the sets"},
	{ledger.OfFolder, "folders", "Folder", "a folder", "the folders"},
	{ledger.OfPresent, "present", "Present", "what stands on a folder", "what stands on the folders"},
	{ledger.OfPerson, "bench", "Person", "somebody on the bench", "who works on the bench"},
	{ledger.OfStock, "stocks", "Stock", "a stock", "the stocks"},
	{ledger.OfJob, "jobs", "Job", "a job", "the jobs in the order given"},
	{ledger.OfDone, "done", "Job", "a finished job", "the finished jobs"},
	{ledger.OfStandards, "standards", "Standards", "the standard minutes", ""},
	{ledger.OfWeights, "weights", "Weights", "the prices of a minute", ""},
	{ledger.OfHouse, "house", "House", "the rules of the house", ""},
}

// kindOf is the kind as it stands in addresses.
func kindOf(k ledger.Kind) kind {
	return kinds[slices.IndexFunc(kinds, func(o kind) bool { return o.Kind == k })]
}

// address is where a thing stands.
func (k kind) address(name string) string {
	if k.Alone() {
		return Prefix + "/" + k.path
	}
	return Prefix + "/" + k.path + "/" + url.PathEscape(name)
}
