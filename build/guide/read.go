package guide

// Reading a whole guide: every file by its reader, then the names between
// them. Problems are collected; nothing stops at the first.

import (
	"cmp"
	"io/fs"
	"math"
	"path"
	"slices"
	"strings"

	"golang.org/x/text/language"

	"guidegen/content"
	"guidegen/content/calendar"
	"guidegen/content/measure"
	"guidegen/rivers"
	"guidegen/rivers/season"
	"guidegen/species"
	"guidegen/templates"
)

// Read reads and checks the guide in a folder. Today serves to find
// records from the future and permissions that have ended; the zero date
// leaves that out. The error is ours
// alone (a disk that can't be read); the guide's faults are in ps, and with an
// error among them the guide must not be published.
func Read(fsys fs.FS, today calendar.Date, ps *content.Problems) (*Guide, error) {
	return readAs(fsys, today, false, ps)
}

func readAs(fsys fs.FS, today calendar.Date, preview bool, ps *content.Problems) (*Guide, error) {
	folder := content.Folder{FS: fsys}
	list, err := folder.List(ps)
	if err != nil {
		return nil, err
	}
	files, err := readFiles(folder, list, ps)
	if err != nil {
		return nil, err
	}
	g := &Guide{Constants: DefaultConstants()}
	if len(files[content.GuideFile]) == 0 {
		return g, nil // the listing has reported it
	}
	main := files[content.GuideFile][0]
	for _, f := range files[content.SourcesFile] {
		g.Sources = species.ReadSources(f, ps)
	}
	grounds := content.Grounds{Sources: species.SourceKeys(g.Sources)}
	g.Settings, g.Constants, grounds = readSettings(main, grounds, ps)
	files.openSheets(g.Settings, ps)
	g.readWords(files[content.WordsFile], ps)
	g.hasWords(main, ps)
	g.readAccounts(files, grounds, ps)
	g.readTexts(files, ps)
	g.check(main, ps)

	names := newNames(g.Accounts, g.Waters)
	g.resolve(names, ps)
	g.hemisphere(ps)
	var listed *content.File
	for _, f := range files[content.PhotosFile] {
		listed = f
	}
	if err := g.photos(listed, list, fsys, names, today, ps); err != nil {
		return nil, err
	}
	future := today
	if preview {
		future = calendar.Date{} // what is later is left out without a warning
	}
	g.readRecords(files, names, future, ps)
	g.odd(list.All(), future, ps)
	followUnread(list, ps)
	return g, nil
}

// filesByKind are the files of a guide that are text or workbooks.
type filesByKind map[content.FileKind][]*content.File

func readFiles(folder content.Folder, list content.Listing, ps *content.Problems) (filesByKind, error) {
	files := filesByKind{}
	for kind, paths := range list {
		if kind == content.PhotoFile || kind == content.NoFile {
			continue
		}
		for _, p := range paths {
			f, err := folder.Read(p, ps)
			if err != nil {
				return nil, err
			}
			if f != nil {
				files[kind] = append(files[kind], f)
			}
		}
	}
	return files, nil
}

// openSheets puts a workbook's sheets in its place, and says of each sheet as CSV how it is written.
func (files filesByKind) openSheets(s Settings, ps *content.Problems) {
	var samples []*content.File
	for _, f := range files[content.SampleFile] {
		switch path.Ext(f.Path) {
		case ".xlsx":
			samples = append(samples, content.Workbook(f, ps)...)
		case ".zip":
			if sheet := content.Archive(f, ps); sheet != nil {
				samples = append(samples, sheet)
			}
		default:
			samples = append(samples, f)
		}
	}
	files[content.SampleFile] = samples
	for _, f := range slices.Concat(samples, files[content.TemperatureFile], files[content.HooksFile]) {
		if path.Ext(f.Path) == ".csv" {
			f.Dialect = s.Sheet(f.Path)
		}
	}
}

