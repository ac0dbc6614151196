package draw

// What flies: which partial an account asks for, and which of its parts.

import (
	"cmp"
	"strconv"
	"strings"

	"guidegen/species"
)

func (s *subject) adult() bool {
	switch s.fly.Group {
	case species.Sedge:
		s.sedge()
	case species.Alder:
		s.Group = "alder"
		s.roofed(0.25, 1.42)
		s.antennae(0.58)
		s.legsAndWing()
	case species.Stonefly:
		s.stonefly()
	case species.Midge:
		s.Group = "midge-female"
		if s.sex == species.Male {
			s.Group = "midge-male"
		}
		s.legsAndWing()
	case species.Gnat, species.LandBred, species.OtherWater, species.Damselfly:
		return s.byForm()
	default:
		return false
	}
	return true
}

// byForm draws what the group alone doesn't settle: by the account's form, else by the family.
func (s *subject) byForm() bool {
	form := cmp.Or(s.fly.Form, formOf[strings.ToLower(s.fly.Family.S)])
	if form == "" && s.fly.Group == species.Damselfly {
		form = "damselfly"
	}
	if form == "" && s.fly.Group != species.OtherWater {
		form = "gnat"
		s.lacks("form", s.fly.Group == species.LandBred)
	}
	switch form {
	case "":
		return false
	case "hawthorn":
		if s.sex != species.Male {
			form = "hawthorn-female"
		}
	case "beetle": // its fore wings are the cases on its back
		s.Tint["wing"] = cmp.Or(s.Tint["wing"], s.Tint["body"])
	case "crane-fly":
		s.marks()
	}
	s.Group = form
	s.Has["red-thighs"] = s.parts["legs"] == "red thighs"
	s.legsAndWing()
	return true
}

// formOf is the build of families that a group alone can't draw.
var formOf = map[string]string{
	"bibionidae": "hawthorn", "simuliidae": "smut", "formicidae": "ant", "scarabaeidae": "beetle", "cantharidae": "beetle",
	"chrysomelidae": "beetle", "curculionidae": "beetle", "coenagrionidae": "damselfly", "calopterygidae": "damselfly",
	"lestidae": "damselfly", "platycnemididae": "damselfly", "gammaridae": "shrimp",
	"tipulidae": "crane-fly", "limoniidae": "crane-fly", "pediciidae": "crane-fly",
	"corixidae": "boatman", "notonectidae": "boatman",
}

func (s *subject) legsAndWing() {
	s.lacks("legs", s.Tint["legs"] == "")
	s.lacks("wing", s.Tint["wing"] == "")
}

// roofed sets how far the wings reach beyond the body: as its body's share says, else as drawn. root is
// where the wing begins and over the wing tip of the partial, in bodies.
func (s *subject) roofed(root, over float64) {
	s.over = over
	if share := s.share; share > 0.5 && share < 0.98 {
		s.over = 1 / share
		s.Scale["wing"] = pt{(s.over - root) / (over - root), 1}
	}
}

// antennae sets their length in bodies; what no one noted is the group's common one, dashed.
func (s *subject) antennae(usual float64) {
	s.Has["antennae"], s.Antenna = true, usual
	n, ok := map[string]float64{"bristle": 0.1, "short": 0.7, "long": 1.1, "very long": 2.4}[s.parts["antennae"]]
	if ok {
		s.Antenna = n
	}
	s.Unsure["antenna"] = !ok
	s.lacks("antennae", !ok)
	s.Has["long"], s.Has["ringed antennae"] = s.Antenna > 1.7, s.parts["antenna rings"] == "ringed"
	s.Tint["antenna"] = cmp.Or(s.Tint["antenna"], shade(s.Tint["body"], 0.1))
}

func (s *subject) marks() {
	if m := s.parts["wing marks"]; m != "" && m != "plain" {
		s.Has[strings.ReplaceAll(m, " ", "-")] = true
	}
	switch s.parts["bands"] {
	case "banded", "all segments":
		s.Bands = "all"
	case "last segments":
		s.Bands = "last"
	}
}

func (s *subject) sedge() {
	s.Group = "sedge"
	s.roofed(0.135, 1.30)
	s.antennae(1.0)
	s.Has["slender"], s.Has["bare"] = s.Has["long"], s.parts["wing surface"] == "bare"
	s.marks()
	s.Has["mottled"] = s.Has["blotched"]
	s.egg()
	s.legsAndWing()
}

func (s *subject) egg() {
	if s.parts["egg mass"] == "green ball" {
		s.Has["egg"], s.Tint["egg"] = true, "#4f8f4a"
	}
}

func (s *subject) stonefly() {
	tip := 1.24
	if s.Group = "stonefly"; s.parts["wing posture"] == "rolled" {
		s.Group, tip = "needle", 1.27
	}
	s.roofed(0.27, tip)
	s.antennae(0.8)
	s.marks()
	s.Has["head-mark"] = s.parts["body shade"] == "pale with dark marks"
	s.Has["x-vein"] = s.parts["cross veins"] == "X near the tip"
	s.Has["stubs"] = s.parts["tail count"] == "stubs"
	s.tails(0.55)
	s.Tint["tail"] = cmp.Or(s.Tint["tail"], s.Tint["antenna"])
	s.legsAndWing()
}

// family is what a family of the upwinged flies has in common: the middle of the tails' length in
// bodies of a dun, a female and a male spinner, and the build of its nymph (memory, but where the
// notes on the drawings name a source).
type family struct {
	dun, female, male float64
	nymph             string
	cross             int // cross veins between two long ones, of those drawn
}

