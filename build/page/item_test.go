package page

// What pages say to search engines, read back as microdata by the rules of the HTML standard ("Microdata")
// and held against the schema.org vocabulary.

import (
	"slices"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
	"golang.org/x/net/html"

	"guidegen/build/share"
	"guidegen/build/view"
)

// vocabulary is the part of schema.org that pages use: each type with the type above it and its
// properties, and what a property's value may be where that is a thing. Read from the vocabulary's type
// definitions as published for release 29 (npm, schema-dts 2.1.0); Taxon from schema.org/Taxon.
var vocabulary = map[string]struct{ above, props string }{
	"Thing":            {"", "name alternateName description image url"},
	"CreativeWork":     {"Thing", "license publisher hasPart inLanguage temporalCoverage spatialCoverage creditText material encodingFormat"},
	"WebSite":          {"CreativeWork", ""},
	"Dataset":          {"CreativeWork", "distribution"},
	"MediaObject":      {"CreativeWork", "contentUrl"},
	"DataDownload":     {"MediaObject", ""},
	"ImageObject":      {"MediaObject", ""},
	"Organization":     {"Thing", ""},
	"Place":            {"Thing", "geo containedInPlace"},
	"BodyOfWater":      {"Place", ""},
	"RiverBodyOfWater": {"BodyOfWater", ""},
	"LakeBodyOfWater":  {"BodyOfWater", ""},
	"Reservoir":        {"BodyOfWater", ""},
	"GeoCoordinates":   {"Thing", "latitude longitude"},
	"BreadcrumbList":   {"Thing", "itemListElement"},
	"ListItem":         {"Thing", "item position"},
	"Taxon":            {"Thing", "taxonRank parentTaxon"},
}

var values = map[string]string{"image": "ImageObject", "license": "CreativeWork", "publisher": "Organization", "hasPart": "CreativeWork", "spatialCoverage": "Place",
	"distribution": "DataDownload", "geo": "GeoCoordinates", "containedInPlace": "Place", "itemListElement": "ListItem", "parentTaxon": "Taxon"}

func isA(kind, above string) bool {
	for ; kind != ""; kind = vocabulary[kind].above {
		if kind == above {
			return true
		}
	}
	return false
}

// thing is an item read back; texts and things by property, in order.
type thing struct {
	kind   string
	texts  map[string][]string
	things map[string][]*thing
}

func (x *thing) text(property string) string { return strings.Join(x.texts[property], " | ") }

func (x *thing) of(property string) *thing {
	if l := x.things[property]; len(l) == 1 {
		return l[0]
	}
	return &thing{}
}

// microdata gives the items of a page that are no property of another.
func microdata(t *testing.T, where string, doc *html.Node) []*thing {
	var top []*thing
	var read func(n *html.Node, in *thing)
	read = func(n *html.Node, in *thing) {
		into := in
		property, is := attr(n, "itemprop")
		require.False(t, is && (in == nil || property == ""), "%s: a property of nothing", where)
		if _, scope := attr(n, "itemscope"); scope {
			kind, _ := attr(n, "itemtype")
			x := &thing{strings.TrimPrefix(kind, "https://schema.org/"), map[string][]string{}, map[string][]*thing{}}
			require.Contains(t, vocabulary, x.kind, where)
			if into = x; is {
				require.True(t, isA(x.kind, values[property]), "%s: a %s can't be %s", where, x.kind, property)
				in.things[property] = append(in.things[property], x)
			} else {
				top = append(top, x)
			}
		} else if is {
			key := map[string]string{"meta": "content", "link": "href", "a": "href", "img": "src"}[n.Data]
			v, ok := attr(n, key)
			if key == "" {
				v, ok = textOf(n), true
			}
			require.True(t, ok && v != "", "%s: %s is empty", where, property)
			in.texts[property] = append(in.texts[property], v)
			if property == "contentUrl" || property == "item" {
				assert.Contains(t, []string{"link", "a", "img"}, n.Data, "%s: %s is an address", where, property)
			}
		}
		if is {
			known := false
			for kind := in.kind; kind != ""; kind = vocabulary[kind].above {
				known = known || slices.Contains(strings.Fields(vocabulary[kind].props), property)
			}
			assert.True(t, known, "%s: a %s has no %s", where, in.kind, property)
		}
		for c := n.FirstChild; c != nil; c = c.NextSibling {
			read(c, into)
		}
	}
	read(doc, nil)
	return top
}

