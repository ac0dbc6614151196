// What would serve: for a fly that no dressing in the box stands for, what a
// tyer would aim at.

package tying

import (
	"slices"

	"guidegen/species/colour"
)

// Aim is what a dressing for a natural would be like. Avoid names the forms
// that would be ruled out, Unknown the habits that aren't known.
type Aim struct {
	Length  float64 // mm; 0 is not known
	Hooks   []Hook  // the suggestion in each straight model, by model
	Levels  []Level // from the bottom up
	Colours []Tint  // body, wing, hackle or legs, tail: those that are known
	Avoid   []Code
	Unknown []Code
}

// Tint is the colour of one part of the body.
type Tint struct {
	Part string
	Lab  colour.Lab
}

// WouldServe says what to aim at by size, level and colour.
func WouldServe(n Natural) Aim {
	a := Aim{Length: n.Length, Hooks: slices.Clone(n.Hooks), Levels: slices.Clone(n.Levels), Unknown: n.unknown()}
	slices.Sort(a.Levels)
	a.Levels = slices.Compact(a.Levels)
	for _, p := range colourParts {
		if lab, name, ok := first(n.Colours, p.names); ok {
			a.Colours = append(a.Colours, Tint{name, lab})
		}
	}
	for _, r := range (Dressing{Levels: []Level{Surface}}).against(n, Offer{}, ByFly, Defaults()) {
		a.Avoid = append(a.Avoid, r.Code)
	}
	return a
}
