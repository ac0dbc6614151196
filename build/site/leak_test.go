package site

import (
	"archive/zip"
	"bytes"
	"compress/gzip"
	"regexp"
	"strconv"
	"strings"
	"testing"
	"unicode"
	"unicode/utf8"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
	"pgregory.net/rapid"
)

func zipped(t *testing.T, name, text string) []byte {
	var out bytes.Buffer
	z := zip.NewWriter(&out)
	w, err := z.Create(name)
	require.NoError(t, err)
	_, err = w.Write([]byte(text))
	require.NoError(t, err)
	require.NoError(t, z.Close())
	return out.Bytes()
}

func gzipped(t *testing.T, text string) []byte {
	var out bytes.Buffer
	z := gzip.NewWriter(&out)
	_, err := z.Write([]byte(text))
	require.NoError(t, err)
	require.NoError(t, z.Close())
	return out.Bytes()
}

func TestLeaks(t *testing.T) {
	w := NewWithheld([]string{"Ann O'Marl", "53.1234", "-4.1", "Lo", "Über der Brücke", "川上", "(the old weir)", `AT\T & Co`, "", " ! "})
	long := bytes.Repeat([]byte("plain text with a long compressible run "), 50)
	for name, c := range map[string]struct {
		address, text string
		want          []string
	}{
		"clean":                   {"a.html", "<p>Ann met O'Marl at 53.12345 in Long; 54.1</p>", nil},
		"plain":                   {"a.txt", "by Ann O'Marl.", []string{"Ann O'Marl"}},
		"letter case differs":     {"a.txt", "ann o'marl", nil},
		"escaped in HTML":         {"a.html", "<p>Ann O&#39;Marl</p>", []string{"Ann O'Marl"}},
		"escaped in hexadecimal":  {"a.html", "<p>Ann O&#x27;Marl</p>", []string{"Ann O'Marl"}},
		"in an attribute":         {"a.html", `<p title="Ann O&#39;Marl">x</p>`, []string{"Ann O'Marl"}},
		"escaped in JSON":         {"a.json", `{"by": "Ann O\u0027Marl"}`, []string{"Ann O'Marl"}},
		"escaped in a script":     {"a.js", `"Ann O\x27Marl"`, []string{"Ann O'Marl"}},
		"percent-encoded":         {"a.html", `<a href="mailto:x?body=Ann%20O%27Marl">`, []string{"Ann O'Marl"}},
		"across lines":            {"a.html", "<p>Ann\n  O'Marl</p>", []string{"Ann O'Marl"}},
		"no-break space":          {"a.html", "<p>Ann&nbsp;O'Marl</p>", []string{"Ann O'Marl"}},
		"across tags":             {"a.html", "<p><b>A</b>nn O'Ma<wbr>rl</p>", []string{"Ann O'Marl"}},
		"soft hyphen":             {"a.html", "Ann O'&shy;Marl", []string{"Ann O'Marl"}},
		"folded":                  {"a.ics", "DESCRIPTION:found by Ann O'M\r\n arl\r\n", []string{"Ann O'Marl"}},
		"in an archive":           {"a.zip", string(zipped(t, "x.csv", string(long)+"Ann O'Marl "+string(long))), []string{"Ann O'Marl"}},
		"name in an archive":      {"a.zip", string(zipped(t, "Ann O'Marl.csv", "x")), []string{"Ann O'Marl"}},
		"compressed":              {"a.json.gz", string(gzipped(t, string(long)+"53.1234")), []string{"53.1234"}},
		"place":                   {"a.json", `[53.1234,-4.1]`, []string{"-4.1", "53.1234"}},
		"short word":              {"a.html", "<b>Lo</b>", []string{"Lo"}},
		"part of a word":          {"a.html", "Lowland, solo, Löss, Lò, Loß", nil},
		"short word in a picture": {"a.png", "\x89PNG\x00\xff Lo \xfe", nil},
		"long in a picture":       {"a.jpg", "\xff\xd8\x00 Ann O'Marl \xfe", []string{"Ann O'Marl"}},
		"accents":                 {"a.html", "Über  der Brücke,", []string{"Über der Brücke"}},
		"no spaces between words": {"a.html", "今日川上で", []string{"川上"}},
		"to be escaped, as it is": {"a.txt", `AT\T & Co`, []string{`AT\T & Co`}},
		"to be escaped, in JSON":  {"a.json", `"AT\\T \u0026 Co"`, []string{`AT\T & Co`}},
		"in brackets":             {"a.html", "above the old weir", []string{"(the old weir)"}},
		"in the address":          {"visits/ann-omarl-2026.html", "x", []string{"Ann O'Marl"}},
		"in a word of an address": {"visits/joann-omarl.html", "x", nil},
	} {
		t.Run(name, func(t *testing.T) {
			assert.Equal(t, c.want, w.Find(c.address, []byte(c.text)))
		})
	}
	assert.Nil(t, (*Withheld)(nil).Find("a.html", []byte("Ann O'Marl")))
}

