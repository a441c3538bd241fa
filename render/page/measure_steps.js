// measureSteps are the steps of "No drawing" that tell what there is: its name, parts, rods,
// what moves it and what it moves. form has fields, model, by, element, renamed(does),
// changed(), removed(words).
function measureSteps(form) {
  "use strict";

  const { fields, model, by, element, changed, typed } = form;
  const { text, choice, button, say, card } = fields;

  // views are the sides that a run is seen from: in words, and what can be told of a way.
  const views = [
    ["left", "From the left side: nose to the left", ["forward", "aft", "up", "down"], "x is aft, y is up"],
    ["right", "From the right side: nose to the right", ["forward", "aft", "up", "down"], "x is forward, y is up"],
    ["above", "From above: nose up the page", ["forward", "aft", "left", "right"], "x is to the right side, y is forward"],
    ["behind", "From behind, looking forward: the right side is right", ["up", "down", "left", "right"], "x is to the right side, y is up"],
    ["front", "From the front, looking aft: the left side is right", ["up", "down", "left", "right"], "x is to the left side, y is up"],
  ];
  const view = () => views.find(([name]) => name === model.state.view) ?? views[0];

  // pick makes a choice that can be undone.
  const pick = (of, what, set) => choice({ ...of, set: (value) => { model.mark(what); set(value); changed(); } });
  // put makes a text of one key of a thing.
  const put = (of, thing, key) => text({ what: of.label.toLowerCase(), ...of, get: () => thing()[key], set: (v) => { thing()[key] = v; typed(); } });

  // numbered is the path of a thing in a list.
  const numbered = (path, list, thing) => path + "." + list.indexOf(thing);

  // name is the field of a name.
  function name(label, thing, at, seen) {
    return text({
      label, seen, what: "renaming", clean: model.cleaned, at: () => at() + ".name", get: () => thing.name,
      set: (v) => form.renamed(() => model.rename(thing, v)),
      left() {
        thing.name = model.trimmed(thing.name);
        changed();
      },
    });
  }

  function removal(what, thing, label) {
    return button("Remove", "Remove " + label, () => form.removed(model.remove(what, thing)));
  }

  // holeRow is the row of a place: its name, and a button that removes it.
  function holeRow(place, at, called) {
    const field = name(called, place, at, false);
    const remove = removal("place", place, "");
    return {
      node: element("div", { className: "hole" }, field.node, remove),
      input: field.input,
      refresh() {
        field.refresh();
        remove.setAttribute("aria-label", "Remove " + model.nameOf(place.id));
      },
    };
  }

  // --- 1. What it is ---

  const what = [
    put({ label: "Name", hint: "as on the placard: Flap lever", free: true, at: () => "title" }, () => model.state, "title"),
    pick({ label: "Measured in", at: () => "units", options: () => [["mm", "millimeters"], ["in", "inches, and fractions of them"]], get: () => model.state.units }, "the unit", (v) => { model.state.units = v; }),
    pick({ label: "Seen", at: () => "view", options: () => views.map(([v, words]) => [v, words]), get: () => model.state.view }, "the side it is seen from", (v) => {
      model.state.view = v;
      const { sense } = model.state;
      for (const key of ["goes", "is"]) {
        sense[key] = view()[2].includes(sense[key]) ? sense[key] : "";
      }
    }),
  ];
  by("what").append(...what.map((f) => f.node));

  // --- 2. Parts ---

  // heldBy are the ways in which a part can be held.
  function heldBy(part) {
    const on = (kind) => model.places().filter((p) => !p.part || !model.carries(part, p.part)).map(({ place, name: of }) => [kind + " " + place.id, of]);
    return [
      ...(part.kind === "turns" && !part.on ? [["", "choose what it turns on"]] : []),
      { group: "It turns on", options: [...on("turns"), ["turns new", "a new place on the airframe"]] },
      { group: "It slides", options: [["slides 0", "along a guide on the airframe"], ...on("slides").filter(([, of]) => !of.startsWith("airframe.")).map(([v, of]) => [v, "along a guide carried at " + of])] },
      { group: "Or", options: [["held 0", "only its rods hold it"]] },
    ];
  }

  function partRow(part) {
    const at = () => numbered("parts", model.state.parts, part);
    const head = element("h4", {});
    const own = name("Name of the part", part, at);
    const how = choice({
      label: "What it turns on", at: () => at() + ".on", options: () => heldBy(part),
      get: () => (part.kind === "turns" && !part.on ? "" : part.kind + " " + (part.on || 0)),
      set(value) {
        const [kind, on] = value.split(" ");
        if (kind) {
          model.turnOn(part, on === "new" ? { kind, fresh: true } : { kind, on: Number(on) });
          changed();
        }
      },
    });
    const angle = put({ label: "Its guide goes, degrees", hint: "turned left (anticlockwise) from level to the right", at: () => at() + ".angle", holder: () => "0" }, () => part, "angle");
    const holes = element("div", {});
    const show = fields.rows(holes, (place) => holeRow(place, () => numbered(at() + ".holes", part.holes, place), "A hole of this part"));
    const add = button("Add a hole", "", () => {
      const place = model.addHole(part);
      changed();
      form.into(holes, part.holes.indexOf(place));
    });
    const remove = removal("part", part, "");
    return {
      node: card(head, own.node, how.node, angle.node, element("p", { className: "label" }, "Its holes"), holes, element("div", { className: "row" }, add, remove)),
      input: own.input,
      refresh() {
        say(head, part.name || "a part without a name");
        add.setAttribute("aria-label", "Add a hole to " + part.name);
        say(remove, "Remove " + (part.name || "it"));
        remove.setAttribute("aria-label", "Remove the part " + part.name);
        angle.node.hidden = part.kind !== "slides";
        [own, how, angle].forEach((f) => f.refresh());
        show(part.holes);
      },
    };
  }

  const showParts = fields.rows(by("parts"), partRow);
  const showFixed = fields.rows(by("airframe"), (place) => holeRow(place, () => numbered("airframe", model.state.airframe, place), "A place fixed to the airframe"));
  by("add-part").addEventListener("click", () => {
    model.addPart();
    changed();
    form.into(by("parts"), model.state.parts.length - 1);
  });
  by("add-fixed").addEventListener("click", () => {
    model.addFixed();
    changed();
    form.into(by("airframe"), model.state.airframe.length - 1);
  });

  // --- 3. Rods ---

  function rodRow(rod) {
    const at = () => numbered("rods", model.state.rods, rod);
    const head = element("h4", {});
    const end = (label, key, other) => pick({
      label, at: () => at() + "." + key, get: () => rod[key],
      options: () => fields.placesFrom("choose a hole", ({ place, part }) => place.id === rod[key] || !rod[other] || (part ?? null) !== (model.placeOf(rod[other])?.part ?? null)),
    }, "where " + rod.name + " goes", (v) => {
      rod[key] = Number(v);
      model.nameRods();
    });
    const [from, to] = [end("From", "from", "to"), end("To", "to", "from")];
    const own = name("Name of the rod", rod, at);
    const remove = removal("rod", rod, "");
    return {
      node: card(head, element("div", { className: "two long" }, from.node, to.node), own.node, element("div", { className: "row" }, remove)),
      input: from.input,
      refresh() {
        say(head, rod.name || "a rod without a name");
        say(remove, "Remove " + (rod.name || "it"));
        remove.setAttribute("aria-label", "Remove the rod " + rod.name);
        [from, to, own].forEach((f) => f.refresh());
      },
    };
  }

  const showRods = fields.rows(by("rods"), rodRow);
  by("add-rod").addEventListener("click", () => {
    model.addRod();
    changed();
    form.into(by("rods"), model.state.rods.length - 1);
  });

  // --- 5. What moves it, and what it moves ---

  const parts = (first) => () => [["0", first], ...model.state.parts.map((p) => [p.id, p.name])];
  const unitOf = (key) => () => (model.partOf(model.state[key].of)?.kind === "slides" ? model.state.units : "°");

  // such is an example of what a way is called, on the side that it is seen to go to: with the
  // nose to the left a hand above its pivot goes forward as it turns to the left.
  const such = (...sides) => () => {
    const at = { right: 0, left: 1 }[model.state.view];
    return "such as: " + sides[at ?? 2];
  };

  // mover are the fields of what moves it (control) or of what it moves (output).
  function mover(key, words) {
    const of = () => model.state[key];
    const slides = () => model.partOf(of().of)?.kind === "slides";
    const ends = [["plus", "high"], ["minus", "low"]].map(([side, end]) => {
      const head = element("h4", {});
      const called = put({ label: "Called", hint: words[side], free: true, at: () => key + "." + side }, of, side);
      const figure = put({ label: words[end], at: () => key + "." + end, unit: unitOf(key), holder: () => (side === "minus" ? "-20" : "20"), left: () => side === "minus" && signed(figure) }, of, end);
      return {
        node: card(head, element("div", { className: "two" }, called.node, figure.node)),
        refresh() {
          say(head, slides() ? (side === "plus" ? "Along its guide" : "Back along its guide: a minus figure") : side === "plus" ? "Turned left (anticlockwise) as seen here" : "Turned right (clockwise): a minus figure");
          [called, figure].forEach((f) => f.refresh());
        },
      };
    });
    // signed writes the minus of a figure to the right, where it was forgotten: of a stop it
    // can't be otherwise, and of what is reached not where that way has a name.
    function signed(field) {
      const size = field.input.value.trim();
      if (model.number(size) > 0 && (key === "control" || of().minus.trim() !== "")) {
        of().low = "-" + size.replace(/^\+\s*/, "");
        field.input.value = of().low;
        changed();
      }
    }
    const part = pick({ label: words.part, at: () => key + ".of", options: parts("choose a part"), get: () => of().of }, words.head.toLowerCase(), (v) => { of().of = Number(v); });
    const more = words.within ? [put({ label: words.within, at: () => key + ".within", unit: unitOf(key), holder: () => "1" }, of, "within")] : [];
    const own = text({ label: words.name, hint: "left empty: as its part", what: "renaming", clean: model.cleaned, at: () => key + ".name", get: () => of().name, set: (v) => { of().name = v; typed(); } });
    const list = [part, own, ...ends, ...more];
    return { nodes: [element("h3", {}, words.head), ...list.map((f) => f.node)], refresh: () => list.forEach((f) => f.refresh()) };
  }

  const control = mover("control", {
    head: "What moves it", part: "The hand or foot moves", name: "Name of the control", plus: such("pulled aft", "pushed forward", "to the left"), minus: such("pushed forward", "pulled aft", "to the right"), high: "Stop, from neutral", low: "Stop, from neutral",
  });
  const output = mover("output", {
    head: "What it moves", part: "In the end it moves", name: "Name of what is moved", plus: such("flap down", "flap up", "nose left"), minus: such("flap up", "flap down", "nose right"), high: "To reach", low: "To reach", within: "Right to within",
  });
  const ways = () => [["", "which way"], ...view()[2].map((w) => [w, w])];
  const sense = () => model.state.sense;
  const senseOf = (label, key, options, number, hint) => pick({ label, hint, at: () => "sense." + key, options, get: () => sense()[key] }, "which way it is to go", (v) => { sense()[key] = number ? Number(v) : v; });
  const holes = () => fields.placesFrom("choose a hole", ({ part }) => part !== null);
  const senses = [
    senseOf("As", "place", holes, true, "where it is held, not where a rod is on"), senseOf("goes", "goes", ways),
    senseOf("the place", "then", holes, true, "where it is watched: an edge, a tip"), senseOf("is to go", "is", ways),
  ];
  by("moves").append(...control.nodes, ...output.nodes, element("h3", {}, "Which way it is to go"),
    element("p", { className: "small" }, "What the ways are called is held against these two places, too. Where they aren't in the lists, add them to their parts in step 2, as holes."),
    element("div", { className: "two long" }, ...senses.map((f) => f.node)));

  const some = (n, one, many) => n + " " + (n === 1 ? one : many ?? one + "s");
  return {
    view,
    refresh() {
      what.forEach((f) => f.refresh());
      showParts(model.state.parts);
      showFixed(model.state.airframe);
      showRods(model.state.rods);
      [control, output, ...senses].forEach((f) => f.refresh());
    },
    // far is how far each of these steps is, in words.
    far() {
      const { state } = model;
      const holesOf = state.parts.reduce((n, p) => n + p.holes.length, 0);
      return {
        1: state.title.trim() ? state.title.trim() + ", in " + { mm: "millimeters", in: "inches" }[state.units] : "to name",
        2: state.parts.length > 0 ? some(state.parts.length, "part") + ", " + some(holesOf, "hole") : "to do",
        3: state.rods.length > 0 ? some(state.rods.length, "rod") : "none yet",
        5: [state.control.of ? "moved by " + model.partOf(state.control.of)?.name : "to do", state.output.of ? "moves " + model.partOf(state.output.of)?.name : ""].filter(Boolean).join(", "),
      };
    },
  };
}
