package content

import (
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

// What YAML 1.1 would turn into times in base 60, octals, booleans and floats
// stays the text that was written.
func TestYAMLGuessesNothing(t *testing.T) {
	for _, s := range []string{"18:30", "9:05", "NO", "No", "yes", "012", "0x1F", "1_2", "3/5/24", ".nan", ".inf", "1e3", "2026-05-03", "1/0", "3.50", "late Feb", "True"} {
		ps := &Problems{}
		v, _ := ReadYAML(NewFile("x.yaml", []byte("k: "+s+"\n")), ps).Get("k")
		assert.Equal(t, Scalar, v.Kind, s)
		assert.Equal(t, s, v.Text.S)
		assert.Empty(t, ps.All())
	}
}

func TestEmptyValuesAreAbsent(t *testing.T) {
	v := ReadYAML(NewFile("x.yaml", []byte("a:\nb: ~\nc: null\nd: ''\nl: [~, '', 1]\n")), &Problems{})
	for _, k := range []string{"a", "b", "c"} {
		w, ok := v.Get(k)
		assert.True(t, ok)
		assert.Equal(t, Absent, w.Kind, k)
	}
	d, _ := v.Get("d")
	assert.Equal(t, Scalar, d.Kind)
	l, _ := v.Get("l")
	assert.Len(t, l.Items, 3, "an empty item keeps its place in a list")
}

func TestCommasInsideBracesBelongToTheText(t *testing.T) {
	for text, want := range map[string]string{
		"{place: 55.2 N, 4.8 W}":             "place=55.2 N, 4.8 W",
		"{place: 55.2 N, 4.8 W, show: all}":  "place=55.2 N, 4.8 W|show=all",
		"{body: Olive, wet, in shade}":       "body=Olive, wet, in shade",
		"{a: b, c: }":                        "a=b|c=",
		"{a: b, c:}":                         "a=b|c:=", // as YAML has it
		`{a: "b", c}`:                        "a=b|c=",
		"{a, b}":                             "a=|b=",
		"{a: b,\n  c}":                       "a=b, c",
		"{place: 55.2 N, 4.8 W, place2: x,}": "place=55.2 N, 4.8 W|place2=x",
	} {
		ps := &Problems{}
		v := ReadYAML(NewFile("x.yaml", []byte("k: "+text+"\n")), ps)
		require.Empty(t, ps.All(), text)
		k, _ := v.Get("k")
		var got []string
		for _, e := range k.Entries {
			got = append(got, e.Key.S+"="+e.Value.Text.S)
		}
		assert.Equal(t, want, strings.Join(got, "|"), text)
	}
}

func TestOpenReportsAndGoesOn(t *testing.T) {
	r := &Record{Name: "thing", Fields: []Field{
		{Key: "name", Shape: Line, Required: true, Example: "x"}, {Key: "kind", Shape: Choice, Choices: []string{"spring-fed", "peaty"}},
		{Key: "list", Shape: Texts}, {Key: "block", Shape: Block}, {Key: "rows", Shape: Blocks}}}
	ps := &Problems{}
	f := NewFile("x.yaml", []byte("nmae: a\nkind: springfed\nlist: {a: b}\nblock: text\nrows: {a: b}\n"))
	o := r.Open(ReadYAML(f, ps), ps)
	assert.Equal(t, []string{"missing-key@1:1", "unknown-key@1:1", "unknown-choice@2:7", "wrong-shape@3:7", "wrong-shape@4:8"}, where(ps))
	assert.Contains(t, ps.All()[1].Message, `did you mean "name"?`)
	assert.Contains(t, ps.All()[2].Message, `did you mean "spring-fed"?`)
	assert.False(t, o.Has("kind"), "a broken field is absent")
	assert.Len(t, o.Blocks("rows"), 1, "one block is a list of one")
}

func TestFaultsOfYAML(t *testing.T) {
	for text, want := range map[string][]string{
		"a: 1\na: 2\n":                     {"duplicate-key@2:1"},
		"a: 1\n---\nb: 2\n":                {"second-document@3:1"},
		"a: &x 1\n":                        {"yaml-anchor@1:4"},
		"a: {<<: {b: 1}}\n":                {"yaml-merge@1:5"},
		"a: !thing 1\n":                    {"yaml-tag@1:4"},
		"a:\n  b: 1\n c: 2\n":              {"yaml-syntax@3:2"},
		"a:\tb: c\n":                       {"yaml-syntax@1:1"},
		"a: @b\n":                          {"yaml-syntax@1:1"},
		"body: Dark Olive #403d21\n":       {"hex-eaten@1:7"},
		"a: 1\nc: {body: #403d21}\nd: 1\n": {"yaml-syntax@2:1", "hex-eaten@2:11"},
	} {
		ps := &Problems{}
		ReadYAML(NewFile("x.yaml", []byte(text)), ps)
		assert.Equal(t, want, where(ps), text)
	}
}

func FuzzMarkdownHead(f *testing.F) {
	for _, s := range []string{"---\nname: x\n---\nbody", "\ufeff---\r\na: {b: c, d}\r\n---\r\n", "---\n", "no head", "---\na: #403d21\n---", "---\n? [a]\n: b\n---\n", "---\na: |\n  x\n y\n---\n"} {
		f.Add([]byte(s))
	}
	f.Fuzz(func(t *testing.T, b []byte) {
		ps := &Problems{}
		file := NewFile("species/x.md", b)
		v, body, off := Front(file, ps)
		inside(t, file, v)
		if off < 0 || off > len(b) || body != "" && string(b[off:]) != body {
			t.Fatalf("body at %d of %d", off, len(b))
		}
		insideAll(t, file, ps)
	})
}

// inside checks that every text's place lies in the file and, where it is
// plain, holds the text.
func inside(t *testing.T, f *File, v Value) {
	check := func(x Text) {
		if x.At.Offset < 0 || x.At.Len < 0 || x.At.Offset+x.At.Len > len(f.Bytes) {
			t.Fatalf("%q lies outside the file: %+v of %d", x.S, x.At, len(f.Bytes))
		}
		if x.Plain && at(f, x.At) != x.S {
			t.Fatalf("%q is said to be plain, but at its place stands %q", x.S, at(f, x.At))
		}
	}
	check(v.Text)
	for _, i := range v.Items {
		inside(t, f, i)
	}
	for _, e := range v.Entries {
		check(e.Key)
		inside(t, f, e.Value)
	}
}

func insideAll(t *testing.T, f *File, ps *Problems) {
	var b strings.Builder
	for _, p := range ps.All() {
		for _, at := range []Place{p.At, p.Also} {
			if at.Offset < 0 || at.Len < 0 || at.Offset+at.Len > len(f.Bytes) {
				t.Fatalf("%s points outside the file: %+v of %d", p.ID, at, len(f.Bytes))
			}
		}
		ps.Print(&b, p)
	}
}

// YAML 1.1, section 5.4: a line ends at CR, LF, CR LF, NEL, LS or PS. A value's
// place is where its bytes are, whichever of them the file uses.
func TestPlacesAfterEveryLineEnd(t *testing.T) {
	for _, end := range []string{"\r", "\n", "\r\n", "\u0085", "\u2028", "\u2029"} {
		for _, text := range []string{"a: é" + end + "b: z", end + "b: z", "\ufeff# é" + end + "b: z" + end, "a:" + end + "- é" + end + "- {b: z}"} {
			f, ps := NewFile("x.yaml", []byte(text)), &Problems{}
			v := ReadYAML(f, ps)
			require.Empty(t, ps.All(), "%q", text)
			for v.Kind != Scalar {
				if v.Kind == List {
					v = v.Items[len(v.Items)-1]
				} else {
					v = v.Entries[len(v.Entries)-1].Value
				}
			}
			assert.Equal(t, strings.Index(text, "z"), v.At.Offset, "%q", text)
		}
		f := NewFile("x.yaml", []byte(end+"~"))
		at := ReadYAML(f, &Problems{}).At
		assert.Equal(t, Place{"x.yaml", len(end), 1}, at, "%q", end)
	}
}

// Signs that nobody can see are blanked where they stand, and refused in a name; isolates and marks of scripts that
// run right to left are left alone.
func TestControlSigns(t *testing.T) {
	for text, want := range map[string]struct {
		reads string
		ids   []string
		grade Grade
	}{
		"about: a\u202eb":         {"a   b", []string{"control-sign@1:9"}, Warning},
		"about: \"a\\u202eb\"":    {"a b", []string{"control-sign@1:8"}, Warning},
		"about: \"a\\x1b[31mb\"":  {"a [31mb", []string{"control-sign@1:8"}, Warning},
		"about: a\x1b[31mb":       {"a [31mb", []string{"control-sign@1:9"}, Warning},
		"name: a\u202ab\u202ab":   {"a   b   b", []string{"control-sign@1:8"}, Error},
		"about: a\u2067b\u2069":   {"a\u2067b\u2069", nil, 0},
		"about: \u200fשלום\u200f": {"\u200fשלום\u200f", nil, 0},
		"about: a b":              {"a b", nil, 0},
	} {
		ps := &Problems{}
		v := ReadYAML(NewFile("x.yaml", []byte(text)), ps)
		require.Len(t, v.Entries, 1, text)
		assert.Equal(t, want.reads, v.Entries[0].Value.Text.S, "%q", text)
		assert.Equal(t, want.ids, where(ps), "%q", text)
		for _, p := range ps.All() {
			assert.Equal(t, want.grade, p.Grade, "%q", text)
		}
	}
	ps := &Problems{}
	_, body, _ := Front(NewFile("x.md", []byte("---\nname: A\n---\nOne \u202etwo\x07.\nThree.\n")), ps)
	assert.Equal(t, "One    two .\nThree.\n", body)
	assert.Equal(t, []string{"control-sign@4:5"}, where(ps))
	sheet := OpenCSV(NewFile("x.csv", []byte("fly,remarks\nOlive,a\u202eb\n")), ps)
	for row := range sheet.Rows(ps) {
		assert.Equal(t, "a   b", row.String(1))
	}
}
