// quietly does what a browser may refuse, such as to keep anything; null where it does.
function quietly(does) {
  "use strict";

  try {
    return does();
  } catch {
    return null;
  }
}

// download saves a file where the browser saves downloads.
function download(name, blob) {
  "use strict";

  const address = URL.createObjectURL(blob);
  const link = document.createElement("a");
  [link.href, link.download] = [address, name];
  document.body.append(link);
  link.click();
  link.remove();
  const patience = 60000; // ms until a slow browser has taken it
  setTimeout(() => URL.revokeObjectURL(address), patience);
}
