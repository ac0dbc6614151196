package species

import (
	"slices"

	"guidegen/content"
)

// Character is one entry of characters.yaml.
type Character struct {
	Name   string
	At     content.Place
	States []State  // in the order a key offers them
	Seen   []Words  // stages and sexes in which it can be seen; Flight is always empty
	Groups []string // groups of flies that it applies to; empty: those of which some fly has a state
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

// Drawable lists the parts a character may be tied to, each with the values its states may take. A
// state without a value of its own takes its name, where that is one of them.
var Drawable = map[string][]string{
	"wing posture":    {"upright", "roof", "flat", "rolled", "spread"},
	"fore wing":       {"clouded", "clear", "tinted", "spotted"},
	"hind wing":       {"none", "tiny", "spurred", "medium", "large"},
	"hind wing shade": {"as the fore wing", "much paler"},
	"wing marks":      {"plain", "blotched", "flecked", "banded", "smoky tip", "brown front edge", "pale crescent"},
	"wing edge":       {"fringed", "bare"},
	"edge veinlets":   {"paired", "single"},
	"wing surface":    {"hairy", "bare"},
	"cross veins":     {"X near the tip", "no X"},
	"tail count":      {"0", "stubs", "2", "3"},
	"tail rings":      {"plain", "ringed"},
	"tail length":     nil, // "0.8 body", "12 mm", "short", "long"
	"eyes":            {"plain", "turban", "two-part"},
	"upper eye":       {"yellow", "red", "brown"},
	"claspers":        {"present", "absent"},
	"bands":           {"plain", "banded", "last segments", "all segments"},
	"body shade":      {"pale", "pale with dark marks", "dark"},
	"legs":            {"plain", "spot on the thigh", "red thighs", "black"},
	"antenna rings":   {"plain", "ringed"},
	"antennae":        {"bristle", "short", "long", "very long", "feathered"},
	"egg mass":        {"green ball", "no ball"},
	"nymph build":     {"swimmer", "clinger", "crawler", "burrower"},
	"larva":           {"case of stones", "case of plants", "no case"},
}

// Drawn is the part of the drawing that a character in a state is, and how it shows it; both are ""
// where it isn't drawn.
func (c *Character) Drawn(state string) (part, value string) {
	values, ok := Drawable[c.Draw]
	i := slices.IndexFunc(c.States, func(s State) bool { return s.Name == state })
	switch {
	case !ok || i < 0:
		return "", ""
	case c.States[i].Draw != "":
		return c.Draw, c.States[i].Draw
	case slices.Contains(values, state) || values == nil && tailLength.MatchString(state):
		return c.Draw, state
	}
	return "", ""
}

// Forms are words for a fly's build where its group alone can't draw it.
var Forms = []string{"gnat", "smut", "hawthorn", "crane-fly", "beetle", "ant", "damselfly", "shrimp", "boatman"}

// Sees reports whether the character can be seen in a case.
func (c *Character) Sees(w Words) bool {
	return len(c.Seen) == 0 || slices.ContainsFunc(c.Seen, func(s Words) bool {
		return (s.Stage == "" || s.Stage == w.Stage) && (s.Sex == "" || w.Sex == "" || s.Sex == w.Sex)
	})
}