func (g *Guide) readWords(files []*content.File, ps *content.Problems) {
	g.Words = map[string]*content.File{}
	for _, f := range files {
		tag := strings.TrimSuffix(path.Base(f.Path), ".yaml")
		if _, err := language.Parse(tag); err != nil {
			ps.Errorf("unknown-language", f.At(0, 0), "name the file by its language: words/de.yaml", "%q isn't a language tag", tag)
			continue
		}
		g.Words[tag] = f
	}
}

// readAccounts reads what stands on its own: characters, accounts, waters, dressings and hooks.
func (g *Guide) readAccounts(files filesByKind, grounds content.Grounds, ps *content.Problems) {
	for _, f := range files[content.CharactersFile] {
		g.Characters = species.ReadCharacters(f, ps)
	}
	in := species.Context{Grounds: grounds, Characters: g.Characters}
	for _, f := range files[content.SpeciesFile] {
		a := species.ReadAccount(f, in, ps)
		if a == nil || a.Name.S == "" {
			ps.Unread(f.Path)
		}
		if a != nil {
			g.Accounts = append(g.Accounts, a)
		}
	}
	for _, f := range files[content.RiverFile] {
		w := rivers.ReadWater(f, grounds, ps)
		if w == nil || w.Name.S == "" {
			ps.Unread(f.Path)
		}
		if w != nil {
			g.Waters = append(g.Waters, w)
		}
	}
	for _, f := range files[content.DressingFile] {
		g.Dressings = append(g.Dressings, species.ReadDressings(f, in, ps)...)
	}
	for _, f := range files[content.HooksFile] {
		g.HookRows = species.ReadHooks(f, ps)
		g.Hooks = species.HookTable(g.HookRows)
	}
}

// readTexts reads the notes, what was put right, and which warnings may stand.
func (g *Guide) readTexts(files filesByKind, ps *content.Problems) {
	for _, f := range files[content.NoteFile] {
		if n, ok := readNote(f, ps); ok {
			g.Notes = append(g.Notes, n)
		}
	}
	for _, f := range files[content.CorrectionsFile] {
		g.Corrections = readCorrections(f, ps)
	}
	for _, f := range files[content.AcknowledgedFile] {
		g.Acknowledged = readAcknowledgements(f, ps)
	}
}

// readRecords reads visits and temperatures, each with its water.
func (g *Guide) readRecords(files filesByKind, names *Names, future calendar.Date, ps *content.Problems) {
	var events []*rivers.Event
	for _, f := range files[content.SampleFile] {
		events = append(events, rivers.ReadSamples(f, ps)...)
	}
	g.Visits = joinVisits(events, names, future, ps)
	for _, f := range files[content.TemperatureFile] {
		s := rivers.ReadTemperature(f, ps)
		for i := range s.Spots {
			if w := names.Water(s.Spots[i].Water, ps); w != nil {
				s.Spots[i].WaterAddress = w.Address
			}
		}
		for i := range s.Logger {
			if w := names.Water(s.Logger[i].Water, ps); w != nil {
				s.Logger[i].WaterAddress = w.Address
			}
		}
		g.Series = append(g.Series, s)
	}
}

// followUnread sets aside the problems that follow from a file that couldn't be read.
func followUnread(list content.Listing, ps *content.Problems) {
	for _, p := range list[content.NoFile] {
		ps.Unread(p, goBy[content.MeantAs(p)]...)
	}
	for kind, ids := range goBy {
		for _, p := range list[kind] {
			if ps.IsUnread(p) {
				ps.Unread(p, ids...)
			}
		}
	}
}

// hasWords refuses a first language that neither the program nor the guide has words in: its pages would be English.
func (g *Guide) hasWords(f *content.File, ps *content.Problems) {
	if len(g.Settings.Languages) == 0 {
		return
	}
	tag := g.Settings.Languages[0]
	base, _ := language.Make(tag).Base()
	if g.Words[tag] == nil && !slices.Contains(templates.Languages(), base.String()) {
		ps.Errorf("no-words", g.Settings.LanguageAt, "write words/"+tag+".yaml: guidegen blank words "+tag+" begins it; or write languages: ["+strings.Join(templates.Languages(), ", ")+"]",
			"the program has no words in %q", tag)
	}
}

