package view

// Styles, scripts and the licences of those by others.

import (
	"encoding/json"
	"io/fs"
	"path"
	"slices"
	"strings"

	"guidegen/templates"
)

// Asset is a file that pages ask for: where it stands in the site, and where among the templates.
type Asset struct{ Address, File string }

// AssetFiles lists styles, scripts and the licences of those by others, by address.
func AssetFiles() ([]Asset, error) {
	var out []Asset
	for _, dir := range []string{"css", "js", "vendor", "icons"} {
		entries, err := fs.ReadDir(templates.Files, dir)
		if err != nil {
			return nil, err
		}
		for _, e := range entries {
			if e.Type().IsRegular() && !strings.HasSuffix(e.Name(), ".md") {
				out = append(out, Asset{Assets + e.Name(), path.Join(dir, e.Name())})
			}
		}
	}
	slices.SortFunc(out, func(a, b Asset) int { return strings.Compare(a.Address, b.Address) })
	return out, nil
}

// Vendored lists the scripts by others that the site carries.
func Vendored() []ScriptView {
	var list struct{ Scripts []ScriptView }
	text, err := fs.ReadFile(templates.Files, "vendor/vendor.json")
	if err == nil {
		err = json.Unmarshal(text, &list)
	}
	if err != nil {
		panic(err) // embedded
	}
	return list.Scripts
}

// IsAsset reports whether an address is that of a style or script.
func IsAsset(address string) bool { return strings.HasPrefix(address, Assets) }

// ScriptView is a script by others.
type ScriptView struct{ Name, Version, Licence string }
