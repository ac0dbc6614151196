package chart

// Colours and patterns of the series. The colours here are those of the light
// theme; in the page the style sheet's win, and the closer view copies them.

import (
	"math"
	"strings"
)

const (
	inkLight   = "#22302e"
	paperLight = "#ffffff"
)

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
	Color       string  `json:"color,omitempty"`
	BorderColor string  `json:"borderColor,omitempty"`
	BorderWidth float64 `json:"borderWidth,omitempty"`
	BorderType  string  `json:"borderType,omitempty"`
	Decal       *decal  `json:"decal,omitempty"`
}

var (
	plain    = &decal{Symbol: "none"}
	hatch    = &decal{Symbol: "rect", Size: 1, DashX: [2]float64{1, 0}, DashY: [2]float64{1.5, 3.5}, Rotation: -math.Round(math.Pi/4*1e4) / 1e4, Color: inkLight}
	dots     = &decal{Symbol: "circle", Size: 0.5, DashX: [2]float64{3, 3}, DashY: [2]float64{3, 3}, Color: inkLight}
	strokesV = &decal{Symbol: "rect", Size: 1, DashX: [2]float64{1.2, 3.8}, DashY: [2]float64{1, 0}, Color: paperLight}
	strokesH = &decal{Symbol: "rect", Size: 1, DashX: [2]float64{1, 0}, DashY: [2]float64{1.2, 3.8}, Color: paperLight}
	specks   = &decal{Symbol: "circle", Size: 0.7, DashX: [2]float64{4, 4}, DashY: [2]float64{4, 4}, Color: paperLight}
	checks   = &decal{Symbol: "rect", Size: 1, DashX: [2]float64{3, 3}, DashY: [2]float64{3, 3}, Color: paperLight}
	crosses  = &decal{Symbol: "diamond", Size: 0.9, DashX: [2]float64{5, 3}, DashY: [2]float64{5, 3}, Color: inkLight}
)

// styles by a series' id without its panel. The marks have no pattern.
var styles = map[string]*style{
	idOwn:      {Color: "#3a8b90", Decal: plain},
	idThin:     {Color: "#a9d0cd", BorderColor: "#3a8b90", BorderWidth: 1, Decal: dots},
	idUnlooked: {Color: paperLight, BorderColor: inkLight, BorderWidth: 1, BorderType: "dashed", Decal: hatch},
	idStrip:    {Color: inkLight},
	idFinds:    {Color: "#a3301c"},
	idToday:    {Color: "#a3301c"},

	idGroup + "upwinged":         {Color: "#1d5f8a", Decal: plain},
	idGroup + "sedge":            {Color: "#b0621b", Decal: strokesV},
	idGroup + "stonefly":         {Color: "#5b5b5b", Decal: specks},
	idGroup + "alder":            {Color: "#7a3b2e", Decal: strokesH},
	idGroup + "midge":            {Color: "#8fb84a", Decal: crosses},
	idGroup + "gnat":             {Color: "#d9b23c", Decal: dots},
	idGroup + "other-water-bred": {Color: "#4b9c93", Decal: checks},
	idGroup + "land-bred":        {Color: "#cfd4d1", BorderColor: inkLight, BorderWidth: 1, Decal: plain},
}

// patterns are the same in SVG, by kind: attributes and content of a <pattern>.
// The hatching of "nobody looked" is the only slanting one.
var patterns = map[string]string{
	idThin: `width="4" height="4"><path class="chart-thin-bg" d="M0 0H4V4H0Z"/><circle class="chart-ink" cx="2" cy="2" r=".7"/>`,
	idUnlooked: `width="4" height="4" patternTransform="rotate(45)"><path class="chart-paper" d="M0 0H4V4H0Z"/>` +
		`<path class="chart-ink" d="M0 0H1.2V4H0Z"/>`,
	idGroup + "sedge":            ground("sedge") + `<path class="chart-light" d="M1 0H2.2V4H1Z"/>`,
	idGroup + "stonefly":         ground("stonefly") + `<circle class="chart-light" cx="2" cy="2" r=".9"/>`,
	idGroup + "alder":            ground("alder") + `<path class="chart-light" d="M0 1H4V2.2H0Z"/>`,
	idGroup + "midge":            ground("midge") + `<path class="chart-dark" d="M2 .4L3.4 2 2 3.6 .6 2Z"/>`,
	idGroup + "gnat":             ground("gnat") + `<circle class="chart-dark" cx="2" cy="2" r=".6"/>`,
	idGroup + "other-water-bred": ground("other-water-bred") + `<path class="chart-light" d="M0 0H2V2H0ZM2 2H4V4H2Z"/>`,
}

func ground(group string) string {
	return `width="4" height="4"><path class="chart-` + idGroup + group + `-bg" d="M0 0H4V4H0Z"/>`
}

// groupKeys are the groups with a colour and pattern of their own, in the order of the stack.
var groupKeys = []string{"upwinged", "sedge", "stonefly", "alder", "midge", "gnat", "other-water-bred", "land-bred"}

// groupKey gives a group's word the form it has in an id; an unknown group
// takes a colour by its place.
func groupKey(word string, place int) string {
	key := strings.ReplaceAll(strings.ToLower(strings.TrimSpace(word)), " ", "-")
	for _, k := range groupKeys {
		if k == key {
			return k
		}
	}
	return groupKeys[place%len(groupKeys)]
}

// kindOf is a series' id without its panel.
func kindOf(id string) string {
	kind, _, _ := strings.Cut(id, ":")
	return kind
}

func styleOf(id string) *style { return styles[kindOf(id)] }
