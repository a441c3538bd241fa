// The worker of the page: it runs the program, and answers one call after another.
onmessage = async ({ data }) => {
  if (data.module) {
    const go = new Go();
    go.run(await WebAssembly.instantiate(data.module, go.importObject)).then(() => postMessage({ ended: true }));
    postMessage({ ready: true });
    return;
  }
  const pause = 50; // ms between two words on how far it is
  let last = 0;
  globalThis.fullfreeProgress = (done, of) => {
    const now = performance.now();
    if (now - last > pause) {
      last = now;
      postMessage({ id: data.id, done, of });
    }
  };
  try {
    const answer = fullfreeAnswer(data.call, data.body);
    postMessage({ id: data.id, status: answer.status, body: answer.body }, [answer.body.buffer]);
  } catch (why) {
    postMessage({ id: data.id, broken: String(why) });
  }
};
