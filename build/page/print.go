package page

// How pages print what models hold: words, figures with what they rest on, dates, links.

import (
	"fmt"
	"html/template"
	"strconv"
	"strings"
	"time"

	"guidegen/build/chart"
	"guidegen/content"
	"guidegen/content/calendar"
)

// Link is a link ready to print; without an Href its text stands alone.
type Link struct{ Text, Href string }

// Date is a day ready to print: "21 March" and "03-21", or with its year.
type Date struct{ Text, Machine string }

// month returns a month's name; short is the form for narrow columns.
func (w *Words) month(m int) string      { return w.Plain("month.m" + strconv.Itoa(m)) }
func (w *Words) shortMonth(m int) string { return w.Plain("month.s" + strconv.Itoa(m)) }

// dayOfMonth is a day's number within a date; the first is an ordinal in some languages.
func (w *Words) dayOfMonth(n int) string {
	if n == 1 {
		return w.Plain("date.first")
	}
	return strconv.Itoa(n)
}

func (w *Words) day(d calendar.Day) Date {
	if !d.Valid() {
		return Date{}
	}
	m, n := int(d.Month()), d.DayOfMonth()
	return Date{w.Plain("date.day", "day", w.dayOfMonth(n), "month", w.month(m)), fmt.Sprintf("%02d-%02d", m, n)}
}

func (w *Words) date(d calendar.Date) Date {
	if d.IsZero() {
		return Date{}
	}
	return Date{w.Plain("date.full", "day", w.dayOfMonth(d.Day), "month", w.month(int(d.Month)), "year", strconv.Itoa(d.Year)), d.String()}
}

// Day is a day of any year in plain text, "" where there is none.
func (w *Words) Day(d calendar.Day) string { return w.day(d).Text }

// Date is a day of one year in plain text, "" where there is none.
func (w *Words) Date(d calendar.Date) string { return w.date(d).Text }

// when prints a date that may be vague.
func (w *Words) when(d calendar.When) string {
	switch {
	case d.IsZero():
		return ""
	case d.Exact():
		return w.date(d.From).Text
	case d.From.Day == 1 && d.To.AddDays(1).Day == 1 && d.From.Year == d.To.Year:
		if d.From.Month == d.To.Month {
			return w.Plain("date.month", "month", w.month(int(d.From.Month)), "year", strconv.Itoa(d.From.Year))
		}
		if d.From.Month == time.January && d.To.Month == time.December {
			return strconv.Itoa(d.From.Year)
		}
	}
	return w.Plain("date.range", "from", w.date(d.From).Text, "to", w.date(d.To).Text)
}

// Cell names a half-month; the second half of February ends on the 29th, which counts with the 28th.
func (w *Words) Cell(c calendar.Cell) string {
	to := c.Last().DayOfMonth()
	if c.Last() == calendar.LastOf(time.February) {
		to = 29
	}
	return w.Plain("date.cell", "from", w.dayOfMonth(c.First().DayOfMonth()), "to", strconv.Itoa(to), "month", w.month(int(c.Month())))
}

func (w *Words) years(ys []int) string {
	var s []string
	for i := 0; i < len(ys); i++ {
		j := i
		for j+1 < len(ys) && ys[j+1] == ys[j]+1 {
			j++
		}
		switch {
		case j > i+1:
			s = append(s, strconv.Itoa(ys[i])+"–"+strconv.Itoa(ys[j]))
			i = j
		default:
			s = append(s, strconv.Itoa(ys[i]))
		}
	}
	return strings.Join(s, ", ")
}

// seasons prints seasons as figures name them, whole years in runs.
func (w *Words) seasons(names []string) string {
	var years []int
	for _, n := range names {
		y, err := strconv.Atoi(n)
		if err != nil {
			return strings.Join(names, w.Plain("list.comma"))
		}
		years = append(years, y)
	}
	return w.years(years)
}

// List joins words as a sentence does: "a, b and c".
func (w *Words) List(items []string) string {
	switch len(items) {
	case 0:
		return ""
	case 1:
		return items[0]
	}
	n := len(items) - 1
	return w.Plain("list.and", "first", strings.Join(items[:n], w.Plain("list.comma")), "last", items[n])
}

// funcs are what templates may call: words, and the partials that print figures and dates.
func (p *Printer) funcs() template.FuncMap {
	return template.FuncMap{
		"w":          p.html,
		"lengthunit": func() string { return p.length(0, 0, content.Basis{}).Unit() }, // heads a column of lengths
		"figure":     p.figure, "number": p.number, "plain": p.plain, "date": dateMark, "link": p.linkMark,
		"has":  p.words.Has,
		"word": p.words.Or,
		// Words for the page's scripts.
		"words": p.wordBlock,
		"next":  func(i int) int { return i + 1 },
		// The columns of the table of sizes: stage, mm, n, a hook of each model, book.
		"columns":   func(models []string) int { return len(models) + 4 },
		"chartdefs": func() template.HTML { return chart.Defs },
		"months": func() string {
			var names []string
			for m := 1; m <= 12; m++ {
				names = append(names, p.words.month(m))
			}
			return strings.Join(names, "|")
		},
		// A pattern with its holes, for a script to fill in.
		"pattern": func(key string) (string, error) {
			w, err := p.words.pattern(key, nil)
			return w.text, err
		},
	}
}

// html prints a word with its arguments marked up, each in its way.
func (p *Printer) html(key string, pairs ...any) (template.HTML, error) {
	s, err := p.words.fill(key, pairs, escape, func(a any) (string, error) {
		switch v := a.(type) {
		case string:
			return escape(v), nil
		case template.HTML:
			return string(v), nil
		case content.Figure:
			return string(p.figure(v)), nil
		case Date:
			return string(dateMark(v)), nil
		case Link:
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
	return p.data(f, p.words.decimal(f.Number()))
}

func (p *Printer) plain(f content.Figure) string { return p.words.decimal(f.Number()) }

func (p *Printer) data(f content.Figure, text string) template.HTML {
	return template.HTML(`<data value="` + escaper.Replace(exact(f)) + `" data-basis="` + escaper.Replace(f.Basis().Key()) + `">` +
		escaper.Replace(text) + `</data>`)
}

func dateMark(d Date) template.HTML {
	return template.HTML(`<time datetime="` + escaper.Replace(d.Machine) + `">` + escaper.Replace(d.Text) + `</time>`)
}

// linkMark is a link, or its text alone. An address that holds more than plain signs is left to a template, which
// knows what is safe.
func (p *Printer) linkMark(l Link) (template.HTML, error) {
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
