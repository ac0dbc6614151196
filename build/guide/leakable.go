package guide

// Which withheld texts a site can be searched for: not those that the guide itself
// shows to everyone somewhere.

import (
	"slices"
	"strings"

	"guidegen/content"
)

// Mention is a withheld text that the edition's own prose names.
type Mention struct {
	Betrayal
	At content.Place // the prose, from its start or before it
}

// open is something that an edition shows to everyone.
type open struct {
	text  string
	at    content.Place
	prose bool // words that could be written otherwise; a name, a source or a credit couldn't
}

// leakable prepares the withheld names and places for the search of what people wrote, without those that the
// guide shows as names of something open. From the strings that the finished site is searched for it also drops what
// is too short or too common, and what the guide's own prose names, which is told.
func (c *cutter) leakable() (names *Secrets, withheld []string, named []Mention) {
	shown := c.openTexts()
	gather := func(known map[string]bool) *Secrets {
		n, done := newSecrets(shown), map[string]bool{}
		add := func(s string, how sought) {
			if s = strings.TrimSpace(s); len([]rune(s)) >= 4 && !known[s] && !done[s] {
				done[s] = true
				n.add(s, how)
			}
		}
		for _, s := range c.said {
			add(s, sought{})
		}
		for _, s := range c.nameVariants() {
			add(s, sought{who: true})
		}
		return n
	}
	known := map[string]bool{}
	for n, i := gather(known), 0; i < len(shown); i++ {
		if !shown[i].prose {
			for _, x := range n.all(shown[i].text) {
				known[x.Text] = true
			}
		}
	}
	names = gather(known)
	common := map[string]bool{}
	for _, list := range names.byFirst {
		for _, s := range list {
			common[s.text] = common[s.text] || s.common
		}
	}
	for _, s := range c.surnames() {
		names.add(s.Text, sought{who: true, alone: true, unsure: s.Unsure})
	}
	names.places = slices.DeleteFunc(slices.Clone(c.places), func(p hiddenPlace) bool { // an open water may lie at the same point
		return slices.ContainsFunc(shown, func(o open) bool { return !o.prose && o.text == p.text })
	})
	told := map[string]bool{} // by letters: "W. Grobnik" is told where "w-grobnik" stands
	for _, o := range shown {
		if !o.prose {
			continue
		}
		for _, x := range names.In(o.text) {
			if !x.Unsure {
				told[lettersOf(x.Text)] = true
				named = append(named, Mention{x, o.at})
			}
		}
	}
	for _, s := range names.Texts() {
		if !told[lettersOf(s)] && !common[s] {
			withheld = append(withheld, s)
		}
	}
	return names, withheld, named
}

// nameVariants are the ways to write the names that are not to be shown in full,
// without those that are the name of somebody who may be.
func (c *cutter) nameVariants() (l []string) {
	for _, name := range c.names {
		for _, v := range variants(name) {
			if c.e.Settings.People[content.Fold(v)] != FullName && v != initials(name) {
				l = append(l, v)
			}
		}
	}
	return l
}

// surnames are the last words of those names: text for everyone that holds one may
// mean the person.
func (c *cutter) surnames() (l []Betrayal) {
	for _, name := range c.names {
		s, unsure := surname(name), c.wish(name) != NoName
		if i := slices.IndexFunc(l, func(x Betrayal) bool { return x.Text == s }); i >= 0 {
			l[i].Unsure = l[i].Unsure && unsure
		} else if s != "" {
			l = append(l, Betrayal{Text: s, Unsure: unsure})
		}
	}
	return l
}

// openTexts is what the edition shows in the editor's own words.
func (c *cutter) openTexts() []open {
	var l []open
	put := func(at content.Place, prose bool, texts ...string) {
		for _, s := range texts {
			if s != "" {
				l = append(l, open{s, at, prose})
			}
		}
	}
	names := func(list ...content.Text) {
		for _, t := range list {
			put(t.At, false, t.S)
		}
	}
	texts := func(list ...content.Text) {
		for _, t := range list {
			put(t.At, true, t.S)
		}
	}
	e := c.e
	put(content.Place{File: "guide.yaml"}, true, e.Settings.Name, e.Settings.Publisher, e.Settings.Region, e.Settings.About, e.Settings.Contact, e.Settings.Licence)
	for _, a := range e.Accounts {
		names(a.Names()...)
		put(a.At, false, a.Scientific.Authority)
		texts(append(slices.Concat(a.Was, a.Water), a.Family)...)
		for _, x := range a.Protected {
			put(x.At, true, x.Country, x.Status)
		}
		for _, x := range a.Colours {
			for _, c := range x.Cases {
				for _, claim := range c.Claims {
					put(claim.At, true, claim.Value.Colour.Words, claim.Value.Light)
				}
			}
		}
		for _, f := range a.Flights {
			put(f.At, true, f.Name)
		}
		put(content.Place{File: a.Body.File, Offset: a.Body.Offset}, true, a.Body.Markdown)
	}
	for _, n := range e.Notes {
		put(n.At, true, n.Title)
		texts(n.Was...)
		put(content.Place{File: n.Body.File, Offset: n.Body.Offset}, true, n.Body.Markdown)
	}
	for _, d := range e.Dressings {
		names(append(slices.Clone(d.Also), d.Name)...)
		texts(append(slices.Clone(d.Was), d.Notes)...)
	}
	for _, w := range e.Waters {
		names(append(slices.Clone(w.Also), w.Name)...)
		texts(w.Bed, w.About, w.Rules, w.Access, w.Code, w.Meet)
		texts(append(slices.Clone(w.Was), w.Hazards...)...)
		for _, x := range w.Seasons {
			texts(x.Fish, x.Note)
		}
		for _, b := range w.Beats {
			names(b.Name)
		}
		put(w.PlaceAt, false, w.Place.String())
	}
	for _, p := range e.Photos {
		put(p.At, true, p.Alt, p.Caption)
	}
	for _, s := range e.Sources {
		put(s.At, false, s.Cite.S)
		put(s.At, true, s.URL, s.Licence)
	}
	for _, x := range e.Characters {
		put(x.At, true, x.Name, x.About)
		for _, s := range x.States {
			put(s.At, true, s.Name, s.About)
		}
	}
	for _, r := range e.Settings.Roles {
		put(r.At, true, r.Name)
	}
	for name, how := range e.Settings.People {
		if how == FullName {
			put(content.Place{}, false, name)
		}
	}
	return l
}
