package guide

// photos/photos.yaml: what each picture shows, whose it is, and who may see
// it until when. A picture without credit or without a permission in force is
// not published; the editor is told, and nothing else happens.

import (
	"io/fs"
	"path"
	"slices"
	"strings"

	"guidegen/build/photo"
	"guidegen/content"
	"guidegen/content/calendar"
	"guidegen/rivers"
	"guidegen/species"
)

// Photo is one picture of the guide.
type Photo struct {
	File       string        // path in the guide
	At         content.Place // of the text that names the file
	Credit     string        // as the site prints it
	Licence    string
	Alt        string // what is seen, for those who can't see it
	Caption    string
	Shows      Shown
	Permission Permission
	Members    bool          // for the members' edition alone
	Published  bool          // credit and permission are in order, and the site may show it
	Picture    photo.Picture // read of published photos only
}

// InPrint reports whether it may be printed; the site shows it in any case.
func (p *Photo) InPrint() bool { return p.Permission.Scope != "site" }

// Shown is what is seen on a photo; what isn't said is the zero value.
type Shown struct {
	Fly          *species.Account
	Stage        species.Stage
	Sex          species.Sex
	Water        *rivers.Water
	Date         calendar.When
	Wild, Reared bool

	unknown bool // it names a fly or a water, and the guide may know neither
}

// Permission is what the holder of the rights allows.
type Permission struct {
	Scope       string        // of Scopes; "" where none is given
	From, Until calendar.Date // first and last day; zero where it has no such end
	By          string        // who gave it; never published
}

// Scopes is the closed list.
var Scopes = []string{"site", "print", "site and print", "members"}

// PermissionRecord is the table of a photo's permission.
var PermissionRecord = &content.Record{Name: "permission", Doc: "What whoever holds the rights allows.", Fields: []content.Field{
	{Key: "scope", Shape: content.Choice, Choices: Scopes, Doc: "Where it may be shown: site, print, site and print, or members (the members' edition alone).", Example: "site and print"},
	{Key: "from", Shape: content.Line, Doc: "The first day on which it may be shown.", Example: "2026-01-01"},
	{Key: "until", Shape: content.Line, Doc: "The last day on which it may be shown.", Example: "2028-12-31"},
	{Key: "by", Shape: content.Line, Doc: "Who gave the permission, and how; never published.", Example: "the photographer, by letter"},
}}

// ShowsRecord is the table of what a photo shows.
var ShowsRecord = &content.Record{Name: "picture", Doc: "What is seen on it; the caption is made of this.", Fields: []content.Field{
	{Key: "fly", Shape: content.Line, Doc: "The fly, by any of its names.", Example: "Large dark olive"},
	{Key: "stage", Shape: content.Line, Doc: "Its stage.", Example: "dun"},
	{Key: "sex", Shape: content.Choice, Choices: []string{"male", "female"}, Doc: "Its sex."},
	{Key: "water", Shape: content.Line, Doc: "The water where it was taken, or that is seen.", Example: "Ashbeck"},
	{Key: "date", Shape: content.Line, Doc: "The day on which it was taken; a month or a year may stand.", Example: "2026-05-03"},
	{Key: "reared", Shape: content.Choice, Choices: []string{"yes", "no"}, Doc: "Whether the fly was reared; no means caught or seen in the wild."},
}}

// PhotoRecord is the table of one entry of photos.yaml.
var PhotoRecord = &content.Record{Name: "photo", Doc: "One picture in photos/.", Fields: append([]content.Field{
	{Key: "file", Shape: content.Line, Required: true, Doc: "The picture's file in photos/.", Example: "olive-dun.jpg"}}, photoFields...)}

// keyedPhotoRecord is one entry where the file's name is the key.
var keyedPhotoRecord = &content.Record{Name: "photo", Doc: PhotoRecord.Doc, Fields: photoFields}

var photoFields = []content.Field{
	{Key: "alt", Shape: content.Line, Required: true, Doc: "What is seen, in a sentence, for readers who can't see it.", Example: "a slate-grey dun with upright wings on a wet stone"},
	{Key: "credit", Shape: content.Line, Doc: "Who took it; printed beside it.", Example: "A. Name"},
	{Key: "permission", Shape: content.Block, Of: PermissionRecord, Doc: "What whoever holds the rights allows."},
	{Key: "shows", Shape: content.Block, Of: ShowsRecord, Doc: "What is seen on it; the caption is made of this."},
	{Key: "caption", Shape: content.Line, Doc: "A sentence to go before what the caption says by itself."},
	{Key: "licence", Shape: content.Line, Doc: "The licence others may use it under, if any.", Example: "CC BY 4.0"},
	{Key: "show", Shape: content.Choice, Choices: []string{"everyone", "members"}, Doc: "Who may see it."},
}

