package site

// This file verifies the notes of a finished site. Whatever it finds is the program's own fault,
// never the guide's: the guide was checked before a page was drawn.
//
// A foreign host may be named only where the reader decides to go there: in the href of an a or
// area element whose rel holds "external" or "noopener", which shows that it was meant, and in
// link elements that merely tell something (canonical, alternate, license, author and the like).
// Everywhere else a browser would ask for it by itself, and no request may leave for another host.

import (
	"cmp"
	"fmt"
	"net/url"
	"path"
	"slices"
	"strings"
)

// Kind names one way in which a site can be wrong.
type Kind string

const (
	SamePath    Kind = "same path"    // two files at one address, or differing only in letter case
	DeadLink    Kind = "dead link"    // no file there, not even by letter case
	DeadAnchor  Kind = "dead anchor"  // the file has no such id
	DoubleID    Kind = "double id"    // an id stands twice on a page
	ForeignHost Kind = "foreign host" // another host would be asked, or a link out is not marked
	MissingMark Kind = "missing mark" // a page without data-records-to or data-built
	Leak        Kind = "leak"         // a withheld string
	Fault       Kind = "fault"        // anything else wrong with one file
)

// Failure is one thing wrong with one file of the site.
type Failure struct {
	Page string // address
	Kind Kind
	What string
}

func (f Failure) String() string { return fmt.Sprintf("%s: %s: %s", f.Page, f.Kind, f.What) }

// Failures is an error that tells all of them, a line each.
type Failures []Failure

func (f Failures) Error() string {
	lines := make([]string, 0, len(f)+1)
	lines = append(lines, "the site failed its verification; this is a fault of guidegen, not of the guide")
	for _, one := range f {
		lines = append(lines, one.String())
	}
	return strings.Join(lines, "\n")
}

// Verify checks the notes of all files of a site against each other. The failures are in order
// of page, kind and what is wrong; there are none for a sound site.
func Verify(notes []Notes) Failures {
	v := verifier{of: make(map[string]*Notes, len(notes)), folded: make(map[string]string, len(notes))}
	sorted := slices.Clone(notes)
	slices.SortStableFunc(sorted, func(a, b Notes) int { return cmp.Compare(a.Address, b.Address) })
	for i := range sorted {
		n := &sorted[i]
		if other, taken := v.folded[fold(n.Address)]; taken {
			if other == n.Address {
				v.fail(n, SamePath, "written twice")
			} else {
				v.fail(n, SamePath, "differs only in letter case from "+other)
			}
		}
		v.folded[fold(n.Address)] = n.Address
		v.of[n.Address] = n
	}
	for i := range sorted {
		v.file(&sorted[i])
	}
	slices.SortFunc(v.failures, func(a, b Failure) int {
		return cmp.Or(cmp.Compare(a.Page, b.Page), cmp.Compare(a.Kind, b.Kind), cmp.Compare(a.What, b.What))
	})
	return slices.Compact(v.failures)
}

var lineEnds = strings.NewReplacer("\t", "", "\n", "", "\r", "")

type verifier struct {
	of       map[string]*Notes
	folded   map[string]string // folded address → address
	failures Failures
}

func (v *verifier) fail(n *Notes, kind Kind, what string) {
	v.failures = append(v.failures, Failure{Page: n.Address, Kind: kind, What: what})
}

func (v *verifier) file(n *Notes) {
	for i, id := range n.IDs {
		if i > 0 && id == n.IDs[i-1] {
			v.fail(n, DoubleID, id)
		}
		if id == "" || strings.ContainsAny(id, " \t\r\n\f") {
			v.fail(n, Fault, fmt.Sprintf("an id must hold at least one character and no space: %q", id))
		}
	}
	if n.Page && !n.RecordsTo {
		v.fail(n, MissingMark, "no data-records-to")
	}
	if n.Page && !n.Built {
		v.fail(n, MissingMark, "no data-built")
	}
	for _, text := range n.Leaks {
		v.fail(n, Leak, fmt.Sprintf("holds %q, which is withheld from this edition", text))
	}
	for _, what := range n.Faults {
		v.fail(n, Fault, what)
	}
	for _, ref := range n.Refs {
		if kind, what := v.ref(n, ref); what != "" {
			v.fail(n, kind, fmt.Sprintf("%s %q: %s", ref.By, ref.URL, what))
		}
	}
}

