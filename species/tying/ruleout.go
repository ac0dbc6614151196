// Ruling out: dressings that copy something this fly doesn't do, with reasons.

package tying

import (
	"math"
	"slices"
)

// Code names a reason for ruling a dressing out.
type Code string

// The reasons, in the order they are given.
const (
	OtherStage     Code = "stage"            // it imitates another stage of this fly
	OtherSex       Code = "sex"              // it imitates the other sex
	LaysUnderWater Code = "lays-under-water" // floating, in the film or on the surface, for a female that goes under to lay
	CrawlsOut      Code = "crawls-out"       // a surface dun, for a fly that crawls out
	NotAllowed     Code = "not-allowed"      // the water's rules don't allow this kind of fly
	OtherSize      Code = "size"             // its best hook's shank is far from the body
)

// Reason is a code with the data for its sentence. For OtherStage, Stages are the dressing's; for OtherSex, Sex is.
// For OtherSize, Hook is the dressing's that comes nearest and Body the fly's length in mm.
type Reason struct {
	Code   Code
	Stages []string
	Sex    string
	Hook   Hook
	Body   float64
}

// RuledOut is a dressing with every reason against it.
type RuledOut struct {
	Name    string
	Named   By
	Reasons []Reason
}

// otherCase tells of a dressing that names the fly, but in another stage or sex. One that is for its group in this
// stage all the same isn't ruled out.
func (d Dressing) otherCase(n Natural, by By) (Reason, bool) {
	entries := d.elsewhere(n)
	if len(entries) == 0 || by == ByFly || by == ByGroup {
		return Reason{}, false
	}
	r := Reason{Code: OtherStage}
	for _, s := range entries {
		if n.Stage == "" || len(s.Stages) == 0 || slices.Contains(s.Stages, n.Stage) {
			return Reason{Code: OtherSex, Sex: s.Sex}, true
		}
		for _, stage := range s.Stages {
			if !slices.Contains(r.Stages, stage) {
				r.Stages = append(r.Stages, stage)
			}
		}
	}
	return r, true
}

// against lists what speaks against a dressing for a natural. A dressing that
// is also fished elsewhere than at the surface is no surface dressing.
func (d Dressing) against(n Natural, o Offer, by By, w Weights) []Reason {
	var out []Reason
	if d.floats() && n.layingMatters() && n.LaysUnder == Yes {
		out = append(out, Reason{Code: LaysUnderWater})
	}
	if d.onlyAt(Surface) && n.Stage == Dun && n.CrawlsOut == Yes {
		out = append(out, Reason{Code: CrawlsOut})
	}
	if !d.allowed(n) {
		out = append(out, Reason{Code: NotAllowed})
	}
	most := w.OtherRatio
	if by == ByFly {
		most = w.OwnRatio
	}
	if p := o.Size; p != nil && settle(math.Abs(math.Log2(p.Hook.Shank/p.Length))) > settle(math.Log2(most)) {
		out = append(out, Reason{Code: OtherSize, Hook: p.Hook, Body: p.Length})
	}
	return out
}

// layingMatters reports whether this is the stage that comes to the water only
// to lay. A spinner is, unless it is known to be a male. The adult of other
// orders is on the water at other times too, so only a female counts.
func (n Natural) layingMatters() bool {
	return n.Stage == Spinner && n.Sex != Male || n.Stage == Adult && n.Sex == Female
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
