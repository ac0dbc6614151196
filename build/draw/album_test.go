package draw_test

import (
	"encoding/xml"
	"fmt"
	"io"
	"path"
	"regexp"
	"strconv"
	"strings"
	"testing"
	"testing/fstest"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"guidegen/build/draw"
	"guidegen/build/figures"
	"guidegen/species"
)

// vocabulary ties enough features to the drawing to tell the cases apart.
const vocabulary = `
tails: {states: {two: {draw: 2}, three: {draw: 3}}, draw: tail count, needs: naked eye}
length of tails: {states: [short, long], draw: tail length, needs: naked eye}
posture: {states: [upright, roof, flat, rolled, spread], draw: wing posture, needs: naked eye}
wings: {states: {dull: {draw: clouded}, clear: {}}, draw: fore wing, needs: naked eye}
hind wing: {states: [none, tiny, spurred, medium, large], draw: hind wing, needs: hand lens}
eyes: {states: [plain, turban, two-part], draw: eyes, needs: naked eye}
legs: {states: [plain, black, red thighs], draw: legs, needs: naked eye}
build: {states: [swimmer, clinger, crawler, burrower], draw: nymph build, needs: naked eye}
larva: {states: [case of stones, case of plants, no case], draw: larva, needs: naked eye}
smell: {states: [of thyme, of rain on hot stones], needs: naked eye}
匂い: {states: [花], needs: naked eye}
`

// guideOf is a guide of one account, its head's lines beyond the name given.
func guideOf(t *testing.T, head string) (*figures.Fly, *draw.Album) {
	t.Helper()
	file := func(s string) *fstest.MapFile { return &fstest.MapFile{Data: []byte(s)} }
	book, problem := bookOf(fstest.MapFS{
		"guide.yaml":      file("format: 1\nname: One fly\n"),
		"characters.yaml": file(vocabulary),
		"species/one.md": file("---\nname: One <fly> & \"more\"\nbasis: memory\n" +
			"flights:\n  spring: {from: mid Mar, to: late Apr, abundance: frequent}\n" + head + "\n---\n\nA fly.\n"),
		"rivers/beck.yaml": file("name: Beck\nkind: rain-fed\ntime_zone: Europe/London\nflies:\n  \"One <fly> & \\\"more\\\"\": frequent\n"),
	})
	require.Empty(t, problem)
	return book.Flies[0], albumOf(t, book)
}

// forms are heads of accounts, and the stages that are drawn of each.
var forms = []struct {
	head   string
	stages []species.Stage
}{
	{"group: upwinged", []species.Stage{species.Nymph, species.Dun, species.Spinner}},
	{"group: upwinged\nfamily: Baetidae\nlength: {dun: 6 mm}\nfeatures: {tails: two, wings: {spinner: clear}, eyes: {male: turban}}",
		[]species.Stage{species.Nymph, species.Dun, species.Spinner}},
	{"group: upwinged\nfamily: Ephemeridae\nfeatures: {tails: three, hind wing: large, wings: {spinner: clear}}",
		[]species.Stage{species.Nymph, species.Dun, species.Spinner}},
	{"group: upwinged\nfamily: Caenidae\nfeatures: {posture: spread, hind wing: none}", []species.Stage{species.Nymph, species.Dun, species.Spinner}},
	{"group: sedge", []species.Stage{species.Larva, species.Pupa, species.Adult}},
	{"group: sedge\nfamily: Hydropsychidae\nfeatures: {larva: no case}", []species.Stage{species.Larva, species.Pupa, species.Adult}},
	{"group: sedge\nfeatures: {larva: case of plants}", []species.Stage{species.Larva, species.Pupa, species.Adult}},
	{"group: stonefly", []species.Stage{species.Nymph, species.Adult}},
	{"group: stonefly\nfeatures: {posture: rolled}", []species.Stage{species.Nymph, species.Adult}},
	{"group: alder", []species.Stage{species.Larva, species.Adult}},
	{"group: midge", []species.Stage{species.Larva, species.Pupa, species.Adult}},
	{"group: gnat\nform: gnat", []species.Stage{species.Adult}},
	{"group: gnat\nform: smut", []species.Stage{species.Adult}},
	{"group: land-bred\nfamily: Bibionidae", []species.Stage{species.Adult}},
	{"group: land-bred\nform: hawthorn\nfeatures: {legs: red thighs}", []species.Stage{species.Adult}},
	{"group: land-bred\nform: beetle", []species.Stage{species.Adult}},
	{"group: land-bred\nfamily: Tipulidae", []species.Stage{species.Adult}},
	{"group: land-bred\nform: ant", []species.Stage{species.Adult}},
	{"group: other water-bred\nform: damselfly", []species.Stage{species.Nymph, species.Adult}},
	{"group: damselfly", []species.Stage{species.Nymph, species.Adult}},
	{"group: other water-bred\nform: shrimp", []species.Stage{species.Adult}},
	{"group: other water-bred\nform: boatman", []species.Stage{species.Adult}},
}

