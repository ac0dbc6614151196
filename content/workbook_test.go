package content

import (
	"bytes"
	"testing"
	"time"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
	"github.com/xuri/excelize/v2"
)

// A workbook's cells are read as they hold their values, whatever they show: dates and times by their formats, numbers
// unrounded, numbers kept as text. Places are named as a spreadsheet names them.
// A title and an empty row above the headings, a formula with its value and one without; and a workbook of notes alone.
func TestWorkbookAsPeopleKeepThem(t *testing.T) {
	of := func(cells map[string]string, formulas map[string]string) []byte {
		book := excelize.NewFile()
		for c, v := range cells {
			require.NoError(t, book.SetCellStr("Sheet1", c, v))
		}
		for c, f := range formulas {
			require.NoError(t, book.SetCellFormula("Sheet1", c, f))
		}
		var b bytes.Buffer
		require.NoError(t, book.Write(&b))
		return b.Bytes()
	}
	ps := &Problems{}
	files := Workbook(NewFile("samples/x.xlsx", of(map[string]string{"A1": "Visits of our club", "A3": "visit", "B3": "date", "C3": "count", "A4": "V1", "B4": "2026-05-03"},
		map[string]string{"C4": "1+2"})), ps)
	require.Len(t, files, 1)
	require.Len(t, ps.All(), 1)
	assert.Equal(t, "formula-without-value", ps.All()[0].ID)
	assert.Equal(t, "samples/x.xlsx!Sheet1:C4", ps.Where(ps.All()[0].At))
	s := OpenCSV(files[0], ps)
	require.NotNil(t, s)
	for row := range s.Rows(ps) {
		assert.Equal(t, "V1", row.String(0))
		assert.Equal(t, "samples/x.xlsx!Sheet1:B4", ps.Where(row.Text(1).At))
	}

	ps = &Problems{}
	assert.Empty(t, Workbook(NewFile("samples/x.xlsx", of(map[string]string{"A1": "Notes"}, nil)), ps))
	require.Len(t, ps.All(), 2)
	assert.Equal(t, []string{"no-sheet-of-visits", "sheet-not-read"}, []string{ps.All()[0].ID, ps.All()[1].ID})
}

func TestWorkbook(t *testing.T) {
	book := excelize.NewFile()
	require.NoError(t, book.SetSheetName("Sheet1", "Visits"))
	_, err := book.NewSheet("Notes")
	require.NoError(t, err)
	style := func(format string) int {
		id, err := book.NewStyle(&excelize.Style{CustomNumFmt: &format})
		require.NoError(t, err)
		return id
	}
	short, err := book.NewStyle(&excelize.Style{NumFmt: 14})
	require.NoError(t, err)
	put := func(cell string, v any) { require.NoError(t, book.SetCellValue("Visits", cell, v)) }
	as := func(cell string, id int) { require.NoError(t, book.SetCellStyle("Visits", cell, cell, id)) }
	for i, h := range []string{"visit", "date", "start", "water", "count", "lengths mm", "remarks"} {
		name, err := excelize.CoordinatesToCellName(i+1, 1)
		require.NoError(t, err)
		put(name, h)
	}
	put("A2", "V1")
	put("B2", time.Date(2026, 5, 3, 0, 0, 0, 0, time.UTC))
	as("B2", short)
	put("C2", 11.0/24+40.0/1440)
	as("C2", style("hh:mm"))
	put("D2", "Brook, upper")
	put("E2", 3)
	put("F2", 7.9)
	as("F2", style("0"))
	put("G2", "cold \"raw\"\nand wet")
	put("A3", "V2")
	put("B3", time.Date(2026, 5, 13, 18, 30, 0, 0, time.UTC))
	as("B3", style("[$-407]dd.mm.yyyy hh:mm"))
	put("E3", "4")
	put("F3", 1250)
	as("F3", style(`0.0" mm"`))
	require.NoError(t, book.SetCellValue("Notes", "A1", "nothing here"))
	var b bytes.Buffer
	require.NoError(t, book.Write(&b))

	ps := &Problems{}
	files := Workbook(NewFile("samples/x.xlsx", b.Bytes()), ps)
	require.Len(t, files, 1)
	require.Len(t, ps.All(), 1)
	assert.Equal(t, "sheet-not-read", ps.All()[0].ID)
	assert.Equal(t, "samples/x.xlsx!Notes", ps.All()[0].At.File)
	s := OpenCSV(files[0], ps)
	require.NotNil(t, s)
	var rows [][]string
	for r := range s.Rows(ps) {
		var l []string
		for i := range s.Headings {
			l = append(l, r.String(i))
		}
		rows = append(rows, l)
		assert.Equal(t, map[int]string{0: "samples/x.xlsx!Visits:D2", 1: "samples/x.xlsx!Visits:D3"}[len(rows)-1], ps.Where(r.Text(3).At))
		assert.Equal(t, map[int]string{0: "samples/x.xlsx!Visits:G2", 1: "samples/x.xlsx!Visits:G3"}[len(rows)-1], ps.Where(r.Text(6).At))
	}
	assert.Equal(t, [][]string{
		{"V1", "2026-05-03", "11:40", "Brook, upper", "3", "7.9", `cold "raw" and wet`},
		{"V2", "2026-05-13T18:30", "", "", "4", "1250", ""},
	}, rows)
}

// What is no workbook is one problem; nothing stops.
func TestNoWorkbook(t *testing.T) {
	for _, bytes := range []string{"", "visit,date\n", "PK\x03\x04broken"} {
		ps := &Problems{}
		assert.Empty(t, Workbook(NewFile("samples/x.xlsx", []byte(bytes)), ps))
		require.Len(t, ps.All(), 1, bytes)
		assert.Equal(t, "bad-workbook", ps.All()[0].ID)
	}
}

func TestDateFormats(t *testing.T) {
	for format, want := range map[string]bool{"0.0": false, `0" days"`: false, "dd.mm.yyyy": true, "[h]:mm": true, "[Red]0": false, `yyyy\-mm`: true, "General": false, "#,##0": false, "@": false} {
		assert.Equal(t, want, dateFormat.MatchString(formatLiterals.ReplaceAllString(format, "")), format)
	}
}
