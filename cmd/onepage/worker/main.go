//go:build js && wasm

// Command worker answers the calls of the page that is one file, in a worker of the
// browser: it is compiled for js/wasm and packed into the page by command onepage.
//
// It gives the worker's script one function, fullfreeAnswer(call, body): body is JSON as a
// string, and what comes back an object of status, as calls.Status has it, and body, bytes.
// While it answers, it tells how far it is by fullfreeProgress(done, of), where there is
// such a function.
package main

import (
	"runtime/debug"
	"syscall/js"

	"fullfree/cmd/internal/calls"
)

// A phone has memory to spare sooner than time: garbage is collected less often than a
// program does by itself, but when it nears what a page may well take.
const (
	moreGarbage = 400       // percent of what is in use
	mostMemory  = 512 << 20 // bytes
)

func main() {
	debug.SetGCPercent(moreGarbage)
	debug.SetMemoryLimit(mostMemory)
	desk := calls.NewDesk()
	desk.Progress = func(done, of int) {
		if tell := js.Global().Get("fullfreeProgress"); tell.Type() == js.TypeFunction {
			tell.Invoke(done, of)
		}
	}
	js.Global().Set("fullfreeAnswer", js.FuncOf(func(_ js.Value, args []js.Value) any {
		answer := desk.Answer(args[0].String(), []byte(args[1].String()))
		body := js.Global().Get("Uint8Array").New(len(answer.Body))
		js.CopyBytesToJS(body, answer.Body)
		return map[string]any{"status": int(answer.Status), "body": body}
	}))
	select {}
}
