package species

// Reading an account: a YAML head by property and case, then Markdown.

import (
	"regexp"
	"strings"
	"unicode"
	"unicode/utf8"

	"guidegen/content"
	"guidegen/content/calendar"
	"guidegen/content/measure"
	"guidegen/species/hook"
)

// ReadAccount reads one account. It returns nil where the file has no head
// that can be read; every other fault leaves what is broken absent.
func ReadAccount(f *content.File, in Context, ps *content.Problems) *Account {
	head, body, offset := content.Front(f, ps)
	if head.Kind != content.Map {
		if ps.Errors(f.Path) == 0 {
			ps.Errorf("no-head", head.At, "start the file with a head between two lines --- : name: …, group: …", "this account has no head")
		}
		return nil
	}
	o := AccountRecord.Open(head, ps)
	a := &Account{Address: content.FileAddress(f, ps), File: f.Path, At: head.At,
		Was: o.Texts("was", ps), Name: o.Text("name").Trim(), Also: names(o, "also", ps), Old: names(o, "old", ps),
		Synonyms: names(o, "synonyms", ps), Family: o.Text("family").Trim(), Group: Group(o.Choice("group")), Form: o.Choice("form"),
		Water: names(o, "water", ps), Members: o.Choice("show") == "members",
		Body: Body{body, f.Path, offset}}
	in.Grounds = in.Grounds.Under(o.Text("basis"), ps)
	a.Basis = in.Grounds.Basis
	r := &reader{in: in, ps: ps, group: a.Group, found: founder{ps: ps}}
	a.Called = r.called(a.Also)
	a.ByLanguage = r.byLanguage(o.Value("names"))
	a.Scientific = r.scientific(o.Text("scientific"))
	a.Reviewed, a.ReviewedBy = r.reviewed(o.Text("reviewed"))
	a.Protected = r.protected(o.Blocks("protected"))

	here := func(key string) scope { return scope{grounds: in.Grounds, at: o.Value(key).At} }
	a.Flights = r.flightsOf(o.Value("flights"))
	a.Emerges = said(r, "unknown-habit", closed("way of emerging", Emergences))(o.Value("emerges"), here("emerges"))
	a.Lays = said(r, "unknown-habit", closed("way of laying", Layings))(o.Value("lays"), here("lays"))
	if c, ok := a.Emerges.First(); ok && a.Group == LandBred && c.Value != OnLand {
		ps.Errorf("land-bred-emerges", c.At, "write emerges: on land, or leave it out", "a land-bred fly never hatches from the water")
		a.Emerges = nil
	}
	a.FishMeet = r.fishMeet(o.Texts("fish_meet", ps))
	a.Level = property(r, o.Value("level"), r.level)
	a.Hours = property(r, o.Value("hours"), claims(r, "bad-hours", calendar.ParseSpan))
	a.Length = property(r, o.Value("length"), claims(r, "bad-length", ParseLength))
	a.Wing = property(r, o.Value("wing"), claims(r, "bad-length", ParseLength))
	a.Books = property(r, o.Value("book_size"), claims(r, "bad-size", hook.ParseRange))
	a.Colours = r.colours(o.Value("colours"))
	a.Features = r.features(o.Value("features"))
	a.Highest, _ = claims(r, "bad-altitude", altitudeRange)(o.Value("altitude"), here("altitude"))
	return a
}

// fishMeet reads stages, with a sex or without: "nymph", "spinner female".
func (r *reader) fishMeet(list []content.Text) []Met {
	var out []Met
	for _, t := range list {
		w, ok := r.words(t, Words{}, nil)
		switch {
		case !ok:
		case w.Stage == NoStage:
			r.ps.Errorf("unknown-word", t.At, "stages: "+strings.Join(words(r.group.Stages()), ", "), "%q names no stage", t.S)
		default:
			out = append(out, Met{w.Stage, w.Sex})
		}
	}
	return out
}

// called takes the stage and sex in parentheses off names: "sherry spinner (spinner female)".
func (r *reader) called(names []content.Text) map[string]Met {
	out := map[string]Met{}
	for i, t := range names {
		open := strings.IndexByte(t.S, '(')
		if open <= 0 || !strings.HasSuffix(t.S, ")") {
			continue
		}
		of := r.fishMeet([]content.Text{t.Sub(open+1, len(t.S)-1).Trim()})
		if names[i] = t.Sub(0, open).Trim(); len(of) > 0 {
			out[names[i].S] = of[0]
		}
	}
	return out
}

// said leaves out claims of the zero value: "unknown" says nothing.
func said[T ~string](r *reader, id string, parse func(string) (T, error)) func(content.Value, scope) Claims[T] {
	return func(v content.Value, sc scope) Claims[T] {
		var l Claims[T]
		all, _ := claims(r, id, parse)(v, sc)
		for _, c := range all {
			if c.Value != "" {
				l = append(l, c)
			}
		}
		return l
	}
}

