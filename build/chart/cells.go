package chart

// Cell is the state of a fly in one half-month.
type Cell uint8

const (
	CellUnlooked Cell = iota // nobody looked
	CellLooked               // looked for and not found
	CellFound                // found
)
