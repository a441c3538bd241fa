// savePart saves texts of the page: into their files, where the browser lets it, or else as
// downloads. desk says which texts there are, and is told what was done.
function savePart(desk) {
  "use strict";

  const { texts, tell, listTexts, keep } = desk;

  // saveFile writes a text into its file, where the browser can, or else into a download.
  async function saveFile(name) {
    const of = texts.get(name);
    const { text } = of;
    try {
      if (!of.handle && window.showSaveFilePicker) {
        of.handle = await window.showSaveFilePicker({ suggestedName: name });
      }
      if (of.handle) {
        const file = await of.handle.createWritable();
        await file.write(text);
        await file.close();
        of.filed = text;
        tell("Saved into " + of.handle.name + ".");
        listTexts();
        keep();
        return;
      }
    } catch (why) {
      if (why.name === "AbortError") {
        tell("Not saved.");
        return;
      }
      of.handle = null; // the browser doesn't let it: then as a download
    }
    download(name, new Blob([text], { type: "text/plain" }));
    of.filed = text;
    tell(name + " is saved as a download.");
    listTexts();
    keep();
  }

  return { saveFile };
}
