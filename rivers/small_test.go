package rivers_test

// A small guide of our own invention, south of the equator, in feet, inches
// and degrees Fahrenheit, read without a problem and with the right values.

import (
	"bytes"
	"os"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"guidegen/content"
	"guidegen/content/calendar"
	"guidegen/content/measure"
	"guidegen/rivers"
	"guidegen/species"
)

const small = "../testdata/guides/small"

func smallFile(t *testing.T, path string) *content.File {
	t.Helper()
	b, err := os.ReadFile(small + "/" + path)
	require.NoError(t, err)
	return content.NewFile(path, b)
}

// clean fails the test with each problem printed.
func clean(t *testing.T, ps *content.Problems) {
	t.Helper()
	var b bytes.Buffer
	for _, p := range ps.All() {
		ps.Print(&b, p)
	}
	require.Empty(t, b.String())
}

func smallContext(t *testing.T, ps *content.Problems) species.Context {
	src := species.ReadSources(smallFile(t, "sources.yaml"), ps)
	return species.Context{Grounds: content.Grounds{Sources: species.SourceKeys(src)}, Characters: species.ReadCharacters(smallFile(t, "characters.yaml"), ps)}
}

func TestSmallGuideListed(t *testing.T) {
	ps := &content.Problems{}
	l, err := content.Folder{FS: os.DirFS(small)}.List(ps)
	require.NoError(t, err)
	clean(t, ps)
	assert.Equal(t, "guide.yaml", l.One(content.GuideFile))
	assert.Equal(t, []string{"species/purse-sedge.md", "species/speckled-dun.md"}, l[content.SpeciesFile])
	assert.Len(t, l, 10)
}

func TestSmallGuideAccounts(t *testing.T) {
	ps := &content.Problems{}
	in := smallContext(t, ps)
	a := species.ReadAccount(smallFile(t, "species/speckled-dun.md"), in, ps)
	b := species.ReadAccount(smallFile(t, "species/purse-sedge.md"), in, ps)
	clean(t, ps)

	assert.Equal(t, "speckled-dun", a.Address)
	assert.Equal(t, "Deleatidium vernum", a.Scientific.Name.S)
	assert.Equal(t, "Phillips, 1930", a.Scientific.Authority)
	assert.Equal(t, "Piriwai", a.ByLanguage["mi"][0].S)
	assert.Equal(t, "2026-01-12", a.Reviewed.String())
	assert.Equal(t, "A. Torve", a.ReviewedBy)
	require.Len(t, a.Flights, 2)
	assert.Equal(t, calendar.Day(298), a.Flights[0].From, "late October is the 25th")
	assert.Equal(t, calendar.Day(5), a.Flights[0].To, "the flight crosses New Year")
	assert.Equal(t, species.ByNothing, a.Flights[1].Moves)
	assert.Zero(t, a.Flights[1].Peak)

	lays, _ := a.Lays.First()
	assert.Equal(t, "published:keybook", lays.Basis.Key())
	level, _ := a.Level.First(species.Words{Stage: species.Nymph})
	assert.Equal(t, []species.Level{species.Bottom, species.Midwater}, level.Value)
	level, _ = a.Level.First(species.Words{Stage: species.Dun})
	assert.Equal(t, []species.Level{species.Film, species.Surface}, level.Value)

	length, _ := a.Length.First(species.Words{Stage: species.Dun, Flight: "autumn", Sex: species.Male})
	assert.Equal(t, species.Length{Range: measure.Range[measure.Millimetres]{Low: 7, High: 8.5, Unit: measure.MM, Digits: 1}}, length.Value, "the unit of the block")
	assert.Equal(t, "own", length.Basis.Key(), "the basis of the block")
	claims := a.Length.For(species.Words{Stage: species.Spinner, Sex: species.Female})
	require.Len(t, claims, 2, "what others say follows")
	assert.Equal(t, "published:keybook", claims[0].Basis.Key())
	assert.InDelta(t, 7.62, float64(claims[1].Value.Low), 1e-9, "0.3 in, with a unit of its own; 1 in = 25.4 mm")
	_, ok := a.Length.First(species.Words{Stage: species.Spinner, Sex: species.Male})
	assert.False(t, ok, "not given is not known")

	wet := a.Colours[0]
	require.Equal(t, "body", wet.Part)
	shade, _ := wet.Cases.First(species.Words{Stage: species.Dun})
	assert.Equal(t, species.Wet, shade.Value.Wet, "commas inside {…} belong to the colour")
	assert.Equal(t, "against the light", shade.Value.Light)
	shade, _ = wet.Cases.First(species.Words{Stage: species.Spinner})
	assert.Equal(t, "6c541e", shade.Value.Colour.Value.Hex())
	assert.Equal(t, "olive brown", shade.Value.Colour.Words)

	state, _ := a.Feature("tails", species.Words{Stage: species.Nymph})
	assert.Equal(t, []string{"three"}, state.Value)
	state, _ = a.Feature("wings", species.Words{Stage: species.Spinner})
	assert.Equal(t, []string{"clear"}, state.Value, "imago of an upwinged fly")
	high, _ := a.Highest.First()
	assert.InDelta(t, 1188.72, float64(high.Value.High), 1e-9, "3900 ft × 0.3048")
	assert.Len(t, a.Protected, 1)
	assert.Contains(t, a.Body.Markdown, "A dun of stony rivers")
	f := smallFile(t, "species/speckled-dun.md")
	assert.Equal(t, a.Body.Markdown, string(f.Bytes[a.Body.Offset:]))

	assert.Empty(t, b.Emerges, "unknown says nothing")
}

