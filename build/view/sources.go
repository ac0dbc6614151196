package view

// What accounts cite.

import (
	"slices"
	"strings"

	"guidegen/build/figures"
	"guidegen/build/lang"
	"guidegen/content"
	"guidegen/species"
)

// SourcesOf lists what the account cites.
func (p *Printer) SourcesOf(at string, f *figures.Fly) []SourceView {
	seen := map[string]bool{}
	take := func(b content.Basis) {
		for _, part := range b.Parts() {
			if part.Ground == content.Published {
				seen[part.Source] = true
			}
		}
	}
	for _, b := range basesOf(f.Account) {
		take(b)
	}
	var out []SourceView
	for _, k := range SortedKeys(seen) {
		v := p.source(p.sources[k], k)
		v.Link = p.Link(at, SourcesPage+"#"+sourceID(k), v.Cite)
		out = append(out, v)
	}
	return out
}

// basesOf gathers every basis of an account.
func basesOf(a *species.Account) []content.Basis {
	out := []content.Basis{a.Basis}
	for _, f := range a.Flights {
		out = append(out, f.Basis)
	}
	out = append(out, bases(a.Emerges)...)
	out = append(out, bases(a.Lays)...)
	out = append(out, bases(a.Highest)...)
	out = append(out, basesIn(a.Level)...)
	out = append(out, basesIn(a.Hours)...)
	out = append(out, basesIn(a.Length)...)
	out = append(out, basesIn(a.Wing)...)
	out = append(out, basesIn(a.Books)...)
	for _, c := range a.Colours {
		out = append(out, basesIn(c.Cases)...)
	}
	for _, f := range a.Features {
		out = append(out, basesIn(f.Cases)...)
	}
	return out
}

func bases[T any](c species.Claims[T]) (out []content.Basis) {
	for _, x := range c {
		out = append(out, x.Basis)
	}
	return out
}

func basesIn[T any](prop species.Property[T]) (out []content.Basis) {
	for _, k := range prop {
		out = append(out, bases(k.Claims)...)
	}
	return out
}

// SourcesModel lists what the guide cites.
type SourcesModel struct {
	Frame
	Sources []SourceView
}

// SourceView is one source.
type SourceView struct {
	ID      string
	Link    lang.Link // to the list of sources, from other pages
	Cite    string
	Kind    string
	Read    string
	Outside lang.Link // DOI or address
	ISBN    string
	Licence string
}

func (p *Printer) source(s source, key string) SourceView {
	v := SourceView{ID: sourceID(key), Cite: s.cite(key), Kind: p.words.Or("source_kind", s.Kind), ISBN: s.ISBN, Licence: s.Licence}
	if s.Read != "" {
		v.Read = p.words.Or("source_read", s.Read)
	}
	switch {
	case s.DOI != "":
		v.Outside = lang.Link{Text: "doi:" + s.DOI, Href: "https://doi.org/" + s.DOI}
	case strings.HasPrefix(s.URL, "https://"), strings.HasPrefix(s.URL, "http://"):
		v.Outside = lang.Link{Text: s.URL, Href: s.URL}
	case s.URL != "":
		v.Outside = lang.Link{Text: s.URL}
	}
	return v
}

// SourcesModel lists what the guide cites.
func (p *Printer) SourcesModel() SourcesModel {
	m := SourcesModel{Frame: p.Frame("sources", SourcesPage, p.words.Plain("sources.title"))}
	m.Description = p.words.Plain("sources.description", "guide", p.Settings().Name)
	for _, k := range SortedKeys(p.sources) {
		m.Sources = append(m.Sources, p.source(p.sources[k], k))
	}
	slices.SortStableFunc(m.Sources, func(a, b SourceView) int { return p.Settings().Alphabet.Compare(a.Cite, b.Cite) })
	return m
}
