package species

// Reading statements by case: a property of a fly is a value that holds for
// all, or a block keyed by words of stage, sex and flight.

import (
	"cmp"
	"fmt"
	"slices"
	"strings"

	"guidegen/content"
	"guidegen/content/calendar"
)

// Context is what the readers need to know of the rest of the guide.
type Context struct {
	content.Grounds             // keys of the sources, and the guide's own basis
	Characters      []Character // the vocabulary of features; empty if the guide has none
}

// reader holds what is known of the fly being read.
type reader struct {
	in      Context
	ps      *content.Problems
	group   Group    // "" where it is not known
	flights []string // names, in NFC
	found   founder
}

// founder says once a file that a statement rests on nothing.
type founder struct {
	ps   *content.Problems
	said bool
}

// basis returns a statement's basis. One that rests on nothing is taken as
// from memory, the weakest ground, and the first of the file is reported.
func (f *founder) basis(b content.Basis, at content.Place) content.Basis {
	if !b.IsZero() {
		return b
	}
	if !f.said {
		f.said = true
		f.ps.Warnf("no-basis", at, "write basis: memory, common practice, own or a key of sources.yaml at the head of the file",
			"nothing says what this rests on; it is taken as from memory")
	}
	return content.On(content.Part{Ground: content.Memory, At: at})
}

// scope is what holds at one depth of a property.
type scope struct {
	words   Words
	grounds content.Grounds
	unit    content.Text
	at      content.Place // the key that opened it
}

// leaf reads what stands under the words of a case; ok is false where nothing usable does.
type leaf[T any] func(v content.Value, sc scope) (Claims[T], bool)

// placed is a case and the key it stands under.
type placed[T any] struct {
	Case[T]
	at content.Place
}

// property reads a property by case and refuses cases that clash.
func property[T any](r *reader, v content.Value, read leaf[T]) Property[T] {
	var l []placed[T]
	collect(r, v, scope{grounds: r.in.Grounds, at: v.At}, read, &l)
	return settle(r, l)
}

func collect[T any](r *reader, v content.Value, sc scope, read leaf[T], l *[]placed[T]) {
	if v.Kind == content.Absent {
		return
	}
	if v.Kind != content.Map {
		if c, ok := read(v, sc); ok {
			*l = append(*l, placed[T]{Case[T]{sc.words, c}, sc.at})
		}
		return
	}
	for _, e := range r.inside(v, &sc) {
		if w, ok := r.words(e.Key, sc.words, nil); ok {
			collect(r, e.Value, scope{w, sc.grounds, sc.unit, e.Key.At}, read, l)
		}
	}
}

// inside takes a block's own basis and unit into the scope and returns its other entries.
func (r *reader) inside(v content.Value, sc *scope) []content.Entry {
	var l []content.Entry
	for _, e := range v.Entries {
		switch {
		case e.Key.S == "basis" && e.Value.Kind == content.Scalar:
			sc.grounds = sc.grounds.Under(e.Value.Text, r.ps)
		case e.Key.S == "unit" && e.Value.Kind == content.Scalar:
			sc.unit = e.Value.Text
		default:
			l = append(l, e)
		}
	}
	return l
}

// settle reports equally specific cases that hold at once, and gives up the
// places. Two such cases are no clash where a more specific one covers all
// that they share.
func settle[T any](r *reader, l []placed[T]) Property[T] {
	var p Property[T]
	for i, b := range l {
		clash := false
		for _, a := range l[:i] {
			both, meet := a.Words.and(b.Words)
			if !meet || a.Words.Weight() != b.Words.Weight() {
				continue
			}
			if slices.ContainsFunc(l, func(c placed[T]) bool {
				return c.Words.Weight() > a.Words.Weight() && c.Words.Holds(both)
			}) {
				continue
			}
			clash = true
			want, say := "write the case \""+both.String()+"\" out, or make one of the two more specific",
				fmt.Sprintf("%q and %q both hold for %s, and neither is more specific", a.Words, b.Words, content.A(both.String()))
			if a.Words == b.Words {
				want, say = "keep one of the two", fmt.Sprintf("the case %q stands twice", a.Words)
			}
			r.ps.Clash("case-clash", b.at, a.at, "the other one", want, "%s", say)
		}
		if !clash {
			p = append(p, b.Case)
		}
	}
	return p
}

// and joins two sets of words; ok is false where they can't hold at once.
func (w Words) and(o Words) (both Words, ok bool) {
	if w.Stage != "" && o.Stage != "" && w.Stage != o.Stage || w.Sex != "" && o.Sex != "" && w.Sex != o.Sex ||
		w.Flight != "" && o.Flight != "" && w.Flight != o.Flight {
		return w, false
	}
	return Words{cmp.Or(w.Stage, o.Stage), cmp.Or(w.Sex, o.Sex), cmp.Or(w.Flight, o.Flight)}, true
}

// String writes the words in one order: flight, stage, sex.
func (w Words) String() string {
	return strings.Join(strings.Fields(w.Flight+" "+string(w.Stage)+" "+string(w.Sex)), " ")
}

