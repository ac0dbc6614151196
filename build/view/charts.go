package view

// Signs and ids of a year.

import (
	"strconv"

	"guidegen/build/chart"
	"guidegen/build/figures"
)

// FlyID is an id on a page: a prefix and a place in a list, counted from 1.
func FlyID(prefix string, i int) string { return prefix + "-" + strconv.Itoa(i+1) }

// SeenAs is a half-month's state as charts draw it.
func SeenAs(s figures.CellState) chart.Cell {
	switch s {
	case figures.CellFound:
		return chart.CellFound
	case figures.CellLooked:
		return chart.CellLooked
	}
	return chart.CellUnlooked
}