// Sheet is how a sheet is written, by its path.
func (s Settings) Sheet(path string) content.Dialect {
	if d, ok := s.SheetFiles[path]; ok {
		return d
	}
	return s.Sheets
}

// goBy lists the problems that other files have where a file that they go by can't be read.
var goBy = map[content.FileKind][]string{
	content.GuideFile:      {"no-basis"},
	content.SourcesFile:    {"unknown-basis"},
	content.CharactersFile: {"unknown-feature", "unknown-state"},
	content.SpeciesFile:    {"unknown-fly"},
	content.RiverFile:      {"unknown-water"},
	content.PhotosFile:     {"photo-not-listed"},
}

// check looks at what no single file can know: that there is something to
// publish, that addresses don't collide, that flights make sense under the
// guide's constants.
func (g *Guide) check(guideFile *content.File, ps *content.Problems) {
	if len(g.Accounts) == 0 && ps.Count(content.Error) == 0 {
		ps.Errorf("no-accounts", guideFile.At(0, 0), "write one with: guidegen blank account", "the guide has no account in species/")
	}
	if len(g.Waters) == 0 && ps.Count(content.Error) == 0 {
		ps.Errorf("no-waters", guideFile.At(0, 0), "write one with: guidegen blank water", "the guide has no water in rivers/")
	}
	slices.SortStableFunc(g.Accounts, func(a, b *species.Account) int { return cmp.Compare(a.Address, b.Address) })
	slices.SortStableFunc(g.Waters, func(a, b *rivers.Water) int {
		return cmp.Or(g.Settings.Alphabet.Compare(a.Name.S, b.Name.S), cmp.Compare(a.Address, b.Address))
	})
	slices.SortStableFunc(g.Dressings, func(a, b *species.Dressing) int {
		return cmp.Or(g.Settings.Alphabet.Compare(a.Name.S, b.Name.S), cmp.Compare(a.Address, b.Address))
	})
	slices.SortStableFunc(g.Notes, func(a, b Note) int { return cmp.Compare(a.Address, b.Address) })
	g.collisions(ps)
	for _, a := range g.Accounts {
		for _, f := range a.Flights {
			g.flight(f, ps)
		}
		if len(a.Flights) == 0 {
			ps.Warnf("no-flights", a.Name.At, "give it flights: with from, peak and to", "%q has no flight, so no water can expect it", a.Name.S)
		}
	}
	g.sameNames(ps)
	for _, w := range g.Waters {
		for _, l := range w.Flies {
			for _, f := range l.Flights {
				g.flight(f, ps)
			}
		}
	}
}

// sameNames finds two accounts of one scientific name, and two waters of one
// name: a record could mean either.
func (g *Guide) sameNames(ps *content.Problems) {
	flies := map[string]content.Text{}
	for _, a := range g.Accounts {
		k := content.Fold(a.Scientific.Name.S)
		if first, ok := flies[k]; ok && k != "" {
			ps.Clash("same-scientific", a.Scientific.Name.At, first.At, "the other one", "join the two accounts, or put one name right",
				"two accounts are of %s", a.Scientific.Name.S)
		}
		flies[k] = a.Scientific.Name
	}
	waters := map[string]content.Text{}
	for _, w := range g.Waters {
		k := content.Fold(w.Name.S)
		if first, ok := waters[k]; ok {
			ps.Clash("same-name", w.Name.At, first.At, "the other one", "give one of the two another name", "two waters are named %q", w.Name.S)
		}
		waters[k] = w.Name
	}
}

