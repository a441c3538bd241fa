// measurePart is "No drawing": a form that grows, in which a run of one's own is named,
// touched and taped. What fullfree makes of it, it tells after each entry. page is:
//
//   element     makes an element
//   ask(call, body)      a promise of { ok, said }
//   gone        what to do where nobody answers
//   changed()   what kept() returns has changed
//   take(name, text)     takes the run that was made of it
//   held(name)  what the text of that name holds by now; null: there is none, or nobody knows
//   write(name, text)    puts another text under a name that was taken, where it is held
//   other()     { name, text } of another text that may be gone on with, or null
//   takes       what its button is called
//   announce(words)
//
// It returns
//
//   show()          it came in sight
//   kept()          what is to be kept of it; null: nothing
//   restore(kept)   takes that up, or begins with nothing; to be called once before all else
//   erase()         erases the photo, where that is kept
function measurePart(page) {
  "use strict";

  const { element } = page;
  const by = (id) => document.getElementById("measure-" + id);
  const model = measureModel();
  const fields = measureFields(element, model);
  const steps = [...document.querySelectorAll(".measure-steps > [data-step]")];
  let answer = null; // the newest
  let heldThen = ""; // the text that it was asked with
  let parts = null; // the steps, and the text that they are taken into

  // --- changes ---

  let version = 0;
  let timer = 0;
  const pause = 300; // ms without a key, until it is asked for

  function typed() {
    version++;
    by("verdict").setAttribute("aria-busy", "true"); // until it is of what stands there by now
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
    fields, model, by, element, changed, typed, renamed, named, note, anew, photo: {},
    level: levelPart({ announce: page.announce }),
    view: () => parts.told.view(),
    answer: () => answer,
    // letter is that of a place on the taping page, "" where it has none yet.
    letter: (name) => answer?.places.find((p) => p.name === name)?.letter ?? "",
    pressed: () => pressed,
    released,
    heldThen: () => heldThen,
    // again asks anew, as when something was typed.
    again() {
      version++;
      return ask();
    },
    open,
    drawn: (svg) => document.importNode(new DOMParser().parseFromString(svg, "image/svg+xml").documentElement, true),
    // noted tells what went, with a button that brings it back.
    noted(words) {
      note(words);
      by("note").querySelector("button").focus();
    },
    removed(words) {
      changed();
      form.noted(words);
    },
    // into goes to the row of a box that was just added.
    into(box, i) {
      const input = box.children[i].querySelector("input, select");
      input.focus();
      input.select?.();
      input.scrollIntoView({ block: "nearest" });
    },
  };

  // What was picked on a photo is no part of what is undone, but for beginning anew.
  let before = null; // the photo's, and the text's, before that
  function anew() {
    before = { photo: form.photo, text: parts.text.kept() };
    model.begin();
    again({ photo: {}, text: null });
  }
  function again({ photo, text }) {
    form.photo = photo;
    parts.text.restore(text);
    parts.places.photo.restore(photo);
  }

  function undo() {
    const words = model.undo();
    if (before && words === model.beginning) {
      again(before);
      before = null;
    }
    changed();
    if (words) {
      page.announce("Undone: " + words + ".");
    }
    steps.find((s) => s.open)?.querySelector("summary").focus();
  }
  by("undo").addEventListener("click", undo);
  by("note").querySelector("button").addEventListener("click", undo);

  // --- the steps ---

  parts = { told: measureSteps(form), places: measurePlaces(form, page), tape: measureTape(form, page), text: measureText(form, page) };
  measurePaper(form);

  function refresh() {
    parts.told.refresh();
    parts.places.refresh();
    parts.tape.refresh();
    by("undo").disabled = model.undoes === "";
    parts.text.refresh();
    document.querySelector(".measure").classList.toggle("fills", model.state.foreign);
  }

  function showFar() {
    const far = { ...parts.told.far(), 4: parts.places.far(), 6: parts.tape.far() };
    for (const step of steps) {
      const faulty = step.querySelectorAll('[aria-invalid="true"]').length;
      fields.say(step.querySelector(".far"), far[step.dataset.step] + (faulty > 0 ? "; " + faulty + " to mend" : ""));
    }
    by("undo").disabled = model.undoes === "";
    fields.say(by("undo"), model.undoes ? "Undo: " + model.undoes : "Undo");
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

  // --- a thumb on the page ---

  // What is pressed isn't moved before it is let go: a click would go astray.
  let pressed = false;
  let free = []; // what waits for that
  const longest = 1000; // ms, in case it is let go out of sight
  const clicked = 50; // ms after which a click is through
  function letGo() {
    pressed = false;
    free.splice(0).forEach((does) => does());
  }
  document.addEventListener("pointerdown", () => { pressed = true; }, true);
  for (const event of ["pointerup", "pointercancel"]) {
    document.addEventListener(event, () => setTimeout(letGo, clicked), true);
  }

  // released is a promise that nothing is pressed.
  function released() {
    if (!pressed) {
      return Promise.resolve();
    }
    setTimeout(letGo, longest);
    return new Promise((does) => { free.push(does); });
  }

  // --- asking ---

  let asking = false;
  const begin = "Begin with what it is called, and then with a part and what it turns on.";

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
      by("verdict").setAttribute("aria-busy", "false");
    }
  }

  async function askOnce(of) {
    const { state } = model;
    const doubles = model.doubles();
    const early = state.parts.length === 0;
    if (early || doubles.length > 0) {
      answer = null;
      showFaults(doubles);
      verdict("open", early ? "Nothing is told yet." : "Two things have one name.", early ? begin : doubles[0].says);
      showAnswer();
      return;
    }
    let got;
    const held = parts.text.held();
    try {
      got = await page.ask("measure", model.asked(held, by("drawn").open));
    } catch {
      got = { ok: false, said: { error: page.gone } };
    }
    await released();
    if (of !== version) {
      return;
    }
    if (!got.ok) {
      verdict("short", "This could not be answered.", got.said.error);
      return;
    }
    [answer, heldThen] = [got.said, held];
    const toDo = answer.left.slice(0, 1).map((words) => "To do: " + words);
    const first = answer.mark === "open" ? [...toDo, ...answer.says] : [...answer.says, ...toDo]; // what is there comes before how sure it is
    verdict(answer.mark, answer.headline, first[0] ?? "");
    showFaults(answer.faults);
    showAnswer();
    parts.text.goOn();
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
    const open = (field) => field.node.closest("details[data-step]")?.querySelector("summary strong").textContent ?? "";
    by("faults").replaceChildren(
      ...rest.map((fault) => element("li", {}, fault.says)),
      ...at.map((field) => element("li", {}, fields.button(open(field) + ": " + field.node.querySelector(".field-fault").textContent, "To mend: " + field.node.querySelector(".field-fault").textContent, () => go(field)))));
    by("faults").querySelectorAll("button").forEach((b) => b.classList.add("link"));
    by("faults").hidden = list.length === 0;
  }

  const cell = (name, words, number) => element(name, { className: number ? "number" : "" }, words);

  function showAnswer() {
    const { entries = [], places = [], says = [], left = [], sketch = "" } = answer ?? {};
    parts.tape.answered(entries);
    by("says").replaceChildren(...[...says, ...left].map((words) => element("li", {}, words)));
    by("places").replaceChildren(...places.map((p) => {
      const row = element("tr", { className: p.open ? "open" : "" }, cell("th", (p.letter ? p.letter + " " : "") + p.name), cell("td", p.x, true), cell("td", p.y, true), cell("td", p.within, true));
      row.firstElementChild.scope = "row";
      return row;
    }));
    if (sketch || entries.length === 0) {
      by("sketch").replaceChildren(...(sketch ? [form.drawn(sketch)] : []));
      by("print").disabled = sketch === "";
    }
    parts.text.refresh();
    showFar();
  }

  const desk = matchMedia("(min-width: 900px)");
  [by("sure").open, by("drawn").open] = [desk.matches, desk.matches];
  by("drawn").addEventListener("toggle", () => by("drawn").open && form.again());

  function start() {
    names = new Map(model.places().map((p) => [p.place.id, p.name]));
    refresh();
    showFar();
    return form.again();
  }

  return {
    // show is called when it comes in sight.
    show() {
      parts.text.refresh();
      parts.text.goOn();
      if (answer && parts.text.held() !== heldThen) {
        form.again(); // the text was edited meanwhile
      }
      if (by("step-4").open) {
        parts.places.sight();
      }
    },
    kept: () => (model.empty() && model.undoes === "" ? null : { state: model.state, photo: form.photo, text: parts.text.kept(), step: steps.find((s) => s.open)?.dataset.step ?? "" }),
    // restore takes up what was kept, or begins with nothing.
    restore(kept) {
      if (model.restore(kept?.state)) {
        parts.text.restore(kept.text);
        form.photo = kept.photo !== null && typeof kept.photo === "object" ? kept.photo : {};
      } else {
        model.from(model.fresh());
        parts.text.restore(null);
        form.photo = {};
      }
      parts.places.photo.restore(form.photo);
      const step = steps.find((s) => s.dataset.step === kept?.step) ?? steps[0];
      step.open = true;
      return start();
    },
    erase: () => photoStore().erase(),
  };
}
