package trial

// Random guides: small, and odd in each way that a guide may be.

import (
	"fmt"
	"math/rand/v2"
	"slices"
	"strings"
	"testing/fstest"

	"guidegen/content/calendar"
)

// Random makes a small guide of two or three waters, the same for the same seed. By the seed it lies at 55° N, beyond
// the equator or at 68° N; its flies have one flight or two, some across New Year, some land-bred, some laying under
// water; a fly, a water, a place and a dressing are withheld; one water has no visits, another many over four years.
func Random(seed uint64) fstest.MapFS {
	g := &random{rand.New(rand.NewPCG(seed, 7)), fstest.MapFS{}, seed}
	g.guide()
	for i := range 7 {
		g.fly(i)
	}
	for i := range 14 {
		g.dressing(i)
	}
	for i := range 3 {
		g.water(i)
	}
	return g.files
}

type random struct {
	*rand.Rand
	files fstest.MapFS
	seed  uint64
}

func one[T any](g *random, list ...T) T { return list[g.IntN(len(list))] }

// often writes a line of an account in two of three cases.
func (g *random) often(text string) string {
	if g.IntN(3) == 0 {
		return ""
	}
	return text
}

func (g *random) latitude() string {
	return [...]string{"55.%d N", "41.%d S", "68.%d N"}[g.seed%3]
}

func (g *random) guide() {
	g.files["guide.yaml"] = File("format: 1\nname: Random guide\nbasis: memory\npeople: {Ada Quickly: full, Bo Withers: none}\n" +
		"reference: {altitude: 60 m, latitude: " + fmt.Sprintf(g.latitude(), 5) + g.often(", water_temperature: {unit: °C, months: "+g.months(0)+"}") + "}\n" +
		g.often(fmt.Sprintf("figures: {season: {thin_visits: %d, bandwidth: %d}}\n", 2+g.IntN(4), 5+g.IntN(6))))
	hooks := "model,size,shank mm,gape mm,shape,for,from mm,measured by,measured on\n"
	for i, mm := range []float64{11.2, 9.8, 8.5, 7.2, 6.1, 5.2} {
		hooks += fmt.Sprintf("dry,%d,%.1f,5,straight,%s,,Ada Quickly,2025-01-17\nwet,%d,%.1f,5,straight,,,Ada Quickly,2025-01-17\n", 10+2*i, mm, one(g, "", "dun; spinner; adult"), 10+2*i, mm-.4)
	}
	g.files["hooks.csv"] = File(hooks)
}

func (g *random) months(warmer float64) string {
	var l []string
	for _, t := range []float64{4.8, 4.9, 6.1, 8.3, 10.9, 13.4, 14.8, 14.5, 12.7, 10.0, 7.1, 5.4} {
		l = append(l, fmt.Sprintf("%.1f", t+warmer))
	}
	if g.seed%3 == 1 {
		l = append(l[6:], l[:6]...)
	}
	return "[" + strings.Join(l, ", ") + "]"
}

func flyName(i int) string { return "Fly " + string(rune('A'+i)) }

var groupStages = map[string][]string{"upwinged": {"nymph", "dun", "spinner"}, "sedge": {"pupa", "adult"}, "stonefly": {"nymph", "adult"},
	"midge": {"pupa", "adult"}, "land-bred": {"adult"}}

func (g *random) group(i int) string {
	return [...]string{"upwinged", "upwinged", "sedge", "land-bred", "upwinged", "stonefly", "midge"}[i]
}

// flights are one or two; those of the fly C run from winter into the next year.
func (g *random) flights(i int) (names []string, dates []string) {
	day := func(d int) string {
		x := calendar.Day(1).Add(d)
		return fmt.Sprintf("%d %s", x.DayOfMonth(), x.Month().String()[:3])
	}
	start := g.IntN(365)
	if i == 2 {
		start = 320 + g.IntN(40)
	}
	for k := range 1 + (i+1)%2*min(1, g.IntN(3)) {
		length := 8 + g.IntN(70)
		text := "from: " + day(start) + ", "
		if g.IntN(3) > 0 {
			text += "peak: " + day(start+length/4+g.IntN(length/2)) + ", "
		}
		names = append(names, [...]string{"first", "second"}[k])
		dates = append(dates, text+"to: "+day(start+length))
		start += length + 10 + g.IntN(90)
	}
	return names, dates
}

