package guide

import (
	"io/fs"
	"path"
	"strings"

	"guidegen/content"
)

type shimFolder struct {
	GuideFile, Sources, Characters, Hooks, Corrections, Acknowledged *content.File
	Species, Rivers, Dressings, Notes, Samples, Temperature          []*content.File
}

func openShim(fsys fs.FS, ps *content.Problems) (*shimFolder, error) {
	d := &shimFolder{}
	err := fs.WalkDir(fsys, ".", func(p string, e fs.DirEntry, err error) error {
		if err != nil || e.IsDir() {
			return err
		}
		b, err := fs.ReadFile(fsys, p)
		if err != nil {
			return err
		}
		f := content.NewFile(p, b)
		ps.Know(f)
		switch {
		case p == "guide.yaml":
			d.GuideFile = f
		case p == "sources.yaml":
			d.Sources = f
		case p == "characters.yaml":
			d.Characters = f
		case p == "hooks.csv":
			d.Hooks = f
		case p == "corrections.yaml":
			d.Corrections = f
		case p == "acknowledged.yaml":
			d.Acknowledged = f
		}
		put := func(dir, ext string, l *[]*content.File) {
			if path.Dir(p) == dir && strings.HasSuffix(p, ext) {
				*l = append(*l, f)
			}
		}
		put("species", ".md", &d.Species)
		put("rivers", ".yaml", &d.Rivers)
		put("dressings", ".yaml", &d.Dressings)
		put("notes", ".md", &d.Notes)
		put("samples", ".csv", &d.Samples)
		put("temperature", ".csv", &d.Temperature)
		return nil
	})
	return d, err
}
