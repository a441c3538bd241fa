// measureModel is a run of one's own as the form of "No drawing" holds it, before there is a
// file: places, parts, rods, and what was taped. Each thing has a number by which the others
// know it, so that it may be renamed at any time. Whatever changes it can be undone.
function measureModel() {
  "use strict";

  const airframe = "airframe"; // which owns what is fixed
  const fresh = () => ({
    foreign: false, // a text that the form didn't write is filled in
    next: 1, title: "", units: "mm", view: "left", sketch: "", uncertain: "", heights: false, datum: 0,
    airframe: [], parts: [], rods: [],
    control: { name: "", of: 0, plus: "", minus: "", low: "", high: "" },
    output: { name: "", of: 0, plus: "", minus: "", low: "", high: "", within: "" },
    sense: { place: 0, goes: "", then: 0, is: "" },
    taped: [], skip: [],
  });
  let state = fresh();

  // --- names ---

  // cleaned is a name as a file takes it: small letters, digits and dashes, a letter first.
  const cleaned = (typed) => typed.toLowerCase().replace(/[\s_.]+/g, "-").replace(/[^\p{L}\p{N}-]/gu, "").replace(/^[^\p{L}]+/u, "");
  const trimmed = (name) => cleaned(name).replace(/-+$/, "");

  // unused is a name that none of the list has: the base, or that with a number.
  function unused(base, list) {
    let name = base;
    for (let i = 2; list.includes(name); i++) {
      name = base + "-" + i;
    }
    return name;
  }

  // places are all places, each with its number, the part that it is of (null: the airframe)
  // and its whole name, "lever.horn".
  function places() {
    const list = state.airframe.map((place) => ({ place, part: null, name: airframe + "." + place.name }));
    for (const part of state.parts) {
      list.push(...part.holes.map((place) => ({ place, part, name: part.name + "." + place.name })));
    }
    return list;
  }

  const placeOf = (id) => places().find((p) => p.place.id === id) ?? null;
  const partOf = (id) => state.parts.find((p) => p.id === id) ?? null;
  const nameOf = (id) => placeOf(id)?.name ?? "";
  const idOf = (name) => places().find((p) => p.name === name)?.place.id ?? 0;

  // carries says whether a part is carried by another one, or by what that carries.
  function carries(part, other) {
    for (let at = other, most = state.parts.length; at && most >= 0; most--) {
      if (at === part) {
        return true;
      }
      at = at.on ? placeOf(at.on)?.part : null;
    }
    return false;
  }

  // doubles are names that stand twice where one name can only be one thing.
  function doubles() {
    const list = [];
    if (state.foreign) {
      return list;
    }
    const look = (things, path, seen, what) => things.forEach((thing, i) => {
      const name = trimmed(thing.name);
      if (name !== "" && seen.has(name)) {
        list.push({ at: path(i) + ".name", says: "There is " + what + " named " + name + " already. Give this one another name." });
      }
      seen.add(name);
    });
    const all = new Set([airframe]);
    look(state.parts, (i) => "parts." + i, all, "something");
    look(state.rods, (i) => "rods." + i, all, "something");
    look(state.airframe, (i) => "airframe." + i, new Set(), "a fixed place");
    state.parts.forEach((part, i) => look(part.holes, (k) => "parts." + i + ".holes." + k, new Set(), "a hole"));
    return list;
  }

  // --- changes, which can be undone ---

  const most = 60; // changes that can be undone
  let past = [];
  let typing = ""; // the field that is typed in, whose letters are undone at once

  function mark(words, key) {
    if (key && key === typing) {
      return;
    }
    typing = key ?? "";
    past.push({ words, was: JSON.stringify(state) });
    past = past.slice(-most);
  }

  function newPlace(base, list) {
    const place = { id: state.next, name: unused(base, list.map((p) => p.name)), x: "", y: "", z: "" };
    state.next++;
    list.push(place);
    return place;
  }

  // pivotFor is a new place on the airframe for a part to turn on. It is named after the part
  // until somebody names it.
  function pivotFor(part) {
    const place = newPlace(part.name + "-pivot", state.airframe);
    place.auto = part.id;
    return place;
  }

  function addPart() {
    mark("adding a part");
    const taken = [...state.parts, ...state.rods].map((p) => p.name);
    const part = { id: state.next, name: unused("part-" + (state.parts.length + 1), taken), kind: "turns", on: 0, angle: "", holes: [] };
    state.next++;
    state.parts.push(part);
    part.on = pivotFor(part).id;
    newPlace("hole-1", part.holes);
    return part;
  }

  function addHole(part) {
    mark("adding a hole");
    return newPlace("hole-" + (part.holes.length + 1), part.holes);
  }

  function addFixed() {
    mark("adding a fixed place");
    return newPlace("place-" + (state.airframe.length + 1), state.airframe);
  }

  function addRod() {
    mark("adding a rod");
    const rod = { id: state.next, name: "", auto: true, from: 0, to: 0 };
    state.next++;
    state.rods.push(rod);
    nameRods();
    return rod;
  }

  // nameRods names rods that nobody has named after what they join.
  function nameRods() {
    const taken = state.parts.map((p) => p.name).concat(state.rods.filter((r) => !r.auto).map((r) => r.name));
    for (const rod of state.rods.filter((r) => r.auto)) {
      const [from, to] = [placeOf(rod.from), placeOf(rod.to)];
      const owner = (p) => p.part?.name ?? p.place.name;
      rod.name = unused(from && to ? trimmed(owner(from) + "-to-" + owner(to)) : "rod", taken);
      taken.push(rod.name);
    }
  }

  // rename takes a name over, and with it those that were made from it.
  function rename(thing, typed) {
    thing.name = cleaned(typed);
    delete thing.auto;
    for (const place of state.airframe.filter((p) => p.auto === thing.id)) {
      place.name = unused(trimmed(thing.name) + "-pivot", state.airframe.filter((p) => p !== place).map((p) => p.name));
    }
    nameRods();
  }

  // turnOn tells what a part turns on: a place, or a new one (new: true).
  function turnOn(part, how) {
    mark("what " + part.name + " turns on");
    const was = state.airframe.find((p) => p.id === part.on);
    [part.kind, part.on] = [how.kind, how.fresh ? 0 : how.on ?? 0];
    if (was?.auto === part.id && !used(was.id) && !placed(was)) { // it was made for this alone
      drop(was.id);
    }
    if (how.fresh) {
      part.on = pivotFor(part).id;
    }
  }

  // --- where they are ---

  // datum is the fixed place that all is told from: it is at 0, 0. Untold it is the first.
  const datum = () => state.airframe.find((p) => p.id === state.datum) ?? state.airframe[0] ?? null;
  const placed = (p) => p === datum() || (p.x.trim() !== "" && p.y.trim() !== "");

  // number is a figure as typed, "7 1/4", "7-1/4" or "187,5"; null: it isn't one. It is for
  // the sketch alone: what counts is read by fullfree.
  function number(typed) {
    const parts = /^\s*([+-]?)\s*(\d*[.,]?\d*)(?:(?:^|[\s+-])\s*(\d+)\s*\/\s*(\d+))?\s*$/.exec(typed.replace("−", "-"));
    if (!parts || parts[2] === "" && parts[3] === undefined || parts[2] === "." || Number(parts[4]) === 0) {
      return null;
    }
    const size = Number(parts[2].replace(",", ".")) + (parts[3] ? Number(parts[3]) / Number(parts[4]) : 0);
    return Number.isFinite(size) ? (parts[1] === "-" ? -size : size) : null;
  }

  // at is where a place is, in numbers; null: nowhere yet.
  function at(place) {
    if (place === datum()) {
      return { x: 0, y: 0 };
    }
    const [x, y] = [number(place.x), number(place.y)];
    return x === null || y === null ? null : { x, y };
  }

  const written = (v) => String(Math.round(v * 1e4) / 1e4 + 0);

  // shift moves all places but one, so that it is told from elsewhere.
  function shift(dx, dy, but) {
    for (const { place } of places()) {
      const was = at(place);
      if (place !== but && was) {
        [place.x, place.y] = [written(was.x + dx), written(was.y + dy)];
      }
    }
  }

  // tellFrom makes a place that by which all is told.
  function tellFrom(id) {
    mark("what all is told from");
    const to = state.airframe.find((p) => p.id === id);
    const was = to && at(to);
    if (was) {
      shift(-was.x, -was.y, to);
    }
    [state.datum, to.x, to.y] = [id, "", ""];
  }

  // put takes up where a place was touched on the grid; null: nowhere any more. The place that
  // all is told from stays where it is, and all else moves instead.
  function put(place, x, y) {
    mark("where " + nameOf(place.id) + " is");
    byHand();
    if (place === datum()) {
      shift(-(x ?? 0), -(y ?? 0), place);
    } else {
      [place.x, place.y] = x === null ? ["", ""] : [written(x), written(y)];
    }
  }

  // byHand forgets how far places picked on a photo may be out, once one isn't.
  function byHand() {
    if (state.uncertain) {
      [state.sketch, state.uncertain] = ["", ""];
    }
  }

  // picked takes places up from a photo, and how far they may be out.
  function picked(list, sketch, uncertain, told) {
    mark("what the photo tells");
    for (const { place: name, x, y } of list) {
      const place = placeOf(idOf(name))?.place;
      if (place && place !== datum()) {
        [place.x, place.y] = [x, y];
      }
    }
    [state.sketch, state.uncertain] = [sketch, uncertain];
    // A depth is how high the hole lies out of the drawing, and counts in what the tape reads.
    for (const { place: name, depth } of told.picks) {
      const place = placeOf(idOf(name))?.place;
      if (place && place.z === "" && !["", "0"].includes(depth.trim())) {
        place.z = depth;
        state.heights = true;
      }
    }
    // What was read for the photo needn't be read again.
    for (const [kind, rows] of [["taped", told.tapes], ["gauged", told.levels]]) {
      for (const { from, to, is, within } of rows) {
        const made = entry({ kind, from: idOf(from), to: idOf(to) }, true);
        if (made.is.trim() === "") {
          [made.is, made.within] = [is, within ?? ""];
        }
      }
    }
  }

  const used = (id) => state.parts.some((p) => p.on === id) || state.rods.some((r) => r.from === id || r.to === id) ||
    [...state.taped].some((e) => e.from === id || e.to === id) || state.sense.place === id || state.sense.then === id;

  // drop takes a place away with what can't be without it, and lists that in words.
  function drop(id) {
    const gone = [];
    state.airframe = state.airframe.filter((p) => p.id !== id);
    for (const part of state.parts) {
      part.holes = part.holes.filter((p) => p.id !== id);
      if (part.on === id) {
        part.on = 0;
        gone.push("what " + part.name + " turns on");
      }
    }
    gone.push(...state.rods.filter((r) => r.from === id || r.to === id).map((r) => "the rod " + r.name));
    state.rods = state.rods.filter((r) => r.from !== id && r.to !== id);
    const off = (list) => list.filter((e) => e.from !== id && e.to !== id);
    const figures = state.taped.filter((e) => e.is.trim() !== "").length;
    [state.taped, state.skip] = [off(state.taped), off(state.skip)];
    gone.push(...Array(figures - state.taped.filter((e) => e.is.trim() !== "").length).fill("a measurement"));
    if (state.sense.place === id || state.sense.then === id) {
      state.sense = fresh().sense;
      gone.push("which way it is to go");
    }
    if (state.datum === id) {
      state.datum = 0;
    }
    return gone;
  }

  // remove takes a place, a part or a rod away, and tells what went with it, in words.
  function remove(what, thing) {
    const called = { place: nameOf(thing.id), part: thing.name, rod: thing.name }[what];
    mark("removing " + called);
    const gone = [];
    if (what === "rod") {
      state.rods = state.rods.filter((r) => r !== thing);
    } else if (what === "place") {
      gone.push(...drop(thing.id));
    } else {
      state.parts = state.parts.filter((p) => p !== thing);
      const own = state.airframe.filter((p) => p.auto === thing.id && !used(p.id));
      const holes = thing.holes.length;
      gone.push(...(holes > 0 ? [holes === 1 ? "its hole" : "its " + holes + " holes"] : []), ...own.map((p) => airframe + "." + p.name));
      gone.push(...[...thing.holes, ...own].flatMap((p) => drop(p.id)));
      for (const [key, words] of [["control", "what moves it"], ["output", "what it moves"]]) {
        if (state[key].of === thing.id) {
          state[key].of = 0;
          gone.push(words);
        }
      }
    }
    nameRods();
    return called + " is removed" + (gone.length > 0 ? ", and with it " + counted(gone) : "") + ".";
  }

  function counted(list) {
    const many = list.filter((w) => w === "a measurement").length;
    const rest = [...new Set(list.filter((w) => w !== "a measurement"))];
    return [...rest, ...(many > 0 ? [many === 1 ? "a measurement" : many + " measurements"] : [])].join(", ");
  }

  const same = (a, b) => a.kind === b.kind && (a.from === b.from && a.to === b.to || a.kind === "taped" && a.from === b.to && a.to === b.from);

  // entry is what is typed of a line from place to place; begun: a new one is put down.
  function entry(of, begun) {
    const at = state.taped.find((e) => same(e, of));
    if (at || !begun) {
      return at ?? null;
    }
    const made = { kind: of.kind, from: of.from, to: of.to, is: "", within: "" };
    state.taped.push(made);
    return made;
  }

  const model = {
    fresh, airframe, trimmed,
    get state() { return state; },
    set state(to) { state = to; },
    get undoes() { return past.at(-1)?.words ?? ""; },
    empty: () => state.title.trim() === "" && state.parts.length === 0 && state.airframe.length === 0,
    cleaned, places, placeOf, partOf, nameOf, idOf, carries, doubles, datum, placed, number, at, put, byHand, picked, tellFrom, same,
    mark, addPart, addHole, addFixed, addRod, nameRods, rename, turnOn, remove, entry,
    beginning: "beginning anew",
    undo() {
      const last = past.pop();
      typing = "";
      if (last) {
        state = JSON.parse(last.was);
      }
      return last?.words ?? "";
    },
    begin() {
      mark(model.beginning);
      state = { ...fresh(), next: state.next };
    },
    // from takes up a state in which nothing can be undone.
    from(kept) {
      [state, past, typing] = [kept, [], ""];
    },
  };
  return Object.assign(model, measureWire(model));
}