func TestSmallGuideWater(t *testing.T) {
	ps := &content.Problems{}
	w := rivers.ReadWater(smallFile(t, "rivers/quarnock.yaml"), content.Grounds{}, ps)
	clean(t, ps)
	assert.Equal(t, "45.213 S, 169.871 E", w.Place.String())
	assert.Equal(t, "700–1200 ft", w.Altitude.String())
	assert.InDelta(t, 8.04672, w.Reach, 1e-9, "5 miles of 1.609344 km")
	assert.False(t, w.Regulated)
	assert.Equal(t, "Pacific/Auckland", w.Zone.String())
	assert.Equal(t, 10, w.Temperature.Count(), "two months are not known")
	assert.InDelta(t, 13.8888888889, w.Temperature.Months[0], 1e-9, "(57 - 32) × 5/9")
	assert.Equal(t, "own", w.Temperature.Basis.Key(), "a river record is the club's own word")
	require.Len(t, w.Beats, 2)
	assert.Equal(t, "45.2131 S, 169.8713 E", w.Beats[0].Place.String(), "a comma inside {…}")
	assert.True(t, w.Beats[1].HasPlace)
	require.Len(t, w.Flies, 2)
	assert.Equal(t, species.Frequent, w.Flies[0].Class)
	assert.Equal(t, "late spring", w.Flies[0].Flights[0].Name)
	assert.Equal(t, species.NoClass, w.Flies[1].Class)
	require.Len(t, w.Seasons, 1)
	assert.Equal(t, calendar.MonthDay{Month: 5, Day: 31}, w.Seasons[0].Close)
	require.Len(t, w.Sensitive, 1)
	assert.True(t, w.Sensitive[0].Members, "a sensitive place is for members unless it says otherwise")
}

func TestSmallGuideSamples(t *testing.T) {
	ps := &content.Problems{}
	events := rivers.ReadSamples(smallFile(t, "samples/quarnock-2026.csv"), ps)
	clean(t, ps)
	require.Len(t, events, 3)
	e := events[0]
	assert.Equal(t, []string{"A. Torve", "B. Lorn"}, e.By)
	assert.Equal(t, "11:40", e.Start.String())
	assert.Equal(t, "12:20", e.End.String())
	require.Len(t, e.Finds, 2, "two rows of one occurrence are one find")
	assert.Equal(t, 7, e.Finds[0].Count)
	require.Len(t, e.Finds[0].Lengths, 2, "and their measurements add")
	assert.False(t, e.Finds[0].Lengths[0].WithTails)
	assert.True(t, e.Finds[0].Lengths[1].WithTails)
	assert.InDelta(t, 8.636, e.Finds[0].Lengths[1].Millimetres, 1e-9, "0.34 in")
	assert.Equal(t, species.Dun, e.Finds[0].Stage, "subimago")
	assert.Equal(t, species.Adult, e.Finds[1].StageOf(species.Sedge), "the imago of a sedge is its adult")
	assert.Equal(t, species.Spinner, e.Finds[1].StageOf(species.Upwinged))
	assert.Equal(t, 1, e.Finds[1].Count, "present without a count")
	assert.False(t, e.Finds[1].Counted)
	require.Len(t, e.Readings, 1)
	assert.InDelta(t, 11, e.Readings[0].Celsius, 1e-9, "51.8 °F")
	assert.Len(t, e.LookedFor(), 8)

	assert.Equal(t, measure.Effort{Amount: 1, Unit: measure.TrapNights}, events[1].Effort)
	assert.Equal(t, []species.Group{species.Sedge, species.Midge}, events[1].LookedFor())
	assert.Equal(t, "nothing in the trap", events[1].Remarks)
	assert.False(t, events[2].When.Exact(), "a month stays vague")
	assert.Empty(t, events[2].LookedFor())
}

func TestSmallGuideOtherFiles(t *testing.T) {
	ps := &content.Problems{}
	in := smallContext(t, ps)
	hooks := species.ReadHooks(smallFile(t, "hooks.csv"), ps)
	box := species.ReadDressings(smallFile(t, "dressings/box.yaml"), in, ps)
	s := rivers.ReadTemperature(smallFile(t, "temperature/quarnock.csv"), ps)
	clean(t, ps)
	require.Len(t, hooks, 3)
	assert.InDelta(t, 8.382, float64(hooks[0].Shank), 1e-9, "0.33 in")
	require.Len(t, box, 2)
	assert.Equal(t, "speckled-upright", box[0].Address, "in a box the name gives the address")
	var parts []string
	for _, p := range box[0].Parts {
		parts = append(parts, p.Part)
	}
	assert.Equal(t, []string{"hook", "thread", "post", "body", "head"}, parts, "as written")
	assert.Equal(t, species.Wet, box[0].Parts[3].Shade.Wet)
	assert.Len(t, box[0].Sizes, 3)
	assert.Equal(t, []species.Stage{species.Nymph}, box[1].For[0].Stages)
	require.Len(t, s.Spots, 1)
	require.Len(t, s.Logger, 2)
	assert.True(t, s.Logger[0].HasMinMax)
	assert.False(t, s.Logger[0].HasMean)
	assert.InDelta(t, 10, s.Logger[1].Mean, 1e-9, "50 °F")
}
