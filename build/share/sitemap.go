package share

// The site's map for search engines (the sitemaps.org protocol 0.9), where the
// guide says at which address it will stand.

import (
	"encoding/xml"
	"fmt"
	"net/url"
	"strings"

	"guidegen/build/figures"
)

// mostInMap is the protocol's limit of addresses in one file.
const mostInMap = 50_000

// Sitemap lists pages by their addresses inside the site, in the order given:
// one file, or an index of several for a very large site. It is empty for a
// guide without an address of its own, and for the members' edition, which no
// search engine is to find.
func Sitemap(book *figures.Book, pages []string) []File {
	base := book.Edition.Settings.Address
	if base == "" || book.Edition.Members {
		return nil
	}
	if len(pages) <= mostInMap {
		return []File{{SiteMap, mapOf("urlset", "url", base, pages)}}
	}
	var out []File
	var parts []string
	for i := 0; i < len(pages); i += mostInMap {
		name := fmt.Sprintf("sitemap-%d.xml", len(parts)+1)
		parts = append(parts, name)
		out = append(out, File{name, mapOf("urlset", "url", base, pages[i:min(i+mostInMap, len(pages))])})
	}
	return append([]File{{SiteMap, mapOf("sitemapindex", "sitemap", base, parts)}}, out...)
}

func mapOf(root, item, base string, pages []string) []byte {
	var b strings.Builder
	b.WriteString(xml.Header + "<" + root + ` xmlns="http://www.sitemaps.org/schemas/sitemap/0.9">` + "\n")
	for _, p := range pages {
		b.WriteString("<" + item + "><loc>")
		// a strings.Builder takes every write
		_ = xml.EscapeText(&b, []byte(base+(&url.URL{Path: p}).EscapedPath()))
		b.WriteString("</loc></" + item + ">\n")
	}
	b.WriteString("</" + root + ">\n")
	return []byte(b.String())
}
