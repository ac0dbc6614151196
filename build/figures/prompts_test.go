package figures

import (
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

const prompted = `-- guide.yaml --
format: 1
name: Prompts
basis: memory
people: {E. Marl: full}
-- species/sally.md --
---
name: Sally
group: stonefly
altitude: up to 300 m
flights: {summer: {from: early May, peak: mid Jun, to: late Jul, abundance: frequent}}
length: {adult: 7 to 9 mm}
---
-- species/olive.md --
---
name: Olive
group: upwinged
flights: {spring: {from: early Apr, to: late Apr, abundance: frequent}}
---
-- rivers/brook.yaml --
name: Brook
kind: rain-fed
place: 55.9 N, 8.3 W
flies: {Sally: frequent}
-- samples/brook.csv --
eventID,eventDate,waterBody,samplingProtocol,samplingEffort,scope,vernacularName,lifeStage,sex,individualCount,measurementType,measurementValue,measurementUnit,recordedBy,decimalLatitude,decimalLongitude
`

// What each prompt says, whole, from records made to call for it: one visit more or less and it says nothing.
func TestWhatPromptsSay(t *testing.T) {
	visit := func(date, fly, rest string) string {
		stage, count := "adult", "3"
		if fly == "nothing" {
			stage, count = "", ""
		}
		return date + "," + date + ",Brook,sweep net,50 sweeps,all," + fly + "," + stage + ",," + count + "," + rest + "\n"
	}
	sally := func(dates ...string) (s string) {
		for _, d := range dates {
			s += visit(d, "Sally", ",,,E. Marl,,")
		}
		return s
	}
	empty := func(dates ...string) (s string) {
		for _, d := range dates {
			s += visit(d, "nothing", ",,,E. Marl,,")
		}
		return s
	}
	runs := sally("2025-05-03", "2025-05-05", "2025-05-09", "2025-07-20", "2025-07-26", "2025-07-28")
	gap := "Sally on Brook, flight “summer”: no find between 9 May and 20 July (72 days)"
	ten := []string{"2025-06-01", "2025-06-02", "2025-06-03", "2025-06-04", "2025-06-05", "2025-06-06", "2025-06-07", "2025-06-08", "2025-06-09", "2025-06-10"}
	for _, c := range []struct{ id, rows, river, want string }{
		{"two-flights", runs + empty("2025-06-05", "2025-06-12", "2025-06-19", "2025-06-26"), "", gap + ", though 4 visits looked for it: the records show two flights"},
		{"two-flights", sally("2025-05-09", "2025-07-20") + empty("2025-06-05", "2025-06-12", "2025-06-19", "2025-06-26"), "", ""},
		{"gap-thin", runs + empty("2025-06-05"), "", gap + ": too few visits looked for it (1) to tell one flight from two"},
		{"gap-unvisited", runs, "", gap + ": nobody looked, so it may be one flight or two"},
		{"no-empty-visits", sally(ten...), "", "E. Marl logged 10 visits on Brook and none was empty: are empty visits being left out?"},
		{"no-empty-visits", sally(ten[1:]...), "", ""},
		{"no-empty-visits", sally(ten[1:]...) + empty("2025-06-01"), "", ""},
		{"not-in-list", visit("2025-04-10", "Olive", ",,,E. Marl,,"), "", "Olive is not in the list of Brook"},
		{"outside-every-flight", sally("2025-10-01"), "", "Sally on 1 October lies more than 30 days outside every flight"},
		{"outside-every-flight", sally("2025-08-20"), "", ""},
		{"odd-length", visit("2025-06-10", "Sally", "overall length,15,mm,E. Marl,,"), "", "15 mm is more than a fifth outside the range of Sally"},
		{"odd-length", visit("2025-06-10", "Sally", "overall length,10.5,mm,E. Marl,,"), "", ""},
		{"too-high", sally("2025-06-10"), "altitude: 600 m\n", "Sally is known up to 300 m, and Brook lies at 600 m"},
		{"too-high", sally("2025-06-10"), "altitude: 300 m\n", ""},
		{"off-the-water", visit("2025-06-10", "Sally", ",,,E. Marl,55.9,-7.3"), "", "visit 2025-06-10 lies 62 km from Brook"}, // 111.2 km · cos 55.9°
		{"off-the-water", visit("2025-06-10", "Sally", ",,,E. Marl,55.9,-8.3"), "", ""},
	} {
		w := bookOf(t, strings.Replace(prompted, "kind: rain-fed\n", "kind: rain-fed\n"+c.river, 1)+c.rows).Waters[0]
		list := w.Prompts
		for _, r := range w.Rows {
			list = append(list, r.Prompts...)
		}
		var said []string
		for _, p := range list {
			if p.ID == c.id {
				said = append(said, p.Message)
			}
		}
		if c.want == "" {
			assert.Empty(t, said, c.rows)
			continue
		}
		require.NotEmpty(t, said, "%s\n%s", c.id, c.rows)
		assert.Equal(t, c.want, said[0])
	}
}
