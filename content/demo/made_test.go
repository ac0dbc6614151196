package demo

// The demo's made records are one drawing, kept as the sheets that a club would have: a net book of every year, a list of
// good days, a workbook.

import (
	"bytes"
	"encoding/csv"
	"fmt"
	"os"
	"slices"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
	"github.com/xuri/excelize/v2"
)

const demoStart = 36

var headings = []string{"visit", "date", "start", "end", "water", "beat", "method", "effort", "looked for", "fly", "stage", "sex", "count",
	"lengths mm", "by", "named by", "checked", "reared", "remarks"}

func (m madeRow) cells() []string {
	return []string{m.visit, m.date, m.start, m.end, m.water, m.beat, m.method, m.effort, m.scope, m.fly, m.stage, m.sex, m.count, m.lengths,
		m.by, m.named, m.checked, m.reared, m.remarks}
}

// book is the sheet that a visit goes into.
func (v madeVisit) book() string {
	switch {
	case v.habit.goodDays:
		return "samples/good-days.csv"
	case v.habit.water == "Lendlow Mere" && v.date.Year == lastYear:
		return "samples/lendlow-mere-2026.xlsx"
	}
	return fmt.Sprintf("samples/net-book-%d.csv", v.date.Year)
}

// sheets are the rows of every sheet, in order of dates.
func sheets(visits []madeVisit) map[string][][]string {
	visits = slices.Clone(visits)
	slices.SortStableFunc(visits, func(a, b madeVisit) int { return a.date.Sub(b.date) })
	out := map[string][][]string{}
	for _, v := range visits {
		b := v.book()
		if out[b] == nil {
			out[b] = [][]string{headings}
		}
		for _, m := range v.rows {
			out[b] = append(out[b], m.cells())
		}
	}
	return out
}

func asCSV(t *testing.T, rows [][]string) []byte {
	var b bytes.Buffer
	w := csv.NewWriter(&b)
	require.NoError(t, w.WriteAll(rows))
	return b.Bytes()
}

// Every made sheet in the guide is what the drawing makes; GUIDEGEN_RENEW=1 writes them anew.
func TestMadeRecords(t *testing.T) {
	for name, rows := range sheets(draw(demoStart, truth(t), demoYears)) {
		path := "guide/" + name
		if os.Getenv("GUIDEGEN_RENEW") != "" {
			if name[len(name)-4:] == ".csv" {
				require.NoError(t, os.WriteFile(path, asCSV(t, rows), 0o644))
				continue
			}
			book := excelize.NewFile()
			for i, row := range rows {
				require.NoError(t, book.SetSheetRow("Sheet1", fmt.Sprint("A", i+1), &row))
			}
			require.NoError(t, book.SaveAs(path))
			continue
		}
		if name[len(name)-4:] == ".csv" {
			text, err := os.ReadFile(path)
			require.NoError(t, err)
			assert.Equal(t, string(asCSV(t, rows)), string(text), name)
			continue
		}
		book, err := excelize.OpenFile(path)
		require.NoError(t, err)
		got, err := book.GetRows("Sheet1")
		require.NoError(t, err)
		for i := range got {
			got[i] = append(got[i], make([]string, len(headings)-len(got[i]))...)
		}
		assert.Equal(t, rows, got, name)
	}
}
