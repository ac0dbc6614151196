package press

// What has to be known of a PDF, and what of it would differ from one printing to the next. The
// PDFs read here are those that Chromium writes: objects in plain text, streams apart.

import (
	"bytes"
	"fmt"
	"regexp"
	"slices"
	"strconv"

	"guidegen/content/calendar"
)

var (
	pageObject = regexp.MustCompile(`/Type\s*/Page\b`)
	pageSize   = regexp.MustCompile(`/MediaBox\s*\[\s*[\d.]+\s+[\d.]+\s+([\d.]+)\s+([\d.]+)\s*\]`)
	pdfDate    = regexp.MustCompile(`\(D:\d{14}[^)]*\)`)
	object     = regexp.MustCompile(`(?m)^(\d+) 0 obj\b`)
	kids       = regexp.MustCompile(`/Kids\s*\[([^\]]*)\]`)
	reference  = regexp.MustCompile(`(\d+) 0 R`)
	pagesRoot  = regexp.MustCompile(`/Type\s*/Catalog\b[^>]*?/Pages\s+(\d+) 0 R`)

	destination = regexp.MustCompile(`/([^\s/\[\]<>()]+)\s*\[(\d+) 0 R /XYZ`)
	escaped     = regexp.MustCompile(`#[0-9A-Fa-f]{2}`)
	node        = regexp.MustCompile(`\(node\d{8}\)`)
)

// plain is a PDF without its streams, whose bytes could look like anything.
func plain(pdf []byte) []byte {
	var out []byte
	for {
		i := bytes.Index(pdf, []byte("stream\n"))
		j := bytes.Index(pdf, []byte("\nendstream"))
		if i < 0 || j < i {
			return append(out, pdf...)
		}
		out = append(out, pdf[:i]...)
		pdf = pdf[j+len("\nendstream"):]
	}
}

// Pages counts a PDF's pages.
func Pages(pdf []byte) int { return len(pageObject.FindAll(plain(pdf), -1)) }

// Size is the size of a PDF's first page in millimetres; zero where none is given.
func Size(pdf []byte) (wide, high float64) {
	m := pageSize.FindSubmatch(plain(pdf))
	if m == nil {
		return 0, 0
	}
	const mm = 25.4 / 72
	x, _ := strconv.ParseFloat(string(m[1]), 64)
	y, _ := strconv.ParseFloat(string(m[2]), 64)
	return x * mm, y * mm
}

// dated puts the guide's day in place of the moment of printing, byte for byte as long, so that
// one guide gives one PDF on one machine.
func dated(pdf []byte, day calendar.Date) []byte {
	return pdfDate.ReplaceAllFunc(pdf, func(was []byte) []byte {
		d := []byte(day.String())
		text := append([]byte("(D:"), d[0:4]...)
		text = append(append(append(text, d[5:7]...), d[8:10]...), "000000"...)
		rest := was[len("(D:")+14:]
		if bytes.HasPrefix(rest, []byte("+")) || bytes.HasPrefix(rest, []byte("-")) {
			rest = []byte("+00'00'" + string(rest[min(len(rest), 7):]))
		}
		return append(text, rest...)
	})
}

// Destinations gives the page, counted from 1, of every place that a link within the PDF leads to.
func Destinations(pdf []byte) map[string]int {
	text := plain(pdf)
	pageOf := map[string]int{} // object number → page; a PDF's pages stand in their order
	for i, n := range pageNumbersIn(text) {
		pageOf[n] = i + 1
	}
	out := map[string]int{}
	for _, m := range destination.FindAllSubmatch(text, -1) {
		if n := pageOf[string(m[2])]; n > 0 {
			out[unescapeName(string(m[1]))] = n
		}
	}
	return out
}

// pageNumbersIn lists the pages' object numbers, walking the tree of pages from its root.
func pageNumbersIn(text []byte) []string {
	objects := map[string][]byte{}
	starts := object.FindAllSubmatchIndex(text, -1)
	for i, s := range starts {
		end := len(text)
		if i+1 < len(starts) {
			end = starts[i+1][0]
		}
		objects[string(text[s[2]:s[3]])] = text[s[0]:end]
	}
	var out []string
	var walk func(number string, depth int)
	walk = func(number string, depth int) {
		o := objects[number]
		if pageObject.Match(o) {
			out = append(out, number)
			return
		}
		m := kids.FindSubmatch(o)
		if m == nil || depth > 20 {
			return
		}
		for _, r := range reference.FindAllSubmatch(m[1], -1) {
			walk(string(r[1]), depth+1)
		}
	}
	if m := pagesRoot.FindSubmatch(text); m != nil {
		walk(string(m[1]), 0)
	}
	return out
}

// unescapeName undoes the #xx of a PDF's names.
func unescapeName(s string) string {
	return escaped.ReplaceAllStringFunc(s, func(e string) string {
		n, _ := strconv.ParseUint(e[1:], 16, 8)
		return string([]byte{byte(n)})
	})
}

// numbered gives the nodes of a tagged PDF numbers of their own: the browser counts on from page
// to page. Their order and width stay, for the tree of names is sorted and the offsets hold.
func numbered(pdf []byte) []byte {
	seen := map[string]string{}
	var all []string
	for _, n := range node.FindAll(pdf, -1) {
		if s := string(n); seen[s] == "" {
			seen[s] = s
			all = append(all, s)
		}
	}
	slices.Sort(all)
	for i, s := range all {
		seen[s] = fmt.Sprintf("(node%08d)", i+1)
	}
	return node.ReplaceAllFunc(pdf, func(n []byte) []byte { return []byte(seen[string(n)]) })
}
