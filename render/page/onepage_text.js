// textPart is the text of the shown file, edited: faults stand at their lines, names are
// completed, and what was done is undone. edited(text) takes every change.
function textPart(edited) {
  "use strict";

  const by = (id) => document.getElementById(id);
  const area = by("text");
  const mostNames = 8; // that are offered
  const leastTyped = 2; // letters, from which on names are offered
  const mostUndone = 300;
  const together = 700; // ms within which typing is one step to undo
  let known = []; // words and names of the file
  let faults = [];
  let past = [];
  let future = [];
  let now = { text: "", at: 0 };
  let typed = 0; // when

  let drawn = ""; // what gutter and marks show
  function lines() {
    const faulty = new Map(faults.filter((f) => f.line > 0).map((f) => [f.line, f]));
    const all = area.value.split("\n");
    const now = all.length + (faulty.size > 0 ? JSON.stringify(faults) + area.value : "");
    if (now === drawn) {
      return;
    }
    drawn = now;
    by("gutter").replaceChildren(...all.map((_, i) => {
      const mark = document.createElement("span");
      mark.textContent = (faulty.has(i + 1) ? "▶ " : "") + String(i + 1);
      mark.className = faulty.has(i + 1) ? "faulty" : "";
      return mark;
    }));
    by("marks").replaceChildren(...all.flatMap((line, i) => {
      const fault = faulty.get(i + 1);
      if (!fault) {
        return "\n";
      }
      const shown = document.createElement("span");
      shown.textContent = line;
      shown.className = "faulty";
      const says = document.createElement("strong");
      says.textContent = "   ◀ " + fault.says;
      return [shown, says, "\n"];
    }));
    scrolled();
  }

  function scrolled() {
    by("gutter").scrollTop = area.scrollTop;
    by("marks").scrollTop = area.scrollTop;
    by("marks").scrollLeft = area.scrollLeft;
  }

  // word is what is being typed before the caret.
  function word() {
    const before = area.value.slice(0, area.selectionStart);
    return /[A-Za-z][\w.-]*$/.exec(before)?.[0] ?? "";
  }

  function offered() {
    const begun = word();
    if (begun.length < leastTyped || area.selectionStart !== area.selectionEnd) {
      return [];
    }
    const inText = area.value.match(/[A-Za-z][\w-]*(\.[A-Za-z][\w-]*)*/g) ?? [];
    const all = new Set([...known, ...inText]);
    all.delete(begun);
    return [...all].filter((name) => name.startsWith(begun)).sort((a, b) => a.length - b.length || (a < b ? -1 : 1)).slice(0, mostNames);
  }

  function complete(name) {
    const begun = word();
    area.setRangeText(name.slice(begun.length), area.selectionStart, area.selectionStart, "end");
    changed(false);
    area.focus();
  }

  function offer() {
    by("names").replaceChildren(...offered().map((name) => {
      const one = document.createElement("button");
      one.type = "button";
      one.textContent = name;
      one.addEventListener("click", () => complete(name));
      return one;
    }));
  }

  function ways() {
    by("undo").disabled = past.length === 0;
    by("redo").disabled = future.length === 0;
  }

  // changed takes a change up; of typing that goes on at one place the steps are one.
  function changed(typing) {
    const time = performance.now();
    const elsewhere = Math.abs(area.selectionStart - now.at) > 1;
    if (!typing || elsewhere || time - typed > together || past.length === 0) {
      past.push(now);
      past = past.slice(-mostUndone);
    }
    typed = typing ? time : 0;
    future = [];
    taken();
  }

  function taken() {
    now = { text: area.value, at: area.selectionStart };
    ways();
    offer();
    lines();
    edited(area.value);
  }

  // back goes a step from one list to the other.
  function back(from, to) {
    const step = from.pop();
    if (!step) {
      return;
    }
    to.push(now);
    area.value = step.text;
    area.setSelectionRange(step.at, step.at);
    typed = 0;
    taken();
  }

  area.addEventListener("input", (event) => {
    if (event.inputType !== "historyUndo" && event.inputType !== "historyRedo") {
      changed(event.inputType === "insertText" || event.inputType === "deleteContentBackward" || event.inputType === "insertCompositionText");
    }
  });
  area.addEventListener("beforeinput", (event) => {
    if (event.inputType === "historyUndo" || event.inputType === "historyRedo") {
      event.preventDefault();
      back(...(event.inputType === "historyUndo" ? [past, future] : [future, past]));
    }
  });
  area.addEventListener("keydown", (event) => {
    const meta = event.ctrlKey || event.metaKey;
    if (meta && event.key === " ") {
      event.preventDefault();
      const first = offered()[0];
      if (first) {
        complete(first);
      }
    } else if (meta && event.key.toLowerCase() === "z") {
      event.preventDefault();
      back(...(event.shiftKey ? [future, past] : [past, future]));
    } else if (meta && event.key.toLowerCase() === "y") {
      event.preventDefault();
      back(future, past);
    }
  });
  area.addEventListener("scroll", scrolled);
  area.addEventListener("click", offer);
  by("undo").addEventListener("click", () => back(past, future));
  by("redo").addEventListener("click", () => back(future, past));

  // go puts the caret on a line.
  function go(line, column) {
    const before = area.value.split("\n").slice(0, line - 1).join("\n").length + (line > 1 ? 1 : 0);
    const at = Math.min(area.value.length, before + Math.max(0, column - 1));
    area.focus();
    area.setSelectionRange(at, at);
    area.scrollTop = Math.max(0, (line - 3) * parseFloat(getComputedStyle(area).lineHeight));
    scrolled();
  }

  function showFaults() {
    by("faults").replaceChildren(...faults.map((fault) => {
      const row = document.createElement("li");
      if (fault.line > 0) {
        const one = document.createElement("button");
        one.type = "button";
        one.className = "link";
        one.textContent = "line " + fault.line + ": " + fault.says;
        one.addEventListener("click", () => go(fault.line, fault.column));
        row.append(one);
      } else {
        row.textContent = fault.says;
      }
      return row;
    }));
  }

  return {
    // open shows another text, of which nothing is to be undone.
    open(text) {
      area.value = text;
      now = { text, at: 0 };
      [past, future, faults] = [[], [], []];
      by("names").replaceChildren();
      ways();
      lines();
      showFaults();
    },
    // put changes the text from elsewhere, which can be undone.
    put(text) {
      if (text !== area.value) {
        past.push(now);
        [area.value, future] = [text, []];
        now = { text, at: 0 };
        ways();
        lines();
      }
    },
    // read takes up what is wrong with the text, and the names in it; null: they stay.
    read(list, names) {
      faults = list;
      known = names ?? known;
      lines();
      showFaults();
      offer();
    },
  };
}