// Every group is drawn in every stage and sex, whatever its account gives; what it has no drawing
// for has no picture.
func TestEveryFormIsDrawn(t *testing.T) {
	for _, c := range forms {
		f, a := guideOf(t, c.head)
		var drawn []species.Stage
		for _, stage := range f.Group.Stages() {
			some := a.Fly(f, stage, species.NoSex)
			for _, sex := range []species.Sex{species.Male, species.Female} {
				p := a.Fly(f, stage, sex)
				assert.Equal(t, some.Known(), p.Known(), "%s, %s %s", c.head, sex, stage)
				if p.Known() {
					assert.Positive(t, p.WidthMM*p.HeightMM, "%s, %s %s", c.head, sex, stage)
				}
			}
			if some.Known() {
				drawn = append(drawn, stage)
			}
			if stage == species.Spinner {
				assert.True(t, a.Spent(f, species.Female).Known(), c.head)
				assert.NotEqual(t, some.Address, a.Spent(f, species.NoSex).Address)
			}
		}
		assert.Equal(t, c.stages, drawn, c.head)
		for _, file := range a.Files() {
			sound(t, file)
		}
	}
}

func TestTheDemosDrawings(t *testing.T) {
	book, a := demoAlbum(t)
	for _, file := range a.Files() {
		sound(t, file)
	}
	for _, d := range book.Dressings {
		assert.True(t, a.Dressing(d.Address).Known(), d.Name.S)
	}
	again := albumOf(t, book)
	assert.Equal(t, a.Files(), again.Files(), "the same guide gives the same bytes")
}

var (
	box      = regexp.MustCompile(`viewBox="0 0 (\d+) (\d+)"`)
	pathData = regexp.MustCompile(` d="([^"]+)"`)
	step     = regexp.MustCompile(`([MmLlCcSsQqAaZz])([^MmLlCcSsQqAaZz]*)`)
	figure   = regexp.MustCompile(`-?\d+`)
	ids      = regexp.MustCompile(` id="([^"]+)"`)
)

// sound checks one file: well formed, named, small, within its box, each id once.
func sound(t *testing.T, f draw.File) {
	t.Helper()
	text := string(f.Bytes)
	d := xml.NewDecoder(strings.NewReader(text))
	for {
		if _, err := d.Token(); err == io.EOF {
			break
		} else if !assert.NoError(t, err, f.Address) {
			return
		}
	}
	assert.Regexp(t, `<title id="t">[^<]+</title>`, text, f.Address)
	most := 6000
	switch path.Dir(f.Address) {
	case "fig/s":
		most = 4000
	case "fig/p":
		most = 2500
	default:
		assert.Regexp(t, `<desc id="d">[^<]+</desc>`, text, f.Address)
	}
	assert.LessOrEqual(t, len(text), most, f.Address)
	assert.Contains(t, text, "prefers-color-scheme:dark", f.Address)
	seen := map[string]bool{}
	for _, id := range ids.FindAllStringSubmatch(text, -1) {
		assert.False(t, seen[id[1]], "%s has the id %s twice", f.Address, id[1])
		seen[id[1]] = true
	}
	if path.Dir(f.Address) == "fig/p" {
		return // hand-drawn, in a box of 48
	}
	b := box.FindStringSubmatch(text)
	require.NotNil(t, b, f.Address)
	w, h := atoi(b[1]), atoi(b[2])
	for _, p := range pathData.FindAllStringSubmatch(text, -1) {
		for _, q := range ends(p[1]) {
			if q[0] < 0 || q[0] > w || q[1] < 0 || q[1] > h {
				assert.Fail(t, "out of the box", "%s: %v is outside %d × %d", f.Address, q, w, h)
				return
			}
		}
	}
}

