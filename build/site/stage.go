package site

// This file stages a site: a folder beside the target, in which every file is written as it is
// drawn. For a target "published" the stage is ".published.stage"; where folders can't be
// exchanged the old site passes through ".published.old"; ".published.lock" is held by the one
// run that is at work there, so whatever else bears these names was left by a run that died.

import (
	"bytes"
	"cmp"
	"errors"
	"fmt"
	"io/fs"
	"os"
	"path"
	"path/filepath"
	"slices"
	"strings"
	"sync"
)

// ErrLocked says that another run holds the lock.
var ErrLocked = errors.New("locked by another run")

// Plan is what has to be known before a site is staged.
type Plan struct {
	Target   string   // the folder the site is meant for; need not exist
	Guide    string   // the guide folder; "" if it is not on disk
	Own      []string // names directly in the guide folder that may be targets all the same
	Withheld []string // strings that must not stand in any file of this edition

	Generator, Name, Edition, Date string // for the manifest
}

// Notebook gathers the notes of a site's files. Its methods may be called from several
// goroutines. It is all that a check needs that writes nothing.
type Notebook struct {
	withheld *Withheld

	mu    sync.Mutex
	notes []Notes
	taken map[string]bool // folded addresses
}

// NewNotebook returns an empty notebook; the strings must not stand in any file.
func NewNotebook(withheld []string) *Notebook {
	return &Notebook{withheld: NewWithheld(withheld), taken: make(map[string]bool)}
}

// Note reads one file. It reports whether the address was free; if not, Verify will tell.
func (b *Notebook) Note(address string, data []byte) (free bool) {
	n := Read(address, data)
	n.Leaks = b.withheld.Find(address, data)
	b.mu.Lock()
	defer b.mu.Unlock()
	free = !b.taken[fold(address)]
	b.taken[fold(address)] = true
	b.notes = append(b.notes, n)
	return free
}

// Verify checks what was noted so far.
func (b *Notebook) Verify() Failures {
	b.mu.Lock()
	defer b.mu.Unlock()
	return Verify(b.notes)
}

// Stage is a site being written beside its target. Close must be called on every way out.
type Stage struct {
	*Notebook
	plan    Plan
	parent  string      // the folder that holds target and stage, links resolved
	target  string      // names in it
	stage   string      //
	aside   string      //
	root    *os.Root    // of parent
	mode    fs.FileMode // of the target's folder
	made    []string    // folders above the target made by us, top first
	unlock  func()
	begun   bool // the stage's folder is ours to remove
	swapped bool

	// step is called before each change on disk; tests make it fail or kill the process.
	step       func(what string) error
	noExchange bool // tests: as on a file system that can't exchange folders

	mu    sync.Mutex // of what follows
	files []File
	dirs  map[string]bool // made in the stage
	err   error           // the first that befell a write
	from  string
}

// Open clears up after runs that died and begins a stage. It returns a *Refusal where no site
// may be written; other errors name the path they befell.
func Open(p Plan) (*Stage, error) {
	return open(p, func(string) error { return nil }, false)
}

func open(p Plan, step func(string) error, noExchange bool) (_ *Stage, err error) {
	target, err := locate(p.Target)
	if err != nil {
		return nil, err
	}
	if err := allowed(p, target); err != nil {
		return nil, err
	}
	name := filepath.Base(target)
	s := &Stage{
		Notebook: NewNotebook(p.Withheld), plan: p,
		parent: filepath.Dir(target), target: name,
		stage: "." + name + ".stage", aside: "." + name + ".old",
		mode: 0o755, step: step, noExchange: noExchange, dirs: map[string]bool{".": true},
	}
	defer func() {
		if err != nil {
			err = s.inFull(errors.Join(err, s.Close()))
		}
	}()
	if err := s.makeParents(); err != nil {
		return nil, err
	}
	if s.unlock, err = Lock(filepath.Join(s.parent, "."+name+".lock")); errors.Is(err, ErrLocked) {
		return nil, &Refusal{p.Target, "another run of guidegen is writing there"}
	} else if err != nil {
		return nil, err
	}
	if s.root, err = os.OpenRoot(s.parent); err != nil {
		return nil, err
	}
	if err := s.repair(); err != nil {
		return nil, err
	}
	if err := ours(p, target); err != nil {
		return nil, err
	}
	if info, err := s.root.Stat(name); err == nil {
		s.mode = info.Mode().Perm()
	}
	return s, s.begin()
}

// makeParents makes the folders above the target, noting them so that Close can undo it.
func (s *Stage) makeParents() error {
	for at := s.parent; ; at = filepath.Dir(at) {
		if _, err := os.Stat(at); err == nil || filepath.Dir(at) == at {
			break
		}
		s.made = append([]string{at}, s.made...)
	}
	return os.MkdirAll(s.parent, 0o755)
}

