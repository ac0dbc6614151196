package content

// What a figure rests on. A basis is born where text is read, merged at the
// edge of a kernel, and printed by one partial.

import (
	"fmt"
	"slices"
	"strings"
)

// Ground is a kind of support for a figure.
type Ground int

// The grounds, strongest first; a merged basis lists them in this order.
const (
	OwnRecords   Ground = iota // the club's records or measurements on this water
	LentRecords                // records of other waters, named
	Published                  // a source of sources.yaml
	OwnStatement               // the club's own statement in an account or record (`own`)
	Common                     // common practice of the trade, no source
	Memory                     // from memory, to be checked by a person
	Assumed                    // a constant of the method
)

// Part is one support. Which fields count depends on the ground.
type Part struct {
	Ground Ground
	Source string  // Published: key of sources.yaml
	Water  string  // OwnRecords, LentRecords: the water's name
	Visits int     // OwnRecords, LentRecords; 0 where no visit was made for them, as of a logger's days
	Years  int     // OwnRecords, LentRecords
	Share  float64 // share of the figure, 0 … 1; 0 where shares make no sense
	At     Place   // where it is written; zero for records
}

// Basis is what a figure rests on: one or more parts. The zero Basis says
// that nothing is known, and no figure may be printed with it.
type Basis struct{ parts []Part }

// On makes a basis of its parts, strongest ground first.
func On(parts ...Part) Basis {
	p := slices.Clone(parts)
	slices.SortStableFunc(p, func(a, b Part) int { return int(a.Ground) - int(b.Ground) })
	return Basis{p}
}

// Parts returns a copy of the supports.
func (b Basis) Parts() []Part { return slices.Clone(b.parts) }

// FromMemory reports whether a basis is memory alone.
func (b Basis) FromMemory() bool {
	return len(b.parts) > 0 && !slices.ContainsFunc(b.parts, func(p Part) bool { return p.Ground != Memory })
}

// IsZero reports whether nothing supports it.
func (b Basis) IsZero() bool { return len(b.parts) == 0 }

// Grounds returns each ground once, in order.
func (b Basis) Grounds() []Ground {
	var g []Ground
	for _, p := range b.parts {
		if !slices.Contains(g, p.Ground) {
			g = append(g, p.Ground)
		}
	}
	return g
}

// With returns b supported by others too; equal parts stand once.
func (b Basis) With(others ...Basis) Basis {
	p := b.Parts()
	for _, o := range others {
		for _, q := range o.parts {
			if !slices.Contains(p, q) {
				p = append(p, q)
			}
		}
	}
	return On(p...)
}

// Grounded is b without counts and shares: what kinds of support there are.
func (b Basis) Grounded() Basis {
	var out Basis
	for _, p := range b.parts {
		out = out.With(On(Part{Ground: p.Ground, Source: p.Source, Water: p.Water}))
	}
	return out
}

// Key is a short stable name for data-basis and for counting: "own records",
// "common practice", "published:handbook", joined by " + ".
func (b Basis) Key() string {
	var s []string
	for _, p := range b.parts {
		k := p.Ground.String()
		if p.Ground == Published {
			k += ":" + p.Source
		}
		if !slices.Contains(s, k) {
			s = append(s, k)
		}
	}
	return strings.Join(s, " + ")
}

func (g Ground) String() string {
	return [...]string{"own records", "lent records", "published", "own", "common practice", "memory", "assumed"}[g]
}

// ParseBasis reads the word of a basis: own, common practice, memory, or a
// key of the sources. ok is false for anything else.
func ParseBasis(t Text, sources func(key string) bool) (Basis, bool) {
	switch strings.ToLower(strings.TrimSpace(t.S)) {
	case "own":
		return On(Part{Ground: OwnStatement, At: t.At}), true
	case "common practice":
		return On(Part{Ground: Common, At: t.At}), true
	case "memory", "from memory":
		return On(Part{Ground: Memory, At: t.At}), true
	}
	if key := strings.TrimSpace(t.S); sources != nil && sources(key) {
		return On(Part{Ground: Published, Source: key, At: t.At}), true
	}
	return Basis{}, false
}

// String words a basis for terminals and tests; pages have their own words.
func (b Basis) String() string {
	var s []string
	for _, p := range b.parts {
		switch p.Ground {
		case OwnRecords, LentRecords:
			of := []string{p.Water}
			if p.Visits > 0 {
				of = append(of, Several(p.Visits, "visit"))
			}
			s = append(s, fmt.Sprintf("%s (%s)", p.Ground, strings.Join(append(of, Several(p.Years, "year")), ", ")))
		case Published:
			s = append(s, "published: "+p.Source)
		default:
			s = append(s, p.Ground.String())
		}
	}
	return strings.Join(s, "; ")
}
