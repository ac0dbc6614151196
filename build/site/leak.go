package site

// This file searches every file of a site for strings that are withheld from its edition.
//
// A string is found as whole words in its exact letter case, whatever the spacing between them
// and however the file writes its characters: as character references, as backslash escapes of
// JSON, scripts and calendars, percent-encoded, on folded lines, or broken up by tags. Archives
// are opened. Addresses are searched for the string as it would be spelt in one.

import (
	"archive/zip"
	"bytes"
	"compress/gzip"
	"html"
	"io"
	"maps"
	"path"
	"slices"
	"strings"
	"unicode"
	"unicode/utf8"

	"github.com/gosimple/slug"
)

// shortestInBinary is the fewest bytes a withheld string must have to be looked for in a file
// that is not text: shorter ones turn up in any picture by chance.
const shortestInBinary = 8

// Withheld is a set of strings ready to be searched for. The zero value finds nothing.
type Withheld struct {
	byWord map[string][]withheld // first word → the strings beginning with it
	first  [256]bool             // the first bytes of those words
	slugs  []withheld
	asIs   bool // some string holds a character that decoding would change
}

type withheld struct {
	text string // as given
	want string // as searched for
}

// NewWithheld prepares the strings. One without a letter or digit is left out: it can't be told
// from any other.
func NewWithheld(texts []string) *Withheld {
	w := &Withheld{byWord: make(map[string][]withheld)}
	for _, text := range slices.Compact(slices.Sorted(slices.Values(texts))) {
		want := string(bytes.TrimFunc(spaced([]byte(text)), func(r rune) bool { return !inWord(r) }))
		if want == "" {
			continue
		}
		first := want[:wordEnd([]byte(want), 0)]
		w.byWord[first] = append(w.byWord[first], withheld{text, want})
		w.first[first[0]] = true
		w.asIs = w.asIs || strings.ContainsAny(want, `&\%<`)
		if s := slug.Make(text); s != "" {
			w.slugs = append(w.slugs, withheld{text, s})
		}
	}
	return w
}

// Find returns the withheld strings that stand in a file or its address, in order.
func (w *Withheld) Find(address string, data []byte) []string {
	if w == nil || len(w.byWord) == 0 {
		return nil
	}
	found := make(map[string]bool)
	for _, s := range w.slugs {
		if WholeWords(address, s.want) {
			found[s.text] = true
		}
	}
	w.file(address, data, found)
	return slices.Sorted(maps.Keys(found))
}

func (w *Withheld) file(address string, data []byte, found map[string]bool) {
	switch path.Ext(address) {
	case ".zip":
		if z, err := zip.NewReader(bytes.NewReader(data), int64(len(data))); err == nil {
			for _, f := range z.File {
				w.views([]byte(f.Name+"\n"+f.Comment), 0, found)
				if rc, err := f.Open(); err == nil {
					w.inParts(rc, found)
					rc.Close()
				}
			}
		}
	case ".gz":
		if z, err := gzip.NewReader(bytes.NewReader(data)); err == nil {
			w.inParts(z, found)
		}
	}
	shortest := 0
	if !utf8.Valid(data) {
		shortest = shortestInBinary
	}
	w.views(data, shortest, found)
}

// An archive's file is searched in parts of whole lines, since it may be far larger than the archive. The
// last lines of a part begin the next: a string may run on over line breaks.
const (
	partLength = 1 << 20
	partAgain  = 1 << 14 // more than any withheld string, however it is written
)

func (w *Withheld) inParts(r io.Reader, found map[string]bool) {
	var part []byte
	for more := true; more; {
		part = slices.Grow(part, partLength)
		n, err := io.ReadFull(r, part[len(part):len(part)+partLength])
		part, more = part[:len(part)+n], err == nil // what can be read is searched
		end := len(part)
		if more {
			end = bytes.LastIndexByte(part, '\n') + 1
		}
		w.views(part[:end], 0, found)
		again := bytes.LastIndexByte(part[:max(0, end-partAgain)], '\n') + 1
		part = append(part[:0], part[again:]...)
	}
}

// views searches the file as decoded, and as decoded after the tags are taken out; as it is only
// where that may differ.
func (w *Withheld) views(data []byte, shortest int, found map[string]bool) {
	if shortest > 0 || w.asIs {
		w.search(spaced(data), shortest, found)
	}
	if shortest > 0 {
		return
	}
	w.search(spaced(decoded(data)), 0, found)
	if bytes.IndexByte(data, '<') >= 0 {
		w.search(spaced(decoded(withoutTags(data))), 0, found)
	}
}

func (w *Withheld) search(data []byte, shortest int, found map[string]bool) {
	for i := 0; i < len(data); {
		end := wordEnd(data, i)
		if end == i {
			size := 1
			if data[i] >= utf8.RuneSelf {
				_, size = utf8.DecodeRune(data[i:])
			}
			i += size
			continue
		}
		if !w.first[data[i]] {
			i = end
			continue
		}
		for _, s := range w.byWord[string(data[i:end])] {
			if len(s.want) >= shortest && bytes.HasPrefix(data[i:], []byte(s.want)) && boundary(data, i+len(s.want)) {
				found[s.text] = true
			}
		}
		i = end
	}
}

// boundary reports whether no word runs across position i.
func boundary(data []byte, i int) bool {
	r, _ := utf8.DecodeRune(data[i:])
	before, _ := utf8.DecodeLastRune(data[:i])
	return i >= len(data) || !inWord(r) || alone(r) || alone(before)
}

