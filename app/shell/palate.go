package shell

import (
	"skep/app/userfile"
	"skep/calc"
	"skep/calc/glasstest"
	"skep/calc/learn"
)

// Glasses are the person's blind tastings as their file has them.
func (s *Shell) Glasses() (userfile.Glasses, error) { return userfile.LoadGlasses(s.OwnFolder) }

// KeepGlasses writes more of them down, from which on the palate is another.
func (s *Shell) KeepGlasses(pairs []userfile.GlassPair, triangles []userfile.GlassTriangle) error {
	g, err := userfile.AddGlasses(s.OwnFolder, pairs, triangles)
	if err != nil {
		return err
	}
	s.palate = hear(&g)
	s.Post()
	return nil
}

// Palate is what the glass test has told, whether it is used or not. It is read
// when it is first asked for.
func (s *Shell) Palate() glasstest.Palate {
	if s.palate == nil {
		g, err := s.Glasses()
		if err != nil {
			g = userfile.Glasses{} // the Ledger says what is wrong with the file
		}
		s.palate = hear(&g)
	}
	return *s.palate
}

func hear(g *userfile.Glasses) *glasstest.Palate {
	p := glasstest.Hear(g.Pairs())
	return &p
}

// palateUsed is what predictions are made with; nil: a stranger's palate.
func (s *Shell) palateUsed() *glasstest.Palate {
	if p := s.Palate(); p.Pairs > 0 && !s.LessonOff(learn.GlassTest) {
		return &p
	}
	return nil
}

// tasted puts a palate into the doubts. Where beers were tasted and given a number,
// that lesson holds the palate's part already: the less of its doubt is left, the
// less the glass test moves.
func tasted(x calc.Doubts, lessons learn.Doubts, p *glasstest.Palate) calc.Doubts {
	if p == nil {
		return x
	}
	share := 1.0
	if x.SweetShare > 0 {
		share = x.SweetShare
	}
	x.MaltSweet = calc.Score{Mean: share * p.Malt.Mean, SD: p.Malt.SD}
	x.AlcoholFull = calc.Score{Mean: share * p.Alcohol.Mean, SD: p.Alcohol.SD}
	if lessons.Body.Known {
		x.AlcoholFull.Mean = 0
	}
	return x
}
