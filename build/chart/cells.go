package chart

// The signs for the cells of the year grid. The grid itself is an HTML table;
// each cell holds a sign and, for those who don't see it, a word. The three
// states differ in shape alone: a solid block, an open ring, slanting strokes.

import "html/template"

// Cell is the state of a fly in one half-month.
type Cell uint8

const (
	CellUnlooked Cell = iota // nobody looked
	CellLooked               // looked for and not found
	CellFound                // found
)

var cellNames = [...]string{CellUnlooked: "unlooked", CellLooked: "looked", CellFound: "found"}

// CellSigns defines the signs, once on a page before the first CellSign. Ink is
// the text's colour (currentColor), so they hold in print, in the dark, in grey
// and in forced colours. The hatching is drawn as strokes: a pattern would not
// reach into a symbol everywhere.
const CellSigns template.HTML = `<svg class="chart-defs" width="0" height="0" aria-hidden="true" focusable="false">` +
	`<symbol id="cell-found" viewBox="0 0 12 12"><path d="M0 0H12V12H0Z" fill="currentColor"/></symbol>` +
	`<symbol id="cell-looked" viewBox="0 0 12 12"><circle cx="6" cy="6" r="3.2" fill="none" stroke="currentColor" stroke-width="1.3"/></symbol>` +
	`<symbol id="cell-unlooked" viewBox="0 0 12 12"><path d="M0 4L4 0M0 8L8 0M0 12L12 0M4 12L12 4M8 12L12 8" fill="none" stroke="currentColor" stroke-width=".9"/></symbol></svg>`

// CellSign is the sign of one state; the word goes beside it. A state out of
// range is "nobody looked": nothing is claimed by mistake.
func CellSign(c Cell) template.HTML {
	if int(c) >= len(cellNames) {
		c = CellUnlooked
	}
	return template.HTML(`<svg class="cell" aria-hidden="true" focusable="false"><use href="#cell-` + cellNames[c] + `"/></svg>`)
}