// begin makes the stage's folder. Its first file is the manifest, still without files, which
// tells the next run whose it is should this one die.
func (s *Stage) begin() error {
	if err := s.step("make the stage"); err != nil {
		return err
	}
	if err := s.root.Mkdir(s.stage, 0o755); err != nil {
		return err
	}
	s.begun = true
	if err := s.step("mark the stage"); err != nil {
		return err
	}
	return s.create(ManifestName, s.manifest().bytes())
}

// MadeFrom notes in the manifest a checksum of what the site is made from.
func (s *Stage) MadeFrom(sum string) {
	s.mu.Lock()
	defer s.mu.Unlock()
	s.from = sum
}

func (s *Stage) manifest() Manifest {
	files := slices.Clone(s.files)
	slices.SortFunc(files, func(a, b File) int { return cmp.Compare(a.Address, b.Address) })
	return Manifest{
		Format: manifestFormat, Generator: s.plan.Generator, Guide: s.plan.Name,
		Edition: s.plan.Edition, Date: s.plan.Date, From: s.from, Files: files,
	}
}

// Write notes one file and writes it into the stage. A file that the old site holds with the same
// bytes is carried over with its time. An address already taken is noted and not written. After
// an error the stage can only be closed.
func (s *Stage) Write(address string, data []byte) error {
	err := s.inFull(s.write(address, data))
	if err != nil {
		s.mu.Lock()
		defer s.mu.Unlock()
		s.err = cmp.Or(s.err, err)
	}
	return err
}

func (s *Stage) write(address string, data []byte) error {
	if !fs.ValidPath(address) || address == "." || strings.HasPrefix(address, ManifestName) || strings.ContainsRune(address, '\\') {
		return fmt.Errorf("%q can't be an address in a site", address)
	}
	if !s.Note(address, data) {
		return nil
	}
	if err := s.step("write " + address); err != nil {
		return err
	}
	if err := s.makeDir(path.Dir(address)); err != nil {
		return err
	}
	if err := s.carry(address, data); err != nil {
		return err
	}
	s.mu.Lock()
	defer s.mu.Unlock()
	s.files = append(s.files, fileOf(address, data))
	return nil
}

func (s *Stage) makeDir(dir string) error {
	s.mu.Lock()
	defer s.mu.Unlock()
	if s.dirs[dir] {
		return nil
	}
	if err := s.root.MkdirAll(path.Join(s.stage, dir), 0o755); err != nil {
		return err
	}
	s.dirs[dir] = true
	return nil
}

// carry links to the old site's file if it has the same bytes, else writes them. The old bytes are
// read: a manifest doesn't know what was done to a file since.
func (s *Stage) carry(address string, data []byte) error {
	old := path.Join(s.target, address)
	info, err := s.root.Lstat(old)
	if err != nil || !info.Mode().IsRegular() || info.Size() != int64(len(data)) {
		return s.create(address, data)
	}
	if was, err := s.root.ReadFile(old); err != nil || !bytes.Equal(was, data) {
		return s.create(address, data)
	}
	now := path.Join(s.stage, address)
	if s.root.Link(old, now) == nil {
		return nil
	}
	// Sticks have no hard links.
	if err := s.create(address, data); err != nil {
		return err
	}
	return s.root.Chtimes(now, info.ModTime(), info.ModTime())
}

func (s *Stage) create(address string, data []byte) error {
	f, err := s.root.OpenFile(path.Join(s.stage, address), os.O_WRONLY|os.O_CREATE|os.O_EXCL, 0o644)
	if err != nil {
		return err
	}
	_, err = f.Write(data)
	if err == nil && syncEach {
		err = f.Sync()
	}
	return errors.Join(err, f.Close())
}

// inFull names whole paths in an error of os.Root, which knows them only from its own folder.
func (s *Stage) inFull(err error) error {
	full := func(name string) string {
		if name == "" || filepath.IsAbs(name) {
			return name
		}
		return filepath.Join(s.parent, name)
	}
	var one *os.PathError
	if errors.As(err, &one) {
		one.Path = full(one.Path)
	}
	var two *os.LinkError
	if errors.As(err, &two) {
		two.Old, two.New = full(two.Old), full(two.New)
	}
	return err
}

// Close gives up a stage that was not swapped: everything it made is removed, and the target is
// as it was. After a swap it only lets the next run in.
func (s *Stage) Close() error {
	var err error
	if s.root != nil {
		if s.begun && !s.swapped {
			err = s.inFull(s.clear(s.stage))
		}
		s.root.Close()
		s.root = nil
	}
	if s.unlock != nil {
		s.unlock()
		s.unlock = nil
	}
	if !s.swapped {
		for _, dir := range slices.Backward(s.made) {
			os.Remove(dir) // fails, rightly, once somebody else put something there
		}
	}
	return err
}

// Dir is the folder that the site is being staged in, for those who read what was written so far.
func (s *Stage) Dir() string { return filepath.Join(s.parent, s.stage) }
