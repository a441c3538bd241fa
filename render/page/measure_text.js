// measureText is the text that "No drawing" makes: it is taken as a run, gone on with, and
// taken up again. Where it was changed by hand meanwhile, it is asked what is to become of it.
function measureText(form, page) {
  "use strict";

  const { by, element, model } = form;
  const takes = [by("take"), by("take-last")];
  let taken = null; // { name, text }: what was last put among the texts
  let loose = null; // the same of a file that nobody holds: it is read, and saved
  let asked = ""; // the text that is asked about, where it was not taken from here yet

  function refresh() {
    for (const one of takes) {
      one.disabled = !form.answer()?.text;
      form.fields.say(one, taken ? "Show " + taken.name : page.takes);
    }
    showOther();
  }

  // own is what of a text the form writes: below a line of its own it leaves all as it is. Of
  // a text that the form didn't write that is nothing.
  const own = (text) => (model.state.foreign ? "" : text.split("\n# ---- ")[0]);

  // goOn writes what is entered into the text that was taken, but where that was changed by
  // hand meanwhile.
  function goOn() {
    const held = taken && page.held(taken.name);
    if (!taken || held === null) {
      taken = null;
      refresh();
      question("");
      return;
    }
    if (own(held) !== own(taken.text)) {
      question(taken.name + " was changed by hand since it was taken from here. What is entered now is not in it.");
      return;
    }
    question("");
    if (!form.answer()?.text || form.answer().text === held) {
      return;
    }
    if (form.heldThen() !== held) { // what stands below the line is other by now
      form.again();
      return;
    }
    page.write(taken.name, form.answer().text);
    taken.text = form.answer().text;
    page.changed();
  }

  // question asks what is to become of a text; instead is what else can be done than one of both.
  function question(words, instead = "Leave the text alone") {
    const before = by("ask-what").textContent;
    by("ask").hidden = words === "";
    form.fields.say(by("ask-what"), words);
    form.fields.say(by("leave"), instead);
    if (words && words !== before) {
      page.announce(words);
    }
  }

  function take(name) {
    const { text } = form.answer();
    page.take(name, text);
    taken = page.held(name) === null ? null : { name, text };
    question("");
    refresh();
    page.changed();
  }

  takes.forEach((one) => one.addEventListener("click", () => {
    const held = page.held(taken?.name ?? file());
    if (!taken && held !== null && held !== form.answer().text) {
      asked = file();
      question(asked + " is open already, with another text.", "Take it as " + unheld(asked));
      by("ask").focus();
      return;
    }
    if (taken) {
      page.take(taken.name, null);
      return;
    }
    take(file());
  }));
  // unheld is a name that no text has: that of a file, or that with a number.
  function unheld(name) {
    const base = name.replace(/\.hcl$/, "");
    for (let i = 2; ; i++) {
      const made = base + "-" + i + ".hcl";
      if (page.held(made) === null) {
        return made;
      }
    }
  }
  const file = () => loose?.name ?? form.answer().file;
  by("over").addEventListener("click", () => {
    if (form.answer()?.text) {
      const name = taken?.name ?? asked;
      taken = { name, text: page.held(name) };
      refresh();
      question("");
      form.again();
    }
  });
  by("leave").addEventListener("click", () => {
    if (!taken) { // it is of another run, which has that name already
      question("");
      if (form.answer()?.text) {
        take(unheld(asked));
      }
      return;
    }
    taken = null;
    question("");
    refresh();
  });
  by("reread").addEventListener("click", () => {
    const name = taken?.name ?? asked;
    reread(name, page.held(name));
  });

  // reread goes on with a text that the form has written.
  async function reread(name, text) {
    let got;
    try {
      got = await page.ask("outline", { text });
    } catch {
      got = { ok: false, said: { error: page.gone } };
    }
    const { outline, taped = [], why, error } = got.said;
    if (!got.ok || !outline && taped.length === 0) {
      form.note(name + " can't be gone on with here: " + (error ?? why) + ".");
      return;
    }
    if (outline) {
      model.taken(outline, taped);
    } else {
      model.filling(taped);
    }
    loose = page.held(name) === null ? { name, text } : null;
    taken = loose ? null : { name, text };
    question("");
    form.changed();
    form.open("6");
    if (outline) {
      page.announce("Going on with " + name + ".");
    } else {
      form.note(name + " can be filled in here: " + why + ".");
    }
  }

  // --- anew, or another file ---

  const goon = form.fields.button("", "", () => {
    const of = page.other();
    if (of) {
      reread(of.name, of.text);
    }
  });
  const picker = element("input", { type: "file", "aria-label": "A file to go on with" });
  picker.addEventListener("change", async () => {
    const [one] = picker.files;
    if (one) {
      const text = await one.text();
      picker.value = "";
      reread(one.name, text);
    }
  });
  by("goon").append(...(page.other ? [goon] : [element("label", { className: "field" }, element("span", {}, "Go on with a file that was saved here"), picker)]));
  function showOther() {
    const of = page.other?.();
    form.fields.say(goon, of ? "Go on with " + of.name : "Go on with a file");
    goon.disabled = !of;
  }

  by("anew").addEventListener("click", () => {
    form.anew();
    form.changed();
    form.note("All is empty now.");
    by("other").open = false;
    form.open("1");
  });

  return {
    refresh, goOn,
    held: () => (taken ? page.held(taken.name) ?? "" : loose?.text ?? ""),
    kept: () => ({ taken, loose }),
    restore(kept) {
      const text = (v) => typeof v === "string";
      const sound = (of) => (text(of?.name) && text(of?.text) ? { name: of.name, text: of.text } : null);
      [taken, loose] = [sound(kept?.taken), sound(kept?.loose)];
    },
  };
}
