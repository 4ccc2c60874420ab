package main

import (
	"millmaths.example/stock/line"
)

func drawLine(file string, a *line.Answer, t *terminal) error { return nil }
