package page

// The booklet: the whole guide, or what it says of one water, made for A5 paper. Its page count
// has to be a multiple of four, which no page can know of itself: a browser breaks pages by its
// own fonts. Whoever prints it by guidegen gets it exactly, since the pages are counted there and
// ruled pages for notes added (build/press); whoever prints it from a browser is told how many
// blank pages to allow for.

import (
	"html/template"
	"slices"
	"strings"

	"guidegen/build/chart"
	"guidegen/build/figures"
	"guidegen/content"
	"guidegen/content/calendar"
)

// BookletPage is the booklet.
type BookletPage struct {
	Frame
	Name      string // of the guide, or of the water
	About     string
	Contact   string
	Web       AddressView
	Others    []Link // other booklets, for the screen
	Cautions  []CautionView
	Signs     []SignView
	Bar       template.HTML
	Waters    []BookletWater
	Flies     []BookletFly
	Dressings []BookletDressing
	Sources   []SourceView
	Roles     []RoleView
	Ruled     []struct{} // lines of a page for notes
}

// BookletWater is one water.
type BookletWater struct {
	ID       string
	Name     string
	Lead     string
	About    string
	Facts    []Fact
	Seasons  []PaperSeason
	Hazards  []string
	Rules    string
	Access   string
	Code     string
	Meet     string
	At       string // the meeting place's coordinates
	Strips   StripsView
	Months   []string
	Chances  []ChanceRow
	Models   []string
	Rows     []PaperRow
	Ties     []PaperRow
	Sun      []SunRow
	Zone     string
	Key      KeyModel
	Known    KnownView
	Right    RightView
	Years    string
	Unlisted bool

	KnownYears []KnownYear
}

// KnownYear is a year's visits, half-month by half-month; unknown where nobody went. On a page of A5
// the years stand below each other, since there are fewer of them than of half-months.
type KnownYear struct {
	Year   string
	Visits []content.Figure
}

// ChanceRow is a fly's twelve months.
type ChanceRow struct {
	Fly      string
	LandBred bool
	Months   []MonthView
}

// BookletFly is one fly.
type BookletFly struct {
	ID         string
	Name       string
	Scientific string
	Group      string
	Also       string
	LandBred   bool
	Outlines   []OutlineView
	Waters     []BookletFlyWater
	Compared   *CompareView
	Alike      *AlikesView
	Account    Prose
}

// BookletFlyWater is where a fly flies, a line for each flight.
type BookletFlyWater struct {
	Water   string
	Flights []FlightView
	Counted string
}

// BookletDressing is a recipe.
type BookletDressing struct {
	ID     string
	Name   string
	From   string
	Fishes string
	For    string
	Sizes  string
	Parts  []DressPart
	Notes  string
	Basis  Basis
}

func waterBooklet(w *figures.Water) string { return "booklet/" + w.Address + ".html" }

// ruledLines are the lines for notes, which go on below the last matter where they have room; a
// whole page of them is made up where pages are counted (build/press).
const ruledLines = 14

