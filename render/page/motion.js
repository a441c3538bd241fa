// motion finds what moves in the pictures under root, and returns show(frames),
// which puts it where frames have it: 12 numbers a body, its turn by rows and
// then its shift.
//
// What moves carries data-at: for each of its places the number of its body (-1
// stands still) and x, y, z as drawn. A group follows the mean of its places. A
// view of a picture carries data-view: which way is right and up on the sheet,
// where the drawing's zero lies, and the scale.
//
// A cable that may hang slack carries data-tension, the series of its tension:
// where values, by series, have none of it, it is of class slack.
function motion(root) {
  "use strict";

  const numbers = (words) => words.trim().split(/\s+/).map(Number);
  const written = (v) => Math.round(v * 100) / 100 + 0; // never -0

  const movers = [];
  for (const view of root.querySelectorAll("[data-view]")) {
    const [rx, ry, rz, ux, uy, uz, zx, zy, scale] = numbers(view.dataset.view);
    for (const element of view.querySelectorAll("[data-at]")) {
      const at = numbers(element.dataset.at);
      movers.push({
        element,
        at,
        kind: element.localName,
        closed: element.hasAttribute("data-closed"),
        right: [rx, ry, rz],
        up: [ux, uy, uz],
        zero: [zx, zy],
        scale,
      });
    }
  }

  // place returns where on the sheet the i-th place of a mover is.
  function place(mover, i, frames) {
    const at = mover.at;
    const body = at[4 * i];
    let x = at[4 * i + 1];
    let y = at[4 * i + 2];
    let z = at[4 * i + 3];
    if (body >= 0) {
      const f = 12 * body;
      const [px, py, pz] = [x, y, z];
      x = frames[f] * px + frames[f + 1] * py + frames[f + 2] * pz + frames[f + 9];
      y = frames[f + 3] * px + frames[f + 4] * py + frames[f + 5] * pz + frames[f + 10];
      z = frames[f + 6] * px + frames[f + 7] * py + frames[f + 8] * pz + frames[f + 11];
    }
    const { right, up, zero, scale } = mover;
    return [
      zero[0] + scale * (right[0] * x + right[1] * y + right[2] * z),
      zero[1] - scale * (up[0] * x + up[1] * y + up[2] * z),
    ];
  }

  // mean returns the mean of a mover's places.
  function mean(mover, frames) {
    const count = mover.at.length / 4;
    let [x, y] = [0, 0];
    for (let i = 0; i < count; i++) {
      const p = place(mover, i, frames);
      x += p[0] / count;
      y += p[1] / count;
    }
    return [x, y];
  }

  // attributes returns what of a mover's element follows from frames.
  function attributes(mover, frames) {
    if (mover.kind === "path") {
      let d = "";
      for (let i = 0; 4 * i < mover.at.length; i++) {
        d += (i === 0 ? "M" : "L") + place(mover, i, frames).map(written).join(" ");
      }
      return { d: d + (mover.closed ? "Z" : "") };
    }
    const [x, y] = mean(mover, frames).map(written);
    switch (mover.kind) {
      case "circle":
        return { cx: x, cy: y };
      case "g":
        return { transform: `translate(${x} ${y})` };
    }
    return { x, y };
  }

  const cables = root.querySelectorAll("[data-tension]");

  return function show(frames, values) {
    for (const cable of cables) {
      const tension = values ? values[cable.dataset.tension] : null;
      if (typeof tension === "number") {
        cable.classList.toggle("slack", tension <= 0);
      }
    }
    for (const mover of movers) {
      for (const [name, value] of Object.entries(attributes(mover, frames))) {
        mover.element.setAttribute(name, value);
      }
    }
  };
}
