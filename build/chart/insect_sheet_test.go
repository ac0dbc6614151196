package chart

// The insects the tests draw, invented but after real forms, and their contact
// sheet: CHART_SHEET=folder go test -run InsectSheet ./build/chart.

import (
	"fmt"
	"os"
	"path/filepath"
	"strings"
	"testing"

	"github.com/stretchr/testify/require"
)

type namedInsect struct {
	name string
	in   Insect
}

func sampleInsects() []namedInsect {
	olive := Insect{Order: Upwinged, Stage: Dun, BodyMM: 8.5, WingMM: 9.5, Tails: 2, TailRatio: 0.9, HindWing: HindWingTiny,
		ForeWing: ForeWingClouded, Eyes: EyesPlain, Body: "6b7340", Wing: "8b93a0", Legs: "a39a5e", Tail: "8a8a6a"}
	spinner := olive
	spinner.Stage, spinner.ForeWing, spinner.Eyes, spinner.TailRatio, spinner.Body, spinner.Wing = Spinner, ForeWingClear, EyesTurban, 2, "7a4a35", "c9c4b4"
	big := Insect{Order: Upwinged, Stage: Dun, BodyMM: 20, WingMM: 20, Tails: 3, TailRatio: 0.9, HindWing: HindWingLarge,
		ForeWing: ForeWingClouded, Eyes: EyesPlain, Bands: true, Body: "d8d2a4", Wing: "a9a767", Legs: "6d5a3c", Tail: "4a4238"}
	little := Insect{Order: Upwinged, Stage: Spinner, BodyMM: 4, WingMM: 4.2, Tails: 3, TailRatio: 2.5, HindWing: HindWingNone, ForeWing: ForeWingClear, Eyes: EyesPlain,
		Body: "efe9d8", Wing: "dddddd", Legs: "eeeeee", Tail: "ffffff"}
	bare := Insect{Order: Upwinged, Stage: Dun, BodyMM: 9, Tails: TailsUnknown}
	half := Insect{Order: Upwinged, Stage: Dun, BodyMM: 9, WingMM: 10, Tails: 2, ForeWing: ForeWingClouded, Bands: true}
	return []namedInsect{
		{"olive dun", olive}, {"olive spinner", spinner}, {"large dun", big}, {"little spinner", little}, {"hardly known", bare}, {"half known", half},
		{"olive nymph", Insect{Order: Upwinged, Stage: Nymph, BodyMM: 9, Tails: 3, TailRatio: 0.5, Eyes: EyesPlain, Body: "6f6a3e", Legs: "9a9160", Tail: "8a8a6a"}},
		{"sedge", Insect{Order: Sedge, Stage: Adult, OverallMM: 13, WingMM: 11.5, ForeWing: ForeWingClouded, Body: "5d6b3a", Wing: "9c7748", Legs: "a07b4a"}},
		{"sedge, hardly known", Insect{Order: Sedge, Stage: Adult, BodyMM: 9}},
		{"stonefly", Insect{Order: Stonefly, Stage: Adult, OverallMM: 14, BodyMM: 11, WingMM: 11.5, Tails: 2, TailRatio: 0.8, ForeWing: ForeWingClear, Body: "b59a3f", Wing: "b8b08a", Legs: "8a7433", Tail: "8a7433"}},
		{"needle stonefly", Insect{Order: Stonefly, Stage: Adult, OverallMM: 9, Tails: 2, TailRatio: 0.08, ForeWing: ForeWingClouded, Body: "3a2c24", Wing: "6e6259", Legs: "4a3a30"}},
		{"stonefly nymph", Insect{Order: Stonefly, Stage: Nymph, BodyMM: 22, Tails: 2, TailRatio: 0.8, Body: "7a5a2a", Legs: "a5813f", Tail: "8a7433"}},
		{"alder", Insect{Order: Alder, Stage: Adult, OverallMM: 15, BodyMM: 10, ForeWing: ForeWingClouded, Body: "2c2622", Wing: "6b5238", Legs: "2c2622"}},
		{"alder larva", Insect{Order: Alder, Stage: Larva, BodyMM: 20, Body: "8a5a30", Legs: "a07b4a"}},
		{"midge", Insect{Order: Midge, Stage: Adult, BodyMM: 7, WingMM: 5, ForeWing: ForeWingClear, Body: "2a2a28", Wing: "d0d4d8", Legs: "3a3a38"}},
		{"midge pupa", Insect{Order: Midge, Stage: Pupa, BodyMM: 8, Body: "5a2f22"}},
		{"midge larva", Insect{Order: Midge, Stage: Larva, BodyMM: 11, Body: "a83228"}},
		{"sedge pupa", Insect{Order: Sedge, Stage: Pupa, BodyMM: 11, Body: "b8a060", Wing: "6b5a44", Legs: "a07b4a"}},
		{"sedge larva", Insect{Order: Sedge, Stage: Larva, BodyMM: 14, Body: "98a070", Legs: "6b5a34"}},
		{"gnat", Insect{Order: Gnat, Stage: Adult, BodyMM: 11, WingMM: 9.5, ForeWing: ForeWingClouded, Body: "141414", Wing: "9a9188", Legs: "141414"}},
		{"beetle", Insect{Order: Beetle, Stage: Adult, BodyMM: 10, Body: "5a3220", Wing: "8a5a30", Legs: "5a3220"}},
		{"flying ant", Insect{Order: Ant, Stage: Adult, BodyMM: 8, WingMM: 9, ForeWing: ForeWingClear, Body: "3a1f14", Wing: "d8d4c4", Legs: "5a3220"}},
	}
}

func TestInsectSheet(t *testing.T) {
	dir := os.Getenv("CHART_SHEET")
	if dir == "" {
		t.Skip("CHART_SHEET names no folder")
	}
	css, err := os.ReadFile("../../templates/css/chart.css")
	require.NoError(t, err)
	var page strings.Builder
	fmt.Fprintf(&page, `<!doctype html><html lang="en"><meta charset="utf-8"><title>Sheet</title><style>%s
body{font:13px sans-serif;margin:8px;background:var(--chart-paper);color:var(--chart-ink);display:flex;flex-wrap:wrap;gap:12px}figure{margin:0;border:1px solid var(--chart-line);padding:4px}figcaption{max-width:260px}</style>`, css)
	for i, n := range sampleInsects() {
		for _, v := range []View{Enlarged, LifeSize} {
			d, ok := n.in.Draw(fmt.Sprintf("i%d-%d", i, v), n.name, "A diagram.", v, nil)
			if !ok {
				continue
			}
			fmt.Fprintf(&page, "<figure>%s", d.SVG)
			if v == Enlarged {
				fmt.Fprintf(&page, "<figcaption>%s: %v</figcaption>", n.name, d.Unknown)
			}
			page.WriteString("</figure>")
			t.Logf("%s %d: %d bytes", n.name, v, len(d.SVG))
		}
	}
	require.NoError(t, os.WriteFile(filepath.Join(dir, "insects.html"), []byte(page.String()), 0o644))
}