func (p *Printer) booklet(at string, waters []*figures.Water) (BookletPage, error) {
	words, s := p.words, p.settings()
	one := at != WholeBooklet
	name := s.Name
	if name == "" {
		name = words.Plain("front.title")
	}
	title := words.Plain("booklet.title", "name", name)
	if one {
		title = words.Plain("booklet.of", "water", waters[0].Name.S)
	}
	m := BookletPage{Frame: p.paperFrame("booklet", at, title), Name: name, About: s.About, Contact: s.Contact, Signs: p.signs(),
		Bar: chart.ScaleBar(50, words.Plain("paper.bar")), Ruled: make([]struct{}, ruledLines), Cautions: p.cautions().Items}
	m.Description = title
	m.Web = p.webAddress(FrontPage)
	if one {
		m.Name = waters[0].Name.S
		m.Web = p.webAddress(waterPage(waters[0]))
		m.Way = []Link{p.waterLink(at, waters[0])}
		m.Others = append(m.Others, p.link(at, WholeBooklet, words.Plain("booklet.whole")), p.link(at, pocketPage(waters[0]), words.Plain("pocket.title", "water", waters[0].Name.S)))
	} else {
		for _, w := range p.book.Waters {
			m.Others = append(m.Others, p.link(at, waterBooklet(w), words.Plain("booklet.of", "water", w.Name.S)))
		}
	}
	for _, r := range s.Roles {
		m.Roles = append(m.Roles, RoleView{words.Or("role", r.Name), r.Who, words.date(r.Until)})
	}
	on := map[*figures.Fly][]*figures.Row{}
	used := map[string]bool{}
	for i, w := range waters {
		m.Waters = append(m.Waters, p.bookletWater(at, i, w))
		for _, r := range w.Rows {
			on[r.Fly] = append(on[r.Fly], r)
			for _, d := range r.Dressings {
				for _, o := range d.Advice.Offered {
					used[o.Name] = true
				}
				for _, o := range d.Advice.NotScored {
					used[o.Name] = true
				}
			}
		}
	}
	cited := map[string]bool{}
	for i, f := range p.book.Flies {
		if one && on[f] == nil {
			continue
		}
		m.Flies = append(m.Flies, p.bookletFly(at, i, f, on[f]))
		for _, src := range p.sourcesOf(at, f) {
			cited[src.ID] = true
		}
	}
	for i, d := range p.book.Dressings {
		if !one || used[d.Name.S] || used[d.Address] {
			m.Dressings = append(m.Dressings, p.bookletDressing(at, i, d))
		}
	}
	for _, src := range p.sourcesModel().Sources {
		if !one || cited[src.ID] {
			m.Sources = append(m.Sources, src)
		}
	}
	return m, nil
}

func (p *Printer) bookletWater(at string, i int, w *figures.Water) BookletWater {
	v := BookletWater{ID: flyID("w", i), Name: w.Name.S, Lead: p.kindAndAltitude(w), About: w.About.S, Facts: p.facts(w), Seasons: p.paperSeasons(w),
		Rules: w.Rules.S, Access: w.Access.S, Code: w.Code.S, Meet: w.Meet.S, At: meetAt(w), Strips: p.strips(w), Zone: w.ZoneName,
		Key: p.waterKey(w), Known: p.known(at, w), Right: p.rightness(w), Years: p.words.years(w.Years)}
	for _, h := range w.Hazards {
		v.Hazards = append(v.Hazards, h.S)
	}
	for i, year := range v.Known.Years {
		y := KnownYear{Year: year}
		for _, cell := range v.Known.Cells {
			y.Visits = append(y.Visits, cell.Visits[i])
		}
		v.KnownYears = append(v.KnownYears, y)
	}
	for k := 1; k <= 12; k++ {
		v.Months = append(v.Months, p.words.shortMonth(k))
	}
	for _, r := range w.Rows {
		v.Strips.Years = append(v.Strips.Years, p.strip(r))
		v.Chances = append(v.Chances, ChanceRow{r.Fly.Name.S, !r.Fly.Group.WaterBred(), p.months(r)})
		v.Unlisted = v.Unlisted || !r.Listed
		v.Rows, v.Ties = append(v.Rows, p.stageRows(r)...), append(v.Ties, p.tieRows(r)...)
	}
	suns := map[calendar.Sun]bool{}
	for _, row := range v.Rows {
		for _, s := range row.suns {
			suns[s] = true
		}
	}
	v.Sun = p.sunRowsOf(w, suns)
	v.Models = models(v.Rows)
	inModels(v.Rows, v.Models)
	return v
}

