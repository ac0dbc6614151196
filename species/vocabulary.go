package species

import "guidegen/content"

// Character is one entry of characters.yaml.
type Character struct {
	Name   string
	At     content.Place
	States []State // in the order a key offers them
	Seen   []Words // stages and sexes in which it can be seen; Flight is always empty
	Needs  Needs
	Draw   string // the part of the drawing it belongs to: "tail count"; "" is not drawn
	About  string
}

// State is one state of a character.
type State struct {
	Name  string
	Draw  string // how the drawing shows it
	About string
	At    content.Place
}

// Needs is what it takes to see a character.
type Needs string

// What it can take.
const (
	NakedEye   Needs = "naked eye"
	HandLens   Needs = "hand lens"
	Microscope Needs = "microscope"
)

// AllNeeds is the closed list, easiest first.
var AllNeeds = []Needs{NakedEye, HandLens, Microscope}

// Drawable lists the parts a character may be tied to, each with the values its states may take.
var Drawable = map[string][]string{
	"wing posture": {"upright", "roof", "flat", "rolled", "spread"},
	"fore wing":    {"clouded", "clear", "spotted"},
	"hind wing":    {"none", "tiny", "medium", "large"},
	"tail count":   {"0", "2", "3"},
	"tail length":  nil, // "0.8 body", "12 mm", "short", "long"
	"eyes":         {"plain", "turban"},
	"bands":        {"plain", "banded"},
}

// Sees reports whether the character can be seen in a case.
func (c *Character) Sees(w Words) bool {
	if len(c.Seen) == 0 {
		return true
	}
	for _, s := range c.Seen {
		if (s.Stage == "" || s.Stage == w.Stage) && (s.Sex == "" || w.Sex == "" || s.Sex == w.Sex) {
			return true
		}
	}
	return false
}
