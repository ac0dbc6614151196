// Package content reads a guide folder as text that knows its place: files,
// positions, problems with snippet and suggestion, YAML and CSV read by hand,
// and what a figure rests on. Nothing here knows a fly from a river.
package content

import (
	"bytes"
	"sort"
	"unicode/utf8"
)

// Place is a stretch of one file. It is kept as bytes and turned into line
// and column only when printed.
type Place struct {
	File   string // slash path inside the guide
	Offset int    // bytes before the first byte meant
	Len    int    // bytes meant; 0 points between two characters
}

// IsZero reports whether no place is known.
func (p Place) IsZero() bool { return p.File == "" }

// Sub is the part of p from byte i to byte j of it, for a token inside a
// scalar. Where the scalar was quoted or folded the parts don't line up: ask
// Text.Sub, which knows.
func (p Place) Sub(i, j int) Place { return Place{p.File, p.Offset + i, j - i} }

// Text is a scalar and its place. The zero Text is absent.
type Text struct {
	S     string
	At    Place
	Plain bool // the bytes at the place are S itself, so parts of it have places too
}

// IsZero reports whether nothing was written.
func (t Text) IsZero() bool { return t.S == "" && t.At.IsZero() }

// Sub cuts bytes i to j out of the text; the place narrows where it can.
func (t Text) Sub(i, j int) Text {
	at := t.At
	if t.Plain {
		at = at.Sub(i, j)
	}
	return Text{t.S[i:j], at, t.Plain}
}

// File is one file of the guide as read.
type File struct {
	Path  string
	Bytes []byte
	Dialect
	cells []workbookCell // of a workbook's sheet: where each cell stands
	lines []int          // byte offset of each line's start
}

// NewFile keeps a file's bytes under a slash path.
func NewFile(path string, b []byte) *File {
	f := &File{Path: path}
	f.hold(b)
	return f
}

// hold takes other bytes for the file's.
func (f *File) hold(b []byte) {
	f.Bytes, f.lines = b, []int{0}
	for i, c := range b {
		if c == '\n' {
			f.lines = append(f.lines, i+1)
		}
	}
}

// At is the place of bytes i to j, kept inside the file.
func (f *File) At(i, j int) Place {
	i = min(max(i, 0), len(f.Bytes))
	j = min(max(j, i), len(f.Bytes))
	return Place{f.Path, i, j - i}
}

// LineColumn gives the line and the column in characters, both from 1.
func (f *File) LineColumn(offset int) (line, column int) {
	offset = min(max(offset, 0), len(f.Bytes))
	n := sort.SearchInts(f.lines, offset+1)
	return n, utf8.RuneCount(f.Bytes[min(f.start(n), offset):offset]) + 1
}

// start is where a line's text starts: after a byte-order mark, which no
// editor shows or counts.
func (f *File) start(n int) int {
	if n == 1 && bytes.HasPrefix(f.Bytes, bom) {
		return len(bom)
	}
	return f.lines[n-1]
}

// Line returns the text of a line, from 1, without its end.
func (f *File) Line(n int) string {
	if n < 1 || n > len(f.lines) {
		return ""
	}
	end := len(f.Bytes)
	if n < len(f.lines) {
		end = f.lines[n] - 1
	}
	b := f.Bytes[min(f.start(n), end):end]
	if len(b) > 0 && b[len(b)-1] == '\r' {
		b = b[:len(b)-1]
	}
	return string(b)
}

// charactersOn is the offset n characters on from i, on the same line.
func (f *File) charactersOn(i, n int) int {
	for ; n > 0 && i < len(f.Bytes) && f.Bytes[i] != '\n'; n-- {
		_, size := utf8.DecodeRune(f.Bytes[i:])
		i += size
	}
	return i
}
