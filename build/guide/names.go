package guide

// Names: which fly or water a text means. A name that two flies share is a
// problem that lists both; an unknown name never makes a new fly.

import (
	"cmp"
	"slices"
	"strings"

	"guidegen/content"
	"guidegen/rivers"
	"guidegen/species"
)

// Names finds flies and waters by any name the guide gives them.
type Names struct {
	flies  map[string][]*species.Account // folded name → flies
	coarse map[string][]*species.Account // folded genus, family, order or group → flies
	words  []string                      // every fly's names as written, for suggestions
	waters map[string][]*rivers.Water
	places []string
}

func newNames(accounts []*species.Account, waters []*rivers.Water) *Names {
	n := &Names{map[string][]*species.Account{}, map[string][]*species.Account{}, nil, map[string][]*rivers.Water{}, nil}
	put := func(m map[string][]*species.Account, name string, a *species.Account) {
		if k := content.Fold(name); k != "" && !slices.Contains(m[k], a) {
			m[k] = append(m[k], a)
		}
	}
	for _, a := range accounts {
		put(n.flies, a.Address, a)
		for _, t := range a.Names() {
			put(n.flies, t.S, a)
			if t.S != "" {
				n.words = append(n.words, t.S)
			}
		}
		for _, sci := range append([]content.Text{a.Scientific.Name}, a.Synonyms...) {
			if words := strings.Fields(sci.S); len(words) > 1 {
				put(n.coarse, words[0], a)
				put(n.coarse, words[0]+" sp.", a)
				put(n.coarse, words[0]+" sp", a)
				put(n.coarse, words[0]+" spp.", a)
			}
		}
		put(n.coarse, a.Family.S, a)
		put(n.coarse, a.Group.Order(), a)
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
	return nil, n.coarse[k]
}

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
		n.unknown(t, ps)
	}
	return nil
}

func (n *Names) unknown(t content.Text, ps *content.Problems) {
	ps.Errorf("unknown-fly", t.At, "an account in species/ makes a fly known; a record never does",
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
