package main

import (
	"encoding/json"
	"os"
	"path/filepath"
	"strings"
	"testing"

	"fullfree/cmd/internal/calls"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

// hangar is a copy of an aircraft in testdata, to be changed.
func hangar(t *testing.T, of string) string {
	t.Helper()
	folder := t.TempDir()
	require.NoError(t, os.CopyFS(folder, os.DirFS("../../testdata/aircraft/"+of)))
	return folder
}

func TestCheckOfAnAircraftForMachines(t *testing.T) {
	told := fullfree("", "check", "../../testdata/aircraft/split3/aircraft.hcl", "--json")
	require.Equal(t, exitOK, told.status, told.err)
	var out struct {
		Schema   string
		Aircraft string
		Units    *string
		Runs     []struct{ Name, File, SHA256, Units string }
		Sweeps   []struct {
			Parts, Outputs, Rods, Stops []struct{ Name, Run string }
		}
		Requirements []map[string]any
	}
	require.NoError(t, json.Unmarshal([]byte(told.out), &out))
	assert.Equal(t, "fullfree.check/1", out.Schema)
	assert.Equal(t, "Chain", out.Aircraft)
	assert.Nil(t, out.Units)
	require.Len(t, out.Runs, 3)
	assert.Equal(t, "in", out.Runs[1].Units)
	text, err := os.ReadFile("../../testdata/aircraft/split3/" + out.Runs[1].File)
	require.NoError(t, err)
	assert.Equal(t, calls.HashOf(text), out.Runs[1].SHA256)
	for _, list := range [][]struct{ Name, Run string }{out.Sweeps[0].Parts, out.Sweeps[0].Outputs, out.Sweeps[0].Rods, out.Sweeps[0].Stops} {
		require.NotEmpty(t, list)
		for _, one := range list {
			assert.Regexp(t, "^"+one.Run+`\.`, one.Name)
		}
	}
	across := 0
	for _, q := range out.Requirements {
		run, told := q["run"]
		require.True(t, told, "the run of each requirement is told")
		if run == nil {
			across++
		}
	}
	assert.Positive(t, across)
	assert.Less(t, across, len(out.Requirements))

	alone := fullfree("", "check", "../../testdata/aircraft/split3/front.hcl", "--json")
	assert.NotContains(t, alone.out, `"aircraft"`)
	assert.Contains(t, alone.out, `"units": "mm"`)
}

// A setting reaches into a run, and what is wrong with it is told as it was given.
func TestASettingReachesIntoARunOfAnAircraft(t *testing.T) {
	const file = "../../testdata/aircraft/split2/aircraft.hcl"
	filed := fullfree("", "sweep", file, "--csv", "--steps", "1")
	set := fullfree("", "sweep", file, "--csv", "--steps", "1", "--set", "front.floor-rod.length=246")
	require.Equal(t, exitOK, set.status, set.err)
	assert.NotEqual(t, filed.out, set.out)
	for given, said := range map[string]string{
		"frnt.floor-rod.length=1":     `there is no run "frnt"; did you mean "front.floor-rod.length"?`,
		"floor-rod.length=1":          `there is no run "floor-rod"`,
		"front.flor-rod.length=1":     `--set front.flor-rod.length=1: the file has no dimension "flor-rod.length"; did you mean "floor-rod.length"?`,
		"front.floor-rod.length=wide": "--set front.floor-rod.length=wide:",
	} {
		refused := fullfree("", "check", file, "--set", given)
		assert.Equal(t, exitFailed, refused.status)
		assert.Contains(t, refused.err, said)
	}
}

// Nothing outside of the folder of the aircraft is opened, whatever links lead there.
func TestAnAircraftOpensNothingOutsideItsFolder(t *testing.T) {
	folder := hangar(t, "split2")
	outside := filepath.Join(t.TempDir(), "rear.hcl")
	text, err := os.ReadFile(filepath.Join(folder, "rear.hcl"))
	require.NoError(t, err)
	require.NoError(t, os.WriteFile(outside, text, 0o600))
	require.NoError(t, os.Remove(filepath.Join(folder, "rear.hcl")))
	require.NoError(t, os.Symlink(outside, filepath.Join(folder, "rear.hcl")))
	refused := fullfree("", "check", filepath.Join(folder, "aircraft.hcl"))
	assert.Equal(t, exitFailed, refused.status)
	assert.Contains(t, refused.err, "can't read")
	require.NoError(t, os.Remove(filepath.Join(folder, "rear.hcl")))
	require.NoError(t, os.Mkdir(filepath.Join(folder, "rear.hcl"), 0o700))
	refused = fullfree("", "check", filepath.Join(folder, "aircraft.hcl"))
	assert.Equal(t, exitFailed, refused.status)
	assert.Contains(t, refused.err, "it is a folder")
}

// What rig finds is written into the file of the run that it is of, and into no other.
func TestRigWritesIntoTheRunOfAnAircraft(t *testing.T) {
	folder := hangar(t, "split2")
	aircraft := filepath.Join(folder, "aircraft.hcl")
	front := filepath.Join(folder, "front.hcl")
	text, err := os.ReadFile(front)
	require.NoError(t, err)
	text = []byte(strings.Replace(string(text), "length = 244.3", "length = 250.3", 1))
	require.NoError(t, os.WriteFile(front, text, 0o600))
	require.Equal(t, exitShort, fullfree("", "check", aircraft).status)
	rear, err := os.ReadFile(filepath.Join(folder, "rear.hcl"))
	require.NoError(t, err)
	found := fullfree("", "rig", aircraft, "--write")
	require.Equal(t, exitOK, found.status, found.out+found.err)
	now, err := os.ReadFile(front)
	require.NoError(t, err)
	after, err := os.ReadFile(filepath.Join(folder, "rear.hcl"))
	require.NoError(t, err)
	assert.True(t, string(now) != string(text) || string(after) != string(rear), found.out)
	checked := fullfree("", "check", aircraft)
	assert.Equal(t, exitOK, checked.status, checked.out)
	names, err := os.ReadDir(folder)
	require.NoError(t, err)
	assert.Len(t, names, 3, "nothing but the three files is left")
}

// Every command takes an aircraft where it takes a run.
func TestCommandsTakeAnAircraft(t *testing.T) {
	const file = "../../testdata/aircraft/split2/aircraft.hcl"
	for _, args := range [][]string{
		{"check", file}, {"check", file, "--full"}, {"sweep", file}, {"sweep", file, "--csv"}, {"sweep", file, "--json"},
		{"effect", file}, {"effect", file, "--full"}, {"effect", file, "--json"}, {"rods", file}, {"rods", file, "--json"},
		{"rig", file}, {"fail", file}, {"survey", file}, {"survey", file, "--json"},
		{"compare", file, "--with", "front.floor-rod.from=+1"}, {"compare", file, "--with", "front.floor-rod.from=+1", "--json"},
	} {
		told := fullfree("", args...)
		assert.Equal(t, exitOK, told.status, "%v: %s", args, told.err)
		assert.NotEmpty(t, told.out, args)
		assert.NotContains(t, told.out, "%!", args)
	}
}

// A blade read against the pedals of another run is diagnosed through both.
func TestReadingsOfABladeAgainstAnotherRun(t *testing.T) {
	folder := hangar(t, "split2")
	aircraft := filepath.Join(folder, "aircraft.hcl")
	text, err := os.ReadFile(aircraft)
	require.NoError(t, err)
	// As a rod of the front made up 1.5 mm too long would have it.
	swept := fullfree("", "sweep", aircraft, "--json", "--steps", "4", "--set", "front.floor-rod.length=245.8")
	require.Equal(t, exitOK, swept.status, swept.err)
	var out struct {
		Columns []struct{ Name string }
		Rows    [][]float64
	}
	require.NoError(t, json.Unmarshal([]byte(swept.out), &out))
	angle := -1
	for i, c := range out.Columns {
		if c.Name == "rear.angle" {
			angle = i
		}
	}
	require.Positive(t, angle)
	var readings [][2]float64
	for _, row := range out.Rows {
		readings = append(readings, [2]float64{row[0], row[angle]})
	}
	list, err := json.Marshal(readings)
	require.NoError(t, err)
	text = append(text, "\nmeasured \"first\" {\n  of       = rear.angle\n  control  = front.hand\n  readings = "+string(list)+"\n  within   = 0.2\n}\n"...)
	require.NoError(t, os.WriteFile(aircraft, text, 0o600))
	told := fullfree("", "diagnose", aircraft, "--json")
	require.Equal(t, exitOK, told.status, told.err)
	assert.Contains(t, told.out, `"front.floor-rod.length"`)
}
