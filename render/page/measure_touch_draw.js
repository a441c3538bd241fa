// sheetDrawing draws a sheet with places on it: black, with a white rim, so that it can be
// read on a dark and on a light photo. A view is { x, y, scale, up }: what of the sheet is
// in the middle, how many CSS pixels one unit of it takes, and whether y goes up.
function sheetDrawing() {
  "use strict";

  const font = "600 14px system-ui, sans-serif";
  const rim = 4; // CSS pixels of white about black, both sides together
  const radius = 8; // of a mark, CSS pixels
  const ways = [[1, 0], [-1, 0], [0, 1], [0, -1]];
  const gap = 3; // left free in the middle of a mark, so that what is marked is seen

  // at is where in a box of the given size a place of the sheet is.
  function at(view, size, p) {
    return { x: size.width / 2 + (p.x - view.x) * view.scale, y: size.height / 2 + (view.up ? -1 : 1) * (p.y - view.y) * view.scale };
  }

  // under is what place of the sheet is at a point of the box.
  function under(view, size, p) {
    return { x: view.x + (p.x - size.width / 2) / view.scale, y: view.y + (view.up ? -1 : 1) * (p.y - size.height / 2) / view.scale };
  }

  // twice strokes a path in white, and in black upon it.
  function twice(draw, width, path) {
    draw.beginPath();
    path();
    for (const [color, by] of [["#fff", width + rim], ["#000", width]]) {
      draw.strokeStyle = color;
      draw.lineWidth = by;
      draw.stroke();
    }
  }

  function lined(draw, width, ...ends) {
    twice(draw, width, () => {
      for (const [a, b] of ends) {
        draw.moveTo(a.x, a.y);
        draw.lineTo(b.x, b.y);
      }
    });
  }

  function written(draw, words, x, y) {
    draw.font = font;
    draw.textBaseline = "middle";
    draw.lineJoin = "round";
    draw.strokeStyle = "#fff";
    draw.lineWidth = rim + 1;
    draw.strokeText(words, x, y);
    draw.fillStyle = "#000";
    draw.fillText(words, x, y);
  }

  // square is how long a side of the grid's squares is, in units: what reads well as so
  // many millimeters, or as inches and parts of one, and no smaller than fits a number.
  const narrowest = 48; // CSS pixels
  function square(view, units) {
    const least = narrowest / view.scale;
    if (units === "in" && least < 1) {
      return 2 ** Math.ceil(Math.log2(Math.max(least, 1 / 16)));
    }
    const ten = 10 ** Math.floor(Math.log10(least));
    return Math.max(1, [1, 2, 5, 10].find((m) => m * ten >= least * (1 - 1e-9)) * ten);
  }

  // figure is a number of the units: of an inch with a fraction, where there is one in 64ths.
  function figure(v, units) {
    const [most, sign] = [64, v < 0 ? "-" : ""];
    const parts = Math.round(Math.abs(v) * most);
    if (units !== "in" || Math.abs(Math.abs(v) * most - parts) > 1e-6 || parts % most === 0) {
      return (parts === 0 && Math.abs(v) < 0.05 ? "" : sign) + String(Math.round(Math.abs(v) * 10) / 10);
    }
    let [above, below] = [parts % most, most];
    while (above % 2 === 0) {
      [above, below] = [above / 2, below / 2];
    }
    const whole = Math.floor(parts / most);
    return sign + (whole > 0 ? whole + " " : "") + above + "/" + below;
  }

  function grid(draw, view, size, units, numbers) {
    const side = square(view, units);
    const [low, high] = [under(view, size, { x: 0, y: size.height }), under(view, size, { x: size.width, y: 0 })];
    const through = (from, to) => Array.from({ length: Math.floor(to / side) - Math.ceil(from / side) + 1 }, (_, i) => (Math.ceil(from / side) + i) * side + 0);
    const [xs, ys] = [through(low.x, high.x), through(low.y, high.y)];
    const spot = (x, y) => at(view, size, { x, y });
    for (const [list, across] of [[xs, true], [ys, false]]) {
      for (const v of list) {
        const p = spot(across ? v : 0, across ? 0 : v);
        draw.beginPath();
        draw.strokeStyle = v === 0 ? "#000" : "#b8b8b8";
        draw.lineWidth = v === 0 ? 1.5 : 1;
        draw.moveTo(across ? p.x : 0, across ? 0 : p.y);
        draw.lineTo(across ? p.x : size.width, across ? size.height : p.y);
        draw.stroke();
      }
    }
    if (!numbers) {
      return;
    }
    const edge = 4; // CSS pixels
    const high1 = 22; // of a line of numbers
    draw.textAlign = "left";
    ys.forEach((v) => {
      const { y } = spot(0, v);
      if (y > edge + 8 && y < size.height - high1) {
        written(draw, figure(v, units), edge, y);
      }
    });
    draw.textAlign = "center";
    xs.forEach((v) => {
      const { x } = spot(v, 0);
      if (x > 2 * high1 && x < size.width - high1) {
        written(draw, figure(v, units), x, size.height - high1 / 2);
      }
    });
    draw.textAlign = "left";
  }

  // mark draws where a place is: a pivot as a circle crossed, a hole as a circle; the one
  // that is put now has corners about it.
  function mark(draw, p, place, chosen) {
    twice(draw, 2, () => {
      draw.moveTo(p.x + radius, p.y);
      draw.arc(p.x, p.y, radius, 0, 2 * Math.PI);
    });
    if (place.pivot) {
      const arm = radius + 6;
      lined(draw, 1.5, ...ways.map(([x, y]) => [{ x: p.x + x * gap, y: p.y + y * gap }, { x: p.x + x * arm, y: p.y + y * arm }]));
    }
    if (chosen) {
      const [out, long] = [radius + 9, 7];
      twice(draw, 3, () => {
        for (const [x, y] of [[1, 1], [1, -1], [-1, 1], [-1, -1]]) {
          draw.moveTo(p.x + x * (out - long), p.y + y * out);
          draw.lineTo(p.x + x * out, p.y + y * out);
          draw.lineTo(p.x + x * out, p.y + y * (out - long));
        }
      });
    }
  }

  // labels writes letters and names beside marks, where they lie on no other; where that has
  // no room, the letter alone stands, or the end of the name.
  function labels(draw, size, list) {
    draw.font = font;
    const taken = list.map(({ p }) => ({ x: p.x - radius, y: p.y - radius, w: 2 * radius, h: 2 * radius }));
    const meets = (a) => taken.some((b) => a.x < b.x + b.w && b.x < a.x + a.w && a.y < b.y + b.h && b.y < a.y + a.h);
    const inside = (a) => a.x >= 0 && a.y >= 0 && a.x + a.w <= size.width && a.y + a.h <= size.height;
    const [away, h] = [radius + 12, 18];
    for (const { p, place } of list) {
      const brief = place.letter || place.name.split(".").pop();
      const tries = [place.letter ? (place.letter + " " + place.name).trim() : place.name, brief].flatMap((words) => {
        const w = draw.measureText(words).width;
        return [[away, -h / 2], [-away - w, -h / 2], [-w / 2, -away - h], [-w / 2, away], [away, -away - h / 2], [away, away - h / 2]]
          .map(([x, y]) => ({ words, x: p.x + x, y: p.y + y, w, h }));
      });
      const free = tries.find((one) => inside(one) && !meets(one)) ?? tries[6];
      taken.push(free);
      written(draw, free.words, free.x, free.y + h / 2);
    }
  }

  // sheet draws what lies under, lines, marks and labels. what: { picture, units, places,
  // lines, chosen, bare }; bare: under a lens, where letters alone stand.
  function sheet(draw, view, size, what) {
    draw.fillStyle = what.picture ? "#9a9a9a" : "#fff";
    draw.fillRect(0, 0, size.width, size.height);
    if (what.picture) {
      const p = at(view, size, { x: 0, y: 0 });
      draw.imageSmoothingEnabled = view.scale < 3; // else pixels are shown as they are
      draw.drawImage(what.picture, p.x, p.y, what.picture.width * view.scale, what.picture.height * view.scale);
    } else {
      grid(draw, view, size, what.units, !what.bare);
    }
    const spots = new Map(what.places.filter((one) => one.x !== null).map((one) => [one.name, at(view, size, one)]));
    for (const { from, to, rod } of what.bare ? [] : what.lines) {
      const [a, b] = [spots.get(from), spots.get(to)];
      const long = a && b ? Math.hypot(b.x - a.x, b.y - a.y) : 0;
      if (long > 2 * radius) { // it ends at the marks, so that holes are seen
        const part = radius / long;
        const toward = (p, q) => ({ x: p.x + part * (q.x - p.x), y: p.y + part * (q.y - p.y) });
        draw.setLineDash(rod ? [] : [6, 4]);
        lined(draw, rod ? 2.5 : 1.5, [toward(a, b), toward(b, a)]);
        draw.setLineDash([]);
      }
    }
    const shown = what.places.filter((one) => spots.has(one.name) && !(what.bare && one.name === what.chosen));
    shown.forEach((one) => mark(draw, spots.get(one.name), one, one.name === what.chosen));
    labels(draw, size, shown.map((place) => ({ p: spots.get(place.name), place: what.bare ? { ...place, name: "" } : place })));
  }

  // hairs draws cross hairs in a box, with the middle left free.
  function hairs(draw, side) {
    const [middle, free] = [side / 2, 9];
    lined(draw, 1.5, ...ways.map(([x, y]) => [{ x: middle + x * free, y: middle + y * free }, { x: middle + x * middle, y: middle + y * middle }]));
    twice(draw, 1.5, () => draw.rect(middle - 0.5, middle - 0.5, 1, 1));
  }

  // lens draws the sheet magnified about a place, in a square box.
  function lens(draw, view, side, what) {
    draw.save();
    draw.beginPath();
    draw.rect(0, 0, side, side);
    draw.clip();
    sheet(draw, view, { width: side, height: side }, { ...what, bare: true });
    hairs(draw, side);
    draw.restore();
    draw.strokeStyle = "#000";
    draw.lineWidth = 2;
    draw.strokeRect(1, 1, side - 2, side - 2);
  }

  return { at, under, square, figure, sheet, lens };
}
