// Package calls answers what the pages ask that work on a file: what is wrong with it,
// what can be set, what a setting comes to, where the run stands, its picture, and what is
// to be written. The server of "fullfree serve" carries the calls of its page here, and the
// worker of the page that is one file those of its own. It knows neither a network nor a
// disk: where texts come from and go to the caller tells (Files). The commands share with
// it how a file becomes a run that can be judged (Input).
package calls
