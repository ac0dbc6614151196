package paper

// The booklet: the whole guide, or what it says of one water, made for A5 paper. Its page count
// has to be a multiple of four, which no page can know of itself: a browser breaks pages by its
// own fonts. Whoever prints it by guidegen gets it exactly, since the pages are counted there and
// ruled pages for notes added (build/press); whoever prints it from a browser is told how many
// blank pages to allow for.

import (
	"cmp"
	"html/template"
	"slices"
	"strconv"
	"strings"

	"guidegen/build/chart"
	"guidegen/build/figures"
	"guidegen/build/lang"
	"guidegen/build/view"
	"guidegen/content"
)

// BookletPage is the booklet.
type BookletPage struct {
	view.Frame
	Name      string // of the guide, or of the water
	About     string
	Contact   string
	Web       AddressView
	Others    []lang.Link // other booklets, for the screen
	Cautions  []view.CautionView
	Signs     []SignView
	Bar       template.HTML
	Waters    []BookletWater
	Flies     []BookletFly
	Whole     lang.Link // in a water's booklet: the whole guide's, which compares its flies
	Dressings []BookletDressing
	Sources   []view.SourceView
	Roles     []view.RoleView
	Ruled     []struct{} // lines of a page for notes
}

// BookletWater is one water.
type BookletWater struct {
	ID       string
	Name     string
	Lead     string
	Own      lang.Link // in the booklet of the whole guide: the water's own, which has the rest
	About    string
	Facts    []view.Fact
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
	Sun      []view.SunRow
	Zone     string
	Key      view.KeyModel
	Known    view.KnownView
	Right    view.RightView
	Years    string
	Unlisted bool

	KnownYears []KnownYear
	Torn       string // flies without length and hook, and why
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
	Months   []view.MonthView
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
	Compared   *view.CompareView
	Alike      *view.AlikesView
	Account    view.Prose
}

// BookletFlyWater is where a fly flies, a line for each flight.
type BookletFlyWater struct {
	Water   string
	Flights []view.FlightView
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
	Parts  []view.DressPart
	Notes  string
	Basis  view.Basis
}

// ruledLines are the lines for notes, which go on below the last matter where they have room; a
// whole page of them is made up where pages are counted (build/press).
const ruledLines = 14

// bookletPrinter prints the booklet of a water, or with none that of the guide.
type bookletPrinter struct {
	printer
	at    string
	water *figures.Water
}

// waters are those that the booklet is about.
func (p bookletPrinter) waters() []*figures.Water {
	if p.water != nil {
		return []*figures.Water{p.water}
	}
	return p.book.Waters
}

