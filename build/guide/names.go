package guide

// Names: which fly or water a text means. A name that two flies share is a
// problem that lists both; an unknown name never makes a new fly.

import (
	"cmp"
	"maps"
	"slices"
	"strings"

	"guidegen/content"
	"guidegen/rivers"
	"guidegen/species"
)

// Names finds flies and waters by any name the guide gives them.
type Names struct {
	flies  map[string][]*species.Account // folded name → flies
	wide   map[string][]*species.Account // folded words wider than a species → the flies each may mean, perhaps none
	words  []string                      // every fly's names as written, for suggestions
	waters map[string][]*rivers.Water
	places []string
}

// Unnamed is what a record calls a fly that nobody could name.
const Unnamed = "unnamed"

// Names finds a guide's flies and waters by name.
func (g *Guide) Names() *Names { return newNames(g.Accounts, g.Waters) }

func newNames(accounts []*species.Account, waters []*rivers.Water) *Names {
	n := &Names{map[string][]*species.Account{}, map[string][]*species.Account{}, nil, map[string][]*rivers.Water{}, nil}
	n.wide[Unnamed], n.wide["unknown"], n.wide["not named"] = accounts, accounts, accounts
	for _, g := range species.Groups {
		n.wide[content.Fold(string(g))] = nil // known without any account
	}
	last := map[string][]*species.Account{} // by the last word of their names: olive, sedge
	put := func(m map[string][]*species.Account, name string, a *species.Account) {
		if k := content.Fold(name); k != "" && !slices.Contains(m[k], a) {
			m[k] = append(m[k], a)
		}
	}
	for _, a := range accounts {
		put(n.flies, a.Address, a)
		put(n.flies, a.Scientific.Name.S+" "+a.Scientific.Authority, a) // as Darwin Core writes it
		for _, t := range a.Names() {
			put(n.flies, t.S, a)
			if t.S != "" {
				n.words = append(n.words, t.S)
			}
		}
		for _, sci := range append([]content.Text{a.Scientific.Name}, a.Synonyms...) {
			if words := strings.Fields(sci.S); len(words) > 1 {
				put(n.wide, words[0], a)
				put(n.wide, words[0]+" sp.", a)
				put(n.wide, words[0]+" sp", a)
				put(n.wide, words[0]+" spp.", a)
			}
		}
		put(n.wide, a.Family.S, a)
		put(n.wide, a.Group.Order(), a)
		put(n.wide, string(a.Group), a)
		if words := strings.Fields(a.Name.S); len(words) > 1 {
			put(last, words[len(words)-1], a)
		}
	}
	for word, l := range last {
		if _, taken := n.wide[word]; !taken && len(l) > 1 && len(n.flies[word]) == 0 {
			n.wide[word] = l
		}
	}
	for _, w := range waters {
		for _, t := range append([]content.Text{w.Name, {S: w.Address}}, w.Also...) {
			k := content.Fold(t.S)
			if k != "" && !slices.Contains(n.waters[k], w) {
				n.waters[k] = append(n.waters[k], w)
				if t.S != w.Address { // a file's name is understood, but nobody means it
					n.places = append(n.places, t.S)
				}
			}
		}
	}
	return n
}

// Fly finds the fly a text names. Where the name is shared, or coarser than
// a species, fly is nil and taxon lists those it may be.
func (n *Names) Fly(name string) (fly *species.Account, taxon []*species.Account) {
	k := content.Fold(name)
	if l := n.flies[k]; len(l) == 1 {
		return l[0], nil
	} else if len(l) > 1 {
		return nil, l
	}
	return nil, n.wide[k]
}

// Wide gives the flies that a word wider than a species may mean (a genus, family, order or group, the last word that
// several names share, or Unnamed) and their group, "" where they are of several. ok is false for any other word.
func (n *Names) Wide(word string) (group species.Group, taxon []*species.Account, ok bool) {
	k := content.Fold(word)
	taxon, ok = n.wide[k]
	if slices.Contains(species.Groups, species.Group(k)) {
		return species.Group(k), taxon, ok
	}
	for _, a := range taxon {
		if group = a.Group; group != taxon[0].Group {
			return "", taxon, ok
		}
	}
	return group, taxon, ok
}

// WideWords are all such words, folded, in order.
func (n *Names) WideWords() []string { return slices.Sorted(maps.Keys(n.wide)) }

// fly finds the one fly a text must name, and reports it otherwise.
func (n *Names) fly(t content.Text, ps *content.Problems) *species.Account {
	fly, taxon := n.Fly(t.S)
	switch {
	case fly != nil:
		return fly
	case len(n.flies[content.Fold(t.S)]) > 1:
		ps.Errorf("ambiguous-fly", t.At, "write instead: "+unmistakable(taxon), "%q is the name of %d flies", t.S, len(taxon))
	case len(taxon) > 0:
		ps.Errorf("unknown-fly", t.At, "name one of its species: "+unmistakable(taxon), "%q is coarser than a species", t.S)
	default:
		n.unknown(t, "an account in species/ makes a fly known; a record never does", ps)
	}
	return nil
}

func (n *Names) unknown(t content.Text, want string, ps *content.Problems) {
	ps.Errorf("unknown-fly", t.At, want,
		"no account is named %q%s", t.S, content.DidYouMean(t.S, n.words))
}

// Water finds the one water a text names, and reports it otherwise.
func (n *Names) Water(t content.Text, ps *content.Problems) *rivers.Water {
	l := n.waters[content.Fold(t.S)]
	if t.S == "" {
		return nil // the reader has said that it is missing
	}
	switch len(l) {
	case 1:
		return l[0]
	case 0:
		ps.Errorf("unknown-water", t.At, "waters are the files in rivers/", "no water is named %q%s", t.S, content.DidYouMean(t.S, n.places))
	default:
		ps.Errorf("ambiguous-water", t.At, "write the file's name instead", "%q is the name of %d waters", t.S, len(l))
	}
	return nil
}

// unmistakable lists what names each of several flies alone: its scientific
// name, or without one its address.
func unmistakable(l []*species.Account) string {
	var s []string
	for _, a := range l {
		s = append(s, cmp.Or(strings.TrimSpace(a.Scientific.Name.S), a.Address))
	}
	slices.Sort(s)
	return strings.Join(s, ", ")
}
