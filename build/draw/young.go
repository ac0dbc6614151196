package draw

// What lives in the water: nymphs, larvae, pupae.

import (
	"cmp"
	"slices"
	"strings"

	"guidegen/species"
)

func (s *subject) nymph() bool {
	kind := s.parts["nymph build"]
	switch s.fly.Group {
	case species.Stonefly:
		kind = "stone"
	case species.Upwinged:
		s.lacks("nymph build", kind == "")
		kind = cmp.Or(kind, families[strings.ToLower(s.fly.Family.S)].nymph, "swimmer")
	case species.OtherWater:
		if s.fly.Form != "damselfly" && formOf[strings.ToLower(s.fly.Family.S)] != "damselfly" {
			return false
		}
		s.Group = "damselfly-nymph"
		return true
	case species.Damselfly:
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
	s.Tint[part] = cmp.Or(s.Tint[part], blend(s.Tint["body"], "#ffffff", by))
}

// caseless are the families of sedges whose larvae build no case to carry (memory).
var caseless = []string{"hydropsychidae", "rhyacophilidae", "polycentropodidae", "psychomyiidae", "philopotamidae",
	"ecnomidae"}

var cases = map[string]string{
	"case of stones": "caddis-stones", "case of plants": "caddis-sticks", "no case": "caddis-free",
}

func (s *subject) larva() bool {
	switch s.fly.Group {
	case species.Sedge:
		kind := cases[s.parts["larva"]]
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
		s.Tint["antenna"] = cmp.Or(s.Tint["antenna"], s.Tint["wing"])
		s.legsAndWing()
	case species.Midge:
		s.Group = "midge-pupa"
		s.lacks("wing", s.Tint["wing"] == "")
	default:
		return false
	}
	return true
}
