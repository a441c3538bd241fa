// keeper keeps what is open in the browser's own storage, on this device alone, under names
// of its own: what else is kept there by other files is left alone. Where the browser keeps
// nothing, works is false.
function keeper() {
  "use strict";

  const prefix = "fullfree page: ";
  const last = prefix + "last open";
  const here = prefix + "open in this tab";

  const works = quietly(() => {
    localStorage.setItem(prefix + "trial", "1");
    localStorage.removeItem(prefix + "trial");
    return true;
  }) === true;

  // sound says whether what was kept is what write keeps: other pages may write there too.
  function sound(state) {
    const text = (v) => typeof v === "string";
    return state !== null && typeof state === "object" && Array.isArray(state.texts) && state.texts.length > 0 &&
      state.texts.every((t) => t !== null && typeof t === "object" && text(t.name) && text(t.text)) &&
      state.texts.some((t) => t.name === state.shown);
  }

  return {
    works,
    // read is what was last open; null: nothing. In this tab says that it was here.
    read() {
      const state = quietly(() => JSON.parse(localStorage.getItem(last)));
      return sound(state) ? state : null;
    },
    inThisTab: () => quietly(() => sessionStorage.getItem(here)) === "yes",
    // write keeps a state; false: there is no room for it.
    write(state) {
      return quietly(() => {
        localStorage.setItem(last, JSON.stringify(state));
        sessionStorage.setItem(here, "yes");
        return true;
      }) === true;
    },
    erase() {
      for (const storage of [() => localStorage, () => sessionStorage]) {
        quietly(() => {
          const own = storage();
          Object.keys(own).filter((name) => name.startsWith(prefix)).forEach((name) => own.removeItem(name));
        });
      }
    },
  };
}
