// The page that is one file: texts held in memory, of which one is shown, and what is done
// with it.
(function onePage() {
  "use strict";

  const by = (id) => document.getElementById(id);
  const store = keeper();
  // Texts by name, each as it is, as it was opened or saved, and the file behind it, where
  // the browser gave one that can be written.
  const texts = new Map();
  let shown = "";
  let begun = false; // the shown text is on the bench
  let words = []; // that any file may use
  const mostText = 1 << 20; // bytes of a file

  const carrier = workerCarrier(
    () => [...texts].map(([name, { text }]) => ({ name, text })),
    () => (begun ? shown : ""),
    (is) => asks?.slow(is));
  const air = { state: {} };
  let asks = null;
  const bench = workbench({
    ...carrier,
    shut: (why) => wait(why, ""),
    saved,
    title,
    judged(answer) {
      by("text-verdict").className = "verdict " + answer.verdict.mark;
      by("text-verdict").textContent = answer.verdict.headline;
      air.part.judged(answer);
      keep();
    },
    unjudged(why) {
      by("text-verdict").className = "verdict short";
      by("text-verdict").textContent = "So set, the run can't be judged: " + why;
      air.part.unjudged("So set, the run can't be judged: " + why);
    },
    stood: (stand) => air.part.stood(stand),
  });
  const { element } = bench;

  const announce = (what) => {
    by("told").textContent = what;
  };

  // tell tells what happened, until something else does.
  function tell(what) {
    by("desk-note").hidden = what === "";
    by("desk-note").textContent = what;
    if (what) {
      announce(what);
    }
  }

  // wait shows that there is nothing to work on yet, and why; no words: there is.
  function wait(what, why) {
    by("wait").hidden = what === "";
    by("wait-what").textContent = what;
    by("wait-why").textContent = why;
  }

  // --- keeping ---

  let keeping = 0;
  const soon = 200; // ms
  function keep() {
    clearTimeout(keeping);
    keeping = setTimeout(keepNow, soon);
  }

  function keepNow() {
    clearTimeout(keeping);
    if (texts.size === 0 || !shown || !ours) {
      return;
    }
    const { trial } = bench.now();
    const kept = store.write({
      texts: [...texts].map(([name, { text, filed }]) => ({ name, text, filed })),
      shown, trial, part: partNow, air: air.state, measure: measure.kept(), at: new Date().toISOString(),
    });
    by("keeps").dataset.kept = String(kept);
    if (!kept && store.works) {
      tell("This browser has no more room to keep what is open: save it.");
    }
  }
  // ours says that what is kept is of this tab: a page just opened leaves what was last
  // open where it is until something is done in it.
  let ours = false;
  for (const event of ["pagehide", "visibilitychange"]) {
    addEventListener(event, keepNow);
  }
  for (const event of ["input", "click", "change"]) {
    document.addEventListener(event, (e) => {
      if (e.isTrusted && !e.target.closest?.("#erase, #last")) {
        ours = true;
        keep();
      }
    });
  }

  by("erase").addEventListener("click", () => {
    clearTimeout(keeping);
    ours = false;
    store.erase();
    measure.erase();
    by("last").disabled = true;
    tell("What was kept here is erased. What is open stays open, and is kept again once something is done with it.");
  });

  by("last").addEventListener("click", () => {
    const state = store.read();
    if (state) {
      ours = true;
      restore(state);
    }
  });

  async function restore(state) {
    texts.clear();
    for (const { name, text, filed } of state.texts) {
      texts.set(name, { text, filed: typeof filed === "string" ? filed : text, handle: null });
    }
    const object = (v) => (v !== null && typeof v === "object" ? v : {});
    for (const key of Object.keys(air.state)) {
      delete air.state[key];
    }
    Object.assign(air.state, object(state.air));
    measure.restore(state.measure);
    part(parts.includes(state.part) ? state.part : "try");
    await put();
    await show(state.shown, object(state.trial));
  }

  // --- files ---

  const put = () => carrier.ask("put", { texts: [...texts].map(([name, { text }]) => ({ name, text })) });
  const isAircraft = (text) => /^\s*aircraft\s+"/m.test(text);

  function listTexts() {
    by("shown").replaceChildren(...[...texts].map(([name, { text, filed }]) => element("option", { value: name }, name + (changed({ text, filed }) ? ", changed" : ""))));
    by("shown").value = shown;
    by("save-file").disabled = !texts.has(shown);
    by("save-file").textContent = "Save " + shown;
    by("close-file").disabled = !texts.has(shown);
    document.title = title();
  }

  function changed(of) {
    return of !== undefined && of.text !== of.filed;
  }

  function title() {
    return (changed(texts.get(shown)) ? "* " : "") + shown + ": fullfree";
  }

  // show shows a text, with a setting tried in it; none: as filed. It returns false where
  // that was given up, or something else is shown by now.
  async function show(name, trial) {
    shown = name;
    begun = false;
    listTexts();
    editor.open(texts.get(name).text);
    asks.begin();
    try {
      const answer = await carrier.ask("show", { name });
      if (name !== shown) {
        return false;
      }
      if (answer.ok) {
        await taken(answer.said, trial);
      } else {
        unreadable(answer.said.error);
      }
      await read();
      return true;
    } catch (why) {
      given(why);
      return false;
    }
  }

  // giveUp takes what is shown off the bench, since it takes too long.
  function giveUp() {
    begun = false;
    unreadable("", tooLong);
    tell("Stopped.");
  }
  const tooLong = "This run takes too long here, and was given up. Change its text, or show another.";

  // given tells why there is no answer, but where it was given up, which is told.
  function given(why) {
    if (!carrier.stopped(why)) {
      begun = false;
      unreadable(why.message, "The program in the page has ended with this, and is begun anew.");
    }
  }

  function unreadable(why, what = "The file can't be read as it is now.") {
    by("unlocked").hidden = true;
    by("run").textContent = shown;
    by("view").textContent = "";
    by("text-verdict").className = "verdict short";
    by("text-verdict").textContent = what;
    air.part.unjudged(what);
    wait(what, why ? why.split("\n")[0] + " (Text shows all, at their lines.)" : "");
    keep();
  }

  async function taken(file, trial) {
    begun = true;
    wait("", "");
    const going = bench.begin(file);
    air.part.begin();
    if (trial && Object.keys(trial).length > 0) {
      await going;
      bench.restore(trial);
    }
    await going;
    by("full-names").replaceChildren();
    keep();
  }

  // add takes texts up, and shows the first of them, or the aircraft that they are of.
  async function add(list, quietly) {
    const replaced = list.filter(({ name, text }) => texts.has(name) && texts.get(name).text !== text).map((t) => t.name);
    for (const { name, text, handle } of list) {
      texts.set(name, { text, filed: text, handle: handle ?? null });
    }
    await put();
    const first = list.find((t) => isAircraft(t.text)) ?? list[0];
    if (first) {
      if (await show(first.name) && !quietly) {
        tell(list.map((t) => t.name).join(", ") + (list.length > 1 ? " are open." : " is open.") + (replaced.length > 0 ? " It took the place of what was open under that name." : ""));
      }
    }
  }

  // take reads files that were picked or dropped.
  async function take(files) {
    const list = [];
    const not = [];
    for (const { file, handle } of files) {
      if (file.size > mostText) {
        not.push(file.name + " is longer than 1 MiB");
        continue;
      }
      try {
        list.push({ name: file.name, text: await file.text(), handle });
      } catch {
        not.push(file.name + " can't be read");
      }
    }
    if (list.length > 0) {
      await add(list);
    }
    if (not.length > 0) {
      tell("Not opened: " + not.join("; ") + ".");
    }
  }

  by("open").addEventListener("click", () => by("picker").click());
  by("picker").addEventListener("change", async () => {
    const files = [...by("picker").files];
    by("picker").value = "";
    await take(files.map((file) => ({ file })));
  });
  document.addEventListener("dragover", (event) => event.preventDefault());
  document.addEventListener("drop", async (event) => {
    event.preventDefault();
    ours = true;
    const items = [...event.dataTransfer.items].filter((item) => item.kind === "file");
    const handles = items.map((item) => item.getAsFileSystemHandle?.() ?? null);
    const files = items.map((item) => item.getAsFile());
    const list = [];
    for (const [i, file] of files.entries()) {
      const handle = await Promise.resolve(handles[i]).catch(() => null);
      if (file && (!handle || handle.kind === "file")) {
        list.push({ file, handle });
      }
    }
    await take(list);
  });

  by("shown").addEventListener("change", () => {
    tell("");
    show(by("shown").value);
  });

  const firstDemo = "pedals";
  async function takeDemo(name, quietly) {
    const answer = await carrier.ask("demo", { name });
    if (answer.ok) {
      await add(answer.said, quietly);
    }
  }

  by("take-demo").addEventListener("click", async () => {
    await takeDemo(by("demos").value);
    by("begin").open = false;
  });

  by("close-file").addEventListener("click", async () => {
    const gone = shown;
    texts.delete(gone);
    await carrier.ask("put", { texts: [{ name: gone, text: null }] });
    if (texts.size > 0) {
      await show([...texts.keys()][0]);
    } else {
      await takeDemo(firstDemo);
    }
    tell(gone + " is closed.");
  });

  // --- saving ---

  const { saveFile } = savePart({ texts, tell, listTexts, keep });
  by("save-file").addEventListener("click", () => saveFile(shown));

  // saved takes up what the bench has written into texts.
  async function saved(written) {
    const files = [...new Set(written.saved.map((w) => w.file))];
    const answer = await carrier.ask("texts");
    for (const { name, text } of answer.said) {
      const of = texts.get(name);
      if (of && of.text !== text) {
        of.text = text;
        if (name === shown) {
          editor.put(text);
        }
      }
    }
    listTexts();
    const others = files.filter((name) => name !== shown);
    tell("It is written into the text of " + files.join(" and ") + ". " + (others.length > 0 ? "Show " + others.join(" and ") + " above, and save it." : "\"Save\" above saves the file."));
    keep();
  }

  // --- the text ---

  // A text is read at once where that is quick, else when no key was pressed for as long
  // as it took.
  const mostPause = 400; // ms
  let took = 0; // ms, the last time
  let pending = 0;
  let reading = false;
  const editor = textPart((text) => {
    texts.get(shown).text = text;
    listTexts();
    keep();
    clearTimeout(pending);
    pending = setTimeout(edited, pause());
  });
  const quick = 200; // ms, within which nobody who types feels held up
  const pause = () => (took < quick ? 0 : Math.min(mostPause, took));

  async function edited() {
    if (reading) {
      pending = setTimeout(edited, quick);
      return;
    }
    reading = true;
    const start = performance.now();
    try {
      const name = shown;
      const { text } = texts.get(name);
      await carrier.ask("put", { texts: [{ name, text }] });
      const faults = await read();
      if (name !== shown || faults === null) {
        return;
      }
      if (!begun && faults.length === 0) {
        const answer = await carrier.ask("show", { name });
        if (answer.ok) {
          await taken(answer.said);
        } else {
          unreadable(answer.said.error);
        }
      } else if (begun && faults.length === 0) {
        bench.faults("");
        await bench.reload();
        air.part.begin();
      } else if (begun) {
        bench.faults(faults.map((f) => (f.line > 0 ? "line " + f.line + ": " : "") + f.says).join("\n"));
        by("text-verdict").className = "verdict short";
        const [first] = faults;
        by("text-verdict").textContent = (first.line > 0 ? "Line " + first.line + ": " : "") + first.says + (faults.length > 1 ? " (and " + (faults.length - 1) + " more)" : "") + ". What is told is of the text as it last read well.";
      }
    } catch (why) {
      given(why);
    } finally {
      reading = false;
      took = performance.now() - start;
    }
  }

  // read tells what is wrong with the shown text; null: it isn't the shown one any more.
  async function read() {
    const name = shown;
    const answer = await carrier.ask("read", { name });
    if (name !== shown || !answer.ok) {
      return null;
    }
    const { faults, names } = answer.said;
    words = answer.said.words;
    editor.read(faults.map((f) => (f.file === name ? f : { ...f, line: 0, says: f.file + ": " + f.says })), names.length > 0 ? [...names, ...words] : null);
    by("full-names").replaceChildren(...answer.said.parts.map((value) => element("option", { value })));
    return faults;
  }

  // --- the parts of the page ---

  const parts = [...document.querySelectorAll(".tabs > [data-part]")].map((tab) => tab.dataset.part);
  let partNow = "try";
  function part(name) {
    partNow = name;
    for (const one of document.querySelectorAll(".part")) {
      one.hidden = one.dataset.part !== name;
    }
    for (const tab of document.querySelectorAll(".tabs > [data-part]")) {
      tab.setAttribute("aria-pressed", String(tab.dataset.part === name));
    }
    document.body.classList.toggle("air", name === "aircraft");
    document.body.classList.toggle("measures", name === "measure");
    if (name === "measure") {
      measure.show();
    }
    keep();
  }
  for (const tab of document.querySelectorAll(".tabs > [data-part]")) {
    tab.addEventListener("click", () => part(tab.dataset.part));
  }

  const desk = { carrier, bench, giveUp, tell, announce, part, keep, shown: () => shown, printSheet: () => air.part.print() };
  asks = askPart(desk);
  air.part = aircraftPart(desk, air.state);

  const measure = measureOnPage({
    element, announce, carrier, texts, put, show, part, keep, shown: () => shown,
    // retype puts a text in place of one that is open.
    retype(name, text) {
      texts.get(name).text = text;
      listTexts();
      if (name === shown) {
        editor.put(text);
        clearTimeout(pending);
        pending = setTimeout(edited, pause());
      } else {
        carrier.ask("put", { texts: [{ name, text }] });
      }
    },
  });

  // --- the beginning ---

  async function begin() {
    try {
      await carrier.start();
    } catch (why) {
      wait("The program in this page could not be started.", why.message + " A browser of the last years is wanted.");
      return;
    }
    const demos = await carrier.ask("demos");
    by("demos").replaceChildren(...demos.said.map(({ kind, about }) => element("option", { value: kind }, kind + (about ? ": " + about : ""))));
    const kept = store.read();
    by("last").disabled = kept === null;
    if (!store.works) {
      by("keeps").textContent = "This browser keeps nothing for a page that is a file: save what is to be kept.";
    }
    if (kept !== null && store.inThisTab()) {
      ours = true;
      await restore(kept);
    } else {
      measure.restore(null);
      const carried = JSON.parse(by("carried").textContent) ?? [];
      if (carried.length > 0) {
        for (const { name, text } of carried) {
          texts.set(name, { text, filed: text, handle: null });
        }
        await put();
        await show(carried[0].name);
      } else {
        await takeDemo(firstDemo, true);
      }
    }
    document.documentElement.dataset.ready = "yes";
  }
  begin();
})();
