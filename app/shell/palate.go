package shell

import (
	"skep/app/disk"
	"skep/app/userfile"
	"skep/app/words"
	"skep/calc/glasstest"
	"skep/calc/learn"
)

// glasses are the person's blind tastings as they were read last.
type glasses struct {
	all    userfile.Glasses
	err    error
	palate glasstest.Palate
}

func hear(all userfile.Glasses, err error) glasses {
	return glasses{all, err, glasstest.Hear(all.Pairs())}
}

// Glasses are the person's blind tastings as they were read last, or what is wrong
// with their file.
func (s *Shell) Glasses() (userfile.Glasses, error) {
	return s.glasses.all, s.glasses.err
}

// ReadGlasses reads them; from then on the palate is another.
func (s *Shell) ReadGlasses(then func()) {
	folder := s.OwnFolder
	s.disk.Ask(disk.Own, words.T("Reading {file}…", userfile.GlassesIn(folder)), func() func() {
		all, err := userfile.LoadGlasses(folder)
		if err != nil {
			all = userfile.Glasses{}
		}
		return func() {
			s.glasses = hear(all, err)
			then()
		}
	})
}

// KeepGlasses writes more of them down, from which on the palate is another.
func (s *Shell) KeepGlasses(pairs []userfile.GlassPair, triangles []userfile.GlassTriangle, then func(error)) {
	folder := s.OwnFolder
	s.disk.Ask(disk.Own, words.T("Writing {file}…", userfile.GlassesIn(folder)), func() func() {
		all, err := userfile.AddGlasses(folder, pairs, triangles)
		return func() {
			if err == nil {
				s.glasses = hear(all, nil)
				s.Post()
			}
			then(err)
		}
	})
}

// Palate is what the glass test has told, whether it is used or not; a stranger's
// until the tastings are read.
func (s *Shell) Palate() glasstest.Palate {
	return s.glasses.palate
}

// palateUsed is what predictions are made with; nil: a stranger's palate.
func (s *Shell) palateUsed() *glasstest.Palate {
	if p := s.Palate(); p.Pairs > 0 && !s.LessonOff(learn.GlassTest) {
		return &p
	}
	return nil
}
