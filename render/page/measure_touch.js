// touchSheet is a sheet on which places are put by touch, by mouse or by key: over a
// picture, or else on a grid in units of the run. It works in an element that holds the
// template "measure-touch" (which may stand in a page more than once):
//
//   box         that element
//   picture()   the ImageBitmap that lies under the sketch; null: a grid
//   units()     "mm" or "in", what the grid's numbers are in
//   places()    [{ name, letter, pivot, x, y }]: x and y are null until a place is put; else
//               numbers, over a picture in its pixels with y down, on a grid in the units
//               with y up. pivot: of the airframe. letter is that of the taping page, and may
//               be left out
//   lines()     [{ from, to, rod }], names of places joined by a line: a rod, or holes of
//               one part. May be left out
//   put(name, x, y)   takes up where a place was put: rounded to a pixel's tenth, or on the
//               grid to what a finger tells apart there; null, null: it was taken away
//   told(words) announces what was put where
//
// It returns
//
//   show()      draws anew: places, lines or the picture are others, or it came in sight
//   fit()       the same, with all of it in sight
//   choose(name), chosen()   the place that is put next
//   forget()    nothing that was put before is to be taken back any more
//   lens()      where in the window the magnifier is, { x, y, size }; null: nowhere
//   seen(x, y)  where in the window a place of the picture or the grid is, { x, y }
function touchSheet(desk) {
  "use strict";

  const { box, picture, units, places, put, told } = desk;
  const lines = desk.lines ?? (() => []);
  const part = (name) => box.querySelector(`[data-touch="${name}"]`);
  const [sheet, small] = [part("sheet"), part("lens")];
  const drawing = sheetDrawing();
  const mostBacking = 4e6; // pixels of a canvas, 16 MB
  const view = { x: 0, y: 0, scale: 0, up: true };
  let of = null; // what the view was fitted to: a picture or null
  let fitted = false;
  let chosen = "";
  let done = []; // to be taken back: { name, x, y } as they were
  let finger = null; // where in the sheet one is down, { x, y } in CSS pixels
  let magnifier = null; // { x, y, size } in the sheet

  const find = (name) => places().find((one) => one.name === name);
  const size = () => ({ width: sheet.clientWidth, height: sheet.clientHeight });
  const called = (one) => (one.letter ? one.letter + " " : "") + one.name;

  // --- what is in sight ---

  // fine is what is told apart on the sheet: a pixel of the picture; on a grid about what a
  // pixel of the screen is, in steps that a rule has.
  function fine() {
    if (picture()) {
      return 1;
    }
    const seen = 1 / view.scale;
    return units() === "in" ? 2 ** Math.max(-6, Math.floor(Math.log2(seen))) : 10 ** Math.max(-1, Math.floor(Math.log10(seen)));
  }

  function rounded(p) {
    const by = picture() ? 0.1 : fine();
    const round = (v, most) => Math.round(Math.round((most === undefined ? v : Math.min(most, Math.max(0, v))) / by) * by * 1e6) / 1e6 + 0;
    return { x: round(p.x, picture()?.width), y: round(p.y, picture()?.height) };
  }

  // Where there is no place yet, a grid shows so much.
  const usual = () => (units() === "in" ? 30 : 800);

  function fit() {
    const { width, height } = size();
    [of, fitted] = [picture(), width > 0];
    if (!fitted) {
      return;
    }
    if (of) {
      Object.assign(view, { x: of.width / 2, y: of.height / 2, scale: Math.min(width / of.width, height / of.height), up: false });
    } else {
      const put = places().filter((one) => one.x !== null);
      const [xs, ys] = [put.map((one) => one.x), put.map((one) => one.y)];
      const span = (list) => (list.length > 0 ? Math.max(...list) - Math.min(...list) : 0);
      const middle = (list) => (list.length > 0 ? (Math.max(...list) + Math.min(...list)) / 2 : 0);
      const room = 1.5; // as much as what is put, so that more can be
      const least = put.length > 1 ? usual() / 100 : usual();
      Object.assign(view, { x: middle(xs), y: middle(ys), up: true,
        scale: Math.min(width / Math.max(least, room * span(xs)), height / Math.max(least / 2, room * span(ys))) });
    }
    draw();
  }

  // zoom zooms about a point of the sheet, which stays where it is.
  function zoom(by, about) {
    const whole = of ? Math.min(size().width / of.width, size().height / of.height) : 0;
    const [least, most] = of ? [whole / 2, Math.max(8, whole)] : units() === "in" ? [0.2, 1600] : [0.01, 60];
    const before = drawing.under(view, size(), about);
    view.scale = Math.min(most, Math.max(least, view.scale * by));
    const after = drawing.under(view, size(), about);
    pan(before.x - after.x, before.y - after.y);
  }

  // pan moves what is in sight; a picture stays in sight.
  function pan(x, y) {
    view.x += x;
    view.y += y;
    if (of) {
      view.x = Math.min(of.width, Math.max(0, view.x));
      view.y = Math.min(of.height, Math.max(0, view.y));
    }
    draw();
  }

  const middle = () => ({ x: size().width / 2, y: size().height / 2 });

  // --- drawing ---

  let wanted = 0;
  function draw() {
    if (!wanted) {
      wanted = requestAnimationFrame(() => {
        wanted = 0;
        drawNow();
      });
    }
  }

  // ready sizes a canvas for the screen that it is on, and returns what draws on it.
  function ready(canvas) {
    const { clientWidth: width, clientHeight: height } = canvas;
    const dots = Math.min(devicePixelRatio || 1, Math.sqrt(mostBacking / Math.max(1, width * height)));
    const [w, h] = [Math.floor(width * dots), Math.floor(height * dots)];
    if (canvas.width !== w || canvas.height !== h) {
      [canvas.width, canvas.height] = [w, h];
    }
    const draw = canvas.getContext("2d");
    draw.setTransform(dots, 0, 0, dots, 0, 0);
    return draw;
  }

  function what() {
    return { picture: picture(), units: units(), places: places(), lines: lines(), chosen };
  }

  // magnified is the view of a lens about a place.
  function magnified(p, least) {
    const more = of ? Math.min(8, Math.max(least, 2.5 * view.scale)) : 3 * view.scale;
    return { ...view, ...p, scale: Math.max(more, view.scale) };
  }

  function drawNow() {
    const { width, height } = size();
    if (width === 0 || !fitted) {
      return;
    }
    const now = what();
    const spot = finger && find(chosen) ? rounded(drawing.under(view, size(), finger)) : null;
    if (spot) {
      now.places = now.places.map((one) => (one.name === chosen ? { ...one, ...spot } : one));
    }
    const pen = ready(sheet);
    drawing.sheet(pen, view, { width, height }, now);
    magnifier = spot ? beside() : null;
    if (magnifier) {
      pen.save();
      pen.translate(magnifier.x, magnifier.y);
      drawing.lens(pen, magnified(spot, 1), magnifier.size, now);
      pen.restore();
    }
    drawLens(now);
    part("square").textContent = of ? "" : "One square is " + drawing.figure(drawing.square(view, units()), units()) + " " + units() + ".";
  }

  // drawLens draws the lens between the nudging buttons.
  function drawLens(now) {
    const pen = ready(small);
    const one = now.places.find((p) => p.name === chosen);
    const side = small.clientWidth;
    if (one && one.x !== null) {
      drawing.lens(pen, magnified({ x: one.x, y: one.y }, 2), side, now);
    } else {
      pen.clearRect(0, 0, side, side);
    }
  }

  // beside finds room for the magnifier in what of the sheet is in the window: above the
  // finger where that can be, else at the side that has the most room, never under it.
  const [side, apart] = [128, 40]; // CSS pixels; half a thumb's width
  function beside() {
    const around = sheet.getBoundingClientRect();
    const [left, top] = [Math.max(0, -around.left), Math.max(0, -around.top)];
    const right = Math.min(size().width, innerWidth - around.left);
    const bottom = Math.min(size().height, innerHeight - around.top);
    const rooms = { above: finger.y - apart - top, left: finger.x - apart - left, right: right - finger.x - apart, below: bottom - finger.y - apart };
    const most = Object.keys(rooms).reduce((a, b) => (rooms[b] > rooms[a] ? b : a));
    const where = rooms.above >= side ? "above" : ["left", "right"].find((way) => rooms[way] >= side && rooms[way] >= Math.max(rooms.left, rooms.right)) ?? most;
    const long = Math.max(0, Math.min(side, rooms[where], right - left, bottom - top));
    const along = (v, low, high) => Math.min(high - long, Math.max(low, v - long / 2));
    switch (where) {
      case "above":
        return { x: along(finger.x, left, right), y: finger.y - apart - long, size: long };
      case "below":
        return { x: along(finger.x, left, right), y: finger.y + apart, size: long };
      case "left":
        return { x: finger.x - apart - long, y: along(finger.y, top, bottom), size: long };
    }
    return { x: finger.x + apart, y: along(finger.y, top, bottom), size: long };
  }

  // --- putting ---

  const where = (p) => (picture() ? "pixel " + p.x.toFixed(1) + ", " + p.y.toFixed(1) : drawing.figure(p.x, units()) + ", " + drawing.figure(p.y, units()) + " " + units());

  let telling = 0;
  const pause = 500; // ms without another nudge, until where it went is told
  function set(one, p, slowly) {
    const last = done[done.length - 1];
    if (!slowly || last?.name !== one.name || !last.nudged) { // nudges of a place are taken back together
      done.push({ name: one.name, x: one.x, y: one.y, nudged: slowly });
    }
    put(one.name, p.x, p.y);
    clearTimeout(telling);
    const words = called(one) + " is at " + where(p) + ".";
    if (slowly) {
      telling = setTimeout(() => told(words), pause);
    } else {
      told(words);
    }
    showChoice();
    draw();
  }

  function nudge(x, y, by) {
    const one = find(chosen);
    if (!one) {
      told(noPlace);
      return;
    }
    if (one.x === null) {
      set(one, rounded({ x: view.x, y: view.y }), false);
      return;
    }
    const p = rounded({ x: one.x + x * by * fine(), y: one.y + (view.up ? -1 : 1) * y * by * fine() });
    set(one, p, true);
    const [spot, edge] = [drawing.at(view, size(), p), 20];
    if (spot.x < edge || spot.y < edge || spot.x > size().width - edge || spot.y > size().height - edge) {
      pan(p.x - view.x, p.y - view.y);
    }
  }

  const noPlace = "There is no place to put yet: parts and holes are named first.";

  // --- choosing ---

  const option = (one) => new Option(called(one) + (one.x === null ? "" : ", put"), one.name);

  function showChoice() {
    const list = places();
    if (!list.some((one) => one.name === chosen)) {
      chosen = (list.find((one) => one.x === null) ?? list[0])?.name ?? "";
    }
    part("place").replaceChildren(...list.map(option));
    part("place").value = chosen;
    part("place").disabled = list.length === 0;
    const [one, next] = [find(chosen), following()];
    part("next").disabled = next === undefined;
    part("next").textContent = next ? "Next: " + (next.letter || next.name) : "Next";
    part("back").disabled = done.length === 0;
    part("at").textContent = !one ? noPlace : one.x === null ? called(one) + " is not put yet." : called(one) + " is at " + where(one) + ".";
    sheet.setAttribute("aria-label", (picture() ? "The photo" : "The grid") + ", on which " + (one ? called(one) : "a place") + " is put. Arrow keys put it in the middle and then nudge it, with Shift ten times as far; plus and minus zoom.");
    for (const button of box.querySelectorAll("[data-nudge]")) {
      button.disabled = !one;
    }
  }

  // following is the place after the chosen one that is not put yet, going round.
  function following() {
    const list = places();
    const from = list.findIndex((one) => one.name === chosen) + 1;
    return [...list.slice(from), ...list.slice(0, Math.max(0, from - 1))].find((one) => one.x === null);
  }

  function choose(name) {
    chosen = name;
    showChoice();
    draw();
  }

  part("place").addEventListener("change", () => choose(part("place").value));
  part("next").addEventListener("click", () => {
    const next = following();
    if (next) {
      choose(next.name);
      told(called(next) + " is put next.");
    }
  });
  part("back").addEventListener("click", () => {
    const last = done.pop();
    if (last && find(last.name)) {
      chosen = last.name;
      put(last.name, last.x, last.y);
      told(called(find(last.name)) + (last.x === null ? " is taken away again." : " is back at " + where(last) + "."));
    }
    showChoice();
    draw();
  });

  // --- fingers, mouse and keys ---

  const fingers = sheetFingers(sheet, {
    pointing(point) {
      finger = point;
      draw();
    },
    put(point) {
      const one = find(chosen);
      if (one) {
        set(one, rounded(drawing.under(view, size(), point)), false);
      } else {
        told(noPlace);
      }
    },
    moved: (x, y) => pan(-x / view.scale, (view.up ? 1 : -1) * y / view.scale),
    zoomed: zoom,
  });

  const times = 1.5; // that a button or a key zooms
  sheet.addEventListener("keydown", (event) => {
    const ways = { ArrowLeft: [-1, 0], ArrowRight: [1, 0], ArrowUp: [0, -1], ArrowDown: [0, 1] };
    const way = ways[event.key];
    if (event.ctrlKey || event.altKey || event.metaKey) {
      return;
    }
    if (way || (event.key === "Enter" && find(chosen)?.x === null)) {
      nudge(...(way ?? [0, 0]), event.shiftKey ? 10 : 1);
    } else if (event.key === "+" || event.key === "=") {
      zoom(times, middle());
    } else if (event.key === "-") {
      zoom(1 / times, middle());
    } else if (event.key === "Escape" && finger) {
      fingers.leave();
    } else {
      return;
    }
    event.preventDefault();
  });

  const both = (words) => words.split(" ").map(Number);
  for (const button of box.querySelectorAll("[data-nudge]")) {
    button.addEventListener("click", (event) => nudge(...both(button.dataset.nudge), event.shiftKey ? 10 : 1));
  }
  for (const button of box.querySelectorAll("[data-zoom]")) {
    button.addEventListener("click", () => zoom(times ** Number(button.dataset.zoom), middle()));
  }
  for (const button of box.querySelectorAll("[data-pan]")) {
    const part = 0.25; // of what is in sight
    const [x, y] = both(button.dataset.pan);
    button.addEventListener("click", () => pan(part * x * size().width / view.scale, part * (view.up ? -y : y) * size().height / view.scale));
  }
  part("fit").addEventListener("click", fit);

  function show() {
    if (!fitted || of !== picture()) {
      fit();
    }
    showChoice();
    draw();
  }
  new ResizeObserver(show).observe(sheet);
  showChoice();

  return {
    show,
    fit,
    choose,
    chosen: () => chosen,
    forget() {
      done = [];
      showChoice();
    },
    lens() {
      const around = sheet.getBoundingClientRect();
      return magnifier && { x: around.left + sheet.clientLeft + magnifier.x, y: around.top + sheet.clientTop + magnifier.y, size: magnifier.size };
    },
    seen(x, y) {
      const around = sheet.getBoundingClientRect();
      const p = drawing.at(view, size(), { x, y });
      return { x: around.left + sheet.clientLeft + p.x, y: around.top + sheet.clientTop + p.y };
    },
  };
}
