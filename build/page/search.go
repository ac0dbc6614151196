package page

// Search: one page for every name, word and place of the guide. The index is a script of its own
// (no page from disk may fetch), loaded by this page alone; without scripts a list from A to Z stands.

import (
	"cmp"
	"encoding/json"
	"html/template"
	"slices"
	"strings"

	"golang.org/x/text/language"
	"golang.org/x/text/language/display"

	"guidegen/build/figures"
	"guidegen/build/lang"
	"guidegen/build/view"
	"guidegen/content"
	"guidegen/content/calendar"
	"guidegen/species"
	"guidegen/species/hook"
)

// SearchModel is the page.
type SearchModel struct {
	view.Frame
	Letters []SearchLetter
	Words   template.HTML
}

// SearchLetter is the names under one letter.
type SearchLetter struct {
	ID, Letter string
	Names      []SearchName
}

// SearchName is one name and what bears it.
type SearchName struct {
	Name string
	Of   []SearchTarget
}

// SearchTarget is what bears a name: Link's text is its own name, What the kind of name or of thing.
type SearchTarget struct {
	Link lang.Link
	What string
}

// found is one thing that can be found.
type found struct {
	kind   int // 0 fly, 1 water, 2 dressing, 3 term, 4 page
	name   string
	to     string
	others []figures.NameEntry
	about  []string
}

var foundKinds = []string{"fly", "water", "dressing", "term", "page"}

func (p *Printer) search() SearchModel {
	w := p.words
	m := SearchModel{Frame: p.Frame("search", view.SearchPage, w.Plain("search.title"), view.ToolStyle, "minisearch.js", "kit.js", "search-index.js", "search.js"),
		Words: p.WordBlock("search")}
	m.Description = w.Plain("search.about")
	byName := map[string]*SearchName{}
	var names []string
	add := func(name string, t SearchTarget) {
		if byName[name] == nil {
			byName[name] = &SearchName{Name: name}
			names = append(names, name)
		}
		if n := byName[name]; !slices.ContainsFunc(n.Of, func(o SearchTarget) bool { return o.Link == t.Link }) {
			n.Of = append(n.Of, t)
		}
	}
	for _, f := range p.findable() {
		to := p.Link(view.SearchPage, f.to, f.name)
		add(f.name, SearchTarget{to, w.Plain("search.kind." + foundKinds[f.kind])})
		for _, o := range f.others {
			add(o.Name, SearchTarget{to, p.nameKind(o)})
		}
	}
	alphabet := p.Settings().Alphabet
	slices.SortFunc(names, alphabet.Compare)
	for _, n := range names {
		letter := alphabet.Initial(n)
		if k := len(m.Letters) - 1; k < 0 || m.Letters[k].Letter != letter {
			m.Letters = append(m.Letters, SearchLetter{ID: view.FlyID("az", len(m.Letters)), Letter: letter})
		}
		l := &m.Letters[len(m.Letters)-1]
		l.Names = append(l.Names, *byName[n])
	}
	return m
}

// nameKind words what kind of name a fly bears, or which stage of it does; a language's names go under its own name or
// tag.
func (p *Printer) nameKind(n figures.NameEntry) string {
	if n.Of.Stage != species.NoStage {
		return p.CaseOf(n.Of.Stage, n.Of.Sex, "")
	}
	kind := n.Kind
	if p.words.Has("search.name." + kind) {
		return p.words.Plain("search.name." + kind)
	}
	name := kind
	if in := display.Languages(p.words.Tag); in != nil { // nil where the library has no names in the guide's language
		name = cmp.Or(in.Name(language.Make(kind)), kind)
	}
	return p.words.Plain("search.name_in", "language", name)
}

// findable lists everything in page order.
func (p *Printer) findable() []found {
	w := p.words
	var out []found
	others := map[*figures.Fly][]figures.NameEntry{}
	for _, n := range p.book.Alphabet {
		if n.Name != n.Fly.Name.S {
			others[n.Fly] = append(others[n.Fly], n)
		}
	}
	rows := 0
	for _, f := range p.book.Flies {
		rows += len(f.Rows)
	}
	for _, f := range p.book.Flies {
		out = append(out, found{0, f.Name.S, view.FlyPage(f), others[f], p.foundFly(f, rows <= mostFoundRows)})
	}
	for _, x := range p.book.Waters {
		out = append(out, found{1, x.Name.S, view.WaterPage(x), nil, []string{p.KindAndAltitude(x)}})
	}
	for _, d := range p.book.Dressings {
		f := found{kind: 2, name: d.Name.S, to: view.DressingPage(d), about: view.Kept(strings.Join(view.Kept(p.Fishes(d), p.DressingSizes(d)), w.Plain("list.semicolon")))}
		for _, a := range d.Also {
			f.others = append(f.others, figures.NameEntry{Name: a.S, Kind: "also"})
		}
		out = append(out, f)
	}
	g := p.glossary()
	for _, c := range g.Characters {
		out = append(out, found{3, c.Name, view.GlossaryPage + "#" + c.ID, nil, view.Kept(c.About)})
	}
	for _, t := range g.Terms {
		out = append(out, found{3, t.Term, view.GlossaryPage + "#" + t.ID, nil, view.Kept(t.Text)})
	}
	for _, n := range p.Notes() {
		out = append(out, found{4, n.Title, view.NotePage(n.Address), nil, nil})
	}
	return out
}

