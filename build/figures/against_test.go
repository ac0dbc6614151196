package figures

// Records against accounts: what differs, by how much, and that the line of YAML does what it promises.

import (
	"fmt"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"guidegen/content"
)

const againstGuide = `-- guide.yaml --
format: 1
name: Against
basis: memory
-- hooks.csv --
model,size,shank mm,shape
dry,12,9.5,straight
dry,14,8.4,straight
dry,16,7.3,straight
-- species/early.md --
---
name: "Early: brown"
group: upwinged
flights:
  spring: {from: 1 Apr, peak: 15 Apr, to: 1 May, abundance: abundant}
  autumn: {from: 1 Sep, peak: 15 Sep, to: 1 Oct, abundance: abundant}
length:
  dun: {spring: 7 to 8 mm, autumn: 6 to 7 mm}
---
-- rivers/one.yaml --
name: One
kind: rain-fed
flies:
  LISTED
-- samples/one.csv --
` + head

// finds are visits of both years that found one fly, by month and day, the lengths beside them.
func findsOn(lengths string, days ...string) string {
	out := ""
	for _, y := range []string{"2024", "2025"} {
		for _, d := range days {
			out += fmt.Sprintf("V%s%s,%s-%s,10:00,,One,,sweep net,50 sweeps,upwinged,Early: brown,dun,,4,%s,A,,,\n", y, d, y, d, lengths)
		}
	}
	return out
}

func TestAgainst(t *testing.T) {
	const plain = `"Early: brown": {abundance: frequent, flights: {autumn: {from: 3 Sep, peak: 20 Sep, to: 5 Oct}}}`
	for name, k := range map[string]struct {
		samples      string
		days         int
		differ       bool
		line, length string
	}{
		"a month late": {findsOn("", "05-05", "05-10", "05-12", "05-14", "05-19"), 27, true, `'Early: brown': {abundance: frequent, flights: {spring: {from: 28 Apr, peak: 12 May, to: 28 May}, autumn: {from: 3 Sep, peak: 20 Sep, to: 5 Oct}}}`, ""},
		"enough finds for a first and a last tenth": {findsOn("", "05-05", "05-07", "05-08", "05-09", "05-10", "05-11", "05-12", "05-13", "05-14", "05-15", "05-17", "05-19"), 27, true, `'Early: brown': {abundance: frequent, flights: {spring: {from: 6 May, peak: 12 May, to: 18 May}, autumn: {from: 3 Sep, peak: 20 Sep, to: 5 Oct}}}`, ""},
		"within its give or take":                   {findsOn("", "04-10", "04-16", "04-18", "04-20", "04-27"), 3, false, "", ""},
		"the autumn, of own dates":                  {findsOn("", "09-01", "09-02", "09-03", "09-04", "09-05"), -17, true, `'Early: brown': {abundance: frequent, flights: {autumn: {from: 17 Aug, peak: 3 Sep, to: 18 Sep}}}`, ""},
		"lengths over":                              {findsOn("8.4;9.2", "04-14", "04-16", "04-17"), 1, false, "", "dun: {spring: 8.4 to 9.2 mm (own)}"},
		"lengths inside":                            {findsOn("7.1;7.9", "04-14", "04-16", "04-17"), 1, false, "", ""},
		"too few measured":                          {findsOn("9.9", "04-16"), 0, false, "", ""},
	} {
		t.Run(name, func(t *testing.T) {
			guide := strings.Replace(againstGuide, "LISTED", plain, 1) + k.samples
			book := bookOf(t, guide)
			var got []Against
			for _, a := range book.Waters[0].Rows[0].Against {
				if a.Dates || len(a.Sizes) > 0 {
					got = append(got, a)
				}
			}
			if name == "too few measured" {
				for _, a := range got {
					assert.Empty(t, a.Sizes)
				}
				return
			}
			require.Len(t, got, 1)
			a := got[0]
			assert.Equal(t, []any{k.differ, k.line}, []any{a.Differ, a.Line})
			if k.differ {
				assert.Equal(t, k.days, a.Days)
			}
			length := ""
			for _, z := range a.Sizes {
				length += z.Line
			}
			assert.Equal(t, k.length, length)
			var noted []string
			for _, p := range book.Prompts {
				if p.ID == "records-differ" || p.ID == "lengths-differ" {
					assert.Equal(t, content.Note, p.Grade)
					noted = append(noted, strings.TrimPrefix(p.Want, "to take the records' word: "))
				}
			}
			assert.Equal(t, strings.TrimSpace(k.line+k.length), strings.Join(noted, " "))
			// The lines are what they promise: pasted in, the records no longer differ.
			again := strings.Replace(againstGuide, "LISTED", strings.TrimSpace(k.line+strings.Repeat(plain, 1-min(1, len(k.line)))), 1) + k.samples
			if k.length != "" {
				again = strings.Replace(again, "dun: {spring: 7 to 8 mm, autumn: 6 to 7 mm}", k.length, 1)
			}
			for _, b := range bookOf(t, again).Waters[0].Rows[0].Against {
				assert.False(t, b.Differ)
				for _, z := range b.Sizes {
					assert.Zero(t, z.Off)
				}
				if k.differ && b.Flight.Name == a.Flight.Name {
					assert.Zero(t, b.Days)
					assert.True(t, b.Flight.Own)
				}
			}
		})
	}
}

func TestHooksAgainst(t *testing.T) {
	book := bookOf(t, strings.Replace(againstGuide, "LISTED", `"Early: brown": frequent`, 1)+findsOn("8.9;9.2;9.4", "04-14", "04-16", "04-17"))
	z := book.Waters[0].Rows[0].Against[0].Sizes[0]
	require.NotNil(t, z.Hook)
	require.NotNil(t, z.Was)
	assert.Equal(t, []string{"12", "16"}, []string{z.Hook.Size.String(), z.Was.Size.String()}, "9.2 mm measured, 7.5 mm by the account")
	assert.InDelta(t, 1.2, z.Off, 1e-9)
}
