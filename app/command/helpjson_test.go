package command

import (
	"bytes"
	"encoding/json"
	"path/filepath"
	"slices"
	"strings"
	"testing"

	"skep/app/command/document"
	"skep/assets"
	"skep/calc/message"
)

// keysOf are the keys of a JSON object in their order.
func keysOf(t *testing.T, text []byte) (keys []string) {
	t.Helper()
	d := json.NewDecoder(bytes.NewReader(text))
	if _, err := d.Token(); err != nil {
		t.Fatalf("%v in %.200s", err, text)
	}
	for d.More() {
		key, err := d.Token()
		if err != nil {
			t.Fatal(err)
		}
		keys = append(keys, key.(string))
		var value json.RawMessage
		if err := d.Decode(&value); err != nil {
			t.Fatal(err)
		}
		if string(value) == "null" && keys[len(keys)-1] != "hours" { // before pitching there are none
			t.Errorf("%s is null", key)
		}
	}
	return keys
}

// What --json prints is what help json describes: the schema first, then every key
// in its order, but for those that may be left out.
func TestEveryObjectIsAsHelpDescribesIt(t *testing.T) {
	t.Parallel()
	src, err := assets.Demo(assets.DemoMiddle)
	if err != nil {
		t.Fatal(err)
	}
	folder := t.TempDir()
	args := map[string]string{
		"check": "check - --json", "predict": "predict - --json", "compare": "compare - --json", "course": "course - --json",
		"sweep": "sweep - honey.0.mass_kg 0 1 3 --json", "tune": "tune - --json", "explain": "explain - dryness --json",
		"start": "start title=Hedge --json -o " + filepath.Join(folder, "hedge.toml"), "follow": "follow - --json",
		"batches": "batches --json " + folder, "learnt": "learnt --json " + folder,
		"kit": "kit Kettle vessel_l=18 --json", "kit without a name": "kit --json", "catalogue": "catalogue --json",
	}
	var seen []string
	for _, o := range objects() {
		var out, says bytes.Buffer
		todo := Run(strings.Fields(args[strings.TrimSpace(o.Command+" "+o.When.String())]), Streams{bytes.NewReader(src), &out, &says, folder})
		if todo.Code != Done {
			t.Errorf("%s: exit %d, %s", o.Command, todo.Code, says.String())
			continue
		}
		var want []string
		optional := map[string]bool{}
		for _, l := range document.Describe(o) {
			if l.Depth == 0 {
				want = append(want, l.Key)
				optional[l.Key] = strings.Contains(l.Kind.String(), "left out")
			}
		}
		got := keysOf(t, out.Bytes())
		if len(got) == 0 || got[0] != "schema" || !strings.HasPrefix(out.String(), "{\n  \"schema\": 1,") {
			t.Errorf("%s: does not begin with its schema: %.60s", o.Command, out.String())
			continue
		}
		want = slices.DeleteFunc(want, func(key string) bool { return optional[key] && !slices.Contains(got, key) })
		if !slices.Equal(got[1:], want) {
			t.Errorf("%s: keys\n%v\ndescribed\n%v", o.Command, got[1:], want)
		}
		seen = append(seen, strings.Fields(o.Command)[0])
	}
	// Every command with the flag is described, and every command but plot and sheet
	// (files) and help has it.
	p, err := parser(&grammar{}, &session{}, message.Message.String)
	if err != nil {
		t.Fatal(err)
	}
	for _, c := range p.Model.Children {
		has := false
		for _, f := range c.Flags {
			has = has || f.Name == "json"
		}
		if want := !slices.Contains([]string{"plot", "sheet", "help"}, c.Name); has != want {
			t.Errorf("%s: --json %v, want %v", c.Name, has, want)
		}
		if has && c.Name != "reckon" && !slices.Contains(seen, c.Name) && !slices.Contains(seen, c.Name+",") {
			t.Errorf("%s has --json, and help json does not describe it", c.Name)
		}
	}
	var out bytes.Buffer
	if todo := Run([]string{"help", "json"}, Streams{nil, &out, &out, ""}); todo.Code != Done {
		t.Fatal(out.String())
	}
	for _, want := range []string{"\npredict\n", "  final_gravity_sg ", "  findings ", "    severity ", "error or warning", "  yeast_stress ", "    risk "} {
		if !strings.Contains(out.String(), want) {
			t.Errorf("help json does not say %q:\n%s", want, out.String())
		}
	}
}
