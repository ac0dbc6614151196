package build

// What is looked for in a site lest it leak: the withheld texts, without those
// that every site holds anyway.

import (
	"io/fs"
	"slices"

	"guidegen/build/site"
	"guidegen/templates"
)

// searchable leaves out texts that stand among the site's own words, scripts and
// styles. A recorder called June can't be told from the month, and looking for
// the name would keep the guide from being published.
func searchable(withheld []string) []string {
	if len(withheld) == 0 {
		return nil
	}
	own := map[string]bool{}
	search := site.NewWithheld(withheld)
	// The templates are embedded: walking and reading them can't fail.
	_ = fs.WalkDir(templates.Files, ".", func(p string, d fs.DirEntry, err error) error {
		if err != nil || d.IsDir() {
			return err
		}
		b, err := fs.ReadFile(templates.Files, p)
		for _, text := range search.Find(p, b) {
			own[text] = true
		}
		return err
	})
	return slices.DeleteFunc(slices.Clone(withheld), func(s string) bool { return own[s] })
}
