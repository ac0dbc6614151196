package guide

import (
	"bytes"
	"testing"
	"testing/fstest"
	"time"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
	"github.com/xuri/excelize/v2"

	"guidegen/content"
)

// A workbook's visits are a guide's like any others, and a slip in it is named by its cell.
func TestVisitsOfAWorkbook(t *testing.T) {
	book := excelize.NewFile()
	format := "dd.mm.yyyy"
	date, err := book.NewStyle(&excelize.Style{CustomNumFmt: &format})
	require.NoError(t, err)
	for y, row := range [][]any{
		{"visit", "date", "water", "method", "effort", "looked for", "fly", "stage", "count", "by"},
		{"W1", time.Date(2026, 5, 3, 0, 0, 0, 0, time.UTC), "Brook", "sweep net", "50 sweeps", "all", "Alder", "adult", 2, "A. B"},
		{"W2", time.Date(2026, 5, 4, 18, 30, 0, 0, time.UTC), "Brook", "sweep net", "50 sweeps", "all", "Aldr", "adult", 2, "A. B"},
	} {
		for x, v := range row {
			name, err := excelize.CoordinatesToCellName(x+1, y+1)
			require.NoError(t, err)
			require.NoError(t, book.SetCellValue("Sheet1", name, v))
			if y > 0 && x == 1 {
				require.NoError(t, book.SetCellStyle("Sheet1", name, name, date))
			}
		}
	}
	var b bytes.Buffer
	require.NoError(t, book.Write(&b))
	fsys := small("")
	fsys["samples/book.xlsx"] = &fstest.MapFile{Data: b.Bytes()}
	g, ps := read(t, fsys)
	require.Len(t, g.Visits, 2)
	assert.Equal(t, "2026-05-03", g.Visits[0].When.From.String())
	assert.Equal(t, 2, g.Visits[0].Finds[0].Count)
	assert.Equal(t, "2026-05-04", g.Visits[1].When.From.String())
	assert.Equal(t, "18:30", g.Visits[1].Start.String(), "a date and time in one cell are both")
	require.Equal(t, 1, ps.Count(content.Error))
	for _, p := range ps.All() {
		if p.Grade == content.Error {
			assert.Equal(t, "unknown-fly", p.ID)
			assert.Equal(t, "samples/book.xlsx!Sheet1:G3", ps.Where(p.At))
		}
	}
}
