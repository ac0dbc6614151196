package page

import (
	"bytes"
	"image"
	"image/png"
	"strings"
	"testing"
	"testing/fstest"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
	"golang.org/x/net/html"
	"golang.org/x/net/html/atom"

	"guidegen/build/figures"
	"guidegen/build/guide"
	"guidegen/build/view"
	"guidegen/content"
)

// pictured is a guide of two waters and three flies, one of them pictured on each water, one on none.
func pictured(t *testing.T) fstest.MapFS {
	files := many(3)
	flies := "flies:\n  Fly number 000: frequent\n  Fly number 001: frequent\n"
	files["rivers/upper.yaml"] = file("name: Upper\nkind: rain-fed\n" + flies)
	files["rivers/lower.yaml"] = file("name: Lower\nkind: rain-fed\n" + flies)
	files["photos/photos.yaml"] = file(`
wide.jpg: {alt: 'A "wide" <fly>', caption: Seen at noon., credit: A. Lens, licence: CC BY 4.0, permission: {scope: site and print}, shows: {fly: Fly number 000, stage: adult, sex: female, water: Upper, date: 2026-05-03, reared: yes}}
upper.jpg: {alt: the water, credit: B. Brush, permission: {scope: site, until: 2029-01-31}, shows: {water: Upper, date: 2025}}
nowhere.jpg: {alt: a fly, credit: A. Lens, permission: {scope: site}, shows: {fly: Fly number 001, reared: no}}
kept.jpg: {alt: kept from everyone else, credit: C. Secret, permission: {scope: members}, shows: {fly: Fly number 002, water: Lower}}
`)
	for name, size := range map[string][2]int{"wide": {1000, 500}, "upper": {30, 40}, "nowhere": {1600, 2000}, "kept": {20, 20}} {
		var b bytes.Buffer
		require.NoError(t, png.Encode(&b, image.NewGray(image.Rect(0, 0, size[0], size[1]))))
		files["photos/"+name+".jpg"] = &fstest.MapFile{Data: b.Bytes()}
	}
	return files
}

// figuresOf reads the photos of a page: the image's attributes by name and the caption's text.
func figuresOf(t *testing.T, page string) (images []map[string]string, captions []string) {
	t.Helper()
	doc, err := html.Parse(strings.NewReader(page))
	require.NoError(t, err)
	drawing := func(n *html.Node) bool { src, _ := attr(n, "src"); return strings.Contains(src, "fig/") }
	walk(doc, func(n *html.Node) {
		if n.DataAtom == atom.Img && !drawing(n) {
			m := map[string]string{"figure": ""}
			for _, a := range n.Attr {
				m[a.Key] = a.Val
			}
			m["figure"], _ = attr(n.Parent, "class")
			images = append(images, m)
		}
		if n.DataAtom == atom.Figcaption && find(n.Parent, atom.Img) != nil && !drawing(find(n.Parent, atom.Img)) {
			captions = append(captions, strings.Join(strings.Fields(textOf(n)), " "))
		}
	})
	require.Len(t, captions, len(images))
	return images, captions
}

func TestPhotosOnPages(t *testing.T) {
	book := bookOf(t, pictured(t))
	pages := drawAll(t, book)

	images, captions := figuresOf(t, pages["species/fly-000.html"])
	require.Len(t, images, 1)
	img := images[0]
	assert.Equal(t, `A "wide" <fly>`, img["alt"])
	assert.Equal(t, "1000", img["width"])
	assert.Equal(t, "500", img["height"])
	assert.Equal(t, "lazy", img["loading"])
	assert.Equal(t, "async", img["decoding"])
	assert.NotEmpty(t, img["sizes"])
	assert.Empty(t, img["figure"], "it may be printed")
	hash := strings.TrimSuffix(img["src"], "-720.jpg")
	assert.Regexp(t, `^\.\./photos/[0-9a-f]{20}$`, hash)
	assert.Equal(t, hash+"-360.jpg 360w, "+hash+"-720.jpg 720w, "+hash+"-1000.jpg 1000w", img["srcset"])
	assert.Equal(t, "Seen at noon. Fly number 000, female adult, Upper, 3 May 2026, reared. Picture: A. Lens. Licence: CC BY 4.0.", captions[0])
	has := func(address, s string) bool { return strings.Contains(pages[address], s) }
	assert.True(t, has("species/fly-000.html", `<a href="../rivers/upper.html">Upper</a>`))
	assert.True(t, has("species/fly-000.html", `href="../assets/photos.css"`))
	assert.False(t, has("species/fly-002.html", "photos"), "no section and no style where there is none")

	// Its own first, and what is from elsewhere says so.
	images, captions = figuresOf(t, pages["rivers/upper.html"])
	require.Len(t, images, 3)
	assert.Contains(t, captions[0], "Fly number 000, female adult, Upper, 3 May 2026, reared. Picture")
	assert.Equal(t, "Upper, 2025. Picture: B. Brush.", captions[1])
	assert.Equal(t, "screen-only", images[1]["figure"], "its permission is for the site alone")
	assert.Equal(t, "Fly number 001, in the wild. Not known to be from this water Picture: A. Lens.", captions[2])
	assert.Equal(t, [2]string{"1440", "1800"}, [2]string{images[2]["width"], images[2]["height"]})
	_, captions = figuresOf(t, pages["rivers/lower.html"])
	require.Len(t, captions, 2)
	assert.Contains(t, captions[0], "Upper, 3 May 2026, reared. Not from this water")
	assert.Contains(t, captions[1], "Not known to be from this water")

	assert.True(t, has("credits.html", "Picture: A. Lens. Permission: for this site and in print."))
	assert.True(t, has("credits.html", `Picture: B. Brush. Permission: for this site. Until <time datetime="2029-01-31">31 January 2029</time>.`))
	for address, page := range pages {
		for _, s := range []string{"kept from everyone", "C. Secret", "kept.jpg", "wide.jpg"} {
			assert.False(t, strings.Contains(page, s), "%s: %s", address, s)
		}
	}
}

func TestPhotosForMembers(t *testing.T) {
	var ps content.Problems
	g, err := guide.Read(pictured(t), built, &ps)
	require.NoError(t, err)
	require.Zero(t, ps.Count(content.Error))
	pages := drawAll(t, figures.Reckon(guide.Cut(g, true), built))
	_, captions := figuresOf(t, pages["species/fly-002.html"])
	assert.Equal(t, []string{"Fly number 002, Lower. Picture: C. Secret."}, captions)
	assert.True(t, strings.Contains(pages["credits.html"], "Permission: for members."))
}

// However many flies a water has, it borrows no more than a handful of photos.
func TestFewBorrowedPhotos(t *testing.T) {
	files := many(30)
	var list strings.Builder
	for i := range 30 {
		n := string(rune('0'+i/10)) + string(rune('0'+i%10))
		list.WriteString("p" + n + ".png: {alt: a fly, credit: A, permission: {scope: site}, shows: {fly: Fly number 0" + n + "}}\n")
		var b bytes.Buffer
		require.NoError(t, png.Encode(&b, image.NewGray(image.Rect(0, 0, 2+i, 2))))
		files["photos/p"+n+".png"] = &fstest.MapFile{Data: b.Bytes()}
	}
	files["photos/photos.yaml"] = file(list.String())
	book := bookOf(t, files)
	require.Len(t, book.Waters, 1)
	images, _ := figuresOf(t, drawAll(t, book)[view.WaterPage(book.Waters[0])])
	assert.Len(t, images, mostPhotos)
}
