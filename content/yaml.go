package content

// The YAML reader: yaml.v3 parses, we keep text and places only. Nothing that
// YAML guesses (dates, octals, times in base 60, yes and no) reaches a value.

import (
	"bytes"
	"errors"
	"fmt"
	"io"
	"regexp"
	"strconv"
	"strings"
	"unicode/utf8"

	"gopkg.in/yaml.v3"
)

// Kind is the shape of a value.
type Kind int

// The shapes. Absent is an empty value: nothing after the colon, ~ or null.
const (
	Absent Kind = iota
	Scalar
	List
	Map
)

func (k Kind) String() string {
	return [...]string{"nothing", "a text", "a list", "a block"}[k]
}

// Value is one YAML value: a scalar's text, a list or a block, and its place.
type Value struct {
	Kind    Kind
	Text    Text
	Items   []Value
	Entries []Entry
	At      Place
	Broken  bool // it can't be read, which has been reported
}

// Entry is one key of a block.
type Entry struct {
	Key   Text
	Value Value
}

// Get returns a block's value under a key.
func (v Value) Get(key string) (Value, bool) {
	for _, e := range v.Entries {
		if e.Key.S == key {
			return e.Value, true
		}
	}
	return Value{}, false
}

const (
	maxDepth = 40
	maxBytes = 8 << 20
)

// ReadYAML reads a whole file as one document.
func ReadYAML(f *File, ps *Problems) Value { return readYAML(f, 0, len(f.Bytes), ps) }

// readYAML reads the bytes from..to of a file; the head of a Markdown file
// is such a stretch.
func readYAML(f *File, from, to int, ps *Problems) Value {
	v := parseYAML(f, from, to, ps)
	if v.Broken {
		ps.Unread(f.Path)
	}
	return v
}

func parseYAML(f *File, from, to int, ps *Problems) Value {
	ps.Know(f)
	if to-from > maxBytes {
		ps.Errorf("file-too-large", f.At(from, from), "split it", "%d MB is more than one file may hold", (to-from)>>20)
		return Value{At: f.At(from, from), Broken: true}
	}
	text := f.Bytes[from:to]
	if bytes.HasPrefix(text, bom) { // a byte-order mark is kept as meant: nothing
		from += 3
		text = text[3:]
	}
	if f.notText(from, text, "save the file as UTF-8", ps) {
		return Value{At: f.At(from, from), Broken: true}
	}
	r := &yamlReader{f: f, base: from, lines: yamlLines(text, from), ps: ps}
	dec := yaml.NewDecoder(bytes.NewReader(text))
	var doc yaml.Node
	if err := dec.Decode(&doc); err != nil {
		if !errors.Is(err, io.EOF) {
			r.syntax(err)
			return Value{At: f.At(from, from), Broken: true}
		}
		return Value{At: f.At(from, from)}
	}
	var second yaml.Node
	if err := dec.Decode(&second); err == nil {
		at := r.place(&second)
		if len(second.Content) > 0 {
			at = r.place(second.Content[0])
		}
		ps.Errorf("second-document", at, "keep one document in a file: remove the line ---", "a second YAML document starts here")
	} else if !errors.Is(err, io.EOF) {
		r.syntax(err)
		return Value{At: f.At(from, from), Broken: true}
	}
	if len(doc.Content) == 0 {
		return Value{At: f.At(from, from)}
	}
	return r.value(doc.Content[0], 0)
}

// notText reports the first byte that is no UTF-8 text, or is a zero byte, in a
// stretch of the file that starts at from.
func (f *File) notText(from int, text []byte, want string, ps *Problems) bool {
	if i := invalidUTF8(text); i >= 0 {
		ps.Errorf("not-utf8", f.At(from+i, from+i+1), want, "these bytes are not UTF-8 text")
		return true
	}
	if i := bytes.IndexByte(text, 0); i >= 0 {
		ps.Errorf("not-utf8", f.At(from+i, from+i+1), want, "a zero byte stands here: this isn't a text file")
		return true
	}
	f.quiet(from, text, ps)
	return false
}

func invalidUTF8(b []byte) int {
	for i := 0; i < len(b); {
		r, n := utf8.DecodeRune(b[i:])
		if r == utf8.RuneError && n == 1 {
			return i
		}
		i += n
	}
	return -1
}

type yamlReader struct {
	f     *File
	base  int   // byte offset where the YAML starts
	lines []int // byte offsets where its lines start
	ps    *Problems
}

