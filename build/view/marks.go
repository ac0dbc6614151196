package view

// How pages print what models hold: words, figures with what they rest on, dates, links.

import (
	"fmt"
	"html/template"
	"strconv"
	"strings"

	"guidegen/build/chart"
	"guidegen/build/lang"
	"guidegen/content"
)

// funcs are what templates may call: words, and the partials that print figures and dates.
func (p *Printer) funcs() template.FuncMap {
	return template.FuncMap{
		"w":          p.html,
		"lengthunit": func() string { return p.Length(0, 0, content.Basis{}).Unit() }, // heads a column of lengths
		"figure":     p.figure, "number": p.number, "plain": p.plain, "date": dateMark, "link": p.linkMark,
		"has":  p.words.Has,
		"word": p.words.Or,
		// Words for the page's scripts.
		"words":     p.WordBlock,
		"next":      func(i int) int { return i + 1 },
		"chartdefs": func() template.HTML { return chart.Defs },
		"months": func() string {
			var names []string
			for m := 1; m <= 12; m++ {
				names = append(names, p.words.Month(m))
			}
			return strings.Join(names, "|")
		},
		// A pattern with its holes, for a script to fill in.
		"pattern": func(key string) (string, error) {
			w, err := p.words.PatternOf(key, nil)
			return w.Text, err
		},
	}
}

// html prints a word with its arguments marked up, each in its way.
func (p *Printer) html(key string, pairs ...any) (template.HTML, error) {
	s, err := p.words.Fill(key, pairs, lang.Escape, func(a any) (string, error) {
		switch v := a.(type) {
		case string:
			return lang.Escape(v), nil
		case template.HTML:
			return string(v), nil
		case content.Figure:
			return string(p.figure(v)), nil
		case lang.Date:
			return string(dateMark(v)), nil
		case lang.Link:
			link, err := p.linkMark(v)
			return string(link), err
		}
		return "", fmt.Errorf("%T can't be printed", a)
	})
	return template.HTML(s), err
}

// exact is a figure's value to two decimals more than are printed; the data files have it in full.
// Each figure marked up on a page passes here once.
func exact(f content.Figure) string {
	_, frac, _ := strings.Cut(f.Number(), ".")
	s := strconv.FormatFloat(content.Round9(f.Value()), 'f', len(frac)+2, 64)
	return strings.TrimSuffix(strings.TrimRight(s, "0"), ".")
}

// Figures, dates and links stand on a page by the thousand. They are written here, where a template takes many
// times as long; what they escape is what html/template does.

var escaper = strings.NewReplacer("\x00", "\uFFFD", `"`, "&#34;", "&", "&amp;", "'", "&#39;", "+", "&#43;", "<", "&lt;", ">", "&gt;")

// figure is a figure with its unit, number the figure alone, plain the number without marks.
func (p *Printer) figure(f content.Figure) template.HTML { return p.data(f, p.words.Amount(f)) }

func (p *Printer) number(f content.Figure) template.HTML {
	return p.data(f, p.words.Number(f.Number()))
}

func (p *Printer) plain(f content.Figure) string { return p.words.Number(f.Number()) }

func (p *Printer) data(f content.Figure, text string) template.HTML {
	return template.HTML(`<data value="` + escaper.Replace(exact(f)) + `" data-basis="` + escaper.Replace(strings.ReplaceAll(f.Basis().Key(), " + ", ", ")) + `">` +
		escaper.Replace(text) + `</data>`)
}

func dateMark(d lang.Date) template.HTML {
	return template.HTML(`<time datetime="` + escaper.Replace(d.Machine) + `">` + escaper.Replace(d.Text) + `</time>`)
}

// linkMark is a link, or its text alone. An address that holds more than plain signs is left to a template, which
// knows what is safe.
func (p *Printer) linkMark(l lang.Link) (template.HTML, error) {
	switch {
	case l.Href == "":
		return template.HTML(escaper.Replace(l.Text)), nil
	case plainAddress(l.Href):
		return template.HTML(`<a href="` + l.Href + `">` + escaper.Replace(l.Text) + `</a>`), nil
	}
	var b strings.Builder
	err := p.marks.ExecuteTemplate(&b, "link", l)
	return template.HTML(b.String()), err
}

func plainAddress(s string) bool {
	for i := range len(s) {
		switch c := s[i]; {
		case 'a' <= c|0x20 && c|0x20 <= 'z', '-' <= c && c <= '9', c == '_', c == '#': // - . / and digits
		default:
			return false
		}
	}
	return true
}
