package draw

// From an account to a figure: which partial, which of its parts, what colours and lengths. What the
// account doesn't give is left out or drawn dashed, and named. Proportions are of the group's common
// build, most from memory: nobody is to tell a fly by them.

import (
	"slices"
	"strconv"
	"strings"

	"guidegen/build/figures"
	"guidegen/content"
	"guidegen/species"
)

// said is one feature that a drawing shows, in the guide's words.
type said struct{ Character, State string }

// subject is a figure being filled.
type subject struct {
	Figure
	fly    *figures.Fly
	stage  species.Stage
	sex    species.Sex
	parts  map[string]string // what the account says, by part of the drawing
	shows  []said
	left   []string           // parts left out, by their English names
	ground figures.HookGround // what its length rests on
	length float64            // mm, as measured in this group; 0 not known
	over   float64            // head to wing tip in bodies where that is what is measured; else 1
}

// flights are the cases that a statement may hold for: any flight, then each.
func flights(f *figures.Fly) []string {
	out := []string{""}
	for _, fl := range f.Account.Flights {
		out = append(out, fl.Name)
	}
	return out
}

// insect fills the figure of a stage and sex. spent asks for a spinner lying spread. ok is false
// where there isn't a drawing of such an animal.
func insect(f *figures.Fly, characters []species.Character, stage species.Stage, sex species.Sex, spent bool) (*subject, bool) {
	s := &subject{fly: f, stage: stage, sex: sex, parts: map[string]string{}, over: 1, Figure: Figure{
		Has: map[string]bool{}, Tint: map[string]string{}, Scale: map[string]pt{}, Unsure: map[string]bool{}}}
	s.features(characters)
	s.ground = Length(f, stage, sex)
	s.length = s.ground.Length
	for _, part := range []string{"body", "wing", "legs", "tail", "antennae"} {
		s.Tint[part] = s.colour(part)
	}
	s.Tint["antenna"], s.Tint["thorax"] = s.Tint["antennae"], shade(s.Tint["body"], 0.18)
	s.Tint["pronotum"], s.Tint["pads"], s.Tint["case"] = s.Tint["body"], shade(s.Tint["body"], 0.3), "#8c7f68"
	if s.parts["legs"] == "black" && s.Tint["legs"] == "" {
		s.Tint["legs"] = "#14191a"
	}
	s.Has["male"], s.Has["spinner"], s.Has["dun"] = sex == species.Male, stage == species.Spinner, stage == species.Dun
	if !s.fill(spent) {
		return nil, false
	}
	s.lacks("body", s.Tint["body"] == "")
	nominal := s.length
	if nominal == 0 {
		nominal = usual(s.Group) // of no length: at the group's usual one, and said so
	}
	s.UnitMM = nominal / s.over
	return s, true
}

// usual is a common length in mm where an account gives none (memory).
func usual(group string) float64 {
	switch group {
	case "smut":
		return 3
	case "gnat", "midge-male", "midge-female", "midge-pupa":
		return 6
	case "damselfly":
		return 34
	}
	return 10
}

// Length is what a fly's stage is drawn to: what its hook goes by, over all waters, else the middle of
// the account's; of no sex, where each has its own, the female's. Its Length is 0 where nobody gives one.
func Length(f *figures.Fly, stage species.Stage, sex species.Sex) figures.HookGround {
	order := []species.Sex{sex, species.NoSex}
	if sex == species.NoSex {
		order = []species.Sex{species.NoSex, species.Female, species.Male}
	}
	for _, want := range order {
		for _, s := range f.Sizes {
			if s.Stage != stage || s.Sex != want || s.Hook.Length <= 0 {
				continue
			}
			if f.Group.Habit(stage) != species.Overall {
				return s.Hook
			}
			if h := s.Hook; h.Share > 0 { // the hook goes by the body, the drawing by the whole fly at rest
				h.Length = h.Overall
				return h
			}
		}
	}
	for _, want := range order {
		for _, fl := range flights(f) {
			if c, ok := f.Account.Length.First(species.Words{Stage: stage, Sex: want, Flight: fl}); ok {
				mm := content.Round9(float64(c.Value.Low+c.Value.High) / 2)
				return figures.HookGround{From: figures.FromAccount, Length: mm, Basis: c.Basis}
			}
		}
	}
	return figures.HookGround{}
}

func (s *subject) at(flight string) species.Words {
	return species.Words{Stage: s.stage, Sex: s.sex, Flight: flight}
}

// features reads what the account says of every drawn character. Where several states may be seen
// nothing is drawn, but for the eggs, which a female carries for a while.
func (s *subject) features(characters []species.Character) {
	for i := range characters {
		c := &characters[i]
		if c.Draw == "" || !c.Sees(s.at("")) {
			continue
		}
		claim, ok := s.fly.Feature(c.Name, s.at(""))
		if !ok || len(claim.Value) == 0 || len(claim.Value) > 1 && c.Draw != "egg mass" {
			continue
		}
		if part, value := c.Drawn(claim.Value[0]); part != "" {
			s.parts[part] = value
			s.shows = append(s.shows, said{c.Name, claim.Value[0]})
		}
	}
}

