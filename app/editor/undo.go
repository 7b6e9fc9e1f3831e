package editor

import "skep/calc/design"

// step is one change that can be taken back.
type step struct {
	name   string
	before design.Design
	after  design.Design
}

// Change alters the design as one step of undo. Steps of one gesture (a drag,
// a burst of key presses) merge as long as EndGesture is not called and the
// gesture's name stays; an empty gesture always stands alone. A change that
// makes something wrong is refused and nothing changes.
func (e *Editor) Change(name, gesture string, alter func(*design.Design)) error {
	next := e.now.Clone()
	alter(&next)
	if next.Like(&e.now) {
		return nil
	}
	if found := next.Validate(); design.FirstError(found) != nil {
		if err := design.NewError(found, e.now.Validate()); err != nil {
			return err
		}
	}
	if last := len(e.undo) - 1; gesture != "" && gesture == e.gesture && last >= 0 {
		e.undo[last].after = next
	} else {
		e.undo = append(e.undo, step{name: name, before: e.now, after: next})
	}
	e.redo = nil
	e.gesture = gesture
	e.now = next
	e.notify()
	return nil
}

// EndGesture closes the last step: what follows is a step of its own.
func (e *Editor) EndGesture() { e.gesture = "" }

// UndoName is the step that Undo would take back; false when there is none.
func (e *Editor) UndoName() (string, bool) { return lastName(e.undo) }

// RedoName is the step that Redo would do again; false when there is none.
func (e *Editor) RedoName() (string, bool) { return lastName(e.redo) }

func lastName(steps []step) (string, bool) {
	if len(steps) == 0 {
		return "", false
	}
	return steps[len(steps)-1].name, true
}

// Undo takes the last step back.
func (e *Editor) Undo() bool {
	return e.step(&e.undo, &e.redo, func(s step) design.Design { return s.before })
}

// Redo does the last undone step again.
func (e *Editor) Redo() bool {
	return e.step(&e.redo, &e.undo, func(s step) design.Design { return s.after })
}

// step moves the last step from one list to the other, and the design to an end of it.
func (e *Editor) step(from, to *[]step, end func(step) design.Design) bool {
	last := len(*from) - 1
	if last < 0 {
		return false
	}
	s := (*from)[last]
	*from, *to = (*from)[:last], append(*to, s)
	e.now, e.gesture = end(s).Clone(), ""
	e.notify()
	return true
}
