package store

import (
	"context"
	"fmt"
	"slices"
	"strings"

	"foldwright/internal/fault"
	"foldwright/internal/ledger"
)

// staleFault tells what happened to a thing since it was read with the version in the tag.
func (s *Store) staleFault(ctx context.Context, a asker, t ledger.Tag) error {
	f := fault.Fault{
		Kind: fault.Conflict, Code: ledger.CodeStale, Field: called(t.Kind, t.Name),
		Wrong: "it is not as it was when it was read", Right: "look at it as it is now, and change that",
	}
	since, err := s.changesSince(ctx, a, t)
	if err != nil {
		return err
	}
	if len(since) > 0 {
		f.Wrong = "since you read it, it was " + inWords(since)
		if since[0].Things[0].Deed == ledger.Removed {
			f.Right = "add it anew if it is still wanted"
		}
	}
	return f
}

// changesSince lists the changes of a thing after the version in the tag, newest first.
func (s *Store) changesSince(ctx context.Context, a asker, t ledger.Tag) ([]ledger.Change, error) {
	if t.ID == "" {
		return nil, nil
	}
	all, err := history(ctx, a, ledger.Page{Thing: t.ID}, readerOf(s.seen().Snapshot))
	return slices.DeleteFunc(all, func(c ledger.Change) bool { return c.Revision <= t.Version }), err
}

// inWords tells the changes since, oldest first: "changed by ada on 2026-03-02 14:05 (calendar, feeder.rate), then …".
func inWords(since []ledger.Change) string {
	const most = 3
	var told []string
	for _, c := range since[:min(len(since), most)] {
		text := fmt.Sprintf("%s by %s on %s", c.Things[0].Deed, c.Who, c.At.Format("2006-01-02 15:04"))
		if names := fieldNames(c.Things[0]); names != "" && c.Things[0].Deed == ledger.Altered {
			text += " (" + names + ")"
		}
		told = append(told, text)
	}
	slices.Reverse(told)
	text := strings.Join(told, ", then ")
	if more := len(since) - most; more > 0 {
		text += fmt.Sprintf(", after %d other changes", more)
	}
	return text
}

func fieldNames(c ledger.Changed) string {
	const most = 4
	var names []string
	for _, f := range c.Fields[:min(len(c.Fields), most)] {
		names = append(names, f.Name)
	}
	if more := len(c.Fields) - most; more > 0 {
		names = append(names, fmt.Sprintf("%d more", more))
	}
	return strings.Join(names, ", ")
}