func (g *random) certain(fly int) bool { return fly == 4 && g.seed%4 == 3 }

func (g *random) fly(i int) {
	group := g.group(i)
	stages := groupStages[group]
	last := stages[len(stages)-1]
	names, dates := g.flights(i)
	text := fmt.Sprintf("---\nname: %s\nscientific: Fictus %sus\ngroup: %s\nbasis: memory\nflights:\n", flyName(i), strings.Repeat("a", i+1), group)
	class := func() string { return one(g, "dominant", "abundant", "frequent", "occasional", "rare") }
	if g.certain(i) { // flights at once, of a fly that nobody can miss
		names, dates = []string{"first", "second", "third"}, slices.Repeat([]string{"from: 1 Mar, to: 10 Sep"}, 3)
		class = func() string { return "dominant" }
	}
	for k := range names {
		text += fmt.Sprintf("  %s: {%s, abundance: %s%s}\n", names[k], dates[k], class(), one(g, "", "", ", moves: nothing", ", moves: altitude"))
	}
	if i == 5 {
		text += "show: members\n"
	}
	if level := last + ": " + one(g, "surface", "film"); len(stages) > 1 {
		text += "lays: " + one(g, "under water", "under water", "on the surface", "unknown") + "\nemerges: " + one(g, "at the surface", "by crawling out", "unknown") + "\n"
		text += g.often("level: {" + level + ", " + stages[0] + ": " + one(g, "surface", "bottom") + "}\n")
	}
	hours := last + ": " + one(g, "sunset-2h to sunset+30min", "10:00 to 14:00", "sunrise to sunrise+3h")
	switch {
	case len(names) == 2 && g.IntN(2) == 0:
		hours = last + ": {first: 11:00 to 15:00, second: 12:30 to 14:00}"
	case g.IntN(3) == 0:
		hours = last + " male: sunset-1h to sunset, " + last + " female: 18:00 to 20:30"
	}
	text += g.often("hours: {" + hours + "}\n")
	length := 3 + g.IntN(9)
	lengths := fmt.Sprintf("%s: %d to %d mm", last, length, length+2)
	if len(names) == 2 && g.IntN(2) == 0 {
		lengths = fmt.Sprintf("%s: {first: %d to %d mm, second: %d to %d mm}", last, length+1, length+2, length-1, length)
	}
	text += g.often("length: {" + lengths + "}\n")
	text += g.often("colours: {" + last + ": {body: " + one(g, "Dark Olive", "Light Gray", "Moderate Reddish Brown") + "}}\n")
	g.files[fmt.Sprintf("species/fly-%d.md", i)] = File(text + "---\nA fly.\n")
}

// dressing is tied for a fly, for several or for a group; of some neither size nor colour is known.
func (g *random) dressing(i int) {
	fly := i % 7
	if i > 8 && i < 12 { // several for one
		fly = int(g.seed) % 5
	}
	stages := groupStages[g.group(fly)]
	stage := stages[len(stages)-1]
	if g.IntN(3) == 0 && i < 9 {
		stage = stages[0]
	}
	who := "flies: [" + flyName(fly) + "]"
	if i > 11 {
		who = "groups: [" + g.group(fly) + "]"
	}
	text := fmt.Sprintf("name: Pattern %c\nbasis: common practice\nfishes: %s\nstands_for: {%s, stage: %s%s}\n", 'A'+rune(i),
		one(g, "surface", "film", "midwater", "[surface, film]"), who, stage, one(g, "", "", "", ", sex: female"))
	if i != 3 {
		text += fmt.Sprintf("sizes: %d-%d\nparts:\n  hook: %s\n  body: {of: fur, colour: %s, wet: yes}\n", 10+2*g.IntN(3), 16+2*g.IntN(3), one(g, "dry", "wet"), one(g, "Dark Olive", "Light Gray", "Black"))
	}
	if i == 6 {
		text += "show: members\n"
	}
	g.files[fmt.Sprintf("dressings/pattern-%d.yaml", i)] = File(text)
}

