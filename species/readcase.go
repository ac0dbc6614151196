package species

// The properties of an account whose values are lists of words: levels,
// features, and the colours of parts.

import (
	"regexp"
	"slices"
	"strings"

	"guidegen/content"
	"guidegen/species/colour"
)

// level reads "surface", "midwater to film" or a list of levels.
func (r *reader) level(v content.Value, sc scope) (Claims[[]Level], bool) {
	return listed(r, v, sc, func(t content.Text) []Level {
		parts := strings.Split(content.Fold(t.S), " to ")
		if len(parts) > 2 {
			parts = []string{t.S}
		}
		var ends []int
		for _, p := range parts {
			l := Level(strings.TrimSpace(p))
			if l.Rank() < 0 {
				r.ps.Errorf("unknown-level", t.At, "one of: "+strings.Join(words(Levels), ", ")+"; or midwater to film",
					"%q isn't a level of the water%s", t.S, content.DidYouMean(string(l), words(Levels)))
				return nil
			}
			ends = append(ends, l.Rank())
		}
		slices.Sort(ends)
		return slices.Clone(Levels[ends[0] : ends[len(ends)-1]+1])
	})
}

// listed reads one value that may be a list of words, each with a basis of its own.
func listed[T ~string](r *reader, v content.Value, sc scope, parse func(content.Text) []T) (Claims[[]T], bool) {
	c := Claim[[]T]{At: v.At}
	var said []string
	var bases []content.Basis
	for _, t := range v.Texts(r.ps) {
		s := sc.grounds.State(t, r.ps)
		for _, p := range s.Text.Split(",") {
			for _, x := range parse(p) {
				if !slices.Contains(c.Value, x) {
					c.Value = append(c.Value, x)
				}
			}
		}
		said = append(said, s.Text.S)
		bases = append(bases, r.found.basis(s.Basis, s.Text.At))
	}
	if len(c.Value) == 0 {
		return nil, false
	}
	c.Text = strings.Join(said, ", ")
	c.Basis = bases[0].With(bases[1:]...)
	return Claims[[]T]{c}, true
}

// features reads the states that an account gives.
func (r *reader) features(v content.Value) []Feature {
	var l []Feature
	sc := scope{grounds: r.in.Grounds}
	for _, e := range r.inside(v, &sc) {
		i := slices.IndexFunc(r.in.Characters, func(c Character) bool { return content.Fold(c.Name) == content.Fold(e.Key.S) })
		if i < 0 {
			var known []string
			for _, c := range r.in.Characters {
				known = append(known, c.Name)
			}
			want := "add it to characters.yaml, or use one of its features"
			if len(known) == 0 {
				want = "features are named in characters.yaml, and this guide has none"
			}
			r.ps.Errorf("unknown-feature", e.Key.At, want, "%q isn't a feature of characters.yaml%s", e.Key.S, content.DidYouMean(e.Key.S, known))
			continue
		}
		c := &r.in.Characters[i]
		var cases []placed[[]string]
		collect(r, e.Value, scope{grounds: sc.grounds, at: e.Key.At}, func(v content.Value, sc scope) (Claims[[]string], bool) {
			if st := sc.words.Stage; st != "" && len(c.Seen) > 0 && !slices.ContainsFunc(c.Seen, func(s Words) bool { return s.Stage == "" || s.Stage == st }) {
				r.ps.Warnf("feature-not-seen", sc.at, "correct `seen` in characters.yaml, or take the case out",
					"characters.yaml says that %q can't be seen in the case %q", c.Name, sc.words)
			}
			return listed(r, v, sc, func(t content.Text) []string { return r.state(c, t) })
		}, &cases)
		if p := settle(r, cases); len(p) > 0 {
			l = append(l, Feature{c.Name, e.Key.At, p})
		}
	}
	return l
}

func (r *reader) state(c *Character, t content.Text) []string {
	var known []string
	for _, s := range c.States {
		if content.Fold(s.Name) == content.Fold(t.S) {
			return []string{s.Name}
		}
		known = append(known, s.Name)
	}
	r.ps.Errorf("unknown-state", t.At, "states of "+c.Name+": "+strings.Join(known, ", "),
		"%q isn't a state of %q%s", t.S, c.Name, content.DidYouMean(t.S, known))
	return nil
}

// Parts lists the parts of a fly that colours are usually given for. Others
// may be named; a near miss is warned of.
var Parts = []string{"body", "wing", "fore wing", "hind wing", "legs", "tail", "hackle", "thorax", "belly", "back", "head", "eyes", "antennae", "rib", "wing case", "veins"}

