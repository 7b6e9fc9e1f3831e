package app

func (p *fermentPlace) pasteCSV() {}
func (p *fermentPlace) openCSV()  {}
