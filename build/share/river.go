package share

// data/rivers/<address>.json: everything reckoned for one water.

import (
	"maps"
	"slices"

	"guidegen/build/figures"
	"guidegen/content/calendar"
	"guidegen/rivers"
	"guidegen/rivers/daylight"
	"guidegen/rivers/season"
)

type river struct {
	head
	Address   string         `json:"address" doc:"lasting address of the water"`
	Name      string         `json:"name" doc:"the water's name"`
	Kind      string         `json:"kind" doc:"kind of water"`
	Latitude  *number        `json:"latitude,omitempty" doc:"degrees, north positive" range:"-90 90"`
	Longitude *number        `json:"longitude,omitempty" doc:"degrees, east positive" range:"-180 180"`
	Altitude  *altitude      `json:"altitude,omitempty" doc:"height above the sea"`
	Zone      *string        `json:"time_zone,omitempty" doc:"IANA time zone of all its clock times"`
	Regulated bool           `json:"regulated,omitempty" doc:"its temperature follows a dam or other works"`
	Months    []*number      `json:"monthly_temperature" doc:"mean water temperature of the record, °C, January first; null where a month isn't known" items:"12"`
	Wave      *wave          `json:"temperature,omitempty" doc:"the year of its temperature as a wave; left out where readings don't settle one"`
	Spots     *spots         `json:"spot_readings,omitempty" doc:"thermometer readings, kept apart from the wave; left out where there are none"`
	Ahead     []ahead        `json:"ahead,omitempty" doc:"how far the newest logger year is ahead of a normal one"`
	Coverage  coverage       `json:"coverage" doc:"how well the water is known"`
	Right     rightness      `json:"rightness" doc:"how right the guide was, each year left out in turn"`
	Methods   []string       `json:"methods,omitempty" doc:"the kinds of fly that its rules allow: dry, nymph, wet; left out where they allow all" enum:"dry|nymph|wet"`
	Seasons   []fishing      `json:"seasons,omitempty" doc:"fishing seasons"`
	Sun       []sun          `json:"sun,omitempty" doc:"the sun on the 15th of each month of the year built for; left out for a water without a place or a time zone"`
	Groups    []groupMonths  `json:"groups,omitempty" doc:"flies to expect of each group: the sum of their monthly chances"`
	Key       couplets       `json:"key" doc:"the key to its flies over the whole year"`
	Flies     map[string]fly `json:"flies" doc:"flies listed for or found on the water, by the account's address"`
}

type head struct {
	Format    int     `json:"format" doc:"version of this format" enum:"2"`
	Schema    string  `json:"schema" doc:"address of this file's schema, from this file"`
	Guide     string  `json:"guide" doc:"the guide's name"`
	Edition   string  `json:"edition" doc:"what the public may see, or members" enum:"public|members"`
	Licence   *string `json:"licence,omitempty" doc:"licence of text and data"`
	Built     date    `json:"built" doc:"the date the guide was built for"`
	RecordsTo *date   `json:"records_to,omitempty" doc:"last visit"`
}

func headOf(book *figures.Book, schema string, to calendar.Date) head {
	s := book.Edition.Settings
	return head{Format, schema, s.Name, book.Edition.Name(), text(s.Licence), date(book.Built.String()), maybeDate(to)}
}

type altitude struct {
	Low  number `json:"low" doc:"metres"`
	High number `json:"high" doc:"metres"`
}

type wave struct {
	M        number    `json:"M" doc:"°C, mean of the year: T(d) = M + a cos(2πd/365) + b sin(2πd/365) for the day of the year d"`
	A        number    `json:"a" doc:"°C"`
	B        number    `json:"b" doc:"°C"`
	Residual *number   `json:"residual,omitempty" doc:"standard error of the fit, °C; left out for three readings, which any wave meets" range:"0"`
	From     string    `json:"from" doc:"what it is fitted to" enum:"monthly means|logger"`
	N        int       `json:"n" doc:"readings in the fit"`
	Basis    []support `json:"basis,omitempty" doc:"what it rests on"`
}