// wordEnd returns where the word beginning at i ends; i itself where none begins.
func wordEnd(data []byte, i int) int {
	for start := i; i < len(data); {
		if c := data[i]; c < utf8.RuneSelf {
			if !asciiWord[c] {
				return i
			}
			i++
			continue
		}
		r, size := utf8.DecodeRune(data[i:])
		switch {
		case !inWord(r) || i > start && alone(r):
			return i
		case alone(r):
			return i + size
		}
		i += size
	}
	return i
}

var asciiWord = func() (is [utf8.RuneSelf]bool) {
	for c := range is {
		is[c] = '0' <= c && c <= '9' || 'a' <= c|0x20 && c|0x20 <= 'z'
	}
	return is
}()

func inWord(r rune) bool {
	if r < utf8.RuneSelf {
		return asciiWord[r]
	}
	return r != utf8.RuneError && (unicode.IsLetter(r) || unicode.IsDigit(r) || unicode.IsMark(r))
}

// alone reports whether a letter belongs to a script written without spaces between words.
func alone(r rune) bool {
	return r >= 0x0E00 && unicode.In(r, unicode.Thai, unicode.Lao, unicode.Myanmar, unicode.Khmer,
		unicode.Han, unicode.Hiragana, unicode.Katakana)
}

// wholeWords reports whether an address holds a word-run of it, as "reports/jane-doe.html" does.
func WholeWords(address, s string) bool {
	for from := 0; ; {
		i := strings.Index(address[from:], s)
		if i < 0 {
			return false
		}
		i += from
		before, _ := utf8.DecodeLastRuneInString(address[:i])
		if !inWord(before) && boundary([]byte(address), i+len(s)) {
			return true
		}
		from = i + 1
	}
}

// spaced writes every run of white space as one space and drops soft hyphens. What lies between is copied in whole
// runs; a file in which nothing changes is returned as it is.
func spaced(data []byte) []byte {
	var out []byte
	from := 0 // of the run that is not yet copied
	for i := 0; i < len(data); {
		if c := data[i]; c < utf8.RuneSelf && (!asciiSpace[c] || c == ' ' && i+1 < len(data) && data[i+1] < utf8.RuneSelf && !asciiSpace[data[i+1]]) {
			i++ // a letter, or one space alone
			continue
		}
		start, gap := i, false
		for i < len(data) {
			r, size := utf8.DecodeRune(data[i:])
			if r != '\u00AD' && !unicode.IsSpace(r) {
				break
			}
			gap, i = gap || r != '\u00AD', i+size
		}
		if i == start {
			_, size := utf8.DecodeRune(data[i:])
			i += size
			continue
		}
		if out == nil {
			out = make([]byte, 0, len(data))
		}
		out = append(out, data[from:start]...)
		if gap && i < len(data) {
			out = append(out, ' ')
		}
		from = i
	}
	return joined(out, data, from)
}

var asciiSpace = [utf8.RuneSelf]bool{' ': true, '\t': true, '\n': true, '\v': true, '\f': true, '\r': true}

// joined ends what was copied in runs; data itself where nothing was.
func joined(out, data []byte, from int) []byte {
	if from == 0 {
		return data
	}
	return append(out, data[from:]...)
}

// decoded undoes the ways in which files write characters otherwise.
func decoded(data []byte) []byte {
	if bytes.Contains(data, []byte("\r\n ")) { // RFC 5545, section 3.1: folded lines
		data = bytes.ReplaceAll(data, []byte("\r\n "), nil)
	}
	if bytes.IndexByte(data, '&') >= 0 {
		data = []byte(html.UnescapeString(string(data)))
	}
	if bytes.IndexByte(data, '\\') >= 0 {
		data = withoutEscapes(data)
	}
	if bytes.IndexByte(data, '%') >= 0 {
		data = withoutPercent(data)
	}
	return data
}

// withoutEscapes undoes \uXXXX, \xXX, \n, \t and a backslash before anything else. Halves of a
// surrogate pair become U+FFFD: no name we withhold is spelt in emoji.
func withoutEscapes(data []byte) []byte {
	out := make([]byte, 0, len(data))
	from := 0
	for {
		n := bytes.IndexByte(data[from:], '\\')
		if n < 0 || from+n+1 == len(data) {
			return joined(out, data, from)
		}
		out = append(out, data[from:from+n]...)
		i := from + n + 1
		from = i + 1
		digits := 0
		switch data[i] {
		case 'u':
			digits = 4
		case 'x':
			digits = 2
		case 'n', 'r', 't', 'N':
			out = append(out, ' ')
			continue
		}
		value, ok := hexDigits(data[i+1:], digits)
		if digits == 0 || !ok {
			out = append(out, data[i])
			continue
		}
		out = utf8.AppendRune(out, rune(value))
		from += digits
	}
}

func withoutPercent(data []byte) []byte {
	var out []byte
	from := 0
	for i := 0; ; {
		n := bytes.IndexByte(data[i:], '%')
		if n < 0 {
			return joined(out, data, from)
		}
		i += n + 1
		if value, ok := hexDigits(data[i:], 2); ok {
			out = append(append(out, data[from:i-1]...), byte(value))
			i += 2
			from = i
		}
	}
}

func hexDigits(b []byte, n int) (value int, ok bool) {
	if len(b) < n {
		return 0, false
	}
	for _, c := range b[:n] {
		if hexValue(c) < 0 {
			return 0, false
		}
		value = value<<4 | hexValue(c)
	}
	return value, true
}

func withoutTags(data []byte) []byte {
	out := make([]byte, 0, len(data))
	for {
		text, after, found := bytes.Cut(data, []byte("<"))
		out = append(out, text...)
		if !found {
			return out
		}
		end := bytes.IndexByte(after, '>')
		if end < 0 {
			return out
		}
		data = after[end+1:]
	}
}