func (s *subject) colour(part string) string {
	for _, c := range s.fly.Colours {
		if c.Part != part && (part != "antennae" || c.Part != "antenna") {
			continue
		}
		for _, fl := range flights(s.fly) {
			if shade, ok := c.Cases.First(s.at(fl)); ok && shade.Value.Colour.HasValue {
				return hex(shade.Value.Colour.Value.Hex())
			}
		}
	}
	return ""
}

// lacks notes what is left out or drawn by default.
func (s *subject) lacks(part string, missing bool) {
	if missing && !slices.Contains(s.left, part) {
		s.left = append(s.left, part)
	}
}

// fill picks the partial and its parts.
func (s *subject) fill(spent bool) bool {
	switch s.stage {
	case species.Dun, species.Spinner:
		s.upwinged(spent || s.parts["wing posture"] == "spread")
		return true
	case species.Nymph:
		return s.nymph()
	case species.Larva:
		return s.larva()
	case species.Pupa:
		return s.pupa()
	case species.Adult:
		return s.adult()
	}
	return false
}

func (s *subject) adult() bool {
	switch s.fly.Group {
	case species.Sedge:
		s.sedge()
	case species.Alder:
		s.Group, s.over = "alder", 1.42
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
	case species.Gnat, species.LandBred, species.OtherWater:
		return s.byForm()
	default:
		return false
	}
	return true
}

// byForm draws what the group alone doesn't settle: by the account's form, else by the family.
func (s *subject) byForm() bool {
	form := s.fly.Form
	if form == "" {
		form = formOf[strings.ToLower(s.fly.Family.S)]
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
	"lestidae": "damselfly", "platycnemididae": "damselfly", "gammaridae": "shrimp", "corixidae": "boatman", "notonectidae": "boatman",
}

func (s *subject) legsAndWing() {
	s.lacks("legs", s.Tint["legs"] == "")
	s.lacks("wing", s.Tint["wing"] == "")
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
	if s.Tint["antenna"] == "" {
		s.Tint["antenna"] = shade(s.Tint["body"], 0.1)
	}
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
	s.Group, s.over = "sedge", 1.30
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
	s.Group, s.over = "stonefly", 1.24
	if s.parts["wing posture"] == "rolled" {
		s.Group, s.over = "needle", 1.27
	}
	s.antennae(0.8)
	s.marks()
	s.Has["head-mark"] = s.parts["body shade"] == "pale with dark marks"
	s.Has["x-vein"] = s.parts["cross veins"] == "X near the tip"
	s.Has["stubs"] = s.parts["tail count"] == "stubs"
	s.tails(0.55)
	if s.Tint["tail"] == "" {
		s.Tint["tail"] = s.Tint["antenna"]
	}
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
		s.TailRatio = min(orOther(usual, 0.8), 1)
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

func orOther(v, other float64) float64 {
	if v == 0 {
		return other
	}
	return v
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
		if s.Tint["wing"] == "" {
			s.Tint["wing"] = "#c3cfd1"
		}
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

func (s *subject) nymph() bool {
	kind := s.parts["nymph build"]
	switch s.fly.Group {
	case species.Stonefly:
		kind = "stone"
	case species.Upwinged:
		if kind == "" {
			kind = families[strings.ToLower(s.fly.Family.S)].nymph
			s.lacks("nymph build", true)
		}
		if kind == "" {
			kind = "swimmer"
		}
	case species.OtherWater:
		if s.fly.Form != "damselfly" && formOf[strings.ToLower(s.fly.Family.S)] != "damselfly" {
			return false
		}
		s.Group = "damselfly-nymph"
		return true
	default:
		return false
	}
	s.Group = "nymph-" + kind
	s.Unsure["tails"] = s.parts["tail length"] == ""
	s.paler("legs", 0.2)
	s.paler("tail", 0.1)
	return true
}

// paler gives a part whose colour isn't known a paler shade of the body's.
func (s *subject) paler(part string, by float64) {
	if s.Tint[part] == "" {
		s.Tint[part] = blend(s.Tint["body"], "#ffffff", by)
	}
}

// caseless are the families of sedges whose larvae build no case to carry (memory).
var caseless = []string{"hydropsychidae", "rhyacophilidae", "polycentropodidae", "psychomyiidae", "philopotamidae", "ecnomidae"}

func (s *subject) larva() bool {
	switch s.fly.Group {
	case species.Sedge:
		kind := map[string]string{"case of stones": "caddis-stones", "case of plants": "caddis-sticks", "no case": "caddis-free"}[s.parts["larva"]]
		if kind == "" {
			s.lacks("larva", true)
			if kind = "caddis-stones"; slices.Contains(caseless, strings.ToLower(s.fly.Family.S)) {
				kind = "caddis-free"
			}
		}
		s.Group = kind
	case species.Alder:
		s.Group = "alder-larva"
	case species.Midge:
		s.Group = "midge-larva"
	default:
		return false
	}
	return true
}

func (s *subject) pupa() bool {
	switch s.fly.Group {
	case species.Sedge:
		s.Group = "sedge-pupa"
		if s.Tint["antenna"] == "" {
			s.Tint["antenna"] = s.Tint["wing"]
		}
		s.legsAndWing()
	case species.Midge:
		s.Group = "midge-pupa"
		s.lacks("wing", s.Tint["wing"] == "")
	default:
		return false
	}
	return true
}
