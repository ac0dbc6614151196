package chart

// Patterns of the series. Colours are the style sheet's: the closer view puts them in, by the series' id.

import (
	"math"
	"slices"
	"strings"
)

// grey stands for a colour that the style sheet gives.
const grey = "#808080"

// decal is the chart library's pattern on a bar.
type decal struct {
	Symbol   string     `json:"symbol"`
	Size     float64    `json:"symbolSize,omitempty"`
	DashX    [2]float64 `json:"dashArrayX"`
	DashY    [2]float64 `json:"dashArrayY"`
	Rotation float64    `json:"rotation"` // left out, the library slants the pattern
	Color    string     `json:"color,omitempty"`
}

type style struct {
	BorderColor string  `json:"borderColor,omitempty"`
	BorderWidth float64 `json:"borderWidth,omitempty"`
	BorderType  string  `json:"borderType,omitempty"`
	Decal       *decal  `json:"decal,omitempty"`
}

var (
	plain    = &decal{Symbol: "none"}
	hatch    = &decal{Symbol: "rect", Size: 1, DashX: [2]float64{1, 0}, DashY: [2]float64{1.5, 3.5}, Rotation: -math.Round(math.Pi/4*1e4) / 1e4, Color: grey}
	dots     = &decal{Symbol: "circle", Size: 0.5, DashX: [2]float64{3, 3}, DashY: [2]float64{3, 3}, Color: grey}
	strokesV = &decal{Symbol: "rect", Size: 1, DashX: [2]float64{1.2, 3.8}, DashY: [2]float64{1, 0}, Color: grey}
	strokesH = &decal{Symbol: "rect", Size: 1, DashX: [2]float64{1, 0}, DashY: [2]float64{1.2, 3.8}, Color: grey}
	specks   = &decal{Symbol: "circle", Size: 0.7, DashX: [2]float64{4, 4}, DashY: [2]float64{4, 4}, Color: grey}
	checks   = &decal{Symbol: "rect", Size: 1, DashX: [2]float64{3, 3}, DashY: [2]float64{3, 3}, Color: grey}
	crosses  = &decal{Symbol: "diamond", Size: 0.9, DashX: [2]float64{5, 3}, DashY: [2]float64{5, 3}, Color: grey}
)

// styles by a series' id. The marks have no pattern.
var styles = map[string]*style{
	idOwn:      {Decal: plain},
	idThin:     {BorderColor: grey, BorderWidth: 1, Decal: dots},
	idUnlooked: {BorderColor: grey, BorderWidth: 1, BorderType: "dashed", Decal: hatch},
	idStrip:    {},
	idFinds:    {},
	idToday:    {},

	idGroup + "upwinged":         {Decal: plain},
	idGroup + "sedge":            {Decal: strokesV},
	idGroup + "stonefly":         {Decal: specks},
	idGroup + "alder":            {Decal: strokesH},
	idGroup + "midge":            {Decal: crosses},
	idGroup + "gnat":             {Decal: dots},
	idGroup + "other-water-bred": {Decal: checks},
	idGroup + "land-bred":        {BorderColor: grey, BorderWidth: 1, Decal: plain},
}

// groupKeys are the groups with a colour and pattern of their own, in the order of the stack.
var groupKeys = []string{"upwinged", "sedge", "stonefly", "alder", "midge", "gnat", "other-water-bred", "land-bred"}

// groupKey gives a group's word the form it has in an id; an unknown group
// takes a colour by its place.
func groupKey(word string, place int) string {
	key := strings.ReplaceAll(strings.ToLower(strings.TrimSpace(word)), " ", "-")
	if slices.Contains(groupKeys, key) {
		return key
	}
	return groupKeys[place%len(groupKeys)]
}
