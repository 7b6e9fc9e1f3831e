package quiet

import (
	"maps"
	"testing"
)

func TestCorrect(t *testing.T) {
	t.Parallel()
	type env = map[string]string
	for name, c := range map[string]struct{ before, after env }{
		"unset":            {env{}, env{"LANG": plain}},
		"C":                {env{"LANG": "C"}, env{"LANG": plain}},
		"C.UTF-8":          {env{"LANG": "C.UTF-8"}, env{"LANG": plain}},
		"C.utf8":           {env{"LANG": "C.utf8"}, env{"LANG": plain}},
		"POSIX":            {env{"LANG": "POSIX"}, env{"LANG": plain}},
		"LC_ALL wins":      {env{"LC_ALL": "C", "LANG": "de_DE.UTF-8"}, env{"LC_ALL": plain, "LANG": "de_DE.UTF-8"}},
		"LC_ALL enough":    {env{"LC_ALL": "sv_SE.UTF-8"}, env{"LC_ALL": "sv_SE.UTF-8"}},
		"a person's":       {env{"LANG": "de_DE.UTF-8"}, env{"LANG": "de_DE.UTF-8"}},
		"short":            {env{"LANG": "fr"}, env{"LANG": "fr"}},
		"three letters":    {env{"LANG": "gsw_CH.UTF-8@x"}, env{"LANG": "gsw_CH.UTF-8@x"}},
		"list":             {env{"LANG": "en_GB.UTF-8", "LANGUAGE": "de:en"}, env{"LANG": "en_GB.UTF-8", "LANGUAGE": "de:en"}},
		"LANGUAGE C":       {env{"LANG": "en_GB.UTF-8", "LANGUAGE": "C"}, env{"LANG": "en_GB.UTF-8", "LANGUAGE": plain}},
		"messages alone":   {env{"LC_MESSAGES": "C"}, env{"LC_MESSAGES": plain}},
		"a number, no tag": {env{"LANG": "1"}, env{"LANG": plain}},
	} {
		t.Run(name, func(t *testing.T) {
			t.Parallel()
			got := maps.Clone(c.before)
			correct(func(k string) string { return got[k] }, func(k, v string) error { got[k] = v; return nil })
			if !maps.Equal(got, c.after) {
				t.Errorf("correct(%v) = %v, want %v", c.before, got, c.after)
			}
		})
	}
}
