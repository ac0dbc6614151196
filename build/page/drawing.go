package page

// Diagrams of flies, made from their own characters.

import (
	"html/template"

	"guidegen/build/figures"
)

// Drawing is one diagram as SVG.
type Drawing struct{ SVG template.HTML }

func (p *Printer) drawings(f *figures.Fly) ([]DrawingView, error) { return nil, nil }
