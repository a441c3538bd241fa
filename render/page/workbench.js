// workbench is the page where settings are tried: what is tried lives here and goes to
// fullfree with every call; every figure comes from there. The carrier takes the calls
// there and brings the answers back:
//
//   ask(call, body, signal)  a promise of { ok, said }; it fails where nobody answers
//   gone                     what to do where nobody answers
//   lean                     how sure answers are is asked for by a second call
//   watches                  the file may change by itself
//   shut(why)                shows nothing but why
//   title()                  the title of the page; may be left out
//   judged(answer), unjudged(why), stood(stand)   are told what is shown; may be left out
//   saved(answer)            a promise: what was written is taken up; may be left out
//
// What it returns is how a page of several parts goes on with it.
function workbench(carrier) {
  "use strict";

  const by = (id) => document.getElementById(id);

  let file = null; // what can be moved and set
  // bare holds what names from the file are keys of: nothing but them is in it,
  // whatever they are ("constructor").
  const bare = (entries) => Object.assign(Object.create(null), Object.fromEntries(entries || []));
  let trial = { turns: bare(), stops: bare(), varies: bare(), at: bare(), moves: "" };
  let judged = null; // the newest answer to a trial
  // The pictures: of a run by itself one, of an aircraft one a run, by the name of its
  // run. Each has which it is, and show, which moves it.
  const pictures = new Map();
  let frames = null; // where its bodies stand
  let values = null; // and what is told there, by series
  let cells = []; // of the readings: by series, null where one isn't told
  let rows = { ends: new Map(), stops: new Map(), varies: new Map(), controls: new Map() };
  // Answers to what has been changed since they were asked for are dropped.
  let settings = 0;
  let moves = 0;
  let shown = null; // where the run was last shown standing

  // element makes an element with properties and what it holds.
  function element(name, properties, ...inside) {
    const made = document.createElement(name);
    for (const [key, value] of Object.entries(properties || {})) {
      if (key in made) {
        made[key] = value;
      } else {
        made.setAttribute(key, value);
      }
    }
    made.append(...inside);
    return made;
  }

  function button(words, name, does) {
    const made = element("button", { type: "button", textContent: words });
    made.setAttribute("aria-label", name);
    made.addEventListener("click", does);
    return made;
  }

  // --- figures ---

  // fraction is a length in parts of an inch, in lowest terms.
  function fraction(v, parts) {
    const count = Math.round(Math.abs(v) * parts);
    let [above, below] = [count % parts, parts];
    while (above > 0 && above % 2 === 0) {
      above /= 2;
      below /= 2;
    }
    const whole = Math.floor(count / parts);
    const words = [whole > 0 || above === 0 ? String(whole) : "", above > 0 ? above + "/" + below : ""];
    return (v < 0 && count > 0 ? "-" : "") + words.filter(Boolean).join(" ");
  }

  function withUnit(text, unit) {
    return unit === "" ? text : unit === "deg" ? text + "°" : text + " " + unit;
  }

  function figure(v, unit, decimals, parts) {
    if (v === null || v === undefined) {
      return "none";
    }
    if (parts) {
      return withUnit(fraction(v, parts), unit);
    }
    const text = v.toFixed(decimals);
    return withUnit(Number(text) === 0 ? text.replace("-", "") : text, unit);
  }

  // figureOf is a value of a series (seriesJSON.shown).
  function figureOf(v, series) {
    const text = figure(v, series.unit, series.decimals, series.parts);
    return series.kind === "ratio" && parseFloat(text) === 0 ? "hardly moves" : text;
  }

  // exact drops what adding steps leaves of rounding.
  const exact = (v) => Math.round(v * 1e6) / 1e6 + 0;

  // --- asking ---

  class Refused extends Error {}
  class Superseded extends Error {} // by what is asked next

  async function ask(call, body) {
    let answer;
    try {
      answer = await carrier.ask(call, body, body && call !== "save" ? answered.signal : undefined);
    } catch (why) {
      if (why.name === "AbortError") {
        throw new Superseded();
      }
      if (file === null) {
        carrier.shut("fullfree no longer answers.");
      }
      tellTrouble("gone", "fullfree no longer answers.", carrier.gone);
      throw why;
    }
    tellTrouble("gone", "");
    if (!answer.ok) {
      throw new Refused(answer.said.error);
    }
    return answer.said;
  }

  // answered is ended, and begun anew, when something else is tried: what was asked
  // before needs no answer any more, and fullfree gives it up.
  let answered = new AbortController();

  function settingsChange() {
    settings++;
    answered.abort();
    answered = new AbortController();
  }

  const asked = () => ({ hash: file.hash, turns: trial.turns, stops: trial.stops, varies: trial.varies, at: trial.at, moves: trial.moves });

  // newest sends what is wanted by then, one request at a time.
  function newest(send) {
    let busy = false;
    let wanted = false;
    return async function go() {
      wanted = true;
      if (busy) {
        return;
      }
      busy = true;
      try {
        while (wanted) {
          wanted = false;
          await send().catch((why) => {
            if (!(why instanceof Superseded)) {
              throw why;
            }
          });
        }
      } catch (why) {
        if (why instanceof Refused) {
          tellTrouble("refused", "fullfree refused this:", why.message);
        }
      } finally {
        busy = false;
      }
    };
  }

  const judge = newest(async () => {
    const [set, moved] = [settings, moves];
    const answer = await ask("try", carrier.lean ? { ...asked(), lean: true } : asked());
    tellTrouble("refused", "");
    if (answer.hash !== file.hash) {
      return reload();
    }
    if (set === settings) {
      showTrial(answer, moved);
      if (moved !== moves) {
        pose();
      }
      if (!answer.fault) {
        draw();
        beSure();
      }
    }
  });

  // beSure asks how sure the answers are, where they came without, once nothing else is
  // tried for a while.
  let unsure = 0;
  const patience = 400; // ms
  function beSure() {
    clearTimeout(unsure);
    if (carrier.lean) {
      unsure = setTimeout(sure, patience);
    }
  }

  const sure = newest(async () => {
    const [set, moved] = [settings, moves];
    const answer = await ask("try", asked());
    if (set === settings && answer.hash === file.hash && !answer.fault) {
      showTrial(answer, moved);
      const whole = await ask("workbench");
      if (whole.hash === file.hash) {
        showScope(whole);
      }
    }
  });

  const pose = newest(async () => {
    const [set, moved] = [settings, moves];
    const answer = await ask("pose", asked());
    if (answer.hash !== file.hash) {
      return reload();
    }
    await new Promise(requestAnimationFrame);
    if (set === settings && answer.fault) {
      if (judged) { // else that has been told
        tellTrouble("setting", "There the run can't stand:", answer.fault);
      }
    } else if (set === settings) {
      tellTrouble("setting", "");
      showStand(answer.stand, moved);
    }
  });

  // draw asks for the picture of what is tried, where the ends of the travel
  // stand as they now are.
  const draw = newest(async () => {
    const set = settings;
    const known = bare([...pictures].map(([name, one]) => [name, one.picture]));
    const answer = await ask("picture", { ...asked(), picture: known[""] || "", pictures: known });
    if (set !== settings || answer.hash !== file.hash) {
      return;
    }
    const list = answer.pictures || [{ name: "", picture: answer.picture, svg: answer.svg }];
    if (list.length !== pictures.size || list.some((one) => !pictures.has(one.name))) {
      pictures.clear();
      by("picture").replaceChildren();
    }
    document.querySelector(".workbench").classList.toggle("several", list.length > 1);
    list.forEach(showPicture);
    showFrames();
  });

  // showPicture takes up a picture; where the page has it already, only what moves it.
  function showPicture(one) {
    let own = pictures.get(one.name);
    if (!own) {
      const inside = element("div", {});
      own = { inside, figure: one.name === "" ? inside : element("figure", {}, element("figcaption", {}, one.title), inside) };
      pictures.set(one.name, own);
      by("picture").append(own.figure);
    }
    Object.assign(own, { bodies: one.bodies, series: one.series, moves: one.moves });
    if (!one.svg) {
      return;
    }
    const drawn = new DOMParser().parseFromString(one.svg, "image/svg+xml");
    own.inside.replaceChildren(document.importNode(drawn.documentElement, true));
    own.picture = one.picture;
    own.show = motion(own.inside);
  }

  // showFrames puts every picture where the run stands: of an aircraft's frames and values
  // each takes its own.
  function showFrames() {
    if (!frames) {
      return;
    }
    const each = 12; // numbers of a frame
    for (const { show, bodies, series } of pictures.values()) {
      if (show) {
        show(bodies ? bodies.flatMap((b) => frames.slice(each * b, each * (b + 1))) : frames, series ? series.map((s) => values[s]) : values);
      }
    }
  }

  // look brings a picture into sight that a control moves, where they lie side by side or
  // one below the other in a box of their own; the page itself stays where it is.
  function look(control) {
    const first = [...pictures.values()].find((one) => one.moves && one.moves.includes(control));
    for (const box of first ? [by("picture"), document.querySelector(".seen")] : []) {
      const [at, room] = [first.figure.getBoundingClientRect(), box.getBoundingClientRect()];
      if (box.scrollWidth > box.clientWidth && (at.left < room.left || at.right > room.right)) {
        box.scrollLeft += at.left - room.left;
      }
      if (box.scrollHeight > box.clientHeight && (at.top < room.top || at.bottom > room.bottom)) {
        box.scrollTop += at.top - room.top;
      }
    }
  }

  // --- trouble ---

  const troubles = new Map();

  // tellTrouble shows what is wrong, the newest of its kind; no words: nothing is.
  function tellTrouble(kind, what, why) {
    troubles.delete(kind);
    if (what) {
      troubles.set(kind, { what, why: why || "" });
    }
    const all = [...troubles.values()];
    const text = all.map((t) => t.what + "\n" + t.why).join("\n");
    by("trouble").hidden = all.length === 0;
    if (by("trouble").dataset.text !== text) {
      by("trouble").dataset.text = text;
      by("trouble-what").textContent = all.length > 0 ? all[0].what : "";
      by("trouble-why").textContent = all.map((t, i) => (i > 0 ? t.what + "\n" : "") + t.why).join("\n\n");
      if (all.length > 0) {
        announce(text);
      }
    }
    const old = troubles.has("file") ? "The picture and the figures are of the file as it last read well." :
      troubles.has("setting") ? "The picture and the figures are of the last setting that could be judged." : "";
    by("stale").hidden = old === "";
    by("stale").textContent = old;
    by("picture").classList.toggle("old", old !== "");
    offerToKeep();
  }

  function announce(words) {
    by("told").textContent = words;
  }

  // --- the rows ---

  function build() {
    shown = null;
    document.title = carrier.title?.() ?? file.run + ": the workbench";
    by("run").textContent = file.run;
    by("view").textContent = file.view;
    by("nothing").hidden = file.nothing === "";
    by("nothing").textContent = file.nothing;
    by("example").hidden = file.example === "";
    by("example").textContent = file.example;
    by("keeping").hidden = file.ends.length + file.stops.length + file.varies.length === 0;
    by("save").textContent = "Save into " + file.saves;
    showScope(file);
    by("caution").textContent = file.caution;
    by("origin").textContent = file.origin;
    tellTrouble("file", file.faults ? "The file can't be read as it is now:" : "", file.faults);
    rows = { ends: new Map(), stops: new Map(), varies: new Map(), controls: new Map() };
    by("controls").replaceChildren(...file.controls.map(controlRow));
    by("ends").replaceChildren(...file.ends.map(endRow));
    by("stops").replaceChildren(...file.stops.map(stopRow));
    by("varies").replaceChildren(...file.varies.map(varyRow));
    showSet();
  }

  // showScope tells what the answers rest on.
  function showScope(of) {
    by("scope").replaceChildren(...of.scope.map((words) => element("li", {}, words)));
  }

  function controlRow(control) {
    const now = element("span", { className: "now number" });
    const slider = element("input", { type: "range", step: "any", min: "-1", max: "1", value: "0" });
    slider.setAttribute("aria-label", control.name + ", " + (control.minus || "minus") + " to " + (control.plus || "plus"));
    const low = element("span", {});
    const high = element("span", {});
    const filed = element("p", { className: "small quiet" });
    const row = { control, slider, now, low, high, filed };
    rows.controls.set(control.name, row);
    const go = (x) => {
      slider.value = x;
      moved(row);
      settle();
    };
    slider.addEventListener("input", () => moved(row));
    slider.addEventListener("change", settle);
    slider.addEventListener("keydown", (event) => {
      const travel = slider.max - slider.min;
      const share = { ArrowLeft: -1 / 200, ArrowDown: -1 / 200, ArrowRight: 1 / 200, ArrowUp: 1 / 200, PageDown: -1 / 20, PageUp: 1 / 20 }[event.key];
      const to = { Home: Number(slider.min), End: Number(slider.max) }[event.key];
      if (share !== undefined || to !== undefined) {
        event.preventDefault();
        go(to === undefined ? Number(slider.value) + share * travel : to);
      }
    });
    return element("fieldset", { className: "control" },
      element("legend", {}, control.name + ": ", now),
      slider,
      element("div", { className: "sides" }, element("span", {}, control.minus || "minus", element("br"), low), element("span", {}, control.plus || "plus", element("br"), high)),
      filed,
      element("div", { className: "row" },
        button("low end", "low end, " + control.name, () => go(Number(slider.min))),
        button("neutral", "neutral, " + control.name, () => go(0)),
        button("high end", "high end, " + control.name, () => go(Number(slider.max)))));
  }

  // moved takes a control to where its slider is.
  function moved(row) {
    moves++;
    if (trial.moves !== row.control.name) {
      look(row.control.name);
    }
    trial.moves = row.control.name;
    trial.at[row.control.name] = Number(row.slider.value);
    showControl(row, Number(row.slider.value));
    pose();
  }

  // settle asks, once a control stands, how far the others go with it there.
  function settle() {
    if (file.controls.length > 1) {
      judge();
    }
  }

  function showControl(row, at) {
    const { unit, plus, minus } = row.control;
    const words = figure(at, unit, 1, unit === "in" ? 64 : 0);
    const side = Math.abs(at) < 0.05 && unit !== "in" || at === 0 ? "neutral" : at > 0 ? plus : minus;
    row.now.textContent = side ? words + ", " + side : words;
    row.slider.setAttribute("aria-valuetext", row.now.textContent);
  }

  function endRow(end) {
    const turns = element("span", { className: "turns" }, "as filed");
    const thread = element("div", {});
    const length = element("p", {});
    const turn = (way) => () => {
      const to = exact((trial.turns[end.name] || 0) + way * end.step);
      delete trial.turns[end.name];
      if (to !== 0) {
        trial.turns[end.name] = to;
      }
      changed();
    };
    const row = element("li", {},
      element("h3", {}, end.label),
      element("p", { className: "small quiet" }, end.thread + ", " + end.goes),
      element("div", { className: "row" },
        button("in", "in: " + end.name, turn(-1)),
        button("out", "out: " + end.name, turn(1)),
        turns),
      thread, length);
    rows.ends.set(end.name, { row, turns, thread, length });
    return row;
  }

  function stopRow(stop) {
    const input = element("input", { type: "number", step: "any", min: String(stop.low), max: String(stop.high), value: String(stop.filed) });
    input.setAttribute("aria-label", stop.name + ", " + stop.unit);
    const words = element("span", { className: "turns" }, "as filed");
    const set = (at) => {
      const to = exact(Math.min(stop.high, Math.max(stop.low, at)));
      delete trial.stops[stop.name];
      if (to !== stop.filed) {
        trial.stops[stop.name] = to;
      }
      input.value = String(to);
      changed();
    };
    const now = () => trial.stops[stop.name] ?? stop.filed;
    input.addEventListener("change", () => set(Number.isFinite(input.valueAsNumber) ? input.valueAsNumber : now()));
    const row = element("li", {},
      element("h3", {}, "the stop " + stop.name + ", of " + stop.of),
      element("p", { className: "small quiet" }, "from " + withUnit(String(stop.low), stop.unit) + " to " + withUnit(String(stop.high), stop.unit) + ", by " + withUnit(String(stop.step), stop.unit)),
      element("div", { className: "row" },
        button("−", "less: " + stop.name, () => set(now() - stop.step)),
        input,
        button("+", "more: " + stop.name, () => set(now() + stop.step)),
        words));
    rows.stops.set(stop.name, { row, input, words });
    return row;
  }

  // varyRow is of a dimension that may vary: in a range, or a place to choose.
  function varyRow(vary) {
    const words = element("span", { className: "turns" }, "as filed");
    const set = (to) => {
      delete trial.varies[vary.name];
      if (to !== null) {
        trial.varies[vary.name] = to;
      }
      changed();
    };
    const about = vary.choices.length > 0 ? "one of " + vary.choices.length : "from " + withUnit(String(vary.low), vary.unit) + " to " + withUnit(String(vary.high), vary.unit);
    const input = vary.choices.length > 0 ? element("select", {}) : element("input", { type: "number", step: "any", min: String(vary.low), max: String(vary.high), value: String(vary.filed) });
    input.setAttribute("aria-label", vary.label + ", " + vary.unit);
    const buttons = [];
    let show;
    if (vary.choices.length > 0) {
      input.append(element("option", { value: "" }, vary.words + ", as filed"), ...vary.choices.map((choice, i) => element("option", { value: String(i) }, choice)));
      input.addEventListener("change", () => set(input.value === "" || vary.choices[Number(input.value)] === vary.words ? null : Number(input.value)));
      show = () => {
        input.value = String(trial.varies[vary.name] ?? "");
      };
    } else {
      const now = () => trial.varies[vary.name] ?? vary.filed;
      const go = (at) => {
        const to = exact(Math.min(vary.high, Math.max(vary.low, at)));
        set(to === vary.filed ? null : to);
      };
      input.addEventListener("change", () => go(Number.isFinite(input.valueAsNumber) ? input.valueAsNumber : now()));
      buttons.push(button("−", "less: " + vary.label, () => go(now() - vary.step)), button("+", "more: " + vary.label, () => go(now() + vary.step)));
      show = () => {
        input.value = String(now());
      };
    }
    const row = element("li", {},
      element("h3", {}, vary.label),
      element("p", { className: "small quiet" }, about),
      element("div", { className: "row" }, ...buttons.slice(0, 1), input, ...buttons.slice(1), words));
    rows.varies.set(vary.name, {
      row,
      show: () => {
        show();
        words.textContent = vary.name in trial.varies ? "filed " + withUnit(vary.words, vary.choices.length > 0 ? "" : vary.unit) : "as filed";
      },
    });
    return row;
  }

  // turnsWords tells turns, and which way.
  function turnsWords(turns) {
    if (turns === 0) {
      return "as filed";
    }
    const many = { 0.5: "half a turn", 1: "1 turn" }[Math.abs(turns)] || Math.abs(turns) + " turns";
    return many + (turns > 0 ? " out" : " in");
  }

  // showSet shows what is tried in the rows, before it is judged.
  function showSet() {
    for (const [name, row] of rows.ends) {
      row.turns.textContent = turnsWords(trial.turns[name] || 0);
      row.row.classList.toggle("changed", name in trial.turns);
    }
    for (const [name, row] of rows.stops) {
      row.row.classList.toggle("changed", name in trial.stops);
    }
    for (const [name, row] of rows.varies) {
      row.row.classList.toggle("changed", name in trial.varies);
      row.show();
    }
  }

  // changed judges what is tried anew.
  function changed() {
    settingsChange();
    note("");
    showSet();
    offerToKeep();
    judge();
  }

  const tries = () => Object.keys(trial.turns).length + Object.keys(trial.stops).length + Object.keys(trial.varies).length > 0;

  function offerToKeep() {
    const known = judged !== null && judged.settings === settings && !troubles.has("setting") && !troubles.has("file");
    disable(by("save"), !known || judged.unsaveable !== "" || judged.writes.length === 0);
    disable(by("revert"), !tries());
  }

  // disable keeps the focus near a button that loses it.
  function disable(one, off) {
    if (off && document.activeElement === one) {
      by("writes").focus({ preventScroll: true });
    }
    one.disabled = off;
  }

  // note shows what happened, until something else is tried.
  function note(words) {
    by("note").hidden = words === "";
    by("note").textContent = words;
    if (words !== "") {
      announce(words);
    }
  }

  // --- the answers ---

  // showTrial shows how the run fares as it is set; moved is how often a slider had
  // been moved when that was asked for.
  function showTrial(answer, moved) {
    const still = moved === moves;
    if (answer.fault) {
      judged = null;
      carrier.unjudged?.(answer.fault);
      tellTrouble("setting", "So set, the run can't be judged:", answer.fault);
      return;
    }
    const before = judged;
    judged = { ...answer, settings };
    carrier.judged?.(judged);
    tellTrouble("setting", "");
    by("verdict").className = "verdict " + answer.verdict.mark;
    by("headline").textContent = answer.verdict.headline;
    by("filed").textContent = tries() ? "As filed: " + answer.filed.headline : "That is as filed; nothing is tried.";
    by("beside").hidden = answer.beside.length === 0;
    by("beside").replaceChildren(...answer.beside.map((words) => element("li", {}, words)));
    by("no-requirements").hidden = answer.requirements.length > 0;
    by("requirements").replaceChildren(...answer.requirements.map(requirementRow));
    answer.ends.forEach(showEnd);
    answer.stops.forEach(showStop);
    answer.controls.forEach((c) => showTravel(c, answer.stand.at[c.name], still));
    showReadings(answer.series);
    showStand(answer.stand, moved);
    showWrites(answer.writes, answer.unsaveable);
    offerToKeep();
    if (before && before.settings !== settings) {
      announce(tries() ? answer.verdict.headline : "As filed. " + answer.verdict.headline);
    }
  }

  function requirementRow(r) {
    const cell = (head, ...inside) => element("td", { "data-head": head }, ...inside);
    const met = (m) => [element("span", { className: "mark " + m.mark }, m.words), " " + m.worst];
    return element("tr", { className: r.changed ? "differs" : "" },
      element("th", { scope: "row" }, r.title, element("span", { className: "says" }, r.says)),
      cell("asked", r.limit),
      cell("as set here", ...met(r.now)),
      cell("as filed", ...met(r.filed)),
      cell("changed", r.changed ? element("span", { className: "changed-cell" }, r.changed) : ""));
  }

  function showEnd(end) {
    const row = rows.ends.get(end.name);
    if (!row) {
      return;
    }
    row.thread.replaceChildren(...end.thread.map((t) => element("p", {},
      (end.thread.length > 1 ? t.end + ": " : "") + "thread in " + end.in + " ", element("strong", {}, t.in_rod), " of " + t.least + " least",
      t.in_rod !== t.filed ? " (filed " + t.filed + ")" : "",
      t.fault ? element("strong", {}, ": FALLS SHORT, " + t.fault) : "")));
    row.length.replaceChildren(end.of + " ", element("strong", {}, end.length), end.length !== end.filed ? " (filed " + end.filed + ")" : "",
      ...end.pulls.map((p) => element("span", { className: "pull" },
        p.cable + " pulls ", element("strong", {}, p.now), p.now !== p.filed ? " (filed " + p.filed + ")" : "", " at neutral")));
  }

  function showStop(stop) {
    const row = rows.stops.get(stop.name);
    if (!row) {
      return;
    }
    row.words.textContent = stop.words === stop.filed ? "as filed" : "filed " + stop.filed;
    if (document.activeElement !== row.input) {
      row.input.value = String(stop.at);
    }
  }

  function showTravel(control, at, still) {
    const row = rows.controls.get(control.name);
    if (!row) {
      return;
    }
    row.slider.disabled = control.low === null;
    if (control.low !== null) {
      row.slider.min = String(control.low);
      row.slider.max = String(control.high);
    }
    if (still) {
      row.slider.value = String(at);
      showControl(row, at);
    }
    row.low.textContent = control.words[0];
    row.high.textContent = control.words[1];
    const same = control.words[0] === control.filed[0] && control.words[1] === control.filed[1];
    row.filed.textContent = same ? "Stop to stop as filed." : "Stop to stop changed; as filed " + control.filed[0] + " to " + control.filed[1] + ".";
  }

  const told = new Set(["part", "output", "stop", "rod-angle", "needed", "tension", "free", "requirement"]);

  function showReadings(series) {
    const list = [];
    cells = series.map((s) => {
      if (!told.has(s.kind)) {
        return null;
      }
      const now = element("td", { className: "number" });
      const filed = element("td", { className: "number" });
      const row = element("tr", {}, element("th", { scope: "row" }, s.label), now, filed);
      list.push(row);
      return { row, now, filed };
    });
    by("readings").replaceChildren(...list);
  }

  // showStand shows where the run stands; moved is how often a slider had been moved
  // when that was asked for. An answer that comes after that to a later question shows
  // nothing: the picture would jump back.
  function showStand(stand, moved) {
    if (judged === null) {
      return;
    }
    if (shown !== null && shown.settings === settings && shown.moved > moved) {
      ({ stand, moved } = shown);
    }
    shown = { stand, moved, settings };
    const still = moved === moves;
    if (stand.position.values.length !== judged.series.length) {
      judge(); // a pair of cables hangs slack now, or no longer: there are other figures
      return;
    }
    frames = stand.position.frames;
    values = stand.position.values;
    showFrames();
    carrier.stood?.(stand);
    if (still) {
      for (const [name, at] of Object.entries(stand.at)) {
        const row = rows.controls.get(name);
        if (row) {
          trial.at[name] = at;
          if (document.activeElement !== row.slider) {
            row.slider.value = String(at);
          }
          showControl(row, at);
        }
      }
    }
    const places = file.controls.map((c) => c.name + " at " + figure(stand.at[c.name], c.unit, 1, c.unit === "in" ? 64 : 0));
    by("readout-note").textContent = "With " + places.join(", ") + "." + (tries() && stand.filed === null ? " As filed it doesn't get there." : "");
    judged.series.forEach((series, i) => {
      const cell = cells[i];
      if (!cell) {
        return;
      }
      const now = figureOf(stand.position.values[i], series);
      const filed = stand.filed ? figureOf(stand.filed[i], series) : tries() ? "none" : now;
      if (cell.now.textContent !== now) {
        cell.now.textContent = now;
      }
      if (cell.filed.textContent !== filed) {
        cell.filed.textContent = filed;
      }
      cell.row.classList.toggle("differs", filed !== now && filed !== "none");
    });
  }

  function showWrites(writes, unsaveable) {
    by("writes").replaceChildren(...(unsaveable !== "" ? [element("p", {}, "This can't be saved. " + unsaveable)] : writes.length === 0 ?
      [element("p", { className: "quiet" }, "Nothing is tried, so there is nothing to save.")] :
      [element("p", {}, "Saving writes into " + filesOf(writes) + ":"),
        element("ul", {}, ...writes.map((w) => element("li", {}, w.name + ": " + w.was + " → " + w.now)))]));
  }

  // filesOf names the files that numbers stand in.
  const filesOf = (writes) => [...new Set(writes.map((w) => w.file))].join(" and ");

  // --- keeping ---

  by("save").addEventListener("click", async () => {
    disable(by("save"), true);
    try {
      const answer = await ask("save", asked());
      await carrier.saved?.(answer);
      trial = { ...trial, turns: bare(), stops: bare(), varies: bare() };
      settingsChange();
      await reload();
      note("Saved into " + (filesOf(answer.saved) || file.file) + ": " + answer.saved.map((w) => w.name + " " + w.now).join(", ") + "." + answer.lost.map((what) => " But " + what + ".").join(""));
    } catch (why) {
      if (why instanceof Refused) {
        tellTrouble("refused", "Not saved:", why.message);
      }
    } finally {
      offerToKeep();
    }
  });

  by("revert").addEventListener("click", () => {
    trial = { ...trial, turns: bare(), stops: bare(), varies: bare() };
    tellTrouble("refused", "");
    changed();
  });

  // known is what of a trial the file has.
  function known(of) {
    const kept = (list, values) => bare(Object.entries(values ?? {}).filter(([name, v]) => typeof v === "number" && list.some((one) => one.name === name)));
    return {
      turns: kept(file.ends, of.turns),
      stops: kept(file.stops, of.stops),
      varies: kept(file.varies, of.varies),
      at: kept(file.controls, of.at),
      moves: file.controls.some((c) => c.name === of.moves) ? of.moves : "",
    };
  }

  // reload takes up the file as it is now; what is tried stays where its names do.
  async function reload() {
    const now = await ask("workbench", carrier.lean ? { lean: true } : undefined);
    const differs = now.hash !== file.hash; // from what is known by now: another reload may have been quicker
    file = now;
    trial = known(trial);
    settingsChange();
    const focus = document.activeElement.getAttribute("aria-label");
    build();
    if (focus && document.activeElement === document.body) {
      const again = [...document.querySelectorAll("[aria-label]")].find((one) => one.getAttribute("aria-label") === focus);
      again?.focus({ preventScroll: true });
    }
    if (differs && carrier.watches) { // else it was changed here
      note(file.file + " has changed, and this is how it is now." + (tries() ? " What is tried is counted from there." : ""));
    }
    await judge();
  }

  // --- the beginning ---

  // watch looks every second, while the page is seen, if the file has changed.
  const watch = newest(async () => {
    const answer = await ask("file");
    tellTrouble("file", answer.faults ? "The file can't be read as it is now:" : "", answer.faults);
    if (answer.hash !== file.hash) {
      await reload();
    }
  });
  if (carrier.watches) {
    setInterval(() => {
      if (file && document.visibilityState === "visible") {
        watch();
      }
    }, 1000);
  }

  // begin shows a file, with nothing tried.
  function begin(now) {
    file = now;
    trial = { turns: bare(), stops: bare(), varies: bare(), at: bare(), moves: "" };
    judged = null;
    pictures.clear();
    by("picture").replaceChildren();
    settingsChange();
    moves++;
    note("");
    tellTrouble("setting", "");
    tellTrouble("refused", "");
    by("unlocked").hidden = false;
    build();
    return judge();
  }

  const start = newest(async () => {
    await begin(await ask("workbench"));
  });

  return {
    start,
    begin,
    reload,
    asked,
    // set tries a setting, in place of what is tried.
    set(setting) {
      trial = { ...trial, turns: bare(Object.entries(setting.turns)), stops: bare(Object.entries(setting.stops)), varies: bare(Object.entries(setting.varies)) };
      changed();
    },
    // restore tries what was tried another time.
    restore(of) {
      trial = known(of);
      changed();
    },
    // turn turns an end further than it is tried.
    turn(name, turns) {
      const to = exact((trial.turns[name] || 0) + turns);
      delete trial.turns[name];
      if (to !== 0) {
        trial.turns[name] = to;
      }
      changed();
    },
    // move takes a control to a place.
    move(name, at, settled) {
      const row = rows.controls.get(name);
      row.slider.value = at;
      moved(row);
      if (settled) {
        settle();
      }
    },
    faults: (words) => tellTrouble("file", words ? "The file can't be read as it is now:" : "", words),
    now: () => ({ file, judged, trial, shown, rows }),
    words: { turns: turnsWords, figure, figureOf, told },
    element,
    button,
  };
}
