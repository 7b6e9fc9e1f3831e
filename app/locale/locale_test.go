package locale

import (
	"fmt"
	"testing"
	"time"

	"skep/calc/quantity"
)

// The marks, papers and days are those of Unicode CLDR.
func TestOf(t *testing.T) {
	t.Parallel()
	type env = map[string]string
	for name, c := range map[string]struct {
		env    env
		system []string
		want   string
	}{
		"nothing":          {env{}, nil, "en-GB point A4 Monday SG"},
		"German":           {env{}, []string{"de-DE"}, "de-DE comma A4 Monday °P"},
		"Swiss":            {env{}, []string{"de-CH"}, "de-CH point A4 Monday °P"},
		"Polish":           {env{}, []string{"pl"}, "pl comma A4 Monday °P"},
		"US":               {env{}, []string{"en-US"}, "en-US point letter Sunday SG"},
		"chosen":           {env{Variable: "pl"}, []string{"en-US"}, "pl comma A4 Monday °P"},
		"a number apart":   {env{"LC_NUMERIC": "de_DE.UTF-8"}, []string{"en-US"}, "en-US comma letter Sunday SG"},
		"paper apart":      {env{"LC_PAPER": "en_GB.UTF-8", "LC_TIME": "ar_EG.UTF-8"}, []string{"en-US"}, "en-US point A4 Saturday SG"},
		"C is no language": {env{"LC_NUMERIC": "C", Variable: "C"}, []string{"pl-PL"}, "pl-PL comma A4 Monday °P"},
		"nonsense":         {env{Variable: "!"}, []string{"??"}, "en-GB point A4 Monday SG"},
	} {
		t.Run(name, func(t *testing.T) {
			t.Parallel()
			l := of(func(k string) string { return c.env[k] }, c.system)
			mark, paper, gravity := "point", "A4", "SG"
			if l.Units.DecimalComma {
				mark = "comma"
			}
			if l.Letter {
				paper = "letter"
			}
			if l.Units.Gravity == quantity.Plato {
				gravity = "°P"
			}
			if got := fmt.Sprint(l.Languages[0], " ", mark, " ", paper, " ", l.FirstDay, " ", gravity); got != c.want {
				t.Errorf("got %s, want %s", got, c.want)
			}
		})
	}
	if of(func(string) string { return "" }, []string{"ar-EG"}).FirstDay != time.Saturday {
		t.Error("Egypt")
	}
}