// yamlBreak is where yaml.v3 starts a new line: it counts the line ends of YAML
// 1.1 (section 5.4), which no editor does.
var yamlBreak = regexp.MustCompile("\r\n|[\r\n\u0085\u2028\u2029]")

func yamlLines(text []byte, from int) []int {
	starts := []int{from}
	for _, m := range yamlBreak.FindAllIndex(text, -1) {
		starts = append(starts, from+m[1])
	}
	return starts
}

// offset turns yaml.v3's line and column (both from 1, columns in characters)
// into a byte offset.
func (r *yamlReader) offset(line, column int) int {
	if line < 1 || line > len(r.lines) {
		return len(r.f.Bytes)
	}
	return r.f.charactersOn(r.lines[line-1], column-1)
}

var hexInLine = regexp.MustCompile(`[:,\[][ \t]+#[0-9A-Fa-f]{6}\b`)

var yamlLine = regexp.MustCompile(`line (\d+):? ?(?:column \d+: )?`)

// syntax turns yaml.v3's error into a problem. Its line numbers count from
// the start of what it was given; they are those of the block or list that
// the error is in, so the message says "near".
func (r *yamlReader) syntax(err error) {
	msg := strings.TrimPrefix(err.Error(), "yaml: ")
	at := r.f.At(r.base, r.base)
	if m := yamlLine.FindStringSubmatch(msg); m != nil {
		n, _ := strconv.Atoi(m[1])
		if strings.Contains(msg, "did not find expected") { // the parser counts lines from 0, the scanner from 1
			n++
		}
		off := r.offset(n, 1)
		number, _ := r.f.LineColumn(off)
		line := r.f.Line(number)
		off += len(line) - len(strings.TrimLeft(line, " \t"))
		at = r.f.At(off, off+len(strings.TrimSpace(line)))
		msg = strings.TrimSpace(yamlLine.ReplaceAllString(msg, ""))
	}
	want := "check the line and the one above: spaces, colons, quotes, brackets"
	if strings.HasPrefix(msg, "control characters") { // yaml.v3 doesn't say where
		if i := bytes.IndexFunc(r.f.Bytes[r.base:], control); i >= 0 {
			at = r.f.At(r.base+i, r.base+i+1)
			want = "take it out: it can't be seen, but stands in the text"
		}
	}
	if strings.Contains(msg, "cannot start any token") || strings.Contains(msg, "tab") {
		want = "YAML wants spaces, not tabs, and quotes round a text that starts with a special sign"
	}
	if m := hexInLine.FindIndex(r.f.Bytes[r.base:]); m != nil { // an open { or [ often is a colour's doing
		hex := strings.TrimSpace(string(r.f.Bytes[r.base+m[1]-7 : r.base+m[1]]))
		r.ps.Errorf("hex-eaten", r.f.At(r.base+m[1]-7, r.base+m[1]), "write the six digits without #: "+hex[1:],
			"YAML takes %s and all that follows in its line for a comment", hex)
	}
	r.ps.Errorf("yaml-syntax", at, want, "not readable as YAML near here: %s", msg)
}

// control reports characters that YAML allows nowhere.
func control(c rune) bool {
	return c < 0x20 && c != '\t' && c != '\n' && c != '\r' || c == 0x7f || c >= 0x80 && c < 0xa0 && c != 0x85 || c == 0xfffe || c == 0xffff
}

// place finds a node's bytes.
func (r *yamlReader) place(n *yaml.Node) Place {
	off := r.offset(n.Line, n.Column)
	return r.f.At(off, off+r.length(n, off))
}

func (r *yamlReader) length(n *yaml.Node, off int) int {
	if n.Kind != yaml.ScalarNode {
		return 1
	}
	b := r.f.Bytes[min(off, len(r.f.Bytes)):]
	switch {
	case n.Style&yaml.DoubleQuotedStyle != 0:
		for i := 1; i < len(b); i++ {
			if b[i] == '\\' {
				i++
			} else if b[i] == '"' {
				return i + 1
			}
		}
	case n.Style&yaml.SingleQuotedStyle != 0:
		for i := 1; i < len(b); i++ {
			if b[i] == '\'' {
				if i+1 < len(b) && b[i+1] == '\'' {
					i++
					continue
				}
				return i + 1
			}
		}
	case n.Style&(yaml.LiteralStyle|yaml.FoldedStyle) != 0:
		return 1
	}
	if i := bytes.IndexByte(b, '\n'); i >= 0 {
		b = b[:i]
	}
	if bytes.HasPrefix(b, []byte(n.Value)) {
		return len(n.Value)
	}
	return len(bytes.TrimRight(b, " \r"))
}

