package main

import (
	"foldwright/internal/desk"
	"foldwright/internal/exchange"
	"foldwright/internal/press"
)

// settingsJSON is the shape of settings --json: one answer when one folder was asked, otherwise the list.
func settingsJSON(list []desk.Answer, one bool) any {
	out := press.Settings(list)
	if one {
		return exchange.Settings(out[0])
	}
	return exchange.SettingsList(out)
}
