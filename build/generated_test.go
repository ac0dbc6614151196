package build

// Whole guides of any size, for measuring and for properties that every guide has. The demo's accounts are the
// moulds: what a feature, a colour or a length may be comes from them, so that a guide of a hundred flies is as
// rich as the demo.

import (
	"fmt"
	"io/fs"
	"maps"
	"math/rand/v2"
	"regexp"
	"slices"
	"strconv"
	"strings"
	"testing"
	"testing/fstest"

	"github.com/stretchr/testify/require"

	"guidegen/content"
	"guidegen/content/calendar"
	"guidegen/content/demo"
)

// size is how large a guide is; it has the demo's flies at least, since the demo's dressings name them.
type size struct{ waters, flies int }

func (s size) String() string { return fmt.Sprintf("%dx%d", s.waters, s.flies) }

// listed is how many flies a water lists.
func (s size) listed() int { return 12 + s.flies/5 }

// generator makes one guide; the same seed and size give the same files.
type generator struct {
	rng    *rand.Rand
	files  fstest.MapFS
	moulds []mould
	flies  []madeFly
}

// mould is an account of the demo.
type mould struct {
	file, text, group string
	features          map[string]string // by name, the line
}

// madeFly is a fly of the guide.
type madeFly struct {
	name, stage string
	first, last int // months on the wing
	mm          float64
}

var generatedDay = calendar.Date{Year: 2026, Month: 6, Day: 10}

// generate makes a guide's files.
func generate(seed uint64, s size) fstest.MapFS {
	g := &generator{rng: rand.New(rand.NewPCG(seed, 1)), files: fstest.MapFS{}}
	must(fs.WalkDir(demo.FS, ".", func(name string, d fs.DirEntry, err error) error {
		if err != nil || d.IsDir() {
			return err
		}
		text, err := fs.ReadFile(demo.FS, name)
		must(err)
		switch dir, _, _ := strings.Cut(name, "/"); dir {
		case "species":
			g.moulds = append(g.moulds, newMould(name, string(text)))
		case "guide.yaml", "characters.yaml", "sources.yaml", "hooks.csv", "dressings":
			g.add(name, string(text))
		}
		return nil
	}))
	for i := range s.flies {
		g.fly(i)
	}
	for i := range s.waters {
		g.water(i, s.listed())
	}
	g.add("notes/how-to-sample.md", "---\ntitle: How to sample\n---\nWith a net.\n")
	return g.files
}

func (g *generator) add(name, text string) { g.files[name] = &fstest.MapFile{Data: []byte(text)} }

func oneOf[T any](g *generator, list ...T) T { return list[g.rng.IntN(len(list))] }

var (
	featureLine = regexp.MustCompile(`(?m)^  ([a-z ]+): .*$`)
	monthIn     = regexp.MustCompile(`(?:from|to): [a-z0-9 ]*?(Jan|Feb|Mar|Apr|May|Jun|Jul|Aug|Sep|Oct|Nov|Dec)`)
	millimetres = regexp.MustCompile(`(\d[\d.]*) to (\d[\d.]*) mm`)
	ownNames    = regexp.MustCompile(`(?m)^(?:also|synonyms|was): .*\n`)
	nameLines   = regexp.MustCompile(`(?m)^name: .*\nscientific: .*$`)
)

func newMould(file, text string) mould {
	m := mould{file: file, text: text, features: map[string]string{}}
	_, m.group, _ = strings.Cut(text, "\ngroup: ")
	m.group, _, _ = strings.Cut(m.group, "\n")
	_, features, _ := strings.Cut(text, "\nfeatures:")
	features, _, _ = strings.Cut(features, "\n---")
	for _, l := range featureLine.FindAllStringSubmatch(features, -1) {
		m.features[l[1]] = l[0]
	}
	return m
}

// fly adds an account, for those past the demo's with some features of another fly of its group, another length
// and a dressing of its own.
func (g *generator) fly(i int) {
	m := g.moulds[i%len(g.moulds)]
	text, file := m.text, m.file
	if i >= len(g.moulds) {
		name := fmt.Sprintf("%s no. %d", named(m.text), i)
		file = fmt.Sprintf("species/fly-%d.md", i)
		text = ownNames.ReplaceAllString(text, "")
		text = nameLines.ReplaceAllLiteralString(text, "name: "+name+"\nscientific: Fictus "+epithet(i))
		for _, feature := range slices.Sorted(maps.Keys(m.features)) {
			other := oneOf(g, g.moulds...)
			if its, has := other.features[feature]; has && other.group == m.group && g.rng.IntN(3) == 0 {
				text = strings.Replace(text, m.features[feature], its, 1)
			}
		}
		k := 0.8 + 0.5*g.rng.Float64()
		text = millimetres.ReplaceAllStringFunc(text, func(s string) string {
			p := millimetres.FindStringSubmatch(s)
			return fmt.Sprintf("%.1f to %.1f mm", k*number(p[1]), k*number(p[2]))
		})
	}
	f := madeFly{name: named(text), stage: "adult", mm: 8}
	if strings.Contains(text, "dun: surface") {
		f.stage = "dun"
	}
	if p := millimetres.FindStringSubmatch(text); p != nil {
		f.mm = (number(p[1]) + number(p[2])) / 2
	}
	months := monthIn.FindAllStringSubmatch(text, 2)
	f.first, f.last = monthNumber(months[0][1]), monthNumber(months[1][1])
	g.flies = append(g.flies, f)
	g.add(file, text)
	if i >= len(g.moulds) {
		colours := []string{"Dark Olive", "Grayish Olive", "Dark Bluish Gray", "Moderate Reddish Brown", "Light Olive Gray", "Dark Grayish Brown"}
		g.add(fmt.Sprintf("dressings/pattern-%d.yaml", i), fmt.Sprintf("name: Pattern %d\nbasis: common practice\nfrom: traditional\nfishes: surface\n"+
			"stands_for: {flies: [%s], stage: %s}\nsizes: 12-18\nparts:\n  hook: dry\n  thread: olive\n  body: {of: fur, colour: %s, wet: yes}\n"+
			"  wing: {of: hen slips, colour: %s}\n  hackle: {of: cock, colour: %s}\n",
			i, f.name, f.stage, oneOf(g, colours...), oneOf(g, colours...), oneOf(g, colours...)))
	}
}