// photos reads photos.yaml, a list or a block keyed by file, and the head of
// each picture that may be published.
func (g *Guide) photos(file *content.File, l content.Listing, fsys fs.FS, names *Names, today calendar.Date, ps *content.Problems) error {
	listed := map[string]content.Place{}
	if file != nil {
		for _, e := range photoEntries(file, ps) {
			p := readPhoto(e, names, ps)
			if p == nil {
				continue
			}
			p.File = asOnDisk(p.File, l[content.PhotoFile])
			if first, ok := listed[p.File]; ok {
				ps.Clash("photo-twice", p.At, first, "first listed here", "keep one of the two; one picture has one credit and one permission", "%q is listed twice", p.File)
				continue
			}
			listed[p.File] = p.At
			p.Published = g.mayPublish(p, today, ps)
			if p.Published {
				ok, err := p.look(fsys, l[content.PhotoFile], ps)
				if err != nil {
					return err
				}
				p.Published = ok
			}
			g.Photos = append(g.Photos, p)
		}
	}
	for _, name := range l[content.PhotoFile] {
		if ext := strings.ToLower(path.Ext(name)); ext == ".yaml" || ext == ".yml" {
			ps.Warnf("wrong-extension", content.Place{File: name}, "rename it photos/photos.yaml, or take it out", "the file %q is not read", name)
		} else if _, ok := listed[name]; !ok {
			ps.Notef("photo-not-listed", content.Place{File: name}, "list it in photos/photos.yaml with credit, permission and alt, or take it out",
				"the picture %q is not published: photos.yaml doesn't list it", name)
		}
	}
	return nil
}

// photoEntry is one block of photos.yaml and the text that names its file.
type photoEntry struct {
	o    content.Opened
	file content.Text
}

func photoEntries(f *content.File, ps *content.Problems) (out []photoEntry) {
	open := func(v content.Value) {
		o := PhotoRecord.Open(v, ps)
		out = append(out, photoEntry{o, o.Text("file")})
	}
	v := content.ReadYAML(f, ps)
	switch v.Kind {
	case content.Absent:
	case content.List:
		for _, i := range v.Items {
			open(i)
		}
	case content.Map:
		if slices.ContainsFunc(v.Entries, func(e content.Entry) bool { return slices.Contains(PhotoRecord.Keys(), e.Key.S) }) {
			open(v) // one photo, written without a hyphen
			break
		}
		for _, e := range v.Entries {
			out = append(out, photoEntry{keyedPhotoRecord.Open(e.Value, ps), e.Key})
		}
	default:
		ps.Errorf("wrong-shape", v.At, "start each entry with a hyphen, or with the file's name and a colon", "found %s where a list of photos is wanted", v.Kind)
	}
	return out
}

// readPhoto is nil for an entry that names no file.
func readPhoto(e photoEntry, names *Names, ps *content.Problems) *Photo {
	o, file := e.o, e.file.Trim()
	if file.S == "" {
		return nil
	}
	p := &Photo{At: file.At, Credit: strings.TrimSpace(o.Text("credit").S), Licence: o.Text("licence").S, Alt: o.Text("alt").S,
		Caption: o.Text("caption").S, Members: o.Choice("show") == "members", File: "photos/" + strings.TrimPrefix(file.S, "photos/")}
	if o.Has("permission") {
		q := PermissionRecord.Open(o.Value("permission"), ps)
		p.Permission = Permission{q.Choice("scope"), dateOf(q, "from", ps), dateOf(q, "until", ps), q.Text("by").S}
		if a, b := p.Permission.From, p.Permission.Until; !a.IsZero() && !b.IsZero() && b.Before(a) {
			ps.Errorf("bad-date", q.Text("until").At, "write the earlier day under from", "the permission ends on %s, before it begins on %s", b, a)
		}
	}
	p.Members = p.Members || p.Permission.Scope == "members"
	if o.Has("shows") {
		p.Shows = shown(ShowsRecord.Open(o.Value("shows"), ps), names, ps)
	}
	return p
}

func shown(o content.Opened, names *Names, ps *content.Problems) Shown {
	s := Shown{Sex: species.Sex(o.Choice("sex")), Wild: o.Choice("reared") == "no", Reared: o.Choice("reared") == "yes"}
	s.unknown = o.Text("fly").S != "" || o.Text("water").S != ""
	if t := o.Text("fly"); t.S != "" {
		s.Fly = names.fly(t, ps)
	}
	if t := o.Text("water"); t.S != "" {
		s.Water = names.Water(t, ps)
	}
	if t := o.Text("date"); t.S != "" {
		when, err := calendar.ParseWhen(t.S)
		if err != nil {
			ps.Refuse("bad-date", t, err)
		}
		s.Date = when
	}
	if t := o.Text("stage"); t.S != "" {
		known := make([]string, len(species.AllStages))
		for i, x := range species.AllStages {
			known[i] = string(x)
		}
		stage, ok := species.StageNamed(t.S)
		switch {
		case !ok:
			ps.Errorf("unknown-stage", t.At, "one of: "+strings.Join(known, ", "), "%q isn't a stage%s", t.S, content.DidYouMean(t.S, known))
		case s.Fly != nil && s.Fly.Group != "" && !s.Fly.Group.Has(stage):
			ps.Errorf("stage-not-in-group", t.At, "", "a fly of the group %q has no %s", s.Fly.Group, stage)
		default:
			s.Stage = stage
		}
	}
	return s
}

// asOnDisk is the path of a file as the listing has it: some systems store an
// accented letter as two characters.
func asOnDisk(file string, files []string) string {
	if !slices.Contains(files, file) {
		for _, f := range files {
			if content.NFC(f) == content.NFC(file) {
				return f
			}
		}
	}
	return file
}
