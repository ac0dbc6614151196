// Package tying says what to tie on: which dressings of a box serve for a fly
// in a stage on a water, by size, colour, place and name, which are ruled out
// and why, and the shortest list to tie for a trip.
//
// The package works on plain data: lengths, shanks and chances reach it as
// numbers, and words come out as codes with the data for a sentence. What is
// not known is left out of the reckoning; it never counts against a dressing.
package tying

import (
	"fmt"
	"math"
	"slices"

	"guidegen/species/colour"
)

// Level is where in the water a natural or a dressing is found, from the bottom up.
type Level int

// The levels; neighbours in this order are "the next level".
const (
	Bottom Level = iota
	Midwater
	Film
	Surface
)

var levelWords = [...]string{"bottom", "midwater", "film", "surface"}

// String returns the word of the guide's files: bottom, midwater, film, surface.
func (l Level) String() string {
	if l < 0 || int(l) >= len(levelWords) {
		return fmt.Sprintf("Level(%d)", int(l))
	}
	return levelWords[l]
}

// MarshalText writes the word that String returns.
func (l Level) MarshalText() ([]byte, error) { return []byte(l.String()), nil }

// UnmarshalText reads the words that String returns, and nothing else.
func (l *Level) UnmarshalText(text []byte) error {
	i := slices.Index(levelWords[:], string(text))
	if i < 0 {
		return fmt.Errorf("tying: %q is not one of %q", text, levelWords)
	}
	*l = Level(i)
	return nil
}

// Habit is what is known of a fly's habit. The zero value is not known.
type Habit int

// Whether a fly does something: No also where some of its kind do and some don't.
const (
	HabitUnknown Habit = iota
	No
	Yes
)

// The stages and sexes that the rules speak of; any other word may be a stage.
const (
	Dun     = "dun"
	Spinner = "spinner"
	Adult   = "adult"
	Male    = "male"
	Female  = "female"
)

// The parts whose colours are compared; other parts are passed over.
const (
	Body   = "body"
	Wing   = "wing"
	Hackle = "hackle"
	Legs   = "legs"
	Tail   = "tail"
)

// Hook is a size in a model. Step is the size's place in the catalogue, in
// steps, larger for a larger hook (14 lies one above 16). Shank is in
// millimetres, 0 where the model wasn't measured or is curved.
type Hook struct {
	Model, Size string
	Step, Shank float64
}

// Method is a kind of fly as the rules of waters name them.
type Method string

// The kinds of fly.
const (
	DryFly   Method = "dry"
	WetFly   Method = "wet"
	NymphFly Method = "nymph"
)

// Methods are the kinds of fly, in the order in which a reader is told of them.
var Methods = []Method{DryFly, NymphFly, WetFly}

// methods are the kinds of fly that a dressing may be fished as for a natural (common practice, no source): one for
// the surface, or for the film and nowhere below, is a dry fly; one fished below is a nymph where it imitates a nymph, a
// larva or an animal that never emerges, else a wet fly, a sunk pupa too.
func (d Dressing) methods(n Natural) []Method {
	var l []Method
	if slices.Contains(d.Levels, Surface) || d.floats() {
		l = append(l, DryFly)
	}
	if slices.ContainsFunc(d.Levels, func(x Level) bool { return x < Film }) {
		if n.Stage == "nymph" || n.Stage == "larva" || n.NoFly {
			l = append(l, NymphFly)
		} else {
			l = append(l, WetFly)
		}
	}
	return l
}

// allowed reports whether a water's rules allow a dressing. Where it is fished is not known: nothing is ruled out.
func (d Dressing) allowed(n Natural) bool {
	return len(n.Methods) == 0 || len(d.Levels) == 0 || slices.ContainsFunc(d.methods(n), func(m Method) bool { return slices.Contains(n.Methods, m) })
}

// Natural is a fly in a stage on a water. Empty and zero fields are not known;
// an empty Sex is both.
type Natural struct {
	Fly        string
	Groups     []string
	Stage, Sex string
	CrawlsOut  Habit    // emerges by crawling out of the water
	LaysUnder  Habit    // the female goes under water to lay
	NoFly      bool     // an animal that never emerges
	Methods    []Method // that the water's rules allow; none: all
	Levels     []Level  // where it is when taken
	Length     float64  // mm
	Colours    map[string]colour.Lab
	Hooks      []Hook // the suggestion in each straight model that has one
}

// Dressing is one entry of the box. Empty fields are not known. Hooks holds
// every size it is tied in, in every straight model the guide would use for
// it; a size of which no shank is known stands with Shank 0.
type Dressing struct {
	Name    string
	For     []StandsFor
	Levels  []Level
	Hooks   []Hook
	Colours map[string]colour.Lab
}

// StandsFor names flies and groups that a dressing imitates, in which stages (empty: any) and of which sex
// (empty: both). Kin are the groups of the flies it names.
type StandsFor struct {
	Flies, Groups, Kin, Stages []string
	Sex                        string
}

// By is how a dressing imitates a natural: the class in which it is offered.
type By string

// A dressing names the fly in this stage, its group, another fly of its group, or none of these.
const (
	ByFly   By = "fly"
	ByGroup By = "group"
	ByKin   By = "kin"
	ByNone  By = ""
)

// classes, the best first.
var classes = []By{ByFly, ByGroup, ByKin, ByNone}

// Rank is the place of the class, the best 0.
func (b By) Rank() int { return slices.Index(classes, b) }

// admits reports whether an entry is of a natural's stage and sex.
func (s StandsFor) admits(n Natural) bool {
	return (n.Stage == "" || len(s.Stages) == 0 || slices.Contains(s.Stages, n.Stage)) && (n.Sex == "" || s.Sex == "" || s.Sex == n.Sex)
}

func (s StandsFor) by(n Natural) By {
	within := func(groups []string) bool {
		return slices.ContainsFunc(groups, func(g string) bool { return slices.Contains(n.Groups, g) })
	}
	switch {
	case slices.Contains(s.Flies, n.Fly):
		return ByFly
	case within(s.Groups):
		return ByGroup
	case within(s.Kin):
		return ByKin
	}
	return ByNone
}

// class is the best way in which a dressing imitates a natural in its stage and sex.
func (d Dressing) class(n Natural) By {
	best := ByNone
	for _, s := range d.For {
		if by := s.by(n); s.admits(n) && by.Rank() < best.Rank() {
			best = by
		}
	}
	return best
}

// elsewhere returns the entries that name the fly itself, in whatever stage and sex.
func (d Dressing) elsewhere(n Natural) []StandsFor {
	var l []StandsFor
	for _, s := range d.For {
		if slices.Contains(s.Flies, n.Fly) {
			l = append(l, s)
		}
	}
	return l
}

// floats reports whether a dressing is fished in the film or at the surface
// and nowhere below.
func (d Dressing) floats() bool {
	return len(d.Levels) > 0 && !slices.ContainsFunc(d.Levels, func(x Level) bool { return x < Film })
}

// onlyAt reports whether a dressing is fished at one level and nowhere else.
func (d Dressing) onlyAt(l Level) bool {
	return len(d.Levels) > 0 && !slices.ContainsFunc(d.Levels, func(x Level) bool { return x != l })
}

// settle rounds to 1e-9, as every value is before it is compared.
func settle(x float64) float64 { return math.Round(x*1e9) / 1e9 }
