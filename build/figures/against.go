package figures

// What the records say against the accounts: the middle of the finds beside the flight as moved, lengths and hooks
// as measured beside the account's, and the line of YAML that would take the records' word.

import (
	"fmt"
	"strings"

	"gopkg.in/yaml.v3"

	"guidegen/content"
	"guidegen/content/calendar"
	"guidegen/content/measure"
	"guidegen/species"
	"guidegen/species/hook"
)

// Against is one flight of a fly on one water: what its account says, as moved here, and what the records say.
type Against struct {
	Row    *Row
	Flight FlightHere
	Days   int    // from the flight's peak to the middle of the finds; later is positive
	Dates  bool   // the records give a middle
	Differ bool   // by more than the middle's give or take, in two seasons or more
	Line   string // for the water's file: takes the records' dates; "" where they don't differ
	Sizes  []SizeAgainst
}

// SizeAgainst is one stage and sex as measured here, where enough were, beside the account's length.
type SizeAgainst struct {
	Size
	From, To float64  // the account's lengths, mm
	Off      float64  // mm by which the median lies outside them, longer is positive; 0 inside
	Hook     *HookFor // by the measured, in the first model; nil where none
	Was      *hook.Suggestion
	Line     string // for the account's file: takes the measured lengths; "" where the median lies inside
}

// against compares a row with its account. It is empty for a fly that the water doesn't list.
func (r *reckoner) against(s *stand, row *Row) []Against {
	var out []Against
	for k, f := range row.Flights {
		a := Against{Row: row, Flight: f, Dates: f.Dates.P50 != 0, Sizes: r.sizesAgainst(s, row, f.Name)}
		if a.Dates {
			a.Days = calendar.Gap(f.Peak, f.Dates.P50)
			if a.Differ = !f.Dates.Thin && max(a.Days, -a.Days) > f.Dates.GiveOrTake; a.Differ {
				a.Line = ownDatesLine(s, row, k)
			}
		}
		if a.Dates || len(a.Sizes) > 0 {
			out = append(out, a)
		}
	}
	return out
}

func (r *reckoner) sizesAgainst(s *stand, row *Row, flight string) []SizeAgainst {
	var out []SizeAgainst
	for _, z := range row.Sizes {
		if z.Flight != flight || z.N < int(r.c.OwnMeasured) {
			continue
		}
		c := sizeCase{species.Words{Stage: z.Stage, Sex: z.Sex, Flight: z.Flight}, z.Part}
		low, high, _, ok := accountRange(s.fly.Account, c)
		if !ok {
			continue
		}
		x := SizeAgainst{Size: z, From: low, To: high}
		switch median := content.Round9(z.Median); {
		case median < content.Round9(low):
			x.Off = z.Median - low
		case median > content.Round9(high):
			x.Off = z.Median - high
		}
		if x.Off != 0 {
			x.Line = lengthLine(s.fly.Account, z)
		}
		if len(z.Hook.Hooks) > 0 && (z.Part == species.OfBody || z.Hook.Share > 0) {
			body := (low + high) / 2
			if z.Part == species.Overall {
				body *= z.Hook.Share
			}
			x.Hook = &z.Hook.Hooks[0]
			for _, h := range r.e.Hooks.Suggest(measure.Millimetres(body), string(z.Stage), string(s.fly.Group)) {
				if h.Model == x.Hook.Model {
					x.Was = &h
				}
			}
		}
		out = append(out, x)
	}
	return out
}