func (r *yamlReader) value(n *yaml.Node, depth int) Value {
	at := r.place(n)
	if depth > maxDepth {
		r.ps.Errorf("too-deep", at, "", "blocks are nested more than %d deep", maxDepth)
		return Value{At: at}
	}
	if n.Anchor != "" || n.Kind == yaml.AliasNode {
		r.ps.Errorf("yaml-anchor", at, "write the value out where it is needed", "YAML anchors and aliases are not read here")
		return Value{At: at}
	}
	switch n.Kind {
	case yaml.ScalarNode:
		return r.scalar(n, at)
	case yaml.SequenceNode:
		v := Value{Kind: List, At: at}
		for _, c := range n.Content {
			v.Items = append(v.Items, r.value(c, depth+1))
		}
		return v
	case yaml.MappingNode:
		v := Value{Kind: Map, At: at}
		seen := map[string]Place{}
		for i := 0; i+1 < len(n.Content); i += 2 {
			k := n.Content[i]
			if k.Kind != yaml.ScalarNode {
				r.ps.Errorf("key-not-text", r.place(k), "", "a key must be a plain text")
				continue
			}
			if k.Tag == "!!merge" {
				r.ps.Errorf("yaml-merge", r.place(k), "write the keys out", "YAML merge keys (<<) are not read here")
				continue
			}
			if n.Style&yaml.FlowStyle != 0 && r.continues(&v, k, n.Content[i+1]) {
				continue
			}
			key := r.text(k)
			if first, ok := seen[key.S]; ok {
				r.ps.Clash("duplicate-key", key.At, first, "first given here", "keep one of the two", "the key %q stands twice in one block", key.S)
				continue
			}
			seen[key.S] = key.At
			v.Entries = append(v.Entries, Entry{key, r.value(n.Content[i+1], depth+1)})
		}
		return v
	}
	return Value{At: at}
}

// continues joins what a comma inside {…} cut in two: {place: 55.2 N, 4.9 W}
// is a place and no key "4.9 W", since no colon follows it.
func (r *yamlReader) continues(v *Value, key, value *yaml.Node) bool {
	if len(v.Entries) == 0 || key.Kind != yaml.ScalarNode || key.Style != 0 || value.Kind != yaml.ScalarNode || value.Tag != "!!null" || value.Value != "" {
		return false
	}
	last := &v.Entries[len(v.Entries)-1].Value
	t := r.text(key)
	if strings.HasSuffix(t.S, ":") { // "{a: b, c:}" is read as a key "c:"
		return false
	}
	if last.Kind != Scalar || !last.Text.Plain || !t.Plain || last.At != last.Text.At {
		return false
	}
	end := t.At.Offset + t.At.Len
	if after := bytes.TrimLeft(r.f.Bytes[end:], " \t\r\n"); len(after) == 0 || after[0] != ',' && after[0] != '}' {
		return false // a colon follows: a key whose value is left empty
	}
	from := last.At.Offset
	between := r.f.Bytes[from+last.At.Len : t.At.Offset]
	if strings.Trim(string(between), " \t\r\n") != "," {
		return false // quoted, or a comment stands between
	}
	raw := string(r.f.Bytes[from:end])
	joined := Text{S: strings.Join(strings.Fields(raw), " "), At: r.f.At(from, end)}
	joined.Plain = joined.S == raw
	*last = Value{Kind: Scalar, Text: joined, At: joined.At}
	return true
}

var looksLikeHex = regexp.MustCompile(`^[ \t]*#[0-9A-Fa-f]{6}\b`)

