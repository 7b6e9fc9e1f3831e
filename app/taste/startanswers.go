package taste

import (
	"skep/app/begin"
	"skep/app/ui"
	"skep/app/ui/picker"
	"skep/app/words"
	"skep/calc/design"
	"skep/calc/quantity"
	"skep/calc/start"
)

// What each question of the card understands.

func (c *startCard) readTitle(text string) error {
	c.answers.Title = text
	return nil
}

func (c *startCard) readKit(text string) error {
	lim, _ := design.KeyOf("kit.vessel_l")
	k, err := c.choices.Kit(text, func(text string) (float64, error) {
		r, err := c.b.Read().Parse(quantity.Volume, text, ui.LimitsOf(lim))
		return r.Value, err
	})
	if err != nil {
		return err
	}
	c.takeKit(k)
	return nil
}

func (c *startCard) takeKit(k design.KitFile) {
	c.kit = k
	c.choices.SetKit(&c.answers, k)
}

func (c *startCard) readLitres(text string) error {
	k, _ := design.KeyOf("batch.into_fermenter_l")
	return c.number(quantity.Volume, text, ui.LimitsOf(k), &c.answers.LitresL)
}

func (c *startCard) readHoney(text string) error { return c.choices.SetHoney(&c.answers, text) }

func (c *startCard) readHoneyMass(text string) error {
	k, _ := design.KeyOf("honey.0.mass_kg")
	return c.number(quantity.MassKg, text, ui.LimitsOf(k), &c.answers.Honey.MassKg)
}

func (c *startCard) readYeast(text string) error {
	if text == words.T("find one") {
		text = begin.FindOne
	}
	return c.choices.SetYeast(&c.answers, text)
}

func (c *startCard) readStrength(text string) error {
	return c.number(quantity.Strength, text, quantity.Limits{Low: start.LeastStrengthPct, High: start.MostStrengthPct}, &c.answers.StrengthPct)
}

func (c *startCard) number(kind quantity.Kind, text string, lim quantity.Limits, into *float64) error {
	r, err := c.b.Read().Parse(kind, text, lim)
	if err == nil {
		*into = r.Value
	}
	return err
}

// pick offers a list for a field; what is taken goes into it, and the next
// question has the keyboard.
func (c *startCard) pick(e *ui.Entry, title string, names []string, figures func(i int) string) {
	var items []picker.Item
	for i, name := range names {
		items = append(items, picker.Item{Name: name, Figures: figures(i), Take: func() {
			e.SetText(name)
			e.OnSubmitted(name)
		}})
	}
	picker.New(c.b, title, words.T("search"), items).Show()
}

func (c *startCard) pickKit() {
	var names []string
	for i := range c.choices.Kits {
		names = append(names, c.choices.Kits[i].Name())
	}
	if len(names) == 0 {
		c.say(words.T("No kit is kept yet: type how much the kettle holds, and it becomes the first."), false)
		return
	}
	c.pick(c.kitName, words.T("Your kits"), names, func(i int) string {
		return c.b.Say().Format(quantity.Volume, c.choices.Kits[i].Kit.VesselL)
	})
}

func (c *startCard) pickHoney() {
	var names []string
	for _, h := range c.choices.Honey {
		names = append(names, h.Name)
	}
	c.pick(c.honey, words.T("Honey at hand"), names, func(i int) string {
		return words.T("{moisture} water", c.b.Say().Format(quantity.Percent, c.choices.Honey[i].MoisturePct))
	})
}

func (c *startCard) pickYeast() {
	names := []string{words.T("find one")}
	for _, y := range c.choices.Yeast {
		names = append(names, y.Name)
	}
	c.pick(c.yeast, words.T("Yeast at hand"), names, func(i int) string {
		if i == 0 {
			return words.T("the one that lands nearest")
		}
		y := c.choices.Yeast[i-1]
		return c.b.Say().FormatRange(quantity.Percent, y.AttenuationLowPct, y.AttenuationHighPct)
	})
}
