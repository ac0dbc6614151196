package guide

// How people are named: one rule for every field that can name a person. What
// guide.yaml says under people: decides; who isn't listed there is named by initials.

import (
	"maps"
	"slices"
	"strings"

	"guidegen/content"
)

// shown is a person's name as they wish it: in full, initials (the default) or none.
func (c *cutter) shown(name string) string {
	name = strings.TrimSpace(name)
	if name == "" {
		return ""
	}
	how := c.wish(name)
	if how == FullName {
		return name
	}
	shown := initials(name)
	if how == NoName {
		shown = ""
	}
	// Who signs by initials withholds nothing by them.
	if !slices.Contains(c.names, name) && !strings.Contains(content.Fold(shown), content.Fold(name)) {
		c.names = append(c.names, name)
	}
	return shown
}

// key tells people apart. Ways of writing one name of people: are one person; where it may be two of them, it is a third.
func (c *cutter) key(name string) int {
	k := content.Fold(name)
	var are []string
	for known := range c.e.Settings.People {
		if samePerson(known, name) {
			are = append(are, known)
		}
	}
	if len(are) == 1 {
		k = are[0]
	}
	if _, ok := c.people[k]; !ok {
		c.people[k] = len(c.people)
	}
	return c.people[k]
}

// wish is what people: says of a name, however the name is written.
func (c *cutter) wish(name string) Naming {
	people := c.e.Settings.People
	if how, ok := people[content.Fold(name)]; ok {
		return how
	}
	found := Naming("")
	for _, known := range slices.Sorted(maps.Keys(people)) {
		if how := people[known]; samePerson(known, name) && (found == "" || how == NoName) {
			found = how
		}
	}
	return found
}

// credited is the text of a field that names a person or something else, such as
// the from: of a dressing ("traditional") or the credit of a photo: who is known to
// the guide by people: or by the records is named as they wish, all else as written.
func (c *cutter) credited(text string) string {
	if c.wish(text) != "" || slices.ContainsFunc(c.known, func(p string) bool { return samePerson(p, text) }) {
		return c.shown(text)
	}
	return text
}

// knownPeople lists who the records name.
func knownPeople(g *Guide) (l []string) {
	add := func(names ...string) {
		for _, n := range names {
			if n = strings.TrimSpace(n); n != "" && !slices.Contains(l, n) {
				l = append(l, n)
			}
		}
	}
	for _, r := range g.Settings.Roles {
		add(r.Who)
	}
	for _, a := range g.Accounts {
		add(a.ReviewedBy)
	}
	for _, k := range g.Corrections {
		add(k.By)
	}
	for _, v := range g.Visits {
		add(v.By...)
		for _, f := range v.Finds {
			add(f.By)
		}
	}
	return l
}

// samePerson reports whether one of two names is a way of writing the other.
func samePerson(a, b string) bool {
	fold := func(l []string) []string { return mapped(l, content.Fold) }
	return slices.Contains(fold(variants(a)), content.Fold(b)) || slices.Contains(fold(variants(b)), content.Fold(a))
}

// variants are the ways in which a name of several words may be written: as given,
// "Surname, First", "F. Surname", "F Surname" and "Surname, F.". A possessive holds
// the name as a word of its own.
func variants(name string) []string {
	name = strings.TrimSpace(name)
	if last, first, ok := strings.Cut(name, ","); ok && strings.TrimSpace(first) != "" {
		name = strings.TrimSpace(first) + " " + strings.TrimSpace(last)
	}
	words := strings.Fields(name)
	if len(words) < 2 {
		return []string{name}
	}
	first, last := words[:len(words)-1], words[len(words)-1]
	if len([]rune(strings.Trim(last, "."))) < 2 {
		return []string{name} // initials alone
	}
	short := initials(strings.Join(first, " "))
	bare := strings.ReplaceAll(short, ".", "")
	l := []string{strings.Join(words, " "), last + ", " + strings.Join(first, " "), short + " " + last, bare + " " + last,
		last + ", " + short, last + " " + strings.Join(first, " ")}
	if len(first) > 1 {
		l = append(l, words[0]+" "+last, initials(words[0])+" "+last)
	}
	slices.Sort(l)
	return slices.Compact(l)
}

// surname is the last word of a name of several words, "" where there is none that
// is long enough to be looked for by itself.
func surname(name string) string {
	if last, first, ok := strings.Cut(name, ","); ok && strings.TrimSpace(first) != "" {
		name = last
	} else if words := strings.Fields(name); len(words) < 2 {
		return ""
	} else {
		name = words[len(words)-1]
	}
	if name = strings.TrimSpace(name); len([]rune(name)) < 3 {
		return ""
	}
	return name
}

func initials(name string) string {
	var s []string
	for _, w := range strings.FieldsFunc(name, func(r rune) bool { return r == ' ' || r == '.' || r == '-' || r == ',' }) {
		s = append(s, string([]rune(w)[:1])+".")
	}
	return strings.Join(s, " ")
}