func atoi(s string) int { n, _ := strconv.Atoi(s); return n }

// ends follows path data and gives the ends of all its pieces.
func ends(d string) (out [][2]int) {
	size := map[string]int{"l": 2, "c": 6, "s": 4, "q": 4, "a": 7}
	var at [2]int
	for _, s := range step.FindAllStringSubmatch(d, -1) {
		n := figure.FindAllString(s[2], -1)
		if s[1] == "M" {
			at = [2]int{atoi(n[0]), atoi(n[1])}
			out = append(out, at)
			continue
		}
		k := size[s[1]]
		for i := 0; k > 0 && i+k <= len(n); i += k {
			at = [2]int{at[0] + atoi(n[i+k-2]), at[1] + atoi(n[i+k-1])}
			out = append(out, at)
		}
	}
	return out
}

func bytesOf(t *testing.T, a *draw.Album, address string) string {
	t.Helper()
	for _, f := range a.Files() {
		if f.Address == address {
			return string(f.Bytes)
		}
	}
	require.Fail(t, "no file at "+address)
	return ""
}

// What isn't given is dashed or left out, and named; what is given is neither.
func TestWhatIsNotGiven(t *testing.T) {
	f, a := guideOf(t, "group: upwinged\nfeatures: {tails: two}")
	p := a.Fly(f, species.Dun, species.Female)
	assert.Equal(t, []string{"eyes", "fore wing", "wing", "hind wing", "tail length", "tail", "legs", "body"}, sorted(p.Unknown,
		"eyes", "fore wing", "wing", "hind wing", "tail length", "tail", "legs", "body"))
	svg := bytesOf(t, a, p.Address)
	assert.Regexp(t, `class="w n u"|class="w u n"`, svg, "a wing that nobody noted")
	assert.Equal(t, 2, strings.Count(svg, `class="b n u"`), "both tails, of a common length")
	assert.Contains(t, svg, "to scale", "no length")
	assert.Zero(t, p.LengthMM)

	f, a = guideOf(t, "group: upwinged\nfamily: Baetidae\nlength: {dun: 6 mm}\ncolours: {dun: {body: Dark Olive, wing: Dark Gray, legs: Light Olive, tail: Dark Gray}}\n"+
		"features: {tails: two, length of tails: short, wings: dull, hind wing: tiny, eyes: plain}")
	p = a.Fly(f, species.Dun, species.Female)
	assert.Empty(t, p.Unknown)
	assert.NotContains(t, bytesOf(t, a, p.Address), ` u"`)
	assert.Equal(t, 6.0, p.LengthMM)
}

func sorted(got []string, order ...string) (out []string) {
	for _, o := range order {
		for _, g := range got {
			if g == o {
				out = append(out, g)
			}
		}
	}
	if len(out) != len(got) {
		return got
	}
	return out
}

