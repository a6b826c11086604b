// What this part answers: where a note stands, in words: its bar, its beat, and which time the bar is played.
import { state } from './state.js';

const times = ['', 'first time', 'second time', 'third time'];

/** @param {number} pass */
export const timeWords = (pass) => times[pass] ?? `time ${pass}`;

/** The bar as it is played, in which a note lies. @param {number} note */
export function barOf(note) {
  const bars = state.plan?.passage.bars ?? [];
  return bars.findLast((bar) => bar.first_note <= note);
}

/** "bar 3, beat 2, second time" @param {number} note */
export function placeWords(note) {
  const there = state.plan?.passage.notes[note];
  if (!there) return `note ${note + 1}`;
  const pass = barOf(note)?.pass ?? 1;
  return `bar ${there.bar}, beat ${there.beat}${pass > 1 ? `, ${timeWords(pass)}` : ''}`;
}
