// What this part answers: the passage as a simple tone, at a share of its tempo, with a line that moves over music and lanes.
import { el } from '../base/dom.js';
import { on, state } from '../base/state.js';
import { boxOf } from '../score/score.js';
import { placeOf } from '../score/systems.js';

/** @typedef {{from: number, to: number, started: number, share: number, voice: OscillatorNode, loud: GainNode, next: number, loops: boolean}} Playing */

/** @type {AudioContext | undefined} */
let audio;
/** @type {Playing | null} */
let now = null;
const line = el('div', { class: 'playhead', 'aria-hidden': 'true' });
let shownBox = /** @type {HTMLElement | null} */ (null);

export const playing = () => now !== null;

const told = () => dispatchEvent(new Event('fingerway-playing'));

/** The stretch that is played, in ms of the passage. @returns {[number, number]} */
function stretch() {
  const passage = state.plan?.passage;
  if (!passage || passage.notes.length === 0) return [0, 0];
  const last = /** @type {import('../base/types.d.ts').PassageNote} */ (passage.notes.at(-1));
  const end = last.onset_ms + last.length_ms;
  if (!state.loop) return [Math.min(passage.notes[0]?.onset_ms ?? 0, passage.bars[0]?.start_ms ?? 0), end];
  const [from, to] = state.loop.map(Number);
  return [passage.bars[from ?? 0]?.start_ms ?? 0, passage.bars[(to ?? 0) + 1]?.start_ms ?? end];
}

/** @param {number} share of the tempo */
export function play(share) {
  stop();
  const [from, to] = stretch();
  if (to <= from) return;
  audio ??= new AudioContext();
  void audio.resume();
  const voice = new OscillatorNode(audio, { type: 'triangle' });
  const loud = new GainNode(audio, { gain: 0 });
  voice.connect(loud).connect(audio.destination);
  voice.start();
  now = { from, to, started: audio.currentTime + 0.15, share, voice, loud, next: firstNote(from), loops: state.loop !== null };
  told();
  ahead();
  requestAnimationFrame(frame);
}

export function stop() {
  if (!now) return;
  now.voice.stop();
  now = null;
  line.remove();
  shownBox = null;
  told();
}

/** @param {number} ms */
const firstNote = (ms) => {
  const found = state.plan?.passage.notes.findIndex((n) => n.onset_ms >= ms - 0.01) ?? -1;
  return found < 0 ? (state.plan?.passage.notes.length ?? 0) : found;
};

/** Gives the next half second of notes to the tone, so that it does not depend on the page's timing. */
function ahead() {
  if (!now || !audio) return;
  const notes = state.plan?.passage.notes ?? [];
  const horizon = audio.currentTime + 0.6;
  for (;;) {
    const note = notes[now.next];
    const over = !note || note.onset_ms >= now.to - 0.01;
    if (over) {
      if (!now.loops) break;
      const length = (now.to - now.from) / 1000 / now.share;
      if (now.started + length > horizon) break;
      now.started += length;
      now.next = firstNote(now.from);
      if ((notes[now.next]?.onset_ms ?? Infinity) >= now.to) break;
      continue;
    }
    const at = now.started + (note.onset_ms - now.from) / 1000 / now.share;
    if (at > horizon) break;
    sound(now, note, at);
    now.next++;
  }
  setTimeout(ahead, 120);
}

/** @param {Playing} p @param {import('../base/types.d.ts').PassageNote} note @param {number} at */
function sound(p, note, at) {
  const follows = state.plan?.passage.notes[note.i + 1];
  const length = note.length_ms / 1000 / p.share;
  const start = Math.max(at, audio?.currentTime ?? 0);
  p.voice.frequency.setValueAtTime(440 * 2 ** ((note.midi - 69) / 12), start);
  if (!note.slurred) {
    p.loud.gain.setValueAtTime(0.0001, start);
    p.loud.gain.linearRampToValueAtTime(0.16, start + 0.015);
  }
  if (!follows?.slurred || follows.rest_before) {
    p.loud.gain.setValueAtTime(0.16, Math.max(start + 0.02, at + length * 0.88));
    p.loud.gain.linearRampToValueAtTime(0, at + length * 0.97);
  }
}

function frame() {
  if (!now || !audio) return;
  let ms = now.from + (audio.currentTime - now.started) * 1000 * now.share;
  if (ms < now.from && now.loops) ms += now.to - now.from;
  if (!now.loops && ms >= now.to) {
    stop();
    return;
  }
  showAt(ms);
  requestAnimationFrame(frame);
}

/** @param {number} ms */
function showAt(ms) {
  const notes = state.plan?.passage.notes ?? [];
  let low = 0;
  let high = notes.length - 1;
  while (low < high) {
    const middle = (low + high + 1) >> 1;
    if ((notes[middle]?.onset_ms ?? 0) <= ms) low = middle;
    else high = middle - 1;
  }
  const box = boxOf(low);
  const run = box?.runs.find((r) => r.first <= low && low <= r.last);
  if (!box) return;
  if (box.place !== shownBox) {
    shownBox = box.place;
    box.place.append(line);
    box.place.scrollIntoView({ block: 'nearest', behavior: matchMedia('(prefers-reduced-motion: reduce)').matches ? 'auto' : 'smooth' });
  }
  line.hidden = !run;
  if (run) line.style.transform = `translateX(${placeOf(run.anchors, ms).toFixed(1)}px)`;
}

on(['score', 'view'], stop);
on(['plan', 'loop'], () => {
  // The tempo or the stretch may be another one: what sounds would no longer be what is shown.
  if (now) play(now.share);
});