// water adds a water, two years of visits to it, and its temperatures.
func (g *generator) water(i, listed int) {
	name := fmt.Sprintf("Water no. %d", i)
	var w strings.Builder
	fmt.Fprintf(&w, "name: %s\nkind: %s\nplace: %.3f N, %.3f W\naltitude: %d-%d m\ntime_zone: Europe/London\nbasis: own\ntemperature:\n  {unit: °C, basis: own, months: [",
		name, oneOf(g, "spring-fed", "rain-fed", "peaty", "reservoir"), 55.5+g.rng.Float64(), 8+g.rng.Float64(), 20+10*i%200, 260+10*i%200)
	for m, t := range []float64{4.8, 4.9, 6.1, 8.3, 10.9, 13.4, 14.8, 14.5, 12.7, 10.0, 7.1, 5.4} {
		if m > 0 {
			w.WriteString(", ")
		}
		fmt.Fprintf(&w, "%.1f", t+float64(i%5)/2-1)
	}
	w.WriteString("]}\nbeats:\n  Upper: {show: members}\n  Lower: {}\nflies:\n")
	var here []madeFly
	for _, k := range g.rng.Perm(len(g.flies))[:min(listed, len(g.flies))] {
		here = append(here, g.flies[k])
		fmt.Fprintf(&w, "  %s: %s\n", g.flies[k].name, oneOf(g, "abundant", "frequent", "occasional", "rare"))
	}
	g.add(fmt.Sprintf("rivers/water-%d.yaml", i), w.String())

	for _, year := range []int{2025, 2026} {
		var v, t strings.Builder
		v.WriteString("visit,date,start,end,water,beat,method,effort,looked for,fly,stage,sex,count,lengths mm,by,named by,checked,reared,remarks\n")
		t.WriteString("water,date,time,kind,temperature °C,min °C,max °C,mean °C,place,by,remarks\n")
		last := 300
		if year == generatedDay.Year {
			last = generatedDay.Sub(calendar.Date{Year: year, Month: 1, Day: 1})
		}
		for n := range 24 {
			day := calendar.Date{Year: year, Month: 1, Day: 1}.AddDays(60 + g.rng.IntN(last-60))
			fmt.Fprintf(&t, "%s,%s,12:10,spot,%.1f,,,,,Ottilie Varnsby,\n", name, day, 5+8*g.rng.Float64())
			head := fmt.Sprintf("%s,12:00,12:40,%s,Lower,sweep net,50 sweeps,all", day, name)
			found := 0
			for _, k := range g.rng.Perm(len(here)) {
				f := here[k]
				if month := int(day.Month); found == 4 || month < f.first || month > f.last {
					continue
				}
				lengths := fmt.Sprintf("%.1f %.1f", f.mm*(0.9+0.2*g.rng.Float64()), f.mm*(0.9+0.2*g.rng.Float64()))
				fmt.Fprintf(&v, "W%d-%d-%02d,%s,%s,%s,female,%d,%s,Ottilie Varnsby,Hew Callordine,verified,,\n", i, year, n, head, f.name, f.stage, 2+g.rng.IntN(5), lengths)
				head, found = ",,,,,,,", found+1
			}
			if found == 0 {
				fmt.Fprintf(&v, "W%d-%d-%02d,%s,nothing,,,0,,Ottilie Varnsby,,,,\n", i, year, n, head)
			}
		}
		g.add(fmt.Sprintf("samples/water-%d-%d.csv", i, year), v.String())
		g.add(fmt.Sprintf("temperature/water-%d-%d.csv", i, year), t.String())
	}
}

func named(account string) string {
	_, name, _ := strings.Cut(account, "\nname: ")
	name, _, _ = strings.Cut(name, "\n")
	return name
}

// epithet is a number as a name of a species can hold it.
func epithet(i int) string {
	return strings.Map(func(r rune) rune { return 'a' + r - '0' }, strconv.Itoa(i)) + "us"
}

func number(s string) float64 {
	f, err := strconv.ParseFloat(s, 64)
	must(err)
	return f
}

func monthNumber(s string) int { return strings.Index("JanFebMarAprMayJunJulAugSepOctNovDec", s)/3 + 1 }

func must(err error) {
	if err != nil {
		panic(err)
	}
}

// The site of a generated guide verifies, for both editions, and the same seed gives the same guide.
func TestGeneratedGuidesVerify(t *testing.T) {
	t.Parallel()
	for seed, s := range []size{{1, 58}, {2, 64}} {
		files := generate(uint64(seed), s)
		require.Equal(t, files, generate(uint64(seed), s))
		r, err := Proof(Options{Source: &Source{Files: files}, Date: generatedDay})
		require.NoError(t, err)
		for _, p := range r.Problems {
			require.NotEqual(t, content.Error, p.Grade, "%v %s", p.At, p.Message)
		}
		require.NotZero(t, r.Pages)
	}
}
