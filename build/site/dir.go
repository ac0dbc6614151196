package site

import "path/filepath"

// Dir is the folder that the site is being staged in, for those who read what was written so far.
func (s *Stage) Dir() string { return filepath.Join(s.parent, s.stage) }