// names reads texts that name something; empty ones are left out.
func names(o content.Opened, key string, ps *content.Problems) []content.Text {
	var l []content.Text
	for _, t := range o.Texts(key, ps) {
		if t = t.Trim(); t.S != "" {
			l = append(l, t)
		}
	}
	return l
}

var languageTag = regexp.MustCompile(`^[a-z]{2,3}(-[A-Za-z0-9]{2,8})*$`)

func (r *reader) byLanguage(v content.Value) map[string][]content.Text {
	var m map[string][]content.Text
	for _, e := range v.Entries {
		if !languageTag.MatchString(e.Key.S) {
			r.ps.Errorf("bad-language", e.Key.At, "write a language tag (BCP 47): cy, de, mi, pt-BR", "%q isn't a language tag", e.Key.S)
			continue
		}
		if e.Value.Kind == content.Map {
			r.ps.Errorf("wrong-shape", e.Value.At, "write {cy: [name, other name]}", "found a block where names are wanted")
			continue
		}
		if m == nil {
			m = map[string][]content.Text{}
		}
		m[e.Key.S] = append(m[e.Key.S], e.Value.Texts(r.ps)...)
	}
	return m
}

// particles start an authority's name with a small letter.
var particles = map[string]bool{"de": true, "da": true, "di": true, "du": true, "la": true, "le": true, "van": true, "von": true, "der": true, "den": true, "zu": true}

// scientific cuts a name from its authority: the genus, an optional subgenus
// in brackets, up to two more words in small letters; the rest is authority.
func (r *reader) scientific(t content.Text) Scientific {
	t = t.Trim()
	if t.S == "" {
		return Scientific{}
	}
	parts := t.Split(" \t\u00a0")
	n := 1
	for n < len(parts) {
		w := parts[n].S
		first, _ := utf8.DecodeRuneInString(w)
		subgenus := n == 1 && strings.HasPrefix(w, "(") && strings.HasSuffix(w, ")") && n+1 < len(parts) && small(parts[n+1].S)
		if !subgenus && (!unicode.IsLower(first) || particles[w] || n > 3) {
			break
		}
		n++
	}
	end := len(t.S)
	if n < len(parts) {
		// parts know their place in t only by length: find the authority behind the words
		end = strings.Index(t.S, parts[n-1].S) + len(parts[n-1].S)
		for i, at := 0, 0; i < n; i++ {
			at += strings.Index(t.S[at:], parts[i].S) + len(parts[i].S)
			end = at
		}
	}
	s := Scientific{t.Sub(0, end).Trim(), strings.TrimSpace(t.S[end:])}
	if first, _ := utf8.DecodeRuneInString(s.Name.S); !unicode.IsUpper(first) {
		r.ps.Warnf("scientific-name", s.Name.At, "write the genus with a capital, the species without: Baetis rhodani (Pictet, 1843)",
			"%q does not look like a scientific name", s.Name.S)
	}
	return s
}

func small(s string) bool { c, _ := utf8.DecodeRuneInString(s); return unicode.IsLower(c) }

func (r *reader) reviewed(t content.Text) (calendar.Date, string) {
	if t = t.Trim(); t.S == "" {
		return calendar.Date{}, ""
	}
	date, by := t, ""
	if i := strings.IndexByte(t.S, ','); i >= 0 {
		date, by = t.Sub(0, i).Trim(), strings.TrimSpace(t.S[i+1:])
	}
	d, err := calendar.ParseDate(date.S)
	if err != nil {
		r.ps.Refuse("bad-date", date, err)
	}
	return d, by
}

func (r *reader) protected(blocks []content.Value) []Protection {
	var l []Protection
	for _, v := range blocks {
		o := ProtectionRecord.Open(v, r.ps)
		if !o.Has("country") || !o.Has("status") || !o.Has("date") {
			continue
		}
		w, err := calendar.ParseWhen(o.Text("date").S)
		if err != nil {
			r.ps.Refuse("bad-date", o.Text("date"), err)
			continue
		}
		l = append(l, Protection{o.Text("country").S, o.Text("status").S, w, v.At})
	}
	return l
}

// altitudeRange reads "up to 600 m" (from 0 m), "200-600 m".
func altitudeRange(s string) (measure.Range[measure.Metres], error) {
	t := strings.TrimSpace(s)
	if len(t) > 6 && strings.EqualFold(t[:6], "up to ") {
		rg, err := measure.ParseAltitude(t[6:])
		if err == nil {
			rg.Low = min(0, rg.Low)
		}
		return rg, err
	}
	return measure.ParseAltitude(t)
}
