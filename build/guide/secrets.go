package guide

// Finding in what people write the names that an edition withholds, however they are spelled there.

import (
	"cmp"
	"html"
	"math"
	"regexp"
	"slices"
	"strconv"
	"strings"
	"sync"
	"unicode"
	"unicode/utf8"

	"golang.org/x/text/unicode/norm"

	"guidegen/content/measure"
	"guidegen/templates"
)

// Secrets are the withheld names and places, ready to be looked for. A name is found by its letters: between its
// words may stand spaces, hyphens, points within an address or after an initial, or marks of emphasis, and inside
// a word an apostrophe of any form, or none, or emphasis. The rules that keep other words apart from it:
//
//   - run together ("withycarr") it has eight letters or more;
//   - a person's name begins each word with a capital, but in an address; any other name of several words may
//     be written in small letters;
//   - a name of one word is found in small letters too, unless it is a common word: one that the program's
//     own texts hold in small letters, or two of the guide's own. Of these only a capital inside a sentence tells;
//   - a surname alone is found as a whole word with its capital, and not at all if it is a common word or a word
//     of a name that the guide shows (a fly's, a water's, a dressing's);
//   - a place is found in decimal degrees and in degrees, minutes and seconds, within a kilometre of it or the
//     radius of the sensitive place; not where it is written so roughly that it could be 1.5 km off.
//
// All of it is our judgement.
type Secrets struct {
	byFirst map[rune][]*sought
	places  []hiddenPlace
	prose   map[string]int  // words in small letters: in how many of the guide's texts
	shown   map[string]bool // words of the names that the guide shows
}

// sought is one name.
type sought struct {
	text    string
	letters string          // in small letters, without what lies between
	parting map[int]parting // by the byte of letters before which it lies
	who     bool            // a person's name, each word with a capital
	alone   bool            // a surname by itself
	unsure  bool            // of somebody who may be named by initials
	common  bool            // one common word
}

// parting is what a name has between two runs of letters.
type parting int

const (
	inside parting = iota // nothing, or an apostrophe
	spaces
	signs // some other sign: any may stand there
)

type hiddenPlace struct {
	text string
	at   measure.Coordinates
	km   float64
}

// Betrayal is a withheld name as it stands in a text, by its bytes.
type Betrayal struct {
	Text     string // the name as the guide's records give it
	From, To int
	Alone    bool // a surname by itself
	Unsure   bool // that of somebody who may be named by initials
}

// token is a run of letters in small letters; a letter of a script written without spaces is one by itself.
type token struct {
	word     string
	from, to int
	gap      string // the signs before it
	capital  bool   // begins with a capital, or has no capitals in its script
	small    bool   // begins with a small letter
	address  int    // number of the address that it is part of, 0: none
}

// marks may stand inside a word: apostrophes of any form, emphasis, soft hyphens, zero-width signs, escapes.
const marks = "'’‘ʼ`´*~\\\u00ad\u200b\u200c\u200d\u2060"

var (
	addressLike = regexp.MustCompile(`^[#@]|[/@]|www\.|\w\.\w{2,}`)
	tagsAndAims = regexp.MustCompile(`<[^<>]*>|\]\([^()\s]*\)|[\[\]]`)
	entity      = regexp.MustCompile(`^&#?\w{1,10};`)
	percentByte = regexp.MustCompile(`^%[0-7][0-9A-Fa-f]`)
)

func tokens(text string) (l []token) {
	var word, gap strings.Builder
	from, to, first, run, runs := 0, 0, rune(0), 0, 0
	end := func() {
		if word.Len() > 0 {
			w := norm.NFC.String(word.String())
			r, _ := utf8.DecodeRuneInString(w)
			small := unicode.IsLower(r)
			l = append(l, token{strings.ToLower(w), from, to, gap.String(), !small, small, run})
			word.Reset()
			gap.Reset()
		}
	}
	for i := 0; i < len(text); {
		if i == 0 || unicode.IsSpace(first) {
			space := strings.IndexFunc(text[i:], unicode.IsSpace)
			if space < 0 {
				space = len(text) - i
			}
			if run = 0; addressLike.MatchString(text[i : i+space]) {
				runs++
				run = runs
			}
		}
		r, size := utf8.DecodeRuneInString(text[i:])
		first = r
		if r == '&' {
			if m := entity.FindString(text[i:]); m != "" {
				r, _ = utf8.DecodeRuneInString(html.UnescapeString(m))
				size = len(m)
			}
		} else if r == '%' {
			if m := percentByte.FindString(text[i:]); m != "" {
				n, _ := strconv.ParseUint(m[1:], 16, 8)
				r, size = rune(n), len(m)
			}
		}
		switch {
		case !unicode.IsLetter(r) && !unicode.IsDigit(r) && !unicode.IsMark(r):
			end()
			gap.WriteRune(r)
		case !spacedScript(r):
			end()
			word.WriteRune(r)
			from, to = i, i+size
			end()
		default:
			if word.Len() == 0 {
				from = i
			}
			word.WriteRune(r)
			to = i + size
		}
		i += size
	}
	end()
	return l
}