type spots struct {
	N    int    `json:"n" doc:"readings"`
	Min  number `json:"min" doc:"°C"`
	Mean number `json:"mean" doc:"°C"`
	Max  number `json:"max" doc:"°C"`
}

type ahead struct {
	On        date    `json:"on" doc:"last day of the logger's newest year"`
	Threshold number  `json:"threshold" doc:"°C above which degrees are summed"`
	Days      *number `json:"days,omitempty" doc:"days of the normal year, ahead is positive; left out: cannot tell"`
	WhyNot    *string `json:"why_not,omitempty" doc:"why it can't be told" enum:"no-readings|days-missing|no-normal|too-few-years|sum-zero|past-normal"`
	Sum       *number `json:"sum,omitempty" doc:"°C days of the days that have a reading; left out where it was not summed"`
	Normal    *number `json:"normal,omitempty" doc:"°C days of the same days in a normal year; left out where it was not summed"`
	Missing   int     `json:"missing" doc:"days so far without a reading"`
	Of        int     `json:"of" doc:"days so far"`
	Years     int     `json:"years" doc:"earlier logger years in the normal; 0 for the smooth curve"`
	Against   *string `json:"against,omitempty" doc:"what a normal year is: a smooth curve through monthly means or a logger's days, or the mean of the logger's earlier years; left out for none" enum:"monthly means|logger|earlier years"`
	NormalOf  *int    `json:"normal_years,omitempty" doc:"logger years in that; left out where they are not on record" range:"1"`
	Thin      bool    `json:"thin,omitempty" doc:"thin evidence: fewer than three years in the normal, or none on record"`
	Withheld  *string `json:"withheld,omitempty" doc:"why the pages don't print the days: far, more than the guide moves any flight by; regulated, a smooth curve does not fit below a dam; stale, the newest reading was more than 30 days old when the guide was built" enum:"far|regulated|stale"`
}

type yearCount struct {
	Year   int `json:"year" doc:"calendar year" range:"1"`
	Visits int `json:"visits" doc:"visits"`
}

type coverage struct {
	Visits    int         `json:"visits" doc:"visits that looked for some fly"`
	Years     []int       `json:"years,omitempty" doc:"years with visits"`
	Cells     []cellYears `json:"cells" doc:"dated visits per half-month and year" items:"24"`
	Recorders []recorder  `json:"recorders,omitempty" doc:"share of empty visits"`
	Withheld  int         `json:"withheld" doc:"visits whose place and people are not told here"`
	Species   *richness   `json:"species,omitempty" doc:"species found and expected (Chao2); left out where fewer than two visits or no species"`
	Best      []nextVisit `json:"best_cells,omitempty" doc:"half-months in which one more visit would help most, best first"`
}

type nextVisit struct {
	Cell   string   `json:"cell" doc:"half-month: a from the 1st, b from the 16th" pattern:"^(0[1-9]|1[0-2])[ab]$"`
	Fall   number   `json:"fall" doc:"by how much one standard visit would narrow the 80 % ranges of the month, summed over the flies"`
	Visits int      `json:"visits" doc:"dated visits in it so far"`
	Years  int      `json:"years" doc:"calendar years of these"`
	On     []string `json:"on,omitempty" doc:"listed flies that are on in it"`
	Never  []string `json:"never_found,omitempty" doc:"of these, flies never found in it"`
}

type cellYears struct {
	Cell  string      `json:"cell" doc:"half-month: a from the 1st, b from the 16th" pattern:"^(0[1-9]|1[0-2])[ab]$"`
	Years []yearCount `json:"years,omitempty" doc:"years with a visit"`
}

