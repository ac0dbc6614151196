package content

// The order of names in a language.

import (
	"strings"
	"sync"
	"unicode"

	"golang.org/x/text/collate"
	"golang.org/x/text/language"
	"golang.org/x/text/unicode/norm"
)

// Alphabet sorts names as the dictionaries of a language do (CLDR's collations, from golang.org/x/text/collate): in
// Swedish ö comes after z, in German it is an o. Safe for several goroutines; nil sorts as any language unknown to CLDR.
type Alphabet struct {
	mu     sync.Mutex // a collator keeps what it has worked out
	full   *collate.Collator
	letter *collate.Collator // without case and marks, but for letters of their own
}

// AlphabetOf is the alphabet of a language, by its tag.
func AlphabetOf(tag string) *Alphabet {
	t := language.Make(tag)
	return &Alphabet{full: collate.New(t), letter: collate.New(t, collate.Loose)}
}

var anyAlphabet = AlphabetOf("und")

// Compare is negative where a comes before b, and 0 for the same name alone, so that an order never depends on where
// two names stood before.
func (a *Alphabet) Compare(x, y string) int {
	if a == nil {
		a = anyAlphabet
	}
	a.mu.Lock()
	defer a.mu.Unlock()
	if c := a.full.CompareString(Fold(x), Fold(y)); c != 0 {
		return c
	}
	return strings.Compare(x, y)
}

// Initial is the letter that a name goes under in a list from A to Z: a capital, without marks unless the language
// takes the letter for one of its own. Digits go under "0–9", all else under "…".
func (a *Alphabet) Initial(name string) string {
	if a == nil {
		a = anyAlphabet
	}
	for _, r := range norm.NFC.String(name) {
		switch {
		case unicode.IsDigit(r):
			return "0–9"
		case unicode.IsLetter(r):
			return a.capital(r)
		}
	}
	return "…"
}

func (a *Alphabet) capital(r rune) string {
	own := strings.ToUpper(string(r))
	a.mu.Lock()
	defer a.mu.Unlock()
	plain := []rune(strings.ToUpper(PlainLetters(string(r))))
	if len(plain) == 0 || a.letter.CompareString(string(plain), own) != 0 {
		return own
	}
	return string(plain[:1])
}

// undecomposed are Latin letters that no decomposition leads back to plain ones.
var undecomposed = strings.NewReplacer("ø", "o", "đ", "d", "ł", "l", "æ", "ae", "œ", "oe", "ß", "ss", "þ", "th", "ð", "d", "ı", "i")

// PlainLetters is a name as it is looked up: lower case, without diacritics.
func PlainLetters(s string) string {
	s = strings.Map(func(r rune) rune {
		if unicode.Is(unicode.Mn, r) {
			return -1
		}
		return r
	}, norm.NFD.String(strings.ToLower(s)))
	return undecomposed.Replace(s)
}
