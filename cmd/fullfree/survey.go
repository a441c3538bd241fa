package main

import (
	"bytes"
	"slices"

	"fullfree/linkage"
	"fullfree/render"
	"fullfree/render/machine"
	"fullfree/solve/survey"
)

func surveyCommand() *command {
	return &command{
		name:  "survey",
		usage: "FILE [--json] [--write] [--set DIMENSION=VALUE]",
		does:  "a sketched drawing adjusted to what was taped",
		more: `
Reads a run whose coordinates come from a sketch, with what was taped and gauged
on the aircraft, and finds the coordinates that fit all of it best (adjustment
by least squares, as surveyors do it): where every hole is and how sure that is,
which measurement disagrees with the rest, what nothing ties, and what to tape
next. check, sweep and draw use the adjusted drawing too. With --write the
coordinates are written into FILE, its comments kept and nothing else changed;
nothing where they are adjusted already. A line on standard error tells which.
What is mirrored, or written with a named dimension, is not written over: that
is refused, and named.

Exit status: 0, or 2 where the file is faulty or blanks are left in it.

Words: "disagrees" is by how much a measurement disagrees with all the others
(misclosure: the residual over the redundancy number); "sigmas" its residual by
the standard deviation of that; above 3 the largest is doubtful. "±" is two
standard deviations.

Examples:
  fullfree new pedals-taped > pedals-taped.hcl
  fullfree survey pedals-taped.hcl
  fullfree survey pedals-taped.hcl --json
`,
		run: adjustSurvey,
	}
}

func adjustSurvey(c *command, std streams, args []string) int {
	// The drawing is wanted as the file has it.
	in, flags, status := openToWrite(c, std, args, "write the adjusted coordinates into FILE", "", func(*input) error { return nil })
	if in == nil {
		return status
	}
	surveys, err := surveysOf(in.Run)
	if err != nil {
		return std.problem(c, err)
	}
	var out bytes.Buffer
	switch {
	case flags.json && in.Run.Aircraft != nil:
		runs := map[string]*survey.Survey{}
		for _, s := range surveys {
			runs[s.member.Name] = s.Survey
		}
		err = machine.SurveysJSON(&out, in.Run, runs)
	case flags.json:
		err = machine.SurveyJSON(&out, surveys[0].Survey)
	}
	for i, s := range surveys {
		if flags.json {
			break
		}
		if i > 0 {
			out.WriteString("\n")
		}
		if err = render.SurveyReport(&out, s.file(in), s.Survey); err != nil {
			break
		}
	}
	if err != nil {
		return std.fail(c, "%s", linkage.Printable(err.Error()))
	}
	if rest := notSurveyed(in.Run, surveys); rest != "" && !flags.json {
		out.WriteString("\n" + rest)
	}
	if flags.write {
		var changes []linkage.Change
		for _, s := range surveys {
			if own := adjusted(s.Survey); !s.Settled() {
				changes = append(changes, own...)
			}
		}
		if len(changes) > 0 {
			if err := in.rewrite(c, std, linkage.Rewrite, changes); err != nil {
				return std.problem(c, err)
			}
		}
		for _, s := range surveys {
			std.message("fullfree %s: %s\n", c.name, render.WrittenSays(s.file(in), s.Survey, len(adjusted(s.Survey))))
		}
	}
	return std.print(c, out.Bytes(), exitOK)
}

// memberSurvey is a survey, and the member of an aircraft that it is of; nil of a run by
// itself.
type memberSurvey struct {
	*survey.Survey
	member *linkage.Member
}

// file is the file that was surveyed, as the user finds it.
func (s memberSurvey) file(in *input) string {
	if s.member == nil {
		return in.Title()
	}
	return s.member.Source.Name
}

// surveysOf surveys a run, or those runs of an aircraft in which anything was measured or
// sketched; where there is none, the last.
func surveysOf(run *linkage.Run) (list []memberSurvey, err error) {
	if run.Aircraft == nil {
		s, err := survey.New(run)
		return []memberSurvey{{Survey: s}}, err
	}
	for i, m := range run.Aircraft.Members {
		only := run.Only(m)
		last := i+1 == len(run.Aircraft.Members) && len(list) == 0
		if only.Sketch == 0 && len(only.Measurements) == 0 && !last {
			continue
		}
		s, err := survey.New(only)
		if err != nil {
			return nil, err
		}
		list = append(list, memberSurvey{s, m})
	}
	return list, nil
}

// notSurveyed names the runs of an aircraft in which nothing is sketched or taped; empty
// where there is none.
func notSurveyed(run *linkage.Run, surveys []memberSurvey) string {
	var rest []string
	for i := 0; run.Aircraft != nil && i < len(run.Aircraft.Members); i++ {
		m := run.Aircraft.Members[i]
		if !slices.ContainsFunc(surveys, func(s memberSurvey) bool { return s.member == m }) {
			rest = append(rest, m.Name)
		}
	}
	return render.NotSurveyedSays(rest)
}

// adjusted lists the coordinates that a survey adjusted.
func adjusted(s *survey.Survey) []linkage.Change {
	var changes []linkage.Change
	for _, p := range s.Points {
		if p.Exact || s.Run.Sketch == 0 {
			continue
		}
		changes = append(changes, linkage.Change{Dimension: p.Name + ".x", Value: p.At.X}, linkage.Change{Dimension: p.Name + ".y", Value: p.At.Y})
		if !p.PlaneOnly {
			changes = append(changes, linkage.Change{Dimension: p.Name + ".z", Value: p.At.Z})
		}
	}
	return changes
}
