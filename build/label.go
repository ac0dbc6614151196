package build

// What a printed figure is: read off the page as a reader does, from the headings
// above it, the head of its row and column, the entry it stands in, and the words
// just before it.

import (
	"bytes"
	"cmp"
	"slices"
	"strconv"
	"strings"

	"golang.org/x/net/html"
	"golang.org/x/net/html/atom"
)

// labels gives a label for each figure of a page, in the order they stand there.
func labels(page []byte) ([]string, error) {
	doc, err := html.Parse(bytes.NewReader(page))
	if err != nil {
		return nil, err
	}
	l := &labeller{}
	l.walk(doc, nil)
	return l.out, nil
}

type labeller struct {
	out   []string
	heads [7]string // the headings in force, by level
}

// walk goes through the page; above are the names of what stands round the node.
func (l *labeller) walk(n *html.Node, above []string) {
	if n.Type == html.ElementNode {
		switch n.DataAtom {
		case atom.Script, atom.Style, atom.Template:
			return
		case atom.H1, atom.H2, atom.H3, atom.H4, atom.H5, atom.H6:
			level := int(n.Data[1] - '0')
			l.heads[level] = words(n)
			clear(l.heads[level+1:])
		case atom.Table:
			l.table(n, above)
			return
		case atom.Li, atom.Details, atom.Article:
			above = append(slices.Clip(above), lead(n))
		case atom.Dd:
			above = append(slices.Clip(above), term(n))
		case atom.Data:
			if attribute(n, "data-basis") != "" {
				l.name(n, above)
				return
			}
		}
	}
	for c := n.FirstChild; c != nil; c = c.NextSibling {
		l.walk(c, above)
	}
}

// name joins what is known of a figure, each part once.
func (l *labeller) name(n *html.Node, above []string) {
	var parts []string
	for _, p := range append(append(slices.Clone(l.heads[2:]), above...), before(n)) {
		if k := len(parts); k > 0 {
			p = strings.TrimSpace(strings.TrimPrefix(p, parts[k-1]))
		}
		if p != "" && !slices.Contains(parts, p) {
			parts = append(parts, p)
		}
	}
	if len(parts) == 0 {
		parts = []string{cmp.Or(after(n), l.heads[1])}
	}
	l.out = append(l.out, strings.Join(parts, ", "))
}

// table names the figures of a table by their row and column.
func (l *labeller) table(t *html.Node, above []string) {
	var columns []string
	group := ""
	for c := t.FirstChild; c != nil; c = c.NextSibling {
		if c.DataAtom == atom.Caption {
			text, _, _ := strings.Cut(words(c), ";")
			above = append(slices.Clip(above), text)
		}
	}
	for _, r := range rows(t) {
		col := 0
		var head []string
		all := true
		for c := r.FirstChild; c != nil; c = c.NextSibling {
			all = all && (c.Type != html.ElementNode || c.DataAtom == atom.Th)
		}
		inHead := all && r.Parent.DataAtom == atom.Thead
		for c := r.FirstChild; c != nil; c = c.NextSibling {
			if c.Type != html.ElementNode {
				continue
			}
			span, _ := strconv.Atoi(attribute(c, "colspan"))
			span = max(1, span)
			switch {
			case inHead:
				for len(columns) < col+span {
					columns = append(columns, "")
				}
				for i := col; i < col+span; i++ {
					columns[i] = strings.TrimPrefix(columns[i]+", "+words(c), ", ")
				}
			case all:
				group = words(c)
			case c.DataAtom == atom.Th:
				head = append(head, words(c, atom.Small))
			default:
				in := append(slices.Clip(above), group)
				in = append(in, head...)
				if col < len(columns) {
					in = append(in, columns[col])
				}
				l.walk(c, in)
			}
			col += span
		}
	}
}

// rows lists the rows of a table, those of tables inside it left out.
func rows(n *html.Node) []*html.Node {
	var l []*html.Node
	for c := n.FirstChild; c != nil; c = c.NextSibling {
		if c.DataAtom == atom.Tr {
			l = append(l, c)
		} else if c.DataAtom != atom.Table {
			l = append(l, rows(c)...)
		}
	}
	return l
}

// lead is the name of an entry: its first words in bold, a link or a heading.
func lead(n *html.Node) string {
	for c := n.FirstChild; c != nil; c = c.NextSibling {
		switch c.DataAtom {
		case atom.B, atom.Strong, atom.A, atom.Summary, atom.H2, atom.H3, atom.H4:
			return words(c)
		case atom.P, atom.Span, atom.Div:
			return lead(c)
		}
	}
	return ""
}

// term is the dt of a dd.
func term(n *html.Node) string {
	for c := n.PrevSibling; c != nil; c = c.PrevSibling {
		if c.DataAtom == atom.Dt {
			return words(c)
		}
	}
	return ""
}

// before is the text that leads up to a figure, from the one before it or the start of
// its paragraph.
func before(n *html.Node) string {
	s := ""
	for c := n.PrevSibling; c != nil && c.DataAtom != atom.Data; c = c.PrevSibling {
		if c.Type == html.TextNode {
			s = c.Data + s
		} else if c.Type == html.ElementNode {
			s = words(c) + s
		}
	}
	s = strings.Trim(strings.Join(strings.Fields(s), " "), " ,;:()–/")
	if i := strings.LastIndexAny(s, ".;,("); i >= 0 {
		s = strings.TrimSpace(s[i+1:])
	}
	return short(s)
}

// after is the text that follows a figure, up to the next sign.
func after(n *html.Node) string {
	c := n.NextSibling
	if c == nil || c.Type != html.TextNode {
		return ""
	}
	s := strings.Join(strings.Fields(c.Data), " ")
	if i := strings.IndexAny(s, ".,;:("); i >= 0 {
		s = s[:i]
	}
	return short(s)
}

const longestName = 60 // characters

func short(s string) string {
	if r := []rune(s); len(r) > longestName {
		return "…" + string(r[len(r)-longestName:])
	}
	return s
}

// words is the text of an element, without the figures in it and without elements of a kind.
func words(n *html.Node, without ...atom.Atom) string {
	var b strings.Builder
	var walk func(*html.Node)
	walk = func(n *html.Node) {
		if n.Type == html.TextNode {
			b.WriteString(n.Data)
		}
		if n.DataAtom == atom.Data || n.Type == html.ElementNode && slices.Contains(without, n.DataAtom) {
			return
		}
		if n.Type == html.ElementNode && n.DataAtom != atom.B && n.DataAtom != atom.I && n.DataAtom != atom.A {
			b.WriteByte(' ')
		}
		for c := n.FirstChild; c != nil; c = c.NextSibling {
			walk(c)
		}
	}
	walk(n)
	return short(strings.Join(strings.Fields(b.String()), " "))
}

func attribute(n *html.Node, key string) string {
	for _, a := range n.Attr {
		if a.Key == key {
			return a.Val
		}
	}
	return ""
}
