// askPart is what is asked of the run besides, and what is made of it for paper. desk says
// what it works on: its carrier, its bench, how files are saved, and what to tell.
function askPart(desk) {
  "use strict";

  const by = (id) => document.getElementById(id);
  const { carrier, bench } = desk;
  const { element } = bench;
  let found = null; // the setting that the last answer found
  let asking = false;
  let kept = []; // settings kept to compare

  // busily asks what takes its time, with how far it is and a button to stop it. It returns
  // null where it was stopped.
  async function busily(what, ask) {
    const buttons = [...document.querySelectorAll("[data-ask], [data-make], #print-sheet")];
    buttons.forEach((b) => { b.disabled = true; });
    asking = true;
    by("busy-what").textContent = what;
    by("busy-bar").removeAttribute("value");
    by("busy").hidden = false;
    const progress = (done, of) => {
      if (of > 0) {
        by("busy-bar").value = Math.min(1, done / of);
        by("busy-what").textContent = what + " " + done + " of " + of;
      }
    };
    try {
      return await ask(progress);
    } catch (why) {
      desk.tell(carrier.stopped(why) ? "Stopped." : "That could not be answered: " + why.message);
      return null;
    } finally {
      asking = false;
      by("busy").hidden = true;
      buttons.forEach((b) => { b.disabled = false; });
    }
  }

  by("stop").addEventListener("click", () => {
    if (!asking) { // then it is the run itself that takes so long
      desk.giveUp();
    }
    carrier.stop();
  });

  // passages lays a report out.
  function passages(list) {
    return list.map((p) => {
      if (!p.head) {
        return element("p", { className: "deep deep" + Math.min(4, p.deep) }, p.words);
      }
      const cell = (name, i, words) => element(name, { className: p.numbers[i] ? "number" : "" }, words);
      return element("div", { className: "wide", tabIndex: 0, role: "region", "aria-label": p.head[0] || "figures" },
        element("table", {},
          element("thead", {}, element("tr", {}, ...p.head.map((words, i) => cell("th", i, words)))),
          element("tbody", {}, ...p.rows.map((row) => element("tr", {}, ...row.map((words, i) => cell(i ? "td" : "th", i, words)))))));
    });
  }

  function drawn(svg) {
    const page = new DOMParser().parseFromString(svg, "image/svg+xml");
    return element("figure", { className: "chart" }, document.importNode(page.documentElement, true));
  }

  const words = {
    compare: "Compared", effect: "What a turn does", charts: "Charts", rig: "The best setting", find: "The dimensions", tolerance: "Made a little off",
  };

  async function question(call) {
    const body = { ...bench.asked(), beside: call === "compare" ? kept : [] };
    if (call === "tolerance") {
      body.builds = Math.round(by("builds").valueAsNumber) || 0;
    }
    const answer = await busily(words[call] + ": being reckoned.", (progress) => carrier.ask(call, body, undefined, progress));
    found = null;
    by("try-found").hidden = true;
    if (answer === null) {
      return;
    }
    if (!answer.ok) {
      by("answer").replaceChildren(element("h3", {}, words[call]), element("p", { className: "verdict short lines" }, answer.said.error));
    } else {
      const { said } = answer;
      by("answer").replaceChildren(element("h3", {}, words[call] + (said.title ? ": " + said.title : "")), ...(said.charts ? said.charts.map(drawn) : passages(said.told)));
      found = said.found ?? null;
      by("try-found").hidden = found === null;
    }
    by("answer").focus({ preventScroll: true });
    by("answer").scrollIntoView({ block: "nearest" });
    desk.announce(words[call] + ": answered.");
  }

  for (const one of document.querySelectorAll("[data-ask]")) {
    one.addEventListener("click", () => question(one.dataset.ask));
  }

  by("try-found").addEventListener("click", () => {
    if (found) {
      bench.set(found);
      desk.part("try");
    }
  });

  by("keep-setting").addEventListener("click", () => {
    const { hash, turns, stops, varies } = bench.asked();
    const copy = JSON.parse(JSON.stringify({ hash, turns, stops, varies }));
    const same = JSON.stringify(copy);
    const empty = Object.keys({ ...turns, ...stops, ...varies }).length === 0;
    if (!empty && !kept.some((k) => JSON.stringify(k) === same)) {
      kept.push(copy);
    }
    by("kept-settings").textContent = empty && kept.length === 0 ? "Nothing is tried, so there is nothing to keep." : kept.length + " kept.";
  });

  // --- for paper ---

  const types = { html: "text/html", pdf: "application/pdf", json: "application/json" };

  // make makes a file and saves it.
  async function make(call, body, name) {
    const answer = await busily(name + ": being made.", (progress) => carrier.bytes(call, body, { progress }));
    if (answer === null) {
      return;
    }
    if (!answer.ok) {
      desk.tell("Not made: " + answer.said.error);
      return;
    }
    download(name, new Blob([answer.bytes], { type: types[name.split(".").pop()] }));
    by("made").append(element("li", {}, name + ", " + Math.ceil(answer.bytes.length / 1000) + " kB: saved as a download."));
    desk.announce(name + " is made.");
  }

  const base = () => desk.shown().replace(/\.hcl$/i, "");
  const files = {
    book: () => make("book", {}, base() + ".html"),
    "book-pdf": () => make("book", { pdf: true, paper: by("paper").value }, base() + ".pdf"),
    "full-size": () => make("full-size", { view: by("full-view").value, only: by("full-only").value.trim(), paper: by("paper").value }, base() + "-full-size.pdf"),
    check: () => make("check", {}, base() + ".json"),
  };
  for (const one of document.querySelectorAll("[data-make]")) {
    one.addEventListener("click", () => files[one.dataset.make]());
  }
  by("print-sheet").addEventListener("click", () => desk.printSheet());

  return {
    // slow shows that what is shown takes long, with the same button to stop it.
    slow(is) {
      if (!asking) {
        by("busy-what").textContent = "The run is being reckoned.";
        by("busy-bar").removeAttribute("value");
        by("busy").hidden = !is;
      }
    },
    // begin forgets what was asked of another file.
    begin() {
      [found, kept] = [null, []];
      by("kept-settings").textContent = "";
      by("try-found").hidden = true;
      by("answer").replaceChildren();
    },
  };
}
