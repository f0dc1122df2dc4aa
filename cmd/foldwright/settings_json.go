package main

import "foldwright/internal/desk"

func settingsJSON(list []desk.Answer, one bool) any { return list }