// lettersOf are the letters of a name, in small letters.
func lettersOf(name string) (s string) {
	for _, t := range tokens(name) {
		s += t.word
	}
	return s
}

// between tells what lies between two runs of letters; signs ends a name that has none there.
func between(gap, before string) parting {
	if strings.Trim(gap, marks) == "" {
		return inside
	}
	if strings.Count(gap, "\n") > 1 {
		return signs // another paragraph
	}
	for i, r := range gap {
		switch {
		case unicode.IsSpace(r), strings.ContainsRune("-‐‑‒–—_/+"+marks, r):
		case r == '.' && (utf8.RuneCountInString(before) == 1 || i+1 == len(gap)): // an initial, or inside an address
		default:
			return signs
		}
	}
	return spaces
}

// smallWords are the words that the program's own texts hold in small letters.
var smallWords = sync.OnceValue(func() map[string]bool {
	m := map[string]bool{}
	for _, tag := range templates.Languages() {
		b, err := templates.Files.ReadFile("words/" + tag + ".yaml")
		if err != nil {
			panic(err) // embedded
		}
		smallIn(m, string(b))
	}
	return m
})

func smallIn(into map[string]bool, text string) {
	for _, t := range tokens(text) {
		if t.small {
			into[t.word] = true
		}
	}
}

func newSecrets(shown []open) *Secrets {
	n := &Secrets{byFirst: map[rune][]*sought{}, prose: map[string]int{}, shown: map[string]bool{}}
	for _, o := range shown {
		if o.prose {
			in := map[string]bool{}
			smallIn(in, o.text)
			for w := range in {
				n.prose[w]++
			}
			continue
		}
		for _, t := range tokens(o.text) {
			n.shown[t.word] = true
		}
	}
	return n
}

func (n *Secrets) isCommon(word string) bool { return n.prose[word] > 1 || smallWords()[word] }

// add prepares a name; one of a single common word that could only be found by chance is left out.
func (n *Secrets) add(text string, s sought) {
	s.text, s.parting = text, map[int]parting{}
	words, last, capital := 1, "", true
	for i, t := range tokens(text) {
		if i > 0 {
			how := between(t.gap, last)
			s.parting[len(s.letters)] = how
			if how != inside {
				words++
			}
		}
		s.letters += t.word
		last, capital = t.word, capital && !t.small
	}
	s.who = s.who && capital && words > 1
	s.common = words == 1 && n.isCommon(s.letters)
	if s.letters == "" || s.alone && (words > 1 || s.common || n.shown[s.letters]) {
		return
	}
	first, _ := utf8.DecodeRuneInString(s.letters)
	n.byFirst[first] = append(n.byFirst[first], &s)
}

// In lists the withheld names in a text, in order; of those that overlap the first and longest.
func (n *Secrets) In(text string) []Betrayal {
	l := append(n.all(text), n.placesIn(text)...)
	slices.SortFunc(l, func(a, b Betrayal) int {
		return cmp.Or(a.From-b.From, b.To-a.To, len(b.Text)-len(a.Text), strings.Compare(a.Text, b.Text))
	})
	var out []Betrayal
	for _, x := range l {
		if k := len(out); k == 0 || x.From >= out[k-1].To {
			out = append(out, x)
		}
	}
	return out
}

// Texts are the names and places as the guide's records give them, without surnames alone.
func (n *Secrets) Texts() (l []string) {
	for _, list := range n.byFirst {
		for _, s := range list {
			if !s.alone {
				l = append(l, s.text)
			}
		}
	}
	for _, p := range n.places {
		l = append(l, p.text)
	}
	slices.Sort(l)
	return slices.Compact(l)
}

// all lists every name in a text, as it is and without its tags and the aims of its links.
func (n *Secrets) all(text string) []Betrayal {
	l := n.found(tokens(text))
	plain := tagsAndAims.ReplaceAllStringFunc(text, func(s string) string { // of the same length, so that places hold
		return strings.Repeat("\u200b", len(s)/3) + strings.Repeat("*", len(s)%3)
	})
	if plain != text {
		l = append(l, n.found(tokens(plain))...)
	}
	return l
}

func (n *Secrets) found(l []token) (out []Betrayal) {
	for i, t := range l {
		first, _ := utf8.DecodeRuneInString(t.word)
		for _, s := range n.byFirst[first] {
			if k := n.until(s, l, i); k > 0 && s.meant(l, i, k) {
				out = append(out, Betrayal{s.text, t.from, l[k-1].to, s.alone, s.unsure})
			}
		}
	}
	return out
}