var stageWords = map[string]Stage{"egg": Egg, "larva": Larva, "nymph": Nymph, "pupa": Pupa, "dun": Dun, "subimago": Dun,
	"spinner": Spinner, "imago": Spinner, "adult": Adult}

// StageNamed reads a word for a stage; dun and spinner may be called
// subimago and imago.
func StageNamed(s string) (Stage, bool) { x, ok := stageWords[content.Fold(s)]; return x, ok }

// Imago is the last stage of a group: what a record called an imago means.
func (g Group) Imago() Stage {
	if g == Upwinged {
		return Spinner
	}
	return Adult
}

// words reads a key such as "spring dun female" on top of the words that hold
// already. also lists other words that might have been meant, for suggestions.
func (r *reader) words(key content.Text, in Words, also []string) (Words, bool) {
	w, ok := in, true
	twice := func(t content.Text, kind string) {
		ok = false
		r.ps.Errorf("word-twice", t.At, "write a row for each", "%q is a second %s in one case", t.S, kind)
	}
	parts := key.Split(" \t\u00a0")
	for i := 0; i < len(parts); {
		if name, n := r.flightAt(parts[i:]); n > 0 {
			t := key
			if n == 1 {
				t = parts[i]
			}
			if w.Flight != "" {
				twice(t, "flight")
			}
			w.Flight = name
			i += n
			continue
		}
		t := parts[i]
		i++
		word := content.Fold(t.S)
		if s, is := StageNamed(word); is {
			if s == Spinner && word == "imago" && r.group != "" {
				s = r.group.Imago()
			}
			if w.Stage != "" {
				twice(t, "stage")
			}
			w.Stage = s
			ok = r.hasStage(s, t) && ok
			continue
		}
		if word == string(Male) || word == string(Female) {
			if w.Sex != "" {
				twice(t, "sex")
			}
			w.Sex = Sex(word)
			continue
		}
		ok = false
		stages := AllStages
		if r.group != "" {
			stages = r.group.Stages()
		}
		known := words(stages, append([]string{"male", "female"}, r.flights...)...)
		r.ps.Errorf("unknown-word", t.At, "words that may stand here: "+strings.Join(append(known, also...), ", "),
			"%q isn't a stage, sex or flight of this fly%s", t.S, content.DidYouMean(t.S, append(known, also...)))
	}
	if len(parts) == 0 {
		r.ps.Errorf("unknown-word", key.At, "", "this key is empty")
		ok = false
	}
	return w, ok
}

// hasStage reports a stage that the fly's group can't have.
func (r *reader) hasStage(s Stage, t content.Text) bool {
	if r.group == "" || r.group.Has(s) {
		return true
	}
	r.ps.Errorf("stage-not-in-group", t.At, "its stages: "+strings.Join(words(r.group.Stages()), ", "),
		"a fly of the group %q has no %s", r.group, s)
	return false
}

// flightAt finds the longest name of a flight that the words start with.
func (r *reader) flightAt(parts []content.Text) (name string, n int) {
	for _, f := range r.flights {
		fields := strings.Fields(content.Fold(f))
		if len(fields) <= n || len(fields) > len(parts) {
			continue
		}
		same := true
		for i, w := range fields {
			same = same && content.Fold(parts[i].S) == w
		}
		if same {
			name, n = f, len(fields)
		}
	}
	return name, n
}

// claims makes a leaf of a parser: each statement of the leaf is read by it.
func claims[T any](r *reader, id string, parse func(string) (T, error)) leaf[T] {
	return func(v content.Value, sc scope) (Claims[T], bool) {
		var l Claims[T]
		for _, s := range sc.grounds.Claims(v, r.ps) {
			x, err := parse(s.Text.S)
			if noUnit(err) && !sc.unit.IsZero() {
				x, err = parse(s.Text.S + " " + sc.unit.S)
			}
			if err != nil {
				r.refuse(id, s.Text, err)
				continue
			}
			l = append(l, Claim[T]{x, s.Text.S, r.found.basis(s.Basis, s.Text.At), s.Text.At})
		}
		return l, len(l) > 0
	}
}

func (r *reader) refuse(id string, t content.Text, err error) {
	if noUnit(err) {
		id = "missing-unit"
	}
	r.ps.Refuse(id, t, err)
}

// noUnit reports whether a parser refused a quantity for want of its unit.
func noUnit(err error) bool {
	e, ok := err.(*calendar.Error)
	return ok && e.Reason == "has no unit"
}

// closed makes a parser of a closed list of words; "unknown" gives the zero value.
func closed[T ~string](kind string, list []T) func(string) (T, error) {
	return func(s string) (T, error) {
		f := content.Fold(s)
		if i := slices.Index(list, T(f)); i >= 0 {
			return list[i], nil
		}
		if f == "unknown" {
			return "", nil
		}
		known := words(list, "unknown")
		return "", &calendar.Error{Found: s, Reason: "isn't " + content.A(kind) + content.DidYouMean(f, known), Want: "one of: " + strings.Join(known, ", ")}
	}
}
