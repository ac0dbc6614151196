package species

// Reading characters.yaml, the vocabulary of features.

import (
	"cmp"
	"regexp"
	"slices"
	"strings"

	"guidegen/content"
)

// ReadCharacters reads the vocabulary, in the order written.
func ReadCharacters(f *content.File, ps *content.Problems) []Character {
	v := content.ReadYAML(f, ps)
	if v.Kind != content.Map && v.Kind != content.Absent {
		ps.Errorf("wrong-shape", v.At, "write a row for each feature: tails: {states: [two, three]}", "found %s where a block of features is wanted", v.Kind)
	}
	var l []Character
	named := map[string]content.Text{}
	for _, e := range v.Entries {
		if first, ok := named[content.Fold(e.Key.S)]; ok {
			ps.Clash("duplicate-key", e.Key.At, first.At, "first given here", "keep one of the two", "the feature %q stands twice", e.Key.S)
			continue
		}
		named[content.Fold(e.Key.S)] = e.Key
		o := CharacterRecord.Open(e.Value, ps)
		c := Character{Name: content.NFC(e.Key.S), At: e.Key.At, Needs: cmp.Or(Needs(o.Choice("needs")), NakedEye),
			Draw: o.Choice("draw"), About: o.Text("about").S}
		c.States = states(o.Value("states"), c.Draw, ps)
		r := &reader{ps: ps}
		for _, g := range r.groups(o) {
			c.Groups = append(c.Groups, string(g))
		}
		for _, t := range o.Texts("seen", ps) {
			if w, ok := r.words(t, Words{}, nil); ok {
				c.Seen = append(c.Seen, w)
			}
		}
		if v := o.Value("states"); v.Kind != content.Absent && v.Kind != content.Scalar && len(v.Items)+len(v.Entries) == 0 {
			ps.Errorf("missing-key", v.At, "write its states: [two, three]", "this feature has no states")
		}
		if len(c.States) == 1 {
			ps.Warnf("one-state", o.Value("states").At, "give it a second state", "a feature with one state tells no flies apart")
		}
		if len(c.States) > 0 {
			l = append(l, c)
		}
	}
	return l
}

func states(v content.Value, draw string, ps *content.Problems) []State {
	var l []State
	add := func(name content.Text, s State) {
		s.Name, s.At = content.NFC(name.S), name.At
		if s.Name == "" {
			ps.Errorf("empty-statement", name.At, "name the state", "a state has no name")
			return
		}
		if i := slices.IndexFunc(l, func(o State) bool { return content.Fold(o.Name) == content.Fold(s.Name) }); i >= 0 {
			ps.Clash("duplicate-key", name.At, l[i].At, "first given here", "keep one of the two", "the state %q stands twice", name.S)
			return
		}
		l = append(l, s)
	}
	switch v.Kind {
	case content.List, content.Scalar:
		for _, t := range v.Texts(ps) {
			add(t, State{})
		}
	case content.Map:
		for _, e := range v.Entries {
			o := StateRecord.Open(e.Value, ps)
			s := State{About: o.Text("about").S}
			if t := o.Text("draw").Trim(); t.S != "" && drawable(draw, t, ps) {
				s.Draw = t.S
			}
			add(e.Key, s)
		}
	}
	return l
}

var tailLength = regexp.MustCompile(`^((0|[1-9]\d*)(\.\d+)? (body|mm)|short|long)$`)

// drawable reports a state's draw that the drawing doesn't know.
func drawable(character string, t content.Text, ps *content.Problems) bool {
	values, ok := Drawable[character]
	switch {
	case !ok:
		ps.Errorf("unknown-draw", t.At, "give the feature its own draw: "+strings.Join(sortedKeys(Drawable), ", "), "the state is drawn, but the feature names no part of the drawing")
		return false
	case values == nil && !tailLength.MatchString(t.S):
		ps.Errorf("unknown-draw", t.At, "write 0.8 body, 12 mm, short or long", "%q can't be drawn as a tail's length", t.S)
		return false
	case values != nil && !slices.Contains(values, t.S):
		ps.Errorf("unknown-draw", t.At, "one of: "+strings.Join(values, ", "), "%q can't be drawn as %s%s", t.S, character, content.DidYouMean(t.S, values))
		return false
	}
	return true
}
