package safetext

import "testing"

func TestWhatATerminalObeysIsGone(t *testing.T) {
	t.Parallel()
	for _, c := range []struct{ in, text, line, cell string }{
		{"Clean ale", "Clean ale", "Clean ale", "Clean ale"},
		{"é 蜂 🐝", "é 蜂 🐝", "é 蜂 🐝", "é 蜂 🐝"},
		{"a\x1b]0;owned\x07b", "a\ufffd]0;owned\ufffdb", "a\ufffd]0;owned\ufffdb", "a\ufffd]0;owned\ufffdb"},
		{"a\nb\tc", "a\nb\tc", "a b c", "a\nb\tc"},
		{"\u009b31m\x7f", "\ufffd31m\ufffd", "\ufffd31m\ufffd", "\ufffd31m\ufffd"},
		{"abc\u202egpj", "abc\ufffdgpj", "abc\ufffdgpj", "abc\ufffdgpj"},
		{"=1+2", "=1+2", "=1+2", "'=1+2"},
		{" \t@SUM(A1)", " \t@SUM(A1)", "  @SUM(A1)", "' \t@SUM(A1)"},
		{"-3 hops", "-3 hops", "-3 hops", "'-3 hops"},
	} {
		if got := Text(c.in); got != c.text {
			t.Errorf("Text(%q) = %q", c.in, got)
		}
		if got := Line(c.in); got != c.line {
			t.Errorf("Line(%q) = %q", c.in, got)
		}
		if got := Cell(c.in); got != c.cell {
			t.Errorf("Cell(%q) = %q", c.in, got)
		}
	}
}
