// measureOnPage is the part "No drawing" of the page that is one file: the run that is made
// there is one of its texts. desk says what there is on the page.
function measureOnPage(desk) {
  "use strict";

  const { texts } = desk;
  return measurePart({
    element: desk.element, announce: desk.announce, changed: desk.keep, takes: "Take it as a run", gone: desk.carrier.gone,
    ask: (call, body) => desk.carrier.ask(call, body),
    held: (name) => texts.get(name)?.text ?? null,
    other: () => (texts.has(desk.shown()) ? { name: desk.shown(), text: texts.get(desk.shown()).text } : null),
    // take puts a text among those that are open, and shows it; null: as it is by now.
    async take(name, text) {
      if (text !== null) {
        texts.set(name, { filed: "", handle: null, ...texts.get(name), text });
        await desk.put();
      }
      desk.part("try");
      scrollTo(0, 0);
      await desk.show(name);
    },
    write: desk.retype,
  });
}
