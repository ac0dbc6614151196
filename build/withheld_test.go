package build

import (
	"archive/zip"
	"bytes"
	"io/fs"
	"strings"
	"testing"
	"testing/fstest"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"guidegen/build/site"
	"guidegen/content"
	"guidegen/content/calendar"
)

// secretive is a guide in which much is for members; each withheld text is unlike all others.
func secretive() fstest.MapFS {
	m := fstest.MapFS{}
	for name, text := range map[string]string{
		"guide.yaml":         "format: 1\nname: Small guide\nbasis: memory\npeople: {W. Grobnik: none, U. Xandrel: full}\n",
		"species/open.md":    "---\nname: Open olive\nscientific: Aus bus\ngroup: upwinged\nflights: {spring: {from: Mar, peak: Apr, to: May, abundance: frequent}}\n---\n",
		"species/quorx.md":   "---\nname: Quorxfly\nscientific: Zzyxus quorxi\nalso: [Plimberwing]\ngroup: upwinged\nshow: members\nflights: {spring: {from: Mar, peak: Apr, to: May, abundance: rare}}\n---\nGlibberish.\n",
		"rivers/brook.yaml":  "name: Brook\nkind: rain-fed\nplace: 55.2 N, 4.8 W\nbeats:\n  Zwickelpool: {place: \"55.3131 N, 4.7713 W\", show: members}\nflies: {Open olive: frequent, Quorxfly: rare}\nsensitive: [{place: \"55.4444 N, 4.8888 W\", about: Vlimnest}]\n",
		"rivers/hazzle.yaml": "name: Hazzlemere\nalso: [Snorkbeck]\nkind: peaty\nplace: 55.7777 N, 4.6666 W\nshow: members\nhazards: [Drumblehole]\nflies: {Open olive: frequent, Quorxfly: rare}\n",
		"dressings/box.yaml": "- {name: Open pattern, fishes: surface, stands_for: {flies: [Open olive, Quorxfly], stage: dun}}\n" +
			"- {name: Pattern for one, fishes: surface, stands_for: {flies: [Quorxfly], stage: dun}}\n" +
			"- {name: Sekritpattern, show: members, fishes: surface, stands_for: {flies: [Open olive], stage: dun}}\n",
		"notes/keys.md": "---\ntitle: Klandestine\nshow: members\n---\nPadlockcode.\n",
		"samples/a.csv": "visit,date,start,end,water,beat,method,effort,looked for,fly,stage,sex,count,lengths mm,by,named by,checked,remarks\n" +
			"V1,2025-04-02,,,Brook,Zwickelpool,sweep net,50 sweeps,all,Open olive,dun,,3,,W. Grobnik,T. Vexling,verified,Frobremark\n" +
			"V2,2025-04-12,,,Hazzlemere,Xylobeat,sweep net,50 sweeps,all,Open olive,dun,,2,,U. Xandrel,,verified,Hushremark\n" +
			"V3,2025-04-22,,,Brook,,sweep net,50 sweeps,all,Quorxfly,dun,,1,,U. Xandrel,,verified,a Quorxfly it was\n",
		"temperature/a.csv": "water,date,time,kind,temperature °C,place,by\nHazzlemere,2025-03-21,11:40,spot,7.123,Zorkplace,W. Grobnik\n",
		"corrections.yaml":  "- {date: 2025-05-01, by: Y. Correctrix, file: species/quorx.md, what: Quorxfly dates, why: slip}\n",
	} {
		m[name] = &fstest.MapFile{Data: []byte(text)}
	}
	return m
}

// What is withheld stands in no file of the public edition, archives opened, and a
// dressing that copies a withheld fly too is published without it.
func TestWithheldTextsStandInNoFile(t *testing.T) {
	words := []string{"Zwickelpool", "55.3131", "4.7713", "55.4444", "4.8888", "Vlimnest", "Hazzlemere", "hazzle", "Snorkbeck", "55.7777", "4.6666", "Drumblehole",
		"Quorx", "quorx", "Zzyx", "Plimber", "Glibberish", "Frobremark", "Grobnik", "Vexling", "Hushremark", "Xylobeat", "Sekrit", "sekrit", "Klandestine", "keys.html",
		"Padlockcode", "Zorkplace", "Correctrix", "7.123"}
	found := func(e Edition) map[string]string {
		dir := t.TempDir() + "/site"
		r, err := Publish(Options{Source: &Source{Files: secretive()}, Edition: e, Date: calendar.Date{Year: 2026, Month: 12, Day: 1}, Out: dir})
		require.NoError(t, err)
		for _, p := range r.Problems {
			require.NotEqual(t, content.Error, p.Grade, p.Message)
		}
		held := map[string]string{}
		look := func(name string, b []byte) {
			for _, w := range words {
				if bytes.Contains(b, []byte(w)) || strings.Contains(name, w) {
					held[w] = name
				}
			}
		}
		root := published(dir)
		require.NotNil(t, root)
		require.NoError(t, fs.WalkDir(root, ".", func(p string, d fs.DirEntry, err error) error {
			if err != nil || d.IsDir() {
				return err
			}
			b, err := fs.ReadFile(root, p)
			look(p, b)
			if strings.HasSuffix(p, ".zip") {
				z, err := zip.NewReader(bytes.NewReader(b), int64(len(b)))
				require.NoError(t, err)
				for _, f := range z.File {
					inner, err := fs.ReadFile(z, f.Name)
					require.NoError(t, err)
					look(p+"!"+f.Name, inner)
				}
			}
			return err
		}))
		return held
	}
	assert.Empty(t, found(Public))
	members := found(Members)
	for _, w := range []string{"Quorx", "Zwickelpool", "Hazzlemere", "Klandestine", "Sekrit", "Frobremark"} {
		assert.Contains(t, members, w, "else the search is worth nothing")
	}
	assert.NotContains(t, members, "Grobnik", "who wants no name has none in any edition")
}