// SouthOf tells the hemisphere of a guide: that of its reference, or, where that has no latitude, of most of
// its waters.
func SouthOf(ref Reference, waters []*rivers.Water) bool {
	if ref.HasLatitude {
		return ref.South
	}
	n := 0
	for _, w := range waters {
		switch {
		case w.HasPlace && w.Place.Latitude.Degrees < 0:
			n++
		case w.HasPlace:
			n--
		}
	}
	return n > 0
}

// Across reports whether a water lies on the other side of the equator from the guide's reference: no account
// speaks of its dates.
func Across(w *rivers.Water, south bool) bool {
	return w.HasPlace && (w.Place.Latitude.Degrees < 0) != south
}

// hemisphere refuses flies listed on a water across the equator without dates of their own there: no rule
// moves a flight that far, and northern dates would be half a year wrong.
func (g *Guide) hemisphere(ps *content.Problems) {
	south := SouthOf(g.Settings.Reference, g.Waters)
	accounts := map[string]*species.Account{}
	for _, a := range g.Accounts {
		accounts[a.Address] = a
	}
	for _, w := range g.Waters {
		if !Across(w, south) {
			continue
		}
		ps.Warnf("other-hemisphere", w.PlaceAt, "check N and S; if it is right, give each of its flies dates of its own",
			"%s is on the other side of the equator from the guide's reference", w.Name.S)
		for _, l := range w.Flies {
			a := accounts[l.Account]
			if a == nil {
				continue
			}
			for _, f := range a.Flights {
				if !slices.ContainsFunc(l.Flights, func(own species.Flight) bool {
					return own.From != 0 && own.To != 0 && (own.Name == f.Name || own.Name == "" && len(a.Flights) == 1)
				}) {
					ps.Errorf("no-dates-across-equator", l.Fly.At, "give the dates on this water: {from: 5 Oct, peak: 1 Nov, to: 10 Dec}",
						"%s is across the equator, where the dates of the account (%s) don't hold", w.Name.S, a.Name.S)
					break
				}
			}
		}
	}
}

func (g *Guide) flight(f species.Flight, ps *content.Problems) {
	d := season.Dates{From: f.From, Peak: f.Peak, To: f.To}
	if !d.Given() {
		return
	}
	if d.Fault(g.Constants.Season) == season.NeedsPeak {
		ps.Errorf("needs-peak", f.At, "give a peak, or write its generations as flights of their own",
			"a flight of %d days has no peak; past %d days none is assumed", d.Length(), int(g.Constants.Season.LongestUnpeaked))
	}
}

// collisions finds two files with one address, and old addresses that are in
// use; both places are named.
func (g *Guide) collisions(ps *content.Problems) {
	type owner struct {
		at   content.Place
		name string
	}
	check := func(kind string, each func(add func(address string, at content.Place, name string, was []content.Text))) {
		taken := map[string]owner{}
		var old []func()
		each(func(address string, at content.Place, name string, was []content.Text) {
			if first, ok := taken[address]; ok {
				ps.Clash("same-address", at, first.at, "the other one", "rename one of the two",
					"%s %q has the same address as %q: %s", kind, name, first.name, address)
			} else {
				taken[address] = owner{at, name}
			}
			for _, t := range was {
				a := content.Address(t.S)
				if a == "" {
					ps.Errorf("no-address", t.At, "write the older file name without its ending", "%q gives no address", t.S)
					continue
				}
				if strings.ContainsAny(t.S, " \t") {
					ps.Warnf("was-a-name", t.At, "write the older file name without its ending: "+a+"; "+map[bool]string{true: "an older name goes under old:", false: "another name goes under also:"}[kind == "the account"],
						"%q is a name, and was: takes addresses", t.S)
					if first, ok := taken[a]; ok && first.name == name {
						continue // its own address: there is nothing to lead from
					}
				}
				old = append(old, func() {
					if first, ok := taken[a]; ok {
						ps.Clash("same-address", t.At, first.at, "the other one", "remove the older address, or rename the other",
							"the older address %s of %q is in use by %q", a, name, first.name)
						return
					}
					taken[a] = owner{t.At, name}
				})
			}
		})
		for _, f := range old {
			f()
		}
	}
	check("the account", func(add func(string, content.Place, string, []content.Text)) {
		for _, a := range g.Accounts {
			add(a.Address, a.At, a.Name.S, a.Was)
		}
	})
	check("the water", func(add func(string, content.Place, string, []content.Text)) {
		for _, w := range g.Waters {
			add(w.Address, w.At, w.Name.S, w.Was)
		}
	})
	check("the dressing", func(add func(string, content.Place, string, []content.Text)) {
		byName := map[string]*species.Dressing{}
		for _, d := range g.Dressings {
			add(d.Address, d.Name.At, d.Name.S, d.Was)
			k := content.Fold(d.Name.S)
			if first := byName[k]; first != nil && first.Address != d.Address {
				ps.Clash("same-name", d.Name.At, first.Name.At, "the other one", "give one of the two another name", "two dressings are named %q", d.Name.S)
			}
			byName[k] = d
		}
	})
	check("the note", func(add func(string, content.Place, string, []content.Text)) {
		for _, n := range g.Notes {
			add(n.Address, n.At, n.Title, n.Was)
		}
	})
}