type recorder struct {
	Who    *string `json:"who,omitempty" doc:"as they wish to be named; left out for no name"`
	Visits int     `json:"visits" doc:"visits"`
	Empty  int     `json:"empty" doc:"of them, without a fly"`
}

type richness struct {
	Visits   int    `json:"visits" doc:"visits that looked"`
	Found    int    `json:"found" doc:"species found"`
	Once     int    `json:"once" doc:"species found on exactly one visit"`
	Twice    int    `json:"twice" doc:"species found on exactly two visits"`
	Expected number `json:"expected" doc:"species expected (Chao 1987, bias-corrected incidence form)" range:"0"`
	StdErr   number `json:"standard_error" doc:"of the number expected" range:"0"`
}

type rightness struct {
	Tell    bool    `json:"tell,omitempty" doc:"false: fewer than three years of visits, so it can't be told"`
	Years   []int   `json:"years,omitempty" doc:"years of visits"`
	N       int     `json:"n" doc:"visits judged; one counts once for every fly it looked for"`
	Bands   []band  `json:"bands,omitempty" doc:"chance said against share found; left out where it can't be told"`
	Brier   *number `json:"brier,omitempty" doc:"mean of (chance - found)², 0 at best" range:"0 1"`
	Account *number `json:"brier_account,omitempty" doc:"the same for the account alone" range:"0 1"`
}

type band struct {
	From  number `json:"from" doc:"chance said, from" range:"0 1"`
	Below number `json:"below" doc:"chance said, below; the last band holds 1" range:"0 1"`
	N     int    `json:"n" doc:"visits"`
	Found int    `json:"found" doc:"of them, found"`
}

type fishing struct {
	Fish    string  `json:"fish" doc:"which fish"`
	Open    day     `json:"open" doc:"first day of fishing; go by its date, where 29 February lies between 28 February and 1 March"`
	Close   day     `json:"close" doc:"last day of fishing, likewise"`
	Checked *date   `json:"checked,omitempty" doc:"when the dates were last checked"`
	Note    *string `json:"note,omitempty" doc:"anything else"`
}

type sun struct {
	Month int     `json:"month" doc:"1 to 12" range:"1 12"`
	Dawn  *clock  `json:"dawn,omitempty" doc:"start of civil twilight, local time; left out: there is none that day"`
	Rise  *clock  `json:"rise,omitempty" doc:"sunrise"`
	Noon  *clock  `json:"noon,omitempty" doc:"the sun's highest point"`
	Set   *clock  `json:"set,omitempty" doc:"sunset"`
	Dusk  *clock  `json:"dusk,omitempty" doc:"end of civil twilight"`
	Polar *string `json:"polar,omitempty" doc:"in words, that the sun does not set or does not rise"`
}

type groupMonths struct {
	Group  string   `json:"group" doc:"group of flies"`
	Months []number `json:"months" doc:"sum of chances, January first" items:"12" range:"0"`
}

