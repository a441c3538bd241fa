// aircraftPart is the run at the aircraft, for one hand: one large figure, half turns, and
// the rigging sheet step by step, with what was noted on it. Notes are notes: what is signed
// is signed on paper. state is where it stands, which desk keeps.
function aircraftPart(desk, state) {
  "use strict";

  const by = (id) => document.getElementById(id);
  const { bench, carrier } = desk;
  const { element, button } = bench;
  let sheet = null; // of the file as it is
  let judged = null;
  let stand = null;

  // --- reading ---

  const chosen = (id) => by(id).value;

  function options(select, list, wanted) {
    const before = wanted ?? select.value;
    select.replaceChildren(...list.map(({ value, words }) => element("option", { value }, words)));
    if (list.some((one) => one.value === before)) {
      select.value = before;
    }
  }

  function showFigure() {
    if (!judged || !stand) {
      return;
    }
    const i = Number(chosen("air-series"));
    const series = judged.series[i];
    const value = stand.position.values[i];
    by("air-figure").textContent = series && value !== undefined ? bench.words.figureOf(value, series) : "";
    const { file } = bench.now();
    by("air-where").textContent = "With " + file.controls.map((c) => c.name + " at " + bench.words.figure(stand.at[c.name], c.unit, 1, c.unit === "in" ? 64 : 0)).join(", ");
    const slider = by("air-slider");
    if (document.activeElement !== slider && stand.at[chosen("air-control")] !== undefined) {
      slider.value = String(stand.at[chosen("air-control")]);
    }
    slider.setAttribute("aria-valuetext", by("air-where").textContent + ": " + by("air-figure").textContent);
  }

  function limits() {
    const control = judged?.controls.find((c) => c.name === chosen("air-control"));
    const slider = by("air-slider");
    slider.disabled = !control || control.low === null;
    if (control && control.low !== null) {
      slider.min = String(control.low);
      slider.max = String(control.high);
      slider.value = String(stand?.at[control.name] ?? 0);
    }
  }

  const go = (at, settled) => {
    by("air-slider").value = at;
    bench.move(chosen("air-control"), Number(by("air-slider").value), settled);
  };
  by("air-slider").addEventListener("input", () => go(by("air-slider").value, false));
  by("air-slider").addEventListener("change", () => go(by("air-slider").value, true));
  by("air-low").addEventListener("click", () => go(by("air-slider").min, true));
  by("air-high").addEventListener("click", () => go(by("air-slider").max, true));
  by("air-neutral").addEventListener("click", () => go(0, true));
  for (const [id, key] of [["air-series", "series"], ["air-control", "control"], ["air-end", "end"]]) {
    by(id).addEventListener("change", () => {
      // Names are kept, not numbers: another setting may have other series.
      state[key] = id === "air-series" ? judged?.series[Number(chosen(id))]?.label : chosen(id);
      desk.keep();
      limits();
      showFigure();
      showEnd();
    });
  }

  // --- turning ---

  const half = 0.5;
  const endNow = () => bench.now().file?.ends.find((e) => e.name === chosen("air-end"));
  const by1 = (end) => (end && end.step > half ? end.step : half);

  function showEnd() {
    const end = endNow();
    for (const id of ["air-in", "air-out"]) {
      by(id).disabled = !end;
    }
    by("air-none").hidden = Boolean(end) || bench.now().file === null;
    const turns = end ? bench.now().trial.turns[end.name] || 0 : 0;
    by("air-turned").textContent = end ? bench.words.turns(turns) : "";
    const way = (name) => bench.words.turns(by1(end)).replace(/ out$/, "") + " " + name;
    by("air-in").textContent = way("in");
    by("air-out").textContent = way("out");
    const told = end && judged?.ends.find((e) => e.name === end.name);
    by("air-thread").textContent = told ? told.thread.map((t) => (told.thread.length > 1 ? t.end + ": " : "") + "Thread in " + told.in + " " + t.in_rod + ", at least " + t.least + (t.fault ? ": FALLS SHORT, " + t.fault : "")).join("; ") + ". Length " + told.length + " (" + told.of + ")." : "";
  }

  // turnBy turns an end; until that is judged, what was judged before isn't its verdict.
  const patience = 150; // ms, within which nobody takes one for the other
  let unknown = 0;
  function turnBy(way) {
    clearTimeout(unknown);
    unknown = setTimeout(() => verdict("open", "Being judged ..."), patience);
    bench.turn(chosen("air-end"), way * by1(endNow()));
    showEnd();
  }
  by("air-in").addEventListener("click", () => turnBy(-1));
  by("air-out").addEventListener("click", () => turnBy(1));

  function verdict(mark, words) {
    clearTimeout(unknown);
    by("air-verdict").className = "verdict " + mark;
    by("air-verdict").textContent = words;
  }

  // --- the sheet ---

  // notes are those of the sheet of the file as it is, by its hash; of others they are void.
  function notes() {
    state.sheets ??= {};
    state.sheets[sheet.hash] ??= { step: 0, began: new Date().toISOString().slice(0, 10), cells: {} };
    return state.sheets[sheet.hash];
  }

  const noted = (key) => notes().cells[key];
  function note(key, value) {
    if (value === "" || value === false) {
      delete notes().cells[key];
    } else {
      notes().cells[key] = value;
    }
    desk.keep();
  }

  const stepDone = (number) => noted(number + " done") === true;

  function field(key, name) {
    const input = element("input", { type: "text", value: String(noted(key) ?? ""), autocapitalize: "off" });
    input.addEventListener("input", () => note(key, input.value));
    return element("label", { className: "field" }, element("span", {}, name), input);
  }

  function tick(key, name) {
    const made = element("button", { type: "button", className: "tick" });
    const show = () => {
      const on = noted(key) === true;
      made.setAttribute("aria-pressed", String(on));
      made.textContent = (on ? "☑ " : "☐ ") + name;
    };
    made.addEventListener("click", () => {
      note(key, noted(key) !== true);
      show();
    });
    show();
    return made;
  }

  // card is a row of a table to fill in: what is told first, and what is noted beside it.
  function card(step, group, row, i, key) {
    const parts = [];
    row.forEach((cell, k) => {
      const head = group.table[k];
      if (cell.says) {
        parts.push(element("p", {}, head ? element("span", { className: "quiet" }, head + ": ") : "", element("strong", {}, cell.says)));
      }
      if (cell.blank) {
        parts.push(field(key + "." + k, head || "as rigged"));
      }
      cell.boxes.forEach((words, b) => parts.push(tick(key + "." + k + "." + b, words || head || "done")));
    });
    return element("div", { className: "card" }, ...parts);
  }

  function stepParts(step) {
    const list = [];
    step.groups.forEach((group, g) => {
      if (group.head) {
        list.push(element("h4", {}, group.head));
      }
      list.push(...group.says.map((words) => element("p", {}, words)));
      list.push(...group.rows.map((row, i) => card(step, group, row, i, [step.number, g, i].join("."))));
      list.push(...group.blanks.map((words, i) => field([step.number, g, "blank", i].join("."), words)));
    });
    return list;
  }

  // screens are what is shown one after another: what it rests on, every step, the end.
  const screens = () => (sheet.refused.length > 0 ? 1 : sheet.steps.length + 2);

  function showSheet() {
    if (!sheet) {
      return;
    }
    const at = Math.min(notes().step, screens() - 1);
    by("sheet-origin").textContent = sheet.title + ". SHA-256 begins " + sheet.hash.slice(0, 12) + ". Begun " + notes().began + ". " + sheet.foot;
    const others = Object.keys(state.sheets).filter((hash) => hash !== sheet.hash && Object.keys(state.sheets[hash].cells).length > 0).length;
    by("sheet-void").textContent = others > 0 ? "The file has changed since notes were made on its sheet: those are void, and not shown." : "";
    let parts;
    if (at === 0) {
      parts = [element("h3", {}, "What this sheet rests on"), ...sheet.refused.map((w) => element("p", { className: "verdict short" }, w)), ...sheet.notes.map((w) => element("p", {}, w)),
        ...sheet.head.map((name, i) => field("head." + i, name)), element("p", { className: "caution" }, sheet.caution)];
    } else if (at <= sheet.steps.length) {
      const step = sheet.steps[at - 1];
      parts = [element("h3", {}, "Step " + step.number + " of " + sheet.steps.length + ": " + step.title), ...stepParts(step),
        tick(step.number + " done", "step " + step.number + " done"), ...step.sources.map((w) => element("p", { className: "small quiet" }, w))];
    } else {
      const left = sheet.steps.filter((s) => !stepDone(s.number)).map((s) => s.number);
      parts = [element("h3", {}, "The end"), element("p", {}, left.length > 0 ? "Not ticked: step " + left.join(", ") + "." : "Every step is ticked."),
        element("p", {}, "Ticks and figures typed here are notes. Print the sheet, and sign it on paper: " + sheet.signed.join("; ") + "."),
        button("Print the sheet with the notes", "print the sheet with the notes", print), element("p", { className: "caution" }, sheet.caution)];
    }
    by("sheet-step").replaceChildren(...parts);
    by("sheet-back").disabled = at === 0;
    by("sheet-next").disabled = at === screens() - 1;
  }

  function step(by1) {
    notes().step = Math.max(0, Math.min(screens() - 1, notes().step + by1));
    desk.keep();
    showSheet();
    by("sheet-step").focus({ preventScroll: true });
    by("sheet-step").scrollIntoView({ block: "nearest" });
  }
  by("sheet-back").addEventListener("click", () => step(-1));
  by("sheet-next").addEventListener("click", () => step(1));

  async function loadSheet() {
    const { file } = bench.now();
    if (!file || sheet?.hash === file.hash) {
      return sheet !== null;
    }
    const answer = await carrier.ask("sheet");
    if (!answer.ok) {
      by("sheet-step").replaceChildren(element("p", { className: "verdict short" }, answer.said.error));
      return false;
    }
    sheet = answer.said;
    return true;
  }

  // print prints the sheet with what is noted on it, told as notes.
  async function print() {
    if (!await loadSheet()) {
      desk.tell("There is no sheet to print.");
      return;
    }
    const value = (key) => (noted(key) === true ? "noted: done" : noted(key) ? "noted: " + noted(key) : "");
    const blank = (words) => element("span", { className: "noted" }, words);
    const list = [element("h3", {}, sheet.title), element("p", {}, "SHA-256 begins " + sheet.hash.slice(0, 12) + ". Notes begun " + notes().began + ", printed " + new Date().toISOString().slice(0, 10) + ". What is noted was typed or ticked on a screen and is no signature. " + sheet.foot),
      ...[...sheet.refused, ...sheet.notes].map((w) => element("p", {}, w)),
      element("dl", { className: "sheet-fields" }, ...sheet.head.map((name, i) => element("div", {}, element("dt", {}, name), element("dd", { className: "sheet-blank" }, value("head." + i)))))];
    for (const s of sheet.steps) {
      list.push(element("h4", {}, s.number + " " + s.title, " ", blank(value(s.number + " done"))));
      s.groups.forEach((group, g) => {
        if (group.head) {
          list.push(element("h5", {}, group.head));
        }
        list.push(...group.says.map((w) => element("p", {}, w)));
        if (group.rows.length > 0) {
          list.push(element("table", { className: "sheet-table" },
            element("thead", {}, element("tr", {}, ...group.table.map((w) => element("th", {}, w)))),
            element("tbody", {}, ...group.rows.map((row, i) => element("tr", {}, ...row.map((cell, k) => {
              const key = [s.number, g, i, k].join(".");
              return element("td", { className: cell.blank ? "sheet-blank" : "" }, cell.says, cell.blank ? blank(value(key)) : "",
                ...cell.boxes.map((words, b) => element("span", { className: "sheet-tick" }, "☐ " + words + " ", blank(value(key + "." + b)))));
            }))))));
        }
        list.push(element("dl", { className: "sheet-fields" }, ...group.blanks.map((w, i) => element("div", {}, element("dt", {}, w), element("dd", { className: "sheet-blank" }, value([s.number, g, "blank", i].join(".")))))));
      });
      list.push(...s.sources.map((w) => element("p", { className: "sheet-source" }, w)));
    }
    list.push(element("dl", { className: "sheet-fields" }, ...sheet.signed.map((name) => element("div", {}, element("dt", {}, name), element("dd", { className: "sheet-blank" })))), element("p", { className: "sheet-caution" }, sheet.caution));
    by("printed").replaceChildren(...list);
    document.body.classList.add("prints-sheet");
    window.print();
    document.body.classList.remove("prints-sheet");
  }

  // --- which of the three ---

  function showPart(name) {
    state.part = name;
    for (const part of document.querySelectorAll("div[data-air]")) {
      part.hidden = part.dataset.air !== name;
    }
    for (const tab of document.querySelectorAll("button[data-air]")) {
      tab.setAttribute("aria-pressed", String(tab.dataset.air === name));
    }
    if (name === "sheet") {
      loadSheet().then((there) => there && showSheet());
    }
    desk.keep();
  }
  for (const tab of document.querySelectorAll("button[data-air]")) {
    tab.addEventListener("click", () => showPart(tab.dataset.air));
  }

  return {
    print,
    // begin takes up another file, or the same changed.
    begin() {
      const { file } = bench.now();
      sheet = null;
      options(by("air-control"), file.controls.map((c) => ({ value: c.name, words: c.name })), state.control);
      options(by("air-end"), file.ends.map((e) => ({ value: e.name, words: e.label })), state.end);
      showPart(state.part ?? "read");
    },
    judged(answer) {
      judged = answer;
      stand = answer.stand;
      verdict(answer.verdict.mark, answer.verdict.headline);
      const list = answer.series.map((s, i) => ({ value: String(i), words: s.label, kind: s.kind })).filter((s) => bench.words.told.has(s.kind));
      const wanted = list.find((s) => s.words === state.series) ?? list.find((s) => s.kind === "output") ?? list[0];
      options(by("air-series"), list, wanted?.value);
      limits();
      showFigure();
      showEnd();
    },
    // unjudged says why there is no verdict: no figure is told either.
    unjudged(why) {
      judged = null;
      verdict("short", why);
      by("air-figure").textContent = "";
      by("air-thread").textContent = "";
    },
    stood(now) {
      stand = now;
      showFigure();
    },
    state,
  };
}
