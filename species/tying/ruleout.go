// Ruling out: dressings that copy something this fly doesn't do, with reasons.

package tying

import (
	"cmp"
	"math"
	"slices"
)

// Code names a reason for ruling a dressing out.
type Code string

// The reasons, in the order they are given.
const (
	OtherStage     Code = "stage"            // it stands for another stage
	LaysUnderWater Code = "lays-under-water" // floating, in the film or on the surface, for a female that goes under to lay
	CrawlsOut      Code = "crawls-out"       // a surface dun, for a fly that crawls out
	OtherSize      Code = "size"             // every size misses the suggestion
)

// Reason is a code with the data for its sentence. For OtherStage, Stages are
// the dressing's. For OtherSize, Hook is the dressing's size that comes
// nearest, Suggested what it came nearest to, and Steps by how many catalogue
// steps it is larger (smaller if negative).
type Reason struct {
	Code      Code
	Stages    []string
	Hook      Hook
	Suggested Hook
	Steps     float64
}

// RuledOut is a dressing with every reason against it.
type RuledOut struct {
	Name    string
	Named   By
	Reasons []Reason
}

// against lists what speaks against a dressing for a natural. A dressing that
// is also fished elsewhere than at the surface is no surface dressing.
func (d Dressing) against(n Natural) []Reason {
	var out []Reason
	all, ofStage := d.concerns(n)
	if len(all) > 0 && len(ofStage) == 0 {
		r := Reason{Code: OtherStage}
		for _, s := range all {
			for _, stage := range s.Stages {
				if !slices.Contains(r.Stages, stage) {
					r.Stages = append(r.Stages, stage)
				}
			}
		}
		out = append(out, r)
	}
	if d.floats() && n.layingMatters() && n.LaysUnder == Yes && !onlyMale(ofStage) {
		out = append(out, Reason{Code: LaysUnderWater})
	}
	if d.onlyAt(Surface) && n.Stage == Dun && n.CrawlsOut == Yes {
		out = append(out, Reason{Code: CrawlsOut})
	}
	if r, missed := d.misses(n); missed {
		out = append(out, r)
	}
	return out
}

// onlyMale reports whether entries stand for males alone, which don't lay.
func onlyMale(entries []StandsFor) bool {
	return len(entries) > 0 && !slices.ContainsFunc(entries, func(s StandsFor) bool { return s.Sex != Male })
}

// layingMatters reports whether this is the stage that comes to the water only
// to lay. A spinner is, unless it is known to be a male. The adult of other
// orders is on the water at other times too, so only a female counts.
func (n Natural) layingMatters() bool {
	return n.Stage == Spinner && n.Sex != Male || n.Stage == Adult && n.Sex == Female
}

// misses reports whether all sizes lie more than one catalogue step from the
// suggestion in every model that has one. Without sizes, or without any
// suggestion, nothing is missed. The nearest pair is given; a tie goes to the
// smaller hook, then to the model's name.
func (d Dressing) misses(n Natural) (Reason, bool) {
	r := Reason{Code: OtherSize}
	found := false
	for _, s := range n.Hooks {
		for _, h := range d.Hooks {
			steps := settle(h.Step - s.Step)
			if !found || cmp.Or(
				cmp.Compare(math.Abs(steps), math.Abs(r.Steps)),
				cmp.Compare(h.Step, r.Hook.Step),
				cmp.Compare(s.Model, r.Suggested.Model)) < 0 {
				r.Hook, r.Suggested, r.Steps, found = h, s, steps, true
			}
		}
	}
	return r, found && math.Abs(r.Steps) > 1
}

// unknown lists the habits that would matter in this stage and aren't known.
func (n Natural) unknown() []Code {
	var out []Code
	if n.layingMatters() && n.LaysUnder == HabitUnknown {
		out = append(out, LaysUnderWater)
	}
	if n.Stage == Dun && n.CrawlsOut == HabitUnknown {
		out = append(out, CrawlsOut)
	}
	return out
}
