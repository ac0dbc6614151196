package guide

// Whether a photo may be published, and whether its picture can be.

import (
	"errors"
	"io"
	"io/fs"
	"path"
	"slices"
	"strings"

	"guidegen/build/photo"
	"guidegen/content"
	"guidegen/content/calendar"
)

// endsSoon is how many days before its end a permission is spoken of.
const endsSoon = 60

// maxPicture is the largest picture file that is read; what is read becomes
// some hundred kilobytes.
const maxPicture = 64 << 20

// mayPublish looks at credit and permission on the day the guide is built for
// (the zero date passes over the permission's dates). What stands in the way
// is told once, at the entry.
func (g *Guide) mayPublish(p *Photo, today calendar.Date, ps *content.Problems) bool {
	name, q := path.Base(p.File), p.Permission
	ok := true
	if p.Credit != "" && g.Settings.People[content.Fold(p.Credit)] == NoName {
		ps.Warnf("photo-no-credit", p.At, "agree on a credit with whoever took it", "the photo %q is not published: guide.yaml says that %s wants no name printed", name, p.Credit)
		ok = false
	}
	if p.Credit == "" {
		ps.Warnf("photo-no-credit", p.At, "write who took it: credit: A. Name", "the photo %q is not published: it has no credit", name)
		ok = false
	}
	switch {
	case q.Scope == "":
		ps.Warnf("photo-no-permission", p.At, "write what was agreed: permission: {scope: site and print, by: …}", "the photo %q is not published: no permission with a scope is given", name)
		return false
	case q.Scope == "print":
		ps.Notef("photo-print-only", p.At, "", "the photo %q is not shown: its permission is for print alone", name)
		return false
	case today.IsZero():
		return ok
	case !q.Until.IsZero() && q.Until.Before(today):
		ps.Warnf("permission-expired", p.At, "ask for it anew, or take the photo out", "the photo %q is not published: its permission ended on %s", name, q.Until)
		return false
	case today.Before(q.From):
		ps.Notef("permission-ahead", p.At, "", "the photo %q is not published yet: its permission begins on %s", name, q.From)
		return false
	case !q.Until.IsZero() && q.Until.Sub(today) <= endsSoon:
		ps.Notef("permission-ends-soon", p.At, "ask for it anew in time", "the permission of the photo %q ends on %s, in %s", name, q.Until, content.Several(q.Until.Sub(today), "day"))
	}
	if ok && p.Shows.Fly == nil && p.Shows.Water == nil && !p.Shows.unknown {
		ps.Notef("photo-shows-nothing", p.At, "write what is seen: shows: {fly: …, water: …}", "the photo %q stands on no page: it names neither fly nor water", name)
	}
	return ok
}

// look reads the picture's head. The error is ours: a file that is there and
// can't be read.
func (p *Photo) look(fsys fs.FS, files []string, ps *content.Problems) (bool, error) {
	if !slices.Contains(files, p.File) {
		var names []string
		for _, f := range files {
			names = append(names, strings.TrimPrefix(f, "photos/"))
		}
		ps.Errorf("photo-missing", p.At, "pictures are files in photos/, letter case included", "there is no picture %q%s", p.File, content.DidYouMean(strings.TrimPrefix(p.File, "photos/"), names))
		return false, nil
	}
	b, err := readPicture(fsys, p.File)
	if err != nil {
		return false, err
	}
	if len(b) > maxPicture {
		ps.Errorf("photo-too-large", p.At, "scale it down", "the picture %q is larger than %d MB", p.File, maxPicture>>20)
		return false, nil
	}
	if p.Picture, err = photo.Inspect(b); err != nil {
		RefusePhoto(p, err, ps)
		return false, nil
	}
	if c := p.Picture.Colours; c != "" {
		ps.Notef("photo-colours", p.At, "save the picture with its colours converted to sRGB", "the picture %q has the colour profile %q, which the site doesn't keep: its colours will be somewhat off", p.File, c)
	}
	return true, nil
}

func readPicture(fsys fs.FS, name string) ([]byte, error) {
	f, err := fsys.Open(name)
	if err != nil {
		return nil, err
	}
	defer f.Close()
	return io.ReadAll(io.LimitReader(f, maxPicture+1))
}

// RefusePhoto reports why a picture can't be made into those of the site. It
// is false where the error is none of the picture's.
func RefusePhoto(p *Photo, err error, ps *content.Problems) bool {
	r, ok := errors.AsType[*photo.Refusal](err)
	if !ok {
		return false
	}
	const say = "the picture %q %s"
	switch r.Why {
	case photo.WrongFormat:
		ps.Errorf("photo-format", p.At, r.Do, say, p.File, r.What)
	case photo.TooLarge:
		ps.Errorf("photo-too-large", p.At, r.Do, say, p.File, r.What)
	default:
		ps.Errorf("photo-broken", p.At, r.Do, say, p.File, r.What)
	}
	return true
}
