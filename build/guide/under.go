package guide

import (
	"guidegen/rivers"
	"guidegen/rivers/survey"
	"guidegen/species"
)

// Under is what a visit counted of larvae, pupae and shed skins; false where it counted none of these, or in no one
// month. It says nothing of flies on the wing.
func (v *Visit) Under() (survey.Under, bool) {
	if !v.Protocol.Under() || v.When.IsZero() || v.When.From.Year != v.When.To.Year || v.When.From.Month != v.When.To.Month {
		return survey.Under{}, false
	}
	s := survey.Under{Month: int(v.When.From.Month) - 1, Method: string(v.Protocol)}
	for _, g := range species.Groups {
		if v.Scope.Has(g) || !v.Scope.Given && g.WaterBred() {
			s.Groups = append(s.Groups, string(g))
		}
	}
	for _, f := range v.Finds {
		if f.Absent || f.Withheld || f.Checked == rivers.Rejected || f.Stage.OnTheWing() {
			continue
		}
		x := survey.Larvae{Group: string(f.Group), Stage: string(f.Stage), Depth: f.Depth, N: f.Count}
		if f.Fly != nil {
			x.Name, x.Fly = f.Fly.Name.S, f.Fly.Address
		} else {
			x.Name, _ = f.Common()
		}
		s.Found = append(s.Found, x)
	}
	return s, true
}
