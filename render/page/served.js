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

  if (token) {
    workbench({ ask, shut, gone: "Start \"fullfree serve\" again and open the address that it prints.", lean: false, watches: true }).start();
  } else {
    lock("This page was opened without its key, so it shows nothing.");
  }
})();
