// photoPart is the photograph under the sketch, in the template "measure-photo", which a
// page holds once. The photo stays in the page.
//
//   ask(call, body)   as in a carrier: a promise of { ok, said }
//   state       what is to be kept of it, in an object of its own that this part fills:
//               { picks: [{ place, x, y, depth }], tapes: [{ from, to, is, within }],
//               levels: [{ from, to, is }], distance, photo: { name, bytes, width, height } or
//               null, keep }. Empty at first; where it is replaced, call restore(state)
//   places(), lines(), units()   as touchSheet asks for them, without x and y
//   datum()     the place that is [0, 0] in the run, "airframe.shaft"
//   view()      "left" and so on, for the level; may be left out
//   take(places, sketch, uncertain, told)   takes [{ place, x, y, within }] of the answer, as text, and
//               what was told of the photo: { picks, tapes, levels }
//   changed()   what is in state was changed by its user
//   announce(words)
//   level       what levelPart returns; may be left out
//
// It returns
//
//   restore(state)   a promise: takes up what was kept; the photo too, where that was asked
//   show()      places, lines or units are others, or it came in sight
//   renamed(from, to)   a place has another name
//   close()     lets go of the photo, out of memory
//
// photoStore() keeps the photo in this browser, where that is asked: keep(file), load(),
// erase(), all promises that never fail; "Erase what is kept here" calls erase().
function photoPart(desk) {
  "use strict";

  const by = (id) => document.getElementById(id);
  const { announce } = desk;
  const store = photoStore();
  const lines = desk.lines ?? (() => []);
  let state = desk.state;
  let bitmap = null;
  let file = null; // that the bitmap is of
  let answer = null; // the newest, to what is picked and typed by now
  let dropped = null; // picks that can be brought back

  function tell(what) {
    by("photo-note").hidden = what === "";
    by("photo-note").textContent = what;
    if (what) {
      announce(what);
    }
  }

  const counted = (n, what) => n + " " + what + (n === 1 ? "" : "s");

  // whole gives a state all that it is to have, and drops what isn't sound: others may write
  // where it is kept.
  function whole() {
    const texts = (of, keys) => of !== null && typeof of === "object" && keys.every((key) => typeof of[key] === "string");
    for (const [list, keys] of [["picks", ["place", "depth"]], ["tapes", ["from", "to", "is", "within"]], ["levels", ["from", "to", "is"]]]) {
      state[list] = (Array.isArray(state[list]) ? state[list] : []).filter((of) => texts(of, keys) && (list !== "picks" || Number.isFinite(of.x) && Number.isFinite(of.y)));
    }
    state.distance = typeof state.distance === "string" ? state.distance : "";
    state.photo = texts(state.photo ?? null, ["name"]) ? state.photo : null;
    state.keep = state.keep === true;
  }
  whole();

  // --- the sheet ---

  const named = () => new Map(sheetPlaces().map((one) => [one.name, one]));
  const words = (one) => (one.letter ? one.letter + " " : "") + one.name;
  const pickOf = (name) => state.picks.find((pick) => pick.place === name);

  function sheetPlaces() {
    return desk.places().map((one) => {
      const pick = pickOf(one.name);
      return { ...one, x: pick ? pick.x : null, y: pick ? pick.y : null };
    });
  }

  // picked are the picks of places that there still are.
  function picked() {
    const all = named();
    return state.picks.filter((pick) => all.has(pick.place));
  }

  const sheet = touchSheet({
    box: by("photo-sheet"),
    picture: () => bitmap,
    units: desk.units,
    places: sheetPlaces,
    lines,
    put(name, x, y) {
      const pick = pickOf(name);
      if (x === null) {
        state.picks = state.picks.filter((one) => one !== pick);
      } else if (pick) {
        Object.assign(pick, { x, y });
      } else {
        state.picks.push({ place: name, x, y, depth: "" });
        dropped = null;
      }
      took();
    },
    told: announce,
  });

  // --- the photo ---

  function release() {
    bitmap?.close();
    [bitmap, file] = [null, null];
  }

  // take takes a photo up, unless it can't be that which the picks are of; it is true where
  // that was done.
  let taking = 0;
  async function take(chosen) {
    const number = ++taking;
    tell("Reading " + chosen.name + " ...");
    let made;
    try {
      made = await readPhoto(chosen);
    } catch (why) {
      if (number === taking) {
        tell(why.message + (bitmap ? " What was there stays." : ""));
      }
      return false;
    }
    if (number !== taking) {
      made.close(); // another was chosen meanwhile
      return false;
    }
    const { width, height } = made;
    const before = state.photo;
    const picks = state.picks.length;
    if (picks > 0 && before && (before.width !== width || before.height !== height)) {
      made.close();
      tell(chosen.name + " is " + width + " by " + height + " pixels here, and what was picked is on " + before.name + ", " + before.width + " by " + before.height + ": choose that, or drop the picks first.");
      return false;
    }
    const same = !before || (before.name === chosen.name && before.bytes === chosen.size);
    release();
    [bitmap, file] = [made, chosen];
    state.photo = { name: chosen.name, bytes: chosen.size, width, height };
    tell(chosen.name + " lies under the sketch." + (picks > 0 && !same ? " The picks were made on " + before.name + ": look whether each is still right, or drop them." : ""));
    return true;
  }

  by("photo-choose").addEventListener("click", () => by("photo-file").click());
  by("photo-file").addEventListener("change", async () => {
    const [chosen] = by("photo-file").files;
    by("photo-file").value = "";
    if (chosen && await take(chosen)) {
      sheet.forget();
      show();
      took();
      if (state.keep) {
        await keep();
      }
    }
  });

  async function keep() {
    if (file && !await store.keep(file)) {
      state.keep = by("photo-keep").checked = false;
      desk.changed();
      tell("This browser has no room to keep the photo, or keeps nothing.");
    }
  }

  by("photo-keep").addEventListener("change", async () => {
    state.keep = by("photo-keep").checked;
    desk.changed();
    if (state.keep) {
      await keep();
    } else {
      await store.erase();
      tell("The photo is not kept any more.");
    }
  });

  by("photo-drop").addEventListener("click", () => {
    if (dropped) {
      [state.picks, dropped] = [dropped, null];
      tell("The picks are back.");
    } else {
      [dropped, state.picks] = [state.picks, []];
      tell(counted(dropped.length, "pick") + " dropped.");
    }
    sheet.forget();
    took();
  });

  // --- picks, distances, directions ---

  const choices = () => {
    const all = named();
    return picked().map((pick) => ({ name: pick.place, words: words(all.get(pick.place)) }));
  };
  const rows = {
    tapes: photoRows({ box: by("photo-tapes"), template: by("photo-tape-row"), list: () => state.tapes, fields: ["from", "to", "is", "within"], choices, label: "Distance", changed: took }),
    levels: photoRows({ box: by("photo-levels"), template: by("photo-level-row"), list: () => state.levels, fields: ["from", "to", "is"], choices, label: "Direction", changed: took,
      level: desk.level?.available() ? readLevel : undefined }),
  };

  async function readLevel(row) {
    const all = named();
    if (!all.has(row.from) || !all.has(row.to) || row.from === row.to) {
      tell("Choose from which place toward which the phone is to be laid.");
      return null;
    }
    const read = await desk.level.read({ from: words(all.get(row.from)), to: words(all.get(row.to)), view: desk.view?.() ?? "" });
    if (read) {
      tell(read.says);
    }
    return read ? read.is : null;
  }

  let pickRows = new Map(); // by place: { pick, item }
  function showPicks() {
    const all = named();
    const now = new Map();
    for (const pick of picked()) {
      const before = pickRows.get(pick.place);
      now.set(pick.place, before?.pick === pick ? before : { pick, item: pickRow(pick) });
    }
    const list = [...now.values()];
    if (list.length !== by("photo-picks").children.length || list.some(({ item }, i) => by("photo-picks").children[i] !== item)) {
      by("photo-picks").replaceChildren(...list.map(({ item }) => item));
    }
    pickRows = now;
    for (const { pick, item } of list) {
      const one = all.get(pick.place);
      const is = answer?.places.find((p) => p.place === pick.place);
      item.querySelector('[data-row="name"]').textContent = words(one);
      item.querySelector('[data-row="at"]').textContent = is ? is.x + ", " + is.y + ", within " + is.within + " " + desk.units() : "pixel " + pick.x.toFixed(1) + ", " + pick.y.toFixed(1);
      item.querySelector('[data-of="depth"]').setAttribute("aria-label", "Depth of " + words(one));
      item.querySelector('[data-row="remove"]').setAttribute("aria-label", "Remove the pick of " + words(one));
    }
    by("photo-drop").hidden = list.length === 0 && !dropped;
    by("photo-drop").textContent = dropped ? "Bring the picks back" : "Drop all picks";
  }

  function pickRow(pick) {
    const item = by("photo-pick-row").content.firstElementChild.cloneNode(true);
    const field = item.querySelector('[data-of="depth"]');
    field.value = pick.depth;
    field.addEventListener("input", () => {
      pick.depth = field.value;
      took();
    });
    item.querySelector('[data-row="remove"]').addEventListener("click", () => {
      state.picks = state.picks.filter((one) => one !== pick);
      took();
    });
    return item;
  }

  by("photo-distance").addEventListener("input", () => {
    state.distance = by("photo-distance").value;
    took();
  });

  const hints = [
    "The longest that can be taped, between two places that were picked.",
    "One scales it. Tape a second in another direction, best across the first: it tells how far from square the photo was taken.",
    "Four, all round and across, tell best how far from square the photo was taken.",
    "A fourth tells best how far from square the photo was taken.",
    "",
  ];
  const ready = (row) => row.from !== "" && row.to !== "" && row.is.trim() !== "";

  // took takes up what its user has changed.
  function took() {
    answer = null;
    showRest();
    desk.changed();
    reckon();
  }

  function showRest() {
    by("photo-sheet").hidden = bitmap === null;
    by("photo-rest").hidden = bitmap === null && state.picks.length === 0;
    by("photo-depth").textContent = desk.units() === "in" ? "2 in" : "50 mm";
    by("photo-rest").querySelector('[data-photo="units"]').textContent = desk.units();
    by("photo-hint").textContent = hints[Math.min(hints.length - 1, state.tapes.filter(ready).length)];
    by("photo-choose").textContent = bitmap ? "Choose another photo" : state.photo && state.picks.length > 0 ? "Choose " + state.photo.name + " again" : "Choose or take the photo";
    showPicks();
    rows.tapes.show();
    rows.levels.show();
    if (answer === null) {
      by("photo-use").disabled = true;
    }
  }

  // --- what it gives ---

  const { reckon } = photoQuestions({
    ask: desk.ask,
    // question is what is asked by now, and the rows that it is of; null: nothing.
    question() {
      const [picks, tapes, levels] = [picked(), state.tapes.filter(ready), state.levels.filter(ready)];
      if (picks.length === 0 || !state.photo) {
        return null;
      }
      const datum = desk.datum();
      const { width, height } = state.photo;
      return { rows: { picks, tapes, levels }, body: {
        units: desk.units(), width, height, datum: picks.some((pick) => pick.place === datum) ? datum : "",
        picks: picks.map(({ place, x, y, depth }) => ({ place, x, y, depth })), tapes, levels, distance: state.distance,
      } };
    },
    show: says,
  });

  // says shows an answer; asked are the rows that it is of.
  function says(of, asked) {
    answer = of;
    const at = (list) => of.faults.flatMap((fault) => {
      const [what, i, field] = fault.at.split(".");
      return what === list && asked[list][i] ? [{ row: asked[list][i], of: field, says: fault.says }] : [];
    });
    const picks = at("picks");
    for (const { pick, item } of pickRows.values()) {
      photoFaults(item, picks.filter(({ row }) => row === pick));
    }
    rows.tapes.faults(at("tapes"));
    rows.levels.faults(at("levels"));
    const distance = of.faults.find((fault) => fault.at === "distance")?.says ?? "";
    by("photo-distance").setAttribute("aria-invalid", String(distance !== ""));
    by("photo-distance-fault").hidden = distance === "";
    by("photo-distance-fault").textContent = distance;
    const others = of.faults.filter((fault) => !/^(picks|tapes|levels)\.\d+\.|^distance$/.test(fault.at)).map((fault) => fault.says);
    const told = [...others, ...(of.says.length > 0 || others.length === of.faults.length ? of.says : ["To mend above: " + of.faults[0].says + "."])];
    const before = by("photo-says").textContent;
    by("photo-verdict").className = "verdict " + of.mark;
    by("photo-says").replaceChildren(...told.map((one) => Object.assign(document.createElement("li"), { textContent: one })));
    by("photo-used").hidden = true;
    by("photo-use").disabled = of.places.length === 0 || of.faults.length > 0;
    showPicks();
    if (by("photo-says").textContent !== before && told.length > 0) {
      announce(told[0]);
    }
  }

  by("photo-use").addEventListener("click", () => {
    by("photo-used").hidden = false;
    if (answer && answer.places.length > 0) {
      desk.take(answer.places, answer.sketch, answer.uncertain, { picks: picked(), tapes: state.tapes.filter(ready), levels: state.levels.filter(ready) });
      tell(counted(answer.places.length, "place") + " put on the sketch.");
    }
  });

  // --- the beginning ---

  function show() {
    by("photo-keep").checked = state.keep;
    by("photo-distance").value = state.distance;
    showRest();
    sheet.show();
  }

  async function restore(of) {
    state = of;
    whole();
    release();
    [dropped, answer] = [null, null];
    pickRows = new Map();
    sheet.forget();
    show();
    const kept = state.keep && state.photo ? await store.load() : null;
    if (kept && kept.name === state.photo.name && kept.size === state.photo.bytes) {
      await take(kept);
    } else {
      tell(state.photo && state.picks.length > 0 ? counted(state.picks.length, "pick") + " kept; the photo is not. Choose " + state.photo.name + " again to go on picking." : "");
    }
    show();
    if (state.picks.length > 0) {
      reckon();
    }
  }

  // renamed takes up that a place has another name by now.
  function renamed(from, to) {
    for (const of of [...state.picks, ...state.tapes, ...state.levels]) {
      for (const key of ["place", "from", "to"]) {
        if (of[key] === from) {
          of[key] = to;
        }
      }
    }
    pickRows = new Map();
    show();
    reckon();
  }

  show();
  return {
    restore, show, renamed,
    close() {
      release();
      show();
    },
  };
}
