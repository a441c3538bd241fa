// measurePlaces is the step of "No drawing" that tells where places are, roughly: touched on
// a grid, picked on a photograph, or typed.
function measurePlaces(form, page) {
  "use strict";

  const { fields, model, by, element, changed, typed } = form;
  const { text, choice } = fields;
  const state = () => model.state;

  // --- what all is told from ---

  const told = choice({
    label: "All is told from", hint: "a place on the airframe that is easy to tape from", at: () => "datum", get: () => model.datum()?.id ?? 0,
    options() {
      const others = model.places().some(({ place }) => place !== model.datum() && model.placed(place));
      const list = state().airframe.filter((p) => !others || model.placed(p)).map((p) => [p.id, "airframe." + p.name]);
      return list.length > 0 ? list : [[0, "nothing is fixed yet"]];
    },
    set(value) {
      if (Number(value)) {
        model.tellFrom(Number(value));
        changed();
      }
    },
  });
  by("datum").append(told.node);

  // --- typed ---

  const sketch = text({
    label: "How far they may be out", hint: "about; left empty, as by eye", at: () => "sketch", unit: () => state().units, holder: () => (state().units === "in" ? "1.2" : "30"), what: "how far places may be out",
    get: () => state().sketch, set: (v) => { state().sketch = v; state().uncertain = ""; typed(); },
  });
  const heights = element("input", { type: "checkbox" });
  heights.addEventListener("change", () => {
    model.mark("heights");
    state().heights = heights.checked;
    changed();
  });
  by("roughly").append(sketch.node, element("label", { className: "tick-line" }, heights, element("span", {}, "Holes lie at different heights out of this view")));

  function figureRow(place) {
    const head = element("h4", {});
    const path = () => {
      const part = model.placeOf(place.id)?.part;
      return part ? "parts." + state().parts.indexOf(part) + ".holes." + part.holes.indexOf(place) : "airframe." + state().airframe.indexOf(place);
    };
    const figure = (key) => text({
      label: key, at: () => path() + "." + key, what: "where it is", get: () => place[key], unit: () => state().units,
      set: (v) => { place[key] = v; if (key !== "z") { model.byHand(); } typed(); },
    });
    const [x, y, z] = ["x", "y", "z"].map(figure);
    const here = element("p", { className: "small" }, "0, 0: all is told from here.");
    return {
      node: element("li", {}, head, here, element("div", { className: "three" }, x.node, y.node, z.node)),
      refresh() {
        const name = model.nameOf(place.id);
        fields.say(head, name);
        [x, y, z].forEach((f) => f.refresh());
        [[x, "x"], [y, "y"], [z, "z"]].forEach(([f, key]) => f.input.setAttribute("aria-label", key + " of " + name));
        const exact = place === model.datum();
        here.hidden = !exact;
        [x.node.hidden, y.node.hidden, z.node.hidden] = [exact, exact, !state().heights];
      },
    };
  }
  const showFigures = fields.rows(by("figures"), figureRow);

  // --- touched ---

  const list = () => model.places().map(({ place, part, name }) => ({ name, letter: form.letter(name), pivot: part === null, x: null, y: null, ...model.at(place) }));
  function lines() {
    const joined = state().rods.filter((r) => r.from && r.to).map((r) => ({ from: model.nameOf(r.from), to: model.nameOf(r.to), rod: true }));
    for (const part of state().parts) {
      const held = [...(part.on ? [model.nameOf(part.on)] : []), ...part.holes.map((p) => model.nameOf(p.id))];
      joined.push(...held.slice(1).map((to) => ({ from: held[0], to, rod: false })));
    }
    return joined;
  }
  const grid = touchSheet({
    box: by("grid"),
    picture: () => null,
    units: () => state().units,
    places: list,
    lines,
    put(name, x, y) {
      model.put(model.placeOf(model.idOf(name)).place, x, y);
      changed();
    },
    told: page.announce,
  });

  const photo = photoPart({
    ask: page.ask, state: form.photo, places: () => list().map(({ name, letter, pivot }) => ({ name, letter, pivot })), lines,
    units: () => state().units, datum: () => (model.datum() ? model.nameOf(model.datum().id) : ""), view: () => state().view,
    take(places, roughly, uncertain, told) {
      model.picked(places, roughly, uncertain, told);
      changed();
    },
    changed: page.changed, announce: page.announce, level: form.level,
  });

  // --- which of them ---

  const ways = ["grid", "photo", "typed"];
  let way = "grid";
  function show(name) {
    way = name;
    for (const one of ways) {
      by(one).hidden = one !== name;
      document.querySelector('[data-way="' + one + '"]').setAttribute("aria-pressed", String(one === name));
    }
    sight();
  }
  // sight draws what came in sight.
  function sight() {
    if (way === "grid") {
      grid.show();
    } else if (way === "photo") {
      photo.show();
    }
  }
  for (const one of ways) {
    document.querySelector('[data-way="' + one + '"]').addEventListener("click", () => show(one));
  }

  return {
    sight,
    photo,
    refresh() {
      [told, sketch].forEach((f) => f.refresh());
      heights.checked = state().heights;
      fields.say(by("axes"), "From " + (model.datum() ? model.nameOf(model.datum().id) : "there") + ", in this view: " + form.view()[3] + ". Fractions are taken: 7 1/4.");
      showFigures(model.places().map((p) => p.place));
      if (by("step-4").open) {
        sight();
      }
    },
    far() {
      const all = model.places();
      return all.length === 0 ? "nothing to place yet" : all.filter((p) => model.placed(p.place)).length + " of " + all.length + " placed";
    },
  };
}
