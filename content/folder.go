package content

// The files of a guide folder, by the kind of thing they hold.

import (
	"fmt"
	"io"
	"io/fs"
	"maps"
	"path"
	"regexp"
	"slices"
	"strings"
)

// FileKind is what a file of a guide holds.
type FileKind int

// The kinds of files.
const (
	NoFile FileKind = iota
	GuideFile
	SpeciesFile
	RiverFile
	SampleFile
	TemperatureFile
	DressingFile
	CharactersFile
	HooksFile
	SourcesFile
	CorrectionsFile
	AcknowledgedFile
	NoteFile
	PhotoFile
	PhotosFile
	WordsFile
)

// single lists the files that have one place.
var single = map[string]FileKind{"guide.yaml": GuideFile, "characters.yaml": CharactersFile, "hooks.csv": HooksFile, "sources.yaml": SourcesFile,
	"corrections.yaml": CorrectionsFile, "acknowledged.yaml": AcknowledgedFile, "photos/photos.yaml": PhotosFile}

// folders lists the folders and the ending of their files.
var folders = map[string]struct {
	kind FileKind
	ext  string
}{"species": {SpeciesFile, ".md"}, "rivers": {RiverFile, ".yaml"}, "samples": {SampleFile, ".csv"}, "temperature": {TemperatureFile, ".csv"},
	"dressings": {DressingFile, ".yaml"}, "notes": {NoteFile, ".md"}, "words": {WordsFile, ".yaml"}, "photos": {PhotoFile, ""}}

// otherWorkbooks are endings under which spreadsheets keep what only they can read.
var otherWorkbooks = []string{".xls", ".xlsm", ".xlsb", ".ods", ".numbers"}

// quiet lists names at the top that every project folder may hold.
var quiet = []string{"published", "published-members", "readme", "readme.md", "readme.txt", "license", "licence", "license.txt", "licence.txt"}

// Folder is a guide folder. The caller opens it so that no link leads out of
// it (os.Root).
type Folder struct{ FS fs.FS }

// Listing is the files of a folder by kind, each list sorted; those that aren't read for their ending are of no kind.
type Listing map[FileKind][]string

// One is the path of a kind of file that stands once, "" where it doesn't.
func (l Listing) One(k FileKind) string {
	if len(l[k]) == 0 {
		return ""
	}
	return l[k][0]
}

// MeantAs is the kind that a file has by its folder, whatever its ending.
func MeantAs(p string) FileKind { return folders[path.Dir(p)].kind }

// All is every file of the listing, by path.
func (l Listing) All() []string {
	var all []string
	for kind, paths := range l {
		if kind != NoFile {
			all = append(all, paths...)
		}
	}
	slices.Sort(all)
	return all
}

// List finds the guide's files. Dotfiles and editors' backups are passed over
// in silence; what looks like a slip is reported. The error is ours: the
// folder can't be read.
func (d Folder) List(ps *Problems) (Listing, error) {
	l := Listing{}
	top, err := fs.ReadDir(d.FS, ".")
	if err != nil {
		return nil, err
	}
	for _, e := range top {
		name := e.Name()
		if ignored(name) || slices.Contains(quiet, strings.ToLower(name)) {
			continue
		}
		dir, ok := d.kindOf(name, e, ps)
		if !ok {
			continue
		}
		_, known := folders[name]
		switch {
		case dir && known:
			if err := d.folder(name, name, l, ps); err != nil {
				return nil, err
			}
		case dir:
			ps.Notef("unexpected-file", Place{File: name}, "folders: "+strings.Join(sortedNames(folders), ", "), "the folder %q is not read%s", name+"/", DidYouMean(name, sortedNames(folders)))
		case single[name] != NoFile:
			l[single[name]] = append(l[single[name]], name)
		default:
			d.stray(name, ps)
		}
	}
	if len(l[GuideFile]) == 0 {
		ps.Errorf("no-guide", Place{}, "a guide folder holds guide.yaml; guidegen blank guide writes one", "there is no guide.yaml in this folder")
	}
	return l, nil
}

// stray reports a file at the top that isn't read.
func (d Folder) stray(name string, ps *Problems) {
	at := Place{File: name}
	for _, s := range sortedNames(single) {
		if !strings.Contains(s, "/") && s != name && (strings.EqualFold(s, name) || sameButEnding(s, name)) {
			ps.Warnf("wrong-extension", at, "rename it "+s, "the file %q is not read", name)
			return
		}
	}
	ps.Notef("unexpected-file", at, "files: "+strings.Join(sortedNames(single), ", "), "the file %q is not read%s", name, DidYouMean(name, sortedNames(single)))
}

