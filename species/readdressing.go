package species

// Reading dressings: one in a file, a list of them, or a box with a basis.

import (
	"cmp"
	"slices"
	"strings"

	"guidegen/content"
	"guidegen/species/hook"
)

// ReadDressings reads a file of one dressing or several. A single one has the
// file's address, one of a box that of its name. A dressing without a name is
// reported and left out.
func ReadDressings(f *content.File, in Context, ps *content.Problems) []*Dressing {
	v := content.ReadYAML(f, ps)
	r := &reader{in: in, ps: ps, found: founder{ps: ps}}
	var l []*Dressing
	box, members := []content.Value(nil), false
	switch _, boxed := v.Get("box"); {
	case v.Kind == content.List:
		box = v.Items
	case boxed:
		o := BoxRecord.Open(v, ps)
		r.in.Grounds = r.in.Grounds.Under(o.Text("basis"), ps)
		box, members = o.Blocks("box"), o.Choice("show") == "members"
	case v.Kind == content.Map:
		if d := r.dressing(v, f); d != nil {
			d.Address = content.FileAddress(f, ps)
			l = append(l, d)
		}
		return l
	default:
		if ps.Errors(f.Path) == 0 {
			ps.Errorf("wrong-shape", v.At, "start it with name: …", "this file holds no dressing")
		}
	}
	for _, item := range box {
		d := r.dressing(item, f)
		if d == nil {
			continue
		}
		if d.Address = content.Address(d.Name.S); d.Address == "" {
			ps.Errorf("no-address", d.Name.At, "give it a name with letters or digits", "the name %q gives no address", d.Name.S)
		}
		d.Members = d.Members || members
		l = append(l, d)
	}
	return l
}

func (r *reader) dressing(v content.Value, f *content.File) *Dressing {
	o := DressingRecord.Open(v, r.ps)
	if !o.Has("name") {
		return nil
	}
	g := r.in.Grounds.Under(o.Text("basis"), r.ps)
	d := &Dressing{File: f.Path, At: v.At, Was: names(o, "was", r.ps), Name: o.Text("name").Trim(), Also: names(o, "also", r.ps),
		From: o.Text("from").Trim(), Notes: o.Text("notes"), Basis: r.found.basis(g.Basis, v.At), Members: o.Choice("show") == "members"}
	if c, ok := r.level(o.Value("fishes"), scope{grounds: g}); ok {
		d.Fishes, d.FishesBasis = c[0].Value, c[0].Basis
	}
	if t := o.Text("sizes"); t.S != "" {
		sizes, err := hook.ParseSizes(t.S)
		if err != nil {
			r.ps.Refuse("bad-size", t, err)
		}
		d.Sizes, d.SizesText = sizes, t
	}
	for _, b := range o.Blocks("stands_for") {
		if s, ok := r.standsFor(b); ok {
			d.For = append(d.For, s)
		}
	}
	d.Parts = r.parts(o.Value("parts"))
	d.tieable(r.ps)
	return d
}

// groups are those that a block names.
func (r *reader) groups(o content.Opened) (l []Group) {
	for _, t := range o.Texts("groups", r.ps) {
		g := Group(content.Fold(t.S))
		if !slices.Contains(Groups, g) {
			r.ps.Errorf("unknown-group", t.At, "one of: "+strings.Join(words(Groups), ", "), "%q isn't a group of flies%s", t.S, content.DidYouMean(t.S, words(Groups)))
			continue
		}
		l = append(l, g)
	}
	return l
}

func (r *reader) standsFor(v content.Value) (StandsFor, bool) {
	o := StandsForRecord.Open(v, r.ps)
	s := StandsFor{Flies: names(o, "flies", r.ps), Sex: Sex(o.Choice("sex")), At: v.At}
	s.Groups = r.groups(o)
	for _, t := range append(o.Texts("stage", r.ps), o.Texts("stages", r.ps)...) {
		st, ok := StageNamed(t.S)
		if !ok {
			r.ps.Errorf("unknown-stage", t.At, "one of: "+strings.Join(words(AllStages), ", "), "%q isn't a stage%s", t.S, content.DidYouMean(t.S, words(AllStages)))
			continue
		}
		if len(s.Groups) > 0 && !slices.ContainsFunc(s.Groups, func(g Group) bool { return g.Has(st) }) {
			r.ps.Errorf("stage-not-in-group", t.At, "", "no fly of the group %q has the stage %q", s.Groups[0], st)
			continue
		}
		if !slices.Contains(s.Stages, st) {
			s.Stages = append(s.Stages, st)
		}
	}
	if len(s.Flies) == 0 && len(s.Groups) == 0 {
		r.ps.Errorf("stands-for-nothing", v.At, "name flies or groups", "this names neither a fly nor a group")
		return s, false
	}
	return s, true
}

// parts reads the recipe, in the order written.
func (r *reader) parts(v content.Value) []DressingPart {
	var l []DressingPart
	for _, e := range v.Entries {
		p := DressingPart{Part: content.Fold(e.Key.S), At: e.Key.At}
		switch {
		case p.Part == "":
			continue
		case !slices.Contains(UsualParts, p.Part):
			if near := content.DidYouMean(p.Part, UsualParts); near != "" {
				r.ps.Warnf("unknown-part", e.Key.At, "usual parts: "+strings.Join(UsualParts, ", "), "%q is not a usual part of a dressing%s", e.Key.S, near)
			}
		}
		switch e.Value.Kind {
		case content.Absent:
			continue
		case content.Scalar:
			p.Of = e.Value.Text
		default:
			o := PartRecord.Open(e.Value, r.ps)
			p.Of = o.Text("of")
			if t := o.Text("colour").Trim(); t.S != "" {
				p.Shade, _ = r.shade(t)
			}
			if w := o.Choice("wet"); w != "" {
				p.Shade.Wet = map[string]Wetness{"yes": Wet, "no": Dry}[w]
			}
			p.Shade.Light = cmp.Or(o.Text("light").S, p.Shade.Light)
		}
		l = append(l, p)
	}
	return l
}
