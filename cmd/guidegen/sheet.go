package main

// The rows of a visit, written in the vocabulary of the sheet they go into:
// plain headings, or Darwin Core terms.

import (
	"bytes"
	"cmp"
	"encoding/csv"
	"fmt"
	"slices"
	"strings"

	"guidegen/build"
	"guidegen/content"
	"guidegen/species"
)

// visitForm is a visit as it was told, every answer still text.
type visitForm struct {
	id, date, start, end, water, beat, method, effort, scope, by, remarks string
	nothing                                                               bool
	finds                                                                 []findForm
}

type findForm struct {
	fly, stage, sex, count, lengths, namedBy, checked string
	account                                           *species.Account // where the name is known
}

// cells are the values of one row, by heading.
type cells map[string]string

// plainRows gives the visit's rows under plain headings. Cells of the visit
// stand in its first row alone.
func (v visitForm) plainRows() []cells {
	first := cells{"visit": v.id, "date": v.date, "start": v.start, "end": v.end, "water": v.water, "beat": v.beat, "method": v.method,
		"effort": v.effort, "looked for": v.scope, "by": v.by}
	if v.nothing {
		first["fly"] = "nothing"
	}
	var rows []cells
	if v.remarks != "" || len(v.finds) == 0 {
		first["remarks"] = v.remarks // in a row of its own a remark speaks of the visit, not of a find
		rows = append(rows, first)
		first = cells{"visit": v.id}
	}
	for _, f := range v.finds {
		for k, x := range (cells{"fly": f.fly, "stage": f.stage, "sex": f.sex, "count": f.count, "lengths mm": f.lengths, "named by": f.namedBy, "checked": f.checked}) {
			first[k] = x
		}
		rows = append(rows, first)
		first = cells{"visit": v.id}
	}
	return rows
}

// coreRows gives the visit's rows in Darwin Core terms: a row for each length,
// every row complete.
func (v visitForm) coreRows() []cells {
	time := v.start
	if v.end != "" {
		time += "/" + v.end
	}
	amount, unit, _ := strings.Cut(strings.TrimSpace(v.effort), " ")
	visit := func() cells {
		return cells{"eventID": v.id, "eventDate": v.date, "eventTime": time, "waterBody": v.water, "locality": v.beat, "samplingProtocol": v.method,
			"sampleSizeValue": amount, "sampleSizeUnit": strings.TrimSpace(unit), "scope": v.scope, "recordedBy": v.by}
	}
	var rows []cells
	if v.remarks != "" || len(v.finds) == 0 {
		r := visit()
		r["occurrenceRemarks"] = v.remarks
		rows = append(rows, r)
	}
	for i, f := range v.finds {
		find := func() cells {
			r := visit()
			for k, x := range (cells{"occurrenceID": fmt.Sprintf("%s-%d", v.id, i+1), "occurrenceStatus": "present", "scientificName": f.fly, "lifeStage": f.stage,
				"sex": f.sex, "individualCount": f.count, "identifiedBy": f.namedBy, "identificationVerificationStatus": f.checked}) {
				r[k] = x
			}
			if f.account != nil {
				r["scientificName"], r["taxonRank"] = cmp.Or(f.account.Scientific.Name.S, f.fly), "species"
			}
			return r
		}
		lengths := strings.Fields(f.lengths)
		if len(lengths) == 0 {
			rows = append(rows, find())
		}
		for _, l := range lengths {
			r := find()
			r["measurementValue"], r["measurementUnit"] = l, "mm"
			r["measurementType"], r["measurementMethod"] = "body length", "without tails"
			if f.account != nil {
				switch f.account.Group {
				case species.Sedge, species.Stonefly, species.Alder:
					r["measurementType"], r["measurementMethod"] = "overall length", "head to wing tip"
				}
			}
			rows = append(rows, r)
		}
	}
	return rows
}

// optional are terms that a sheet may do without: they say what is plain without them.
var optional = []string{"taxonRank", "occurrenceStatus", "occurrenceID", "measurementMethod"}

// append adds the visit's rows to a sheet's text, in the sheet's own vocabulary,
// line ends and order of columns. An empty text begins a new sheet. Nothing told
// is ever left out: a sheet without a column for it is refused.
func (v visitForm) append(sheet []byte, name string, d content.Dialect) ([]byte, error) {
	if d.Encoding != "" && d.Encoding != "utf-8" {
		return nil, build.Misused("%s is written in %s; log the visit into a sheet in UTF-8, named with --sheet", name, d.Encoding)
	}
	out := bytes.Clone(sheet)
	if len(bytes.TrimSpace(sheet)) == 0 {
		out = []byte(strings.Join(sheetHeadings(), string(d.Comma())) + "\n")
	}
	text := bytes.TrimPrefix(out, []byte("\xef\xbb\xbf"))
	crlf := bytes.Contains(text, []byte("\r\n"))
	reader := csv.NewReader(bytes.NewReader(text))
	comma := d.Comma()
	if line, _, _ := bytes.Cut(text, []byte("\n")); !bytes.ContainsRune(line, comma) && bytes.ContainsRune(line, ',') {
		comma = ',' // as it is read
	}
	reader.Comma = comma
	headings, err := reader.Read()
	if err != nil {
		return nil, build.Misused("%s: its first line can't be read as headings: %v", name, err)
	}
	for i, h := range headings {
		headings[i] = strings.TrimSpace(h)
	}
	has := func(n string) bool {
		return slices.ContainsFunc(headings, func(h string) bool { return content.Fold(h) == content.Fold(n) })
	}
	rows := v.plainRows()
	if has("lengths in") && slices.ContainsFunc(v.finds, func(f findForm) bool { return f.lengths != "" }) {
		return nil, build.Misused("%s holds its lengths in inches, and a visit gives them in mm; name another sheet with --sheet", name)
	}
	if has("eventID") {
		rows = v.coreRows()
	}
	for _, r := range rows {
		for k, x := range r {
			if x != "" && !has(k) && !slices.Contains(optional, k) {
				return nil, build.Misused("%s has no column %q for %q; add the column to its first line, or name another sheet with --sheet", name, k, x)
			}
		}
	}
	if n := len(out); n > 0 && out[n-1] != '\n' {
		if crlf {
			out = append(out, '\r')
		}
		out = append(out, '\n')
	}
	b := bytes.NewBuffer(out)
	w := csv.NewWriter(b)
	w.Comma = comma
	w.UseCRLF = crlf
	for _, r := range rows {
		line := make([]string, len(headings))
		for i, h := range headings {
			for k, x := range r {
				if content.Fold(k) == content.Fold(h) {
					line[i] = x
				}
			}
		}
		if err := w.Write(line); err != nil {
			return nil, err
		}
	}
	w.Flush()
	return b.Bytes(), w.Error()
}
