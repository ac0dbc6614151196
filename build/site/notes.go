package site

// This file reads, while a file is being written, what verification wants to know about it later:
// its ids, what it refers to, and its marks. Reading the tags is a tenth of the work of parsing
// the page, and nothing of the page is kept.

import (
	"bytes"
	"path"
	"slices"
	"strings"
	"unique"

	"golang.org/x/net/html"
)

// Ref is one reference of a file to another or to an outside address.
type Ref struct {
	URL     string
	By      string // element and attribute: "img src"
	Asked   bool   // the browser asks for it without the reader following a link
	Outward bool   // marked as leading out of the site: rel holds external or noopener
}

// Notes are what is known about one file of the site.
type Notes struct {
	Address   string
	Page      bool     // an HTML page
	IDs       []string // sorted; a duplicate stands twice
	Refs      []Ref    // in the order of the page, each once
	RecordsTo bool     // has a data-records-to, which is empty where there are no records
	Root      string   // where the site stands on its host, on a page whose links begin there
	Built     bool     // has a data-built that is not empty
	Leaks     []string // withheld strings that stand in it
	Faults    []string // what is wrong with it by itself
}

// reader gathers the notes of one file.
type reader struct {
	Notes
	seen map[Ref]bool
}

// Read returns the notes of one file. It never fails: what browsers read as text, it does too.
func Read(address string, data []byte) Notes {
	r := &reader{Notes: Notes{Address: address}, seen: make(map[Ref]bool)}
	switch strings.ToLower(path.Ext(address)) {
	case ".html", ".htm":
		r.Page = true
		r.tags(data)
	case ".svg":
		r.tags(data)
	case ".css":
		r.style(data, "stylesheet")
	}
	slices.Sort(r.IDs)
	return r.Notes
}

func (r *reader) tags(data []byte) {
	z := html.NewTokenizer(bytes.NewReader(data))
	inStyle := false
	for {
		switch z.Next() {
		case html.ErrorToken:
			return
		case html.TextToken:
			if inStyle {
				r.style(z.Raw(), "style")
			}
		case html.EndTagToken:
			inStyle = false
		case html.StartTagToken, html.SelfClosingTagToken:
			name, more := z.TagName()
			tag := string(name)
			inStyle = tag == "style"
			if tag == "noscript" {
				z.NextIsNotRawText() // read as a browser without scripts does
			}
			r.tag(z, tag, more)
		}
	}
}

// tag reads the attributes of one element. An element's rel and http-equiv may follow the
// attribute they bear on, so references wait until all are read.
func (r *reader) tag(z *html.Tokenizer, tag string, more bool) {
	var pending []Ref
	var rel, equiv, content string
	for more {
		var key, val []byte
		key, val, more = z.TagAttr()
		switch k := string(key); k {
		case "id":
			r.IDs = append(r.IDs, string(val))
		case "data-records-to":
			r.RecordsTo = true
		case "data-built":
			r.Built = r.Built || len(bytes.TrimSpace(val)) > 0
		case "data-root":
			r.Root = string(val)
		case "rel":
			rel = strings.ToLower(string(val))
		case "http-equiv":
			equiv = string(val)
		case "content":
			if tag == "meta" {
				content = string(val)
			}
		case "href", "xlink:href", "src", "poster", "action", "formaction", "background", "manifest":
			pending = append(pending, Ref{URL: unique.Make(string(val)).Value(), By: tag + " " + k})
		case "data":
			if tag == "object" {
				pending = append(pending, Ref{URL: string(val), By: "object data"})
			}
		case "srcset", "imagesrcset", "ping":
			for _, u := range candidates(string(val), k == "ping") {
				pending = append(pending, Ref{URL: u, By: tag + " " + k})
			}
		case "style", "fill", "stroke", "filter", "mask", "clip-path", "cursor",
			"marker", "marker-start", "marker-mid", "marker-end":
			r.style(val, tag+" "+k)
		}
	}
	if tag == "base" {
		r.Faults = append(r.Faults, "a base element: links would no longer work from disk")
	}
	if strings.EqualFold(equiv, "refresh") {
		if _, u, ok := strings.Cut(content, "="); ok {
			pending = append(pending, Ref{URL: strings.Trim(u, " '\""), By: "meta refresh"})
		}
	}
	rels := strings.Fields(rel)
	for _, ref := range pending {
		switch {
		case tag == "a" || tag == "area":
			ref.Asked = strings.HasSuffix(ref.By, "ping")
			ref.Outward = slices.Contains(rels, "external") || slices.Contains(rels, "noopener")
		case tag == "link":
			ref.Asked = !onlyTells(rels)
			ref.Outward = true
		default:
			ref.Asked = true
		}
		r.add(ref)
	}
}

func (r *reader) add(ref Ref) {
	if !r.seen[ref] {
		r.seen[ref] = true
		r.Refs = append(r.Refs, ref)
	}
}

// onlyTells reports whether a link element merely says something about the page, so that no
// browser asks for its address.
func onlyTells(rels []string) bool {
	tell := []string{"canonical", "alternate", "license", "author", "help", "search", "next", "prev", "up", "me"}
	return len(rels) > 0 && !slices.ContainsFunc(rels, func(r string) bool { return !slices.Contains(tell, r) })
}

// candidates splits a srcset (HTML, "Parsing a srcset attribute") or, with spaces only, a ping.
func candidates(set string, spaces bool) []string {
	if spaces {
		return strings.Fields(set)
	}
	var urls []string
	for set = strings.TrimLeft(set, " \t\n\r\f,"); set != ""; set = strings.TrimLeft(set, " \t\n\r\f,") {
		end := strings.IndexAny(set, " \t\n\r\f")
		if end < 0 {
			end = len(set)
		}
		u := set[:end]
		set = set[end:]
		if trimmed := strings.TrimRight(u, ","); trimmed != u {
			urls = append(urls, trimmed)
			continue // a comma straight after the address: no width or density follows
		}
		urls = append(urls, u)
		_, set, _ = strings.Cut(set, ",")
	}
	return urls
}
