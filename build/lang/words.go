// Package lang holds the site's words, one file for a language, and dates, hours, ranges and amounts as a language
// writes them.
package lang

// The site's own words: one file per language under templates/words. A word that a second
// language lacks is taken from English. A pattern holds {names} that are filled in when it is
// printed, {Names} with a capital, and may have plural forms (CLDR categories: zero, one, two, few, many, other), chosen
// by the argument called n.

import (
	"fmt"
	"html/template"
	"io/fs"
	"maps"
	"path"
	"regexp"
	"slices"
	"strconv"
	"strings"
	"unicode"
	"unicode/utf8"

	"golang.org/x/text/feature/plural"
	"golang.org/x/text/language"
	"golang.org/x/text/message"
	"golang.org/x/text/number"
	"gopkg.in/yaml.v3"

	"guidegen/build/figures"
	"guidegen/build/guide"
	"guidegen/content"
	"guidegen/templates"
)

// Forms lists the patterns whose key is one of these or stands under one of them: a text, or a
// text for each plural form. What a language lacks is taken from the one behind it.
func (w *Words) Forms(keys ...string) map[string]any {
	out := map[string]any{}
	if w.behind != nil {
		out = w.behind.Forms(keys...)
	}
	for key, forms := range w.patterns {
		if !slices.ContainsFunc(keys, func(k string) bool { return key == k || strings.HasPrefix(key, k+".") }) {
			continue
		}
		if other, ok := forms["other"]; ok && len(forms) == 1 {
			out[key] = other
		} else {
			out[key] = maps.Clone(forms)
		}
	}
	return out
}

// Words is one language's wording with English behind it. Safe for several goroutines.
type Words struct {
	Lang     string // BCP 47 tag, for the lang attribute
	Tag      language.Tag
	patterns map[string]map[string]pattern // key → plural form; one form is "other"
	behind   *Words
}

// pattern is one text with holes, parted once when it is read.
type pattern struct {
	Text  string
	holes []hole
	end   string // after the last hole
}

// MarshalText gives scripts the text, holes and all.
func (p pattern) MarshalText() ([]byte, error) { return []byte(p.Text), nil }

// hole is a {name} with the text before it; of a {Name}, small is "name".
type hole struct{ before, name, small string }

var holes = regexp.MustCompile(`\{(\w+)\}`)

func newPattern(text string) pattern {
	p, last := pattern{Text: text}, 0
	for _, m := range holes.FindAllStringSubmatchIndex(text, -1) {
		name := text[m[2]:m[3]]
		p.holes = append(p.holes, hole{text[last:m[0]], name, strings.ToLower(name)})
		last = m[1]
	}
	p.end = text[last:]
	return p
}

// LoadWords reads the words for a language; a language without a file of its own is English, with
// its tag kept off the page, since lang must name the language that the words are in.
func LoadWords(lang string) (*Words, error) { return loadWords(templates.Files, lang) }

func loadWords(files fs.FS, lang string) (*Words, error) {
	english, err := readWords(files, "en")
	if err != nil {
		return nil, err
	}
	tag, err := language.Parse(lang)
	if err != nil || lang == "en" {
		return english, nil
	}
	base, _ := tag.Base()
	for _, name := range []string{tag.String(), base.String()} {
		if name == "en" {
			break
		}
		if _, err := fs.Stat(files, wordsFile(name)); err == nil {
			w, err := readWords(files, name)
			if err == nil {
				w.behind = english
			}
			return w, err
		}
	}
	return english, nil
}

// Language is the tag of the language that the words are in.
func (w *Words) Language() string { return w.Lang }

func wordsFile(lang string) string { return path.Join("words", lang+".yaml") }

func readWords(files fs.FS, lang string) (*Words, error) {
	data, err := fs.ReadFile(files, wordsFile(lang))
	if err != nil {
		return nil, err
	}
	if lang == "en" {
		data = append(slices.Clip(data), wordsInCode()...)
	}
	var tree yaml.Node
	if err := yaml.Unmarshal(data, &tree); err != nil {
		return nil, fmt.Errorf("%s: %w", wordsFile(lang), err)
	}
	w := &Words{Lang: lang, Tag: language.Make(lang), patterns: map[string]map[string]pattern{}}
	if len(tree.Content) == 0 {
		return w, nil
	}
	return w, w.take("", tree.Content[0])
}