// mostFoundRows is the most rows (fly on water) whose moved dates the index holds; a larger guide's
// index holds the accounts' dates alone, so that a phone needn't load a megabyte.
const mostFoundRows = 600

// foundFly tells flies of one name apart: scientific name, and for each flight its dates on each
// water (or the account's, for the reference conditions) and its sizes.
func (p *Printer) foundFly(f *figures.Fly, moved bool) []string {
	w := p.words
	out := view.Kept(strings.Join(view.Kept(f.Group.Order(), f.Scientific.Name.S), w.Plain("list.comma")))
	if len(f.Account.Flights) == 0 {
		return append(out, view.Kept(p.foundSize(f, ""))...)
	}
	for _, fl := range f.Account.Flights {
		var dates []string
		for _, r := range f.Rows {
			for _, h := range r.Flights {
				if moved && h.Name == fl.Name && h.From.Valid() && h.To.Valid() {
					dates = append(dates, w.Plain("search.on_water", "water", r.Water.Name.S, "dates", p.shortSpan(h.From, h.To)))
				}
			}
		}
		if len(dates) == 0 && fl.From.Valid() && fl.To.Valid() {
			dates = append(dates, w.Plain("search.by_account", "dates", p.shortSpan(fl.From, fl.To)))
		}
		line := strings.Join(view.Kept(strings.Join(dates, w.Plain("list.comma")), p.foundSize(f, fl.Name)), w.Plain("list.semicolon"))
		if line != "" && len(f.Account.Flights) > 1 && fl.Name != "" {
			line = w.Plain("search.flight", "flight", fl.Name, "text", line)
		}
		out = append(out, view.Kept(line)...)
	}
	return out
}

func (p *Printer) shortSpan(from, to calendar.Day) string {
	short := func(d calendar.Day) string {
		return p.words.Plain("date.day", "day", p.words.DayOfMonth(d.DayOfMonth()), "month", p.words.ShortMonth(int(d.Month())))
	}
	if calendar.Fwd(from, to) >= 364 {
		return p.words.Plain("search.all_year")
	}
	return p.words.Plain("range", "low", short(from), "high", short(to))
}

// foundSize gives the lengths and hooks of the stages on the wing in one flight, sexes together from
// the smallest to the largest.
func (p *Printer) foundSize(f *figures.Fly, flight string) string {
	w := p.words
	var out []string
	for _, st := range f.Group.Stages() {
		var low, high float64
		var sizes []string
		for _, s := range f.Sizes {
			if s.Stage != st || !st.OnTheWing() || s.Flight != flight && s.Flight != "" || s.Hook.Length <= 0 {
				continue
			}
			if low == 0 || s.Hook.Length < low {
				low = s.Hook.Length
			}
			high = max(high, s.Hook.Length)
			for _, h := range s.Hook.Hooks {
				if h.Beyond == hook.Within { // one model is enough to tell two flies apart
					if text := w.Plain("sizes.hook", "size", h.Size.String(), "model", h.Model); !slices.Contains(sizes, text) {
						sizes = append(sizes, text)
					}
					break
				}
			}
		}
		if low == 0 {
			continue
		}
		text := p.RangeText(p.Lengths(low, high, 1, content.Basis{}))
		if len(sizes) > 0 {
			text = w.Plain("search.size", "length", text, "hook", strings.Join(sizes, w.Plain("list.comma")))
		}
		out = append(out, w.Plain("search.stage", "stage", p.CaseOf(st, species.NoSex, ""), "text", text))
	}
	return strings.Join(out, w.Plain("list.comma"))
}

// searchIndex is the script that hands the index over: for each thing its kind, name, address,
// other names and what tells it from others.
func (p *Printer) searchIndex() []byte {
	list := [][]any{}
	for _, f := range p.findable() {
		others := [][2]string{}
		for _, o := range f.others {
			if next := [2]string{o.Name, p.nameKind(o)}; !slices.Contains(others, next) {
				others = append(others, next)
			}
		}
		list = append(list, []any{f.kind, f.name, p.Deps.Site.Link(view.SearchPage, f.to), others, append([]string{}, f.about...)})
	}
	text, err := json.Marshal(list)
	if err != nil {
		panic(err) // texts only
	}
	return slices.Concat([]byte("window.guideSearchIndex="), text, []byte(";\n"))
}
