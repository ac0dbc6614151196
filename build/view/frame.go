package view

// What every page has around its own matter: title, way back, where the reader can go, and the
// footer with dates that never go stale.

import (
	"bytes"
	"crypto/sha256"
	"encoding/base64"
	"html/template"
	"net/url"
	"strings"

	"guidegen/build/guide"
	"guidegen/build/lang"
	"guidegen/build/share"
	"guidegen/content"
	"guidegen/templates"
)

// Frame is the part of a model that all pages share.
type Frame struct {
	Kind        string // names the kind of page for styles and scripts
	Lang        string
	Dir         string // "rtl" where the page is written from right to left
	Title       string // the page's h1
	Tab         string // the title element: page and guide
	Description string
	Address     string
	Guide       string // the guide's name
	Home        string
	Icon        string
	Way         []lang.Link // from the front page to here, without this page
	Nav         []NavLink
	Styles      []string
	Scripts     []string // run once the page is read
	Run         []string // run where they stand in the page, so that it doesn't jump later; set with run
	Library     string   // where charts find their library when a reader looks closer; "" on a page without charts
	RecordsTo   lang.Date
	Built       lang.Date
	Publisher   string
	Licence     string
	Region      string
	Foot        []lang.Link
	Members     bool        // the members' edition
	Print       string      // the site's base address with the page's, spelled out in print; "" if none
	Inline      template.JS // a script in the page itself, where it can't know the way to a file
	InlineHash  string      // its hash for the page's policy: sha256-…
	Root        string      // where the site stands on its host, on the page whose links begin there; else ""
	Alternates  []Alternate
	Item        *Item // what the page is about; nil where it is about nothing in particular
}

// Alternate is what the page says in another form, for programs that follow it.
type Alternate struct{ Href, Type, Title string }

// NavLink is one entry of the head's list; Here marks the part the reader is in.
type NavLink struct {
	lang.Link
	Here bool
}

type footing struct{ recordsTo, built lang.Date }

// Members reports whether the pages are those of the members' edition.
func (p *Printer) Members() bool { return p.book.Edition != nil && p.book.Edition.Members }

func (p *Printer) footing() footing {
	return footing{p.words.DateOf(p.book.RecordsTo), p.words.DateOf(p.book.Built)}
}

// Settings are the guide's; zero without an edition.
func (p *Printer) Settings() guide.Settings {
	if p.book.Edition == nil {
		return guide.Settings{}
	}
	return p.book.Edition.Settings
}

// Link is a link from one page to another; an address the site lacks can't be given.
func (p *Printer) Link(from, to, text string) lang.Link {
	return lang.Link{Text: text, Href: p.Deps.Site.Link(from, to)}
}

// Frame fills in what all pages share. scripts and styles are names of files in assets.
func (p *Printer) Frame(kind, address, title string, scripts ...string) Frame {
	s := p.Settings()
	f := Frame{
		Kind: kind, Lang: p.words.Lang, Dir: p.words.Dir(), Title: title, Tab: title, Address: address, Guide: s.Name,
		Home: p.Deps.Site.Link(address, FrontPage), Icon: p.Deps.Site.Link(address, Assets+"icon.svg"), RecordsTo: p.foot.recordsTo, Built: p.foot.built,
		Publisher: s.Publisher, Licence: s.Licence, Region: s.Region, Members: p.Members(),
	}
	if s.Name != "" && s.Name != title {
		f.Tab = title + " · " + s.Name
	}
	for _, css := range []string{"site.css", "chart.css"} {
		f.Styles = append(f.Styles, p.Deps.Site.Link(address, Assets+css))
	}
	for _, name := range append([]string{"offline.js"}, scripts...) {
		link := p.Deps.Site.Link(address, Assets+name)
		if strings.HasSuffix(name, ".css") {
			f.Styles = append(f.Styles, link)
		} else {
			f.Scripts = append(f.Scripts, link)
		}
	}
	for _, n := range []struct{ word, to, under string }{
		{"nav.waters", FrontPage, "rivers/"}, {"nav.flies", FliesPage, "species/"}, {"nav.year", YearPage, "months/"},
		{"nav.key", KeyPage, "key/"}, {"nav.dressings", DressingsPage, "dressings/"},
		{"nav.search", SearchPage, SearchPage},
	} {
		f.Nav = append(f.Nav, NavLink{p.Link(address, n.to, p.words.Plain(n.word)), address == n.to || strings.HasPrefix(address, n.under)})
	}
	for _, n := range []struct{ word, to string }{
		{"foot.cautions", CautionsPage}, {"foot.explained", ExplainedPage}, {"foot.sources", SourcesPage},
		{"foot.records", RecordsPage}, {"foot.glossary", GlossaryPage}, {"nav.sheet", SheetPage}, {"nav.keep", OfflinePage}, {"foot.changes", ChangesPage}, {"foot.corrections", CorrectionsPage}, {"foot.credits", CreditsPage},
	} {
		f.Foot = append(f.Foot, p.Link(address, n.to, p.words.Plain(n.word)))
	}
	if address == NotFoundPage {
		f.Root = rootOf(s)
		if s.Address == "" {
			f.Inline, f.InlineHash = climb()
		}
	} else if s.Address != "" {
		f.Print = strings.TrimSuffix(s.Address, "/") + "/" + address
	}
	f.Alternates = p.alternates(address)
	f.Item = p.item(kind, address)
	return f
}

