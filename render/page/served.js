// The workbench as a server gives it: calls go there, with the token that the address
// brought.
(function served() {
  "use strict";

  const by = (id) => document.getElementById(id);

  // The token comes in the address, behind a mark that is not sent, and goes on into
  // the memory of this tab, out of what others may see over a shoulder or in a list
  // of pages: nothing is told without it.
  const kept = "fullfree-token";
  let token = location.hash.slice(1);
  if (token) {
    sessionStorage.setItem(kept, token);
    history.replaceState(null, "", location.pathname);
  } else {
    token = sessionStorage.getItem(kept) || "";
  }
  addEventListener("hashchange", () => location.reload()); // another address, put in by hand

  // lock forgets a token that opens nothing.
  function lock(why) {
    sessionStorage.removeItem(kept);
    token = "";
    shut(why);
  }

  // shut shows nothing but how to come in.
  function shut(why) {
    by("locked-what").textContent = why;
    by("locked").hidden = false;
    by("unlocked").hidden = true;
    by("told").textContent = why;
  }

  async function ask(call, body, signal) {
    const options = { cache: "no-store", credentials: "omit", headers: { "X-Fullfree-Token": token }, signal };
    if (body) {
      options.method = "POST";
      options.headers["Content-Type"] = "application/json";
      options.body = JSON.stringify(body);
    }
    const answer = await fetch("/" + call, options);
    const said = await answer.json();
    if (answer.status === 401) {
      lock("The address that this page was opened with is not, or no longer, the one that fullfree serves.");
    }
    return { ok: answer.ok, said };
  }

  const gone = "Start \"fullfree serve\" again and open the address that it prints.";

  // --- no drawing ---

  // measured is what is kept of it, in this browser's own storage.
  const measured = "fullfree measure: what is entered";

  function noDrawing(element) {
    const announce = (words) => {
      by("told").textContent = words;
    };
    let keeping = 0;
    let kept = quietly(() => JSON.parse(localStorage.getItem(measured)));
    const keepNow = () => {
      clearTimeout(keeping);
      keeping = 0;
      quietly(() => localStorage.setItem(measured, JSON.stringify(part.kept())));
    };
    const soon = 200; // ms
    const part = measurePart({
      element, ask, announce, takes: "Save it as a file", gone,
      changed() {
        clearTimeout(keeping);
        keeping = setTimeout(keepNow, soon);
      },
      held: () => null,
      take(name, text) {
        download(name, new Blob([text], { type: "text/plain" }));
      },
    });
    for (const event of ["pagehide", "visibilitychange"]) {
      addEventListener(event, () => keeping && keepNow());
    }
    by("erase").addEventListener("click", () => {
      clearTimeout(keeping);
      keeping = 0;
      quietly(() => localStorage.removeItem(measured));
      part.erase();
      announce("What was kept here is erased.");
    });
    for (const tab of document.querySelectorAll(".tabs > [data-part]")) {
      tab.addEventListener("click", () => {
        for (const one of document.querySelectorAll("#unlocked > .part")) {
          one.hidden = one.dataset.part !== tab.dataset.part;
        }
        for (const other of document.querySelectorAll(".tabs > [data-part]")) {
          other.setAttribute("aria-pressed", String(other === tab));
        }
        document.body.classList.toggle("measures", tab.dataset.part === "measure");
        if (tab.dataset.part === "measure" && kept !== undefined) {
          part.restore(kept); // not before it is wanted
          kept = undefined;
        }
        if (tab.dataset.part === "measure") {
          part.show();
        }
      });
    }
  }

  if (token) {
    const bench = workbench({ ask, shut, gone, lean: false, watches: true });
    noDrawing(bench.element);
    bench.start();
  } else {
    lock("This page was opened without its key, so it shows nothing.");
  }
})();
