// measureTape is the step of "No drawing" that lists what to tape, most helpful first, with a
// field for each. While one is typed in, the rows stay where they are.
function measureTape(form, page) {
  "use strict";

  const { fields, model, by, element, typed, changed } = form;
  const { text, choice, button } = fields;
  const few = 8; // blanks that are shown at first
  let all = false; // the others are too
  let entries = []; // as last answered, with numbers of places
  const rows = new Map(); // by line
  const key = (e) => e.kind + " " + (e.kind === "taped" ? [e.from, e.to].sort((a, b) => a - b) : [e.from, e.to]).join(" ");
  const lists = { blank: by("blanks"), done: by("done") };
  // usual is what a tape or a level reads to where nothing is said, as it is written then.
  const usual = (kind) => (kind === "gauged" ? "0.5" : { mm: "1", in: "0.04" }[model.state.units]);
  const unit = (kind) => (kind === "gauged" ? "°" : model.state.units);

  function row(of) {
    const between = () => model.nameOf(of.from) + " to " + model.nameOf(of.to);
    const typedOf = (k) => model.entry(of, false)?.[k] ?? "";
    const set = (k) => (v) => {
      model.entry(of, true)[k] = v;
      typed();
    };
    const at = (k) => () => "taped." + model.state.taped.indexOf(model.entry(of, false)) + "." + k;
    const is = text({ label: of.kind === "gauged" ? "The level reads" : "The tape reads", at: at("is"), what: "a measurement", get: () => typedOf("is"), set: set("is"), unit: () => unit(of.kind) });
    const within = text({ label: "to within", at: at("within"), what: "a measurement", holder: () => (model.state.foreign ? "usual" : "usual: " + usual(of.kind)), get: () => typedOf("within"), set: set("within") });
    const [head, what, help] = [element("h4", {}), element("span", {}), element("span", {})];
    const level = button("Use the phone's level", "", async () => {
      const read = await form.level.read({ from: letters().split(" to ")[0] + " " + model.nameOf(of.from), to: letters().split(" to ")[1] + " " + model.nameOf(of.to), view: model.state.view });
      if (read) {
        model.mark("a reading of the level");
        Object.assign(model.entry(of, true), { is: read.is, within: read.within });
        changed();
        page.announce(read.says);
        fields.say(said, read.says);
        said.hidden = false;
      }
    });
    const said = element("p", { className: "small", hidden: true });
    const skip = button("Can't be reached", "", () => {
      model.mark("what can't be reached");
      model.state.taped = model.state.taped.filter((e) => !model.same(e, of));
      model.state.skip.push({ kind: of.kind, from: of.from, to: of.to });
      changed();
      form.noted("The line " + between() + " is left out.");
    });
    let entry = of;
    const letters = () => entry.letters ?? "";
    const made = {
      of,
      // The name of a screen reader says which line it is.
      node: element("li", {}, head, element("p", { className: "small" }, what, help), element("div", { className: "reads" }, is.node, within.node, skip), said, element("div", { className: "row" }, level)),
      show(now) {
        entry = now;
        made.node.dataset.line = of.kind + " " + between();
        const gauged = of.kind === "gauged";
        fields.say(head, (letters() ? letters() + ": " : "") + between() + (gauged ? ", with the level" : ""));
        is.input.setAttribute("aria-label", (gauged ? "The level reads" : "The tape reads") + ", " + letters() + ", " + between());
        within.input.setAttribute("aria-label", "to within, " + between());
        skip.setAttribute("aria-label", "Can't be reached: " + between());
        level.setAttribute("aria-label", "Use the phone's level: " + between());
        level.hidden = !gauged || !form.level.available();
        const filled = typedOf("is").trim() !== "";
        // A blank may be left out; of what is filled in it is told how right it is.
        skip.hidden = filled || model.state.foreign;
        within.node.hidden = !filled || model.state.foreign; // where it stands in the file
        fields.say(what, now.says ?? "");
        fields.say(help, filled ? "" : now.help ? (now.says ? "; " : "") + now.help : "");
        [is, within].forEach((f) => f.refresh());
      },
    };
    return made;
  }

  let late = false; // the rows are not where they belong by now
  const typing = () => document.activeElement?.matches("input") && [lists.blank, lists.done].some((list) => list.contains(document.activeElement));

  // order puts the rows where they belong, and drops those that are gone. What has the focus
  // keeps it.
  function order() {
    const had = document.activeElement;
    late = false;
    const blank = entries.filter((e) => (model.entry(e, false)?.is ?? "").trim() === "");
    const done = entries.filter((e) => !blank.includes(e));
    for (const [k, one] of rows) {
      if (!entries.some((e) => key(e) === k)) {
        one.node.remove();
        rows.delete(k);
      }
    }
    for (const [list, of] of [[lists.blank, blank], [lists.done, done]]) {
      of.forEach((e, i) => {
        const { node } = rows.get(key(e));
        if (list.children[i] !== node) {
          list.insertBefore(node, list.children[i] ?? null);
        }
      });
    }
    blank.forEach((e, i) => { rows.get(key(e)).node.hidden = !all && i >= few; });
    done.forEach((e) => { rows.get(key(e)).node.hidden = false; });
    by("more").hidden = all || blank.length <= few;
    fields.say(by("more"), "Show " + (blank.length - few) + " more");
    by("done-box").hidden = done.length === 0;
    by("none").hidden = entries.length > 0;
    fields.say(by("none"), "What to tape follows from the steps above: at least a part with holes, about where they are, and what moves it.");
    if (had !== document.activeElement && had.isConnected) {
      had.focus({ preventScroll: true });
    }
  }

  function show() {
    for (const e of entries) {
      const k = key(e);
      if (!rows.has(k)) {
        rows.set(k, row({ kind: e.kind, from: e.from, to: e.to }));
        if (typing()) {
          lists.blank.append(rows.get(k).node);
        }
      }
      rows.get(k).show(e);
    }
    late = true;
    settle();
  }

  // settle puts rows where they belong, once nothing is typed nor pressed.
  function settle() {
    if (form.pressed()) {
      form.released().then(settle);
    } else if (late && !typing()) {
      order();
    }
  }
  for (const list of Object.values(lists)) {
    list.addEventListener("focusout", () => setTimeout(() => {
      late = true;
      settle();
    }));
  }

  by("more").addEventListener("click", () => {
    all = true;
    const first = lists.blank.children[few];
    order();
    first?.querySelector("input").focus();
  });

  // --- what can't be reached ---

  const showSkipped = fields.rows(by("skipped"), (of) => {
    const words = element("span", {});
    const back = button("Put it back", "", () => {
      model.mark("what can't be reached");
      model.state.skip = model.state.skip.filter((e) => e !== of);
      changed();
      by("skipped").closest("[data-step]").querySelector("summary").focus();
    });
    return {
      node: element("li", {}, words, element("div", { className: "row" }, back)),
      refresh() {
        fields.say(words, model.nameOf(of.from) + " to " + model.nameOf(of.to) + (of.kind === "gauged" ? ", with the level" : ""));
        back.setAttribute("aria-label", "Put it back: " + words.textContent);
      },
    };
  });

  // --- what else was measured ---

  const own = { kind: "taped", from: 0, to: 0 };
  const end = (label, k) => choice({ label, options: () => fields.placesFrom("choose a place"), get: () => own[k], set: (v) => { own[k] = Number(v); ready(); } });
  const ends = [
    choice({ label: "With", options: () => [["taped", "the tape"], ["gauged", "the level"]], get: () => own.kind, set: (v) => { own.kind = v; } }),
    end("From", "from"), end("To", "to"),
  ];
  const ready = () => { by("add-own").disabled = !own.from || !own.to || own.from === own.to; };
  by("own").append(element("div", { className: "three" }, ...ends.map((f) => f.node)));
  by("add-own").addEventListener("click", () => {
    model.mark("adding a measurement");
    model.state.skip = model.state.skip.filter((e) => !model.same(e, own));
    model.entry(own, true);
    const k = key(own);
    if (!entries.some((e) => key(e) === k)) {
      entries.push({ ...own });
    }
    changed();
    const made = rows.get(k);
    made.node.hidden = false;
    made.node.querySelector("input").focus();
    [own.from, own.to] = [0, 0];
    ends.forEach((f) => f.refresh());
    ready();
  });

  return {
    // answered takes up what there is to tape. Where there is none, since something is to be
    // mended first, what there was stays, so that it can be mended.
    answered(list) {
      if (list.length === 0) {
        show();
        return;
      }
      entries = list.map((e) => ({ ...e, from: model.idOf(e.from), to: model.idOf(e.to) })).filter((e) => e.from && e.to);
      show();
    },
    refresh() {
      const there = (id) => model.placeOf(id) !== null;
      entries = entries.filter((e) => there(e.from) && there(e.to) && !model.state.skip.some((s) => model.same(s, e)));
      const typedIn = model.state.taped.filter((e) => !entries.some((other) => key(other) === key(e)));
      entries.push(...typedIn.map(({ kind, from, to }) => ({ kind, from, to })));
      if (!there(own.from)) { own.from = 0; }
      if (!there(own.to)) { own.to = 0; }
      ends.forEach((f) => f.refresh());
      ready();
      show();
      showSkipped(model.state.skip);
      by("skipped-box").hidden = model.state.skip.length === 0;
    },
    entries: () => entries,
    far() {
      const done = entries.filter((e) => (model.entry(e, false)?.is ?? "").trim() !== "").length;
      return entries.length === 0 ? "nothing to tape yet" : done + " of " + entries.length + " measured";
    },
  };
}