// resolve fills in the addresses of the flies that waters and dressings name.
func (g *Guide) resolve(names *Names, ps *content.Problems) {
	for _, w := range g.Waters {
		seen := map[string]content.Place{}
		for i := range w.Flies {
			l := &w.Flies[i]
			a := names.fly(l.Fly, ps)
			if a == nil {
				continue
			}
			if first, ok := seen[a.Address]; ok {
				ps.Clash("listed-twice", l.Fly.At, first, "first listed here", "keep one of the two", "%q is listed twice for %s", a.Name.S, w.Name.S)
				continue
			}
			seen[a.Address] = l.Fly.At
			l.Account = a.Address
			for _, f := range l.Flights {
				g.ownFlight(a, f, len(l.Flights), ps)
			}
		}
	}
	for _, d := range g.Dressings {
		for i := range d.For {
			for _, t := range d.For[i].Flies {
				if a := names.fly(t, ps); a != nil {
					d.For[i].Accounts = append(d.For[i].Accounts, a.Address)
				}
			}
		}
	}
}

// ownFlight checks that a water's own dates say which flight they are for.
func (g *Guide) ownFlight(a *species.Account, f species.Flight, n int, ps *content.Problems) {
	var known []string
	for _, x := range a.Flights {
		known = append(known, x.Name)
	}
	switch {
	case f.Name == "" && len(a.Flights) > 1:
		ps.Errorf("unknown-flight", f.At, "write them under flights: with the flight's name",
			"%s has %d flights, and these dates don't say for which they are", a.Name.S, len(a.Flights))
	case f.Name != "" && !slices.Contains(known, f.Name):
		ps.Errorf("unknown-flight", f.At, "its flights are those of the account", "%s has no flight %q%s", a.Name.S, f.Name, content.DidYouMean(f.Name, known))
	}
}

// Kilometres is the distance between two places along the sphere, mean radius
// 6371.0 km (the haversine formula; good to 0.5 %).
func Kilometres(a, b measure.Coordinates) float64 {
	rad := func(d float64) float64 { return d * math.Pi / 180 }
	p, q := rad(a.Latitude.Degrees), rad(b.Latitude.Degrees)
	x, y := math.Sin((q-p)/2), math.Sin(rad(b.Longitude.Degrees-a.Longitude.Degrees)/2)
	h := float64(x*x) + float64(math.Cos(p)*math.Cos(q)*y*y)
	return 2 * 6371 * math.Asin(math.Sqrt(min(1, h)))
}

func nearSensitive(w *rivers.Water, at measure.Coordinates) bool {
	for _, s := range w.Sensitive {
		if Kilometres(at, s.Place) <= max(s.Radius/1000, 1) {
			return true
		}
	}
	return false
}
