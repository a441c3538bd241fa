package main

import "fullfree/render"

// files are the aircraft file and those of its runs, each with its hash; the one file of a
// run by itself.
func (in *input) files() []render.FileOf {
	list := []render.FileOf{{Name: in.name, Hash: in.hash()}}
	if in.run.Aircraft == nil {
		return list
	}
	for _, m := range in.run.Aircraft.Members {
		list = append(list, render.FileOf{Run: m.Name, Name: m.File, Hash: hashOf(m.Source.Text)})
	}
	return list
}
