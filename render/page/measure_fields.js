// measureFields makes the fields of the form of "No drawing". Each knows the path of what it
// holds ("parts.0.holes.1.x"), so that what is wrong is told at it. What is in one is taken
// anew from the state by refresh, but never while it is typed in.
function measureFields(element, model) {
  "use strict";

  let count = 0;
  const all = new Set();

  function button(words, name, does) {
    const made = element("button", { type: "button", textContent: words });
    if (name !== words) {
      made.setAttribute("aria-label", name);
    }
    made.addEventListener("click", does);
    return made;
  }

  // say puts words into an element, where others stand there: what doesn't change isn't laid
  // out anew, and nothing moves.
  function say(node, words) {
    if (node.textContent !== words) {
      node.textContent = words;
    }
  }

  // card is a group of fields with a head.
  function card(head, ...inside) {
    count++;
    head.id = "measure-card-" + count;
    const made = element("div", { className: "card" }, head, ...inside);
    made.setAttribute("role", "group");
    made.setAttribute("aria-labelledby", head.id);
    return made;
  }

  // field lays a label, what is operated and what is told of it out. of has: label, seen
  // (false: the label is for a screen reader alone), hint (words, or what returns them), at().
  function field(of, input, refresh) {
    count++;
    const id = "measure-field-" + count;
    const words = () => (typeof of.hint === "function" ? of.hint() : of.hint ?? "");
    const [hint, fault] = [element("span", { className: "hint", id: id + "-hint" }, words()), element("p", { className: "field-fault", id: id + "-fault", hidden: true })];
    input.id = id;
    const described = () => [of.hint ? hint.id : "", fault.hidden ? "" : fault.id].filter(Boolean).join(" ");
    const label = element("span", { className: of.seen === false ? "unseen" : "", id: id + "-label" }, of.label);
    if (of.hint) { // which describes it, and isn't its name
      input.setAttribute("aria-labelledby", label.id);
    }
    const unit = of.unit ? [element("span", { className: "unit" }, of.unit())] : [];
    const node = element("div", { className: "told-field" },
      element("label", { className: "field" }, label, ...(of.hint ? [hint] : []), element("span", { className: "with-unit" }, input, ...unit)), fault);
    const made = {
      node, input,
      at: of.at ?? (() => ""),
      refresh() {
        input.dataset.at = made.at();
        say(hint, words());
        if (of.unit) {
          say(unit[0], of.unit());
        }
        refresh();
      },
      // fault tells what is wrong here; no words: nothing is.
      fault(words) {
        fault.hidden = words === "";
        fault.textContent = words;
        if (words) {
          input.setAttribute("aria-invalid", "true");
        } else {
          input.removeAttribute("aria-invalid");
        }
        const by = described();
        if (by) {
          input.setAttribute("aria-describedby", by);
        } else {
          input.removeAttribute("aria-describedby");
        }
      },
    };
    made.fault("");
    all.add(made);
    made.refresh();
    return made;
  }

  // text is a field to type in. of has besides: get(), set(text), what (for undo),
  // free (true: it is told in words), clean(text), left(), holder(). Figures are typed on the
  // whole keyboard, for those of a phone's digits have no fractions.
  function text(of) {
    const input = element("input", { type: "text", autocomplete: "off", spellcheck: false });
    input.setAttribute("autocapitalize", of.free ? "sentences" : "off");
    const key = {};
    input.addEventListener("focus", () => {
      key.now = Symbol("typing").toString() + count + Math.random();
    });
    input.addEventListener("input", (event) => {
      if (event.isComposing) {
        return;
      }
      taken();
    });
    input.addEventListener("compositionend", taken);
    function taken() {
      if (of.clean) {
        const [value, at] = [of.clean(input.value), input.selectionStart];
        if (value !== input.value) {
          const kept = of.clean(input.value.slice(0, at)).length;
          input.value = value;
          input.setSelectionRange(kept, kept);
        }
      }
      model.mark(of.what ?? "what was typed", key.now ?? "typed");
      of.set(input.value);
    }
    input.addEventListener("change", () => of.left?.());
    return field(of, input, () => {
      if (document.activeElement !== input) {
        input.value = of.get();
      }
      input.placeholder = of.holder?.() ?? "";
    });
  }

  // choice is a list to choose from. of has besides: options() of [value, words] or of
  // { group, options }, get(), set(value).
  function choice(of) {
    const input = element("select", {});
    let shown = "";
    input.addEventListener("change", () => of.set(input.value));
    const option = ([value, words]) => element("option", { value: String(value) }, words);
    return field(of, input, () => {
      const options = of.options();
      const now = JSON.stringify(options);
      if (now !== shown) {
        shown = now;
        input.replaceChildren(...options.map((o) => (Array.isArray(o) ? option(o) : element("optgroup", { label: o.group }, ...o.options.map(option)))));
      }
      input.value = String(of.get());
    });
  }

  // placesFrom are options of places, by what they are of; first stands before them.
  function placesFrom(first, keep = () => true) {
    const groups = new Map();
    for (const { place, part, name } of model.places().filter(keep)) {
      const group = part ? part.name : "airframe";
      groups.set(group, [...(groups.get(group) ?? []), [place.id, name]]);
    }
    return [["0", first], ...[...groups].map(([group, options]) => ({ group, options }))];
  }

  // rows keeps one row for each thing of a list in a box: a row stays the same element for as
  // long as its thing is there.
  function rows(box, make) {
    const known = new Map();
    return function show(list) {
      for (const [thing, row] of known) {
        if (!list.includes(thing)) {
          row.node.remove();
          known.delete(thing);
        }
      }
      list.forEach((thing, i) => {
        const row = known.get(thing) ?? make(thing);
        known.set(thing, row);
        if (box.children[i] !== row.node) {
          box.insertBefore(row.node, box.children[i] ?? null);
        }
        row.refresh();
      });
    };
  }

  // faults tells each fault at its field, and returns those that have none. Where there is no
  // field for the very path, it is told at the first one below it.
  function faults(list) {
    const live = [...all].filter((f) => f.node.isConnected);
    all.clear();
    live.forEach((f) => all.add(f));
    const told = new Map();
    const rest = [];
    for (const fault of list) {
      const to = fault.at === "" ? undefined : live.find((f) => f.at() === fault.at) ?? live.find((f) => f.at().startsWith(fault.at + "."));
      if (to) {
        told.set(to, [...(told.get(to) ?? []), fault.says]);
      } else {
        rest.push(fault);
      }
    }
    live.forEach((f) => f.fault((told.get(f) ?? []).join(" ")));
    return { rest, at: [...told.keys()] };
  }

  return { button, say, card, text, choice, placesFrom, rows, faults };
}