func riverOf(book *figures.Book, w *figures.Water) *river {
	out := &river{head: headOf(book, "../river.schema.json", w.RecordsTo), Address: w.Address, Name: w.Name.S, Kind: string(w.Kind),
		Latitude: known(w.Place.Latitude.Degrees, w.HasPlace), Longitude: known(w.Place.Longitude.Degrees, w.HasPlace),
		Zone: text(w.ZoneName), Regulated: w.Warmth.Regulated, Coverage: coverageOf(w), Right: rightnessOf(w.Rightness),
		Key: keyOf(w.Key()), Flies: map[string]fly{}}
	if w.HasAltitude() {
		out.Altitude = &altitude{number(w.Altitude.Low), number(w.Altitude.High)}
	}
	out.Months = monthsOf(w.Temperature)
	if t := w.Warmth; t.Known {
		out.Wave = &wave{number(t.M), number(t.A), number(t.B), known(t.Residual, t.N > 3), t.From, t.N, basisOf(t.Basis)}
	}
	if t := w.Warmth; t.SpotN > 0 {
		out.Spots = &spots{t.SpotN, number(t.SpotMin), number(t.SpotMean), number(t.SpotMax)}
	}
	out.Ahead = each(w.Ahead, aheadOf)
	for _, m := range w.Methods {
		out.Methods = append(out.Methods, string(m))
	}
	out.Seasons = each(w.Seasons, func(s rivers.Season) fishing {
		return fishing{s.Fish.S, day{s.Open.String(), int(s.Open.OfYear())}, day{s.Close.String(), int(s.Close.OfYear())}, maybeDate(s.Checked), text(s.Note.S)}
	})
	out.Sun = []sun{}
	if w.HasSun() {
		for i, d := range w.Sun {
			out.Sun = append(out.Sun, sunOf(i+1, d))
		}
	}
	out.Groups = each(w.Groups, func(g figures.GroupMonths) groupMonths {
		return groupMonths{string(g.Group), each(g.Sum[:], func(v float64) number { return number(v) })}
	})
	for _, r := range w.Rows {
		out.Flies[r.Fly.Address] = flyOf(book, r)
	}
	return out
}

func monthsOf(t rivers.MonthlyTemperature) []*number {
	out := make([]*number, 12)
	for i := range out {
		out[i] = known(t.Months[i], t.Known[i])
	}
	return out
}

func aheadOf(a figures.Ahead) ahead {
	var years *int
	if a.NormalYears > 0 {
		years = &a.NormalYears
	}
	withheld := a.Withheld
	if a.Why == "" && a.Stale {
		withheld = "stale"
	}
	summed := a.Why == "" || a.Why == season.SumZero || a.Why == season.PastNormal
	return ahead{date(a.On.String()), number(a.Threshold), known(a.Days, a.Why == ""), text(string(a.Why)),
		known(a.Sum, summed), known(a.Normal, summed), a.Missing, a.Of, a.Years,
		text(a.Against), years, a.Thin, text(withheld)}
}

func coverageOf(w *figures.Water) coverage {
	c := w.Coverage
	out := coverage{Visits: w.Visits, Years: list(w.Years)}
	for cell := range calendar.Cell(calendar.Cells) {
		y := cellYears{Cell: cell.String(), Years: []yearCount{}}
		for _, year := range slices.Sorted(maps.Keys(c.Cells[cell])) {
			y.Years = append(y.Years, yearCount{year, c.Cells[cell][year]})
		}
		out.Cells = append(out.Cells, y)
	}
	out.Withheld = c.Withheld
	out.Recorders = each(c.Recorders, func(r figures.Recorder) recorder { return recorder{text(r.Shown), r.Looked, r.Empty} })
	if e := c.Expected; e.Known {
		out.Species = &richness{e.Visits, e.Found, e.Once, e.Twice, number(e.Expected), number(e.StdErr)}
	}
	slugs := func(rows []*figures.Row) []string {
		return each(rows, func(r *figures.Row) string { return r.Fly.Address })
	}
	out.Best = each(c.Best, func(n figures.Next) nextVisit {
		return nextVisit{n.Cell.String(), number(n.Fall), n.Visits, n.Years, slugs(n.On), slugs(n.Never)}
	})
	return out
}

func rightnessOf(r figures.Rightness) rightness {
	out := rightness{Tell: r.Tell, Years: list(r.Years), N: r.N}
	if r.Tell && r.N > 0 {
		out.Brier, out.Account = known(r.Brier, true), known(r.Account, true)
		out.Bands = each(r.Bands[:], func(b season.Band) band { return band{number(b.From), number(b.Below), b.N, b.Found} })
	}
	return out
}

func sunOf(month int, d daylight.Day) sun {
	at := func(e daylight.Event) *clock { return maybeClock(e.Clock()) }
	return sun{month, at(d.Dawn), at(d.Rise), at(d.Noon), at(d.Set), at(d.Dusk), text(d.Polar())}
}
