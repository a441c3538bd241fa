// workerCarrier carries calls to a worker made from the page, which runs the program that
// is packed in it. Stopped, it is ended, and another begun; texts says what that is to hold,
// and show which of them is on the bench. slow is told when something takes long, and when
// nothing does any more.
function workerCarrier(texts, show, slow) {
  "use strict";

  const by = (id) => document.getElementById(id);
  const waiting = new Map(); // calls without an answer yet, by number
  let calls = 0;
  let worker = null;
  let started = null; // a promise of it
  let module = null;
  let shaky = false; // the last one began with a run, and didn't get over it

  class Stopped extends Error {}

  // patience is how long a call takes before it is told to be slow.
  const patience = 1000; // ms
  let slowly = 0;
  function watch() {
    clearTimeout(slowly);
    if (waiting.size > 0) {
      slowly = setTimeout(() => slow(true), patience);
    } else {
      slow(false);
    }
  }

  // unpacked is the program, compiled.
  async function unpacked() {
    const text = by("program").textContent;
    by("program").remove(); // it takes room
    let bytes;
    if (Uint8Array.fromBase64) {
      bytes = Uint8Array.fromBase64(text);
    } else {
      const raw = atob(text);
      bytes = new Uint8Array(raw.length);
      for (let i = 0; i < raw.length; i++) {
        bytes[i] = raw.charCodeAt(i);
      }
    }
    const stream = new Blob([bytes]).stream().pipeThrough(new DecompressionStream("gzip"));
    return WebAssembly.compileStreaming(new Response(stream, { headers: { "Content-Type": "application/wasm" } }));
  }

  const address = URL.createObjectURL(new Blob([by("worker").textContent], { type: "text/javascript" }));

  function start() {
    started = (async () => {
      module ??= await unpacked();
      const own = new Worker(address);
      worker = own;
      await new Promise((done, fail) => {
        own.onerror = (event) => fail(new Error(event.message || "the worker doesn't start"));
        own.onmessage = ({ data }) => {
          if (data.ready) {
            done();
          } else {
            heard(own, data);
          }
        };
        own.postMessage({ module });
      });
      await post(own, "put", { texts: texts() });
      if (show() && !shaky) { // a run that ends the program isn't begun with again and again
        shaky = true;
        await post(own, "show", { name: show() });
        shaky = false;
      }
      return own;
    })();
    return started;
  }

  // heard takes up what a worker says.
  function heard(own, data) {
    if (data.ended) {
      if (own === worker) { // by a fault of its own: it has used up all memory, say
        again(new Error("the program ended by itself"));
      }
      return;
    }
    const call = waiting.get(data.id);
    if (!call) {
      return;
    }
    if (data.status === undefined && data.broken === undefined) {
      call.progress?.(data.done, data.of);
      return;
    }
    waiting.delete(data.id);
    watch();
    if (data.broken !== undefined) {
      call.fail(new Error(data.broken));
      again(new Error(data.broken));
      return;
    }
    if (data.status === 0) {
      shaky = false;
    }
    call.done({ ok: data.status === 0, body: data.body });
  }

  function post(own, call, body, progress) {
    return new Promise((done, fail) => {
      calls++;
      waiting.set(calls, { done, fail, progress });
      watch();
      own.postMessage({ id: calls, call, body: body === undefined ? "" : JSON.stringify(body) });
    });
  }

  // again ends the worker and begins another; what waits fails.
  function again(why) {
    worker?.terminate();
    worker = null;
    const failing = [...waiting.values()];
    waiting.clear();
    watch();
    start().catch(() => {}); // who asks next is told
    failing.forEach((call) => call.fail(why));
  }

  const text = (bytes) => new TextDecoder().decode(bytes);

  // bytes is a promise of an answer as it came.
  async function bytes(call, body, options) {
    const own = await started;
    const answer = await post(own, call, body, options?.progress);
    if (!answer.ok) {
      return { ok: false, said: JSON.parse(text(answer.body)) };
    }
    return { ok: true, bytes: answer.body };
  }

  async function ask(call, body, signal, progress) {
    const answer = await bytes(call, body, { progress });
    if (signal?.aborted) {
      throw new DOMException("something else is tried", "AbortError");
    }
    return answer.ok ? { ok: true, said: JSON.parse(text(answer.bytes)) } : answer;
  }

  return {
    start,
    ask,
    bytes,
    // stop ends what is being answered.
    stop() {
      again(new Stopped("stopped"));
    },
    stopped: (why) => why instanceof Stopped,
    gone: "The program in the page has ended, and is begun anew: try that again.",
    lean: true,
    watches: false,
  };
}
