package command_test

import (
	"os/exec"
	"testing"

	"github.com/BurntSushi/toml"
)

// start runs the built program to its end.
func start(args ...string) error { return exec.Command(skep, args...).Run() }

func decodeTOML(t *testing.T, path string, into any) {
	t.Helper()
	if _, err := toml.DecodeFile(path, into); err != nil {
		t.Fatal(err)
	}
}
