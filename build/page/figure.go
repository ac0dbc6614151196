package page

// Making figures of what was reckoned, in the units that the guide's settings ask for.

import (
	"cmp"
	"strings"

	"guidegen/build/figures"
	"guidegen/build/guide"
	"guidegen/content"
	"guidegen/content/measure"
	"guidegen/species"
)

// Range is two figures of one unit; equal where one value stands.
type Range struct{ Low, High content.Figure }

// Known reports whether there is a range.
func (r Range) Known() bool { return r.Low.Known() }

// Single reports whether both ends print alike.
func (r Range) Single() bool { return r.Low.Number() == r.High.Number() }

// index gathers what pages look up by name.
func (p *Printer) index() {
	p.waters = map[string]*figures.Water{}
	for _, w := range p.book.Waters {
		p.waters[w.Name.S] = w
	}
	p.dressings = map[string]*figures.Dressing{}
	for _, d := range p.book.Dressings {
		p.dressings[d.Address] = d
	}
	for _, d := range p.book.Dressings {
		p.dressings[d.Name.S] = d
	}
	p.flyByName = map[string]*figures.Fly{}
	for _, f := range p.book.Flies {
		for _, n := range append(f.Names(), f.Name) {
			if p.flyByName[strings.ToLower(n.S)] == nil {
				p.flyByName[strings.ToLower(n.S)] = f
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

func sourceID(key string) string { return "s-" + cleanID(key) }

// cleanID keeps what may stand in an id and in a fragment without escaping. Different texts
// could give one id; callers use it for keys and addresses, which differ in more than signs.
func cleanID(s string) string {
	return strings.Map(func(r rune) rune {
		switch {
		case r >= 'a' && r <= 'z', r >= 'A' && r <= 'Z', r >= '0' && r <= '9', r == '-', r == '_':
			return r
		}
		return '_'
	}, s)
}

// ownVisits is the ground of plain counts: visits to one water.
func ownVisits(water string, visits, years int) content.Basis {
	return content.On(content.Part{Ground: content.OwnRecords, Water: water, Visits: visits, Years: years})
}

// count is a whole number without a unit; sentences bring the noun.
func count(n int, b content.Basis) content.Figure { return content.Count(n, "", ground(b)) }

// percent is a share as per cent. It is printed by Words.Amount, which never turns a small share into
// none, nor a large one into certainty.
func percent(share float64, b content.Basis) content.Figure {
	return content.NewFigure(content.Round9(share*100), "%", 0, ground(b))
}

// ground makes sure that a figure stands on something: what names no ground is a constant of the method.
func ground(b content.Basis) content.Basis {
	if b.IsZero() {
		return content.On(content.Part{Ground: content.Assumed})
	}
	return b
}

func (p *Printer) length(mm float64, digits int, b content.Basis) content.Figure {
	return Length(p.settings().Units, mm, digits, b)
}

// Length is millimetres in the unit that a guide wants shown; inches have a decimal more, two at least.
func Length(u guide.Units, mm float64, digits int, b content.Basis) content.Figure {
	switch unit(u.Length) {
	case "in", "inch", "inches":
		return content.NewFigure(measure.Inch.Reading(measure.Millimetres(mm)), "in", max(2, digits+1), ground(b))
	case "cm":
		return content.NewFigure(mm/10, "cm", digits+1, ground(b))
	}
	return content.NewFigure(mm, "mm", digits, ground(b))
}

func (p *Printer) lengths(low, high float64, digits int, b content.Basis) Range {
	if low == 0 && high == 0 {
		return Range{}
	}
	return Range{p.length(low, digits, b), p.length(high, digits, b)}
}

// degrees prints a temperature.
func (p *Printer) degrees(c float64, b content.Basis) content.Figure {
	if u := unit(p.settings().Units.Temperature); u == "°f" || u == "f" {
		return content.NewFigure(measure.DegF.Reading(measure.Celsius(c)), "°F", 1, ground(b))
	}
	return content.NewFigure(c, "°C", 1, ground(b))
}

func (p *Printer) altitude(r measure.Range[measure.Metres], b content.Basis) Range {
	return Altitude(p.settings().Units, r, b)
}

// Altitude is a height above the sea in the unit that a guide wants shown.
func Altitude(shown guide.Units, r measure.Range[measure.Metres], b content.Basis) Range {
	if r.Low == 0 && r.High == 0 && r.Unit.Symbol == "" {
		return Range{}
	}
	u := measure.Metre
	if s := unit(shown.Altitude); s == "ft" || s == "feet" || s == "foot" {
		u = measure.Foot
	}
	d := r.DigitsIn(u)
	return Range{content.NewFigure(u.Reading(r.Low), u.Symbol, d, ground(b)), content.NewFigure(u.Reading(r.High), u.Symbol, d, ground(b))}
}

func unit(s string) string { return strings.ToLower(strings.TrimSpace(s)) }

func (p *Printer) rangeText(r Range) string { return p.words.Range(r) }

// Range is a range in plain text, "" where it isn't known.
func (w *Words) Range(r Range) string {
	switch {
	case !r.Known():
		return ""
	case r.Single():
		return w.Amount(r.High) // from none to under one per cent is under one
	}
	return w.Plain("range", "low", r.Low.Number(), "high", w.Amount(r.High))
}

// kindAndAltitude says what kind of water a record comes from: "spring-fed, 35–110 m".
func (p *Printer) kindAndAltitude(w *figures.Water) string {
	var s []string
	if w.Kind != "" {
		s = append(s, p.words.Or("kind", string(w.Kind)))
	}
	if a := p.rangeText(p.altitude(w.Altitude, w.Basis)); a != "" {
		s = append(s, a)
	}
	if len(s) == 0 {
		return p.words.Plain("water.unknown_kind")
	}
	return strings.Join(s, p.words.Plain("list.comma"))
}
