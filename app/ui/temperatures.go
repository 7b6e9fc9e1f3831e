package ui

import (
	"time"

	"skep/calc/lever"
)

// pictureStepC is how far apart the points of a picture against the mash rest
// are: at half a degree a line of 29 points bends less than a pixel between
// them.
const pictureStepC = 0.5

// PictureTemperaturesC are the temperatures of such a picture.
func PictureTemperaturesC() (list []float64) {
	for t := lever.RestLowC; t <= lever.RestHighC+1e-9; t += pictureStepC {
		list = append(list, t)
	}
	return list
}

// FrameTime is one frame of the screen's.
const FrameTime = time.Second / 60