func (v *verifier) ref(n *Notes, ref Ref) (Kind, string) {
	// Browsers drop surrounding space and inner line ends, and read a backslash as a slash
	// (WHATWG URL Standard, section 4.4).
	raw := lineEnds.Replace(strings.Trim(ref.URL, " \t\r\n\f"))
	if !strings.HasPrefix(raw, "data:") {
		raw = strings.ReplaceAll(raw, `\`, "/")
	}
	u, err := url.Parse(raw)
	if err != nil {
		return DeadLink, "can't be read as an address"
	}
	if u.Scheme != "" || u.Host != "" || strings.HasPrefix(raw, "//") {
		return outside(u, ref)
	}
	return v.inside(n, ref, raw, u)
}

func outside(u *url.URL, ref Ref) (Kind, string) {
	switch u.Scheme {
	case "", "http", "https":
		switch {
		case ref.Asked:
			return ForeignHost, "the browser would ask another host"
		case !ref.Outward:
			return ForeignHost, `a link to another host needs rel="external" or rel="noopener"`
		case u.Host == "":
			return DeadLink, "names no host"
		}
		return "", ""
	case "mailto", "tel", "sms", "geo":
		if !ref.Asked {
			return "", ""
		}
	case "data":
		if ref.Asked {
			return "", ""
		}
	}
	return Fault, "no address of this kind may stand here"
}

func (v *verifier) inside(n *Notes, ref Ref, raw string, u *url.URL) (Kind, string) {
	target := n
	if u.Path == "" {
		if ref.Asked && u.Fragment == "" && !strings.HasPrefix(ref.By, "form") {
			return DeadLink, "is empty"
		}
	} else {
		last, from, to := path.Base("/"+u.Path), path.Dir(n.Address), u.Path
		if root, err := url.PathUnescape(n.Root); err == nil && root != "" && strings.HasPrefix(to, root) {
			from, to = ".", "./"+strings.TrimPrefix(to, root)
		}
		switch {
		case strings.HasPrefix(to, "/"):
			return DeadLink, "begins at the host's root: that works neither in a subfolder nor from disk"
		case strings.HasSuffix(to, "/"), last == "." || last == "..":
			return DeadLink, "names a folder, not a file: from disk that shows a listing"
		case strings.Contains(to, "//"):
			return DeadLink, "holds a doubled slash"
		}
		address := path.Join(from, to)
		if strings.HasPrefix(address, "../") {
			return DeadLink, "leaves the site's own folder"
		}
		var ok bool
		if target, ok = v.of[address]; !ok {
			if other, near := v.folded[fold(address)]; near {
				return DeadLink, "differs in letter case from " + other
			}
			return DeadLink, "no such file"
		}
	}
	return v.anchor(target, raw, u)
}

// anchor looks for a fragment's id as browsers do: as written, then decoded (HTML, "Scrolling to
// a fragment"). The letter case must agree.
func (v *verifier) anchor(target *Notes, raw string, u *url.URL) (Kind, string) {
	_, written, has := strings.Cut(raw, "#")
	if !has || written == "" || strings.EqualFold(u.Fragment, "top") || !holdsIDs(target) {
		return "", ""
	}
	for _, id := range []string{written, u.Fragment} {
		if _, ok := slices.BinarySearch(target.IDs, id); ok {
			return "", ""
		}
	}
	for _, id := range target.IDs {
		if strings.EqualFold(id, u.Fragment) {
			return DeadAnchor, fmt.Sprintf("differs in letter case from the id %q", id)
		}
	}
	return DeadAnchor, "no such id on " + target.Address
}

func holdsIDs(n *Notes) bool { return n.Page || strings.EqualFold(path.Ext(n.Address), ".svg") }
