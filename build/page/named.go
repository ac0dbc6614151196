package page

// The figures that a page's model carries, each with what it is: read off the model and not off the printed page.

import (
	"reflect"
	"slices"
	"strings"
	"unicode"

	"guidegen/build/view"
	"guidegen/content"
)

// NamedFigure is a figure of a page and what it is: "Large dark olive, May, chance".
type NamedFigure struct {
	What   string
	Figure content.Figure
}

// Figures lists the known figures of a model in the order of its fields.
func Figures(model any) []NamedFigure {
	var out []NamedFigure
	named(reflect.ValueOf(model), nil, &out)
	return out
}

// naming are the fields that say what a part of a model is about, the first that is filled in.
var naming = []string{"Heading", "Group", "Fly", "Water", "Dressing", "Character", "Month", "Half", "Case", "Stage", "Flight", "Name", "Event", "Fish", "Who", "Part", "What", "Text"}

var figureType = reflect.TypeFor[content.Figure]()

func named(v reflect.Value, path []string, out *[]NamedFigure) {
	switch v.Kind() {
	case reflect.Pointer, reflect.Interface:
		if !v.IsNil() {
			named(v.Elem(), path, out)
		}
	case reflect.Slice, reflect.Array:
		for i := range v.Len() {
			named(v.Index(i), path, out)
		}
	case reflect.Map:
		for _, k := range v.MapKeys() {
			named(v.MapIndex(k), path, out)
		}
	case reflect.Struct:
		if v.Type() == figureType {
			if f := v.Interface().(content.Figure); f.Known() {
				*out = append(*out, NamedFigure{strings.Join(path, ", "), f})
			}
			return
		}
		path = with(path, about(v))
		for i := range v.NumField() {
			f := v.Type().Field(i)
			if !f.IsExported() || f.Type == reflect.TypeFor[view.Frame]() {
				continue
			}
			below := path
			if !f.Anonymous && f.Name != "Low" {
				below = with(path, spaced(f.Name))
			}
			named(v.Field(i), below, out)
		}
	}
}

func with(path []string, word string) []string {
	if word == "" || slices.Contains(path, word) {
		return path
	}
	return append(slices.Clip(path), word)
}

// about is what a part of a model is about.
func about(v reflect.Value) string {
	for _, name := range naming {
		f := v.FieldByName(name)
		if !f.IsValid() {
			continue
		}
		if f.Kind() == reflect.Struct {
			f = f.FieldByName("Text")
		}
		if f.IsValid() && f.Kind() == reflect.String && f.String() != "" {
			return f.String()
		}
	}
	return ""
}

// spaced writes a field's name as words: "ByChance" is "by chance".
func spaced(name string) string {
	var b strings.Builder
	for i, r := range name {
		if i > 0 && unicode.IsUpper(r) {
			b.WriteByte(' ')
		}
		b.WriteRune(unicode.ToLower(r))
	}
	return b.String()
}
