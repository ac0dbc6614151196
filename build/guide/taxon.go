package guide

import (
	"slices"
	"strings"

	"guidegen/species"
)

// Alike reports whether all flies that a coarse record may be are alike in something.
func (f Found) Alike(of func(*species.Account) string) bool {
	return !slices.ContainsFunc(f.Taxon, func(a *species.Account) bool { return of(a) != of(f.Taxon[0]) })
}

// Order is that of a find's group, or of all that it may be; "" where they are of several.
func (f Found) Order() string {
	if f.Group == "" && len(f.Taxon) > 0 && f.Alike(func(a *species.Account) string { return a.Group.Order() }) {
		return f.Taxon[0].Group.Order()
	}
	return f.Group.Order()
}

// Common is the lowest taxon above species that holds all the flies a coarse record may be.
func (f Found) Common() (name, rank string) {
	genus := func(a *species.Account) string { g, _, _ := strings.Cut(a.Scientific.Name.S, " "); return g }
	for _, x := range []struct {
		rank string
		of   func(*species.Account) string
	}{{"genus", genus}, {"family", func(a *species.Account) string { return a.Family.S }}} {
		if len(f.Taxon) > 0 && x.of(f.Taxon[0]) != "" && f.Alike(x.of) {
			return x.of(f.Taxon[0]), x.rank
		}
	}
	if o := f.Order(); o != "" {
		return o, "order"
	}
	return "Insecta", "class"
}