// colours reads {case: {part: colour}}, in which parts and cases may nest
// either way round.
func (r *reader) colours(v content.Value) []PartColour {
	type colourCase = placed[Shade]
	by := map[string][]colourCase{}
	var order []string
	var walk func(v content.Value, sc scope, part string)
	walk = func(v content.Value, sc scope, part string) {
		if v.Kind == content.Absent {
			return
		}
		if v.Kind == content.Map {
			for _, e := range r.inside(v, &sc) {
				next := scope{sc.words, sc.grounds, sc.unit, e.Key.At}
				if p, ok := r.part(e, part); ok {
					walk(e.Value, next, p)
				} else if w, ok := r.words(e.Key, sc.words, Parts); ok {
					next.words = w
					walk(e.Value, next, part)
				}
			}
			return
		}
		if part == "" {
			r.ps.Errorf("wrong-shape", v.At, "write {body: Dark Olive}", "this colour names no part of the fly")
			return
		}
		if c, ok := r.shades(v, sc); ok {
			if _, seen := by[part]; !seen {
				order = append(order, part)
			}
			by[part] = append(by[part], colourCase{Case[Shade]{sc.words, c}, sc.at})
		}
	}
	walk(v, scope{grounds: r.in.Grounds, at: v.At}, "")
	var l []PartColour
	for _, part := range order {
		if p := settle(r, by[part]); len(p) > 0 {
			l = append(l, PartColour{part, p})
		}
	}
	return l
}

// part decides whether a key of the colours names a part: one of the usual
// ones, or any other word above a colour that isn't nearly a case.
func (r *reader) part(e content.Entry, part string) (string, bool) {
	name := content.Fold(e.Key.S)
	if part != "" {
		return "", false
	}
	if slices.Contains(Parts, name) {
		return name, true
	}
	if e.Value.Kind != content.Scalar && e.Value.Kind != content.List || name == "" {
		return "", false
	}
	for _, w := range e.Key.Split(" \t\u00a0") {
		if _, ok := StageNamed(w.S); ok || content.Fold(w.S) == "male" || content.Fold(w.S) == "female" {
			return "", false
		}
	}
	if _, n := r.flightAt(e.Key.Split(" \t\u00a0")); n > 0 {
		return "", false
	}
	if near := content.DidYouMean(name, Parts); near != "" {
		r.ps.Warnf("unknown-part", e.Key.At, "usual parts: "+strings.Join(Parts, ", "), "%q is not a usual part of a fly%s", e.Key.S, near)
	}
	return name, true
}

func (r *reader) shades(v content.Value, sc scope) (Claims[Shade], bool) {
	var l Claims[Shade]
	for _, s := range sc.grounds.Claims(v, r.ps) {
		if sh, ok := r.shade(s.Text); ok {
			l = append(l, Claim[Shade]{sh, s.Text.S, r.found.basis(s.Basis, s.Text.At), s.Text.At})
		}
	}
	return l, len(l) > 0
}

var sixDigits = regexp.MustCompile(`^[0-9A-Fa-f]{6}$`)

// shade reads "Dark Olive, wet, against the light": colour words or hex
// digits, then how it was seen.
func (r *reader) shade(t content.Text) (Shade, bool) {
	parts := t.Split(",")
	if len(parts) == 0 {
		return Shade{}, false
	}
	words, digits := parts[0], content.Text{}
	if l := words.Split(" "); len(l) > 1 && sixDigits.MatchString(l[len(l)-1].S) { // olive brown 6c541e
		digits = l[len(l)-1]
		words = words.Sub(0, len(words.S)-len(digits.S)).Trim()
	}
	c, err := colour.Parse(words.S)
	if err != nil {
		r.ps.Refuse("bad-colour", words, err)
		return Shade{}, false
	}
	if !digits.IsZero() {
		value, _ := colour.Parse(digits.S)
		c.Value, c.HasValue = value.Value, true
	}
	if near := colour.Misspelt(c); near != "" {
		r.ps.Warnf("misspelt-colour", words.At, "the name brings a value that colours are compared by; other words of your own may stand here",
			"%q isn't a name of the colour table%s", words.S, content.DidYouMean(near, []string{near}))
	}
	s := Shade{Colour: c}
	var light []string
	for _, p := range parts[1:] {
		switch content.Fold(p.S) {
		case "wet":
			s.Wet = Wet
		case "dry":
			s.Wet = Dry
		default:
			if slices.Contains(Parts, content.Fold(p.S)) {
				r.ps.Errorf("bad-colour", p.At, "write "+content.Fold(p.S)+": and its colour", "the part %q stands here without a colour", p.S)
				continue
			}
			light = append(light, p.S)
		}
	}
	s.Light = strings.Join(light, ", ")
	return s, true
}
