package view

// Signs and ids of a year.

import (
	"strconv"

	"guidegen/build/chart"
	"guidegen/build/figures"
)

func FlyID(prefix string, i int) string { return prefix + "-" + strconv.Itoa(i+1) }

func SeenAs(s figures.CellState) chart.Cell {
	switch s {
	case figures.CellFound:
		return chart.CellFound
	case figures.CellLooked:
		return chart.CellLooked
	}
	return chart.CellUnlooked
}
