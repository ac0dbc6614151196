// Package species holds what the guide knows of flies wherever they live:
// accounts, stages, features, flights, dressings, hooks and sources, read
// from the guide's text and checked.
package species

import "slices"

// Group is the angler's division of flies; the order of insects follows from it.
type Group string

// The groups, in the order pages list them.
const (
	Upwinged   Group = "upwinged"
	Sedge      Group = "sedge"
	Stonefly   Group = "stonefly"
	Alder      Group = "alder"
	Midge      Group = "midge"
	Gnat       Group = "gnat"
	Damselfly  Group = "damselfly"
	OtherWater Group = "other water-bred"
	LandBred   Group = "land-bred"
)

// Groups is the closed list, in page order.
var Groups = []Group{Upwinged, Sedge, Stonefly, Alder, Midge, Gnat, Damselfly, OtherWater, LandBred}

// WaterBred reports whether the group grows up in water.
func (g Group) WaterBred() bool { return g != LandBred }

// Order is the insect order of a group, "" where several are meant.
func (g Group) Order() string {
	return map[Group]string{Upwinged: "Ephemeroptera", Sedge: "Trichoptera", Stonefly: "Plecoptera",
		Alder: "Megaloptera", Midge: "Diptera", Gnat: "Diptera", Damselfly: "Odonata"}[g]
}

// Stage is a stage of life, in the guide's words. Dun is the subimago, spinner the imago of upwinged flies.
type Stage string

// The stages.
const (
	NoStage Stage = "" // any stage
	Egg     Stage = "egg"
	Larva   Stage = "larva"
	Nymph   Stage = "nymph"
	Pupa    Stage = "pupa"
	Dun     Stage = "dun"
	Spinner Stage = "spinner"
	Adult   Stage = "adult"
)

// AllStages is the closed list, in the order of life.
var AllStages = []Stage{Egg, Larva, Nymph, Pupa, Dun, Spinner, Adult}

// Stages lists the stages a group has after the egg. Only upwinged flies have
// a dun and a spinner.
func (g Group) Stages() []Stage {
	switch g {
	case Upwinged:
		return []Stage{Nymph, Dun, Spinner}
	case Stonefly, Damselfly:
		return []Stage{Nymph, Adult}
	case LandBred:
		return []Stage{Adult}
	case OtherWater:
		return []Stage{Larva, Nymph, Pupa, Adult}
	}
	return []Stage{Larva, Pupa, Adult}
}

// Has reports whether a fly of the group can be found in a stage.
func (g Group) Has(s Stage) bool { return s == Egg || slices.Contains(g.Stages(), s) }

// Compared gives the two stages whose comparison the group's pages print, those of the fly's own life: dun and
// spinner, pupa and adult, nymph and adult, larva and adult. ok is false for land-bred flies.
func (g Group) Compared() (first, second Stage, ok bool) {
	switch g {
	case Upwinged:
		return Dun, Spinner, true
	case Stonefly, Damselfly:
		return Nymph, Adult, true
	case Alder, Gnat, OtherWater:
		return Larva, Adult, true
	case LandBred:
		return "", "", false
	}
	return Pupa, Adult, true
}

// OnTheWing reports whether a stage flies: these are the records that count as found.
func (s Stage) OnTheWing() bool { return s == Dun || s == Spinner || s == Adult }

// Sex is male, female or not said.
type Sex string

// The sexes.
const (
	NoSex  Sex = "" // either, or not said
	Male   Sex = "male"
	Female Sex = "female"
)

// Class is an abundance class: the DAFOR scale of field ecology.
type Class string

// The classes, commonest first. NoClass means the water's record only lists
// the fly, and the account's own class holds.
const (
	Dominant   Class = "dominant"
	Abundant   Class = "abundant"
	Frequent   Class = "frequent"
	Occasional Class = "occasional"
	Rare       Class = "rare"
	NoClass    Class = ""
)

// Classes is the closed list, commonest first.
var Classes = []Class{Dominant, Abundant, Frequent, Occasional, Rare}

// Rank is the class's place in the scale from 0 (dominant), for "at most one step apart".
func (c Class) Rank() int { return slices.Index(Classes, c) }

// Level is where in the water a stage is taken or a dressing fishes.
type Level string

// The levels, from the bottom up.
const (
	Bottom   Level = "bottom"
	Midwater Level = "midwater"
	Film     Level = "film"
	Surface  Level = "surface"
)

// Levels is the closed list, from the bottom up.
var Levels = []Level{Bottom, Midwater, Film, Surface}

// Rank is the level's height from 0 (bottom).
func (l Level) Rank() int { return slices.Index(Levels, l) }

// Emergence is how the fly leaves the water.
type Emergence string

// The ways of emerging. The zero value means not known, and rules nothing out.
const (
	AtSurface   Emergence = "at the surface"
	UnderWater  Emergence = "under water"
	CrawlingOut Emergence = "by crawling out"
	OnLand      Emergence = "on land"
	NeverEmerge Emergence = "never" // an animal that lives under water all its life: a shrimp, a water boatman
)

// Emergences is the closed list; "unknown" may be written and means the zero value.
var Emergences = []Emergence{AtSurface, UnderWater, CrawlingOut, OnLand, NeverEmerge}

// Laying is how the female lays.
type Laying string

// The ways of laying. The zero value means not known, and rules nothing out.
const (
	LaysUnderWater  Laying = "under water"
	LaysOnSurface   Laying = "on the surface"
	LaysFromTheAir  Laying = "dropped from the air"
	LaysOnPlants    Laying = "on plants above water"
	LaysOnStones    Laying = "on wet stones"
	LaysOnStems     Laying = "on wet stems"
	LaysOffTheWater Laying = "away from water"
)

// Layings is the closed list; "unknown" may be written and means the zero value.
var Layings = []Laying{LaysUnderWater, LaysOnSurface, LaysFromTheAir, LaysOnPlants, LaysOnStones, LaysOnStems, LaysOffTheWater}

// Rule is how a flight moves between waters.
type Rule string

// The rules; ByDefault is warmth where both temperatures are known, else altitude.
const (
	ByDefault  Rule = ""
	ByWarmth   Rule = "warmth"
	ByAltitude Rule = "altitude"
	ByNothing  Rule = "nothing"
)

// Rules is the closed list.
var Rules = []Rule{ByWarmth, ByAltitude, ByNothing}
