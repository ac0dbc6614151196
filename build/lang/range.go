package lang

// Ranges of figures.

import (
	"guidegen/content"
)

// Range is two figures of one unit; equal where one value stands.
type Range struct{ Low, High content.Figure }

// Known reports whether there is a range.
func (r Range) Known() bool { return r.Low.Known() }

// Single reports whether both ends print alike.
func (r Range) Single() bool { return r.Low.Number() == r.High.Number() }

// Range is a range in plain text, "" where it isn't known.
func (w *Words) Range(r Range) string {
	switch {
	case !r.Known():
		return ""
	case r.Single():
		return w.Amount(r.High) // from none to under one per cent is under one
	}
	return w.Plain("range", "low", r.Low.Number(), "high", w.Amount(r.High))
}
