// Package site gives every page its address before any is drawn, stages the files beside the
// place they are meant for, verifies what was noted about them, and swaps the whole site in
// one step. It knows nothing of pages: bytes go in, notes come out.
package site

// This file gives out addresses. A page's address is its path from the site's own folder, with
// slashes, for example "species/large-dark-olive.html"; it comes from the file's name, so that a
// fly may be renamed and keep its address.

import (
	"cmp"
	"path"
	"slices"
	"strings"

	"github.com/gosimple/slug"
)

// longestName is the most bytes an address may have in one segment: file systems stop at 255,
// and the dot-names of a run need a little room as well.
const longestName = 200

// Source is one record of the guide that becomes a page.
type Source struct {
	Name string   // folder and name, with a slash: "species/large-dark-olive.md"; an ending is cut off
	Was  []string // older names: "old-name", "old-name.md" or "species/old-name.md"
}

// Why says what is wrong with an address.
type Why string

const (
	Taken   Why = "taken"    // A and B want the same address, perhaps differing in letter case
	Fixed   Why = "fixed"    // the address belongs to a page every site has; A is ""
	Empty   Why = "empty"    // nothing of B's name can stand in an address; A is ""
	TooLong Why = "too long" // B's name makes an address no file system takes; A is ""
)

// Conflict is an address that could not be given out. It is a fault of the guide: B, the later by
// name, has to change. Nothing is ever given a suffix silently, since the suffix would change
// hands as files come and go.
type Conflict struct {
	A, B    string // names of the sources
	Address string
	Old     string // the entry of B's `was:` list that asks for the address; "" if its own name does
	Why     Why
}

// Redirect is an old address and the one that took its place.
type Redirect struct {
	Old, To string
}

// Addresses is the registry of every address of a site's pages.
type Addresses struct {
	of        map[string]string // source name → address
	redirects []Redirect
}

// Allocate gives every source its address; fixed lists the pages every site has. The answer does
// not depend on the order of the sources. Names are tried before older names, so that an old
// address never takes a page's place. Sources in conflict are left without an address.
func Allocate(fixed []string, sources []Source) (*Addresses, []Conflict) {
	sources = slices.Clone(sources)
	slices.SortStableFunc(sources, func(a, b Source) int { return cmp.Compare(a.Name, b.Name) })

	reg := &Addresses{of: make(map[string]string, len(sources))}
	var conflicts []Conflict
	type holder struct {
		name  string
		fixed bool
	}
	held := make(map[string]holder, len(fixed)+len(sources)) // folded address → who has it
	for _, address := range fixed {
		held[fold(address)] = holder{fixed: true}
	}
	claim := func(name, old, address string, why Why) bool {
		by, taken := held[fold(address)]
		if why == "" && taken {
			if why = Taken; by.fixed {
				why = Fixed
			}
		}
		if why != "" {
			conflicts = append(conflicts, Conflict{A: by.name, B: name, Address: address, Old: old, Why: why})
			return false
		}
		held[fold(address)] = holder{name: name}
		return true
	}

	for _, s := range sources {
		address, why := join(path.Split(withoutExt(s.Name)))
		if claim(s.Name, "", address, why) {
			reg.of[s.Name] = address
		}
	}
	for _, s := range sources {
		to, ok := reg.of[s.Name]
		if !ok {
			continue
		}
		for _, old := range s.Was {
			address, why := oldAddress(s, old)
			// A name changed and changed back, or listed twice, still leads to its page.
			if why == "" && held[fold(address)].name == s.Name {
				continue
			}
			if claim(s.Name, old, address, why) {
				reg.redirects = append(reg.redirects, Redirect{Old: address, To: to})
			}
		}
	}
	slices.SortFunc(reg.redirects, func(a, b Redirect) int { return cmp.Compare(a.Old, b.Old) })
	return reg, conflicts
}

// Of returns the address of a source.
func (a *Addresses) Of(name string) (string, bool) {
	address, ok := a.of[name]
	return address, ok
}

// Redirects lists the old addresses in order.
func (a *Addresses) Redirects() []Redirect { return slices.Clone(a.redirects) }

func oldAddress(s Source, old string) (string, Why) {
	dir, base := path.Split(withoutExt(strings.TrimSpace(old)))
	if dir == "" {
		dir = path.Dir(s.Name)
	}
	return join(dir, base)
}

// join turns each folder and the base name into words of an address. The rules of spelling are
// always those for English, so that an address outlasts a change of the guide's language.
func join(dir, base string) (string, Why) {
	var parts []string
	if dir = path.Clean(dir); dir != "." {
		parts = strings.Split(strings.Trim(dir, "/"), "/")
	}
	parts = append(parts, base)
	var why Why
	for i, part := range parts {
		parts[i] = slug.Make(part)
		switch {
		case parts[i] == "":
			why = Empty
		case len(parts[i]) > longestName && why == "":
			why = TooLong
		}
	}
	return strings.Join(parts, "/") + ".html", why
}

func withoutExt(name string) string {
	switch ext := path.Ext(name); strings.ToLower(ext) {
	case ".md", ".yaml", ".yml", ".html":
		return strings.TrimSuffix(name, ext)
	}
	return name
}

// fold makes addresses equal that a stick or a Mac could not keep apart.
func fold(address string) string { return strings.ToLower(address) }
