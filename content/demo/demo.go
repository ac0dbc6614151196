// Package demo holds the demonstration guide: an invented island, club and
// records with real species. It is what the program shows when it is given no
// guide of its own, and what a newcomer copies from.
package demo

import (
	"embed"
	"io/fs"
)

//go:embed all:guide
var files embed.FS

// FS is the demo guide, rooted at the folder that holds guide.yaml.
var FS = root()

func root() fs.FS {
	sub, err := fs.Sub(files, "guide")
	if err != nil {
		panic(err) // only an invalid path could do this, and ours is a constant
	}
	return sub
}
