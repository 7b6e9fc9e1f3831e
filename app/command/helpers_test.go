package command_test

import (
	"testing"

	"github.com/BurntSushi/toml"
)

func decodeTOML(t *testing.T, path string, into any) {
	t.Helper()
	if _, err := toml.DecodeFile(path, into); err != nil {
		t.Fatal(err)
	}
}
