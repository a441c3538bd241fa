// measurePart is "No drawing": a form that grows, in which a run of one's own is named,
// touched and taped. What fullfree makes of it, it tells after each entry. page is:
//
//   element     makes an element
//   ask(call, body)      a promise of { ok, said }
//   changed()   what kept() returns has changed
//   take(name, text)     takes the run that was made of it
//   held(name)  what the text of that name holds by now; null: there is none, or nobody knows
//   write(name, text)    puts another text under a name that was taken, where it is held
//   other()     { name, text } of another text that may be gone on with, or null
//   takes       what its button is called
//   announce(words)
//
// It returns show(), kept(), restore(kept), erase() and wake().
function measurePart(page) {
  "use strict";

  const { element } = page;
  const by = (id) => document.getElementById("measure-" + id);
  const model = measureModel();
  const fields = measureFields(element, model);
  const steps = [...document.querySelectorAll(".measure-steps > [data-step]")];
  let answer = null; // the newest
  let taken = null; // { name, text }: what was last put among the texts
  let parts = null; // the steps

  // --- changes ---

  let version = 0;
  let timer = 0;
  const pause = 300; // ms without a key, until it is asked for

  function typed() {
    version++;
    note("");
    page.changed();
    showFar();
    clearTimeout(timer);
    timer = setTimeout(ask, pause);
  }

  function changed() {
    refresh();
    named();
    typed();
  }

  // renamed does what changes names, and shows them wherever they stand.
  function renamed(does) {
    does();
    refresh();
    typed();
  }

  // named gives what was picked on the photo its names, once they are typed.
  let names = new Map(); // by number, as they were
  function named() {
    const now = new Map(model.places().map((p) => [p.place.id, p.name]));
    const was = new Map([...names].map(([id, name]) => [name, now.get(id)]));
    for (const [key, ends] of [["picks", ["place"]], ["tapes", ["from", "to"]], ["levels", ["from", "to"]]]) {
      for (const one of form.photo[key] ?? []) {
        for (const end of ends) {
          one[end] = was.get(one[end]) ?? one[end];
        }
      }
    }
    names = now;
  }

  function note(words) {
    by("note").hidden = words === "";
    by("note").querySelector("span").textContent = words;
    if (words) {
      page.announce(words);
    }
  }

  const form = {
    fields, model, by, element, changed, typed, renamed, named, note, photo: {},
    level: typeof levelPart === "function" ? levelPart({ announce: page.announce }) : { available: () => false },
    view: () => parts.told.view(),
    // removed tells what went, with a button that brings it back.
    removed(words) {
      changed();
      note(words);
      by("note").querySelector("button").focus();
    },
    // into goes to the row of a box that was just added.
    into(box, i) {
      const input = box.children[i].querySelector("input, select");
      input.focus();
      input.select?.();
      input.scrollIntoView({ block: "nearest" });
    },
  };

  function undo() {
    const words = model.undo();
    changed();
    if (words) {
      page.announce("Undone: " + words + ".");
    }
    steps.find((s) => s.open)?.querySelector("summary").focus();
  }
  by("undo").addEventListener("click", undo);
  by("note").querySelector("button").addEventListener("click", undo);

  // --- the steps ---

  parts = { told: measureSteps(form), places: measurePlaces(form, page), tape: measureTape(form, page) };

  function refresh() {
    parts.told.refresh();
    parts.places.refresh();
    parts.tape.refresh();
    by("undo").disabled = model.undoes === "";
    by("goon").hidden = false;
    showOther();
  }

  function showFar() {
    const far = { ...parts.told.far(), 4: parts.places.far(), 6: parts.tape.far() };
    for (const step of steps) {
      const faulty = step.querySelectorAll("[aria-invalid]").length;
      step.querySelector(".far").textContent = far[step.dataset.step] + (faulty > 0 ? "; " + faulty + " to mend" : "");
    }
    by("undo").disabled = model.undoes === "";
    by("undo").textContent = model.undoes ? "Undo: " + model.undoes : "Undo";
  }

  for (const step of steps) {
    step.addEventListener("toggle", () => {
      if (!step.open) {
        return;
      }
      for (const other of steps) { // where the browser doesn't see to it
        other.open = other === step;
      }
      step.querySelector("summary").scrollIntoView({ block: "nearest" });
      if (step.dataset.step === "4") {
        parts.places.sight();
      }
      page.changed();
    });
  }
  for (const next of document.querySelectorAll(".measure-steps [data-next]")) {
    next.addEventListener("click", () => open(next.dataset.next));
  }
  function open(number) {
    const step = steps.find((s) => s.dataset.step === number);
    step.open = true;
    step.querySelector("summary").focus();
  }

  // --- asking ---

  let asking = false;
  const begin = "Begin with what it is called, and with the parts.";

  async function ask() {
    if (asking) {
      return; // what is asked now is out of date when it is answered, and then asked anew
    }
    asking = true;
    try {
      for (let of = -1; of !== version;) {
        of = version;
        await askOnce(of);
      }
    } finally {
      asking = false;
    }
  }

  async function askOnce(of) {
    const doubles = model.doubles();
    if (model.empty() || doubles.length > 0) {
      answer = null;
      showFaults(doubles);
      verdict("open", model.empty() ? "Nothing is told yet." : "Two things have one name.", model.empty() ? begin : doubles[0].says);
      showAnswer();
      return;
    }
    let got;
    try {
      got = await page.ask("measure", model.asked(taken ? page.held(taken.name) ?? "" : ""));
    } catch (why) {
      got = { ok: false, said: { error: why.message } };
    }
    if (of !== version) {
      return;
    }
    if (!got.ok) {
      verdict("short", "This could not be answered.", got.said.error);
      return;
    }
    answer = got.said;
    verdict(answer.mark, answer.headline, answer.says[0] ?? answer.left[0] ?? "");
    showFaults(answer.faults);
    showAnswer();
    goOn();
  }

  // --- what is told ---

  function verdict(mark, headline, first) {
    by("verdict").className = "verdict " + mark;
    const said = by("headline").textContent + by("first").textContent;
    by("headline").textContent = headline;
    by("first").textContent = first;
    by("first").hidden = first === "";
    if (said !== headline + first && !document.querySelector(".measure").closest("[hidden]")) {
      page.announce(headline + " " + first);
    }
  }

  function showFaults(list) {
    const { rest, at } = fields.faults(list);
    const go = (field) => {
      for (let box = field.node.closest("details"); box; box = box.parentElement.closest("details")) {
        box.open = true;
      }
      field.input.focus();
      field.input.scrollIntoView({ block: "center" });
    };
    const open = (field) => field.node.closest("details[data-step]")?.querySelector("b").textContent ?? "";
    by("faults").replaceChildren(
      ...rest.map((fault) => element("li", {}, fault.says)),
      ...at.map((field) => element("li", {}, fields.button(open(field) + ": " + field.node.querySelector(".field-fault").textContent, "To mend: " + field.node.querySelector(".field-fault").textContent, () => go(field)))));
    by("faults").querySelectorAll("button").forEach((b) => b.classList.add("link"));
    by("faults").hidden = list.length === 0;
  }

  const cell = (name, words, number) => element(name, { className: number ? "number" : "" }, words);

  function showAnswer() {
    const { entries = [], places = [], says = [], left = [], sketch = "", text = "" } = answer ?? {};
    parts.tape.answered(entries);
    by("sure").hidden = places.length === 0;
    by("says").replaceChildren(...[...says, ...left].map((words) => element("li", {}, words)));
    by("places").replaceChildren(...places.map((p) => {
      const row = element("tr", { className: p.open ? "open" : "" }, cell("th", (p.letter ? p.letter + " " : "") + p.name), cell("td", p.x, true), cell("td", p.y, true), cell("td", p.within, true));
      row.firstElementChild.scope = "row";
      return row;
    }));
    by("drawn").hidden = sketch === "";
    by("sketch").replaceChildren(...(sketch ? [drawn(sketch)] : []));
    by("take").disabled = text === "";
    by("take").textContent = taken ? "Show " + taken.name : page.takes;
    showFar();
  }

  const drawn = (svg) => document.importNode(new DOMParser().parseFromString(svg, "image/svg+xml").documentElement, true);

  // --- on paper ---

  const paper = element("section", { id: "measure-paper", className: "print", "aria-hidden": "true" });
  document.body.append(paper);
  by("print").addEventListener("click", () => {
    const head = (words) => element("th", {}, words);
    paper.replaceChildren(
      element("h1", {}, "To tape: " + (model.state.title.trim() || "a run")),
      element("p", {}, "At neutral, rig pins in. From the middle of one hole to the middle of the other, in " + (model.state.units === "in" ? "inches" : "millimeters") + "; what stands first helps most. " + parts.told.view()[1] + "."),
      ...(answer.sketch ? [element("figure", {}, drawn(answer.sketch))] : []),
      element("table", {},
        element("thead", {}, element("tr", {}, ...["", "between", "about", "reads", "to within"].map(head))),
        element("tbody", {}, ...answer.entries.map((e) => element("tr", {},
          element("th", {}, e.letters), element("td", {}, e.from + " to " + e.to + (e.kind === "gauged" ? ", with the level" : "")), element("td", {}, e.says), element("td", { className: "blank" }, e.is), element("td", { className: "blank" }, e.within))))));
    document.body.classList.add("prints-measure");
    print();
    document.body.classList.remove("prints-measure");
  });

  // --- the text ---

  // goOn writes what is entered into the text that was taken, but where that was changed by
  // hand meanwhile.
  function goOn() {
    const held = taken && page.held(taken.name);
    if (!taken || held === null) {
      taken = null;
      by("take").textContent = page.takes;
      question("");
      return;
    }
    if (held !== taken.text) {
      question(taken.name + " was changed by hand since it was taken from here. What is entered now is not in it.");
      return;
    }
    question("");
    if (answer?.text && answer.text !== held) {
      page.write(taken.name, answer.text);
      taken.text = answer.text;
      page.changed();
    }
  }

  function question(words) {
    const asked = by("ask-what").textContent;
    by("ask").hidden = words === "";
    by("ask-what").textContent = words;
    if (words && words !== asked) {
      page.announce(words);
    }
  }

  function take(name) {
    taken = { name, text: answer.text };
    question("");
    by("take").textContent = "Show " + name;
    page.take(name, answer.text);
    page.changed();
  }

  by("take").addEventListener("click", () => {
    const held = page.held(taken?.name ?? answer.file);
    if (!taken && held !== null && held !== answer.text) {
      asked = answer.file;
      question(answer.file + " is open already, with another text.");
      by("ask").focus();
      return;
    }
    if (taken) {
      page.take(taken.name, null);
      return;
    }
    take(answer.file);
  });
  let asked = ""; // the text that is asked about, where it was not taken from here yet

  by("over").addEventListener("click", () => {
    if (answer?.text) {
      const name = taken?.name ?? asked;
      taken = { name, text: page.held(name) };
      goOn();
      showAnswer();
    }
  });
  by("leave").addEventListener("click", () => {
    taken = null;
    question("");
    showAnswer();
  });
  by("reread").addEventListener("click", () => {
    const name = taken?.name ?? asked;
    reread(name, page.held(name));
  });

  // reread goes on with a text that the form has written.
  async function reread(name, text) {
    let got;
    try {
      got = await page.ask("outline", { text });
    } catch (why) {
      got = { ok: false, said: { error: why.message } };
    }
    const why = !got.ok ? got.said.error : got.said.outline ? "" : got.said.why;
    if (why) {
      note(name + " can't be gone on with here: " + why);
      return;
    }
    model.taken(got.said.outline, got.said.taped);
    taken = page.held(name) === null ? null : { name, text };
    question("");
    changed();
    open("6");
    page.announce("Going on with " + name + ".");
  }

  // --- anew, or another file ---

  const goon = fields.button("", "", () => {
    const of = page.other();
    if (of) {
      reread(of.name, of.text);
    }
  });
  const file = element("input", { type: "file", "aria-label": "A file to go on with" });
  file.addEventListener("change", async () => {
    const [one] = file.files;
    if (one) {
      const text = await one.text();
      file.value = "";
      reread(one.name, text);
    }
  });
  by("goon").append(...(page.other ? [goon] : [element("label", { className: "field" }, element("span", {}, "Go on with a file that was saved here"), file)]));
  function showOther() {
    const of = page.other?.();
    goon.textContent = of ? "Go on with " + of.name : "Go on with a file";
    goon.disabled = !of;
  }

  by("anew").addEventListener("click", () => {
    model.begin();
    taken = null;
    changed();
    note("All is empty now.");
    by("other").open = false;
    open("1");
  });

  const desk = matchMedia("(min-width: 900px)");
  [by("sure").open, by("drawn").open] = [desk.matches, desk.matches];

  function start() {
    names = new Map(model.places().map((p) => [p.place.id, p.name]));
    refresh();
    showFar();
    version++;
    return ask();
  }

  return {
    // show is called when it comes in sight.
    show() {
      showOther();
      parts.places.sight();
      goOn();
    },
    kept: () => (model.empty() && !taken ? null : { state: model.state, photo: form.photo, taken, step: steps.find((s) => s.open)?.dataset.step ?? "" }),
    // restore takes up what was kept, or begins with nothing.
    restore(kept) {
      if (model.restore(kept?.state)) {
        const text = (v) => typeof v === "string";
        taken = text(kept.taken?.name) && text(kept.taken?.text) ? { name: kept.taken.name, text: kept.taken.text } : null;
        form.photo = kept.photo !== null && typeof kept.photo === "object" ? kept.photo : {};
      } else {
        model.forget();
        [taken, form.photo] = [null, {}];
      }
      parts.places.photo.restore(form.photo);
      const step = steps.find((s) => s.dataset.step === kept?.step) ?? steps[0];
      step.open = true;
      return start();
    },
    erase: () => (typeof photoStore === "function" ? photoStore().erase() : null),
  };
}