// A file of an archive is read in parts: wherever a string stands, it is found, and never the half of a word.
func TestLeaksInLongFilesOfArchives(t *testing.T) {
	w, short := NewWithheld([]string{"Ann O'Marl"}), NewWithheld([]string{"Lo"})
	line := strings.Repeat("Long solo ", 12) + "\n"
	lines := strings.Repeat(line, 2*partLength/len(line)+9)
	assert.Nil(t, short.Find("a.zip", zipped(t, "x.txt", lines)))
	for _, at := range []int{0, partLength - partAgain, partLength - len("\nAnn\n"), partLength, len(lines)} { // the third: a part ends after Ann
		assert.Equal(t, []string{"Ann O'Marl"}, w.Find("a.zip", zipped(t, "x.txt", lines[:at]+"\nAnn\nO'Marl\n"+lines[at:])), at)
	}
	one := strings.Repeat("Long solo ", 3*partLength/10) + "Lo"
	assert.Equal(t, []string{"Lo"}, short.Find("a.json.gz", gzipped(t, one)), "a single line")
	assert.Nil(t, short.Find("a.json.gz", gzipped(t, one[:len(one)-2])))
}

func TestLeakFailsVerification(t *testing.T) {
	b := NewNotebook([]string{"Ann O'Marl"})
	b.Note("data/guide.json", []byte(`"Ann O'Marl"`))
	assert.Equal(t, []Kind{Leak}, kinds(b.Verify()))
}

// What is copied in whole runs reads as what is looked at letter by letter.
func TestRunsReadAsLettersDo(t *testing.T) {
	letterByLetter := func(s string) string {
		var out strings.Builder
		gap := false
		for i, r := range s {
			switch {
			case unicode.IsSpace(r):
				gap = true
			case r != '\u00AD':
				if gap {
					out.WriteByte(' ')
				}
				gap = false
				_, size := utf8.DecodeRuneInString(s[i:])
				out.WriteString(s[i : i+size])
			}
		}
		return out.String()
	}
	percent := func(s string) string {
		return regexp.MustCompile(`%[0-9A-Fa-f]{2}`).ReplaceAllStringFunc(s, func(m string) string {
			n, err := strconv.ParseUint(m[1:], 16, 8)
			require.NoError(t, err)
			return string([]byte{byte(n)})
		})
	}
	backslash := func(s string) string {
		return regexp.MustCompile(`(?s)\\(u[0-9A-Fa-f]{4}|x[0-9A-Fa-f]{2}|.)`).ReplaceAllStringFunc(s, func(m string) string {
			if n, err := strconv.ParseUint(m[2:], 16, 32); err == nil {
				return string(rune(n))
			}
			if strings.Contains("nrtN", m[1:]) {
				return " "
			}
			return m[1:]
		})
	}
	text := rapid.OneOf(rapid.StringMatching(`([ab \t\n\x{AD}\x{A0}\x{2003}éü川%\\uxn0-9a-f<>]|%2[0-9]|\\u00[0-9a-f]{2}|\\x2[0-9])*`), rapid.String(),
		rapid.Map(rapid.SliceOf(rapid.Byte()), func(b []byte) string { return string(b) }))
	rapid.Check(t, func(t *rapid.T) {
		s := text.Draw(t, "text")
		for name, f := range map[string]struct {
			runs    func([]byte) []byte
			letters func(string) string
		}{"spaced": {spaced, letterByLetter}, "percent": {withoutPercent, percent}, "backslash": {withoutEscapes, backslash}} {
			if name == "backslash" && !utf8.ValidString(s) {
				continue // what expressions replace there isn't a byte
			}
			if got, want := string(f.runs([]byte(s))), f.letters(s); got != want {
				t.Fatalf("%s of %q: %q is not %q", name, s, got, want)
			}
		}
	})
}
