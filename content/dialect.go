package content

// How a guide's sheets are written: what parts their cells, their decimals, the order of a date, their encoding. Said once
// in guide.yaml, for all sheets or for one. What isn't said is as RFC 4180, a point, ISO 8601 and UTF-8 have it; where a
// file proves that it is written otherwise, one problem proposes the line to write. Nothing is guessed.

import (
	"bytes"
	"regexp"
	"slices"
	"strings"

	"golang.org/x/text/encoding"
	"golang.org/x/text/encoding/charmap"
	"golang.org/x/text/encoding/unicode"
)

// Dialect is how a sheet is written; an empty word is the common way.
type Dialect struct{ Separator, Decimals, Dates, Encoding string }

// DialectRecord is the table of a dialect's keys.
var DialectRecord = &Record{Name: "sheets", Doc: "How the guide's sheets are written, where they aren't CSV with commas, points, ISO dates and UTF-8.", Fields: []Field{
	{Key: "separator", Shape: Choice, Choices: []string{"comma", "semicolon", "tab"}, Doc: "What parts the cells.", Example: "semicolon"},
	{Key: "decimals", Shape: Choice, Choices: []string{"point", "comma"}, Doc: "What stands before decimals.", Example: "comma"},
	{Key: "dates", Shape: Choice, Choices: []string{"iso", "day first", "month first"}, Doc: "The order in a date: 2026-05-03 (iso), 3.5.2026 or 03/05/2026 (day first), 05/03/2026 (month first).", Example: "day first"},
	{Key: "encoding", Shape: Choice, Choices: []string{"utf-8", "windows-1252", "utf-16"}, Doc: "How letters are kept as bytes.", Example: "windows-1252"},
	{Key: "files", Shape: Named, Doc: "What differs in one file, by its path: {samples/old.csv: {separator: comma}}."},
}}

// ReadDialect reads a block of sheets:, over is what it says for all files.
func ReadDialect(o Opened, over Dialect) Dialect {
	for key, to := range map[string]*string{"separator": &over.Separator, "decimals": &over.Decimals, "dates": &over.Dates, "encoding": &over.Encoding} {
		if o.Has(key) {
			*to = o.Choice(key)
		}
	}
	return over
}

// Comma is the sign that parts cells.
func (d Dialect) Comma() rune {
	switch d.Separator {
	case "semicolon":
		return ';'
	case "tab":
		return '\t'
	}
	return ','
}

// decoded is a file as UTF-8. A byte-order mark of UTF-16 proves itself.
func (d Dialect) decoded(b []byte) ([]byte, error) {
	var e encoding.Encoding
	switch {
	case d.Encoding == "utf-16", bytes.HasPrefix(b, []byte{0xff, 0xfe}), bytes.HasPrefix(b, []byte{0xfe, 0xff}):
		e = unicode.UTF16(unicode.LittleEndian, unicode.UseBOM)
	case d.Encoding == "windows-1252":
		e = charmap.Windows1252
	default:
		return b, nil
	}
	return e.NewDecoder().Bytes(b)
}

var (
	slashed  = regexp.MustCompile(`^(\d{1,2})([./-])(\d{1,2})([./-])(\d{4})$`)
	midnight = regexp.MustCompile(`^(\d{4}-\d\d-\d\d)[T ]00:00(?::00(?:\.0+)?)?$`)
	moment   = regexp.MustCompile(`^(\d{4}-\d\d-\d\d) (\d\d:\d\d)(?::00(?:\.0+)?)?$`)
	numbers  = regexp.MustCompile(`^[-+]?\d+(?:,\d+)?(?:[ ;]+[-+]?\d+(?:,\d+)?)*$`)
)

// plain is a cell as the common way writes it: an ISO date, a decimal point. Of a date with the time of midnight, as
// programs save what was a date alone, the date stays.
func (d Dialect) plain(cell string) string {
	if m := slashed.FindStringSubmatch(cell); m != nil && m[2] == m[4] {
		day, month := m[1], m[3]
		if d.Dates == "month first" {
			day, month = month, day
		}
		if d.Dates == "day first" || d.Dates == "month first" {
			return m[5] + "-" + two(month) + "-" + two(day)
		}
	}
	if m := midnight.FindStringSubmatch(cell); m != nil {
		return m[1]
	}
	if m := moment.FindStringSubmatch(cell); m != nil {
		return m[1] + "T" + m[2]
	}
	if d.Decimals == "comma" && numbers.MatchString(cell) {
		return strings.ReplaceAll(cell, ",", ".")
	}
	return cell
}

func two(s string) string {
	if len(s) < 2 {
		return "0" + s
	}
	return s
}

// enoughDates is how many dates of a sheet must be written with slashes before the sheet is, and not a cell.
const enoughDates = 3

// dateOrder reports a sheet of which most dates are written otherwise than ISO 8601 has them: once, with the line that
// says how, where a day above 12 proves it.
func (s *Sheet) dateOrder(text []byte, ps *Problems) bool {
	if s.f.Dialect.Dates != "" && s.f.Dialect.Dates != "iso" {
		return false
	}
	var columns []int
	for i, h := range s.Headings {
		if low := Fold(h.S); strings.Contains(low, "date") || low == "measured on" {
			columns = append(columns, i)
		}
	}
	r := s.reader(text)
	_, _ = r.Read() // the headings
	other, slashes, dayFirst, monthFirst, first := 0, 0, false, false, ""
	line, column := 0, 0
	for {
		cells, err := r.Read()
		if cells == nil && err != nil {
			break
		}
		for i, c := range cells {
			c = strings.TrimSpace(c)
			if !slices.Contains(columns, i) || c == "" {
				continue
			}
			m := slashed.FindStringSubmatch(c)
			if m == nil {
				other++
				continue
			}
			if slashes++; slashes == 1 {
				line, column = r.FieldPos(i)
				first = c
			}
			if proof := two(m[1]) > "12" || two(m[3]) > "12"; proof && !dayFirst && !monthFirst {
				first = c
			}
			dayFirst, monthFirst = dayFirst || two(m[1]) > "12", monthFirst || two(m[3]) > "12"
		}
	}
	if slashes < enoughDates || slashes < other {
		return false
	}
	at := s.offset(line, column)
	p := Problem{ID: "date-order", At: s.f.At(at, at), Message: "dates stand here as " + first + ", which may be read two ways",
		Want: "write in guide.yaml which it is: sheets: {dates: day first}, or {dates: month first}"}
	switch {
	case dayFirst && monthFirst:
		p.Message, p.Want = "some dates stand here with the day first and some with the month first", "write them as 2026-05-03"
	case dayFirst:
		p.Message, p.Want = "dates stand here with the day first, as "+first+" shows", "write in guide.yaml: sheets: {dates: day first}"
	case monthFirst:
		p.Message, p.Want = "dates stand here with the month first, as "+first+" shows", "write in guide.yaml: sheets: {dates: month first}"
	}
	ps.Add(p)
	return true
}