func (f family) tails(stage species.Stage, sex species.Sex) float64 {
	switch {
	case stage == species.Dun:
		return f.dun
	case sex == species.Male:
		return f.male
	}
	return f.female
}

var families = map[string]family{
	"baetidae":        {0.9, 1.5, 2.05, "swimmer", 2},
	"siphlonuridae":   {0.9, 1.4, 2.0, "swimmer", 2},
	"ameletidae":      {0.9, 1.4, 2.0, "swimmer", 2},
	"heptageniidae":   {1.3, 1.75, 2.6, "clinger", 3},
	"ephemerellidae":  {1.0, 1.25, 1.55, "crawler", 2},
	"leptophlebiidae": {1.1, 1.25, 1.6, "crawler", 2},
	"caenidae":        {0.65, 0.85, 2.75, "crawler", 0},
	"ephemeridae":     {1.0, 1.05, 2.2, "burrower", 3},
}

// tails sets their number and length. usual is the length of the family in bodies, 0 not known.
func (s *subject) tails(usual float64) {
	n, err := strconv.Atoi(s.parts["tail count"])
	s.lacks("tail count", err != nil && s.parts["tail count"] == "")
	s.Tails, s.TailRatio, s.Has["ringed tails"] = n, usual, s.parts["tail rings"] == "ringed"
	if n == 0 {
		return
	}
	value, given := s.parts["tail length"]
	number, unit, _ := strings.Cut(value, " ")
	v, _ := strconv.ParseFloat(number, 64)
	if unit == "mm" && s.length > 0 {
		v *= s.over / s.length
	}
	switch {
	case v > 0:
		s.TailRatio = v
	case value == "short":
		s.TailRatio = min(cmp.Or(usual, 0.8), 1)
	case value == "long":
		s.TailRatio = max(usual, 1.3)
		if usual == 0 {
			s.TailRatio, given = 1.5, false
		}
	case usual == 0:
		s.TailRatio = 1
	}
	s.Unsure["tails"] = !given
	s.lacks("tail length", !given)
	s.lacks("tail", s.Tint["tail"] == "" && s.fly.Group == species.Upwinged)
}

func (s *subject) upwinged(spread bool) {
	fam := families[strings.ToLower(s.fly.Family.S)]
	s.Group = "upwinged"
	if spread {
		s.Group = "spread"
	}
	s.Stout, s.Bent = 1.12, 1
	if s.sex == species.Male {
		s.Stout = 0.9
	}
	broad := 1.0
	switch strings.ToLower(s.fly.Family.S) {
	case "ephemeridae":
		s.Stout, s.Bent, broad = s.Stout*1.13, 1.5, 1.06
	case "caenidae":
		s.Stout, broad = s.Stout*1.3, 1.3
		s.Has["broad"] = spread
	}
	long := 1.0
	if w := s.wingLength(); w > 0 && s.length > 0 {
		long = min(max(w/s.length, 0.6), 1.6)
	}
	s.Scale["wing"], s.Scale["hind"] = pt{long, long * broad}, pt{long, long}
	s.Has["cross-"+strconv.Itoa(fam.cross)] = true
	s.Has["paired"], s.Has["single"] = s.parts["edge veinlets"] == "paired", s.parts["edge veinlets"] == "single"
	s.Has["fringed"] = s.parts["wing edge"] == "fringed" || s.parts["wing edge"] == "" && s.stage == species.Dun
	s.membrane()
	s.marks()
	s.eyes()
	s.Has["claspers"] = s.sex == species.Male && s.parts["claspers"] != "absent"
	s.Has["spot"] = s.parts["legs"] == "spot on the thigh"
	s.egg()
	s.tails(fam.tails(s.stage, s.sex))
	s.lacks("legs", s.Tint["legs"] == "")
}

func (s *subject) wingLength() float64 {
	for _, fl := range flights(s.fly) {
		if c, ok := s.fly.Account.Wing.First(s.at(fl)); ok {
			return float64(c.Value.Low+c.Value.High) / 2
		}
	}
	return 0
}

// membrane is the wing's look: glass, tinted, dull, or dashed where nobody noted it.
func (s *subject) membrane() {
	switch s.parts["fore wing"] {
	case "clear":
		s.Has["clear"] = true
		s.Tint["wing"] = cmp.Or(s.Tint["wing"], "#c3cfd1")
	case "tinted", "spotted":
		s.Has["tinted"] = true
	case "":
		s.Unsure["wing"] = s.Tint["wing"] == ""
		s.lacks("fore wing", true)
	}
	s.lacks("wing", s.Tint["wing"] == "")
	s.Tint["hind"] = s.Tint["wing"]
	if s.parts["hind wing shade"] == "much paler" {
		s.Tint["hind"] = blend(s.Tint["wing"], "#ffffff", 0.6)
	}
	if h := s.parts["hind wing"]; h != "" {
		s.Has["hind-"+strings.Replace(h, "tiny", "tiny-oval", 1)] = true
	}
	s.lacks("hind wing", s.parts["hind wing"] == "")
}

func (s *subject) eyes() {
	e := s.parts["eyes"]
	s.Has[e] = e == "turban" || e == "two-part"
	s.Unsure["eyes"] = e == ""
	s.lacks("eyes", e == "")
	s.Tint["eye"] = map[string]string{"yellow": "#d9b740", "red": "#b5482f", "brown": "#7a5230"}[s.parts["upper eye"]]
}
