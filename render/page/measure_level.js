// levelPart reads the phone's own level, in the template "measure-level", a dialog that a
// page holds once. It reads nothing before its user has pressed "Begin" there.
//
//   announce(words)   may be left out: the dialog has a live region of its own
//
// It returns
//
//   available()   this browser has the event; whether it tells anything shows on "Begin"
//   read(what)    a promise: of { is, within, says }, is and within as text in degrees
//                 anticlockwise from level ("90.5", "0.5"), says in a sentence; null: left.
//                 what: { from, to, view }, as { from: "A shaft", to: "C horn", view: "left" }
function levelPart(desk) {
  "use strict";

  const by = (id) => document.getElementById(id);
  const angle = levelAngle();
  const box = by("level");

  const pace = 50; // ms between looks at the sensor: a still phone may send nothing new
  const samples = 40; // that a reading is of: two seconds
  const mostSpread = 0.3; // degrees from their mean, in all of them
  const mostLean = Math.sin(15 * Math.PI / 180); // of the phone's face against the drawing
  const turnedBy = 135; // degrees by which its screen looks another way when it is turned
  const handled = 5; // degrees by which up moves in it while it is turned, where it has no gyroscope
  const mostOffset = 3; // degrees apart, from which on it was hardly turned end for end
  const patience = 2000; // ms until a sensor that tells nothing is given up

  let what = null; // what is read
  let done = null; // takes the answer
  let told = null; // by the newest event: { up, face, alpha }
  let turns = false; // the sensor tells which way it looks, not only which way is up
  let readings = []; // lists of directions
  let recent = []; // of the reading that is made
  let moved = true; // since the reading before
  let left = null; // what was told at the reading before
  let timer = 0;
  let begun = 0; // when
  let sound = null;

  function listen({ alpha, beta, gamma }) {
    if (beta !== null && gamma !== null) {
      turns ||= told !== null && alpha !== null && alpha !== told.alpha;
      told = { up: angle.up(beta, gamma), face: angle.face(alpha ?? 0, beta, gamma), alpha };
    }
  }

  function say(words) {
    if (by("level-now").textContent !== words) {
      by("level-now").textContent = words;
    }
    by("level-now").hidden = words === "";
  }

  // signal tells whoever can't see the screen that a reading is taken.
  function signal(times) {
    try {
      navigator.vibrate?.(Array(2 * times - 1).fill(180));
      for (let i = 0; sound && i < times; i++) {
        const tone = sound.createOscillator();
        tone.frequency.value = 880; // Hz
        tone.connect(sound.destination);
        const [at, long] = [sound.currentTime + 0.36 * i, 0.18]; // s
        tone.start(at);
        tone.stop(at + long);
      }
    } catch {
      // it is told in words too
    }
  }

  const turned = () => readings.length === 1;

  const how = [
    () => "Lay a long edge of the phone, one without buttons, along the line from " + what.from + " to " + what.to + ": its top toward " + what.to + ", its screen toward you as you look at the drawing. Keep it still: it is read by itself.",
    () => "Now turn the phone end for end, as a spirit level is: the same edge along the line, its top toward " + what.from + ", its screen away from you. Keep it still until it sounds or shakes.",
  ];

  // look looks at the sensor, and takes the reading once the phone has been still.
  function look() {
    if (told === null) {
      if (performance.now() - begun > patience) {
        stop();
        say("This browser gives the page no level. Type what an inclinometer reads.");
        by("level-reading").hidden = true;
        by("level-again").hidden = true;
      }
      return;
    }
    const { up } = told;
    if (turned()) {
      const { between } = angle;
      moved = turns ? between(told.face, left.face) > turnedBy : moved || between(up, left.up) > handled;
    }
    const is = angle.direction(up, turned() && moved);
    by("level-figure").textContent = shown(is) + "°";
    if (Math.abs(up.z) > mostLean) {
      recent = [];
      say("The phone's face isn't in the plane of the drawing: nothing is read so.");
    } else if (!moved) {
      recent = [];
      say("Turn it end for end.");
    } else {
      recent.push(is);
      // What came before it was moved is dropped.
      while (recent.length > samples || angle.spread(recent) > mostSpread) {
        recent.shift();
      }
      say(recent.length > samples / 4 ? "Keep still ..." : turned() ? "Turned: hold it still along the line." : "Hold it still along the line.");
    }
    by("level-still").value = recent.length / samples;
    if (recent.length >= samples) {
      taken();
    }
  }

  // shown is a direction as it is told and taken: never -0.0.
  const shown = (v) => (Math.round(v * 10) / 10 + 0).toFixed(1);

  // taken takes a reading.
  function taken() {
    readings.push(recent);
    [recent, moved, left] = [[], false, told];
    by("level-still").value = 0;
    if (readings.length === 1) {
      signal(1);
      by("level-how").textContent = how[1]();
      return;
    }
    stop();
    signal(2);
    const { is, offset, scatters, within } = angle.both(...readings, checked());
    const scatter = Math.max(...scatters);
    by("level-figure").textContent = shown(is) + "°";
    by("level-how").textContent = "";
    by("level-still").hidden = true;
    by("level-again").hidden = false;
    const [first, second] = readings.map((list) => shown(angle.mean(list)) + "°");
    if (Math.abs(offset) > mostOffset / 2) {
      say("The readings, " + first + " and " + second + ", are more than " + mostOffset + "° apart: it was probably not turned end for end, or lay on another edge. Read both again.");
      return;
    }
    const up1 = (v) => Math.ceil(v * 10 - 1e-9) / 10;
    const answer = {
      is: shown(is), within: up1(within).toFixed(1),
      says: "Read " + first + " and, turned end for end, " + second + ": " + shown(is) + "° within " + up1(within).toFixed(1) + "°. The phone's level is " + Math.abs(offset).toFixed(1) + "° out against its edge, which drops out; it scatters by " + scatter.toFixed(2) + "°.",
    };
    say(answer.says);
    by("level-go").hidden = false;
    by("level-go").textContent = "Take " + answer.is + "°";
    by("level-go").onclick = () => leave(answer);
    by("level-go").focus();
  }

  // checked is to within what the phone was checked; null: it was not; NaN: that is no number.
  function checked() {
    const text = by("level-checked").value.trim().replace(",", ".").replace(/°$/, "");
    return text === "" ? null : /^\d+(\.\d+)?$/.test(text) && Number(text) > 0 ? Number(text) : NaN;
  }

  async function begin() {
    if (Number.isNaN(checked())) {
      say("\"" + by("level-checked").value + "\" is no number of degrees.");
      by("level-checked").focus();
      return;
    }
    by("level-go").disabled = true;
    let may = "granted";
    try { // it is asked where the browser wants that, while the button is pressed
      may = await DeviceOrientationEvent.requestPermission?.() ?? may;
    } catch {
      may = "denied";
    }
    by("level-go").disabled = false;
    if (what === null) {
      return; // left meanwhile
    }
    if (may !== "granted") {
      say("The browser was not allowed to give the page the phone's level. Type what an inclinometer reads.");
      return;
    }
    try {
      sound ??= new AudioContext();
      sound.resume();
    } catch {
      sound = null; // without a sound
    }
    by("level-go").hidden = true;
    by("level-first").hidden = true;
    anew();
  }

  // anew begins the first reading.
  function anew() {
    stop();
    [told, turns, readings, recent, moved, begun] = [null, false, [], [], true, performance.now()];
    by("level-reading").hidden = by("level-still").hidden = false;
    by("level-again").hidden = by("level-go").hidden = true;
    by("level-how").textContent = how[0]();
    say("Waiting for the phone's level ...");
    addEventListener("deviceorientation", listen);
    timer = setInterval(look, pace);
  }

  // stop reads nothing any more.
  function stop() {
    clearInterval(timer);
    removeEventListener("deviceorientation", listen);
  }

  function leave(answer) {
    stop();
    what = null;
    sound?.close();
    sound = null;
    box.close();
    const give = done;
    done = null;
    give?.(answer);
    if (answer) {
      desk?.announce?.(answer.says);
    }
  }

  by("level-again").addEventListener("click", anew);
  by("level-leave").addEventListener("click", () => leave(null));
  box.addEventListener("cancel", (event) => {
    event.preventDefault();
    leave(null);
  });
  document.addEventListener("visibilitychange", () => {
    if (document.hidden) { // then the sensor may be asleep
      recent = [];
    }
  });

  return {
    available: () => typeof DeviceOrientationEvent === "function" && typeof box.showModal === "function",
    read(of) {
      if (done) {
        return Promise.resolve(null); // one at a time
      }
      what = of;
      by("level-line").textContent = "The direction from " + of.from + " toward " + of.to + ".";
      by("level-first").hidden = false;
      by("level-reading").hidden = by("level-again").hidden = true;
      by("level-go").hidden = of.view === "above";
      by("level-go").textContent = "Begin";
      by("level-go").onclick = begin;
      say(of.view === "above" ? "Seen from above all directions are level: a level tells none of them." : "");
      box.showModal();
      by(of.view === "above" ? "level-leave" : "level-go").focus(); // no keyboard comes up
      return new Promise((give) => {
        done = give;
      });
    },
  };
}
