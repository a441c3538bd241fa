package linkage

import (
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

// EA is 100 D^2/G, worked out by hand from the figures G that a rope maker's
// technical table has of elastic stretch, percent = W G/D^2 (read, one page of one
// maker; nothing else was found to hold it against): 1.40e-5 and 1.07e-5 of 7x19 and
// 7x7 galvanized, 1.62e-5 and 1.20e-5 of stainless. It checks the reckoning; of the
// table there is no second source.
func TestWireStretch(t *testing.T) {
	for name, ea := range map[string]float64{
		"7x19 1/8 galvanized":  111_600,
		"7x7 1/8 galvanized":   146_000,
		"7x19 1/8 stainless":   96_450,
		"7x7 3/32 stainless":   73_240,
		"7x19 3/16 galvanized": 251_100,
		"7x19 5/32 stainless":  150_700,
	} {
		wire, err := ParseWire(name)
		require.NoError(t, err, name)
		assert.InEpsilon(t, ea, wire.EA(), 0.2e-3, name)
	}
	// Of a wire of 1000 lbf a hundredth part of its length: 1.12 lbf to the 10 in.
	wire, err := ParseWire("7x19 1/8 galvanized")
	require.NoError(t, err)
	assert.InEpsilon(t, 11_160, wire.Stiffness(10, Inches), 0.1e-3)
	// 1 lbf per in is 0.1751268 N per mm: 4.4482216152605/25.4, both exact by the
	// definitions of the pound of force and the inch.
	assert.InEpsilon(t, 0.1751268*wire.Stiffness(10, Inches), wire.Stiffness(254, Millimeters), 1e-6)
}

// What a cable stretches at 60 percent of what it breaks at is no more than it may
// be: 1.5 percent (MIL-DTL-18375H, 4.5.4; read), whatever its size.
func TestWiresStretchLessThanTheyMay(t *testing.T) {
	for _, size := range wireSizes {
		for _, finish := range finishes {
			wire, err := ParseWire("7x19 " + size.name + " " + finish)
			require.NoError(t, err)
			breaks, known := wire.Breaking()
			require.True(t, known)
			assert.Less(t, 100*0.6*breaks/wire.EA(), 1.5, size.name)
		}
	}
}

// Breaking strengths of FAA AC 43.13-1B, table 7-3 (read).
func TestWireBreaks(t *testing.T) {
	for name, force := range map[string]float64{"7x19 3/32 galvanized": 1000, "7x19 3/32 stainless": 920, "7x19 1/8 galvanized": 2000, "7x19 1/8 stainless": 1760,
		"7x19 5/32 galvanized": 2800, "7x19 5/32 stainless": 2400, "7x19 3/16 galvanized": 4200, "7x19 3/16 stainless": 3700} {
		wire, err := ParseWire(name)
		require.NoError(t, err)
		breaks, known := wire.Breaking()
		assert.True(t, known)
		assert.Equal(t, force, breaks, name)
		assert.Equal(t, name, wire.String())
	}
	wire, err := ParseWire("7x7 1/8 galvanized")
	require.NoError(t, err)
	_, known := wire.Breaking()
	assert.False(t, known, "no figure was read")
}

// A galvanized 1/8 in 7x19 cable in a rigid 6061 structure gains 7.4 lbf for each
// 10 degrees F, whatever its length. That is worked out by hand from the stretch
// above and expansions of 6.5e-6 and 13.1e-6 a degree F (appendix of a text on the
// mechanics of materials; read, its title was not noted): it checks the reckoning,
// and is no outside figure of a tension.
func TestWireExpands(t *testing.T) {
	wire, err := ParseWire("7x19 1/8 galvanized")
	require.NoError(t, err)
	cable, known := wire.Expansion()
	require.True(t, known)
	airframe, known := (&Run{Airframe: Aluminum}).AirframeExpansion()
	require.True(t, known)
	assert.InDelta(t, 7.4, wire.EA()*(airframe-cable)*10, 0.05)
	steel, known := (&Run{Airframe: Steel}).AirframeExpansion()
	assert.True(t, known)
	assert.Equal(t, cable, steel)
	_, known = (&Run{}).AirframeExpansion()
	assert.False(t, known)
	stainless, err := ParseWire("7x19 1/8 stainless")
	require.NoError(t, err)
	_, known = stainless.Expansion()
	assert.False(t, known)
}

func TestFaultyWires(t *testing.T) {
	for name, says := range map[string]string{
		"":                            `is no wire: one is written "7x19 1/8 galvanized"`,
		"1/8":                         "is no wire",
		"7x19 1/8":                    "is no wire",
		"7x19 1/8 galvanized coated":  `did you mean "7x19 1/8 galvanized"?`,
		"galvanized 7x19 1/8":         `did you mean "7x19 1/8 galvanized"?`,
		"7X19 1/8 galvanized":         `did you mean "7x19 1/8 galvanized"?`,
		"7×7 5/32 stainless":          `did you mean "7x7 5/32 stainless"?`,
		"7x19 .125 Stainless":         `did you mean "7x19 1/8 stainless"?`,
		"7x19 0.156 corrosion-proof":  `did you mean "7x19 5/32 stainless"?`,
		"6x19 1/8 galvanized":         `of construction "6x19": there are 7x19 or 7x7`,
		"7x19 1/16 galvanized":        `"1/16" is no size of wire that figures are known of: in inches there are 3/32, 1/8, 5/32 or 3/16`,
		"7x19 1/8 brass":              `"brass" is nothing that a wire is made of: it is galvanized or stainless`,
		"7x19 1/8 galvanized\x00":     `did you mean "7x19 1/8 galvanized"?`,
		"\xff\xfe":                    "is no wire",
		"7x19 3 mm galvanized":        "is no wire",
		"7x7x7 1/8 1/8/8 galvanized!": "is no wire",
	} {
		wire, err := ParseWire(name)
		assert.Nil(t, wire, name)
		assert.ErrorContains(t, err, says, name)
	}
	wire, err := ParseWire("  7x7   3/32\tstainless ")
	require.NoError(t, err)
	assert.Equal(t, Wire{"7x7", 3.0 / 32, true}, *wire)
}

// Whatever is written, a wire has figures, and what is suggested is a wire.
func FuzzParseWire(f *testing.F) {
	for _, name := range []string{"7x19 1/8 galvanized", "7x7 3/32 stainless", "1/8 7x19", "7 x 19, .125, galv", "", "\xff"} {
		f.Add(name)
	}
	f.Fuzz(func(t *testing.T, name string) {
		wire, err := ParseWire(name)
		if err != nil {
			require.Nil(t, wire)
			require.NotEmpty(t, err.Error())
			return
		}
		require.Positive(t, wire.EA())
		require.Positive(t, wire.Stiffness(1, Millimeters))
	})
}
