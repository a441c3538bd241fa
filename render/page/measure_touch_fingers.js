// sheetFingers tells what fingers, a mouse or a wheel do on a sheet. One finger, or the left
// button, points, and puts when it is lifted in the sheet; two fingers move and pinch it,
// and then put nothing until all are lifted; another button moves it. Points are in the
// sheet's own CSS pixels. does holds what is called:
//
//   pointing(point)     one finger is down there; null: no more
//   put(point)          it was lifted there
//   moved(x, y)         the sheet is moved by so much
//   zoomed(by, about)   it is zoomed about a point
function sheetFingers(sheet, does) {
  "use strict";

  const down = new Map(); // points, by pointer
  let mode = ""; // "point", "move"; "" none

  function pointOf(event) {
    const around = sheet.getBoundingClientRect();
    return { x: event.clientX - around.left - sheet.clientLeft, y: event.clientY - around.top - sheet.clientTop };
  }

  // pair is the middle of two fingers, and how far they are apart.
  function pair() {
    const [a, b] = [...down.values()];
    return b ? { x: (a.x + b.x) / 2, y: (a.y + b.y) / 2, apart: Math.hypot(a.x - b.x, a.y - b.y) } : { ...a, apart: 0 };
  }

  function leave() {
    if (mode === "point") {
      does.pointing(null);
    }
    mode = "";
  }

  sheet.addEventListener("pointerdown", (event) => {
    if (down.size === 2) {
      return; // a third finger does nothing
    }
    event.preventDefault(); // no picture or text is dragged
    sheet.focus({ preventScroll: true, focusVisible: false }); // for the keys that nudge
    sheet.setPointerCapture(event.pointerId);
    const mouse = event.pointerType === "mouse";
    down.set(event.pointerId, pointOf(event));
    if (down.size === 1 && (!mouse || event.button === 0)) {
      mode = "point";
      does.pointing(pointOf(event));
      return;
    }
    leave();
    mode = "move";
  });

  sheet.addEventListener("pointermove", (event) => {
    if (!down.has(event.pointerId)) {
      return;
    }
    const before = pair();
    down.set(event.pointerId, pointOf(event));
    if (mode === "point") {
      does.pointing(pointOf(event));
    } else if (mode === "move") {
      const after = pair();
      does.moved(after.x - before.x, after.y - before.y);
      if (before.apart > 0 && after.apart > 0) {
        does.zoomed(after.apart / before.apart, after);
      }
    }
  });

  sheet.addEventListener("pointerup", (event) => {
    if (!down.delete(event.pointerId)) {
      return;
    }
    const [point, put] = [pointOf(event), mode === "point"];
    const inside = point.x >= 0 && point.y >= 0 && point.x <= sheet.clientWidth && point.y <= sheet.clientHeight;
    if (put || down.size === 0) {
      leave();
    }
    if (put && inside) {
      does.put(point);
    }
  });

  for (const event of ["pointercancel", "lostpointercapture"]) {
    sheet.addEventListener(event, ({ pointerId }) => {
      if (down.delete(pointerId)) {
        leave();
      }
    });
  }

  sheet.addEventListener("contextmenu", (event) => event.preventDefault());
  // A wheel that scrolls the page goes on with that when the sheet comes under the mouse.
  let scrolled = -Infinity; // when
  const apart = 300; // ms between scrolling the page and zooming the sheet
  addEventListener("scroll", () => {
    scrolled = performance.now();
  }, { passive: true });
  sheet.addEventListener("wheel", (event) => {
    if (performance.now() - scrolled < apart && !event.ctrlKey) {
      return;
    }
    event.preventDefault();
    const lines = 16; // CSS pixels of one
    const by = event.deltaMode === WheelEvent.DOM_DELTA_LINE ? lines : 1;
    const perPixel = 0.0015; // of the wheel's way
    does.zoomed(Math.exp(-perPixel * by * event.deltaY), pointOf(event));
  }, { passive: false });

  return {
    // leave gives up what a finger points at.
    leave() {
      down.clear();
      leave();
    },
  };
}
