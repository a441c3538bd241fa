// photoRows is a list of rows with fields, which grows: while its last row is filled, an
// empty one follows. It is made of a template whose fields have data-of, what they hold.
//
//   box, template   elements
//   list()          the filled rows, objects of text, which the fields change
//   fields          what a row holds, ["from", "to", "is"]
//   choices()       [{ name, words }], what from and to may be
//   label           what a row is called, "Distance"; its number follows
//   changed()       its user changed it
//   level(row)      reads row.is by the phone; may be left out
function photoRows(desk) {
  "use strict";

  const { box, fields } = desk;
  let spare = null; // the empty row at the end, which isn't in the list
  let shown = []; // the rows that are shown, in order: { row, item }

  const empty = () => Object.fromEntries(fields.map((of) => [of, ""]));
  const begun = (row) => fields.some((of) => row[of] !== "");
  const field = (item, of) => item.querySelector(`[data-of="${of}"]`);

  function made(row) {
    const item = desk.template.content.firstElementChild.cloneNode(true);
    for (const of of fields) {
      field(item, of).addEventListener("input", () => {
        row[of] = field(item, of).value;
        taken(row);
      });
    }
    item.querySelector('[data-row="remove"]').addEventListener("click", () => {
      const list = desk.list();
      const at = list.indexOf(row);
      if (at >= 0) {
        list.splice(at, 1);
      }
      show();
      shown[Math.min(Math.max(0, at), shown.length - 1)].item.querySelector("select, input").focus();
      desk.changed();
    });
    const level = item.querySelector('[data-row="level"]');
    if (level && desk.level) {
      level.hidden = false;
      level.addEventListener("click", async () => {
        const is = await desk.level(row);
        if (is !== null) {
          row.is = field(item, "is").value = is;
          taken(row);
        }
      });
    }
    return { row, item };
  }

  // taken takes up what was typed in a row: the spare one is in the list from then on.
  function taken(row) {
    if (row === spare && begun(row)) {
      desk.list().push(row);
      spare = null;
      show();
    }
    dress();
    desk.changed();
  }

  function show() {
    const list = desk.list();
    spare ??= empty();
    const rows = [...list, spare];
    const before = new Map(shown.map((one) => [one.row, one]));
    shown = rows.map((row) => before.get(row) ?? made(row));
    for (const { row, item } of before.values()) {
      if (!rows.includes(row)) {
        item.remove();
      }
    }
    shown.forEach(({ item }, i) => {
      if (box.children[i] !== item) { // what stands right stays, and keeps the focus
        box.insertBefore(item, box.children[i] ?? null);
      }
    });
    dress();
  }

  // dress shows what rows hold, and what may be chosen by now.
  function dress() {
    const choices = desk.choices();
    shown.forEach(({ row, item }, i) => {
      item.setAttribute("aria-label", desk.label + " " + (i + 1));
      for (const of of fields) {
        const one = field(item, of);
        if (one.localName === "select") {
          const gone = row[of] !== "" && !choices.some(({ name }) => name === row[of]);
          one.replaceChildren(new Option("choose", ""), ...choices.map(({ name, words }) => new Option(words, name)), ...(gone ? [new Option(row[of] + ", not picked", row[of])] : []));
        }
        if (one.value !== row[of]) {
          one.value = row[of];
        }
      }
      item.querySelector('[data-row="remove"]').hidden = row === spare;
    });
  }

  return {
    show,
    // faults tells what is wrong, by the number of the row and the field: [{ row, of, says }].
    faults(list) {
      shown.forEach(({ row, item }) => photoFaults(item, list.filter((one) => one.row === row)));
    },
  };
}

// photoFaults shows in a row what is wrong with its fields: [{ of, says }].
function photoFaults(item, list) {
  "use strict";

  for (const one of item.querySelectorAll("[data-of]")) {
    const fault = list.find(({ of }) => of === one.dataset.of);
    one.setAttribute("aria-invalid", String(fault !== undefined));
    one.setAttribute("aria-description", fault?.says ?? "");
  }
  const told = item.querySelector('[data-row="fault"]');
  told.textContent = list.map(({ says }) => says).join(" ");
  told.hidden = list.length === 0;
}

// photoQuestions asks what is picked and typed by then, once nothing else is changed for a
// while, and shows the newest answer: one that is late is dropped. question() is { body, rows },
// or null where there is nothing to ask; show(answer, rows) shows what came of it.
function photoQuestions(desk) {
  "use strict";

  const { ask, question, show } = desk;
  const pause = 250; // ms without another change
  let waiting = 0;
  let newest = 0; // the number of the question
  const no = (mark, says) => ({ faults: [], places: [], sketch: "", uncertain: "", mark, says: [says] });

  async function askNow(number) {
    const now = question();
    if (now === null) {
      show(no("open", "Nothing is picked yet."), { picks: [], tapes: [], levels: [] });
      return;
    }
    let answer;
    try {
      const { ok, said } = await ask("photo", now.body);
      answer = ok ? said : no("short", said.error);
    } catch (why) {
      answer = no("short", "That could not be reckoned: " + why.message);
    }
    if (number === newest) {
      show(answer, now.rows);
    }
  }

  return {
    reckon() {
      clearTimeout(waiting);
      newest++;
      waiting = setTimeout(askNow, pause, newest);
    },
  };
}