// climb is the script that finds the site's top from wherever the page stands, and its hash (CSP Level 3).
func climb() (template.JS, string) {
	text, err := templates.Files.ReadFile("js/climb.js")
	if err != nil {
		panic(err) // embedded
	}
	text = bytes.TrimSpace(squeeze(text)) // as it stands in the page
	sum := sha256.Sum256(text)
	return template.JS(text), "sha256-" + base64.StdEncoding.EncodeToString(sum[:])
}

// alternates are the feed of changes, on pages about the guide as a whole and its records, and a
// water's calendar on its page.
func (p *Printer) alternates(at string) []Alternate {
	kind := map[string]string{}
	switch at {
	case FrontPage, RecordsPage, CorrectionsPage, ChangesPage:
		kind[share.ChangesFeed] = "application/atom+xml"
	}
	if at == PlanPage {
		kind[share.SeasonPlan] = "text/calendar"
	}
	for _, w := range p.book.Waters {
		if at == WaterPage(w) {
			kind[share.Calendar(w)] = "text/calendar"
		}
	}
	var out []Alternate
	for _, d := range p.Deps.Downloads {
		if k := kind[d.Address]; k != "" {
			out = append(out, Alternate{p.Deps.Site.Link(at, d.Address), k, d.What})
		}
	}
	return out
}

// rootOf is the path at which the site stands on its host, "/flies/"; "" where the guide names no address.
func rootOf(s guide.Settings) string {
	if u, err := url.Parse(s.Address); err == nil && u.Host != "" {
		return u.EscapedPath()
	}
	return ""
}

// anywhere is the site as the page for a missing address sees it: a host shows that page at whatever
// address was asked for, so its links begin at the host's root. Where the guide doesn't say where it will stand they
// lead from the site's top, and a script in the page looks for that, since the address of no other script can be known.
type anywhere struct {
	Site
	root string
}

func (s anywhere) Link(from, to string) string {
	if from == NotFoundPage {
		return s.root + s.Site.Link(from, to)
	}
	return s.Site.Link(from, to)
}

// Basis is what a figure or statement rests on, in words.
type Basis struct {
	Key   string
	Items []Ground
}

// Ground is one support: a word for the eye (own, lent, published …) and the sentence.
type Ground struct {
	Kind string
	Text string
	Link lang.Link // to the source; zero where there is none
}

// Basis puts a basis in words for a page.
func (p *Printer) Basis(from string, b content.Basis) Basis {
	out := Basis{Key: b.Key()}
	for _, part := range b.Parts() {
		g := Ground{Kind: strings.ReplaceAll(part.Ground.String(), " ", "-")}
		switch part.Ground {
		case content.OwnRecords:
			g.Text = p.records("basis.own_records", part)
		case content.LentRecords:
			g.Text = p.records("basis.lent_records", part)
			if w := p.waters[part.Water]; w != nil {
				g.Link = p.Link(from, WaterPage(w), p.words.Plain("basis.lender", "water", part.Water, "about", p.KindAndAltitude(w)))
			}
		case content.Published:
			g.Text = p.words.Plain("basis.published", "cite", p.words.Or("source", p.sources[part.Source].cite(part.Source)))
			if _, listed := p.sources[part.Source]; listed {
				g.Link = p.Link(from, SourcesPage+"#"+sourceID(part.Source), part.Source)
			}
		case content.OwnStatement:
			g.Text = p.words.Plain("basis.own")
		case content.Common:
			g.Text = p.words.Plain("basis.common")
		case content.Memory:
			g.Text = p.words.Plain("basis.memory")
		default:
			g.Text = p.words.Plain("basis.assumed")
		}
		out.Items = append(out.Items, g)
	}
	return out
}

// Run gives the addresses of the scripts of Frame.Run.
func (p *Printer) Run(at string, names ...string) (out []string) {
	for _, n := range names {
		out = append(out, p.Deps.Site.Link(at, Assets+n))
	}
	return out
}

func (p *Printer) records(word string, part content.Part) string {
	visits := p.words.Plain("count.visits", "n", content.Count(part.Visits, "", content.On(part)))
	years := p.words.Plain("count.years", "n", content.Count(part.Years, "", content.On(part)))
	switch {
	case part.Visits == 0:
		return p.words.Plain(word+"_bare", "water", part.Water)
	case part.Years == 0:
		return p.words.Plain(word+"_visits", "water", part.Water, "visits", visits)
	}
	return p.words.Plain(word, "water", part.Water, "visits", visits, "years", years)
}