func TestWhatPagesAreAbout(t *testing.T) {
	book := demoBook()
	sheets, err := All(book, view.Deps{Site: fakeSite{Book: book}, Downloads: []view.Download{{Address: share.GuideData, What: "The figures", Kind: "JSON"}, {Address: share.Archive, What: "All records", Kind: "ZIP"}}})
	require.NoError(t, err)
	about := map[string][]*thing{}
	for _, s := range sheets {
		d, err := s.Draw()
		require.NoError(t, err)
		doc, err := html.Parse(strings.NewReader(string(d.HTML)))
		require.NoError(t, err)
		about[s.Address] = microdata(t, s.Address, doc)
	}
	only := func(address, kind string) *thing {
		t.Helper()
		for _, x := range about[address] {
			if x.kind == kind {
				return x
			}
		}
		assert.Fail(t, "no "+kind, address)
		return &thing{}
	}

	site := only(view.FrontPage, "WebSite")
	assert.Equal(t, book.Edition.Settings.Name, site.text("name"))
	data := site.of("hasPart")
	assert.Equal(t, "Dataset", data.kind)
	assert.Equal(t, book.Edition.Settings.Licence, data.of("license").text("name"))
	assert.Equal(t, book.Edition.Settings.Publisher, data.of("publisher").text("name"))
	assert.Regexp(t, `^20\d\d/2026$`, data.text("temporalCoverage")) // ISO 8601
	assert.GreaterOrEqual(t, len(data.text("description")), 50)      // what search for data sets asks for, from memory
	require.Len(t, data.things["distribution"], 2)
	assert.Equal(t, "data/guide.json", data.things["distribution"][0].text("contentUrl"))

	for _, w := range book.Waters {
		kind := "RiverBodyOfWater"
		switch w.Kind {
		case "reservoir":
			kind = "Reservoir"
		case "lowland lake", "upland lake":
			kind = "LakeBodyOfWater"
		}
		x := only(view.WaterPage(w), kind)
		assert.Equal(t, w.Name.S, x.text("name"))
		if w.HasPlace { // as exact as the page prints it, and no more
			place := x.of("geo").text("latitude") + " " + x.of("geo").text("longitude")
			letters := strings.NewReplacer(" N", "", " S", "", " E", "", " W", "", ",", "").Replace(w.Place.String())
			assert.Equal(t, letters, strings.ReplaceAll(place, "-", ""))
			assert.Equal(t, w.Place.Longitude.Degrees < 0, strings.Contains(place, " -"))
		}
	}
	ranks, pictures := 0, 0
	for _, f := range book.Flies {
		x := only(view.FlyPage(f), "Taxon")
		assert.Equal(t, f.Name.S, x.text("name"))
		assert.Equal(t, f.Scientific.Name.S, x.text("alternateName"))
		if x.text("taxonRank") == "species" {
			ranks++
			assert.Equal(t, strings.Fields(f.Scientific.Name.S)[0], x.of("parentTaxon").text("name"))
		}
		for _, i := range x.things["image"] {
			pictures++
			assert.NotEmpty(t, i.text("creditText"))
			assert.Contains(t, i.text("contentUrl"), view.PhotosDir)
		}
	}
	assert.Positive(t, ranks)
	assert.Positive(t, pictures)
	for _, d := range book.Dressings {
		x := only(view.DressingPage(d), "CreativeWork")
		assert.Equal(t, d.Name.S, x.text("name"))
		assert.Len(t, x.texts["material"], len(d.Parts))
	}
	way := only(view.FlyPage(book.Flies[0]), "BreadcrumbList").things["itemListElement"]
	require.Len(t, way, 2)
	assert.Equal(t, []string{"Flies", "../species.html", "1"}, []string{way[0].text("name"), way[0].text("item"), way[0].text("position")})
	assert.Equal(t, []string{book.Flies[0].Name.S, "", "2"}, []string{way[1].text("name"), way[1].text("item"), way[1].text("position")})
}
