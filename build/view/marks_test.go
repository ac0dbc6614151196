package view

import (
	"html/template"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
	"pgregory.net/rapid"

	"guidegen/build/lang"
	"guidegen/content"
)

// A small chance is never printed as none, nor a large one as certain.
func TestShares(t *testing.T) {
	w := english(t)
	b := content.On(content.Part{Ground: content.Memory})
	for share, want := range map[float64]string{0: "0%", 0.0001: "under 1%", 0.005: "1%", 0.625: "63%", 0.9949: "99%", 0.996: "over 99%", 1: "100%"} {
		assert.Equal(t, want, w.Amount(Percent(share, b)), "%v", share)
	}
	assert.Equal(t, "7.5\u00a0mm", w.Amount(content.NewFigure(7.5, "mm", 1, b)))
	assert.Equal(t, "1 visit", w.Amount(content.Count(1, "visits", b)))
}

// What is written without a template is byte for byte what html/template would write, whatever the texts hold.
func TestMarksAreWrittenAsHTMLTemplateWrites(t *testing.T) {
	p, err := NewPrinter(demoBook(), Deps{Site: fakeSite{Book: demoBook()}})
	require.NoError(t, err)
	marks := template.Must(template.New("").Parse(`{{define "figure"}}<data value="{{.Exact}}" data-basis="{{.Basis}}">{{.Text}}</data>{{end}}
{{define "date"}}<time datetime="{{.Machine}}">{{.Text}}</time>{{end}}
{{define "link"}}{{if .Href}}<a href="{{.Href}}">{{.Text}}</a>{{else}}{{.Text}}{{end}}{{end}}`))
	written := func(name string, v any) string {
		var b strings.Builder
		require.NoError(t, marks.ExecuteTemplate(&b, name, v))
		return b.String()
	}
	type figure struct{ Exact, Basis, Text string }
	text := rapid.OneOf(rapid.String(), rapid.StringMatching(`[a-z0-9 <>&"'+\x00:/.#%?=;-]*`), rapid.StringMatching(`(\.\./|javascript:|https://)?[a-zA-Z0-9_/.#-]*`),
		rapid.Map(rapid.SliceOf(rapid.Byte()), func(b []byte) string { return string(b) }))
	rapid.Check(t, func(t *rapid.T) {
		a, b := text.Draw(t, "a"), text.Draw(t, "b")
		f := content.NewFigure(rapid.Float64Range(-1e6, 1e6).Draw(t, "value"), b, rapid.IntRange(0, 4).Draw(t, "digits"), content.On(content.Part{Ground: content.Published, Source: a}))
		if got, want := string(p.figure(f)), written("figure", figure{exact(f), f.Basis().Key(), p.words.Amount(f)}); got != want {
			t.Fatalf("%q is not %q", got, want)
		}
		if got, want := string(p.number(f)), written("figure", figure{exact(f), f.Basis().Key(), p.words.Number(f.Number())}); got != want {
			t.Fatalf("%q is not %q", got, want)
		}
		if got, want := string(dateMark(lang.Date{Text: a, Machine: b})), written("date", lang.Date{Text: a, Machine: b}); got != want {
			t.Fatalf("%q is not %q", got, want)
		}
		got, err := p.linkMark(lang.Link{Text: a, Href: b})
		if want := written("link", lang.Link{Text: a, Href: b}); err != nil || string(got) != want {
			t.Fatalf("%q is not %q: %v", got, want, err)
		}
	})
	assert.Equal(t, `<data value="7.457" data-basis="published:a&#34;b">7.5`+"\u00a0"+`mm</data>`,
		string(p.figure(content.NewFigure(7.4567, "mm", 1, content.On(content.Part{Ground: content.Published, Source: `a"b`})))))
}