// folder lists one of the guide's folders; photos may have folders inside.
func (d Folder) folder(dir, top string, l Listing, ps *Problems) error {
	entries, err := fs.ReadDir(d.FS, dir)
	if err != nil {
		return err
	}
	want := folders[top]
	for _, e := range entries {
		p := path.Join(dir, e.Name())
		if ignored(e.Name()) {
			continue
		}
		inside, ok := d.kindOf(p, e, ps)
		if !ok {
			continue
		}
		if fault := notOnWindows(e.Name()); fault != "" {
			ps.Warnf("windows-name", Place{File: p}, "rename it", "on Windows no file can be named %q: %s", e.Name(), fault)
		}
		ext := path.Ext(p)
		switch {
		case inside && want.kind == PhotoFile && strings.Count(p, "/") < 6:
			if err := d.folder(p, top, l, ps); err != nil {
				return err
			}
		case inside:
			ps.Notef("unexpected-file", Place{File: p}, "move its files up into "+top+"/", "the folder %q is not read", p+"/")
		case single[p] != NoFile:
			l[single[p]] = append(l[single[p]], p)
		case want.ext == "" || ext == want.ext || want.kind == SampleFile && (ext == ".xlsx" || ext == ".zip"):
			l[want.kind] = append(l[want.kind], p)
		case sameEnding(ext, want.ext):
			ps.Warnf("wrong-extension", Place{File: p}, "rename it "+strings.TrimSuffix(p, ext)+want.ext, "the file %q is not read: files of %s/ end in %s", p, top, want.ext)
			ps.Unread(p)
			l[NoFile] = append(l[NoFile], p)
		case want.kind == SampleFile && slices.Contains(otherWorkbooks, ext):
			ps.Warnf("wrong-extension", Place{File: p}, "save it from the spreadsheet as a workbook (.xlsx), or as CSV UTF-8", "the file %q is not read: sheets of %s/ end in .csv, .xlsx or .zip", p, top)
			ps.Unread(p)
			l[NoFile] = append(l[NoFile], p)
		default:
			ps.Notef("unexpected-file", Place{File: p}, "files of "+top+"/ end in "+want.ext, "the file %q is not read", p)
		}
	}
	return nil
}

// kindOf tells a folder from a file, through a link too, and reports what is neither.
func (d Folder) kindOf(p string, e fs.DirEntry, ps *Problems) (dir, ok bool) {
	mode := e.Type()
	if mode&fs.ModeSymlink != 0 {
		info, err := fs.Stat(d.FS, p)
		if err != nil {
			ps.Errorf("bad-link", Place{File: p}, "put the file itself here", "the link %q leads nowhere, or out of the guide", p)
			return false, false
		}
		mode = info.Mode()
	}
	if mode.IsDir() || mode.IsRegular() {
		return mode.IsDir(), true
	}
	ps.Errorf("bad-link", Place{File: p}, "take it out", "%q isn't a plain file", p)
	return false, false
}

// ignored reports names that editors and systems leave behind.
func ignored(name string) bool {
	low := strings.ToLower(name)
	return strings.HasPrefix(name, ".") || strings.HasPrefix(name, "~$") || strings.HasSuffix(name, "~") ||
		strings.HasPrefix(name, "#") && strings.HasSuffix(name, "#") || low == "thumbs.db" || low == "desktop.ini" ||
		slices.Contains([]string{".swp", ".swo", ".bak", ".tmp", ".orig"}, path.Ext(low))
}

// reserved are the names of devices on Windows, with any ending
// (https://learn.microsoft.com/windows/win32/fileio/naming-a-file, from memory).
var reserved = regexp.MustCompile(`(?i)^(con|prn|aux|nul|com[0-9¹²³]|lpt[0-9¹²³])(\.|$)`)

// notOnWindows says why a name can't stand on Windows, "" where it can.
func notOnWindows(name string) string {
	switch {
	case reserved.MatchString(name):
		return "it is kept for a device"
	case strings.ContainsAny(name, `<>:"|?*\`):
		return "it holds one of < > : \" | ? * \\"
	case strings.HasSuffix(name, ".") || strings.HasSuffix(name, " "):
		return "it ends with a dot or a space"
	}
	return ""
}

// sameEnding reports endings that are used for one kind of file.
func sameEnding(got, want string) bool {
	got = strings.ToLower(got)
	return got == want || want == ".yaml" && got == ".yml" || want == ".md" && (got == ".markdown" || got == ".mdown" || got == ".mkd")
}

func sameButEnding(want, got string) bool {
	return strings.EqualFold(strings.TrimSuffix(want, path.Ext(want)), strings.TrimSuffix(got, path.Ext(got))) && sameEnding(path.Ext(got), path.Ext(want))
}

func sortedNames[V any](m map[string]V) []string { return slices.Sorted(maps.Keys(m)) }

const maxPhoto = 64 << 20

// Read reads one file whole. A file too large to be what its name says is
// reported and nil; the error is ours.
func (d Folder) Read(p string, ps *Problems) (*File, error) {
	f, err := d.FS.Open(p)
	if err != nil {
		return nil, err
	}
	defer f.Close()
	limit := int64(maxPhoto)
	switch path.Ext(p) {
	case ".md", ".yaml":
		limit = maxBytes
	case ".csv", ".xlsx", ".zip":
		limit = maxCSV
	}
	b, err := io.ReadAll(io.LimitReader(f, limit+1))
	if err != nil {
		return nil, fmt.Errorf("%s: %w", p, err)
	}
	if int64(len(b)) > limit {
		ps.Unread(p)
		ps.Errorf("file-too-large", Place{File: p}, "split it, or make it smaller", "the file is larger than %d MB", limit>>20)
		return nil, nil
	}
	file := NewFile(p, b)
	ps.Know(file)
	return file, nil
}