// water lists some of the flies, some with dates of its own. Nobody has been to the last one's flies; to the second
// somebody goes all the year round, and the third is withheld or has few visits, by the seed.
func (g *random) water(i int) {
	name := "Water " + string(rune('X'+i))
	text := fmt.Sprintf("name: %s\nkind: %s\nplace: %s, %d.2 W\naltitude: %d m\ntime_zone: %s\n", name, one(g, "rain-fed", "spring-fed", "peaty"),
		fmt.Sprintf(g.latitude(), i), 8+i, g.IntN(400), one(g, "Europe/London", "Pacific/Auckland", "Europe/Oslo"))
	text += g.often("temperature: {unit: °C, months: " + g.months(g.Float64()*4-2) + "}\n")
	text += one(g, "", "", "methods: [dry]\n", "methods: [nymph, wet]\n")
	if i == 2 && g.seed%2 == 0 {
		text += "show: members\n"
	}
	text += "beats:\n  Upper: {show: members}\n  Lower: {}\nflies:\n"
	var here []int
	for _, k := range g.Perm(7)[:5] {
		here = append(here, k)
		class := one(g, "dominant", "frequent", "occasional", "rare")
		names, dates := g.flights(k)
		if len(names) == 1 && g.IntN(4) == 0 && strings.Count(string(g.files[fmt.Sprintf("species/fly-%d.md", k)].Data), "abundance") == 1 {
			class = "{abundance: " + class + ", " + dates[0] + one(g, "", ", show: members") + "}"
		}
		if g.certain(k) {
			class = "listed"
		}
		text += "  " + flyName(k) + ": " + class + "\n"
	}
	text += "seasons:\n  - {fish: trout, open: " + one(g, "1 Apr", "29 Feb", "1 Oct") + ", close: " + one(g, "30 Sep", "30 Apr") + "}\n"
	g.files[fmt.Sprintf("rivers/water-%d.yaml", i)] = File(text)
	if i == 0 && g.IntN(2) == 0 {
		return // nobody looked
	}
	g.visits(i, name, here)
}

// visits are of four years; what is found need be neither listed nor in season.
func (g *random) visits(i int, name string, here []int) {
	var b strings.Builder
	b.WriteString("visit,date,water,beat,method,effort,looked for,fly,stage,sex,count,lengths mm,by,checked\n")
	for n := range []int{20, 150, 40}[i] {
		date := calendar.Date{Year: 2023, Month: 1, Day: 1}.AddDays(g.IntN(4*365 - 60))
		head := fmt.Sprintf("%c%d,%s,%s,%s,%s,%s", 'X'+rune(i), n, date, name, one(g, "Upper", "Lower", ""), one(g, "sweep net,50 sweeps", "sweep net,50 sweeps", "sweep net,50 sweeps", "sweep net,20 sweeps", "bank search,20 minutes", "light trap,"),
			one(g, "all", "water-bred", "upwinged", "none"))
		rest := one(g, "Ada Quickly", "Bo Withers", "Cy Young") + "," + one(g, "verified", "verified", "unreviewed")
		found := 0
		for _, k := range g.Perm(7)[:1+g.IntN(7)] {
			if near := near(string(g.files[fmt.Sprintf("species/fly-%d.md", k)].Data), date.OfYear()); !near && g.IntN(6) > 0 {
				continue
			}
			stages := groupStages[g.group(k)]
			lengths := ""
			if g.IntN(2) == 0 {
				lengths = fmt.Sprintf("%.1f %.1f", 5+3*g.Float64(), 5+3*g.Float64())
			}
			fmt.Fprintf(&b, "%s,%s,%s,%s,%d,%s,%s\n", head, flyName(k), stages[len(stages)-1], one(g, "male", "female", ""), 1+g.IntN(9), lengths, rest)
			head, found = fmt.Sprintf("%c%d,,,,,,", 'X'+rune(i), n), found+1
		}
		if found == 0 {
			fmt.Fprintf(&b, "%s,nothing,,,,,%s\n", head, rest)
		}
	}
	g.files[fmt.Sprintf("samples/water-%d.csv", i)] = File(b.String())
}

// near reports whether a day lies in a flight of an account, or a week beside it.
func near(account string, d calendar.Day) bool {
	for _, l := range strings.Split(account, "\n") {
		var dates [2]calendar.Day
		for k, key := range []string{"from: ", "to: "} {
			if _, after, ok := strings.Cut(l, key); ok {
				when, _, _ := strings.Cut(after, ",")
				if x, err := calendar.ParseDay(when, calendar.From); err == nil {
					dates[k] = x
				}
			}
		}
		if dates[0] > 0 && dates[1] > 0 && calendar.Within(d, dates[0].Add(-7), dates[1].Add(7)) {
			return true
		}
	}
	return false
}
