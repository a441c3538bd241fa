// The book: every run moves through its travel as it was solved, position by
// position (motion.js moves the pictures); between two positions it goes
// straight, which no eye can tell. Without this script the page shows a few
// positions instead.
(function () {
  const glide = 5000; // milliseconds from end to end, played
  const steps = 12; // from end to end, where motion isn't wanted
  const step = 900; // milliseconds a step
  const fine = 200; // key presses from end to end
  const coarse = 20; // of page up and page down
  const settled = 500; // milliseconds at rest before a position is spoken
  const least = 1e-3; // nearer to neutral is neutral

  const find = (root, selector) => root.querySelector(selector);
  const each = (root, selector, act) => root.querySelectorAll(selector).forEach(act);
  const still = window.matchMedia("(prefers-reduced-motion: reduce)");
  const travels = new Map(); // by id of the section
  let playing = null;

  // decimal writes a number with so many decimals and without a negative zero.
  function decimal(v, decimals) {
    const text = v.toFixed(decimals);
    return /[1-9]/.test(text) ? text : text.replace("-", "");
  }

  // fraction writes a number as a mixed fraction in lowest terms.
  function fraction(v, parts) {
    const count = Math.round(Math.abs(v) * parts);
    const whole = Math.floor(count / parts);
    let above = count - whole * parts;
    let below = parts;
    while (above > 0 && above % 2 === 0) {
      above /= 2;
      below /= 2;
    }
    let text = above === 0 ? String(whole) : above + "/" + below;
    if (whole > 0 && above > 0) {
      text = whole + " " + text;
    }
    return v < 0 && count > 0 ? "-" + text : text;
  }

  // shown is a value as it is told (seriesJSON.shown).
  function shown(v, decimals, parts, suffix, nothing) {
    if (v === null) {
      return "-";
    }
    const text = parts > 0 ? fraction(v, parts) : decimal(v, decimals);
    return nothing && !/[1-9]/.test(text) ? nothing : text + suffix;
  }

  // travelOf brings the section of one sweep to life.
  function travelOf(section) {
    const course = JSON.parse(find(document, "#" + section.id + "-course").textContent);
    const { low, high, positions } = course;
    const show = motion(find(section, ".live"));
    const slider = find(section, ".slider");
    const at = find(section, ".at");
    const status = find(section, "[role=status]");
    const play = find(section, ".play");
    const cells = [];
    each(section, "[data-series]", (cell) => {
      cells.push({
        cell,
        series: Number(cell.dataset.series),
        decimals: Number(cell.dataset.decimals),
        parts: Number(cell.dataset.parts),
        suffix: cell.dataset.suffix,
        nothing: cell.dataset.nothing,
      });
    });
    const charts = [];
    each(section, "svg[data-left]", (svg) => {
      const chart = { svg, line: find(svg, ".cursor") };
      for (const key of ["low", "high", "left", "right"]) {
        chart[key] = Number(svg.dataset[key]);
      }
      charts.push(chart);
    });
    const frames = new Float64Array(positions[0].frames.length);
    let x = 0;
    let due = 0;

    // words tells a position of the control as the report does.
    function words(v) {
      if (Math.abs(v) < least) {
        return "neutral";
      }
      const side = v < 0 ? course.minus : course.plus;
      const [parts, suffix] = { deg: [0, "°"], in: [64, " in"] }[course.unit] || [0, " " + course.unit];
      const text = shown(v, 1, parts, suffix);
      return side && /[1-9]/.test(text) ? text + " (" + side + ")" : text;
    }

    // put moves everything to a position of the control.
    function put(to) {
      x = Math.min(high, Math.max(low, to));
      let first = 0;
      let last = positions.length - 1;
      while (last - first > 1) {
        const mid = (first + last) >> 1;
        if (positions[mid].at <= x) {
          first = mid;
        } else {
          last = mid;
        }
      }
      const [a, b] = [positions[first], positions[last]];
      const t = b.at > a.at ? Math.min(1, Math.max(0, (x - a.at) / (b.at - a.at))) : 0;
      const between = (p, q) => (t === 0 ? p : t === 1 ? q : p === null || q === null ? null : p + (q - p) * t);
      for (let i = 0; i < frames.length; i++) {
        frames[i] = between(a.frames[i], b.frames[i]);
      }
      show(frames, a.values.map((v, i) => between(v, b.values[i])));
      for (const c of cells) {
        const text = shown(between(a.values[c.series], b.values[c.series]), c.decimals, c.parts, c.suffix, c.nothing);
        if (c.cell.textContent !== text) {
          c.cell.textContent = text;
        }
      }
      for (const c of charts) {
        const place = c.left + ((x - c.low) / (c.high - c.low || 1)) * (c.right - c.left);
        c.line.setAttribute("x1", place);
        c.line.setAttribute("x2", place);
        c.line.removeAttribute("visibility");
      }
      slider.value = x;
      at.textContent = words(x);
      slider.setAttribute("aria-valuetext", words(x));
    }

    // speak tells a screen reader where the run came to rest; not while it plays.
    function speak() {
      clearTimeout(due);
      due = setTimeout(() => {
        const outputs = [];
        course.series.forEach((s, i) => {
          const cell = cells.find((c) => c.series === i);
          if (s.kind === "output" && cell) {
            outputs.push(s.label + " " + cell.cell.textContent);
          }
        });
        status.textContent = [course.control + " at " + words(x), ...outputs].join(", ");
      }, settled);
    }

    // moveTo is put for a person, who then wants it to stay.
    function moveTo(to) {
      pause();
      put(to);
      speak();
    }

    function pause() {
      if (playing === travel) {
        playing = null;
        clearTimeout(due);
        play.textContent = "Play";
      }
    }

    function start() {
      if (playing) {
        playing.pause();
      }
      playing = travel;
      play.textContent = "Pause";
      clearTimeout(due);
      let way = x >= high ? -1 : 1;
      let before = null;
      const go = (far) => {
        put(x + way * far * (high - low));
        way = x >= high ? -1 : x <= low ? 1 : way;
      };
      const paint = (now) => {
        if (playing !== travel) {
          return;
        }
        if (before !== null) {
          go(Math.min(0.1, (now - before) / glide));
        }
        before = now;
        requestAnimationFrame(paint);
      };
      const tick = () => {
        if (playing === travel) {
          go(1 / steps);
          due = setTimeout(tick, step);
        }
      };
      if (still.matches) {
        tick();
      } else {
        requestAnimationFrame(paint);
      }
    }

    const travel = { section, slider, put, moveTo, pause };
    slider.addEventListener("input", () => moveTo(slider.valueAsNumber));
    slider.addEventListener("keydown", (event) => {
      const far = {
        ArrowLeft: -1 / fine,
        ArrowDown: -1 / fine,
        ArrowRight: 1 / fine,
        ArrowUp: 1 / fine,
        PageDown: -1 / coarse,
        PageUp: 1 / coarse,
      }[event.key];
      if (far !== undefined && !event.ctrlKey && !event.metaKey && !event.altKey) {
        event.preventDefault();
        moveTo(x + far * (high - low));
      }
    });
    play.addEventListener("click", () => (playing === travel ? moveTo(x) : start()));
    each(section, ".to", (button) => button.addEventListener("click", () => moveTo(Number(button.dataset.to))));
    for (const c of charts) {
      const point = (event) => {
        const box = c.svg.getBoundingClientRect();
        const place = ((event.clientX - box.left) / box.width) * c.svg.viewBox.baseVal.width;
        moveTo(c.low + ((place - c.left) / (c.right - c.left)) * (c.high - c.low));
      };
      c.svg.addEventListener("click", point);
      // A finger that moves over a chart scrolls the page.
      c.svg.addEventListener("pointermove", (event) => event.buttons > 0 && event.pointerType !== "touch" && point(event));
    }
    put(0);
    return travel;
  }

  // choose shows one of a run's sweeps, and hides its others.
  function choose(id) {
    const run = document.getElementById(id).closest(".run");
    each(run, ".travel", (section) => section.classList.toggle("away", section.id !== id));
    each(run, ".choose", (select) => {
      select.value = id;
    });
    if (playing && playing.section.classList.contains("away")) {
      playing.pause();
    }
    if (!travels.has(id)) {
      travels.set(id, travelOf(document.getElementById(id)));
    }
    return travels.get(id);
  }

  document.documentElement.classList.add("scripted");
  each(document, ".run", (run) => {
    const first = find(run, ".travel");
    if (first) {
      choose(first.id);
    }
  });
  each(document, ".choose", (select) => select.addEventListener("change", () => choose(select.value)));
  each(document, ".go", (button) => {
    button.disabled = false;
    button.addEventListener("click", () => {
      const travel = choose(button.dataset.travel);
      travel.moveTo(Number(button.dataset.at));
      travel.section.scrollIntoView();
      travel.slider.focus({ preventScroll: true });
    });
  });
  const rest = () => playing && playing.pause();
  document.addEventListener("visibilitychange", rest);
  window.addEventListener("beforeprint", rest);
})();
