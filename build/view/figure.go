package view

// Making figures of what was reckoned, in the units that the guide's settings ask for.

import (
	"cmp"
	"maps"
	"slices"
	"strings"

	"guidegen/build/figures"
	"guidegen/build/guide"
	"guidegen/build/lang"
	"guidegen/content"
	"guidegen/content/measure"
	"guidegen/species"
)

// SortedKeys are the keys of a map in order.
func SortedKeys[M ~map[string]V, V any](m M) []string { return slices.Sorted(maps.Keys(m)) }

// index gathers what pages look up by name.
func (p *Printer) index() {
	p.waters = map[string]*figures.Water{}
	for _, w := range p.book.Waters {
		p.waters[w.Name.S] = w
	}
	p.Dressings = map[string]*figures.Dressing{}
	for _, d := range p.book.Dressings {
		p.Dressings[d.Address] = d
	}
	for _, d := range p.book.Dressings {
		p.Dressings[d.Name.S] = d
	}
	p.FlyByName = map[string]*figures.Fly{}
	for _, f := range p.book.Flies {
		for _, n := range append(f.Names(), f.Name) {
			if p.FlyByName[strings.ToLower(n.S)] == nil {
				p.FlyByName[strings.ToLower(n.S)] = f
			}
		}
	}
	p.terms = map[string]bool{}
	p.sources = map[string]source{}
	if p.book.Edition != nil {
		for _, s := range p.book.Edition.Sources {
			p.sources[s.Key] = source(s)
		}
		for _, c := range p.book.Edition.Characters {
			p.terms[c.Name] = true
		}
	}
}

type source species.Source

// cite is a source's text, or its key where the guide doesn't list it.
func (s source) cite(key string) string { return cmp.Or(s.Cite.S, key) }

func sourceID(key string) string { return "s-" + CleanID(key) }

// CleanID keeps what may stand in an id and in a fragment without escaping. Different texts
// could give one id; callers use it for keys and addresses, which differ in more than signs.
func CleanID(s string) string {
	return strings.Map(func(r rune) rune {
		switch {
		case r >= 'a' && r <= 'z', r >= 'A' && r <= 'Z', r >= '0' && r <= '9', r == '-', r == '_':
			return r
		}
		return '_'
	}, s)
}

// OwnVisits is the ground of plain counts: visits to one water.
func OwnVisits(water string, visits, years int) content.Basis {
	return content.On(content.Part{Ground: content.OwnRecords, Water: water, Visits: visits, Years: years})
}

// Count is a whole number without a unit; sentences bring the noun.
func Count(n int, b content.Basis) content.Figure { return content.Count(n, "", Grounded(b)) }

// Percent is a share as per cent. It is printed by Words.Amount, which never turns a small share into
// none, nor a large one into certainty.
func Percent(share float64, b content.Basis) content.Figure {
	return content.NewFigure(content.Round9(share*100), "%", 0, Grounded(b))
}

// Grounded makes sure that a figure stands on something: what names no ground is a constant of the method.
func Grounded(b content.Basis) content.Basis {
	if b.IsZero() {
		return content.On(content.Part{Ground: content.Assumed})
	}
	return b
}

// Length is millimetres in the guide's unit, with so many decimals of a millimetre.
func (p *Printer) Length(mm float64, digits int, b content.Basis) content.Figure {
	return Length(p.Settings().Units, mm, digits, b)
}

// Length is millimetres in the unit that a guide wants shown; inches have a decimal more, two at least.
func Length(u guide.Units, mm float64, digits int, b content.Basis) content.Figure {
	switch unit(u.Length) {
	case "in", "inch", "inches":
		return content.NewFigure(measure.Inch.Reading(measure.Millimetres(mm)), "in", max(2, digits+1), Grounded(b))
	case "cm":
		return content.NewFigure(mm/10, "cm", digits+1, Grounded(b))
	}
	return content.NewFigure(mm, "mm", digits, Grounded(b))
}

// Difference is a difference of lengths, to a tenth of a millimetre or the like: a hundredth of an inch would be
// a quarter of one.
func Difference(u guide.Units, mm float64, b content.Basis) content.Figure {
	if f := Length(u, mm, 2, b); f.Unit() == "in" {
		return f
	}
	return Length(u, mm, 1, b)
}

// Lengths is a range of millimetres in the guide's unit; unknown where both ends are 0.
func (p *Printer) Lengths(low, high float64, digits int, b content.Basis) lang.Range {
	if low == 0 && high == 0 {
		return lang.Range{}
	}
	return lang.Range{Low: p.Length(low, digits, b), High: p.Length(high, digits, b)}
}

// degrees prints a temperature.
func (p *Printer) degrees(c float64, b content.Basis) content.Figure {
	if u := unit(p.Settings().Units.Temperature); u == "°f" || u == "f" {
		return content.NewFigure(measure.DegF.Reading(measure.Celsius(c)), "°F", 1, Grounded(b))
	}
	return content.NewFigure(c, "°C", 1, Grounded(b))
}

// Altitude is a height above the sea in the guide's unit.
func (p *Printer) Altitude(r measure.Range[measure.Metres], b content.Basis) lang.Range {
	return Altitude(p.Settings().Units, r, b)
}

// Altitude is a height above the sea in the unit that a guide wants shown.
func Altitude(shown guide.Units, r measure.Range[measure.Metres], b content.Basis) lang.Range {
	if r.Low == 0 && r.High == 0 && r.Unit.Symbol == "" {
		return lang.Range{}
	}
	u := measure.Metre
	if s := unit(shown.Altitude); s == "ft" || s == "feet" || s == "foot" {
		u = measure.Foot
	}
	d := r.DigitsIn(u)
	return lang.Range{Low: content.NewFigure(u.Reading(r.Low), u.Symbol, d, Grounded(b)), High: content.NewFigure(u.Reading(r.High), u.Symbol, d, Grounded(b))}
}

func unit(s string) string { return strings.ToLower(strings.TrimSpace(s)) }

// RangeText is a range in plain text, "" where it isn't known.
func (p *Printer) RangeText(r lang.Range) string { return p.words.Range(r) }

// KindAndAltitude says what kind of water a record comes from: "spring-fed, 35–110 m".
func (p *Printer) KindAndAltitude(w *figures.Water) string {
	var s []string
	if w.Kind != "" {
		s = append(s, p.words.Or("kind", string(w.Kind)))
	}
	if a := p.RangeText(p.Altitude(w.Altitude, w.Basis)); a != "" {
		s = append(s, a)
	}
	if len(s) == 0 {
		return p.words.Plain("water.unknown_kind")
	}
	return strings.Join(s, p.words.Plain("list.comma"))
}

// BoolInt is 1 for true.
func BoolInt(b bool) int {
	if b {
		return 1
	}
	return 0
}
