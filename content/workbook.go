package content

// Workbooks (.xlsx, ISO/IEC 29500): each of its sheets that has a row of headings becomes a sheet of cells as CSV has them,
// from that row on, with dates, times and numbers as the cells hold them and not as they are shown. A place in it is named as a
// spreadsheet names it: visits.xlsx!Visits:C12. Of a formula the value kept with it is read; nothing is run,
// and one without a value is a mistake.

import (
	"bytes"
	"encoding/csv"
	"math"
	"regexp"
	"slices"
	"sort"
	"strconv"
	"strings"
	"time"

	"github.com/xuri/excelize/v2"
)

const (
	maxWorkbook = 256 << 20 // unpacked
	maxSheets   = 50
	maxTitles   = 20 // rows among which the headings are looked for, below titles and the like
)

// place of a cell in a converted sheet: where its text begins, and what a spreadsheet calls it.
type workbookCell struct {
	offset int
	name   string
}

// Workbook gives a workbook's sheets of visits as files of CSV. A sheet without the column that marks visits is noted and
// left out; a workbook that can't be read is reported as a whole.
func Workbook(f *File, ps *Problems) []*File {
	ps.Know(f)
	book, err := excelize.OpenReader(bytes.NewReader(f.Bytes), excelize.Options{UnzipSizeLimit: maxWorkbook, UnzipXMLSizeLimit: maxWorkbook, RawCellValue: true})
	if err != nil {
		ps.Unread(f.Path)
		ps.Errorf("bad-workbook", Place{File: f.Path}, "save it anew as a workbook (.xlsx) without a password, or as CSV UTF-8", "not readable as a workbook")
		return nil
	}
	defer book.Close()
	props, _ := book.GetWorkbookProps()
	from1904 := props.Date1904 != nil && *props.Date1904
	var out []*File
	for i, name := range book.GetSheetList() {
		if i == maxSheets {
			break
		}
		rows, err := book.GetRows(name)
		if err != nil || len(rows) == 0 {
			continue
		}
		head := slices.IndexFunc(rows[:min(maxTitles, len(rows))], func(row []string) bool {
			return slices.ContainsFunc(row, func(h string) bool { return Fold(h) == "visit" || Fold(h) == "eventid" })
		})
		if head < 0 {
			ps.Notef("sheet-not-read", Place{File: f.Path + "!" + name}, "a sheet of visits has the column visit, or eventID", "this sheet of the workbook is not read")
			continue
		}
		out = append(out, converted(book, f.Path, name, rows, head, from1904, ps))
	}
	if len(out) == 0 {
		ps.Warnf("no-sheet-of-visits", Place{File: f.Path}, "head the columns of a sheet as guidegen blank sheet does", "no sheet of this workbook has visits: none has the column visit, or eventID")
	}
	return out
}

func converted(book *excelize.File, path, sheet string, rows [][]string, head int, from1904 bool, ps *Problems) *File {
	wide := 0
	for _, r := range rows {
		wide = max(wide, len(r))
	}
	var b bytes.Buffer
	w := csv.NewWriter(&b)
	var cells []workbookCell
	for y, row := range rows {
		if y < head {
			continue
		}
		line := make([]string, wide)
		for x := range wide {
			if x < len(row) {
				line[x] = cellText(book, sheet, x, y, row[x], from1904)
			}
		}
		at := b.Len()
		_ = w.Write(line) // a buffer takes all
		w.Flush()
		for x, field := range line {
			name, _ := excelize.CoordinatesToCellName(x+1, y+1)
			cells = append(cells, workbookCell{at, name})
			at += len(quoted(field)) + 1
		}
	}
	f := NewFile(path+"!"+sheet, b.Bytes())
	f.Dialect = Dialect{Separator: "comma"}
	f.cells = cells
	ps.Know(f)
	for _, c := range cells {
		if b.Bytes()[c.offset] == ',' || b.Bytes()[c.offset] == '\n' { // an empty cell
			if formula, _ := book.GetCellFormula(sheet, c.name); formula != "" {
				ps.Errorf("formula-without-value", f.At(c.offset, c.offset), "open the workbook in its own program and save it, so that it keeps the value", "the formula in this cell has no value kept with it")
			}
		}
	}
	return f
}

// quoted is a field as the writer of CSV writes it.
func quoted(field string) string {
	var b bytes.Buffer
	w := csv.NewWriter(&b)
	_ = w.Write([]string{field, ""})
	w.Flush()
	return strings.TrimSuffix(b.String(), ",\n")
}

// cellText is a cell's own value: of a number with the format of a date or a time, that date (ISO 8601) or time.
func cellText(book *excelize.File, sheet string, x, y int, raw string, from1904 bool) string {
	number, err := strconv.ParseFloat(raw, 64)
	if err != nil || math.IsNaN(number) || math.IsInf(number, 0) {
		return strings.TrimSpace(strings.ReplaceAll(raw, "\n", " "))
	}
	name, err := excelize.CoordinatesToCellName(x+1, y+1)
	if err != nil {
		return raw
	}
	kind, err := book.GetCellType(sheet, name)
	if err != nil || kind == excelize.CellTypeSharedString || kind == excelize.CellTypeInlineString {
		return raw // a number kept as text
	}
	if isDate(book, sheet, name) && number >= 0 && number < 2958466 { // the last day of 9999
		t, err := excelize.ExcelDateToTime(number, from1904)
		if err == nil {
			t = t.Round(time.Second)
			switch {
			case number < 1:
				return t.Format("15:04")
			case t.Hour() == 0 && t.Minute() == 0 && t.Second() == 0:
				return t.Format("2006-01-02")
			}
			return t.Format("2006-01-02T15:04")
		}
	}
	return strconv.FormatFloat(number, 'f', -1, 64)
}

// dateFormat finds the signs of a date or time in a format outside quotes, brackets and escapes.
var (
	formatLiterals = regexp.MustCompile(`"[^"]*"|\[[^\]]*\]|\\.|_.|\*.`)
	dateFormat     = regexp.MustCompile(`(?i)[ymdhs]`)
)

// isDate reports whether a cell is shown as a date or a time: formats 14 to 22 and 45 to 47 of ISO/IEC 29500-1, 18.8.30,
// and any of the workbook's own that name a year, month, day, hour or second.
func isDate(book *excelize.File, sheet, name string) bool {
	id, err := book.GetCellStyle(sheet, name)
	if err != nil {
		return false
	}
	style, err := book.GetStyle(id)
	if err != nil || style == nil {
		return false
	}
	if style.CustomNumFmt != nil {
		return dateFormat.MatchString(formatLiterals.ReplaceAllString(*style.CustomNumFmt, ""))
	}
	n := style.NumFmt
	return n >= 14 && n <= 22 || n >= 27 && n <= 36 || n >= 45 && n <= 47 || n >= 50 && n <= 58
}

// cellAt is what a spreadsheet calls the cell at an offset of a converted sheet, "" where the file is none.
func (f *File) cellAt(offset int) string {
	if len(f.cells) == 0 {
		return ""
	}
	i := sort.Search(len(f.cells), func(i int) bool { return f.cells[i].offset > offset })
	return f.cells[max(i-1, 0)].name
}
