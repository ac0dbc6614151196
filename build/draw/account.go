package draw

// From an account to a figure: which partial, which of its parts, what colours and lengths. What the
// account doesn't give is left out or drawn dashed, and named. Proportions are of the group's common
// build, most from memory: nobody is to tell a fly by them.

import (
	"cmp"
	"slices"

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
	share  float64            // the body of the length overall, of roofed flies; 0 not known
}

// flights are the cases that a statement may hold for: any flight, then each.
func flights(f *figures.Fly) []string {
	out := []string{""}
	for _, fl := range f.Account.Flights {
		out = append(out, fl.Name)
	}
	return out
}

// subject fills the figure of a stage and sex. spent asks for a spinner lying spread. ok is false
// where there isn't a drawing of such an animal.
func (a *Album) subject(f *figures.Fly, stage species.Stage, sex species.Sex, spent bool) (*subject, bool) {
	s := &subject{fly: f, stage: stage, sex: sex, parts: map[string]string{}, over: 1, Figure: Figure{
		Has: map[string]bool{}, Tint: map[string]string{}, Scale: map[string]pt{}, Unsure: map[string]bool{}}}
	s.features(a.characters)
	s.ground = a.length(f, stage, sex)
	s.length, s.share = s.ground.Length, cmp.Or(s.ground.Share, a.constants.Share(string(f.Group)))
	for _, part := range []string{"body", "wing", "legs", "tail", "antennae"} {
		s.Tint[part] = s.colour(part)
	}
	s.Tint["antenna"], s.Tint["thorax"] = s.Tint["antennae"], shade(s.Tint["body"], 0.18)
	s.Tint["pronotum"], s.Tint["pads"], s.Tint["case"] = s.Tint["body"], shade(s.Tint["body"], 0.3), "#8c7f68"
	if s.parts["legs"] == "black" {
		s.Tint["legs"] = cmp.Or(s.Tint["legs"], "#14191a")
	}
	s.Has["male"], s.Has["spinner"], s.Has["dun"] = sex == species.Male, stage == species.Spinner, stage == species.Dun
	if !s.fill(spent) {
		return nil, false
	}
	s.lacks("body", s.Tint["body"] == "")
	s.UnitMM = cmp.Or(s.length, usual(s.Group)) / s.over // of no length: at the group's usual one, and said so
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

// Length is what a fly's stage is drawn to, the body or overall as is the habit: what its hook goes by, over
// all waters, else the middle of the account's; of no sex, where each has its own, the female's. Its Length is
// 0 where nobody gives one.
func (a *Album) length(f *figures.Fly, stage species.Stage, sex species.Sex) figures.HookGround {
	order := []species.Sex{sex, species.NoSex}
	if sex == species.NoSex {
		order = []species.Sex{species.NoSex, species.Female, species.Male}
	}
	for _, want := range order {
		for _, s := range f.Sizes {
			if s.Stage != stage || s.Sex != want || s.Hook.Length <= 0 {
				continue
			}
			h := s.Hook
			h.Length = a.Drawn(f, stage, h)
			return h
		}
	}
	for _, want := range order {
		for _, fl := range flights(f) {
			if c, ok := f.Account.Length.First(species.Words{Stage: stage, Sex: want, Flight: fl}); ok {
				g := figures.HookGround{From: figures.FromAccount, Length: float64(c.Value.Low+c.Value.High) / 2, Basis: c.Basis}
				if c.Value.Part == species.OfBody {
					g.Length = a.Drawn(f, stage, g)
				}
				g.Length = content.Round9(g.Length)
				return g
			}
		}
	}
	return figures.HookGround{}
}

// Drawn is the length that a fly is drawn to whose hook goes by g: overall at rest where that is the habit,
// else the body. A fly of which only the body is known is as long overall as its group's share says.
func (a *Album) Drawn(f *figures.Fly, stage species.Stage, g figures.HookGround) float64 {
	switch {
	case f.Group.Habit(stage) != species.Overall:
		return g.Length
	case g.Share > 0:
		return g.Overall
	}
	if share := a.constants.Share(string(f.Group)); share > 0 {
		return g.Length / share
	}
	return g.Length
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
				return "#" + shade.Value.Colour.Value.Hex()
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
