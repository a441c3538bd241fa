// measureWire is how what the form holds goes to fullfree, and comes back: there things are
// known by their names, here by their numbers.
function measureWire(model) {
  "use strict";

  const { airframe, trimmed, datum, placeOf, partOf, idOf, fresh } = model;

  // exact is the whole name of a place, as it is once it is typed; in a text that this form
  // didn't write, as it stands there.
  const exact = (id) => {
    const p = placeOf(id);
    return model.state.foreign ? model.nameOf(id) : p ? (p.part ? trimmed(p.part.name) : airframe) + "." + trimmed(p.place.name) : "";
  };
  const entryOut = (e) => ({ kind: e.kind, from: exact(e.from), to: exact(e.to), is: e.is.trim(), within: e.within.trim() });
  const strings = (of, keys) => Object.fromEntries(keys.map((key) => [key, of[key].trim()]));
  const placeOut = (p) => ({ name: trimmed(p.name), ...strings(p, ["x", "y", "z"]), ...(p === datum() ? { x: "0", y: "0" } : {}) });
  const moverOut = (m, keys) => ({ ...strings(m, keys), name: trimmed(m.name), of: trimmed(partOf(m.of)?.name ?? "") });
  const movers = { control: ["name", "plus", "minus", "low", "high"], output: ["name", "plus", "minus", "low", "high", "within"] };

  // asked is what "measure" is asked; text is what the file holds; page says that the page
  // for taping is wanted too.
  function asked(text, page) {
    const { state } = model;
    return {
      page,
      outline: state.foreign ? null : {
        ...strings(state, ["title", "units", "view", "sketch", "uncertain"]),
        datum: trimmed(datum()?.name ?? ""),
        airframe: state.airframe.map(placeOut),
        parts: state.parts.map((p) => ({ name: trimmed(p.name), kind: p.kind, on: p.kind === "held" ? "" : exact(p.on), angle: p.kind === "slides" ? p.angle.trim() : "", holes: p.holes.map(placeOut) })),
        rods: state.rods.map((r) => ({ name: trimmed(r.name), from: exact(r.from), to: exact(r.to) })),
        control: moverOut(state.control, movers.control),
        output: moverOut(state.output, movers.output),
        sense: { place: exact(state.sense.place), goes: state.sense.goes, then: exact(state.sense.then), is: state.sense.is },
      },
      text,
      taped: state.taped.map(entryOut),
      skip: state.skip.map(({ kind, from, to }) => ({ kind, from: exact(from), to: exact(to) })),
    };
  }

  // taken takes up an outline that "outline" answers; what was there can be brought back.
  function taken(outline, taped) {
    const text = (v) => v ?? "";
    model.mark("going on with another file");
    const state = { ...fresh(), next: model.state.next, ...strings(outline, ["title", "units", "view", "sketch", "uncertain"]) };
    const numbered = (of) => {
      state.next++;
      return { id: state.next - 1, ...of };
    };
    const placeIn = (p) => numbered({ name: p.name, x: text(p.x), y: text(p.y), z: text(p.z) });
    state.airframe = (outline.airframe ?? []).map(placeIn);
    state.parts = (outline.parts ?? []).map((p) => numbered({ name: p.name, kind: p.kind, on: 0, angle: text(p.angle), holes: (p.holes ?? []).map(placeIn) }));
    model.state = state; // by which names become numbers
    (outline.parts ?? []).forEach((p, i) => {
      state.parts[i].on = idOf(p.on);
    });
    state.rods = (outline.rods ?? []).map((r) => numbered({ name: r.name, from: idOf(r.from), to: idOf(r.to) }));
    state.datum = idOf(airframe + "." + outline.datum);
    for (const [key, keys] of Object.entries(movers)) {
      const of = outline[key] ?? {};
      state[key] = { ...Object.fromEntries(keys.map((k) => [k, text(of[k])])), of: state.parts.find((p) => p.name === of.of)?.id ?? 0 };
    }
    const { place, goes, then, is } = outline.sense ?? {};
    state.sense = { place: idOf(place), goes: text(goes), then: idOf(then), is: text(is) };
    state.taped = (taped ?? []).map((e) => ({ kind: e.kind, from: idOf(e.from), to: idOf(e.to), is: text(e.is), within: text(e.within) })).filter((e) => e.from && e.to);
    state.heights = model.places().some((p) => p.place.z !== "");
  }

  // filling takes up what there is to measure in a text that the form didn't write: its places
  // alone, since nothing but figures is filled in.
  function filling(taped) {
    model.mark("going on with another file");
    const state = { ...fresh(), foreign: true, next: model.state.next };
    const place = (name) => {
      const [part, hole] = name.split(".");
      let owner = state.parts.find((p) => p.name === part);
      if (!owner) {
        owner = { id: state.next, name: part, kind: "held", on: 0, angle: "", holes: [] };
        state.parts.push(owner);
        state.next++;
      }
      let of = owner.holes.find((p) => p.name === hole);
      if (!of) {
        of = { id: state.next, name: hole ?? "", x: "", y: "", z: "" };
        owner.holes.push(of);
        state.next++;
      }
      return of.id;
    };
    state.taped = taped.map((e) => ({ kind: e.kind, from: place(e.from), to: place(e.to), is: e.is ?? "", within: e.within ?? "" }));
    model.state = state;
  }

  // sound says whether what was kept is what this keeps: others may write there too.
  function sound(kept) {
    const is = (v, like) => typeof v === typeof like && (like === null || typeof like !== "object" || (v !== null && Array.isArray(v) === Array.isArray(like) && Object.entries(like).every(([key, one]) => is(v[key], one))));
    const place = { id: 1, name: "", x: "", y: "", z: "" };
    const line = { kind: "", from: 1, to: 1 };
    const each = (list, like) => list.every((one) => one !== null && is(one, like));
    return kept !== null && is(kept, fresh()) && each(kept.airframe, place) && each(kept.rods, { id: 1, name: "", from: 1, to: 1 }) &&
      each(kept.parts, { id: 1, name: "", kind: "", on: 1, angle: "", holes: [] }) && kept.parts.every((p) => each(p.holes, place)) &&
      each(kept.taped, { ...line, is: "", within: "" }) && each(kept.skip, line);
  }

  return {
    asked, taken, filling,
    // restore takes up what was kept; false: that isn't sound.
    restore(kept) {
      if (!sound(kept ?? null)) {
        return false;
      }
      const all = [...kept.airframe, ...kept.rods, ...kept.parts, ...kept.parts.flatMap((p) => p.holes)];
      model.from({ ...fresh(), ...kept, next: all.reduce((next, { id }) => Math.max(next, id + 1), kept.next) });
      return true;
    },
  };
}