// until gives the run of letters after the name that begins with run i, 0 where it doesn't.
func (n *Secrets) until(s *sought, l []token, i int) int {
	at := 0
	for k := i; k < len(l); k++ {
		if k > i {
			have, gap := s.parting[at], between(l[k].gap, l[k-1].word)
			if gap > have {
				return 0
			}
		}
		if !strings.HasPrefix(s.letters[at:], l[k].word) {
			return 0
		}
		next := at + len(l[k].word)
		for p := at + 1; p < next; p++ {
			if how := s.parting[p]; how == signs || how == spaces && (utf8.RuneCountInString(s.letters) < 8 || n.isCommon(s.letters)) {
				return 0
			}
		}
		if at = next; at == len(s.letters) {
			return k + 1
		}
	}
	return 0
}

// meant judges a find by its capitals.
func (s *sought) meant(l []token, i, k int) bool {
	small := slices.ContainsFunc(l[i:k], func(t token) bool {
		return t.small && !(t.from > l[i].from && between(t.gap, "") == inside) // the s of "Smith's" is small
	})
	address := l[i].address != 0 && l[i].address == l[k-1].address
	switch {
	case s.alone:
		return !small
	case s.common: // at the start of a sentence a capital tells nothing
		return !small && i > 0 && !strings.ContainsAny(l[i].gap, ".!?:;\n")
	}
	return !s.who || address || !small
}

const (
	hemisphere = `([NSEWnsew])?`
	angle      = `([+-]?\d{1,3}(?:[.,]\d+)?)\s*(?:°|º|deg\.?|d)?\s*(?:(\d{1,2}(?:[.,]\d+)?)\s*(?:['’′ʹ]|min\.?|m)\s*(?:(\d{1,2}(?:[.,]\d+)?)\s*(?:["”″ʺ]|''|’’|s)?\s*)?)?`
)

var anyPlace = regexp.MustCompile(hemisphere + `\s*` + angle + hemisphere + `(?:\s*[,;/]\s*|\s+)` + hemisphere + `\s*` + angle + hemisphere + `(?:\W|$)`)

// placesIn finds coordinates that lie at a withheld place.
func (n *Secrets) placesIn(text string) (out []Betrayal) {
	if len(n.places) == 0 {
		return nil
	}
	for _, m := range anyPlace.FindAllStringSubmatchIndex(text, -1) {
		part := func(i int) string {
			if m[2*i] < 0 {
				return ""
			}
			return strings.ReplaceAll(text[m[2*i]:m[2*i+1]], ",", ".")
		}
		a, aStep, aLetter := degrees(part(1), part(2), part(3), part(4), part(5))
		b, bStep, bLetter := degrees(part(6), part(7), part(8), part(9), part(10))
		if strings.Contains("EW", aLetter) && aLetter != "" {
			a, b, aStep, bStep = b, a, bStep, aStep
		}
		if math.Abs(a) > 90 || math.Abs(b) > 180 || max(aStep, bStep)*111/2 > 1.5 || (aLetter == "") != (bLetter == "") {
			continue
		}
		at := measure.Coordinates{Latitude: measure.Angle{Degrees: a}, Longitude: measure.Angle{Degrees: b}}
		for _, p := range n.places {
			if Kilometres(at, p.at) <= p.km {
				out = append(out, Betrayal{Text: p.text, From: m[0], To: m[1]})
			}
		}
	}
	return out
}

// degrees gives an angle, the step of its last digit in degrees, and its letter.
func degrees(before, deg, minutes, seconds, after string) (value, step float64, letter string) {
	letter = strings.ToUpper(before + after)
	sign, unit := 1.0, 1.0
	if strings.HasPrefix(deg, "-") || letter == "S" || letter == "W" {
		sign = -1
	}
	for _, s := range []string{strings.TrimLeft(deg, "+-"), minutes, seconds} {
		if s == "" {
			continue
		}
		v, err := strconv.ParseFloat(s, 64)
		if err != nil {
			return math.Inf(1), 0, letter
		}
		if step != 0 {
			unit *= 60
		}
		value += v / unit
		_, decimals, _ := strings.Cut(s, ".")
		step = math.Pow10(-len(decimals)) / unit
	}
	return sign * value, step, letter
}

// spacedScript reports whether a letter belongs to a script in which spaces part the words.
func spacedScript(r rune) bool {
	return !unicode.In(r, unicode.Thai, unicode.Lao, unicode.Khmer,
		unicode.Myanmar, unicode.Han, unicode.Hiragana, unicode.Katakana)
}