func (r *yamlReader) scalar(n *yaml.Node, at Place) Value {
	if strings.HasPrefix(n.Tag, "!") && !strings.HasPrefix(n.Tag, "!!") || n.Style&yaml.TaggedStyle != 0 {
		r.ps.Errorf("yaml-tag", at, "write the plain text", "YAML tags (%s) are not read here", n.Tag)
		return Value{At: at}
	}
	if n.Tag == "!!null" && n.Style&(yaml.DoubleQuotedStyle|yaml.SingleQuotedStyle) == 0 {
		if n.Value == "" { // yaml.v3 places an empty value after its comment or on the next line
			if m := r.eatenHex(n); m != "" {
				for n := range 2 { // in the line of the key or above the place that YAML names
					from := r.f.start(max(r.lineOf(at)-n, 1))
					if i := bytes.Index(r.f.Bytes[from:], []byte(m)); i >= 0 && !bytes.Contains(r.f.Bytes[from:from+i], []byte("\n")) {
						at = r.f.At(from+i, from+i+len(m))
						break
					}
				}
				r.ps.Errorf("hex-eaten", at, "write the six digits without #: "+strings.TrimPrefix(m, "#"),
					"YAML takes %s for a comment, so no colour is left", m)
			}
		}
		if n.Value == "" || n.Value == "~" || strings.EqualFold(n.Value, "null") {
			at = r.f.At(at.Offset, at.Offset+len(n.Value))
			return Value{Kind: Absent, At: at, Text: Text{S: "", At: at}}
		}
	}
	if m := n.LineComment; n.Style == 0 && looksLikeHex.MatchString(m) {
		hex := strings.Fields(m)[0]
		r.ps.Warnf("hex-eaten", at, "write the six digits without #: "+n.Value+" "+hex[1:], "YAML takes %s for a comment, so only the words are left", hex)
	}
	return Value{Kind: Scalar, Text: r.text(n), At: at}
}

func (r *yamlReader) lineOf(at Place) int { n, _ := r.f.LineColumn(at.Offset); return n }

// eatenHex finds a colour such as #403d21 that YAML read as a comment.
func (r *yamlReader) eatenHex(n *yaml.Node) string {
	for _, c := range []string{n.LineComment, n.HeadComment, n.FootComment} {
		if looksLikeHex.MatchString(c) {
			return strings.Fields(c)[0]
		}
	}
	line := r.f.Line(r.lineOf(r.place(n)))
	if i := strings.IndexByte(line, ':'); i >= 0 && looksLikeHex.MatchString(line[i+1:]) {
		return strings.Fields(line[i+1:])[0]
	}
	return ""
}

func (r *yamlReader) text(n *yaml.Node) Text {
	at := r.place(n)
	if quiet, found := withoutControls(n.Value); found { // written as an escape
		r.f.sayControl(at.Offset, at.Len, r.ps)
		n.Value = quiet
	}
	plain := at.Offset+len(n.Value) <= len(r.f.Bytes) && string(r.f.Bytes[at.Offset:at.Offset+len(n.Value)]) == n.Value
	if plain {
		at.Len = len(n.Value)
	}
	return Text{S: n.Value, At: at, Plain: plain}
}

// Front splits a Markdown file into its YAML head and its body. The head
// stands between two lines of three hyphens; without them the whole file is
// body. The body's offset is returned so that its problems keep their place.
func Front(f *File, ps *Problems) (head Value, body string, bodyOffset int) {
	ps.Know(f)
	b := f.Bytes
	start := 0
	if bytes.HasPrefix(b, bom) {
		start = 3
	}
	if f.notText(start, b[start:], "save the file as UTF-8", ps) {
		ps.Unread(f.Path)
		return Value{At: f.At(start, start), Broken: true}, "", len(b)
	}
	line, rest := cutLine(b[start:])
	if strings.TrimRight(line, " \r") != "---" {
		return Value{At: f.At(start, start)}, string(b[start:]), start
	}
	from := len(b) - len(rest)
	for at := from; at < len(b); {
		line, rest = cutLine(b[at:])
		if strings.TrimRight(line, " \r") == "---" {
			return readYAML(f, from, at, ps), string(rest), len(b) - len(rest)
		}
		at = len(b) - len(rest)
	}
	ps.Unread(f.Path)
	ps.Errorf("head-open", f.At(start, start+3), "close it with a line ---", "the head starts here and never ends")
	return Value{At: f.At(start, start), Broken: true}, "", len(b)
}

func cutLine(b []byte) (string, []byte) {
	if i := bytes.IndexByte(b, '\n'); i >= 0 {
		return string(b[:i]), b[i+1:]
	}
	return string(b), nil
}

// kindWanted words a wrong shape.
func kindWanted(v Value, want string) string {
	return fmt.Sprintf("found %s where %s is wanted", v.Kind, want)
}
