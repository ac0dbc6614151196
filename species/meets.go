package species

// Which stages fish meet: section 13 of the rules on figures. Common practice, no source; an account's own
// fish_meet goes before it.

import (
	"slices"

	"guidegen/content"
)

// Met is a stage that fish meet; with a sex only where the other isn't met.
type Met struct {
	Stage Stage
	Sex   Sex
}

// Meets lists the stages of a fly that fish meet, in the order of life. Others get no hook, no offer and no place
// in a list.
func (a *Account) Meets() []Met {
	if len(a.FishMeet) > 0 {
		return a.FishMeet
	}
	how, _ := a.Emerges.First()
	if how.Value == NeverEmerge {
		return []Met{{Stage: Adult}} // the animal, all year
	}
	switch a.Group {
	case Upwinged:
		spinner := Met{Spinner, Female}
		if content.Fold(a.Family.S) == "caenidae" { // they swarm and fall over water, both sexes
			spinner.Sex = NoSex
		}
		return []Met{{Stage: Nymph}, {Stage: Dun}, spinner}
	case Sedge:
		if how.Value == CrawlingOut {
			return []Met{{Stage: Adult}}
		}
		return []Met{{Stage: Pupa}, {Stage: Adult}}
	case Stonefly:
		return []Met{{Stage: Nymph}, {Stage: Adult}}
	case Midge:
		return []Met{{Stage: Pupa}, {Stage: Adult}}
	case Damselfly:
		return []Met{{Stage: Nymph}}
	}
	return []Met{{Stage: Adult}}
}

// Seldom lists the stages that fish meet now and then: they stand on the fly's own page alone.
func (a *Account) Seldom() []Stage {
	switch a.Group {
	case Sedge, Alder, Midge, Gnat:
		return []Stage{Larva}
	case Damselfly:
		return []Stage{Adult}
	}
	return nil
}

// MeetsCase reports whether fish meet a stage in a sex; NoSex asks for either.
func (a *Account) MeetsCase(stage Stage, sex Sex) bool {
	return slices.ContainsFunc(a.Meets(), func(m Met) bool {
		return m.Stage == stage && (m.Sex == NoSex || sex == NoSex || m.Sex == sex)
	})
}