// A black leg stays black in the dark: its colour stands at the leg, and no rule fills such a part.
func TestColoursOfTheAnimalNeverTurnOver(t *testing.T) {
	f, a := guideOf(t, "group: land-bred\nform: hawthorn\nfeatures: {legs: black}")
	p := a.Fly(f, species.Adult, species.Male)
	for _, address := range []string{p.Address, p.Small} {
		svg := bytesOf(t, a, address)
		assert.Contains(t, svg, `class="b" fill="#14191a"`)
		for _, rule := range regexp.MustCompile(`([^{}]*)\{([^{}]*)\}`).FindAllStringSubmatch(svg, -1) {
			if regexp.MustCompile(`\.b\b`).MatchString(rule[1]) {
				assert.NotRegexp(t, `(^|;)fill:`, rule[2], "%s fills a part of the body", rule[1])
			}
		}
	}
}

// A picture at another length of the animal is the same picture, larger or smaller.
func TestTo(t *testing.T) {
	f, a := guideOf(t, "group: sedge\nlength: {adult: 10 mm}")
	p := a.Fly(f, species.Adult, species.NoSex)
	q := p.To(15)
	assert.Equal(t, 15.0, q.LengthMM)
	assert.InDelta(t, 1.5*p.WidthMM, q.WidthMM, 1e-9)
	assert.InDelta(t, 1.5*p.HeightMM, q.HeightMM, 1e-9)
	assert.InDelta(t, 1.5*p.FootMM, q.FootMM, 1e-9)
	assert.Equal(t, p, p.To(0), "no length: as drawn")
	hanging := func(p draw.Picture) float64 { return p.FootMM / p.HeightMM }
	assert.Less(t, hanging(p), 0.1, "a sedge stands on its base line")
	assert.Greater(t, p.WidthMM, 10.0)
	assert.Less(t, p.WidthMM, 14.0, "little more than head to wing tip")
	w, h := p.Pixels(3)
	assert.InDelta(t, 3*p.WidthMM, float64(atoi(w)), 0.5)
	assert.InDelta(t, 3*p.HeightMM, float64(atoi(h)), 0.5)
}

func TestPictograms(t *testing.T) {
	book, a := demoAlbum(t)
	n := 0
	for _, c := range book.Edition.Characters {
		for _, s := range c.States {
			address := a.Pictogram(c.Name, s.Name)
			require.NotEmpty(t, address, "%s: %s", c.Name, s.Name)
			svg := bytesOf(t, a, address)
			assert.NotContains(t, svg, "<text", "%s: %s has no drawing of its own", c.Name, s.Name)
			assert.Contains(t, svg, s.Name+"</title>")
			n++
		}
	}
	assert.GreaterOrEqual(t, n, 60)
	assert.Empty(t, a.Pictogram("tails", "nine"))

	_, a = guideOf(t, "group: sedge")
	assert.Contains(t, bytesOf(t, a, a.Pictogram("posture", "rolled")), "<path", "found by the part that it is tied to")
	tile := bytesOf(t, a, a.Pictogram("smell", "of rain on hot stones"))
	assert.Contains(t, tile, ">of rain<")
	assert.Contains(t, tile, ">stones<", "in three lines")
	assert.Contains(t, bytesOf(t, a, a.Pictogram("匂い", "花")), ">花<")
	for _, f := range a.Files() {
		assert.Regexp(t, `^fig/([sdp]/)?[a-z0-9-]+\.svg$`, f.Address)
	}
}

// Both sexes share a file where nothing drawn differs.
func TestSexesThatLookAlike(t *testing.T) {
	f, a := guideOf(t, "group: sedge\nlength: {adult male: 8 mm, adult female: 12 mm}")
	m, w := a.Fly(f, species.Adult, species.Male), a.Fly(f, species.Adult, species.Female)
	assert.Equal(t, m.Address, w.Address)
	assert.InDelta(t, 1.5, w.WidthMM/m.WidthMM, 1e-9, fmt.Sprint(m, w))
	f, a = guideOf(t, "group: upwinged\nfeatures: {eyes: {dun male: turban, dun female: plain}}")
	assert.NotEqual(t, a.Fly(f, species.Dun, species.Male).Address, a.Fly(f, species.Dun, species.Female).Address)
	assert.Equal(t, a.Fly(f, species.Dun, species.Female).Address, a.Fly(f, species.Dun, species.NoSex).Address)
}
