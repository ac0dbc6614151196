package view

// What a page is about, for search engines and whoever gathers such things: an item of the schema.org
// vocabulary as microdata, from what the page prints anyway.

import (
	"fmt"
	"slices"
	"strconv"
	"strings"

	"guidegen/build/figures"
	"guidegen/build/share"
	"guidegen/content/measure"
)

// Item is a thing of a type, with properties beside those that the page's own text carries.
type Item struct {
	Type  string
	Props []Prop
}

// Prop is a property: a text, a file of the site, or another thing.
type Prop struct {
	Name string
	Text string
	File string // link
	Item *Item
}

// with adds a text; an empty one is left out.
func (i *Item) with(name, text string) *Item {
	if text != "" {
		i.Props = append(i.Props, Prop{Name: name, Text: text})
	}
	return i
}

// holding adds a thing; none is left out.
func (i *Item) holding(name string, x *Item) *Item {
	if x != nil {
		i.Props = append(i.Props, Prop{Name: name, Item: x})
	}
	return i
}

// called is a thing of which only the name is known; nil without one.
func called(kind, name string) *Item {
	if name == "" {
		return nil
	}
	return (&Item{Type: kind}).with("name", name)
}

// item is what a kind of page is about; nil where the page is about nothing in particular. The name
// stands in the page's h1.
func (p *Printer) item(kind, at string) *Item {
	switch kind {
	case "front":
		return p.siteItem()
	case "river":
		for _, w := range p.book.Waters {
			if WaterPage(w) == at {
				return p.waterItem(w)
			}
		}
	case "fly":
		for _, f := range p.book.Flies {
			if FlyPage(f) == at {
				return flyItem(f)
			}
		}
	case "dressing":
		return &Item{Type: "CreativeWork"}
	}
	return nil
}

// siteItem is the site, with its records and figures as a set of data to take away.
func (p *Printer) siteItem() *Item {
	s, w := p.Settings(), p.words
	publisher := called("Organization", s.Publisher)
	out := (&Item{Type: "WebSite"}).with("inLanguage", w.Lang).with("description", s.About).holding("publisher", publisher)
	var years []int
	for _, x := range p.book.Waters {
		years = append(years, x.Years...)
	}
	data := called("Dataset", w.Plain("data.name", "guide", s.Name)).with("description", w.Plain("data.description")).
		holding("license", called("CreativeWork", s.Licence)).holding("publisher", publisher).holding("spatialCoverage", called("Place", s.Region))
	if len(years) > 0 { // an interval of ISO 8601
		data.with("temporalCoverage", fmt.Sprintf("%d/%d", slices.Min(years), slices.Max(years)))
	}
	any := false
	for _, d := range p.Deps.Downloads {
		kind := map[string]string{share.GuideData: "application/json", share.Archive: "application/zip"}[d.Address]
		if kind == "" {
			continue
		}
		any = true
		file := called("DataDownload", d.What).with("encodingFormat", kind)
		file.Props = append(file.Props, Prop{Name: "contentUrl", File: p.Deps.Site.Link(FrontPage, d.Address)})
		data.holding("distribution", file)
	}
	if any {
		out.holding("hasPart", data)
	}
	return out
}

// waterItem is a river, lake or reservoir, at the place that the page prints.
func (p *Printer) waterItem(w *figures.Water) *Item {
	kind := "RiverBodyOfWater"
	switch {
	case w.Kind == "":
		kind = "BodyOfWater"
	case w.Kind == "reservoir":
		kind = "Reservoir"
	case w.Kind.Still():
		kind = "LakeBodyOfWater"
	}
	out := (&Item{Type: kind}).holding("containedInPlace", called("Place", p.Settings().Region))
	for _, a := range w.Also {
		out.with("alternateName", a.S)
	}
	if w.HasPlace {
		degrees := func(a measure.Angle) string { return strconv.FormatFloat(a.Degrees, 'f', a.Digits, 64) }
		out.holding("geo", (&Item{Type: "GeoCoordinates"}).with("latitude", degrees(w.Place.Latitude)).with("longitude", degrees(w.Place.Longitude)))
	}
	return out
}

// flyItem is a taxon; its scientific name stands in the page as another name for it. Only a name of two
// words says its rank by itself, and the genus above it.
func flyItem(f *figures.Fly) *Item {
	out := &Item{Type: "Taxon"}
	genus, epithet, _ := strings.Cut(f.Scientific.Name.S, " ")
	if epithet == "" || strings.ContainsAny(epithet, " .0123456789()") || epithet != strings.ToLower(epithet) {
		return out.with("parentTaxon", f.Family.S)
	}
	above := called("Taxon", genus).with("taxonRank", "genus").with("parentTaxon", f.Family.S)
	return out.with("taxonRank", "species").holding("parentTaxon", above)
}
