package site

// This file finds the place a site is meant for, and refuses places where a swap would destroy
// something that is not an older site of ours.

import (
	"errors"
	"fmt"
	"io/fs"
	"os"
	"path/filepath"
	"slices"
	"strings"
)

// Refusal says why a site may not be written to a place. Nothing was changed. The user has to
// name another place, or clear this one.
type Refusal struct {
	Target string
	Why    string
}

func (r *Refusal) Error() string { return r.Target + ": " + r.Why }

// locate resolves the symbolic links of a target that may not exist yet.
func locate(target string) (string, error) {
	abs, err := filepath.Abs(target)
	if err != nil {
		return "", err
	}
	rest := ""
	for at := abs; ; at = filepath.Dir(at) {
		real, err := filepath.EvalSymlinks(at)
		if err == nil {
			return filepath.Join(real, rest), nil
		}
		if !errors.Is(err, fs.ErrNotExist) || filepath.Dir(at) == at {
			return "", fmt.Errorf("%s: %w", target, err)
		}
		if _, err := os.Lstat(at); err == nil {
			return "", &Refusal{target, "a link to a place that does not exist"}
		}
		rest = filepath.Join(filepath.Base(at), rest)
	}
}

// allowed refuses what can be refused before anything is touched. named is the target as the
// user wrote it.
func allowed(p Plan, target string) error {
	refuse := func(why string) error { return &Refusal{p.Target, why} }
	if filepath.Dir(target) == target {
		return refuse("the top of a volume can't be swapped in one step; give a folder on it, such as " +
			filepath.Join(p.Target, "published"))
	}
	switch info, err := os.Stat(target); {
	case errors.Is(err, fs.ErrNotExist):
	case err != nil:
		return err
	case !info.IsDir():
		return refuse("a file, not a folder")
	case mounted(target):
		return refuse(mountAdvice(p.Target))
	}
	for at := filepath.Dir(target); filepath.Dir(at) != at; at = filepath.Dir(at) {
		if _, err := ReadManifest(at); err == nil {
			return refuse("lies inside the site " + at + ", which would be replaced with all in it when it is published next; name a place outside it")
		}
	}
	if p.Guide == "" {
		return nil
	}
	guide, err := locate(p.Guide)
	if err != nil {
		return err
	}
	if within(guide, target) {
		return refuse("holds the guide folder " + p.Guide + ", which the site would replace")
	}
	if within(target, guide) && !(sameFile(filepath.Dir(target), guide) && slices.Contains(p.Own, filepath.Base(target))) {
		return refuse("lies inside the guide folder " + p.Guide + ", in which a site may stand only as " + strings.Join(p.Own, " or ") +
			" at its top; name one of these, or a place outside the guide")
	}
	return nil
}

func mountAdvice(target string) string {
	return "a stick or disk can't be swapped in one step; give a folder on it, such as " + filepath.Join(target, "published")
}

// within reports whether a place lies in a folder or is it. Folders are compared as the file
// system does, so that letter case and bind mounts don't hide it.
func within(place, folder string) bool {
	for at := place; ; at = filepath.Dir(at) {
		if sameFile(at, folder) {
			return true
		}
		if filepath.Dir(at) == at {
			return false
		}
	}
}

func sameFile(a, b string) bool {
	x, errX := os.Stat(a)
	y, errY := os.Stat(b)
	return errX == nil && errY == nil && os.SameFile(x, y)
}

// ours refuses a folder that holds another edition, or anything a site of ours did not put there:
// it would be gone after the swap. What file managers leave behind is no reason.
func ours(p Plan, target string) error {
	named := p.Target
	entries, err := os.ReadDir(target)
	if errors.Is(err, fs.ErrNotExist) || err == nil && len(entries) == 0 {
		return nil
	}
	if err != nil {
		return err
	}
	manifest, err := ReadManifest(target)
	if errors.Is(err, fs.ErrNotExist) {
		return &Refusal{named, "not empty, and not written by guidegen (it has no " + ManifestName + "); give an empty or new folder"}
	}
	if err != nil {
		return &Refusal{named, err.Error()}
	}
	if manifest.Edition != "" && manifest.Edition != p.Edition {
		return &Refusal{named, "holds the " + manifest.Edition + " edition, and the " + p.Edition +
			" edition would replace it; give another folder, or remove this one first"}
	}
	var strangers []string
	known := manifest.holds()
	err = filepath.WalkDir(target, func(name string, d fs.DirEntry, err error) error {
		if err != nil || name == target {
			return err
		}
		rel, err := filepath.Rel(target, name)
		if err != nil || known(filepath.ToSlash(rel)) || leftBehind(d.Name()) {
			return err
		}
		strangers = append(strangers, rel)
		if d.IsDir() {
			return fs.SkipDir
		}
		return nil
	})
	if err != nil {
		return err
	}
	if len(strangers) > 0 {
		const few = 3
		list := strings.Join(strangers[:min(few, len(strangers))], ", ")
		if more := len(strangers) - few; more > 0 {
			list += fmt.Sprintf(" and %d more", more)
		}
		return &Refusal{named, "holds what guidegen did not put there (" + list + "), which would be lost; move it away or give another folder"}
	}
	return nil
}

func leftBehind(name string) bool {
	switch strings.ToLower(name) {
	case ".ds_store", "thumbs.db", "desktop.ini":
		return true
	}
	return strings.HasPrefix(name, "._")
}
