package content

import (
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

// Cells as each way of writing has them. Sources: RFC 4180 (CSV), ISO 8601 (dates); what spreadsheets save by country is
// common practice, no source.
func TestPlainCells(t *testing.T) {
	for _, c := range []struct {
		d          Dialect
		cell, want string
	}{
		{Dialect{}, "03/05/2026", "03/05/2026"},
		{Dialect{Dates: "day first"}, "3.5.2026", "2026-05-03"},
		{Dialect{Dates: "day first"}, "03/05/2026", "2026-05-03"},
		{Dialect{Dates: "day first"}, "03-05-2026", "2026-05-03"},
		{Dialect{Dates: "month first"}, "03/05/2026", "2026-03-05"},
		{Dialect{Dates: "day first"}, "31/31/2026", "2026-31-31"}, // refused as no day, by its reader
		{Dialect{Dates: "day first"}, "2026-05-03", "2026-05-03"},
		{Dialect{Dates: "day first"}, "3/5/26", "3/5/26"}, // a short year is never completed
		{Dialect{Dates: "day first"}, "3/5.2026", "3/5.2026"},
		{Dialect{}, "2026-05-03 00:00:00", "2026-05-03"},
		{Dialect{}, "2026-05-03T00:00", "2026-05-03"},
		{Dialect{}, "2026-05-03 11:40", "2026-05-03T11:40"},
		{Dialect{Decimals: "comma"}, "7,9 8,3", "7.9 8.3"},
		{Dialect{Decimals: "comma"}, "1,250", "1.250"},
		{Dialect{Decimals: "comma"}, "-1,5", "-1.5"},
		{Dialect{Decimals: "comma"}, "cold, wet", "cold, wet"},
		{Dialect{Decimals: "comma"}, "3,5 dun", "3,5 dun"},
		{Dialect{}, "1,250", "1,250"},
	} {
		assert.Equal(t, c.want, c.d.plain(c.cell), "%v %s", c.d, c.cell)
	}
}

func opened(d Dialect, text string) (rows [][]string, ps *Problems) {
	ps = &Problems{}
	f := NewFile("samples/x.csv", []byte(text))
	f.Dialect = d
	if s := OpenCSV(f, ps); s != nil {
		for r := range s.Rows(ps) {
			var l []string
			for i := range s.Headings {
				l = append(l, r.String(i))
			}
			rows = append(rows, l)
		}
	}
	return rows, ps
}

func TestSheetsAsTheyAreWritten(t *testing.T) {
	want := [][]string{{"V1", "2026-05-03", "Café"}}
	for name, c := range map[string]struct {
		d    Dialect
		text string
	}{
		"semicolons":     {Dialect{Separator: "semicolon", Dates: "day first"}, "visit;date;water\nV1;03.05.2026;Café\n"},
		"tabs":           {Dialect{Separator: "tab"}, "visit\tdate\twater\nV1\t2026-05-03\tCafé\n"},
		"Windows-1252":   {Dialect{Encoding: "windows-1252"}, "visit,date,water\nV1,2026-05-03,Caf\xe9\n"},
		"UTF-16, marked": {Dialect{}, "\xff\xfe" + utf16le("visit,date,water\r\nV1,2026-05-03,Café\r\n")},
		"UTF-8, marked":  {Dialect{}, "\xef\xbb\xbfvisit,date,water\nV1,2026-05-03,Café\n"},
		"commas, proved": {Dialect{Separator: "semicolon"}, "visit,date,water\nV1,2026-05-03,Café\n"},
		"marks of life":  {Dialect{}, "visit,date,water,,\nV1,2026-05-03 00:00:00,Café,,\n,,,,\n,,,,\n"},
	} {
		rows, ps := opened(c.d, c.text)
		assert.Empty(t, ps.All(), name)
		assert.Equal(t, want, rows, name)
	}
}

func utf16le(s string) string {
	var b strings.Builder
	for _, r := range s {
		b.WriteByte(byte(r))
		b.WriteByte(byte(r >> 8))
	}
	return b.String()
}

// A file that proves how it is written brings one problem, with the line to write; one that doesn't is never guessed at.
func TestWhatASheetProves(t *testing.T) {
	dates := func(l ...string) string {
		return "visit,date\nV," + strings.Join(l, "\nV,") + "\n"
	}
	for _, c := range []struct {
		d              Dialect
		text, id, want string
	}{
		{Dialect{}, "visit;date\nV;2026-05-03\n", "csv-separator", "sheets: {separator: semicolon}"},
		{Dialect{}, "visit\tdate\nV\t2026-05-03\n", "csv-separator", "sheets: {separator: tab}"},
		{Dialect{}, dates("03/05/2026", "04/05/2026", "13/05/2026"), "date-order", "in guide.yaml: sheets: {dates: day first}"},
		{Dialect{}, dates("03/05/2026", "04/05/2026", "05/13/2026"), "date-order", "in guide.yaml: sheets: {dates: month first}"},
		{Dialect{}, dates("03/05/2026", "04/05/2026", "05/06/2026"), "date-order", "which it is"},
		{Dialect{}, dates("13/05/2026", "05/13/2026", "05/06/2026"), "date-order", "write them as 2026-05-03"},
		{Dialect{}, "visit,date,water\nV,2026-05-03,Caf\xe9\n", "not-utf8", "sheets: {encoding: windows-1252}"},
		{Dialect{}, dates("03/05/2026", "2026-05-04", "2026-05-05"), "", ""}, // one cell: its own problem, at its place
		{Dialect{Dates: "day first"}, dates("03/05/2026", "04/05/2026", "13/05/2026"), "", ""},
	} {
		_, ps := opened(c.d, c.text)
		if c.id == "" {
			assert.Empty(t, ps.All(), c.text)
			continue
		}
		require.Len(t, ps.All(), 1, c.text)
		assert.Equal(t, c.id, ps.All()[0].ID, c.text)
		assert.Contains(t, ps.All()[0].Want, c.want, c.text)
	}
}
