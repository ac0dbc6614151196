package main

// A water by a name that somebody typed: one way for every command.

import (
	"slices"
	"strings"

	"guidegen/build"
	"guidegen/content"
	"guidegen/rivers"
)

// waterNamed finds the place in the list of the water that a name means: its
// own, another it goes by, or its address.
func waterNamed(waters []*rivers.Water, name string) (int, error) {
	var known, proper, addresses []string
	of := map[string]string{} // each name: the water's own
	found := -1
	for i, w := range waters {
		names := []string{w.Name.S, w.Address}
		for _, t := range w.Also {
			names = append(names, t.S)
		}
		if slices.ContainsFunc(names, func(n string) bool { return content.Fold(n) == content.Fold(name) }) {
			found, addresses = i, append(addresses, w.Address)
		}
		for _, n := range names {
			if of[n] == "" {
				of[n] = w.Name.S
			}
		}
		known, proper = append(known, names...), append(proper, w.Name.S)
	}
	switch len(addresses) {
	case 0:
		return -1, build.Misused("no water is named %q%s\nthe waters are: %s", name, meant(name, known, of), strings.Join(proper, ", "))
	case 1:
		return found, nil
	}
	return -1, build.Misused("%q is the name of %d waters; write one of: %s", name, len(addresses), strings.Join(addresses, ", "))
}

// meant suggests waters by their own names, each once: those with a name near to what was typed, else
// those with a name that has a word beginning so.
func meant(typed string, known []string, of map[string]string) string {
	near := content.Closest(typed, known, len(known))
	if start := content.Fold(typed); len(near) == 0 && len([]rune(start)) >= 3 {
		for _, n := range known {
			if strings.HasPrefix(content.Fold(n), start) || strings.Contains(content.Fold(n), " "+start) {
				near = append(near, n)
			}
		}
	}
	var names []string
	for _, n := range near {
		if own := `"` + of[n] + `"`; !slices.Contains(names, own) && len(names) < 3 {
			names = append(names, own)
		}
	}
	if len(names) == 0 {
		return ""
	}
	return "; did you mean " + strings.Join(names, " or ") + "?"
}
