// Sounds for hands that are busy: up for done, low and twice for refused, one for a question.
"use strict";

const Sounds = (() => {
  const KEY = "partsbin:mute";
  const TUNES = {
    done: [[660, 0, 0.09], [990, 0.1, 0.16]],
    refused: [[196, 0, 0.18], [196, 0.26, 0.3]],
    question: [[520, 0, 0.22]],
  };
  const LOUD = 0.25;
  let context = null;
  let muted = false;
  try { muted = localStorage.getItem(KEY) === "yes"; } catch { /* storage is forbidden: sound stays on */ }

  // Browsers let a page sound only after it was touched.
  const wake = () => {
    context ??= new AudioContext();
    if (context.state === "suspended") context.resume();
  };
  for (const touched of ["pointerdown", "keydown"]) document.addEventListener(touched, wake, { passive: true });

  const play = (name) => {
    if (muted || !context || context.state !== "running") return;
    for (const [pitch, after, long] of TUNES[name]) {
      const tone = context.createOscillator();
      const level = context.createGain();
      const start = context.currentTime + after;
      tone.type = name === "refused" ? "square" : "triangle";
      tone.frequency.value = pitch;
      level.gain.setValueAtTime(LOUD, start);
      level.gain.exponentialRampToValueAtTime(0.001, start + long);
      tone.connect(level).connect(context.destination);
      tone.start(start);
      tone.stop(start + long);
    }
  };

  const toggle = () => {
    muted = !muted;
    try { localStorage.setItem(KEY, muted ? "yes" : "no"); } catch { /* kept for this page only */ }
    return muted;
  };
  return { play, toggle, isMuted: () => muted };
})();
