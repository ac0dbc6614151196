package rivers_test

import (
	"fmt"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"guidegen/content"
	"guidegen/rivers"
)

// The forms that the Darwin Core term eventDate names (TDWG quick reference
// guide, eventDate, from memory: ISO 8601-1 dates, times and intervals), and what is refused.
func TestEventDateWithTimes(t *testing.T) {
	for _, x := range []struct{ date, time, method, want, problem string }{
		{"2024-04-03", "", "sweep net", "2024-04-03 - -", ""},
		{"2024-04-03", "10:00/11:00", "sweep net", "2024-04-03 10:00 11:00", ""},
		{"2024-04-03T10:00", "", "sweep net", "2024-04-03 10:00 -", ""},
		{"2024-04-03T10:00:00", "", "sweep net", "2024-04-03 10:00 -", ""},
		{"2024-04-03T10:00/11:00", "", "sweep net", "2024-04-03 10:00 11:00", ""},
		{"2024-04-03T10:00/2024-04-03T11:00", "", "sweep net", "2024-04-03 10:00 11:00", ""},
		{"2024-04-03T10:00/11:00", "10:00/11:00", "sweep net", "2024-04-03 10:00 11:00", ""},
		{"2024-04-03T10:00/11:00", "10:00", "sweep net", "2024-04-03 10:00 11:00", ""},
		{"2024-04-03T22:00/2024-04-04T04:00", "", "light trap", "2024-04-03 22:00 04:00", ""},
		{"2024-12-31T22:00/2025-01-01T04:00", "", "light trap", "2024-12-31 22:00 04:00", ""},
		{"2024-04-03/2024-04-05", "", "sweep net", "2024-04-03/2024-04-05 - -", ""},
		{"2024-04-03T10:00", "11:00", "sweep net", "", "visit-contradiction@2:21"},
		{"2024-04-03T10:00/11:00", "10:00/12:00", "sweep net", "", "visit-contradiction@2:27"},
		{"2024-04-03T10:00Z", "", "sweep net", "", "bad-time@2:20"},
		{"2024-04-03T10:00+01:00", "", "sweep net", "", "bad-time@2:20"},
		{"2024-04-03T25:00", "", "sweep net", "", "bad-time@2:15"},
		{"2024-04-03T10:00:30", "", "sweep net", "", "bad-time@2:15"},
		{"2024-02-30T10:00", "", "sweep net", "", "bad-date@2:4"},
		{"2024-04-03T10:00/2024-04-05T11:00", "", "light trap", "", "bad-date@2:4"},
		{"2024-04-03T10:00/2024-04-04T11:00", "", "light trap", "", "bad-date@2:4"},
		{"2024-04-03T10:00/2024-04-04", "", "light trap", "", "bad-date@2:4"},
		{"2024-04-03T11:00/10:00", "", "sweep net", "", "end-before-start@2:4"},
		{"2024-04-03", "11:00/10:00", "sweep net", "", "end-before-start@2:21"},
		{"2024-04-03T11:00/10:00", "", "light trap", "2024-04-03 11:00 10:00", ""},
		{"0024-04-03", "", "sweep net", "", "bad-date@2:4"},
		{"1582", "", "sweep net", "", "bad-date@2:4"},
		{"1582-12", "", "sweep net", "", "bad-date@2:4"},
		{"1583-01-01", "", "sweep net", "1583-01-01 - -", ""},
	} {
		ps := &content.Problems{}
		text := fmt.Sprintf("eventID,eventDate,eventTime,waterBody,samplingProtocol,sampleSizeValue,sampleSizeUnit,scientificName\nC1,%s,%s,Brook,%s,50,sweeps,nothing\n", x.date, x.time, x.method)
		l := rivers.ReadSamples(content.NewFile("samples/c.csv", []byte(text)), ps)
		require.Len(t, l, 1)
		got := ""
		for _, p := range ps.All() {
			got += p.ID + "@" + ps.Where(p.At)[len("samples/c.csv:"):]
		}
		assert.Equal(t, x.problem, got, "%s %s", x.date, x.time)
		if x.want != "" {
			e := l[0]
			when := e.When.From.String()
			if !e.When.Exact() {
				when += "/" + e.When.To.String()
			}
			clock := func(c fmt.Stringer, given bool) string {
				if !given {
					return "-"
				}
				return c.String()
			}
			assert.Equal(t, x.want, when+" "+clock(e.Start, e.Start >= 0)+" "+clock(e.End, e.End >= 0), x.date)
		}
	}
}

// Plain headings have columns of their own for the times; a date that a spreadsheet merged with its time is both, where no
// start stands beside it.
func TestPlainDatesWithTimes(t *testing.T) {
	for start, want := range map[string]string{"": "", "10:00": "bad-date", "11:00": "bad-date"} {
		ps := &content.Problems{}
		l := rivers.ReadSamples(content.NewFile("samples/p.csv", []byte("visit,date,start,water,method,fly\nV1,2024-04-03T10:00,"+start+",Brook,sweep net,nothing\n")), ps)
		if want == "" {
			assert.Empty(t, ps.All())
			require.Len(t, l, 1)
			assert.Equal(t, "2024-04-03 10:00", l[0].When.From.String()+" "+l[0].Start.String())
			continue
		}
		require.Len(t, ps.All(), 1)
		assert.Equal(t, want, ps.All()[0].ID)
	}
}

// "none" beside a group says nothing that could be counted.
func TestScopesThatContradictThemselves(t *testing.T) {
	for scope, want := range map[string]string{"none": "", "none;": "", "all;none": "scope-contradiction@2:45", "none | sedge": "scope-contradiction@2:41"} {
		ps := &content.Problems{}
		l := rivers.ReadSamples(content.NewFile("samples/p.csv", []byte("visit,date,water,method,effort,looked for,fly\nV1,2024-04-03,Brook,sweep net,50 sweeps,"+scope+",nothing\n")), ps)
		got := ""
		for _, p := range ps.All() {
			got += p.ID + "@" + ps.Where(p.At)[len("samples/p.csv:"):]
		}
		assert.Equal(t, want, got, scope)
		assert.Empty(t, l[0].LookedFor(), "what contradicts itself looked for nothing")
	}
}