// wordsInCode are English words that are beside what they are about: constants beside their values, prompts beside
// what finds them.
func wordsInCode() []byte {
	var what, bases, prompts strings.Builder
	var done []string
	for _, c := range guide.DefaultConstants().List() {
		fmt.Fprintf(&what, "  %s_%s: %q\n", c.Group, c.Key, c.What)
		if key := content.Address(c.Basis); !slices.Contains(done, key) {
			done = append(done, key)
			fmt.Fprintf(&bases, "  %s: %q\n", key, c.Basis)
		}
	}
	for _, id := range slices.Sorted(maps.Keys(figures.PromptTexts)) {
		fmt.Fprintf(&prompts, "  %s: %q\n", id, figures.PromptTexts[id])
	}
	return []byte("\n# The constants of the page on figures.\nconstant:\n" + what.String() + "# What a constant is based on.\nconstant_basis:\n" + bases.String() +
		"# What somebody should look at in a water's records.\nprompt:\n" + prompts.String())
}

var pluralForms = []string{"zero", "one", "two", "few", "many", "other"}

func (w *Words) take(key string, n *yaml.Node) error {
	if n.Kind != yaml.MappingNode {
		return w.put(key, "other", n)
	}
	isPlural := true
	for i := 0; i < len(n.Content); i += 2 {
		isPlural = isPlural && slices.Contains(pluralForms, n.Content[i].Value)
	}
	for i := 0; i+1 < len(n.Content); i += 2 {
		name, err := n.Content[i].Value, error(nil)
		if isPlural {
			err = w.put(key, name, n.Content[i+1])
		} else {
			err = w.take(strings.TrimPrefix(key+"."+name, "."), n.Content[i+1])
		}
		if err != nil {
			return err
		}
	}
	return nil
}

func (w *Words) put(key, form string, n *yaml.Node) error {
	if n.Kind != yaml.ScalarNode {
		return fmt.Errorf("%s:%d: %s is not a text", wordsFile(w.Lang), n.Line, key)
	}
	if w.patterns[key] == nil {
		w.patterns[key] = map[string]pattern{}
	}
	if _, twice := w.patterns[key][form]; twice {
		return fmt.Errorf("%s:%d: %s stands twice", wordsFile(w.Lang), n.Line, key)
	}
	w.patterns[key][form] = newPattern(n.Value)
	return nil
}

// Has reports whether a word is known, in English at least.
func (w *Words) Has(key string) bool {
	return w.patterns[key] != nil || w.behind != nil && w.behind.Has(key)
}

// PatternOf finds a pattern and its plural form. A missing word is a fault of the templates.
func (w *Words) PatternOf(key string, args []any) (pattern, error) {
	forms := w.patterns[key]
	if forms == nil {
		if w.behind != nil {
			return w.behind.PatternOf(key, args)
		}
		return pattern{}, fmt.Errorf("no words for %q", key)
	}
	if len(forms) > 1 {
		n, _ := argument(args, "n")
		if p, ok := forms[w.form(n)]; ok {
			return p, nil
		}
	}
	return forms["other"], nil
}

func (w *Words) form(n any) string {
	s := ""
	switch v := n.(type) {
	case content.Figure:
		s = v.Number()
	case string:
		s = v
	default:
		return "other"
	}
	whole, frac, _ := strings.Cut(strings.TrimPrefix(s, "−"), ".")
	i, err := strconv.Atoi(whole)
	if err != nil {
		return "other"
	}
	t := strings.TrimRight(frac, "0")
	f, _ := strconv.Atoi("0" + frac)
	tn, _ := strconv.Atoi("0" + t)
	return formNames[plural.Cardinal.MatchPlural(w.Tag, i, len(frac), len(t), f, tn)]
}

var formNames = [...]string{plural.Zero: "zero", plural.One: "one", plural.Two: "two", plural.Few: "few", plural.Many: "many", plural.Other: "other"}

// Fill puts arguments into a pattern; each is turned into text by show, the pattern's own text by plain.
func (w *Words) Fill(key string, args []any, plain func(string) string, show func(any) (string, error)) (string, error) {
	if err := checkArguments(key, args); err != nil {
		return "", err
	}
	p, err := w.PatternOf(key, args)
	if err != nil {
		return "", err
	}
	if len(p.holes) == 0 {
		return plain(p.Text), nil
	}
	var out strings.Builder
	stop := "" // what the text after a hole may not begin with
	for _, h := range p.holes {
		arg, ok := argument(args, h.name)
		capital := false
		if !ok {
			arg, ok = argument(args, h.small)
			capital = ok
		}
		if !ok {
			return "", fmt.Errorf("words %q want {%s}", key, h.name)
		}
		s, err := show(arg)
		if err != nil {
			return "", fmt.Errorf("words %q: %w", key, err)
		}
		if _, text := arg.(string); text {
			s = w.inText(h.small, s)
		}
		if capital {
			s = UpperFirst(s)
		}
		out.WriteString(plain(strings.TrimPrefix(h.before, stop)))
		out.WriteString(s)
		if stop = ""; strings.HasSuffix(s, ".") {
			stop = "." // one stop ends "M. Q." and the sentence
		}
	}
	out.WriteString(plain(strings.TrimPrefix(p.end, stop)))
	return out.String(), nil
}