func (p bookletPrinter) page() BookletPage {
	m := p.cover()
	on := map[*figures.Fly][]*figures.Row{}
	used := map[string]bool{}
	for i, w := range p.waters() {
		m.Waters = append(m.Waters, p.waterPart(i, w))
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
	whole, cited := p.water == nil, map[string]bool{}
	for i, f := range p.book.Flies {
		if whole || on[f] != nil {
			m.Flies = append(m.Flies, p.flyPart(i, f, on[f]))
			for _, src := range p.SourcesOf(p.at, f) {
				cited[src.ID] = true
			}
		}
	}
	for i, d := range p.book.Dressings {
		if whole || used[d.Name.S] || used[d.Address] {
			m.Dressings = append(m.Dressings, p.dressingPart(i, d))
		}
	}
	for _, src := range p.SourcesModel().Sources {
		if whole || cited[src.ID] {
			m.Sources = append(m.Sources, src)
		}
	}
	return m
}

// cover is the booklet without its waters, flies and dressings.
func (p bookletPrinter) cover() BookletPage {
	words, s, at := p.words, p.Settings(), p.at
	name, about := cmp.Or(s.Name, words.Plain("front.title")), view.FrontPage
	title := words.Plain("booklet.title", "name", name)
	var others []lang.Link
	if p.water == nil {
		for _, w := range p.book.Waters {
			others = append(others, p.Link(at, view.WaterBooklet(w), words.Plain("booklet.of", "water", w.Name.S)))
		}
	} else {
		name, about = p.water.Name.S, view.WaterPage(p.water)
		title = words.Plain("booklet.of", "water", name)
		others = append(others, p.Link(at, view.WholeBooklet, words.Plain("booklet.whole")), p.Link(at, view.PocketPage(p.water), words.Plain("pocket.title", "water", name)))
	}
	m := BookletPage{Frame: p.paperFrame("booklet", at, title), Name: name, About: s.About, Contact: s.Contact, Web: p.webAddress(about), Others: others,
		Signs: p.signs(), Bar: chart.ScaleBar(50, words.Plain("paper.bar")), Ruled: make([]struct{}, ruledLines), Cautions: p.Cautions().Items, Roles: p.Roles()}
	m.Description = title
	if p.water != nil {
		m.Way, m.Whole = []lang.Link{p.WaterLink(at, p.water)}, others[0]
	}
	return m
}

// waterPart is all of a water in its own booklet, else what comes before fishing, and where the rest is.
func (p bookletPrinter) waterPart(i int, w *figures.Water) BookletWater {
	v := BookletWater{ID: view.FlyID("w", i), Name: w.Name.S, Lead: p.KindAndAltitude(w), About: w.About.S, Facts: p.Facts(w), Seasons: p.paperSeasons(w),
		Rules: w.Rules.S, Access: w.Access.S, Code: w.Code.S, Meet: w.Meet.S, At: view.MeetAt(w)}
	for _, h := range w.Hazards {
		v.Hazards = append(v.Hazards, h.S)
	}
	if p.water == nil {
		v.Own = p.Link(p.at, view.WaterBooklet(w), p.words.Plain("booklet.of", "water", w.Name.S))
		return v
	}
	v.Strips, v.Zone, v.Years = p.strips(w), w.ZoneName, p.words.Years(w.Years)
	v.Key, v.Known, v.Right = p.WaterKey(w), p.Known(p.at, w), p.Rightness(w)
	b := view.OwnVisits(w.Name.S, w.Visits, len(w.Years))
	for _, year := range w.Years {
		y := KnownYear{Year: strconv.Itoa(year)}
		for _, cell := range w.Coverage.Cells {
			var n content.Figure // unknown where nobody went
			if cell[year] > 0 {
				n = view.Count(cell[year], b)
			}
			y.Visits = append(y.Visits, n)
		}
		v.KnownYears = append(v.KnownYears, y)
	}
	for k := 1; k <= 12; k++ {
		v.Months = append(v.Months, p.words.ShortMonth(k))
	}
	for _, r := range w.Rows {
		v.Strips.Years = append(v.Strips.Years, p.strip(r))
		v.Chances = append(v.Chances, ChanceRow{r.Fly.Name.S, !r.Fly.Group.WaterBred(), p.Months(r)})
		v.Unlisted = v.Unlisted || !r.Listed
		v.Rows, v.Ties = append(v.Rows, p.stageRows(r)...), append(v.Ties, p.tieRows(r)...)
	}
	v.Sun = p.SunRowsOf(w, sunsOf(v.Rows))
	v.Torn = p.torn(w)
	v.Models = models(v.Rows)
	inModels(v.Rows, v.Models)
	return v
}

// flyPart is a fly: what tells it from its look-alikes, and its dun from its spinner, is the same on every water, in
// the booklet of the guide alone.
func (p bookletPrinter) flyPart(i int, f *figures.Fly, rows []*figures.Row) BookletFly {
	w := p.words
	id := view.FlyID("f", i)
	v := BookletFly{ID: id, Name: f.Name.S, Scientific: f.Scientific.Name.S, Group: w.Or("group", string(f.Group)), LandBred: !f.Group.WaterBred()}
	if p.water == nil {
		v.Compared, v.Alike = p.Compared(p.at, f.Compared), p.FewAlike(p.at, f.Alike, f.MoreAlike)
	}
	v.Also = p.AlsoCalled(f.Account)
	for _, s := range toOutline(f, f.Sizes) {
		if o, ok := p.outline(p.at, f, s); ok {
			v.Outlines = append(v.Outlines, o)
		}
	}
	for _, r := range rows {
		v.Waters = append(v.Waters, BookletFlyWater{r.Water.Name.S, p.Flights(p.at, r), p.FoundOn(r.FoundOn, r.Looked, r.Years)})
	}
	v.Account, _ = p.Prose(p.at, f.Body, 4, id+"-t") // the fly's own page tells the editor of its problems
	return v
}

func (p bookletPrinter) dressingPart(i int, d *figures.Dressing) BookletDressing {
	v := BookletDressing{ID: view.FlyID("d", i), Name: d.Name.S, From: d.From.S, Fishes: p.Fishes(d), Sizes: p.DressingSizes(d),
		Parts: p.Recipe(d), Notes: d.Notes.S, Basis: p.Basis(p.at, d.Basis)}
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
			stages = append(stages, p.CaseOf(st, s.Sex, ""))
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

// ForPrint is a page made for paper and where its PDF goes.
type ForPrint struct {
	Page, PDF string
	Booklet   bool // its pages are made up to a multiple of four
}

// ToPrint lists the pages made for paper.
func ToPrint(book *figures.Book) []ForPrint {
	out := []ForPrint{{view.WholeBooklet, "print/booklet.pdf", true}}
	for _, w := range book.Waters {
		out = append(out, ForPrint{view.WaterBooklet(w), "print/booklet-" + w.Address + ".pdf", true}, ForPrint{view.PocketPage(w), "print/card-" + w.Address + ".pdf", false})
	}
	return out
}
