package render

import (
	"testing"

	"github.com/stretchr/testify/assert"

	"fullfree/linkage"
	"fullfree/solve/photo"
)

// How far something may be out is no figure for the 64th of an inch.
func TestUncertainHasTwoDigits(t *testing.T) {
	for _, one := range []struct {
		v    float64
		unit linkage.Unit
		want string
	}{
		{11.078, linkage.Inches, "12 in"}, {1.4531, linkage.Inches, "1.5 in"}, {0.731, linkage.Inches, "0.74 in"},
		{96.8, linkage.Inches, "97 in"}, {118.9, linkage.Inches, "120 in"}, {2457, linkage.Millimeters, "2500 mm"},
		{10, linkage.Millimeters, "10 mm"}, {0.05, linkage.Millimeters, "0.050 mm"}, {0, linkage.Millimeters, "0 mm"},
	} {
		assert.Equal(t, one.want, uncertain(one.v, one.unit))
	}
}

// A level that is off by a quarter of a turn is most often right, and the photo on its side.
func TestPhotoOnItsSideIsThoughtOf(t *testing.T) {
	assert.Contains(t, PhotoTroubleSays(&photo.Error{Reason: photo.Disagrees, Of: photo.OfLevel}), "the right way up")
	assert.NotContains(t, PhotoTroubleSays(&photo.Error{Reason: photo.Disagrees, Of: photo.OfTape}), "the right way up")
}

// Where the camera stood is told as well as it is known, and not at all where it isn't.
func TestPhotoTellsTheDistanceAsItIsKnown(t *testing.T) {
	places := func(away, sigma float64) *photo.Places {
		return &photo.Places{Away: away, AwaySigma: sigma, Largest: 1}
	}
	_, said := PhotoSays(places(148.89, 7.37), linkage.Inches, []string{"one"}, 0, true)
	assert.Contains(t, said, "The camera was about 149 in away, to 15 in either way.")
	_, said = PhotoSays(places(2457.3, 130), linkage.Millimeters, []string{"one"}, 0, true)
	assert.Contains(t, said, "The camera was about 2460 mm away, to 260 mm either way.")
	_, said = PhotoSays(places(123.3, 59.5), linkage.Inches, []string{"one"}, 0, false)
	for _, words := range said {
		assert.NotContains(t, words, "The camera was")
	}
	assert.Contains(t, said, "Tell how far the camera was, and the depths count for less.")
}