// Words for everyone that name what is withheld are the guide's fault, at their place.
func TestRemarksThatNameWhatIsWithheld(t *testing.T) {
	fsys := secretive()
	fsys["samples/b.csv"] = &fstest.MapFile{Data: []byte("visit,date,water,method,effort,looked for,fly,stage,by,remarks\n" +
		"W1,2025-06-02,Brook,sweep net,50 sweeps,all,nothing,,U. Xandrel,as at the Zwickelpool\n" +
		"W2,2025-06-03,Brook,sweep net,50 sweeps,all,Open olive,dun,U. Xandrel,no Quorxfly\n")}
	fsys["corrections.yaml"] = &fstest.MapFile{Data: []byte("- {date: 2025-05-01, what: the class, why: Hazzlemere was meant}\n")}
	// A mention in prose makes no other one right, and other spellings are found as well.
	fsys["species/open.md"].Data = append(fsys["species/open.md"].Data, "Once at the zwickelpool, with W.\nGrobnik, by *Hazzle*mere. Grobnik said so.\n"...)
	fsys["samples/c.csv"] = &fstest.MapFile{Data: []byte("visit,date,water,method,effort,looked for,fly,stage,by,remarks\n" +
		"X1,2025-06-02,Brook,sweep net,50 sweeps,all,nothing,,U. Xandrel,with Grobnik\n" +
		"X2,2025-06-03,Brook,sweep net,50 sweeps,all,nothing,,U. Xandrel,see club.example/hazzlemere\n" +
		"X3,2025-06-04,Brook,sweep net,50 sweeps,all,nothing,,U. Xandrel,at 55°18.79'N 4°46.28'W\n" +
		"X4,2025-06-05,Brook,sweep net,50 sweeps,all,nothing,,T. Vexling,Vexling wrote this\n")}
	r, err := Publish(Options{Source: &Source{Files: fsys}, Edition: Public, Date: calendar.Date{Year: 2026, Month: 12, Day: 1}, Out: t.TempDir() + "/site"})
	var failed site.Failures
	require.NotErrorAs(t, err, &failed, "no fault of the program")
	require.NoError(t, err)
	got := map[string]string{}
	for _, p := range r.Problems {
		if p.Grade == content.Error {
			got[r.Collector().Where(p.At)] = p.ID + " " + p.Message
		}
	}
	assert.Equal(t, map[string]string{
		"samples/c.csv:2:1":    `names-withheld this visit names "Grobnik", which the public edition withholds`,
		"samples/c.csv:3:1":    `names-withheld this visit names "Hazzlemere", which the public edition withholds`,
		"samples/c.csv:4:1":    `names-withheld this visit names "55.3131 N, 4.7713 W", which the public edition withholds`,
		"samples/b.csv:2:1":    `names-withheld this visit names "Zwickelpool", which the public edition withholds`,
		"samples/b.csv:3:1":    `names-withheld this find names "Quorxfly", which the public edition withholds`,
		"corrections.yaml:1:3": `names-withheld this correction names "Hazzlemere", which the public edition withholds`,
	}, got)
	var may []string
	for _, p := range r.Problems {
		if p.ID == "may-name-withheld" {
			may = append(may, r.Collector().Where(p.At))
		}
	}
	assert.ElementsMatch(t, []string{"samples/c.csv:5:1", "species/open.md:8:27"}, may, "of somebody named by initials, and of nobody's in prose")
}

// Prose that names what is withheld is told, at its place; the search goes on for
// every other name, and for one that only stands inside a word.
func TestProseThatNamesWhatIsWithheld(t *testing.T) {
	fsys := secretive()
	fsys["species/open.md"].Data = append(fsys["species/open.md"].Data, "First seen by W.\nGrobnik at the zwickelpool, near the Hazzlemeres.\n"...)
	fsys["guide.yaml"].Data = append(fsys["guide.yaml"].Data, "licence: CC0\ncontact: Ask for Klandestine things.\n"...)
	for edition, want := range map[Edition]map[string]string{
		Public:  {"species/open.md:7:15": "W. Grobnik", "species/open.md:8:16": "Zwickelpool", "guide.yaml:6:18": "Klandestine"},
		Members: {"species/open.md:7:15": "W. Grobnik"},
	} {
		r, err := Publish(Options{Source: &Source{Files: fsys}, Edition: edition, Date: calendar.Date{Year: 2026, Month: 12, Day: 1}, Out: t.TempDir() + "/site"})
		require.NoError(t, err)
		got := map[string]string{}
		for _, p := range r.Problems {
			if p.ID == "prose-names-withheld" {
				assert.Equal(t, content.Warning, p.Grade)
				_, name, _ := strings.Cut(p.Message, `"`)
				got[r.Collector().Where(p.At)], _, _ = strings.Cut(name, `"`)
			}
		}
		assert.Equal(t, want, got, edition)
	}
}