func (p *Printer) bookletFly(at string, i int, f *figures.Fly, rows []*figures.Row) BookletFly {
	w := p.words
	id := flyID("f", i)
	v := BookletFly{ID: id, Name: f.Name.S, Scientific: f.Scientific.Name.S, Group: w.Or("group", string(f.Group)), LandBred: !f.Group.WaterBred(),
		Compared: p.compared(at, f.Compared), Alike: p.fewAlike(at, f.Alike, f.MoreAlike)}
	var also []string
	for _, a := range f.Also {
		also = append(also, a.S)
	}
	v.Also = strings.Join(also, w.Plain("list.comma"))
	for _, s := range toOutline(f, f.Sizes) {
		if o, ok := p.outline(at, f, s); ok {
			v.Outlines = append(v.Outlines, o)
		}
	}
	for _, r := range rows {
		v.Waters = append(v.Waters, BookletFlyWater{r.Water.Name.S, p.flights(at, r), p.foundOn(r.FoundOn, r.Looked, r.Years)})
	}
	v.Account, _ = p.prose(at, f.Body, 4, id+"-t") // the fly's own page tells the editor of its problems
	return v
}

func (p *Printer) bookletDressing(at string, i int, d *figures.Dressing) BookletDressing {
	v := BookletDressing{ID: flyID("d", i), Name: d.Name.S, From: d.From.S, Fishes: p.fishes(d), Sizes: p.dressingSizes(d),
		Parts: p.recipe(d), Notes: d.Notes.S, Basis: p.basis(at, d.Basis)}
	var who []string
	for _, s := range d.Dressing.For {
		var names []string
		for _, f := range s.Flies {
			names = append(names, f.S)
		}
		for _, g := range s.Groups {
			names = append(names, p.words.Or("groups_of", string(g)))
		}
		var stages []string
		for _, st := range s.Stages {
			stages = append(stages, p.caseOf(st, s.Sex, ""))
		}
		text := p.words.List(names)
		if len(stages) > 0 {
			text += " (" + p.words.List(stages) + ")"
		}
		who = append(who, text)
	}
	v.For = strings.Join(slices.Compact(who), p.words.Plain("list.semicolon"))
	return v
}

func (p *Printer) bookletSheet(at string, waters []*figures.Water) Sheet {
	return Sheet{at, func() (Drawn, error) {
		m, err := p.booklet(at, waters)
		if err != nil {
			return Drawn{}, err
		}
		html, err := p.draw("booklet", m)
		return Drawn{HTML: html}, err
	}, func() (any, error) { return p.booklet(at, waters) }}
}

// paperSheets lists the pages made for paper: a card and a booklet for each water, and the booklet of the guide.
func (p *Printer) paperSheets() []Sheet {
	out := []Sheet{p.bookletSheet(WholeBooklet, p.book.Waters)}
	for _, w := range p.book.Waters {
		out = append(out, p.bookletSheet(waterBooklet(w), []*figures.Water{w}), p.pocketSheet(w))
	}
	return out
}

// ForPrint is a page made for paper and where its PDF goes.
type ForPrint struct {
	Page, PDF string
	Booklet   bool // its pages are made up to a multiple of four
}

// ToPrint lists the pages made for paper.
func ToPrint(book *figures.Book) []ForPrint {
	out := []ForPrint{{WholeBooklet, "print/booklet.pdf", true}}
	for _, w := range book.Waters {
		out = append(out, ForPrint{waterBooklet(w), "print/booklet-" + w.Address + ".pdf", true}, ForPrint{pocketPage(w), "print/card-" + w.Address + ".pdf", false})
	}
	return out
}

// IsAsset reports whether an address is that of a style or script.
func IsAsset(address string) bool { return strings.HasPrefix(address, Assets) }

// paperLinks lead to a water's pages made for paper, or with no water to the guide's, and to their
// PDFs where those were made.
func (p *Printer) paperLinks(at string, w *figures.Water) []Link {
	words := p.words
	var out []Link
	add := func(page, text string) {
		out = append(out, p.link(at, page, text))
		if p.deps.PDF == nil {
			return
		}
		if pdf := p.deps.PDF(page); pdf != "" {
			out = append(out, p.link(at, pdf, words.Plain("paper.pdf", "what", text)))
		}
	}
	if w == nil {
		add(WholeBooklet, words.Plain("booklet.whole"))
		return out
	}
	add(pocketPage(w), words.Plain("pocket.title", "water", w.Name.S))
	add(waterBooklet(w), words.Plain("booklet.of", "water", w.Name.S))
	return out
}
