package build

// The addresses of one edition's pages, given out before any page is drawn, and
// the small pages at older addresses.

import (
	"guidegen/build/guide"
	"guidegen/build/site"
	"guidegen/build/view"
	"guidegen/content"
)

// addresses is what pages know of the site they stand in.
type addresses struct {
	of        map[string]string // file of the guide → address of its page
	redirects []site.Redirect
}

// Link is the link from one page to another.
func (a *addresses) Link(from, to string) string { return site.Relative(from, to) }

// Page is the page made of a file of the guide, if this edition has one.
func (a *addresses) Page(file string) (string, bool) {
	address, ok := a.of[file]
	return address, ok
}

// record is one page to be, made of a file or of a part of one.
type record struct {
	folder, name string // of the address
	file         string // "" where the file holds several records
	at           content.Place
	was          []content.Text
	title        string
}

// address is that of its page.
func (r record) address() string { return r.folder + "/" + r.name + ".html" }

func records(e *guide.Edition) []record {
	var l []record
	for _, a := range e.Accounts {
		l = append(l, record{"species", a.Address, a.File, a.At, a.Was, a.Name.S})
	}
	for _, w := range e.Waters {
		l = append(l, record{"rivers", w.Address, w.File, w.At, w.Was, w.Name.S})
	}
	held := map[string]int{}
	for _, d := range e.Dressings {
		held[d.File]++
	}
	for _, d := range e.Dressings {
		r := record{"dressings", d.Address, d.File, d.Name.At, d.Was, d.Name.S}
		if held[d.File] > 1 {
			r.file = ""
		}
		l = append(l, r)
	}
	for _, n := range e.Notes {
		l = append(l, record{"notes", n.Address, n.Body.File, n.At, n.Was, n.Title})
	}
	return l
}

// allocate gives out the addresses. What can't be given out is reported as an
// error of the guide.
func allocate(e *guide.Edition, ps *content.Problems) *addresses {
	out := &addresses{of: map[string]string{}}
	at := map[string]content.Place{}
	was := map[string]content.Place{}
	var sources []site.Source
	list := records(e)
	for _, r := range list {
		s := site.Source{Name: r.folder + "/" + r.name}
		at[s.Name] = r.at
		for _, t := range r.was {
			s.Was = append(s.Was, t.S)
			was[s.Name+"#"+t.S] = t.At
		}
		sources = append(sources, s)
	}
	registry, conflicts := site.Allocate(view.FixedPages(), sources)
	for _, c := range conflicts {
		place := at[c.B]
		if c.Old != "" {
			place = was[c.B+"#"+c.Old]
		}
		switch c.Why {
		case site.Taken:
			ps.Clash("same-address", place, at[c.A], "the other one", "rename one of the two", "two pages would have the address %s", c.Address)
		case site.Fixed:
			ps.Errorf("same-address", place, "give it another name", "%s is the address of a page every guide has", c.Address)
		case site.TooLong:
			ps.Errorf("no-address", place, "give the file a shorter name", "the name is too long for an address")
		default:
			ps.Errorf("no-address", place, "give it a name with letters or digits", "the name gives no address")
		}
	}
	for _, r := range list {
		if address, ok := registry.Of(r.folder + "/" + r.name); ok && r.file != "" {
			out.of[r.file] = address
		}
	}
	out.redirects = registry.Redirects()
	return out
}