// ownDatesLine is the fly's entry in the water's list with flight k as the records have it, from the day by which a
// tenth were on to that by which nine tenths were; where they don't give those, the flight is moved whole. Other dates
// of the water's own stay.
func ownDatesLine(s *stand, row *Row, k int) string {
	entry := &yaml.Node{Kind: yaml.MappingNode, Style: yaml.FlowStyle}
	put := func(n *yaml.Node, key, value string) {
		n.Content = append(n.Content, textNode(key), textNode(value))
	}
	dates := func(from, peak, to calendar.Day) *yaml.Node {
		n := &yaml.Node{Kind: yaml.MappingNode, Style: yaml.FlowStyle}
		put(n, "from", dayText(from))
		put(n, "peak", dayText(peak))
		put(n, "to", dayText(to))
		return n
	}
	if s.listing.Class != species.NoClass {
		put(entry, "abundance", string(s.listing.Class))
	}
	f := row.Flights[k]
	from, peak, to := f.Dates.P10, f.Dates.P50, f.Dates.P90
	if from == 0 || to == 0 {
		by := calendar.Gap(f.Peak, peak)
		from, to = f.From.Add(by), f.To.Add(by)
	}
	if len(row.Flights) == 1 {
		entry.Content = append(entry.Content, dates(from, peak, to).Content...)
	} else {
		flights := &yaml.Node{Kind: yaml.MappingNode, Style: yaml.FlowStyle}
		for i, f := range row.Flights {
			switch {
			case i == k:
				flights.Content = append(flights.Content, textNode(f.Name), dates(from, peak, to))
			case f.Own:
				flights.Content = append(flights.Content, textNode(f.Name), dates(f.From, f.Peak, f.To))
			}
		}
		entry.Content = append(entry.Content, textNode("flights"), flights)
	}
	return yamlLine(s.listing.Fly.S, entry)
}

// lengthLine is the account's length of one stage and sex with the lowest and highest measured.
func lengthLine(a *species.Account, z Size) string {
	stage := string(z.Stage)
	if z.Sex != species.NoSex {
		stage += " " + string(z.Sex)
	}
	text := fmt.Sprintf("%s to %s mm", content.Decimal(z.Low, z.Digits), content.Decimal(z.High, z.Digits))
	if z.Part != a.Group.Habit(z.Stage) {
		text = string(z.Part) + " " + text
	}
	of := textNode(text + " (own)")
	if len(a.Flights) > 1 {
		of = &yaml.Node{Kind: yaml.MappingNode, Style: yaml.FlowStyle, Content: []*yaml.Node{textNode(z.Flight), of}}
	}
	return yamlLine(stage, of)
}

func textNode(s string) *yaml.Node {
	n := &yaml.Node{}
	n.SetString(s)
	return n
}

func yamlLine(key string, value *yaml.Node) string {
	b, err := yaml.Marshal(&yaml.Node{Kind: yaml.MappingNode, Content: []*yaml.Node{textNode(key), value}})
	if err != nil {
		panic(err) // texts only
	}
	return strings.Join(strings.Fields(string(b)), " ")
}

// dayText is a day as files of a guide have it: "3 Apr".
func dayText(d calendar.Day) string { return fmt.Sprintf("%d %.3s", d.DayOfMonth(), d.Month()) }

// differences notes where the records speak against an account.
func (r *reckoner) differences(add adder) {
	for _, w := range r.book.Waters {
		for _, row := range w.Rows {
			for _, a := range row.Against {
				f := a.Flight
				if a.Differ {
					add("records-differ", content.Note, row.stand.listing.Fly.At, "to take the records' word: "+a.Line,
						"on %s the middle of the finds of %s%s is %s, give or take %s (%s in %s); the account's peak, as moved, is %s: %s",
						w.Name.S, row.Fly.Name.S, flightWords(row, f.Name), dayText(f.Dates.P50), content.Several(f.Dates.GiveOrTake, "day"),
						content.Several(f.Dates.Visits, "visit"), content.Several(len(f.Dates.Seasons), "season"), dayText(f.Peak), laterWords(a.Days))
				}
				for _, z := range a.Sizes {
					if z.Line == "" {
						continue
					}
					at := row.Fly.Name.At
					if c, ok := z.Account.First(); ok && !c.At.IsZero() {
						at = c.At
					}
					add("lengths-differ", content.Note, at, "to take the records' word: "+z.Line,
						"on %s the median length of %s, %s%s, is %s mm (%d measured); the account gives %s to %s mm",
						w.Name.S, row.Fly.Name.S, strings.TrimSpace(string(z.Sex)+" "+string(z.Stage)), flightWords(row, f.Name),
						content.Decimal(z.Median, max(1, z.Digits)), z.N, content.Decimal(z.From, 1), content.Decimal(z.To, 1))
				}
			}
		}
	}
}

func flightWords(row *Row, name string) string {
	if len(row.Flights) < 2 {
		return ""
	}
	return ", flight “" + name + "”"
}

func laterWords(days int) string {
	if days < 0 {
		return content.Several(-days, "day") + " earlier"
	}
	return content.Several(days, "day") + " later"
}
