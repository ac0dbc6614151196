package content

// One table of fields per kind of record drives the reader, the suggestions,
// the JSON Schema and the page on the format.

import (
	"slices"
	"strings"
)

// Shape is what a field holds.
type Shape int

// The shapes of fields.
const (
	Line      Shape = iota // one text
	Statement              // a text that may end in its basis, or a list of such claims
	Cases                  // a statement, or a block of them keyed by words of stage, sex and flight
	Choice                 // one of the field's choices
	Texts                  // one text or a list of texts
	Block                  // a block with the fields of Of
	Blocks                 // a list of blocks with the fields of Of, or one such block
	Named                  // a block whose keys are the guide's own words, each value with the fields of Of (or any, where Of is nil)
	Anything               // read by its own code
)

// Field is one key of a record.
type Field struct {
	Key      string
	Shape    Shape
	Required bool
	Choices  []string // Choice: the closed list, complete
	Of       *Record
	Doc      string // one sentence for the editor
	Example  string // as it would stand after the colon
}

// Record is a kind of block.
type Record struct {
	Name   string // "account", "river record"
	Doc    string
	Fields []Field
}

// Keys lists the record's keys in order.
func (r *Record) Keys() []string {
	k := make([]string, len(r.Fields))
	for i, f := range r.Fields {
		k[i] = f.Key
	}
	return k
}

// Field finds a key's field.
func (r *Record) Field(key string) (Field, bool) {
	i := slices.IndexFunc(r.Fields, func(f Field) bool { return f.Key == key })
	if i < 0 {
		return Field{}, false
	}
	return r.Fields[i], true
}

// otherWords are what people write for a key, where the records call it otherwise.
var otherWords = map[string]string{"who": "by", "author": "by", "recorder": "by", "day": "date", "when": "date", "reason": "why", "because": "why",
	"before": "was", "after": "now", "latin": "scientific", "size": "length", "tz": "time_zone", "timezone": "time_zone", "notes": "about"}

// Opened is a block checked against its record: unknown and missing keys have
// been reported, shapes are right, absent values are left out.
type Opened struct {
	Record *Record
	At     Place
	values map[string]Value
}

// Open checks a block against a record's fields. A field of the wrong shape
// is reported and becomes absent.
func (r *Record) Open(v Value, ps *Problems) Opened {
	o := Opened{r, v.At, map[string]Value{}}
	if v.Broken {
		return o
	}
	if v.Kind == Absent && len(r.Fields) > 0 && !r.anyRequired() {
		return o
	}
	if v.Kind != Map {
		ps.Errorf("wrong-shape", v.At, "its keys are: "+strings.Join(r.Keys(), ", "), "%s", kindWanted(v, "a block of "+A(r.Name)))
		return o
	}
	for _, e := range v.Entries {
		f, ok := r.Field(e.Key.S)
		if !ok {
			near := DidYouMean(e.Key.S, r.Keys())
			if other := otherWords[Fold(e.Key.S)]; slices.Contains(r.Keys(), other) {
				near = meant + `"` + other + `"?`
			}
			ps.Errorf("unknown-key", e.Key.At, "keys of "+A(r.Name)+": "+strings.Join(r.Keys(), ", "), "unknown key %q%s", e.Key.S, near)
			continue
		}
		if e.Value.Kind == Absent {
			if f.Key == "show" { // what is to be withheld must not slip out through a word forgotten
				ps.Errorf("empty-show", e.Key.At, "write show: members or show: everyone, or take the line out", "%q says nothing of who may read this", f.Key)
			}
			continue
		}
		if bad := f.misfit(e.Value); bad != "" {
			ps.Errorf("wrong-shape", e.Value.At, f.suggestion(), "%q: %s", f.Key, kindWanted(e.Value, bad))
			continue
		}
		if f.Shape == Choice {
			if s := e.Value.Text; !slices.Contains(f.Choices, strings.ToLower(strings.TrimSpace(s.S))) {
				ps.Errorf("unknown-choice", s.At, "one of: "+strings.Join(f.Choices, ", "),
					"%q isn't a value of %s%s", s.S, strings.ReplaceAll(f.Key, "_", " "), DidYouMean(s.S, f.Choices))
				continue
			}
		}
		o.values[f.Key] = e.Value
	}
	for _, f := range r.Fields {
		if _, given := v.Get(f.Key); f.Required && (!given || v.value(f.Key).nothing(f.Shape)) {
			ps.Errorf("missing-key", v.At, f.suggestion(), "this %s has no %q", r.Name, f.Key)
		}
	}
	return o
}

// nothing reports whether nothing was written, or for a text nothing but spaces.
func (v Value) nothing(s Shape) bool {
	return v.Kind == Absent || s == Line && v.Kind == Scalar && strings.TrimSpace(v.Text.S) == ""
}

func (v Value) value(key string) Value { w, _ := v.Get(key); return w }

func (r *Record) anyRequired() bool {
	return slices.ContainsFunc(r.Fields, func(f Field) bool { return f.Required })
}

func (f Field) suggestion() string {
	if f.Example == "" {
		return f.Doc
	}
	return "write it like " + f.Key + ": " + f.Example
}

// shapes are the kinds of value that fields may hold; Cases and Anything take any.
var shapes = map[Shape]struct {
	kinds []Kind
	want  string
}{
	Line:      {[]Kind{Scalar}, "one text"},
	Choice:    {[]Kind{Scalar}, "one text"},
	Statement: {[]Kind{Scalar, List}, "a text or a list of claims"},
	Texts:     {[]Kind{Scalar, List}, "a text or a list of texts"},
	Block:     {[]Kind{Map}, "a block"},
	Blocks:    {[]Kind{List, Map}, "a block or a list of blocks"},
	Named:     {[]Kind{Map}, "a block of names"},
}

// misfit says what is wanted where the value's shape is wrong, else "".
func (f Field) misfit(v Value) string {
	shape, known := shapes[f.Shape]
	if !known || slices.Contains(shape.kinds, v.Kind) {
		return ""
	}
	return shape.want
}

// Has reports whether a usable value stands under a key.
func (o Opened) Has(key string) bool { _, ok := o.values[key]; return ok }

// Value returns the raw value under a key; Absent where there is none.
func (o Opened) Value(key string) Value { return o.values[key] }

// Text returns a Line's or Choice's text; the zero Text where there is none.
func (o Opened) Text(key string) Text { return o.values[key].Text }

// Choice returns a Choice's text in the list's own spelling.
func (o Opened) Choice(key string) string {
	return strings.ToLower(strings.TrimSpace(o.values[key].Text.S))
}

// Texts returns a field of texts; one text counts as a list of one. Items
// that are no texts are reported and left out.
func (o Opened) Texts(key string, ps *Problems) []Text {
	return o.values[key].Texts(ps)
}

// Blocks returns a field of blocks; one block counts as a list of one.
func (o Opened) Blocks(key string) []Value {
	switch v := o.values[key]; v.Kind {
	case Map:
		return []Value{v}
	case List:
		return v.Items
	}
	return nil
}

// Texts reads a text or a list of texts.
func (v Value) Texts(ps *Problems) []Text {
	switch v.Kind {
	case Scalar:
		return []Text{v.Text}
	case List:
		var l []Text
		for _, i := range v.Items {
			if i.Kind != Scalar {
				ps.Errorf("wrong-shape", i.At, "", "%s", kindWanted(i, "a text"))
				continue
			}
			l = append(l, i.Text)
		}
		return l
	}
	return nil
}