// Number is a number as the language writes it: its sign before decimals, thousands apart from five digits on, as
// four stay together (ISO 80000-1 lets them). Any other text stays as it is.
func (w *Words) Number(s string) string {
	digits, sign := strings.TrimPrefix(s, "−"), ""
	if len(digits) < len(s) {
		sign = "−"
	}
	whole, frac, decimals := strings.Cut(digits, ".")
	if !isDigits(whole) || decimals && !isDigits(frac) {
		return s
	}
	if n := len(whole); n > 4 {
		apart := whole[:(n-1)%3+1]
		for i := len(apart); i < n; i += 3 {
			apart += w.Plain("thousands") + whole[i:i+3]
		}
		whole = apart
	}
	if decimals {
		whole += w.Plain("decimal") + frac
	}
	return sign + whole
}

// numbers gives a language without words of its own for them the signs that CLDR has (golang.org/x/text/number), in
// the digits 0 to 9 that scripts and files use too.
func (w *Words) numbers() {
	tag, err := language.Parse(w.Tag.String() + "-u-nu-latn")
	if err != nil {
		return
	}
	p := message.NewPrinter(tag)
	for key, text := range map[string]string{
		"decimal":    strings.Trim(p.Sprint(number.Decimal(0.5)), "05"),
		"thousands":  strings.Trim(p.Sprint(number.Decimal(10000)), "01"),
		"percent.is": strings.Replace(p.Sprint(number.Percent(0.65)), "65", "{n}", 1),
	} {
		if w.patterns[key] == nil {
			w.patterns[key] = map[string]pattern{"other": newPattern(text)}
		}
	}
}

// inText is a number filled into a text. Only {n} counts things: other whole numbers may be a year or a name.
func (w *Words) inText(name, s string) string {
	if name != "n" && !strings.Contains(s, ".") {
		return s
	}
	return w.Number(s)
}

func isDigits(s string) bool {
	return s != "" && strings.Trim(s, "0123456789") == ""
}

// UpperFirst begins a text with a capital letter.
func UpperFirst(s string) string {
	r, n := utf8.DecodeRuneInString(s)
	return string(unicode.ToUpper(r)) + s[n:]
}

// checkArguments wants names and values in turn.
func checkArguments(key string, args []any) error {
	if len(args)%2 != 0 {
		return fmt.Errorf("words %q: a name without its value", key)
	}
	for i := 0; i < len(args); i += 2 {
		if _, ok := args[i].(string); !ok {
			return fmt.Errorf("words %q: argument %d has no name", key, i/2+1)
		}
	}
	return nil
}

func argument(args []any, name string) (any, bool) {
	for i := 0; i+1 < len(args); i += 2 {
		if args[i] == name {
			return args[i+1], true
		}
	}
	return nil, false
}

// Plain prints a word as text without marks. It panics on a word that no file has, which is a
// fault of the program and not of a guide.
func (w *Words) Plain(key string, pairs ...any) string {
	s, err := w.Fill(key, pairs, func(s string) string { return s }, func(a any) (string, error) {
		switch v := a.(type) {
		case string:
			return v, nil
		case content.Figure:
			return w.Amount(v), nil
		case Date:
			return v.Text, nil
		case Link:
			return v.Text, nil
		}
		return "", fmt.Errorf("%T can't stand in plain text", a)
	})
	if err != nil {
		panic(err)
	}
	return s
}

// Or prints a word of a closed list, or the text itself where the list lacks it: a guide may say
// more than the site has words for.
func (w *Words) Or(list, word string) string {
	key := list + "." + strings.ReplaceAll(word, " ", "_")
	if word == "" || !w.Has(key) {
		return word
	}
	return w.Plain(key)
}

// Amount is a figure as text with its unit: signs follow a space that doesn't break, words of
// counting go through their plural.
func (w *Words) Amount(f content.Figure) string {
	if !f.Known() {
		return ""
	}
	switch v := content.Round9(f.Value()); {
	case f.Unit() == "":
		return w.Number(f.Number())
	case f.Unit() == "%" && v > 0 && v < 0.5:
		return w.Plain("percent.under")
	case f.Unit() == "%" && v >= 99.5 && v < 100:
		return w.Plain("percent.over")
	case f.Unit() == "%":
		return w.Plain("percent.is", "n", f.Number())
	}
	if key := "unit." + strings.ReplaceAll(f.Unit(), " ", "_"); w.Has(key) {
		return w.Plain(key, "n", f.Number())
	}
	return w.Number(f.Number()) + "\u00a0" + f.Unit()
}

// Escape makes a text safe within HTML.
func Escape(s string) string { return template.HTMLEscapeString(s) }
