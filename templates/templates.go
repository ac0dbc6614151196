// Package templates holds the site's HTML, styles, scripts and words as files.
package templates

import (
	"embed"
	"io/fs"
	"path"
	"strings"
)

// Files are the templates: pages/ one file per kind of page, partials/ what pages share, words/
// the site's own words (one file per language), css/ and js/ what a page asks for, icons/ the
// site's own, figures/ the parts that insects and dressings are drawn from, worker/ what keeps the guide on a device, vendor/ the scripts by others with licence
// and checksum.
//
//go:embed pages partials words css js icons figures worker vendor
var Files embed.FS

// Languages are the tags of the languages that there are words in, in order.
func Languages() []string {
	files, err := fs.Glob(Files, "words/*.yaml")
	if err != nil {
		panic(err) // embedded
	}
	for i, f := range files {
		files[i] = strings.TrimSuffix(path.Base(f), ".yaml")
	}
	return files
}
